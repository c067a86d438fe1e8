"""A loose shelf that cannot be got in: longer than the front leaves clear, and no room to tilt it in behind that."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor, hypot, inf

from rodwork.checks.check import Check
from rodwork.checks.hung import opened
from rodwork.checks.spot import COMMON, Spot, mm, told_once
from rodwork.checks.standing import Stood, standing
from rodwork.geometry.tilting import Doorway, goes_in_on_edge, goes_in_tilted, least_height
from rodwork.model.finding import Finding
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CODE = "loose-shelf-entry"
_HAIR = 1e-6
_GEOMETRY = f"geometry; a rigid board tilted about its depth, or pushed in endways on edge; doors: {COMMON}"

Span = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Front:
    """What the front leaves clear before a shelf, from the left and up, and how thick what stands there is, mm."""

    x: Span
    z: Span
    thick: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bay:
    """The room that a shelf lies in: between uprights, between the boards below and above, and its depth, mm."""

    x: Span
    z: Span
    deep: float


def look(rod: Rod) -> Iterable[Finding]:
    """Every loose shelf, past what stands before it."""
    for cabinet in rod.boxes:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    boards = standing(cabinet)
    for shelf in (_with_stiffener(p, cabinet) for p in cabinet.parts if p.role == "loose shelf"):
        bay = _bay(shelf, boards)
        front = _past(_Front(x=bay.x, z=bay.z, thick=0.0), (b for b in boards if b.high[1] <= shelf.low[1] + _HAIR))
        if not _goes_in(shelf, bay, front):
            yield _spot(shelf, bay, front, doors=False)
            continue
        front = _past(front, _open_doors(cabinet, shelf))
        if not _goes_in(shelf, bay, front):
            yield _spot(shelf, bay, front, doors=True)
        elif _pins_in_the_way(shelf, bay, front):
            yield _over_pins(shelf, bay, front)


def _with_stiffener(part: Part, cabinet: RodCabinet) -> Stood:
    """A loose shelf, as thick as it is with the strip under it."""
    under = {j.parts[1] for j in cabinet.joints if j.parts[0] == part.id}
    lows = [part.box[0][2], *(cabinet.part[i].box[0][2] for i in under)]
    (x, y, _), high = part.box
    return Stood(part, (x, y, min(lows)), high)


def _bay(shelf: Stood, boards: Sequence[Stood]) -> _Bay:
    """The nearest boards on all sides of a shelf; where there is none, no limit."""

    def nearest(axis: int) -> Span:
        others = [k for k in range(3) if k != axis]
        beside = [b for b in boards if all(b.low[k] < shelf.high[k] and shelf.low[k] < b.high[k] for k in others)]
        before = (b.high[axis] for b in beside if b.high[axis] <= shelf.low[axis] + _HAIR)
        behind = (b.low[axis] for b in beside if b.low[axis] >= shelf.high[axis] - _HAIR)
        return max(before, default=-inf), min(behind, default=inf)

    back = nearest(1)[1]
    return _Bay(x=nearest(0), z=nearest(2), deep=back - shelf.low[1])


def _past(front: _Front, things: Iterable[Stood]) -> _Front:
    """The largest upright opening that is left beside, over or under each of these."""
    for thing in things:
        (x0, x1), (z0, z1) = front.x, front.z
        (a, _, c), (b, d, e) = thing.low, thing.high
        if not (a < x1 - _HAIR and x0 < b - _HAIR and c < z1 - _HAIR and z0 < e - _HAIR):
            continue
        left = [((x0, a), (z0, z1)), ((b, x1), (z0, z1)), ((x0, x1), (z0, c)), ((x0, x1), (e, z1))]
        x, z = max(left, key=lambda s: max(s[0][1] - s[0][0], 0.0) * max(s[1][1] - s[1][0], 0.0))
        front = _Front(x=x, z=z, thick=max(front.thick, d - thing.low[1]))
    return front


def _open_doors(cabinet: RodCabinet, shelf: Stood) -> Iterator[Stood]:
    """The doors before a shelf as they stand open to a right angle."""
    for hung in cabinet.doors:
        (x0, _, z0), (x1, _, z1) = cabinet.part[hung.door].box
        if x0 < shelf.high[0] and shelf.low[0] < x1 and z0 < shelf.high[2] and shelf.low[2] < z1:
            yield opened(cabinet, hung)


def _goes_in(shelf: Stood, bay: _Bay, front: _Front) -> bool:
    (length, _, thick), through = _sizes(shelf), _doorway(bay, front)
    return goes_in_tilted(length, thick, through) or _on_edge(shelf, bay, front)


def _sizes(shelf: Stood) -> tuple[float, float, float]:
    return tuple(shelf.high[k] - shelf.low[k] for k in range(3))  # type: ignore[return-value]


def _doorway(bay: _Bay, front: _Front) -> Doorway:
    return Doorway(wide=_size(front.x), high=_size(front.z), room_wide=_size(bay.x), room_high=_size(bay.z))


def _size(span: Span) -> float:
    return max(span[1] - span[0], 0.0)


def _on_edge(shelf: Stood, bay: _Bay, front: _Front) -> bool:
    """Stood on its long edge, pushed in endways towards either side, swung to lie along the bay and laid down."""
    length, deep, thick = _sizes(shelf)
    if deep > _size(front.z) or hypot(deep, thick) > min(bay.deep, _size(bay.z)):
        return False
    reach = max(front.x[1] - bay.x[0], bay.x[1] - front.x[0])
    on_plan = Doorway(wide=0.0, high=0.0, room_wide=_size(bay.x), room_high=bay.deep)
    return goes_in_on_edge(length, thick, _size(front.x), reach, front.thick, on_plan)


def _pins_in_the_way(shelf: Stood, bay: _Bay, front: _Front) -> bool:
    """Whether it goes in tilted, but not over its own pins."""
    length, _, thick = _sizes(shelf)
    over = (shelf.part.box[0][2], bay.z[1])
    return (
        length > _size(front.x) + _HAIR
        and least_height(length, thick, _doorway(bay, front)) > _size(over)
        and not _on_edge(shelf, bay, front)
    )


def _spot(shelf: Stood, bay: _Bay, front: _Front, doors: bool) -> Spot:
    """`doors`: it is they that are in the way, and not what is fixed."""
    length, _, thick = _sizes(shelf)
    needs, there = least_height(length, thick, _doorway(bay, front)), min(_size(front.z), _size(bay.z))
    tilted, higher = f"it cannot be turned level between uprights {mm(_size(bay.x))} apart", ""
    if needs < inf:
        tilted = f"tilted it takes {mm(ceil(needs))} of height, and {mm(floor(there))} are there"
        higher = f"an opening {mm(ceil(needs + _size(bay.z) - there))} high"
    if doors:
        clear = "the doors, open to a right angle, leave"
        mend = f"lay it in before the doors are hung; else {_or(higher)}doors that lie over the sides"
    else:
        clear = "the front leaves"
        mend = f"make it {_or(higher)}a front that leaves {mm(ceil(length))} clear, or have a fixed shelf there"
    return Spot(
        severity="warning" if doors else "fault", parts=(shelf.part,),
        what=f"it is {mm(length)} long, {clear} {mm(_size(front.x))}, and {tilted}: it cannot be got in", mend=mend,
        source=_GEOMETRY,
    )  # fmt: skip


def _or(said: str) -> str:
    return f"{said}, or " if said else ""


def _over_pins(shelf: Stood, bay: _Bay, front: _Front) -> Spot:
    length, _, thick = _sizes(shelf)
    needs = least_height(length, thick, _doorway(bay, front))
    return Spot(
        severity="note", parts=(shelf.part,),
        what=f"tilted in past the front it takes {mm(ceil(needs))} of height, and over its pins are only "
             f"{mm(floor(bay.z[1] - shelf.part.box[0][2]))}",
        mend="put its pins in when it is inside, or lay it on lower ones", source=_GEOMETRY,
    )  # fmt: skip


CHECK = Check(code=CODE, title="A loose shelf that cannot be got in", look=look)
