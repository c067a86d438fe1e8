"""Which joints of a job are of one kind, so that one opened joint serves them all.

Of a kind: the same recipe and place, thicknesses, and every printed number but the line that a board stands on.
The top left corner and the bottom right one are of one hand: turn the page round. The bottom left one is their other
hand: the same numbers, all in a mirror, and so on the same page.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TypeVar

from rodwork.documents.machined import Work, Works, words_of
from rodwork.documents.mouths import mouth
from rodwork.geometry.vec import cross, dot, sub
from rodwork.model.feature import Keyhole
from rodwork.model.fixing import Joint
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.slope import across_the_board, bevel_at, from_arris
from rodwork.model.surface import Surface, axis_of, inward, level, outward

T = TypeVar("T")
AIR = 15.0  # mm of a face that is drawn beyond what is worked in it


@dataclass(frozen=True, kw_only=True)
class Opened:
    """One joint with its boards and everything set out for it, and the other joints that it stands for."""

    cabinet: RodCabinet
    joint: Joint
    face_board: Part  # the board worked on its face
    end_board: Part  # the board worked on its end or edge
    on_face: tuple[Work, ...]
    on_end: tuple[Work, ...]
    beside: tuple[Work, ...]  # grooves of other joints near this one, in either board
    in_place: bool  # pilots are bored through the first board at assembly
    tongue: tuple[Work, ...] = ()  # the rebate in a face of the end board that leaves a tongue on it
    aside: bool = False  # what is worked in the end board is in a face of it, from its end
    others: tuple["Opened", ...] = ()
    other_hand: tuple["Opened", ...] = ()  # the same numbers, all in a mirror

    @property
    def all(self) -> tuple["Opened", ...]:
        """This joint and those it stands for, of either hand."""
        return (self, *self.others, *self.other_hand)

    @property
    def line(self) -> float:
        """Where the line on the face board is, from its datum; nought where it is set from its own edge.

        As it is printed: on a slope it may come between two marks of a rule.
        """
        if not self.has_line:
            return 0.0
        printed = (w.line for w in self.on_face if w.line is not None)
        return next(printed, self.joint.contact.line or 0.0)

    @property
    def has_line(self) -> bool:
        """Whether there is a line to be marked on the face of the board."""
        at = self.joint.contact.line
        return at is not None and 0.01 < at < self.face_board.size[self.across_axis] - 0.01

    @cached_property
    def before_line(self) -> bool:
        """Whether the end board stands between the line and the edge that the line is measured from."""
        contact = self.joint.contact
        datum = self.face_board.pose.direction_to_cabinet(inward(contact.host_register.across_from))
        return self.has_line and dot(datum, contact.across) < 0

    @property
    def beyond_fold(self) -> float:
        """How much of the face board lies on the end board's side of the fold, mm."""
        if self.mitred:
            return self.joint.contact.width
        return self.line if self.before_line else self.face_board.size[self.across_axis] - self.line

    @property
    def mitred(self) -> bool:
        """Whether both boards are worked on their bevelled ends: the slope of each is drawn, from its outside arris."""
        return bevel_at(self.face_board, self.joint.contact.host_register.bears) != 0.0

    @property
    def end_thick(self) -> float:
        """How wide the end board is where it meets the other: its thickness, or its slope, mm."""
        return self.joint.contact.width

    @property
    def slide(self) -> float:
        """How far the end board slides home along the run: its keyholes' two numbers differ by so much."""
        return next((w.feature.slide for w in self.on_end if isinstance(w.feature, Keyhole)), 0.0)

    @property
    def stands_in(self) -> float:
        """How far the face board's own edge lies inside the end board's registering face: a planted back."""
        return 0.0 if self.has_line else -(self.joint.contact.line or 0.0)

    @property
    def set_back(self) -> float:
        """How far the end board's datum edge stands behind the other's."""
        return self.joint.contact.set_back or 0.0

    @property
    def across_axis(self) -> int:
        """The axis of the face board that the line is measured along."""
        return axis_of(self.joint.contact.host_register.across_from)

    @property
    def along_axis(self) -> int:
        """The axis of the face board that the run lies along."""
        return axis_of(self.joint.contact.host_register.along_from)

    @cached_property
    def seen(self) -> Surface:
        """The face that is drawn: the one the boards meet on, or the other if everything is worked from there."""
        meets = self.joint.contact.host_register.bears
        if not self.on_end and all(w.bears != meets for w in self.on_face) and (self.on_face or self.driven):
            return "back_side" if meets == "face_side" else "face_side"
        return meets

    @cached_property
    def driven(self) -> tuple[tuple[float, float], ...]:
        """Where what is driven goes in, with nothing machined for it: along the run from the datum, and across."""
        c = self.joint.contact
        bare = [f for f in self.joint.fixings if not any(h.feature for h in (*f.halves, *f.others))]
        steps = [sub(f.at, c.from_point) for f in bare]
        return tuple((dot(s, c.along) + self.set_back, dot(s, c.across)) for s in steps)

    @property
    def from_outside(self) -> bool:
        """Whether the face that is drawn is not the one where the boards meet."""
        return self.seen != self.joint.contact.host_register.bears

    @cached_property
    def face_above(self) -> bool:
        """Whether the face board is drawn above the fold: where it is so in the cabinet as well."""
        return self.joint.contact.across[2] > 0.5

    @property
    def end_seen(self) -> Surface:
        """The surface of the end board that is drawn: its end or edge, or the face that is worked."""
        return self.on_end[0].bears if self.aside else self.joint.contact.guest_register.bears

    @property
    def end_from(self) -> Surface:
        """The surface of the end board from which its numbers across are taken."""
        register = self.joint.contact.guest_register
        return register.bears if self.aside else register.across_from

    @cached_property
    def end_shown(self) -> float:
        """How much of the end board is drawn: its thickness, or its face to beyond what is worked there, mm."""
        if not self.aside:
            return self.end_thick
        return max(v + self.end_uv(w)[1][1] for w in self.on_end for _, v in self.mouth_uv(w)) + AIR

    @cached_property
    def datum_left(self) -> bool:
        """Whether the run begins at the left of the page, so that neither board is mirrored."""
        c = self.joint.contact
        if self.aside:
            eye = outward(self.end_seen)
            way = inward(c.guest_register.along_from)
            up = outward(self.end_from) if self.face_above else inward(self.end_from)
            return dot(cross(up, eye), way) > 0
        up = c.across if self.face_above else (-c.across[0], -c.across[1], -c.across[2])
        eye = (-c.out[0], -c.out[1], -c.out[2]) if self.from_outside else c.out
        return dot(cross(up, eye), c.along) > 0

    @cached_property
    def hand(self) -> int:
        """+1 or -1: joints of different hands are not each other's picture, however the page is turned."""
        c = self.joint.contact
        return 1 if dot(cross(c.along, c.across), c.out) > 0 else -1

    @property
    def is_channel(self) -> bool:
        """Whether the end board itself goes in and nothing is machined in it."""
        return not self.on_end and bool(self.on_face) and all(w.groove is not None for w in self.on_face)

    @property
    def holds_back(self) -> bool:
        """Whether it is a back that is held: one sheet serves all its edges."""
        return "back" in self.joint.contact.place

    @property
    def in_drawer(self) -> bool:
        """Whether it is the corner of a drawer: one sheet serves them all, with their numbers along it in words."""
        return self.end_board.role.startswith("drawer") and not self.holds_back

    @property
    def numbers_along(self) -> tuple[float, ...]:
        """The numbers of what is bored along the run, from its datum."""
        works = self.on_face or self.on_end
        uv = self.face_uv if self.on_face else self.end_uv
        return tuple(sorted({round(sum(uv(w)[0]) / 2, 2) for w in works if w.groove is None}))

    @property
    def settings(self) -> tuple[str, ...]:
        """The settings of both halves, of every joint that is served."""
        ids = dict.fromkeys(w.setup.id for o in self.all for w in (*o.on_end, *o.tongue, *o.on_face))
        return tuple(sorted(ids, key=lambda id: (len(id), id)))

    def face_uv(self, w: Work) -> tuple[tuple[float, float], tuple[float, float]]:
        """Where a work of the face board lies: along the run from its datum, and across from the line, mm.

        From the printed numbers alone (Work.span); for works of other joints too.
        """
        register = self.joint.contact.host_register
        u = _from(register.along_from, self.face_board, w.span[self.along_axis])
        v = _from(register.across_from, self.face_board, w.span[self.across_axis])
        if self.mitred:
            v = (v[0] * w.steep, v[1] * w.steep)
        return u, ((self.line - v[1], self.line - v[0]) if self.before_line else (v[0] - self.line, v[1] - self.line))

    def end_uv(self, w: Work) -> tuple[tuple[float, float], tuple[float, float]]:
        """The same of a bore in the end board: across from its registering face, or from its end."""
        register = self.joint.contact.guest_register
        u = _from(register.along_from, self.end_board, w.span[axis_of(register.along_from)])
        v = _from(self.end_from, self.end_board, w.span[axis_of(self.end_from)])
        if axis_of(self.end_from) == 2:
            v = (v[0] * w.steep, v[1] * w.steep)
        return (u[0] + self.set_back, u[1] + self.set_back), v

    def mouth_uv(self, w: Work) -> tuple[tuple[float, float], ...]:
        """The outline of a mouth in one of the two drawn surfaces, as steps along and across the joint."""
        contact = self.joint.contact
        on_face = w.part.id == self.face_board.id
        register = contact.host_register if on_face else contact.guest_register
        across = register.across_from if on_face else self.end_from
        slanting = axis_of(across) == 2 and bevel_at(w.part, w.bears) != 0.0
        ways = (inward(register.along_from), from_arris(w.part, w.bears, across) if slanting else inward(across))
        u, v = ([dot(step, way) for step in mouth(w.feature)] for way in ways)
        v = [-x for x in v] if on_face and self.before_line else v
        return tuple(zip(u, v, strict=True))

    def end_u(self, w: Work) -> tuple[float, float]:
        """Where a groove of the end board lies along the run."""
        surface = self.joint.contact.guest_register.along_from
        u = _from(surface, self.end_board, w.span[axis_of(surface)])
        return (u[0] + self.set_back, u[1] + self.set_back)

    @property
    def face_length(self) -> float:
        """Length of the face board along the run, mm."""
        return self.face_board.size[self.along_axis]

    @property
    def end_length(self) -> float:
        """Length of the end board's end along the run, mm."""
        return self.end_board.size[axis_of(self.joint.contact.guest_register.along_from)]


def _from(surface: Surface, part: Part, span: tuple[float, float]) -> tuple[float, float]:
    """A span of the part frame as distances from one of its surfaces."""
    at = level(surface, part.size)
    a, b = (abs(x - at) for x in span) if at == 0 else (at - span[1], at - span[0])
    return (min(a, b), max(a, b))


def opened_joints(rod: Rod) -> tuple[Opened, ...]:
    """One joint of each kind, with the others it stands for, in the order of the job.

    None whose row runs askew over its board: each place there has two numbers of its own, on the page of the board.
    """
    works = Works(rod)
    found: dict[object, Opened] = {}
    for cabinet in rod.cabinets:
        for joint in cabinet.joints:
            if across_the_board(cabinet.part[joint.parts[0]], joint.contact.along):
                continue
            for one in _opened(works, cabinet, joint):
                key = _kind(one)
                found[key] = _with(found[key], one) if key in found else one
    return tuple(found.values())


def _with(first: Opened, one: Opened) -> Opened:
    """The first of its kind, standing for one joint more. A back is drawn cut through, where there is no hand."""
    if one.hand == first.hand or one.holds_back:
        return replace(first, others=(*first.others, one))
    return replace(first, other_hand=(*first.other_hand, one))


def _opened(works: Works, cabinet: RodCabinet, joint: Joint) -> Iterator[Opened]:
    """The joint as it is opened, and once for each face of the end board that is worked for it."""
    face_board, end_board = (cabinet.part[id] for id in joint.parts)
    halves = [h for f in joint.fixings for h in (*f.halves, *f.others) if h.feature is not None]
    own: dict[str, list[Work]] = {face_board.id: [], end_board.id: []}
    beside: list[Work] = []
    in_place = False
    for part in (face_board, end_board):
        ids = {h.feature for h in halves if h.part == part.id}
        own[part.id] = [w for w in works.of(cabinet, part) if w.feature.id in ids]
        beside += [w for w in works.of(cabinet, part) if w.feature.id not in ids and w.groove is not None]
        set_out = {w.feature.id for w in own[part.id]}
        in_place = in_place or bool(ids - set_out)
    seen = joint.contact.guest_register.bears
    on_face = tuple(own[face_board.id])
    on_end = tuple(w for w in own[end_board.id] if w.bears == seen)
    in_side = [w for w in own[end_board.id] if w.bears != seen]
    opened = Opened(
        cabinet=cabinet, joint=joint, face_board=face_board, end_board=end_board, in_place=in_place,
        on_face=on_face, on_end=on_end, beside=tuple(beside),
        tongue=tuple(w for w in in_side if w.groove is not None),
    )  # fmt: skip
    if on_face or on_end or (opened.driven and not in_side):
        yield opened
    for side in unique([w.bears for w in in_side if w.groove is None]):
        aside = tuple(w for w in in_side if w.bears == side and w.groove is None)
        yield replace(opened, on_face=(), on_end=aside, beside=(), tongue=(), aside=True)


def _kind(one: Opened) -> object:
    """Equal for joints that one sheet serves."""
    c = one.joint.contact
    kind = (
        c.place, one.aside, words_of(one.end_board)[one.end_seen] if one.aside else "",
        tuple(sorted({f.family for f in one.joint.fixings})), one.face_board.size[2], one.end_board.size[2],
        words_of(one.end_board)[c.guest_register.across_from], one.joint.glued, one.in_place,
        one.has_line,
    )  # fmt: skip
    if one.holds_back:
        return (*kind, _rows(one, along=False))
    if one.in_drawer:
        return (*kind, round(one.set_back, 2), "drawer", _rows(one, along=False))
    return (*kind, round(one.set_back, 2), _rows(one, along=True))


def _rows(one: Opened, *, along: bool) -> tuple[object, ...]:
    """The printed numbers of both halves, the line taken off; for a back only those across."""
    rows: list[tuple[object, ...]] = [("driven", round(u, 2), round(v, 2)) for u, v in one.driven]
    for half, works in (("end", one.on_end), ("face", one.on_face)):
        for w in works:
            u, v = one.end_uv(w) if half == "end" else one.face_uv(w)
            at = (round(u[0], 2), round(u[1], 2)) if along and w.groove is None else ()
            same_face = w.bears == one.joint.contact.host_register.bears
            rows.append((half, w.thing, w.size_words, w.depth_words, same_face, at, round(v[0], 2), round(v[1], 2)))
    if along:
        channels = [one.face_uv(w)[0][0] for w in one.on_face if w.groove is not None]
        rows += [("stop", "", "", "", False, (), round(u, 2), 0.0) for u in channels]
    return tuple(sorted(set(rows), key=str)) if not along else tuple(sorted(rows, key=str))


def numbers_alike(a: Opened, b: Opened) -> bool:
    """Whether the numbers along the run are the same too (a back's edges share a sheet even where they are not)."""
    return _rows(a, along=True) == _rows(b, along=True)


def unique(things: Sequence[T]) -> list[T]:
    """Each once, in order."""
    return list(dict.fromkeys(things))
