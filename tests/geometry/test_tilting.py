"""Boards tilted in through an opening: the closed forms against rectangles turned corner by corner and pushed step by step."""

from itertools import pairwise
from math import cos, hypot, inf, pi, sin

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from rodwork.geometry.tilting import Doorway, across_and_up, goes_in_on_edge, goes_in_tilted, least_height
from tests.fronts.front_samples import foul

STEPS = 3000
ANGLES = [pi / 2 * n / STEPS for n in range(STEPS + 1)]


def corners(length, thick, angle, x=0.0, y=0.0):
    c, s = cos(angle), sin(angle)
    return [(x + a * c - b * s, y + a * s + b * c) for a in (0.0, length) for b in (0.0, thick)]


def extent(length, thick, angle):
    xs, ys = zip(*corners(length, thick, angle), strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def by_trial(length, thick, way, spare):
    """Tilted by each of many angles: through the doorway at that one, and through the room at it and all smaller ones."""
    for angle in ANGLES:
        wide, high = extent(length, thick, angle)
        if wide > way.room_wide + spare or high > way.room_high + spare:
            return angle == 0.0 and length <= way.wide + spare and thick <= way.high + spare
        if wide <= way.wide + spare and high <= way.high + spare:
            return True
    return False


@settings(max_examples=150, deadline=None, derandomize=True)
@given(
    length=st.floats(60, 900), thick=st.floats(6, 40), wide=st.floats(0.05, 1.1), high=st.floats(0.05, 1.1),
    over=st.floats(-2, 6), more=st.floats(0, 40),
)  # fmt: skip
def test_what_goes_in_tilted_is_what_trying_finds(length, thick, wide, high, over, more):
    way = Doorway(
        wide=wide * length, high=max(high * length, thick), room_wide=length + over, room_high=high * length + more
    )
    surely, never = by_trial(length, thick, way, -0.2), not by_trial(length, thick, way, 0.2)
    assume(surely or never)  # a hair's breadth is no matter of trying
    assert goes_in_tilted(length, thick, way) == surely


@given(st.floats(60, 900), st.floats(6, 40), st.floats(0, pi / 2))
def test_what_a_tilted_board_takes_is_the_box_round_its_corners(length, thick, angle):
    assert across_and_up(length, thick, angle) == pytest.approx(extent(length, thick, angle), abs=1e-6)


def test_a_shelf_behind_stiles_by_hand():
    """3-4-5: a line 500 long through 400 takes 300 of height; a board of 18 takes more."""
    room = {"room_wide": 502.0, "room_high": 900.0, "high": 900.0}
    assert least_height(500.0, 1e-9, Doorway(wide=400.0, **room)) == pytest.approx(300.0)
    tilted = [extent(500.0, 18.0, a) for a in ANGLES]
    best = min(high for wide, high in tilted if wide <= 400.0)
    assert least_height(500.0, 18.0, Doorway(wide=400.0, **room)) == pytest.approx(best, abs=0.3)
    assert best > 320.0


def test_a_board_as_long_as_the_room_cannot_be_turned_level_in_it():
    """For a moment it is as wide as its diagonal: a short thick one wants more than the 2 mm that a shelf is shorter."""
    assert hypot(60.0, 18.0) == pytest.approx(62.64, abs=0.01)
    for room, goes in ((62.0, False), (62.7, True)):
        way = Doorway(wide=50.0, high=400.0, room_wide=room, room_high=400.0)
        assert (least_height(60.0, 18.0, way) < inf) is goes
        assert goes_in_tilted(60.0, 18.0, way) is goes


# --- on its edge, endways -----------------------------------------------------------------------------------


def pushed_in(length, thick, room, doorway, wall, deep):
    """Whether a board on edge gets in on plan at one angle, tried at many angles and places: along itself until its last
    end is at the outside of the front, then straight back through the thickness of that.

    `room` is where it begins and ends across, `doorway` the gap in the front of the room; the front is `wall` thick.
    """
    far, sixths = 3000.0, [n / 6 for n in range(7)]
    blocks = [
        ((-far, -wall), (doorway[0], 0.0)), ((doorway[1], -wall), (far, 0.0)), ((-far, deep), (far, deep + far)),
        ((-far, 0.0), (room[0], deep)), ((room[1], 0.0), (far, deep)),
    ]  # fmt: skip
    for degrees in [0.5 * n for n in range(2, 180)]:
        angle = degrees * pi / 180
        c, s = cos(angle), sin(angle)
        if extent(length, thick, angle)[1] > deep:
            break
        for x in [doorway[0] + 0.5 + n for n in range(int(doorway[1] - doorway[0]))]:
            x0, y0 = x + thick * s, -wall - thick * c
            slid = [(x0 - t * length * c, y0 - t * length * s) for t in sixths]
            pushed = [(x0, y0 * t) for t in sixths]
            if not any(foul(corners(length, thick, angle, *at), block) for at in (*slid, *pushed) for block in blocks):
                return True
    return False


@pytest.mark.parametrize(
    ("length", "thick", "room", "doorway", "wall", "deep", "goes"),
    [
        (1063.0, 18.0, (0.0, 1065.0), (0.0, 467.0), 18.0, 540.0, True),  # the long shelf of a blind corner
        (1063.0, 18.0, (0.0, 1065.0), (0.0, 60.0), 18.0, 540.0, False),  # through a slit
        (562.0, 18.0, (0.0, 564.0), (20.0, 544.0), 18.0, 300.0, True),  # past stiles
        (562.0, 18.0, (0.0, 564.0), (20.0, 544.0), 18.0, 150.0, False),  # into a shallow cupboard
        (562.0, 18.0, (0.0, 564.0), (120.0, 444.0), 18.0, 300.0, False),  # past wide ones
        (562.0, 18.0, (0.0, 564.0), (120.0, 444.0), 18.0, 420.0, True),
    ],
)
def test_on_edge_and_endways_against_a_board_pushed_in_step_by_step(length, thick, room, doorway, wall, deep, goes):
    assert pushed_in(length, thick, room, doorway, wall, deep) is goes
    reach = max(doorway[1] - room[0], room[1] - doorway[0])
    on_plan = Doorway(wide=0.0, high=0.0, room_wide=room[1] - room[0], room_high=deep)
    assert goes_in_on_edge(length, thick, doorway[1] - doorway[0], reach, wall, on_plan) is goes


def test_the_narrowest_doorway_at_one_angle_is_thickness_and_wall_across_it():
    """At 30 degrees, which the depth allows: 18 / sin 30 + 20 / tan 30 = 70.64."""
    deep = across_and_up(1000.0, 18.0, pi / 6)[1]
    room = Doorway(wide=0.0, high=0.0, room_wide=1010.0, room_high=deep)
    found = [goes_in_on_edge(1000.0, 18.0, wide, 1000.0, 20.0, room) for wide in (70.5, 70.6, 70.7, 70.8)]
    assert [a != b for a, b in pairwise(found)] == [False, True, False]
