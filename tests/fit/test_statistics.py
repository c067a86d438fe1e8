"""Intervals that hold what they promise: coverage exactly, or by simulation with its seed."""

import numpy as np
import pytest
from scipy.stats import binom, binomtest

from rodwork.fit.statistics import piece_to_piece, setting_to_setting, wilson


@pytest.mark.parametrize("of", [1, 10, 200, 2000])
def test_the_counted_interval_is_wilsons(of):
    """scipy's own, at every count."""
    for hits in range(0, of + 1, max(1, of // 50)):
        theirs = binomtest(hits, of).proportion_ci(0.95, method="wilson")
        assert wilson(hits, of) == pytest.approx((theirs.low, theirs.high), abs=1e-9)


@pytest.mark.parametrize(
    ("share", "of", "covers"),
    [(0.9, 200, 0.952), (0.97, 200, 0.948), (0.995, 200, 0.917), (0.9, 10_000, 0.950), (0.995, 10_000, 0.950)],
)
def test_the_counted_interval_covers(share, of, covers):
    """T18. How often Wilson's interval holds the true share, summed over the binomial distribution: within 0.006."""
    hits = np.arange(of + 1)
    held = np.array([low <= share <= high for low, high in (wilson(int(h), of) for h in hits)])
    assert binom.pmf(hits, of, share)[held].sum() == pytest.approx(covers, abs=6e-3)


def test_wilson_at_the_ends_stays_between_nought_and_one():
    assert wilson(0, 10)[0] == 0.0
    assert wilson(10, 10)[1] == pytest.approx(1.0)


@pytest.mark.parametrize(("settings", "pieces"), [(1, 10), (3, 2), (5, 4), (8, 3), (10, 3)])
def test_intervals_of_a_test_cover_the_true_figures(settings, pieces):
    """T18. True 0.10 between settings and 0.05 from piece to piece; 95 in 100 intervals hold each: four standard errors.

    The interval between settings is an approximation: 0.01 more. One setting tells nothing of the next.
    """
    print("seed 2, 4,000 tests")
    stream, tests = np.random.default_rng(2), 4000
    within = between = 0
    for _ in range(tests):
        readings = stream.normal(0, 0.10, (settings, 1)) + stream.normal(0, 0.05, (settings, pieces))
        a = piece_to_piece(readings)
        within += a.low <= 0.05 <= a.high
        if settings > 1:
            b = setting_to_setting(readings)
            between += b.low <= 0.10 <= b.high
    error = 4 * np.sqrt(0.95 * 0.05 / tests)
    assert within / tests == pytest.approx(0.95, abs=error)
    if settings > 1:
        assert between / tests == pytest.approx(0.95, abs=error + 0.01)


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
