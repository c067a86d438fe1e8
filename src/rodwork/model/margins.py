"""The margins round the fronts of a shut cabinet: from one front to the next, to the opening, to the outside."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from rodwork.model.panel import Part, Role
from rodwork.model.rod import RodCabinet

MOST_MM = 45.0  # further apart, two edges make no margin
_HAIR = 1e-6

Beside = Literal["fronts", "blind board", "opening", "outside"]
_BESIDE: dict[Role, Beside] = {"door": "fronts", "drawer front": "fronts", "infill": "blind board"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Margin:
    """One margin, mm as made: beside what, between which boards, and how many films of a finish lie in it."""

    beside: Beside
    parts: tuple[str, ...]
    mm: float

    @property
    def films(self) -> int:
        """On the front's edge, and on what it moves past."""
        return 1 if self.beside == "outside" else 2

    def finished(self, film_mm: float) -> float:
        """What is left of it when the finish is on, mm."""
        return round(self.mm - self.films * film_mm, 6)


def fronts(cabinet: RodCabinet) -> tuple[Part, ...]:
    """What is seen of a cabinet that is shut: its doors and the fronts of its drawers."""
    return tuple(p for p in cabinet.parts if p.role in ("door", "drawer front") and "back_side" in p.shows)


def margins(cabinet: RodCabinet) -> tuple[Margin, ...]:
    """Every margin of a shut cabinet, each once."""
    found: dict[tuple[str, ...], Margin] = {}
    for front in fronts(cabinet):
        for axis in (0, 2):
            for sign in (-1, 1):
                margin = _beyond(cabinet, front, axis, sign)
                if margin is not None:
                    found.setdefault((*sorted(margin.parts), str(axis), str(margin.mm)), margin)
    return tuple(found.values())


def _beyond(cabinet: RodCabinet, front: Part, axis: int, sign: int) -> Margin | None:
    """The margin at one edge of a front: to the nearest board in its own plane, else to the outside of the carcass."""
    low, high = front.box
    edge = (high if sign > 0 else low)[axis]
    nearest = min(_gaps(cabinet, front, axis, sign, edge), default=None, key=lambda found: found[0])
    if nearest is not None:
        mm, other = nearest
        return Margin(beside=_BESIDE.get(other.role, "opening"), parts=(front.id, other.id), mm=round(mm, 6))
    if low[1] > -_HAIR:
        return None  # inset, with nothing beside it
    outside = cabinet.size[0 if axis == 0 else 1] if sign > 0 else 0.0
    mm = sign * (outside - edge)
    return Margin(beside="outside", parts=(front.id,), mm=round(mm, 6)) if 0 <= mm <= MOST_MM else None


def _gaps(cabinet: RodCabinet, front: Part, axis: int, sign: int, edge: float) -> Iterator[tuple[float, Part]]:
    """How far it is to each board that stands in the way of a front's edge."""
    low, high = front.box
    others = [k for k in range(3) if k != axis]
    for part in cabinet.whole_boards:
        a, b = part.box
        gap = a[axis] - edge if sign > 0 else edge - b[axis]
        level = all(a[k] < high[k] - _HAIR and low[k] < b[k] - _HAIR for k in others)
        if part.id != front.id and level and -_HAIR <= gap <= MOST_MM:
            yield gap, part
