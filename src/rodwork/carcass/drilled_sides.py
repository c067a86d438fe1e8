"""Sides from a stock: the cabinet keeps to them, and what is bored in them already is not bored again.

Shelf pins, hinge plates and runners go into the holes that are there. What no hole serves is bored here, clear of
them: dowels of the corners, the second screw of a runner.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from rodwork.carcass.front_grid import hole_heights
from rodwork.model.drilled_sides import DrilledSides
from rodwork.model.fixing import Item
from rodwork.model.fronts import FittingBore
from rodwork.model.job import Cabinet, CannotBuild
from rodwork.model.meeting import PinRow
from rodwork.model.panel import EdgingOnPart, Panel

SAME_MM = 0.01
APART_MM = 8.0  # middle to middle of a new bore and a hole that is there; common practice, no source
_SIDES = ("left side", "right side")
_WORDS = ("high", "deep", "thick")


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """What of a cabinet's bores the holes of its sides serve, and the holes that are left."""

    rows: tuple[PinRow, ...]
    bores: tuple[FittingBore, ...]
    items: tuple[Item, ...] = ()


def as_bought(cabinet: Cabinet, box: dict[str, Panel]) -> dict[str, Panel]:
    """The boards of the carcass with sides that come as they are. Raises CannotBuild where they cannot serve."""
    stock = cabinet.drilled
    if stock is None:
        return box
    path = (*cabinet.place.path, "sides_from")
    if cabinet.sides != "through":
        raise CannotBuild(
            path, f'sides from {stock.name} are whole, and sides = "{cabinet.sides}" would cut them',
            'write sides = "through"',
        )  # fmt: skip
    for name in _SIDES:
        side = box[name]
        given = (stock.height_mm, stock.depth_mm)
        for word, asked, has in zip(_WORDS, side.size[:2], given, strict=False):
            if abs(asked - has) > SAME_MM:
                much = f"{abs(asked - has):g} less" if asked > has else f"{abs(asked - has):g} more"
                raise CannotBuild(
                    path, f"its sides would be {asked:g} {word}, and those of {stock.name} are {has:g}, {much}",
                    f"make the cabinet so that its sides are {has:g} {word}, or have its own sides made",
                )  # fmt: skip
        if len(side.outline) > 4:
            raise CannotBuild(
                path, f"the {name} of {cabinet.name} is notched, and {stock.name} are whole",
                "leave out what notches it: feet on notched sides, a joint that is let in and stopped",
            )  # fmt: skip
    if stock.board != cabinet.board:
        raise CannotBuild(
            path, f"{cabinet.name} is of {cabinet.board}, and {stock.name} of {stock.board}",
            f"write board = \"{stock.board}\"",
        )  # fmt: skip
    bought = {
        name: replace(box[name], bought=True, edging=EdgingOnPart(), edging_name=None, cut=box[name].size[:2])
        for name in _SIDES
    }
    return {**box, **bought}


def runner_holes(cabinet: Cabinet) -> tuple[float, ...]:
    """The heights in the cabinet that runners may be screwed at; none: at any."""
    return hole_heights(cabinet) if cabinet.drilled is None else cabinet.drilled.heights_mm


def plate_holes(cabinet: Cabinet, carrier: Panel, screws_apart: float) -> tuple[float, ...]:
    """The heights of the middles of plates whose two screws go into holes of this board, or to places of the grid.

    None: at any.
    """
    stock = cabinet.drilled
    heights = stock.heights_mm if stock is not None and carrier.bought else hole_heights(cabinet)
    there = set(heights)
    return tuple(round(z + screws_apart / 2, 6) for z in heights if round(z + screws_apart, 6) in there)


def served(cabinet: Cabinet, rows: Sequence[PinRow], bores: Sequence[FittingBore]) -> Served:
    """The bores of a cabinet: those that are there, those that are made here, and the holes left over.

    Raises CannotBuild where one would come so near to a hole that the two run into each other.
    """
    stock = cabinet.drilled
    if stock is None:
        return Served(rows=tuple(rows), bores=tuple(bores))
    made = [b if b.panel not in _SIDES else _served(cabinet, stock, b) for b in bores]
    pinned = [r if r.panel not in _SIDES else _pinned(cabinet, stock, r) for r in rows]
    used = {(b.panel, b.at[2], b.at[1]) for b in made if b.stage == "as bought" and b.panel in _SIDES}
    used |= {(r.panel, z, r.from_front) for r in pinned for z in r.heights}
    left = [
        PinRow(
            panel=name, face="face_side", from_front=y, diameter=stock.diameter_mm, depth=stock.deep_mm, as_bought=True,
            for_shelves=False, heights=tuple(z for z in stock.heights_mm if not _in(used, name, z, y)),
        )
        for name in _SIDES
        for y in stock.rows_mm
    ]  # fmt: skip
    return Served(rows=(*pinned, *left), bores=tuple(made), items=_items(stock))


def _items(stock: DrilledSides) -> tuple[Item, ...]:
    """What is bought, or taken from the stack: two of a kind, or a left and a right one."""
    name = f"drilled side {stock.name}, {stock.height_mm:g} x {stock.depth_mm:g}"
    if not stock.handed:
        return (Item(item=name, count=len(_SIDES)),)
    return tuple(Item(item=f"{name}, {side.split()[0]}", count=1) for side in _SIDES)


def _in(used: set[tuple[str, float, float]], panel: str, z: float, y: float) -> bool:
    return any(p == panel and abs(a - z) < SAME_MM and abs(b - y) < SAME_MM for p, a, b in used)


def _pinned(cabinet: Cabinet, stock: DrilledSides, row: PinRow) -> PinRow:
    """A row for shelves, in holes that are there."""
    if stock.back_mm is None:
        raise CannotBuild(
            (*cabinet.place.path, "loose_shelves"),
            f"a loose shelf stands on two rows of pins, and {stock.name} have no back row",
            "fix the shelves, or take sides with two rows",
        )  # fmt: skip
    top = stock.heights_mm[-1]
    return replace(row, as_bought=True, heights=tuple(z for z in row.heights if z <= top + SAME_MM))


def _served(cabinet: Cabinet, stock: DrilledSides, bore: FittingBore) -> FittingBore:
    """A bore of a hinge or runner: the hole that is there, or one that is made clear of all of them."""
    z, y = bore.at[2], bore.at[1]
    away, hole = min(
        (((z - h) ** 2 + (y - r) ** 2) ** 0.5, (h, r)) for h in stock.heights_mm for r in stock.rows_mm
    )  # fmt: skip
    if away <= SAME_MM and abs(bore.diameter - stock.diameter_mm) <= SAME_MM:
        return replace(bore, stage="as bought", depth=stock.deep_mm, tip=0.0)
    if bore.role != "hinge" and away >= APART_MM:
        return bore
    at = f"{z:.1f} up and {y:.1f} from the front"
    there = (
        f"the nearest hole of {stock.name} is {hole[0]:g} up and {hole[1]:g} from the front, {stock.diameter_mm:g} mm"
    )
    plate = bore.role == "hinge"
    if not plate:
        mend = f"write runner_line so that they come at {hole[0]:g}, or take other sides"
    elif away <= SAME_MM:
        mend = f"take sides with holes of {bore.diameter:g}, or have them made: leave sides_from out"
    elif abs(y - hole[1]) > SAME_MM:
        mend = f"hang overlay doors on plates {stock.front_mm:g} from the front"
    else:
        way = "higher" if hole[0] > z else "lower"
        mend = f"take doors with that cup {abs(z - hole[0]):g} {way}, or have the sides made: leave sides_from out"
    raise CannotBuild(
        (*cabinet.place.path, "doors" if plate else "drawers"),
        f"a screw of {'a hinge plate' if plate else 'a runner'} comes {at}, in {bore.diameter:g} mm, and {there}",
        mend,
    )  # fmt: skip
