"""Rebates for a back: how far in, how wide, square or open at the ends, and the pins that hold it."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.building import back, cabinet, job, rod_of
from tests.joints.runs import SHOP, entered, kind, planned, run

BACK = run(place="back in a rebate", length=699.8, guest_thickness=5.8, beyond_start=10.1, beyond_end=10.1)
thicknesses = st.integers(100, 300).map(lambda n: n / 10)
backs = st.integers(30, 120).map(lambda n: n / 10)


def rebate(at=BACK, **settings):
    (one,) = planned("rebate", entered("rebate", at, SHOP, **settings), SHOP, **settings)
    return one


@pytest.mark.parametrize(("t", "depth"), [(15.0, 7.0), (17.6, 8.0), (18.2, 9.0), (25.0, 12.0)])
def test_a_rebate_goes_half_way_into_its_board_to_the_millimetre_below(t, depth):
    """Half is the limit by common practice, no source."""
    assert rebate(replace(BACK, host_thickness=t)).host.cut.depth == depth
    assert rebate(depth_mm=6.0).host.cut.depth == 6.0


@given(thicknesses)
def test_a_rebate_never_takes_more_than_half_of_its_board(t):
    assert rebate(replace(BACK, host_thickness=t)).host.cut.depth <= t / 2


@given(backs, st.sampled_from([0.0, 2.0, 12.5]))
def test_a_rebate_is_as_wide_as_the_back_is_thick_and_the_void_behind_it(board, void):
    cut = rebate(replace(BACK, guest_thickness=board), void_mm=void).host.cut
    assert cut.width == pytest.approx(board + void)
    assert cut.at[1] == pytest.approx((board - void) / 2)  # the void is behind the back


def test_a_rebate_that_stops_inside_its_board_is_chiselled_square_for_the_back():
    cut = rebate().host.cut
    assert cut.both_ends == ("square", "square")
    assert cut.length == pytest.approx(699.8 + 2 * 0.5)  # the back and its clearance


def test_a_rebate_that_reaches_the_end_of_its_board_runs_out():
    cut = rebate(replace(BACK, beyond_start=0.0, beyond_end=0.0)).host.cut
    assert cut.both_ends == ("open", "open")
    assert cut.length == pytest.approx(699.8)


def test_a_rebate_that_runs_out_through_an_edged_end_is_cut_before_the_edging():
    cut = rebate(replace(BACK, beyond_start=0.0, beyond_end=0.0, start_edging=1.0)).host.cut
    assert cut.stage == "before edging"
    assert cut.at[0] - cut.length / 2 == pytest.approx(1.0)


@pytest.mark.parametrize(("length", "pins"), [(99.0, 2), (600.0, 7), (699.8, 8)])
def test_the_back_is_pinned_every_100_and_at_both_ends(length, pins):
    """Common practice, no source."""
    assert rebate(replace(BACK, length=length)).hardware[0].count == pins


@given(st.floats(0.0, 3.0), st.floats(4.0, 9.0))
def test_the_back_stops_short_of_the_shoulder_by_its_clearance(clearance, depth):
    settings = kind("rebate").settings(depth_mm=depth, clearance_mm=clearance)
    assert kind("rebate").entry(17.6, 5.8, settings, SHOP).reach == pytest.approx(depth - clearance)


def test_in_a_cabinet_with_a_void_the_back_lies_that_far_in_front_of_the_back_edges():
    rod = rod_of(job(cabinet(back=back("rebated", void_mm=10.0))))
    panel = rod.cabinets[0].part["back"]
    ys = [panel.pose.to_cabinet((0.0, 0.0, z))[1] for z in (0.0, panel.size[2])]
    assert max(ys) == pytest.approx(310.0)
    side = rod.cabinets[0].part["left side"]
    cut = next(f for f in side.features if f.id.endswith("rebate"))
    assert cut.width == pytest.approx(15.8)


def test_the_back_is_a_millimetre_smaller_than_its_rebates():
    """Nothing goes in at dead size: 0.5 each way, so W - 2t + 2r - 1. Common practice, no source."""
    panel = rod_of(job(cabinet(back=back("rebated")))).cabinets[0].part["back"]
    assert panel.size[1] == pytest.approx(600 - 2 * 17.6 + 2 * 8.0 - 1.0)
    assert panel.size[0] == pytest.approx(720 - 2 * 17.6 + 2 * 8.0 - 1.0)


@pytest.mark.parametrize("void", [0.0, 4.0, 10.0])
@pytest.mark.parametrize("style", ["rebated", "rebated in the sides"])
def test_a_rebate_runs_out_at_the_back_edge_so_that_the_back_goes_in_from_behind(style, void):
    c = rod_of(job(cabinet(back=back(style, void_mm=void)))).cabinets[0]
    part = c.part["back"]
    ys = [part.pose.to_cabinet(corner)[1] for corner in ((0.0, 0.0, 0.0), part.size)]
    for side in ("left side", "right side"):
        (cut,) = (f for f in c.part[side].features if f.kind == "rebate")
        walls = (cut.at[1] - cut.width / 2, cut.at[1] + cut.width / 2)
        assert walls == pytest.approx((min(ys), c.part[side].size[1]))
