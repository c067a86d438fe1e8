"""Making a panel that stands in the cabinet: its pose, its outline, its edging and what shows of it.

Poses follow design section 3: face side up and face edge towards you on the bench, so a left side runs
downwards, a right side and a divider upwards, a bottom and a shelf to the right, a top to the left.
"""

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

Box = tuple[Vec, Vec]  # lowest and highest corner, cabinet axes


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
    notch: tuple[float, float] = (0.0, 0.0),
    in_box: bool = True,
    bought: bool = False,
) -> Panel:
    """A panel that fills a box of the cabinet. `notch`: (along the length, across) off both front corners."""
    size = _part_size(rotation, box)
    added = {e: edging.adds_mm if edging and e in edged else 0.0 for e in EDGES}
    milled = edging.mills_mm if edging else 0.0

    def sawn(axis: int) -> float:
        ends = [e for e in EDGES if axis_of(e) == axis]
        return round(size[axis] - sum(added[e] for e in ends) + milled * sum(1 for e in ends if added[e]), 6)

    return Panel(
        id=id, name=id, role=role, in_box=in_box, board=board.name, material=board.material, grain=board.grain,
        measured=False, size=size, cut=(sawn(0), sawn(1)), edging=EdgingOnPart(**added),
        edging_name=edging.name if edging and any(added.values()) else None,
        shows=shows, outline=_outline(size, notch), bevels=(0.0,) * (8 if notch[0] and notch[1] else 4),
        pose=_pose(rotation, size, box), bought=bought,
    )  # fmt: skip


def _part_size(rotation: Matrix, box: Box) -> Vec:
    extent = tuple(b - a for a, b in zip(*box, strict=True))
    sizes = [sum(abs(rotation[row][column]) * extent[row] for row in range(3)) for column in range(3)]
    return clean((sizes[0], sizes[1], sizes[2]))


def _pose(rotation: Matrix, size: Vec, box: Box) -> Pose:
    """The part's own (0, 0, 0) is the corner of the box from which its axes run."""
    low, high = box
    origin = [high[row] if min(rotation[row]) < -0.5 else low[row] for row in range(3)]
    return Pose(rotation=rotation, origin=clean((origin[0], origin[1], origin[2])))


def _outline(size: Vec, notch: tuple[float, float]) -> tuple[Point, ...]:
    length, width, _ = size
    a, b = notch
    if not a or not b:
        return ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    return ((a, 0.0), (round(length - a, 6), 0.0), (round(length - a, 6), b), (length, b),
            (length, width), (0.0, width), (0.0, b), (a, b))  # fmt: skip
