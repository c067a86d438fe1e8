"""The room that a bore or a channel takes inside its board, and the wood between two of them. Lengths are mm.

Every such room is a rectangle (for a bore, a point) in two axes of the board, grown all round by a radius, and a
stretch of the third axis: convex, so that going to and fro between the nearest points of two of them ends at the
least distance (Cheney and Goldstein, Proximity maps for convex sets, 1959).
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import singledispatch
from math import ceil, radians, sqrt, tan

from rodwork.geometry.vec import Vec, along, cross
from rodwork.model.feature import ArcSlot, Bore, Channel, Feature, Keyhole, Pocket, Undercut, chord

_TURNS = 300
_STILL = 1e-9
_LAYERS = 4  # that an arc is taken as
_PIECE_MM = 8.0  # of the axis of a pocket


@dataclass(frozen=True, slots=True)
class Room:
    """Core from `low` to `high`, grown by `radius` in the two axes other than `axis`, which is that of its depth."""

    axis: int
    low: Vec
    high: Vec
    radius: float

    def bounds(self) -> tuple[Vec, Vec]:
        """The box around it."""
        grow = [0.0 if k == self.axis else self.radius for k in range(3)]
        low = (self.low[0] - grow[0], self.low[1] - grow[1], self.low[2] - grow[2])
        return low, (self.high[0] + grow[0], self.high[1] + grow[1], self.high[2] + grow[2])

    def nearest(self, point: Vec) -> Vec:
        """The point of it that is nearest to this one."""
        core = [min(max(point[k], self.low[k]), self.high[k]) for k in range(3)]
        i, j = (k for k in range(3) if k != self.axis)
        di, dj = point[i] - core[i], point[j] - core[j]
        away = sqrt(di * di + dj * dj)
        share = 1.0 if away <= self.radius else self.radius / away
        core[i] += di * share
        core[j] += dj * share
        return (core[0], core[1], core[2])


@singledispatch
def rooms_of(feature: Feature) -> tuple[Room, ...]:
    """What a feature takes: a bore with its point (a needle), and its head as wide as at the mouth."""
    raise ValueError(f"{feature.id}: no room is known that a {feature.kind} takes")


def wood_between(a: Room, b: Room) -> float:
    """Least distance between two rooms, nought where they meet."""
    p = a.nearest(_middle(b))
    gap = 0.0
    for _ in range(_TURNS):
        q = b.nearest(p)
        moved, p = p, a.nearest(q)
        gap = sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 + (p[2] - q[2]) ** 2)
        if abs(p[0] - moved[0]) + abs(p[1] - moved[1]) + abs(p[2] - moved[2]) < _STILL:
            break
    return gap


def _middle(room: Room) -> Vec:
    return (
        (room.low[0] + room.high[0]) / 2,
        (room.low[1] + room.high[1]) / 2,
        (room.low[2] + room.high[2]) / 2,
    )


def askew(feature: Feature) -> bool:
    """Whether it goes in along no axis of the board: square to a bevelled end."""
    return max(abs(d) for d in feature.into) < 1 - 1e-9


@rooms_of.register
def _(bore: Bore) -> tuple[Room, ...]:
    if askew(bore):
        return tuple(_askew(bore, 0.0, bore.depth + bore.tip, bore.diameter / 2))
    rooms = [_round(bore, 0.0, bore.depth, bore.diameter / 2)]
    if bore.tip > 0:
        rooms.append(_round(bore, bore.depth, bore.depth + bore.tip, 0.0))
    if bore.countersink is not None:
        deep = (bore.countersink.diameter - bore.diameter) / 2 / tan(radians(bore.countersink.angle / 2))
        rooms.append(_round(bore, 0.0, min(deep, bore.depth), bore.countersink.diameter / 2))
    return tuple(rooms)


def _round(bore: Bore, start: float, end: float, radius: float) -> Room:
    at, into = bore.at, bore.into
    ends = [(at[k] + into[k] * start, at[k] + into[k] * end) for k in range(3)]
    low, high = [min(e) for e in ends], [max(e) for e in ends]
    return Room(_axis(into), (low[0], low[1], low[2]), (high[0], high[1], high[2]), radius)


@rooms_of.register
def _(pocket: Pocket) -> tuple[Room, ...]:
    """A row of boxes down its axis, each as wide as it: a little more than it takes."""
    ahead = _askew(pocket, pocket.depth, pocket.ahead_depth, pocket.ahead / 2) if pocket.ahead else ()
    return (*_askew(pocket, 0.0, pocket.depth, pocket.diameter / 2), *ahead)


def _askew(pocket: Pocket | Bore, start: float, end: float, radius: float) -> Iterator[Room]:
    steps = ceil((end - start) / _PIECE_MM)
    grow = [radius * sqrt(1 - d * d) for d in pocket.into]
    for k in range(steps):
        ends = [along(pocket.at, (pocket.into, start + (end - start) * n / steps)) for n in (k, k + 1)]
        low, high = ([f(e[i] for e in ends) + sign * grow[i] for i in range(3)] for f, sign in ((min, -1), (max, 1)))
        yield Room(2, (low[0], low[1], low[2]), (high[0], high[1], high[2]), 0.0)


@rooms_of.register
def _(slot: ArcSlot) -> tuple[Room, ...]:
    """Layers from the mouth down, each as long as the slot is at its top: a little more than it takes."""
    out, side = list[Room](), cross(slot.into, slot.along)
    for k in range(_LAYERS):
        top, floor = (slot.depth * n / _LAYERS for n in (k, k + 1))
        half = chord(slot.cutter_radius, slot.depth - top) / 2
        corners = [
            along(slot.at, (slot.into, deep), (slot.along, i * half), (side, j * slot.thickness / 2))
            for i, j, deep in ((-1, -1, top), (-1, 1, top), (1, -1, floor), (1, 1, floor))
        ]
        out.append(_box(_axis(slot.into), corners))
    return tuple(out)


@rooms_of.register
def _(slot: Undercut) -> tuple[Room, ...]:
    """As wide as at its floor from the mouth down: a little more than it takes. Askew, only where it is so wide."""
    plain = rooms_of.dispatch(ArcSlot)
    if not askew(slot):
        return plain(replace(slot, thickness=slot.root_width))
    lip = slot.depth - slot.root_depth
    foot = replace(slot, thickness=slot.root_width, at=along(slot.at, (slot.into, lip)), depth=slot.root_depth)
    return (*plain(slot), *plain(foot))


@rooms_of.register
def _(keyhole: Keyhole) -> tuple[Room, ...]:
    """The entry bore, and a box over the head's way to its home: a little more than they take."""
    entry = Bore(id=keyhole.id, role=keyhole.role, at=keyhole.entry, into=keyhole.into, along=keyhole.along,
                 depth=keyhole.depth, diameter=keyhole.entry_diameter)  # fmt: skip
    half, side = keyhole.head_width / 2, cross(keyhole.into, keyhole.along)
    corners = [
        along(keyhole.at, (keyhole.along, a), (side, b), (keyhole.into, c))
        for a, b, c in ((-half, -half, 0.0), (keyhole.slide, half, keyhole.depth))
    ]
    return (*rooms_of(entry), _box(_axis(keyhole.into), corners))


def _box(axis: int, corners: list[Vec]) -> Room:
    low, high = ([f(c[i] for c in corners) for i in range(3)] for f in (min, max))
    return Room(axis, (low[0], low[1], low[2]), (high[0], high[1], high[2]), 0.0)


@rooms_of.register
def _(channel: Channel) -> tuple[Room, ...]:
    if askew(channel):
        return _slanting(channel)
    into, run = _axis(channel.into), _axis(channel.along)
    rounded = channel.end_radius if channel.both_ends == ("round", "round") else 0.0
    half = [channel.width / 2 - rounded] * 3
    half[run] = channel.length / 2 - rounded
    low = [channel.at[k] - half[k] for k in range(3)]
    high = [channel.at[k] + half[k] for k in range(3)]
    low[into], high[into] = sorted((channel.at[into], channel.at[into] + channel.into[into] * channel.depth))
    return (Room(into, (low[0], low[1], low[2]), (high[0], high[1], high[2]), rounded),)


def _slanting(channel: Channel) -> tuple[Room, ...]:
    """A row of boxes down it, each about a layer of it: a little more than it takes."""
    side, out = cross(channel.into, channel.along), list[Room]()
    for k in range(_LAYERS):
        deep = [channel.depth * n / _LAYERS for n in (k, k + 1)]
        corners = [
            along(channel.at, (channel.along, a * channel.length / 2), (side, b * channel.width / 2), (channel.into, d))
            for a in (-1, 1) for b in (-1, 1) for d in deep
        ]  # fmt: skip
        out.append(_box(2, corners))
    return tuple(out)


def _axis(direction: Vec) -> int:
    sizes = [abs(d) for d in direction]
    return sizes.index(max(sizes))
