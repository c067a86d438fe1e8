"""An answer while somebody types: every joint by itself in closed form, and the carcass as their product.

A row of fixings sees three movements of one board against the other: along the run, across it, and a slope across it.
How much give it needs is then a closed form of its residuals r, each free from low to high:

    along    half of  max(low - r) - min(high - r)                         one shift for all
    across   the same for one straight line a + b y instead of one shift: over every three places y

    round    radius of the smallest circle around the residuals, less the play, at the best slope

Its chance is the share of a fixed net of points in the space of the row's own errors (Sobol's points, I. M. Sobol 1967)
in which that give is no more than the ease. Joints are taken as independent of each other. Where a loop of boards holds
them (a shelf and a divider) it is too high; where several joints share errors that differ within a row (two stops that
bore both ends of four rails) they fail together more often, and it is too low. In the worst cabinet of the example job
the one makes 20 in 100 and the other 11, so that it is 9 too low. Of round play the tightest is taken as round, any
other as square.
"""

from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import combinations
from typing import NamedTuple

import numpy as np
from scipy.special import ndtri

from rodwork.fit.arrays import Array, Bools, Ints
from rodwork.fit.linear import Holds, LinearModel
from rodwork.fit.solve import all_as_drilled

POINTS = 2048


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
    """How often each joint goes together by itself."""
    rows = [model.holds.of(j) for j in range(len(model.joints))]
    return [row_chance(_row(row), ease_mm) if len(row.at) else 1.0 for row in rows]


class _Row(NamedTuple):
    """All that the chance of a row hangs on, as bytes of float64: what an edit leaves as it was is not asked again.

    n fixings: places (n,) along the run; limits (2, n) along and across; round (n,) of bool; spread (w, w), the
    covariance of the ways in which the residuals differ (`_ways`), those along first.
    """

    places: bytes
    along: bytes
    across: bytes
    round: bytes
    spread: bytes


def _row(holds: Holds) -> _Row:
    places = np.round(holds.at - holds.at.min(), 6).tobytes()
    shifts, lines = _ways(places)
    errors = np.concatenate([shifts.T @ holds.along_z, lines.T @ holds.across_z])
    spread = np.round(errors @ errors.T, 12)  # so that the order of the sources is of no account
    return _Row(places, *(part.tobytes() for part in (holds.along, holds.across, holds.round, spread)))


@lru_cache(maxsize=256)
def _ways(places: bytes) -> tuple[Array, Array]:
    """(n, n - 1) and (n, n - 2): how residuals may differ from one shift, and from one straight line: unit vectors.

    What a shift or a slope takes up is left out.
    """
    at = np.frombuffer(places)
    level, slope = np.ones((len(at), 1)), (at - at.mean())[:, None]
    return _square_to(level), _square_to(np.hstack([level, slope]) if slope.any() else level)


def _square_to(taken: Array) -> Array:
    """(n, n - t) unit vectors square to each other and to the columns of (n, t), which must be independent."""
    n, t = taken.shape
    left: Array = np.linalg.qr(np.hstack([taken, np.eye(n)]))[0][:, t:]
    return left


@lru_cache(maxsize=1024)
def row_chance(row: _Row, ease_mm: float) -> float:
    """How often one row goes together."""
    at, along, across = (np.frombuffer(part) for part in (row.places, row.along, row.across))
    along, across = along.reshape(2, -1, 1), across.reshape(2, -1, 1)
    shifts, lines = _ways(row.places)
    wide = shifts.shape[1] + lines.shape[1]
    values, turned = np.linalg.eigh(np.frombuffer(row.spread).reshape(wide, wide))
    root = (turned * np.sqrt(np.maximum(values, 0.0))) @ turned.T  # the symmetric one: there is no other such
    differ = root @ _net(wide)
    u, v = shifts @ differ[: shifts.shape[1]], lines @ differ[shifts.shape[1] :]
    give = np.maximum(_shift(along[0] - u, along[1] - u), _line(across[0] - v, across[1] - v, at))
    fits: Bools = give <= ease_mm
    is_round, play = np.frombuffer(row.round, dtype=np.bool_), across[1, :, 0]
    tightest = is_round & (play == play[is_round].min(initial=np.inf))
    if tightest.sum() > 1:
        radius = float(play[tightest].min()) + ease_mm
        fits[fits] = _in_circles(u[tightest][:, fits], v[tightest][:, fits], at[tightest], radius)
    return float(fits.mean())


@cache
def _net(wide: int) -> Array:
    """(wide, POINTS) normal points, evenly spread and fixed: the design is all that moves the answer."""
    if wide == 0:
        return np.zeros((0, POINTS))
    from scipy.stats import qmc  # half a second to load: only where the answer is asked for

    net: Array = np.ascontiguousarray(ndtri(qmc.Sobol(wide, scramble=True, rng=1).random(POINTS)).T)
    return net


def _shift(low: Array, high: Array) -> Array:
    """(N,) the give with which one shift lies in every range (n, N)."""
    give: Array = (low.max(axis=0) - high.min(axis=0)) / 2
    return give


def _line(low: Array, high: Array, at: Array) -> Array:
    """(N,) the give with which one straight line over `at` (n,) lies in every range (n, N)."""
    places, where = np.unique(at, return_inverse=True)
    tightest_low = np.stack([low[where == k].max(axis=0) for k in range(len(places))])
    tightest_high = np.stack([high[where == k].min(axis=0) for k in range(len(places))])
    give: Array = (tightest_low - tightest_high).max(axis=0) / 2
    if len(places) < 3:
        return give
    i, j, k = _threes(len(places)).T
    share = ((places[k] - places[j]) / (places[k] - places[i]))[:, None]
    for one, other in ((tightest_low, -tightest_high), (-tightest_high, tightest_low)):
        held = share * one[i] + (1 - share) * one[k] + other[j]
        give = np.maximum(give, held.max(axis=0) / 2)
    return give


SLOPE_STEPS = 10  # the radius is flat where it is least
GOLDEN = (5**0.5 - 1) / 2


def _in_circles(u: Array, v: Array, at: Array, radius: float) -> Bools:
    """(N,) whether at some slope one circle of this radius holds all residuals u, v (n, N): a row of round fixings."""
    y = at - at.mean()
    slope = -(y @ v) / (y @ y) if y.any() else np.zeros(v.shape[1])
    fits: Bools = _circle(u, v + np.outer(y, slope)) <= radius**2
    wrong = ~fits
    if y.any() and wrong.any():
        fits[wrong] = _circle_at_best(u[:, wrong], v[:, wrong], y, slope[wrong]) <= radius**2
    return fits


def _circle_at_best(u: Array, v: Array, y: Array, slope: Array) -> Array:
    """(N,) the smallest circle over all slopes, squared, by golden sections: its radius is convex in the slope."""

    def circle(at: Array) -> Array:
        return _circle(u, v + np.outer(y, at))

    reach = (np.ptp(u, axis=0) + np.ptp(v, axis=0)) / np.ptp(y)
    low, high = slope - reach, slope + reach
    one, other = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
    at_one, at_other = circle(one), circle(other)
    for _ in range(SLOPE_STEPS):
        nearer = at_one < at_other
        low, high = np.where(nearer, low, one), np.where(nearer, other, high)
        new = np.where(nearer, high - GOLDEN * (high - low), low + GOLDEN * (high - low))
        at_new = circle(new)
        one, other = np.where(nearer, new, other), np.where(nearer, one, new)
        at_one, at_other = np.where(nearer, at_new, at_other), np.where(nearer, at_one, at_new)
    least: Array = np.minimum(at_one, at_other)
    return least


def _circle(u: Array, v: Array) -> Array:
    """(N,) radius squared of the smallest circle around points u, v (n, N): that of two of them, or of three.

    Through three: a^2 b^2 c^2 / (16 area^2), and 16 area^2 = 4 a^2 b^2 - (a^2 + b^2 - c^2)^2 (Heron).
    """
    n = len(u)
    i, j = np.array(list(combinations(range(n), 2))).T
    apart = (u[i] - u[j]) ** 2 + (v[i] - v[j]) ** 2
    radius: Array = apart.max(axis=0) / 4
    if n < 3:
        return radius
    pair = np.zeros((n, n), dtype=np.int64)
    pair[i, j] = np.arange(len(i))
    p, q, r = _threes(n).T
    a, b, c = apart[pair[p, q]], apart[pair[q, r]], apart[pair[p, r]]
    both = a + b
    acute = (both > c) & (np.abs(a - b) < c)
    around = a * b * c / np.maximum(4 * a * b - (both - c) ** 2, 1e-24)
    whole: Array = np.maximum(radius, np.where(acute, around, 0.0).max(axis=0))
    return whole


MOST_PLACES = 12  # of a long row, every three of its places would be thousands: as many of them, evenly


@cache
def _threes(places: int) -> Ints:
    """(t, 3) every three of so many places in their order."""
    chosen = np.unique(np.linspace(0, places - 1, min(places, MOST_PLACES)).round().astype(np.int64))
    return np.array(list(combinations(chosen, 3)), dtype=np.int64)
