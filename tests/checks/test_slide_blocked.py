"""Whether the room is free that a sliding board begins in. Geometry."""

import pytest

from rodwork.documents.assembly_order import NoOrder, assembly_steps
from tests.building import back, cabinet, job, recipe, rod_of
from tests.checks.own import hook, mortise, own
from tests.checks.shop import told

CODE = "slide-blocked"


def made(slides, **changes):
    return rod_of(job(cabinet(shelf_joint=own(hook(slides)), **changes)))


def test_a_shelf_that_slides_to_the_front_begins_where_the_back_is():
    (found,) = told(CODE, made(-12.0))
    assert found.severity == "fault"
    assert found.message.startswith("Fixed shelf: it begins 12 from its place")
    assert "the back stands" in found.message


def test_turned_the_other_way_it_begins_in_front_where_nothing_is():
    assert told(CODE, made(12.0)) == []


def test_without_a_back_there_is_nothing_in_the_way_and_with_a_gap_as_long_as_the_slide_neither():
    assert told(CODE, made(-12.0, back=None)) == []
    room = {"void_mm": 0.0}
    assert told(CODE, made(-12.0, back=back("planted", **room), shelf_set_back_mm=0.0)) != []


@pytest.mark.parametrize(("set_forward", "blocked"), [(12.0, False), (11.0, True)])
def test_the_slide_wants_its_own_length_and_no_more(set_forward, blocked):
    """Boards that are moved apart by hand: the back is set away from the shelf by so much."""
    from dataclasses import replace

    from rodwork.model.pose import Pose

    rod = made(-12.0)
    c = rod.cabinets[0]
    bk = c.part["back"]
    x, y, z = bk.pose.origin
    moved = replace(bk, pose=Pose(rotation=bk.pose.rotation, origin=(x, y + set_forward, z)))
    parts = tuple(moved if p.id == "back" else p for p in c.parts)
    assert bool(told(CODE, replace(rod, cabinets=(replace(c, parts=parts),)))) is blocked


def test_what_goes_straight_home_is_let_be():
    assert told(CODE, rod_of(job(cabinet(shelf_joint=own(mortise()))))) == []


@pytest.mark.parametrize("sides", ["through", "between"])
@pytest.mark.parametrize("style", ["grooved all round", "grooved in the sides", "rebated", "planted", "inset", None])
def test_it_stops_just_where_no_order_of_assembly_is(sides, style):
    """A back in a groove all round must be in before the box is closed, and then its last board cannot slide over it."""
    behind = back(style, board="birch18" if style == "inset" else "birch6") if style else None
    rod = rod_of(job(cabinet(corner_joint=recipe("keyhole"), back=behind, sides=sides, openings=("rest",))))
    try:
        assembly_steps(rod.cabinets[0])
        ordered = True
    except NoOrder:
        ordered = False
    assert bool(told(CODE, rod)) is not ordered, (sides, style)
