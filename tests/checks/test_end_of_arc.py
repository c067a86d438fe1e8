"""The end of a round cutter's arc. The chord is geometry: 2 sqrt(d (2 r - d)); 54.3, 60.0 and 65.0 at 8, 10 and 12."""

from math import sqrt

import pytest

from rodwork.model.feature import ArcSlot
from tests.building import cabinet, job, rod_of
from tests.checks.own import disc, own
from tests.checks.shop import DOWN, IN, board, rod_of_boards, told

CODE = "end-of-arc"


def arc(v, depth=12.0):
    return ArcSlot(id="a", role="seat", joint=None, stage="after edging", at=(100.0, v, 18.0), into=DOWN, along=IN,
                   depth=depth, cutter_radius=50.0, thickness=4.0)  # fmt: skip


@pytest.mark.parametrize(("depth", "chord"), [(8.0, 54.26), (10.0, 60.0), (12.0, 64.99)])
def test_it_is_sound_with_3_mm_at_the_end_of_the_arc_and_not_with_less(depth, chord):
    assert 2 * sqrt(depth * (100 - depth)) == pytest.approx(chord, abs=0.005)
    assert told(CODE, rod_of_boards(board(arc(chord / 2 + 3.02, depth)))) == []
    (found,) = told(CODE, rod_of_boards(board(arc(chord / 2 + 2.9, depth))))
    assert found.severity == "warning"
    assert "leaves 2.8" in found.message or "leaves 2.9" in found.message


def test_it_comes_out_where_it_shows_and_where_it_does_not():
    """The front of a side shows, its back does not: 320 wide, the arc reaches 32.5 each way."""
    front, behind = (told(CODE, rod_of_boards(board(arc(v)))) for v in (25.0, 295.0))
    assert [f.severity for f in (*front, *behind)] == ["fault", "warning"]
    assert "comes out 7.5 beyond the front edge" in front[0].message
    assert "10.5 further" in front[0].mend


def test_it_holds_for_both_boards_of_a_corner_on_both_hands():
    (found,) = told(CODE, rod_of(job(cabinet(corner_joint=own(disc(), first_mm=25.0)))))
    assert found.message.startswith("Left side, right side, top and bottom: ")
    assert told(CODE, rod_of(job(cabinet(corner_joint=own(disc(), first_mm=50.0, end_mm=50.0), back=None)))) == []
