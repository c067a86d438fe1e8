"""Doors of one width over carcasses that are not: they share the run evenly, as far as their hinges let them.

Carcasses that touch one another make a stretch. Over it the doors stand at one width and one gap, so that most edges
come beside the join of two carcasses and not over it: each door then lies further over one side and less over the
other, and a cup hinge allows that between two figures.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from rodwork.carcass.columns import bay_spans, doors_across, free
from rodwork.model.fronts import Doors, Drawers
from rodwork.model.job import Board, Cabinet, CannotBuild
from rodwork.model.run_asked import RunAsked

LEAST_OVER_MM = 4.0  # of a front over the board beside its opening, where no hinge asks for more; common practice
SAME_MM = 0.01

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Stretch:
    """Carcasses with doors that touch: how long they are together, and where the left side of each stands."""

    length: float
    cabinets: tuple[tuple[Cabinet, float], ...]


def spread(asked: RunAsked, standing: Mapping[str, Cabinet], boards: Mapping[str, Board]) -> dict[str, Cabinet]:
    """The cabinets with their fronts where the run has them. Raises CannotBuild where no hinge reaches so far."""
    stretches = list(_stretches(asked, standing))
    _plain(asked, stretches)
    doors = [_door(stretch) for stretch in stretches]
    if max(doors) - min(doors) > SAME_MM:
        a, b = doors.index(min(doors)), doors.index(max(doors))
        raise CannotBuild(
            (*asked.place.path, "doors"),
            f"doors shared evenly would be {doors[a]:.1f} wide over {_names(stretches[a])} and {doors[b]:.1f} over "
            f"{_names(stretches[b])}, which do not touch",
            'write width = "rest" in one of the cabinets',
        )  # fmt: skip
    edges: dict[str, list[tuple[Span, ...]]] = {}
    for stretch, door in zip(stretches, doors, strict=True):
        for cabinet, spans in _edges(stretch, door):
            _reached(asked, cabinet, spans, boards, door, _better(stretches))
            edges.setdefault(cabinet.name, []).append(spans)
    return {name: _moved(asked, standing[name], found) for name, found in edges.items()}


def _stretches(asked: RunAsked, standing: Mapping[str, Cabinet]) -> Iterator[_Stretch]:
    """Cabinets with doors that touch one another, from the left; what has none stands between two stretches."""
    x, held = 0.0, list[tuple[Cabinet, float]]()
    for entry in (*asked.of, None):
        cabinet = standing[entry.name] if entry is not None and entry.stands_as == "cabinet" else None
        if cabinet is None or not cabinet.doors or not free(cabinet):
            if held:
                yield _Stretch(x, tuple(held))
            x, held = 0.0, []
            continue
        held.append((cabinet, x))
        x += cabinet.width_mm


def _plain(asked: RunAsked, stretches: Sequence[_Stretch]) -> None:
    """Only doors that lie over the carcass, with one gap, can be moved on it. Raises CannotBuild."""
    cabinets = [c for stretch in stretches for c, _ in stretch.cabinets]
    for cabinet in cabinets:
        if not _whole(cabinet) or not all(_may_move(f) for f in _fronts(cabinet)):
            raise CannotBuild(
                (*asked.place.path, "doors"),
                "all doors are to be equally wide over carcasses that are not, and the fronts of "
                f"{cabinet.name} cannot be moved: only overlay doors and drawers that are made here can, where every "
                "bay is closed",
                f'write width = "rest" in [cabinets.{cabinet.name}], and its width follows from the doors',
            )  # fmt: skip
    gaps = {f.between_mm for c in cabinets for f in _fronts(c)}
    if len(gaps) > 1:
        raise CannotBuild(
            (*asked.place.path, "doors"),
            "all doors are to be equally wide, and the gaps between them are "
            + " and ".join(f"{g:g}" for g in sorted(gaps)),
            "give all doors and drawers of the run the same `between`",
        )  # fmt: skip


def _fronts(cabinet: Cabinet) -> list[Doors | Drawers]:
    return [*cabinet.doors, *cabinet.drawers]


def _may_move(front: Doors | Drawers) -> bool:
    """Whether a front lies over the carcass, and comes from this shop."""
    return not front.inset if isinstance(front, Drawers) else front.style == "overlay" and front.bought is None


def _whole(cabinet: Cabinet) -> bool:
    """Whether every bay is closed, by as many doors side by side all the way up."""
    bays = range(len(cabinet.bays))
    return all(len(set(_across(cabinet, i))) == 1 for i in bays)


def _across(cabinet: Cabinet, i: int) -> list[int]:
    """How many doors stand side by side in a bay, by each of its tables; drawers count as one where they are alone."""
    doors = [doors_across(d, i, len(cabinet.bays)) for d in cabinet.doors if d.in_bay(i + 1)]
    return doors or [1 for d in cabinet.drawers if d.in_bay(i + 1)]


def _number(cabinet: Cabinet) -> int:
    return sum(_across(cabinet, i)[0] for i in range(len(cabinet.bays)))


def _margins(stretch: _Stretch) -> tuple[float, float, float]:
    """Margin at the left end and at the right end, and the gap between."""
    first, last = stretch.cabinets[0][0].doors[0], stretch.cabinets[-1][0].doors[-1]
    return first.sides_mm, last.sides_mm, first.between_mm


def _door(stretch: _Stretch) -> float:
    """The width of the doors of a stretch."""
    left, right, gap = _margins(stretch)
    number = sum(_number(c) for c, _ in stretch.cabinets)
    return (stretch.length - left - right - (number - 1) * gap) / number


def _edges(stretch: _Stretch, door: float) -> Iterator[tuple[Cabinet, tuple[Span, ...]]]:
    """Left and right edge of the fronts of every bay, from the left side of its cabinet."""
    x, _, gap = _margins(stretch)
    for cabinet, at in stretch.cabinets:
        spans = []
        for i in range(len(cabinet.bays)):
            number = _across(cabinet, i)[0]
            end = x + number * door + (number - 1) * gap
            spans.append((round(x - at, 6), round(end - at, 6)))
            x = end + gap
        yield cabinet, tuple(spans)


def _reached(
    asked: RunAsked, cabinet: Cabinet, spans: Sequence[Span], boards: Mapping[str, Board], door: float, better: str
) -> None:  # fmt: skip
    """Every edge lies over the board beside its bay by as much as its hinge wants. Raises CannotBuild."""
    for i, ((x0, x1), (a, b)) in enumerate(zip(spans, bay_spans(cabinet, boards), strict=True)):
        hung = [d for d in cabinet.doors if d.in_bay(i + 1)]
        for word, over in (("left", round(a - x0, 6)), ("right", round(x1 - b, 6))):
            low, high = LEAST_OVER_MM, float("inf")
            for d in hung:
                if d.hung_in(i + 1, len(cabinet.bays)) in (word, "pair"):
                    least, most = reach(d)
                    low, high = max(low, least), min(high, most)
            if not low <= over <= high:
                told = f"from {low:g} to {high:g}" if high < float("inf") else f"at least {low:g}"
                raise CannotBuild(
                    (*asked.place.path, "doors"),
                    f"all doors are to be {door:.1f} wide, and the {word} edge of the fronts of {cabinet.name} would "
                    f"lie {over:.1f} over the board there: it must be {told}",
                    f"make the carcasses {better}, and doors are equal as they stand; or take hinges that reach so far",
                )  # fmt: skip


def reach(doors: Doors) -> Span:
    """How little and how far over its board a door may lie by the sheet of its hinges, mm."""
    sheet = doors.hinge
    return (
        round(min(sheet.fixed_mm) + sheet.least_rim_mm - max(sheet.plates_mm), 6),
        round(max(sheet.fixed_mm) + sheet.most_rim_mm - min(sheet.plates_mm), 6),
    )


def _better(stretches: Sequence[_Stretch]) -> str:
    """The widths of carcasses that give equal doors with nothing moved: a share for every door."""
    words = dict[str, str]()
    for stretch in stretches:
        number = sum(_number(c) for c, _ in stretch.cabinets)
        each = stretch.length / number
        words |= {c.name: f"{c.name} {_number(c) * each:.1f}" for c, _ in stretch.cabinets}
    return ", ".join(words.values()) + " wide"


def _moved(asked: RunAsked, cabinet: Cabinet, found: Sequence[tuple[Span, ...]]) -> Cabinet:
    """The cabinet with its fronts there; all its copies are made alike. Raises CannotBuild."""
    if any(abs(a[k] - b[k]) > SAME_MM for other in found for a, b in zip(found[0], other, strict=True) for k in (0, 1)):
        raise CannotBuild(
            (*asked.place.path, "doors"),
            f"doors shared evenly lie differently on the copies of {cabinet.name}, which are made alike",
            "give each copy a table and a name of its own",
        )  # fmt: skip
    if len(found) < cabinet.count:
        raise CannotBuild(
            (*asked.place.path, "doors"),
            f"doors shared evenly are moved on {cabinet.name}, and {cabinet.count - len(found)} of its copies do not "
            "stand in the run",
            f"write count = {len(found)} in [cabinets.{cabinet.name}], and the others as a cabinet of their own",
        )  # fmt: skip
    return replace(
        cabinet,
        doors=tuple(replace(d, edges_mm=found[0]) for d in cabinet.doors),
        drawers=tuple(replace(d, edges_mm=found[0]) for d in cabinet.drawers),
    )


def _names(stretch: _Stretch) -> str:
    return " and ".join(dict.fromkeys(c.name for c, _ in stretch.cabinets))
