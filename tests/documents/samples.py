"""Set-out jobs for the pages: one cupboard as data, and cabinets built from values. The sizes are invented."""

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

from tests.building import back, cabinet, job, recipe, rod, rod_of
from tests.checks.clothes_rails import hung
from tests.checks.clothes_rails import rail as clothes_rail

from rodwork.model.job import CabinetEdging
from rodwork.model.rod import Rod
from rodwork.setout.weights import weighed

DATA = Path(__file__).parent.parent / "data"
PAPERS = ("A4", "Letter")


@cache
def glaze() -> Rod:
    """A wall cupboard, twice, as data."""
    return weighed(Rod.from_dict(json.loads((DATA / "glaze.rod.json").read_text(encoding="utf-8"))))


def _plugged():
    screws = ("screw", {"head": "plugged", "pilot": "beforehand", "first_mm": 80.0, "end_mm": 90.0})
    return rod(corner_joint=recipe(("dowel", {"count": 2}), screws), shelf_joint=recipe("screw"), back=back("planted"))


def _tall():
    return rod(
        kind="bookcase", height_mm=2300.0, width_mm=1200.0, depth_mm=300.0, bays=("rest", "rest"),
        openings=("rest",) * 6, shelf_joint=recipe("housing"), back=back("grooved in the sides"), shelf_set_back_mm=6.5,
    )  # fmt: skip


def _wide():
    return rod(
        width_mm=2400.0, height_mm=400.0, bays=(500.0, "rest", 300.0), openings=("rest", "rest"),
        back=back("inset", board="birch18"), edging=CabinetEdging(edging="birch", on=("fronts", "side tops")),
    )  # fmt: skip


def _wardrobe():
    rails = (clothes_rail(bays=(1,)), clothes_rail(bays=(1,), below_mm=900.0, size_mm=(25.0, 25.0), section="round"))
    return hung(clothes_rails=rails, bays=("rest", "rest"), loose_shelves=(3,), width_mm=1100.0)


def _many():
    kiln = cabinet(
        name="kiln", mark="K", count=8, width_mm=800.0, openings=(300.0, "rest"), corner_joint=recipe("screw")
    )
    return rod_of(job(cabinet(count=3), kiln, cabinet(name="slip", mark="S", width_mm=3000.0, openings=("rest",))))


SAMPLES = {
    "data": glaze,
    "top and bottom through": lambda: rod(sides="between", shelf_joint=recipe("screw")),
    "screws, housings, rebate": lambda: rod(
        corner_joint=recipe("screw"), shelf_joint=recipe("housing"), back=back("rebated")
    ),
    "dowels and plugged screws, planted": _plugged,
    "housings with screws": lambda: rod(
        shelf_joint=recipe("housing", ("screw", {"pilot": "beforehand"})),
        corner_joint=recipe("dowel", "screw"),
        shelf_set_back_mm=20.0,
        depth_mm=600.0,
        back=None,
    ),
    "set back shelf": lambda: rod(shelf_set_back_mm=20.0, openings=(200.0, 180.0, "rest")),
    "tall bookcase": _tall,
    "wide, three bays, inset": _wide,
    "wardrobe, two rails": _wardrobe,
    "several cabinets": _many,
    "thin board, no back": lambda: rod_of(job(cabinet(back=None), thickness=12.2)),
    "thick board": lambda: rod_of(job(cabinet(shelf_joint=recipe(("housing", {"front": "through"}))), thickness=30.0)),
}


@cache
def sample(name: str, paper: str = "A4") -> Rod:
    """One of the samples on this paper."""
    made = SAMPLES[name]()
    return replace(made, heading=replace(made.heading, paper=paper))
