"""Screwed butts: which screw, its bores, its plug, and what is refused.

Lengths, clearance and pilot are common trade practice, no source; the rest is arithmetic from them.
"""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from rodwork.geometry.rounding import to_step
from rodwork.joints.kinds.screw import CLEARANCE_OVER, LENGTHS_MM
from rodwork.model.job import CannotBuild
from tests.joints.runs import planned, run

thicknesses = st.integers(30, 400).map(lambda n: n / 10)
reaches = st.sampled_from([-0.5, 0.0, 4.0, 6.0])
heads = st.sampled_from(["countersunk", "plugged"])


def one(at=None, **settings):
    return planned("screw", at or run(), **settings)[0]


def bought(screw):
    return [i.item for i in screw.hardware]


@pytest.mark.parametrize(("t", "screw"), [
    (17.6, "screw 4x50"), (18.2, "screw 4x50"), (12.0, "screw 4x40"), (25.1, "screw 4x60"), (5.8, "screw 3.5x25"),
    (3.2, "screw 3.5x20"),
])  # fmt: skip
def test_the_screw_is_chosen_to_hold_28_in_an_end_and_16_through_a_thin_back(t, screw):
    assert bought(one(run(host_thickness=t))) == [screw]


@given(thicknesses, reaches, heads)
def test_the_chosen_screw_holds_what_is_wanted_and_the_next_shorter_would_not(t, reach, head):
    assume(t - max(reach, 0.0) > (13.0 if head == "plugged" else 1.0))
    screw = one(run(host_thickness=t, reach=reach), head=head)
    wanted = 16.0 if t < 10.0 else 28.0
    passes = t - reach - (8.0 if head == "plugged" else 0.0)
    assert screw.guest.cut.depth == pytest.approx(
        to_step(screw.length - passes, 0.5)
    )  # what a drill's stop can be set to
    if screw.length < LENGTHS_MM[-1]:
        assert screw.guest.cut.depth >= wanted - 0.25 - 1e-9
    shorter = [n for n in LENGTHS_MM if n < screw.length]
    if shorter:
        assert shorter[-1] - passes < wanted


@given(thicknesses, reaches)
def test_the_clearance_comes_out_where_the_pilot_goes_in(t, reach):
    """The law of a screw: one axis, and the end of the one is the mouth of the other."""
    assume(t - max(reach, 0.0) > 1.0)
    at = run(host_thickness=t, reach=reach)
    screw = one(at)
    out = screw.host.cut.at[2] + screw.host.cut.depth
    assert (screw.host.cut.at[0], screw.host.cut.at[1]) == (screw.guest.cut.at[0], screw.guest.cut.at[1])
    assert screw.host.cut.at[2] == -t
    assert out == pytest.approx(-max(reach, 0.0))
    assert screw.guest.cut.at[2] == pytest.approx(-reach)


@pytest.mark.parametrize("diameter", sorted(CLEARANCE_OVER))
def test_clearance_is_half_a_millimetre_over_and_the_pilot_about_seven_tenths(diameter):
    screw = one(size=f"{diameter:g}x50")
    assert screw.host.cut.diameter == diameter + 0.5
    assert abs(screw.guest.cut.diameter - 0.7 * diameter) <= 0.25 + 1e-9
    assert screw.guest.cut.diameter * 2 == int(screw.guest.cut.diameter * 2)  # a drill that is sold


def test_a_clearance_and_a_pilot_as_the_maker_gives_them():
    screw = one(clearance_mm=5.0, pilot_diameter_mm=2.5)
    assert (screw.host.cut.diameter, screw.guest.cut.diameter) == (5.0, 2.5)
    assert screw.play.along == 0.5  # half of what 4 leaves in 5


def test_a_countersunk_head_is_twice_the_screw_and_has_no_plug():
    screw = one()
    assert (screw.host.cut.countersink.diameter, screw.host.cut.countersink.angle) == (8.0, 90.0)
    assert screw.others == ()
    assert one(head_diameter_mm=9.0).host.cut.countersink.diameter == 9.0


def test_a_plugged_head_lies_under_a_counterbore_on_the_same_axis():
    screw = one(head="plugged", plug_mm=12.0, plug_depth_mm=6.0)
    (plug,) = screw.others
    assert screw.host.cut.countersink is None
    assert plug.cut.at == screw.host.cut.at
    assert (plug.cut.diameter, plug.cut.depth) == (12.0, 6.0)
    assert bought(screw) == ["screw 4x40", "plug 12 mm"]


def test_a_plug_leaves_wood_under_the_head():
    with pytest.raises(CannotBuild) as problem:
        one(run(host_thickness=12.0), head="plugged")
    assert "a plug 8 deep leaves 4 mm under the head" in problem.value.what
    assert problem.value.path == ("plug_depth",)
    assert "7 deep or less" in problem.value.mend
    assert one(run(host_thickness=12.0), head="plugged", plug_depth_mm=7.0)


def test_a_screw_that_hardly_reaches_the_second_board_is_refused_with_the_length_that_would():
    with pytest.raises(CannotBuild) as problem:
        one(size="4x25")
    assert "a 4 x 25 screw goes only 7.4 mm into the second board" in problem.value.what
    assert "at least 27.6 mm" in problem.value.mend
    assert one(size="4x28").guest.cut.depth == 10.5  # 10.4, to what a stop can be set to


def test_a_screw_shorter_than_its_own_board_is_refused_too():
    with pytest.raises(CannotBuild, match="goes only 0 mm"):
        one(size="4x16")


def test_screws_stand_two_of_the_shops_pitches_apart():
    assert [s.u for s in planned("screw", run(length=560.0, run_to=536.0))] == [40.0, 232.0, 424.0, 522.0]


def test_the_last_screw_keeps_12_clear_of_a_back_groove():
    """296 less 12 of wood and half a 4 mm screw."""
    assert planned("screw", run())[-1].u == 282.0


def test_after_dowels_screws_stand_between_them():
    """Dowels at 40, 136, 232, 280: a screw in the middle of every gap; in the 48 of the last too, 24 from either."""
    assert [s.u for s in planned("screw", run(taken=(40.0, 136.0, 232.0, 280.0)))] == [88.0, 184.0, 256.0]


def test_between_two_dowels_far_apart_screws_share_the_gap_no_further_apart_than_their_pitch():
    """240 of gap for a pitch of 192: two, 60 from the dowels and 120 from each other."""
    assert [s.u for s in planned("screw", run(taken=(40.0, 280.0)))] == [100.0, 220.0]


def test_screws_on_the_two_faces_of_a_divider_are_two_heads_clear_of_one_another():
    """A head of 8 lies where the other shelf's end comes: 16 from its screws."""
    left, right = ([s.u for s in planned("screw", run(stagger=n))] for n in (0, 1))
    assert min(abs(a - b) for a in left for b in right) >= 16.0


def test_screws_in_place_are_in_no_setting_and_those_bored_beforehand_are():
    assert one().guest.cut.stage == "in place"
    assert one(pilot="beforehand").guest.cut.stage == "after edging"


def test_the_pilot_stands_at_the_setting_nearest_the_middle_and_the_clearance_on_the_same_line():
    screw = one()
    assert screw.v == screw.host.cut.at[1] == screw.guest.cut.at[1] == 9.0


def test_a_board_let_into_a_housing_is_screwed_through_what_is_left_under_it():
    """17.6 less 6 is 11.6 to pass; 4 x 40 then holds 28.4."""
    screw = one(run(place="fixed shelf", reach=6.0))
    assert screw.host.cut.depth == pytest.approx(11.6)
    assert bought(screw) == ["screw 4x40"]
    assert screw.guest.cut.depth == 28.5  # 28.4, to what a stop can be set to


@pytest.mark.parametrize(("settings", "place", "says"), [
    ({"clearance_mm": 3.5}, "clearance", "does not go through a clearance bore of 3.5"),
    ({"pilot_diameter_mm": 4.0}, "pilot_diameter", "no hold in a pilot bore of 4"),
    ({"head_diameter_mm": 4.5}, "head_diameter", "a head of 4.5 mm goes through a clearance bore of 4.5"),
    ({"head": "plugged", "plug_mm": 7.0}, "plug", "does not go down a counterbore of 7"),
])  # fmt: skip
def test_a_screw_that_its_bores_do_not_fit_is_refused(settings, place, says):
    """A 4 mm screw: its clearance bore is 4.5, its pilot 3, its head 8."""
    with pytest.raises(CannotBuild, match=says) as refused:
        one(**settings)
    assert refused.value.path == (place,)
    assert refused.value.mend
