"""The face that fronts lie on, and a face frame where one is asked for: stiles and rails on the carcass's front.

outer stiles   carcass height + what the frame stands over at top and bottom, or less the rails that run through
outer rails    frame width - 2 stiles, or the frame's whole width
inner stiles   before every divider, their middles on its middle
inner rails    before every fixed shelf that no inset door passes, middle on middle
opening        what its four members leave

The frame lies outside the box that width, height and depth give; its back face is on the front of the carcass.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from rodwork.carcass.boards import FRONT_ACROSS, panel
from rodwork.carcass.contacts import facing, meet
from rodwork.carcass.face import Face, Span
from rodwork.carcass.pins import Bay
from rodwork.geometry.directions import BACK, DOWN, FRONT, LEFT, RIGHT, UP
from rodwork.geometry.vec import Matrix, Vec, neg
from rodwork.model.contact import Register
from rodwork.model.fronts import FaceFrame
from rodwork.model.job import Board, Cabinet, CannotBuild
from rodwork.model.meeting import Meeting
from rodwork.model.panel import Panel
from rodwork.model.surface import EDGES

STILE: Matrix = ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))  # x up, face side to the back, left edge near
LEAST_OPENING_MM = 60.0


@dataclass(frozen=True, slots=True)
class Stands:
    """The carcass that a face is asked for."""

    cabinet: Cabinet
    boards: Mapping[str, Board]
    bays: tuple[Bay, ...]
    spaces: tuple[tuple[Span, ...], ...]  # of each bay
    sides: tuple[Panel, Panel]
    bottom: Panel
    top: Panel  # or the front rail in its place
    dividers: tuple[Panel, ...]
    shelves: tuple[tuple[Panel, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Faced:
    """The face, and the members of a frame with their joints (none: fronts lie on the carcass itself)."""

    face: Face
    panels: tuple[Panel, ...] = ()
    meetings: tuple[Meeting, ...] = ()


def face_of(of: Stands) -> Faced:
    """The face of a cabinet. Raises CannotBuild."""
    c = of.cabinet
    if c.face_frame is None:
        over = tuple((*in_bay, of.top) for in_bay in of.shelves)
        wide, high = (0.0, c.width_mm), (c.toe_mm, c.height_mm)
        return Faced(face=Face(bays=of.bays, spaces=of.spaces, wide=wide, high=high, over=over))
    return _Frame(of, c.face_frame, of.boards[c.face_frame.board]).made()


@dataclass(frozen=True, slots=True)
class _Rails:
    """The rails before one bay; `inner`: before each fixed shelf from the bottom, None where there is none."""

    bottom: Panel
    inner: tuple[Panel | None, ...]
    top: Panel

    @property
    def middle(self) -> tuple[Panel, ...]:
        """The inner ones that are there."""
        return tuple(rail for rail in self.inner if rail is not None)

    def over(self, shelves: tuple[Panel, ...]) -> tuple[Panel, ...]:
        """What is above each opening: a rail, or the shelf itself where none is before it."""
        return (*(rail or shelf for rail, shelf in zip(self.inner, shelves, strict=True)), self.top)


@dataclass(frozen=True, slots=True)
class _Frame:
    """The frame of one cabinet: `wide` and `high` are its outside, `x` and `z` the openings between its members."""

    of: Stands
    asked: FaceFrame
    board: Board

    @property
    def wide(self) -> Span:
        return -self.asked.overhang_mm, self.of.cabinet.width_mm + self.asked.overhang_mm

    @property
    def high(self) -> Span:
        return self.of.cabinet.toe_mm - self.asked.below_mm, self.of.cabinet.height_mm + self.asked.above_mm

    def _openings(self, outer: Span, member: float, behind: tuple[Span, ...]) -> tuple[Span, ...]:
        """Openings along one axis: outer members from the outside, inner ones on the middles of the boards behind."""
        middles = [(a[1] + b[0]) / 2 for a, b in pairwise(behind)]
        starts = [outer[0] + member, *(m + member / 2 for m in middles)]
        ends = [*(m - member / 2 for m in middles), outer[1] - member]
        return tuple((round(a, 6), round(b, 6)) for a, b in zip(starts, ends, strict=True))

    def made(self) -> Faced:
        a, path = self.asked, (*self.of.cabinet.place.path, "face_frame")
        x = self._openings(self.wide, a.stile_mm, tuple((b.x0, b.x1) for b in self.of.bays))
        z = tuple(self._openings(self.high, a.rail_mm, spaces) for spaces in self.of.spaces)
        rails_at = tuple(span for in_bay in z for span in in_bay)
        for word, spans, outer in (("stile", x, self.of.bays[0].x0), ("rail", rails_at, self.of.spaces[0][0][0])):
            short = min(high - low for low, high in spans)
            if short < LEAST_OPENING_MM:
                raise CannotBuild(
                    (*path, word), f"the frame would leave an opening of {max(short, 0.0):g}",
                    f"leave at least {LEAST_OPENING_MM:g}: a narrower {word}, or fewer openings",
                )  # fmt: skip
            if spans[0][0] < outer - 1e-6:
                raise CannotBuild(
                    (*path, word), f"the {word} ends {outer - spans[0][0]:g} short of the inside of the board behind",
                    f"make it at least {outer - spans[0][0] + getattr(a, f'{word}_mm'):g} wide, or let the frame stand "
                    "over the carcass by less",
                )  # fmt: skip
        stiles, rails = self._stiles(x, z), self._rails(x, z)
        face = Face(
            bays=tuple(
                Bay(left=stiles[i], right=stiles[i + 1], x0=x0, x1=x1) for i, (x0, x1) in enumerate(x)
            ),
            spaces=z, wide=self.wide, high=self.high, y=-self.board.actual_mm, framed=True,
            thickness=self.board.actual_mm,
            over=tuple(row.over(shelves) for row, shelves in zip(rails, self.of.shelves, strict=True)),
        )  # fmt: skip
        each_rail = dict.fromkeys(r for row in rails for r in (row.bottom, *row.middle, row.top))
        return Faced(
            face=face, panels=(*stiles, *each_rail),
            meetings=(*self._to_each_other(stiles, rails), *self._to_carcass(stiles, rails)),
        )  # fmt: skip

    def _member(self, id: str, x: Span, z: Span, upright: bool) -> Panel:
        return panel(
            id=id, role="face frame", board=self.board, rotation=STILE if upright else FRONT_ACROSS, edged=(),
            edging=None, shows=(*EDGES, "back_side"), in_box=False,
            box=((x[0], -self.board.actual_mm, z[0]), (x[1], 0.0, z[1])),
        )  # fmt: skip

    def _stiles(self, x: tuple[Span, ...], z: tuple[tuple[Span, ...], ...]) -> tuple[Panel, ...]:
        """From the left: outer stiles run the frame's height or stand between its rails; inner ones always do."""
        between = (z[0][0][0], z[0][-1][1])
        outer = between if self.asked.rails == "through" else self.high
        edges = [self.wide[0], *(e for span in x for e in span), self.wide[1]]
        spans = list(zip(edges[::2], edges[1::2], strict=True))
        last = len(spans) - 1
        names = ["left stile", *(f"stile {n}" for n in range(1, last)), "right stile"]
        return tuple(
            self._member(names[n], span, outer if n in (0, last) else between, True) for n, span in enumerate(spans)
        )

    def _rails(self, x: tuple[Span, ...], z: tuple[tuple[Span, ...], ...]) -> tuple[_Rails, ...]:
        """For every bay its rails from the bottom; the outer ones are one board before all bays."""
        run = self.wide if self.asked.rails == "through" else (x[0][0], x[-1][1])
        bottom = self._member("bottom rail", run, (self.high[0], z[0][0][0]), False)
        top = self._member("top rail", run, (z[0][-1][1], self.high[1]), False)
        wanted = [
            (i, k) for i, in_bay in enumerate(z, 1) for k in range(1, len(in_bay)) if not self._passed_before(i, k)
        ]
        names = {at: "middle rail" if len(wanted) == 1 else f"middle rail {n}" for n, at in enumerate(wanted, 1)}

        def before(i: int, span: Span, in_bay: tuple[Span, ...]) -> _Rails:
            levels = enumerate(((a[1], b[0]) for a, b in pairwise(in_bay)), 1)
            inner = (self._member(names[i, k], span, at, False) if (i, k) in names else None for k, at in levels)
            return _Rails(bottom, tuple(inner), top)

        return tuple(before(i, *spans) for i, spans in enumerate(zip(x, z, strict=True), 1))

    def _passed_before(self, bay: int, shelf: int) -> bool:
        """Whether an inset door passes before a fixed shelf, both counted from 1."""
        doors = (d for d in self.of.cabinet.doors if d.style == "inset" and d.in_bay(bay))
        return any(d.openings[0] <= shelf < d.openings[1] for d in doors)

    def _to_each_other(self, stiles: tuple[Panel, ...], rails: tuple[_Rails, ...]) -> Iterator[Meeting]:
        """Ends against edges, back faces flush. Numbers come from the bottom or left, at the far corner from there."""
        bottom, top = rails[0].bottom, rails[0].top
        outer, inner = (stiles[0], stiles[-1]), stiles[1:-1]
        for rail, end in ((bottom, DOWN), (top, UP)):
            for stile, way in zip(outer, (LEFT, RIGHT), strict=True):
                if self.asked.rails == "through":
                    yield self._edge(host=rail, guest=stile, toward=end, datum=way)
                else:
                    yield self._edge(host=stile, guest=rail, toward=way, datum=end)
            for stile in inner:
                yield self._edge(host=rail, guest=stile, toward=end, datum=LEFT)
        for i, row in enumerate(rails):
            for rail in row.middle:
                yield self._edge(host=stiles[i], guest=rail, toward=LEFT, datum=DOWN)
                yield self._edge(host=stiles[i + 1], guest=rail, toward=RIGHT, datum=DOWN)

    def _edge(self, *, host: Panel, guest: Panel, toward: Vec, datum: Vec) -> Meeting:
        """A member's end against another's edge. `toward`: from the guest to the host."""
        return meet(
            host=host, guest=guest, place="edge to edge", recipe=self.asked.joint,
            host_register=Register(bears=facing(host, neg(toward)), along_from=facing(host, datum),
                                   across_from=facing(host, BACK)),
            guest_register=Register(bears=facing(guest, toward), along_from=facing(guest, datum),
                                    across_from=facing(guest, BACK)),
        )  # fmt: skip

    def _to_carcass(self, stiles: tuple[Panel, ...], rails: tuple[_Rails, ...]) -> Iterator[Meeting]:
        """Front edges of uprights against the backs of the stiles, of top and bottom against those of the rails."""
        uprights = (self.of.sides[0], *self.of.dividers, self.of.sides[1])
        last = len(stiles) - 1
        for n, (stile, upright) in enumerate(zip(stiles, uprights, strict=True)):
            yield self._on_back(stile, upright, DOWN, RIGHT if n == last else LEFT)
        for rail, board, end in ((rails[0].bottom, self.of.bottom, DOWN), (rails[0].top, self.of.top, UP)):
            if (
                facing(board, FRONT) in EDGES
            ):  # a rail that stands on edge lies against it with its face: the stiles hold
                yield self._on_back(rail, board, LEFT, end)

    def _on_back(self, host: Panel, guest: Panel, along: Vec, across: Vec) -> Meeting:
        """A board's front edge against the back face of a member: how far the frame stands over it is the line."""
        return meet(
            host=host, guest=guest, place="face frame", recipe=self.asked.fixed,
            host_register=Register(bears=facing(host, BACK), along_from=facing(host, along),
                                   across_from=facing(host, across)),
            guest_register=Register(bears=facing(guest, FRONT), along_from=facing(guest, along),
                                    across_from=facing(guest, across)),
        )  # fmt: skip
