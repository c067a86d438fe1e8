"""Runs as a family sees them, made from values: the corner of a 600 x 720 x 320 cupboard unless told otherwise."""

from typing import Any

from rodwork.joints.kind import FixingPlan, JointKind, Run
from rodwork.joints.registry import joint_kinds
from rodwork.model.shop import Shop

SHOP = Shop(name=None)


def run(**changes: Any) -> Run:
    """A corner 320 deep in 17.6 board, with a back groove whose near wall is 296 from the front."""
    values: dict[str, Any] = {
        "place": "corner", "length": 320.0, "guest_thickness": 17.6, "host_thickness": 17.6, "reach": 0.0,
        "run_to": 296.0, "to_groove": True, "stagger": 0, "beyond_start": 0.0, "beyond_end": 0.0, "set_back": 0.0,
    }  # fmt: skip
    return Run(**{**values, **changes})


def kind(name: str) -> JointKind:
    return joint_kinds()[name]


def planned(name: str, at: Run, shop: Shop = SHOP, **settings: Any) -> tuple[FixingPlan, ...]:
    """The fixings of one family on a run."""
    family = kind(name)
    return family.plan(at, family.settings(**settings), shop)


def entered(name: str, at: Run, shop: Shop = SHOP, **settings: Any) -> Run:
    """The same run with the guest gone in as far as the family takes it, as the carcass hands it on."""
    from dataclasses import replace

    family = kind(name)
    entry = family.entry(at.host_thickness, at.guest_thickness, family.settings(**settings), shop)
    return replace(at, reach=entry.reach)
