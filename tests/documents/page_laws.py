"""Laws that every page of the pack obeys, whatever it shows. Use: `check_pages(some_pages(rod), rod)`.

Two texts never overlap, nothing leaves the paper or runs into the foot, no line is drawn through a text,
nothing is too small to read, no minus nought, and no word of the data model is printed.
"""

import re
from itertools import pairwise
from math import cos, radians, sin

from rodwork.documents.drawing import Circle, Drawing, Path_, Text, text_width
from rodwork.documents.page import FOOT, MARGIN, Page, numbered
from rodwork.model.rod import Rod
from rodwork.writers.svg import svg

SMALLEST = 2.4  # em in mm, about 7 point: the least that is read at arm's length
EDGE = 4.0  # mm that printers leave white
DATA_WORDS = re.compile(
    r"\b(features?|poses?|posed|seats?|hosts?|guests?|outlines?|voids?|kernels?|contacts?|fixings?|set-?ups?|bevels?"
    r"|face[ _]side|face[ _]edge|far[ _]edge|back[ _]side|(left|right)_end|shelf_pin|none|null|nan|inf)\b",
    re.IGNORECASE,
)
MINUS_NOUGHT = re.compile(r"(?<![\w.])[-−]0+(\.0*)?(?![\d.])")
Point = tuple[float, float]


def check_pages(pages: tuple[Page, ...], rod: Rod) -> None:
    """Assert every law on every page, as it stands in its frame."""
    assert pages, "there is no page"
    problems = []
    for page, drawing in zip(pages, numbered(pages, rod), strict=True):
        problems += [f"{page.kind} / {page.title}: {p}" for p in [*faults(drawing), *in_the_foot(page)]]
    assert not problems, "\n".join(problems)


def faults(drawing: Drawing) -> list[str]:
    """What is wrong with one sheet, in words; empty when it is sound."""
    texts = [s for s in drawing.shapes if isinstance(s, Text)]
    found = [f"{t.text!r} is empty or ragged" for t in texts if t.text != t.text.strip() or not t.text]
    found += [f"{t.text!r} is only {t.size:.2f} mm high" for t in texts if t.size < SMALLEST - 1e-6]
    found += [f"{t.text!r} has a word of the data model" for t in texts if DATA_WORDS.search(t.text)]
    found += [f"{t.text!r} has a minus nought" for t in texts if MINUS_NOUGHT.search(t.text)]
    found += overlaps(texts) + off_the_paper(drawing) + struck_out(drawing)
    if re.search(r'[" ]-0[" ]', svg(drawing)):
        found.append("a minus nought is drawn")
    return found


def corners(text: Text) -> tuple[Point, Point, Point, Point]:
    """The four corners of the room a text takes up, turned as it is."""
    width = text_width(text.text, text.size, text.bold)
    start = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
    low = -0.21 * text.size if re.search("[gjpqyQ,;()|]", text.text) else 0.0
    high = (0.71 if re.search("[bdfhklij()|]", text.text) else 0.66) * text.size
    c, s = cos(radians(text.turn)), sin(radians(text.turn))
    flat = ((start, low), (start + width, low), (start + width, high), (start, high))
    a, b, d, e = ((text.at[0] + x * c - y * s, text.at[1] + x * s + y * c) for x, y in flat)
    return (a, b, d, e)


def overlaps(texts: list[Text]) -> list[str]:
    """Pairs of texts that run into each other."""
    found = []
    boxes = sorted(((corners(t), t) for t in texts), key=lambda row: min(p[0] for p in row[0]))
    for i, (box, text) in enumerate(boxes):
        right = max(p[0] for p in box)
        for other_box, other in boxes[i + 1 :]:
            if min(p[0] for p in other_box) >= right:
                break
            if _meet(box, other_box):
                found.append(f"{text.text!r} and {other.text!r} overlap at {text.at[0]:.1f}, {text.at[1]:.1f}")
    return found


def off_the_paper(drawing: Drawing) -> list[str]:
    """Texts, lines and circles that leave the part of the paper a printer can reach."""
    found = []
    for shape in drawing.shapes:
        if isinstance(shape, Text):
            points, name = corners(shape), repr(shape.text)
        elif isinstance(shape, Circle):
            (x, y), r = shape.centre, shape.radius
            points, name = ((x - r, y - r), (x + r, y + r)), "a circle"
        else:
            points, name = shape.points, "a line"
        out = [
            p for p in points if not (EDGE <= p[0] <= drawing.width - EDGE and EDGE <= p[1] <= drawing.height - EDGE)
        ]
        if out:
            found.append(f"{name} runs off the paper at {out[0][0]:.1f}, {out[0][1]:.1f}")
    return found


def struck_out(drawing: Drawing) -> list[str]:
    """Texts with a line through them that no ground drawn over the line hides. Faint and dashed lines count too, and
    the edges of what is solid black: arrows stood over letters.
    """
    paths = [(n, s) for n, s in enumerate(drawing.shapes) if isinstance(s, Path_)]
    grounds = [(n, s.points) for n, s in paths if s.closed and s.fill != "none"]
    inked = [(n, s) for n, s in paths if s.pen.ink != "none" or s.fill == "black"]
    lines = [(n, a, b) for n, s in inked for a, b in _pieces(_ring(s))]
    found = []
    for n, text in enumerate(drawing.shapes):
        if isinstance(text, Text):
            box = _shrunk(corners(text), 0.1 * text.size)
            hidden_up_to = max((g for g, ring in grounds if g < n and all(_inside(ring, p) for p in box)), default=-1)
            if any(m > hidden_up_to and _meet(box, _sliver(a, b), slack=0.0) for m, a, b in lines):
                found.append(f"{text.text!r} is struck out by a line at {text.at[0]:.1f}, {text.at[1]:.1f}")
    return found


def in_the_foot(page: Page) -> list[str]:
    """What of a page runs into the strip with job, letter and page."""
    found = []
    for shape in page.shapes:
        points = corners(shape) if isinstance(shape, Text) else getattr(shape, "points", ())
        if any(p[1] < MARGIN + FOOT - 2.5 + 0.3 for p in points):
            found.append(f"{getattr(shape, 'text', 'a line')!r} runs into the foot")
    return found


def _meet(a: tuple[Point, ...], b: tuple[Point, ...], slack: float = 0.05) -> bool:
    """Whether two rectangles share ground: no side of either parts them."""
    for i in (0, 1):  # the quick way out: their upright boxes lie apart
        if max(p[i] for p in a) <= min(p[i] for p in b) or max(p[i] for p in b) <= min(p[i] for p in a):
            return False
    for box in (a, b):
        for i in (0, 1):
            (x0, y0), (x1, y1) = box[i], box[i + 1]
            nx, ny = x1 - x0, y1 - y0
            length = (nx * nx + ny * ny) ** 0.5 or 1.0
            one = [(x * nx + y * ny) / length for x, y in a]
            two = [(x * nx + y * ny) / length for x, y in b]
            if max(one) <= min(two) + slack or max(two) <= min(one) + slack:
                return False
    return True


def _ring(path: Path_) -> tuple[Point, ...]:
    return (*path.points, path.points[0]) if path.closed else path.points


def _pieces(points: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    return list(pairwise(points))


def _shrunk(box: tuple[Point, ...], by: float) -> tuple[Point, ...]:
    cx, cy = sum(p[0] for p in box) / 4, sum(p[1] for p in box) / 4
    (ax, ay), (bx, by_), _, (dx, dy) = box
    wide, high = ((bx - ax) ** 2 + (by_ - ay) ** 2) ** 0.5, ((dx - ax) ** 2 + (dy - ay) ** 2) ** 0.5
    u = ((bx - ax) / (wide or 1), (by_ - ay) / (wide or 1))
    v = ((dx - ax) / (high or 1), (dy - ay) / (high or 1))
    hw, hh = max(wide / 2 - by, 0.01), max(high / 2 - by, 0.01)
    signs = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return tuple((cx + s * hw * u[0] + t * hh * v[0], cy + s * hw * u[1] + t * hh * v[1]) for s, t in signs)


def _inside(ring: tuple[Point, ...], p: Point) -> bool:
    """Whether a point lies in a polygon (edge included for upright boxes)."""
    xs, ys = [q[0] for q in ring], [q[1] for q in ring]
    if not (min(xs) - 1e-6 <= p[0] <= max(xs) + 1e-6 and min(ys) - 1e-6 <= p[1] <= max(ys) + 1e-6):
        return False
    if len(ring) == 4 and len({round(x, 6) for x in xs}) == 2 and len({round(y, 6) for y in ys}) == 2:
        return True
    odd = False
    for (x0, y0), (x1, y1) in _pieces((*ring, ring[0])):
        if (y0 > p[1]) != (y1 > p[1]) and p[0] < (x1 - x0) * (p[1] - y0) / (y1 - y0) + x0:
            odd = not odd
    return odd


def _sliver(a: Point, b: Point) -> tuple[Point, ...]:
    """A line as a rectangle of hardly any width."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    nx, ny = -dy / length * 1e-4, dx / length * 1e-4
    return (a, b, (b[0] + nx, b[1] + ny), (a[0] + nx, a[1] + ny))
