"""Rails: strips between the sides in place of a full top, and one under the top to screw a unit to the wall through.

rail     lies                        registers on                                face side looks
front    flat, or on edge            its upper side (flat) or its front face     into the cabinet
back     flat, or on edge            the same                                    into the cabinet
fixing   on edge, under the top      its front face, heights from the top        to the front

A flat rail is a narrow top: its end makes an ordinary corner with the side. A rail on edge meets the side along a line
that runs down, `top` end of both boards first. W is the cabinet's width, t its board: every rail is W - 2t long.
"""

from dataclasses import dataclass, field

from rodwork.carcass.boards import BACK_ACROSS, FRONT_ACROSS, TOP, panel
from rodwork.carcass.contacts import facing, meet
from rodwork.geometry.directions import DOWN, FRONT, LEFT, RIGHT, UP
from rodwork.geometry.vec import Matrix, Vec, neg
from rodwork.model.contact import Register
from rodwork.model.job import Board, Cabinet, CannotBuild, Edging, Rails, Recipe
from rodwork.model.meeting import Entry, EntryOf, Meeting
from rodwork.model.panel import Panel
from rodwork.model.surface import Surface

HELD_BY_RAILS = ("grooved in the sides", "rebated in the sides", "planted")  # a back that needs no top to enter
LEAST_FIXING_MM = 40.0  # as a job file may say
LEAST_BETWEEN_MM = 50.0  # from the front rail to the back rail
FRONT_RAIL, BACK_RAIL, FIXING_RAIL = "front rail", "back rail", "fixing rail"


@dataclass(frozen=True, slots=True, kw_only=True)
class Framed:
    """The carcass that rails are put into: its board, and the depths that its back leaves, mm from the front.

    `cross` is how deep a top would be, `shelf_back` where shelves end, `back_front` the front face of the back.
    """

    cabinet: Cabinet
    board: Board
    edging: Edging | None
    cross: float
    shelf_back: float
    back_front: float | None
    void: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Railed:
    """The rails of a cabinet by their ids. `under`: the height at which the clear opening below them ends."""

    panels: dict[str, Panel] = field(default_factory=dict)
    flat: bool = True
    under: float
    kept_free: float = 0.0  # below that, at the back of the top opening, a fixing rail takes this much of its height


def rails(of: Framed) -> Railed:
    """Every rail that is asked for. Raises CannotBuild where one has no place."""
    asked, t, height = of.cabinet.rails, of.board.actual_mm, of.cabinet.height_mm
    if asked is None:
        return Railed(under=round(height - t, 6))
    _refuse(of, asked)
    made: dict[str, Panel] = {}
    if asked.front_mm is not None:
        made[FRONT_RAIL] = _front(of, asked, asked.front_mm)
    if asked.back_mm is not None:
        made[BACK_RAIL] = _back(of, asked, asked.back_mm)
    taken = t if asked.flat or not asked.instead_of_top else max(asked.front_mm or 0.0, asked.back_mm or 0.0)
    under = round(height - taken, 6)
    if asked.fixing_mm is not None:
        made[FIXING_RAIL] = _fixing(of, asked, asked.fixing_mm, under)
    in_the_way = asked.fixing_mm if asked.fixing_mm is not None and not asked.behind_back else 0.0
    return Railed(panels=made, flat=asked.flat, under=under, kept_free=in_the_way)


def _refuse(of: Framed, asked: Rails) -> None:
    c, path = of.cabinet, (*of.cabinet.place.path, "rails")
    if not asked.instead_of_top:
        return
    if c.sides != "through":
        raise CannotBuild(
            path, "rails in place of a top stand between the sides, and here the sides end below the top",
            'write sides = "through", or leave top_front and top_back out for a full top',
        )  # fmt: skip
    style = c.back.style if c.back else None
    covers = style == "inset" and asked.flat and _covers_back(of, asked)
    if style is not None and style not in HELD_BY_RAILS and not covers:
        raise CannotBuild(
            path, f"a back that is {style} wants a top over the whole depth, and there are rails",
            f'write style = "{HELD_BY_RAILS[0]}", "{HELD_BY_RAILS[1]}" or "{HELD_BY_RAILS[2]}" under back: it then '
            "passes up behind the rails",
        )  # fmt: skip
    each = (asked.front_mm, asked.back_mm) if asked.flat else (of.board.actual_mm, of.board.actual_mm)
    between = of.cross - sum(w or 0.0 for w in each)
    if between < LEAST_BETWEEN_MM:
        raise CannotBuild(
            path, f"rails {asked.front_mm or 0:g} and {asked.back_mm or 0:g} wide leave {between:g} mm between them "
            f"in {of.cross:g} of depth",
            f"leave {LEAST_BETWEEN_MM:g} or more, or have a full top: leave top_front and top_back out",
        )  # fmt: skip
    if len(c.bays) > 1 and (asked.front_mm is None or not asked.flat):
        raise CannotBuild(
            path, "dividers stand under a flat rail at the front, and there is none",
            'write top_front = 80 and set = "flat", or leave the dividers out',
        )  # fmt: skip
    if any("up" in d.hung for d in c.doors) and (asked.front_mm is None or not asked.flat):
        raise CannotBuild(
            path, "a door that lifts up hangs from a flat rail at the front, and there is none",
            'write top_front = 80 and set = "flat", or hang the door at a side',
        )  # fmt: skip


def _covers_back(of: Framed, asked: Rails) -> bool:
    return of.back_front is not None and asked.back_mm is not None and of.cross - asked.back_mm <= of.back_front


def _across(of: Framed) -> tuple[float, float]:
    t = of.board.actual_mm
    return t, of.cabinet.width_mm - t


def _front(of: Framed, asked: Rails, mm: float) -> Panel:
    (x0, x1), t, h = _across(of), of.board.actual_mm, of.cabinet.height_mm
    if asked.flat:
        edged: tuple[Surface, ...] = ("face_edge",) if _fronts_edged(of.cabinet) else ()
        return _rail(of, FRONT_RAIL, (x0, 0.0, h - t), (x1, mm, h), TOP, ("face_edge", "face_side"), edged)
    return _rail(of, FRONT_RAIL, (x0, 0.0, h - mm), (x1, t, h), FRONT_ACROSS, ("back_side", "face_side"))


def _fronts_edged(cabinet: Cabinet) -> bool:
    return cabinet.edging is not None and "fronts" in cabinet.edging.on


def _back(of: Framed, asked: Rails, mm: float) -> Panel:
    (x0, x1), t, h = _across(of), of.board.actual_mm, of.cabinet.height_mm
    if asked.flat:
        return _rail(of, BACK_RAIL, (x0, of.cross - mm, h - t), (x1, of.cross, h), TOP, ("face_side",))
    return _rail(of, BACK_RAIL, (x0, of.cross - t, h - mm), (x1, of.cross, h), BACK_ACROSS, ("face_side",))


def _fixing(of: Framed, asked: Rails, mm: float, under: float) -> Panel:
    """Under the top or its rails: flush with the back of the carcass behind the back, or close before the back."""
    (x0, x1), t, depth = _across(of), of.board.actual_mm, of.cabinet.depth_mm
    path = (*of.cabinet.place.path, "rails", "fixing")
    if asked.behind_back and (of.back_front is None or of.void < t):
        what = "there is no back for it to stand behind" if of.back_front is None else f"the void is {of.void:g} deep"
        raise CannotBuild(
            path, f"a fixing rail of {t:g} mm is to stand behind the back, and {what}",
            f"give the back a void of {t:g} or more, or write behind_back = false",
        )  # fmt: skip
    if asked.behind_back:
        refuse_in_rebates(of.cabinet, "a fixing rail", path)
    room = under - t - of.cabinet.toe_mm - LEAST_BETWEEN_MM
    if mm > room:
        raise CannotBuild(
            path,
            f"a fixing rail {mm:g} high leaves {max(room + LEAST_BETWEEN_MM - mm, 0):g} mm below it",
            f"make it {room:g} or less" if room >= LEAST_FIXING_MM else "leave it out, or make the cabinet higher",
        )
    y1 = depth if asked.behind_back else of.shelf_back
    shows: tuple[Surface, ...] = () if asked.behind_back else ("face_side",)
    return _rail(of, FIXING_RAIL, (x0, y1 - t, under - mm), (x1, y1, under), BACK_ACROSS, shows)


def refuse_behind_shelf(of: Framed, made: Railed, top_opening: tuple[float, float]) -> None:
    """A fixing rail before the back stands in the top opening, over the uppermost fixed shelf. Raises CannotBuild."""
    room = top_opening[1] - top_opening[0]
    if made.kept_free > room:
        lower = f"make it {room:g} or less, or " if room >= LEAST_FIXING_MM else ""
        raise CannotBuild(
            (*of.cabinet.place.path, "rails", "fixing"),
            f"a fixing rail {made.kept_free:g} high would stand in the uppermost shelf: over it are {room:g}",
            f"{lower}make that opening {made.kept_free:g} or more",
        )  # fmt: skip


def _rail(
    of: Framed, id: str, low: Vec, high: Vec, rotation: Matrix, shows: tuple[Surface, ...],
    edged: tuple[Surface, ...] = (),
) -> Panel:  # fmt: skip
    return panel(
        id=id, role="rail", board=of.board, box=(low, high), rotation=rotation, edged=edged, edging=of.edging,
        shows=shows,
    )  # fmt: skip


def meetings(of: Framed, made: Railed, sides: tuple[Panel, Panel], recipe: Recipe, entry: EntryOf) -> list[Meeting]:
    """Both ends of every rail on the insides of the left and the right side. Raises CannotBuild."""
    t = of.board.actual_mm
    how = entry(recipe, t, t)
    if made.panels and how.reach > 0:
        raise CannotBuild(
            (*of.cabinet.place.path, "rails"),
            f"the ends of rails are butted, and {recipe.name} lets them into the sides",
            "name another recipe for them: rail_joint = ...",
        )  # fmt: skip
    return [
        _flat(side, rail, way, recipe, how.inner) if _lies_flat(rail) else on_edge(side, rail, way, UP, recipe)
        for rail in made.panels.values()
        for side, way in zip(sides, (LEFT, RIGHT), strict=True)
    ]


def _lies_flat(rail: Panel) -> bool:
    return abs(rail.pose.rotation[2][2]) > 0.5


def _flat(side: Panel, rail: Panel, toward: Vec, recipe: Recipe, inner: bool) -> Meeting:
    """A corner like that of a top: from the top end of the side, and from the front."""
    return meet(
        host=side, guest=rail, place="corner", recipe=recipe,
        host_register=Register(bears=facing(side, neg(toward)), along_from=facing(side, FRONT),
                               across_from=facing(side, UP)),
        guest_register=Register(bears=facing(rail, toward), along_from=facing(rail, FRONT),
                                across_from=facing(rail, DOWN if inner else UP)),
    )  # fmt: skip


def on_edge(side: Panel, board: Panel, toward: Vec, datum: Vec, recipe: Recipe) -> Meeting:
    """The end of a board on edge: along from the ends of both that look to `datum`, across from the front.

    The line is where the front face of the board comes, from the front edge of the side.
    """
    return meet(
        host=side, guest=board, place="rail", recipe=recipe,
        host_register=Register(bears=facing(side, neg(toward)), along_from=facing(side, datum),
                               across_from=facing(side, FRONT)),
        guest_register=Register(bears=facing(board, toward), along_from=facing(board, datum),
                                across_from=facing(board, FRONT)),
    )  # fmt: skip


def refuse_in_rebates(cabinet: Cabinet, what: str, path: tuple[str | int, ...]) -> None:
    """A rebate runs out at the back edges of the sides: a board between them behind the back would not reach them."""
    if cabinet.back is not None and cabinet.back.style in ("rebated", "rebated in the sides"):
        raise CannotBuild(
            path, f"{what} behind a back in rebates would not reach the sides, which the rebates thin there",
            'let the back into grooves: style = "grooved in the sides"',
        )  # fmt: skip


def under_front_rail(made: Railed, divider: Panel, recipe: Recipe) -> Meeting:
    """The upper end of a divider under the flat rail at the front: registered on its left face, as under a top."""
    rail = made.panels[FRONT_RAIL]
    return meet(
        host=rail, guest=divider, place="divider", recipe=recipe,
        host_register=Register(bears=facing(rail, DOWN), along_from=facing(rail, FRONT),
                               across_from=facing(rail, LEFT)),
        guest_register=Register(bears=facing(divider, UP), along_from=facing(divider, FRONT),
                                across_from=facing(divider, LEFT)),
    )  # fmt: skip


def refuse_let_in(of: Framed, recipe: Recipe, entry: Entry) -> None:
    """A divider is butted under rails: it would be let into the front one alone."""
    if (
        entry.reach > 0
        and of.cabinet.rails is not None
        and of.cabinet.rails.instead_of_top
        and len(of.cabinet.bays) > 1
    ):
        raise CannotBuild(
            (*of.cabinet.place.path, "rails"), f"{recipe.name} lets dividers into a top, and there are rails",
            "name another recipe for the dividers: divider_joint = ...",
        )  # fmt: skip
