"""How small errors add up along a row of sizes."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from math import hypot


@dataclass(frozen=True, slots=True)
class Dimension:
    """One size in a row, mm: what it should be, and how far over and under it may come out (`minus` below nought).

    `way` is 1 where it makes the result larger, -1 where it makes it smaller. Sizes of one `setting` are all off by
    the same error, since they were made at one stop: these add up as they are. None: an error of its own.
    """

    way: float
    nominal: float
    plus: float
    minus: float
    setting: str | None = None


@dataclass(frozen=True, slots=True)
class Stacked:
    """What a row comes to: its mean, how far from it at the worst, and the root of the sum of the squares, all mm."""

    mean: float
    worst: float
    likely: float


def stack(row: Iterable[Dimension]) -> Stacked:
    """Worst case and root sum square of a row whose sizes may have unequal limits.

    A size with unequal limits is taken from the middle of them, and its way turns its limits too.
    Source: Dimensioning and Tolerancing Handbook, chapter 9 (its motor assembly stands in the tests).
    """
    mean, worst = 0.0, 0.0
    shared: dict[str, float] = defaultdict(float)
    alone: list[float] = []
    for size in row:
        half = abs(size.way) * (size.plus - size.minus) / 2
        mean += size.way * (size.nominal + (size.plus + size.minus) / 2)
        worst += half
        if size.setting is None:
            alone.append(half)
        else:
            shared[size.setting] += half
    return Stacked(mean=mean, worst=worst, likely=hypot(*alone, *shared.values()))
