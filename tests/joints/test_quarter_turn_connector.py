"""Quarter-turn connectors: the slot as the disc cuts it, the key's bore, and where they stand."""

from math import sqrt

import pytest

from rodwork.model.job import CannotBuild
from tests.joints.runs import kind, planned, run

NAME = "quarter-turn connector"


@pytest.mark.parametrize(("depth", "long"), [(8.0, 54.3), (10.0, 60.0), (12.0, 65.0)])
def test_the_slot_is_the_chord_that_a_100_mm_disc_cuts(depth, long):
    """Geometry: 2 sqrt(d (100 - d)) is 54.3, 60.0 and 65.0 mm at 8, 10 and 12."""
    one = planned(NAME, run(), depth_mm=depth)[0]
    for half in (one.host.cut, one.guest.cut):
        assert round(half.length, 1) == long == round(2 * sqrt(depth * (100 - depth)), 1)
        assert (half.thickness, half.root_width, half.root_depth) == (7.0, 9.0, 2.0)


def test_both_boards_have_the_same_slot_at_the_same_place():
    for one in planned(NAME, run()):
        assert one.host.cut.at == one.guest.cut.at == (one.u, one.v, 0.0)
        assert one.host.cutter == one.guest.cutter
        assert one.host.to_marks


@pytest.mark.parametrize(("side", "z", "way"), [("inside", 17.6, -1.0), ("outside", 0.0, 1.0)])
def test_the_key_comes_down_to_the_middle_of_the_slot_from_the_side_that_is_named(side, z, way):
    one = planned(NAME, run(), key_side=side)[0]
    (key,) = one.others
    assert key.cut.at == (one.u, z, 6.0)
    assert key.cut.into == (0.0, way, 0.0)
    assert z + way * key.cut.depth == pytest.approx(one.v)
    assert key.board == "guest"


def test_two_stand_60_from_the_ends_where_there_is_room_and_one_in_the_middle_where_not():
    assert [c.u for c in planned(NAME, run(to_groove=False, run_to=320.0))] == [60.0, 260.0]
    (one,) = planned(NAME, run(to_groove=False, run_to=130.0, length=130.0))
    assert one.u == 65.0


def test_on_a_divider_too_thin_for_both_slots_the_rows_keep_clear_of_each_other():
    here = [c.u for c in planned(NAME, run(to_groove=False, run_to=600.0, length=600.0))]
    there = [c.u for c in planned(NAME, run(to_groove=False, run_to=600.0, length=600.0, stagger=1))]
    assert min(abs(a - b) for a in here for b in there) >= 60.0


@pytest.mark.parametrize(("settings", "at", "says"), [
    ({"depth_mm": 16.0}, {}, "a slot 16 deep leaves 1.6 mm of a 17.6 mm board"),
    ({}, {"run_to": 60.0, "to_groove": False}, "a slot 60.0 long has no room"),
    ({"key_distance_mm": 30.0}, {}, "misses a lever"),
    ({"key_aside_mm": 28.0}, {}, "misses a lever in a slot that is 1.4 deep there"),  # sqrt(50^2 - 28^2) - 40
    ({"key_aside_mm": 60.0}, {}, "misses a lever in a slot that is 0.0 deep there"),
    ({"length_mm": 66.0}, {}, "66 long does not go into a slot 60.0 long"),
])  # fmt: skip
def test_what_cannot_be_made_is_refused_with_a_number(settings, at, says):
    with pytest.raises(CannotBuild, match=says):
        planned(NAME, run(**at), **settings)


@pytest.mark.parametrize("settings", [{"root_mm": 6.0}, {"root_depth_mm": 8.0, "depth_mm": 7.0}])
def test_sizes_that_contradict_one_another_are_refused(settings):
    with pytest.raises(ValueError, match="wide"):
        kind(NAME).settings(**settings)


@pytest.mark.parametrize("depth", [8.0, 10.0, 12.0])
def test_the_connector_goes_into_its_slot(depth):
    for one in planned(NAME, run(), depth_mm=depth):
        assert one.length < one.host.cut.length


@pytest.mark.parametrize(("caps", "bought"), [
    (True, {"quarter-turn connector with lever", "quarter-turn connector plain", "cap for a bore of 6"}),
    (False, {"quarter-turn connector with lever", "quarter-turn connector plain"}),
])  # fmt: skip
def test_it_buys_both_halves_and_a_cap_where_one_is_wanted(caps, bought):
    (one, *_) = planned(NAME, run(), caps=caps)
    assert {i.item: i.count for i in one.hardware} == dict.fromkeys(bought, 1)


@pytest.mark.parametrize("lean", [0.1, -0.225, 0.25])
@pytest.mark.parametrize("side", ["inside", "outside"])
def test_a_slanting_key_is_as_deep_as_a_stop_can_be_set(lean, side):
    """The paper said 8.45 on the board's sheet, 8.4 at the setting and 8.44816 to check it by."""
    for one in planned(NAME, run(nears=lean), key_side=side):
        (key,) = one.others
        assert key.cut.depth == round(key.cut.depth, 1) > 0
