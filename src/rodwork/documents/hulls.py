"""A board with a bevelled, askew or sloping side as a convex solid: its faces, its edges, and what a section leaves.

Faces are convex polygons of points in the cabinet, mm, counter-clockwise seen from outside.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from math import atan2

from rodwork.geometry.bevels import outline_below
from rodwork.geometry.vec import Vec, along, cross, dot, norm, scale, sub
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet
from rodwork.model.slope import askew
from rodwork.model.surface import EDGES

_DUST = 1e-6
_SLICE_MM = 8.0  # of a board on a slope, as boxes
Face = tuple[Vec, ...]
Plane = tuple[Vec, float]  # outward unit vector, and where the face lies on it


@dataclass(frozen=True, slots=True)
class Hull:
    """A convex solid by its faces."""

    faces: tuple[Face, ...]

    def planes(self) -> tuple[Plane, ...]:
        """The plane of each face, the solid behind it."""
        out = []
        for face in self.faces:
            way = _normal(face)
            out.append((way, dot(way, face[0])))
        return tuple(out)

    def edges(self) -> tuple[tuple[Vec, Vec], ...]:
        """Each edge once."""
        found: dict[frozenset[Vec], tuple[Vec, Vec]] = {}
        for face in self.faces:
            for a, b in zip(face, (*face[1:], face[0]), strict=True):
                found.setdefault(frozenset((_rounded(a), _rounded(b))), (a, b))
        return tuple(found.values())

    def moved(self, by: Vec) -> "Hull":
        """The same, out of its place."""
        return Hull(tuple(tuple(along(p, (by, 1.0)) for p in face) for face in self.faces))

    def behind(self, plane: Plane) -> "Hull | None":
        """What of it lies behind a plane; None where nothing does."""
        way, at = plane
        kept, cut = list[Face](), list[Vec]()
        for face in self.faces:
            polygon = list[Vec]()
            for p, q in zip(face, (*face[1:], face[0]), strict=True):
                a, b = dot(way, p) - at, dot(way, q) - at
                if a <= _DUST:
                    polygon.append(p)
                    if a >= -_DUST:
                        cut.append(p)
                if (a < -_DUST and b > _DUST) or (a > _DUST and b < -_DUST):
                    between = along(p, (sub(q, p), a / (a - b)))
                    polygon.append(between)
                    cut.append(between)
            if len(polygon) > 2 and any(dot(way, p) - at < -_DUST for p in polygon):
                kept.append(tuple(polygon))
        if not kept:
            return None
        closing = _round(cut, way)
        return Hull((*kept, closing)) if len(closing) > 2 else Hull(tuple(kept))

    def on(self, plane: Plane) -> Face | None:
        """The face of it that lies in a plane."""
        way, at = plane
        return next((f for f in self.faces if all(abs(dot(way, p) - at) < 1e-3 for p in f)), None)


def _normal(face: Face) -> Vec:
    """Outward unit vector of a face: by its longest corner, as two points may be very near each other."""
    n = len(face)
    ways = [cross(sub(face[(k + 1) % n], face[k]), sub(face[(k + 2) % n], face[(k + 1) % n])) for k in range(n)]
    way = max(ways, key=norm)
    return scale(way, 1 / norm(way))


def _rounded(p: Vec) -> Vec:
    return (round(p[0], 4), round(p[1], 4), round(p[2], 4))


def _round(points: Iterable[Vec], way: Vec) -> Face:
    """Points of one plane in order round their middle, counter-clockwise seen against `way`."""
    each = list({_rounded(p): p for p in points}.values())
    if len(each) < 3:
        return ()
    middle = scale((sum(p[0] for p in each), sum(p[1] for p in each), sum(p[2] for p in each)), 1 / len(each))
    u = sub(each[0], middle)
    v = cross(way, u)
    return tuple(sorted(each, key=lambda p: atan2(dot(sub(p, middle), v), dot(sub(p, middle), u))))


def is_square(part: Part) -> bool:
    """Whether a board is boxes of wood: nothing of it bevelled, askew or on a slope."""
    return not part.pose.slopes and not any(part.bevels) and not any(askew(part.outline, edge) for edge in EDGES)


@lru_cache(maxsize=512)
def hull_of(part: Part) -> Hull | None:
    """A board that is not square as a convex solid, without its machining; None for one that is boxes of wood."""
    if is_square(part) or len(part.outline) != 4:
        return None
    thick, pose = part.size[2], part.pose
    upper = [pose.to_cabinet((x, y, thick)) for x, y in part.outline]
    lower = [pose.to_cabinet((x, y, 0.0)) for x, y in outline_below(part.outline, part.bevels, thick)]
    n = len(upper)
    walls = [(lower[k], lower[(k + 1) % n], upper[(k + 1) % n], upper[k]) for k in range(n)]
    return Hull((tuple(upper), tuple(reversed(lower)), *walls))


def front_outline(part: Part) -> tuple[tuple[float, float], ...]:
    """What is seen from the front of a board that is alike all through its depth, as (across, up)."""
    seen = ((x, 0.0, z) for x, _, z in _corners(part))
    return tuple((x, z) for x, _, z in _round(seen, (0.0, -1.0, 0.0)))


def lowest_at(part: Part, x: float) -> float:
    """How low a board comes at this place across the cabinet, mm up: on its underside, or at its nearer end."""
    seen = front_outline(part)
    x = min(max(x, min(p[0] for p in seen)), max(p[0] for p in seen))
    heights = list[float]()
    for (ax, az), (bx, bz) in zip(seen, (*seen[1:], seen[0]), strict=True):
        if min(ax, bx) - _DUST <= x <= max(ax, bx) + _DUST:
            heights += [az, bz] if abs(bx - ax) < _DUST else [az + (bz - az) * (x - ax) / (bx - ax)]
    return min(heights)


def front_heights(part: Part) -> tuple[float, float]:
    """How high a front comes at its left and its right edge: alike unless it is cut to a slope."""
    seen = front_outline(part)
    left, right = min(x for x, _ in seen), max(x for x, _ in seen)
    return max(z for x, z in seen if x - left < _DUST), max(z for x, z in seen if right - x < _DUST)


def outside_heights(cabinet: RodCabinet) -> tuple[float, float] | None:
    """How high the left and the right side come at their outsides, mm, under a slope; None where the top is level."""
    if not any(p.role == "top" and p.pose.slopes for p in cabinet.parts):
        return None
    tops = [(p[0], p[2]) for part in cabinet.parts if part.role == "side" for p in _corners(part)]
    left, right = min(x for x, _ in tops), max(x for x, _ in tops)
    return max(z for x, z in tops if x - left < _DUST), max(z for x, z in tops if right - x < _DUST)


def _corners(part: Part) -> tuple[Vec, ...]:
    hull = hull_of(part)
    if hull is None:
        return tuple((x, y, z) for x, y, z in product(*zip(*part.box, strict=True)))
    return tuple(p for face in hull.faces for p in face)


def boxes_within(part: Part) -> tuple[tuple[Vec, Vec], ...]:
    """Boxes that lie inside a board which is none, for what asks only whether boards are in each other's way.

    A level board with bevelled edges is one box, up to its short points; one askew or on a slope is many upright ones.
    """
    hull = hull_of(part)
    if hull is None:
        return (part.box,)
    points = [p for face in hull.faces for p in face]
    (x0, y0, _), (x1, y1, _) = _around(points)
    if not part.pose.slopes and any(part.bevels):
        upper, lower = (
            _around([part.pose.to_cabinet((x, y, z)) for x, y in outline])
            for outline, z in (
                (part.outline, part.size[2]),
                (outline_below(part.outline, part.bevels, part.size[2]), 0.0),
            )
        )
        return (_common(upper, lower, part),)
    return _upright(hull, (x0, x1), (y0, y1), inside=True)


def boxes_round(part: Part, corners: tuple[Vec, Vec]) -> tuple[tuple[Vec, Vec], ...]:
    """Boxes round a channel of a board on a slope, by two opposite corners of it, part axes."""
    (a, b, c), (d, e, f) = corners
    upper, lower = ([part.pose.to_cabinet(p) for p in ((a, b, z), (d, b, z), (d, e, z), (a, e, z))] for z in (c, f))
    walls = [(lower[k], lower[(k + 1) % 4], upper[(k + 1) % 4], upper[k]) for k in range(4)]
    hull = Hull((tuple(upper), tuple(lower), *walls))
    (x0, y0, _), (x1, y1, _) = _around((*upper, *lower))
    return _upright(hull, (x0, x1), (y0, y1), inside=False)


def _upright(
    hull: Hull, across: tuple[float, float], deep: tuple[float, float], inside: bool
) -> tuple[tuple[Vec, Vec], ...]:
    """A solid that is alike all through its depth as upright boxes beside each other, inside it or round it."""
    x0, x1 = across
    count = max(1, round((x1 - x0) / _SLICE_MM))
    cuts = [x0 + (x1 - x0) * k / count for k in range(count + 1)]
    lows, highs = zip(*(_heights(hull, x) for x in cuts), strict=True)
    least, most = (max, min) if inside else (min, max)
    out = []
    for k in range(count):
        low, high = least(lows[k : k + 2]), most(highs[k : k + 2])
        if high > low:
            out.append(((cuts[k], deep[0], low), (cuts[k + 1], deep[1], high)))
    return tuple(out)


def _around(points: Iterable[Vec]) -> tuple[Vec, Vec]:
    xs, ys, zs = zip(*points, strict=True)
    return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))


def _common(a: tuple[Vec, Vec], b: tuple[Vec, Vec], part: Part) -> tuple[Vec, Vec]:
    """What two faces have in common, with the thickness between them."""
    low, high = part.box
    thin = max(range(3), key=lambda i: abs(part.pose.rotation[i][2]))
    inner = [(max(a[0][i], b[0][i]), min(a[1][i], b[1][i])) if i != thin else (low[i], high[i]) for i in range(3)]
    (x0, x1), (y0, y1), (z0, z1) = inner
    return (x0, y0, z0), (x1, y1, z1)


def _heights(hull: Hull, x: float) -> tuple[float, float]:
    """From where to where the solid goes up at a place across the cabinet."""
    at = []
    for p, q in hull.edges():
        if abs(p[0] - q[0]) > _DUST and min(p[0], q[0]) - _DUST <= x <= max(p[0], q[0]) + _DUST:
            at.append(p[2] + (q[2] - p[2]) * (x - p[0]) / (q[0] - p[0]))
        elif abs(p[0] - x) < _DUST:
            at += [p[2]]
    return (min(at), max(at)) if at else (0.0, 0.0)
