"""Scribes as boards of the job: where they stand, how wide, what fixes them, and that nothing else is moved by them."""

import pytest

from rodwork.documents.pictorial import part_box
from rodwork.pipeline import cutting, dry_fit, load, set_out
from tests.survey.alcoves import BOOKCASE, SURVEY, job_text, with_line


def rod_of(cabinet: str = BOOKCASE, survey: str = SURVEY):
    return set_out(job_text(cabinet, survey), "job.toml")


@pytest.fixture(scope="module")
def library():
    return rod_of().cabinets[0]


def test_each_scribe_lies_flush_with_the_front_against_its_side(library):
    for side, (low, high) in {"left": (-41, 0), "right": (1150, 1199)}.items():
        a, b = part_box(library.part[f"{side} scribe"])
        assert (a[0], b[0]) == (low, high)
        assert (a[1], b[1]) == (0, 17.6)
        assert (a[2], b[2]) == (0, 2000)


def test_each_batten_fits_in_the_narrowest_gap_behind_its_scribe_and_over_the_skirting(library):
    for side in ("left", "right"):
        strip = library.asked.alcove.scribe(side)
        a, b = part_box(library.part[f"{side} scribe batten"])
        assert b[0] - a[0] == pytest.approx(17.6)
        assert strip.least > 17.6
        assert a[1] == 17.6
        assert a[2] == 120
        assert 0 in (a[0] - 1150, b[0]), "against the outside of the side"


def test_a_gap_too_narrow_for_a_batten_has_none():
    tight = rod_of(BOOKCASE + "scribes = { least = 12 }\n", with_line("skirting", "")).cabinets[0]
    assert {p.id for p in tight.parts if p.role == "scribe"} == {"left scribe", "right scribe"}


def test_scribes_are_outside_the_box_and_have_marks_of_their_own(library):
    strips = [p for p in library.parts if p.role == "scribe"]
    assert not any(p.in_box for p in strips)
    assert {m for p in strips for m in p.marks} == {"L1-SCL", "L1-SCR", "L1-SBL", "L1-SBR"}
    assert library.size == (1150, 2000, 300)


def test_pins_and_screws_are_bought_for_them(library):
    """A pin each 150 and a screw each 400, with one at the end of each run: two runs of 2000."""
    assert {i.item: i.count for i in library.hardware} == {"panel pin 40 mm": 2 * 15, "screw 4x30": 2 * 6}


def test_the_outside_of_a_side_is_hidden_by_its_scribe(library):
    free = rod_of(BOOKCASE.replace('alcove = "alcove"', "width = 1150"))
    assert "back_side" in free.cabinets[0].part["left side"].shows
    assert "back_side" not in library.part["left side"].shows


def test_the_carcass_is_the_one_of_a_unit_of_that_width(library):
    free = rod_of(BOOKCASE.replace('alcove = "alcove"', "width = 1150")).cabinets[0]
    assert [(p.id, p.size) for p in free.parts] == [(p.id, p.size) for p in library.parts if p.role != "scribe"]
    assert free.joints == library.joints


def test_the_other_stations_take_a_unit_in_an_alcove():
    rod = rod_of()
    assert not [f for f in rod.findings if f.severity == "fault"]
    sawn = {m for board in cutting(rod, steps=50).boards for s in board.sheets for p in s.sawn for m in p.marks}
    assert {"L1-SCL", "L1-SCR", "L1-SBL", "L1-SBR"} <= sawn
    assert load(rod).cabinets
    assert dry_fit(rod, samples=64).cabinets


@pytest.mark.parametrize(
    ("cabinet", "survey", "say"),
    [
        (BOOKCASE.replace('"alcove"', '"alcov"'), SURVEY, 'Did you mean "alcove"?'),
        (BOOKCASE + "count = 2\n", SURVEY, "one alcove and more than one cabinet"),
        (BOOKCASE.replace('alcove = "alcove"', "width = 900\nscribes = { least = 20 }"), SURVEY, "no alcove"),
        (BOOKCASE.replace("height = 2000\n", ""), with_line("ceiling", ""), "Write height = ..."),
        (BOOKCASE + "scribes = { lest = 20 }\n", SURVEY, "Did you mean least?"),
        (BOOKCASE + 'scribes = { board = "oak" }\n', SURVEY, "there is no [boards.oak]"),
        (BOOKCASE + "above_floor = -5\n", SURVEY, "under 0 mm"),
        (BOOKCASE, with_line("widths", "widths = [12, 1206, 1215]"), "under 100 mm"),
    ],
)
def test_a_unit_that_cannot_stand_in_an_alcove_is_told(cabinet, survey, say):
    from rodwork.job.faults import JobFaults

    with pytest.raises(JobFaults) as problem:
        rod_of(cabinet, survey)
    assert say in str(problem.value)


def test_a_unit_wider_than_the_opening_has_no_scribes_and_is_told_that_it_will_not_enter():
    rod = rod_of(BOOKCASE + "width = 3000\n")
    assert [p.id for p in rod.cabinets[0].parts if p.role == "scribe"] == []
    assert [f.code for f in rod.findings if f.code in ("proof", "will-not-enter")] == ["will-not-enter"]
