"""Hanging brackets: adjustable hooks in the top back corners of a wall unit, by the figures of their maker's sheet."""

from dataclasses import dataclass

from rodwork.geometry.vec import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketSheet:
    """A hanging bracket by its maker's sheet, mm.

    Heights down from the underside of the top, distances forward from the front face of the back: `bores` are
    (down, forward) in the inside of each side. `hook_mm`: down to the line of the wall rail. `notch_mm`: how far down
    and how far in from the side the back is cut away for the hook. `rail_short_mm`: the wall rail than the clear width,
    at each end.
    """

    high_mm: float = 60.0
    wide_mm: float = 20.0
    deep_mm: float = 45.0
    below_mm: float = 2.0
    hook_mm: float = 30.0
    void_mm: float = 15.0
    bores: tuple[tuple[float, float], ...] = ((16.0, 22.0), (48.0, 22.0))
    bore_mm: float = 5.0
    depth_mm: float = 12.0
    notch_mm: tuple[float, float] = (50.0, 30.0)
    rail_short_mm: float = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HungBracket:
    """One bracket where it stands: its side, the corners of its body, and how high the line of the wall rail is."""

    side: str
    low: Vec
    high: Vec
    line: float
