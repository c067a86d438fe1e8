"""The answer while somebody types, against closed forms, against the kernel on the same rows, and against Monte Carlo."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from scipy.stats import norm, studentized_range

from rodwork.fit.builder import Limits
from rodwork.fit.draws import draw
from rodwork.fit.live import _circle, live, live_chance, row_chance
from rodwork.fit.solve import SIGNED, as_drilled, factored, verdict
from rodwork.fit.station import least_chance
from tests.building import back, recipe
from tests.fit.rods import ACCURACY, box, model, scaled
from tests.fit.rows import run_of

EASE = ACCURACY.give.ease_mm
PLAY = Limits.either_way(0.1)


@pytest.mark.parametrize("n", [2, 3, 4, 6])
def test_a_row_along_follows_the_studentized_range(n):
    """F(2 (c + ease) / (sigma sqrt 2); n): scipy's studentized range; 2048 points, 0.006."""
    expected = studentized_range.cdf(2 * 0.15 / (0.08 * np.sqrt(2)), n, np.inf)
    assert live_chance(run_of([40 + 50 * i for i in range(n)], 0.08, u=PLAY), 0.05) == pytest.approx(expected, abs=6e-3)


def test_three_across_follow_the_middle_one():
    """2 Phi(4 (c + ease) / (s sqrt 6)) - 1, s = sigma sqrt 2: the middle one off the line of the other two."""
    expected = 2 * norm.cdf(4 * 0.12 / (0.1 * np.sqrt(2) * np.sqrt(6))) - 1
    assert live_chance(run_of([0, 96, 192], 0.1, v=PLAY), 0.02) == pytest.approx(expected, abs=6e-3)


def test_four_across_follow_the_four_ways_of_failing():
    """0.50785, a normal distribution over the ways three of four fail (the same case as the kernel is held to)."""
    assert live_chance(run_of([0.0, 60.0, 120.0, 180.0], 0.1, v=PLAY), 0.0) == pytest.approx(0.50785, abs=6e-3)


@pytest.mark.parametrize("at", [[0, 40, 130], [0, 30, 60, 150, 155], [10, 10, 90, 200]])
@pytest.mark.parametrize(("low", "high"), [(-0.1, 0.1), (-0.15, 0.05)])
def test_one_row_is_judged_as_the_kernel_judges_it(at, low, high):
    """The same rows, wherever the fixings stand and whatever their limits: 10,000 draws, 0.015."""
    m = run_of(at, 0.06, u=Limits(low=low, high=high), v=Limits(low=low, high=high))
    z = draw(m.sources, 10_000, 3)
    assert live_chance(m, 0.02) == pytest.approx((verdict(factored(m, SIGNED), z).give_mm <= 0.02).mean(), abs=0.015)


CARCASSES = {  # and how near it is held to the whole
    "tenons": ({"corner_joint": recipe("loose tenon")}, 0.012),
    "biscuits": ({"corner_joint": recipe("biscuit")}, 0.012),
    "keyholes": ({"corner_joint": recipe("keyhole")}, 0.012),
    "dowels": ({}, 0.015),
    "dowels and a shelf, grooved back": (
        {"openings": ("rest", "rest"), "loose_shelves": (0, 0), "back": back()},
        0.015,
    ),
}


@pytest.mark.parametrize("name", CARCASSES)
@pytest.mark.parametrize("budget", [0.7, 1.0, 1.5])
def test_the_product_of_the_joints_is_near_the_whole(name, budget):
    """Against 10,000 assemblies of the whole carcass with the same errors, and never lower than they say."""
    changes, tolerance = CARCASSES[name]
    m = model(box(**changes), scaled(budget))
    whole = (verdict(factored(m, SIGNED), draw(m.sources, 10_000, 3)).give_mm <= EASE).mean()
    found = live_chance(m, EASE)
    assert found == pytest.approx(whole, abs=tolerance)
    assert found >= whole - 0.012


def test_a_carcass_that_holds_itself_is_said_a_little_too_high_never_too_low():
    rod = box(bays=("rest", "rest"), openings=("rest", "rest"), loose_shelves=(0, 0), width_mm=900.0)
    m = model(rod, scaled(3.0))
    whole = (verdict(factored(m, SIGNED), draw(m.sources, 2000, 3)).give_mm <= EASE).mean()
    assert live_chance(m, EASE) >= whole - 0.01


def test_joints_that_fail_together_are_said_too_low_as_its_page_tells():
    """Two joints of the very same errors: whole it is the chance of one, by the studentized range; the product, of two."""
    m = run_of([40, 90, 140, 190], 0.08, u=PLAY, joints=("one", "other"))
    one = studentized_range.cdf(2 * 0.15 / (0.08 * np.sqrt(2)), 4, np.inf)
    z = draw(m.sources, 10_000, 3)
    assert (verdict(factored(m, SIGNED), z).give_mm <= 0.05).mean() == pytest.approx(one, abs=0.015)
    assert live_chance(m, 0.05) == pytest.approx(one**2, abs=0.012)


def test_an_edit_that_leaves_the_rows_asks_none_again():
    """A wider and taller box has the same rows of dowels; another depth has others."""
    row_chance.cache_clear()
    first = live(model(box()), EASE)
    asked = row_chance.cache_info().misses
    assert live(model(box(width_mm=750.0, height_mm=900.0)), EASE).joints == first.joints
    assert row_chance.cache_info().misses == asked
    assert live(model(box(depth_mm=420.0)), EASE).joints != first.joints
    assert row_chance.cache_info().misses > asked


def test_the_order_of_the_sources_is_of_no_account():
    m = model(box())
    turned = replace(m, holds=replace(m.holds, along_z=m.holds.along_z[:, ::-1], across_z=m.holds.across_z[:, ::-1]))
    before = live_chance(m, EASE)
    row_chance.cache_clear()
    assert live_chance(turned, EASE) == before


@pytest.mark.parametrize("n", [2, 3, 5])
def test_the_smallest_circle_is_that_of_every_circle_through_two_or_three(n):
    """Against each candidate tried in turn, by its centre: the least that holds all points. 200 draws, seed 4."""
    points = np.random.default_rng(4).normal(size=(200, n, 2))
    found = np.sqrt(_circle(points[:, :, 0].T, points[:, :, 1].T))
    for radius, at in zip(found, points, strict=True):
        centres = [(at[i] + at[j]) / 2 for i, j in combinations(range(n), 2)]
        for i, j, k in combinations(range(n), 3):
            turned = 2 * np.array([at[j] - at[i], at[k] - at[i]])
            centres.append(np.linalg.solve(turned, [at[j] @ at[j] - at[i] @ at[i], at[k] @ at[k] - at[i] @ at[i]]))
        assert radius == pytest.approx(min(np.linalg.norm(at - c, axis=1).max() for c in centres), rel=1e-6)


def test_spreads_are_those_of_the_linear_model_and_the_product_is_that_of_its_joints():
    m = model(box())
    found = live(m, EASE)
    assert found.chance == pytest.approx(np.prod(list(found.joints.values())))
    assert set(found.joints) == set(m.joints)
    for output in ("diagonals", "lip|left side / top|front"):
        assert found.spread_mm[output] == pytest.approx(np.linalg.norm(as_drilled(m, output)))


def test_the_same_design_has_the_same_answer_and_a_better_shop_a_better_one():
    m = model(box())
    assert live_chance(m, EASE) == live_chance(m, EASE)
    assert live_chance(model(box(), scaled(0.5)), EASE) > live_chance(m, EASE) > live_chance(m, 0.0)


def test_the_worst_cabinet_of_a_job_is_compared():
    """What `compare` shows: the dowelled box less often than the box of biscuits."""
    assert least_chance(box(), ACCURACY) == pytest.approx(live_chance(model(box()), EASE))
    assert least_chance(box(corner_joint=recipe("biscuit")), ACCURACY) > least_chance(box(), ACCURACY)
