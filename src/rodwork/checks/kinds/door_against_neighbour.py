"""Two doors hung on one divider: opened together they, or their handles, meet in front of it."""

from collections.abc import Iterable, Iterator
from itertools import combinations

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once
from rodwork.model.finding import Finding
from rodwork.model.fronts import DoorHung
from rodwork.model.rod import Rod, RodCabinet

CODE = "door-against-neighbour"
HANDLE_MM = 35.0  # how far a handle stands out; common practice, 25 to 40


def look(rod: Rod) -> Iterable[Finding]:
    """Every pair of doors on one board."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    for a, b in combinations(cabinet.doors, 2):
        if {a.hinged, b.hinged} != {"left", "right"} or not _one_carrier(a, b) or not _level(cabinet, a, b):
            continue
        room = _between(cabinet, a, b)
        handles = sum(1 for d in (a, b) if any(f.role == "handle" for f in cabinet.part[d.door].features))
        if handles and room < handles * HANDLE_MM:
            yield Spot(
                severity="warning", parts=(cabinet.part[a.door], cabinet.part[b.door]),
                what=f"opened together they stand {mm(room)} apart, and "
                f"{'their handles' if handles == 2 else 'a handle'} want {mm(handles * HANDLE_MM)}",
                mend="hang one of them the other way, fit stops, or set the handles at different heights",
            )  # fmt: skip


def _one_carrier(a: DoorHung, b: DoorHung) -> bool:
    return bool({h.carrier for h in a.hinges} & {h.carrier for h in b.hinges})


def _span(cabinet: RodCabinet, door: DoorHung, axis: int) -> tuple[float, float]:
    low, high = cabinet.part[door.door].box
    return low[axis], high[axis]


def _level(cabinet: RodCabinet, a: DoorHung, b: DoorHung) -> bool:
    """Whether they stand beside each other, not one over the other."""
    (p, q), (r, s) = (_span(cabinet, d, 2) for d in (a, b))
    return p < s and r < q


def _between(cabinet: RodCabinet, a: DoorHung, b: DoorHung) -> float:
    """Between the outer faces of two doors that stand open at a right angle: what lies between their hinged edges."""
    right, left = (a, b) if a.hinged == "right" else (b, a)
    return round(_span(cabinet, left, 0)[0] - _span(cabinet, right, 0)[1], 6)


CHECK = Check(code=CODE, title="Door against its neighbour", look=look)
