"""The notches of a board: where they are cut, in words, and the room that they take off its face."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from rodwork.documents.annotate import Row, capital, figure, listed
from rodwork.documents.machined import words_of
from rodwork.model.panel import Part
from rodwork.model.surface import EDGES, Surface, axis_of, level

_EQUAL = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Notch:
    """One notch, or several alike. `at`: the ends or edges that it is in; `gone`: (x0, y0, x1, y1) of the board."""

    at: tuple[str, ...]
    deep: str  # "100 from the end"
    along: str  # "60 from the FRONT edge"
    gone: tuple[tuple[float, float, float, float], ...]


def notches(part: Part) -> tuple[Notch, ...]:
    """The notches at the corners of a board, then those in an edge between its corners; alike ones in one."""
    found: dict[tuple[str, str], Notch] = {}
    for notch in (*_at_corners(part), *_in_edges(part)):
        known = found.get((notch.deep, notch.along))
        both = notch if known is None else replace(known, at=(*known.at, *notch.at), gone=(*known.gone, *notch.gone))
        found[notch.deep, notch.along] = both
    return tuple(found.values())


def notch_rows(notch: Notch, letters: str = "") -> tuple[Row, ...]:
    """A notch as a block of notes; `letters` says on which of two boards it is where not on both."""
    return (
        Row(text=f"{letters} notch".strip(), bold=True, size=4.0, before=2.6),
        Row(text=f"right through, {listed(notch.at)}"),
        Row(text=f"{notch.deep}, {notch.along}"),
    )


def notches_of_both(boards: Sequence[tuple[str, Part]]) -> tuple[tuple[Row, ...], ...]:
    """The notes of the notches of two boards, (letter, board) each: what both have alike is said once."""
    said: dict[tuple[tuple[str, ...], str, str], tuple[Notch, list[str]]] = {}
    for letter, part in boards:
        for notch in notches(part):
            said.setdefault((notch.at, notch.deep, notch.along), (notch, []))[1].append(letter)
    return tuple(
        notch_rows(notch, "" if len(letters) == len(boards) else " and ".join(letters))
        for notch, letters in said.values()
    )


def _at_corners(part: Part) -> Iterator[Notch]:
    words, (long, wide, _) = words_of(part), part.size
    edges: tuple[tuple[Surface, float], ...] = (("face_edge", 0.0), ("far_edge", wide))
    ends: tuple[tuple[Surface, float], ...] = (("left_end", 0.0), ("right_end", long))
    for edge, y in edges:
        for end, x in ends:
            on_edge = [abs(p[0] - x) for p in part.outline if abs(p[1] - y) < _EQUAL]
            on_end = [abs(p[1] - y) for p in part.outline if abs(p[0] - x) < _EQUAL]
            if not on_edge or not on_end or min(on_edge) < _EQUAL:
                continue
            inner = (abs(x - min(on_edge)), abs(y - min(on_end)))
            if any(abs(p[0] - inner[0]) < _EQUAL and abs(p[1] - inner[1]) < _EQUAL for p in part.outline):
                yield Notch(
                    at=(words[end],),
                    deep=f"{figure(min(on_edge))} from the end",
                    along=f"{figure(min(on_end))} from the {capital(words[edge])}",
                    gone=(_box((x, y), inner),),
                )


def _in_edges(part: Part) -> Iterator[Notch]:
    words, n = words_of(part), len(part.outline)
    for surface in EDGES:
        across = axis_of(surface)
        along = 1 - across
        reach = sorted(p[across] for p in part.outline)  # a bevelled edge has its long point beyond the outline
        level_ = reach[0] if level(surface, part.size) == 0 else reach[-1]
        datums: tuple[Surface, Surface] = ("left_end", "right_end") if along == 0 else ("face_edge", "far_edge")
        for k in range(n):
            a, b, c, d = (part.outline[(k + i) % n] for i in range(4))
            square = a[along] == b[along] and c[along] == d[along]
            within = b[across] == c[across] and reach[0] < b[across] < reach[-1]
            if not (a[across] == d[across] == level_ and square and within):
                continue
            low, high = sorted((a[along], d[along]))
            far = low + high > part.size[along]
            if far:
                low, high = part.size[along] - high, part.size[along] - low
            yield Notch(
                at=(words[surface],),
                deep=f"{figure(abs(b[across] - level_))} in from the edge",
                along=f"{figure(low)} to {figure(high)} from the {capital(words[datums[far]])}",
                gone=(_box(a, c),),
            )


def _box(a: tuple[float, float], b: tuple[float, float]) -> tuple[float, float, float, float]:
    return (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
