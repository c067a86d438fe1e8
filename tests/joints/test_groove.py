"""Back grooves: the width a cutter makes, the depth, and ends that run on for the back's square corners."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.joints.channel import CUTTERS_MM
from rodwork.model.job import CannotBuild
from tests.building import back, cabinet, job, rod_of
from tests.joints.runs import SHOP, entered, kind, planned, run

BACK = run(place="back in a groove", length=695.8, guest_thickness=5.8, beyond_start=12.1, beyond_end=12.1)
backs = st.integers(30, 190).map(lambda n: n / 10)
cutters = st.sampled_from(CUTTERS_MM)


def groove(at=BACK, shop=SHOP, **settings):
    (one,) = planned("groove", entered("groove", at, shop, **settings), shop, **settings)
    return one.host.cut


@pytest.mark.parametrize(("board", "cutter", "width"), [
    (5.8, 6.0, 6.0),   # the shop's cutter suits: one pass
    (5.5, 6.0, 6.0),   # half a millimetre of play is the most
    (5.4, 6.0, 5.6),   # it would rattle: 0.2 of play, with a smaller cutter
    (6.0, 6.0, 6.2),   # it would not go in
    (8.7, 6.0, 8.9),
    (3.2, 6.0, 3.4),
])  # fmt: skip
def test_the_width_is_the_shops_cutter_where_it_suits_and_else_the_back_and_its_play(board, cutter, width):
    cut = groove(replace(BACK, guest_thickness=board), replace(SHOP, groove_cutter_mm=cutter))
    assert cut.width == pytest.approx(width)


@given(backs, cutters)
def test_a_back_always_goes_in_and_never_has_more_than_half_a_millimetre(board, cutter):
    cut = groove(replace(BACK, guest_thickness=board), replace(SHOP, groove_cutter_mm=cutter))
    assert 0.1 - 1e-9 <= cut.width - board <= 0.5 + 1e-9
    assert 2 * cut.end_radius <= cut.width + 1e-9
    assert 2 * cut.end_radius in CUTTERS_MM


@pytest.mark.parametrize(("t", "depth"), [(15.0, 5.0), (17.6, 6.0), (25.0, 8.0)])
def test_a_groove_is_a_third_of_its_board_deep(t, depth):
    """Common practice, no source."""
    assert groove(replace(BACK, host_thickness=t)).depth == depth
    assert groove(depth_mm=8.0).depth == 8.0


@given(st.floats(0.0, 3.0), st.floats(4.0, 9.0))
def test_the_back_stops_short_of_the_bottom_of_its_groove_by_its_clearance(clearance, depth):
    settings = kind("groove").settings(depth_mm=depth, clearance_mm=clearance)
    entry = kind("groove").entry(17.6, 5.8, settings, SHOP)
    assert entry.reach == pytest.approx(depth - clearance)


def test_a_groove_inside_its_board_runs_on_by_the_cutters_radius_and_half_a_millimetre():
    """So that the square corner of the back does not meet the rounded end."""
    cut = groove()
    assert cut.both_ends == ("round", "round")
    assert cut.length == pytest.approx(695.8 + 2 * (3.0 + 0.5))


def test_a_groove_near_the_end_of_its_board_runs_out():
    cut = groove(replace(BACK, beyond_start=0.0, beyond_end=2.0))
    assert cut.both_ends == ("open", "open")
    assert cut.length == pytest.approx(695.8 + 2.0)


def test_a_groove_that_runs_out_through_an_edged_end_is_cut_before_the_edging_and_up_to_it():
    cut = groove(replace(BACK, beyond_start=0.0, beyond_end=0.0, end_edging=1.0))
    assert cut.stage == "before edging"
    assert cut.at[0] + cut.length / 2 == pytest.approx(695.8 - 1.0)
    assert groove().stage == "after edging"


def test_in_a_cabinet_the_sides_are_stopped_and_top_and_bottom_run_out():
    """The sides run through, so the groove must not show at their ends; those of the others lie in the corner."""
    rod = rod_of(job(cabinet()))
    ends = {
        p.id: f.both_ends for p in rod.cabinets[0].parts for f in p.features if f.id.endswith("groove")
    }  # fmt: skip
    assert ends["left side"] == ends["right side"] == ("round", "round")
    assert ends["top"] == ends["bottom"] == ("open", "open")


def test_the_backs_own_line_of_the_job_file_sets_the_groove():
    rod = rod_of(job(cabinet(back=back(depth_mm=8.0, clearance_mm=1.0))))
    part = rod.cabinets[0].part
    cut = next(f for f in part["left side"].features if f.id.endswith("groove"))
    assert cut.depth == 8.0
    assert part["back"].size[1] == pytest.approx(600 - 2 * 17.6 + 2 * 7.0)


@pytest.mark.parametrize("style", ["grooved all round", "grooved in the sides", "rebated", "rebated in the sides"])
def test_a_back_whose_play_takes_it_out_of_its_channel_is_refused(style):
    """6 deep with 5.5 of play at each edge holds it by half a millimetre."""
    with pytest.raises(CannotBuild, match="does not stay in a") as refused:
        rod_of(job(cabinet(back=back(style, depth_mm=6.0, clearance_mm=5.5))))
    assert refused.value.path[-1] == "clearance"
    assert "5 or less" in refused.value.mend
