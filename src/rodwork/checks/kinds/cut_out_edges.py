"""A cut-out in a worktop that leaves little wood beside it, has sharp corners, or lies over a side."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, mm
from rodwork.model.feature import Cutout
from rodwork.model.finding import Finding, Severity
from rodwork.model.panel import Part
from rodwork.model.rod import Rod
from rodwork.model.run import CabinetRun, CutOutPlace

CODE = "cut-out-edges"
LEAST_WOOD_MM = 50.0
LEAST_RADIUS_MM = 5.0


def look(rod: Rod) -> Iterable[Finding]:
    """Every cut-out of every run."""
    for run in rod.runs:
        parts = rod.cabinet[run.name].part
        for cut in run.cut_outs:
            yield from _wood(run, cut, parts[cut.part])
            yield from _corners(run, cut)
            yield from _sides(rod, run, cut)


def _found(run: CabinetRun, cut: CutOutPlace, severity: Severity, message: str, mend: str) -> Finding:
    return Finding(
        severity=severity, code=CODE, cabinet=run.name, where=(cut.part, cut.feature), message=message, mend=mend,
        source=COMMON,
    )  # fmt: skip


def _wood(run: CabinetRun, cut: CutOutPlace, part: Part) -> Iterator[Finding]:
    """What is left between it and the front, the back and the two ends of its board."""
    feature = next(f for f in part.features if f.id == cut.feature)
    if not isinstance(feature, Cutout):
        return
    xs, ys = [p[0] for p in feature.polygon], [p[1] for p in feature.polygon]
    left = {
        "front edge": min(ys), "back edge": part.size[1] - max(ys), "left end": min(xs),
        "right end": part.size[0] - max(xs),
    }  # fmt: skip
    thin = {where: wood for where, wood in left.items() if wood < LEAST_WOOD_MM}
    if thin:
        told = " and ".join(f"{mm(wood)} at the {where}" for where, wood in thin.items())
        yield _found(
            run, cut, "warning",
            f"The cut-out for the {cut.what} leaves {told} of {part.name}; {mm(LEAST_WOOD_MM)} carries.",
            f"Move it, take a smaller template, or put a batten under what is left: {mm(LEAST_WOOD_MM)} all round.",
        )  # fmt: skip


def _corners(run: CabinetRun, cut: CutOutPlace) -> Iterator[Finding]:
    if cut.radius < LEAST_RADIUS_MM:
        yield _found(
            run, cut, "warning",
            f"The cut-out for the {cut.what} has corners rounded to {mm(cut.radius)}: tops crack from sharp ones.",
            f"Round them to {mm(LEAST_RADIUS_MM)} or more, as far as the template lets you.",
        )  # fmt: skip


def _sides(rod: Rod, run: CabinetRun, cut: CutOutPlace) -> Iterator[Finding]:
    """What goes down through it has to clear the sides of the cabinets under it."""
    for s in run.standings:
        if s.stands_as != "cabinet":
            continue
        sides = [p.size[2] for p in rod.cabinet[s.name].parts if p.role == "side"]
        for low, high in ((s.x0, s.x0 + sides[0]), (s.x1 - sides[-1], s.x1)):
            if cut.x0 < high and cut.x1 > low:
                yield _found(
                    run, cut, "fault",
                    f"The cut-out for the {cut.what}, {mm(cut.x0)} to {mm(cut.x1)} along the run, lies over a side of "
                    f"the {s.name} at {mm(low)} to {mm(high)}.",
                    f"Move it along the run, or make the {s.name} wider.",
                )  # fmt: skip


CHECK = Check(code=CODE, title="Wood beside a cut-out", look=look)
