"""The dry fit on paper: one sentence, the corners with their lip, three things to do; behind it the pictures.

Words and no decimals, but for lips and diagonals in tenths of a millimetre. The figures stand on the second page.
"""

from collections.abc import Iterator

from rodwork.documents.annotate import clipped
from rodwork.documents.drawing import (
    FAINT,
    HEAVY,
    HIDDEN,
    LINE,
    THIN,
    Anchor,
    Path_,
    Pen,
    Point,
    Shape,
    Text,
    box,
    line,
    moved,
    wrapped,
)  # fmt: skip
from rodwork.documents.dry_fit_words import (
    HISTOGRAMS,
    as_cut_lines,
    boards_words,
    chance_words,
    lip_words,
    shape_lines,
    weakest_words,
    worst_lip_words,
)  # fmt: skip
from rodwork.documents.hulls import front_outline
from rodwork.documents.page import Area, Page, body
from rodwork.documents.tables import Block, Column, band, flow, gap, heading, paragraph, rows
from rodwork.model.dry_fit import CabinetFit, DryFit, Histogram, Lip, sentence
from rodwork.model.rod import Rod, RodCabinet

KIND = "dry fit"
SENTENCE_MM = 8.0  # height of the letters
INSET = (42.0, 27.0)  # a corner drawn large, mm of paper
MAGNIFIED = 25.0  # how many times a lip is drawn larger than it is
TODO_WIDE = 84.0
BESIDE, OVER, UNDER = 8.0, 10.0, 10.0  # room beside a corner drawn large, for its name over it, its words under it
HAIR = Pen(width=0.12)
SEEN = frozenset({"side", "top", "bottom", "divider", "part divider", "fixed shelf", "rail"})
AT_CORNERS = frozenset({"side", "top", "bottom", "rail"})


def dry_fit_pages(rod: Rod, fit: DryFit) -> tuple[Page, ...]:
    """For each cabinet: the page to read, the page behind it, and what was found of boards as cut."""
    return tuple(page for cabinet in fit.cabinets for page in _pages(rod, fit, cabinet))


def _pages(rod: Rod, fit: DryFit, cabinet: CabinetFit) -> Iterator[Page]:
    area = body(rod.heading.paper, landscape=True)
    title = f"Dry fit on paper: {cabinet.cabinet}"
    yield Page(
        kind=KIND, title=title, under=boards_words(cabinet), shapes=tuple(_front(rod, fit, cabinet, area)),
    )  # fmt: skip
    for shapes in flow(_as_cut_blocks(cabinet, area), area):
        yield Page(kind=KIND, title=f"As cut: {cabinet.cabinet}", under="What to do, best first.", shapes=shapes)
    under = f"{fit.samples} assemblies on paper, seed {fit.seed}. For those who ask; nothing is set by this page."
    yield Page(
        kind=KIND, title=f"Behind the dry fit: {cabinet.cabinet}", under=under,
        shapes=tuple(_behind(fit, cabinet, area)),
    )  # fmt: skip


def _front(rod: Rod, fit: DryFit, cabinet: CabinetFit, area: Area) -> Iterator[Shape]:
    said = paragraph(sentence(cabinet, fit.assumed), area.width, SENTENCE_MM, bold=True)
    yield from moved(said.shapes, area.left, area.top)
    top = area.top - said.height - 2.0
    picture = Area(left=area.left, bottom=area.bottom + 22.0, right=area.right - TODO_WIDE - 8.0, top=top)
    yield from _elevation(rod.cabinet[cabinet.cabinet], fit, cabinet, picture)
    yield from _to_do(
        cabinet, fit.feel_mm, Area(left=area.right - TODO_WIDE, bottom=area.bottom, right=area.right, top=top)
    )
    y = area.bottom + 16.0
    for text in shape_lines(cabinet):
        yield Text(at=(area.left, y), text=text, size=4.2)
        y -= 5.6


def _elevation(drawn: RodCabinet, fit: DryFit, cabinet: CabinetFit, area: Area) -> Iterator[Shape]:
    """The carcass from the front, its diagonals, and each corner beside it with its lip drawn twenty times."""
    boards = [front_outline(part) for part in drawn.parts if part.in_box and part.role in SEEN]
    across, up = ([p[axis] for outline in boards for p in outline] for axis in (0, 1))
    room_w, room_h = area.width - 2 * (INSET[0] + BESIDE), area.height - 6.0
    k = min(room_w / (max(across) - min(across)), room_h / (max(up) - min(up)))
    middle = (area.left + area.width / 2, area.bottom + area.height / 2)

    def at(x: float, z: float) -> Point:
        return (
            middle[0] + (x - (min(across) + max(across)) / 2) * k, middle[1] + (z - (min(up) + max(up)) / 2) * k,
        )  # fmt: skip

    for outline in boards:
        yield Path_(points=tuple(at(*p) for p in outline), closed=True, pen=LINE)
    corners = {where: (lip, at(*point)) for where, (lip, point) in _corners(drawn, cabinet).items()}
    told = any(square.name == "diagonals" for square in cabinet.squareness)
    for left_bottom in (True, False) if told else ():  # the two diagonals, where anything is said of them
        ends = [corners.get(where) for where in ((True, left_bottom), (False, not left_bottom))]
        if ends[0] and ends[1]:
            yield line(ends[0][1], ends[1][1], HIDDEN)
    for (is_left, is_bottom), (lip, corner) in sorted(corners.items(), key=lambda c: c[0]):
        x = area.left if is_left else area.right - INSET[0]
        y = area.bottom + UNDER if is_bottom else area.top - INSET[1] - OVER
        edge = (x + (INSET[0] if is_left else 0.0), y + INSET[1] / 2)
        yield line(edge, corner, FAINT)
        yield from _inset(lip, fit.feel_mm, x, y, is_left, is_bottom)


def _corners(drawn: RodCabinet, cabinet: CabinetFit) -> dict[tuple[bool, bool], tuple[Lip, tuple[float, float]]]:
    """The worst lip of outer faces at each corner of the carcass, by (left, bottom), and where it is, (across, up).

    Where there is no top, or no bottom, it is that of the foremost rail.
    """
    joints = {j.id: j for j in drawn.joints}

    def roles(lip: Lip) -> set[str]:
        parts = [drawn.part[part] for part in joints[lip.joint].parts]
        return {part.role for part in parts} if all(part.in_box for part in parts) else set()

    def telling(lip: Lip) -> tuple[bool, float, float]:
        is_rail = "rail" in roles(lip)
        return not is_rail, -joints[lip.joint].contact.from_point[1] if is_rail else 0.0, lip.worst_mm

    of_corners = [lip for lip in cabinet.lips if not lip.is_of_edges and {"side"} < roles(lip) <= AT_CORNERS]
    out: dict[tuple[bool, bool], tuple[Lip, tuple[float, float]]] = {}
    for lip in sorted(of_corners, key=telling):  # the last at each corner stays
        x, _, z = joints[lip.joint].contact.from_point
        is_bottom = "bottom" in roles(lip) or ("rail" in roles(lip) and z < drawn.size[1] / 2)
        out[x < drawn.size[0] / 2, is_bottom] = (lip, (x, z))
    return out


def _inset(lip: Lip, feel_mm: float, x: float, y: float, is_left: bool, is_bottom: bool) -> Iterator[Shape]:
    """One corner, enlarged: the host's end is the heavy line, the guest's face stands twenty times off it."""
    w, h = INSET
    yield box(x, y, w, h, pen=THIN)
    level = y + h / 2
    host = (x + 2.0, x + w / 2) if is_left else (x + w / 2, x + w - 2.0)
    guest = (x + w / 2, x + w - 8.0) if is_left else (x + 8.0, x + w / 2)
    yield line((host[0], level), (host[1], level), HEAVY)
    outwards = -1.0 if is_bottom else 1.0
    for value in lip.drawn:
        off = max(-h / 2 + 1.0, min(h / 2 - 1.0, outwards * value * MAGNIFIED))
        yield line((guest[0], level + off), (guest[1], level + off), HAIR)
    ruler = x + w - 4.0 if is_left else x + 4.0
    for tenth in range(-5, 6):
        yield line((ruler - 0.8, level + tenth / 10 * MAGNIFIED), (ruler + 0.8, level + tenth / 10 * MAGNIFIED), HAIR)
    anchor: Anchor = "start" if is_left else "end"
    anchor_x, room = x if is_left else x + w, w + BESIDE - 2.0
    for n, row in enumerate(wrapped(lip_words(lip, feel_mm), 3.4, room, bold=True)[:2]):
        yield Text(at=(anchor_x, y - 4.4 * (n + 1)), text=row, size=3.4, bold=True, anchor=anchor)
    for n, row in enumerate(reversed(wrapped(f"{lip.guest} on {lip.host}, {lip.place}", 3.0, room)[:2])):
        yield Text(at=(anchor_x, y + h + 1.4 + 3.9 * n), text=row, size=3.0, anchor=anchor)


def _to_do(cabinet: CabinetFit, feel_mm: float, area: Area) -> Iterator[Shape]:
    y = area.top
    blocks: list[Block] = [band("Three things to do" if len(cabinet.remedies) == 3 else "What to do", area.width)]
    if not cabinet.remedies:
        blocks.append(paragraph("Nothing: no improvement of one thing alone would be seen.", area.width - 2.0, 4.4))
    for number, remedy in enumerate(cabinet.remedies, 1):
        blocks += [
            gap(2.0), paragraph(f"{number}. {remedy.do[:1].upper()}{remedy.do[1:]}.", area.width - 2.0, 4.4, bold=True),
            paragraph(f"{remedy.gains}.", area.width - 2.0, 4.0),
        ]  # fmt: skip
    worst = cabinet.worst_lip
    if worst is not None:
        text = worst_lip_words(worst, feel_mm)
        blocks += [gap(3.0), paragraph(text, area.width - 2.0, 4.0)]
    for block in blocks:
        yield from moved(block.shapes, area.left, y)
        y -= block.height


def _as_cut_blocks(cabinet: CabinetFit, area: Area) -> list[Block]:
    """Every measured board with its ways on, then the numbers of the papers that follow it."""
    blocks: list[Block] = []
    for as_cut in cabinet.as_cut:
        blocks += [
            band(f"{as_cut.mark}: {as_cut.dimension} {as_cut.measured_mm:.1f}, asked {as_cut.asked_mm:.1f}", area.width)
        ]
        blocks += [gap(1.5, keep=True), *(paragraph(text, area.width, 4.4) for text in as_cut_lines(as_cut)), gap(2.0)]
    corrected = [mark for as_cut in cabinet.as_cut for mark in as_cut.corrected]
    if corrected:
        columns = (
            Column(title="done", width=12.0), Column(title="board", width=36.0, size=5.0, bold=True),
            Column(title="number", width=70.0), Column(title="was", width=26.0, anchor="end"),
            Column(title="now", width=30.0, size=6.0, bold=True, anchor="end"),
            Column(title="because", width=area.width - 174.0),
        )  # fmt: skip
        blocks += [band("Corrected marks, if the first way is taken", area.width), heading(columns)]
        for mark in corrected:
            cells = ("", mark.mark, mark.what, f"{mark.was_mm:.1f}", f"{mark.now_mm:.1f}", mark.why)
            blocks += rows(columns, cells, least=8.0, most=30.0, tick=0)
    return blocks


def _behind(fit: DryFit, cabinet: CabinetFit, area: Area) -> Iterator[Shape]:
    """Four histograms above; below them what costs the fit, and before and after each thing to do."""
    wide = (area.width - 3 * 8.0) / 4
    high = 48.0
    for n, histogram in enumerate(cabinet.histograms):
        x = area.left + n * (wide + 8.0)
        yield from _histogram(histogram, Area(left=x, bottom=area.top - high, right=x + wide, top=area.top))
    top = area.top - high - 14.0
    half = (area.width - 12.0) / 2
    yield from _bars(
        "What costs the fit", [(c.what, c.share, f"{100 * c.share:.0f} %") for c in cabinet.costs],
        Area(left=area.left, bottom=area.bottom, right=area.left + half, top=top),
    )  # fmt: skip
    before = [("as it is", cabinet.chance, f"{100 * cabinet.chance:.0f} in 100")]
    after = [
        (f"after {n}: {r.do}", r.chance, f"{100 * r.chance:.0f} in 100") for n, r in enumerate(cabinet.remedies, 1)
    ]
    yield from _bars(
        "Before and after", [*before, *after],
        Area(left=area.right - half, bottom=area.bottom + 16.0, right=area.right, top=top),
    )  # fmt: skip
    block = paragraph(f"{chance_words(cabinet)} {weakest_words(cabinet)}", half, 3.6)
    yield from moved(block.shapes, area.right - half, area.bottom + 12.0)


def _histogram(histogram: Histogram, area: Area) -> Iterator[Shape]:
    yield Text(at=(area.left, area.top - 3.0), text=HISTOGRAMS[histogram.name], size=3.4, bold=True)
    most, floor, room = max(histogram.counts), area.bottom + 5.0, area.height - 11.0
    step = area.width / len(histogram.counts)
    for n, count in enumerate(histogram.counts):
        if count:
            yield box(area.left + n * step, floor, step * 0.9, room * count / most, pen=HAIR, fill="grey")
    yield line((area.left, floor), (area.right, floor), LINE)
    high = histogram.low_mm + histogram.wide_mm * len(histogram.counts)
    for x, value, anchor in ((area.left, histogram.low_mm, "start"), (area.right, high, "end")):
        yield Text(at=(x, area.bottom), text=f"{value:.1f}", size=3.4, anchor="start" if anchor == "start" else "end")


def _bars(title: str, bars: list[tuple[str, float, str]], area: Area) -> Iterator[Shape]:
    yield Text(at=(area.left, area.top - 4.0), text=title, size=4.4, bold=True)
    y = area.top - 12.0
    for name, share, figure in bars:
        yield Text(at=(area.left, y), text=clipped(name, 3.4, area.width), size=3.4)
        yield box(area.left, y - 5.6, max(0.3, (area.width - 22.0) * share), 3.8, pen=HAIR, fill="grey")
        yield Text(at=(area.right, y - 5.0), text=figure, size=3.6, anchor="end")
        y -= 11.0
