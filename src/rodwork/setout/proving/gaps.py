"""How far two halves miss each other, how far a board fouls its groove, how far a row spreads: mm."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from rodwork.model.feature import Cutout, FeatureRole, Groove, Rebate
from rodwork.model.fixing import Fixing
from rodwork.setout.proving.printed import Void
from rodwork.setout.proving.stand import LIES, Point, Stand, along_axis
from rodwork.setout.proving.trouble import DUST

NOWHERE = 1e9  # beyond any board


def gap_of(fixing: Fixing, stands: dict[str, Stand], voids: dict[str, Void]) -> float | None:
    """How far apart the two halves come, mm, by the fixing's law; None where one of them is in no setting."""
    host = voids.get(fixing.halves[0].feature or "")
    if host is None:
        return None
    if fixing.law == "enter":
        guest = stands.get(fixing.halves[1].part)
        fouled = 0.0 if guest is None else fouls(host, guest, tongue_of(fixing, voids))
        return max(0.0, fouled) if fouled < NOWHERE else None
    twin = voids.get(fixing.halves[1].feature or "")
    if twin is None or fixing.law == "none":
        return None
    if fixing.law == "meet":
        return distance(host.mouth(), twin.mouth())
    return min(distance(way_out, twin.mouth()) for way_out in host.openings())


def distance(a: Point, b: Point) -> float:
    """From point to point, mm."""
    return float(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2) ** 0.5)


def off_axis(a: Void, b: Void) -> float:
    """How far the mouth of b lies from the axis of a, mm."""
    p, q, d = a.mouth(), b.mouth(), a.into
    x, y, z = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    t = x * d[0] + y * d[1] + z * d[2]
    return float(((x - t * d[0]) ** 2 + (y - t * d[1]) ** 2 + (z - t * d[2]) ** 2) ** 0.5)


def tongue_of(fixing: Fixing, voids: dict[str, Void]) -> Void | None:
    """The rebate that leaves a tongue on the guest, where only that goes into the groove."""
    guest = fixing.halves[1].part
    others = (voids.get(h.feature or "") for h in fixing.others if h.part == guest)
    return next((v for v in others if v is not None and isinstance(v.feature, Rebate)), None)


def fouls(groove: Void, guest: Stand, tongue: Void | None = None) -> float:
    """How far the guest board, where the two boards overlap, stands outside the groove, mm.

    Less than nought: its least clearance. NOWHERE: it does not reach into the host board at all. `tongue`: the
    rebate that was cut off the guest first.
    """
    low, high = _room(groove)
    worst = -NOWHERE
    for corner in _overlap(groove.stand, guest, tongue):
        for axis in (0, 1, 2):
            worst = max(worst, low[axis] - corner[axis], corner[axis] - high[axis])
    return worst if worst > -NOWHERE else NOWHERE


def _room(groove: Void) -> tuple[list[float], list[float]]:
    """The box in a groove that square corners may enter, on the board, from its printed walls and depth.

    Without bounds at its mouth, at an end that runs out, and on a rebate's missing wall.
    """
    low, high, axis = list(groove.low), list(groove.high), groove.axis
    depth = groove.entry.setup.depth or 0.0
    if LIES[groove.bears][1]:
        low[axis], high[axis] = low[axis] - depth, NOWHERE
    else:
        low[axis], high[axis] = -NOWHERE, low[axis] + depth
    feature = groove.feature
    run = along_axis(feature.along)
    if not isinstance(feature, Groove) or run is None:
        return low, high
    first, last = feature.both_ends if run.sign > 0 else feature.both_ends[::-1]
    low[run.axis] += _lost(first, feature.end_radius)
    high[run.axis] -= _lost(last, feature.end_radius)
    across = 3 - axis - run.axis
    if isinstance(feature, Rebate) and low[across] < DUST:
        low[across] = -NOWHERE
    if isinstance(feature, Rebate) and high[across] > groove.stand.size[across] - DUST:
        high[across] = NOWHERE
    return low, high


def _lost(end: str, radius: float) -> float:
    """How much of the length square corners cannot use at one end, mm."""
    return -NOWHERE if end == "open" else radius if end == "round" else 0.0


def _overlap(host: Stand, guest: Stand, tongue: Void | None) -> Iterator[Point]:
    """Corners of what the two boards share, on the host board: the guest's faces clipped by the host's box.

    The box is taken a trace small, so that a shoulder that only touches the host is not in it.
    """
    for flat in _flats(guest, tongue):
        polygon = [host.on_board(guest.in_cabinet(p)) for p in flat]
        for axis in (0, 1, 2):
            polygon = _clip(_clip(polygon, axis, DUST, 1.0), axis, host.size[axis] - DUST, -1.0)
        yield from polygon


def _flats(guest: Stand, tongue: Void | None) -> Iterator[list[Point]]:
    """The two faces of the guest; with a tongue, those of the tongue and those of the board behind its shoulder."""
    thickness = guest.size[2]
    whole: list[list[Point]] = [[(x, y, z) for x, y in guest.part.outline] for z in (0.0, thickness)]
    if tongue is None or tongue.entry.done.across is None:
        yield from whole
        return
    deep = tongue.entry.setup.depth or 0.0
    low, high = (0.0, thickness - deep) if LIES[tongue.bears][1] else (deep, thickness)
    for z in (low, high):
        yield [(x, y, z) for x, y in guest.part.outline]
    axis, far = LIES[tongue.entry.done.across.from_surface]
    shoulder = tongue.low[axis] if far else tongue.high[axis]
    for flat in whole:
        yield _clip(flat, axis, shoulder, -1.0 if far else 1.0)


def _clip(polygon: list[Point], axis: int, bound: float, sign: float) -> list[Point]:
    """What of a flat polygon lies on one side of a plane square to an axis."""
    kept: list[Point] = []
    for i, p in enumerate(polygon):
        q = polygon[i - 1]
        inside, before = (p[axis] - bound) * sign, (q[axis] - bound) * sign
        if (inside < -1e-9) != (before < -1e-9):
            t = before / (before - inside)
            kept.append((q[0] + (p[0] - q[0]) * t, q[1] + (p[1] - q[1]) * t, q[2] + (p[2] - q[2]) * t))
        if inside >= -1e-9:
            kept.append(p)
    return kept


class Row(NamedTuple):
    """Bores that stand in one straight row in the board, and how far the printed numbers scatter them."""

    spread: float
    voids: list[Void]


def rows(voids: Iterable[Void]) -> Iterator[Row]:
    """Every row: bores of one board, surface, joint and use that share a coordinate in the board as made."""
    found: dict[tuple[str, str, str | None, FeatureRole, int, float], list[Void]] = {}
    for void in voids:
        feature = void.feature
        if not isinstance(feature, Groove | Cutout):
            for axis in (0, 1, 2):
                if axis != void.axis:
                    at = round(feature.at[axis], 2)
                    key = (void.stand.part.id, void.bears, feature.joint, feature.role, axis, at)
                    found.setdefault(key, []).append(void)
    for key, members in found.items():
        if len(members) > 1:
            values = [v.at[key[4]] for v in members]
            yield Row(max(values) - min(values), members)
