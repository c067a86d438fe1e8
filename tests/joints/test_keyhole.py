"""Keyholes: the two numbers along the run differ by the slide, all slots go one way, the head is a little low.

The figures are common trade practice without a published source, and arithmetic from them.
"""

import pytest

from rodwork.model.job import CannotBuild
from rodwork.setout.proof import prove
from tests.building import cabinet, job, recipe, rod_of
from tests.joints.runs import kind, planned, run


@pytest.fixture(scope="module")
def rod():
    return rod_of(job(cabinet(corner_joint=recipe("keyhole"), shelf_joint=recipe(("keyhole", {"slide_mm": 14.0})))))


def pairs(rod):
    read = {e.feature: e for s in rod.setups for e in s.features if e.feature}
    for joint in rod.cabinets[0].joints:
        for fixing in joint.fixings:
            if fixing.family == "keyhole":
                yield joint, fixing, read[fixing.halves[0].feature], read[fixing.halves[1].feature]


def test_the_two_numbers_from_the_front_differ_by_the_slide_and_the_home_agrees(rod):
    seen = 0
    for joint, _, screw, hole in pairs(rod):
        slide = 11.0 if joint.contact.place == "corner" else 14.0
        assert screw.along.word == hole.along.word == "front edge"
        assert hole.along.mm - screw.along.mm == pytest.approx(slide)
        assert hole.along.end_mm == screw.along.mm
        assert screw.along.end_mm is None
        seen += 1
    assert seen >= 12


def test_every_entry_bore_lies_towards_the_back_on_both_hands(rod):
    """One way for all: the board slides from the front to the back, left joint and right joint alike."""
    part = rod.cabinets[0].part
    for joint, fixing, _, _ in pairs(rod):
        guest = part[joint.parts[1]]
        hole = next(f for f in guest.features if f.id == fixing.halves[1].feature)
        assert guest.pose.direction_to_cabinet(hole.along) == (0.0, 1.0, 0.0)
        assert [m.push for m in fixing.motion][-1] == (0.0, 1.0, 0.0)
        assert fixing.motion[-1].mm == hole.slide


def test_the_push_is_the_height_of_the_head_and_the_slide_comes_after_it(rod):
    for joint, fixing, _, _ in pairs(rod):
        push, slide = fixing.motion
        assert push.push == tuple(-x for x in joint.contact.out)
        assert push.mm == pytest.approx(5.0 - 0.15 + 2.5)
        assert slide.mm in (11.0, 14.0)


def test_the_set_out_is_proven_and_an_exchanged_entry_and_home_are_found(rod):
    from dataclasses import replace

    assert list(prove(rod)) == []

    def exchanged(e):
        a = e.along
        if a is None or a.end_mm is None or not (e.feature or "").endswith("g"):
            return e
        return replace(e, along=replace(a, mm=a.end_mm, end_mm=a.mm))

    wrong = replace(rod, setups=tuple(
        replace(s, features=tuple(exchanged(e) for e in s.features)) if "keyhole" in (s.cutter or "") else s for s in rod.setups
    ))  # fmt: skip
    found = [f for f in prove(wrong) if "number from the front edge is" in f.message]
    assert len(found) == len(list(pairs(rod)))


def test_the_stops_are_set_for_both_the_entry_and_the_home(rod):
    for setup in (s for s in rod.setups if "keyhole" in (s.cutter or "")):
        wanted = {v for e in setup.features for v in (e.along.mm, e.along.end_mm)}
        assert set(setup.stop) == wanted


def test_the_last_slide_ends_before_the_run_does():
    for length in (200.0, 296.0, 450.0):
        for one in planned("keyhole", run(run_to=length, length=length, to_groove=False)):
            assert one.u + one.guest.cut.slide + one.guest.cut.entry_diameter / 2 <= length - 10.0 + 1e-9


@pytest.mark.parametrize(
    ("t", "screw"), [(15.7, "4x20"), (17.6, "4x20"), (18.2, "4x20"), (22.0, "4x25"), (12.5, "4x16")]
)
def test_the_screw_is_the_longest_that_leaves_the_least_remainder(t, screw):
    one = planned("keyhole", run(host_thickness=t))[0]
    assert one.hardware[0].item.startswith(f"screw {screw},")
    assert t - one.host.cut.depth >= 3.0


def test_the_head_stands_a_little_low_so_that_it_draws():
    one = planned("keyhole", run())[0]
    screw_length = one.length
    stands_out = screw_length - one.host.cut.depth
    assert 0.1 <= one.guest.cut.depth - one.guest.cut.head_depth + 2.5 - stands_out <= 0.2


@pytest.mark.parametrize(("settings", "at", "says"), [
    ({"head_mm": 12.0, "slide_mm": 15.0}, {}, "leaves 2.3 mm beside it"),
    ({"screw": "4x12"}, {}, "is held by 4.7 mm"),
    ({"pilot_mm": 4.0}, {}, "a screw of 4 has no wood to hold in"),
    ({}, {"run_to": 120.0, "length": 120.0, "to_groove": False}, "two keyholes do not fit"),
    ({"screw": "8x40"}, {"host_thickness": 40.0}, "nothing to grip behind"),
])  # fmt: skip
def test_what_cannot_be_made_is_refused_with_a_number(settings, at, says):
    with pytest.raises(CannotBuild, match=says):
        planned("keyhole", run(**at), **settings)


def test_a_slide_that_leaves_the_head_in_its_entry_bore_is_refused():
    with pytest.raises(ValueError, match="in its own entry bore"):
        kind("keyhole").settings(slide_mm=8.0)
