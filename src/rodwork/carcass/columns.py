"""How wide the doors of a cabinet are, and how wide a cabinet is by its doors: columns of fronts from left to right.

A bay whose front is closed by n doors side by side has a clear width of

    n x door + (n - 1) x between - what the outer doors lie over the boards beside it

and the cabinet is its bays and the boards beside and between them. Both are straight lines in the width of a door.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rodwork.carcass.divide import divide
from rodwork.model.fronts import Doors, Drawers
from rodwork.model.job import Board, Cabinet, CannotBuild


@dataclass(frozen=True, slots=True, kw_only=True)
class FrontedBay:
    """A bay as its fronts make it: `number` of doors side by side, and what its clear width has beside them, mm."""

    number: int
    beside: float

    def clear(self, door: float) -> float:
        """Its clear width with doors of this width."""
        return self.number * door + self.beside

    def door(self, clear: float) -> float:
        """The width of its doors where it has this clear width."""
        return (clear - self.beside) / self.number


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """A cabinet as its fronts make it, mm: its bays, and what its boards take."""

    bays: tuple[FrontedBay, ...]
    boards: float

    @property
    def number(self) -> int:
        """How many doors side by side."""
        return sum(bay.number for bay in self.bays)

    @property
    def beside(self) -> float:
        """What of its width is no door."""
        return self.boards + sum(bay.beside for bay in self.bays)

    def width(self, door: float) -> float:
        """Its width with doors of this width."""
        return self.number * door + self.beside


def columns_of(cabinet: Cabinet, board: float) -> Columns:
    """A cabinet that is as wide as its doors make it. `board`: thickness of its sides. Raises CannotBuild."""
    path = (*cabinet.place.path, "width")
    if not free(cabinet):
        raise CannotBuild(
            path, f"{cabinet.name} has {_own_front(cabinet)}, and its width cannot follow from doors",
            "write its width",
        )  # fmt: skip
    if any(clear != "rest" for clear in cabinet.bays):
        raise CannotBuild(
            (*cabinet.place.path, "bays"), "its bays have sizes, and its width is to follow from equal doors",
            'write bays = ["rest", ...], or its width',
        )  # fmt: skip
    bays = [_bay(cabinet, i, board) for i in range(len(cabinet.bays))]
    if None in bays:
        raise CannotBuild(
            path,
            f"bay {bays.index(None) + 1} of {cabinet.name} has no doors and no drawers that its width could follow",
            "write its width, or give it doors",
        )  # fmt: skip
    return Columns(bays=tuple(b for b in bays if b is not None), boards=board * (len(bays) + 1))


def free(cabinet: Cabinet) -> bool:
    """Whether its fronts lie on its carcass and nothing else settles where they go."""
    return cabinet.blind is None and cabinet.face_frame is None


def _own_front(cabinet: Cabinet) -> str:
    return "a blind end" if cabinet.blind is not None else "a face frame"


def own_widths(cabinets: Sequence[Cabinet], boards: Mapping[str, Board]) -> list[tuple[Cabinet, float]]:
    """The widths of the doors of cabinets that have widths of their own, each with its cabinet.

    A cabinet with a blind end or a face frame, and a bay that has drawers alone, keeps to itself.
    """
    out = []
    for cabinet in (c for c in cabinets if free(c)):
        for i, clear in enumerate(clear_bays(cabinet, boards)):
            bay = _bay(cabinet, i, boards[cabinet.board].actual_mm)
            bought = [d.bought for d in cabinet.doors if d.in_bay(i + 1) and d.bought]
            if bought:
                out.append((cabinet, bought[0].width_mm))
            elif bay is not None and any(d.in_bay(i + 1) for d in cabinet.doors):
                out.append((cabinet, round(bay.door(clear), 6)))
    return out


def clear_bays(cabinet: Cabinet, boards: Mapping[str, Board]) -> list[float]:
    """The clear width of every bay of a cabinet that has a width."""
    return [b - a for a, b in bay_spans(cabinet, boards)]


def bay_spans(cabinet: Cabinet, boards: Mapping[str, Board]) -> tuple[tuple[float, float], ...]:
    """Where every bay of a cabinet that has a width is clear, from its left side's outside."""
    t, path = boards[cabinet.board].actual_mm, (*cabinet.place.path, "bays")
    return divide(t, cabinet.width_mm - t, t, cabinet.bays, None, path, "the bays").spaces


def _bay(cabinet: Cabinet, i: int, board: float) -> FrontedBay | None:
    """A bay by its fronts; None where it is open. Raises CannotBuild where they are not of one kind."""
    doors = [d for d in cabinet.doors if d.in_bay(i + 1)]
    fronts: list[Doors | Drawers] = [*doors, *(d for d in cabinet.drawers if d.in_bay(i + 1))]
    if not fronts:
        return None
    numbers = {doors_across(d, i, len(cabinet.bays)) for d in doors} or {1}
    beside = {_beside(cabinet, i, board, f, max(numbers)) for f in fronts}
    if len(numbers) > 1 or len(beside) > 1:
        raise CannotBuild(
            fronts[-1].path or cabinet.place.path,
            f"bay {i + 1} of {cabinet.name} has fronts over one another that cannot be of one width",
            "give them the same style, sides, between and hung",
        )  # fmt: skip
    return FrontedBay(number=max(numbers), beside=beside.pop())


def doors_across(doors: Doors, i: int, bays: int) -> int:
    """How many doors stand side by side in a bay (from 0) of so many."""
    return 2 if doors.hung_in(i + 1, bays) == "pair" else 1


def _beside(cabinet: Cabinet, i: int, board: float, front: Doors | Drawers, number: int) -> float:
    last = len(cabinet.bays) - 1
    over = sum(_over(front, board, outer) for outer in (i == 0, i == last))
    return round((number - 1) * front.between_mm - over, 6)


def _over(front: Doors | Drawers, board: float, outer: bool) -> float:
    """How far a front lies over the board beside its bay; less than nought: it stands off it."""
    if front.inset if isinstance(front, Drawers) else front.style == "inset":
        return -front.sides_mm
    half = isinstance(front, Doors) and front.style == "half overlay"
    return board - front.sides_mm if outer and not half else (board - front.between_mm) / 2
