"""A wide drawer with a thin bottom: it sags out of its grooves."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod, RodCabinet

CODE = "drawer-bottom-sags"
LIMITS_MM = ((450.0, 0.0), (600.0, 5.0), (900.0, 8.0), (1e9, 11.0))  # up to so wide: at least so thick


def look(rod: Rod) -> Iterable[Finding]:
    """Every drawer's bottom by its width."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    for drawer in cabinet.drawers:
        for part in (cabinet.part[i] for i in drawer.box if cabinet.part[i].role == "drawer bottom"):
            least = next(t for w, t in LIMITS_MM if part.size[0] <= w)
            if part.size[2] < least:
                yield Spot(
                    severity="warning", parts=(part,),
                    what=f"a drawer bottom {mm(part.size[0])} wide of {mm(part.size[2])} mm sags out of its grooves",
                    mend=f"take a board of {least:g} mm or more for it, or a strip under its middle from front to back",
                )  # fmt: skip


CHECK = Check(code=CODE, title="A wide drawer's thin bottom", look=look)
