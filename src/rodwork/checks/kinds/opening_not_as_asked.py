"""A clear opening that did not come to what was asked of it."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import DUST
from rodwork.checks.spot import COMMON, capital, mm
from rodwork.model.finding import Finding
from rodwork.model.rod import Opening, Rod, RodCabinet

CODE = "opening-not-as-asked"
LET_PASS_MM = 0.05
FAULT_MM = 0.5  # half a millimetre: what a loose shelf or a box that stands in an opening is made smaller by


def look(rod: Rod) -> Iterable[Finding]:
    """Every opening that a height was asked for."""
    for cabinet in rod.cabinets:
        bays = {o.bay for o in cabinet.asked.openings}
        for opening in cabinet.asked.openings:
            yield from _told(cabinet, opening, len(bays) > 1)


def _told(cabinet: RodCabinet, opening: Opening, many_bays: bool) -> Iterator[Finding]:
    if opening.asked is None or abs(opening.comes_to - opening.asked) <= LET_PASS_MM + DUST:
        return
    off = opening.comes_to - opening.asked
    bay = f" in bay {opening.bay} from the left" if many_bays else ""
    low, high = opening.between
    yield Finding(
        severity="fault" if abs(off) > FAULT_MM + DUST else "warning", code=CODE, cabinet=cabinet.name,
        where=tuple(i for i in opening.between if i in cabinet.part),
        message=f"{capital(low)} to {high}{bay}: {_exactly(opening.asked)} was asked and it comes to "
                f"{_exactly(opening.comes_to)}, {_exactly(abs(off))} too {'high' if off > 0 else 'low'}.",
        mend=f"Make the cabinet {_exactly(abs(off))} {'lower' if off > 0 else 'higher'}, ask for "
             f'{_exactly(opening.comes_to)} here, or let one of the openings be "rest".',
        source=f"arithmetic; {mm(FAULT_MM)} as the limit: {COMMON}",
    )  # fmt: skip


def _exactly(value: float) -> str:
    """A height to a hundredth: a twentieth of a millimetre is what this check is about."""
    return f"{round(value, 2) + 0.0:g}"


CHECK = Check(code=CODE, title="An opening is not what was asked", look=look)
