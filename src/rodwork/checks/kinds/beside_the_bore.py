"""Too little board left beside a bore in an edge or an end, across the thickness."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import (
    DUST,
    SOUND_MM,
    THINNEST_EDGE_MM,
    beside,
    called,
    fixing_of,
    half_across,
    in_a_face,
    mouth_of,
    word,
)
from rodwork.checks.shapes import askew
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.geometry.rounding import to_step
from rodwork.model.feature import Bore, Feature, Groove
from rodwork.model.finding import Finding, Severity
from rodwork.model.fixing import Fixing
from rodwork.model.panel import Part, Role
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.shop import Shop

CODE = "beside-the-bore"
LEAST_MM = 3.0
LEAST_BORE_MM = 3.0  # a smaller one holds nothing
DRAWER_BOX: tuple[Role, ...] = ("drawer side", "drawer front", "drawer back")


def look(rod: Rod) -> Iterable[Finding]:
    """Every bore in an edge or an end, and every slot there that leaves less than any bore may."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet, rod.shop))


def _spots(cabinet: RodCabinet, shop: Shop) -> Iterator[Spot]:
    fixings = fixing_of(cabinet)
    for part in cabinet.parts:
        for bore in part.features:
            if not isinstance(bore, Groove) and not in_a_face(bore) and not _too_thin_for_a_screw(part, bore):
                left = beside(part, bore)
                sound = SOUND_MM if isinstance(bore, Bore) else LEAST_MM  # over a slot another check asks for more
                if left < sound - DUST:
                    yield _spot(part, bore, left, fixings.get(bore.id), shop)


def _too_thin_for_a_screw(part: Part, bore: Feature) -> bool:
    """No screw holds there, wherever it stands: another check says so."""
    return bore.role == "pilot" and part.size[2] < THINNEST_EDGE_MM - DUST


def _spot(part: Part, bore: Feature, left: float, fixing: Fixing | None, shop: Shop) -> Spot:
    thickness, radius = part.size[2], half_across(bore)
    severity: Severity = "fault" if left < LEAST_MM - DUST else "warning"
    beside_it = f"leaves {too_little(left)} beside it" if left > DUST else "breaks out"
    limit = f"{mm(LEAST_MM)} is the least" if severity == "fault" else f"under {mm(SOUND_MM)} it may swell or burst"
    return Spot(
        severity=severity, parts=(part,), ids=(bore.id,),
        at=word(part, mouth_of(bore)),
        what=f"a {called(bore, fixing, None)} of {mm(2 * radius)} in {mm(thickness)} board {beside_it}; "
             f"{limit}",
        mend=_IN_A_BEVEL if askew(bore) else _mend(part, radius, shop), source=f"arithmetic; the limits: {COMMON}",
    )  # fmt: skip


_IN_A_BEVEL = "set it further from that face along the slope, make it less deep, or use a thicker board"


def _mend(part: Part, radius: float, shop: Shop) -> str:
    """The middle, where that is sound; else the thinnest sound board and the largest sound bore.

    The boxes of drawers are often thinner than what their cabinet is joined with, and have a recipe of their own.
    """
    thickness = part.size[2]
    middle = to_step(thickness / 2, shop.fence_step_mm)
    if min(middle, thickness - middle) - radius >= SOUND_MM - DUST:
        return f"set it nearer the middle, {mm(middle)} from a face"
    thicker = f"board of at least {mm(2 * (radius + SOUND_MM))} mm"
    if part.role in DRAWER_BOX:
        return (
            "give the boxes a recipe of their own for thin board, such as screws: `joint` under drawers; or make them "
            f"of a {thicker}: box_board"
        )
    largest = 2 * (thickness / 2 - SOUND_MM)
    smaller = f"a bore of {mm(largest)} or less in the middle of the edge, or " if largest >= LEAST_BORE_MM else ""
    return f"use {smaller}a {thicker}"


CHECK = Check(code=CODE, title="Too little board beside a bore", look=look)
