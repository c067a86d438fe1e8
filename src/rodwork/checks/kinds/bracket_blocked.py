"""Something stands where the body of a hanging bracket is to stand: a shelf, a divider, a drawer."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, Spot, mm, told_once
from rodwork.model.bracket import HungBracket
from rodwork.model.finding import Finding
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CODE = "bracket-blocked"
CLEAR_MM = 5.0  # below a bracket, to reach its screws; common practice, no source
DUST = 1e-6


def look(rod: Rod) -> Iterable[Finding]:
    """Every cabinet with hanging brackets that are drawn."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    for bracket in cabinet.brackets:
        for part in cabinet.whole_boards:
            if _meet(bracket, part):
                down = cabinet.size[1] - bracket.low[2] + CLEAR_MM
                yield Spot(
                    severity="fault", parts=(part,),
                    what="a hanging bracket is to be screwed to the side just there",
                    mend=f"keep the back {mm(bracket.high[1] - bracket.low[1])} of the top {mm(down)} free beside the "
                         "sides: lower it, make it shallower, or hang the cabinet another way",
                    source=COMMON,
                )  # fmt: skip


def _meet(bracket: HungBracket, part: Part) -> bool:
    """Whether they share any room; the body touches side, top and back without sharing any."""
    low, high = part.box
    return all(
        bracket.low[n] < high[n] - DUST and bracket.high[n] > low[n] + DUST for n in range(3)
    )  # fmt: skip


CHECK = Check(code=CODE, title="Something where a hanging bracket stands", look=look)
