"""Job texts of runs, put together from pieces. Sizes and names are invented."""

import tomllib
from typing import Any

from rodwork.model.rod import Rod
from rodwork.pipeline import set_out
from tests import texts

BOARDS = (
    texts.JOB
    + texts.board("birch18", 18, 17.6)
    + texts.board("top40", 40, 40)
    + texts.EDGING
    + texts.joint("dowels", '"dowel"')
    + texts.joint("edge_to_edge", '"biscuit", size = "20"')
    + """
[every_cabinet]
kind = "base"
height = 720
depth = 560
board = "birch18"
joint = "dowels"
"""
)
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
