"""Every family in every place it can make, both ways of running the corners, boards of 12 to 30 mm, metric and inch.

Random cabinets over them all are in test_joint_laws.py and test_solid_laws.py; here none is left to chance.
"""

from collections import Counter
from dataclasses import replace

import pytest

from rodwork.checks.registry import run_checks
from rodwork.joints.registry import joint_kinds
from rodwork.model.job import CannotBuild
from rodwork.pipeline import set_out
from rodwork.setout.proof import prove
from tests.building import back, cabinet, job, recipe, rod_of
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps, too_loose

KINDS = joint_kinds()
IN_A_CARCASS = ("corner", "fixed shelf", "divider")
CARCASS = [name for name, kind in KINDS.items() if set(IN_A_CARCASS) & set(kind.places)]
BOARDS = tuple((t, sides) for t in (12.0, 15.0, 17.6, 25.4, 30.0) for sides in ("through", "between"))


def everywhere(name, *, sides="through", **changes):
    """A cabinet of two bays with a shelf in each that uses the family wherever it can stand, and dowels elsewhere.

    What is driven through a divider cannot hold a shelf on both its faces: those shelves are dowelled.
    """
    kind = KINDS[name]
    use = {place: recipe(name if place in kind.places else "dowel") for place in IN_A_CARCASS}
    values = {
        "sides": sides, "bays": ("rest", "rest"), "width_mm": 1100.0, "depth_mm": 420.0, "corner_joint": use["corner"],
        "shelf_joint": use["fixed shelf"], "divider_joint": use["divider"], **changes,
    }  # fmt: skip
    return cabinet(**values)


def built(name, thickness=17.6, **changes):
    try:
        return rod_of(job(everywhere(name, **changes), thickness=thickness))
    except CannotBuild as problem:
        if "other face of the divider" not in problem.what:
            raise
        return rod_of(job(everywhere(name, shelf_joint=recipe("dowel"), **changes), thickness=thickness))


def built_or_refused(name, thickness, **changes):
    """The Rod, or why there is none."""
    try:
        return built(name, thickness, **changes)
    except CannotBuild as problem:
        return problem


@pytest.mark.parametrize(("thickness", "sides"), BOARDS)
@pytest.mark.parametrize("name", CARCASS)
def test_it_is_proven_overlaps_nothing_goes_home_and_does_not_rattle(name, thickness, sides):
    rod = built_or_refused(name, thickness, sides=sides)
    if isinstance(rod, CannotBuild):
        low, high = KINDS[name].nature.board_mm
        assert not low <= thickness <= high, rod.what
        assert rod.mend
        return
    assert [f.message for f in prove(rod)] == []
    assert rod.cabinets[0].proof.largest_gap_mm <= rod.step / 2 + 1e-6
    assert overlaps(rod.cabinets[0]) == []
    assert connectors_that_do_not_go_home(rod.cabinets[0]) == []
    assert too_loose(rod.cabinets[0]) == []
    used = {f.family for j in rod.cabinets[0].joints for f in j.fixings}
    assert name in used


@pytest.mark.parametrize("name", CARCASS)
def test_in_ordinary_board_no_check_stops_it(name):
    """18 mm board, 420 deep: what most boxes are. T, L, and shelves back to back on both faces of a divider."""
    slides = any(len(f.motion) > 1 for j in built(name, 18.0).cabinets[0].joints for f in j.fixings)
    # what slides home cannot close a box over a back in grooves all round: that has its own test, as have clips
    rod = built(name, 18.0, back=back("planted")) if slides else built(name, 18.0)
    closed = "nothing-to-spring"  # clips all round a closed box are stopped, and rightly: that has its own test
    assert [f.message for f in run_checks(rod) if f.severity == "fault" and f.code != closed] == []


@pytest.mark.parametrize("name", CARCASS)
def test_changing_the_family_changes_sizes_as_its_reach_says_and_the_openings_not_at_all(name):
    dowelled, other = built("dowel").cabinets[0], built(name).cabinets[0]
    assert other.asked.openings == dowelled.asked.openings
    for joint in other.joints:
        if joint.contact.place not in IN_A_CARCASS:
            continue
        kind = next(KINDS[f.family] for f in joint.fixings)
        host, guest = (other.part[i] for i in joint.parts)
        settings = kind.settings()
        reach = kind.entry(host.size[2], guest.size[2], settings, job().shop).reach
        before = dowelled.part[guest.id].size[0]
        both = sum(j.parts[1] == guest.id and j.contact.place in IN_A_CARCASS for j in other.joints)
        assert guest.size[0] == pytest.approx(before + both * reach), guest.id


@pytest.mark.parametrize("name", CARCASS)
def test_inches_and_millimetres_come_to_the_same(name):
    """24 x 30 x 16 in of 3/4 in board is 609.6 x 762 x 406.4 of 19.05."""
    text = """
[job]
name = "Two ways to say it"
units = "{units}"

[boards.ply]
material = "birch plywood"
thickness = {t}
sheet = [{sheet}]

[joints.own]
use = [{{ family = "{name}" }}]
[joints.else]
use = [{{ family = "dowel" }}]

[cabinets.box]
width = {w}
height = {h}
depth = {d}
board = "ply"
joint = "{corner}"
shelf_joint = "{shelf}"
openings = [{o}, "rest"]
"""
    places = KINDS[name].places
    own = {"name": name, "corner": "own" if "corner" in places else "else",
           "shelf": "own" if "fixed shelf" in places else "else"}  # fmt: skip
    inch = text.format(units="in", t='"3/4"', sheet='"96", "48"', w=24, h=30, d=16, o=10, **own)
    metric = text.format(units="mm", t=19.05, sheet="2438.4, 1219.2", w=609.6, h=762, d=406.4, o=254, **own)
    a, b = set_out(inch, "a.toml"), set_out(metric, "a.toml")
    assert a.cabinets == b.cabinets
    assert a.setups == b.setups
    assert not [f for f in a.findings if f.code == "proof"]


def test_a_mixed_corner_of_two_dowels_and_three_screws_counts_buys_and_sets_out_right():
    """Dowels to locate, at 40 and 280; screws to draw up, at 80, 160 and 240: all on one line, 9 from the outside."""
    corner = recipe(("dowel", {"count": 2}), ("screw", {"count": 3, "first_mm": 80.0, "end_mm": 80.0}))
    rod = rod_of(job(cabinet(corner_joint=corner, back=None)))
    joint = next(j for j in rod.cabinets[0].joints if j.id == "left side / top")
    assert Counter(f.family for f in joint.fixings) == {"dowel": 2, "screw": 3}
    assert {f.family: f.duty for f in joint.fixings} == {"dowel": "both", "screw": "draws up"}
    assert sorted(round(f.at[1], 3) for f in joint.fixings) == [40.0, 80.0, 160.0, 240.0, 280.0]
    bought = Counter(h.item for j in rod.cabinets[0].joints if j.contact.place == "corner" for f in j.fixings
                     for h in f.hardware)  # fmt: skip
    assert bought == {"dowel 8x30": 8, "screw 4x50": 12}
    read = {e.feature: (s, e) for s in rod.setups for e in s.features if e.feature}
    for fixing in joint.fixings:
        setup, entry = read[fixing.halves[0].feature]
        assert setup.tool == {"dowel": "dowel jig", "screw": "drill and fence"}[fixing.family]
        assert entry.across.mm == 9.0
        assert entry.bears == {"dowel": "face_side", "screw": "back_side"}[fixing.family]
    assert prove(rod) == ()


def test_every_place_of_one_cabinet_may_be_joined_otherwise():
    rod = rod_of(job(cabinet(
        corner_joint=recipe("tongue"), shelf_joint=recipe("biscuit"), divider_joint=recipe("loose tenon"),
        bays=("rest", "rest"), width_mm=1100.0, depth_mm=420.0, back=back("planted", joint=recipe("nail")),
    )))  # fmt: skip
    by_place = {j.contact.place: {f.family for f in j.fixings} for j in rod.cabinets[0].joints}
    assert by_place == {
        "corner": {"tongue"}, "fixed shelf": {"biscuit"}, "divider": {"loose tenon"}, "planted back": {"nail"},
    }  # fmt: skip
    assert prove(rod) == ()
    assert overlaps(rod.cabinets[0]) == []


@pytest.mark.parametrize("name", [n for n in CARCASS if "fixed shelf" in KINDS[n].places])
def test_a_shelf_set_back_is_printed_so_on_both_halves(name):
    rod = rod_of(job(cabinet(shelf_joint=recipe(name), shelf_set_back_mm=20.0, depth_mm=420.0)))
    assert prove(rod) == ()
    shelf = [j for j in rod.cabinets[0].joints if j.contact.place == "fixed shelf"]
    assert {j.contact.set_back for j in shelf} == {20.0}
    read = {e.feature: e for s in rod.setups for e in s.features if e.feature}
    for joint in shelf:
        for fixing in joint.fixings:
            halves = [read.get(h.feature) for h in fixing.halves]
            if all(halves) and all(h.along.end_mm is None for h in halves):  # a keyhole's differ by its slide as well
                assert halves[0].along.mm == halves[1].along.mm + 20.0


def test_the_nature_of_every_family_is_said_in_whole():
    """Facts of the trade that the comparison and the pages read: each said, and none that contradicts its plan."""
    for name, kind in KINDS.items():
        n = kind.nature
        assert n.registers_on, name
        assert n.support, name
        assert 0 < n.board_mm[0] < n.board_mm[1], name
        assert (n.glue == "none") <= (not kind.glued), name
        assert n.demands_along_mm > 0, name
        assert n.demands_across_mm > 0, name
        assert bool(n.covered_by) <= bool(n.shows), name


@pytest.mark.parametrize("name", CARCASS)
def test_a_machine_that_its_nature_names_is_the_one_in_the_settings(name):
    rod = built(name, pins=replace(cabinet().pins, holes=1), back=None)
    features = {h.feature for j in rod.cabinets[0].joints for f in j.fixings if f.family == name
                for h in (*f.halves, *f.others) if h.feature}  # fmt: skip
    tools = {s.tool for s in rod.setups for e in s.features if e.feature in features}
    assert tools <= set(KINDS[name].nature.machines)
