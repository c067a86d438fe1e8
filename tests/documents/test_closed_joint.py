"""The closed joint: what is drawn is what the two boards are, cut through, and every family can be drawn so."""

import pytest
from tests.building import rod

from rodwork.documents.closed_joint import HEIGHT, WIDTH, closed_joint
from rodwork.documents.drawing import Path_, Text


@pytest.fixture(scope="module")
def cupboard():
    return rod().cabinets[0]


def drawn(cabinet, id):
    return closed_joint(cabinet, next(j for j in cabinet.joints if j.id == id))


def area(points):
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2


def test_what_is_cut_away_is_the_section_of_both_bores(cupboard):
    """By hand, an 8 mm dowel: 12 deep in the side and 20 in the shelf, each with a point 2 long as wide as it is.

    8 x 12 + 8 x 20 + two triangles of 8 x 2 / 2 = 272 mm2 less than the two boards would be whole.
    """
    drawing = drawn(cupboard, "left side / fixed shelf")
    filled = [s for s in drawing.shapes if isinstance(s, Path_) and s.fill == "light"]
    whole = {"side": 17.6 * (24 + 17.6 + 24), "shelf": 62.0 * 17.6}
    xs = [x for s in filled for x, _ in s.points]
    scale = (max(xs) - min(xs)) / (17.6 + 62.0)
    left = sum(area(s.points) for s in filled) / scale**2
    assert sum(whole.values()) - left == pytest.approx(272.0, abs=1.0)


def test_everything_stands_on_the_drawing(cupboard):
    for joint in cupboard.joints:
        for shape in closed_joint(cupboard, joint).shapes:
            points = shape.points if isinstance(shape, Path_) else ((shape.at),) if isinstance(shape, Text) else ()
            assert all(0 <= x <= WIDTH and 0 <= y <= HEIGHT for x, y in points), joint.id


def test_it_says_which_boards_they_are_and_how_far_the_last_push_is(cupboard):
    texts = [s.text for s in drawn(cupboard, "left side / top").shapes if isinstance(s, Text)]
    assert texts == ["Top and left side, home", "Cut through the first dowel. It goes in for the last 18."]


def test_the_arrow_points_from_the_guest_to_the_host(cupboard):
    """The right side is at the right of its shelf: the shelf goes in to the right."""
    for id, sign in (("left side / fixed shelf", -1), ("right side / fixed shelf", 1)):
        shapes = drawn(cupboard, id).shapes
        shaft = [s for s in shapes if isinstance(s, Path_)][-2:]
        xs = [x for s in shaft for x, _ in s.points]
        board = [x for s in shapes if isinstance(s, Path_) and s.fill == "light" for x, _ in s.points]
        assert (max(xs) < min(board)) if sign > 0 else (min(xs) > max(board))
