"""What is cut out through an edging. Geometry: it comes out, or it does not."""

from dataclasses import replace

import pytest

from rodwork.model.feature import Slot
from rodwork.model.panel import EdgingOnPart
from tests.building import cabinet, job, recipe, rod_of
from tests.checks.own import mortise, own
from tests.checks.shop import DOWN, IN, board, channel, rod_of_boards, told

CODE = "through-edging"
EDGED = EdgingOnPart(face_edge=1.0)


def slot(v, length=24.0, stage="after edging"):
    return Slot(id="s", role="seat", joint=None, stage=stage, at=(100.0, v, 18.0), into=DOWN, along=IN, depth=10.0,
                width=8.0, length=length, ends="round", end_radius=4.0)  # fmt: skip


@pytest.mark.parametrize(("v", "out"), [(12.5, False), (12.0, True), (5.0, True)])
def test_a_slot_that_reaches_the_edged_edge(v, out):
    """24 long, its middle v from the front: it reaches to v less 12."""
    assert bool(told(CODE, rod_of_boards(board(slot(v), edging=EDGED)))) is out


def test_a_raw_edge_and_a_slot_cut_before_are_let_be():
    assert told(CODE, rod_of_boards(board(slot(5.0)))) == []
    assert told(CODE, rod_of_boards(board(slot(5.0, stage="before edging"), edging=EDGED))) == []


def test_a_groove_right_through_the_edging_is_told_with_its_width():
    through = channel("g", (100.0, 160.0, 18.0), 6.0, 6.0, 320.0, along=IN)
    (found,) = told(CODE, rod_of_boards(board(through, edging=EDGED)))
    assert "6 wide, is cut out through the front edge when its edging of 1 is on" in found.message


def test_the_edge_that_a_slot_is_cut_into_is_not_one_it_comes_out_at():
    into_the_edge = replace(slot(0.0), at=(100.0, 0.0, 9.0), into=(0.0, 1.0, 0.0), along=(1.0, 0.0, 0.0))
    assert told(CODE, rod_of_boards(board(into_the_edge, edging=EDGED))) == []


def test_the_families_here_stop_or_cut_first():
    for shelf in ("housing", "dowel"):
        assert told(CODE, rod_of(job(cabinet(shelf_joint=recipe(shelf))))) == []
    assert told(CODE, rod_of(job(cabinet(corner_joint=own(mortise()))))) == []
