"""A board that goes in beside its place and slides home, with another board standing where it must begin."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once
from rodwork.checks.standing import Stood, meet, standing
from rodwork.geometry.vec import Vec
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.rod import Rod, RodCabinet

CODE = "slide-blocked"
BRUSH_MM = 0.3  # boards may brush past each other by this


def look(rod: Rod) -> Iterable[Finding]:
    """Every joint whose fittings go home in more than one straight move."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    boards = {b.part.id: b for b in standing(cabinet)}
    for joint in cabinet.joints:
        fixing = next((f for f in joint.fixings if _slides(f)), None)
        guest = boards.get(joint.parts[1])
        if fixing is None or guest is None:
            continue
        back = _back_to_the_start(fixing)
        low, high = _swept(guest, back)
        for other in boards.values():
            if (
                other.part.id not in joint.parts
                and meet(low, high, other, BRUSH_MM)
                and not _lets_it_by(joint, other, cabinet)
            ):
                yield _spot(guest, other, joint, back)


def _slides(fixing: Fixing) -> bool:
    return len([m for m in fixing.motion if m.mm > 0]) > 1


def _back_to_the_start(fixing: Fixing) -> Vec:
    """From home back to where the slide begins: every straight move but the first, backwards."""
    x = y = z = 0.0
    for move in fixing.motion[1:]:
        x, y, z = x - move.push[0] * move.mm, y - move.push[1] * move.mm, z - move.push[2] * move.mm
    return (x, y, z)


def _swept(board: Stood, back: Vec) -> tuple[Vec, Vec]:
    """The room that the board passes through on its slide."""
    low = tuple(board.low[k] + min(back[k], 0.0) for k in range(3))
    high = tuple(board.high[k] + max(back[k], 0.0) for k in range(3))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _lets_it_by(joint: Joint, other: Stood, cabinet: RodCabinet) -> bool:
    """Whether the other board is one that this one is let into, or that is let into it, and is not in its way.

    It has room all along, or goes in afterwards. But a board in grooves at all four edges must be in before the box is
    closed, and whatever closes it must then come straight.
    """
    entered = [j for j in cabinet.joints if other.part.id in j.parts and any(f.law == "enter" for f in j.fixings)]
    if not any(joint.parts[1] in j.parts for j in entered):
        return False
    return len({j.contact.out for j in entered if _in_a_groove(j, cabinet)}) < 4


def _in_a_groove(joint: Joint, cabinet: RodCabinet) -> bool:
    """Whether the guest stands between two walls; a rebate has one."""
    ids = {h.feature for f in joint.fixings for h in f.halves}
    return any(f.kind == "groove" and f.id in ids for f in cabinet.part[joint.parts[0]].features)


def _spot(guest: Stood, other: Stood, joint: Joint, back: Vec) -> Spot:
    far = max(abs(b) for b in back)
    return Spot(
        severity="fault", parts=(guest.part,), ids=(joint.id,),
        what=f"it begins {mm(far)} from its place and slides home, and the {other.part.name} stands where it must "
             "begin",
        mend=f"turn the slide the other way, leave {mm(far)} free there, or hold the {other.part.name} in another "
             "way, so that it goes in afterwards",
        source="geometry",
    )  # fmt: skip


CHECK = Check(code=CODE, title="The way of a sliding joint is blocked", look=look)
