"""A cabinet drawn from where its boards stand: what is seen of every edge, and nothing that is hidden.

Three rules keep it honest. The boards are laid on one grid of their own faces, so that what lies in a groove is
wood of one board only, and an edge is drawn where wood changes to air or one board to another. An edge is hidden
exactly where some piece of wood lies between it and the eye: that stretch is worked out, not sampled. Faces
closer together than `SNAP_MM` are taken as one, so that the clearance of a back is not drawn as a second line.

Views are parallel: the front keeps its true shape, depth runs off up and to the right. Lengths are mm.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import cos, radians, sin
from typing import TYPE_CHECKING, Any

from rodwork.documents.drawing import Path_, Pen, Point, Shape
from rodwork.documents.hulls import Hull, Plane, boxes_round, boxes_within, hull_of
from rodwork.geometry.vec import Vec, along, cross, dot, neg
from rodwork.model.feature import Feature, Groove
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet

if TYPE_CHECKING:
    import numpy as np

    Array = np.ndarray[Any, np.dtype[Any]]

SNAP_MM = 1.2
_INSIDE = 0.05  # a point counts as behind wood only this far inside it, mm
_SPECK = 0.5  # shorter stretches slip between two boards that touch, mm
_DUST = 1e-6
Box = tuple[Vec, Vec]  # nearest and farthest corner
Cells = tuple[tuple[int, int, int], tuple[int, int, int]]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Which way is to the right, up and towards the eye (unit vectors of the cabinet), and how depth recedes.

    `recede` is (across, up) on paper for each mm away from the eye; (0, 0) is an elevation.
    """

    right: Vec
    up: Vec
    toward: Vec
    recede: tuple[float, float] = (0.0, 0.0)

    def on_paper(self, p: Vec) -> Point:
        """Where a point of the cabinet comes on paper, mm at full size."""
        away = -dot(p, self.toward)
        return (
            dot(p, self.right) + self.recede[0] * away,
            dot(p, self.up) + self.recede[1] * away,
        )

    @property
    def to_eye(self) -> Vec:
        """The way to the eye: along it everything falls on one point of the paper."""
        return along(self.toward, (self.right, self.recede[0]), (self.up, self.recede[1]))


_HALF_DEPTH = (0.5 * cos(radians(40.0)), 0.5 * sin(radians(40.0)))


def lying(down: Vec) -> View:
    """A pictorial view of the cabinet lying with this direction of it downwards, its front towards you.

    On its face or on its back its top end is towards you, so that left stays left on its face.
    """
    up = neg(down)
    toward: Vec = (0.0, -1.0, 0.0) if abs(down[1]) < 0.5 else (0.0, 0.0, 1.0)
    return View(right=cross(up, toward), up=up, toward=toward, recede=_HALF_DEPTH)


STANDING = lying((0.0, 0.0, -1.0))
FRONT = View(right=(1.0, 0.0, 0.0), up=(0.0, 0.0, 1.0), toward=(0.0, -1.0, 0.0))
FROM_RIGHT = View(right=(0.0, 1.0, 0.0), up=(0.0, 0.0, 1.0), toward=(1.0, 0.0, 0.0))
FROM_ABOVE = View(right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0), toward=(0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """One board as boxes of wood in the cabinet, less boxes of air (grooves, housings, rebates).

    `hull`: a board that is no boxes is drawn as this; its boxes then lie inside it.
    """

    id: str
    wood: tuple[Box, ...]
    air: tuple[Box, ...] = ()
    hull: Hull | None = None

    @property
    def whole(self) -> Box:
        """The box round it."""
        points = [(p, p) for face in self.hull.faces for p in face] if self.hull else ()
        return extent(points or self.wood)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenLine:
    """A stretch of an edge that is seen, on paper at full size, and the boards that it bounds."""

    a: Point
    b: Point
    boards: frozenset[str]


# boards as boxes ---------------------------------------------------------------------------------------------


def part_box(part: Part) -> Box:
    """The box round a board where it stands in its cabinet, mm."""
    return part.box


def extent(boxes: Iterable[Box]) -> Box:
    """The box round boxes."""
    lows, highs = zip(*boxes, strict=True)
    return (
        (min(p[0] for p in lows), min(p[1] for p in lows), min(p[2] for p in lows)),
        (max(p[0] for p in highs), max(p[1] for p in highs), max(p[2] for p in highs)),
    )


def solids(cabinet: RodCabinet, only: Iterable[str] | None = None) -> tuple[Solid, ...]:
    """The boards of a cabinet (or only those named), each whole, a board before one that stands in its groove."""
    wanted = set(cabinet.part if only is None else only)
    return tuple(_solid(cabinet.part[i]) for i in _grooved_first(cabinet) if i in wanted)


def shifted(solid: Solid, by: Vec) -> Solid:
    """The board moved out of its place."""

    def move(boxes: tuple[Box, ...]) -> tuple[Box, ...]:
        return tuple((along(lo, (by, 1.0)), along(hi, (by, 1.0))) for lo, hi in boxes)

    hull = solid.hull.moved(by) if solid.hull else None
    return Solid(id=solid.id, wood=move(solid.wood), air=move(solid.air), hull=hull)


def _grooved_first(cabinet: RodCabinet) -> tuple[str, ...]:
    into: dict[str, set[str]] = {}
    for joint in cabinet.joints:
        into.setdefault(joint.parts[1], set()).add(joint.parts[0])
    placed: dict[str, None] = {}
    waiting = [p.id for p in cabinet.whole_boards]
    while waiting:
        ready = [i for i in waiting if not (into.get(i, set()) & set(waiting) - {i})] or waiting[:1]
        placed.update(dict.fromkeys(ready))
        waiting = [i for i in waiting if i not in placed]
    return tuple(placed)


def _solid(part: Part) -> Solid:
    hull = hull_of(part)
    if hull is not None:
        grooves = [f for f in part.features if isinstance(f, Groove) and _square(f)]
        air = tuple(box for f in grooves for box in _hollows(part, f))
        return Solid(id=part.id, wood=boxes_within(part), air=air, hull=hull)
    wood = tuple(_in_cabinet(part, lo, hi) for lo, hi in _blocks(part))
    air = tuple(_channel(part, f) for f in part.features if isinstance(f, Groove) and _square(f))
    return Solid(id=part.id, wood=wood, air=air)


def _hollows(part: Part, groove: Groove) -> tuple[Box, ...]:
    return boxes_round(part, _corners(groove)) if part.pose.slopes else (_channel(part, groove),)


def _blocks(part: Part) -> tuple[Box, ...]:
    """The board before machining as boxes of its own frame: several where its outline is notched."""
    L, W, T = part.size
    if len(part.outline) <= 4:
        return (((0.0, 0.0, 0.0), (L, W, T)),)
    xs = sorted({x for x, _ in part.outline})
    ys = sorted({y for _, y in part.outline})
    return tuple(
        ((x0, y0, 0.0), (x1, y1, T))
        for x0, x1 in pairwise(xs)
        for y0, y1 in pairwise(ys)
        if _within(part.outline, ((x0 + x1) / 2, (y0 + y1) / 2))
    )


def _within(outline: tuple[Point, ...], p: Point) -> bool:
    odd = False
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (y0 > p[1]) != (y1 > p[1]) and p[0] < (x1 - x0) * (p[1] - y0) / (y1 - y0) + x0:
            odd = not odd
    return odd


def _square(feature: Feature) -> bool:
    return all(max(abs(c) for c in v) > 1 - _DUST for v in (feature.into, feature.along))


def _channel(part: Part, groove: Groove) -> Box:
    return _in_cabinet(part, *_corners(groove))


def _corners(groove: Groove) -> tuple[Vec, Vec]:
    """Two opposite corners of a channel, from a trace before its mouth."""
    side = cross(groove.into, groove.along)
    low, high = (
        along(groove.at, (groove.along, i * groove.length / 2), (side, i * groove.width / 2), (groove.into, d))
        for i, d in ((-1, -1.0), (1, groove.depth))
    )
    return low, high


def _in_cabinet(part: Part, a: Vec, b: Vec) -> Box:
    return _ordered(part.pose.to_cabinet(a), part.pose.to_cabinet(b))


def _ordered(a: Vec, b: Vec) -> Box:
    return (
        (min(a[0], b[0]), min(a[1], b[1]), min(a[2], b[2])),
        (max(a[0], b[0]), max(a[1], b[1]), max(a[2], b[2])),
    )


def _bounded(box: Box, within: Box) -> Box | None:
    lo = tuple(max(a, b) for a, b in zip(box[0], within[0], strict=True))
    hi = tuple(min(a, b) for a, b in zip(box[1], within[1], strict=True))
    if any(b - a < _DUST for a, b in zip(lo, hi, strict=True)):
        return None
    return ((lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2]))


# what is seen ------------------------------------------------------------------------------------------------


def seen(boards: tuple[Solid, ...], view: View, within: Box | None = None) -> tuple[SeenLine, ...]:
    """Every stretch of edge that is seen of the boards, or of what is left of them within a box (a section)."""
    return tuple(_seen(boards, view, within))


def cut_faces(boards: tuple[Solid, ...], view: View, within: Box) -> tuple[tuple[Point, ...], ...]:
    """Where a section towards the eye cuts wood: the corners of each cut on paper, full size."""
    axis = max(range(3), key=lambda i: abs(view.toward[i]))
    near = within[1][axis] if view.toward[axis] > 0 else within[0][axis]
    faces = list[tuple[Point, ...]]()
    grid = _grid(boards, within)
    for lo, hi in grid.pieces if grid is not None else ():
        if abs((hi if view.toward[axis] > 0 else lo)[axis] - near) < SNAP_MM:
            a, b = view.on_paper(lo), view.on_paper(hi)
            faces.append((a, (b[0], a[1]), b, (a[0], b[1])))
    for _, hull in _hulls(boards, within):
        face = hull.on((view.toward, near * view.toward[axis]))
        faces += [tuple(view.on_paper(p) for p in face)] if face else []
    return tuple(faces)


def drawn(lines: Iterable[SeenLine], pen: Pen, heavy: Pen, boards: frozenset[str] = frozenset()) -> tuple[Path_, ...]:
    """The lines as shapes at full size: thin first, then heavy those that bound one of the boards named."""
    thin = [Path_(points=(s.a, s.b), pen=pen) for s in lines if not s.boards & boards]
    return (*thin, *(Path_(points=(s.a, s.b), pen=heavy) for s in lines if s.boards & boards))


def bounds(shapes: Iterable[Shape]) -> tuple[Point, Point]:
    """The box round lines: (left bottom, right top)."""
    points = [p for s in shapes if isinstance(s, Path_) for p in s.points]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return (min(xs), min(ys)), (max(xs), max(ys))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grid:
    """Planes on each axis, the board in every cell between them (0: air), and each board as pieces of wood."""

    planes: "tuple[Array, Array, Array]"
    cells: "Array"
    pieces: tuple[Box, ...]
    names: tuple[str, ...]


def _grid(boards: tuple[Solid, ...], within: Box | None) -> _Grid | None:
    import numpy as np

    wood, air = _boxes(boards, within)
    if not wood:
        return None
    planes = _planes([box for _, box in (*wood, *air)])

    def place(box: Box) -> Cells:
        lo, hi = (tuple(int(np.searchsorted(planes[i], c[i] + _DUST, "right")) - 1 for i in range(3)) for c in box)
        return (lo[0], lo[1], lo[2]), (hi[0], hi[1], hi[2])

    cells = np.zeros([len(p) + 1 for p in planes], dtype=np.int16)  # a rim of air all round
    inner = cells[1:-1, 1:-1, 1:-1]
    pieces: dict[int, list[Cells]] = {}
    for number in range(1, len(boards) + 1):
        for box in (b for n, b in wood if n == number):
            at = place(box)
            if not _cells_in(at):
                continue  # thinner than SNAP_MM
            _cut_away(pieces, at)
            pieces.setdefault(number, []).append(at)
            inner[_slices(at)] = number
        for box in (b for n, b in air if n == number):
            at = place(box)
            mine = {number: pieces.get(number, [])}
            _cut_away(mine, at)
            pieces.update(mine)
            region = inner[_slices(at)]
            region[region == number] = 0
    wooden = tuple(_back(cell, planes) for found in pieces.values() for cell in found)
    return _Grid(planes=planes, cells=cells, pieces=wooden, names=("", *(b.id for b in boards)))


def _boxes(boards: tuple[Solid, ...], within: Box | None) -> tuple[list[tuple[int, Box]], list[tuple[int, Box]]]:
    def part_of(box: Box) -> Box | None:
        return box if within is None else _bounded(box, within)

    wood = [(n, b) for n, s in enumerate(boards, 1) if s.hull is None for b in map(part_of, s.wood) if b]
    whole = {s.id: extent(s.wood) for s in boards}
    air = [
        (n, b)
        for n, s in enumerate(boards, 1)
        for a in s.air
        if (inside := _bounded(a, whole[s.id])) and (b := part_of(inside))
    ]
    return wood, air


def _hulls(boards: tuple[Solid, ...], within: Box | None) -> list[tuple[str, Hull]]:
    """The boards that are no boxes, each with what is left of it."""
    found = []
    for solid in boards:
        hull = solid.hull
        for axis in range(3) if within is not None else ():
            for sign, corner in ((1.0, within[1]), (-1.0, within[0])) if within else ():
                way = (sign * (axis == 0), sign * (axis == 1), sign * (axis == 2))
                hull = hull.behind((way, sign * corner[axis])) if hull is not None else None
        found += [(solid.id, hull)] if hull is not None else []
    return found


def _planes(boxes: list[Box]) -> "tuple[Array, Array, Array]":
    import numpy as np

    def lines(axis: int) -> "Array":
        kept: list[float] = []
        for c in sorted({corner[axis] for box in boxes for corner in box}):
            if not kept or c - kept[-1] > SNAP_MM:
                kept.append(c)
        return np.array(kept)

    return lines(0), lines(1), lines(2)


def _slices(at: Cells) -> tuple[slice, slice, slice]:
    (a, b, c), (d, e, f) = at
    return slice(a, d), slice(b, e), slice(c, f)


def _cut_away(pieces: dict[int, list[Cells]], cut: Cells) -> None:
    """Take the cells of `cut` out of every piece. What is left overlaps, so that no sight line slips between."""
    for number, found in pieces.items():
        if any(_meet(piece, cut) for piece in found):
            pieces[number] = _largest([rest for piece in found for rest in _less(piece, cut)])


def _meet(a: Cells, b: Cells) -> bool:
    return all(a[0][i] < b[1][i] and b[0][i] < a[1][i] for i in range(3))


def _less(piece: Cells, cut: Cells) -> list[Cells]:
    """The largest boxes of a piece that lie clear of the cut: one on each side of it."""
    if not _meet(piece, cut):
        return [piece]
    lo, hi = piece
    before = [(lo, _with(hi, i, cut[0][i])) for i in range(3) if cut[0][i] > lo[i]]
    beyond = [(_with(lo, i, cut[1][i]), hi) for i in range(3) if cut[1][i] < hi[i]]
    return before + beyond


def _largest(pieces: list[Cells]) -> list[Cells]:
    """Those that lie in no other."""
    kept: list[Cells] = []
    for lo, hi in sorted(set(pieces), key=_cells_in, reverse=True):
        if not any(all(a[i] <= lo[i] and hi[i] <= b[i] for i in range(3)) for a, b in kept):
            kept.append((lo, hi))
    return kept


def _cells_in(piece: Cells) -> int:
    lo, hi = piece
    return (hi[0] - lo[0]) * (hi[1] - lo[1]) * (hi[2] - lo[2])


def _with(corner: tuple[int, int, int], axis: int, value: int) -> tuple[int, int, int]:
    changed = [*corner]
    changed[axis] = value
    return (changed[0], changed[1], changed[2])


def _back(at: Cells, planes: "tuple[Array, Array, Array]") -> Box:
    lo, hi = ((float(planes[0][c[0]]), float(planes[1][c[1]]), float(planes[2][c[2]])) for c in at)
    return lo, hi


@lru_cache(maxsize=512)
def _seen(boards: tuple[Solid, ...], view: View, within: Box | None) -> tuple[SeenLine, ...]:
    import numpy as np

    grid, hulls = _grid(boards, within), _hulls(boards, within)
    if grid is None and not hulls:
        return ()
    starts, ends, around = _edges(grid) if grid is not None else (np.empty((0, 3)), np.empty((0, 3)), [])
    names = [*(grid.names if grid is not None else ("",)), *(id for id, _ in hulls)]
    for number, (_, hull) in enumerate(hulls, len(names) - len(hulls)):
        own = hull.edges()
        starts = np.concatenate([starts, np.array([a for a, _ in own])])
        ends = np.concatenate([ends, np.array([b for _, b in own])])
        around += [(number,)] * len(own)
    covers = _hidden_stretches(starts, ends, grid.pieces, view.to_eye) if grid is not None else [[] for _ in around]
    if hulls:
        more = _hidden_by_hulls(starts, ends, [hull.planes() for _, hull in hulls], view.to_eye)
        covers = [[*a, *b] for a, b in zip(covers, more, strict=True)]
    sets: dict[tuple[int, ...], frozenset[str]] = {}
    found: list[SeenLine] = []
    flat = np.array([view.on_paper((1.0, 0.0, 0.0)), view.on_paper((0.0, 1.0, 0.0)), view.on_paper((0.0, 0.0, 1.0))])
    for a, b, four, hidden in zip((starts @ flat).tolist(), (ends @ flat).tolist(), around, covers, strict=True):
        if abs(a[0] - b[0]) + abs(a[1] - b[1]) < _DUST:
            continue  # seen end on
        if four not in sets:
            sets[four] = frozenset(names[n] for n in four if n)
        length = ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5
        for s, t in _open(hidden):
            if (t - s) * length < _SPECK:
                continue
            p = (a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1]))
            q = (a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))
            found.append(SeenLine(a=p, b=q, boards=sets[four]))
    return tuple(found)


def _edges(grid: _Grid) -> "tuple[Array, Array, list[tuple[int, ...]]]":
    """Every true edge as (n, 3) starts and ends, with the boards in the four cells round it.

    Along an edge the four cells do not change. It is no edge where a plane parts them into two equal pairs.
    """
    import numpy as np

    starts: list[Array] = []
    ends: list[Array] = []
    around: list[tuple[int, ...]] = []
    for axis in range(3):
        cells = np.moveaxis(grid.cells, axis, 2)[:, :, 1:-1]
        a, b, c, d = cells[:-1, :-1], cells[1:, :-1], cells[:-1, 1:], cells[1:, 1:]
        edge = ~((a == b) & (c == d)) & ~((a == c) & (b == d)) & ((a == 0) | (b == 0) | (c == 0) | (d == 0))
        code = np.where(edge, ((a.astype(np.int64) * 4096 + b) * 4096 + c) * 4096 + d, -1)
        changes = np.diff(code, axis=2) != 0
        rim = np.ones((*code.shape[:2], 1), bool)
        first = np.argwhere(edge & np.concatenate([rim, changes], axis=2))
        last = np.argwhere(edge & np.concatenate([changes, rim], axis=2))
        others = [i for i in range(3) if i != axis]
        for points, ks in ((starts, first[:, 2]), (ends, last[:, 2] + 1)):
            p = np.empty((len(first), 3))
            p[:, others[0]] = grid.planes[others[0]][first[:, 0]]
            p[:, others[1]] = grid.planes[others[1]][first[:, 1]]
            p[:, axis] = grid.planes[axis][ks]
            points.append(p)
        i, j, k = first.T
        four = np.stack([a[i, j, k], b[i, j, k], c[i, j, k], d[i, j, k]], axis=1)
        around += [tuple(row) for row in four.tolist()]
    return np.concatenate(starts), np.concatenate(ends), around


def _hidden_stretches(
    starts: "Array", ends: "Array", pieces: tuple[Box, ...], to_eye: Vec
) -> list[list[tuple[float, float]]]:
    """Which stretches of each edge some piece of wood hides, as fractions of its length.

    A point P + t (Q - P) is hidden where a step s > 0 towards the eye enters a box. Between each pair of the
    box's planes s has a lower and an upper bound linear in t, so every pair of bounds gives one limit on t.
    """
    import numpy as np

    lo = np.array([p[0] for p in pieces]) + _INSIDE  # (m, 3)
    hi = np.array([p[1] for p in pieces]) - _INSIDE
    n, m = len(starts), len(pieces)
    run = ends - starts
    low, high = np.zeros((n, m)), np.ones((n, m))
    lower: list[tuple[Any, Any]] = [(np.zeros((1, 1)), np.zeros((1, 1)))]
    upper: list[tuple[Any, Any]] = []
    for i in range(3):
        near = lo[None, :, i] - starts[:, None, i]
        far = hi[None, :, i] - starts[:, None, i]
        slope = -run[:, None, i]
        v = to_eye[i]
        if abs(v) < _DUST:
            _limit(low, high, -slope, far)
            _limit(low, high, slope, -near)
        else:
            one, two = (near / v, slope / v), (far / v, slope / v)
            lower.append(one if v > 0 else two)
            upper.append(two if v > 0 else one)
    for l0, l1 in lower:
        for u0, u1 in upper:
            _limit(low, high, l1 - u1, u0 - l0)
    covers: list[list[tuple[float, float]]] = [[] for _ in range(n)]
    for i, j in np.argwhere(high - low > _DUST).tolist():
        covers[i].append((float(low[i, j]), float(high[i, j])))
    return covers


def _hidden_by_hulls(
    starts: "Array", ends: "Array", solids: Sequence[tuple[Plane, ...]], to_eye: Vec
) -> list[list[tuple[float, float]]]:
    """The same for convex solids: behind each plane of one, s has a lower or an upper bound linear in t."""
    import numpy as np

    covers: list[list[tuple[float, float]]] = [[] for _ in range(len(starts))]
    run, eye = ends - starts, np.array(to_eye)
    for planes in solids:
        low, high = np.zeros(len(starts)), np.ones(len(starts))
        lower: list[tuple[Array, Array]] = [(np.zeros(1), np.zeros(1))]
        upper: list[tuple[Array, Array]] = []
        for normal, at in planes:
            way = np.array(normal)
            room, slope, v = at - _INSIDE - starts @ way, run @ way, float(way @ eye)
            if abs(v) < _DUST:
                _limit(low, high, slope, room)
            else:
                (upper if v > 0 else lower).append((room / v, -slope / v))
        for l0, l1 in lower:
            for u0, u1 in upper:
                _limit(low, high, l1 - u1, u0 - l0)
        for i in np.flatnonzero(high - low > _DUST).tolist():
            covers[i].append((float(low[i]), float(high[i])))
    return covers


def _limit(low: "Array", high: "Array", slope: "Array", room: "Array") -> None:
    """Narrow low and high to the t with slope t < room."""
    import numpy as np

    with np.errstate(divide="ignore", invalid="ignore"):
        at = room / slope
    np.maximum(low, np.where(slope < -_DUST, at, 0.0), out=low)
    np.minimum(high, np.where(slope > _DUST, at, 1.0), out=high)
    high[np.broadcast_to((np.abs(slope) <= _DUST) & (room <= 0), high.shape)] = -1.0


def _open(hidden: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """What is left of 0..1 between the hidden stretches."""
    left, reached = [], 0.0
    for a, b in sorted(hidden):
        if a > reached + 1e-4:
            left.append((reached, a))
        reached = max(reached, b)
    if reached < 1.0 - 1e-4:
        left.append((reached, 1.0))
    return left


def pictorial(cabinet: RodCabinet, view: View = STANDING, out: Mapping[str, Vec] | None = None) -> tuple[SeenLine, ...]:
    """All that is seen of a cabinet, some boards drawn out of their place."""
    out = out or {}
    return seen(tuple(shifted(s, out[s.id]) if s.id in out else s for s in solids(cabinet)), view)
