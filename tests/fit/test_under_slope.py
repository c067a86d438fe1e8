"""The dry fit of a box whose top lies on a slope: its ends are bevelled, and what joins them goes in level.

Expected by geometry: both halves of a joint are set out from the upper face, so what moves that moves the board.
"""

import numpy as np
import pytest

from rodwork.fit.draws import draw
from rodwork.fit.solve import SIGNED, factored, verdict
from rodwork.model.job import RoofAsked
from tests.building import recipe
from tests.fit.rods import box, found, length, lips, model

LOW = 500.0  # beside 720, over 600


def sloped(falls="right"):
    roof = RoofAsked(falls=falls, low_mm=LOW, degrees=None, joint=recipe("biscuit"))
    return box(roof=roof, corner_joint=recipe("biscuit"))


def test_boards_that_are_true_go_together_with_room_and_without_a_lip():
    m = model(sloped())
    give = verdict(factored(m, SIGNED), np.zeros((1, len(m.sources)))).give_mm
    assert give[0] == pytest.approx(-0.05, abs=1e-6)  # all of what a biscuit has across its slot
    assert np.abs(lips(found(sloped(), {}))).max() < 1e-6


def test_a_low_side_that_is_longer_takes_the_top_up_with_it_and_nothing_stands_proud():
    out = found(sloped(), {length("right side"): 0.4})
    assert np.abs(lips(out)).max() < 0.05
    assert abs(out["height"]) == pytest.approx(0.4, abs=0.05)


def test_falling_to_the_other_hand_it_goes_together_as_often():
    chances = []
    for falls in ("left", "right"):
        m = model(sloped(falls))
        chances.append((verdict(factored(m, SIGNED), draw(m.sources, 4000, seed=5)).give_mm <= 0).mean())
    assert chances[0] == pytest.approx(chances[1], abs=0.03)
