"""Making a panel that stands in the cabinet: its pose, its outline, its edging and what shows of it.

Poses follow design section 3: face side up and face edge towards you on the bench, so a left side runs
downwards, a right side and a divider upwards, a bottom and a shelf to the right, a top to the left.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import radians, tan
from types import MappingProxyType

from rodwork.geometry.vec import IDENTITY, Matrix, Vec, clean
from rodwork.model.job import Board, Edging
from rodwork.model.panel import EdgingOnPart, Panel, Point, Role
from rodwork.model.pose import Pose
from rodwork.model.surface import EDGES, Surface, axis_of

LEFT_SIDE: Matrix = ((0.0, 0.0, 1.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0))
RIGHT_SIDE: Matrix = ((0.0, 0.0, -1.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
DIVIDER: Matrix = RIGHT_SIDE
TOP: Matrix = ((-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0))
LYING: Matrix = IDENTITY
BACK_UP: Matrix = ((0.0, 1.0, 0.0), (0.0, 0.0, -1.0), (-1.0, 0.0, 0.0))
BACK_ACROSS: Matrix = ((1.0, 0.0, 0.0), (0.0, 0.0, -1.0), (0.0, 1.0, 0.0))
DOOR_LEFT: Matrix = ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
DOOR_RIGHT: Matrix = ((0.0, -1.0, 0.0), (0.0, 0.0, 1.0), (-1.0, 0.0, 0.0))
FRONT_ACROSS: Matrix = ((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0))
# on edge, from front to back: the face side to the right and the length to the back, or both the other way
FACING_RIGHT: Matrix = ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
FACING_LEFT: Matrix = ((0.0, 0.0, -1.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0))

Box = tuple[Vec, Vec]  # lowest and highest corner, cabinet axes
Notch = tuple[float, float]  # along the length, across; nought: none
NO_NOTCH: Notch = (0.0, 0.0)
_SQUARE, _ON_A_SLOPE = 6, 12  # digits: faces that lie on a slope must meet to the last one


@dataclass(frozen=True, slots=True, kw_only=True)
class Notches:
    """What is taken out of the corners of a board, by its own edges and ends."""

    front_left: Notch = NO_NOTCH
    front_right: Notch = NO_NOTCH
    far_right: Notch = NO_NOTCH
    far_left: Notch = NO_NOTCH

    @staticmethod
    def in_front(notch: Notch) -> "Notches":
        """The same off both ends of the face edge."""
        return Notches(front_left=notch, front_right=notch)


UNNOTCHED = Notches()


def panel(
    *,
    id: str,
    role: Role,
    board: Board,
    box: Box,
    rotation: Matrix,
    edged: tuple[Surface, ...],
    edging: Edging | None,
    shows: tuple[Surface, ...],
    notches: Notches = UNNOTCHED,
    bevelled: Mapping[Surface, float] = MappingProxyType({}),
    in_box: bool = True,
    bought: bool = False,
) -> Panel:
    """A panel that fills a box of the cabinet.

    `bevelled`: degrees of its bevelled ends, whose long points lie in the box; a board with any has no notch.
    """
    digits = _ON_A_SLOPE if bevelled else _SQUARE
    size = _part_size(rotation, box, digits)
    added = {e: edging.adds_mm if edging and e in edged else 0.0 for e in EDGES}
    milled = edging.mills_mm if edging else 0.0
    outline = _sloped(size, bevelled) if bevelled else _outline(size, notches)

    def sawn(axis: int) -> float:
        ends = [e for e in EDGES if axis_of(e) == axis]
        return round(size[axis] - sum(added[e] for e in ends) + milled * sum(1 for e in ends if added[e]), 6)

    return Panel(
        id=id, name=id, role=role, in_box=in_box, board=board.name, material=board.material, grain=board.grain,
        measured=False, size=size, cut=(sawn(0), sawn(1)), edging=EdgingOnPart(**added),
        edging_name=edging.name if edging and any(added.values()) else None,
        shows=shows, outline=outline,
        bevels=tuple(bevelled.get(edge, 0.0) for edge in _ROUND) if bevelled else (0.0,) * len(outline),
        pose=_pose(rotation, box, digits), bought=bought,
    )  # fmt: skip


def cut_to(panel: Panel, corners: Sequence[Vec]) -> Panel:
    """A panel cut to an outline within its box: its corners on one face, cabinet axes."""
    points = [panel.pose.to_part(corner) for corner in corners]
    return replace(panel, outline=_counter_clockwise(tuple((x, y) for x, y, _ in points)))


def _counter_clockwise(corners: tuple[Point, ...]) -> tuple[Point, ...]:
    """From the corner nearest (0, 0)."""
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    turned = corners if area > 0 else corners[::-1]
    first = min(range(len(turned)), key=lambda k: turned[k][0] + turned[k][1])
    return (*turned[first:], *turned[:first])


def _part_size(rotation: Matrix, box: Box, digits: int) -> Vec:
    extent = tuple(b - a for a, b in zip(*box, strict=True))
    sizes = [sum(abs(rotation[row][column]) * extent[row] for row in range(3)) for column in range(3)]
    return clean((sizes[0], sizes[1], sizes[2]), digits)


def _pose(rotation: Matrix, box: Box, digits: int) -> Pose:
    """The part's own (0, 0, 0) is the corner of the box from which its axes run."""
    low, high = box
    origin = [high[row] if min(rotation[row]) < -0.5 else low[row] for row in range(3)]
    return Pose(rotation=rotation, origin=clean((origin[0], origin[1], origin[2]), digits))


_ROUND: tuple[Surface, ...] = ("face_edge", "right_end", "far_edge", "left_end")  # as an outline runs


def _sloped(size: Vec, bevelled: Mapping[Surface, float]) -> tuple[Point, ...]:
    """The outline on the face side of a board with bevelled ends, whose long points are in the box."""
    length, width, thickness = size
    left, right = (
        round(thickness * tan(radians(max(bevelled.get(end, 0.0), 0.0))), _ON_A_SLOPE)
        for end in ("left_end", "right_end")
    )
    right = round(length - right, _ON_A_SLOPE)
    return ((left, 0.0), (right, 0.0), (right, width), (left, width))


def _outline(size: Vec, of: Notches) -> tuple[Point, ...]:
    """Counter-clockwise from the corner nearest (0, 0), each notched corner as its three points."""
    length, width, _ = size
    out: list[Point] = []
    for (x, y), (a, b), first in (
        ((0.0, 0.0), of.front_left, "y"),
        ((length, 0.0), of.front_right, "x"),
        ((length, width), of.far_right, "y"),
        ((0.0, width), of.far_left, "x"),
    ):
        if not a or not b:
            out.append((x, y))
            continue
        inner_x, inner_y = round(abs(x - a), 6), round(abs(y - b), 6)
        ends: tuple[Point, Point] = ((x, inner_y), (inner_x, y))
        out += [ends[first == "x"], (inner_x, inner_y), ends[first == "y"]]
    at_start = 0 if out[0] == (0.0, 0.0) else 2
    return (*out[at_start:], *out[:at_start])
