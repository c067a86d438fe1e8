"""The solid of each board: its outline through its thickness, less everything that is bored and grooved in it.

Three rules keep it honest. A round hole is a figure of `segments` flats with its corners on the true circle, one
corner on each axis of the board, so the two halves of a dowel's bore agree to the last flat. A void starts a
hair outside the board, and a channel runs a hair out where there is no wood beside it, so that no two faces lie
in one plane. And equal boards are cut once: what is kept is keyed by geometry alone, never by a name.

Lengths are mm. manifold3d and numpy are imported inside, since a command that draws nothing must not wait.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, singledispatch
from math import acos, cos, pi, radians, sin, sqrt, tan
from typing import Any

from rodwork.geometry.bevels import outline_below
from rodwork.geometry.vec import Vec, along, cross, dot, neg, scale
from rodwork.model.feature import ArcSlot, Bore, Channel, Feature, Keyhole, Pocket, Undercut
from rodwork.model.panel import Part, Point
from rodwork.model.pose import Pose
from rodwork.model.rod import RodCabinet

SCREEN_SEGMENTS = 16  # enough for the eye; +0.007 % of a board's volume against true cylinders
_HAIR = 0.01  # how far a void starts outside the board, mm
_KEPT = 256  # boards kept: a contract's worth of kinds, a few megabytes

Triangle = tuple[int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mesh:
    """A closed surface of triangles, wound counter-clockwise seen from outside; points in mm."""

    points: tuple[Vec, ...]
    triangles: tuple[Triangle, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSolid:
    """One board standing in its cabinet, points in the cabinet frame, mm."""

    part: Part
    mesh: Mesh


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lathe:
    """A void turned about an axis: (radius, depth) down the profile, depth from the mouth along `into`."""

    at: Vec
    into: Vec
    along: Vec
    profile: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Channel:
    """A void with a flat floor: (along, across) corners about `at`, from depth `start` to `end`."""

    at: Vec
    into: Vec
    along: Vec
    footprint: tuple[Point, ...]
    start: float
    end: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """All that the solid of a board depends on, and so the key under which it is kept."""

    outline: tuple[Point, ...]
    bevels: tuple[float, ...]
    thickness: float
    voids: tuple[_Lathe | _Channel, ...]
    segments: int
    within: tuple[Vec, Vec] | None = None  # only what lies in this box of it; None: all


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnBoard:
    """A board as it is drawn: its shape, and how the frame of that shape stands in the cabinet."""

    part: Part
    shape: Shape
    pose: Pose


def drawn_boards(cabinet: RodCabinet, segments: int = SCREEN_SEGMENTS) -> tuple[DrawnBoard, ...]:
    """Every board once: a lipped one without its lippings, and those with what is machined in them and their board."""
    return tuple(_drawn(part, cabinet, segments) for part in cabinet.parts)


def _drawn(part: Part, cabinet: RodCabinet, segments: int) -> DrawnBoard:
    if part.glued_on is not None:
        board = cabinet.part[part.glued_on]
        corners = [board.pose.to_part(part.pose.to_cabinet(p)) for p in ((0.0, 0.0, 0.0), part.size)]
        (x0, y0, z0), (x1, y1, z1) = ([f(p[k] for p in corners) for k in range(3)] for f in (min, max))
        box = ((x0, y0, z0), (x1, y1, z1))
        return DrawnBoard(part=part, shape=replace(board_shape(board, segments), within=box), pose=board.pose)
    shape = board_shape(part, segments)
    if part.id in cabinet.lippings:
        (L, W, T), e = part.size, part.edging
        core = ((e.left_end, e.face_edge, 0.0), (L - e.right_end, W - e.far_edge, T))
        shape = replace(shape, within=core)
    return DrawnBoard(part=part, shape=shape, pose=part.pose)


def drawn_solid(drawn: DrawnBoard) -> Any:
    """A board as it is drawn, as a manifold3d.Manifold in the frame of its shape, mm."""
    return _cut(drawn.shape)


def drawn_mesh(drawn: DrawnBoard) -> Mesh:
    """A board as it is drawn, as triangles in the frame of its shape, mm. Equal shapes give the very same Mesh."""
    return _mesh(drawn.shape)


def board_shape(part: Part, segments: int = SCREEN_SEGMENTS) -> Shape:
    """What the board is cut from and what is cut out of it, however its features are named or ordered.

    `segments` is the number of flats round a full circle, a multiple of four.
    Raises ValueError for another number, or for machining of a kind that has no solid yet.
    """
    if segments < 4 or segments % 4:
        raise ValueError(f"{segments} flats round a circle: a multiple of four is needed")
    voids = {void for feature in part.features for void in _voids(feature, part, segments)}
    return Shape(
        outline=part.outline,
        bevels=part.bevels if any(part.bevels) else (),
        thickness=part.size[2],
        voids=tuple(sorted(voids, key=repr)),
        segments=segments,
    )


def part_solid(part: Part, segments: int = SCREEN_SEGMENTS) -> Any:
    """The board as a manifold3d.Manifold in its own frame, mm."""
    return _cut(board_shape(part, segments))


def part_mesh(part: Part, segments: int = SCREEN_SEGMENTS) -> Mesh:
    """The board as triangles in its own frame, mm. Equal boards give the very same Mesh."""
    return _mesh(board_shape(part, segments))


def cabinet_solids(cabinet: RodCabinet, segments: int = SCREEN_SEGMENTS) -> tuple[BoardSolid, ...]:
    """Every board of one copy of the cabinet where it stands, in the cabinet frame, mm."""
    return tuple(
        BoardSolid(part=d.part, mesh=_stood(drawn_mesh(d), d.pose)) for d in drawn_boards(cabinet, segments)
    )  # fmt: skip


def _stood(mesh: Mesh, pose: Pose) -> Mesh:
    return Mesh(points=tuple(pose.to_cabinet(p) for p in mesh.points), triangles=mesh.triangles)


def volume_mm3(mesh: Mesh) -> float:
    """Volume inside a closed mesh, mm3: the sum of the tetrahedra from its first point."""
    a0, b0, c0 = mesh.points[0]
    moved = [(x - a0, y - b0, z - c0) for x, y, z in mesh.points]
    return sum(dot(moved[i], cross(moved[j], moved[k])) for i, j, k in mesh.triangles) / 6.0


# what is cut out ---------------------------------------------------------------------------------------------


@singledispatch
def _voids(feature: Feature, part: Part, segments: int) -> tuple[_Lathe | _Channel, ...]:
    """What one feature cuts out of its board."""
    raise ValueError(f"{feature.id}: no solid yet for a {feature.kind}")


@_voids.register
def _(bore: Bore, part: Part, segments: int) -> tuple[_Lathe | _Channel, ...]:
    """The hole itself and, where it has one, the cone for the screw's head."""
    r = bore.diameter / 2.0
    steps: list[Point] = [(r, -_HAIR)]
    if bore.through:
        steps.append((r, bore.depth + _HAIR))
    else:
        steps.append((r, bore.depth))
        if bore.tip > 0.0:
            steps.append((0.0, bore.depth + bore.tip))  # a cone of the full diameter: more than a spur takes
    turning = _either_way(bore.along)
    hole = _Lathe(at=bore.at, into=bore.into, along=turning, profile=tuple(steps))
    if bore.countersink is None:
        return (hole,)
    R = bore.countersink.diameter / 2.0
    cone = ((R, -_HAIR), (R, 0.0), (0.0, R / tan(radians(bore.countersink.angle) / 2.0)))
    return (hole, _Lathe(at=bore.at, into=bore.into, along=turning, profile=cone))


@_voids.register
def _(pocket: Pocket, part: Part, segments: int) -> tuple[_Lathe | _Channel, ...]:
    """A hole askew: begun so far outside that it clears the whole of its mouth, and run on so at its way out."""
    slope = abs(pocket.into[2])  # the sine of its angle to the face
    level = sqrt(1.0 - slope * slope)
    r, turning = pocket.diameter / 2.0, _either_way(pocket.along)
    profile = ((r, -r * level / slope - _HAIR), (r, pocket.depth))
    hole = _Lathe(at=pocket.at, into=pocket.into, along=turning, profile=profile)
    if not pocket.ahead:
        return (hole,)
    r = pocket.ahead / 2.0
    profile = ((r, pocket.depth - _HAIR), (r, pocket.ahead_depth + r * slope / level + _HAIR))
    return (hole, _Lathe(at=pocket.at, into=pocket.into, along=turning, profile=profile))


@_voids.register
def _(channel: Channel, part: Part, segments: int) -> tuple[_Lathe | _Channel, ...]:
    return (_channel(part, channel, segments),)  # a rebate is a groove with one wall missing


@_voids.register
def _(slot: ArcSlot, part: Part, segments: int) -> tuple[_Lathe | _Channel, ...]:
    return (_segment(slot, segments),)


def _segment(slot: ArcSlot, segments: int) -> _Channel:
    """The segment of the cutter's disc that goes into the board, from cheek to cheek of the slot."""
    u = _either_way(slot.along)
    cheek = cross(slot.into, u)
    rise = slot.cutter_radius - slot.depth  # of the disc's middle above the mouth
    steep = acos(rise / slot.cutter_radius)
    angles = [steep * (2.0 * k / segments - 1.0) for k in range(segments + 1)]
    floor = [(slot.cutter_radius * sin(a), rise - slot.cutter_radius * cos(a)) for a in angles]
    floor[0], floor[-1] = (floor[0][0], 0.0), (floor[-1][0], 0.0)
    half = floor[-1][0]
    outline = (*floor, (half, _HAIR), (-half, _HAIR))  # along the mouth, and out of it
    middle = slot.thickness / 2.0
    return _Channel(at=slot.at, into=cheek, along=u, footprint=outline, start=-middle, end=middle)


@_voids.register
def _(slot: Undercut, part: Part, segments: int) -> tuple[_Lathe | _Channel, ...]:
    """The slot, and the wider ring that the rim of the cutter leaves behind its lips."""
    plain = _segment(slot, segments)
    rise = slot.cutter_radius - slot.depth
    *floor, right, left = plain.footprint
    inner, back = slot.cutter_radius - slot.root_depth, list[Point]()
    if inner > rise:  # else the rim is all there is of the cutter in the board
        steep = acos(rise / inner)
        angles = [steep * (1.0 - 2.0 * k / segments) for k in range(segments + 1)]
        back = [(inner * sin(a), rise - inner * cos(a)) for a in angles]
        back = [(back[0][0], _HAIR), *back[1:-1], (back[-1][0], _HAIR)]
    half = slot.root_width / 2.0
    return (plain, replace(plain, footprint=(*floor, right, *back, left), start=-half, end=half))


@_voids.register
def _(keyhole: Keyhole, part: Part, segments: int) -> tuple[_Lathe | _Channel, ...]:
    """The entry bore to its full depth, the neck that the shank slides in, and the head's room below it."""
    circle = _circle(segments)
    entry = _Lathe(
        at=keyhole.entry, into=keyhole.into, along=_either_way(keyhole.along),
        profile=((keyhole.entry_diameter / 2.0, -_HAIR), (keyhole.entry_diameter / 2.0, keyhole.depth)),
    )  # fmt: skip

    def track(width: float, start: float, end: float) -> _Channel:
        r, half = width / 2.0, segments // 2
        home = [(r * x, r * y) for x, y in (circle[(segments // 4 + k) % segments] for k in range(half + 1))]
        outline = (*home, (keyhole.slide, -r), (keyhole.slide, r))
        return _Channel(at=keyhole.at, into=keyhole.into, along=keyhole.along, footprint=outline, start=start, end=end)

    lip = keyhole.depth - keyhole.head_depth
    return (entry, track(keyhole.slot_width, -_HAIR, lip), track(keyhole.head_width, lip, keyhole.depth))


def _either_way(direction: Vec) -> Vec:
    """The direction or its reverse, whichever reads larger: these voids are the same either way."""
    return max(direction, neg(direction))


def _channel(part: Part, groove: Channel, segments: int) -> _Channel:
    u, w = _either_way(groove.along), groove.into
    v = cross(w, u)
    half_l, half_w = groove.length / 2.0, groove.width / 2.0

    def past(direction: Vec, distance: float) -> float:
        """The distance, and a hair more where there is no wood beyond it."""
        middle = along(groove.at, (direction, distance + _HAIR), (w, groove.depth / 2.0))
        return distance if _in_wood(part, middle) else distance + _HAIR

    low, high = groove.both_ends if u == groove.along else groove.both_ends[::-1]
    left = half_l + _HAIR if low == "open" else past(neg(u), half_l)
    right = half_l + _HAIR if high == "open" else past(u, half_l)
    near, far = past(neg(v), half_w), past(v, half_w)
    floor = groove.depth if _in_wood(part, along(groove.at, (w, groove.depth + _HAIR))) else groove.depth + _HAIR
    radius = min(groove.end_radius, half_w)
    footprint = (
        *_corner((right, far), (1, 1), radius if high == "round" else 0.0, segments),
        *_corner((-left, far), (-1, 1), radius if low == "round" else 0.0, segments),
        *_corner((-left, -near), (-1, -1), radius if low == "round" else 0.0, segments),
        *_corner((right, -near), (1, -1), radius if high == "round" else 0.0, segments),
    )
    merged = tuple(p for i, p in enumerate(footprint) if p != footprint[i - 1])
    return _Channel(at=groove.at, into=w, along=u, footprint=merged, start=-_HAIR, end=floor)


def _corner(at: Point, quadrant: tuple[int, int], radius: float, segments: int) -> tuple[Point, ...]:
    """One corner of a channel, rounded by the cutter, counter-clockwise."""
    if radius <= 0.0:
        return (at,)
    quarter = segments // 4
    first = {(1, 1): 0, (-1, 1): 1, (-1, -1): 2, (1, -1): 3}[quadrant] * quarter
    cx, cy = at[0] - quadrant[0] * radius, at[1] - quadrant[1] * radius
    circle = _circle(segments)
    turned = (circle[(first + k) % segments] for k in range(quarter + 1))
    return tuple((cx + radius * x, cy + radius * y) for x, y in turned)


@lru_cache(maxsize=16)
def _circle(segments: int) -> tuple[Point, ...]:
    """Points of a unit circle, exactly symmetrical about both axes (a cosine of 90 degrees is not quite nought)."""
    quarter = segments // 4
    first = [(cos(2 * pi * k / segments), sin(2 * pi * k / segments)) for k in range(quarter)]
    first[0] = (1.0, 0.0)
    second = [(0.0 - y, x) for x, y in first]
    third = [(0.0 - x, 0.0 - y) for x, y in first]
    fourth = [(y, 0.0 - x) for x, y in first]
    return (*first, *second, *third, *fourth)


def _in_wood(part: Part, point: Vec) -> bool:
    """Whether the point lies inside the board as sawn to its outline, before anything is machined in it."""
    x, y, z = point
    if not 0.0 < z < part.size[2]:
        return False
    outline = outline_below(part.outline, part.bevels, part.size[2] - z)
    inside = False
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            inside = not inside
    return inside


# into triangles ----------------------------------------------------------------------------------------------


@lru_cache(maxsize=_KEPT)
def _cut(shape: Shape) -> Any:
    from manifold3d import Manifold, OpType

    blank = _blank(shape)
    if shape.within is not None:
        low, high = shape.within
        size = tuple(b - a for a, b in zip(low, high, strict=True))
        blank = blank ^ Manifold.cube(size).translate(low)
    if not shape.voids:
        return blank
    voids = [_turned(v, shape.segments) if isinstance(v, _Lathe) else _milled(v) for v in shape.voids]
    return Manifold.batch_boolean([blank, *voids], OpType.Subtract)


@lru_cache(maxsize=_KEPT)
def _mesh(shape: Shape) -> Mesh:
    raw = _cut(shape).to_mesh64()
    points = tuple((x, y, z) for x, y, z in raw.vert_properties[:, :3].tolist())
    triangles = tuple((i, j, k) for i, j, k in raw.tri_verts.tolist())
    return Mesh(points=points, triangles=triangles)


def _blank(shape: Shape) -> Any:
    """The board before machining: the outline on the face side, its bevelled twin on the back side."""
    upper = [(x, y, shape.thickness) for x, y in shape.outline]
    lower = [(x, y, 0.0) for x, y in outline_below(shape.outline, shape.bevels, shape.thickness)]
    return _between(lower, upper, shape.outline)


def _milled(channel: _Channel) -> Any:
    u, w = channel.along, channel.into
    v = cross(w, u)
    placed = [along(channel.at, (u, a), (v, b)) for a, b in channel.footprint]
    mouth = [along(p, (w, channel.start)) for p in placed]
    floor = [along(p, (w, channel.end)) for p in placed]
    return _between(mouth, floor, channel.footprint)


def _between(first: list[Vec], second: list[Vec], footprint: Sequence[Point]) -> Any:
    """The solid between two like polygons, `second` lying where the first one's right-hand screw goes."""
    import numpy as np
    from manifold3d import triangulate

    n = len(first)
    caps = [(int(i), int(j), int(k)) for i, j, k in triangulate([np.array(footprint, float)])]
    triangles = [(k, j, i) for i, j, k in caps] + [(n + i, n + j, n + k) for i, j, k in caps]
    for i in range(n):
        j = (i + 1) % n
        triangles += [(i, j, n + j), (i, n + j, n + i)]
    return _solid([*first, *second], triangles)


def _turned(lathe: _Lathe, segments: int) -> Any:
    u, w = lathe.along, lathe.into
    v = cross(w, u)
    rings = [
        [along(lathe.at, (scale(u, x), r), (scale(v, y), r), (w, d)) for x, y in _circle(segments)]
        for r, d in lathe.profile
        if r > 0.0
    ]
    points = [p for ring in rings for p in ring]
    n, last = segments, (len(rings) - 1) * segments
    triangles = [(0, k + 1, k) for k in range(1, n - 1)]
    for start in range(0, last, n):
        for k in range(n):
            a, b = start + k, start + (k + 1) % n
            triangles += [(a, b, n + b), (a, n + b, n + a)]
    radius, depth = lathe.profile[-1]
    if radius > 0.0:
        triangles += [(last, last + k, last + k + 1) for k in range(1, n - 1)]
    else:
        points.append(along(lathe.at, (w, depth)))
        triangles += [(last + k, last + (k + 1) % n, len(points) - 1) for k in range(n)]
    return _solid(points, triangles)


def _solid(points: list[Vec], triangles: list[Triangle]) -> Any:
    import numpy as np
    from manifold3d import Manifold, Mesh64

    made = Manifold(Mesh64(np.array(points, float), np.array(triangles, np.uint64)))
    if made.is_empty():
        raise ValueError(f"no closed solid from these corners: {made.status().name}")
    return made
