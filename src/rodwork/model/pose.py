"""Where a part stands in the cabinet: a proper rotation and a shift, never a mirror."""

from dataclasses import dataclass
from functools import lru_cache

from rodwork.geometry.vec import Matrix, Vec, add, apply, clean, cross, sub, transpose

_SQUARE = 1e-9
_OF_A_DIRECTION = 12  # digits: a slope is met again a metre on


@dataclass(frozen=True, slots=True)
class Pose:
    """Cabinet point = rotation . part point + origin (mm)."""

    rotation: Matrix
    origin: Vec

    def to_cabinet(self, point: Vec) -> Vec:
        """A point of the part frame, in the cabinet frame."""
        return clean(add(apply(self.rotation, point), self.origin))

    def to_part(self, point: Vec) -> Vec:
        """A point of the cabinet frame, in the part frame."""
        return clean(apply(transpose(self.rotation), sub(point, self.origin)))

    def direction_to_cabinet(self, direction: Vec) -> Vec:
        """A direction of the part frame, in the cabinet frame."""
        return clean(apply(self.rotation, direction), _OF_A_DIRECTION)

    def direction_to_part(self, direction: Vec) -> Vec:
        """A direction of the cabinet frame, in the part frame."""
        return clean(apply(transpose(self.rotation), direction), _OF_A_DIRECTION)

    def direction_if_level(self, direction: Vec) -> Vec:
        """A direction of the cabinet in the part frame, as if a board on a slope lay level: the way its names go."""
        return apply(transpose(levelled(self.rotation)), direction)

    @property
    def slopes(self) -> bool:
        """Whether the board lies on a slope."""
        return levelled(self.rotation) != self.rotation


@lru_cache(maxsize=512)
def levelled(rotation: Matrix) -> Matrix:
    """The rotation of a board that lies on a slope, as if it lay level; of any other board its own.

    Its surfaces keep the names that they have then, however steep the slope is.
    """
    if all(min(abs(x), abs(abs(x) - 1)) < _SQUARE for row in rotation for x in row):
        return rotation
    x, y, z = transpose(rotation)
    z = (0.0, 0.0, 1.0 if z[2] > 0 else -1.0)
    if abs(abs(y[1]) - 1) < _SQUARE:  # it slopes along its length
        return transpose((cross(y, z), y, z))
    return transpose((x, cross(z, x), z))
