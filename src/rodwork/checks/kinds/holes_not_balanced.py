"""Rows of shelf-pin bores that do not come the same from both ends of a side: left and right cannot be one board."""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once
from rodwork.model.finding import Finding
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CODE = "holes-not-balanced"
PITCH_MM = 32.0
SAME_MM = 0.25


def look(rod: Rod) -> Iterable[Finding]:
    """The grid of every cabinet whose sides have shelf pins on the pitch of system holes."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    for side in _pair(cabinet):
        ends_at = sorted(side.pose.to_cabinet((x, 0.0, 0.0))[2] for x in (0.0, side.size[0]))
        heights = sorted({round(side.pose.to_cabinet(f.at)[2], 3) for f in side.features if f.role == "shelf_pin"})
        if len(heights) < 2 or any(abs(_over(b - a)) > SAME_MM for a, b in pairwise(heights)):
            continue  # no row, or a pitch of another kind
        ends = (heights[0] - ends_at[0]) % PITCH_MM, (ends_at[1] - heights[-1]) % PITCH_MM
        if abs(_over(ends[0] - ends[1])) > SAME_MM:
            even = side.size[0] % PITCH_MM / 2
            start = even + (PITCH_MM / 2 if even < 4 else 0)
            yield Spot(
                severity="note", parts=(side,),
                what=f"the grid of holes does not balance: {mm(ends[0])} is left over at the bottom end and "
                f"{mm(ends[1])} at the top, so left and right sides are two hands",
                mend=f"write pins = {{ start = {mm(start)} }} for the same from both "
                "ends, or leave it handed",
                source="height = 32 n + 2 s, published in trade pages on system holes",
            )  # fmt: skip


def _pair(cabinet: RodCabinet) -> tuple[Part, ...]:
    """Both sides, where one could be the other: made here, of one height, both with rows; else they are two anyway."""
    sides = tuple(p for p in cabinet.parts if p.role == "side" and not p.bought)
    heights = [p.size[0] for p in sides]
    drilled = all(any(f.role == "shelf_pin" for f in p.features) for p in sides)
    return sides if drilled and sides and max(heights) - min(heights) <= SAME_MM else ()


def _over(mm: float) -> float:
    """How far from a whole number of pitches."""
    return (mm + PITCH_MM / 2) % PITCH_MM - PITCH_MM / 2


CHECK = Check(code=CODE, title="System holes that do not balance", look=look)
