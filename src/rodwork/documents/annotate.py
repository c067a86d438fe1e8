"""What drawings share: how figures and names are written, how labels make room for each other, arrows, notes."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, hypot

from rodwork.documents.drawing import (
    LINE,
    NO_PEN,
    THIN,
    Ink,
    Path_,
    Pen,
    Point,
    Shape,
    Text,
    line,
    text_width,
    wrapped,
)
from rodwork.model.surface import EDGES

ROOM_UP = 0.72  # of the em: how far letters stand above the base line, and hang below it
ROOM_DOWN = 0.22
_DUST = 1e-9


def figure(mm: float, least_places: int = 0) -> str:
    """A measurement as it is printed: as many decimals as it has, up to two, and no minus nought."""
    text = f"{mm + 0.0:.2f}"
    while text.endswith("0") and len(text) - text.index(".") - 1 > max(least_places, 1):
        text = text[:-1]
    if least_places == 0 and text.endswith(".0"):
        text = text[:-2]
    return text.lstrip("-") if float(text) == 0 else text


def setting(mm: float) -> str:
    """What a fence or stop is set to: always with its tenth, so that nobody wonders whether one was left off."""
    return figure(mm, 1)


def capital(word: str) -> str:
    """A surface's word with what tells it from the others in capitals: "FRONT edge", "OUTSIDE"."""
    first, _, rest = word.partition(" ")
    return f"{first.upper()} {rest}".strip()


def named(board: str) -> str:
    """A board within a sentence: "the left side", but "stile 1", which its number tells from the others."""
    return board if board[-1:].isdigit() else f"the {board}"


def listed(words: Sequence[str]) -> str:
    """Words as a sentence lists them: "40, 136 and 232"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def stem_of(name: str) -> str:
    """A board's name without its number: "fixed shelf" of "fixed shelf 2"."""
    stem, _, number = name.rpartition(" ")
    return stem if number.isdigit() else name


def plain_name(name: str) -> str:
    """The name of a board without the numbers that tell several of them apart: those are in its mark."""
    return re.sub(r" \d+\b", "", name)


def several(name: str) -> str:
    """More than one of a kind of board: "fixed shelves", "tops"."""
    return f"{name.removesuffix('shelf')}shelves" if name.endswith("shelf") else f"{name}s"


def several_named(names: Sequence[str]) -> str:
    """Boards that have one name but for their numbers: "fixed shelves 2 to 4", "loose shelves 1 and 3"."""
    numbers = sorted(int(n.rpartition(" ")[2]) for n in names)
    in_a_row = len(numbers) > 2 and numbers[-1] - numbers[0] == len(numbers) - 1
    told = f"{numbers[0]} to {numbers[-1]}" if in_a_row else listed([str(n) for n in numbers])
    return f"{several(stem_of(names[0]))} {told}"


def edges_text(edges: Sequence[str]) -> str:
    """Edged edges by their words, as they are said: "front edge", "all round"."""
    return "all round" if len(edges) == len(EDGES) else listed(edges)


def on_edges(edges: Sequence[str]) -> str:
    """Where an edging is, in a sentence: "on the front edge", "all round"."""
    return edges_text(edges) if len(edges) == len(EDGES) else f"on the {edges_text(edges)}"


def clipped(text: str, size: float, width: float, bold: bool = False) -> str:
    """The text if it fits the width, else as much of its beginning as does, with dots: names can be long."""
    if text_width(text, size, bold) <= width + _DUST:  # what was shrunk to this very width fits it
        return text
    while text and text_width(text + "...", size, bold) > width:
        text = text[:-1]
    return text.rstrip() + "..."


def spread(places: Sequence[float], sizes: Sequence[float], low: float, high: float, gap: float = 1.0) -> list[float]:
    """Where the middles of labels come that would stand at `places`, moved as little as keeps them apart.

    `sizes` are their lengths along the line; they keep their order, stay `gap` apart and between `low` and
    `high`, as far as they all fit there. Least squares under order: pool what overlaps, then clamp.
    """
    order = sorted(range(len(places)), key=lambda i: places[i])
    if not order:
        return []
    shift = [0.0]
    for a, b in pairwise(order):
        shift.append(shift[-1] + (sizes[a] + sizes[b]) / 2 + gap)
    pools: list[tuple[float, int]] = []  # (mean, how many), rising
    for n, i in enumerate(order):
        mean, count = places[i] - shift[n], 1
        while pools and pools[-1][0] >= mean:
            other, more = pools.pop()
            mean, count = (mean * count + other * more) / (count + more), count + more
        pools.append((mean, count))
    least, most = low + sizes[order[0]] / 2, high - sizes[order[-1]] / 2 - shift[-1]
    level = [max(min(mean, most), least) for mean, count in pools for _ in range(count)]
    out = [0.0] * len(order)
    for n, i in enumerate(order):
        out[i] = level[n] + shift[n]
    return out


def fits(sizes: Sequence[float], room: float, gap: float = 1.0) -> bool:
    """Whether labels of these lengths stand in a row in the room there is."""
    return sum(sizes) + gap * max(len(sizes) - 1, 0) <= room


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of a block of notes."""

    text: str
    size: float = 3.6
    bold: bool = False
    before: float = 0.0  # extra room above, mm


def block(rows: Sequence[Row], x: float, top: float, width: float) -> tuple[tuple[Text, ...], float]:
    """Rows set under each other, broken to the width. Returns them with where the last one ends."""
    shapes: list[Text] = []
    y = top
    for row in rows:
        y -= row.before
        for piece in wrapped(row.text, row.size, width, row.bold):
            y -= row.size * 1.22
            shapes.append(Text(at=(x, y + 0.22 * row.size), text=piece, size=row.size, bold=row.bold))
    return tuple(shapes), y


def triangle(tip: Point, towards: Point, size: float, ink: Ink = "black") -> Path_:
    """A solid triangle with its tip here, pointing the way of `towards` (a unit vector)."""
    (x, y), (dx, dy) = tip, towards
    back = (x - dx * size, y - dy * size)
    points = (
        tip,
        (back[0] - dy * size / 2, back[1] + dx * size / 2),
        (back[0] + dy * size / 2, back[1] - dx * size / 2),
    )
    return Path_(points=points, closed=True, pen=NO_PEN, fill=ink)


def arrow(a: Point, b: Point, pen: Pen = LINE, head: float = 3.0) -> tuple[Shape, ...]:
    """A line from a to b with a solid head at b."""
    length = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    u = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    neck = (b[0] - u[0] * head * 0.8, b[1] - u[1] * head * 0.8)
    return (line(a, neck, pen), triangle(b, u, head))


def hatched(x: float, y: float, w: float, h: float, step: float = 1.6, fill: Ink = "light") -> tuple[Shape, ...]:
    """A rectangle hatched at 45 degrees: a fence, a stop or a batten, never a board."""
    shapes: list[Shape] = [Path_(points=((x, y), (x + w, y), (x + w, y + h), (x, y + h)), closed=True, fill=fill)]
    for n in range(1, ceil((w + h) / step)):
        c = n * step
        a = (x + max(0.0, c - h), y + min(c, h))
        b = (x + min(c, w), y + max(0.0, c - w))
        shapes.append(line(a, b, THIN))
    return tuple(shapes)


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An upright rectangle, mm."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def middle(self) -> float:
        """Half way from left to right."""
        return (self.left + self.right) / 2

    def clear_of(self, other: "Box") -> bool:
        """Whether the two share no ground."""
        return (
            self.right <= other.left or other.right <= self.left or self.top <= other.bottom or other.top <= self.bottom
        )


def place_for(width: float, height: float, within: Box, taken: Sequence[Box], wish: Point) -> Point | None:
    """Bottom left corner for something this large, clear of what is taken and nearest to `wish` (its middle)."""
    span_y = within.top - within.bottom - height
    if within.right - within.left < width or span_y < 0:
        return None
    best: tuple[float, Point] | None = None
    for n in range(_BANDS + 1):
        y = within.bottom + span_y * n / _BANDS
        for low, high in _gaps(y, y + height, within, taken):
            if high - low >= width:
                x = min(max(wish[0] - width / 2, low), high - width)
                away = hypot(x + width / 2 - wish[0], y + height / 2 - wish[1])
                if best is None or away < best[0]:
                    best = (away, (x, y))
    return best[1] if best else None


_BANDS = 30


def _gaps(bottom: float, top: float, within: Box, taken: Sequence[Box]) -> list[tuple[float, float]]:
    """The free stretches from left to right at these heights."""
    gaps, x = [], within.left
    for box in sorted((b for b in taken if b.bottom < top and b.top > bottom), key=lambda b: b.left):
        if box.left > x:
            gaps.append((x, min(box.left, within.right)))
        x = max(x, box.right)
    return [*gaps, (x, within.right)]


def text_box(text: Text) -> Box:
    """The room an unturned text, or one turned by a right angle, takes up."""
    width = text_width(text.text, text.size, text.bold)
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
    up, down = ROOM_UP * text.size, ROOM_DOWN * text.size
    x, y = text.at
    if round(text.turn) % 180 == 90:
        return Box(left=x - up, bottom=y + start, right=x + down, top=y + start + width)
    return Box(left=x + start, bottom=y - down, right=x + start + width, top=y + up)
