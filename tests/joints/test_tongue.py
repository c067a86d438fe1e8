"""Tongues: a rebate on the flush face, and a groove set from that same face. Common practice without a published source."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.checks.registry import run_checks
from rodwork.model.job import CannotBuild
from rodwork.setout.proof import prove
from tests.building import cabinet, job, recipe, rod_of
from tests.geometry.overlap import overlaps
from tests.joints.runs import entered, planned, run

thicknesses = st.integers(120, 300).map(lambda n: n / 10)


def tongue(at, **settings):
    (one,) = planned("tongue", entered("tongue", at, **settings), **settings)
    (rebate,) = one.others
    return one.host.cut, rebate.cut, one


@pytest.mark.parametrize(("board", "shoulder", "left", "long", "groove"), [
    (12.0, 6.0, 6.0, 4.0, 4.5), (15.0, 7.0, 8.0, 5.0, 5.5), (18.0, 9.0, 9.0, 6.0, 6.5), (25.0, 12.0, 13.0, 8.0, 8.5),
])  # fmt: skip
def test_half_the_board_is_left_and_a_third_of_the_other_is_entered(board, shoulder, left, long, groove):
    host, rebate, _ = tongue(run(host_thickness=board, guest_thickness=board))
    assert (rebate.depth, board - rebate.depth, rebate.width, host.depth) == (shoulder, left, long, groove)


@given(thicknesses, thicknesses)
def test_the_groove_is_as_wide_as_the_tongue_this_board_leaves_and_its_play(host_t, guest_t):
    host, rebate, one = tongue(run(host_thickness=host_t, guest_thickness=guest_t))
    left = guest_t - rebate.depth
    assert 0.1 - 1e-9 <= host.width - left <= 0.5 + 1e-9
    assert host.at[1] - host.width / 2 == pytest.approx(rebate.depth)  # both from the flush face
    assert one.play.across == pytest.approx((host.width - left) / 2)


@pytest.mark.parametrize("sides", ["through", "between"])
@pytest.mark.parametrize("edged", [None, ("fronts",)])
def test_in_a_cabinet_it_goes_home_and_is_proven(sides, edged):
    from rodwork.model.job import CabinetEdging

    edging = CabinetEdging(edging="birch", on=edged) if edged else None
    own = recipe("tongue")
    rod = rod_of(job(cabinet(
        sides=sides, corner_joint=own, shelf_joint=own, divider_joint=own, bays=("rest", "rest"), width_mm=900.0,
        edging=edging,
    )))  # fmt: skip
    assert prove(rod) == ()
    assert overlaps(rod.cabinets[0]) == []


def test_thicker_board_keeps_its_shoulder_and_stays_flush():
    """The fence of rebate and groove stands where it did: only the tongue is thicker."""
    thin, thick = (tongue(run(guest_thickness=t)) for t in (17.6, 17.9))
    assert thin[1].depth == thick[1].depth == 8.0
    assert thick[0].width - thin[0].width == pytest.approx(0.3)


def test_the_proof_finds_a_rebate_that_is_not_deep_enough():
    rod = rod_of(job(cabinet(corner_joint=recipe("tongue"))))
    setups = tuple(replace(s, depth=7.0) if s.cutter == "rebate cutter" else s for s in rod.setups)
    said = [f.message for f in prove(replace(rod, setups=setups))]
    assert any("its depth: expected 8.0, found 7.0" in m for m in said)


def test_behind_an_edged_front_the_tongue_is_notched_back():
    rod = rod_of(job(cabinet(corner_joint=recipe("tongue"))))
    top = rod.cabinets[0].part["top"]
    assert len(top.outline) == 8
    assert top.outline[0] == (6.0, 0.0)
    groove = next(f for f in rod.cabinets[0].part["left side"].features if f.id == "left side / top groove")
    assert groove.stage == "before edging"


@pytest.mark.parametrize("sides", ["through", "between"])
def test_a_stopped_groove_leaves_ten_of_board_in_front_and_the_tongue_is_notched_behind_it(sides):
    """The groove's round end begins 10 from the front; the notch goes 0.5 past where its full width begins."""
    own = recipe(("tongue", {"front": "stopped"}))
    rod = rod_of(job(cabinet(sides=sides, corner_joint=own, shelf_joint=own, edging=None)))
    cutter = {"through": 6.0, "between": 6.0}[sides]
    for joint in rod.cabinets[0].joints:
        if joint.contact.place not in ("corner", "fixed shelf"):
            continue
        host, guest = (rod.cabinets[0].part[i] for i in joint.parts)
        groove = next(f for f in host.features if f.id == f"{joint.id} groove")
        assert groove.at[1] - groove.length / 2 == pytest.approx(10.0)
        notch = 10.0 + cutter / 2 + 0.5
        assert guest.outline[0][0] == pytest.approx(6.0)
        assert guest.outline[2][1] == pytest.approx(notch)
    assert prove(rod) == ()
    assert overlaps(rod.cabinets[0]) == []
    assert not [f for f in run_checks(rod) if f.code == "bores-that-show"]


def test_a_shoulder_that_leaves_no_tongue_is_refused():
    with pytest.raises(CannotBuild, match=r"leaves a tongue of 1.6 mm") as refused:
        tongue(run(), shoulder_mm=16.0)
    assert "14.6 or less" in refused.value.mend


def test_a_stop_that_leaves_nothing_of_the_groove_is_refused():
    with pytest.raises(CannotBuild, match="the run is 60 long") as refused:
        tongue(run(length=60.0), front="stopped", stop_mm=100.0)
    assert refused.value.path == ("stop",)


def test_a_tongue_is_as_long_as_it_is_printed():
    """6.35, a quarter of an inch, is printed as 6.4: the shelf that has it is sawn to that."""
    _, rebate, _ = tongue(run(), tongue_mm=6.35)
    assert rebate.width == 6.4
    rod = rod_of(job(cabinet(shelf_joint=recipe(("tongue", {"tongue_mm": 2.01, "front": "stopped"})))))
    assert [f.message for f in prove(rod)] == []
