"""Labels, one for every board of the job. The label is the face mark.

It goes on the face that is worked, at the front edge, and lies as the board lies with its front towards you: so
it can be read only with the board the right way round, and its border is thick where the board is edged.
"""

from functools import lru_cache

import segno

from rodwork.documents.annotate import clipped, triangle
from rodwork.documents.drawing import FAINT, NO_PEN, Path_, Pen, Shape, Text, box, line, moved, text_width, wrapped
from rodwork.documents.figures import board_size_text
from rodwork.documents.lipping_words import glue_on_words
from rodwork.documents.machined import Works, words_of
from rodwork.documents.page import FOOT, MARGIN, Page, fitted, fitted_text, paper_size
from rodwork.model.cutting import CuttingPlan
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.surface import EDGES, Surface

WIDTH, HEIGHT = 100.0, 50.0
COLUMNS, ROWS = 2, 5
IN = 2.2  # from the cut line to the border
EDGED = Pen(width=1.8)
PLAIN = Pen(width=0.25)
MARK, NAME = 15.0, 6.4
QR = 18.0
TOP_ARROW = 66.5  # where the arrow stands that points away from you: between mark and letter
BESIDE_RIGHT = 9.0  # so much further left where an arrow at the right end moves the letter
WAYS = ("front", "top", "left")  # the two first of these that the board has are shown by arrows
PAGE_SIDES: dict[Surface, str] = {"face_edge": "bottom", "far_edge": "top", "left_end": "left", "right_end": "right"}


def label_pages(rod: Rod, plan: CuttingPlan | None = None) -> tuple[Page, ...]:
    """A label for each mark, ten to a page, copy by copy; with a cutting plan the sheet that the board comes from."""
    sheets = {} if plan is None else plan.sheet_numbers
    works = Works(rod)
    labels = [
        _label(rod, works, cabinet, part, part.marks[copy], sheets.get(part.marks[copy]))
        for cabinet in rod.cabinets
        for copy in range(cabinet.count)
        for part in cabinet.parts
    ]
    each = COLUMNS * ROWS
    return tuple(_page(rod, labels[n : n + each]) for n in range(0, len(labels), each))


def _page(rod: Rod, labels: list[tuple[Shape, ...]]) -> Page:
    width, height = paper_size(rod.heading.paper, landscape=False)
    left = (width - COLUMNS * WIDTH) / 2
    top = height - max((height - MARGIN - FOOT - ROWS * HEIGHT) / 2, 6.0)
    shapes: list[Shape] = []
    for n, label in enumerate(labels):
        x, y = left + n % COLUMNS * WIDTH, top - (n // COLUMNS + 1) * HEIGHT
        shapes.append(box(x, y, WIDTH, HEIGHT, FAINT))
        shapes += moved(label, x, y)
    return Page(kind="labels", title="Labels", landscape=False, shapes=tuple(shapes), bare=True)


def _label(rod: Rod, works: Works, cabinet: RodCabinet, part: Part, mark: str, sheet: int | None) -> tuple[Shape, ...]:
    """One label with its lower left corner at the origin."""
    words = words_of(part)
    arrows = _arrows(words)
    left = IN + (11.0 if "left" in arrows else 4.5)
    right = WIDTH - IN - (11.0 if "right" in arrows else 4.5)
    shapes: list[Shape] = [*_border(part)]
    for side, word in arrows.items():
        shapes += _arrow(side, word, _top_arrow(arrows))
    letter = f"letter {rod.heading.letter}"
    shapes.append(Text(at=(right, HEIGHT - IN - 6.4), text=letter, size=4.2, bold=True, anchor="end"))
    mark_room = right - left - text_width(letter, 4.2, True) - 4.0
    if "top" in arrows:
        mark_room = _top_arrow(arrows) - 14.0 - left
    shapes.append(Text(at=(left, 35.0), text=mark, size=fitted(mark, MARK, mark_room, True), bold=True))
    over = right - left  # the name stands over the code, the rows beside it
    name, em = fitted_text("LIPPING" if part.glued_on else part.name.upper(), NAME, 4.4, over, True)
    shapes.append(Text(at=(left, 27.9), text=name, size=em, bold=True))
    rows = _rows(rod, works, cabinet, part, mark, sheet, over - QR - 2.0)
    y, step = (22.4, 3.85) if len(rows) < 5 else (23.0, 3.5)  # the last of five stays off the word at the foot
    for text, size in rows:
        shapes.append(Text(at=(left, y), text=text, size=size))
        y -= step
    code = f"{rod.job[:60]} {rod.heading.letter} {mark}"
    return (*shapes, *qr_shapes(code, right - QR, 8.6, QR))


def _rows(
    rod: Rod, works: Works, cabinet: RodCabinet, part: Part, mark: str, sheet: int | None, room: float
) -> list[tuple[str, float]]:
    """The small print of a label as (text, em): size, which face is up, what is next, where the board goes."""
    size = board_size_text(part.size, rod.step) + ("" if sheet is None else f"   sheet {sheet}")
    up = f"{words_of(part)['face_side']} up; {part.material}"
    following = wrapped(f"next: {_next(works, cabinet, part, mark)}", 3.5, room)[:2]
    goes_to = destination(rod, cabinet, mark) or f"{rod.job}, {cabinet.name}"
    return [
        (clipped(size, 4.6, room), 4.6),
        (clipped(up, 3.5, room), 3.5),
        *((text, 3.5) for text in following),
        fitted_text(goes_to, 3.2, 2.5, room),
    ]


def destination(rod: Rod, cabinet: RodCabinet, mark: str) -> str:
    """Where a finished board goes, if its cabinet stands in a run: "Kiln room, wall B, number 3 from the left"."""
    run = next((r for r in rod.runs if r.name == cabinet.name), None)
    if run is not None:
        return run.where or ""
    copy = next(p.marks.index(mark) for p in cabinet.parts if mark in p.marks) + 1
    for run in rod.runs:
        for number, s in enumerate(run.standings, 1):
            if s.stands_as == "cabinet" and (s.name, s.copy) == (cabinet.name, copy):
                return f"{run.where or run.name}, number {number} from the left"
    return ""


def _next(works: Works, cabinet: RodCabinet, part: Part, mark: str) -> str:
    return glue_on_words(part, mark, cabinet) if part.glued_on else next_words(works, cabinet, part)


def next_words(works: Works, cabinet: RodCabinet, part: Part) -> str:
    """What is to be done to a board once it is sawn to size: bevels and lines, what comes before edging and after it.

    What it is lipped with is glued on, and sawn to size again, in place of edging.
    """
    mine = works.of(cabinet, part)
    bored = (w.setup.id for w in mine if w.feature.stage == "before edging")
    early = dict.fromkeys((*works.sawn_askew(cabinet, part), *bored))
    late = dict.fromkeys(w.setup.id for w in mine if w.feature.stage != "before edging")
    edge = "edge" if any(part.edging.at(s) for s in EDGES) else ""
    if part.id in cabinet.lippings:
        edge, late = "lip and flush", dict.fromkeys((*works.sawn_again(cabinet, part), *late))
    steps = [" ".join(early), edge, " ".join(late)]
    return ", ".join(s for s in steps if s) or "nothing, it is ready"


def _border(part: Part) -> list[Shape]:
    """The border stands for the board: thick where that edge is edged."""
    x0, y0, x1, y1 = IN, IN, WIDTH - IN, HEIGHT - IN
    ends = {
        "bottom": ((x0, y0), (x1, y0)),
        "top": ((x0, y1), (x1, y1)),
        "left": ((x0, y0), (x0, y1)),
        "right": ((x1, y0), (x1, y1)),
    }
    return [line(*ends[side], EDGED if part.edging.at(s) > 0 else PLAIN) for s, side in PAGE_SIDES.items()]


def _arrows(words: dict[Surface, str]) -> dict[str, str]:
    """Which way is front, and which way is top (or left), by the side of the label it lies on."""
    found: dict[str, str] = {}
    for way in WAYS:
        surface = next((s for s in EDGES if words[s].split()[0] == way), None)
        if surface is not None and len(found) < 2:
            found[PAGE_SIDES[surface]] = way.upper()
    return found


def _top_arrow(arrows: dict[str, str]) -> float:
    return TOP_ARROW - (BESIDE_RIGHT if "right" in arrows else 0.0)


def _arrow(side: str, word: str, top_at: float) -> list[Shape]:
    size = 5.0
    half = text_width(word, size, True) / 2
    if side in ("bottom", "top"):
        y, way = (IN + 2.6, -1.0) if side == "bottom" else (HEIGHT - IN - 5.8, 1.0)
        x = WIDTH / 2 if side == "bottom" else top_at
        tips = [(x + s * (half + 4.0), y + (0.2 if way < 0 else 3.4)) for s in (-1, 1)]
        return [
            Text(at=(x, y), text=word, size=size, bold=True, anchor="middle"),
            *(triangle(tip, (0.0, way), 3.2) for tip in tips),
        ]
    x, way = (IN + 7.2, -1.0) if side == "left" else (WIDTH - IN - 3.6, 1.0)
    y = HEIGHT / 2 + 3.0
    tips = [(x - 1.7 + way * 1.8, y + s * (half + 4.0)) for s in (-1, 1)]
    return [
        Text(at=(x, y), text=word, size=size, bold=True, anchor="middle", turn=90.0),
        *(triangle(tip, (way, 0.0), 3.2) for tip in tips),
    ]


@lru_cache(maxsize=4096)
def _runs(text: str) -> tuple[int, tuple[tuple[int, int, int], ...]]:
    """The code's width in modules, and its dark runs as (row, first, past the last)."""
    matrix = segno.make(text, error="m", micro=False).matrix
    runs: list[tuple[int, int, int]] = []
    for y, row in enumerate(matrix):
        start: int | None = None
        for x, dark in enumerate((*row, 0)):
            if dark and start is None:
                start = x
            elif not dark and start is not None:
                runs.append((y, start, x))
                start = None
    return len(matrix), tuple(runs)


def qr_shapes(text: str, x: float, y: float, side: float) -> tuple[Shape, ...]:
    """A code to scan, drawn as boxes in this square, with the white border that scanners need."""
    modules, runs = _runs(text)
    m = side / (modules + 8)
    left, top = x + 4 * m, y + side - 4 * m

    def dark(row: int, first: int, past: int) -> Path_:
        x0, x1, y1 = left + first * m, left + past * m, top - row * m
        points = ((x0, y1 - m), (x1, y1 - m), (x1, y1), (x0, y1))
        return Path_(points=points, closed=True, pen=NO_PEN, fill="black")

    return tuple(dark(*run) for run in runs)
