"""Larger than its sheet: arithmetic. The trim of 10 a side: common practice, no source. Sheets 2440 x 1220."""

from dataclasses import replace

import pytest

from rodwork.pipeline import set_out
from tests.building import rod
from tests.checks.shop import BASE, board, rod_of_boards, told
from tests.texts import HEAD

CODE = "larger-than-sheet"


def cut(length, width, *, grain=True, stock_grain=True, edging=0.0):
    boards = {**BASE.boards, "birch18": replace(BASE.boards["birch18"], grain=stock_grain)}
    part = board(size=(length + edging, width + edging, 17.6), cut=(length, width), grain=grain)
    return rod_of_boards(part, boards=boards)


@pytest.mark.parametrize(
    ("size", "severity"),
    [
        ((2420.0, 1200.0), None),
        ((2420.1, 1200.0), "warning"),
        ((2420.0, 1200.1), "warning"),
        ((2440.0, 1220.0), "warning"),
        ((2440.1, 1220.0), "fault"),
        ((2440.0, 1220.1), "fault"),
        ((600.0, 1300.0), "fault"),
    ],
)
def test_with_and_without_the_trim(size, severity):
    assert [f.severity for f in told(CODE, cut(*size))] == ([severity] if severity else [])


def test_the_dust_of_arithmetic_is_no_trouble():
    assert told(CODE, cut(2420.0 + 1e-9, 1200.0 + 1e-9)) == []


def test_only_grain_keeps_a_board_from_being_turned():
    assert len(told(CODE, cut(1200.0, 2420.0))) == 1
    assert told(CODE, cut(1200.0, 2420.0, grain=False)) == []
    assert told(CODE, cut(1200.0, 2420.0, stock_grain=False)) == []
    assert len(told(CODE, cut(1230.0, 2420.0, grain=False))) == 1


def test_it_is_the_sawn_size_that_counts_and_not_the_edged_one():
    assert told(CODE, cut(2420.0, 1200.0, edging=2.0)) == []


def test_what_it_says_to_do():
    (found,) = told(CODE, cut(1300.0, 1230.0))
    assert found.message == (
        "Left side: 1300 x 1230, grain along the first, does not come out of a 2440 x 1220 sheet: 2420 x 1200 is the most "
        "after a trim of 10 a side."
    )
    assert found.mend == "Use a sheet of at least 1320 x 1250, join it from two boards, or make it 2420 x 1200 or less."
    (found,) = told(CODE, cut(600.0, 1300.0))
    assert "let its grain run the other way, 1300 along it" in found.mend
    assert told(CODE, cut(1300.0, 600.0)) == []


def test_a_back_with_its_grain_up_in_a_wide_cabinet():
    assert told(CODE, rod(width_mm=1200.0, bays=("rest", "rest"))) == []
    (found,) = told(CODE, rod(width_mm=1300.0, bays=("rest", "rest")))
    assert (found.where, found.severity) == (("back",), "fault")


BENCH = '[cabinets.it]\nwidth = 1600\nheight = 420\ndepth = 400\nboard = "birch18"\nback = { board = "birch6", style = '


@pytest.mark.parametrize("style", ["grooved all round", "rebated in the sides", "planted"])
def test_a_back_wider_than_its_sheet_runs_across_where_nothing_else_is_said(style):
    """A window seat of 1600: no sheet of 1220 gives its back with the grain up, and none is asked for. Common practice."""
    made = set_out(f'{HEAD}{BENCH}"{style}" }}\n', "it.toml")
    assert CODE not in {f.code for f in made.findings}
    length, width, _ = made.cabinets[0].part["back"].size
    assert length > 1560 > 450 > width
    said = set_out(f'{HEAD}{BENCH}"{style}", grain = "up" }}\n', "it.toml")
    assert CODE in {f.code for f in said.findings}


def test_a_back_that_comes_out_upright_stays_upright():
    made = set_out(f'{HEAD}{BENCH}"planted" }}\n'.replace("1600", "1200"), "it.toml")
    length, width, _ = made.cabinets[0].part["back"].size
    assert (length, width) == (418.0, 1198.0)
