"""A run against a surveyed wall: the real alcove of the survey's own page, and labels that say where a board goes."""

import pytest

from rodwork.documents.labels import destination
from rodwork.documents.run_pages import run_pages
from rodwork.job.faults import JobFaults
from tests.documents.page_laws import check_pages
from tests.runs.run_samples import boards_of, reach, rod_of

SURVEY = """
[surveys.alcove]
heights = [-900, 0, 1100]
widths = [1212, 1206, 1215]
back_widths = [1209, 1203, 1211]
depths = [640, 638, 642]
left_plumb = { out = 6, height = 2400 }
floor = [%s]
ceiling = [1400, 1396]

[cabinets.bench]
count = 2
width = 500
doors = { hung = "left" }
"""
RUN = (
    "survey = 'alcove'\nabove_floor = 150\nwhere = 'Kiln room, alcove'\n"
    "of = [{ infill = 'rest' }, 'bench', 'bench', { infill = 'rest' }]\nscrews = 'none'\n%s"
)


def surveyed(floor="-1000, -1008", more=""):
    return rod_of(RUN % more, SURVEY % floor)


def test_the_length_is_the_largest_straight_one_between_the_leaning_walls():
    """The walls read 1203 at the narrowest, at the back; no straight run can be longer than that."""
    run = surveyed().runs[0]
    assert 1190 < run.length <= 1203
    assert run.stack.left == run.length - 1000


def test_infills_are_as_wide_as_the_widest_gap_and_what_is_planed_off():
    rod = surveyed()
    run = rod.runs[0]
    left, right = boards_of(rod, "infill")
    showing = (run.length - 1000) / 2
    assert left.size[1] == pytest.approx(showing + 10 + run.out[0])
    assert right.size[1] == pytest.approx(showing + 10 + run.out[1])
    assert run.out[0] > 0
    survey = rod.surveys["alcove"]
    widest = run.origin - min(survey.left_at(y, z) for y in (0.0, survey.deep) for z in (-1000.0, -900.0, 0.0, -130.0))
    assert reach(left, 0)[0] <= -widest


def test_it_starts_from_the_high_point_of_the_floor():
    assert surveyed("-1000, -1008", "starts = 'high point'").runs[0].starts == "left"
    assert surveyed("-1008, -1000", "starts = 'high point'").runs[0].starts == "right"


def test_the_page_is_drawn_on_the_survey_and_obeys_the_laws():
    rod = surveyed()
    check_pages(run_pages(rod), rod)
    said = " ".join(s.text for p in run_pages(rod) for s in p.shapes if hasattr(s, "text"))
    assert "is 1000 above the floor's high point; the floor falls by 8" in said


@pytest.mark.parametrize(
    ("run", "says"),
    [
        ("survey = 'alcov'\nof = ['bench']", 'Did you mean "alcove"'),
        ("survey = 'alcove'\nlength = 1200\nof = ['bench']", "in two ways"),
        ("starts = 'high point'\nof = ['bench']", "none is named"),
        ("survey = 'alcove'\nof = ['bench', 'bench', { gap = 300 }]", "too long"),
    ],
)
def test_what_is_refused(run, says):
    with pytest.raises(JobFaults) as caught:
        rod_of(run, SURVEY % "-1000, -1008")
    assert any(says in f"{f.what}. {f.mend}" for f in caught.value.faults)


def test_a_label_says_where_the_finished_board_goes():
    rod = surveyed()
    assert destination(rod, rod.cabinet["bench"], "B2-LS") == "Kiln room, alcove, number 3 from the left"
    assert destination(rod, rod.cabinet["north"], rod.cabinet["north"].parts[0].marks[0]) == "Kiln room, alcove"
