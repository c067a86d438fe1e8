"""Where a part stands in the cabinet: a proper rotation and a shift, never a mirror."""

from dataclasses import dataclass

from rodwork.geometry.vec import Matrix, Vec, add, apply, clean, sub, transpose

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
