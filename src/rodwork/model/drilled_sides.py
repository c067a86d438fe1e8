"""Sides that lie in a stock, cut, edged and drilled: what is given of them, and what a cabinet must keep to."""

from dataclasses import dataclass

SAME_MM = 0.25  # a difference from end to end that no shelf shows


@dataclass(frozen=True, slots=True, kw_only=True)
class DrilledSides:
    """Sides of one size from a stock, mm: their board, and a front and a back row of holes on their inside.

    `first_mm`: bottom end to the lowest hole; `front_mm` from the front edge, `back_mm` from the back edge (None: there
    is no back row). `deep_mm`: how deep the holes are.
    """

    name: str
    board: str
    height_mm: float
    depth_mm: float
    first_mm: float
    pitch_mm: float
    holes: int
    front_mm: float
    back_mm: float | None
    diameter_mm: float
    deep_mm: float

    @property
    def heights_mm(self) -> tuple[float, ...]:
        """Of the holes of a row, from the bottom end."""
        return tuple(round(self.first_mm + n * self.pitch_mm, 6) for n in range(self.holes))

    @property
    def handed(self) -> bool:
        """Whether its rows do not come the same from both ends, so that left and right are two kinds."""
        return abs(self.first_mm - (self.height_mm - self.heights_mm[-1])) > SAME_MM

    @property
    def rows_mm(self) -> tuple[float, ...]:
        """Of its rows, from the front edge."""
        back = () if self.back_mm is None else (round(self.depth_mm - self.back_mm, 6),)
        return (self.front_mm, *back)
