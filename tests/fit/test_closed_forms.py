"""The engine against closed forms: each names where the form comes from. 20,000 samples, seed 5; four standard errors.

A standard error is at most 0.0035.
"""

import numpy as np
import pytest
from scipy.stats import multivariate_normal, norm, studentized_range

from rodwork.fit.builder import FREE, Builder, Form, Limits, Stand
from rodwork.fit.draws import draw
from rodwork.fit.solve import SIGNED, factored, verdict
from tests.fit.rows import GIVE, IDENTITY, run_of, source

SAMPLES, SEED = 20_000, 5
PLAY = Limits.either_way(0.1)


def give(model):
    found = verdict(factored(model, SIGNED), draw(model.sources, SAMPLES, SEED))
    assert found.resolved == 0
    return found.give_mm


def assert_share(hits, expected):
    print(f"seed {SEED}: {np.mean(hits):.4f}, expected {expected:.4f}")
    assert np.mean(hits) == pytest.approx(expected, abs=4 * np.sqrt(expected * (1 - expected) / SAMPLES))


@pytest.mark.parametrize(("n", "printed"), [(2, 0.95450), (3, 0.88782), (4, 0.81209), (6, 0.65782)])
def test_pegs_along_a_run_follow_the_studentized_range(n, printed):
    """T4. F(2c / (sigma sqrt 2); n, infinite): scipy's studentized range, and the figures of its tables."""
    reference = studentized_range.cdf(2 * 0.1 / (0.05 * np.sqrt(2)), n, np.inf)
    assert reference == pytest.approx(printed, abs=2e-5)
    assert_share(give(run_of([40 + 50 * i for i in range(n)], 0.05, u=PLAY)) <= 0, reference)


@pytest.mark.parametrize("n", [2, 4])
def test_play_that_is_not_the_same_both_ways_counts_as_its_whole(n):
    """A row that may move freely is stopped by its range alone: the studentized range over short + along."""
    reference = studentized_range.cdf((0.15 + 0.05) / (0.05 * np.sqrt(2)), n, np.inf)
    row = run_of([40 + 50 * i for i in range(n)], 0.05, u=Limits(low=-0.15, high=0.05))
    assert_share(give(row) <= 0, reference)


@pytest.mark.parametrize(("low", "high"), [(-0.3, 0.05), (-0.05, 0.3)])
def test_a_row_held_elsewhere_is_stopped_on_one_side_only(low, high):
    """(Phi(high / s) - Phi(low / s))^n, s = sigma sqrt 2, from the normal distribution: what cannot move needs both."""
    spread = 0.05 * np.sqrt(2)
    expected = (norm.cdf(high / spread) - norm.cdf(low / spread)) ** 3
    row = run_of([0, 96, 192], 0.05, u=Limits(low=low, high=high), locked=True)
    found = give(row)
    assert_share(found <= 0, expected)
    z = row.z_of({"A1u": 0.2})
    assert verdict(factored(row, SIGNED), z).give_mm[0] == pytest.approx(max(0.2 - high, low, -high), abs=1e-6)


@pytest.mark.parametrize("apart", [32, 300])
def test_two_pegs_fit_alike_however_far_apart(apart):
    """T5. 2 Phi(c / sigma) - 1, from the normal distribution."""
    assert_share(give(run_of([0, apart], 0.05, u=PLAY)) <= 0, 2 * norm.cdf(2) - 1)


@pytest.mark.parametrize(("n", "mean"), [(2, 0.0399), (3, 0.0599), (4, 0.0728), (5, 0.0822), (6, 0.0896)])
def test_the_mean_give_is_half_the_mean_range(n, mean):
    """T6. d2(n) sqrt 2 sigma / 2, d2 of the control-chart tables; with play 0 the give is half the range itself."""
    d2 = {2: 1.128, 3: 1.693, 4: 2.059, 5: 2.326, 6: 2.534}[n]
    assert d2 * np.sqrt(2) * 0.05 / 2 == pytest.approx(mean, abs=6e-5)
    found = give(run_of([40 + 50 * i for i in range(n)], 0.05, u=Limits.either_way(0.0)))
    assert found.mean() == pytest.approx(mean, abs=4 * found.std() / np.sqrt(SAMPLES) + 6e-5)


def test_three_across_a_run_follow_the_middle_one():
    """T7. 2 Phi(4c / (s sqrt 6)) - 1, s = sigma sqrt 2: the middle one off the line of the other two."""
    expected = 2 * norm.cdf(4 * 0.1 / (0.1 * np.sqrt(2) * np.sqrt(6))) - 1
    assert expected == pytest.approx(0.75179, abs=2e-5)
    assert_share(give(run_of([0, 96, 192], 0.1, v=PLAY)) <= 0, expected)


def test_four_across_a_run_follow_the_four_ways_of_failing():
    """T8. Normal distribution over the ways three of four fail; method as Dumas, Gayton, Dantan and Sudret (2015)."""
    at = np.array([0.0, 60.0, 120.0, 180.0])
    ways = []
    for i in range(4):
        for j in range(i + 1, 4):
            for k in range(j + 1, 4):
                share = (at[k] - at[j]) / (at[k] - at[i])
                way = np.zeros(4)
                way[i], way[k], way[j] = share / 2, (1 - share) / 2, -0.5
                ways.append(way)
    ways = np.array([*ways, *(-w for w in ways)])
    cov = ways @ ways.T * (0.1 * np.sqrt(2)) ** 2
    expected = multivariate_normal(cov=cov, allow_singular=True, seed=1, maxpts=100_000).cdf(np.full(len(ways), 0.1))
    assert expected == pytest.approx(0.50785, abs=2e-3)
    assert_share(give(run_of(list(at), 0.1, v=PLAY)) <= 0, 0.50785)


def test_two_across_a_run_always_fit():
    """Two points are always on a line: no error across a run of two can stop it."""
    assert (give(run_of([0, 96], 5.0, v=PLAY)) <= -0.0999).all()


@pytest.mark.parametrize("n", [2, 3, 4])
@pytest.mark.parametrize("loose_in_both", [True, False])
def test_position_tolerances_by_the_fastener_formulas_just_fit(n, loose_in_both):
    """T9. Floating T = H - F, fixed T = (H - F) / 2: textbook forms of the formulas of ASME Y14.5 (not read itself)."""
    clearance = 0.4
    play = clearance if loose_in_both else clearance / 2
    tolerance = clearance if loose_in_both else clearance / 2  # diameter of each half's zone
    model = run_of([30.0 * i for i in range(n)], 1.0, u=Limits.either_way(play))
    draws = np.random.default_rng(1).choice([-1.0, 1.0], size=(200, len(model.sources))) * tolerance / 2
    found = verdict(factored(model, SIGNED), draws).give_mm
    assert found.max() == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(("n", "printed"), [(2, 0.3996), (4, 0.1597), (6, 0.0638)])
def test_a_pattern_held_at_nominal_fits_as_its_holes_do_one_by_one(n, printed):
    """T10. (1 - exp(-c^2 / 4 sigma^2))^n, derived here for a pattern that cannot move; a free one must do better."""
    sigma = 0.05
    expected = (1 - np.exp(-(0.1**2) / (4 * sigma**2))) ** n
    assert expected == pytest.approx(printed, abs=2e-4)
    holes = {"sigma": sigma, "u": PLAY, "v": PLAY, "is_round": True}
    at = [40.0 * i for i in range(n)]
    locked = give(run_of(at, **holes, locked=True)) <= 0
    assert_share(locked, expected)  # the polygon is as large as the circle, not the circle: that is within it
    assert (give(run_of(at, **holes)) <= 0).mean() > locked.mean() + 0.2


def boards(*ids_and_middles):
    stands = [Stand(id=i, middle=m, axes=IDENTITY, size=s, bends=False) for i, m, s in ids_and_middles]
    return Builder(stands, stands[0].id, GIVE)


def shoulders(build, joint, host, guest, points, way, off=None, sign=-1.0):
    """Four corners of a shoulder; `off`: the guest is longer by half of this source at this end."""
    for point in points:
        gap = build.moved(guest, point, way).plus(build.moved(host, point, way), -1.0)
        if off:
            gap = gap.plus(Form(gap.q * 0.0, {off: 0.5}), sign)
        build.shoulder(joint, gap, Limits(low=-GIVE.crush_mm, high=GIVE.close_mm))


@pytest.mark.parametrize(("d", "give_needed"), [(0.6, 0.1), (1.0, 0.3), (1.6, 0.6)])
def test_a_shelf_too_long_opens_the_corners(d, give_needed):
    """T12. Rigid boards: (d/2 - crush - close) / 2w, by hand: the shelf presses in, top and bottom stand open."""
    side, flat = (18.0, 300.0, 700.0), (560.0, 300.0, 18.0)
    build = boards(
        ("left", (0.0, 0.0, 0.0), side), ("right", (578.0, 0.0, 0.0), side), ("top", (289.0, 0.0, 341.0), flat),
        ("bottom", (289.0, 0.0, -341.0), flat), ("shelf", (289.0, 0.0, 0.0), flat),
    )  # fmt: skip
    for guest, z, off in (("top", 341.0, None), ("bottom", -341.0, None), ("shelf", 0.0, "long")):
        for host, x, way in (("left", 9.0, 1.0), ("right", 569.0, -1.0)):
            corners = [(x, y, z + v) for y in (-150.0, 150.0) for v in (-9.0, 9.0)]
            shoulders(build, f"{host}{guest}", host, guest, corners, (way, 0.0, 0.0), off)
    model = build.done({"long": source("long", 1.0)}, {})
    assert verdict(factored(model, SIGNED), model.z_of({"long": d})).give_mm[0] == pytest.approx(give_needed, abs=1e-5)


@pytest.mark.parametrize(("d", "give_needed"), [(0.6, 0.1), (1.0, 0.7 / 3), (1.6, 1.3 / 3)])
def test_a_divider_too_tall_strains_the_dowels(d, give_needed):
    """T13. Rigid boards, play c: (d - 2 crush - 2c) / (2w + 2), by hand."""
    flat = (560.0, 300.0, 18.0)
    build = boards(
        ("sides", (0.0, 0.0, 0.0), (18.0, 300.0, 700.0)), ("top", (0.0, 0.0, 341.0), flat),
        ("bottom", (0.0, 0.0, -341.0), flat), ("divider", (0.0, 0.0, 0.0), (18.0, 300.0, 664.0)),
    )  # fmt: skip
    up = (0.0, 0.0, 1.0)
    for part, z in (("top", 341.0), ("bottom", -341.0)):
        for x in (-280.0, 280.0):
            for y in (-100.0, 100.0):
                across = build.moved(part, (x, y, z), up).plus(build.moved("sides", (x, y, z), up), -1.0)
                build.fixing(part, Form(across.q * 0.0), across, (FREE, Limits.either_way(0.1)))
    for host, z, way in (("bottom", -332.0, 1.0), ("top", 332.0, -1.0)):
        corners = [(x, y, z) for x in (-9.0, 9.0) for y in (-150.0, 150.0)]
        shoulders(build, f"{host} divider", host, "divider", corners, (0.0, 0.0, way), "tall")
    model = build.done({"tall": source("tall", 1.0)}, {})
    assert verdict(factored(model, SIGNED), model.z_of({"tall": d})).give_mm[0] == pytest.approx(give_needed, abs=1e-5)
