"""Cam and bolt: set from the inner face, whatever the board measures; sizes as the fitting's sheet has them.

The figures are common trade practice without a published source, and arithmetic from them.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.model.job import CannotBuild
from rodwork.setout.proof import prove
from tests.building import cabinet, job, recipe, rod_of
from tests.joints.runs import planned, run

THICK = st.integers(155, 250).map(lambda n: n / 10)


def read(rod):
    return {e.feature: e for s in rod.setups for e in s.features if e.feature}


def corner(thickness, *more):
    rod = rod_of(job(cabinet(corner_joint=recipe("cam", *more)), thickness=thickness))
    joint = next(j for j in rod.cabinets[0].joints if j.id == "left side / top")
    return joint, read(rod)


@given(THICK)
def test_the_bolts_number_on_the_face_is_the_measured_thickness_less_the_axis(t):
    """maker's table of registering: the line on the face board lies at (t - axis) from its end."""
    joint, numbers = corner(t)
    axis = 9.0 if t >= 16.5 else 8.0
    for fixing in joint.fixings:
        bolt, tunnel = (numbers[h.feature] for h in fixing.halves)
        assert bolt.across.word == "top end"
        assert bolt.across.mm == pytest.approx(t - axis, abs=0.05 + 1e-9)
        assert (tunnel.across.word, tunnel.across.mm) == ("inside", axis)


def test_the_cam_itself_is_set_from_the_end_and_sunk_in_the_inner_face():
    joint, numbers = corner(17.6)
    for fixing in joint.fixings:
        (cam,) = (numbers[h.feature] for h in fixing.others)
        assert (cam.across.word, cam.across.mm) == ("left end", 34.0)
        assert cam.bears == "face_side"  # the inside of a top


def test_dowels_of_the_same_joint_are_set_from_the_inner_face_too():
    joint, numbers = corner(17.6, ("dowel", {"count": 2, "first_mm": 30.0, "end_mm": 30.0}))
    words = {numbers[f.halves[1].feature].across.word for f in joint.fixings}
    assert {f.family for f in joint.fixings} == {"cam", "dowel"}
    assert words == {"inside"}


def test_the_fence_is_one_figure_for_both_boards():
    rod = rod_of(job(cabinet(corner_joint=recipe("cam")), thickness=18.3))
    bolts = {s.fence.mm for s in rod.setups if s.cutter == "5 mm" and s.tool == "drill and fence"}
    tunnels = {s.fence.mm for s in rod.setups if s.cutter == "8 mm" and s.tool == "drill and fence"}
    assert bolts == tunnels == {9.0}


def test_the_tunnel_ends_in_the_middle_of_the_cam():
    for cam in planned("cam", run(), distance_mm=24.0):
        (sunk,) = cam.others
        assert cam.guest.cut.depth == sunk.cut.at[2] == 24.0
        assert sunk.cut.at[0] == cam.u


@pytest.mark.parametrize(
    ("t", "depth", "axis"), [(15.7, 12.5, 8.0), (16.0, 12.5, 8.0), (17.6, 14.0, 9.0), (19.0, 14.0, 9.0)]
)
def test_cams_in_boards_of_every_day(t, depth, axis):
    cam = planned("cam", run(guest_thickness=t))[0]
    assert (cam.others[0].cut.depth, cam.v) == (depth, axis)


def test_cams_stand_alike_from_both_ends_of_the_run_so_that_boards_can_be_exchanged():
    row = [c.u for c in planned("cam", run(run_to=560.0, length=560.0, to_groove=False))]
    assert row == [60.0, 500.0]
    three = [c.u for c in planned("cam", run(run_to=700.0, length=700.0, to_groove=False))]
    assert three == [60.0, 350.0, 640.0]


def test_a_cam_moves_clear_of_a_dowel_that_stands_in_its_place():
    row = [c.u for c in planned("cam", run(taken=(58.0, 136.0)))]
    assert all(abs(u - t) >= 15.0 for u in row for t in (58.0, 136.0))


@pytest.mark.parametrize(("settings", "t", "says"), [
    ({"cam_depth_mm": 17.0}, 17.6, "a cam 17 deep leaves 0.6 mm"),
    ({"axis_mm": 13.0}, 17.6, "breaks out"),
    ({}, 12.0, "12.5 deep leaves 0.0 mm of a board that is 12"),
    ({"first_mm": 160.0}, 17.6, "two cams do not fit"),
])  # fmt: skip
def test_what_cannot_be_made_is_refused_with_a_number(settings, t, says):
    with pytest.raises(CannotBuild, match=says):
        planned("cam", run(guest_thickness=t), **settings)


def test_what_is_bought():
    bought = {i.item: i.count for i in planned("cam", run(), caps=True)[0].hardware}
    assert bought == {"cam 15 mm": 1, "cam bolt 34": 1, "cover cap for cam 15 mm": 1}


def test_the_axis_is_set_as_it_is_printed_from_either_face():
    """10.35 from the inside is printed as 10.4, and then the rest of a 30 mm board is 19.6, not 19.7."""
    rod = rod_of(job(cabinet(corner_joint=recipe(("cam", {"axis_mm": 10.35}))), thickness=30.0))
    assert [f.message for f in prove(rod)] == []
