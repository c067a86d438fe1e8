"""A square corner unit with a blind end. Least infill and least opening: common practice, no source; the rest is arithmetic."""

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out
from rodwork.setout.proof import prove
from tests.fronts.front_samples import box_of
from tests.fronts.test_bays import HEAD
from tests.geometry.overlap import overlaps

UNIT = """
[cabinets.corner]
kind = "base"
width = 1100
height = 720
depth = 560
board = "birch18"
"""


def corner(blind, words='doors = { hung = "right", handle = 128 }'):
    return set_out(f"{HEAD}{UNIT}blind = {{ {blind} }}\n{words}\n", "it.toml")


@pytest.mark.parametrize(
    ("blind", "hung", "board", "door"),
    [
        ('side = "left", takes = 580', "right", (0.0, 630.0), (631.5, 1098.5)),
        ('side = "left", takes = 580, infill = 60, from_corner = 100', "right", (0.0, 540.0), (541.5, 1098.5)),
        ('side = "right", takes = 580', "left", (470.0, 1100.0), (1.5, 468.5)),
    ],
)
def test_the_blind_board_covers_what_the_neighbour_takes_and_the_infill(blind, hung, board, door):
    rod = corner(blind, f'doors = {{ hung = "{hung}", handle = 128 }}')
    c = rod.cabinets[0]
    for id, (x0, x1) in (("blind board", board), ("door", door)):
        low, high = box_of(c.part[id])
        assert (low[0], high[0]) == pytest.approx((x0, x1))
    assert c.doors[0].hinges[0].carrier == f"{hung} side"
    assert prove(rod) == ()
    assert overlaps(c) == []
    held = {frozenset(j.parts) - {"blind board"} for j in c.joints if "blind board" in j.parts}
    side = "left side" if hung == "right" else "right side"
    assert held == {frozenset({side}), frozenset({"bottom"}), frozenset({"top"})}


def test_the_neighbour_s_handle_passes_the_door():
    """A handle of 35 and 5 to spare: 40 will do, 39 will not."""
    low, _ = box_of(corner('side = "left", takes = 580, infill = 40').cabinets[0].part["door"])
    assert low[0] - 580 >= 35 + 5
    with pytest.raises(JobFaults, match="strike the door"):
        corner('side = "left", takes = 580, infill = 39')


@pytest.mark.parametrize(
    ("blind", "words", "says"),
    [
        ('side = "left", takes = 760', 'doors = { hung = "right" }', "leave 272.4 open"),
        ('side = "left", takes = 580', 'doors = { hung = "left" }', 'hung = "right"'),
        ('side = "left", takes = 580', 'doors = { hung = "pair" }', "opens away from the corner"),
        ('side = "left", takes = 580', "dividers = 1", "one bay"),
        ('side = "left"', "", "blind has no takes"),
        ('side = "middle", takes = 580', "", "blind.side"),
        ('side = "left", takes = nan', "", "blind.takes"),
        ('side = "left", takes = -5', "", "blind.takes"),
        ('side = "left", takes = 580, filler = 50', "", "infill"),
    ],
)
def test_what_cannot_stand_in_a_corner_is_refused(blind, words, says):
    with pytest.raises(JobFaults) as refused:
        corner(blind, words)
    told = "\n".join(f"{f.line} {f.what} {f.mend}" for f in refused.value.faults)
    assert says in told
