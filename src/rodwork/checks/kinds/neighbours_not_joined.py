"""Cabinets that stand against each other in a run with nothing to hold them flush."""

from collections.abc import Iterable

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, listed
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod

CODE = "neighbours-not-joined"


def look(rod: Rod) -> Iterable[Finding]:
    """Every pair of neighbours in a run that wants screws and has none between them."""
    for run in rod.runs:
        pairs = [
            f"{run.standings[n - 1].name} and {run.standings[n].name} (numbers {n} and {n + 1} from the left)"
            for n in run.not_connected
        ]
        if pairs:
            yield Finding(
                severity="note", code=CODE, cabinet=run.name, where=(),
                message=f"No screw joins {listed(pairs)}: their sides have no row of pins in common that is clear of "
                        "hinges.",
                mend="Say where they go: screws = { heights = [100, 620] }; where something else holds them, leave "
                     "them out by the word screws of the run.",
                source=COMMON,
            )  # fmt: skip


CHECK = Check(code=CODE, title="Neighbours that nothing joins", look=look)
