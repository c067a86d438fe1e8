"""Splines: a strip in both halves of a mitre, near its inside. Common practice without a published source; geometry."""

from math import sqrt

import pytest

from rodwork.model.job import CannotBuild
from tests.joints.runs import planned, run


def mitre(board=18.0, **changes):
    values = {"place": "mitre", "guest_thickness": round(board * sqrt(2), 6), "host_thickness": board,
              "to_groove": False, "run_to": 320.0, "nears": sqrt(0.5)}  # fmt: skip
    return run(**{**values, **changes})


@pytest.mark.parametrize(("board", "strip", "deep", "offset"), [
    (12.0, 3.0, 6.0, 13.0), (15.0, 3.0, 7.5, 17.5), (18.0, 4.0, 9.0, 21.0), (25.0, 6.0, 12.5, 30.0),
])  # fmt: skip
def test_the_strip_is_under_a_quarter_of_the_board_and_stands_near_the_inside(board, strip, deep, offset):
    (one,) = planned("spline", mitre(board))
    cut = one.guest.cut
    assert (cut.width, cut.depth, cut.at[1]) == (strip, deep, offset)
    assert board * sqrt(2) - offset - strip / 2 >= 2.0
    left = (offset - strip / 2) * sqrt(0.5) - deep * sqrt(0.5)  # at the deep end, square to the outside
    assert left >= 3.0


def test_both_halves_are_one_groove_seen_from_both_boards():
    (one,) = planned("spline", mitre())
    host, guest = one.host.cut, one.guest.cut
    assert (host.at, host.width, host.length, host.depth) == (guest.at, guest.width, guest.length, guest.depth)
    assert one.hardware[0].item == "spline 4x17x295"  # 320 less 10 at both ends, 2 of the cutter and 0.5 each


def test_it_keeps_clear_of_a_back_groove_and_of_the_front():
    (one,) = planned("spline", mitre(to_groove=True, run_to=296.0))
    cut = one.host.cut
    assert cut.at[0] - cut.length / 2 == pytest.approx(10.0)
    assert cut.at[0] + cut.length / 2 == pytest.approx(296.0 - 12.0)


def test_through_it_runs_out_at_the_front():
    (one,) = planned("spline", mitre(), front="through")
    assert one.host.cut.ends == ("open", "round")
    assert one.host.cut.at[0] - one.host.cut.length / 2 == pytest.approx(0.0)


def test_a_groove_that_would_come_out_at_the_outside_is_refused_with_the_board_that_takes_it():
    with pytest.raises(CannotBuild, match="comes within 3 mm of the outside") as told:
        planned("spline", mitre(12.0), depth_mm=10.0)
    assert "board of at least 17 mm" in told.value.mend
