"""The numbers of a face: along the board in a row beside it, across it at its end, moved apart where they touch."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from rodwork.documents.annotate import figure, fits, spread
from rodwork.documents.board_face import Face
from rodwork.documents.board_notes import runs_of
from rodwork.documents.drawing import Path_, Pen, Shape, Text, line, text_width
from rodwork.documents.machined import Work
from rodwork.documents.page import fitted
from rodwork.model.feature import Cutout
from rodwork.model.setup import Reading
from rodwork.model.surface import Surface, axis_of, level

LEADER = Pen(width=0.13, ink="grey")
NUMBER = 5.6  # em of the running numbers, mm
SIDE_NUMBER = 4.6
LEAST_NUMBER = 3.0
NUMBER_GAP = 2.8  # between two in a row: at less than half an em "922" and "9 from TOP" read as one figure
SIDE_GAP = 0.2  # between two of those at the end of a board
OVERHANG = 3.0  # how far they may stand out over the board, away from the numbers along it, without more room kept
APART_MM = 200.0  # from one to the next: what stands further apart is no row that a strip or a jig is stepped along
SIDE_TEXT = 19.5  # mm for a number at the end of a board


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A number along a board: where it belongs on paper, what is written, and to which board of two it goes."""

    x: float
    text: str
    goes_to: int = 0  # 1: only to the board above the row, -1: only to the one below


def side_numbers(
    face: Face, works: Sequence[Work], edge: float, datum: Surface, leftwards: bool = False
) -> tuple[Shape, ...]:
    """The numbers across the board, once, beside its end: from the front; from the back with the word.

    They stay clear of the side where the numbers along the board are, and stand out over the other as far as they
    must to be read: the layout keeps room for `side_stack`.
    """
    view = face.view
    rows = _side_rows(face, works, datum)
    if not rows:
        return ()
    high, out_by = view.height, max(OVERHANG, side_stack(face, works, datum) - view.height)
    size = SIDE_NUMBER
    while size > LEAST_NUMBER and not fits([0.8 * size] * len(rows), high + out_by, SIDE_GAP):
        size = max(size - 0.2, LEAST_NUMBER)
    gutter = view.side_of("face_edge")
    low = view.box.bottom - (0.0 if gutter == "bottom" else out_by)
    top = view.box.top + (0.0 if gutter == "top" else out_by)
    heights = spread([view.across(place) for place in rows.values()], [0.8 * size] * len(rows), low, top, SIDE_GAP)
    out = -1.0 if leftwards else 1.0
    x = edge + out * 5.0
    shapes: list[Shape] = []
    for (text, place), y in zip(rows.items(), heights, strict=True):
        em = fitted(text, size if "from" not in text else min(size, 3.4), SIDE_TEXT, True)
        shapes.append(line((edge + out * 0.7, view.across(place)), (x - out * 0.8, y), LEADER))
        anchor: Literal["start", "end"] = "end" if leftwards else "start"
        shapes.append(Text(at=(x, y - 0.33 * em), text=text, size=em, bold=True, anchor=anchor))
    return tuple(shapes)


def side_stack(face: Face, works: Sequence[Work], datum: Surface) -> float:
    """How high the numbers at the end of a board are, one above the other, at their smallest, mm."""
    many = len(_side_rows(face, works, datum))
    return many * (0.8 * LEAST_NUMBER + SIDE_GAP) - SIDE_GAP if many else 0.0


def _side_rows(face: Face, works: Sequence[Work], datum: Surface) -> dict[str, float]:
    """Each number across the board as it is written, and where it lies on the board."""
    rows: dict[str, float] = {}
    for w in works:
        reading = w.reading_from(1)
        if reading is None or w.runs_through(reading):
            continue
        for mm, place in _numbers_of(w, reading):
            text = figure(mm)
            if reading.from_surface != datum:
                text += f" from {reading.word.split()[0].upper()}"
            rows[text] = place
    return rows


def _number_of(w: Work, reading: Reading) -> tuple[float, float]:
    """The number that is written for a reading, and where it lies on the board: the line if it has one."""
    if reading is w.across and w.line is not None:
        start = level(reading.from_surface, w.part.size)
        return w.line, (start - w.line if start > 0 else w.line)
    return _nearer(reading), _place(w, reading)


def _numbers_of(w: Work, reading: Reading) -> list[tuple[float, float]]:
    """What is written for a reading: one number, of a cut-out both its walls; what is marked has both in its note."""
    if w.setup.is_marked:
        return []
    if isinstance(w.feature, Cutout) and reading.end_mm is not None:
        start = level(reading.from_surface, w.part.size)
        return [(mm, start - mm if start > 0 else mm) for mm in (reading.mm, reading.end_mm)]
    return [_number_of(w, reading)]


def _nearer(reading: Reading) -> float:
    """The number written for a reading: of a groove its near wall, of a rebate the only wall it has."""
    return reading.end_mm if reading.mm == 0 and reading.end_mm is not None else reading.mm


def _place(w: Work, reading: Reading) -> float:
    """Where the written number lies on the board: the middle of a bore, the wall of a groove."""
    axis = axis_of(reading.from_surface)
    if reading.end_mm is None:
        return w.middle[axis]
    a, b = w.span[axis]
    from_high = level(reading.from_surface, w.part.size) > 0
    return b if from_high == (reading.mm > 0) else a


def along_numbers(face: Face, main: Surface) -> dict[str, float]:
    """What is written for each number along the board, and where it stands on paper.

    Of an evenly pitched row only the first and last, unless they are as far apart as hinges; a shelf by its line; where
    a groove along the board begins and ends is said in its note.
    """
    rows: dict[tuple[object, ...], dict[float, float]] = {}
    for w in face.numbered:
        reading = w.reading_from(0)
        if reading is None or w.runs_through(reading):
            continue
        if w.groove is not None and axis_of(w.across.from_surface) == 1:
            continue
        row = "lines" if reading is w.across else (w.across.from_surface, round(w.across.mm, 2))
        for mm, place in _numbers_of(w, reading):
            key = (reading.from_surface, reading.word, w.thing, mm if isinstance(w.feature, Cutout) else row)
            rows.setdefault(key, {})[round(mm, 2)] = face.view.along(place)
    found: dict[str, float] = {}
    for (surface, word, *_), places in rows.items():
        for run in runs_of(sorted(places)):
            apart = len(run) > 1 and run[1] - run[0] > APART_MM
            for mm in run if apart else dict.fromkeys((run[0], run[-1])):
                text = figure(mm) if surface == main else f"{figure(mm)} from {str(word).split()[0].upper()}"
                found[text] = places[mm]
    return found


def number_row(
    numbers: Sequence[Number], low: float, high: float, middle: float, edges: tuple[float | None, float | None]
) -> tuple[Shape, ...]:
    """A row of numbers about this height, moved apart where they would touch, each with its leaders.

    `edges`: the heights of the board above the row and of the one below it (None: there is none).
    """
    numbers = sorted(numbers, key=lambda n: n.x)
    if not numbers:
        return ()
    size, upright = row_size([n.text for n in numbers], high - low)
    lengths = [text_width(n.text, size, True) for n in numbers]
    widths = [0.85 * size] * len(numbers) if upright else lengths
    xs, gap = [n.x for n in numbers], 0.3 if upright else NUMBER_GAP
    places = spread(xs, widths, low, high, gap) if upright else _row_places(numbers, widths, low, high, gap)
    shapes: list[Shape] = []
    for n, x, length in zip(numbers, places, lengths, strict=True):
        half = (length if upright else 0.66 * size) / 2
        y = middle + 2.4 * n.goes_to
        for edge, way in zip(edges, (1, -1), strict=True):
            if edge is not None and n.goes_to != -way:
                elbow = (x, edge - way * min(3.4, abs(edge - y) - half - 0.5))
                points = ((n.x, edge), elbow, (x, y + way * (half + 0.5)))
                shapes.append(Path_(points=points, pen=LEADER))
        if upright:
            at = (x + 0.33 * size, y)
            shapes.append(Text(at=at, text=n.text, size=size, bold=True, anchor="middle", turn=90))
        else:
            shapes.append(Text(at=(x, y - half), text=n.text, size=size, bold=True, anchor="middle"))
    return tuple(shapes)


def _row_places(numbers: Sequence[Number], widths: Sequence[float], low: float, high: float, gap: float) -> list[float]:
    """Where the numbers of a row come; those of one board alone do not mind those of the other."""
    if any(n.goes_to == 0 for n in numbers):
        return spread([n.x for n in numbers], widths, low, high, gap)
    out = [0.0] * len(numbers)
    for way in (1, -1):
        mine = [i for i, n in enumerate(numbers) if n.goes_to == way]
        for i, x in zip(
            mine, spread([numbers[i].x for i in mine], [widths[i] for i in mine], low, high, gap), strict=True
        ):
            out[i] = x
    return out


def row_size(texts: Sequence[str], room: float) -> tuple[float, bool]:
    """The em of a row of numbers, and whether they have to be written upright to find room."""
    for share, least in ((0.75, 4.4), (0.98, LEAST_NUMBER)):  # loose if that is not too small, else tight
        size = NUMBER
        while size > least:
            if fits([text_width(t, size, True) for t in texts], share * room, NUMBER_GAP):
                return size, False
            size -= 0.2
    return 3.6, True
