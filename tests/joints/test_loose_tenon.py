"""Loose tenons: size by the board, depths from the machine's own stops, the first mortise tight and the rest wide.

Common practice without a published source, and arithmetic from it.
"""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.joints.kinds.loose_tenon import STOPS_MM, Settings
from rodwork.model.job import CannotBuild
from rodwork.model.machining import LAID_ON_LINE, OWN_BASE
from tests.joints.runs import SHOP, planned, run


def depths_of(one):
    return one.host.cut.depth, one.guest.cut.depth


@pytest.mark.parametrize(("board", "tenon", "face", "end"), [
    (12.0, "4x20x20", 8.0, 15.0), (15.0, "5x20x30", 12.0, 20.0), (17.6, "5x20x30", 12.0, 20.0),
    (18.2, "5x20x30", 12.0, 20.0), (22.0, "6x20x40", 15.0, 28.0), (25.0, "8x20x40", 15.0, 28.0),
    (30.0, "10x20x50", 25.0, 28.0),
])  # fmt: skip
def test_the_tenon_and_both_depths_follow_the_board(board, tenon, face, end):
    one = planned("loose tenon", run(host_thickness=board, guest_thickness=board))[0]
    assert one.hardware[0].item == f"loose tenon {tenon}"
    assert depths_of(one) == (face, end)


@given(st.integers(120, 300).map(lambda n: n / 10))
def test_depths_are_stops_of_the_machine_hold_the_tenon_and_leave_the_least_remainder(board):
    one = planned("loose tenon", run(host_thickness=board, guest_thickness=board))[0]
    face, end = depths_of(one)
    assert face in STOPS_MM
    assert end in STOPS_MM
    assert face + end >= one.length + 1.0
    assert board - face >= SHOP.least_remainder_mm - 1e-9


def test_the_shops_own_stops_go_before_the_usual_ones():
    shop = replace(SHOP, depth_stops_mm=(10.0, 14.0, 22.0))
    assert depths_of(planned("loose tenon", run(), shop)[0]) == (10.0, 22.0)
    with pytest.raises(CannotBuild, match="the shallowest is 10"):
        planned("loose tenon", run(host_thickness=12.0), shop)


def test_15_with_25_for_a_40_mm_tenon_never_comes_about():
    """40 would not hold 40 and its glue: 15 with 28."""
    assert depths_of(planned("loose tenon", run(host_thickness=18.0), size="6x40")[0]) == (15.0, 28.0)


def test_a_depth_that_the_maker_gives_stands():
    assert depths_of(planned("loose tenon", run(), depth_in_face_mm=10.0)[0]) == (10.0, 25.0)
    assert depths_of(planned("loose tenon", run(), depth_in_end_mm=20.0)[0]) == (11.0, 20.0)


def test_the_first_mortise_is_tight_and_to_a_stop_the_rest_wide_and_to_a_mark():
    first, *rest = planned("loose tenon", run(length=420.0, run_to=396.0))
    assert first.host.cut.length == first.guest.cut.length == 20.1
    assert (first.play.along, first.duty, first.host.to_marks) == (0.05, "both", False)
    assert rest
    for one in rest:
        assert one.host.cut.length == one.guest.cut.length == 26.1
        assert (one.play.along, one.duty, one.host.to_marks) == (3.05, "draws up", True)


def test_all_may_be_tight():
    assert {t.host.cut.length for t in planned("loose tenon", run(), wider_mm=0.0)} == {20.1}
    assert not any(t.host.to_marks for t in planned("loose tenon", run(), wider_mm=0.0))


def test_they_stand_at_one_and_a_half_of_the_shops_pitch():
    row = planned("loose tenon", run(length=420.0, run_to=396.0))
    assert [t.u for t in row] == [40.0, 184.0, 328.0, 370.5]


def test_a_mortise_has_the_round_ends_of_its_cutter():
    cut = planned("loose tenon", run())[0].host.cut
    assert (cut.width, cut.ends, cut.end_radius) == (5.0, "round", 2.5)
    assert planned("loose tenon", run())[0].host.cutter == "5 mm"


def test_fence_at_a_corner_and_base_on_a_line():
    shelf = planned("loose tenon", run(place="fixed shelf"))[0]
    assert (shelf.v, shelf.host.stands_on, shelf.guest.stands_on) == (10.0, LAID_ON_LINE, OWN_BASE)
    assert planned("loose tenon", run())[0].v == 9.0


def test_a_tenon_thicker_than_it_is_wide_is_refused():
    with pytest.raises(ValueError, match="thicker than its width"):
        Settings(size="10x50", tenon_mm=9.0)


@given(st.integers(200, 900))
def test_rows_on_the_two_faces_of_a_divider_take_turns(run_to):
    covered = run(place="fixed shelf", length=float(run_to), run_to=float(run_to), to_groove=False, covered=True)
    left, right = ([t.u for t in planned("loose tenon", replace(covered, stagger=s))] for s in (0, 1))
    assert min(abs(a - b) for a in left for b in right) >= 26.1 + 3.0


def test_tenons_do_not_stand_in_a_channel():
    with pytest.raises(CannotBuild, match="channel"):
        planned("loose tenon", run(reach=6.0))


def test_edge_to_edge_both_halves_are_as_deep_as_stops_allow():
    """Half in each: 15 with 20 for 30 and its glue."""
    one = planned("loose tenon", run(place="edge to edge", host_thickness=300.0))[0]
    assert depths_of(one) == (15.0, 20.0)
