"""Doors of a run that are meant to be alike and are not: margins, edges or widths that differ by a little."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, mm
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod
from rodwork.model.run import CabinetRun

CODE = "margins-differ"
SEEN_MM = 0.3  # a difference in margins that an eye finds; less is taken up by the hinges
MEANT_MM = 12.0  # a larger one was wanted


@dataclass(frozen=True, slots=True, kw_only=True)
class _Front:
    """A door or drawer front where it stands in the run, mm."""

    name: str
    number: int
    x0: float
    x1: float
    z0: float
    z1: float
    door: bool


def look(rod: Rod) -> Iterable[Finding]:
    """The fronts of every run from the left."""
    for run in rod.runs:
        fronts = _fronts(rod, run)
        yield from _margins(run, fronts)
        yield from _lines(run, fronts)
        yield from _widths(run, fronts)


def _fronts(rod: Rod, run: CabinetRun) -> list[_Front]:
    out = []
    for number, s in enumerate(run.standings, 1):
        if s.stands_as == "cabinet":
            for part in rod.cabinet[s.name].parts:
                if part.role == "door" or (part.role == "drawer front" and "back_side" in part.shows):
                    (x0, _, z0), (x1, _, z1) = part.box
                    out.append(
                        _Front(
                            name=s.name,
                            number=number,
                            x0=s.x0 + x0,
                            x1=s.x0 + x1,
                            z0=s.z0 + z0,
                            z1=s.z0 + z1,
                            door=part.role == "door",
                        )
                    )
    return sorted(out, key=lambda f: (f.x0, f.z0))


def _margins(run: CabinetRun, fronts: list[_Front]) -> Iterator[Finding]:
    """Between fronts of cabinets that stand against each other, and inside them."""
    gaps: dict[float, list[str]] = {}
    for a in fronts:
        beside = [b for b in fronts if b.x0 >= a.x1 - 0.01 and b.z0 < a.z1 and a.z0 < b.z1]
        nearest = min(beside, key=lambda f: f.x0, default=None)
        if nearest is not None and nearest.x0 - a.x1 < MEANT_MM:
            words = a.name if a.number == nearest.number else f"{a.name} and {nearest.name}"
            gaps.setdefault(round(nearest.x0 - a.x1, 1), []).append(words)
    if gaps and max(gaps) - min(gaps) >= SEEN_MM:
        told = ", ".join(f"{mm(g)} ({', '.join(dict.fromkeys(who))})" for g, who in sorted(gaps.items()))
        yield _found(
            run, f"Margins between fronts differ along the run: {told}.",
            "Give all doors and drawers the same `between`, and `sides` of half of it.",
        )  # fmt: skip


def _lines(run: CabinetRun, fronts: list[_Front]) -> Iterator[Finding]:
    """Upper and lower edges that nearly line up."""
    for word, edge in (("upper", "z1"), ("lower", "z0")):
        places = sorted({round(getattr(f, edge), 2) for f in fronts})
        near = [(a, b) for a, b in pairwise(places) if SEEN_MM <= b - a < MEANT_MM / 4]
        if near:
            (low, high), *_ = near
            names = [next(f.name for f in fronts if round(getattr(f, edge), 2) == z) for z in (low, high)]
            yield _found(
                run,
                f"The {word} edges of the fronts of {names[0]} and {names[1]} stand {mm(low)} and {mm(high)} above the "
                "floor.",
                "Give their doors and drawers the same `ends`, and the cabinets one height.",
            )  # fmt: skip


def _widths(run: CabinetRun, fronts: list[_Front]) -> Iterator[Finding]:
    """Doors that are nearly of one width."""
    widths = sorted({round(f.x1 - f.x0, 2) for f in fronts if f.door})
    near = [(a, b) for a, b in pairwise(widths) if SEEN_MM <= b - a < MEANT_MM]
    if near:
        (low, high), *_ = near
        names = [next(f.name for f in fronts if f.door and round(f.x1 - f.x0, 2) == w) for w in (low, high)]
        yield _found(
            run, f"Doors are {mm(low)} wide on the {names[0]} and {mm(high)} on the {names[1]}, as if by a slip.",
            "Share the difference among the cabinets' widths, or make it large enough to be meant.",
        )  # fmt: skip


def _found(run: CabinetRun, message: str, mend: str) -> Finding:
    return Finding(
        severity="warning", code=CODE, cabinet=run.name, where=(), message=message, mend=mend, source=COMMON
    )  # fmt: skip


CHECK = Check(code=CODE, title="Fronts along a run that differ by a little", look=look)
