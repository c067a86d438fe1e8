"""A run that fits its wall as it is drawn, and may not as it is made: small errors add up along it."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import capital, mm
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod
from rodwork.model.run import CabinetRun

CODE = "run-longer-than-wall"
SOURCE = "worst case and root sum square of the widths by {} accuracies of sawing and of sheets"


def look(rod: Rod) -> Iterable[Finding]:
    """Every run that has a wall, by what the wall leaves for infills."""
    for run in rod.runs:
        yield from _judged(run)


def _judged(run: CabinetRun) -> Iterator[Finding]:
    left, stack = run.stack.left, run.stack
    if left is None or left >= stack.worst:
        return
    likely = left < stack.likely
    adds_up = f"small errors add up to {mm(stack.likely)} in most runs and to {mm(stack.worst)} at the worst"
    yield Finding(
        severity="fault" if likely else "warning", code=CODE, cabinet=run.name, where=(),
        message=f"The wall leaves {mm(left)} beside the cabinets, and {adds_up}.",
        mend=capital(
            f"take {mm(stack.worst - left)} off the widths, or {'keep to the sizes and ' if not likely else ''}"
            "measure every cabinet before the last one is cut."
        ),
        source=SOURCE.format("measured" if stack.measured else "assumed"),
    )  # fmt: skip


CHECK = Check(code=CODE, title="A run longer than its wall", look=look)
