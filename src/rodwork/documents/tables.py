"""Blocks that flow down pages, and rows of a table whose cells wrap.

A block is drawn from its own top left corner (0, 0) downwards, so its y are negative. Nothing is shrunk to fit:
what does not fit on a page goes on to the next.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from rodwork.documents.drawing import NO_PEN, THIN, Anchor, Ink, Pen, Shape, Text, box, line, moved, text_width, wrapped
from rodwork.documents.page import Area

LEADING = 1.22  # from one line of text to the next, in ems


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Something of a certain height on a page.

    `keep`: never the last thing on a page. `runs`: said again at the head of the next page, until another does.
    """

    height: float
    shapes: tuple[Shape, ...]
    keep: bool = False
    runs: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of a table: its heading, its width in mm with the gap to the next, and how its text is set."""

    title: str
    width: float
    size: float = 4.0
    bold: bool = False
    anchor: Anchor = "start"

    @property
    def room(self) -> float:
        """Width for text, mm."""
        return self.width - 2.5


def flow(blocks: Iterable[Block], area: Area, head: Block | None = None) -> tuple[tuple[Shape, ...], ...]:
    """Blocks down one page after another, `head` again at the top of each. A page of shapes for each."""
    pages: list[list[Shape]] = []
    held: list[Block] = []
    running: Block | None = None
    y = area.bottom - 1.0
    waiting = list(blocks)
    for n, block in enumerate(waiting, 1):
        held.append(block)
        if block.keep and n < len(waiting):
            continue
        needed = sum(b.height for b in held)
        if y - needed < area.bottom and not any(b.shapes for b in held):
            held = []  # a gap at the foot of a page: nothing to begin another with
            continue
        if y - needed < area.bottom or not pages:
            pages.append([])
            y = area.top
            if head:
                pages[-1] += moved(head.shapes, area.left, y)
                y -= head.height
            if running and len(pages) > 1 and not any(b.runs for b in held):
                held.insert(0, running)
        for b in held:
            running = b if b.runs else running
            pages[-1] += moved(b.shapes, area.left, y)
            y -= b.height
        held = []
    return tuple(map(tuple, pages))


def heading(columns: Sequence[Column], size: float = 3.4) -> Block:
    """The headings of a table over a line; long ones take two rows."""
    cells = [wrapped(c.title, size, c.width - 1.0) if c.title else () for c in columns]
    rows = max(map(len, cells))
    height = rows * size * LEADING + 2.0
    shapes: list[Shape] = []
    x = 0.0
    for column, lines in zip(columns, cells, strict=True):
        for n, text in enumerate(reversed(lines)):
            shapes.append(_cell(text, column, x, -height + 1.8 + n * size * LEADING, size, False, "black"))
        x += column.width
    shapes.append(line((0.0, -height), (x, -height), Pen(width=0.5)))
    return Block(height=height, shapes=tuple(shapes), keep=True)


def rows(
    columns: Sequence[Column], cells: Sequence[str], least: float, most: float, tick: int | None = None
) -> tuple[Block, ...]:
    """One row of a table as a block, over a thin line; as several where its cells wrap beyond `most` mm.

    All first lines stand on one base line. `tick` is the column that holds a box to tick.
    """
    split = [wrapped(text, c.size, c.room, c.bold) if text else () for text, c in zip(cells, columns, strict=True)]
    biggest = max(c.size for c in columns)
    base = 0.5 * (least - 0.66 * biggest) + 0.66 * biggest
    blocks: list[Block] = []
    first = 0
    while True:
        lines = [_take(part, c, first, most, base) for part, c in zip(split, columns, strict=True)]
        height = max(
            least,
            *(base + (len(part) - 1) * c.size * LEADING + 2.2 for part, c in zip(lines, columns, strict=True) if part),
        )
        shapes: list[Shape] = []
        x = 0.0
        for n, (column, part) in enumerate(zip(columns, lines, strict=True)):
            if n == tick and not blocks:
                shapes.append(box(x + 0.4, -base - 0.2, 4.2, 4.2))
            for i, text in enumerate(part):
                if text:
                    shapes.append(_cell(text, column, x, -base - i * column.size * LEADING, column.size, column.bold))
            x += column.width
        shapes.append(line((0.0, -height), (x, -height), THIN))
        blocks.append(Block(height=height, shapes=tuple(shapes)))
        split = [part[len(taken) :] for part, taken in zip(split, lines, strict=True)]
        if not any(split):
            return tuple(blocks)


def _take(lines: tuple[str, ...], column: Column, first: int, most: float, base: float) -> tuple[str, ...]:
    fit = max(1, int((most - base - 2.2) / (column.size * LEADING)) + 1)
    return lines[first : first + fit]


def _cell(text: str, column: Column, x: float, y: float, size: float, bold: bool, ink: Ink = "black") -> Text:
    at = {"start": x, "middle": x + column.room / 2, "end": x + column.room}[column.anchor]
    return Text(at=(at, y), text=text, size=size, bold=bold, anchor=column.anchor, ink=ink)


def band(text: str, width: float, right: str = "", size: float = 4.4, height: float = 8.0) -> Block:
    """A black strip with white letters across the page; it stays with what follows."""
    shapes: list[Shape] = [box(0.0, -height, width, height, pen=NO_PEN, fill="black")]
    y = -0.5 * height - 0.33 * size
    lines = wrapped(text, size, width - 10.0 - text_width(right, size, True), True)
    if len(lines) > 1:
        return _tall_band(lines, width, size)
    shapes.append(Text(at=(3.0, y), text=lines[0], size=size, bold=True, ink="white"))
    if right:
        shapes.append(Text(at=(width - 3.0, y), text=right, size=size, bold=True, ink="white", anchor="end"))
    return Block(height=height, shapes=tuple(shapes), keep=True, runs=True)


def _tall_band(lines: tuple[str, ...], width: float, size: float) -> Block:
    height = len(lines) * size * LEADING + 3.0
    texts = tuple(
        Text(at=(3.0, -1.5 - (n + 0.78) * size * LEADING), text=t, size=size, bold=True, ink="white")
        for n, t in enumerate(lines)
        if t
    )
    return Block(
        height=height, shapes=(box(0.0, -height, width, height, pen=NO_PEN, fill="black"), *texts), keep=True, runs=True
    )


def paragraph(text: str, width: float, size: float = 4.0, bold: bool = False, after: float = 2.0) -> Block:
    """A text wrapped to a width."""
    lines = wrapped(text, size, width, bold)
    texts = tuple(
        Text(at=(0.0, -(n + 0.78) * size * LEADING), text=t, size=size, bold=bold) for n, t in enumerate(lines) if t
    )
    return Block(height=len(lines) * size * LEADING + after, shapes=texts)


def closed(blocks: Sequence[Block], *closing: Block) -> list[Block]:
    """A list and what stands under it, which never stands on a page without a row: the last one comes with it."""
    *before, last = blocks
    return [*before, replace(last, keep=True), *(replace(b, keep=True) for b in closing[:-1]), *closing[-1:]]


def gap(height: float, keep: bool = False) -> Block:
    """Nothing, so high; kept with what follows where it stands under a strip."""
    return Block(height=height, shapes=(), keep=keep)


_MARK = re.compile(r"(.*?)(\d+)(-.+)")


def marks_text(marks: Iterable[str]) -> str:
    """Marks in one line, a run of four copies or more as "G1-LS to G20-LS"."""
    return ", ".join(_runs(tuple(marks)))


def _runs(marks: tuple[str, ...]) -> Iterable[str]:
    run: list[str] = []
    for mark in marks:
        if run and not _follows(run[-1], mark):
            yield from _short(run)
            run = []
        run.append(mark)
    yield from _short(run)


def _follows(before: str, after: str) -> bool:
    a, b = _MARK.fullmatch(before), _MARK.fullmatch(after)
    return bool(a and b and (a[1], a[3]) == (b[1], b[3]) and int(b[2]) == int(a[2]) + 1)


def _short(run: list[str]) -> tuple[str, ...]:
    return (f"{run[0]} to {run[-1]}",) if len(run) > 3 else tuple(run)
