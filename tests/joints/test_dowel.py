"""Dowels: how the depth is shared, what is left under the point, and where the row stands.

The figures are common trade practice without a published source, and arithmetic from them.
"""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.joints.kinds.dowel import Settings, depths
from rodwork.model.job import CannotBuild
from tests.joints.runs import SHOP, planned, run

STOPS = replace(SHOP, depth_stops_mm=(12.0, 15.0, 20.0, 25.0, 28.0))
thicknesses = st.integers(120, 300).map(lambda n: n / 10)
lengths = st.sampled_from([25.0, 30.0, 35.0, 40.0, 50.0])


@given(thicknesses, lengths, st.sampled_from([0.0, 1.5, 2.0, 2.5]))
def test_both_bores_hold_the_dowel_and_its_glue_and_leave_the_least_remainder(t, length, tip):
    face, end = depths(Settings(tip_mm=tip), length, t, SHOP)
    assert face + end == pytest.approx(length + 2.0)
    assert t - face - tip >= SHOP.least_remainder_mm - 1e-9
    assert 6.0 <= face <= end


@given(thicknesses, lengths)
def test_without_stops_the_bore_in_the_face_is_a_whole_millimetre(t, length):
    face, _ = depths(Settings(), length, t, SHOP)
    assert face == int(face)


@given(lengths, thicknesses, thicknesses)
def test_a_thicker_board_is_never_bored_less_deep(length, a, b):
    thin, thick = sorted((a, b))
    assert depths(Settings(), length, thin, SHOP)[0] <= depths(Settings(), length, thick, SHOP)[0]


@pytest.mark.parametrize(("t", "face", "end"), [
    (12.0, 7.0, 25.0), (15.0, 10.0, 22.0), (15.7, 10.0, 22.0), (17.6, 12.0, 20.0), (18.2, 12.0, 20.0), (25.0, 12.0, 20.0),
])  # fmt: skip
def test_an_8x30_dowel_in_boards_of_every_day(t, face, end):
    """12 and 20 where the board allows it; in thinner board what leaves 3 under a 2 mm point."""
    assert depths(Settings(), 30.0, t, SHOP) == (face, end)


@given(st.integers(180, 300).map(lambda n: n / 10), lengths)
def test_depths_are_the_shops_stops_and_still_hold_the_dowel(t, length):
    face, end = depths(Settings(), length, t, STOPS)
    assert face in STOPS.depth_stops_mm
    assert face + end >= length + 2.0 - 1e-9
    if length + 2.0 - face <= max(STOPS.depth_stops_mm):
        assert end in STOPS.depth_stops_mm


@pytest.mark.parametrize(("length", "face", "end"), [(30.0, 12.0, 20.0), (40.0, 15.0, 28.0)])
def test_stops_of_an_ordinary_machine(length, face, end):
    """12 with 20, 15 with 28, never 15 with 25 for a 40 mm dowel: 40 would not hold 40 and its glue."""
    assert depths(Settings(), length, 25.0, STOPS) == (face, end)


def test_where_no_stop_is_shallow_enough_the_nearest_is_taken_and_left_to_the_checks():
    """15 board allows 10; the shallowest stop is 12, which leaves 1 under the point: a STOP, not a silent 10."""
    assert depths(Settings(), 30.0, 15.0, STOPS)[0] == 12.0


def test_a_depth_that_the_maker_gives_settles_the_other():
    assert depths(Settings(depth_in_face_mm=10.0), 30.0, 17.6, SHOP) == (10.0, 22.0)
    assert depths(Settings(depth_in_end_mm=18.0), 30.0, 17.6, SHOP) == (14.0, 18.0)
    assert depths(Settings(depth_in_face_mm=10.0, depth_in_end_mm=25.0), 30.0, 17.6, SHOP) == (10.0, 25.0)
    assert depths(Settings(glue_room_mm=0.0), 30.0, 17.6, SHOP) == (11.0, 19.0)


def test_a_board_too_thin_for_a_dowel_is_refused_with_the_thickness_that_would_do():
    with pytest.raises(CannotBuild) as problem:
        depths(Settings(), 30.0, 10.0, SHOP)
    assert "only 5 mm may be bored if 3 are to be left" in problem.value.what
    assert "at least 11 mm" in problem.value.mend
    assert depths(Settings(), 30.0, 11.0, SHOP)[0] == 6.0


def test_the_row_stands_by_the_shops_habit_and_across_at_the_nearest_setting_to_the_middle():
    row = planned("dowel", run())
    assert [d.u for d in row] == [40.0, 136.0, 232.0, 280.0]
    assert {d.v for d in row} == {9.0}


def test_the_makers_own_positions_go_before_the_shops():
    assert [d.u for d in planned("dowel", run(), first_mm=32.0, pitch_mm=64.0)] == [32.0, 96.0, 160.0, 224.0, 280.0]
    assert [d.u for d in planned("dowel", run(to_groove=False), end_mm=56.0)][-1] == 240.0
    assert [d.u for d in planned("dowel", run(), positions="evenly")] == [40.0, 120.0, 200.0, 280.0]
    assert [d.u for d in planned("dowel", run(), count=3)] == [40.0, 160.0, 280.0]
    assert {d.v for d in planned("dowel", run(), offset_mm=6.0)} == {6.0}


def test_positions_that_the_shop_spreads_evenly_can_be_fixed_for_one_joint():
    evenly = replace(SHOP, positions="evenly")
    assert [d.u for d in planned("dowel", run(), evenly)] == [40.0, 120.0, 200.0, 280.0]
    assert [d.u for d in planned("dowel", run(), evenly, positions="fixed")] == [40.0, 136.0, 232.0, 280.0]


@pytest.mark.parametrize("settings", [{}, {"positions": "evenly"}, {"count": 2}, {"first_mm": 20.0}, {"size": "6x30"}])
def test_rows_on_the_two_faces_of_a_divider_are_two_diameters_clear_of_one_another(settings):
    left, right = ([d.u for d in planned("dowel", run(stagger=s), **settings)] for s in (0, 1))
    diameter = float(settings.get("size", "8x30").split("x")[0])
    assert min(abs(a - b) for a in left for b in right) >= 2 * diameter
    assert min(right) >= 12.0
    assert max(right) <= 296.0 - 12.0 - diameter / 2


@given(st.integers(150, 900))
def test_the_second_family_of_a_recipe_stands_between_the_first_wherever_the_run_ends(run_to):
    at = run(length=run_to + 24.0, run_to=float(run_to))
    first = [d.u for d in planned("dowel", at)]
    second = [d.u for d in planned("dowel", replace(at, taken=tuple(first)))]
    for a, b in pairwise(first):
        here = [u for u in second if a < u < b]
        assert len(here) == (0 if b - a < 32.0 else 1 if b - a <= 96.0 else 2)
        assert all(min(u - a, b - u) >= 16.0 for u in here)
        assert sum(here) / max(len(here), 1) == pytest.approx((a + b) / 2 if here else 0.0, abs=0.5)
    assert len(second) == len(set(second) - set(first))


def test_where_the_first_family_leaves_no_room_the_second_is_refused_with_what_to_write():
    with pytest.raises(CannotBuild, match="no room for dowels between") as refused:
        planned("dowel", replace(run(), taken=(40.0, 60.0, 80.0)))
    assert "`first` and an `end`" in refused.value.mend


def test_both_bores_have_one_mouth_opposite_ways_and_the_bits_point():
    for d in planned("dowel", run()):
        assert d.host.cut.at == d.guest.cut.at == (d.u, d.v, 0.0)
        assert (d.host.cut.into, d.guest.cut.into) == ((0.0, 0.0, -1.0), (0.0, 0.0, 1.0))
        assert d.host.cut.tip == d.guest.cut.tip == 2.0
        assert (d.host.cut.depth, d.guest.cut.depth) == (12.0, 20.0)
        assert d.hardware[0].item == "dowel 8x30"
        assert d.moves[-1].mm == 18.0  # what of the dowel stands proud of the face


def test_dowels_do_not_stand_in_a_channel():
    with pytest.raises(CannotBuild, match="channel"):
        planned("dowel", run(reach=6.0))
