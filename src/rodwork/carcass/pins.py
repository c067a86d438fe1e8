"""Loose shelves and the rows of pin bores that carry them, on one grid for the whole cabinet."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from rodwork.geometry.rounding import down_to_step
from rodwork.model.job import Cabinet, CannotBuild, Pins
from rodwork.model.meeting import PinRow
from rodwork.model.panel import Panel
from rodwork.model.shop import Shop

PIN_DEPTH_MM = 12.0  # common practice, no source
CLEAR_OF_SHELF_MM = 40.0  # no pin nearer to the board above or below; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """The room between two uprights."""

    left: Panel
    right: Panel
    x0: float
    x1: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PinHeights:
    """In one opening: the grid heights that are bored, and the underside of each loose shelf."""

    bored: tuple[float, ...]
    shelves: tuple[float, ...]


def shelf_heights(
    cabinet: Cabinet,
    bay: int,
    spaces: tuple[tuple[float, float], ...],
    shelf: float,
    beyond: Sequence[tuple[float, float]],
    shop: Shop,
) -> tuple[PinHeights, ...]:
    """Pin heights of every opening of a bay (from 0), from the bottom of the cabinet, mm.

    Shelves share an opening evenly, each at the nearest hole of the grid, with holes above and below it.
    `beyond`: fixed shelves in the bays beside it, lower and upper face: what joins them to a divider is in the way of
    bores from its other face, so holes there are left out where the shelves find places without them.
    """
    room = cabinet.pins.diameter_mm / 2 + shop.least_remainder_mm
    taken = tuple((low - room, high + room) for low, high in beyond)
    path = (*cabinet.place.path, "loose_shelves", *((bay,) if cabinet.by_bay else ()))
    return tuple(
        _in_opening(cabinet.pins, (*path, i), z0, z1, n, shelf, taken)
        for i, ((z0, z1), n) in enumerate(zip(spaces, cabinet.in_bays[bay].loose_shelves, strict=True))
    )


def _in_opening(
    p: Pins,
    path: tuple[str | int, ...],
    z0: float,
    z1: float,
    number: int,
    shelf: float,
    taken: tuple[tuple[float, float], ...],
) -> PinHeights:
    if number == 0:
        return PinHeights(bored=(), shelves=())
    low, high = z0 + CLEAR_OF_SHELF_MM, z1 - CLEAR_OF_SHELF_MM - shelf
    first = int(-(-(low - p.start_mm) // p.pitch_mm))
    whole = [p.start_mm + k * p.pitch_mm for k in range(max(first, 0), int((high - p.start_mm) // p.pitch_mm) + 1)]
    wanted = [z0 + (z1 - z0) * i / (number + 1) for i in range(1, number + 1)]
    apart = shelf + 2 * CLEAR_OF_SHELF_MM
    clear = [g for g in whole if not any(low < g < high for low, high in taken)]
    found = next(((grid, n) for grid in (clear, whole) if (n := _nearest(grid, wanted, apart)) is not None), None)
    if found is None:
        raise CannotBuild(
            path,
            f"{number} loose {'shelf does' if number == 1 else 'shelves do'} not fit in an opening of {z1 - z0:g} mm",
            f"an opening of {(number + 1) * apart:g} mm takes {number}; ask for fewer, or for fewer fixed shelves",
        )
    grid, nearest = found
    reach = p.pitch_mm * (p.holes // 2) + 1e-9
    bored = sorted({g for g in grid for n in nearest if abs(g - n) <= reach})
    return PinHeights(bored=tuple(bored), shelves=tuple(n + p.diameter_mm / 2 for n in nearest))


def _nearest(grid: Sequence[float], wanted: Sequence[float], apart: float) -> list[float] | None:
    """The hole nearest to each place; None where they do not come so far apart."""
    if not grid:
        return None
    nearest = [min(grid, key=lambda g, w=w: (abs(g - w), g)) for w in wanted]  # type: ignore[misc]
    return None if any(b - a < apart for a, b in pairwise(nearest)) else nearest


def pin_rows(
    cabinet: Cabinet,
    bays: tuple[Bay, ...],
    heights: Sequence[tuple[PinHeights, ...]],
    shelf_back: float,
    shop: Shop,
) -> tuple[PinRow, ...]:
    """A front and a back row on both uprights of every bay with pins, heights from each upright's own bottom end.

    The rows on a divider's right face stand two diameters further in, so that bores from both faces do not meet.
    """
    p = cabinet.pins
    out = []
    for bay, in_bay in zip(bays, heights, strict=True):
        if not any(h.bored for h in in_bay):
            continue
        for upright, face in ((bay.left, _right_face(bay.left)), (bay.right, "face_side")):
            shift = 2 * p.diameter_mm if face == "back_side" else 0.0
            bottom = upright.box[0][2]
            at = tuple(round(g - bottom, 6) for h in in_bay for g in h.bored)
            front, back = _rows(cabinet, shelf_back)
            front, back = front + shift, back - shift
            if back - front < 4 * p.diameter_mm:
                raise CannotBuild(
                    (*cabinet.place.path, "pins"),
                    f"rows of pins would stand {front:g} and {back:g} from the front, on shelves {shelf_back:g} deep",
                    "lower `front` and `back` of the pins, or make the cabinet deeper",
                )
            out += [
                PinRow(panel=upright.id, face=face, from_front=round(row, 6), heights=at,
                       diameter=p.diameter_mm, depth=_depth(cabinet, upright, shop))
                for row in (front, back)
            ]  # fmt: skip
    return tuple(out)


def _rows(cabinet: Cabinet, shelf_back: float) -> tuple[float, float]:
    """The front and the back row: by the shelf, or where drilled sides have them."""
    if cabinet.drilled is not None and cabinet.drilled.back_mm is not None:
        front, back = cabinet.drilled.rows_mm
        return front, back
    return cabinet.shelf_set_back_mm + cabinet.pins.front_mm, shelf_back - cabinet.pins.back_mm


def _depth(cabinet: Cabinet, upright: Panel, shop: Shop) -> float:
    if cabinet.pins.depth_mm is not None:
        return cabinet.pins.depth_mm
    return min(PIN_DEPTH_MM, down_to_step(upright.size[2] - shop.least_remainder_mm, shop.fence_step_mm))


def _right_face(upright: Panel) -> str:
    return "back_side" if upright.role == "divider" else "face_side"
