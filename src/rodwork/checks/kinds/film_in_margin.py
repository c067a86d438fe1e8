"""A margin round a front that the film of the finish fills: the front rubs or sticks."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, Spot, mm, told_once
from rodwork.model.finding import Finding
from rodwork.model.margins import margins
from rodwork.model.rod import Rod, RodCabinet

CODE = "film-in-margin"
RUBS_MM, STICKS_MM = 1.5, 0.5  # what is left of a margin that a front moves in


def look(rod: Rod) -> Iterable[Finding]:
    """Every margin of a finished cabinet that has another edge beyond it."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    if cabinet.finish is None:
        return
    film = cabinet.finish.film_mm
    for margin in margins(cabinet):
        left = margin.finished(film)
        if margin.beside == "outside" or left >= RUBS_MM:
            continue
        sticks = left <= STICKS_MM
        yield Spot(
            severity="fault" if sticks else "warning", parts=tuple(cabinet.part[id] for id in margin.parts),
            what=f"a margin of {mm(margin.mm)} is {mm(max(left, 0.0))} with a finish of {film:g} on both edges: "
            f"the front {'sticks' if sticks else 'may rub'}",
            mend=f"make the margin {mm(RUBS_MM + margin.films * film)} or more; 2.5 is usual inset and painted",
            source=COMMON,
        )  # fmt: skip


CHECK = Check(code=CODE, title="A margin that the finish fills", look=look)
