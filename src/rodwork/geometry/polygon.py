"""Points and rectangles in an outline: a polygon without holes, its corners in order, either way round."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

Point = tuple[float, float]


def inside(point: Sequence[float], outline: Sequence[Point]) -> bool:
    """Whether a point lies in an outline: a ray to the right crosses it an odd number of times."""
    x, y = point
    crossed = 0
    for (x0, y0), (x1, y1) in pairwise((*outline, outline[0])):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            crossed += 1
    return crossed % 2 == 1


def room_round(low: Point, high: Point, outline: Sequence[Point]) -> float:
    """Least distance from a rectangle to the outline that it lies in; nought where it does not lie inside."""
    corners = (low, (high[0], low[1]), high, (low[0], high[1]))
    if not all(inside(corner, outline) for corner in corners):
        return 0.0
    edges = tuple(pairwise((*outline, outline[0])))
    return min(
        0.0 if _enters(a, b, low, high) else min(
            _to_rectangle(a, low, high), *(_to_segment(corner, a, b) for corner in corners)
        )
        for a, b in edges
    )  # fmt: skip


def _to_rectangle(point: Point, low: Point, high: Point) -> float:
    return hypot(*(max(low[k] - point[k], 0.0, point[k] - high[k]) for k in (0, 1)))


def _to_segment(point: Point, a: Point, b: Point) -> float:
    """Distance from a point to the nearest point of a segment that has a length."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    share = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / (dx * dx + dy * dy)
    share = min(max(share, 0.0), 1.0)
    return hypot(point[0] - a[0] - share * dx, point[1] - a[1] - share * dy)


def _enters(a: Point, b: Point, low: Point, high: Point) -> bool:
    """Whether any of a segment lies in a rectangle (Liang and Barsky, 1984: clipping by parameter)."""
    first, last = 0.0, 1.0
    for k in (0, 1):
        along = b[k] - a[k]
        if along == 0.0:
            if not low[k] <= a[k] <= high[k]:
                return False
            continue
        enter, leave = sorted(((low[k] - a[k]) / along, (high[k] - a[k]) / along))
        first, last = max(first, enter), min(last, leave)
    return first <= last
