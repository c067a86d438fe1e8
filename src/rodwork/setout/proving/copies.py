"""The turn test: is a board that is called the same as another really carried onto it by a turn?"""

from collections.abc import Hashable, Iterator
from dataclasses import fields
from functools import cache
from typing import Any, cast

from rodwork.model.feature import Channel, Feature
from rodwork.model.surface import Surface
from rodwork.setout.proving.printed import Settings
from rodwork.setout.proving.stand import AT, ENDS_AND_EDGES, LIES, Point, Stand, outline_at
from rodwork.setout.proving.trouble import Trouble

TURN_MM = 0.01  # boards are compared within this (design section 3)

# A turn sends axis i of the first board to axis order[i] of the second, from its other end where flip[order[i]].
Turn = tuple[tuple[int, int, int], tuple[bool, bool, bool]]
TURNS: tuple[Turn, ...] = (
    ((0, 1, 2), (False, False, False)),
    ((0, 1, 2), (True, True, False)),
    ((0, 1, 2), (True, False, True)),
    ((0, 1, 2), (False, True, True)),
)
_ACROSS_THE_GRAIN: tuple[Turn, ...] = (
    ((1, 0, 2), (True, False, False)),
    ((1, 0, 2), (False, True, False)),
    ((1, 0, 2), (False, False, True)),
    ((1, 0, 2), (True, True, True)),
)


def copied(stand: Stand, stands: dict[str, Stand], settings: Settings) -> Trouble | None:
    """`same_as` names a first board of this cabinet that a turn, keeping the grain, carries onto this one."""
    part = stand.part
    if part.same_as is None:
        return None
    first = stands.get(part.same_as)
    if first is None or first.part.same_as is not None or first is stand:
        return Trouble("copy", "the board that it is the same as", "a first board of the cabinet", part.same_as)
    turns = TURNS if part.grain else TURNS + _ACROSS_THE_GRAIN
    if any(_carries(turn, first, stand, settings) for turn in turns):
        return None
    return Trouble("copy", f"it is said to be the same as the {first.part.name}, and no turn makes it so")


def _carries(turn: Turn, first: Stand, second: Stand, settings: Settings) -> bool:
    """Does this turn lay the first board onto the second, machining and datums included?"""
    a, b, order = first.part, second.part, turn[0]
    return (
        all(abs(a.size[i] - b.size[order[i]]) <= TURN_MM for i in (0, 1, 2))
        and all(abs(a.cut[i] - b.cut[order[i]]) <= TURN_MM for i in (0, 1))
        and (a.board, a.measured, a.edging_name, a.grain) == (b.board, b.measured, b.edging_name, b.grain)
        and all(abs(a.edging.at(s) - b.edging.at(_turned(turn, s))) <= TURN_MM for s in ENDS_AND_EDGES)
        and {_turned(turn, s) for s in a.shows} == set(b.shows)
        and len(a.features) == len(b.features)
        and _same_outline(turn, first, second)
        and _same_machining(turn, first, second, settings)
    )


def _turned(turn: Turn, surface: Surface) -> Surface:
    order, flip = turn
    axis, far = LIES[surface]
    return AT[order[axis], far != flip[order[axis]]]


def _carried(turn: Turn, p: Point, size: Point) -> Point:
    """A point of the first board on the second, which has this size."""
    (a, b, c), flip = turn
    out = [0.0, 0.0, 0.0]
    out[a], out[b], out[c] = p
    for i in (0, 1, 2):
        if flip[i]:
            out[i] = size[i] - out[i]
    return (out[0], out[1], out[2])


def _led(turn: Turn, direction: Point) -> Point:
    """A direction of the first board on the second."""
    (a, b, c), flip = turn
    out = [0.0, 0.0, 0.0]
    out[a], out[b], out[c] = direction
    x, y, z = (-v if f else v for v, f in zip(out, flip, strict=True))
    return (x, y, z)


def _same_outline(turn: Turn, first: Stand, second: Stand) -> bool:
    """Corners onto corners, whatever the first corner; of a bevelled board those of both its faces."""
    a, b = first.part, second.part
    if any(a.bevels) or any(b.bevels):
        return _same_corners(turn, first, second)
    corners = [_carried(turn, (x, y, 0.0), second.size) for x, y in a.outline]
    return len(corners) == len(b.outline) and all(
        any(abs(x - p) <= TURN_MM and abs(y - q) <= TURN_MM for p, q in b.outline) for x, y, _ in corners
    )


def _same_corners(turn: Turn, first: Stand, second: Stand) -> bool:
    mine, theirs = (
        [(x, y, z) for z in (0.0, s.size[2]) for x, y in outline_at(s.part, z)] for s in (first, second)
    )  # fmt: skip
    carried = [_carried(turn, p, second.size) for p in mine]
    return len(carried) == len(theirs) and all(
        any(all(abs(i - j) <= TURN_MM for i, j in zip(p, q, strict=True)) for q in theirs) for p in carried
    )


def _same_machining(turn: Turn, first: Stand, second: Stand, settings: Settings) -> bool:
    """Every bore and groove of the first falls on one of the second."""
    near: dict[tuple[int, int, int], list[Feature]] = {}
    for g in second.part.features:
        near.setdefault((round(g.at[0]), round(g.at[1]), round(g.at[2])), []).append(g)
    used: set[int] = set()
    for f in first.part.features:
        at, into, along = _carried(turn, f.at, second.size), _led(turn, f.into), _led(turn, f.along)
        for g in _near(near, at):
            same = id(g) not in used and _same(f, g, at, into, along)
            if same and _same_datums(turn, f, g, second, settings):
                used.add(id(g))
                break
        else:
            return False
    return True


def _near(near: dict[tuple[int, int, int], list[Feature]], at: Point) -> Iterator[Feature]:
    """Candidates within a millimetre: a sieve only, nothing is compared on rounded numbers."""
    x, y, z = (round(v) for v in at)
    yield from near.get((x, y, z), ())
    for i in (x - 1, x, x + 1):
        for j in (y - 1, y, y + 1):
            for k in (z - 1, z, z + 1):
                if (i, j, k) != (x, y, z):
                    yield from near.get((i, j, k), ())


def _same(f: Feature, g: Feature, at: Point, into: Point, along: Point) -> bool:
    """The machining f, carried to here, is the machining g."""
    if type(f) is not type(g) or (f.role, f.stage) != (g.role, g.stage):
        return False
    pairs = [(f.depth, g.depth), *zip(at, g.at, strict=True)]
    for name in _own_sizes(cast(Hashable, type(f))):
        mine, theirs = getattr(f, name), getattr(g, name)
        if isinstance(mine, float):
            pairs.append((mine, theirs))
        elif mine != theirs:
            return False
    return (
        _lies_alike(f, g, along)
        and all(abs(p - q) <= TURN_MM for p, q in pairs)
        and all(abs(p - q) < 1e-6 for p, q in zip(into, g.into, strict=True))
    )


@cache
def _own_sizes(kind: Any) -> tuple[str, ...]:
    """What this kind of machining says of its size, beyond what every kind has."""
    every = {f.name for f in fields(Feature)}
    return tuple(f.name for f in fields(kind) if f.name not in every and f.name != "ends")


def _lies_alike(f: Feature, g: Feature, along: Point) -> bool:
    """f, whose run has come to lie `along`, runs as g does, its two ends at g's two ends."""
    same_way = sum(p * q for p, q in zip(along, g.along, strict=True))
    if f.lies == "any way":
        return True
    if abs(same_way - 1) > 1e-6 and (f.lies == "one way" or abs(same_way + 1) > 1e-6):
        return False
    if isinstance(f, Channel) and isinstance(g, Channel):
        return (f.both_ends if same_way > 0 else f.both_ends[::-1]) == g.both_ends
    return True


def _same_datums(turn: Turn, f: Feature, g: Feature, second: Stand, settings: Settings) -> bool:
    """The numbers are taken from surfaces that the turn carries onto each other too."""
    ours, theirs = settings.machined.get(f.id), settings.machined.get(g.id)
    if not ours or not theirs:
        return f.stage == g.stage and f.stage in ("in place", "as bought")
    mine = {_turned(turn, r.from_surface) for r in (ours[0].done.along, ours[0].done.across) if r is not None}
    for r in (theirs[0].done.along, theirs[0].done.across):
        if r is None or r.from_surface in mine:
            continue
        axis, far = LIES[r.from_surface]
        if AT[axis, not far] not in mine or abs(2 * g.at[axis] - second.size[axis]) > TURN_MM:
            return False  # only in the middle of the board does it read the same from both ends
    return True
