"""Two doors hinged beside each other, in one cabinet or along a run: opened together they, or their handles, meet."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, product

from rodwork.checks.check import Check
from rodwork.checks.hung import HAND_MM
from rodwork.checks.spot import COMMON, Spot, capital, mm, told_once
from rodwork.model.finding import Finding
from rodwork.model.fronts import HANDLE_OUT_MM, DoorHung
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.run import CabinetRun

CODE = "door-against-neighbour"
PAIR_MM = 40.0  # the widest margin that may be asked between two doors

Span = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Leaf:
    """A side-hung door where it stands, mm: its edges across and up; its handle from the hinged edge, and up."""

    name: str
    hung: DoorHung
    x: Span
    z: Span
    handle: tuple[Span, Span] | None


def look(rod: Rod) -> Iterable[Finding]:
    """Every two doors on one board, then every two on neighbours of a run."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))
    for run in rod.runs:
        yield from _along(rod, run)


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    leaves = [_leaf(cabinet, d, 0.0, 0.0) for d in cabinet.doors if d.hinged != "up"]
    for a, b in combinations(sorted(leaves, key=lambda leaf: leaf.x), 2):
        room = _between(a, b)
        if _one_carrier(a.hung, b.hung) and room is not None and room < (wants := _wanted(a, b)):
            yield Spot(
                severity="warning", parts=(cabinet.part[a.hung.door], cabinet.part[b.hung.door]),
                what=f"opened together they stand {_said(room, wants, a, b)}",
                mend=_mend(room, wants, _in_a_pair(a, leaves) and _in_a_pair(b, leaves)),
            )  # fmt: skip


def _along(rod: Rod, run: CabinetRun) -> Iterator[Finding]:
    """Two doors of two cabinets; equal pairs once."""
    standings = [s for s in run.standings if s.stands_as == "cabinet"]
    told = set[tuple[str, str]]()
    for one, other in combinations(standings, 2):
        here, there = (
            [_leaf(rod.cabinet[s.name], d, s.x0, s.z0) for d in rod.cabinet[s.name].doors if d.hinged != "up"]
            for s in (one, other)
        )
        for a, b in product(here, there):
            room = _between(a, b)
            if room is None or room >= (wants := _wanted(a, b)):
                continue
            names = (f"{a.name} of the {one.name}", f"{b.name} of the {other.name}")
            if names not in told:
                told.add(names)
                yield Finding(
                    severity="note", code=CODE, cabinet=run.name, where=(),
                    message=f"{capital(names[0])} and {names[1]}, beside each other: opened together they stand "
                            f"{_said(room, wants, a, b)}.",
                    mend=capital(f"{_mend(room, wants, _in_a_pair(a, here) and _in_a_pair(b, there))}."), source=COMMON,
                )  # fmt: skip


def _leaf(cabinet: RodCabinet, hung: DoorHung, x: float, z: float) -> _Leaf:
    part = cabinet.part[hung.door]
    low, high = part.box
    bores = [part.pose.to_cabinet(f.at) for f in part.features if f.role == "handle"]
    edge = low[0] if hung.hinged == "left" else high[0]
    handle = None
    if bores:
        out, up = [abs(b[0] - edge) for b in bores], [b[2] + z for b in bores]
        handle = ((min(out) - HAND_MM, max(out) + HAND_MM), (min(up) - HAND_MM, max(up) + HAND_MM))
    return _Leaf(name=hung.door, hung=hung, x=(low[0] + x, high[0] + x), z=(low[2] + z, high[2] + z), handle=handle)


def _one_carrier(a: DoorHung, b: DoorHung) -> bool:
    return bool({h.carrier for h in a.hinges} & {h.carrier for h in b.hinges})


def _between(a: _Leaf, b: _Leaf) -> float | None:
    """Between their outer faces as they stand open to a right angle: what lies between their hinged edges.

    None where they do not open against each other: the left one hinged at its right, the other at its left, level.
    """
    if (a.hung.hinged, b.hung.hinged) != ("right", "left") or not _meet(a.z, b.z):
        return None
    return round(b.x[0] - a.x[1], 6)


def _meet(a: Span, b: Span) -> bool:
    return a[0] < b[1] and b[0] < a[1]


def _wanted(a: _Leaf, b: _Leaf) -> float:
    """Room for both handles where they meet each other, for one where each strikes the other's door, or for none."""
    if a.handle is None or b.handle is None:
        return HANDLE_OUT_MM if a.handle or b.handle else 0.0
    return 2 * HANDLE_OUT_MM if all(_meet(p, q) for p, q in zip(a.handle, b.handle, strict=True)) else HANDLE_OUT_MM


def _said(room: float, wants: float, a: _Leaf, b: _Leaf) -> str:
    who = "their handles want" if a.handle and b.handle else "a handle wants"
    return f"{mm(room)} apart, and {who} {mm(wants)}"


def _in_a_pair(leaf: _Leaf, leaves: Sequence[_Leaf]) -> bool:
    """Whether it shuts against another that hangs the other way: it cannot be hung otherwise by itself."""
    return any(
        other.hung.hinged != leaf.hung.hinged
        and abs(_free(other) - _free(leaf)) <= PAIR_MM
        and other.z[0] < leaf.z[1]
        and leaf.z[0] < other.z[1]
        for other in leaves
    )


def _free(leaf: _Leaf) -> float:
    """Its edge that opens, across."""
    return leaf.x[1] if leaf.hung.hinged == "left" else leaf.x[0]


def _mend(room: float, wants: float, paired: bool) -> str:
    heights = ", or set the handles at different heights" if HANDLE_OUT_MM <= room < wants else ""
    turned = "" if paired else "hang one of them the other way, or "
    return f"{turned}fit stops{heights}"


CHECK = Check(code=CODE, title="Door against its neighbour", look=look)
