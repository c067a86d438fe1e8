"""Join one cabinet: every meeting's recipe, planned once at the contact, then cut into both boards."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import radians, tan
from types import MappingProxyType

from rodwork.geometry.vec import dot, sub
from rodwork.joints.halves import cut
from rodwork.joints.keep_clear import MAY_MOVE, Bored, bored_along
from rodwork.joints.kind import FixingPlan, JointKind, Run
from rodwork.joints.leaning import keep_inside
from rodwork.joints.registry import joint_kinds, kind_of
from rodwork.model.contact import Contact
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.job import CannotBuild, Recipe, Use
from rodwork.model.machining import Machining
from rodwork.model.meeting import Carcass, Entry, Meeting
from rodwork.model.panel import Panel, Role
from rodwork.model.shop import Shop
from rodwork.model.slope import bevel_at, inward_of
from rodwork.model.surface import Surface, axis_of, inward

LEAST_UNDER_CHANNEL_MM = 2.0  # the checks ask for more; with less there is no board to speak of
# by what the board is that is joined, the word of the cabinet that gives it a recipe of its own
_RECIPE_WORD: Mapping[Role, str] = MappingProxyType({
    "rail": "rail_joint", "batten": "rail_joint", "fixed shelf": "shelf_joint", "divider": "divider_joint",
    "part divider": "divider_joint", "plinth frame": "`joint` under feet", "plinth board": "`joint` under feet",
    "drawer front": "`joint` under drawers", "drawer back": "`joint` under drawers",
})  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined:
    """The joints of a cabinet, and the machining of every board by its id."""

    joints: tuple[Joint, ...]
    machining: tuple[Machining, ...]


def entry_of(recipe: Recipe, host_thickness: float, guest_thickness: float, shop: Shop) -> Entry:
    """How far a guest goes into its host under a recipe: as far as the family that takes it deepest.

    If one family is set out from the guest's inner face all are, for one joint has one registering pair.
    """
    entries = [_entry(use, host_thickness, guest_thickness, shop) for use in recipe.uses]
    deepest = max(entries, key=lambda e: e.reach, default=Entry())
    return replace(deepest, inner=any(e.inner for e in entries))


def _entry(use: Use, host_thickness: float, guest_thickness: float, shop: Shop) -> Entry:
    try:
        return kind_of(use).entry(host_thickness, guest_thickness, use.settings, shop)
    except CannotBuild as problem:
        raise CannotBuild((*use.place.path, *problem.path), problem.what, problem.mend) from None


def join(carcass: Carcass, shop: Shop, known: Mapping[str, Joined] = MappingProxyType({})) -> Joined:
    """All joints of one carcass. Raises CannotBuild with the place in the job file.

    `known`: joints by id that are taken as they are, from a carcass that has them alike.
    """
    panels = {p.id: p for p in carcass.panels}
    found: dict[str, Joined] = {}
    for meeting in sorted(carcass.meetings, key=lambda m: m.contact.place in MAY_MOVE):
        bored: tuple[Bored, ...] = ()
        if meeting.contact.place in MAY_MOVE:
            made = (cut for one in found.values() for cut in one.machining)
            bored = bored_along(meeting, panels, carcass, made)
        found[meeting.id] = known.get(meeting.id) or _one(meeting, panels, shop, bored)
    each = [found[meeting.id] for meeting in carcass.meetings]
    return Joined(
        joints=tuple(joint for one in each for joint in one.joints),
        machining=tuple(cut for one in each for cut in one.machining),
    )


def _one(meeting: Meeting, panels: Mapping[str, Panel], shop: Shop, bored: tuple[Bored, ...]) -> Joined:
    """One joint, with the machining of both its boards."""
    fixings: list[Fixing] = []
    machining: list[Machining] = []
    for use in meeting.recipe.uses:
        kind = kind_of(use)
        taken = tuple(_along(meeting, f) for f in fixings if f.law != "enter")
        run = replace(_run(meeting, panels, taken), bored=bored)
        for plan in _planned(kind, use, run, shop, meeting, panels[meeting.guest].role):
            fixing, cuts = cut(meeting, len(fixings) + 1, plan, kind.name, panels)
            fixings.append(fixing)
            machining.extend(cuts)
    joint = Joint(
        id=meeting.id, parts=(meeting.host, meeting.guest), contact=meeting.contact, recipe=meeting.recipe.name,
        glued=any(_glued(u) for u in meeting.recipe.uses), fixings=tuple(fixings),
    )  # fmt: skip
    return Joined(joints=(joint,), machining=tuple(machining))


def _along(meeting: Meeting, fixing: Fixing) -> float:
    """Where a fixing stands along the run."""
    u = dot(sub(fixing.at, meeting.contact.from_point), meeting.contact.along)
    return round(u, 4)  # it was rounded when it was planned: no dust may tip what stands half way to the next


def _glued(use: Use) -> bool:
    return kind_of(use).glued and bool(getattr(use.settings, "glue", True))


def _planned(kind: JointKind, use: Use, run: Run, shop: Shop, meeting: Meeting, role: Role) -> tuple[FixingPlan, ...]:
    if not kind.makes(meeting.contact.place):
        able = ", ".join(k.name for k in joint_kinds().values() if k.makes(meeting.contact.place))
        raise CannotBuild(
            use.place.path,
            f"{kind.name} cannot make {_where(meeting)} ({meeting.contact.place})",
            f"use {able} there",
        )
    try:
        if meeting.reach > meeting.host_thickness - LEAST_UNDER_CHANNEL_MM:
            raise CannotBuild(
                ("depth",),
                f"a channel {meeting.reach:g} deep or more cuts a {meeting.host_thickness:g} mm board in two",
                f"make it {meeting.host_thickness / 3:.0f} mm, a third of the board, or a little more",
            )
        plans = kind.plan(run, use.settings, shop)
        keep_inside(plans, run, shop)
        if meeting.reach < 0 and any(plan.law == "meet" for plan in plans):
            raise CannotBuild(
                (),
                f"the boards stand {-meeting.reach:g} mm apart there, and {kind.name} wants them to touch",
                "set the back's `clearance` to 0, or use screws",
            )
        if meeting.covered and any(plan.through_the_host for plan in plans):
            raise CannotBuild(
                (),
                "another shelf stands on the other face of the divider just there, so nothing can be driven through it",
                "join these shelves with something that does not come through: dowels or a housing",
            )
        return plans
    except CannotBuild as problem:
        raise CannotBuild(
            (*use.place.path, *problem.path), f"{_where(meeting)}: {problem.what}",
            f"{problem.mend}; or name another recipe there: {_RECIPE_WORD[role]}"
            if role in _RECIPE_WORD else problem.mend,
        ) from None  # fmt: skip


def _where(meeting: Meeting) -> str:
    return f"{meeting.guest} to {meeting.host}"


def _edging_at_end(meeting: Meeting, host: Panel, end: Surface) -> float:
    """Nought where the run ends in a back groove: the host's edge lies beyond it."""
    return 0.0 if meeting.to_groove and meeting.run_to >= meeting.contact.length - 1e-6 else host.edging.at(end)


def _nears(contact: Contact, guest: Panel) -> float:
    """How much nearer to its registering face a way into the guest comes; nought where its end is square."""
    register = contact.guest_register
    return -dot(inward_of(guest, register.bears), inward(register.across_from))


def _recedes(contact: Contact, host: Panel) -> float:
    """How much nearer to the host's own end what goes into its face comes, for each mm of depth: it is bevelled."""
    register = contact.host_register
    if contact.place != "on a slope" or axis_of(register.bears) != 2:
        return 0.0
    bevel = bevel_at(host, register.across_from)
    return max(0.0, tan(radians(-bevel if register.bears == "face_side" else bevel)))


def _run(meeting: Meeting, panels: Mapping[str, Panel], taken: tuple[float, ...]) -> Run:
    contact, host = meeting.contact, panels[meeting.host]
    start, end = meeting.host_run
    return Run(
        place=contact.place, length=contact.length, guest_thickness=contact.width,
        host_thickness=meeting.host_thickness, reach=meeting.reach, run_to=meeting.run_to,
        run_from=meeting.run_from, to_groove=meeting.to_groove, stagger=meeting.stagger,
        beyond_start=meeting.beyond_start, beyond_end=meeting.beyond_end, set_back=contact.set_back or 0.0, taken=taken,
        nears=_nears(contact, panels[meeting.guest]),
        end_recedes=_recedes(contact, host), from_end=abs(contact.line or 0.0),
        slopes=(bevel_at(host, start) > 0, bevel_at(host, end) > 0),
        covered=meeting.covered, inner=contact.place == "corner" and contact.line is not None,
        start_edging=host.edging.at(start), end_edging=_edging_at_end(meeting, host, end),
    )  # fmt: skip
