"""Tenon-and-bolt fittings: 15 in a face and 28 in an edge leave 3 in 18 mm; the bore that the bolt is turned through.

The figures are common trade practice without a published source, and arithmetic from them.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.model.job import CannotBuild
from tests.building import cabinet, job, recipe, rod_of
from tests.joints.runs import kind, planned, run

NAME = "tenon-and-bolt fitting"


def test_15_in_a_face_and_28_in_an_edge_leave_3_in_18_mm_board():
    one = planned(NAME, run(host_thickness=18.0))[0]
    assert (one.host.cut.depth, one.guest.cut.depth) == (15.0, 28.0)
    assert 18.0 - one.host.cut.depth == 3.0
    assert one.others[0].cut.diameter == 14.0


@given(st.integers(140, 300).map(lambda n: n / 10))
def test_the_fitting_is_as_long_in_every_board_and_the_remainder_is_kept(t):
    one = planned(NAME, run(host_thickness=t))[0]
    assert one.host.cut.depth + one.guest.cut.depth == pytest.approx(43.0)
    assert t - one.host.cut.depth >= 3.0 - 1e-9


def test_the_bolts_bore_comes_from_the_inner_face_to_the_far_wall_of_the_mortise():
    one = planned(NAME, run())[0]
    (bore,) = one.others
    assert bore.cut.at == (one.u, 17.6, 28.0)
    assert 17.6 - bore.cut.depth == pytest.approx(one.v - one.guest.cut.width / 2)


def test_that_bore_is_set_from_the_end_and_never_from_the_thickness():
    for t in (17.6, 18.2):
        rod = rod_of(job(cabinet(corner_joint=recipe(NAME)), thickness=t))
        read = {e.feature: e for s in rod.setups for e in s.features if e.feature}
        joint = next(j for j in rod.cabinets[0].joints if j.id == "left side / top")
        for f in joint.fixings:
            bore = read[f.others[0].feature]
            assert (bore.across.word, bore.across.mm) == ("left end", 28.0)


@pytest.mark.parametrize(("settings", "at", "says"), [
    ({}, {"host_thickness": 12.0}, "does not go into a board that is 12"),
    ({"depth_in_face_mm": 16.0}, {}, "a mortise 16 deep does not go"),
    ({"thickness_mm": 12.0}, {}, "leaves 2.8 mm over it"),
    ({"access_distance_mm": 70.0}, {}, "an access bore of 14 at 70 from the end misses a mortise 28.5 deep"),
])  # fmt: skip
def test_what_cannot_be_made_is_refused_with_a_number(settings, at, says):
    with pytest.raises(CannotBuild, match=says):
        planned(NAME, run(**at), **settings)


def test_a_mend_names_a_board_that_would_take_the_mortise():
    with pytest.raises(CannotBuild) as refused:
        planned(NAME, run(), depth_in_face_mm=16.0)
    assert "at least 19 mm" in refused.value.mend


def test_it_comes_apart_and_needs_no_clamps():
    nature = kind(NAME).nature
    assert nature.apart
    assert nature.clamps == "none"
    assert {i.item for i in planned(NAME, run())[0].hardware} == {"tenon-and-bolt fitting", "cap for a bore of 14"}
