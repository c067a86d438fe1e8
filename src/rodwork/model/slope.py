"""Edges and ends that are not square to the faces: where such a surface lies, and which way it looks.

A bevel is given in degrees: more than nought where the edge reaches further out on the back side, less where it does
on the face side. The box of a part goes round both, so that its ends are the long points.

        face side                 x  = long point + z tan(bevel)
        ____________              z  up from the back side
       /            |             the slope is the thickness / cos(bevel) wide
      /_____________|
    long point   back side

Numbers in a face are taken from the long point, which is what a stop touches; numbers on a slope run along it, from
its arris with the face that they are taken from.

An edge may also run askew along the board (`askew`): the upper edge of a back under a sloping ceiling. It is square to
the faces then.
"""

from functools import lru_cache
from math import cos, radians, sin, tan

from rodwork.geometry.vec import Vec, along, cross, dot, neg, norm, scale
from rodwork.model.panel import Panel, Point
from rodwork.model.surface import EDGES, Surface, axis_of, inward, level, outward

_FLAT = 1e-9


def bevel_at(panel: Panel, surface: Surface) -> float:
    """The bevel of an edge or end, degrees; nought where it is square, and of a face.

    Of the outline's edges that look that way the outermost counts: the others are those of a notch.
    """
    if not any(panel.bevels) or axis_of(surface) == 2:
        return 0.0
    out, found = outward(surface), list[tuple[float, float]]()
    for (a, b), bevel in zip(_edges(panel.outline), panel.bevels, strict=True):
        way = (b[1] - a[1], a[0] - b[0])  # the outline runs counter-clockwise: outside is on its right
        if way[0] * out[0] + way[1] * out[1] > _FLAT and abs(way[0] * out[1]) + abs(way[1] * out[0]) < _FLAT:
            found.append((a[0] * out[0] + a[1] * out[1], bevel))
    return max(found)[1] if found else 0.0


def _edges(outline: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    return list(zip(outline, (*outline[1:], outline[0]), strict=True))


def level_at(panel: Panel, surface: Surface, z: float) -> float:
    """Where a surface lies on its axis, mm; an edge or end at this height above the back side."""
    bevel, axis = bevel_at(panel, surface), axis_of(surface)
    inset = (z if bevel > 0 else panel.size[2] - z) * tan(radians(abs(bevel)))
    return level(surface, panel.size) - outward(surface)[axis] * inset


@lru_cache(maxsize=256)
def askew(outline: tuple[Point, ...], surface: Surface) -> tuple[Point, Vec] | None:
    """A corner and the outward unit vector of an edge or end that runs askew; None where it is along the board."""
    out = outward(surface)
    best, found = _FLAT, None
    for (ax, ay), (bx, by) in _edges(outline):
        long = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
        way = ((by - ay) / long, (ax - bx) / long, 0.0)
        if dot(way, out) > best:
            best, found = dot(way, out), ((ax, ay), way)
    return found if best < 1 - _FLAT else None


def across_the_board(panel: Panel, way: Vec) -> bool:
    """Whether a way in the cabinet goes askew over a board: along none of its edges."""
    return max(abs(n) for n in panel.pose.direction_to_part(way)) < 1 - _FLAT


def edge_length(panel: Panel, surface: Surface) -> float:
    """Length of an edge or end of a finished board, mm: as it runs where it is askew, over its notches elsewhere."""
    square = panel.size[1 - axis_of(surface)]
    if not any(askew(panel.outline, edge) for edge in EDGES):
        return square
    oblique = askew(panel.outline, surface)
    out = oblique[1] if oblique else outward(surface)
    for (ax, ay), (bx, by) in _edges(panel.outline):
        long = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
        if ((by - ay) * out[0] + (ax - bx) * out[1]) / long > 1 - _FLAT:
            return float(round(long, 6))
    return square


def _plane(panel: Panel, surface: Surface) -> tuple[Vec, float]:
    """Outward unit vector of a surface and where it lies on that, part axes."""
    oblique = askew(panel.outline, surface) if axis_of(surface) != 2 else None
    if oblique is not None:
        (x, y), way = oblique
        return way, dot(way, (x, y, 0.0))
    at = [0.0, 0.0, 0.0]
    at[axis_of(surface)] = level_at(panel, surface, 0.0)
    way = outward_of(panel, surface)
    return way, dot(way, (at[0], at[1], at[2]))


def corner_of(panel: Panel, a: Surface, b: Surface, c: Surface) -> Vec:
    """The point that lies in three surfaces of a part, part axes; they must not be parallel."""
    (p, i), (q, j), (r, k) = (_plane(panel, surface) for surface in (a, b, c))
    whole = dot(p, cross(q, r))
    return scale(along((0.0, 0.0, 0.0), (cross(q, r), i), (cross(r, p), j), (cross(p, q), k)), 1 / whole)


def run_of(panel: Panel, bears: Surface, begins: Surface, beside: Surface) -> Vec:
    """Unit vector along the arris of two surfaces, away from the surface where it begins, part axes."""
    way = cross(_plane(panel, bears)[0], _plane(panel, beside)[0])
    away = dot(way, inward(begins))
    return scale(way, (1.0 if away > 0 else -1.0) / norm(way))


def outward_of(panel: Panel, surface: Surface) -> Vec:
    """Unit vector out of the part through a surface, square to it, part axes."""
    oblique = askew(panel.outline, surface) if axis_of(surface) != 2 else None
    if oblique is not None:
        return oblique[1]
    bevel = radians(bevel_at(panel, surface))
    x, y, z = outward(surface)
    return (x * cos(bevel), y * cos(bevel), z + sin(bevel)) if bevel else (x, y, z)


def inward_of(panel: Panel, surface: Surface) -> Vec:
    """Unit vector into the part through a surface, square to it, part axes."""
    return neg(outward_of(panel, surface))


def from_arris(panel: Panel, surface: Surface, face: Surface) -> Vec:
    """Unit vector in a surface, square to its arris with a face and away from that, part axes."""
    bevel = radians(bevel_at(panel, surface))
    x, y, _ = outward(surface)
    up = (-x * sin(bevel), -y * sin(bevel), cos(bevel))
    return up if face == "back_side" else neg(up)


def on_the_slope(panel: Panel, surface: Surface, deep: float) -> float:
    """What so many mm of the thickness measure along a surface."""
    return deep / cos(radians(bevel_at(panel, surface)))


def reckoned_outwards(panel: Panel, worked: Surface, surface: Surface) -> Vec:
    """The way against which numbers from a surface run, part axes: out of it, square to it.

    Where an end that is worked is bevelled, those from a face run along it from their arris: then out of the arris.
    """
    if axis_of(surface) == 2 and bevel_at(panel, worked):
        return neg(from_arris(panel, worked, surface))
    return outward(surface)
