"""Rectangles in an outline, against distances that Pythagoras gives and against points strewn at random."""

from math import hypot, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.geometry.polygon import inside, room_round

SQUARE = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
SLOPED = ((0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (0.0, 100.0))
NOTCHED = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (60.0, 100.0), (60.0, 50.0), (40.0, 50.0), (40.0, 100.0), (0.0, 100.0))  # fmt: skip


def test_in_a_rectangle_it_is_the_least_margin():
    assert room_round((20.0, 30.0), (70.0, 60.0), SQUARE) == 20.0


def test_under_a_slope_it_is_measured_square_to_it():
    """The line from (0, 100) to (100, 40): the corner (50, 60) lies 10 under it, plumb."""
    assert room_round((10.0, 10.0), (50.0, 60.0), SLOPED) == pytest.approx(10 * 100 / hypot(100, 60))


def test_a_rectangle_past_the_slope_has_no_room():
    assert room_round((60.0, 10.0), (90.0, 50.0), SLOPED) == 0.0


def test_a_notch_that_reaches_into_a_rectangle_leaves_no_room_though_all_its_corners_lie_inside():
    assert room_round((20.0, 20.0), (80.0, 90.0), NOTCHED) == 0.0
    assert room_round((20.0, 20.0), (80.0, 45.0), NOTCHED) == 5.0
    assert room_round((10.0, 60.0), (30.0, 90.0), NOTCHED) == 10.0


def test_beside_a_corner_that_points_at_it_it_is_the_distance_to_that_corner():
    assert room_round((10.0, 10.0), (35.0, 45.0), NOTCHED) == pytest.approx(sqrt(50.0))


UNIT = st.floats(1.0, 99.0)


@given(UNIT, UNIT, UNIT, UNIT, st.sampled_from([SQUARE, SLOPED, NOTCHED]), st.booleans())
def test_no_point_of_the_outline_is_nearer(x0, y0, x1, y1, outline, turned):
    (x0, x1), (y0, y1) = sorted((x0, x1)), sorted((y0, y1))
    room = room_round((x0, y0), (x1, y1), outline[::-1] if turned else outline)
    points = [
        (a[0] + (b[0] - a[0]) * n / 50, a[1] + (b[1] - a[1]) * n / 50)
        for a, b in zip(outline, (*outline[1:], outline[0]), strict=True)
        for n in range(50)
    ]
    nearest = min(hypot(max(x0 - x, 0, x - x1), max(y0 - y, 0, y - y1)) for x, y in points)
    if all(inside(c, outline) for c in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))):
        assert room <= nearest + 1e-9
        assert nearest - room < 2.5
    else:
        assert room == 0.0
