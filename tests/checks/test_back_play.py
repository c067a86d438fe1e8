"""The play of a grooved back. The figures 2.9 and 4.4 are arithmetic, worked for a 600 x 720 box; redrawn here."""

import json
from math import cos, hypot, radians, sin
from pathlib import Path

import pytest

from rodwork.checks.kinds.back_play import diagonals_mm
from rodwork.model.rod import Rod
from tests.building import back, rod
from tests.checks.shop import told

CODE = "back-play"
SAMPLE = Path(__file__).parents[1] / "data" / "glaze.rod.json"


def test_the_sample_cupboard_says_what_was_worked_by_hand_for_it():
    data = json.loads(SAMPLE.read_text(encoding="utf-8"))
    (found,) = told(CODE, Rod.from_dict(data))
    (by_hand,) = (f for f in data["findings"] if f["code"] == CODE)
    assert found.message == by_hand["message"]
    assert (found.mend, found.source, list(found.where)) == (by_hand["mend"], by_hand["source"], by_hand["where"])
    assert found.severity == by_hand["severity"] == "warning"


@pytest.mark.parametrize(("clearance", "differ"), [(0.5, 2.9), (0.75, 4.4), (1.0, 5.9), (0.25, 1.5)])
def test_600_x_720(clearance, differ):
    """0.5 all round gives 2.9 and 0.75 gives 4.4."""
    (found,) = told(CODE, rod(back=back(clearance_mm=clearance)))
    assert f"its play of {clearance:g} all round: the diagonals can still differ by {differ:g}." in found.message


@pytest.mark.parametrize("lean", [0.05, 0.1, 0.2])
def test_the_diagonals_of_a_leaning_box_drawn_out(lean):
    """A box 600 x 720 leant by a small angle: its two diagonals from the four corners, by Pythagoras."""
    a = radians(lean)
    top_left, top_right = (720 * sin(a), 720 * cos(a)), (600 + 720 * sin(a), 720 * cos(a))
    apart = hypot(*top_right) - hypot(600 - top_left[0], top_left[1])
    # the same lean as play: of the width alone over a back 720 high
    assert diagonals_mm(600, 720, 600, 720, 720 * a, 0.0) == pytest.approx(apart, rel=1e-3)


def test_no_play_and_other_backs_say_nothing():
    assert told(CODE, rod(back=back(clearance_mm=0.0))) == []
    assert told(CODE, rod(back=None)) == []
    for style in ("grooved in the sides", "rebated", "rebated in the sides", "planted"):
        assert told(CODE, rod(back=back(style))) == []


def test_a_divider_does_not_hide_it():
    (found,) = told(CODE, rod(width_mm=1100.0, bays=("rest", "rest")))
    assert found.where == ("back",)
