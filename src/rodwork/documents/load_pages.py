"""Will it hold, on paper: shelves with their sag drawn, joints, the chain of the load, the wall, words to hand over.

On every page stands what it is not. An unknown link is drawn open; then no number stands over the chain.
"""

from collections.abc import Iterator
from dataclasses import replace
from math import cos, pi, radians, sin

from rodwork.documents.annotate import Row, arrow, block, listed, several_named, stem_of
from rodwork.documents.drawing import FAINT, HEAVY, HIDDEN, LINE, THIN, Path_, Pen, Point, Shape, Text, box, line
from rodwork.documents.figures import dimension_across, dimension_up
from rodwork.documents.load_words import (
    JOINT_COLUMNS,
    STYLES,
    alike_rows,
    begun,
    force_text,
    held_text,
    joint_cells,
    link_text,
    more_lines,
    most_text,
    standing_text,
    times_text,
)
from rodwork.documents.page import Area, Page, body
from rodwork.documents.tables import Block, Column, band, flow, gap, heading, paragraph, rows
from rodwork.model.finding import PRINTED
from rodwork.model.loading import CabinetLoad, Chain, HangingLoad, Link, Loading, ShelfLoad, Tipping
from rodwork.model.rod import Rod, RodCabinet

PICTURE_WIDE = 96.0  # of the longest shelf of a cabinet, mm of paper
SAG_MOST = 9.0  # the deepest sag as drawn, mm of paper
TIMES_DRAWN = (1, 2, 5, 10, 20, 50, 100, 200)
NOT_ROOM = 12.0  # kept free above the foot for what the page is not
LINK_MOST = 5.0  # of a link's width: so many times over and more are drawn alike


def load_pages(rod: Rod, loading: Loading) -> tuple[Page, ...]:
    """Every cabinet's pages, in the order of the job."""
    return tuple(page for c in loading.cabinets for page in _cabinet_pages(rod, loading, c))


def _cabinet_pages(rod: Rod, loading: Loading, cabinet: CabinetLoad) -> Iterator[Page]:
    area = _area(rod)
    blocks = [*_shelf_blocks(cabinet, area), *_joint_blocks(cabinet, area), *_finding_blocks(loading, cabinet, area)]
    blocks += [gap(3.0), band("How it was reckoned", area.width), gap(1.0, keep=True)]
    blocks += [paragraph(text, area.width, 3.4, after=0.6) for text in more_lines(cabinet, in_tables=True)]
    for shapes in flow(blocks, area):
        yield _page(rod, loading, f"Will it hold: {cabinet.name}", f"Inside: {cabinet.contents}.", "", shapes)
    if cabinet.hanging is not None:
        shapes = tuple(_chain_shapes(cabinet, cabinet.hanging, area))
        under = "The width of a link is how many times over it bears what comes to it. A link with no figure is open."
        yield _page(
            rod, loading, f"The chain of the load: {cabinet.name}", under, _shout(cabinet.hanging.chain), shapes
        )
        wall = tuple(_wall_shapes(rod.cabinet[cabinet.name], cabinet.hanging, area))
        under = f"{STYLES[cabinet.hanging.style]}; the wall as it was surveyed: {cabinet.hanging.kind}."
        yield _page(rod, loading, f"On the wall: {cabinet.name}", begun(under), "", wall)
    if cabinet.tipping is not None:
        for shapes in flow(_tipping_blocks(rod.cabinet[cabinet.name], cabinet.tipping, area), area):
            yield _page(
                rod,
                loading,
                f"Does it tip: {cabinet.name}",
                "Weights about its front feet: those behind keep it, those before tip it.",
                "",
                shapes,
            )


def _area(rod: Rod) -> Area:
    area = body(rod.heading.paper, landscape=True)
    return Area(left=area.left, bottom=area.bottom + NOT_ROOM, right=area.right, top=area.top)


def _page(rod: Rod, loading: Loading, title: str, under: str, right: str, shapes: tuple[Shape, ...]) -> Page:
    """A page with what it is not at its foot."""
    area = body(rod.heading.paper, landscape=True)
    told = [Row(text=" ".join(loading.not_a_certificate), size=3.2)]
    foot, _ = block(told, area.left, area.bottom + NOT_ROOM - 2.0, area.width)
    return Page(kind="load", title=title, under=under, right=right, shapes=(*shapes, *foot))


def _shout(chain: Chain) -> str:
    """What stands large at the right: a guess has no number."""
    weakest = chain.weakest
    return chain.verdict if weakest is None else f"weakest {times_text(weakest.margin)} times over"


# shelves -----------------------------------------------------------------------------------------------------


def _shelf_blocks(cabinet: CabinetLoad, area: Area) -> list[Block]:
    alike: dict[tuple[object, ...], list[ShelfLoad]] = {}
    for s in cabinet.shelves:  # alike as they are printed: the last digits of a sum tell nobody anything
        told = tuple(row.text for row in _shelf_rows([s]))[1:]
        alike.setdefault((*told, s.spans, s.new_mm is None), []).append(s)
    longest = max((s.span_mm * s.spans for s in cabinet.shelves), default=1.0)
    deepest = max((v for s in cabinet.shelves for v in (s.later_mm, s.new_mm, s.straight_mm) if v), default=1.0)
    scale = PICTURE_WIDE / longest
    drawn = max((t for t in TIMES_DRAWN if t * deepest * scale <= SAG_MOST), default=1)
    title = f"Shelves: sag drawn {drawn} times; dashed: what looks straight; grey: new; black: later"
    if not alike:
        return []
    return [band(title, area.width), *(_shelf_block(group, area, scale, drawn) for group in alike.values())]


def _shelf_block(group: list[ShelfLoad], area: Area, scale: float, drawn: int) -> Block:
    shelf = group[0]
    left = PICTURE_WIDE + 12.0
    texts, end = block(list(_shelf_rows(group)), left, -1.0, area.width - left)
    picture = _sag_picture(shelf, scale, drawn) if shelf.new_mm is not None else ()
    height = max(-end + 2.5, 27.0 if picture else 0.0)
    return Block(height=height, shapes=(*picture, *texts, line((0.0, -height), (area.width, -height), THIN)))


def _shelf_rows(group: list[ShelfLoad]) -> Iterator[Row]:
    shelf = group[0]
    yield Row(text=begun(_names([s.name for s in group])), size=4.2, bold=True)
    yield Row(
        text=f"span {shelf.span_mm:.0f}, {shelf.depth_mm:.0f} deep, {shelf.thickness_mm:g} thick, {held_text(shelf)}; "
        f"carries {shelf.contents_kg:.0f} kg",
        size=3.6,
    )
    if shelf.new_mm is not None:
        later = "later not known" if shelf.later_mm is None else f"later {shelf.later_mm:.1f}"
        yield Row(text=f"sag new {shelf.new_mm:.1f}, {later}", size=4.6, bold=True)
        yield Row(
            text=f"looks straight up to {shelf.straight_mm:.1f}: {times_text(shelf.straight)} times over; sound up to "
            f"{shelf.sound_mm:.1f} as new: {times_text(shelf.sound)} times over; "
            f"strong: {times_text(shelf.strong)} times over",
            size=3.6,
        )
        if shelf.longest_mm is not None:
            yield Row(text=f"longest span for this load: {int(shelf.longest_mm)}", size=3.6)
    for way in shelf.would_do:
        yield Row(text=f"would do: {way}", size=3.6)
    for ask in shelf.asks:
        yield Row(text=ask, size=3.6)


def _names(names: list[str]) -> str:
    """Shelves by name; those of a kind by their numbers: "bottom and fixed shelves 1 to 8"."""
    kinds: dict[str, list[str]] = {}
    for name in names:
        kinds.setdefault(stem_of(name), []).append(name)
    return listed([some[0] if len(some) == 1 else several_named(some) for some in kinds.values()])


def _sag_picture(shelf: ShelfLoad, scale: float, drawn: int) -> tuple[Shape, ...]:
    """The shelf from the front: chord, limit, sag new and later, and over it the moment of a single span."""
    wide = shelf.span_mm * shelf.spans * scale
    y = -10.0
    k = scale * drawn
    shapes: list[Shape] = [line((0.0, y), (wide, y), FAINT)]
    for n in range(shelf.spans + 1):
        x = wide * n / shelf.spans
        shapes.append(
            Path_(points=((x, y), (x - 1.6, y - 3.0), (x + 1.6, y - 3.0)), closed=True, pen=THIN, fill="light")
        )
    limit = y - shelf.straight_mm * k
    shapes.append(line((0.0, limit), (wide, limit), HIDDEN))
    shapes.append(_waves(wide, shelf.spans, y, (shelf.new_mm or 0.0) * k, Pen(width=0.5, ink="grey")))
    if shelf.later_mm is not None:
        shapes.append(_waves(wide, shelf.spans, y, shelf.later_mm * k, Pen(width=0.8)))
    if shelf.spans == 1 and shelf.moment_Nmm:
        arch = tuple((wide * i / 20, y + 5.5 * 4 * (i / 20) * (1 - i / 20)) for i in range(21))
        shapes.append(Path_(points=(*arch, (0.0, y)), pen=THIN))
        text = f"moment {shelf.moment_Nmm / 1000:.1f} Nm"
        shapes.append(Text(at=(wide / 2, y + 6.2), text=text, size=3.0, anchor="middle"))
    return tuple(shapes)


def _waves(wide: float, spans: int, y: float, deep: float, pen: Pen) -> Path_:
    points = tuple((wide * i / (20 * spans), y - deep * abs(sin(pi * i / 20))) for i in range(20 * spans + 1))
    return Path_(points=points, pen=pen)


# joints and what to put right --------------------------------------------------------------------------------


def _joint_blocks(cabinet: CabinetLoad, area: Area) -> list[Block]:
    if not cabinet.joints:
        return []
    wide = (62.0, 66.0, 26.0, 20.0, 26.0)
    columns = [
        Column(title=title, width=w, size=3.6, anchor="end" if figure else "start")
        for (title, figure), w in zip(JOINT_COLUMNS, (*wide, area.width - sum(wide)), strict=True)
    ]  # fmt: skip
    out = [gap(3.0), band("Joints: what comes to the worst screw or dowel of each", area.width), heading(columns)]
    for cells in alike_rows(joint_cells(joint) for joint in cabinet.joints):
        out += rows(columns, cells, least=6.0, most=40.0)
    sources = dict.fromkeys(
        f"{standing_text(j.bears) or 'published'}: {j.bears.source}. {j.beside}".strip()
        for j in cabinet.joints
        if j.bears
    )
    return [*out, gap(1.5), *(paragraph(begun(text), area.width, 3.2, after=0.5) for text in sources)]


def _finding_blocks(loading: Loading, cabinet: CabinetLoad, area: Area) -> list[Block]:
    found = [f for f in loading.findings if f.cabinet == cabinet.name]
    if not found:
        return []
    out = [gap(3.0), band("To put right", area.width)]
    for f in found:
        said = paragraph(f"{PRINTED[f.severity]}  {f.message}", area.width, 3.8, bold=True, after=0.4)
        out.append(replace(said, keep=True))
        out.append(paragraph(f"{f.mend} ({f.source})", area.width, 3.6, after=1.6))
    return out


# the chain ---------------------------------------------------------------------------------------------------


def _chain_shapes(cabinet: CabinetLoad, hanging: HangingLoad, area: Area) -> Iterator[Shape]:
    """Down the middle the chain, left what was assumed, right what is asked for or would mend it."""
    links = hanging.chain.links
    x, top = area.left + 92.0, area.top - 6.0
    pitch = min((area.height - 12.0) / (len(links) + 1), 24.0)
    weight = sum(s.contents_kg for s in cabinet.shelves)
    yield Text(at=(x, top), text=f"{weight:.0f} kg", size=6.0, bold=True, anchor="middle")
    for n, link in enumerate(links):
        y = top - 6.0 - pitch * (n + 0.5)
        yield from _link(link, hanging.chain, x, y, pitch)
    left = [Row(text="Assumed", size=4.4, bold=True), Row(text=f"Inside: {cabinet.contents}.", size=3.6, before=1.0)]
    for state in hanging.states:
        left.append(Row(text=begun(force_text(state)) + ".", size=3.6, before=1.5))
    left.append(Row(text=f"To the worst wall screw: {most_text(hanging.states[-1])}.", size=3.6, before=1.5))
    left.append(Row(text=f"With one of them missing: {most_text(hanging.one_missing)}.", size=3.6, before=1.5))
    yield from block(left, area.left, area.top, 74.0)[0]
    right = [Row(text=_right_head(hanging.chain), size=4.4, bold=True)]
    right += [Row(text=f"{begun(t)}.", size=3.4, before=1.2) for t in _mends(hanging.chain)]
    yield from block(right, area.left + 182.0, area.top, area.width - 182.0)[0]


def _right_head(chain: Chain) -> str:
    return "What is asked for" if not chain.closed else "What would mend the weakest"


def _mends(chain: Chain) -> Iterator[str]:
    asked = dict.fromkeys(link.asks.rstrip(".") for link in chain.links if link.margin is None)
    yield from asked
    if chain.weakest is not None:
        yield f"{link_text(chain.weakest)}. Carry less, or put in more or stronger of them"
        if chain.weakest.source:
            yield f"its figure: {chain.weakest.source}"


def _link(link: Link, chain: Chain, x: float, y: float, pitch: float) -> Iterator[Shape]:
    """One link: an upright ring whose stroke says how many times over; black for the weakest; open where not known."""
    half = pitch * 0.56
    if link.margin is None:
        yield Path_(points=_arc(x, y, 5.0, half, 40.0, 320.0), pen=Pen(width=0.8, dashes=(1.6, 1.0)))
    else:
        weakest = link is chain.weakest
        width = 0.5 + 0.5 * min(link.margin, LINK_MOST)
        yield Path_(points=_arc(x, y, 5.0, half, 0.0, 360.0), pen=Pen(width=width, ink="black" if weakest else "grey"))
    told = [Row(text=begun(link.name), size=4.0, bold=True)]
    if link.margin is None:
        told.append(Row(text=f"{link.carries}; OPEN: no figure", size=3.6))
    elif not chain.closed:
        told.append(Row(text=f"{link.carries}; known", size=3.6))
    else:
        told.append(Row(text=link_text(link).partition(": ")[2], size=3.6))
    texts, _ = block(told, x + 11.0, y + 6.0, 76.0)
    yield from texts


def _arc(x: float, y: float, rx: float, ry: float, start: float, end: float) -> tuple[Point, ...]:
    """Part of an upright ring, from its right side round by its top; degrees."""
    return tuple(
        (x + rx * cos(radians(start + (end - start) * i / 36)), y + ry * sin(radians(start + (end - start) * i / 36)))
        for i in range(37)
    )


# the wall ----------------------------------------------------------------------------------------------------


def _wall_shapes(cabinet: RodCabinet, hanging: HangingLoad, area: Area) -> Iterator[Shape]:
    """The unit on the wall from the front, screws from its left side and down from its top; words beside it."""
    width, height, _ = cabinet.size
    room = Area(
        left=area.left + 14.0, bottom=area.bottom + 9.0, right=area.left + 0.55 * area.width, top=area.top - 18.0
    )
    k = min(room.width / width, room.height / height)
    x0, y1 = room.left, room.top
    yield box(x0, y1 - height * k, width * k, height * k, LINE)
    level = y1 - hanging.down_mm * k
    yield line((x0 - 4.0, level), (x0 + width * k + 4.0, level), HIDDEN)
    for x in hanging.at_mm:
        at = (x0 + x * k, level)
        yield line((at[0] - 1.8, at[1] - 1.8), (at[0] + 1.8, at[1] + 1.8), HEAVY)
        yield line((at[0] - 1.8, at[1] + 1.8), (at[0] + 1.8, at[1] - 1.8), HEAVY)
    last = -1e9
    for x in hanging.at_mm:
        px = x0 + x * k
        up = 4.0 if px - last > 12.0 else 9.0
        yield line((px, y1), (px, y1 + up - 1.0), THIN)
        yield Text(at=(px, y1 + up), text=f"{x:.0f}", size=3.8, bold=True, anchor="middle")
        last = px if up < 5.0 else last
    yield from dimension_up(x0 - 6.0, level, y1, f"{hanging.down_mm:.0f}", bold=True)
    yield from dimension_up(x0 + width * k + 9.0, y1 - height * k, y1, f"{height:.0f}")
    yield from dimension_across(x0, x0 + width * k, y1 - height * k - 5.5, f"{width:.0f}", reach=1.0)
    told = [Row(text="Screws into the wall, from the left side and down from the top", size=4.4, bold=True)]
    told.append(Row(text="Strike a level line first; take the heights from it.", size=3.8, before=1.0))
    told += [Row(text=w, size=3.8, before=2.0) for w in hanging.words]
    if hanging.level_N is not None:
        told.append(
            Row(
                text=f"Nothing is entered for this wall. Over {hanging.level_N.value:.0f} N on one screw we warn "
                f"({hanging.level_N.source}).",
                size=3.6, before=2.0,
            )
        )  # fmt: skip
    yield from block(told, area.left + 0.6 * area.width, area.top, 0.4 * area.width)[0]


# tipping -----------------------------------------------------------------------------------------------------


def _tipping_blocks(cabinet: RodCabinet, tipping: Tipping, area: Area) -> list[Block]:
    picture = _tipping_picture(cabinet, tipping)
    left = 88.0
    told = [
        Row(
            text=f"{begun(s.state)}: "
            + (
                f"falls forward. A restraint at its top must bear {s.restraint_N:.0f} N."
                if s.margin < 1
                else f"stands, {times_text(s.margin)} times over."
            ),
            size=4.0, bold=s.margin < 1, before=1.0,
        )
        for s in tipping.states
    ]  # fmt: skip
    told.append(Row(text=f"({tipping.states[0].source}. It is a sum, not the rule's test.)", size=3.4, before=1.5))
    told.append(Row(text="To hand to the customer", size=4.6, bold=True, before=4.0))
    told += [Row(text=w, size=4.2, before=1.2) for w in tipping.words]
    texts, end = block(told, left, -1.0, area.width - left)
    return [Block(height=max(-end, 105.0), shapes=(*picture, *texts))]


def _tipping_picture(cabinet: RodCabinet, tipping: Tipping) -> tuple[Shape, ...]:
    """From the side, the wall at the right: the weight in front of the feet, and the pull of a restraint."""
    _, height, depth = cabinet.size
    k = min(70.0 / height, 34.0 / depth)
    x0, y0 = 28.0, -96.0
    shapes: list[Shape] = [box(x0, y0, depth * k, height * k, LINE)]
    shapes.append(line((2.0, y0), (x0 + depth * k + 10.0, y0), LINE))
    shapes.append(line((x0 + depth * k + 10.0, y0), (x0 + depth * k + 10.0, y0 + height * k + 6.0), HEAVY))
    shapes += arrow((x0 - 8.0, y0 + 0.6 * height * k + 14.0), (x0 - 8.0, y0 + 0.6 * height * k), LINE)
    shapes.append(Text(at=(x0 - 8.0, y0 + 0.6 * height * k + 16.0), text="27.2 kg", size=3.6, anchor="middle"))
    if tipping.restraint_N > 0:
        top = y0 + height * k - 4.0
        shapes += arrow((x0 + depth * k, top), (x0 + depth * k + 9.5, top), LINE)
        at = (x0 + depth * k + 12.0, top - 1.2)
        shapes.append(Text(at=at, text=f"{tipping.restraint_N:.0f} N", size=3.8, bold=True))
    return tuple(shapes)
