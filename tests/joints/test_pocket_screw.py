"""Pocket screws: one board bored, 15 degrees to its face, the screw coming out in the middle of its end.

The angle and the 32 mm screw for 19 mm board: a builders' magazine's guide to pocket-hole joinery. The rest: geometry, or
common practice without a source.
"""

from math import asin, cos, degrees, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.model.job import CannotBuild
from rodwork.setout.proof import prove
from tests.building import cabinet, edge_to_edge, job, recipe, rod_of
from tests.joints.runs import planned, run

thicknesses = st.integers(120, 300).map(lambda n: n / 10)
FACES = st.sampled_from(["flush face", "other face"])


@given(thicknesses, FACES)
def test_the_axis_lies_at_15_degrees_and_comes_out_in_the_middle_of_the_end(t, face):
    cut = planned("pocket screw", run(guest_thickness=t), face=face)[0].guest.cut
    assert degrees(asin(abs(cut.into[1]))) == pytest.approx(15.0)
    u, v, w = (a + d * cut.ahead_depth for a, d in zip(cut.at, cut.into, strict=True))
    assert (u, v, w) == pytest.approx((40.0, t / 2, 0.0))
    assert cut.at[1] == (0.0 if face == "flush face" else t)


@given(thicknesses)
def test_the_pocket_stays_inside_the_board(t):
    """Its deepest point: the far side of its shoulder."""
    cut = planned("pocket screw", run(guest_thickness=t))[0].guest.cut
    deepest = cut.depth * sin(radians(15.0)) + cut.diameter / 2 * cos(radians(15.0))
    assert deepest <= t - 3.0


@pytest.mark.parametrize(("board", "screw", "pocket", "into"), [
    (12.0, "4x25", 7.0, 8.7), (15.0, "4x25", 12.5, 8.7), (18.0, "4x32", 18.5, 15.5), (19.0, "4x32", 20.5, 15.5),
    (25.0, "4x38", 32.0, 21.3),
])  # fmt: skip
def test_screws_and_collars_for_boards_of_every_day(board, screw, pocket, into):
    one = planned("pocket screw", run(guest_thickness=board, host_thickness=board))[0]
    assert one.hardware[0].item == f"pocket screw {screw}"
    assert one.guest.cut.depth == pocket
    assert round((one.length - 16.0) * cos(radians(15.0)), 1) == into < board - 2.0


def test_only_the_board_that_meets_with_its_end_is_bored():
    one = planned("pocket screw", run())[0]
    assert (one.law, one.host, one.others) == ("none", None, ())
    assert one.guest.to_marks
    assert one.guest.fence_on == "no fence"


def test_a_screw_that_would_come_through_is_refused_with_one_that_does_not():
    with pytest.raises(CannotBuild, match=r"comes within 0.4 mm") as refused:
        planned("pocket screw", run(host_thickness=12.0), size="4x28")
    assert "26 mm or less" in refused.value.mend
    assert planned("pocket screw", run(host_thickness=12.0), size="4x26")


def test_a_screw_too_short_and_a_shoulder_too_far_are_refused():
    with pytest.raises(CannotBuild, match=r"only 3.9 mm into the other board"):
        planned("pocket screw", run(), size="4x20")
    with pytest.raises(CannotBuild, match="leaves no pocket in 12 mm board") as refused:
        planned("pocket screw", run(guest_thickness=12.0), shoulder_mm=20.0)
    assert "19 or less" in refused.value.mend


def test_a_board_in_a_channel_is_refused():
    with pytest.raises(CannotBuild, match="channel"):
        planned("pocket screw", run(reach=6.0))


@pytest.mark.parametrize("sides", ["through", "between"])
@pytest.mark.parametrize("face", ["flush face", "other face"])
def test_its_numbers_are_from_the_end_it_serves_and_put_together_again(sides, face):
    own = recipe(("pocket screw", {"face": face}))
    rod = rod_of(job(cabinet(sides=sides, corner_joint=own, shelf_joint=own)))
    assert prove(rod) == ()
    outside = {"top": "outside", "bottom": "outside", "left side": "outside", "fixed shelf": "underside"}
    inside = {"top": "inside", "bottom": "inside", "left side": "inside", "fixed shelf": "upper side"}
    from rodwork.model.words import cabinet_words

    for part in rod.cabinets[0].parts:
        words = cabinet_words(part.role, part.pose.rotation)
        for f in part.features:
            if f.kind == "pocket" and part.id in outside:
                assert words[f.mouth] == (outside if face == "flush face" else inside)[part.id]


def test_the_jig_holds_its_own_distance_so_no_fence_is_set():
    rod = rod_of(job(cabinet(corner_joint=recipe("pocket screw"))))
    (setup,) = {s.depth: s for s in rod.setups if s.tool == "pocket jig"}.values()
    assert (setup.fence, setup.stop, setup.depth) == (None, "marks", 18.0)
    assert setup.first_off == "pocket 18 to the shoulder on its own axis"


def test_two_boards_can_be_joined_edge_to_edge():
    rod = edge_to_edge(recipe("pocket screw"))
    assert prove(rod) == ()
    assert {f.kind for p in rod.cabinets[0].parts for f in p.features} == {"pocket"}
