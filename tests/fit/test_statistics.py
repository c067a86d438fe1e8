"""Intervals that hold what they promise: coverage by simulation, seeds fixed, within three standard errors."""

import numpy as np
import pytest

from rodwork.fit.statistics import piece_to_piece, setting_to_setting, wilson


@pytest.mark.parametrize(("share", "of", "least"), [(0.9, 200, 0.94), (0.97, 1000, 0.94), (0.995, 200, 0.90)])
def test_the_counted_interval_covers(share, of, least):
    """T18. Wilson's interval: 0.944 to 0.957 at 0.9; 0.917 at 0.995 with 200."""
    hits = np.random.default_rng(1).binomial(of, share, 4000)
    inside = np.mean([low <= share <= high for low, high in (wilson(int(h), of) for h in hits)])
    assert least - 0.015 <= inside <= 0.97


def test_wilson_at_the_ends_stays_between_nought_and_one():
    assert wilson(0, 10)[0] == 0.0
    assert wilson(10, 10)[1] == pytest.approx(1.0)


@pytest.mark.parametrize(("settings", "pieces"), [(5, 4), (8, 3), (3, 2)])
def test_intervals_of_a_test_cover_the_true_figures(settings, pieces):
    """T18. True 0.10 between settings and 0.05 from piece to piece; 95 in 100 intervals hold each."""
    stream = np.random.default_rng(2)
    within = between = 0
    for _ in range(2000):
        readings = stream.normal(0, 0.10, (settings, 1)) + stream.normal(0, 0.05, (settings, pieces))
        a, b = piece_to_piece(readings), setting_to_setting(readings)
        within += a.low <= 0.05 <= a.high
        between += b.low <= 0.10 <= b.high
    assert within / 2000 == pytest.approx(0.95, abs=0.015)
    assert between / 2000 == pytest.approx(0.95, abs=0.02)


def test_few_readings_prove_little():
    """Three settings of two: the true scatter may be more than three times what was read."""
    readings = np.array([[0.00, 0.06], [0.12, 0.05], [-0.1, -0.04]])
    assert piece_to_piece(readings).high > 3 * piece_to_piece(readings).value
    assert setting_to_setting(readings).high > 3 * setting_to_setting(readings).value


def test_one_piece_or_one_setting_says_nothing():
    with pytest.raises(ValueError, match="one piece"):
        piece_to_piece(np.zeros((3, 1)))
    with pytest.raises(ValueError, match="one setting"):
        setting_to_setting(np.zeros((1, 3)))
