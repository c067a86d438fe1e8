"""A family written as data: found, read, set out, proven and costed with no other edit; and all that can be wrong in it.

The laws are those of every family (tests/laws), run over it in all the cabinets that they are run over.
"""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings

from rodwork.job.faults import JobFaults
from rodwork.job.own_families import read_family
from rodwork.job.schema import own_family_schema
from rodwork.job.starter import family_starter
from rodwork.joints.own import own_kind, settings_of
from rodwork.model.job import CannotBuild, Recipe, Use
from rodwork.pipeline import set_out
from rodwork.setout.proof import prove
from tests.building import PLACE, job, rod_of
from tests.cabinets import Built, cabinets
from tests.laws import test_joint_laws as laws

ROOT = Path(__file__).parents[2]
BOLT = (ROOT / "examples/families/bolt-and-barrel-nut.toml").read_text(encoding="utf-8")
RACK = (ROOT / "examples/travelling-rack.toml").read_text(encoding="utf-8")

LUG = """
[family]
name = "lug"
title = "Lugs"
law = "meet"
places = ["corner", "fixed shelf", "divider"]
length = 30
goes_home = 18

[nature]
registers_on = "outer face, and END"
board = [12, 30]
demands_along = 0.2
demands_across = 0.2

[play]
along = 0.1
across = 0.1

[[cut]]
board = "face"
kind = "slot"
width = 6
length = 24
ends = "round"
end_radius = 3
depth = 8
tool = "router and fence"

[[cut]]
board = "end"
kind = "slot"
width = 6
length = 24
ends = "round"
end_radius = 3
depth = 19
tool = "router and fence"

[[hardware]]
item = "lug"
"""
INNER = BOLT.replace('duty = "draws up"', 'duty = "draws up"\nset_out_from = "inner face"').replace(
    'name = "bolt and', 'name = "inner bolt and'
)
FAMILIES = {
    "inner": read_family(INNER, "inner.toml"),
    "bolt": read_family(BOLT, "bolt.toml"),
    "lug": read_family(LUG, "lug.toml"),
}


def recipe_of(family):
    use = Use(family=family.name, settings=settings_of(family)(), place=PLACE)
    return Recipe(name=family.name, uses=(use,), place=PLACE)


@pytest.mark.parametrize("family", FAMILIES.values(), ids=FAMILIES)
@pytest.mark.parametrize(
    "law",
    [laws.test_halves_meet, laws.test_every_void_lies_inside_its_board,
     laws.test_registering_surfaces_lie_in_one_plane_or_differ_by_what_is_printed,
     laws.test_each_printed_number_is_within_half_a_step_and_rows_do_not_spread],
    ids=lambda law: law.__name__,
)  # fmt: skip
def test_it_obeys_the_laws_of_every_family_in_every_cabinet(family, law):
    @settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
    @given(cabinets())
    def over_cabinets(asked):
        own = recipe_of(family)
        asked = replace(asked, corner_joint=own, shelf_joint=own, divider_joint=own)
        try:
            in_job = job(asked)
            made = Built(in_job, rod_of(in_job))
        except CannotBuild:
            assume(False)
        law.hypothesis.inner_test(made)
        assert not prove(made.rod)

    over_cabinets()


def test_a_file_dropped_beside_the_job_is_a_family_that_it_can_use():
    """Found, read, set out, proven, bought: with no other edit. And a data file is all that is new."""
    rod = set_out(RACK, "rack.toml", lambda name: BOLT.encode())
    fixings = [f for j in rod.cabinets[0].joints for f in j.fixings]
    assert {f.family for f in fixings} == {"bolt and barrel nut"}
    assert len(fixings) == 2 * 2 * 5
    assert not [f for f in rod.findings if f.code == "proof"]
    assert {i.item for f in fixings for i in f.hardware} == {"bolt M6x60", "barrel nut M6"}


def test_its_numbers_are_where_its_file_says():
    """The nut 34 from the end on the inner face, in the end a bore at the same fence as in the side."""
    rod = set_out(RACK, "rack.toml", lambda name: BOLT.encode())
    nuts = [s for s in rod.setups if s.cutter == "10 mm"]
    assert {(s.fence.mm, s.depth, s.registers_on) for s in nuts} == {
        (34.0, 13.0, "left end"),
        (34.0, 13.0, "right end"),
    }
    bolts = [s for s in rod.setups if s.cutter == "7 mm"]
    assert {s.fence.mm for s in bolts} == {9.0}
    assert {s.stop for s in (*nuts, *bolts)} == {(60.0, 190.0)}


def test_thickness_moves_no_fence_and_no_depth():
    def worked(actual):
        rod = set_out(RACK.replace("actual = 17.8", f"actual = {actual}"), "rack.toml", lambda name: BOLT.encode())
        return [(s.cutter, s.fence and s.fence.mm, s.depth) for s in rod.setups if not s.tool.startswith("saw")]

    assert worked(17.6) == worked(18.2)


def test_it_may_be_mixed_with_any_other_family():
    mixed = RACK.replace("count = 2 }]", 'count = 2 }, { family = "dowel", first = 30, end = 30 }]')
    rod = set_out(mixed, "rack.toml", lambda name: BOLT.encode())
    assert {f.family for j in rod.cabinets[0].joints for f in j.fixings} == {"bolt and barrel nut", "dowel"}


@pytest.mark.parametrize(("actual", "fence"), [(17.4, 8.5), (18.2, 9.0)])
def test_set_out_from_the_inner_face_its_numbers_at_a_corner_are_from_there(actual, fence):
    """The nut is in the inner face either way. The bores in the ends of top and bottom are at the half millimetre nearest
    the middle, from the inside."""
    text = RACK.replace("actual = 17.8", f"actual = {actual}").replace(
        'bolt and barrel nut"', 'inner bolt and barrel nut"'
    )
    rod = set_out(text.replace("inner inner", "inner"), "rack.toml", lambda name: INNER.encode())
    (c,) = rod.cabinets
    nuts = [f for f in c.part["top"].features if f.role == "access"]
    assert {f.mouth for f in nuts} == {"face_side"}  # the inside
    ends = [s for s in rod.setups if s.cutter == "7 mm" and s.stands_on == "the end"]
    assert {s.registers_on for s in ends if any(e.part == "top" for e in s.features)} == {"inside"}
    assert {s.fence.mm for s in ends} == {fence}
    assert not [f for f in rod.findings if f.code == "proof"]


def test_mixed_with_a_family_that_is_set_out_from_inside_its_nuts_stay_inside():
    mixed = RACK.replace("count = 2 }]", 'count = 2 }, { family = "cam", first = 100 }]')
    rod = set_out(mixed, "rack.toml", lambda name: BOLT.encode())
    (c,) = rod.cabinets
    bolts = {h.feature for j in c.joints for f in j.fixings if "bolt and" in f.family for h in f.others}
    nuts = [f for f in c.part["top"].features if f.id in bolts]
    assert nuts
    assert {f.mouth for f in nuts} == {"face_side"}
    assert not [f for f in rod.findings if f.code == "proof"]


def test_two_files_that_differ_are_two_families_with_their_own_settings():
    one, other = FAMILIES["bolt"], replace(FAMILIES["bolt"], least_apart_mm=50.0)
    assert own_kind(one) is own_kind(one)
    assert settings_of(one)().family is not settings_of(other)().family


def test_boards_that_it_does_not_work_in_are_refused_in_words():
    with pytest.raises(JobFaults, match="want boards of 16 to 30 mm, and this one is 12"):
        set_out(RACK.replace("thickness = 18", "thickness = 12").replace("17.8", "12"), "rack.toml",
                lambda name: BOLT.encode())  # fmt: skip


def wrong(text):
    with pytest.raises(JobFaults) as caught:
        read_family(text, "ours.toml")
    return [str(fault) for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (('law = "line"', 'law = "lien"'), 'Did you mean "line"?'),
        (("[nature]", "[natrue]"), "Did you mean nature?"),
        (("draws_up = true", "draw_up = true"), "Did you mean draws_up?"),
        (("diameter = 10", "diameter = -10"), "diameter is -10, which is under 0.1 mm"),
        (("diameter = 10", "diameter = nan"), "diameter"),
        (("diameter = 10", "diameter = 0"), "diameter is 0, which is under 0.1 mm"),
        (("depth = 46", "depth = 1e9"), "not a length for a shop"),
        (("depth = 46", 'depth = "through"'), "only a bore through the thickness of a board goes through"),
        (("out = 34", "along = 34"), "a cut across the board has no out"),
        (('from = "other face"', 'from = "joint"'), 'wants one cut with board = "face", from = "other face"'),
        (("length = 60\n", ""), "has no length"),
        (("pieces = 50", "pieces = 0"), "pieces is 0"),
        (('kind = "bore"\nrole = "access"', 'kind = "bor"\nrole = "access"'), 'Did you mean "bore"?'),
        (("depth = 46", "depth = 46\nhead = 12\nkind2 = 1"), "kind2 is not a word that is known here"),
        (('title = "Bolts and barrel nuts"', "title = 3"), "title is 3, which is not text"),
        (("\nalong = 0.5", "\nalong = -0.5"), "along is -0.5, which is under 0 mm"),
        (("\nacross = 0.5", "\nacross = nan"), "across"),
        (("\nacross = 0.5", "\nacross = 1e9"), "not a length for a shop"),
        (("\nacross = 0.5", "\nacross = 0.5\nshort = 2"), "it does not slide, and so comes short of no stop"),
    ],
)
def test_what_is_wrong_is_told_with_its_line(change, says):
    assert change[0] in BOLT
    said = wrong(BOLT.replace(*change, 1))
    assert any(says in one for one in said), said
    assert all(one.startswith("ours.toml:") for one in said)


def test_all_faults_are_told_at_once():
    said = wrong(
        BOLT.replace('law = "line"', 'law = "lien"').replace("out = 34", "out = -4").replace("along = 0.5", "x = 1")
    )
    assert len(said) >= 4


def test_halves_that_do_not_stand_in_one_place_are_refused():
    assert any("do not stand in one place" in one for one in wrong(LUG.replace("depth = 19", "depth = 19\nalong = 2")))


@pytest.mark.parametrize("name", ["/etc/passwd.toml", "../up.toml", "ours.txt", "c:/ours.toml", "..\\ours.toml"])
def test_only_files_beside_the_job_are_read(name):
    def fetched(name):
        raise AssertionError(f"{name} was read")

    with pytest.raises(JobFaults, match="is no file beside this one"):
        set_out(RACK.replace("families/bolt-and-barrel-nut.toml", name.replace("\\", "\\\\")), "rack.toml", fetched)


def test_a_file_that_is_not_there_is_told_on_the_line_that_names_it():
    with pytest.raises(JobFaults, match=r"rack.toml:6: .*cannot be read"):
        set_out(RACK, "rack.toml")


def test_the_name_of_a_family_that_is_there_already_is_refused():
    with pytest.raises(JobFaults, match='there is a family called "dowel" already'):
        set_out(RACK, "rack.toml", lambda name: BOLT.replace('name = "bolt and barrel nut"', 'name = "dowel"').encode())


def test_an_editor_can_check_it():
    jsonschema = pytest.importorskip("jsonschema", reason="the reference validator is a development dependency")
    import tomllib

    checker = jsonschema.Draft202012Validator(own_family_schema())
    checker.check_schema(own_family_schema())
    for text in (BOLT, LUG):
        checker.validate(json.loads(json.dumps(tomllib.loads(text))))
    for bad in (BOLT.replace('law = "line"', 'law = "lien"'), BOLT.replace("diameter = 10", 'diameter = "x"')):
        assert not checker.is_valid(tomllib.loads(bad))


def test_the_starter_and_the_example_are_the_same():
    assert family_starter() == BOLT
