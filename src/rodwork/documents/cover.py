"""The cover: what is made and for whom, each cabinet in four views, what to put right, and the cautions."""

from collections.abc import Iterator

from rodwork.documents.annotate import listed
from rodwork.documents.cutting_list import cutting_rows
from rodwork.documents.drawing import LINE, NO_PEN, THIN, Pen, Shape, Text, box, line, moved, wrapped
from rodwork.documents.elevations import elevations
from rodwork.documents.figures import mass_text, size_text
from rodwork.documents.masses import TROLLEY_KG, TWO_PEOPLE_KG
from rodwork.documents.page import Area, Page, body, fitted
from rodwork.documents.pictorial import bounds, drawn, pictorial
from rodwork.documents.tables import LEADING, Block, band, flow, gap, marks_text, paragraph
from rodwork.model.finding import PRINTED, Finding, Severity, alike
from rodwork.model.rod import Rod, RodCabinet

_SEVERITIES: tuple[Severity, ...] = ("fault", "warning", "note")
_LEFT_SHARE = 0.36  # of a page's width, for the pictorial view
_NOTE_LINES = 4
_MORE = "... (in full under “To put right”)"
_MOST_ACROSS, _LEAST_HIGH = 5, 50.0  # cabinets side by side on the first page, and the room each needs, mm
_GAP = 8.0


def cover_pages(rod: Rod) -> tuple[Page, ...]:
    """The job, a page for every kind of cabinet (the first page itself where there is one), then the warnings."""
    return (*_job_pages(rod), *_warning_pages(rod))


# the job -----------------------------------------------------------------------------------------------------


def _job_pages(rod: Rod) -> tuple[Page, ...]:
    area = body(rod.heading.paper, landscape=True)
    facts, used = _facts(rod, area)
    rest = Area(left=area.left, bottom=area.bottom, right=area.right, top=area.top - used)
    verdict = tuple(_verdict(rod, rest))
    below = Area(left=area.left, bottom=area.bottom + 10.0, right=area.right, top=rest.top)
    if len(rod.boxes) == 1:
        only = tuple(_four_views(rod.boxes[0], rod, below))
        return (_cover(rod, (*facts, *only, *verdict)),)
    per_page = _MOST_ACROSS * max(1, int(below.height // _LEAST_HIGH))
    groups = [rod.boxes[n : n + per_page] for n in range(0, len(rod.boxes), per_page)]
    first = _cover(rod, (*facts, *_gallery(groups[0], rod, below), *verdict))
    more = tuple(_cover(rod, tuple(_gallery(g, rod, area))) for g in groups[1:])
    each = tuple(_cabinet_page(c, rod, area) for c in rod.boxes)
    return (first, *more, *each)


def _cover(rod: Rod, shapes: tuple[Shape, ...]) -> Page:
    count = sum(c.count for c in rod.boxes)
    cabinets = "1 cabinet" if count == 1 else f"{count} cabinets"
    boards = sum(len(p.marks) for c in rod.cabinets for p in c.parts)
    return Page(
        kind="cover", title=rod.job, under=f"{cabinets}, {boards} boards. All sizes in mm.",
        right=f"letter {rod.heading.letter}", shapes=shapes,
    )  # fmt: skip


def _facts(rod: Rod, area: Area) -> tuple[tuple[Shape, ...], float]:
    """For whom, where, which shop, when; and how much depth they took."""
    h = rod.heading
    told = (("for", h.customer), ("where", h.address), ("shop", rod.shop.name), ("date", h.date))
    cells = [(k, v) for k, v in told if v]
    shapes: list[Shape] = []
    depth = 0.0
    wide = area.width / max(len(cells), 1)
    for n, (name, value) in enumerate(cells):
        x = area.left + n * wide
        shapes.append(Text(at=(x, area.top - 4.0), text=name, size=3.2))
        rows = _short(value, 5.2, wide - 4.0, _NOTE_LINES, True)
        for i, text in enumerate(rows):
            if text:
                at = (x, area.top - 10.0 - i * 5.2 * LEADING)
                shapes.append(Text(at=at, text=text, size=5.2, bold=True))
        depth = max(depth, 12.5 + (len(rows) - 1) * 5.2 * LEADING)
    y = area.top - depth
    for text in _short(h.notes, 4.0, area.width, _NOTE_LINES):
        if text:
            shapes.append(Text(at=(area.left, y - 3.5), text=text, size=4.0))
        y -= 4.0 * LEADING
    if not shapes:
        return (), 0.0
    y -= 1.5
    shapes.append(line((area.left, y), (area.right, y), THIN))
    return tuple(shapes), area.top - y + 2.0


def _short(text: str | None, size: float, width: float, most: int, bold: bool = False) -> tuple[str, ...]:
    """The text in at most so many lines; where it is longer, the last says where it stands in full."""
    rows = wrapped(text, size, width, bold) if text and text.strip() else ()
    return rows if len(rows) <= most else (*rows[: most - 1], _MORE)


def _in_full(rod: Rod, area: Area) -> tuple[Block, ...]:
    """Every text that the pages before had no room for, line by line."""
    h = rod.heading
    wide = area.width / max(1, sum(1 for v in (h.customer, h.address, rod.shop.name, h.date) if v)) - 4.0
    told = [("for", h.customer, 5.2, wide, True), ("where", h.address, 5.2, wide, True)]
    told += [("shop", rod.shop.name, 5.2, wide, True), ("notes", h.notes, 4.0, area.width, False)]
    told += [(c.name, c.asked.notes, 3.6, _words_width(area), False) for c in rod.cabinets]
    blocks: list[Block] = []
    for name, text, size, width, bold in told:
        if text and _MORE in _short(text, size, width, _NOTE_LINES, bold):
            blocks += [gap(3.0), *(b for row in wrapped(name, 4.4, area.width, True) for b in _row(row, 4.4, True))]
            blocks += [b for row in wrapped(text, 4.0, area.width) for b in _row(row, 4.0, False)]
    return tuple(blocks)


def _row(text: str, size: float, bold: bool) -> tuple[Block, ...]:
    return (paragraph(text, 1e9, size, bold, after=0.0),) if text else (gap(size),)


def _verdict(rod: Rod, area: Area) -> Iterator[Shape]:
    """One black or white strip at the foot: may it be cut, and where to read why."""
    counts = _counts(rod)
    told = listed([f"{n} to {_VERBS[s]}" for s, n in counts.items() if n and s != "fault"])
    y = area.bottom
    if counts["fault"]:
        also = f" Also {told}." if told else ""
        text = f"STOP: cut nothing yet. {counts['fault']} to put right first, see “To put right”.{also}"
        yield box(area.left, y, area.width, 8.5, pen=NO_PEN, fill="black")
        size = fitted(text, 5.2, area.width - 6.0, True)
        yield Text(at=(area.left + 3.0, y + 2.6), text=text, size=size, bold=True, ink="white")
        return
    text = "Nothing found to put right."
    if told:
        text = f"Nothing here stops you. {told[:1].upper() + told[1:]}: see “To put right”."
    yield box(area.left, y, area.width, 8.5, pen=Pen(width=0.5))
    yield Text(at=(area.left + 3.0, y + 2.6), text=text, size=fitted(text, 5.2, area.width - 6.0, True), bold=True)


def _counts(rod: Rod) -> dict[Severity, int]:
    """How many there are of each severity; what several cabinets have alike counts once, as it is printed once."""
    groups = alike(rod.findings)
    return {s: sum(1 for group in groups if group[0].severity == s) for s in _SEVERITIES}


_VERBS: dict[Severity, str] = {"fault": "put right", "warning": "watch", "note": "note"}


def _gallery(cabinets: tuple[RodCabinet, ...], rod: Rod, area: Area) -> Iterator[Shape]:
    """Every kind of cabinet in a small pictorial view, in as many rows as draws them largest."""
    count = len(cabinets)
    most_rows = max(1, int(area.height // _LEAST_HIGH))
    able = [r for r in range(1, most_rows + 1) if -(-count // r) <= _MOST_ACROSS] or [most_rows]
    rows = max(able, key=lambda r: min(area.width / -(-count // r), 1.1 * (area.height / r - 16.0)))
    across = max(-(-count // rows), min(3, count))
    wide = (area.width - (across - 1) * _GAP) / across
    high = area.height / rows
    for n, cabinet in enumerate(cabinets):
        left = area.left + (n % across) * (wide + _GAP)
        top = area.top - (n // across) * high
        words = list(_about(cabinet, rod, wide))
        room = Area(left=left, bottom=top - high + len(words) * 5.0 + 5.5, right=left + wide, top=top - 2.0)
        yield from _pictured(cabinet, room)
        for i, (text, size, bold) in enumerate(words):
            yield Text(at=(left, room.bottom - 5.5 - i * 5.0), text=text, size=size, bold=bold)


def _about(cabinet: RodCabinet, rod: Rod, width: float) -> Iterator[tuple[str, float, bool]]:
    """Name and number, sizes, marks and mass of a cabinet, line by line."""
    count = "" if cabinet.count == 1 else f", {cabinet.count} of them"
    for text in wrapped(f"{cabinet.name}{count}", 4.6, width, True):
        yield text, 4.6, True
    sizes = " × ".join(size_text(v, rod.step) for v in cabinet.size)
    kg = cabinet.weight.kg if cabinet.weight else None
    mass = "" if kg is None else f", {mass_text(kg)} each" if cabinet.count > 1 else f", {mass_text(kg)}"
    for text in wrapped(f"{sizes} (width, height, depth){mass}", 3.6, width):
        yield text, 3.6, False


def _pictured(cabinet: RodCabinet, room: Area) -> tuple[Shape, ...]:
    shapes = drawn(pictorial(cabinet), LINE, LINE)
    (x0, y0), (x1, y1) = bounds(shapes)
    k = min(room.width / (x1 - x0), room.height / (y1 - y0))
    dx = room.left + (room.width - (x1 - x0) * k) / 2 - x0 * k
    dy = room.bottom + (room.height - (y1 - y0) * k) / 2 - y0 * k
    return moved(shapes, dx, dy, k)


def _cabinet_page(cabinet: RodCabinet, rod: Rod, area: Area) -> Page:
    copies = tuple(dict.fromkeys(m.partition("-")[0] for p in cabinet.parts for m in p.marks))
    right = "1 cabinet" if cabinet.count == 1 else f"{cabinet.count} cabinets"
    named = copies[0] if len(copies) == 1 else f"{copies[0]} to {copies[-1]}"
    return Page(
        kind="cover", title=cabinet.name, under=f"Marked {named}. All sizes in mm.", right=right,
        shapes=tuple(_four_views(cabinet, rod, area)),
    )  # fmt: skip


def _four_views(cabinet: RodCabinet, rod: Rod, area: Area) -> Iterator[Shape]:
    """The pictorial view with what there is to say about the cabinet; beside it the elevations."""
    split = area.left + _LEFT_SHARE * area.width
    words = list(_about(cabinet, rod, _words_width(area)))
    words += [(t, 3.6, False) for t in _more_about(cabinet, rod, _words_width(area))]
    depth = len(words) * 5.0 + 2.0
    room = Area(left=area.left, bottom=area.bottom + depth + 2.0, right=split - 6.0, top=area.top - 4.0)
    yield from _pictured(cabinet, room)
    for n, (text, size, bold) in enumerate(words):
        if text:
            yield Text(at=(area.left, area.bottom + depth - 4.0 - n * 5.0), text=text, size=size, bold=bold)
    yield from elevations(cabinet, Area(left=split, bottom=area.bottom, right=area.right, top=area.top))


def _more_about(cabinet: RodCabinet, rod: Rod, width: float) -> Iterator[str]:
    a = cabinet.asked
    back = f"back {a.back}" if a.back else "open at the back"
    yield from wrapped(f"{a.corners}; {back}", 3.6, width)
    yield from _short(a.notes, 3.6, width, _NOTE_LINES)


def _words_width(area: Area) -> float:
    """Width of what is said beside the four views."""
    return _LEFT_SHARE * area.width - 4.0


# what to put right, and the cautions -------------------------------------------------------------------------


def _warning_pages(rod: Rod) -> tuple[Page, ...]:
    area = body(rod.heading.paper, landscape=True)
    blocks: list[Block] = []
    for severity in _SEVERITIES:
        for group in alike(f for f in rod.findings if f.severity == severity):
            blocks.append(_finding(group, rod, area.width))
    if not blocks:
        blocks.append(paragraph("Nothing found to put right.", area.width, 5.0, True))
    blocks += [*_in_full(rod, area), *_cautions(rod, area)]
    pages = flow(blocks, area)
    right = ", ".join(f"{n} {PRINTED[s]}" for s, n in _counts(rod).items() if n)
    under = "STOP: not before this is mended. WATCH: know it before you cut. NOTE: so that you know."
    return tuple(
        Page(kind="cover", title="To put right, and with care", under=under, right=right, shapes=shapes)
        for shapes in pages
    )


def _finding(group: tuple[Finding, ...], rod: Rod, width: float) -> Block:
    """One finding: its word in black (STOP) or in a box, everywhere it is found, what, and how to mend it."""
    finding = group[0]
    source = "; ".join(dict.fromkeys(f.source for f in group if f.source))
    left = 26.0
    room = width - left
    y = -1.5
    shapes: list[Shape] = []
    for text, size, bold in (
        (_places(group, rod), 3.6, False),
        (finding.message, 4.4, False),
        (f"Mend: {finding.mend}", 4.4, True),
    ):
        for row in wrapped(text, size, room, bold) if text.strip() else ():
            y -= size * LEADING
            if row:
                shapes.append(Text(at=(left, y + 0.22 * size), text=row, size=size, bold=bold))
    for row in wrapped(source, 2.9, room) if source else ():
        y -= 2.9 * LEADING
        shapes.append(Text(at=(left, y + 0.22 * 2.9), text=row, size=2.9, ink="grey"))
    word = PRINTED[finding.severity]
    stop = finding.severity == "fault"
    tag = box(0.0, -10.5, 21.0, 8.5, pen=Pen(width=0.6), fill="black" if stop else "white")
    label = Text(at=(10.5, -8.0), text=word, size=5.2, bold=True, anchor="middle", ink="white" if stop else "black")
    y = min(y - 1.5, -12.5)
    return Block(height=-y, shapes=(tag, label, *shapes, line((0.0, y), (width, y), THIN)))


def _places(group: tuple[Finding, ...], rod: Rod) -> str:
    """Every cabinet with the boards that are meant; cabinets whose boards have the same names together."""
    by_boards: dict[str, list[str]] = {}
    for finding in group:
        by_boards.setdefault(_boards(finding, rod), []).append(finding.cabinet)
    return "; ".join(
        ": ".join(t for t in (listed(list(dict.fromkeys(c for c in cabinets if c))), boards) if t)
        for boards, cabinets in by_boards.items()
    )


def _boards(finding: Finding, rod: Rod) -> str:
    """The boards that are meant, by name; a joint by the boards that meet in it."""
    cabinet = rod.cabinet.get(finding.cabinet)
    parts = cabinet.part if cabinet else {}
    meeting = {j.id: j.parts for j in cabinet.joints} if cabinet else {}
    boards = [i for w in finding.where for i in meeting.get(w, (w,)) if i in parts]
    return listed(list(dict.fromkeys(parts[i].name for i in boards)))


def _cautions(rod: Rod, area: Area) -> tuple[Block, ...]:
    """The usual cautions in three columns; the lifting ones with this job's own masses."""
    size, columns = 4.0, 3
    wide = (area.width - (columns - 1) * _GAP) / columns
    told = [_caution(head, words, wide, size) for head, words in caution_texts(rod)]
    heights = [0.0] * columns
    shapes: list[Shape] = []
    for block in told:
        n = heights.index(min(heights))
        shapes += moved(block.shapes, n * (wide + _GAP), -heights[n])
        heights[n] += block.height
    body_block = Block(height=max(heights), shapes=tuple(shapes))
    return (gap(5.0), band("With care", area.width), gap(2.5, keep=True), body_block)


def _caution(head: str, words: str, width: float, size: float) -> Block:
    shapes: list[Shape] = [Text(at=(0.0, -4.4), text=head, size=4.4, bold=True)]
    y = -5.4
    for row in wrapped(words, size, width):
        y -= size * LEADING
        shapes.append(Text(at=(0.0, y + 0.22 * size), text=row, size=size))
    return Block(height=-y + 3.0, shapes=tuple(shapes))


def caution_texts(rod: Rod) -> tuple[tuple[str, str], ...]:
    """(heading, words) of every caution that this job calls for."""
    styles = {c.asked.style for c in rod.boxes}
    told = [
        (
            "Saws",
            "Riving knife and guard on, blade low, push stick for the last 300 mm, fence short of the blade on short "
            "cross-cuts. Support large boards on all sides. Power off before a blade is touched.",
        ),
        (
            "Routers and drills",
            "Work against the turn of the cutter, clamp the board and not the hand, let the cutter stop before it is "
            "lifted. Deep grooves in several passes. Eyes and ears covered.",
        ),
        (
            "Dust",
            "Extract at the machine and wear a fitted mask: dust of hardwood, plywood, MDF and chipboard harms the "
            "lungs. In Britain no more than 3 mg/m³ of hardwood or mixed and 5 of softwood over 8 hours (EH40), in "
            "the EU 2 for hardwood; other places have their own.",
        ),
        ("Lifting", _lifting(rod)),
    ]
    if "wall" in styles:
        told.append(
            (
                "Hanging",
                "Nothing in this pack says that a wall will hold. Find out what the wall is, fix into masonry or "
                "studs, never into plaster or plasterboard alone, and look for pipes and cables first. Hold the "
                "cabinet up until every screw is in.",
            )
        )
    if styles - {"wall"}:
        told.append(
            (
                "Tipping",
                "A cabinet that is tall for its depth, or has a child near it, is fixed back to the wall before it is "
                "loaded. Heavy things go low.",
            )
        )
    told.append(
        (
            "Before anything else",
            "These are reminders, not instruction. The machine's own book, local rules and codes, and the advice of "
            "a competent or licensed person come before anything printed here.",
        )
    )
    return tuple(told)


def _lifting(rod: Rod) -> str:
    """What is heavy in this job, and the guideline that says so."""
    words = []
    used = {p.board for c in rod.cabinets for p in c.parts}
    sheets = [(n, kg) for n, s in rod.boards.items() if n in used and (kg := s.sheet_kg) is not None]
    loads = [(kg, f"a whole sheet of {n} ({mass_text(kg)})") for n, kg in sheets]
    boards = [(r.kg, r) for r in cutting_rows(rod) if r.kg is not None]
    loads += [(kg, f"{r.name} {marks_text(r.marks[:1])} ({mass_text(kg)})") for kg, r in boards]
    units = [(c.name, c.weight.kg) for c in rod.boxes if c.weight is not None]
    loads += [(kg, f"{name} ({mass_text(kg)} empty)") for name, kg in units]
    for_two = [what for kg, what in loads if TWO_PEOPLE_KG < kg <= TROLLEY_KG]
    for_more = [what for kg, what in loads if kg > TROLLEY_KG]
    if for_two:
        words.append(f"Two people: {listed(for_two)}.")
    if for_more:
        words.append(f"Too much for two, a trolley or a hoist: {listed(for_more)}.")
    if sheets and not (for_two or for_more):
        words.append("No board or empty cabinet of this job is over 25 kg.")
    unknown = sorted(name for name in used if rod.boards[name].density_kg_m3 is None)
    if unknown:
        words.append(f"The density of {listed(unknown)} is not known: weigh before you lift.")
    words.append(
        "As a guide (HSE, L23 and INDG143): close to the body at elbow height 25 kg for a man and 16 for a woman; "
        "much less high, low, at arm's length or up stairs."
    )
    return " ".join(words)
