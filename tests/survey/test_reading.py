"""Readings off a level line become walls, and readings that contradict one another are told."""

from math import atan2, cos, hypot, sin

import pytest

from rodwork.job.faults import JobFaults
from rodwork.model.plain import from_plain, to_plain
from rodwork.model.survey import Survey
from tests.survey.alcoves import SOCKET, SURVEY, survey_of, with_line


def faults(text: str) -> list[str]:
    with pytest.raises(JobFaults) as problem:
        survey_of(text)
    return [str(f) for f in problem.value.faults]


def test_widths_are_read_back_where_they_were_taken():
    s = survey_of()
    assert [s.length_at(z) for z in (-900, 0, 1100)] == pytest.approx([1212, 1206, 1215])
    assert [s.length_at(z, y=338) for z in (-900, 0, 1100)] == pytest.approx([1209, 1203, 1211])


def test_the_left_wall_leans_as_its_plumb_says_and_crosses_the_line_at_nought():
    s = survey_of()
    assert s.left_at(0, 0) == 0
    assert s.left_at(0, 1400) - s.left_at(0, -1000) == pytest.approx(6)


def test_a_plumb_line_read_at_each_height_says_the_same_as_so_much_in_so_much():
    by_readings = with_line("left_plumb", "left_plumb = { readings = [10, 12.25, 15] }")
    assert survey_of(by_readings).left == pytest.approx(survey_of().left)


def test_the_right_walls_plumb_serves_where_the_left_has_none():
    right = with_line("left_plumb", "right_plumb = { readings = [0, 8, 4] }")
    s = survey_of(right)
    assert [s.right_at(0, z) - s.right_at(0, -900) for z in s.heights] == pytest.approx([0, -8, -4])


def test_nothing_is_taken_for_granted_in_silence():
    bare = with_line("left_plumb", "", with_line("floor", ""))
    said = " ".join(survey_of(bare).taken)
    assert "no plumb" in said
    assert "no floor" in said
    assert "square to the front" in said


def test_floor_and_ceiling_are_read_at_even_steps_between_the_walls():
    s = survey_of()
    assert s.high_point == -1000
    assert s.floor_at(603) == pytest.approx(-1004)
    assert s.floor_at(1206, 338) == pytest.approx(-1008)
    assert s.ceiling_at(1206) == 1396
    assert s.lowest_ceiling == 1396


def test_the_back_wall_runs_from_its_depth_at_the_left_to_that_at_the_right():
    s = survey_of(with_line("right_depths", "right_depths = [350, 348, 352]"))
    assert s.back_at(0, 0) == 338
    assert s.back_at(1203, 0) == 348
    assert s.back_at(601.5, 0) == pytest.approx(343)


def test_diagonals_give_the_lean_where_no_plumb_was_read():
    """Four corners drawn with a lean of 12 in 2000, measured off the drawing."""
    lean, high = 12.0, 2000.0
    up_right, up_left = hypot(lean + 1215, high), hypot(1212 - lean, high)
    text = with_line("left_plumb", f"diagonals = [{up_right:.2f}, {up_left:.2f}]")
    s = survey_of(text)
    assert s.left_at(0, 1100) - s.left_at(0, -900) == pytest.approx(lean, abs=0.1)


def test_diagonals_on_plan_turn_the_side_walls():
    """A figure turned out of square by a known angle, its diagonals worked out by coordinates."""
    angle = atan2(9.0, 338.0)
    left_back = (338 / cos(angle) * sin(angle), 338.0)
    right_back = (left_back[0] + 1203, 338.0)
    front_right = (1206.0, 0.0)
    diagonals = hypot(*right_back), hypot(front_right[0] - left_back[0], front_right[1] - left_back[1])
    s = survey_of(with_line("plan_diagonals", f"plan_diagonals = [{diagonals[0]:.3f}, {diagonals[1]:.3f}]"))
    assert s.left_at(338, 0) == pytest.approx(9, abs=0.05)


def test_a_wall_alone_has_a_length_at_every_height_and_no_back():
    s = survey_of("[surveys.alcove]\nheights = [-900, 900]\nwidths = [3612, 3606]\n")
    assert s.length_at(0) == pytest.approx(3609)
    assert s.back_at(100, 0) is None
    assert s.deep == 0


@pytest.mark.parametrize(
    ("word", "line", "say"),
    [
        ("widths", "widths = [1212, 1206]", "2 readings for 3 heights"),
        ("heights", "heights = [0, -900, 1100]", "do not rise"),
        ("widths", "widths = [1212, 1106, 1215]", "1213 would lie between"),
        ("depths", "depths = [340, 438, 342]", "341 would lie between"),
        ("depths", "", "back_widths is there and depths is not"),
        ("back_widths", "back_widths = [1209, 1203, 1311]", "1209, 1203 and 1311 one above another"),
        ("back_widths", "back_widths = [1209, 1233, 1261]", "from -3 to +46 against the front"),
        ("diagonals", "diagonals = [2400, 2340]", "cannot belong to widths of 1212 and 1215"),
        ("diagonals", "diagonals = [900, 2340]", "cannot belong"),
        ("plan_diagonals", "plan_diagonals = [1300, 1250]", "cannot belong to widths of 1206 and 1203"),
        ("right_plumb", "right_plumb = { out = 30, height = 2400 }", "the width grows by -30"),
        ("left_plumb", "left_plumb = { out = 6 }", "half of it"),
        ("left_plumb", "left_plumb = { out = 6, readings = [0, 3, 6] }", "not one way of saying it"),
        ("skirting", "skirting = { out = 18 }", "needs height and out"),
        ("floor", "floor = [-800]", "not below the lowest height"),
        ("floor", "floor = [1000]", "over 0 mm"),
        ("floor", "floor = [-1000, -1308]", "goes up and down by 308"),
        ("ceiling", "ceiling = [900]", "not above the highest height"),
        ("widths", "widths = [nan, 1206, 1215]", "not a length"),
        ("widths", "widths = [1e9, 1206, 1215]", "not a length"),
        ("widths", "widths = [-1212, 1206, 1215]", "under 100 mm"),
        ("widht", "widht = [1]", "Did you mean widths?"),
        ("widths", "", "has no widths"),
    ],
)
def test_readings_that_cannot_be_are_told(word, line, say):
    found = faults(with_line(word, line))
    assert any(say in f for f in found), found
    assert all(f.startswith("job.toml:") for f in found)


def test_a_survey_with_wrong_diagonals_is_told_once():
    assert len(faults(with_line("diagonals", "diagonals = [900, 2340]"))) == 1


def test_a_service_belongs_to_the_survey_it_names():
    (socket,) = survey_of(SURVEY + SOCKET).services
    assert (socket.wall, socket.low, socket.size, socket.out) == ("back", (300, -700), (146, 86), 10)


@pytest.mark.parametrize(
    ("line", "say"),
    [
        ('survey = "alcov"', 'Did you mean "alcove"?'),
        ('what = "soket"', 'Did you mean "socket"?'),
        ("low = [300]", "has 1 entry"),
        ("size = [0, 86]", "under 5 mm"),
    ],
)
def test_a_wrong_service_is_told(line, say):
    word = line.split(" = ")[0]
    wrong = "\n".join(line if row.split(" = ")[0] == word else row for row in SOCKET.splitlines()) + "\n"
    assert any(say in f for f in faults(SURVEY + wrong))


def test_a_survey_is_plain_data_and_back():
    s = survey_of(SURVEY + SOCKET)
    assert from_plain(Survey, to_plain(s)) == s
