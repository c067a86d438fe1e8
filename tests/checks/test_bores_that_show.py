"""Heads, plugs and channel ends on surfaces that show."""

import pytest

from tests.building import back, recipe, rod
from tests.checks.shop import IN, UP, board, bore, channel, rod_of_boards, told

CODE = "bores-that-show"
SCREW = {"into": UP, "depth": 18.0, "diameter": 4.5, "through": True, "role": "clearance"}


def side(*features, shows, **changes):
    return rod_of_boards(board(*features, shows=shows, **changes))


def test_heads_show_on_the_face_that_they_are_driven_from():
    screw = bore("a", (9.0, 40.0, 0.0), head=8.0, **SCREW)
    assert told(CODE, side(screw, shows=("face_edge", "face_side"))) == []
    (found,) = told(CODE, side(screw, shows=("back_side",)))
    assert (found.severity, found.where) == ("warning", ("left side", "a"))
    assert found.message == "Left side, outside: screw heads of 8 will show."


@pytest.mark.parametrize("role", ["seat", "pilot", "shelf_pin"])
def test_what_is_filled_or_meant_to_be_seen_is_let_be(role):
    assert told(CODE, side(bore("a", (9.0, 40.0, 0.0), into=UP, role=role), shows=("back_side",))) == []


def test_plugs_are_told_instead_of_the_heads_under_them():
    screw = bore("a", (9.0, 40.0, 0.0), joint="j", **SCREW)
    plug = bore("b", (9.0, 40.0, 0.0), into=UP, depth=8.0, diameter=10.0, role="access", joint="j")
    bare = bore("c", (9.0, 90.0, 0.0), joint="k", **SCREW)
    (found,) = told(CODE, side(screw, plug, shows=("back_side",)))
    assert found.where == ("left side", "b")
    assert "plugs of 10" in found.message
    assert len(told(CODE, side(screw, plug, bare, shows=("back_side",)))) == 2


def housing(ends, **changes):
    return channel("h", (300.0, 160.0, 18.0), 6.0, 18.0, 320.0, along=IN, ends=ends, joint=None, **changes)


def test_a_channel_that_runs_out_through_an_edge_that_shows():
    (found,) = told(CODE, side(housing("open"), shows=("face_edge",)))
    assert "the housing, 18 x 6, runs out through the front edge, which will show" in found.message
    assert told(CODE, side(housing(("round", "open")), shows=("face_edge",))) == []
    (found,) = told(CODE, side(housing(("round", "open")), shows=("far_edge",)))
    assert "back edge" in found.message
    assert told(CODE, side(housing("open"), shows=("left_end", "face_side"))) == []


def test_a_channel_that_ends_open_inside_the_board_shows_at_no_edge():
    inside = channel("h", (300.0, 160.0, 18.0), 6.0, 18.0, 300.0, along=IN, ends="open")
    assert told(CODE, side(inside, shows=("face_edge", "far_edge"))) == []


def test_edging_glued_on_afterwards_closes_it():
    from rodwork.model.panel import EdgingOnPart

    edged = {"edging": EdgingOnPart(face_edge=1.0)}
    before, after = housing("open", stage="before edging"), housing("open")
    assert told(CODE, side(before, shows=("face_edge",), **edged)) == []
    assert len(told(CODE, side(after, shows=("face_edge",), **edged))) == 1
    assert len(told(CODE, side(before, shows=("face_edge",)))) == 1


def test_from_the_job():
    assert told(CODE, rod()) == []
    (found,) = told(CODE, rod(corner_joint=recipe("screw")))
    assert found.message == "Left side and right side, outside: screw heads of 8 will show."
    (found,) = told(CODE, rod(corner_joint=recipe(("screw", {"head": "plugged"}))))
    assert "plugs of 10 over the screws" in found.message
    through = recipe(("housing", {"front": "through"}))
    assert told(CODE, rod(shelf_joint=through)) == []  # cut before edging
    (found,) = told(CODE, rod(shelf_joint=through, edging=None))
    assert found.message.startswith("Left side and right side: the housing, ")
    assert told(CODE, rod(back=back("planted"))) == []  # the back of the back is not seen
