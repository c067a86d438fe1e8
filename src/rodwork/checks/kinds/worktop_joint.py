"""A worktop that is joined where nothing bears it, or where water and heat are."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, mm
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod
from rodwork.model.run import CLEAR_OF_CUT_OUT_MM, CabinetRun

CODE = "worktop-joint"


def look(rod: Rod) -> Iterable[Finding]:
    """Every joint of every worktop, by what stands under it and what is cut out beside it."""
    for run in rod.runs:
        for x in run.joints:
            yield from _over_a_gap(run, x)
            yield from _near_a_cut_out(run, x)


def _over_a_gap(run: CabinetRun, x: float) -> Iterator[Finding]:
    for s in run.standings:
        if s.stands_as == "gap" and s.x0 < x < s.x1:
            yield Finding(
                severity="fault", code=CODE, cabinet=run.name, where=(),
                message=f"The worktop is joined at {mm(x)}, over the gap for the {s.name} ({mm(s.x0)} to {mm(s.x1)}): "
                        "nothing bears it there.",
                mend=f"Join it at {mm(s.x0 - 50)} or less, or at {mm(s.x1 + 50)} or more; or leave joints_at out.",
                source=COMMON,
            )  # fmt: skip


def _near_a_cut_out(run: CabinetRun, x: float) -> Iterator[Finding]:
    for cut in run.cut_outs:
        away = max(cut.x0 - x, x - cut.x1)
        if away < CLEAR_OF_CUT_OUT_MM:
            yield Finding(
                severity="warning", code=CODE, cabinet=run.name, where=(cut.part,),
                message=f"The worktop is joined at {mm(x)}, {mm(away)} from the cut-out for the {cut.what}: "
                        f"{mm(CLEAR_OF_CUT_OUT_MM)} is usual, for strength and to keep water out of the joint.",
                mend=f"Join it at {mm(cut.x0 - CLEAR_OF_CUT_OUT_MM)} or less, or at "
                     f"{mm(cut.x1 + CLEAR_OF_CUT_OUT_MM)} or more.",
                source=COMMON,
            )  # fmt: skip


CHECK = Check(code=CODE, title="Where a worktop is joined", look=look)
