"""The six surfaces of a part, in its own frame, and what a maker calls them.

Part frame: face side up, face edge towards you; x along the length, y away from you across the width,
z up through the thickness. The frame words stay in the data; paper carries the cabinet words.
"""

from functools import lru_cache
from typing import Literal

from rodwork.geometry.vec import Vec

Surface = Literal["face_edge", "far_edge", "left_end", "right_end", "face_side", "back_side"]

SURFACES: tuple[Surface, ...] = ("face_edge", "far_edge", "left_end", "right_end", "face_side", "back_side")
EDGES: tuple[Surface, ...] = ("face_edge", "far_edge", "left_end", "right_end")

# axis, and whether the surface lies at nought (-1) or at the full size (+1) on it
_PLACE: dict[Surface, tuple[int, int]] = {
    "left_end": (0, -1),
    "right_end": (0, 1),
    "face_edge": (1, -1),
    "far_edge": (1, 1),
    "back_side": (2, -1),
    "face_side": (2, 1),
}
OPPOSITE: dict[Surface, Surface] = {
    "left_end": "right_end",
    "right_end": "left_end",
    "face_edge": "far_edge",
    "far_edge": "face_edge",
    "back_side": "face_side",
    "face_side": "back_side",
}
_AXES: tuple[Vec, Vec, Vec] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def axis_of(surface: Surface) -> int:
    """0, 1 or 2: the part axis that the surface is square to."""
    return _PLACE[surface][0]


def outward(surface: Surface) -> Vec:
    """Unit vector out of the part through the surface, part axes."""
    axis, sign = _PLACE[surface]
    x, y, z = _AXES[axis]
    return (x * sign + 0.0, y * sign + 0.0, z * sign + 0.0)


def inward(surface: Surface) -> Vec:
    """Unit vector into the part through the surface, part axes."""
    return outward(OPPOSITE[surface])


def level(surface: Surface, size: Vec) -> float:
    """Where the surface lies on its axis, mm, for a part of this size."""
    axis, sign = _PLACE[surface]
    return size[axis] if sign > 0 else 0.0


def distance_from(surface: Surface, size: Vec, point: Vec) -> float:
    """How far the point lies inside the part, measured square from the surface, mm."""
    axis, sign = _PLACE[surface]
    return size[axis] - point[axis] if sign > 0 else point[axis]


def surface_worked(out: Vec) -> Surface:
    """The surface that something square to it comes out of this way: a face where it is square to the board.

    Else an edge or end, however much it is bevelled: the one that looks most nearly that way.
    """
    if abs(out[2]) > 1 - 1e-9:
        return "face_side" if out[2] > 0 else "back_side"
    return max(EDGES, key=lambda edge: sum(a * b for a, b in zip(outward(edge), out, strict=True)))


@lru_cache(maxsize=256)
def surface_facing(direction: Vec) -> Surface:
    """The surface whose outward direction is this unit vector of the part frame.

    Raises ValueError where the direction is not along an axis (a bevelled edge).
    """
    for surface in SURFACES:
        d = outward(surface)
        if d[0] * direction[0] + d[1] * direction[1] + d[2] * direction[2] > 1 - 1e-9:
            return surface
    raise ValueError(f"no square surface faces {direction}")
