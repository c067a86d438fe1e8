"""Both halves from one place: every void of a fixing, given in contact axes, cut into its own board.

This is the only code that turns (u, v, w) into board coordinates; it does not know which half it works on.
"""

from collections.abc import Mapping
from typing import Any

from rodwork.geometry.vec import Vec, along, clean
from rodwork.joints.kind import FixingPlan, Void
from rodwork.model.contact import Contact
from rodwork.model.feature import Bore, Feature, Groove, Rebate
from rodwork.model.fixing import Fixing, Half, Move
from rodwork.model.machining import Machining
from rodwork.model.meeting import Meeting
from rodwork.model.panel import Panel
from rodwork.model.surface import OPPOSITE, Surface


def in_cabinet(contact: Contact, at: Vec) -> Vec:
    """A point (u, v, w) of the contact, in cabinet axes."""
    return along(contact.from_point, (contact.along, at[0]), (contact.across, at[1]), (contact.out, at[2]))


def direction_in_cabinet(contact: Contact, d: Vec) -> Vec:
    """A direction (u, v, w) of the contact, in cabinet axes."""
    return along((0.0, 0.0, 0.0), (contact.along, d[0]), (contact.across, d[1]), (contact.out, d[2]))


def cut(
    meeting: Meeting, number: int, plan: FixingPlan, family: str, panels: Mapping[str, Panel]
) -> tuple[Fixing, tuple[Machining, ...]]:
    """One fixing with the features of both its halves and its other bores."""
    contact = meeting.contact
    name = f"{meeting.id} {number}"
    made = [_machining(meeting, name, void, panels) for void in (plan.host, plan.guest, *plan.others) if void]
    by_void = {
        id(void): m for void, m in zip((v for v in (plan.host, plan.guest, *plan.others) if v), made, strict=True)
    }

    def half(part: str, void: Void | None) -> Half:
        return Half(part=part, feature=by_void[id(void)].feature.id if void else None)

    fixing = Fixing(
        id=name, family=family, duty=plan.duty, law=plan.law,
        at=clean(in_cabinet(contact, (plan.u, plan.v, 0.0))), length=plan.length,
        halves=(half(meeting.host, plan.host), half(meeting.guest, plan.guest)),
        others=tuple(half(by_void[id(v)].part, v) for v in plan.others),
        hardware=plan.hardware, play=plan.play,
        motion=(Move(push=clean(direction_in_cabinet(contact, (0.0, 0.0, -1.0))), mm=plan.goes_home_mm),),
    )  # fmt: skip
    return fixing, tuple(made)


def _machining(meeting: Meeting, name: str, void: Void, panels: Mapping[str, Panel]) -> Machining:
    contact = meeting.contact
    on_host = void.board == "host"
    part = meeting.host if on_host else meeting.guest
    register = contact.host_register if on_host else contact.guest_register
    feature = _feature(meeting, name, void, panels[part])
    bears: Surface = OPPOSITE[register.bears] if void.from_other_face else register.bears
    return Machining(
        part=part, feature=feature, tool=void.tool, cutter=void.cutter, bears=bears,
        along_from=register.along_from, across_from=register.across_from,
        stands_on=_stands_on(void, contact, on_host),
        line=contact.line, set_back=contact.set_back, fence_on=void.fence_on,
    )  # fmt: skip


def _stands_on(void: Void, contact: Contact, on_host: bool) -> str:
    if not on_host:
        return "the end"
    # a line outside the board (a planted back that is a little shy) cannot carry a batten
    return "batten on the line" if contact.line is not None and contact.line > 0 else "the machined face"


def _feature(meeting: Meeting, name: str, void: Void, panel: Panel) -> Feature:
    contact, pose = meeting.contact, panel.pose
    base: dict[str, Any] = {
        "id": (f"{meeting.id}{void.suffix}" if void.suffix.startswith(" ") else f"{name}{void.suffix}"),
        "role": void.role,
        "joint": meeting.id,
        "stage": void.stage,
        "at": pose.to_part(in_cabinet(contact, void.at)),
        "into": pose.direction_to_part(direction_in_cabinet(contact, void.into)),
        "along": pose.direction_to_part(direction_in_cabinet(contact, void.along)),
        "depth": void.depth,
    }
    if void.shape == "bore":
        return Bore(**base, diameter=void.diameter, tip=void.tip, through=void.through, countersink=void.countersink)
    shape = Rebate if void.shape == "rebate" else Groove
    ends = void.ends[0] if void.ends[0] == void.ends[1] else void.ends
    return shape(
        **base, width=round(void.width, 6), length=round(void.length, 6), ends=ends, end_radius=void.end_radius
    )
