"""Clothes that would lie on the board below their rail."""

from collections.abc import Iterable, Iterator, Mapping
from math import ceil

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once, too_little
from rodwork.model.clothes_rail import Clothes, ClothesRail
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
                what=f"{rail.clothes} clothes want {mm(wanted)} or more under a rail between them, and have "
                     f"{too_little(rail.under)}",
                mend=f"{_make_room(cabinet, rail, ceil(wanted - rail.under - DUST))}{shorter}",
            )  # fmt: skip


def _make_room(cabinet: RodCabinet, rail: ClothesRail, more: int) -> str:
    """In its opening, or between it and the rail below it there."""
    others = (r for r in cabinet.clothes_rails if (r.bay, r.opening) == (rail.bay, rail.opening))
    if any(r.high[2] < rail.low[2] for r in others):
        return f"set the rail below it {more} lower"
    return f"make its opening {more} higher"


CHECK = Check(code=CODE, title="Clothes rail with too little height", look=look)
