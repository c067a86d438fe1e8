"""A unit that does not go into its alcove: too wide, too high, too deep, or not to be tilted up under the ceiling."""

from collections.abc import Iterable, Iterator
from math import sqrt

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.model.alcove import Alcove
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod, RodCabinet

CODE = "will-not-enter"
GEOMETRY = "geometry"
DUST = 1e-3


def look(rod: Rod) -> Iterable[Finding]:
    """Every unit in an alcove."""
    for cabinet in rod.cabinets:
        if cabinet.asked.alcove is not None:
            yield from told_once(CODE, cabinet, _spots(cabinet, cabinet.asked.alcove))


def _spots(cabinet: RodCabinet, alcove: Alcove) -> Iterator[Spot]:
    sides = tuple(p for p in cabinet.parts if p.role == "side")
    across = tuple(p for p in cabinet.parts if p.role in ("top", "bottom"))
    width, height, depth = alcove.size
    if width > alcove.room_width + DUST:
        yield Spot(
            severity="fault", parts=across,
            what=f"a cabinet of {mm(width)} does not go into {too_little(alcove.room_width)}, the widest that stands "
                 f"upright between {alcove.held[0]}, and {alcove.held[1]}",
            mend=f"leave width out, or write {too_little(alcove.room_width)} less two scribes", source=GEOMETRY,
        )  # fmt: skip
    if alcove.room_height is not None and height > alcove.room_height + DUST:
        yield Spot(
            severity="fault", parts=sides,
            what=f"a cabinet of {mm(height)} does not go under the ceiling: {too_little(alcove.room_height)} are there "
                 "from its bottom up",
            mend=f"leave height out, or write {too_little(alcove.room_height)} or less", source=GEOMETRY,
        )  # fmt: skip
    if alcove.room_depth is not None and depth > alcove.room_depth + DUST:
        yield Spot(
            severity="warning", parts=sides,
            what=f"a cabinet {mm(depth)} deep stands {mm(depth - alcove.room_depth)} out of an opening of "
                 f"{too_little(alcove.room_depth)}, and its scribes with it",
            mend=f"leave depth out, or write {too_little(alcove.room_depth)} or less", source=GEOMETRY,
        )  # fmt: skip
    yield from _tilted(cabinet, alcove)


def _tilted(cabinet: RodCabinet, alcove: Alcove) -> Iterator[Spot]:
    """Whether its diagonal goes under the ceiling as it is tilted up."""
    if alcove.tilt is None or alcove.headroom is None or alcove.tilt <= alcove.headroom + DUST:
        return
    most = sqrt(max(alcove.headroom**2 - alcove.size[2] ** 2, 0.0))
    yield Spot(
        severity="fault", parts=tuple(p for p in cabinet.parts if p.role == "side"),
        what=f"tilted up, {mm(alcove.size[1])} by {mm(alcove.size[2])} takes {mm(alcove.tilt)} under the ceiling, and "
             f"{too_little(alcove.headroom)} are there",
        mend=f"make it {too_little(most)} high or less, or in two that stand on each other",
        source=f"{GEOMETRY}; {COMMON}",
    )  # fmt: skip


CHECK = Check(code=CODE, title="Will not go into its opening", look=look)
