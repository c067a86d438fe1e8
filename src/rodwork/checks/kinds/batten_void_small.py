"""A split batten with no room behind it for a wall that is not flat: the cupboard rocks on the high spot."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod, RodCabinet

CODE = "batten-void-small"
LEAST_OVER_MM = 3.0  # of the batten
MOST_OVER_MM = 5.0


def look(rod: Rod) -> Iterable[Finding]:
    """Every cabinet whose half of a batten lies behind its back."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    for half in (p for p in cabinet.parts if p.role == "batten" and p.in_box):
        t, room = half.size[2], cabinet.asked.void
        if not cabinet.asked.back or room - t >= LEAST_OVER_MM - 1e-6:
            continue
        yield Spot(
            severity="warning", parts=(half,),
            what=f"it is {mm(t)} thick and lies {mm(room)} before the wall, which leaves {too_little(room - t)}: walls "
                 "are not flat, and the cabinet rocks on the high spot",
            mend=f"leave {mm(t + LEAST_OVER_MM)} to {mm(t + MOST_OVER_MM)} behind the back: write it as its void",
            source=COMMON,
        )  # fmt: skip


CHECK = Check(code=CODE, title="Too little room behind a batten", look=look)
