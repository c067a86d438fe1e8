"""One cabinet of a Rod as a linear model: what joints hold, what shoulders stop, and what a maker would see."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product
from math import inf
from typing import Literal

from rodwork.fit.builder import FREE, Builder, Form, Limits, Stand
from rodwork.fit.errors import Errors, Off
from rodwork.fit.linear import LinearModel
from rodwork.geometry.vec import Vec, along, dot, neg, scale
from rodwork.model.accuracy import Accuracy
from rodwork.model.contact import Register
from rodwork.model.feature import Bore, Feature, Groove, Rebate, Slot
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.slope import bevel_at, level_at, outward_of, reckoned_outwards
from rodwork.model.surface import OPPOSITE, Surface, axis_of, level, outward

X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
FLUSH_MM = 0.01
FACES = 0.99  # cosine between two directions that are one
STRIP = 0.5  # of the run: a slot this long takes a strip and no single fixing
SLIDES_ALONG = 0.9  # cosine between the last move and the run
BOTTOMS_MM = 1.0  # a dowel with more room than this at its ends cannot reach the bottom
MITRE = "mitre|"
SQUARENESS: tuple[Literal["diagonals", "width", "height"], ...] = ("diagonals", "width", "height")


def model_of(
    rod: Rod, cabinet: str, accuracy: Accuracy, measured: frozenset[tuple[str, str]] = frozenset(),
    standing_still: str | None = None,
) -> LinearModel:  # fmt: skip
    """The model of one cabinet. Raises ValueError where no board of it is joined to another."""
    held = rod.cabinet[cabinet]
    joined = dict.fromkeys(part for joint in held.joints for part in joint.parts)
    if not joined:
        raise ValueError(f"no board of {cabinet} is joined to another")
    boards = [_stand(held.part[part]) for part in joined]
    build = Builder(boards, standing_still or boards[0].id, accuracy.give)
    errors = Errors(rod=rod, cabinet=cabinet, accuracy=accuracy, measured=measured)
    for joint in held.joints:
        _Meeting(joint, held, build, errors).add()
    _squareness(held, build, errors)
    sizes = {f"{part}/{d}": errors.size(part, d) for part in joined for d in ("length", "width", "thickness")}
    return build.done(errors.sources, sizes)


def _stand(part: Part) -> Stand:
    size = part.size
    return Stand(
        id=part.id, middle=part.pose.to_cabinet((size[0] / 2, size[1] / 2, size[2] / 2)), axes=part.pose.rotation,
        size=size,
    )  # fmt: skip


@dataclass(slots=True)
class _Meeting:
    """One joint and all that it brings into the model; `deep`: how far the guest goes into the host, mm."""

    joint: Joint
    cabinet: RodCabinet
    build: Builder
    errors: Errors
    deep: float = field(init=False)

    def __post_init__(self) -> None:
        self.deep = self._depth_into_host()

    @property
    def host(self) -> str:
        return self.joint.parts[0]

    @property
    def guest(self) -> str:
        return self.joint.parts[1]

    def add(self) -> None:
        """Fixings first; what nothing locates is held by hand; then shoulders, and what can be seen of it."""
        located = False
        for fixing in self.joint.fixings:
            located = self._fixing(fixing) or located
        if not located:
            self._held_by_hand()
        if self.deep < FLUSH_MM and self.joint.fixings:
            give = self.errors.accuracy.give
            for point in self._corners():
                gap = self._gap(point)
                self.build.shoulder(self.joint.id, gap, Limits(low=-give.crush_mm, high=give.close_mm))
        self._lips()
        if all(bevel_at(self.cabinet.part[part], register.bears) for part, register in self._registers()):
            self._mitre()

    def _fixing(self, fixing: Fixing) -> bool:
        """Add what one fixing holds. Gives whether it locates the boards."""
        host, guest = fixing.halves
        if fixing.law == "enter":
            if not self.errors.is_set_up(self.host, host.feature):
                return False
            return self._channel(fixing, str(host.feature))
        if fixing.law == "none":
            return False
        if not (self.errors.is_set_up(self.host, host.feature) and self.errors.is_set_up(self.guest, guest.feature)):
            return False
        self._two_halves(fixing, str(host.feature), str(guest.feature))
        return True

    def _two_halves(self, fixing: Fixing, host: str, guest: str) -> None:
        contact, play = self.joint.contact, fixing.play
        if self._is_channel(host):
            for name, point in self._ends_of_run():
                across = self._residual(point, contact.across, host, guest, name)
                limits = (FREE, Limits.either_way(play.across))
                self.build.fixing(self.joint.id, Form(across.q * 0.0), across, limits, at_mm=self._along(point))
            return
        limits_u = self._slides(fixing) or Limits.either_way(play.along)
        is_round = play.shape == "round" and limits_u == Limits.either_way(play.across)
        for name, point in self._held_at(fixing, host):
            u = self._residual(point, contact.along, host, guest)
            v = self._residual(point, contact.across, host, guest, name)
            self.build.fixing(
                self.joint.id, u, v, (limits_u, Limits.either_way(play.across)), is_round=is_round,
                between=fixing not in (self.joint.fixings[0], self.joint.fixings[-1]), at_mm=self._along(point),
            )  # fmt: skip
        self._bottoming(fixing, host, guest)

    def _held_at(self, fixing: Fixing, host: str) -> tuple[tuple[str, Vec], ...]:
        """Where a fixing holds: in its middle; a strip that goes most of the run, at both its ends."""
        contact, slot = self.joint.contact, self._feature(self.host, host)
        if not isinstance(slot, Slot) or slot.length < STRIP * contact.length:
            return (("", fixing.at),)
        half = slot.length / 2
        return ("from", along(fixing.at, (contact.along, -half))), ("to", along(fixing.at, (contact.along, half)))

    def _slides(self, fixing: Fixing) -> Limits | None:
        """Along the run where the guest slides home: no further than the stop, and a good way short of it."""
        if not fixing.motion:
            return None
        slide = fixing.motion[-1]
        way = dot(slide.push, self.joint.contact.along)
        if abs(way) < SLIDES_ALONG:
            return None
        play = fixing.play
        short = slide.mm if play.short is None else play.short
        return Limits(low=-short, high=play.along) if way > 0 else Limits(low=-play.along, high=short)

    def _residual(self, point: Vec, way: Vec, host: str, guest: str, own: str = "") -> Form:
        """Guest's half less host's, along a direction."""
        return self._machined(self.guest, guest, point, way, own).plus(
            self._machined(self.host, host, point, way, own), -1.0
        )

    def _machined(self, part: str, feature: str, point: Vec, way: Vec, own: str = "") -> Form:
        pose = self.cabinet.part[part].pose
        form = self.build.moved(part, point, way)
        off = self.errors.machining(part, feature, pose.to_part(point), pose.direction_to_part(way), own)
        return Form(form.q, off)

    def _channel(self, fixing: Fixing, feature: str) -> bool:
        """A board in a channel: two places at the ends of the run hold it, and the bottom stops it."""
        void = self._feature(self.host, feature)
        if not isinstance(void, Groove):
            return False
        open_to_one_side = isinstance(void, Rebate)
        if not open_to_one_side:
            for name, point in self._ends_of_run():
                self._between_walls(fixing, feature, name, point)
        room = void.depth - self.deep
        if abs(dot(self.cabinet.part[self.host].pose.direction_to_cabinet(void.into), self.joint.contact.out)) < 0.9:
            return not open_to_one_side
        give = self.errors.accuracy.give
        for point in self._corners():
            gap = self._gap(point).plus(Form(self.build.nought().q, self.errors.depth(self.host, feature)))
            if room < FLUSH_MM:
                self.build.shoulder(self.joint.id, gap, Limits(low=-give.crush_mm, high=give.close_mm))
            else:
                self.build.stop(self.joint.id, gap, Limits(low=-room, high=inf))
        return not open_to_one_side

    def _between_walls(self, fixing: Fixing, feature: str, name: str, point: Vec) -> None:
        """The board's two faces against the two walls: what it is too thick is taken from the play on either side."""
        across, play = self.joint.contact.across, fixing.play.across - self._film(fixing) / 2
        middle = self.build.moved(self.guest, point, across).plus(
            self._machined(self.host, feature, point, across, name), -1.0
        )
        thick = Form(self.build.nought().q, self.errors.size(self.guest, "thickness"))
        for sign, limits in ((0.5, Limits(low=-inf, high=play)), (-0.5, Limits(low=-play, high=inf))):
            self.build.fixing(
                self.joint.id, self.build.nought(), middle.plus(thick, sign), (FREE, limits), at_mm=self._along(point)
            )

    def _film(self, fixing: Fixing) -> float:
        """What a finish takes of the room of a board between walls; a tongue is cut for its groove, and bare."""
        finish = self.cabinet.finish
        return 0.0 if finish is None or fixing.others else finish.in_channels_mm

    def _bottoming(self, fixing: Fixing, host: str, guest: str) -> None:
        """What stands in two bores stops the shoulder where the bores together are not deeper than it is long."""
        bores = self._feature(self.host, host), self._feature(self.guest, guest)
        if not all(isinstance(b, Bore) and not b.through for b in bores):
            return
        room = bores[0].depth + bores[1].depth - fixing.length
        if room > BOTTOMS_MM:
            return
        gap = self._gap(fixing.at)
        for part, feature in ((self.host, host), (self.guest, guest)):
            gap = gap.plus(Form(self.build.nought().q, self.errors.depth(part, feature)))
        self.build.stop(self.joint.id, gap, Limits(low=-room, high=inf))

    def _gap(self, point: Vec) -> Form:
        """How far the guest's end stands off the host at a point: nought as drawn."""
        out = self.joint.contact.out
        form = self.build.moved(self.guest, point, out).plus(self.build.moved(self.host, point, out), -1.0)
        for part in (self.guest, self.host):
            surface = self._facing(part, neg(out) if part == self.guest else out)
            if surface is not None:
                at = self.cabinet.part[part].pose.to_part(point)
                form = form.plus(Form(self.build.nought().q, self.errors.surface(part, surface, at)), -1.0)
        return form

    def _held_by_hand(self) -> None:
        """Nothing locates it but hands and clamps: flush, or to its line, as well as that can be held."""
        contact = self.joint.contact
        for name, point in self._ends_of_run():
            self._by_hand(f"across {name}", point, contact.across, "across_from")
        self._by_hand("along", contact.from_point, contact.along, "along_from")

    def _by_hand(self, name: str, point: Vec, way: Vec, datum: str) -> None:
        form = self.build.moved(self.guest, point, way).plus(self.build.moved(self.host, point, way), -1.0)
        off: Off = dict(self.errors.by_hand(self.joint.id, name))
        for part, register, sign in (
            (self.guest, self.joint.contact.guest_register, 1.0), (self.host, self.joint.contact.host_register, -1.0)
        ):  # fmt: skip
            board, surface = self.cabinet.part[part], getattr(register, datum)
            registered = self.errors.datum(part, register.bears, surface, board.pose.to_part(point))
            k = sign * dot(_outwards(board, register, surface), way)
            for key, value in registered.items():
                off[key] = off.get(key, 0.0) + k * value
        self.build.held(self.joint.id, Form(form.q, off))

    def _lips(self) -> None:
        """Where two surfaces should finish flush: outer faces at both ends of the run, and the fronts."""
        contact = self.joint.contact
        if self.cabinet.part[self.guest].role == "back":
            return
        outer = self._outer_faces()
        if outer is not None:
            way, surfaces = outer
            off_run = contact.width if dot(way, contact.across) > 0 else 0.0
            for name, point in (("from", contact.from_point), ("to", contact.to_point)):
                self._lip(f"lip|{self.joint.id}|{name}", along(point, (contact.across, off_run)), way, surfaces)
        fronts = contact.host_register.along_from, contact.guest_register.along_from
        if self._flush(fronts, neg(contact.along)):
            middle = along(contact.from_point, (contact.across, contact.width / 2))
            self._lip(f"lip|{self.joint.id}|front", middle, neg(contact.along), fronts)

    def _outer_faces(self) -> tuple[Vec, tuple[Surface, Surface]] | None:
        """The way that two boards finish flush across the run, and the surfaces of host and guest that do.

        They are those that numbers are taken from; or, where that is an inner face, those across the guest from it.
        """
        across = self.joint.contact.across
        host, guest = registered = tuple(register.across_from for _, register in self._registers())
        if self._flush((host, guest), neg(across)):
            return neg(across), (host, guest)
        if any(bevel_at(self.cabinet.part[part], register.bears) for part, register in self._registers()):
            return None
        host, guest = (
            surface if dot(_outwards(self.cabinet.part[part], register, surface), across) > 0 else OPPOSITE[surface]
            for (part, register), surface in zip(self._registers(), registered, strict=True)
        )
        return (across, (host, guest)) if self._flush((host, guest), across) else None

    def _flush(self, surfaces: tuple[Surface, Surface], way: Vec) -> bool:
        """Whether a surface of host and one of guest look this way, in one plane: or two arrises of a mitre."""
        levels = []
        for (part, register), surface in zip(self._registers(), surfaces, strict=True):
            board = self.cabinet.part[part]
            if dot(_outwards(board, register, surface), way) < FACES:
                return False
            point = scale(_absolute(outward(surface)), level(surface, board.size))
            levels.append(dot(board.pose.to_cabinet(_on(register.bears, board, point)), way))
        return abs(levels[0] - levels[1]) < FLUSH_MM

    def _lip(self, name: str, point: Vec, way: Vec, surfaces: tuple[Surface, Surface]) -> None:
        """Positive: the guest stands proud of the host; at a mitre its arris, over the host's face."""
        form = self.build.nought()
        proud = 1.0
        for (part, register), surface, sign in zip(self._registers(), surfaces, (-1.0, 1.0), strict=True):
            board = self.cabinet.part[part]
            off = self.errors.datum(part, register.bears, surface, board.pose.to_part(point))
            form = form.plus(self.build.moved(part, point, way).plus(Form(self.build.nought().q, off)), sign)
            proud = min(proud, dot(board.pose.direction_to_cabinet(outward(surface)), way))
        self.build.output(name, self.build.nought().plus(form, proud), step=True)

    def _mitre(self) -> None:
        """How much wider a mitre gapes at its inside than at its outside, in the middle of the run."""
        contact = self.joint.contact
        outside = along(contact.from_point, (contact.along, contact.length / 2))
        inside = along(outside, (contact.across, contact.width))
        self.build.output(f"{MITRE}{self.joint.id}", self._gap(inside).plus(self._gap(outside), -1.0))

    def _along(self, point: Vec) -> float:
        return dot(point, self.joint.contact.along)

    def _registers(self) -> Iterator[tuple[str, Register]]:
        yield self.host, self.joint.contact.host_register
        yield self.guest, self.joint.contact.guest_register

    def _facing(self, part: str, way: Vec) -> Surface | None:
        """The surface of a board that is joined, where it looks this way."""
        register = self.joint.contact.guest_register if part == self.guest else self.joint.contact.host_register
        board = self.cabinet.part[part]
        facing = board.pose.direction_to_cabinet(outward_of(board, register.bears))
        return register.bears if dot(facing, way) > FACES else None

    def _depth_into_host(self) -> float:
        """The furthest corner of the edge, end or face of the guest that is joined."""
        contact, board = self.joint.contact, self.cabinet.part[self.guest]
        joined = contact.guest_register.bears
        reaches: list[tuple[float, ...]] = [(0.0, size) for size in board.size]
        reaches[axis_of(joined)] = (0.0,)
        corners = (board.pose.to_cabinet(_on(joined, board, (x, y, z))) for x, y, z in product(*reaches))
        return max(0.0, dot(contact.from_point, contact.out) - min(dot(c, contact.out) for c in corners))

    def _corners(self) -> Iterator[Vec]:
        contact = self.joint.contact
        for _, point in self._ends_of_run():
            yield point
            yield along(point, (contact.across, contact.width))

    def _ends_of_run(self) -> tuple[tuple[str, Vec], tuple[str, Vec]]:
        return ("from", self.joint.contact.from_point), ("to", self.joint.contact.to_point)

    def _is_channel(self, feature: str) -> bool:
        return isinstance(self._feature(self.host, feature), Groove)

    def _feature(self, part: str, feature: str) -> Feature:
        return next(f for f in self.cabinet.part[part].features if f.id == feature)


def _on(surface: Surface, board: Part, point: Vec) -> Vec:
    """A point moved along one axis onto a surface of a board, part frame."""
    at = list(point)
    at[axis_of(surface)] = level_at(board, surface, at[2])
    return (at[0], at[1], at[2])


def _outwards(board: Part, register: Register, surface: Surface) -> Vec:
    """The way against which the numbers of a half run, in the cabinet."""
    return board.pose.direction_to_cabinet(reckoned_outwards(board, register.bears, surface))


def _absolute(v: Vec) -> Vec:
    return (abs(v[0]), abs(v[1]), abs(v[2]))


def _squareness(cabinet: RodCabinet, build: Builder, errors: Errors) -> None:
    """Diagonal difference, wider at the top, taller at the left, from the four inner corners; none without a ring."""
    ring = _ring(cabinet, build)
    if ring is None:
        return
    left, right, bottom, top = ring
    middle_y = (left.pose.to_cabinet((0, 0, 0))[1] + left.pose.to_cabinet((0, left.size[1], 0))[1]) / 2
    x = {"left": _inner_level(left, X), "right": _inner_level(right, neg(X))}
    z = {"bottom": _inner_level(bottom, Z), "top": _inner_level(top, neg(Z))}
    corner: dict[tuple[str, str], tuple[Form, Form]] = {}
    for side, upright, way in (("left", left, X), ("right", right, neg(X))):
        for end, level_board, way_z in (("bottom", bottom, Z), ("top", top, neg(Z))):
            point = (x[side], middle_y, z[end])
            corner[side, end] = (
                _inner(upright, point, way, build, errors), _inner(level_board, point, way_z, build, errors)
            )  # fmt: skip
    width, height = x["right"] - x["left"], z["top"] - z["bottom"]
    length = (width**2 + height**2) ** 0.5
    c, s = width / length, height / length

    def span(a: tuple[str, str], b: tuple[str, str], axis: int) -> Form:
        return corner[b][axis].plus(corner[a][axis], -1.0)

    rising = (("left", "bottom"), ("right", "top"))
    falling = (("left", "top"), ("right", "bottom"))
    one = Form(span(*rising, 0).q * 0.0).plus(span(*rising, 0), c).plus(span(*rising, 1), s)
    other = Form(span(*rising, 0).q * 0.0).plus(span(*falling, 0), c).plus(span(*falling, 1), -s)
    build.output("diagonals", one.plus(other, -1.0))
    build.output(
        "width", span(("left", "top"), ("right", "top"), 0).plus(span(("left", "bottom"), ("right", "bottom"), 0), -1.0)
    )
    build.output(
        "height",
        span(("left", "bottom"), ("left", "top"), 1).plus(span(("right", "bottom"), ("right", "top"), 1), -1.0),
    )


def _ring(cabinet: RodCabinet, build: Builder) -> tuple[Part, Part, Part, Part] | None:
    """The outer sides and what runs between them at the bottom and at the top, where all four are joined."""
    parts = [p for p in cabinet.parts if p.id in build.boards]
    sides = sorted((p for p in parts if p.role == "side"), key=lambda p: build.boards[p.id].middle[0])
    levels = sorted((p for p in parts if _lies_at_an_end(p)), key=lambda p: build.boards[p.id].middle[2])
    if len(sides) < 2 or len(levels) < 2:
        return None
    return sides[0], sides[-1], levels[0], levels[-1]


def _lies_at_an_end(part: Part) -> bool:
    """Whether a board closes the box below or above: a flat rail does in place of a top."""
    return part.role in ("top", "bottom") or (part.role == "rail" and abs(part.pose.rotation[2][2]) > 0.5)


def _inner_level(part: Part, inwards: Vec) -> float:
    point = part.pose.to_cabinet((0.0, 0.0, part.size[2] if _face_in(part, inwards) == "face_side" else 0.0))
    return dot(point, _absolute(inwards))


def _face_in(part: Part, inwards: Vec) -> Surface:
    face: Surface = "face_side"
    return face if dot(part.pose.direction_to_cabinet(outward("face_side")), inwards) > 0 else "back_side"


def _inner(part: Part, point: Vec, inwards: Vec, build: Builder, errors: Errors) -> Form:
    """How far the inner face of a board at an inner corner lies off, along the positive axis."""
    way = _absolute(inwards)
    sign = dot(inwards, way)
    moved = build.moved(part.id, point, way)
    thick = errors.surface(part.id, _face_in(part, inwards), part.pose.to_part(point))
    return moved.plus(Form(moved.q * 0.0, thick), sign)
