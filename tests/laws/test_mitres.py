"""Mitred corners: every family that can stand in one, boards of 12 to 30 mm, metric and inch."""

from dataclasses import replace
from math import cos, hypot, pi, radians, sin, sqrt, tan

import pytest

from rodwork.checks.registry import run_checks
from rodwork.documents.solids import part_solid
from rodwork.joints.registry import joint_kinds
from rodwork.model.job import CannotBuild
from rodwork.model.pose import Pose
from rodwork.setout.proof import proof_of, prove
from tests.building import back, cabinet, job, recipe, rod_of
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps, placed, too_loose

KINDS = {name: kind for name, kind in joint_kinds().items() if "mitre" in kind.places}
BOARDS = (12.0, 12.7, 15.0, 17.6, 18.0, 19.05, 25.4, 30.0)
THINNEST = {  # that a family's own sizes go into, with 3 mm left to the outside and 2 of the mitre inside: geometry
    "spline": 12.0, "biscuit": 15.0, "loose tenon": 15.0, "quarter-turn connector": 17.6, "clip-in connector": 17.6,
}  # fmt: skip


def box(name, thickness=17.6, **changes):
    values = {"sides": "mitred", "corner_joint": recipe(name), "depth_mm": 420.0, **changes}
    return rod_of(job(cabinet(**values), thickness=thickness))


@pytest.mark.parametrize("thickness", BOARDS)
@pytest.mark.parametrize("name", KINDS)
def test_it_is_proven_overlaps_nothing_goes_home_and_does_not_rattle(name, thickness):
    if thickness < THINNEST[name]:
        with pytest.raises(CannotBuild) as told:
            box(name, thickness)
        assert "mm board" in told.value.what
        assert "board of at least" in told.value.mend
        return
    rod = box(name, thickness)
    assert [f.message for f in prove(rod)] == []
    assert rod.cabinets[0].proof.largest_gap_mm <= rod.step / 2 + 1e-6
    assert overlaps(rod.cabinets[0]) == []
    assert connectors_that_do_not_go_home(rod.cabinets[0]) == []
    assert too_loose(rod.cabinets[0]) == []


def test_a_spline_that_runs_out_at_the_front_is_proven_and_goes_home():
    c = box("spline", corner_joint=recipe(("spline", {"front": "through"})))
    assert prove(c) == ()
    assert overlaps(c.cabinets[0]) == []
    assert connectors_that_do_not_go_home(c.cabinets[0]) == []


@pytest.mark.parametrize("name", KINDS)
def test_in_ordinary_board_no_check_stops_it(name):
    rod = box(name, 18.0)
    assert [f.message for f in run_checks(rod) if f.severity == "fault"] == []


def test_the_boards_are_of_the_full_outside_size_and_touch_all_along_the_mitre():
    c = box("biscuit").cabinets[0]
    assert c.part["left side"].size == (720.0, 420.0, 17.6)
    assert c.part["top"].size == (600.0, 420.0, 17.6)
    assert c.part["top"].outline[0][0] == pytest.approx(17.6)  # 45 degrees: as much as the board is thick
    for joint in (j for j in c.joints if j.contact.place == "mitre"):
        host, guest = (c.part[i] for i in joint.parts)
        nearer = placed(part_solid(guest), guest.pose).translate([-0.01 * x for x in joint.contact.out])
        shared = (nearer ^ placed(part_solid(host), host.pose)).volume()
        bare = 420.0 * 17.6 * sqrt(2) * 0.01
        assert 0.6 * bare < shared < bare  # the slots and the back groove take their part of it
        assert joint.contact.width == pytest.approx(17.6 * sqrt(2), abs=1e-5)


def test_both_halves_stand_near_the_inside_and_leave_the_outside_whole():
    """18 mm board: the mitre is 25.5 wide; 2 mm of it, and half a slot of 4, keep a biscuit from the inside arris.

    Its slot goes in towards the outside at 45 degrees: there (21 - 2) cos 45 - 12 sin 45 = 4.9 are left. Geometry.
    """
    rod = box("biscuit", 18.0)
    (setup,) = (s for s in rod.setups if s.tool == "slot jointer")
    assert (setup.fence.mm, setup.depth, setup.tilt, setup.registers_on) == (21.0, 12.0, 45.0, "outside arris")
    assert "fence at 45 degrees" in setup.first_off
    slot = next(f for f in rod.cabinets[0].part["top"].features if f.kind == "arc_slot")
    assert slot.at[2] == pytest.approx(21.0 * cos(pi / 4))
    left = slot.at[2] - 2.0 * cos(pi / 4) - 12.0 * sin(pi / 4)
    assert left == pytest.approx(4.95, abs=0.01)


def test_the_saw_is_tilted_and_the_length_is_over_the_long_points():
    rod = box("spline")
    tilted = [s for s in rod.setups if s.tilt and s.tool == "saw, length stop"]
    assert [(s.fence.mm, s.tilt) for s in tilted] == [(720.0, 45.0), (600.0, 45.0)]
    assert all(s.first_off.endswith("over the long points, blade tilted 45 degrees for both ends") for s in tilted)


def test_a_tenth_of_a_degree_opens_a_corner_by_six_hundredths():
    """Angle error of a saw, both boards of a corner alike: 18 x tan(0.1 degrees) x 2 = 0.063 (geometry, by turning them)."""
    error, t = radians(0.1), 18.0
    # closed at the outside arris, each cut leaves its board by the error: the inside ends stand apart by this
    slope = t / cos(pi / 4)
    inside = [(slope * sin(pi / 4 + s * error), slope * cos(pi / 4 + s * error)) for s in (1, -1)]
    scaled = [tuple(t * k / y for k in (x, y)) for x, y in (inside[0], inside[1][::-1])]
    assert hypot(scaled[0][0] - t, scaled[0][1] - t) == pytest.approx(2 * t * tan(error), rel=0.01)
    assert t * tan(error) * 2 == pytest.approx(0.063, abs=0.0005)


@pytest.fixture(scope="module")
def sound():
    return box("biscuit")


def with_setup(rod, change):
    """The Rod with its slotting setting changed, and what is said of its gaps put right."""
    setups = tuple(change(s) if s.tool == "slot jointer" else s for s in rod.setups)
    changed = replace(rod, setups=setups)
    return replace(changed, cabinets=tuple(replace(c, proof=proof_of(c, setups)) for c in changed.cabinets))


def causes(rod):
    return {f.cause for f in prove(rod)}


def test_a_mitre_set_from_its_inside_arris_is_caught(sound):
    def turned(setup):
        rows = tuple(
            replace(e, across=replace(e.across, from_surface="face_side", word="inside arris")) for e in setup.features
        )
        return replace(setup, features=rows, registers_on="inside arris")

    assert causes(with_setup(sound, turned)) == {"surface"}


def test_a_fence_left_square_is_caught(sound):
    assert causes(with_setup(sound, lambda s: replace(s, tilt=None))) == {"setting"}


def test_a_number_square_to_the_face_in_place_of_one_along_the_slope_is_caught(sound):
    def squared(setup):
        rows = tuple(replace(e, across=replace(e.across, mm=14.5)) for e in setup.features)
        return replace(setup, features=rows, fence=replace(setup.fence, mm=14.5))

    assert causes(with_setup(sound, squared)) == {"place"}


def test_a_blade_left_upright_is_caught(sound):
    setups = tuple(replace(s, tilt=None) if s.tool == "saw, length stop" else s for s in sound.setups)
    assert causes(replace(sound, setups=setups)) == {"setting"}


def test_a_mitred_board_laid_inside_out_is_caught(sound):
    """Turned about its length the long points lie inside: nothing meets."""
    c = sound.cabinets[0]
    top = c.part["top"]
    r, o = top.pose.rotation, top.pose.origin
    rotation = tuple((row[0], -row[1], -row[2]) for row in r)
    origin = (o[0], o[1] + 420.0, o[2] - 17.6)
    turned = replace(top, pose=Pose(rotation=rotation, origin=origin))
    cabinets = (replace(c, parts=tuple(turned if p.id == "top" else p for p in c.parts)),)
    assert "stands" in causes(replace(sound, cabinets=cabinets))


def test_one_mitre_cut_the_wrong_way_is_caught(sound):
    c = sound.cabinets[0]
    top = c.part["top"]
    wrong = replace(
        top, bevels=(0.0, -45.0, 0.0, 45.0), outline=((17.6, 0.0), (600.0, 0.0), (600.0, 420.0), (17.6, 420.0))
    )
    cabinets = (replace(c, parts=tuple(wrong if p.id == "top" else p for p in c.parts)),)
    assert causes(replace(sound, cabinets=cabinets)) & {"surface", "joint"}


def test_top_and_bottom_are_one_kind_of_board_and_two_mitred_sides_are_a_pair():
    c = box("biscuit", openings=("rest",)).cabinets[0]
    assert c.part["bottom"].same_as == "top"


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"corner_joint": recipe("dowel")}, "dowel cannot make top to left side"),
        ({"corner_joint": recipe("screw")}, "screw cannot make"),
        ({"back": back("grooved in the sides")}, "a mitre joins boards of one width"),
        ({"corner_joint": recipe(("biscuit", {"set_by": "base"}))}, "cannot be set by the machine's own base"),
        ({"corner_joint": recipe(("biscuit", {"offset_mm": 24.0}))}, "runs out at an arris"),
        ({"corner_joint": recipe(("biscuit", {"size": "20", "offset_mm": 12.0}))}, "comes within 3 mm of the outside"),
        ({"corner_joint": recipe(("spline", {"depth_mm": 16.0}))}, "comes within 3 mm of the outside"),
        ({"corner_joint": recipe(("spline", {"stop_mm": 100.0})), "depth_mm": 180.0}, "left before and behind"),
        ({"corner_joint": recipe(("loose tenon", {"size": "5x30"}))}, "a mortise"),
    ],
)  # fmt: skip
def test_what_cannot_be_made_is_told(changes, said):
    with pytest.raises(CannotBuild) as told:
        box("biscuit", **changes)
    assert said in told.value.what
    assert told.value.mend
