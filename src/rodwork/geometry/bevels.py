"""The outline of a board with bevelled edges, through its thickness."""

from collections.abc import Sequence
from math import radians, tan

Point = tuple[float, float]


def outline_below(outline: Sequence[Point], bevels: Sequence[float], below_face: float) -> tuple[Point, ...]:
    """The outline at some depth below the face side, mm: each bevelled edge lies depth x tan(bevel) further out.

    Raises ValueError where one straight edge is given in two lengths with different bevels.
    """
    if not any(bevels) or below_face == 0.0:
        return tuple(outline)
    n = len(outline)
    moved: list[tuple[Point, Point]] = []  # a point of each edge after the move, and the edge's direction
    for k in range(n):
        (ax, ay), (bx, by) = outline[k], outline[(k + 1) % n]
        dx, dy = bx - ax, by - ay
        length = (dx * dx + dy * dy) ** 0.5
        out = below_face * tan(radians(bevels[k])) / length
        moved.append(((ax + dy * out, ay - dx * out), (dx / length, dy / length)))
    return tuple(_meeting(moved[k - 1], moved[k]) for k in range(n))


def _meeting(before: tuple[Point, Point], after: tuple[Point, Point]) -> Point:
    (ax, ay), (dx, dy) = before
    (bx, by), (ex, ey) = after
    turn = dx * ey - dy * ex
    if abs(turn) < 1e-12:  # one straight edge in two lengths
        if abs((bx - ax) * dy - (by - ay) * dx) > 1e-9:
            raise ValueError("an edge that runs on straight has two different bevels")
        return (bx, by)
    t = ((bx - ax) * ey - (by - ay) * ex) / turn
    return (ax + t * dx, ay + t * dy)
