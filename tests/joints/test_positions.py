"""Where fixings stand along a run: fixed from the front, evenly by choice, and never into a back groove."""

from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from rodwork.joints.positions import across_mm, depth_from_stops, stand_at
from rodwork.model.job import CannotBuild
from rodwork.model.shop import Shop
from tests.joints.runs import SHOP

halves = lambda low, high: st.integers(low * 2, high * 2).map(lambda n: n / 2)  # noqa: E731
tenths = lambda low, high: st.integers(low * 10, high * 10).map(lambda n: n / 10)  # noqa: E731


def row(run_to: float = 296.0, to_groove: bool = True, shop: Shop = SHOP, **changes: Any) -> tuple[float, ...]:
    """Dowels of 8 mm by the shop's habit: 40, then 96, 40 from the end or 12 clear of a groove."""
    values: dict[str, Any] = {
        "what": "dowels", "radius": 4.0, "first": 40.0, "pitch": 96.0, "end": 40.0, "least_apart": 32.0,
        "evenly": False, "number": None,
    }  # fmt: skip
    return stand_at(run_to=run_to, to_groove=to_groove, shop=shop, **{**values, **changes})


ROWS = st.builds(
    lambda run_to, to_groove, first, pitch, end, evenly, number: {
        "run_to": run_to, "to_groove": to_groove, "first": first, "pitch": pitch, "end": end, "evenly": evenly,
        "number": number,
    },
    tenths(60, 2400), st.booleans(), halves(5, 100), halves(32, 300), halves(5, 100), st.booleans(),
    st.none() | st.integers(2, 6),
)  # fmt: skip


def test_a_320_side_with_its_groove_at_296_has_40_136_232_and_280():
    """12 of wood and the dowel's radius of 4 short of the groove. Common practice, no source."""
    assert row() == (40.0, 136.0, 232.0, 280.0)


def test_the_positions_from_the_front_are_the_same_on_a_shorter_board():
    """What a strip with fixed stops needs: only the last one moves."""
    long, short = row(run_to=560.0), row(run_to=296.0)
    assert short[:-1] == long[: len(short) - 1]


def test_without_a_groove_the_last_keeps_its_own_distance_from_the_back():
    assert row(run_to=320.0, to_groove=False) == (40.0, 136.0, 232.0, 280.0)
    assert row(run_to=320.0, to_groove=False, end=50.0)[-1] == 270.0


def test_a_last_one_that_would_stand_too_near_its_neighbour_takes_its_place():
    """40, 136, 232, then 248 would be 16 on: 232 is left out, for two bores of 8 want 32 between them."""
    assert row(run_to=264.0) == (40.0, 136.0, 248.0)


def test_evenly_shares_the_run_in_gaps_of_at_most_the_pitch():
    """40 to 280 is 240: three gaps of 80 under a pitch of 96."""
    assert row(evenly=True) == (40.0, 120.0, 200.0, 280.0)


def test_a_given_number_shares_the_run():
    assert row(number=2) == (40.0, 280.0)
    assert row(number=4) == (40.0, 120.0, 200.0, 280.0)


def test_too_short_a_run_says_so_with_its_numbers():
    """40 from the front, 16 from the groove: 280 long leaves room, 80 does not; 40 + 32 + 16 = 88 would do."""
    with pytest.raises(CannotBuild) as problem:
        row(run_to=80.0)
    assert "two dowels do not fit in a run of 80 mm" in problem.value.what
    assert "40 from the front" in problem.value.what
    assert "16 from the back groove" in problem.value.what
    assert "at least 88 mm" in problem.value.mend
    assert row(run_to=88.0) == (40.0, 72.0)


def test_too_short_a_run_without_a_groove_offers_to_lower_the_end_distance_too():
    with pytest.raises(CannotBuild) as problem:
        row(run_to=100.0, to_groove=False)
    assert "40 from the other end" in problem.value.what
    assert "112 mm, or lower `first` and `end`" in problem.value.mend


@given(ROWS)
def test_a_row_begins_at_the_front_distance_rises_and_ends_clear_of_the_back(asked):
    try:
        at = row(**asked)
    except CannotBuild:
        assume(False)
    assert at[0] == asked["first"]
    assert all(a < b for a, b in pairwise(at))
    clear = asked["run_to"] - at[-1]
    wanted = 16.0 if asked["to_groove"] else asked["end"]
    assert wanted - 1e-6 <= clear < wanted + SHOP.fence_step_mm


@given(ROWS)
def test_every_position_can_be_set_on_a_stop_marked_in_halves(asked):
    try:
        at = row(**asked)
    except CannotBuild:
        assume(False)
    assert all((u / SHOP.fence_step_mm) == pytest.approx(round(u / SHOP.fence_step_mm), abs=1e-6) for u in at)


@given(ROWS)
def test_a_fixed_row_keeps_its_pitch_until_the_last_gap_which_is_never_too_small(asked):
    try:
        at = row(**{**asked, "evenly": False, "number": None})
    except CannotBuild:
        assume(False)
    gaps = [b - a for a, b in pairwise(at)]
    assert all(g == pytest.approx(asked["pitch"]) for g in gaps[:-1])
    assert 32.0 - 1e-6 <= gaps[-1] < asked["pitch"] + 32.0 + 1e-6


@given(ROWS, st.sampled_from([8.0, 12.0, 16.0]))  # two diameters; bores of a row want four
def test_fixed_rows_on_the_two_faces_of_a_divider_stay_clear_of_one_another(asked, shift):
    """Bores from both faces meet in a board thinner than both depths: no two may stand at one place."""
    fixed = {**asked, "evenly": False, "number": None, "pitch": max(asked["pitch"], 2 * shift)}
    try:
        left, right = row(**fixed), row(**fixed, shift=shift)
    except CannotBuild:
        assume(False)
    assert min(abs(a - b) for a in left for b in right) >= shift - 1e-6


@given(ROWS)
def test_an_even_row_has_equal_gaps_within_a_setting(asked):
    try:
        at = row(**{**asked, "evenly": True})
    except CannotBuild:
        assume(False)
    gaps = [b - a for a, b in pairwise(at)]
    assert max(gaps) - min(gaps) <= SHOP.fence_step_mm + 1e-6
    if asked["number"] is not None:
        assert len(at) == asked["number"]
    else:
        assert max(gaps) <= asked["pitch"] + SHOP.fence_step_mm / 2 + 1e-6


@given(ROWS)
def test_what_is_refused_does_fit_in_the_length_that_the_message_names(asked):
    """The figure in "make the run at least ..." is enough, and a setting less is not."""
    short = {**asked, "run_to": 20.0}
    with pytest.raises(CannotBuild) as problem:
        row(**short)
    enough = float(problem.value.mend.split("at least ")[1].split(" mm")[0])
    assert row(**{**short, "run_to": enough})
    with pytest.raises(CannotBuild):
        row(**{**short, "run_to": enough - SHOP.fence_step_mm})


@given(tenths(12, 40), st.sampled_from([0.1, 0.5, 1.0]))
def test_across_the_thickness_is_a_setting_within_half_a_step_of_the_middle(thickness, step):
    at = across_mm(None, thickness, replace(SHOP, fence_step_mm=step))
    assert abs(at - thickness / 2) <= step / 2 + 1e-6
    assert at / step == pytest.approx(round(at / step), abs=1e-6)


def test_across_the_thickness_is_as_asked_where_it_is_asked():
    assert across_mm(6.0, 17.6, SHOP) == 6.0


def test_a_depth_is_the_whole_millimetre_below_where_the_shop_names_no_stops():
    assert depth_from_stops(11.9, SHOP) == 11.0
    assert depth_from_stops(12.0, SHOP) == 12.0


@given(tenths(2, 60), st.lists(st.sampled_from([8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 28.0]), min_size=1, unique=True))
def test_a_depth_is_one_of_the_shops_stops_and_the_deepest_that_does_not_go_too_far(wanted, stops):
    depth = depth_from_stops(wanted, replace(SHOP, depth_stops_mm=tuple(stops)))
    assert depth in stops
    fit = [s for s in stops if s <= wanted + 1e-9]
    if fit:
        assert depth == max(fit)
    else:  # none is shallow enough: the nearest, and the checks say what it leaves
        assert depth == min(stops)
