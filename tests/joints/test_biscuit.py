"""Biscuits: published sizes, the slot that a round cutter leaves, fence or base, and where they stand.

Sizes 10 and 20 and the 100 x 4 cutter: an encyclopaedia's page on biscuit joiners. The rest: geometry, or common practice.
"""

from dataclasses import replace
from math import acos, sin, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.joints.kinds.biscuit import BLANKS
from rodwork.model.job import CannotBuild
from rodwork.model.machining import LAID_ON_LINE, OWN_BASE
from tests.building import cabinet, edge_to_edge, job, recipe, rod_of
from tests.joints.runs import SHOP, planned, run

SHELF = run(place="fixed shelf", length=296.0)


def test_the_blanks_are_of_the_published_sizes():
    assert {n: (b.length, b.width) for n, b in BLANKS.items()} == {
        "0": (47.0, 15.0), "10": (53.0, 19.0), "20": (56.0, 23.0),
    }  # fmt: skip


@pytest.mark.parametrize(("size", "deep", "long"), [("0", 8.0, 54.3), ("10", 10.0, 60.0), ("20", 12.0, 65.0)])
def test_the_slot_is_the_chord_of_a_100_mm_cutter_and_so_longer_than_the_blank(size, deep, long):
    """54.3, 60.0 and 65.0 mm at 8, 10 and 12 deep: geometry."""
    for half in (planned("biscuit", run(), size=size)[0].host, planned("biscuit", run(), size=size)[0].guest):
        assert (half.cut.depth, half.cut.thickness, half.cut.cutter_radius) == (deep, 4.0, 50.0)
        assert round(half.cut.length, 1) == long
        assert half.cut.length > BLANKS[size].length


@pytest.mark.parametrize("size", list(BLANKS))
def test_the_blank_can_be_slid_just_so_far_as_its_arc_touches_that_of_the_slot(size):
    """Against points along both arcs: slid by what is said it touches, a trace further it cuts in."""
    blank = BLANKS[size]
    half, deep = blank.length / 2, blank.width / 2
    radius = (half**2 + deep**2) / (2 * deep)

    def least_room(slid):
        xs = [half * (k / 2000 - 1) for k in range(4001)]
        floor = [sqrt(50.0**2 - (x + slid) ** 2) - (50.0 - blank.depth) for x in xs]
        edge = [sqrt(radius**2 - x * x) - (radius - deep) for x in xs]
        return min(f - e for f, e in zip(floor, edge, strict=True))

    free = blank.free_along()
    assert least_room(free) == pytest.approx(0.0, abs=1e-3)
    assert least_room(free + 0.1) < -1e-3
    assert 2.5 < free < 3.5  # about 3 in use: common practice, no source


def test_both_blanks_halves_find_room_for_glue_under_them():
    for blank in BLANKS.values():
        assert 2 * blank.depth - blank.width == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("board", "size"), [(11.0, "0"), (12.9, "0"), (13.0, "10"), (14.9, "10"), (15.0, "20"), (25.0, "20")]
)
def test_the_largest_that_leaves_the_least_remainder_is_taken(board, size):
    one = planned("biscuit", run(host_thickness=board))[0]
    assert one.hardware[0].item == f"biscuit {size}"
    assert board - one.host.cut.depth >= SHOP.least_remainder_mm


def test_a_board_too_thin_for_any_is_refused_with_the_thickness_that_would_do():
    with pytest.raises(CannotBuild, match="no biscuit goes into a 10 mm board") as refused:
        planned("biscuit", run(host_thickness=10.0))
    assert "at least 11 mm" in refused.value.mend


def test_a_corner_is_set_by_the_fence_and_a_line_by_the_base_never_both_in_one_joint():
    corner, shelf = planned("biscuit", run())[0], planned("biscuit", SHELF)[0]
    assert (corner.v, corner.host.stands_on, corner.guest.stands_on) == (9.0, None, None)
    assert (shelf.v, shelf.host.stands_on, shelf.guest.stands_on) == (10.0, LAID_ON_LINE, OWN_BASE)
    flat = planned("biscuit", run(), set_by="base")[0]
    assert (flat.v, flat.host.stands_on, flat.guest.stands_on) == (10.0, OWN_BASE, OWN_BASE)
    fenced = planned("biscuit", SHELF, set_by="fence")[0]
    assert (fenced.v, fenced.host.stands_on, fenced.guest.stands_on) == (9.0, None, None)


def test_where_the_base_would_leave_too_little_over_the_slot_the_fence_is_used():
    """10 + 2 of 15.9 leaves 3.9; of 16, 4."""
    assert planned("biscuit", replace(SHELF, guest_thickness=15.9))[0].guest.stands_on is None
    assert planned("biscuit", replace(SHELF, guest_thickness=16.0))[0].guest.stands_on == OWN_BASE
    assert planned("biscuit", SHELF, base_mm=8.0)[0].v == 8.0


def test_an_offset_asked_of_a_base_is_refused():
    with pytest.raises(CannotBuild, match="set to nothing else"):
        planned("biscuit", SHELF, set_by="base", offset_mm=7.0)


def test_they_stand_to_pencil_marks_with_12_mm_of_wood_before_the_slot():
    row = planned("biscuit", run(length=420.0, run_to=396.0))
    assert [b.u for b in row] == [45.0, 237.0, 351.5]
    assert all(b.host.to_marks and b.guest.to_marks for b in row)
    assert row[0].u - row[0].host.cut.length / 2 >= 12.0
    assert 396.0 - row[-1].u - row[-1].host.cut.length / 2 >= 12.0


def test_a_contact_with_no_room_for_two_is_refused_with_the_length_that_would_do():
    with pytest.raises(CannotBuild, match="two biscuits do not fit in a run of 150 mm") as refused:
        planned("biscuit", run(length=150.0, run_to=150.0, to_groove=False))
    assert "at least 158 mm" in refused.value.mend


@given(st.integers(330, 900))
def test_rows_on_the_two_faces_of_a_divider_take_turns(run_to):
    covered = run(place="fixed shelf", length=float(run_to), run_to=float(run_to), to_groove=False, covered=True)
    left, right = ([b.u for b in planned("biscuit", replace(covered, stagger=s))] for s in (0, 1))
    slot = 2 * 50.0 * sin(acos((50.0 - 12.0) / 50.0))
    assert min(abs(a - b) for a in left for b in right) >= slot + 3.0
    assert min(len(left), len(right)) >= 2


def test_in_board_thick_enough_for_both_slots_the_two_rows_stand_alike():
    thick = run(place="fixed shelf", host_thickness=27.0, covered=True)
    assert [b.u for b in planned("biscuit", thick)] == [b.u for b in planned("biscuit", replace(thick, stagger=1))]


def test_a_divider_with_no_room_for_two_rows_is_refused():
    with pytest.raises(CannotBuild, match="no room for two biscuits from each face"):
        planned("biscuit", run(place="fixed shelf", length=200.0, run_to=200.0, to_groove=False, covered=True))


def test_biscuits_do_not_stand_in_a_channel():
    with pytest.raises(CannotBuild, match="channel"):
        planned("biscuit", run(reach=6.0))


def test_base_and_fence_are_two_errors_even_at_one_distance():
    rod = rod_of(job(cabinet(corner_joint=recipe(("biscuit", {"offset_mm": 10.0})), shelf_joint=recipe("biscuit"))))
    fences = {
        s.stands_on == OWN_BASE or s.stands_on == LAID_ON_LINE: s.fence.id
        for s in rod.setups
        if s.tool == "slot jointer"
    }
    assert len(set(fences.values())) == 2
    assert {s.fence.mm for s in rod.setups if s.tool == "slot jointer"} == {10.0}


def test_two_boards_can_be_joined_edge_to_edge():
    from rodwork.setout.proof import prove

    rod = edge_to_edge(recipe("biscuit"))
    assert prove(rod) == ()
    (joint,) = rod.cabinets[0].joints
    assert joint.contact.place == "edge to edge"
    read = {e.feature: e for s in rod.setups for e in s.features if e.feature}
    for fixing in joint.fixings:
        host, guest = (read[h.feature] for h in fixing.halves)
        assert host.along.mm == guest.along.mm
        assert host.across.mm == guest.across.mm == 9.0
        assert {host.across.word, guest.across.word} == {"upper side"}
