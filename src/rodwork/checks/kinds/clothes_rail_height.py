"""Clothes that would lie on the board below their rail."""

from collections.abc import Iterable, Iterator, Mapping
from math import ceil

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once, too_little
from rodwork.model.clothes_rail import Clothes
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod, RodCabinet

CODE = "clothes-rail-height"
# Clear under the rail: shirts and jackets 900 to 1000, coats and dresses 1400 to 1600. Common practice, no source.
WANTED_MM: Mapping[Clothes, float] = {"short": 900.0, "long": 1400.0}
DUST = 1e-6


def look(rod: Rod) -> Iterable[Finding]:
    """Every clothes rail."""
    for cabinet in rod.boxes:
        yield from told_once(CODE, cabinet, _spots(cabinet, rod.shop.fence_step_mm))


def _spots(cabinet: RodCabinet, step: float) -> Iterator[Spot]:
    """`step`: a rail stands where a fence can be set."""
    for rail in cabinet.clothes_rails:
        wanted = WANTED_MM[rail.clothes]
        if rail.under < wanted - step - DUST:
            shorter = ', or write clothes = "short"' if rail.clothes == "long" else ""
            yield Spot(
                severity="warning", parts=tuple(cabinet.part[u] for u in rail.uprights),
                what=f"{rail.clothes} clothes want {mm(wanted)} or more under a clothes rail, and the one between them "
                     f"has {too_little(rail.under)}",
                mend=f"make its opening {ceil(wanted - rail.under - DUST)} higher{shorter}",
            )  # fmt: skip


CHECK = Check(code=CODE, title="Clothes rail with too little height", look=look)
