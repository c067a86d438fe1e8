"""Appliances by their makers' sheets, and the openings of cabinets that follow from them."""

from collections.abc import Container, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from rodwork.job.faults import shown
from rodwork.model.job import Appliance, Housed

if TYPE_CHECKING:
    from rodwork.job.tables import Reading

CLEAR_MM = 4.0  # 2 to 4 in all; common practice, no source: the sheet of the appliance goes before it


def read_appliances(tables: Mapping[str, Any], reading: "Reading") -> dict[str, Appliance | None]:
    """The appliances of the job by name; None for one that is written but wrong."""
    from rodwork.job.tables import read_table
    from rodwork.job.words import ApplianceWords

    found: dict[str, Appliance | None] = {}
    for name, raw in tables.items():
        before = len(reading.faults)
        said = read_table(ApplianceWords, raw, ("appliances", name), f"the appliance {shown(name)}", reading)
        found[name] = Appliance(
            name=name, width_mm=said.get("width"), height_mm=said.get("height"), depth_mm=said.get("depth"),
            beside_mm=said.get("beside", CLEAR_MM), above_mm=said.get("above", CLEAR_MM),
            behind_mm=said.get("behind", 0.0), vented=said.get("vented", True),
        ) if len(reading.faults) == before else None  # fmt: skip
    return found


def wrong_opening(
    openings: tuple[Any, ...], bays: tuple[Any, ...], opening: int, taken: Container[int]
) -> tuple[str, str] | None:
    """What is wrong with the opening that an appliance is to stand in, and how to mend it."""
    if len(bays) > 1:
        return (
            "a cabinet that houses an appliance has dividers",
            "Take them out, or make the housing a cabinet of its own",
        )
    if opening > len(openings):
        return (
            f"opening {opening} is asked for, and there are {len(openings)}",
            "Count from the bottom, or add one to openings",
        )
    if opening in taken:
        return f"two appliances stand in opening {opening}", "Give each an opening of its own"
    if openings[opening - 1] != "rest":
        return (
            f"opening {opening} has a height of its own, {openings[opening - 1]:g}, and one by its appliance",
            'Write "rest" in its place',
        )
    return None


def with_openings(openings: tuple[Any, ...], houses: Sequence[Housed]) -> tuple[Any, ...]:
    """The openings with the heights that the appliances ask for; one that is alone stays as it is."""
    if len(openings) == 1:
        return openings
    high = {h.opening: h.appliance.opening_mm[1] for h in houses}
    return tuple(high.get(n, asked) for n, asked in enumerate(openings, 1))
