"""Two bores or channels that meet inside a board, or leave too little wood between them."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import product

from rodwork.checks.check import Check
from rodwork.checks.holes import called, fixing_of, joint_of, mouth_of, place_in, settable, up_to_step
from rodwork.checks.shapes import Room, rooms_of, wood_between
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.geometry.vec import Vec, along, dot
from rodwork.model.feature import Bore, Feature, Groove
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.shop import Shop
from rodwork.model.surface import OPPOSITE

CODE = "machining-that-meets"
LEAST_MM = 3.0  # as under a bore
THIN_MM = 1.0  # a bit wanders by as much in an edge: thinner than this it comes through
TOUCH_MM = 0.005
LEAST_DEPTH_MM = 6.0  # a shallower bore holds neither a dowel nor a pin
ONE_OF_A_KIND = ("top", "bottom", "back")


@dataclass(frozen=True, slots=True)
class _Taken:
    """A bore or channel with the rooms it takes and the box around them."""

    feature: Feature
    rooms: tuple[Room, ...]
    low: Vec
    high: Vec


def look(rod: Rod) -> Iterable[Finding]:
    """Every two bores and channels of one board; equal boards are looked at once."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet, rod.shop))


def _spots(cabinet: RodCabinet, shop: Shop) -> Iterator[Spot]:
    equal: dict[str, list[Part]] = defaultdict(list)
    for part in cabinet.parts:
        equal[part.same_as or part.id].append(part)
    pairs = [(parts, a, b) for parts in equal.values() for a, b in _near(_taken(parts[0]))]
    if not pairs:
        return
    fixings, joints = fixing_of(cabinet), joint_of(cabinet)
    for parts, a, b in pairs:
        if _cross_at_a_corner(a, b, joints):
            continue
        wood = min(wood_between(r, s) for r, s in product(a.rooms, b.rooms))
        if wood < LEAST_MM - TOUCH_MM:
            named = [
                (_named(cabinet, parts[0], t.feature, fixings.get(t.feature.id), joints.get(t.feature.joint or "")), t)
                for t in (a, b)
            ]
            # always the same one first, so that equal troubles read the same
            yield _spot(tuple(parts), sorted(named, key=lambda n: (isinstance(n[1].feature, Groove), n[0])), wood, shop)


def _taken(part: Part) -> list[_Taken]:
    out = []
    for feature in part.features:
        rooms = rooms_of(feature)
        if not rooms:
            continue
        boxes = [r.bounds() for r in rooms]
        lows, highs = [b[0] for b in boxes], [b[1] for b in boxes]
        out.append(
            _Taken(
                feature,
                rooms,
                (min(p[0] for p in lows), min(p[1] for p in lows), min(p[2] for p in lows)),
                (max(p[0] for p in highs), max(p[1] for p in highs), max(p[2] for p in highs)),
            )
        )
    return out


def _near(taken: list[_Taken]) -> Iterator[tuple[_Taken, _Taken]]:
    """Pairs whose boxes are near, found by going along the board; those that are meant to meet are left out."""
    taken.sort(key=lambda t: t.low[0])
    open_: list[_Taken] = []
    for b in taken:
        reach = b.low[0] - LEAST_MM
        open_ = [a for a in open_ if a.high[0] > reach]
        for a in open_:
            if (
                a.high[1] > b.low[1] - LEAST_MM
                and b.high[1] > a.low[1] - LEAST_MM
                and a.high[2] > b.low[2] - LEAST_MM
                and b.high[2] > a.low[2] - LEAST_MM
                and not _of_one_joint(a.feature, b.feature)
                and not _runs_out_into(a.feature, b.feature)
                and not _runs_out_into(b.feature, a.feature)
            ):
                yield a, b
        open_.append(b)


def _of_one_joint(a: Feature, b: Feature) -> bool:
    """Counterbore, clearance and countersink are one, and a screw may go through its own housing.

    Two dowels of one joint that stand too close are found by their spacing.
    """
    return a.joint is not None and a.joint == b.joint


def _runs_out_into(a: Feature, b: Feature) -> bool:
    """A channel that ends, open, at the wall of another or in it: a housing at the back groove."""
    if not isinstance(a, Groove) or not isinstance(b, Groove) or mouth_of(a) != mouth_of(b):
        return False
    low, high = rooms_of(b)[0].bounds()
    ends = [
        along(a.at, (a.along, sign * a.length / 2))
        for sign, end in zip((-1, 1), a.both_ends, strict=True)
        if end == "open"
    ]
    return any(all(low[k] - 0.01 <= end[k] <= high[k] + 0.01 for k in range(3)) for end in ends)


def _cross_at_a_corner(a: _Taken, b: _Taken, joints: dict[str, Joint]) -> bool:
    """Two channels of one face that cross squarely where the board ends: the tongue of a top past the back groove."""
    f, g = a.feature, b.feature
    if not any(j.contact.place == "corner" for j in (joints.get(f.joint or ""), joints.get(g.joint or "")) if j):
        return False
    if not isinstance(f, Groove) or not isinstance(g, Groove) or mouth_of(f) != mouth_of(g):
        return False
    into_each_other = all(a.low[k] < b.high[k] and b.low[k] < a.high[k] for k in range(3))
    return into_each_other and abs(dot(f.along, g.along)) < 0.5


def _named(cabinet: RodCabinet, part: Part, feature: Feature, fixing: Fixing | None, joint: Joint | None) -> str:
    what = called(feature, fixing, joint)
    if joint is None:
        return f"a {what}"
    role = cabinet.part[next(p for p in joint.parts if p != part.id)].role
    if what == "back groove":
        return "the groove for its bottom" if role == "drawer bottom" else f"the {what}"
    return f"a {what} for {'the' if role in ONE_OF_A_KIND else 'a'} {role}"


def _spot(parts: tuple[Part, ...], pair: list[tuple[str, _Taken]], wood: float, shop: Shop) -> Spot:
    (one, a), (other, b) = pair
    two = f"{one} and {'another' if one == other else other}"
    if wood <= TOUCH_MM:
        what = f"{two} cut into each other"
    else:
        what = f"{two} leave {too_little(wood)} of board between them ({mm(LEAST_MM)} is the least)"
    return Spot(
        severity="fault" if wood < THIN_MM - TOUCH_MM else "warning", parts=parts, ids=(a.feature.id, b.feature.id),
        what=what, place=place_in(parts[0], a.feature), mend=_mend(parts[0], a, b, shop),
        source=f"geometry; the limits: {COMMON}",
    )  # fmt: skip


def _mend(part: Part, a: _Taken, b: _Taken, shop: Shop) -> str:
    """How far apart they are to be, from the way they lie to each other."""
    f, g = a.feature, b.feature
    if isinstance(f, Bore) and isinstance(g, Bore):
        apart = up_to_step((f.diameter + g.diameter) / 2 + LEAST_MM, shop.fence_step_mm)
        centres = f"{mm(apart)} apart, centre to centre"
        if mouth_of(f) == mouth_of(g):
            return f"stand them at least {centres}"
        if mouth_of(f) == OPPOSITE[mouth_of(g)]:
            size = sum(abs(d) * s for d, s in zip(f.into, part.size, strict=True))
            if f.through or g.through:
                return f"stand them at least {centres}"
            most = settable((size - LEAST_MM) / 2 - max(f.tip, g.tip), shop)
            deep = f", or bore both no deeper than {mm(most)}" if most >= LEAST_DEPTH_MM else ""
            return f"stand them at least {centres}{deep}"
    away = min(LEAST_MM - max(a.low[k] - b.high[k], b.low[k] - a.high[k]) for k in range(3))
    far = mm(up_to_step(away, shop.fence_step_mm))
    return f"move one of them at least {far} away from the other, or make it less deep"


CHECK = Check(code=CODE, title="Bores and channels that meet", look=look)
