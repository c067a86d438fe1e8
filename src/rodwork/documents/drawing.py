"""The drawing model: a few primitives in millimetres, y up, and the width of a text in our own font.

A page of the pack is one Drawing of the size of the paper: everything on it is placed here, so that a test can
ask of every page whether two texts overlap or one runs off the paper. Writers only turn shapes into bytes.
Colour carries no meaning: shapes are black, grey or white.
"""

from dataclasses import dataclass, replace
from functools import cache, lru_cache
from pathlib import Path
from typing import Literal
from unicodedata import normalize

from fontTools.ttLib import TTFont

Point = tuple[float, float]
Ink = Literal["black", "grey", "light", "white", "none"]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """How a line is drawn: width mm, ink, dashes mm (empty: unbroken)."""

    width: float = 0.25
    ink: Ink = "black"
    dashes: tuple[float, ...] = ()


THIN = Pen(width=0.18)
LINE = Pen(width=0.3)
HEAVY = Pen(width=1.1)
HIDDEN = Pen(width=0.18, dashes=(2.0, 1.2))
FOLD = Pen(width=0.18, dashes=(8.0, 1.5, 1.5, 1.5))
FAINT = Pen(width=0.15, ink="grey")
NO_PEN = Pen(width=0.0, ink="none")


@dataclass(frozen=True, slots=True, kw_only=True)
class Path_:
    """Straight line, polyline or polygon through points (n, 2)."""

    points: tuple[Point, ...]
    closed: bool = False
    pen: Pen = LINE
    fill: Ink = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle."""

    centre: Point
    radius: float
    pen: Pen = LINE
    fill: Ink = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text. `size` is the height of the em in mm (a figure is about 0.65 of it high).

    `at` lies on the base line, at the start, middle or end of the text; `turn` is anticlockwise degrees.
    """

    at: Point
    text: str
    size: float = 3.5
    bold: bool = False
    anchor: Anchor = "start"
    turn: float = 0.0
    ink: Ink = "black"


Shape = Path_ | Circle | Text


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Shapes on a sheet of this size, mm, the origin at its bottom left corner, y up."""

    width: float
    height: float
    shapes: tuple[Shape, ...]


def line(a: Point, b: Point, pen: Pen = LINE) -> Path_:
    """A straight line."""
    return Path_(points=(a, b), pen=pen)


def box(x: float, y: float, w: float, h: float, pen: Pen = LINE, fill: Ink = "none") -> Path_:
    """A rectangle by its bottom left corner and its size."""
    return Path_(points=((x, y), (x + w, y), (x + w, y + h), (x, y + h)), closed=True, pen=pen, fill=fill)


def moved(shapes: tuple[Shape, ...], dx: float, dy: float, scale: float = 1.0) -> tuple[Shape, ...]:
    """Shapes scaled about the origin, then shifted. Texts and pens keep their size."""

    def at(p: Point) -> Point:
        return (p[0] * scale + dx, p[1] * scale + dy)

    out: list[Shape] = []
    for s in shapes:
        if isinstance(s, Path_):
            out.append(replace(s, points=tuple(at(p) for p in s.points)))
        elif isinstance(s, Circle):
            out.append(replace(s, centre=at(s.centre), radius=s.radius * scale))
        else:
            out.append(replace(s, at=at(s.at)))
    return tuple(out)


FONT_FAMILY = "Source Sans Pro"


@cache
def font_file(bold: bool) -> Path:
    """The font file that every page is set in; it comes with a package, never from the machine."""
    import font_source_sans_pro

    name = "SourceSansPro-Bold.ttf" if bold else "SourceSansPro-Regular.ttf"
    found = sorted(Path(font_source_sans_pro.__file__).parent.rglob(name))
    return found[0]


@cache
def _advances(bold: bool) -> tuple[dict[int, float], float]:
    font = TTFont(font_file(bold), lazy=True)
    em = float(font["head"].unitsPerEm)
    metrics, names = font["hmtx"].metrics, font.getBestCmap()
    return {code: metrics[name][0] / em for code, name in names.items()}, 0.6


@lru_cache(maxsize=20_000)
def printable(text: str) -> str:
    """The text as it is printed: a character that our font has no sign for becomes its plain letter, or "?"."""
    known, _ = _advances(False)
    return "".join(ch if ord(ch) in known else _plainer(ch, known) for ch in text)


def _plainer(ch: str, known: dict[int, float]) -> str:
    if ch.isspace() or not ch.isprintable():
        return " "
    plain = "".join(c for c in normalize("NFKD", ch) if ord(c) in known)
    return plain or "?"


def text_width(text: str, size: float, bold: bool = False) -> float:
    """Width of a text in mm as it will be printed (kerning left out: it only ever makes it narrower)."""
    advance, unknown = _advances(bold)
    return size * sum(advance.get(ord(ch), unknown) for ch in printable(text))


def wrapped(text: str, size: float, width: float, bold: bool = False) -> tuple[str, ...]:
    """The text broken into lines no wider than `width` mm; a word longer than that is broken too."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        current = ""
        for word in paragraph.split():
            trial = f"{current} {word}".strip()
            if text_width(trial, size, bold) <= width:
                current = trial
                continue
            if current:
                lines.append(current)
            while text_width(word, size, bold) > width and len(word) > 1:
                cut = next(
                    n for n in range(len(word) - 1, 0, -1) if n == 1 or text_width(word[:n], size, bold) <= width
                )
                lines.append(word[:cut])
                word = word[cut:]
            current = word
        lines.append(current)
    return tuple(lines)
