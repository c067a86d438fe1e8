"""Intervals: of a counted share, of a standard deviation from few readings, of a setting's spread from few settings."""

from dataclasses import dataclass
from functools import cache
from math import inf, sqrt

import numpy as np
from scipy.special import chdtri, fdtri

from rodwork.fit.arrays import Array

LIKELY = 0.95


def wilson(hits: int, of: int) -> tuple[float, float]:
    """Interval at 95 in 100 of a share that was counted. Source: E. B. Wilson, JASA 22 (1927)."""
    z2 = 1.959963984540054**2
    share = hits / of
    middle = (share + z2 / (2 * of)) / (1 + z2 / of)
    half = sqrt(z2 * (share * (1 - share) / of + z2 / (4 * of * of))) / (1 + z2 / of)
    return 0.0 if hits == 0 else middle - half, 1.0 if hits == of else middle + half


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A standard deviation, its interval at 95 in 100 (`high` may be infinite), and its degrees of freedom."""

    value: float
    low: float
    high: float
    freedom: int


def piece_to_piece(readings: Array) -> Estimate:
    """Within settings, from (a, b) readings: a settings of b pieces. Chi-square. Raises ValueError for b = 1."""
    a, b = readings.shape
    if b < 2:
        raise ValueError("one piece a setting says nothing of what differs from piece to piece")
    freedom = a * (b - 1)
    square = float(((readings - readings.mean(axis=1, keepdims=True)) ** 2).sum()) / freedom
    return _estimate(square, freedom)


def setting_to_setting(readings: Array) -> Estimate:
    """Between settings, from (a, b) readings, by the modified large-sample interval. Raises ValueError for a = 1.

    (MSB - MSW) / b; source: Graybill and Wang, JASA 75 (1980), as in Burdick and Graybill, Confidence Intervals on
    Variance Components (1992). Negative estimates and limits are nought.
    """
    a, b = readings.shape
    if a < 2:
        raise ValueError("one setting says nothing of what differs from setting to setting")
    between = float(b * ((readings.mean(axis=1) - readings.mean()) ** 2).sum()) / (a - 1)
    if b == 1:
        return _estimate(between, a - 1)
    within = piece_to_piece(readings).value ** 2
    n1, n2 = a - 1, a * (b - 1)
    (low1, high1), (low2, high2), (f_low, f_high) = _of_squares(n1), _of_squares(n2), _of_ratios(n1, n2)
    g1, g2 = 1 - n1 / high1, 1 - n2 / high2
    h1, h2 = n1 / low1 - 1, n2 / low2 - 1
    g12 = ((f_high - 1) ** 2 - (g1 * f_high) ** 2 - h2**2) / f_high
    h12 = ((1 - f_low) ** 2 - (h1 * f_low) ** 2 - g2**2) / f_low
    middle = between - within
    low = middle - sqrt(max((g1 * between) ** 2 + (h2 * within) ** 2 + g12 * between * within, 0.0))
    high = middle + sqrt(max((h1 * between) ** 2 + (g2 * within) ** 2 + h12 * between * within, 0.0))
    root = [sqrt(max(v, 0.0) / b) for v in (middle, low, high)]
    return Estimate(value=root[0], low=root[1], high=root[2], freedom=n1)


def _estimate(square: float, freedom: int) -> Estimate:
    low, high = _of_squares(freedom)
    return Estimate(
        value=sqrt(square), low=sqrt(square * freedom / high), high=sqrt(square * freedom / low) if low > 0 else inf,
        freedom=freedom,
    )  # fmt: skip


@cache
def _of_squares(freedom: int) -> tuple[float, float]:
    """Ends of the middle 95 in 100 of chi-square."""
    return (float(chdtri(freedom, (1 + LIKELY) / 2)), float(chdtri(freedom, (1 - LIKELY) / 2)))


@cache
def _of_ratios(above: int, below: int) -> tuple[float, float]:
    """The same of F, the ratio of two mean squares."""
    return (float(fdtri(above, below, (1 - LIKELY) / 2)), float(fdtri(above, below, (1 + LIKELY) / 2)))


def middle_range(values: Array) -> tuple[float, float]:
    """From the 2.5th to the 97.5th of a hundred."""
    low, high = np.quantile(values, [(1 - LIKELY) / 2, (1 + LIKELY) / 2])
    return float(low), float(high)
