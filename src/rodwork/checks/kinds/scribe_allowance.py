"""A scribe that does not reach the wall, leaves nothing to plane, or is too narrow to hold or to let a door open."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once, too_little
from rodwork.model.alcove import LEAST_AT_HINGES_MM, SPARE_TO_PLANE_MM, Alcove, ScribeStrip
from rodwork.model.finding import Finding
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CODE = "scribe-allowance"
DUST = 1e-3


def look(rod: Rod) -> Iterable[Finding]:
    """Every unit in an alcove."""
    for cabinet in rod.cabinets:
        if cabinet.asked.alcove is not None:
            yield from told_once(CODE, cabinet, _spots(cabinet, cabinet.asked.alcove))


def _spots(cabinet: RodCabinet, alcove: Alcove) -> Iterator[Spot]:
    strips = [(strip, cabinet.part[f"{strip.side} scribe"]) for strip in alcove.scribes]
    for strip, part in strips:
        yield from _reach(strip, part)
        if strip.hinged and strip.least < LEAST_AT_HINGES_MM - DUST:
            yield Spot(
                severity="fault", parts=(part,),
                what=f"a door hangs beside it, and it narrows to {too_little(strip.least)}: the door strikes the wall "
                     "as it opens",
                mend=f"make the cabinet narrower until {mm(LEAST_AT_HINGES_MM)} are left there, or hang the door on "
                     "its other side",
            )  # fmt: skip
    over = -sum(alcove.moves)
    if over > DUST and strips:
        most = alcove.size[0] - over
        narrowest = " and ".join(too_little(strip.least) for strip, _ in strips)
        yield Spot(
            severity="warning", parts=tuple(part for _, part in strips),
            what=f"a cabinet of {mm(alcove.size[0])} leaves less than was asked for, {mm(over)} in all: they "
                 f"narrow to {narrowest}",
            mend=f"leave width out, or write {too_little(most)} or less; or say a smaller least under scribes",
        )  # fmt: skip


def _reach(strip: ScribeStrip, part: Part) -> Iterator[Spot]:
    """Whether it is wide enough for the widest of the gap, and leaves something to plane off."""
    wanted = mm(strip.widest + SPARE_TO_PLANE_MM)
    mend = (
        f"leave {strip.side} out under scribes, or write {wanted} or more: the widest gap and {mm(SPARE_TO_PLANE_MM)} "
        "to plane off"
    )
    left = too_little(strip.rough - strip.widest)
    if strip.widest > strip.rough + DUST:
        yield Spot(
            severity="fault", parts=(part,), mend=mend,
            what=f"supplied {mm(strip.rough)} wide, and the gap is {mm(strip.widest)} at its widest: it does not reach "
                 "the wall",
        )  # fmt: skip
    elif strip.widest + SPARE_TO_PLANE_MM > strip.rough + DUST:
        yield Spot(
            severity="warning", parts=(part,), mend=mend,
            what=f"supplied {mm(strip.rough)} wide for a gap of {mm(strip.widest)}: {left} to plane off "
                 "at its widest, and a wall may swell by more between the readings",
        )  # fmt: skip


CHECK = Check(code=CODE, title="Scribe larger than its allowance", look=look)
