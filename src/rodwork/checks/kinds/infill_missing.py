"""A door hinged beside the wall at the end of a run, with no infill that lets it open."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, mm
from rodwork.model.alcove import LEAST_AT_HINGES_MM
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod
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
    carriers = {h.carrier for d in cabinet.doors if d.hinged == side for h in d.hinges}
    beside = [p.id for p in cabinet.parts if p.id == f"{side} side" and p.id in carriers]
    if not beside or room >= LEAST_AT_HINGES_MM:
        return
    what = "no infill" if room < 1.0 else f"{mm(room)}"
    yield Finding(
        severity="warning", code=CODE, cabinet=run.name, where=(),
        message=f"The {last.name} at the {side} end is hinged at its {side} with {what} between it and the wall: "
                "its door cannot open to a right angle, and its handle strikes the wall.",
        mend=f"Put an infill of {mm(LEAST_AT_HINGES_MM)} or more there, or hang the door on the other side.",
        source=COMMON,
    )  # fmt: skip


CHECK = Check(code=CODE, title="No infill beside a hinged side at a wall", look=look)
