"""Job texts of runs, put together from pieces. Sizes and names are invented."""

import tomllib
from typing import Any

from rodwork.model.rod import Rod
from rodwork.pipeline import set_out

BOARDS = """
[job]
name = "Studio"

[boards.birch18]
material = "birch plywood"
thickness = 18
actual = 17.6
sheet = [2440, 1220]

[boards.top40]
material = "birch plywood"
thickness = 40
actual = 40
sheet = [2440, 1220]

[edgings.birch]
thickness = 1.0

[joints.dowels]
use = [{ family = "dowel" }]

[joints.edge_to_edge]
use = [{ family = "biscuit", size = "20" }]

[every_cabinet]
kind = "base"
height = 720
depth = 560
board = "birch18"
joint = "dowels"
"""
CABINETS = """
[cabinets.bench]
count = 3
width = 600
loose_shelves = 1

[cabinets.sink]
width = 800

[cabinets.larder]
kind = "tall"
width = 600
height = 2000

[cabinets.glaze]
kind = "wall"
count = 2
width = 600
depth = 320
loose_shelves = 1
"""


def job_text(run: str, cabinets: str = CABINETS) -> str:
    return BOARDS + cabinets + "\n[runs.north]\n" + run


def rod_of(run: str, cabinets: str = CABINETS) -> Rod:
    text = job_text(run, cabinets)
    tomllib.loads(text)  # a slip in a test is no fault of a job
    return set_out(text, "runs.toml")


def boards_of(rod: Rod, role: str) -> list[Any]:
    return [p for p in rod.cabinet["north"].parts if p.role == role]


def reach(part: Any, axis: int) -> tuple[float, float]:
    """Where a board of the run lies along an axis of it."""
    a, b = part.pose.to_cabinet((0.0, 0.0, 0.0))[axis], part.pose.to_cabinet(part.size)[axis]
    return (round(min(a, b), 3), round(max(a, b), 3))
