"""A cut-out in a worktop over the top, a rail or a divider of the cabinet under it: the bowl comes down on it."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, mm
from rodwork.model.finding import Finding
from rodwork.model.panel import Part, Role
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.run import CabinetRun, CutOutPlace, Standing

CODE = "cut-out-over-boards"
BOARDS: tuple[Role, ...] = ("top", "rail", "divider")  # a side under a cut-out is told by another check
HAIR_MM = 0.5
LEAST_LEFT_MM = 30.0  # of a rail that is cut away


def look(rod: Rod) -> Iterable[Finding]:
    """Every cut-out of every run over every cabinet that stands under it."""
    for run in rod.runs:
        for cut in run.cut_outs:
            for standing in run.standings:
                if standing.stands_as == "cabinet" and standing.under_worktop:
                    yield from _under(run, cut, standing, rod.cabinet[standing.name])


def _under(run: CabinetRun, cut: CutOutPlace, standing: Standing, cabinet: RodCabinet) -> Iterator[Finding]:
    for part in cabinet.parts:
        if part.role not in BOARDS:
            continue
        (x0, y0, _), (x1, y1, _) = part.box
        wide = min(cut.x1, standing.x0 + x1) - max(cut.x0, standing.x0 + x0)
        deep = min(cut.y1, y1) - max(cut.y0, y0)
        if wide > HAIR_MM and deep > HAIR_MM:
            yield Finding(
                severity="warning", code=CODE, cabinet=run.name, where=(cut.part, cut.feature),
                message=f"The cut-out for the {cut.what} lies over the {part.name} of {cabinet.name}, {mm(deep)} front "
                "to back: what goes down through it comes down on that.",
                mend=_mend(cut, part, cabinet, deep), source=f"arithmetic; what to do: {COMMON}",
            )  # fmt: skip


def _mend(cut: CutOutPlace, part: Part, cabinet: RodCabinet, deep: float) -> str:
    """A top makes way for rails, a flat rail for one on edge, and what is left for the cut-out."""
    if part.role == "top":
        return (
            f"Give {cabinet.name} rails in place of its top, "
            f'rails = {{ top_front = 80, top_back = 80, set = "on edge" }}, '
            f"or cut the top away with the template of the {cut.what}."
        )
    if part.role == "divider":
        return f"Move the cut-out, or leave the divider out of {cabinet.name}."
    (_, y0, z0), (_, y1, z1) = part.box
    if y1 - y0 > z1 - z0 and deep > y1 - y0 - LEAST_LEFT_MM:
        return 'Set the rails on edge, set = "on edge" under rails, or leave that rail out.'
    if y1 - y0 > z1 - z0:
        return f'Set the rails on edge, set = "on edge" under rails, or cut {mm(deep)} of it away under the cut-out.'
    way = "back" if y0 < (cut.y0 + cut.y1) / 2 else "forward"
    return f"Move the cut-out {mm(deep)} {way} by from_front, take a smaller template, or leave that rail out."


CHECK = Check(code=CODE, title="Boards under a cut-out", look=look)
