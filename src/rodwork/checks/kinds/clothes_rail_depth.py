"""Clothes on hangers that would stand against the doors or the back."""

from collections.abc import Iterable, Iterator
from math import ceil

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once, too_little
from rodwork.model.clothes_rail import ClothesRail
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod, RodCabinet

CODE = "clothes-rail-depth"
WANTED_MM = 560.0  # clear, front to back; common practice, 560 to 600, no source
DUST = 1e-6


def look(rod: Rod) -> Iterable[Finding]:
    """Every clothes rail."""
    for cabinet in rod.boxes:
        yield from told_once(CODE, cabinet, _spots(cabinet, rod.shop.fence_step_mm))


def _spots(cabinet: RodCabinet, step: float) -> Iterator[Spot]:
    """`step`: a rail stands where a fence can be set."""
    for rail in cabinet.clothes_rails:
        front, back = _room(cabinet, rail)
        middle = rail.middle[1]
        clear = 2 * min(middle - front, back - middle)
        if clear < WANTED_MM - step - DUST:
            yield Spot(
                severity="warning", parts=tuple(cabinet.part[u] for u in rail.uprights),
                what=f"hangers on a rail between them want {mm(WANTED_MM)} front to back, half of that before "
                     f"and half behind, and have {too_little(clear)}",
                mend=_mend(back - front),
            )  # fmt: skip


def _room(cabinet: RodCabinet, rail: ClothesRail) -> tuple[float, float]:
    """From the front of the carcass, or the inside of a door that shuts within it, to the back or the wall."""
    boxes = {p.role: p.box for p in cabinet.parts}
    back = boxes["back"][0][1] if "back" in boxes else cabinet.size[2]
    x, _, z = rail.middle
    doors = (cabinet.part[d.door].box for d in cabinet.doors)
    before = (high[1] for low, high in doors if low[0] <= x <= high[0] and low[2] <= z <= high[2])
    return max((0.0, *before)), back


def _mend(room: float) -> str:
    if room >= WANTED_MM - DUST:
        return "leave from_front out, for the rail to stand in the middle of the depth"
    deeper = f"make the cabinet {ceil(WANTED_MM - room - DUST)} deeper"
    return f"{deeper}, or hang the clothes the other way: a rail that pulls out front to back, under the board above"


CHECK = Check(code=CODE, title="Clothes rail with too little depth", look=look)
