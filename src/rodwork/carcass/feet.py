"""What a unit stands on, and the toe space before it.

style            outside height             boards
notched sides    from the floor             notched sides to the floor, bottom raised, a plinth board between them
plinth frame     of the carcass alone       front and back board, cross pieces between: depth less two boards long
legs             of the carcass alone       a plinth board before the legs, lower than they stand; legs are bought

A separate frame and a plinth board on legs lie below the carcass (z under nought) and outside its box.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import ceil

from rodwork.carcass.boards import BACK_ACROSS, FACING_LEFT, NO_NOTCH, Notch, panel
from rodwork.carcass.contacts import facing, meet
from rodwork.carcass.rails import on_edge
from rodwork.geometry.directions import BACK, DOWN, FRONT, LEFT, RIGHT
from rodwork.geometry.vec import Matrix, Vec, neg
from rodwork.model.contact import Register
from rodwork.model.fixing import Item
from rodwork.model.footing import Footing
from rodwork.model.job import Board, Cabinet, CannotBuild, Feet, Recipe
from rodwork.model.meeting import EntryOf, Meeting
from rodwork.model.panel import Panel, Role
from rodwork.model.surface import Surface

CROSS_APART_MM = 600.0  # at most, middle to middle; common practice, no source
LEGS_APART_MM = 600.0  # at most, along the front; common practice, no source
LEG_IN_MM = 50.0  # from a side of the carcass, and behind its plinth board
LEAST_MM = 60.0  # of bottom left before and behind legs, of side left over a notch


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """What is put under a cabinet: boards, their meetings, bought legs, and where it bears on the floor."""

    panels: tuple[Panel, ...] = ()
    meetings: tuple[Meeting, ...] = ()
    items: tuple[Item, ...] = ()
    footing: Footing | None = None


def toe_notch(cabinet: Cabinet) -> Notch:
    """What is taken out of the bottom front corner of both sides. Raises CannotBuild where they end above it."""
    feet = cabinet.feet
    if feet is None or feet.style != "notched sides":
        return NO_NOTCH
    path = (*cabinet.place.path, "feet")
    if cabinet.sides == "between":
        raise CannotBuild(
            path, "notched sides go down to the floor, and here they end above the bottom",
            'write sides = "through", or style = "plinth frame"',
        )  # fmt: skip
    if feet.set_back_mm < 1 or cabinet.depth_mm - feet.set_back_mm < LEAST_MM:
        raise CannotBuild(
            path, f"a notch {feet.set_back_mm:g} deep in sides {cabinet.depth_mm:g} deep is no toe space",
            f"write set_back = 60, and no more than {cabinet.depth_mm - LEAST_MM:g}",
        )  # fmt: skip
    return feet.height_mm, feet.set_back_mm


def stand(
    cabinet: Cabinet, boards: Mapping[str, Board], sides: tuple[Panel, Panel], cross: float, entry: EntryOf
) -> Stood:
    """Everything under a cabinet. `cross`: how deep its bottom is, mm. Raises CannotBuild."""
    feet = cabinet.feet
    if feet is None:
        return Stood()
    board = boards[feet.board]
    recipe = feet.joint or cabinet.corner_joint
    reach = entry(recipe, board.actual_mm, board.actual_mm).reach
    if reach > 0 and feet.style != "legs":
        raise CannotBuild(
            (*cabinet.place.path, "feet"), f"boards under a cabinet are butted, and {recipe.name} lets them in",
            "name another recipe for them: joint = ... under feet",
        )  # fmt: skip
    return _STYLES[feet.style](_Ask(cabinet, feet, board, sides, cross, recipe))


@dataclass(frozen=True, slots=True)
class _Ask:
    cabinet: Cabinet
    feet: Feet
    board: Board
    sides: tuple[Panel, Panel]
    cross: float
    recipe: Recipe


def _board(of: _Ask, id: str, role: Role, low: Vec, high: Vec, rotation: Matrix, *, in_box: bool = False) -> Panel:
    shows: tuple[Surface, ...] = ("face_side",) if role == "plinth board" or id == "plinth front" else ()
    return panel(
        id=id, role=role, board=of.board, box=(low, high), rotation=rotation, edged=(), edging=None, shows=shows,
        in_box=in_box,
    )  # fmt: skip


def _notched(of: _Ask) -> Stood:
    """A plinth board between the sides, its face on the back of the notch."""
    w, t, feet, tp = of.cabinet.width_mm, of.sides[0].size[2], of.feet, of.board.actual_mm
    y = feet.set_back_mm
    made = _board(of, "plinth board", "plinth board", (t, y, 0.0), (w - t, y + tp, feet.height_mm), BACK_ACROSS,
                  in_box=True)  # fmt: skip
    met = tuple(on_edge(side, made, way, DOWN, of.recipe) for side, way in zip(of.sides, (LEFT, RIGHT), strict=True))
    return Stood(panels=(made,), meetings=met, footing=_footing(of, 0.0, ((t / 2, y), (w - t / 2, y))))


def _framed(of: _Ask) -> Stood:
    """A ladder on edge: front and back board as wide as the carcass, cross pieces between them."""
    w, h, tp = of.cabinet.width_mm, of.feet.height_mm, of.board.actual_mm
    y0, y1 = of.feet.set_back_mm, of.cabinet.depth_mm
    if y1 - y0 - 2 * tp < LEAST_MM:
        raise CannotBuild(
            (*of.cabinet.place.path, "feet", "set_back"),
            f"a plinth frame {y1 - y0:g} deep has no room between its boards",
            _less_set_back(y1 - 2 * tp - LEAST_MM),
        )  # fmt: skip
    front = _board(of, "plinth front", "plinth frame", (0.0, y0, -h), (w, y0 + tp, 0.0), BACK_ACROSS)
    back = _board(of, "plinth back", "plinth frame", (0.0, y1 - tp, -h), (w, y1, 0.0), BACK_ACROSS)
    number = ceil((w - tp) / CROSS_APART_MM) + 1
    at = [round((w - tp) * i / (number - 1), 6) for i in range(number)]
    crosses = tuple(
        _board(of, f"plinth cross piece {n}", "plinth frame", (x, y0 + tp, -h), (x + tp, y1 - tp, 0.0), FACING_LEFT)
        for n, x in enumerate(at, 1)
    )
    met = tuple(
        _cross(host, piece, way, of.recipe) for piece in crosses for host, way in ((front, FRONT), (back, BACK))
    )  # fmt: skip
    return Stood(panels=(front, back, *crosses), meetings=met, footing=_footing(of, h, ((0.0, y0), (w, y0))))


def _cross(host: Panel, piece: Panel, toward: Vec, recipe: Recipe) -> Meeting:
    """Up from the bottom edges of both; across, the line from the left end where the left face of the piece comes."""
    return meet(
        host=host, guest=piece, place="rail", recipe=recipe,
        host_register=Register(bears=facing(host, neg(toward)), along_from=facing(host, DOWN),
                               across_from=facing(host, LEFT)),
        guest_register=Register(bears=facing(piece, toward), along_from=facing(piece, DOWN),
                                across_from=facing(piece, LEFT)),
    )  # fmt: skip


def _less_set_back(most: float) -> str:
    """How to make room behind a set-back that may be so much at the most; under nought there is none at any."""
    deeper = "make the cabinet deeper" + (f", by {-most:g} and more" if most < 0 else "")
    return deeper if most < 0 else f"write a set_back of {most:g} or less, or {deeper}"


def _legged(of: _Ask) -> Stood:
    """Levelling legs in two rows by the width, and a plinth board that is clipped to the front ones."""
    w, h, tp = of.cabinet.width_mm, of.feet.height_mm, of.board.actual_mm
    front = of.feet.set_back_mm + tp + LEG_IN_MM
    rear = of.cross - LEG_IN_MM
    if rear - front < LEAST_MM:
        raise CannotBuild(
            (*of.cabinet.place.path, "feet", "set_back"),
            f"legs behind a plinth board {of.feet.set_back_mm:g} in have no room under {of.cross:g} of bottom",
            _less_set_back(of.feet.set_back_mm - (LEAST_MM - rear + front)),
        )  # fmt: skip
    in_a_row = max(2, ceil((w - 2 * LEG_IN_MM) / LEGS_APART_MM) + 1)
    xs = [round(LEG_IN_MM + (w - 2 * LEG_IN_MM) * i / (in_a_row - 1), 3) for i in range(in_a_row)]
    items = [Item(item=f"levelling leg {h:g} mm", count=2 * in_a_row)]
    panels: tuple[Panel, ...] = ()
    if of.feet.plinth:
        y = of.feet.set_back_mm
        panels = (
            _board(of, "plinth board", "plinth board", (0.0, y, -h), (w, y + tp, -of.feet.lower_mm), BACK_ACROSS),
        )
        items.append(Item(item="plinth clip", count=in_a_row))
    legs = tuple((x, y) for y in (front, rear) for x in xs)
    return Stood(panels=panels, items=tuple(items), footing=_footing(of, h, legs))


def _footing(of: _Ask, below: float, feet: tuple[tuple[float, float], ...]) -> Footing:
    return Footing(style=of.feet.style, height=of.feet.height_mm, below=below, feet=feet)


_STYLES: dict[str, Callable[[_Ask], Stood]] = {"notched sides": _notched, "plinth frame": _framed, "legs": _legged}
