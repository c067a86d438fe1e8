"""The table under a board: a row for each kind of bore or groove, cells broken to their columns."""

from collections.abc import Sequence
from dataclasses import dataclass

from rodwork.documents.annotate import Row, block
from rodwork.documents.drawing import THIN, Ink, Pen, Shape, Text, line, wrapped
from rodwork.documents.page import Area

SHARES = (0.13, 0.19, 0.24, 0.25, 0.10, 0.09)
GAP = 3.0
RULE = Pen(width=0.13, ink="grey")


@dataclass(frozen=True, slots=True)
class Cells:
    """The texts of one row."""

    texts: tuple[str, ...]


def table(heads: Cells, rows: Sequence[Cells], says: Sequence[str], area: Area) -> tuple[tuple[Shape, ...], float]:
    """The table at the foot of the area with what it says under it, and the height at which it begins."""
    foot, foot_height = _foot(says, area)
    size = next((s for s in (3.8, 3.5, 3.2, 2.9, 2.7) if _height(heads, rows, s, area) < 0.42 * area.height), 2.6)
    top = area.bottom + foot_height + _height(heads, rows, size, area)
    shapes: list[Shape] = [*foot]
    y = top
    for n, row in enumerate((heads, *rows)) if rows else ():
        em = 3.0 if n == 0 else size
        shapes += _row(row, y, em, area, head=n == 0)
        y -= _row_height(row, em, area)
        shapes.append(line((area.left, y), (area.right, y), THIN if n == 0 else RULE))
    return tuple(shapes), top


def _foot(says: Sequence[str], area: Area) -> tuple[tuple[Shape, ...], float]:
    rows = [Row(text=" ".join(says), size=3.5)] if says else []
    _, end = block(rows, area.left, 0.0, area.width)
    shapes, _ = block(rows, area.left, area.bottom - end, area.width)
    return shapes, -end + (2.0 if rows else 0.0)


def _columns(area: Area) -> list[tuple[float, float]]:
    """(left, width) of each column."""
    out, x = [], area.left
    for share in SHARES:
        out.append((x, share * area.width - GAP))
        x += share * area.width
    return out


def _lines(text: str, size: float, width: float, column: int) -> tuple[str, ...]:
    return wrapped(text, size, width, column == 1)


def _row_height(row: Cells, size: float, area: Area) -> float:
    lines = max(len(_lines(t, size, w, n)) for n, (t, (_, w)) in enumerate(zip(row.texts, _columns(area), strict=True)))
    return lines * size * 1.2 + 1.6


def _height(heads: Cells, rows: Sequence[Cells], size: float, area: Area) -> float:
    if not rows:
        return 0.0
    return _row_height(heads, 3.0, area) + sum(_row_height(row, size, area) for row in rows)


def _row(row: Cells, top: float, size: float, area: Area, head: bool) -> list[Shape]:
    shapes: list[Shape] = []
    for n, (text, (x, width)) in enumerate(zip(row.texts, _columns(area), strict=True)):
        y = top - 0.8
        for piece in _lines(text, size, width, n):
            y -= size * 1.2
            ink: Ink = "grey" if head else "black"
            shapes.append(Text(at=(x, y + 0.28 * size), text=piece, size=size, bold=n == 1 and not head, ink=ink))
    return shapes
