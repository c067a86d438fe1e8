"""How faces of boards are laid on a page: two with their fronts together, or one with its ends folded out.

The numbers along a board stand in a row beside it, those across it at its end; both are moved apart where they
would touch, each with a leader to its place.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from rodwork.documents.annotate import (
    Box,
    Row,
    block,
    capital,
    figure,
    listed,
    on_edges,
    text_box,
    triangle,
)
from rodwork.documents.askew_edges import askew_notes, lengths_beside
from rodwork.documents.bevels import bevel_words
from rodwork.documents.board_drawing import (
    BORE_PEN,
    EDGE_PEN,
    LEAST_RADIUS,
    bored_as_bought,
    shelf_lines,
)
from rodwork.documents.board_face import FACES, Face, face_shapes
from rodwork.documents.board_notches import notches_of_both
from rodwork.documents.board_notes import grouped, note_rows
from rodwork.documents.board_numbers import (
    OVERHANG,
    Number,
    along_numbers,
    number_row,
    row_size,
    side_numbers,
    side_stack,
)
from rodwork.documents.drawing import THIN, Anchor, Circle, Ink, Path_, Shape, Text, box, line, text_width
from rodwork.documents.machined import Work, words_of
from rodwork.documents.mouths import mouth
from rodwork.documents.page import Area
from rodwork.model.slope import on_the_slope
from rodwork.model.surface import EDGES, OPPOSITE, Surface, axis_of, level

LEFT_ROOM, RIGHT_ROOM, NOTES_ROOM, GUTTER, FOOT_ROOM = 25.0, 31.0, 54.0, 17.0, 12.0
ENDS: tuple[Surface, Surface] = ("left_end", "right_end")
WORDS_AT, WORDS_STEP = 28.3, 4.6  # from a board, past its numbers, to the word at its right end; row to row
ROW_DOWN = 8.5  # from a board to the row of numbers under it
WORD = 5.0  # em of the word under a board
END_GAP = 2.0  # between a board and its end folded out


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
    boards = {face.letter: face.board.part for face in (upper, lower)}  # one board where both are its faces
    notes += notches_of_both(tuple(boards.items()))
    notes += askew_notes(upper.board)
    datum, side = _main_across(upper, lower), _main_side(upper, lower)
    upper, lower, columns = _placed_two(area, upper, lower, notes, GUTTER, datum)
    numbers, alike = _shared_numbers(upper, lower, side)
    size, upright = row_size([n.text for n in numbers], _row_room(upper))
    if upright:  # numbers written up and down need a wider gutter
        longest = max(text_width(n.text, size, True) for n in numbers)
        upper, lower, columns = _placed_two(area, upper, lower, notes, max(GUTTER, longest + 14.0), datum)
        numbers, alike = _shared_numbers(upper, lower, side)
    shapes: list[Shape] = []
    for face in (upper, lower):
        shapes += face_shapes(face, datum)
        shapes += _end_words(face, RIGHT_ROOM - 2.2)
        shapes += side_numbers(face, face.numbered, face.view.box.right, datum)
    top, bottom = upper.view.box.bottom - 0.6, lower.view.box.top + 0.6
    low = upper.view.box.left - 2.0
    shapes += number_row(numbers, low, low + _row_room(upper), (top + bottom) / 2, (top, bottom))
    shapes += _gutter_words(upper, side, (top + bottom) / 2)
    beside = _notes_beside(notes, columns, area) if columns else None
    shapes += _notes_below(notes, area, lower.view.box.bottom - 5.0) if beside is None else beside
    shapes += _foot_notes((upper, lower), area, datum, side)
    return Layout(shapes=tuple(shapes), alike=alike and _across_alike(upper, lower))


def _row_room(upper: Face) -> float:
    """How wide the row of numbers between the boards may be."""
    return upper.view.width + RIGHT_ROOM + 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing:
    """Where the notes of two faces stand, and the room that leaves: both faces at one scale, as large as goes."""

    columns: int  # of notes at the right of the boards; 0: they stand in columns below
    scale: float
    spare: float  # mm of height left over


def _placed_two(
    area: Area, upper: Face, lower: Face, notes: Sequence[Sequence[Row]], gutter: float, datum: Surface
) -> tuple[Face, Face, int]:
    """Both faces at one scale, as large as goes; and in how many columns the notes stand at the right (0: below)."""
    stacks = tuple(side_stack(face, face.numbered, datum) for face in (upper, lower))
    placing = _roomiest(area, upper, lower, notes, gutter, stacks)
    scale = placing.scale
    high_upper, high_lower = (f.board.part.size[1] * scale for f in (upper, lower))
    gutter += min(0.4 * placing.spare, 9.0)
    x = area.left + LEFT_ROOM
    y_upper = area.top - 2.0 - _with_stack(high_upper, stacks[0])
    y_lower = y_upper - gutter - high_lower
    return (
        replace(upper, view=replace(upper.view, scale=scale, x=x, y=y_upper)),
        replace(lower, view=replace(lower.view, scale=scale, x=x, y=y_lower)),
        placing.columns,
    )


def _roomiest(
    area: Area, upper: Face, lower: Face, notes: Sequence[Sequence[Row]], gutter: float, stacks: tuple[float, ...]
) -> Placing:
    """The placing of the notes that leaves the boards the largest scale; where equal, the one before."""
    length = max(f.board.part.size[0] for f in (upper, lower))
    widths = [f.board.part.size[1] for f in (upper, lower)]
    high = area.height - gutter - FOOT_ROOM - 4.0
    wide = area.width - LEFT_ROOM - RIGHT_ROOM
    tall = high - _height_below(notes, area) - 5.0
    rooms = [(1, wide - NOTES_ROOM, high), (0, wide, tall), (2, wide - 2 * NOTES_ROOM, high)]
    rooms.append((3, wide - 3 * NOTES_ROOM, high))
    found: list[Placing] = []
    for columns, broad, deep in rooms:
        if columns and _notes_beside(notes, columns, area) is None:
            continue
        scale = min(broad / length, _scale_of_height(widths, stacks, deep))
        taken = sum(_with_stack(w * scale, s) for w, s in zip(widths, stacks, strict=True))
        found.append(Placing(columns=columns, scale=scale, spare=deep - taken))
    return max(found, key=lambda placing: placing.scale)


def _with_stack(high: float, stack: float) -> float:
    """The height of a board on paper, or of its numbers where they need more than stands over it anyhow."""
    return max(high, stack - OVERHANG)


def _scale_of_height(widths: Sequence[float], stacks: Sequence[float], high: float) -> float:
    """The largest scale at which the boards, and the numbers at their ends, have room in this height; 0 if none."""
    low, top = 0.0, high / sum(widths)
    for _ in range(40):
        trial = (low + top) / 2
        if sum(_with_stack(w * trial, s) for w, s in zip(widths, stacks, strict=True)) <= high:
            low = trial
        else:
            top = trial
    return low


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
    shapes: list[Shape] = [*face_shapes(face, datum)]
    reach = dict.fromkeys(("left", "right"), 0.0)
    for side in ends:
        shapes += _folded_end(face, side)
        reach[side] = _folded_mm(face, side) * face.view.scale + END_GAP
    view = face.view
    right, left = view.box.right + reach["right"], view.box.left - reach["left"]
    at_right = [w for w in face.numbered if w.bears != view.surface_at("left")]
    alone = _only_at_left(face, at_right)
    shapes += side_numbers(face, at_right or alone, right, datum)
    if at_right and alone:
        numbers_left = side_numbers(face, alone, left, datum, leftwards=True)
        shapes += numbers_left
        left = min(text_box(s).left for s in numbers_left if isinstance(s, Text)) - 0.6
    row = view.box.bottom - ROW_DOWN
    row_of_numbers = number_row(
        numbers, view.box.left - 15.0, view.box.right + 20.0, row, (view.box.bottom - 0.6, None)
    )  # fmt: skip
    lowest = min((text_box(s).bottom for s in row_of_numbers if isinstance(s, Text)), default=view.box.bottom)
    shapes += [*row_of_numbers, *_one_face_words(face, left, right + WORDS_AT, lowest)]
    if numbers:
        shapes.append(_row_caption(face, row, [text_box(s) for s in row_of_numbers if isinstance(s, Text)]))
    return Layout(shapes=(*shapes, *table))


def _placed_one(area: Area, face: Face, ends: Sequence[str], table_top: float) -> Face:
    thick = sum(_folded_mm(face, side) for side in ends)
    right_room = WORDS_AT + 1.5 + WORDS_STEP * (len(_shared_words(face, "right")) - 1)
    wide = area.width - LEFT_ROOM - right_room - END_GAP * len(ends)
    high = area.top - table_top - 18.5
    size = face.board.part.size
    scale = min(wide / (size[0] + thick), high / size[1])
    left_end = (_folded_mm(face, "left") * scale + END_GAP) if "left" in ends else 0.0
    drawn = (size[0] + thick) * scale + END_GAP * len(ends)
    x = area.left + LEFT_ROOM + (wide + END_GAP * len(ends) - drawn) / 2 + left_end
    y = area.top - 7.0 - size[1] * scale - 0.35 * (high - size[1] * scale)
    return replace(face, view=replace(face.view, scale=scale, x=x, y=y))


def _folded_mm(face: Face, side: str) -> float:
    """How wide the end at this side is, seen square on."""
    part = face.board.part
    return on_the_slope(part, face.view.surface_at(side), part.size[2])


def _end_works(face: Face, side: str) -> list[Work]:
    return [w for w in face.numbered if w.bears == face.view.surface_at(side) and w.groove is None]


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

    steep = on_the_slope(view.part, view.surface_at(side), 1.0)  # a bevelled end is seen square on, all its slope

    def at(z: float) -> float:
        return near + out * view.scale * steep * (thickness - z if view.seen == "face_side" else z)

    inner, outer = at(thickness), at(0.0)
    shapes: list[Shape] = [box(min(inner, outer), view.y, abs(outer - inner), view.height, THIN, "white")]
    for w in works:
        if w.bore is None:
            steps = ((at(w.middle[2] + dz), view.across(w.middle[1] + dy)) for _, dy, dz in mouth(w.feature))
            shapes.append(Path_(points=tuple(steps), closed=True, pen=BORE_PEN, fill="white"))
        else:
            radius = max(w.bore.diameter / 2 * view.scale, LEAST_RADIUS)
            centre = (at(w.middle[2]), view.across(w.middle[1]))
            fill: Ink = "black" if radius < 0.75 else "white"
            shapes.append(Circle(centre=centre, radius=radius, pen=BORE_PEN, fill=fill))
    for surface in sorted({w.across.from_surface for w in works if axis_of(w.across.from_surface) == 2}):
        x = at(level(surface, view.part.size))
        shapes.append(line((x, view.box.bottom), (x, view.box.top), EDGE_PEN))
    return tuple(shapes)


def _one_face_words(face: Face, left: float, right: float, lowest: float) -> tuple[Shape, ...]:
    """What each edge and end is called; where several boards share the sheet, what it is on each.

    `lowest`: how far down the row of numbers reaches, under which the word of the lower edge stands.
    """
    inside = face.view.box
    middle, up = (inside.left + inside.right) / 2, (inside.bottom + inside.top) / 2
    shapes: list[Shape] = []
    for side, x, step in (("left", left - 1.8, -WORDS_STEP), ("right", right, WORDS_STEP)):
        rows = _shared_words(face, side)
        for n, text in enumerate(reversed(rows) if side == "left" else rows):
            size = min(5.0 if len(rows) == 1 else 3.8, 0.98 * face.view.height / max(text_width(text, 1, True), 1e-6))
            at = (x + step * n, up)
            if size < 2.6 and side == "left" and len(rows) == 1:  # longer than a narrow board is wide: level beside it
                shapes.append(Text(at=(x, up - 1.2), text=text, size=3.6, bold=True, anchor="end"))
                continue
            shapes.append(Text(at=at, text=text, size=max(size, 2.6), bold=True, anchor="middle", turn=90))
    below, above = _edge_word(face, "bottom"), _edge_word(face, "top")
    has_row = lowest < inside.bottom
    down = min(inside.bottom - 6.5 - (ROW_DOWN + 1.0 if has_row else 0.0), lowest - 0.8 * WORD - 0.6)
    shapes.append(Text(at=(middle, down), text=below, size=WORD, bold=True, anchor="middle"))
    shapes.append(Text(at=(middle, inside.top + 1.8), text=above, size=4.2, bold=True, anchor="middle"))
    if _front_is_below(face):
        half = _word_width(face) / 2 - 1.5
        shapes += [triangle((middle + s * half, down + 0.2), (0.0, -1.0), 3.0) for s in (-1, 1)]
    return tuple(shapes)


def _edge_word(face: Face, side: str) -> str:
    """What the edge at this side is called, with its length where it runs into an edge askew: "LEFT 971.5 long"."""
    long = lengths_beside(face.board).get(face.view.surface_at(side))
    return f"{face.word_at(side)} {long} long" if long else face.word_at(side)


def _shared_words(face: Face, side: str) -> list[str]:
    surface = face.view.surface_at(side)
    words = {part.name: words_of(part)[surface].split()[0].upper() for part in face.board.parts}
    if len(set(words.values())) == 1:
        return [face.word_at(side)]
    kinds: dict[str, dict[str, str]] = {}
    for name, word in words.items():
        kinds.setdefault(" ".join(w for w in name.split() if not w.isdigit()), {})[name] = word
    rows: list[str] = []
    for kind, named in kinds.items():  # all drawer backs in one word, where it is the same on them
        alike = len(named) > 1 and len(set(named.values())) == 1
        rows += [f"{kind}s: {next(iter(named.values()))}"] if alike else [f"{n}: {w}" for n, w in named.items()]
    return rows


def _row_caption(face: Face, row: float, numbers: Sequence[Box]) -> Text:
    """From which end the row of numbers runs: in the row at that end; where they leave no room, under its beginning."""
    surface = face.main(0)
    text = f"from {face.words[surface].split()[0].upper()}"
    inside = face.view.box
    at_left = face.view.side_of(surface) == "left"
    anchor: Anchor = "end" if at_left else "start"
    if at_left:
        beside = min([inside.left - 1.0, *(number.left - 2.0 for number in numbers)])
        has_room = beside - text_width(text, 3.6) > inside.left - LEFT_ROOM
    else:
        beside = max([inside.right + 1.0, *(number.right + 2.0 for number in numbers)])
        has_room = beside + text_width(text, 3.6) < inside.right + WORDS_AT
    if has_room:
        return Text(at=(beside, row - 1.2), text=text, size=3.6, anchor=anchor)
    half = max(inside.right - inside.left, _word_width(face)) / 2 + 1.0  # clear of the word under the middle
    out = -half if at_left else half
    return Text(at=(inside.middle + out, row - 6.0), text=text, size=3.6, anchor=anchor)


def _word_width(face: Face) -> float:
    """How wide the word under a face is, with the triangles that stand at both sides of a front edge."""
    wide = text_width(_edge_word(face, "bottom"), WORD, True)
    return wide + 10.0 if _front_is_below(face) else wide


def _front_is_below(face: Face) -> bool:
    return face.words[face.view.surface_at("bottom")] == "front edge"


# What both layouts share


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


def _gutter_words(face: Face, side: str, middle: float) -> tuple[Shape, ...]:
    """Which edges meet here, and from where the numbers run."""
    x = face.view.box.left - LEFT_ROOM
    words = (
        Text(at=(x, middle + 0.8), text=f"{face.word_at('bottom')}S", size=4.6, bold=True),
        Text(at=(x, middle - 3.8), text=f"from {face.word_at(side)}", size=3.4),
    )
    if not _front_is_below(face):  # a solid triangle is a front edge on every page
        return words
    return (*words, *(triangle((x + 8.0, middle + s * 8.0), (0.0, s), 2.6) for s in (1.0, -1.0)))


SHRINK = (1.0, 0.9, 0.8, 0.74, 0.7)  # of notes beside the drawing, where they are many


def _notes_beside(notes: Sequence[Sequence[Row]], many: int, area: Area) -> tuple[Shape, ...] | None:
    """The notes in so many columns at the right, smaller where there are many of them; None where they have no room."""
    width = NOTES_ROOM - 2.0
    for shrink in SHRINK:
        blocks = [
            block(rows, area.right - (many - n) * NOTES_ROOM + 2.0, area.top + 1.0, width)
            for n, rows in enumerate(_columns([_shrunk(note, shrink) for note in notes], many, width))
        ]
        if all(end >= area.bottom + FOOT_ROOM for _, end in blocks):
            return tuple(text for texts, _ in blocks for text in texts)
    return None


def _shrunk(rows: Sequence[Row], by: float) -> list[Row]:
    return [replace(row, size=max(row.size * by, 2.6), before=row.before * by) for row in rows]


NOTES_BELOW_WIDTH = 62.0


def _notes_below(notes: Sequence[Sequence[Row]], area: Area, top: float) -> tuple[Shape, ...]:
    """The notes in columns under the boards, each note whole."""
    shapes: list[Shape] = []
    for column, rows in enumerate(_columns(notes, _many_below(area), NOTES_BELOW_WIDTH)):
        made, _ = block(rows, area.left + column * (NOTES_BELOW_WIDTH + 5.0), top, NOTES_BELOW_WIDTH)
        shapes += made
    return tuple(shapes)


def _many_below(area: Area) -> int:
    return int((area.width + 5.0) // (NOTES_BELOW_WIDTH + 5.0))


def _columns(notes: Sequence[Sequence[Row]], many: int, width: float) -> list[list[Row]]:
    """The notes shared out over so many columns of this width, each next one to the shortest."""
    columns: list[list[Row]] = [[] for _ in range(max(1, min(many, len(notes))))]
    for note in notes:
        min(columns, key=lambda c: -block(c, 0.0, 0.0, width)[1]).extend(note)
    return columns


def _height_below(notes: Sequence[Sequence[Row]], area: Area) -> float:
    columns = _columns(notes, _many_below(area), NOTES_BELOW_WIDTH)
    return max((-block(c, 0.0, 0.0, NOTES_BELOW_WIDTH)[1] for c in columns), default=0.0)


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
    out += [f"{text}: sizes and numbers are from its long point." for text in bevel_words(part)]
    edged = [words_of(part)[s] for s in EDGES if part.edging.at(s) > 0]
    lipped = dict.fromkeys(f.board.lipped for f in faces if f.board.lipped)
    out += lipped
    if edged and not lipped:
        early = any(w.feature.stage == "before edging" for f in faces for w in f.numbered)
        out.append(f"Edging is {on_edges(edged)} before any of this{', save where a note says so' if early else ''}.")
    if there := bored_as_bought(part):
        sizes = listed([figure(d) for d in sorted({b.diameter for b in there})])
        out.append(
            f"It comes as it is, with {len(there)} bores of {sizes}, drawn grey: only what has a number is made here."
        )
    through = [w for f in faces for w in f.shown if w.right_through and w.bears in FACES and w.bears != f.view.seen]
    if any(w.bore is not None for w in through):
        out.append("Grey rings: bores that come through from the other face.")
    if any(w.bore is None for w in through):
        out.append("Grey corners: cut-outs that come through from the other face.")
    return out
