"""What cannot make a job says so, and why, with every family that is there. Geometry and common practice, no source."""

import pytest

from tests.money.box import BOX, compared, way


def why(name, text, **how):
    (found,) = [x.why for x in compared(text, **how).cannot if x.name == name]
    return found


def test_biscuits_do_not_stand_in_a_joint_shorter_than_their_slots():
    """A size 20 in a contact under 90: the slot is 65 long and wants wood at either end."""
    short = BOX.replace("depth = 300", "depth = 85")
    assert "two biscuits do not fit in a run of 85 mm" in why("biscuit", short, of=("corners",))
    assert way("biscuit", BOX, of=("corners",)).clamps == 4


def test_clips_do_not_close_a_box():
    assert "nothing is left to give" in why("clip-in connector", BOX, of=("corners",))


def test_shelves_alone_may_clip_between_sides_that_are_drawn_up_otherwise():
    shelf = BOX.replace("[cabinets.box]", "[cabinets.box]\nfixed_shelves = 1")
    assert way("clip-in connector", shelf, of=("shelves",)).handled_at_once


def test_screws_are_not_driven_through_a_divider_with_a_shelf_on_its_other_face():
    divided = BOX.replace("[cabinets.box]", "[cabinets.box]\nfixed_shelves = 1\ndividers = 1")
    assert "another shelf stands on the other face of the divider" in why("screw", divided)


@pytest.mark.parametrize("name", ["dowel", "biscuit", "cam", "keyhole", "loose tenon", "tenon-and-bolt fitting"])
def test_what_can_is_priced_or_says_what_has_no_price(name):
    one = way(name, BOX, of=("corners",))
    assert (one.money is None) == bool(one.unpriced)
    assert one.lines
