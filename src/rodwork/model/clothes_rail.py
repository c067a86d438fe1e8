"""Clothes rails: a tube between two uprights in sockets that are bored by their maker's sheet.

The fixing rail that a cabinet is screwed to the wall through is another thing: it is a board.
"""

from dataclasses import dataclass
from typing import Literal

from rodwork.geometry.vec import Vec

Section = Literal["round", "oval"]
Clothes = Literal["short", "long"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SocketSheet:
    """A socket by its maker's sheet, mm.

    `bores`: (up, forward) of each from the middle of the tube. `play_mm`: the tube than the clear width, at each end:
    the floor of the socket and what lets the tube in. `reach_mm`: how far the socket stands out over the tube.
    """

    high_mm: float
    wide_mm: float
    reach_mm: float = 16.0
    play_mm: float = 2.0
    bores: tuple[tuple[float, float], ...] = ((16.0, 0.0), (-16.0, 0.0))
    bore_mm: float = 5.0
    depth_mm: float | None = None  # None: as deep as is usual, or less where the board has sockets on both its faces


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothesRailAsked:
    """A clothes rail in one opening of these `bays` (from 1; none named: all), mm.

    `below_mm`: from the board above down to the middle of the tube. `size_mm`: its height and how wide it is front to
    back. `supports`: between its ends, hung from the board above. `path`: where in the job file it stands.
    """

    opening: int
    below_mm: float
    from_front_mm: float | None  # None: the middle of the depth
    section: Section
    size_mm: tuple[float, float]
    clothes: Clothes
    supports: int
    socket: SocketSheet
    bays: tuple[int, ...] = ()
    path: tuple[str | int, ...] = ()

    def in_bay(self, number: int) -> bool:
        """Whether this bay has it."""
        return not self.bays or number in self.bays

    @property
    def tube(self) -> str:
        """What a supplier calls it: oval 30 x 15."""
        high, wide = self.size_mm
        return f"round {high:g}" if self.section == "round" else f"oval {high:g} x {wide:g}"


@dataclass(frozen=True, slots=True, kw_only=True)
class ClothesRail:
    """One clothes rail where it stands: the corners of its tube, which ends in the sockets of its two uprights.

    `above`: how high the underside of the board above is. `under`: clear height from the tube down to what is below
    it. `socket`: height, width and reach of each. `bores`: those of the left and of the right one, in pairs.
    """

    bay: int
    opening: int
    uprights: tuple[str, str]
    low: Vec
    high: Vec
    tube: str
    above: float
    under: float
    clothes: Clothes
    supports: int
    socket: Vec
    bores: tuple[tuple[str, ...], tuple[str, ...]]

    @property
    def length(self) -> float:
        """What the tube is cut to."""
        return round(self.high[0] - self.low[0], 6)

    @property
    def middle(self) -> Vec:
        """The middle of the tube."""
        (x0, y0, z0), (x1, y1, z1) = self.low, self.high
        return (x0 + x1) / 2, (y0 + y1) / 2, (z0 + z1) / 2
