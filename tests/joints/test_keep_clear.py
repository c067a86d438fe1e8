"""Screws of backs and face frames keep clear of what is bored for others: 3 mm of board between them (common practice)."""

import pytest

from rodwork.joints.keep_clear import moved_clear
from rodwork.pipeline import set_out
from tests.texts import HEAD, joint

FRONT = HEAD + joint("dowels", '"dowel"') + joint("pockets", '"pocket screw"')
PLANTED = """
[cabinets.sink]
kind = "base"
width = 800
height = 720
depth = 560
board = "birch18"
joint = "dowels"
rails = { top_front = 80, top_back = 80, fixing = %s }
back = { board = "birch6", style = "planted" }
"""
FRAMED = """
[cabinets.chest]
kind = "base"
width = 457.2
height = 876.3
depth = 590.6
board = "birch18"
joint = "pockets"
feet = { style = "notched sides", height = 101.6, set_back = 76.2 }
face_frame = { board = "birch18" }
drawers = { number = %s, bottom_board = "birch6", box_board = "birch18" }
"""


def met(text):
    return [f.message for f in set_out(text, "job.toml").findings if f.code == "machining-that-meets"]


@pytest.mark.parametrize("fixing", [80, 90, 100, 110, 120, 130, 140, 160])
def test_a_planted_back_is_not_screwed_into_the_dowels_of_a_rail(fixing):
    assert met(FRONT + PLANTED % fixing) == []


@pytest.mark.parametrize("number", [1, 2, 3, 4, 5])
def test_a_face_frame_is_not_held_where_runners_are_screwed(number):
    assert met(FRONT + FRAMED % number) == []


def test_only_what_is_in_the_way_is_moved_and_both_sides_alike():
    cabinet = set_out(FRONT + PLANTED % 120, "job.toml").cabinets[0]
    left, right, bottom = (
        [f.at for f in next(j for j in cabinet.joints if set(j.parts) == {"back", board}).fixings]
        for board in ("left side", "right side", "bottom")
    )  # fmt: skip
    assert [p[2] for p in left] == [p[2] for p in right]
    assert [p[2] for p in left][:3] == [40.0, 232.0, 424.0]
    assert [p[2] for p in left][3] != 616.0
    assert [p[0] - 17.6 for p in bottom][:4] == pytest.approx([40.0, 232.0, 424.0, 616.0])


@pytest.mark.parametrize(
    ("bored", "row"),
    [
        ((), (40.0, 136.0, 232.0)),
        (((100.0, 4.0),), (40.0, 136.0, 232.0)),
        (((136.0, 4.0),), (40.0, 127.0, 232.0)),  # 4 + 2 + 3 below it
        (((134.0, 4.0),), (40.0, 143.0, 232.0)),  # nearer above it
        (((232.0, 4.0),), (40.0, 136.0, 223.0)),  # the last is not moved nearer the end
        (((40.0, 4.0),), (31.0, 136.0, 232.0)),
        (tuple((float(z), 4.0) for z in range(0, 300, 10)), (40.0, 136.0, 232.0)),  # no room: it stays, and is told
    ],
)
def test_as_little_as_clears_it(bored, row):
    assert moved_clear((40.0, 136.0, 232.0), bored, 2.0, 3.0, 0.5) == row
