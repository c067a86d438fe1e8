"""A sheet to scale: parts with mark and size, cuts with their numbers, what is left with its size."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import ceil, inf

from rodwork.documents.annotate import Box, arrow, clipped, figure, spread, text_box
from rodwork.documents.drawing import THIN, Ink, Pen, Shape, Text, box, line, text_width
from rodwork.documents.figures import dimension_across, dimension_up
from rodwork.documents.page import Area
from rodwork.model.cutting import Cut, CutSheet, Leftover, Sawn

SMALLEST = 2.5  # em of a text that can still be read
LARGEST = 6.0
NARROWEST = 2.2  # of a part that still has its mark, on paper
IN = 1.2  # from the edge of a part to its text
NUMBER = 3.0  # em of a cut's number
OFF_TEXT = 0.6  # from a number to a text or to another number
NUMBERED_AT = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.05, 0.95)  # along the cut, the first place that is clear
DIMENSION_ROOM = 9.0
GRAIN_ROOM = 9.0  # above the sheet
STRIP_ROOM = 12.0  # beside it
STRIP_NAME = 3.4  # em
PAST_NUMBERS = 4.4  # from the sheet to the name of a strip, past the numbers of the cuts along the sheet's edge
CUT_PEN = Pen(width=0.5)
PART_PEN = Pen(width=0.25)
LEAST_SHAPE = 0.2  # of its length: how wide a sheet is drawn at the least
Scale = tuple[float, float]  # mm on paper for each mm along the sheet and across it
Place = Callable[[float, float], tuple[float, float]]
Line = tuple[tuple[float, float], tuple[float, float]]


def drawn_height(sheet: CutSheet, width: float) -> float:
    """How high the drawing of a sheet is that is as wide as this, mm."""
    shape = times_wider(sheet) * sheet.size[1] / sheet.size[0]
    return (width - DIMENSION_ROOM - STRIP_ROOM) * shape + DIMENSION_ROOM + GRAIN_ROOM


def times_wider(sheet: CutSheet) -> int:
    """How many times wider than it is a plank is drawn, so that its strips have room for their marks; 1 for a sheet."""
    return max(1, ceil(LEAST_SHAPE * sheet.size[0] / sheet.size[1]))


def sheet_shapes(sheet: CutSheet, area: Area, grain: bool) -> tuple[Shape, ...]:
    """The sheet as large as the area lets it, its length across the page."""
    times = times_wider(sheet)
    along = min(
        (area.width - DIMENSION_ROOM - STRIP_ROOM) / sheet.size[0],
        (area.height - DIMENSION_ROOM - GRAIN_ROOM) / (times * sheet.size[1]),
    )
    scale = (along, along * times)
    x0, y0 = area.left + DIMENSION_ROOM, area.bottom + DIMENSION_ROOM
    wide, high = sheet.size[0] * scale[0], sheet.size[1] * scale[1]

    def place(x: float, y: float) -> tuple[float, float]:
        return x0 + x * scale[0], y0 + y * scale[1]

    shapes: list[Shape] = [box(x0, y0, wide, high, pen=Pen(width=0.7), fill="light")]
    texts: list[Text] = []
    for left in sheet.leftovers:
        shapes.append(_rectangle(left, place, scale, "white" if left.kept else "light"))
        texts += _leftover_text(left, place, scale)
    for sawn in sheet.sawn:
        shapes.append(_rectangle(sawn, place, scale, "white"))
        texts += _part_texts(sawn, place, scale)
    lines = [_cut_line(cut, place) for cut in sheet.cuts]
    numbers = _numbers(sheet.cuts, lines, [text_box(t) for t in texts])
    shapes += [line(a, b, CUT_PEN) for a, b in lines]
    shapes += texts
    shapes += numbers
    shapes += _strips(sheet, place, y0 + high, x0 + wide)
    shapes += dimension_across(x0, x0 + wide, y0 - 6.0, figure(sheet.size[0]), size=4.0)
    shapes += dimension_up(x0 - 3.5, y0, y0 + high, figure(sheet.size[1]), size=4.0)
    if grain:
        shapes += _grain(x0 + wide, y0 + high + 7.0)
    if times > 1:
        shapes.append(Text(at=(x0, y0 + high + 5.9), text=f"drawn {times} times as wide as it is", size=3.4))
    return tuple(shapes)


def _rectangle(what: Sawn | Leftover, place: Place, scale: Scale, fill: Ink) -> Shape:
    x, y = place(what.x, what.y)
    return box(x, y, what.length * scale[0], what.width * scale[1], pen=PART_PEN, fill=fill)


def _cut_line(cut: Cut, place: Place) -> Line:
    return place(*cut.start), place(*cut.end)


def _part_texts(sawn: Sawn, place: Place, scale: Scale) -> list[Text]:
    """Mark, what it is, size; upright where the part is narrow."""
    x, y = place(sawn.x, sawn.y)
    size = f"{figure(round(sawn.length, 1))} × {figure(round(sawn.width, 1))}"
    mark = sawn.marks[0] if len(sawn.marks) == 1 else f"{sawn.marks[0]} ({len(sawn.marks)})"
    return _stacked((mark, size, sawn.name), x, y, sawn.length * scale[0], sawn.width * scale[1])


def _leftover_text(left: Leftover, place: Place, scale: Scale) -> list[Text]:
    if not left.kept:
        return []
    x, y = place(left.x, left.y)
    size = f"{figure(round(left.length, 1))} × {figure(round(left.width, 1))}"
    return _stacked((f"keep {left.name}", size), x, y, left.length * scale[0], left.width * scale[1])


def _stacked(rows: Sequence[str], x: float, y: float, wide: float, high: float) -> list[Text]:
    """As many of the rows as fit in the middle of a rectangle, the first bold and largest."""
    upright = high > 1.3 * wide
    room, narrow = (high, wide) if upright else (wide, high)
    room, depth = room - 2 * IN - NUMBER, narrow - 2 * IN
    for count in range(len(rows), 0, -1):
        shown = rows[:count]
        em = min(
            LARGEST, depth / (1.25 * count), *(room / max(text_width(t, 1.0, n == 0), 0.1) for n, t in enumerate(shown))
        )
        if em >= SMALLEST or count == 1:
            break
    if em < SMALLEST:
        if narrow < NARROWEST or room < 4 * SMALLEST:
            return []
        shown, em = (clipped(rows[0], SMALLEST, room, True),), SMALLEST
    cx, cy = x + wide / 2, y + high / 2
    out = []
    for n, text in enumerate(shown):
        off = (len(shown) / 2 - n - 0.5) * 1.25 * em - 0.33 * em
        at = (cx - off, cy) if upright else (cx, cy + off)
        out.append(Text(at=at, text=text, size=em, bold=n == 0, anchor="middle", turn=90.0 if upright else 0.0))
    return out


def _numbers(cuts: Sequence[Cut], lines: Sequence[Line], taken: Sequence[Box]) -> tuple[Shape, ...]:
    """The number of each cut on its line, on a white ground, clear of the texts and of each other.

    Where a short cut has no room for it, the number stands beside the cut, a thin line between them.
    """
    leaders: list[Shape] = []
    shapes: list[Shape] = []
    texts, stands = list(taken), list(taken)
    for cut, ends in zip(cuts, lines, strict=True):
        text = str(cut.number)
        wide, high = text_width(text, NUMBER, True) + 1.2, NUMBER * 0.95
        found = _clear_place(_number_places(ends, wide, high), wide, high, stands, texts)
        if found is None:
            continue
        on_line, (x, y) = found
        ground = _middle_at(x, y, wide, high)
        stands.append(ground)
        if on_line != (x, y):
            leaders.append(line(on_line, (x, y), THIN))
        shapes.append(box(ground.left, ground.bottom, wide, high, pen=THIN, fill="white"))
        shapes.append(Text(at=(x, y - 0.34 * NUMBER), text=text, size=NUMBER, bold=True, anchor="middle"))
    return (*leaders, *shapes)


def _clear_place(
    places: Iterable[Line], wide: float, high: float, stands: Sequence[Box], texts: Sequence[Box]
) -> Line | None:
    """The first place that keeps off what stands there, its thin line off the texts; one that touches, if it must.

    On the cut itself, even if it touches, rather than beside it.
    """
    tried = list(places)
    on_the_cut = [(on_line, at) for on_line, at in tried if on_line == at]
    for among, off in ((on_the_cut, OFF_TEXT), (on_the_cut, 0.0), (tried, OFF_TEXT), (tried, 0.0)):
        for on_line, at in among:
            ground, leader = _middle_at(*at, wide + 2 * off, high + 2 * off), _round(on_line, at)
            if all(ground.clear_of(other) for other in stands) and all(leader.clear_of(other) for other in texts):
                return on_line, at
    return None


def _middle_at(x: float, y: float, wide: float, high: float) -> Box:
    return Box(left=x - wide / 2, bottom=y - high / 2, right=x + wide / 2, top=y + high / 2)


def _number_places(ends: Line, wide: float, high: float) -> Iterator[Line]:
    """Places for a number of this size, the best first, each with the point of the cut that it belongs to."""
    (ax, ay), (bx, by) = ends
    points = [(ax + (bx - ax) * share, ay + (by - ay) * share) for share in NUMBERED_AT]
    yield from ((p, p) for p in points)
    upright = abs(by - ay) > abs(bx - ax)
    for step in range(1, 25):
        away = 0.5 * step * ((wide if upright else high) + 0.6)
        for x, y in points:
            for way in (1, -1):
                yield (x, y), (x + way * away, y) if upright else (x, y + way * away)


def _strips(sheet: CutSheet, place: Place, top: float, right: float) -> Iterator[Shape]:
    """The names of the strips that the first cuts make, over the sheet or beside it, apart where strips are narrow."""
    for upright in (True, False):
        strips = [s for s in sheet.strips if s.upright == upright]
        middles = [place((s.low + s.high) / 2, (s.low + s.high) / 2)[0 if upright else 1] for s in strips]
        sizes = [text_width(s.name, STRIP_NAME, True) if upright else STRIP_NAME for s in strips]
        for strip, middle, at in zip(strips, middles, spread(middles, sizes, -inf, inf), strict=True):
            if upright:
                yield Text(at=(at, top + 1.6), text=strip.name, size=STRIP_NAME, bold=True, anchor="middle")
                continue
            if abs(at - middle) > 0.5 * STRIP_NAME:
                yield line((right, middle), (right + PAST_NUMBERS - 0.6, at), THIN)
            yield Text(at=(right + PAST_NUMBERS, at - 1.1), text=strip.name, size=STRIP_NAME, bold=True)


def _grain(right: float, y: float) -> Iterator[Shape]:
    """Which way the grain runs: a double arrow beside the word, over the sheet at its right."""
    start = right - 42.0
    yield Text(at=(start - 10.0, y - 1.1), text="grain", size=3.4)
    yield from arrow((start + 20.0, y), (start, y), THIN)
    yield from arrow((start + 20.0, y), (right, y), THIN)


def _round(a: tuple[float, float], b: tuple[float, float]) -> Box:
    return Box(left=min(a[0], b[0]), bottom=min(a[1], b[1]), right=max(a[0], b[0]), top=max(a[1], b[1]))
