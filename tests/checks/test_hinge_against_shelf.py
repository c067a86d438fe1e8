"""A hinge plate across a fixed shelf. 24 mm each way: common practice, no source."""

from dataclasses import replace

import pytest

from tests.checks.shop import told
from tests.fronts.front_samples import doors, fronted

CODE = "hinge-against-shelf"


def shelved(clear):
    """A door 717 high whose first opening is so high, so that a shelf of 17.6 stands on it."""
    return fronted(doors("left", openings=2), openings=(clear, "rest"), loose_shelves=(0, 0))


@pytest.mark.parametrize("clear", [120.0, 140.0, 250.0])
def test_a_shelf_that_a_hinge_can_be_moved_clear_of(clear):
    assert told(CODE, shelved(clear)) == []


def test_a_shelf_where_no_place_is_left():
    """From 80 to 100 up the door; the shelf lies from 82.6 to 100.2 up the side."""
    (finding,) = told(CODE, shelved(65.0))
    assert finding.severity == "fault"
    assert {"fixed shelf", "door", "door hinge 1"} <= set(finding.where)


def test_a_shelf_on_the_other_side_of_the_carrying_board_is_no_matter():
    rod = shelved(65.0)
    cabinet = rod.cabinets[0]
    moved = [
        replace(p, pose=replace(p.pose, origin=(900.0, 0.0, 82.6))) if p.role == "fixed shelf" else p
        for p in cabinet.parts
    ]
    assert told(CODE, replace(rod, cabinets=(replace(cabinet, parts=tuple(moved)),))) == []


@pytest.mark.parametrize("hung", ["left", "right", "pair", "up"])
def test_a_plain_cupboard(hung):
    assert told(CODE, fronted(doors(hung))) == []


# --- loose shelves ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("height", [1100.0, 1200.0, 1300.0, 1400.0, 1500.0])
@pytest.mark.parametrize("shelves", [1, 3])
def test_hinges_keep_off_a_loose_shelf_in_the_middle_of_a_tall_door(height, shelves):
    made = fronted(doors("left"), height_mm=height, loose_shelves=(shelves,))
    assert len(made.cabinets[0].doors[0].hinges) == 3
    assert told(CODE, made) == []


BOUGHT = {"bought": {"height": 715.0, "width": 596.0, "cups_from_ends": 150.0, "cups_from_edge": 22.5}}


def test_a_loose_shelf_across_the_plate_of_a_bought_door_and_each_mend():
    """Its cups are 150 from its ends, its plates 24 each way of that: a shelf on the grid at 152 lies from 154.5 on."""

    def hung(**changes):
        return fronted(doors("left", **BOUGHT), loose_shelves=(4,), **changes)

    (finding,) = [f for f in told(CODE, hung()) if "loose shelf 1" in f.where]
    assert finding.severity == "warning"
    assert "shelf_set_back = 60" in finding.mend
    assert told(CODE, hung(shelf_set_back_mm=60.0)) == []
    others = fronted(doors("left", **BOUGHT), loose_shelves=(2,))  # on other holes
    assert told(CODE, others) == []
