"""Where a board that is longer than its sheet is joined: as even as may be, and nowhere that is barred."""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil

from rodwork.model.job import Board
from rodwork.model.sawing import SHEET_TRIM_MM

LEAST_LENGTH_MM = 150.0
OVER_CABINET_MM = 50.0  # a joint lies so far within what carries it; common practice, no source
MOST_MORE = 4  # lengths beyond the fewest, before it is given up
Span = tuple[float, float]


def longest(board: Board) -> float:
    """The longest board that comes out of a sheet, its grain along it, mm."""
    return (board.sheet_mm[0] if board.grain else max(board.sheet_mm)) - 2 * SHEET_TRIM_MM


def joints(span: Span, most: float, barred: Sequence[Span]) -> tuple[float, ...] | None:
    """Places of the joints in a board that goes from `span[0]` to `span[1]`; None where it cannot be done.

    No length is over `most` or under LEAST_LENGTH_MM; no joint lies inside a barred stretch.
    """
    start, end = span
    fewest = ceil((end - start) / most - 1e-9)
    for number in range(fewest, fewest + MOST_MORE):
        even = [start + (end - start) * k / number for k in range(1, number)]
        at = [_moved(x, barred, span) for x in even]
        places = [start, *(x for x in at if x is not None), end]
        if None not in at and all(LEAST_LENGTH_MM <= b - a <= most + 1e-9 for a, b in pairwise(places)):
            return tuple(round(x, 3) for x in places[1:-1])
        if number == 1 and end - start <= most + 1e-9:
            return ()
    return None


def _moved(x: float, barred: Sequence[Span], span: Span) -> float | None:
    """The nearest place to x that is not barred."""
    tries = [x, *(edge for pair in barred for edge in pair)]
    free = [t for t in tries if span[0] < t < span[1] and not any(a + 1e-9 < t < b - 1e-9 for a, b in barred)]
    return min(free, key=lambda t: (abs(t - x), t), default=None)
