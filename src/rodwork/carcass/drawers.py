"""Drawers of one opening: fronts with even gaps, boxes sized by their runners, runner bores in the uprights.

box, side-mounted   outside width = opening - take (two runners of 12.7 and their slack)
box, concealed      inside width  = opening - take
box height          front's clear height, LIFT_MM up, and 13 mm under the opening (concealed 20)
box                 sides through, front and back between them, bottom in grooves of all four
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from rodwork.carcass import front_grid
from rodwork.carcass.boards import BACK_ACROSS, DOOR_LEFT, FACING_LEFT, FACING_RIGHT, FRONT_ACROSS, LYING, panel
from rodwork.carcass.contacts import facing, meet
from rodwork.carcass.face import Face
from rodwork.carcass.pins import Bay
from rodwork.geometry.directions import BACK, DOWN, FRONT, LEFT, RIGHT, UP
from rodwork.geometry.rounding import down_to_step
from rodwork.geometry.vec import Matrix, Vec, clean, neg
from rodwork.model.contact import Register
from rodwork.model.fixing import Item
from rodwork.model.fronts import DrawerMade, Drawers, FittingBore
from rodwork.model.job import Back, Board, Cabinet, CannotBuild, Edging, Recipe
from rodwork.model.meeting import EntryOf, MatchedFronts, Meeting
from rodwork.model.panel import Panel, Role
from rodwork.model.sawing import Run
from rodwork.model.surface import EDGES, SURFACES

FRONT_OFF_MM = 2.0
LIFT_MM = 10.0  # box above the lower edge of its front's clear height; common practice, no source
UNDER_MM = {False: 13.0, True: 20.0}  # box under the opening: 1/2 in, concealed 13/16 in (drawer suppliers' pages)
GROOVE_UP_MM = 13.0  # underside of the bottom over the lower edge of the box: 1/2 in, as concealed runners want it
LEAST_BOX_MM = 50.0
RUNNER_BORES_MM = (37.0, 261.0)  # behind the front of the carcass; 37 and seven steps of 32
RUNNER_BORE_MM, RUNNER_DEPTH_MM = 5.0, 12.0
CLEAR_OF_PIN_MM = 8.0  # middle to middle, of a runner's screw and a pin's bore on the other face of a divider
SLACK_MM = 2.0  # a fixed box may leave this much too much room; common practice, about 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What drawers need to know of their cabinet."""

    cabinet: Cabinet
    drawers: Drawers
    boards: Mapping[str, Board]
    bays: tuple[Bay, ...]
    face: Face
    across: Mapping[int, tuple[float, float]]  # of each bay (from 0) that has them: left and right edge of the fronts
    edges: Mapping[int, tuple[float, float]]  # and lower and upper edge
    spaces: Mapping[int, tuple[float, float]]  # and how far the opening is clear
    pins: Mapping[str, tuple[float, ...]]  # heights in the cabinet of the pin bores of each upright
    first: int  # number of the first drawer
    total: int  # drawers in the cabinet
    depth: float
    edging: Edging | None
    joint: Recipe
    bottom_held: Recipe
    entry: EntryOf
    holes: tuple[float, ...] = ()  # the only heights for runners: of drilled sides, or of the grid

    def clear(self, i: int) -> tuple[float, float]:
        """What a bay (from 0) and the face in front of it leave clear."""
        bay, face = self.bays[i], self.face.bays[i]
        return max(bay.x0, face.x0), min(bay.x1, face.x1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Boxes:
    """The drawers of a cabinet: boards, joints, runner bores, what is bought."""

    panels: tuple[Panel, ...] = ()
    meetings: tuple[Meeting, ...] = ()
    bores: tuple[FittingBore, ...] = ()
    made: tuple[DrawerMade, ...] = ()
    items: tuple[Item, ...] = ()
    matched: tuple[MatchedFronts, ...] = ()

    def with_more(self, more: "Boxes") -> "Boxes":
        """These and those of another table."""
        return Boxes(
            panels=self.panels + more.panels, meetings=self.meetings + more.meetings, bores=self.bores + more.bores,
            made=self.made + more.made, items=self.items + more.items,
            matched=self.matched + more.matched,
        )  # fmt: skip


def drawer_back(board: str) -> Back:
    """A drawer's bottom, held in its grooves as a back is in its own."""
    return Back(
        board=board, style="grooved all round", void_mm=0.0, depth_mm=None, clearance_mm=None, grain="across",
        joint=None,
    )  # fmt: skip


def drawers(of: Drawn) -> Boxes:
    """Every drawer of one table, bay by bay from the left, each from the bottom. Raises CannotBuild."""
    length, number = _length(of), of.first
    panels, meetings, bores, made = [], list[Meeting](), list[FittingBore](), []
    for i, edges in of.edges.items():
        bay, clear = of.bays[i], of.clear(i)
        width = _box_width(of, clear[1] - clear[0])
        for low, high in _fronts(of, i, edges):
            name = "drawer" if of.total == 1 else f"drawer {number}"
            number += 1
            one = _Drawer(of, bay, i, name, low, high, width, length, (clear[0] + clear[1]) / 2)
            front, box = one.front(), one.box()
            panels += [front, *box.values()]
            meetings += one.meetings(box)
            bores += [*one.runner_bores(), *one.handle_bores(front)]
            made.append(
                DrawerMade(
                    front=front.id, box=tuple(p.id for p in box.values()), travel=length,
                    opening_width=round(clear[1] - clear[0], 6), box_width=width, concealed=of.drawers.concealed,
                )
            )  # fmt: skip
    kind = "concealed" if of.drawers.concealed else "side-mounted"
    items = [Item(item=f"pair of runners, {kind}, {length:g} mm", count=len(made))]
    items += _packing(of, len(made))
    if of.drawers.handle is not None:
        items.append(Item(item="handle", count=len(made)))
    return Boxes(
        panels=tuple(panels), meetings=tuple(meetings), bores=tuple(bores), made=tuple(made), items=tuple(items),
        matched=_matched(of, made),
    )  # fmt: skip


def _matched(of: Drawn, made: Sequence[DrawerMade]) -> tuple[MatchedFronts, ...]:
    """The fronts of each bay that are to come out of one piece, from the bottom."""
    each = len(of.drawers.heights_mm)
    run: Run = "along" if of.drawers.grain == "up" else "across"
    if not of.drawers.match or each < 2:
        return ()
    rows = (made[n : n + each] for n in range(0, len(made), each))
    return tuple(MatchedFronts(fronts=tuple(d.front for d in row), run=run) for row in rows)


def _packing(of: Drawn, number: int) -> list[Item]:
    """Strips that bring the runners out to the edge of a frame that stands in front of the opening."""
    each = number // max(len(of.edges), 1)
    items = []
    for i in of.edges:
        bay, (x0, x1) = of.bays[i], of.clear(i)
        for thick in (round(x0 - bay.x0, 1), round(bay.x1 - x1, 1)):
            if thick > 0:
                items.append(Item(item=f"packing for a runner, {thick:g} mm thick", count=each))
    return items


def _path(of: Drawn, *words: str) -> tuple[str | int, ...]:
    return (*(of.drawers.path or (*of.cabinet.place.path, "drawers")), *words)


def _length(of: Drawn) -> float:
    room = of.depth - of.face.y - (of.boards[of.drawers.board].actual_mm if of.drawers.inset else 0.0) - 10.0
    length = of.drawers.length_mm or down_to_step(room, 50.0)
    if length > room or length < 150.0:
        raise CannotBuild(
            _path(of, "runner_length"),
            f"runners of {length:g} mm in a carcass with {of.depth:g} clear behind its front",
            f"leave runner_length out, or write at most {max(room, 0):.0f}; runners begin at 150",
        )  # fmt: skip
    return length


def _box_width(of: Drawn, opening: float) -> float:
    """Outside width of the box; of a fixed one, refused where the opening is not its own."""
    d, t = of.drawers, of.boards[of.drawers.box_board].actual_mm
    wanted = round(opening - d.take_mm + (2 * t if d.concealed else 0.0), 6)
    if d.box_width_mm is None:
        if wanted < 100.0:
            raise CannotBuild(
                _path(of), f"an opening of {opening:g} less {d.take_mm:g} for runners leaves a box {wanted:g} wide",
                "make the bay wider: a box is at least 100",
            )  # fmt: skip
        return wanted
    off = round(d.box_width_mm - wanted, 6)
    if off > 1e-6 or off < -SLACK_MM:
        need = d.box_width_mm + opening - wanted
        much = f"{off:g} too wide for it" if off > 0 else f"{-off:g} too narrow for it"
        raise CannotBuild(
            _path(of, "box_width"),
            f"a drawer box of {d.box_width_mm:g} and its runners want an opening of {need:g}, and it is {opening:g}: "
            f"the box is {much}",
            f"make the cabinet {of.cabinet.width_mm + (need - opening) * len(of.bays):g} wide, or the box {wanted:g}",
        )
    return d.box_width_mm


def _fronts(of: Drawn, bay: int, edges: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """Lower and upper edge of every front, with even gaps between."""
    d = of.drawers
    low, high = edges
    asked = front_grid.heights(of.cabinet, d, high - low, _path(of, "heights"))
    room = high - low - d.between_mm * (len(asked) - 1)
    fixed = sum(h for h in asked if h is not None)
    shares = sum(1 for h in asked if h is None)
    each = (room - fixed) / shares if shares else 0.0
    if (shares and each < 60.0) or (not shares and abs(room - fixed) > 0.05):
        raise CannotBuild(
            _path(of, "heights"),
            f"the fronts have {room:.1f} in all between their gaps, and {fixed:g} is asked for"
            + (f", which leaves {each:.1f} for each of the rest" if shares else ""),
            f'let one be the "rest", or make them {room:.1f} in all; a front is at least 60'
            + ("" if shares else _or_the_opening(of, bay, fixed - room)),
        )
    out = []
    for h in asked:
        top = low + (each if h is None else h)
        out.append((round(low, 6), round(top, 6)))
        low = top + d.between_mm
    return tuple(out)


def _or_the_opening(of: Drawn, bay: int, by: float) -> str:
    """The other way to make fronts and opening agree, where shelves say how high the opening is.

    Of one before a frame only by how much: the frame's members are not the carcass's.
    """
    low, high = of.spaces[bay]
    if len(of.cabinet.in_bays[bay].openings) < 2 or high - low + by < LEAST_BOX_MM:
        return ""
    clear = "" if of.face.framed else f", {high - low + by:.1f} clear"
    return f"; or make their opening {abs(by):.1f} {'higher' if by > 0 else 'lower'}{clear}"


def _runner_depth(upright: Panel) -> float:
    """As deep as the board takes; in a divider half of that, since runners are screwed to both its faces."""
    room = upright.size[2] - 3.0
    return min(RUNNER_DEPTH_MM, down_to_step(room / 2 if upright.role == "divider" else room, 0.5))


@dataclass(frozen=True, slots=True)
class _Drawer:
    """One drawer in its place."""

    of: Drawn
    bay: Bay
    number: int
    name: str
    low: float
    high: float
    width: float
    length: float
    middle: float  # of the opening that the box runs through

    @property
    def y0(self) -> float:
        """Where the box begins: at the inside of its front."""
        d = self.of.drawers
        return self.of.face.in_front(self.of.boards[d.board].actual_mm, d.inset, FRONT_OFF_MM)[1]

    def front(self) -> Panel:
        """The front that is seen."""
        d = self.of.drawers
        board = self.of.boards[d.board]
        x0, x1 = self.of.across[self.number]
        edging = self.of.cabinet.edging
        return panel(
            id=f"{self.name} front", role="drawer front", board=board, edging=self.of.edging,
            rotation=DOOR_LEFT if d.grain == "up" else FRONT_ACROSS,
            box=((x0, self.y0 - board.actual_mm, self.low), (x1, self.y0, self.high)), shows=SURFACES, in_box=False,
            edged=EDGES if edging is not None and "drawer fronts" in edging.on else (),
        )  # fmt: skip

    def _height(self) -> tuple[float, float]:
        """Bottom and top of the box."""
        of = self.of
        z0 = max(self.low, of.spaces[self.number][0]) + LIFT_MM
        high = down_to_step(min(self.high, of.spaces[self.number][1]) - UNDER_MM[of.drawers.concealed] - z0, 1.0)
        if high < LEAST_BOX_MM:
            raise CannotBuild(
                _path(of, "heights"), f"{self.name} leaves a box {max(high, 0):g} high",
                f"give its front at least {self.high - self.low + LEAST_BOX_MM - high:.0f}",
            )  # fmt: skip
        return z0, z0 + high

    def box(self) -> dict[str, Panel]:
        """Sides through, front and back between, the bottom in grooves."""
        of, d = self.of, self.of.drawers
        board, bottom = of.boards[d.box_board], of.boards[d.bottom_board]
        t = board.actual_mm
        z0, z1 = self._height()
        x0, x1 = self.middle - self.width / 2, self.middle + self.width / 2
        y0, y1 = self.y0, self.y0 + self.length
        corner = of.entry(of.joint, t, t).reach
        held = of.entry(of.bottom_held, t, bottom.actual_mm)
        near, under = t - held.reach, z0 + GROOVE_UP_MM + held.slack / 2

        def made(word: str, role: Role, low: Vec, high: Vec, rotation: Matrix, of_board: Board) -> Panel:
            return panel(
                id=f"{self.name} {word}", role=role, board=of_board, box=(clean(low), clean(high)), rotation=rotation,
                edged=(), edging=None, shows=("far_edge", "face_side"), in_box=False,
            )  # fmt: skip

        return {
            "left": made("left side", "drawer side", (x0, y0, z0), (x0 + t, y1, z1), FACING_RIGHT, board),
            "right": made("right side", "drawer side", (x1 - t, y0, z0), (x1, y1, z1), FACING_LEFT, board),
            "front": made("box front", "drawer front", (x0 + t - corner, y0, z0), (x1 - t + corner, y0 + t, z1),
                          FRONT_ACROSS, board),
            "back": made("back", "drawer back", (x0 + t - corner, y1 - t, z0), (x1 - t + corner, y1, z1),
                         BACK_ACROSS, board),
            "bottom": made("bottom", "drawer bottom", (x0 + near, y0 + near, under),
                           (x1 - near, y1 - near, under + bottom.actual_mm), LYING, bottom),
        }  # fmt: skip

    def meetings(self, box: Mapping[str, Panel]) -> list[Meeting]:
        """Four corners from the box's ends and bottom edges; the bottom in four grooves from the bottom edge."""
        bottom = box["bottom"]
        held = self.of.entry(self.of.bottom_held, box["left"].size[2], bottom.size[2])
        groove_ends = GROOVE_UP_MM + bottom.size[2] + held.slack
        out = []
        for side, toward in (("left", LEFT), ("right", RIGHT)):
            for cross, end in (("front", FRONT), ("back", BACK)):
                host, guest = box[side], box[cross]
                corner = meet(
                    host=host, guest=guest, place="corner", recipe=self.of.joint,
                    host_register=Register(bears=facing(host, neg(toward)), along_from=facing(host, DOWN),
                                           across_from=facing(host, end)),
                    guest_register=Register(bears=facing(guest, toward), along_from=facing(guest, DOWN),
                                            across_from=facing(guest, end)),
                )  # fmt: skip
                out.append(replace(corner, run_from=groove_ends))
        for word, toward, datum in (
            ("left", LEFT, FRONT),
            ("right", RIGHT, FRONT),
            ("front", FRONT, LEFT),
            ("back", BACK, LEFT),
        ):
            host = box[word]
            out.append(
                meet(
                    host=host, guest=bottom, place="back in a groove", recipe=self.of.bottom_held, datum=False,
                    host_register=Register(bears=facing(host, neg(toward)), along_from=facing(host, datum),
                                           across_from=facing(host, DOWN)),
                    guest_register=Register(bears=facing(bottom, toward), along_from=facing(bottom, datum),
                                            across_from=facing(bottom, UP)),
                )
            )  # fmt: skip
        return out

    def runner_bores(self) -> tuple[FittingBore, ...]:
        """Screws of both runners, at one height, from the front of the carcass."""
        z, d = self._runner_line(), self.of.drawers
        start = self.of.face.y + (self.of.boards[d.board].actual_mm if d.inset else 0.0)
        return tuple(
            FittingBore(
                panel=upright.id, id=f"{self.name} runner {word} {n}", role="pilot",
                at=clean((x, y + start, z)), into=into, along_from=DOWN, across_from=FRONT,
                diameter=RUNNER_BORE_MM, depth=_runner_depth(upright),
            )
            for upright, x, into, word in (
                (self.bay.left, self.bay.x0, LEFT, "left"), (self.bay.right, self.bay.x1, RIGHT, "right")
            )
            for n, y in enumerate(RUNNER_BORES_MM, 1)
            if y < self.length - 20.0
        )  # fmt: skip

    def _runner_line(self) -> float:
        """The height of the runners' screws; where the sheet leaves it open, the nearest to the middle off all pins."""
        z0, z1 = self._height()
        d = self.of.drawers
        if d.line_mm is not None:
            return z0 + d.line_mm
        middle = (z0 + z1) / 2
        if self.of.holes:
            return self._nearest_hole(z0, z1)
        pins = [z for upright in (self.bay.left, self.bay.right) for z in self.of.pins.get(upright.id, ())]
        places = [round(middle + s * k, 6) for k in range(int(z1 - z0) // 4) for s in (1, -1)]
        return next((z for z in places if all(abs(z - pin) >= CLEAR_OF_PIN_MM for pin in pins)), middle)

    def _nearest_hole(self, z0: float, z1: float) -> float:
        """The hole of the rows that is nearest to the middle of the box."""
        inside = [h for h in self.of.holes if z0 < h < z1]
        if not inside:
            raise CannotBuild(
                _path(self.of, "heights"), f"no hole of the rows lies beside {self.name}, {z0:g} to {z1:g} up",
                "give its front another height",
            )  # fmt: skip
        return min(inside, key=lambda h: abs(h - (z0 + z1) / 2))

    def handle_bores(self, front: Panel) -> tuple[FittingBore, ...]:
        """In the middle of the front."""
        handle = self.of.drawers.handle
        if handle is None:
            return ()
        x0, x1 = self.of.across[self.number]
        half, middle = handle.centres_mm / 2, (x0 + x1) / 2
        z = round((self.low + self.high) / 2, 1)
        return tuple(
            FittingBore(
                panel=front.id, id=f"{front.id} handle {n}", role="handle",
                at=clean((x, self.y0 - front.size[2], z)), into=BACK, along_from=LEFT, across_from=DOWN,
                diameter=handle.diameter_mm, depth=front.size[2], through=True,
            )
            for n, x in enumerate([middle] if half == 0 else [middle - half, middle + half], 1)
        )  # fmt: skip
