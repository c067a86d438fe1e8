"""A split batten: two halves ripped at 45 degrees from one strip, the one on the cabinet in the void behind its back.

                 back |   | wall       cabinet half: its lower edge slopes down towards the wall
                      |##_|            wall half:    its upper edge slopes down towards the wall, so that the one hooks
                      |#/#|                          into the other
                      | ##|
                      |   |            The halves slide together by the slope, so the void may be deeper than the board.

Both are square at their ends and other edges, and are set out from these alone. The wall's half and the packer below
are put up on site: they lie outside the box of the cabinet and are joined to nothing.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from rodwork.carcass.boards import BACK_ACROSS, panel
from rodwork.carcass.rails import on_edge, refuse_in_rebates
from rodwork.geometry.directions import LEFT, RIGHT, UP
from rodwork.model.job import Board, Cabinet, CannotBuild
from rodwork.model.meeting import EntryOf, Meeting
from rodwork.model.panel import Panel, Point

BEVEL_DEGREES = 45.0
ASIDE_MM = 20.0  # the wall's half is so much shorter at each end, for moving the unit sideways; common practice
PACKER_MM = 50.0  # high
OVER_BOTTOM_MM = 5.0  # the packer stands over the bottom
CABINET_HALF, WALL_HALF, PACKER = "cabinet batten", "wall batten", "wall packer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Battened:
    """The boards of a split batten and what joins the cabinet's half to its sides."""

    panels: tuple[Panel, ...] = ()
    meetings: tuple[Meeting, ...] = ()


def battens(
    cabinet: Cabinet, boards: Mapping[str, Board], sides: tuple[Panel, Panel], under: float, back_rear: float | None,
    entry: EntryOf,
) -> Battened:  # fmt: skip
    """`under`: the height of the underside of the top; `back_rear`: the back face of the back, mm from the front.

    Raises CannotBuild where the void does not hold it.
    """
    asked = cabinet.hanging
    if asked is None or asked.batten_mm is None or asked.batten_board is None:
        return Battened()
    board = boards[asked.batten_board]
    t, high, depth = board.actual_mm, asked.batten_mm, cabinet.depth_mm
    path = (*cabinet.place.path, "hanging", "batten")
    if back_rear is None:
        raise CannotBuild(
            path, "a batten lies behind the back, and there is none",
            f"give the cabinet a back with a void of {t + 3:g} to {t + 5:g}, or leave batten out",
        )  # fmt: skip
    front, void = back_rear, round(depth - back_rear, 6)
    if void < t:
        raise CannotBuild(
            path, f"a batten of {t:g} mm is to lie behind the back, and the void there is {void:g}",
            f"give the back a void of {t + 3:g} to {t + 5:g}: walls are not flat",
        )  # fmt: skip
    refuse_in_rebates(cabinet, "a batten", path)
    if cabinet.rails is not None and cabinet.rails.fixing_mm is not None and cabinet.rails.behind_back:
        raise CannotBuild(
            path, "a fixing rail stands behind the back, where the batten is to lie",
            "hang it by the one or the other: leave batten or the fixing rail out, or write behind_back = false",
        )  # fmt: skip
    least = 3 * t
    low = round(under - high, 6)
    if high < least or low < sides[0].size[2] + cabinet.toe_mm + 2 * high:
        raise CannotBuild(
            path, f"halves {high:g} high of {t:g} mm board in {cabinet.height_mm:g} of height",
            f"make them {least:g} high or more, 75 to 100 as a rule, and the cabinet at least four times as high",
        )  # fmt: skip
    x0, x1 = sides[0].size[2], cabinet.width_mm - sides[1].size[2]
    ours = _half(CABINET_HALF, board, (x0, front, low), (x1, front + t, under), "lower")
    top_of_wall_half = round(low + 2 * t - void, 6)
    a, b = x0 + ASIDE_MM, x1 - ASIDE_MM
    theirs = _half(
        WALL_HALF, board, (a, depth - t, top_of_wall_half - high), (b, depth, top_of_wall_half), "upper"
    )  # fmt: skip
    foot = sides[0].size[2] + cabinet.toe_mm + OVER_BOTTOM_MM
    packer = panel(
        id=PACKER, role="batten", board=board, box=((a, depth - t, foot), (b, depth, foot + PACKER_MM)),
        rotation=BACK_ACROSS, edged=(), edging=None, shows=(), in_box=False,
    )  # fmt: skip
    recipe = cabinet.rail_joint or cabinet.corner_joint
    if entry(recipe, sides[0].size[2], t).reach > 0:
        raise CannotBuild(
            path, f"a batten is butted between the sides, and {recipe.name} lets it in",
            "name another recipe for it: rail_joint = ...",
        )  # fmt: skip
    met = tuple(
        replace(on_edge(side, ours, way, UP, recipe), run_to=round(high - t, 6))  # down to where the slope begins
        for side, way in zip(sides, (LEFT, RIGHT), strict=True)
    )
    return Battened(panels=(ours, theirs, packer), meetings=met)


def _half(
    id: str, board: Board, low: tuple[float, float, float], high: tuple[float, float, float], sloped: str
) -> Panel:
    """A half with its front face up: the box is around both faces, the outline that of the front face."""
    square = panel(
        id=id, role="batten", board=board, box=(low, high), rotation=BACK_ACROSS, edged=(), edging=None, shows=(),
        in_box=id == CABINET_HALF,
    )  # fmt: skip
    length, wide, t = square.size
    y0 = t if sloped == "lower" else 0.0  # at the front the cabinet's half begins higher, the wall's is full
    outline: tuple[Point, ...] = ((0.0, y0), (length, y0), (length, wide), (0.0, wide))
    bevels = (BEVEL_DEGREES, 0.0, 0.0, 0.0) if sloped == "lower" else (0.0, 0.0, -BEVEL_DEGREES, 0.0)
    return replace(square, outline=outline, bevels=bevels)
