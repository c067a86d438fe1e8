"""How faces of boards are laid on a page: two with their fronts together, or one with its ends folded out.

The numbers along a board stand in a row beside it, those across it at its end; both are moved apart where they
would touch, each with a leader to its place.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from rodwork.documents.annotate import (
    Box,
    Row,
    block,
    capital,
    figure,
    fits,
    listed,
    place_for,
    spread,
    text_box,
    triangle,
)
from rodwork.documents.board_drawing import (
    BORE_PEN,
    EDGE_PEN,
    LEAST_RADIUS,
    View,
    board_view,
    shelf_line_shapes,
    shelf_lines,
    taken_boxes,
)
from rodwork.documents.board_notes import grouped, note_rows, runs_of
from rodwork.documents.drawing import THIN, Circle, Path_, Pen, Shape, Text, box, line, text_width
from rodwork.documents.machined import Work, marks_words, words_of
from rodwork.documents.page import Area, fitted
from rodwork.model.panel import Part
from rodwork.model.setup import Reading
from rodwork.model.surface import EDGES, OPPOSITE, Surface, axis_of, level

FACES: tuple[Surface, ...] = ("face_side", "back_side")
LEADER = Pen(width=0.13, ink="grey")
NUMBER = 5.6  # em of the running numbers, mm
SIDE_NUMBER = 4.6
LEAST_NUMBER = 3.0
LEFT_ROOM, RIGHT_ROOM, NOTES_ROOM, GUTTER, FOOT_ROOM = 25.0, 31.0, 54.0, 17.0, 12.0
SIDE_TEXT = 19.5  # mm for a number at the end of a board
WORDS_AT, WORDS_STEP = 28.3, 4.6  # from a board, past its numbers, to the word at its right end; row to row
ROW_DOWN = 8.5  # from a board to the row of numbers under it
END_GAP = 2.0  # between a board and its end folded out


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A board with everything set out on it, and the other boards that it is the same as."""

    part: Part
    works: tuple[Work, ...]
    same: tuple[Part, ...] = ()

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every board that this drawing serves."""
        return (self.part, *self.same)

    @property
    def marks(self) -> tuple[str, ...]:
        """The marks of all of them."""
        return tuple(mark for part in self.parts for mark in part.marks)

    def worked_on(self, *surfaces: Surface) -> bool:
        """Whether anything is machined in one of these surfaces."""
        return any(w.bears in surfaces for w in self.works)


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One face of a board as it is drawn: its name, and the letter that tells its numbers from the other face's."""

    view: View
    board: Board
    name: str
    letter: str = ""
    with_edges: bool = True  # bores in the edges and ends are shown, and numbered, on this face

    @property
    def shown(self) -> tuple[Work, ...]:
        """What is drawn: works in this face, bores in edges and ends, and what comes through from behind."""
        return tuple(w for w in self.board.works if w in self.numbered or (w.bears in FACES and w.right_through))

    @property
    def numbered(self) -> tuple[Work, ...]:
        """What has its numbers on this face."""
        return tuple(w for w in self.board.works if w.bears == self.view.seen or (w.bears in EDGES and self.with_edges))

    @property
    def words(self) -> dict[Surface, str]:
        """The cabinet words of the board's surfaces."""
        return words_of(self.board.part)

    def word_at(self, side: str) -> str:
        """The word of the edge or end on this side of the drawing, in capitals: "BOTTOM"."""
        return self.words[self.view.surface_at(side)].split()[0].upper()

    def main(self, axis: int) -> Surface:
        """The edge or end that most of the numbers on this axis are taken from."""
        usual = self.view.surface_at("left") if axis == 0 else "face_edge"
        count = Counter(
            r.from_surface for w in self.numbered if (r := w.reading_from(axis)) is not None and not w.runs_through(r)
        )
        other = OPPOSITE[usual]
        return other if count[other] > count[usual] else usual


@dataclass(frozen=True, slots=True, kw_only=True)
class Number:
    """A number along a board: where it belongs on paper, what is written, and to which board of two it goes."""

    x: float
    text: str
    goes_to: int = 0  # 1: only to the board above the row, -1: only to the one below


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """The body of a sheet, and whether every number on it serves both faces."""

    shapes: tuple[Shape, ...]
    alike: bool = True


# Two faces, fronts together


def two_faces(area: Area, upper: Face, lower: Face) -> Layout:
    """Two faces with their fronts together, the numbers along them between, those from the front beside each.

    The notes stand at the right, or below where the boards are so long that they gain by it.
    """
    notes = [note_rows(group) for group in grouped(_works_of_both(upper, lower))]
    datum, side = _main_across(upper, lower), _main_side(upper, lower)
    upper, lower, below = _placed_two(area, upper, lower, notes, GUTTER)
    numbers, alike = _shared_numbers(upper, lower, side)
    size, upright = _row_size([n.text for n in numbers], _row_room(upper))
    if upright:  # numbers written up and down need a wider gutter
        longest = max(text_width(n.text, size, True) for n in numbers)
        upper, lower, below = _placed_two(area, upper, lower, notes, max(GUTTER, longest + 14.0))
        numbers, alike = _shared_numbers(upper, lower, side)
    shapes: list[Shape] = []
    for face in (upper, lower):
        shapes += _face_shapes(face, datum)
        shapes += _end_words(face, RIGHT_ROOM - 2.2)
        shapes += _side_numbers(face, face.numbered, face.view.box.right, datum)
    top, bottom = upper.view.box.bottom - 0.6, lower.view.box.top + 0.6
    low = upper.view.box.left - 2.0
    shapes += number_row(numbers, low, low + _row_room(upper), (top + bottom) / 2, (top, bottom))
    shapes += _gutter_words(upper, side, (top + bottom) / 2)
    if below:
        shapes += _notes_below(notes, area, lower.view.box.bottom - 5.0)
    else:
        rows = [row for note in notes for row in note]
        x = area.right - NOTES_ROOM + 2.0
        shapes += _notes(rows, x, area.top + 1.0, NOTES_ROOM - 2.0, area.bottom + FOOT_ROOM)
    shapes += _foot_notes((upper, lower), area, datum, side)
    return Layout(shapes=tuple(shapes), alike=alike and _across_alike(upper, lower))


def _row_room(upper: Face) -> float:
    """How wide the row of numbers between the boards may be."""
    return upper.view.width + RIGHT_ROOM + 1.0


def _placed_two(
    area: Area, upper: Face, lower: Face, notes: Sequence[Sequence[Row]], gutter: float
) -> tuple[Face, Face, bool]:
    """Both faces at one scale, as large as goes; and whether the notes stand below them."""
    a, b = upper.board.part.size, lower.board.part.size
    length, width = max(a[0], b[0]), a[1] + b[1]
    high = area.height - gutter - FOOT_ROOM - 4.0
    wide = area.width - LEFT_ROOM - RIGHT_ROOM
    beside = min((wide - NOTES_ROOM) / length, high / width)
    under = min(wide / length, (high - _height_below(notes, area) - 5.0) / width)
    scale = max(beside, under)
    spare = high - (_height_below(notes, area) + 5.0 if under > beside else 0.0) - width * scale
    gutter += min(0.4 * spare, 9.0)
    x = area.left + LEFT_ROOM
    y_upper = area.top - 2.0 - a[1] * scale
    y_lower = y_upper - gutter - b[1] * scale
    return (
        replace(upper, view=replace(upper.view, scale=scale, x=x, y=y_upper)),
        replace(lower, view=replace(lower.view, scale=scale, x=x, y=y_lower)),
        under > beside,
    )


def _main_side(upper: Face, lower: Face) -> str:
    """The side of the drawing that most of the numbers along both faces are taken from."""
    sides: set[tuple[str, float]] = set()
    for face in (upper, lower):
        for surface in ("left_end", "right_end"):
            numbers = along_numbers(face, surface)
            sides |= {(face.view.side_of(surface), x) for text, x in numbers.items() if "from" not in text}
    left = sum(side == "left" for side, _ in sides)
    return "right" if 2 * left < len(sides) else "left"


def _main_across(upper: Face, lower: Face) -> Surface:
    """The edge that most of the numbers across both faces are taken from."""
    rows = [r for f in (upper, lower) for w in f.numbered if (r := w.reading_from(1)) is not None]
    back = sum(r.from_surface == "far_edge" for r in rows)
    return "far_edge" if 2 * back > len(rows) else "face_edge"


def _shared_numbers(upper: Face, lower: Face, side: str) -> tuple[list[Number], bool]:
    """The numbers along both boards once; one that only one of them has carries its letter and stands nearer to it."""
    own = [along_numbers(face, face.view.surface_at(side)) for face in (upper, lower)]
    shared = {key for key in own[0].keys() & own[1].keys() if abs(own[0][key] - own[1][key]) < 0.02}
    numbers = [Number(x=own[0][key], text=key) for key in sorted(shared)]
    for face, mine, goes_to in ((upper, own[0], 1), (lower, own[1], -1)):
        only = [key for key in mine if key not in shared]
        numbers += [Number(x=mine[key], text=f"{face.letter} {key}".strip(), goes_to=goes_to) for key in only]
    return numbers, len(shared) == len(own[0]) == len(own[1])


def _across_alike(upper: Face, lower: Face) -> bool:
    """Whether the numbers across the boards are the same on both."""

    def numbers(face: Face) -> set[tuple[str, float]]:
        return {(r.word, round(r.mm, 2)) for w in face.numbered if (r := w.reading_from(1)) is not None}

    return numbers(upper) == numbers(lower)


def _works_of_both(upper: Face, lower: Face) -> tuple[Work, ...]:
    """The works of both faces, what is on the left side and on the right alike only once."""
    works: dict[object, Work] = {}
    for face in (upper, lower):
        for w in face.numbered:
            readings = ((r.word, r.mm, r.end_mm, r.line) for r in (w.along, w.across))
            key = (w.thing, w.size_words, w.depth_words, w.setup.id, words_of(w.part)[w.bears], *readings)
            works.setdefault(key, w)
    return tuple(works.values())


# One face, its ends folded out


def one_face(area: Area, face: Face, table: Sequence[Shape], table_top: float) -> Layout:
    """One face with its ends folded out beside it, the numbers along it below, what it says in a table under that."""
    ends = [side for side in ("left", "right") if _end_works(face, side)]
    has_row = bool(along_numbers(face, face.main(0)))
    face = _placed_one(area, face, ends, table_top + (ROW_DOWN if has_row else 0.0))
    numbers = [Number(x=x, text=text) for text, x in along_numbers(face, face.main(0)).items()]
    datum = face.main(1)
    shapes: list[Shape] = [*_face_shapes(face, datum)]
    reach = dict.fromkeys(("left", "right"), 0.0)
    for side in ends:
        shapes += _folded_end(face, side)
        reach[side] = face.board.part.size[2] * face.view.scale + END_GAP
    view = face.view
    right, left = view.box.right + reach["right"], view.box.left - reach["left"]
    at_right = [w for w in face.numbered if w.bears != view.surface_at("left")]
    alone = _only_at_left(face, at_right)
    shapes += _side_numbers(face, at_right or alone, right, datum)
    if at_right and alone:
        shapes += _side_numbers(face, alone, left, datum, leftwards=True)
    shapes += _one_face_words(face, left - (12.0 if at_right and alone else 0.0), right + WORDS_AT, has_row)
    row = view.box.bottom - ROW_DOWN
    shapes += number_row(numbers, view.box.left - 15.0, view.box.right + 20.0, row, (view.box.bottom - 0.6, None))
    if numbers:
        shapes.append(_row_caption(face, row))
    return Layout(shapes=(*shapes, *table))


def _placed_one(area: Area, face: Face, ends: Sequence[str], table_top: float) -> Face:
    thick = face.board.part.size[2] * len(ends)
    right_room = WORDS_AT + 1.5 + WORDS_STEP * (len(_shared_words(face, "right")) - 1)
    wide = area.width - LEFT_ROOM - right_room - END_GAP * len(ends)
    high = area.top - table_top - 18.5
    size = face.board.part.size
    scale = min(wide / (size[0] + thick), high / size[1])
    left_end = (size[2] * scale + END_GAP) if "left" in ends else 0.0
    drawn = (size[0] + thick) * scale + END_GAP * len(ends)
    x = area.left + LEFT_ROOM + (wide + END_GAP * len(ends) - drawn) / 2 + left_end
    y = area.top - 7.0 - size[1] * scale - 0.35 * (high - size[1] * scale)
    return replace(face, view=replace(face.view, scale=scale, x=x, y=y))


def _end_works(face: Face, side: str) -> list[Work]:
    return [w for w in face.numbered if w.bears == face.view.surface_at(side) and w.bore is not None]


def _only_at_left(face: Face, at_right: Sequence[Work]) -> list[Work]:
    """Works in the left end whose numbers stand nowhere at the right."""
    known = {(r.word, r.mm) for w in at_right if (r := w.reading_from(1)) is not None}
    at_left = [w for w in face.numbered if w.bears == face.view.surface_at("left")]
    return [w for w in at_left if (r := w.reading_from(1)) is not None and (r.word, r.mm) not in known]


def _folded_end(face: Face, side: str) -> tuple[Shape, ...]:
    """The end of the board folded up into the page about the arris of the face that is seen."""
    view, works = face.view, _end_works(face, side)
    thickness = view.part.size[2]
    out = -1.0 if side == "left" else 1.0
    near = (view.box.left if side == "left" else view.box.right) + out * END_GAP

    def at(z: float) -> float:
        return near + out * view.scale * (thickness - z if view.seen == "face_side" else z)

    inner, outer = at(thickness), at(0.0)
    shapes: list[Shape] = [box(min(inner, outer), view.y, abs(outer - inner), view.height, THIN, "white")]
    for w in works:
        if w.bore is not None:
            radius = max(w.bore.diameter / 2 * view.scale, LEAST_RADIUS)
            centre = (at(w.middle[2]), view.across(w.middle[1]))
            fill = "black" if radius < 0.75 else "white"
            shapes.append(Circle(centre=centre, radius=radius, pen=BORE_PEN, fill=fill))  # type: ignore[arg-type]
    for surface in sorted({w.across.from_surface for w in works if axis_of(w.across.from_surface) == 2}):
        x = at(level(surface, view.part.size))
        shapes.append(line((x, view.box.bottom), (x, view.box.top), EDGE_PEN))
    return tuple(shapes)


def _one_face_words(face: Face, left: float, right: float, has_row: bool) -> tuple[Shape, ...]:
    """What each edge and end is called; where several boards share the sheet, what it is on each."""
    inside = face.view.box
    middle, up = (inside.left + inside.right) / 2, (inside.bottom + inside.top) / 2
    shapes: list[Shape] = []
    for side, x, step in (("left", left - 1.8, -WORDS_STEP), ("right", right, WORDS_STEP)):
        rows = _shared_words(face, side)
        for n, text in enumerate(reversed(rows) if side == "left" else rows):
            size = min(5.0 if len(rows) == 1 else 3.8, 0.98 * face.view.height / max(text_width(text, 1, True), 1e-6))
            at = (x + step * n, up)
            shapes.append(Text(at=at, text=text, size=max(size, 2.6), bold=True, anchor="middle", turn=90))
    below, above = face.word_at("bottom"), face.word_at("top")
    down = inside.bottom - 6.5 - (ROW_DOWN + 1.0 if has_row else 0.0)
    shapes.append(Text(at=(middle, down), text=below, size=5.0, bold=True, anchor="middle"))
    shapes.append(Text(at=(middle, inside.top + 1.8), text=above, size=4.2, bold=True, anchor="middle"))
    if face.words[face.view.surface_at("bottom")] == "front edge":
        half = text_width(below, 5.0, True) / 2 + 3.5
        shapes += [triangle((middle + s * half, down + 0.2), (0.0, -1.0), 3.0) for s in (-1, 1)]
    return tuple(shapes)


def _shared_words(face: Face, side: str) -> list[str]:
    surface = face.view.surface_at(side)
    words = {part.name: words_of(part)[surface].split()[0].upper() for part in face.board.parts}
    if len(set(words.values())) == 1:
        return [face.word_at(side)]
    return [f"{name}: {word}" for name, word in words.items()]


def _row_caption(face: Face, row: float) -> Text:
    """From which end the row of numbers runs, under its beginning."""
    surface = face.main(0)
    text = f"from {face.words[surface].split()[0].upper()}"
    inside = face.view.box
    if face.view.side_of(surface) == "left":
        return Text(at=(inside.left - 1.0, row - 6.0), text=text, size=3.6, anchor="end")
    return Text(at=(inside.right + 1.0, row - 6.0), text=text, size=3.6)


# What both layouts share


def _face_shapes(face: Face, datum: Surface) -> tuple[Shape, ...]:
    """The board, its lines with their X, and its name and mark where there is room for them."""
    view, works = face.view, face.shown
    lines = shelf_lines(view, works)
    taken = list(taken_boxes(view, works, lines))
    drawn = board_view(view, works, thick=(datum,))
    crosses = shelf_line_shapes(view, lines, taken)
    taken += [text_box(s) for s in crosses if isinstance(s, Text)]
    return (*drawn, *crosses, *_name(face, taken))


def _name(face: Face, taken: Sequence[Box]) -> tuple[Shape, ...]:
    """The board's mark and name inside it, as large as goes between the bores."""
    marks = marks_words(face.board.marks, 2)
    inside = face.view.box
    wish = (inside.left + face.view.width * 0.35, (inside.bottom + inside.top) / 2)
    with_marks = [(f"{marks} {face.name}", size) for size in (6.0, 5.0, 4.2)] if len(face.board.marks) < 3 else []
    for text, size in (*with_marks, *((face.name, size) for size in (6.0, 5.0, 4.2, 3.6, 3.0))):
        spot = place_for(text_width(text, size, True) + 3.0, size, inside, taken, wish)
        if spot is not None:
            return (Text(at=(spot[0] + 1.5, spot[1] + 0.2 * size), text=text, size=size, bold=True),)
    return ()


def _end_words(face: Face, right: float) -> tuple[Shape, ...]:
    """BOTTOM at the left end and TOP at the right (or whatever the ends are called), turned along the end."""
    inside = face.view.box
    middle = (inside.bottom + inside.top) / 2
    texts = (face.word_at("left"), face.word_at("right"))
    size = max(2.6, min(5.4, 0.95 * face.view.height / max(text_width(t, 1, True) for t in texts)))
    return tuple(
        Text(at=(x, middle), text=text, size=size, bold=True, anchor="middle", turn=90)
        for x, text in zip((inside.left - 1.8, inside.right + right), texts, strict=True)
    )


def _side_numbers(
    face: Face, works: Sequence[Work], edge: float, datum: Surface, leftwards: bool = False
) -> tuple[Shape, ...]:
    """The numbers across the board, once, beside its end: from the front; from the back with the word."""
    view = face.view
    rows: dict[str, float] = {}
    for w in works:
        reading = w.reading_from(1)
        if reading is None or w.runs_through(reading):
            continue
        mm, place = _number_of(w, reading)
        text = figure(mm)
        if reading.from_surface != datum:
            text += f" from {reading.word.split()[0].upper()}"
        rows[text] = view.across(place)
    if not rows:
        return ()
    size = SIDE_NUMBER
    gutter = view.side_of("face_edge")  # where the numbers along the board are: stay clear of them
    low = view.box.bottom - (0.0 if gutter == "bottom" else 3.0)
    high = view.box.top + (0.0 if gutter == "top" else 3.0)
    while size > LEAST_NUMBER and not fits([0.8 * size] * len(rows), high - low, 0.2):
        size -= 0.2
    heights = spread(list(rows.values()), [0.8 * size] * len(rows), low, high, 0.2)
    out = -1.0 if leftwards else 1.0
    x = edge + out * 5.0
    shapes: list[Shape] = []
    for (text, true), y in zip(rows.items(), heights, strict=True):
        em = fitted(text, size if "from" not in text else min(size, 3.4), SIDE_TEXT, True)
        shapes.append(line((edge + out * 0.7, true), (x - out * 0.8, y), LEADER))
        anchor = "end" if leftwards else "start"
        shapes.append(Text(at=(x, y - 0.33 * em), text=text, size=em, bold=True, anchor=anchor))  # type: ignore[arg-type]
    return tuple(shapes)


def _number_of(w: Work, reading: Reading) -> tuple[float, float]:
    """The number that is written for a reading, and where it lies on the board: the line if it has one."""
    if reading is w.across and w.line is not None:
        start = level(reading.from_surface, w.part.size)
        return w.line, (start - w.line if start > 0 else w.line)
    return _nearer(reading), _place(w, reading)


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

    Of an evenly pitched row only the first and last; a shelf by its line; where a groove along the board begins
    and ends is said in its note.
    """
    rows: dict[tuple[object, ...], dict[float, float]] = {}
    for w in face.numbered:
        reading = w.reading_from(0)
        if reading is None or w.runs_through(reading):
            continue
        if w.groove is not None and axis_of(w.across.from_surface) == 1:
            continue
        mm, place = _number_of(w, reading)
        row = "lines" if reading is w.across else (w.across.from_surface, round(w.across.mm, 2))
        key = (reading.from_surface, reading.word, w.thing, row)
        rows.setdefault(key, {})[round(mm, 2)] = face.view.along(place)
    found: dict[str, float] = {}
    for (surface, word, *_), places in rows.items():
        for run in runs_of(sorted(places)):
            for mm in dict.fromkeys((run[0], run[-1])):
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
    size, upright = _row_size([n.text for n in numbers], high - low)
    lengths = [text_width(n.text, size, True) for n in numbers]
    widths = [0.85 * size] * len(numbers) if upright else lengths
    places = _row_places(numbers, widths, low, high, 0.3 if upright else 1.6)
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


def _row_size(texts: Sequence[str], room: float) -> tuple[float, bool]:
    """The em of a row of numbers, and whether they have to be written upright to find room."""
    for share, least in ((0.75, 4.4), (0.98, LEAST_NUMBER)):  # loose if that is not too small, else tight
        size = NUMBER
        while size > least:
            if fits([text_width(t, size, True) for t in texts], share * room, 1.6):
                return size, False
            size -= 0.2
    return 3.6, True


def _gutter_words(face: Face, side: str, middle: float) -> tuple[Shape, ...]:
    """Which edges meet here, and from where the numbers run."""
    x = face.view.box.left - LEFT_ROOM
    main = face.word_at(side)
    return (
        Text(at=(x, middle + 0.8), text=f"{face.word_at('bottom')}S", size=4.6, bold=True),
        Text(at=(x, middle - 3.8), text=f"from {main}", size=3.4),
        triangle((x + 8.0, middle + 8.0), (0.0, 1.0), 2.6),
        triangle((x + 8.0, middle - 8.0), (0.0, -1.0), 2.6),
    )


def _notes(rows: Sequence[Row], x: float, top: float, width: float, bottom: float) -> tuple[Shape, ...]:
    """The notes beside the drawing, smaller where there are many."""
    shapes: tuple[Shape, ...] = ()
    for shrink in (1.0, 0.9, 0.8, 0.74, 0.7):
        shapes, end = block(_shrunk(rows, shrink), x, top, width)
        if end >= bottom:
            break
    return shapes


def _shrunk(rows: Sequence[Row], by: float) -> list[Row]:
    return [replace(row, size=max(row.size * by, 2.6), before=row.before * by) for row in rows]


NOTES_BELOW_WIDTH = 62.0


def _notes_below(notes: Sequence[Sequence[Row]], area: Area, top: float) -> tuple[Shape, ...]:
    """The notes in columns under the boards, each note whole."""
    shapes: list[Shape] = []
    for column, rows in enumerate(_columns(notes, area)):
        made, _ = block(rows, area.left + column * (NOTES_BELOW_WIDTH + 5.0), top, NOTES_BELOW_WIDTH)
        shapes += made
    return tuple(shapes)


def _columns(notes: Sequence[Sequence[Row]], area: Area) -> list[list[Row]]:
    """The notes shared out over as many columns as there are, each next one to the shortest."""
    many = max(1, min(len(notes), int((area.width + 5.0) // (NOTES_BELOW_WIDTH + 5.0))))
    columns: list[list[Row]] = [[] for _ in range(many)]
    for note in notes:
        min(columns, key=lambda c: -block(c, 0.0, 0.0, NOTES_BELOW_WIDTH)[1]).extend(note)
    return columns


def _height_below(notes: Sequence[Sequence[Row]], area: Area) -> float:
    return max((-block(c, 0.0, 0.0, NOTES_BELOW_WIDTH)[1] for c in _columns(notes, area)), default=0.0)


def _foot_notes(faces: tuple[Face, Face], area: Area, datum: Surface, side: str) -> tuple[Shape, ...]:
    """Where numbers run from, what the X means, what the edging does to them."""
    face = faces[0]
    main = face.view.surface_at(side)
    texts = [f"Numbers between the boards run from the {capital(face.words[main])}"]
    others = {
        r.word for f in faces for w in f.numbered if (r := w.reading_from(0)) is not None and not w.runs_through(r)
    }
    if face.words[OPPOSITE[main]] in others:
        texts[0] += f", save those marked from {face.words[OPPOSITE[main]].split()[0].upper()}"
    texts[0] += f"; numbers at the right-hand end from the {capital(face.words[datum])}, the thick line."
    rows = [" ".join(texts), " ".join(remarks(faces))]
    top = area.bottom + FOOT_ROOM - 1.5
    for size in (3.5, 3.2, 2.9, 2.6):
        shapes, end = block([Row(text=t, size=size) for t in rows if t], area.left, top, area.width)
        if end >= area.bottom:
            break
    return shapes


def remarks(faces: Sequence[Face]) -> list[str]:
    """What has to be known of every number on the sheet."""
    out = []
    if any(shelf_lines(f.view, f.shown) for f in faces):
        out.append("X: the other board stands on this side of the line.")
    part = faces[0].board.part
    edged = [words_of(part)[s] for s in EDGES if part.edging.at(s) > 0]
    if edged:
        early = any(w.feature.stage == "before edging" for f in faces for w in f.numbered)
        out.append(
            f"Edging is on the {listed(edged)} before any of this{', save where a note says so' if early else ''}."
        )
    if any(w.right_through and w.bears in FACES and w.bears != f.view.seen for f in faces for w in f.shown):
        out.append("Grey rings: bores that come through from the other face.")
    return out
