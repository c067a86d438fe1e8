"""The registry: every check has its test and its page, findings come worst first, and say what a maker can read."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from rodwork.checks import kinds
from rodwork.checks.registry import checks, run_checks
from rodwork.checks.spot import Spot, listed, mm, told_once, too_little
from rodwork.model.finding import PRINTED
from rodwork.model.finish import Finish
from rodwork.model.job import CabinetEdging, Pins
from tests.building import back, cabinet, job, recipe, rod, rod_of
from tests.cabinets import built
from tests.checks.clothes_rails import with_rail
from tests.checks.own import BOLT, disc, hook, mortise, own
from tests.checks.run_cases import RUNS, run_rod
from tests.checks.shop import BASE, board, bore, rod_of_boards
from tests.checks.test_batten_void_small import HUNG
from tests.checks.test_bracket_blocked import HOOKED, VOID
from tests.checks.test_pins_out_of_place import off_its_pins
from tests.fronts.front_samples import doors, drawers
from tests.survey.alcoves import BOOKCASE, SOCKET, SURVEY, alcove_of

ROOT = Path(__file__).parents[2]
NAMES = sorted(p.stem for p in Path(kinds.__path__[0]).glob("*.py") if p.stem != "__init__")
MODEL_WORDS = (
    "feature",
    "pose",
    "outline",
    "void",
    "seat",
    "host",
    "guest",
    "kernel",
    "fixing",
    "contact",
    "face_",
    "_side",
)


@pytest.mark.parametrize("name", NAMES)
def test_every_check_has_its_test_and_its_page(name):
    assert (ROOT / "tests" / "checks" / f"test_{name}.py").is_file()
    page = (ROOT / "docs" / "checks" / f"{name}.md").read_text(encoding="utf-8")
    assert name.replace("_", "-") in page
    for head in ("## Why", "## The numbers", "## How to mend it", "## What it says"):
        assert head in page, f"{name}.md has no {head!r}"


FILM = Finish(film_mm=0.15, when="before assembly", mask="joints")


def in_alcove(words: str, survey: str = SURVEY) -> dict:
    """A cabinet that stands in the worked alcove, with these words."""
    alcove = alcove_of(words, survey)
    width, height, depth = alcove.size
    return {"alcove": alcove, "width_mm": width, "height_mm": height, "depth_mm": depth}


IN_THE_JOB = {
    "near_far_face": {"corner_joint": recipe(("dowel", {"depth_in_face_mm": 15.0}))},
    "beside_the_bore": {"thickness": 12.0},
    "near_an_edge_or_end": {"corner_joint": recipe(("dowel", {"first_mm": 15.0}))},
    "machining_that_meets": {"pins": Pins(back_mm=4.0)},
    "spacing": {"corner_joint": recipe(("dowel", {"count": 2})), "depth_mm": 400.0},
    "larger_than_sheet": {"width_mm": 1300.0, "bays": ("rest", "rest")},
    "cannot_be_made": {"corner_joint": recipe(("dowel", {"depth_in_face_mm": 10.0, "depth_in_end_mm": 19.0}))},
    "opening_not_as_asked": {"openings": (300.0, 350.0)},
    "bottom_hangs": {"sides": "between"},
    "back_play": {},
    "batten_void_small": {"hanging": HUNG, "back": back("grooved all round", void_mm=18.0)},
    "bracket_blocked": {
        "hanging": HOOKED,
        "back": VOID,
        "openings": ("rest",),
        "loose_shelves": (0,),
        "drawers": drawers(1),
        "depth_mm": 400.0,
    },
    "clothes_rail_depth": with_rail(depth_mm=500.0),
    "clothes_rail_height": with_rail(clothes="long", height_mm=1400.0),
    "clothes_rail_span": with_rail(width_mm=1300.0),
    "bores_that_show": {"corner_joint": recipe("screw")},
    "lifting": {},
    "out_of_reach": {"corner_joint": own(BOLT), "openings": (45.0, "rest"), "loose_shelves": (0, 0)},
    "through_edging": {"corner_joint": own(mortise(), first_mm=10.0)},
    "end_of_arc": {"corner_joint": own(disc(), first_mm=25.0)},
    "slot_cover": {"corner_joint": own(mortise())},
    "nothing_to_bear_on": {"corner_joint": own(disc(), first_mm=25.0)},
    "nothing_to_spring": {"corner_joint": own(mortise(glued=False))},
    "slide_blocked": {"shelf_joint": own(hook(-12))},
    "edging_forgotten": {"edging": CabinetEdging(edging="birch", on=("shelf fronts",))},
    "hinge_against_shelf": {"doors": doors("left", openings=2), "openings": (65.0, "rest"), "loose_shelves": (0, 0)},
    "drawer_bottom_sags": {
        "drawers": drawers(1),
        "openings": ("rest",),
        "loose_shelves": (0,),
        "width_mm": 800.0,
        "depth_mm": 560.0,
    },
    "holes_not_balanced": {"pins": Pins(start_mm=16.0)},
    "door_against_neighbour": {
        "doors": doors(("right", "left"), handle=128.0),
        "openings": ("rest",),
        "bays": ("rest", "rest"),
        "width_mm": 900.0,
    },
    "hinge_cup": {
        "doors": doors("left", sides=3.0, hinge_fixed=(17.0,), plates=(0.0,)),
        "openings": ("rest",),
        "loose_shelves": (0,),
        "back": None,
        "edging": None,
        "thickness": 25.0,
    },
    "film_in_margin": {
        "doors": doors("pair", style="inset", between=1.5),
        "finish": FILM,
        "openings": ("rest",),
        "loose_shelves": (0,),
    },
    "film_in_channel": {"shelf_joint": recipe("tongue"), "finish": replace(FILM, mask="nothing")},
    "glue_on_finish": {"finish": replace(FILM, mask="nothing")},
    "scribe_allowance": in_alcove(BOOKCASE + "scribes = { left = 28 }\n"),
    "service_covered": in_alcove(BOOKCASE, SURVEY + SOCKET),
    "will_not_enter": in_alcove(BOOKCASE.replace("2000", "2380")),
    "loose_shelf_entry": {
        "doors": doors("pair", style="inset", openings=2),
        "openings": (150.0, "rest"),
        "loose_shelves": (1, 0),
        "shelf_set_back_mm": 21.0,
        "edging": None,
    },
    "drawer_against_door": {
        "doors": doors("right", bays=[1], handle=128.0),
        "drawers": drawers(2, bays=[2]),
        "bays": ("rest", "rest"),
        "openings": ("rest",),
        "loose_shelves": (0,),
        "width_mm": 1000.0,
        "depth_mm": 560.0,
        "edging": None,
    },
    "grain_of_fronts": {
        "doors": (doors("left", bays=[1]), doors("right", bays=[2], grain="across")),
        "bays": ("rest", "rest"),
        "width_mm": 900.0,
        "openings": ("rest",),
        "edging": None,
    },
    "door_too_tall": {"doors": doors("left", hinges=2, openings=2), "height_mm": 2100.0},
}


BROKEN = {"pins_out_of_place": off_its_pins}  # what no job file comes to


def one_cabinet(thickness=17.6, **changes):
    return rod_of(job(cabinet(**changes), thickness=thickness))


@pytest.mark.parametrize("name", NAMES)
def test_the_page_quotes_what_the_check_really_says(name):
    made = run_rod(name) if name in RUNS else BROKEN[name]() if name in BROKEN else one_cabinet(**IN_THE_JOB[name])
    said = [f"{PRINTED[f.severity]} {f.message} {f.mend}" for f in checks()[name.replace("_", "-")].look(made)]
    page = (ROOT / "docs" / "checks" / f"{name}.md").read_text(encoding="utf-8")
    quoted = " ".join(line[2:] for line in page.splitlines() if line.startswith("> "))
    assert quoted in said


def test_the_folder_is_the_list_and_codes_are_its_names():
    assert sorted(checks()) == [n.replace("_", "-") for n in NAMES]
    assert all(check.title for check in checks().values())


def test_an_ordinary_sound_cabinet_has_nothing_but_the_play_of_its_back():
    assert [f.code for f in run_checks(rod()) if f.severity != "note"] == ["back-play"]


@pytest.mark.parametrize("thickness", [15.0, 15.7, 16.0, 17.6, 18.2, 19.0, 22.0, 25.0])
@pytest.mark.parametrize("style", ["rebated", "rebated in the sides", "planted", "grooved in the sides"])
@pytest.mark.parametrize("shelf", ["dowel", "housing", "screw"])
def test_ordinary_boards_and_backs_are_sound(thickness, style, shelf):
    """Doweled corners in every board in ordinary sale, as the families set them out: nothing to put right."""
    made = rod_of(job(cabinet(back=back(style), shelf_joint=recipe(shelf)), thickness=thickness))
    shows = {"bores-that-show"} if shelf == "screw" else set()
    assert {f.code for f in run_checks(made) if f.severity != "note"} == shows


def test_findings_come_worst_first_then_by_cabinet_and_board():
    one = rod(sides="between", corner_joint=recipe(("dowel", {"depth_in_face_mm": 15.0})), board="birch18")
    two = replace(one, cabinets=(one.cabinets[0], replace(one.cabinets[0], name="second")))
    found = run_checks(two)
    worst = [list(PRINTED).index(f.severity) for f in found]
    assert worst == sorted(worst)
    faults = [f for f in found if f.severity == "fault"]
    assert [f.cabinet for f in faults] == ["glaze", "second"]
    assert len({f.severity for f in found}) == 3


def test_equal_troubles_of_left_and_right_are_told_once():
    found = [
        f for f in run_checks(rod(corner_joint=recipe(("dowel", {"depth_in_face_mm": 15.0})))) if f.severity == "fault"
    ]
    assert len(found) == 1
    assert found[0].message.startswith("Left side and right side, inside: ")
    assert found[0].where[:2] == ("left side", "right side")
    assert sum(1 for w in found[0].where if w.endswith("h")) == 16  # four dowels in each of four corners


def test_unequal_troubles_stay_apart():
    part = board(bore("a", (100.0, 100.0, 18.0), depth=16.0), bore("b", (200.0, 100.0, 18.0), depth=17.0))
    assert len(run_checks(rod_of_boards(part))) == 3  # two depths, and the note on the sheet


def test_the_first_place_is_told_and_how_many():
    spots = [
        Spot(severity="note", parts=(board(),), ids=(i,), what="x", mend="y", place=f"{i} from the front edge")
        for i in ("7", "8")
    ]
    (one,) = told_once("c", BASE.cabinets[0], spots)
    assert one.message == "Left side: x, in 2 places, the first 7 from the front edge."
    assert one.where == ("left side", "7", "8")


def test_what_is_left_is_never_told_as_the_limit():
    assert (too_little(2.96), too_little(2.9999), too_little(0.6), too_little(3.0), mm(2.96)) == (
        "2.9",
        "2.9",
        "0.6",
        "3",
        "3",
    )


def test_lists_of_boards():
    assert (listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])) == ("a", "a and b", "a, b and c")


@settings(max_examples=60, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(built())
def test_in_any_cabinet_findings_name_what_is_there_in_words_of_the_trade(b):
    for f in run_checks(b.rod):
        c = b.rod.cabinet[f.cabinet]
        known = {p.id for p in c.parts} | {j.id for j in c.joints} | {x.id for p in c.parts for x in p.features}
        assert set(f.where) <= known
        assert f.severity in PRINTED
        for sentence in (f.message, f.mend):
            assert sentence[0].isupper()
            assert sentence.endswith(".")
        assert f.source
        assert re.search(r"\d", f.message) or f.code in ("bottom-hangs", "machining-that-meets")
        said = f"{f.message} {f.mend}".lower()
        assert not [w for w in MODEL_WORDS if w in said], said
        assert not {"none", "nan"} & set(said.split())


@settings(max_examples=20, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(built())
def test_checks_read_the_rod_as_it_is_saved(b):
    from rodwork.model.rod import Rod

    assert run_checks(Rod.from_dict(b.rod.to_dict())) == run_checks(b.rod)
