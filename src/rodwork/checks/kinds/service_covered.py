"""A socket, pipe or the like behind a board that has no cut-out for it, or in the way of a drawer."""

import math
from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, Spot, mm, told_once
from rodwork.checks.standing import stood
from rodwork.geometry.vec import Vec
from rodwork.model.alcove import CLEAR_OF_SERVICE_MM as CLEAR_MM
from rodwork.model.alcove import Behind
from rodwork.model.feature import Cutout
from rodwork.model.finding import Finding
from rodwork.model.panel import Part, Role
from rodwork.model.rod import Rod, RodCabinet

CODE = "service-covered"
DUST = 1e-3
_STAND_BEFORE: tuple[Role, ...] = ("side", "divider", "part divider", "top", "bottom", "fixed shelf", "rail")
_OUTER: tuple[Role, ...] = ("side", "top", "bottom", "rail")
ROUND_TO_MM = 10.0  # what a width that follows an alcove is rounded down to as well
_DRAWER: tuple[Role, ...] = ("drawer side", "drawer back", "drawer bottom")


def look(rod: Rod) -> Iterable[Finding]:
    """Every unit in an alcove with services."""
    for cabinet in rod.cabinets:
        if cabinet.asked.alcove is not None:
            yield from told_once(CODE, cabinet, _spots(cabinet, cabinet.asked.alcove.behind))


def _spots(cabinet: RodCabinet, behind: tuple[Behind, ...]) -> Iterator[Spot]:
    for service in behind:
        if service.wall == "back":
            yield from _on_the_back(cabinet, service)
        else:
            side = cabinet.part[f"{service.wall} side"]
            yield Spot(
                severity="fault", parts=(side,),
                what=f"the {service.what} “{service.name}” lies on the wall beside it, where nobody can get at it",
                mend="move it to the back wall or out of the opening, or let a qualified person take it out",
            )  # fmt: skip


def _on_the_back(cabinet: RodCabinet, service: Behind) -> Iterator[Spot]:
    name = f"the {service.what} “{service.name}”"
    before = tuple(p for p in cabinet.parts if p.role in _STAND_BEFORE and _over(p, service))
    for outer in (True, False):
        parts = tuple(p for p in before if (p.role in _OUTER) is outer)
        if parts:
            mend = _outer_mend(cabinet, parts[0], service) if outer else "write openings or bays"
            yield Spot(
                severity="fault", parts=parts, what=f"{name} lies behind it",
                mend=f"move it until {mm(CLEAR_MM)} are clear all round: {mend}", source=COMMON,
            )  # fmt: skip
    for back in (p for p in cabinet.parts if p.role == "back" and _over(p, service)):
        yield from _through(back, service, name)
    struck = tuple(
        p for p in cabinet.parts
        if p.role in _DRAWER and _over(p, service) and stood(p).high[1] > service.low[1] - CLEAR_MM + DUST
    )  # fmt: skip
    if struck:
        most = min(stood(p).high[1] for p in struck) - service.low[1] + CLEAR_MM
        yield Spot(
            severity="fault", parts=struck, what=f"{name} stands in its way",
            mend=f"use runners {mm(max(most, 0.0))} shorter or more: {mm(CLEAR_MM)} are left before it", source=COMMON,
        )  # fmt: skip


def _outer_mend(cabinet: RodCabinet, board: Part, service: Behind) -> str:
    """How a side, the top or the bottom comes clear of it, by the size that stands it elsewhere.

    A unit stands in the middle of what it may move, so a side comes in by half of what comes off the width.
    """
    stands = stood(board)
    if board.role == "side":
        left = board.id == "left side"
        over = service.high[0] + CLEAR_MM - stands.low[0] if left else stands.high[0] - service.low[0] + CLEAR_MM
        most = math.floor((cabinet.size[0] - 2 * over) / ROUND_TO_MM) * ROUND_TO_MM
        return f"write width = {mm(most)} or less, its scribes then fill up" if most > 0 else "write another width"
    return "write another height" if board.role in ("top", "rail") else "write above_floor"


def _through(back: Part, service: Behind, name: str) -> Iterator[Spot]:
    """Whether a cut-out of the back leaves it free, with room all round."""
    rooms = [_room(back, f, service) for f in back.features if isinstance(f, Cutout)]
    room = max(rooms, default=-1.0)
    wanted = (service.low[0] - CLEAR_MM, service.low[2] - CLEAR_MM)
    size = (
        service.high[0] - service.low[0] + 2 * CLEAR_MM,
        service.high[2] - service.low[2] + 2 * CLEAR_MM,
    )
    mend = (
        f'write cut_outs = [{{ for = "{service.what}", left = {mm(wanted[0])}, bottom = {mm(wanted[1])}, '
        f"width = {mm(size[0])}, height = {mm(size[1])} }}] under back, or move it"
    )
    if room < -DUST:
        yield Spot(severity="fault", parts=(back,), what=f"it covers {name}, and has no cut-out there", mend=mend)
    elif room < CLEAR_MM - DUST:
        yield Spot(
            severity="warning", parts=(back,), mend=mend,
            what=f"its cut-out leaves {mm(room)} beside {name}: a plug, a hand or a spanner wants {mm(CLEAR_MM)}",
        )  # fmt: skip


def _over(part: Part, service: Behind) -> bool:
    """Whether a board lies over a service, seen from the front."""
    board = stood(part)
    return all(board.low[k] < service.high[k] - DUST and board.high[k] > service.low[k] + DUST for k in (0, 2))


def _room(back: Part, cut: Cutout, service: Behind) -> float:
    """The least that a cut-out leaves round a service; below nought where it covers some of it."""
    corners: list[Vec] = [back.pose.to_cabinet((x, y, 0.0)) for x, y in cut.polygon]
    return min(
        room
        for k in (0, 2)
        for room in (
            service.low[k] - min(c[k] for c in corners), max(c[k] for c in corners) - service.high[k],
        )
    )  # fmt: skip


CHECK = Check(code=CODE, title="Service covered", look=look)
