"""What shows of a cabinet in a run: the outsides that nothing stands against."""

import pytest

from rodwork.pipeline import set_out
from tests.texts import HEAD, board

PANEL = board("panel", 18, 18)
JOB = """
[every_cabinet]
kind = "base"
height = 720
depth = 560
board = "birch18"
[cabinets.end]
count = {count}
width = 500
[cabinets.low]
width = 600
height = {low}
[cabinets.sink]
width = 800
[runs.north]
above_floor = 150
{run}
"""


def shown(run, count=1, low=720):
    rod = set_out(HEAD + PANEL + JOB.format(run=run, count=count, low=low), "run.toml")
    return {
        f"{c.name} {p.id.split()[0]}" for c in rod.cabinets for p in c.parts
        if p.role == "side" and "back_side" in p.shows
    }  # fmt: skip


BETWEEN = {"low left", "low right"}  # it stands in no run here


@pytest.mark.parametrize(
    ("run", "seen"),
    [
        ('of = ["end", "sink"]', {"end left", "sink right"}),
        ('length = 1400\nof = [{ infill = "rest" }, "end", "sink", { infill = "rest" }]', set()),
        ('length = 2000\nof = ["end", "sink"]', {"sink right"}),  # 700 of wall are left free on the right
        ('length = 2000\nstarts = "right"\nof = ["end", "sink"]', {"end left"}),
        ('of = [{ panel = "panel" }, "end", "sink"]', {"sink right"}),
        ('of = ["end", { gap = 602, for = "drier" }, "sink"]', {"end left", "end right", "sink left", "sink right"}),
    ],
)
def test_an_outside_shows_where_nothing_stands_against_it(run, seen):
    assert shown(run) == seen | BETWEEN


def test_every_copy_must_be_covered():
    """The first end stands free on its left, the second on its right."""
    assert shown('of = ["end", "sink", "end"]', count=2) == {"end left", "end right"} | BETWEEN
    assert shown('of = ["sink", "end"]', count=2) == {"sink left", "end left", "end right"} | BETWEEN


def test_a_lower_neighbour_leaves_the_higher_side_in_sight():
    assert shown('of = ["end", "low"]', low=700) == {"end left", "end right", "low right", "sink left", "sink right"}
    assert shown('of = ["end", "low"]') == {"end left", "low right", "sink left", "sink right"}
