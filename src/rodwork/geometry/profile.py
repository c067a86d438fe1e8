"""A line through readings, such as a wall up its height or a floor along its length."""

from bisect import bisect_right
from collections.abc import Sequence


def reading_at(places: Sequence[float], readings: Sequence[float], place: float) -> float:
    """The reading at a place: straight between neighbours, and as the nearest one beyond the first and the last.

    `places` rise; as many as `readings`.
    """
    if place <= places[0]:
        return readings[0]
    if place >= places[-1]:
        return readings[-1]
    n = bisect_right(places, place)
    a, b = places[n - 1], places[n]
    return readings[n - 1] + (readings[n] - readings[n - 1]) * (place - a) / (b - a)


def even_places(low: float, high: float, number: int) -> tuple[float, ...]:
    """So many places from low to high, evenly; one alone stands in the middle."""
    if number == 1:
        return ((low + high) / 2,)
    return tuple(low + (high - low) * n / (number - 1) for n in range(number))
