"""What was measured off a level line: a wall, or an opening between two walls, and what must not be covered.

One frame for all of it, mm: x to the right from where the left wall crosses the level line at the front; y to the
back from the front of the opening (of a wall alone: from the wall line); z up from the level line, so that the floor
lies below nought. Walls are straight between their readings.
"""

from dataclasses import dataclass
from typing import Literal

from rodwork.geometry.profile import even_places, reading_at

SurveyedWall = Literal["left", "right", "back"]
ServiceKind = Literal["socket", "switch", "pipe", "waste", "valve", "meter", "vent"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moulding:
    """A skirting or a cornice: so high, standing so far out of the wall. `stays`: nobody cuts it away."""

    height: float
    out: float
    stays: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Service:
    """A box on a wall that must not be covered.

    `low` is its lower corner: along the wall (of the back wall from the left wall on the level line, of a side wall
    from the front of the opening) and up from the level line. `size` is along and up; it stands `out` of the wall.
    """

    name: str
    what: ServiceKind
    wall: SurveyedWall
    low: tuple[float, float]
    size: tuple[float, float]
    out: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """Two walls, the back between them where there is one, floor, ceiling, mouldings and services.

    `heights` rise; at each of them `left` and `right` are the walls' x at the front, `left_back` and `right_back` at
    the back (y = `deep`), `depths_left` and `depths_right` the back wall's y at its two ends. Below the first and
    above the last reading both walls go on with `lean`, mm in each mm of height, and the back wall as it was read.
    `floor`, `floor_back` and `ceiling` are heights at even steps from the left wall to the right.
    `taken` says in words what was taken for granted where nothing was read.
    """

    name: str
    heights: tuple[float, ...]
    left: tuple[float, ...]
    right: tuple[float, ...]
    left_back: tuple[float, ...]
    right_back: tuple[float, ...]
    depths_left: tuple[float, ...] | None  # None: a wall, not an opening
    depths_right: tuple[float, ...] | None
    lean: float
    floor: tuple[float, ...]
    floor_back: tuple[float, ...]
    ceiling: tuple[float, ...] | None  # None: not measured
    skirting: Moulding | None = None
    cornice: Moulding | None = None
    services: tuple[Service, ...] = ()
    taken: tuple[str, ...] = ()

    @property
    def deep(self) -> float:
        """Where the back readings were taken: the least depth of the opening; nought of a wall alone."""
        return min((*(self.depths_left or ()), *(self.depths_right or ())), default=0.0)

    @property
    def high_point(self) -> float:
        """The highest point of the floor: feet and plinths start from it."""
        return max(*self.floor, *self.floor_back)

    @property
    def lowest_ceiling(self) -> float | None:
        """The lowest point of the ceiling; None where none was measured."""
        return None if self.ceiling is None else min(self.ceiling)

    def left_at(self, y: float, z: float) -> float:
        """The left wall's x."""
        return self._wall(self.left, self.left_back, y, z)

    def right_at(self, y: float, z: float) -> float:
        """The right wall's x."""
        return self._wall(self.right, self.right_back, y, z)

    def length_at(self, z: float, y: float = 0.0) -> float:
        """From the left wall to the right wall at a height off the level line."""
        return self.right_at(y, z) - self.left_at(y, z)

    def back_at(self, x: float, z: float) -> float | None:
        """The back wall's y; None of a wall alone."""
        if self.depths_left is None or self.depths_right is None:
            return None
        ends = (self.left_at(self.deep, z), self.right_at(self.deep, z))
        depths = [reading_at(self.heights, side, z) for side in (self.depths_left, self.depths_right)]
        return reading_at(ends, depths, x)

    def floor_at(self, x: float, y: float = 0.0) -> float:
        """The floor's height."""
        front, back = (self._along(readings, x) for readings in (self.floor, self.floor_back))
        return reading_at((0.0, self.deep), (front, back), y) if self.deep else front

    def ceiling_at(self, x: float) -> float | None:
        """The ceiling's height; None where none was measured."""
        return None if self.ceiling is None else self._along(self.ceiling, x)

    def _along(self, readings: tuple[float, ...], x: float) -> float:
        """A level read at even steps between the two walls."""
        return reading_at(even_places(self.left_at(0.0, 0.0), self.right_at(0.0, 0.0), len(readings)), readings, x)

    def _wall(self, front: tuple[float, ...], back: tuple[float, ...], y: float, z: float) -> float:
        beyond = z - min(max(z, self.heights[0]), self.heights[-1])
        ends = [reading_at(self.heights, side, z) + self.lean * beyond for side in (front, back)]
        return reading_at((0.0, self.deep), ends, y) if self.deep else ends[0]
