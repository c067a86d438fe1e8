"""An answer while somebody types: every joint by itself in closed form, and the carcass as their product.

A row of fixings sees three movements of one board against the other: along the run, across it, and a slope across it.
How much give it needs is then a closed form of its residuals r, each free from low to high:

    along    half of  max(low - r) - min(high - r)                         one shift for all
    across   the same for one straight line a + b y instead of one shift: over every three places y

    round    radius of the smallest circle around the residuals, less the play, at the best slope

Its chance is the share of a fixed net of points in the space of the row's own errors (Sobol's points, I. M. Sobol 1967)
in which that give is no more than the ease. Joints are taken as independent of each other; where a loop of boards holds
them (a shelf and a divider) it is a little too high. Of round play the tightest is taken as round, any other as square.
"""

from dataclasses import dataclass
from functools import cache
from itertools import combinations

import numpy as np
from scipy.special import ndtri
from scipy.stats import qmc

from rodwork.fit.arrays import Array, Bools, Ints
from rodwork.fit.linear import Holds, LinearModel
from rodwork.fit.solve import all_as_drilled

POINTS = 2048
NOTHING_MM = 1e-9  # a spread of residuals under this is none


@dataclass(frozen=True, kw_only=True, eq=False)
class Live:
    """How often it goes together, joint by joint; and the standard deviation of every output as drilled, mm."""

    chance: float
    joints: dict[str, float]
    spread_mm: dict[str, float]


def live(model: LinearModel, ease_mm: float) -> Live:
    """All of it: the product of the joints, and how far each lip and squareness is likely to be off as drilled."""
    joints = dict(zip(model.joints, joint_by_joint(model, ease_mm), strict=True))
    spread = np.linalg.norm(all_as_drilled(model), axis=1)
    return Live(
        chance=float(np.prod(list(joints.values()))), joints=joints,
        spread_mm=dict(zip(model.outputs, spread.tolist(), strict=True)),
    )  # fmt: skip


def live_chance(model: LinearModel, ease_mm: float) -> float:
    """How often it goes together, as a product of its joints."""
    return float(np.prod(joint_by_joint(model, ease_mm)))


def joint_by_joint(model: LinearModel, ease_mm: float) -> list[float]:
    """How often each joint goes together by itself; those that are alike are asked once."""
    known: dict[bytes, float] = {}
    out = []
    for j in range(len(model.joints)):
        row = model.holds.of(j)
        errors = np.concatenate([_less_shift(row.along_z), _less_line(row.across_z, row.at)])
        spread = errors @ errors.T
        key = b"".join(part.tobytes() for part in (np.round(spread, 12), row.along, row.across, row.at))
        if key not in known:
            known[key] = _chance(row, spread, ease_mm)
        out.append(known[key])
    return out


def _less_shift(errors: Array) -> Array:
    """(n, p) errors along, less what all fixings of the row have in common: one shift takes it up."""
    return errors - errors.mean(axis=0) if len(errors) else errors


def _less_line(errors: Array, at: Array) -> Array:
    """(n, p) errors across, less the straight line through them: the board takes it up."""
    if len(at) == 0:
        return errors
    line = np.stack([np.ones(len(at)), at - at.mean()], axis=1)
    left: Array = errors - line @ np.linalg.lstsq(line, errors, rcond=None)[0]
    return left


def _chance(row: Holds, spread: Array, ease_mm: float) -> float:
    """Of one row: spread is the covariance of its residuals, those along first."""
    n = len(row.at)
    if n == 0:
        return 1.0
    values, ways = np.linalg.eigh(spread)
    some = values > NOTHING_MM**2
    r = _net(int(some.sum())) @ (ways[:, some] * np.sqrt(values[some])).T
    give = np.maximum(
        _shift(row.along[0] - r[:, :n], row.along[1] - r[:, :n]),
        _line(row.across[0] - r[:, n:], row.across[1] - r[:, n:], row.at),
    )
    fits = give <= ease_mm
    tightest = row.round & (row.across[1] == row.across[1][row.round].min(initial=np.inf))
    if tightest.sum() > 1:
        play = float(row.across[1][tightest].min())
        u, v = r[:, :n][:, tightest], r[:, n:][:, tightest]
        fits[fits] = _in_circles(u[fits], v[fits], row.at[tightest], play + ease_mm)
    return float(fits.mean())


@cache
def _net(wide: int) -> Array:
    """(POINTS, wide) normal points, evenly spread and fixed: the design is all that moves the answer."""
    if wide == 0:
        return np.zeros((1, 0))
    net: Array = ndtri(qmc.Sobol(wide, scramble=True, rng=1).random(POINTS))
    return net


def _shift(low: Array, high: Array) -> Array:
    """(N,) the give with which one shift lies in every range (N, n)."""
    give: Array = (low.max(axis=1) - high.min(axis=1)) / 2
    return give


def _line(low: Array, high: Array, at: Array) -> Array:
    """(N,) the give with which one straight line over `at` (n,) lies in every range (N, n)."""
    places, where = np.unique(np.round(at, 6), return_inverse=True)
    tightest_low = np.stack([low[:, where == k].max(axis=1) for k in range(len(places))], axis=1)
    tightest_high = np.stack([high[:, where == k].min(axis=1) for k in range(len(places))], axis=1)
    give: Array = (tightest_low - tightest_high).max(axis=1) / 2
    if len(places) < 3:
        return give
    i, j, k = _threes(len(places)).T
    share = (places[k] - places[j]) / (places[k] - places[i])
    for one, other in ((tightest_low, -tightest_high), (-tightest_high, tightest_low)):
        held = share * one[:, i] + (1 - share) * one[:, k] + other[:, j]
        give = np.maximum(give, held.max(axis=1) / 2)
    return give


SLOPE_STEPS = 10  # the radius is flat where it is least
GOLDEN = (5**0.5 - 1) / 2


def _in_circles(u: Array, v: Array, at: Array, radius: float) -> Bools:
    """(N,) whether at some slope one circle of this radius holds all residuals u, v (N, n): a row of round fixings."""
    y = at - at.mean()
    slope = -(v @ y) / (y @ y) if y.any() else np.zeros(len(v))
    fits = _circle(u, v + slope[:, None] * y) <= radius
    wrong = ~fits
    if y.any() and wrong.any():
        fits[wrong] = _circle_at_best(u[wrong], v[wrong], y, slope[wrong]) <= radius
    return fits


def _circle_at_best(u: Array, v: Array, y: Array, slope: Array) -> Array:
    """(N,) the smallest circle over all slopes, by golden sections: its radius is convex in the slope."""
    reach = np.ptp(u, axis=1) + np.ptp(v, axis=1)
    low, high = slope - reach / np.ptp(y), slope + reach / np.ptp(y)
    for _ in range(SLOPE_STEPS):
        one, other = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        nearer = _circle(u, v + one[:, None] * y) < _circle(u, v + other[:, None] * y)
        low, high = np.where(nearer, low, one), np.where(nearer, other, high)
    middle = (low + high) / 2
    return _circle(u, v + middle[:, None] * y)


def _circle(u: Array, v: Array) -> Array:
    """(N,) radius of the smallest circle around points u, v (N, n): that of two of them, or of three."""
    i, j = np.array(list(combinations(range(u.shape[1]), 2))).T
    radius: Array = np.sqrt((u[:, i] - u[:, j]) ** 2 + (v[:, i] - v[:, j]) ** 2).max(axis=1) / 2
    if u.shape[1] < 3:
        return radius
    a, b, c = _threes(u.shape[1]).T
    sides = np.stack([(u[:, p] - u[:, q]) ** 2 + (v[:, p] - v[:, q]) ** 2 for p, q in ((a, b), (b, c), (c, a))])
    twice_area = np.abs((u[:, b] - u[:, a]) * (v[:, c] - v[:, a]) - (u[:, c] - u[:, a]) * (v[:, b] - v[:, a]))
    acute = 2 * sides.max(axis=0) < sides.sum(axis=0)
    around = np.sqrt(sides.prod(axis=0)) / np.maximum(2 * twice_area, 1e-12)
    whole: Array = np.maximum(radius, np.where(acute, around, 0.0).max(axis=1))
    return whole


MOST_PLACES = 12  # of a long row, every three of its places would be thousands: as many of them, evenly


@cache
def _threes(places: int) -> Ints:
    """(t, 3) every three of so many places in their order."""
    chosen = np.unique(np.linspace(0, places - 1, min(places, MOST_PLACES)).round().astype(np.int64))
    return np.array(list(combinations(chosen, 3)), dtype=np.int64)
