"""The band of the chance, for what a shop does not know of its own sigmas: how often it holds the true chance.

A shop of known sigma is simulated in plain numpy: it reads its test pieces, the program forms the band from those readings,
and the truth is known from the sigma. Four corners of four dowels that are stopped along the run alone, so that the truth
is a studentized range too. Seeds stand in the tests.
"""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from scipy.stats import studentized_range

from rodwork.fit.forecast import ask, band, first_few
from rodwork.fit.measuring import result_of
from rodwork.model.own_accuracy import Readings
from tests.fit.rods import ACCURACY, box, model, scaled, with_play

SIGMA, SETTING = 0.07, 0.10
PLAY, EASE = 0.1, ACCURACY.give.ease_mm
SAMPLES = 200


@cache
def rod():
    return with_play(box(), PLAY, PLAY, "box")


def true_chance(sigma):
    return studentized_range.cdf(2 * (PLAY + EASE) / (sigma * np.sqrt(2)), 4, np.inf) ** 4


def shop(each):
    """A shop that scatters along the stops of its dowel jig, and is true in all else."""
    methods = scaled(0.0).methods
    return replace(
        ACCURACY,
        methods=tuple(
            replace(m, errors={**m.errors, "stop": replace(m.errors["stop"], each=each)})
            if m.name == "dowel jig"
            else m
            for m in methods
        ),
    )


def band_of(accuracy, seed):
    asked = ask(model(rod(), accuracy), (), seed, EASE)
    return band(asked, accuracy, first_few(asked, SAMPLES))


def band_by_numpy(readings, stream, widest):
    """The least and the most of 39 chances: sigma^2 = nu s^2 / chi2, and four rows of four put together in numpy."""
    settings, pieces = readings.shape
    freedom = settings * (pieces - 1)
    square = ((readings - readings.mean(axis=1, keepdims=True)) ** 2).sum() / freedom
    sigmas = np.sqrt(freedom * square / stream.chisquare(freedom, 39))
    chances = [(widest * sigma / 2 - PLAY <= EASE).mean() for sigma in sigmas]
    return min(chances), max(chances)


@pytest.mark.parametrize(("settings", "pieces"), [(3, 2), (8, 3)])
def test_the_band_holds_the_true_chance_as_often_as_it_says(settings, pieces):
    """95 in 100, for six readings and for twenty-four: 150 shops each, within 0.054 (three standard errors).

    And it is the band that plain numpy makes of the same readings: their ends within 0.04 on the mean.
    """
    print("seeds 3, 4; the bands 1 to 150")
    stream, other = np.random.default_rng(3), np.random.default_rng(4)
    widest = np.ptp(other.normal(0, np.sqrt(2), (2000, 4, 4)), axis=2).max(axis=1)  # of the four rows, per mm of sigma
    truth = true_chance(SIGMA)
    assert (widest * SIGMA / 2 - PLAY <= EASE).mean() == pytest.approx(truth, abs=4 * 0.0063)
    bands, theirs = [], []
    for seed in range(1, 151):
        readings = stream.normal(0, SETTING, (settings, 1)) + stream.normal(0, SIGMA, (settings, pieces))
        taken = Readings(method="dowel jig", kind="stop", settings=tuple(map(tuple, readings.tolist())))
        bands.append(band_of(shop(result_of(taken, ACCURACY).each), seed))
        theirs.append(band_by_numpy(readings, other, widest))
    held = {
        name: np.mean([low <= truth <= high for low, high in of]) for name, of in (("ours", bands), ("numpy", theirs))
    }
    print(held)
    assert held["ours"] == pytest.approx(0.95, abs=0.054)
    assert held["numpy"] == pytest.approx(0.95, abs=0.054)
    assert np.mean(bands, axis=0) == pytest.approx(np.mean(theirs, axis=0), abs=0.04)


def test_the_band_of_a_shop_that_has_measured_nothing_holds_other_shops():
    """Shops spread as is assumed of them: 95 in 100 of their chances, as 39 draws can tell (85 at least; one band)."""
    print("seed 5")
    assumed = ACCURACY.method("dowel jig").error("stop").each
    low, high = band_of(shop(assumed), 1)
    likely = np.random.default_rng(5).standard_normal(500)
    sigmas = assumed.value * (np.where(likely > 0, assumed.high, assumed.low) / assumed.value) ** (
        np.abs(likely) / 1.96
    )
    truths = np.array([true_chance(sigma) for sigma in sigmas])
    assert ((truths >= low - 0.02) & (truths <= high + 0.02)).mean() >= 0.85
    assert high - low < 1.0


def test_more_readings_make_the_band_narrower():
    few, many = (
        shop(replace(ACCURACY.method("dowel jig").error("stop").each, value=SIGMA, readings=n)) for n in (3, 100)
    )
    (low, high), (low_too, high_too) = band_of(few, 1), band_of(many, 1)
    assert low < low_too < true_chance(SIGMA) < high_too <= high
    assert high_too - low_too < (high - low) / 3
