"""Published lists that leave no room for the saw: as drawn without it, and what the plan says with it.

Source: two plywood shelf plans of one public repository (consoleShelves2.md, computerShelves.md), both from one sheet
of 122 x 244 cm; sizes as their authors give them, in cm, here in tenths of a millimetre.
"""

import pytest

from rodwork.sheets.but_for_the_saw import but_for_the_saw
from rodwork.sheets.lay_out import lay_out
from rodwork.sheets.plan import about_the_saw
from rodwork.sheets.problem import Effort, Kind, Piece, Problem, Rules
from tests.sheets.validator import faults

MEDIA_SHELF = [(610, 500)] * 2 + [(520, 500)] * 2 + [(480, 480)] * 5 + [(610, 240)] * 2
COMPUTER_SHELF = [(610, 420)] * 2 + [(650, 420)] * 2 + [(610, 400)] * 6
EFFORT = Effort(steps=4000, polish=0)


def listed(sizes, kerf):
    pieces = tuple(Piece(name=f"{n}", wide=10 * w, high=10 * h, turn=True) for n, (w, h) in enumerate(sizes))
    sheet = Kind(name="sheet", wide=24400, high=12200, cost=1)
    return Problem(pieces=pieces, kinds=(sheet,), rules=Rules(kerf=kerf))


@pytest.mark.parametrize("sizes", [MEDIA_SHELF, COMPUTER_SHELF], ids=["media shelf", "computer shelf"])
def test_one_sheet_without_a_saw_cut_as_published_and_two_with_one(sizes):
    bare = listed(sizes, 0)
    laid = lay_out(bare, EFFORT)
    assert len(laid.sheets) == 1
    assert faults(bare, laid) == []
    real = listed(sizes, 30)
    laid = lay_out(real, EFFORT)
    assert len(laid.sheets) == 2
    spared = but_for_the_saw(real, laid)
    assert spared is not None
    assert spared.sheets == 1
    (finding,) = about_the_saw("ply", real, laid)
    assert "1 sheet would do if the saw took nothing" in finding.message
    assert "would do, or boards that are smaller" in finding.mend
    assert 0 < spared.longer + spared.wider <= 2 * 180


def test_what_would_mend_it_does():
    real = listed(COMPUTER_SHELF, 30)
    spared = but_for_the_saw(real, lay_out(real, EFFORT))
    (kind,) = real.kinds
    larger = Kind(name="larger", wide=kind.wide + spared.longer, high=kind.high + spared.wider, cost=1)
    assert len(lay_out(Problem(pieces=real.pieces, kinds=(larger,), rules=real.rules), EFFORT).sheets) == 1


def test_a_list_that_the_saw_costs_nothing_is_passed_over():
    loose = listed([(600, 400)] * 4, 30)
    assert but_for_the_saw(loose, lay_out(loose, EFFORT)) is None
