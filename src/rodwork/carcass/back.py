"""The back: six styles. Each says which boards run behind or in front of it, and where the shelves stop.

style                sides   top, bottom    back stands                          void is measured
grooved all round    D       D              in grooves on four sides             from the groove's far wall
grooved in the sides D       to the back    in grooves, behind top and bottom    the same
rebated              D       D              in rebates on four sides             from the back's own back face
rebated in the sides D       to the back    in rebates, behind top and bottom    the same
planted              D - tb  D - tb         on the back edges, screwed           (there is none)
inset                D       D              between the boards, screwed          from the back's own back face

D is the cabinet's depth, tb the back's measured thickness. Shelves and dividers stop at the near wall of the
groove, or at the front face of the back.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from rodwork.carcass.boards import BACK_ACROSS, BACK_UP
from rodwork.carcass.contacts import facing, meet
from rodwork.geometry.directions import BACK, DOWN, FRONT, LEFT, RIGHT, UP
from rodwork.geometry.vec import Matrix, Vec, neg
from rodwork.model.contact import Place, Register
from rodwork.model.job import Back, BackStyle, Board, Cabinet, CannotBuild, Recipe
from rodwork.model.meeting import EntryOf, Meeting
from rodwork.model.panel import Panel
from rodwork.model.sawing import SHEET_TRIM_MM
from rodwork.model.shop import Shop

PLANTED_SHY_MM = 1.0  # a planted back is this much short of the carcass all round; common practice, 1 to 2
INSET_CLEAR_MM = 0.5  # 1 mm off each way in all: nothing goes in at dead size; common practice
LEAST_DEPTH_MM = 60.0

BackRecipe = Callable[[Back], Recipe]


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Depths that follow from the back, mm from the front, and the box the back fills (board None: no back).

    `wall`: the near wall of a groove or rebate that fixings must keep clear of.
    """

    side_depth: float
    cross_depth: float
    shelf_back: float
    wall: float | None = None
    board: Board | None = None
    rotation: Matrix | None = None
    low: Vec = (0.0, 0.0, 0.0)
    high: Vec = (0.0, 0.0, 0.0)
    style: str = ""
    held: Recipe | None = None
    screwed: Recipe | None = None
    void: float = 0.0
    ripped_together: bool = True
    passing: bool = False

    @property
    def wall_at(self) -> Vec | None:
        """A point on the near wall, cabinet axes."""
        return None if self.wall is None else (0.0, self.wall, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """What a style needs to know: the cabinet and its back, its boards, and what edging adds."""

    cabinet: Cabinet
    back: Back
    board: Board
    t: float
    recipe: BackRecipe
    entry: EntryOf
    edging_mm: float


Style = Callable[[Ask], Frame]


def frame(
    cabinet: Cabinet,
    boards: Mapping[str, Board],
    t: float,
    back_recipe: BackRecipe,
    entry: EntryOf,
    shop: Shop,
    edging_mm: float,
) -> Frame:
    """The depths of a cabinet and the box of its back. Raises CannotBuild where they leave no carcass."""
    depth, back = cabinet.depth_mm, cabinet.back
    if back is None:
        return Frame(side_depth=depth, cross_depth=depth, shelf_back=depth)
    board = boards[back.board]
    ask = Ask(cabinet=cabinet, back=back, board=board, t=t, recipe=back_recipe, entry=entry, edging_mm=edging_mm)
    made = _STYLES[back.style](ask)
    made = replace(made, low=(made.low[0], made.low[1], round(made.low[2] + cabinet.toe_mm, 6)))  # not to the floor
    if min(made.side_depth, made.cross_depth, made.shelf_back) < LEAST_DEPTH_MM:
        raise CannotBuild(
            (*cabinet.place.path, "back"),
            f"a {board.actual_mm:g} mm back {back.style} with a void of {back.void_mm:g} leaves "
            f"{made.shelf_back:g} mm of depth inside",
            f"make the cabinet at least {depth - made.shelf_back + LEAST_DEPTH_MM:g} deep, or the void smaller",
        )
    return replace(
        made,
        board=board,
        rotation=BACK_UP if (back.grain or _grain(made, board)) == "up" else BACK_ACROSS,
        style=back.style,
        void=back.void_mm,
        ripped_together=shop.ripped_together,
    )


def _grain(made: Frame, board: Board) -> Literal["up", "across"]:
    """Up, unless only across comes out of the sheet, as a back that is wider than a sheet has it."""
    (x0, _, z0), (x1, _, z1) = made.low, made.high
    wide, high = x1 - x0, z1 - z0
    length, width = (side - 2 * SHEET_TRIM_MM for side in board.sheet_mm)
    up, across = high <= length and wide <= width, wide <= length and high <= width
    return "across" if board.grain and across and not up else "up"


def _box(cabinet: Cabinet, gap_x: float, gap_z: float, y0: float, y1: float) -> tuple[Vec, Vec]:
    """The back's box, from how far its edges lie inside the outside of the carcass."""
    w, h = cabinet.width_mm, cabinet.height_mm
    return (gap_x, round(y0, 6), gap_z), (w - gap_x, round(y1, 6), h - gap_z)


def _grooved(ask: Ask) -> Frame:
    _no_recipe(ask, "stands in its grooves")
    held = ask.recipe(replace(ask.back, joint=None))
    e = ask.entry(held, ask.t, ask.board.actual_mm)
    far = ask.cabinet.depth_mm - ask.back.void_mm
    wall = round(far - ask.board.actual_mm - e.slack, 6)
    low, high = _box(ask.cabinet, ask.t - e.reach, ask.t - e.reach, wall + e.slack / 2, far - e.slack / 2)
    return Frame(side_depth=ask.cabinet.depth_mm, cross_depth=ask.cabinet.depth_mm, shelf_back=wall, wall=wall,
                 low=low, high=high, held=held)  # fmt: skip


def _rebated(ask: Ask) -> Frame:
    _no_recipe(ask, "lies in its rebates")
    held = ask.recipe(replace(ask.back, joint=None))
    e = ask.entry(held, ask.t, ask.board.actual_mm)
    rear = ask.cabinet.depth_mm - ask.back.void_mm
    front = round(rear - ask.board.actual_mm, 6)
    low, high = _box(ask.cabinet, ask.t - e.reach, ask.t - e.reach, front, rear)
    return Frame(side_depth=ask.cabinet.depth_mm, cross_depth=ask.cabinet.depth_mm, shelf_back=front, wall=front,
                 low=low, high=high, held=held)  # fmt: skip


def _passing(in_the_sides: Style) -> Style:
    """The same with the back passing behind top and bottom, which bear on its front face and are screwed to."""

    def style(ask: Ask) -> Frame:
        # edging on the ends of the sides closes their channels: the back stops at it
        on = ask.cabinet.edging.on if ask.cabinet.edging else ()
        made = in_the_sides(replace(ask, back=replace(ask.back, joint=None)))
        below, above = (ask.edging_mm if word in on else 0.0 for word in ("side bottoms", "side tops"))
        low = (made.low[0], made.low[1], below)
        high = (made.high[0], made.high[1], ask.cabinet.height_mm - above)
        screwed = ask.recipe(replace(ask.back, style="planted"))
        return replace(made, cross_depth=made.low[1], low=low, high=high, screwed=screwed, passing=True)

    return style


def _planted(ask: Ask) -> Frame:
    if ask.back.void_mm:
        raise CannotBuild(
            (*ask.cabinet.place.path, "back", "void"),
            "a planted back lies on the back edges: there is no void behind it",
            "leave `void` out, or choose a grooved, rebated or inset back",
        )
    _no_depth(ask, "planted")
    shy = PLANTED_SHY_MM if ask.back.clearance_mm is None else ask.back.clearance_mm
    front = round(ask.cabinet.depth_mm - ask.board.actual_mm, 6)
    low, high = _box(ask.cabinet, shy, shy, front, ask.cabinet.depth_mm)
    return Frame(side_depth=front, cross_depth=front, shelf_back=front, low=low, high=high,
                 screwed=ask.recipe(ask.back))  # fmt: skip


def _inset(ask: Ask) -> Frame:
    _no_depth(ask, "inset")
    clear = INSET_CLEAR_MM if ask.back.clearance_mm is None else ask.back.clearance_mm
    rear = ask.cabinet.depth_mm - ask.back.void_mm
    front = round(rear - ask.board.actual_mm, 6)
    low, high = _box(ask.cabinet, ask.t + clear, ask.t + clear, front, rear)
    return Frame(
        side_depth=ask.cabinet.depth_mm,
        cross_depth=ask.cabinet.depth_mm,
        shelf_back=front,
        low=low,
        high=high,
        held=ask.recipe(ask.back),
    )


_STYLES: dict[BackStyle, Style] = {
    "grooved all round": _grooved,
    "grooved in the sides": _passing(_grooved),
    "rebated": _rebated,
    "rebated in the sides": _passing(_rebated),
    "planted": _planted,
    "inset": _inset,
}


def _no_recipe(ask: Ask, why: str) -> None:
    if ask.back.joint is not None:
        raise CannotBuild(
            (*ask.cabinet.place.path, "back", "joint"),
            f"a back that is {ask.back.style} {why}: it takes no joint of its own",
            "leave `joint` out of the back",
        )


def _no_depth(ask: Ask, style: str) -> None:
    if ask.back.depth_mm is not None:
        raise CannotBuild(
            (*ask.cabinet.place.path, "back", "depth"),
            f"a {style} back goes into no board: `depth` means nothing here",
            "leave `depth` out of the back",
        )


def meetings(f: Frame, back: Panel, box: Mapping[str, Panel]) -> list[Meeting]:
    """Where the back meets sides, top and bottom, as far as they are there."""
    all_round = {"left side": LEFT, "right side": RIGHT, "top": UP, "bottom": DOWN}
    hosts = {name: way for name, way in all_round.items() if name in box}
    if f.style == "inset":
        return [_edge_to_face(f, back, box[name], way) for name, way in hosts.items()]
    if f.style == "planted":
        return [_on_edges(f, back, box[name], way) for name, way in hosts.items()]
    place: Place = "back in a rebate" if f.style.startswith("rebated") else "back in a groove"
    entered = {n: w for n, w in hosts.items() if not (f.passing and n in ("top", "bottom"))}
    out = [_entered(f, back, box[name], way, place) for name, way in entered.items()]
    return out + [_on_edges(f, back, box[n], hosts[n]) for n in hosts if n not in entered]


def _run_datum(way: Vec) -> Vec:
    """Along an upright numbers come from the bottom, along a lying board from the left."""
    return DOWN if way in (LEFT, RIGHT) else LEFT


def _entered(f: Frame, back: Panel, host: Panel, way: Vec, place: Place) -> Meeting:
    """The back's edge in a channel of the host, which is set out from the host's own end and BACK edge."""
    assert f.held is not None
    datum = _run_datum(way)
    channel_from = BACK if f.ripped_together or place == "back in a rebate" else FRONT
    return meet(
        host=host, guest=back, place=place, recipe=f.held, datum=False,
        host_register=Register(bears=facing(host, neg(way)), along_from=facing(host, datum),
                               across_from=facing(host, channel_from)),
        guest_register=Register(bears=facing(back, way), along_from=facing(back, datum),
                                across_from=facing(back, BACK if place == "back in a rebate" else FRONT)),
    )  # fmt: skip


def _on_edges(f: Frame, back: Panel, board: Panel, way: Vec) -> Meeting:
    """The back screwed on a board's back edge: the back is worked on its face, from its own edge.

    Along a slope every place is its own: from the bottom end of the back, which is square, and its left edge.
    """
    assert f.screwed is not None
    datum = _run_datum(way)
    return meet(
        host=back, guest=board, place="planted back", recipe=f.screwed,
        host_register=Register(bears=facing(back, FRONT), along_from=facing(back, datum),
                               across_from=facing(back, DOWN if board.pose.slopes else way)),
        guest_register=Register(bears=facing(board, BACK), along_from=facing(board, datum),
                                across_from=facing(board, way)),
    )  # fmt: skip


def _edge_to_face(f: Frame, back: Panel, host: Panel, way: Vec) -> Meeting:
    """An inset back's edge against the face of a board: from the back face of the back, and the BACK edge."""
    assert f.held is not None
    datum = _run_datum(way)
    return meet(
        host=host, guest=back, place="inset back", recipe=f.held,
        host_register=Register(bears=facing(host, neg(way)), along_from=facing(host, datum),
                               across_from=facing(host, BACK)),
        guest_register=Register(bears=facing(back, way), along_from=facing(back, datum),
                                across_from=facing(back, BACK)),
    )  # fmt: skip
