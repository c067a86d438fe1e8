"""Hanging brackets: a hook in each top back corner that reaches through the back to a rail on the wall.

        top ____________________          the body stands inside, against side, top and back, screwed to the side
            |        [body]|=|r           the hook passes the back where that is cut away beside the side
     front  |        [____]| |            r: the rail on the wall, in the void, between the sides
            |              | |

The back is cut away from its upper edge down, unless it passes behind the top: there its screws need it, and it is cut
away from the underside of the top down.
"""

from dataclasses import dataclass, replace

from rodwork.carcass.back import Frame
from rodwork.carcass.rails import Railed
from rodwork.geometry.directions import DOWN, FRONT, LEFT, RIGHT
from rodwork.geometry.rounding import to_step
from rodwork.geometry.vec import clean
from rodwork.model.bracket import BracketSheet, HungBracket
from rodwork.model.fixing import Item
from rodwork.model.fronts import FittingBore
from rodwork.model.job import Cabinet, CannotBuild
from rodwork.model.panel import Panel, Point

HELD = ("grooved all round", "grooved in the sides")  # whose edges have no fixing that the notch would take
LEAST_BACK_MM = 100.0  # of the back between its two notches
LEAST_OPENING_MM = 20.0  # of the top opening below a bracket
DUST = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Bracketed:
    """The back with its notches, the bores for both brackets, where they stand, and what is bought."""

    back: Panel | None
    bores: tuple[FittingBore, ...] = ()
    brackets: tuple[HungBracket, ...] = ()
    items: tuple[Item, ...] = ()


def brackets(
    cabinet: Cabinet, sides: tuple[Panel, Panel], frame: Frame, railed: Railed, top_opening: tuple[float, float],
    back: Panel | None, step: float,
) -> Bracketed:  # fmt: skip
    """The brackets of a cabinet, if it has any. `step`: of the fence. Raises CannotBuild where they have no room."""
    sheet = cabinet.hanging.bracket if cabinet.hanging else None
    if sheet is None:
        return Bracketed(back=back)
    _refuse(cabinet, sheet, sides, frame, railed, top_opening)
    t, under, rear = sides[0].size[2], railed.under, _rear(cabinet, sheet, frame)
    z0, z1 = under - sheet.below_mm - sheet.high_mm, under - sheet.below_mm
    bores, placed = [], []
    for side, way, face, inward in ((sides[0], LEFT, t, 1.0), (sides[1], RIGHT, cabinet.width_mm - t, -1.0)):
        for n, (down, forward) in enumerate(sheet.bores, 1):
            y, z = to_step(rear - forward, step), to_step(under - down, step)
            bores.append(
                FittingBore(
                    panel=side.id, id=f"{side.id} bracket {n}", role="hanging", at=clean((face, y, z)), into=way,
                    along_from=DOWN, across_from=FRONT, diameter=sheet.bore_mm, depth=sheet.depth_mm,
                )
            )  # fmt: skip
        xs = sorted((face, face + inward * sheet.wide_mm))
        placed.append(
            HungBracket(
                side=side.id, low=clean((xs[0], rear - sheet.deep_mm, z0)), high=clean((xs[1], rear, z1)),
                line=round(under - sheet.hook_mm, 6),
            )
        )  # fmt: skip
    rail = cabinet.width_mm - 2 * t - 2 * sheet.rail_short_mm
    return Bracketed(
        back=None if back is None else _notched(back, cabinet, sheet, t, under, frame.passing),
        bores=tuple(bores), brackets=tuple(placed),
        items=(
            Item(item="hanging bracket, left", count=1), Item(item="hanging bracket, right", count=1),
            Item(item=f"wall rail for hanging brackets, {rail:g} long", count=1),
        ),
    )  # fmt: skip


def _rear(cabinet: Cabinet, sheet: BracketSheet, frame: Frame) -> float:
    """How far behind the front the bodies end: at the back, or where there is none before the wall rail."""
    return frame.low[1] if frame.board is not None else cabinet.depth_mm - sheet.void_mm


def _refuse(
    cabinet: Cabinet, sheet: BracketSheet, sides: tuple[Panel, Panel], frame: Frame, railed: Railed,
    top_opening: tuple[float, float],
) -> None:  # fmt: skip
    path = (*cabinet.place.path, "hanging", "bracket")
    t = sides[0].size[2]
    if cabinet.back is not None and cabinet.back.style not in HELD:
        raise CannotBuild(
            path, "the hooks of hanging brackets pass the back beside its edges, and a back that is "
            f"{cabinet.back.style} is fixed there",
            f'let it into grooves: style = "{HELD[1]}" or "{HELD[0]}", with a void of {sheet.void_mm:g}',
        )  # fmt: skip
    void = round(cabinet.depth_mm - frame.high[1], 6)
    if cabinet.back is not None and void < sheet.void_mm - DUST:
        raise CannotBuild(
            (*cabinet.place.path, "back"),
            f"the rail and the hooks of hanging brackets want {sheet.void_mm:g} behind the back, and there is {void:g}",
            f"give the back a void of {sheet.void_mm:g} or more",
        )  # fmt: skip
    if cabinet.rails is not None and cabinet.rails.fixing_mm is not None:
        where = "in the void, where their wall rail is" if cabinet.rails.behind_back else "where the brackets stand"
        raise CannotBuild(
            path, f"a fixing rail stands {where}", "hang it by the one or the other: leave bracket or fixing out"
        )  # fmt: skip
    room, takes = top_opening[1] - top_opening[0], sheet.below_mm + sheet.high_mm
    if room < takes + LEAST_OPENING_MM:
        raise CannotBuild(
            path, f"the brackets reach {takes:g} down from the top, and the top opening is {room:g} high",
            f"make that opening {takes + LEAST_OPENING_MM:g} or more",
        )  # fmt: skip
    least = 2 * max(sheet.notch_mm[1], sheet.wide_mm) + LEAST_BACK_MM
    if cabinet.width_mm - 2 * t < least:
        raise CannotBuild(
            path, f"two brackets leave too little between them in a clear width of {cabinet.width_mm - 2 * t:g}",
            f"make the cabinet {least + 2 * t:g} wide or more",
        )  # fmt: skip


def _notched(back: Panel, cabinet: Cabinet, sheet: BracketSheet, t: float, under: float, passing: bool) -> Panel:
    """The back cut away for both hooks, its outline as before in all else."""
    down, beside = sheet.notch_mm
    (x0, y, z0), (x1, _, z1) = back.box
    a, b, low = round(t + beside, 6), round(cabinet.width_mm - t - beside, 6), round(under - down, 6)
    corners = [(x0, z0), (x1, z0), (x1, low), (b, low)]
    corners += [(b, under), (x1, under), (x1, z1), (x0, z1), (x0, under), (a, under)] if passing else [(b, z1), (a, z1)]
    corners += [(a, low), (x0, low)]
    outline: list[Point] = []
    for x, z in corners:
        at = back.pose.to_part((x, y, z))
        outline.append((round(at[0], 6), round(at[1], 6)))
    start = outline.index(min(outline))  # the corner nearest (0, 0)
    return replace(back, outline=(*outline[start:], *outline[:start]), bevels=(0.0,) * len(outline))
