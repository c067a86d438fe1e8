"""Both halves from one place: every void of a fixing, given in contact axes, cut into its own board.

This is the only code that turns (u, v, w) into board coordinates; it does not know which half it works on.
"""

from collections.abc import Mapping
from dataclasses import replace

from rodwork.geometry.vec import Vec, along, clean
from rodwork.joints.kind import FixingPlan, Void
from rodwork.model.contact import Contact
from rodwork.model.feature import Feature
from rodwork.model.fixing import Fixing, Half
from rodwork.model.machining import BATTEN, BEVELLED_END, MACHINED_FACE, THE_END, Machining
from rodwork.model.meeting import Meeting
from rodwork.model.panel import Panel
from rodwork.model.slope import across_the_board, bevel_at
from rodwork.model.surface import axis_of


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
    made = tuple(_machining(meeting, name, void, panels) for void in plan.voids)
    ids = {id(void): m.feature.id for void, m in zip(plan.voids, made, strict=True)}

    def half(void: Void | None, part: str) -> Half:
        return Half(part=part, feature=None if void is None else ids[id(void)])

    boards = {"host": meeting.host, "guest": meeting.guest}
    fixing = Fixing(
        id=name, family=family, duty=plan.duty, law=plan.law,
        at=clean(in_cabinet(contact, (plan.u, plan.v, 0.0))), length=plan.length,
        halves=(half(plan.host, meeting.host), half(plan.guest, meeting.guest)),
        others=tuple(half(void, boards[void.board]) for void in plan.others),
        hardware=plan.hardware, play=plan.play,
        motion=tuple(replace(m, push=clean(direction_in_cabinet(contact, m.push))) for m in plan.moves),
    )  # fmt: skip
    return fixing, made


def _machining(meeting: Meeting, name: str, void: Void, panels: Mapping[str, Panel]) -> Machining:
    contact = meeting.contact
    on_host = void.board == "host"
    part = meeting.host if on_host else meeting.guest
    register = contact.host_register if on_host else contact.guest_register
    feature = _feature(meeting, name, void.cut, panels[part])
    bears = feature.mouth
    aside = axis_of(bears) == axis_of(register.across_from)
    askew = across_the_board(panels[part], contact.along)  # no fence has them all: each by its two numbers
    return Machining(
        part=part, feature=feature, tool=void.tool, cutter=void.cutter, bears=bears,
        along_from=register.along_from,
        across_from=register.bears if aside else register.across_from,  # in a face of the guest: from its end
        stands_on=void.stands_on or (MACHINED_FACE if aside else _stands_on(contact, on_host, panels[part])),
        line=None if aside else contact.line, set_back=contact.set_back,
        fence_on="no fence" if askew else void.fence_on, to_marks=askew or void.to_marks,
    )  # fmt: skip


def _stands_on(contact: Contact, on_host: bool, panel: Panel) -> str:
    if bevel_at(panel, (contact.host_register if on_host else contact.guest_register).bears):
        return BEVELLED_END
    if not on_host or axis_of(contact.host_register.bears) != 2:
        return THE_END
    # a line outside the board (a planted back that is a little shy) cannot carry a batten
    return BATTEN if contact.line is not None and contact.line > 0 else MACHINED_FACE


def _feature(meeting: Meeting, name: str, cut: Feature, panel: Panel) -> Feature:
    """The feature carried from contact axes onto its board."""
    contact, pose = meeting.contact, panel.pose
    return replace(
        cut,
        id=f"{meeting.id}{cut.id}" if cut.id.startswith(" ") else f"{name}{cut.id}",
        joint=meeting.id,
        at=pose.to_part(in_cabinet(contact, cut.at)),
        into=pose.direction_to_part(direction_in_cabinet(contact, cut.into)),
        along=pose.direction_to_part(direction_in_cabinet(contact, cut.along)),
    )
