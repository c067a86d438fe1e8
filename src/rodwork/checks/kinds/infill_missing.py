"""A door hinged beside the wall at the end of a run, with no infill that lets it open, and its handle if it has one."""

from collections.abc import Iterable, Iterator
from math import ceil

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, mm, too_little
from rodwork.model.alcove import LEAST_AT_HINGES_MM
from rodwork.model.finding import Finding
from rodwork.model.fronts import HANDLE_OUT_MM, DoorHung
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.run import CabinetRun, End, Standing

CODE = "infill-missing"


def look(rod: Rod) -> Iterable[Finding]:
    """Both ends of every run that stand at a wall."""
    for run in rod.runs:
        cabinets = [s for s in run.standings if s.stands_as == "cabinet"]
        if run.walls in ("both", "left"):
            yield from _end(rod, run, cabinets[0], "left", cabinets[0].x0)
        if run.walls in ("both", "right"):
            yield from _end(rod, run, cabinets[-1], "right", run.length - cabinets[-1].x1)


def _end(rod: Rod, run: CabinetRun, last: Standing, side: End, room: float) -> Iterator[Finding]:
    cabinet = rod.cabinet[last.name]
    on_it = [d for d in cabinet.doors if d.hinged == side and any(h.carrier == f"{side} side" for h in d.hinges)]
    if not on_it:
        return
    who = f"The {last.name} at the {side} end is hinged at its {side} with"
    with_handle = [d for d in on_it if _has_handle(cabinet, d)]
    off = room + min(_margin(cabinet, d, side) for d in with_handle or on_it)
    strikes = bool(with_handle) and off < HANDLE_OUT_MM
    if room >= LEAST_AT_HINGES_MM and not strikes:
        return
    what = "no infill" if room < 1.0 else mm(room)
    message = f"{who} {what} between it and the wall: open to a right angle its door leaves {too_little(off)}, "
    message += f"and a handle stands out {mm(HANDLE_OUT_MM)}." if strikes else "and it opens hardly further."
    least = max(LEAST_AT_HINGES_MM, ceil(HANDLE_OUT_MM - off + room) if strikes else 0.0)
    yield Finding(
        severity="warning", code=CODE, cabinet=run.name, where=(), message=message,
        mend=f"Put an infill of {mm(least)} or more there, or hang the door on the other side.", source=COMMON,
    )  # fmt: skip


def _has_handle(cabinet: RodCabinet, door: DoorHung) -> bool:
    return any(f.role == "handle" for f in cabinet.part[door.door].features)


def _margin(cabinet: RodCabinet, door: DoorHung, side: End) -> float:
    """From the outside of the carcass to the hinged edge: so much further off the wall the open door stands."""
    low, high = cabinet.part[door.door].box
    return low[0] if side == "left" else cabinet.size[0] - high[0]


CHECK = Check(code=CODE, title="No infill beside a hinged side at a wall", look=look)
