"""Housings: how deep, how wide, where one stops, and how the board that enters is notched for it."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.joints.channel import CUTTERS_MM
from tests.building import cabinet, job, made, recipe, rod_of
from tests.joints.runs import SHOP, entered, kind, planned, run

thicknesses = st.integers(100, 300).map(lambda n: n / 10)
SHELF = run(place="fixed shelf", length=296.0)


def housing(at=SHELF, shop=SHOP, **settings):
    (one,) = planned("housing", entered("housing", at, shop, **settings), shop, **settings)
    return one.host.cut


def first_full_width(cut):
    """Distance along the run at which the channel has its full width: behind the rounded end."""
    return cut.at[0] - cut.length / 2 + (cut.end_radius if cut.both_ends[0] == "round" else 0.0)


@pytest.mark.parametrize(("t", "depth"), [(12.0, 4.0), (15.0, 5.0), (17.6, 6.0), (18.2, 6.0), (25.1, 8.0)])
def test_a_housing_is_a_third_of_its_board_deep(t, depth):
    """A quarter to a third is common practice, no source."""
    assert housing(replace(SHELF, host_thickness=t)).depth == depth
    assert housing(depth_mm=9.0).depth == 9.0


@given(thicknesses, thicknesses)
def test_a_housing_is_a_tenth_wider_than_its_shelf_or_the_shops_own_cutter(host, guest):
    cut = housing(replace(SHELF, host_thickness=host, guest_thickness=guest))
    assert 0.1 - 1e-9 <= cut.width - guest <= 0.5 + 1e-9
    assert cut.depth < host
    assert 2 * cut.end_radius <= cut.width + 1e-9


@pytest.mark.parametrize(("cutter", "width"), [(6.0, 17.7), (18.0, 18.0), (20.0, 17.7)])
def test_a_cutter_of_the_shops_that_suits_makes_the_housing_in_one_pass(cutter, width):
    """18 takes a 17.6 shelf with 0.4 to spare; 20 does not, and something smaller has to make it in two."""
    cut = housing(shop=replace(SHOP, groove_cutter_mm=cutter))
    assert cut.width == pytest.approx(width)
    assert 2 * cut.end_radius in CUTTERS_MM
    assert 2 * cut.end_radius <= width


@given(st.integers(3, 60).map(float), st.sampled_from([4.0, 6.0, 10.0]), st.sampled_from([0.0, 2.0, 8.0, 12.0, 30.0]))
def test_a_stopped_housing_leaves_its_board_in_front_and_is_full_width_before_the_shelf_enters(stop, cutter, set_back):
    """The wood in front is measured from the front of the side, wherever the shelf's own front stands."""
    shop = replace(SHOP, groove_cutter_mm=cutter)
    cut = housing(replace(SHELF, set_back=set_back, beyond_start=set_back), shop, stop_mm=stop)
    assert cut.both_ends[0] == "round"
    begins = cut.at[0] - cut.length / 2 + set_back  # from the front of the side
    assert begins >= stop - 1e-9
    entry = kind("housing").entry(17.6, 17.6, kind("housing").settings(stop_mm=stop), shop)
    shelf_enters = max(entry.stop - set_back, 0.0)
    assert first_full_width(cut) == pytest.approx(shelf_enters - 0.5)
    if entry.stop > set_back:
        assert begins == pytest.approx(stop)


def test_the_shelf_is_notched_back_to_where_the_housing_has_its_full_width():
    """10 of wood, 3 for the rounded end, 0.5 to spare: the tongue of the shelf begins 13.5 from its front, 6 long."""
    rod = rod_of(job(cabinet(shelf_joint=recipe("housing"), openings=(300.0, "rest"))))
    shelf = rod.cabinets[0].part["fixed shelf"]
    assert (6.0, 0.0) in shelf.outline
    assert (6.0, 13.5) in shelf.outline
    assert (0.0, 13.5) in shelf.outline
    assert shelf.size[0] == pytest.approx(600 - 2 * 17.6 + 2 * 6)


def test_a_through_housing_has_no_notch_and_runs_out_at_the_front():
    one = made(
        cabinet(shelf_joint=recipe(("housing", {"front": "through"})), edging=None, openings=(300.0, "rest")), job()
    )
    shelf = next(p for p in one.carcass.panels if p.id == "fixed shelf")
    assert len(shelf.outline) == 4
    cut = next(m.feature for m in one.machining if m.part == "left side" and "housing" in m.feature.id)
    assert cut.both_ends == ("open", "open")
    assert cut.stage == "after edging"
    assert cut.at[1] - cut.length / 2 == pytest.approx(0.0)
    assert cut.at[1] + cut.length / 2 == pytest.approx(296.0)  # into the back groove


def test_a_through_housing_in_an_edged_side_is_cut_before_the_edging_that_closes_it():
    cut = housing(replace(SHELF, start_edging=1.0), front="through")
    assert cut.stage == "before edging"
    assert cut.at[0] - cut.length / 2 == 1.0  # the edging itself is not cut


def test_behind_a_shelf_that_ends_at_a_back_groove_the_housing_runs_out_into_the_groove():
    assert housing().both_ends == ("round", "open")
    clear = housing(replace(SHELF, beyond_end=30.0))
    assert clear.both_ends == ("round", "round")
    assert clear.at[0] + clear.length / 2 == pytest.approx(296.0 + 0.5 + 3.0)


def test_the_wall_on_the_line_is_the_datum_and_the_slack_goes_to_the_other_side():
    (one,) = planned("housing", SHELF)
    assert one.host.cut.at[1] - one.host.cut.width / 2 == 0.0
    assert one.host.fence_on == "near wall"
    assert one.host.tool == "router and batten"
