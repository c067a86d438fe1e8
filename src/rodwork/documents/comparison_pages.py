"""The comparison as pages: a line for each way, with a thumb-size picture of what shows; then what stands behind it."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from rodwork.documents.annotate import clipped
from rodwork.documents.comparison import (
    behind,
    columns,
    facts_text,
    money_text,
    name_text,
    pays_text,
    shows_text,
    starting_text,
)
from rodwork.documents.cost_picture import cost_shapes
from rodwork.documents.drawing import NO_PEN, THIN, Circle, Ink, Pen, Shape, Text, box, line, wrapped
from rodwork.documents.page import Area, Page, body, fitted
from rodwork.documents.tables import LEADING, Block, Column, band, flow, gap, heading, paragraph, rows
from rodwork.model.costing import Cannot, Comparison, Seen, Way
from rodwork.model.rod import Rod

THUMB = 12.0  # side of one of the two small pictures
NAME_X = 2 * THUMB + 7.0
NAME_ROOM = 84.0
ROW = 17.0
FIGURE, SMALL, GREY_LIST = 6.0, 3.2, 3.4
BLACK: Ink = "black"
WHITE: Ink = "white"
PICTURE = 66.0  # height of the picture of costs


def comparison_pages(rod: Rod, compared: Comparison) -> tuple[Page, ...]:
    """The comparison, and a page or more of what stands behind each line."""
    area = body(rod.heading.paper, landscape=True)
    cabinets = "1 cabinet" if compared.cabinets == 1 else f"{compared.cabinets} cabinets"
    first = [
        Page(
            kind="comparison", title="Which joint?", shapes=shapes, right=cabinets,
            under=f"What joining costs, in {compared.currency}; boards, edging and backs are the same in every line.",
        )
        for shapes in flow(_blocks(compared, area), area, head=_head(compared, area))
    ]  # fmt: skip
    upright = body(rod.heading.paper, landscape=False)
    columns = _behind_columns(upright)
    return (
        *first,
        *(
            Page(
                kind="comparison", title="What stands behind each line", right=cabinets, landscape=False, shapes=shapes,
                under=f"For the whole job, in {compared.currency}. Starred: a starting value, not your shop's.",
            )
            for shapes in flow(_behind_blocks(compared, upright, columns), upright, head=heading(columns))
        ),
    )  # fmt: skip


def _figure_places(area: Area, number: int) -> list[tuple[float, float]]:
    """Middle and width of each column of figures and of words, from the left of the table."""
    start = NAME_X + NAME_ROOM + 2.0
    each = (area.width - start) / number
    return [(start + (n + 0.5) * each, each) for n in range(number)]


def _head(compared: Comparison, area: Area) -> Block:
    """Headings: two rows of small letters over a line."""
    size = 3.0
    shapes: list[Shape] = [
        Text(at=(THUMB / 2, -7.4), text="outside", size=size, anchor="middle"),
        Text(at=(1.5 * THUMB + 2.0, -7.4), text="inside", size=size, anchor="middle"),
        Text(at=(NAME_X, -7.4), text="joined with", size=size),
        line((0.0, -9.0), (area.width, -9.0), Pen(width=0.5)),
    ]
    told = columns(compared)
    for column, (middle, width) in zip(told, _figure_places(area, len(told)), strict=True):
        for n, text in enumerate(reversed(wrapped(column.title, size, width - 1.0))):
            shapes.append(Text(at=(middle, -7.4 + n * size * LEADING), text=text, size=size, anchor="middle"))
    return Block(height=9.0, shapes=tuple(shapes), keep=True)


def _blocks(compared: Comparison, area: Area) -> Iterator[Block]:
    for way in compared.ways:
        yield _row(way, compared, area)
    if compared.with_machine:
        yield replace(band("With a machine to buy: its share is in the money", area.width), runs=False)
        for way in compared.with_machine:
            yield _row(way, compared, area)
    yield from _grey("Cannot make this job", compared.cannot, area)
    yield from _grey("Left out, as you asked", compared.left_out, area)
    yield Block(
        height=PICTURE + 4.0,
        shapes=cost_shapes(compared, Area(left=0.0, bottom=-PICTURE - 2.0, right=area.width, top=-2.0)),
    )
    yield from (paragraph(sentence, area.width, size=GREY_LIST) for sentence in starting_text(compared))


def _row(way: Way, compared: Comparison, area: Area) -> Block:
    """One way: pictures, name, four figures, three words."""
    name = name_text(way)
    shapes: list[Shape] = [
        *_thumb(way.seen, 0.0, inside=False), *_thumb(way.seen, THUMB + 2.0, inside=True),
        Text(at=(NAME_X, -5.6), text=clipped(name, 5.0, NAME_ROOM, True), size=5.0, bold=True),
        Text(at=(NAME_X, -9.8), text=clipped(f"{way.made_with}; {shows_text(way)}", SMALL, NAME_ROOM), size=SMALL),
    ]  # fmt: skip
    if way.to_buy:
        shapes.append(Text(at=(NAME_X, -13.8), text=clipped(pays_text(way, compared), SMALL, NAME_ROOM), size=SMALL))
    told = columns(compared)
    for column, (middle, width) in zip(told, _figure_places(area, len(told)), strict=True):
        text = column.says(way, compared)
        size = fitted(text, FIGURE if column.figure else 4.4, width - 3.0, column.figure)
        shapes.append(Text(at=(middle, -8.6), text=text, size=size, bold=column.figure, anchor="middle"))
    shapes.append(line((0.0, -ROW), (area.width, -ROW), THIN))
    return Block(height=ROW, shapes=tuple(shapes))


def _thumb(seen: Iterable[Seen], x: float, inside: bool) -> tuple[Shape, ...]:
    """A corner of the cabinet, front edge at the left, as the customer sees it: rings are open, dots are covered."""
    top = -1.8
    shapes: list[Shape] = [box(x, top - THUMB, THUMB, THUMB), line((x, top - 2.2), (x + THUMB, top - 2.2), THIN)]
    for mark in (s for s in seen if s.inside is inside):
        for u in mark.along:
            at = (x + 0.8 + (THUMB - 1.6) * min(max(u / max(mark.depth, 1.0), 0.0), 1.0), top - 1.1)
            radius = 0.55 if mark.diameter < 12 else 0.8
            pen, fill = (NO_PEN, BLACK) if mark.covered else (Pen(width=0.25), WHITE)
            shapes.append(Circle(centre=at, radius=radius, pen=pen, fill=fill))
    return tuple(shapes)


def _grey(title: str, ways: tuple[Cannot, ...], area: Area) -> Iterator[Block]:
    """One grey list, each with its reason."""
    if not ways:
        return
    yield Block(
        height=7.5, keep=True, shapes=(Text(at=(0.0, -5.5), text=title, size=4.0, bold=True, ink="grey"),)
    )  # fmt: skip
    for way in ways:
        lines = wrapped(f"{way.name}: {way.why}", GREY_LIST, area.width)
        yield Block(
            height=len(lines) * GREY_LIST * LEADING + 0.8,
            shapes=tuple(
                Text(at=(0.0, -(n + 0.78) * GREY_LIST * LEADING), text=text, size=GREY_LIST, ink="grey")
                for n, text in enumerate(lines)
            ),
        )


def _behind_columns(area: Area) -> tuple[Column, ...]:
    rest = area.width - 32.0 - 3 * 27.0
    return (
        Column(title="", width=32.0, size=3.6),
        Column(title="what", width=rest, size=3.6),
        Column(title="how many", width=27.0, size=3.6, anchor="end"),
        Column(title="minutes", width=27.0, size=3.6, anchor="end"),
        Column(title="money", width=27.0, size=3.6, anchor="end"),
    )


def _behind_blocks(compared: Comparison, area: Area, columns: tuple[Column, ...]) -> Iterator[Block]:
    for way in compared.all:
        yield band(f"{name_text(way)}: {way.made_with}", area.width, money_text(way.money, compared.currency))
        for cells in behind(way, compared):
            yield from rows(columns, cells, least=5.4, most=area.height / 2)
        yield gap(1.0, keep=True)
        yield from (paragraph(sentence, area.width, size=3.6, after=1.0) for sentence in facts_text(way, compared))
        yield gap(4.0)
