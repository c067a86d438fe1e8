"""Glued joints of boards that are finished first and have nothing masked: the glue holds the film, not the wood."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, Spot, told_once
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod, RodCabinet

CODE = "glue-on-finish"


def look(rod: Rod) -> Iterable[Finding]:
    """Every cabinet that is finished all over before it is glued."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    finish = cabinet.finish
    if finish is None or finish.when == "after assembly" or finish.mask != "nothing":
        return
    for joint in cabinet.joints:
        if joint.glued:
            yield Spot(
                severity="warning", parts=(cabinet.part[joint.parts[0]], cabinet.part[joint.parts[1]]), ids=(joint.id,),
                what="glued where nothing is masked: the glue will hold to the film and not to the wood",
                mend='mask what is glued, finish = { mask = "joints" }, or finish it after assembly', source=COMMON,
            )  # fmt: skip


CHECK = Check(code=CODE, title="Glue on a finish", look=look)
