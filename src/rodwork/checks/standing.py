"""Boards as they stand in the cabinet: the box each takes up, and what lies ahead of a point. Lengths are mm."""

from collections.abc import Iterable
from dataclasses import dataclass

from rodwork.geometry.vec import Vec
from rodwork.model.panel import Part, put_in_last
from rodwork.model.rod import RodCabinet


@dataclass(frozen=True, slots=True)
class Stood:
    """A board with the box that it takes up in the cabinet."""

    part: Part
    low: Vec
    high: Vec


def standing(cabinet: RodCabinet) -> tuple[Stood, ...]:
    """Every board that stands when the cabinet is put together: what is hung or laid in afterwards is left out."""
    return tuple(stood(part) for part in cabinet.parts if not put_in_last(part))


def stood(part: Part) -> Stood:
    """The box of one board."""
    return Stood(part, *part.box)


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
