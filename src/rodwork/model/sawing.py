"""What the shop saws with and what it has to saw: the saw, sheets and offcuts, and the maker's wishes for the plan."""

from dataclasses import dataclass
from typing import Literal

from rodwork.model.panel import Role

SawKind = Literal["track saw", "panel saw", "router"]
FirstCut = Literal["either", "along", "across"]
Run = Literal["along", "across"]

SHEET_TRIM_MM = 10.0  # allowed for at each edge of a sheet before a board is laid on it; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """A saw, and how the shop works with it. Lengths are mm; "along" is along the length of the sheet.

    `trim`: what the trim cuts take, blade included, off a new sheet: left end, right end, lower edge, upper edge.
    `levels`: how often the way of cutting may change, a last trimming cut on top (None: as often as wanted).
    `rough`: how much over size parts are broken down, to be sized in sets afterwards.
    """

    kind: SawKind = "track saw"
    kerf: float = 3.0
    trim: tuple[float, float, float, float] = (5.0, 5.0, 5.0, 5.0)
    rail: float | None = None  # the longest cut without moving the rail; None: any
    levels: int | None = None
    first: FirstCut = "either"
    longest: float | None = None  # the longest cut that the saw can make; None: any
    least_strip: float = 0.0
    rough: float = 0.0


def usual_saw(kind: SawKind) -> Saw:
    """A saw of a kind as most shops have it: common practice, no source."""
    if kind == "router":
        return Saw(kind=kind, kerf=8.0)  # a cutter of 6 and a little beside it
    return Saw(kind=kind, levels=3 if kind == "panel saw" else None)


@dataclass(frozen=True, slots=True, kw_only=True)
class StockSheet:
    """Sheets of one size beside the board's own, or an offcut that the shop has; `size`: along the grain first."""

    name: str
    board: str
    size: tuple[float, float]
    price: str | None  # None: not entered
    count: int | None  # None: as many as are wanted
    offcut: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Matched:
    """Boards that are sawn out of one piece so that their figure runs on, in this order from the left or the bottom."""

    name: str
    marks: tuple[str, ...]
    run: Run  # beside each other along the grain, or across it


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawing:
    """All that the cutting plan needs to know beside the boards. Lengths are mm."""

    saw: Saw = Saw()
    stock: tuple[StockSheet, ...] = ()
    least_offcut: tuple[float, float] = (200.0, 600.0)  # short and long side of what is worth keeping
    offcut_share: float = 0.4  # what an offcut counts, as a share of the price of its area
    buy: bool = True  # False: only what is listed as stock and offcuts
    may_turn: tuple[Role, ...] = ()  # parts whose grain may lie either way all the same
    spare: float = 0.0  # left on each length and width, for scribing or a second cut
    spare_on: tuple[Role, ...] = ()  # nothing: on every part
    matched: tuple[Matched, ...] = ()
    one_sheet: tuple[str, ...] = ()  # cabinets whose boards of one kind come from one sheet
