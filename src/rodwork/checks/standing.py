"""Boards as they stand in the cabinet: the box each takes up, and what lies ahead of a point. Lengths are mm."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from rodwork.geometry.bevels import outline_below
from rodwork.geometry.vec import Vec, clean
from rodwork.model.panel import Part, Point, put_in_last
from rodwork.model.rod import RodCabinet


@dataclass(frozen=True, slots=True)
class Stood:
    """A board with the box that it takes up in the cabinet."""

    part: Part
    low: Vec
    high: Vec


def standing(cabinet: RodCabinet) -> tuple[Stood, ...]:
    """Every board that stands when the cabinet is put together: what is hung or laid in afterwards is left out."""
    return tuple(stood(part) for part in cabinet.whole_boards if not put_in_last(part))


def stood(part: Part) -> Stood:
    """The box of one board."""
    return Stood(part, *part.box)


def stood_at(part: Part, x: float) -> Stood:
    """The box of one board; of one on a slope, of what lies at one place across the cabinet."""
    whole = stood(part)
    if not part.pose.slopes:
        return whole
    faces = ((part.outline, part.size[2]), (outline_below(part.outline, part.bevels, part.size[2]), 0.0))
    (a, b), (c, d) = (sorted({(p[0], p[2]) for p in _in_cabinet(part, outline, z)}) for outline, z in faces)
    at = [p[1] + (q[1] - p[1]) * (x - p[0]) / (q[0] - p[0]) for p, q in ((a, b), (c, d))]
    return Stood(part, (whole.low[0], whole.low[1], min(at)), (whole.high[0], whole.high[1], max(at)))


def _in_cabinet(part: Part, outline: Iterable[Point], z: float) -> Iterator[Vec]:
    return (clean(part.pose.to_cabinet((x, y, z))) for x, y in outline)


def ahead(point: Vec, way: Vec, radius: float, boards: Iterable[Stood]) -> tuple[float, Stood] | None:
    """How far a tool of this radius gets from a point straight on before a board stops it, and the board.

    `way` is a unit vector along one axis of the cabinet. None: nothing stands in the way.
    """
    axis = max(range(3), key=lambda k: abs(way[k]))
    others = [k for k in range(3) if k != axis]
    found: tuple[float, Stood] | None = None
    for board in boards:
        if any(not board.low[k] - radius < point[k] < board.high[k] + radius for k in others):
            continue
        near, far = (board.low[axis], board.high[axis]) if way[axis] > 0 else (board.high[axis], board.low[axis])
        beyond = (near - point[axis]) * way[axis]
        if (far - point[axis]) * way[axis] > 1e-6 and (found is None or beyond < found[0]):
            found = (max(beyond, 0.0), board)
    return found


def meet(low: Vec, high: Vec, board: Stood, clear: float) -> bool:
    """Whether a box and a board share room; they may brush past each other by `clear`."""
    return all(low[k] + clear < board.high[k] and board.low[k] + clear < high[k] for k in range(3))
