"""A clothes rail that is too long to stay straight between its two sockets."""

from collections.abc import Iterable, Iterator
from math import ceil

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once
from rodwork.geometry.rounding import up_to_step
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod, RodCabinet

CODE = "clothes-rail-span"
MOST_MM = 1000.0  # between supports; common practice, 900 to 1000, no source
DUST = 1e-6


def look(rod: Rod) -> Iterable[Finding]:
    """Every clothes rail."""
    for cabinet in rod.boxes:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    for rail in cabinet.clothes_rails:
        left, right = (cabinet.part[u] for u in rail.uprights)
        clear = right.box[0][0] - left.box[1][0]
        span = clear / (rail.supports + 1)
        if span > MOST_MM + DUST:
            held = "has none" if rail.supports == 0 else f"has {rail.supports}"
            yield Spot(
                severity="warning", parts=(left, right),
                what=f"a clothes rail between them spans {mm(up_to_step(span, 0.1))}, and sags under clothes over "
                     f"more than {mm(MOST_MM)} without a middle support; it {held}",
                mend=f"write supports = {ceil(clear / MOST_MM - DUST) - 1} for it, or divide the bay",
            )  # fmt: skip


CHECK = Check(code=CODE, title="Clothes rail with too long a span", look=look)
