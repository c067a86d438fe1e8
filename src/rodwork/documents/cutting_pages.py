"""The cutting plan on paper: what to take down first, then each sheet as a drawing and its cuts in order."""

from collections.abc import Iterator
from dataclasses import replace

from rodwork.documents.cutting_words import (
    cut_cells,
    kept_words,
    lifting_words,
    saw_words,
    sheet_title,
    sizing_cells,
    stock_words,
    total_words,
)
from rodwork.documents.drawing import Shape
from rodwork.documents.page import Area, Page, body
from rodwork.documents.sheet_drawing import drawn_height, sheet_shapes
from rodwork.documents.tables import Block, Column, band, flow, gap, heading, paragraph, rows
from rodwork.model.cutting import BoardPlan, CutSheet, CuttingPlan
from rodwork.model.rod import Rod

KIND = "cutting plan"
ROW, CLOSE_ROW = 7.2, 5.6  # least height of a row of a table of cuts, mm
BETWEEN = 3.0  # from the drawing of a sheet to its cuts below it, mm
_BLADE = "Along: the blade runs along the sheet. Set to: from the fence or the edge in hand to the blade."
CAUTION = (
    "Guards, extraction and both hands clear of the line; support both sides of a cut so that nothing falls or closes "
    "on the blade. Nobody lifts over 25 kg alone. Local rules and the machine's own book come first."
)


def cutting_pages(rod: Rod, plan: CuttingPlan) -> tuple[Page, ...]:
    """The list of sheets; each kind of sheet as a drawing and as a table; last the sets to bring to size."""
    pages = [*_list_pages(rod, plan)]
    for board in plan.boards:
        for sheet in board.sheets:
            pages += _sheet_pages(rod, board, sheet)
        pages += _sizing_pages(rod, board)
    return tuple(pages)


def _list_pages(rod: Rod, plan: CuttingPlan) -> Iterator[Page]:
    area = body(rod.heading.paper, landscape=True)
    columns = (
        Column(title="done", width=11.0),
        Column(title="sheet", width=34.0, size=5.0, bold=True),
        Column(title="cut from", width=104.0, size=3.8),
        Column(title="boards", width=16.0, size=4.2, anchor="end"),
        Column(title="cuts", width=13.0, size=4.2, anchor="end"),
        Column(title="settings", width=17.0, size=4.2, anchor="end"),
        Column(title="to keep", width=area.width - 195.0, size=3.8),
    )
    blocks: list[Block] = []
    for board in plan.boards:
        blocks += [band(f"{board.board}: {total_words(board, plan.currency)}", area.width), gap(1.0, keep=True)]
        for sheet in board.sheets:
            cells = (
                "", sheet_title(sheet), f"{stock_words(sheet)}, {lifting_words(sheet)}", str(len(sheet.sawn)),
                str(len(sheet.cuts)), str(sheet.settings), kept_words(sheet) or "nothing",
            )  # fmt: skip
            blocks += rows(columns, cells, least=8.0, most=40.0, tick=0)
        blocks.append(gap(3.0))
    blocks += [band("Before you begin", area.width), gap(1.5, keep=True)]
    told = [paragraph(text, area.width, size=4.0) for text in _about(rod, plan)]
    blocks += [*(replace(text, keep=True) for text in told[:-1]), told[-1]]
    under = f"For a {saw_words(plan)}. All sizes in mm."
    right = f"{sum(b.count for b in plan.boards)} sheets"
    for shapes in flow(blocks, area, heading(columns)):
        yield Page(kind=KIND, title="Cutting plan", under=under, right=right, shapes=shapes)


def _about(rod: Rod, plan: CuttingPlan) -> Iterator[str]:
    for finding in plan.findings:
        yield f"{finding.message}: {finding.mend}."
    if plan.edging_m:
        yield f"Edging on all boards: {plan.edging_m:.1f} m, without ends and spare."
    yield (
        "Break down the sheets in this order. A label goes on each board as it comes off the saw, with the number of "
        "its sheet; offcuts to keep are marked with their name and size. Measure the first board of every setting."
    )
    yield CAUTION


def _sheet_pages(rod: Rod, board: BoardPlan, sheet: CutSheet) -> Iterator[Page]:
    """One upright page with the drawing over its cuts; where they are too many for that the drawing has its own."""
    grain = rod.boards[board.board].grain
    used = sum(s.length * s.width for s in sheet.sawn) / (sheet.size[0] * sheet.size[1])
    title = f"{sheet_title(sheet)}: {board.board}"
    right = f"{len(sheet.sawn)} {'board' if len(sheet.sawn) == 1 else 'boards'}, {100 * used:.0f} % used"
    what = f"{stock_words(sheet)}. {lifting_words(sheet)}. "
    if sheet.cuts:
        what += "Cut along the heavy lines in the order of their numbers; shaded is waste."
    else:
        what += "The cutter goes round each board; shaded is waste."
    upright = body(rod.heading.paper, landscape=False)
    drawn = drawn_height(sheet, upright.width)
    above = replace(upright, bottom=upright.top - drawn)
    cuts = tuple(_cuts(sheet, replace(upright, top=above.bottom - BETWEEN))) if sheet.cuts else ()
    if len(cuts) == 1:
        shapes = (*sheet_shapes(sheet, above, grain), *cuts[0])
        yield Page(kind=KIND, title=title, under=what, right=right, shapes=shapes, landscape=False)
        return
    area = body(rod.heading.paper, landscape=True)
    yield Page(kind=KIND, title=title, under=what, right=right, shapes=sheet_shapes(sheet, area, grain))
    right = f"{sheet.settings} settings"
    for shapes in _cuts(sheet, upright) if sheet.cuts else ():
        yield Page(kind=KIND, title=f"{title}, the cuts", under=_BLADE, right=right, shapes=shapes, landscape=False)


def _cuts(sheet: CutSheet, area: Area) -> tuple[tuple[Shape, ...], ...]:
    """The cuts in their order, a box to tick at each."""
    columns = (
        Column(title="done", width=10.0),
        Column(title="cut", width=10.0, size=5.4, bold=True, anchor="end"),
        Column(title="piece in hand", width=35.0, size=3.6),
        Column(title="blade runs", width=22.0, size=3.6),
        Column(title="set to", width=41.0, size=4.8, bold=True),
        Column(title="comes off", width=0.43 * (area.width - 118.0), size=3.8, bold=True),
        Column(title="stays in hand", width=0.57 * (area.width - 118.0), size=3.2),
    )
    above: list[Block] = []
    if len(sheet.numbers) > 1:
        alike = f"{len(sheet.numbers)} sheets alike: stack them, and cut them together as thick as the saw takes."
        above += [paragraph(alike, area.width, bold=True), gap(1.0)]
    ways = []
    for least in (ROW, CLOSE_ROW):  # a few cuts more than a page takes come closer, rather than stand alone on the next
        cells = (rows(columns, ("", *cut_cells(cut)), least=least, most=40.0, tick=0) for cut in sheet.cuts)
        ways.append(flow([*above, *(block for row in cells for block in row)], area, heading(columns)))
    return min(ways, key=len)


def _sizing_pages(rod: Rod, board: BoardPlan) -> Iterator[Page]:
    if not board.sizing:
        return
    area = body(rod.heading.paper, landscape=True)
    columns = (
        Column(title="done", width=11.0),
        Column(title="", width=28.0, size=4.2),
        Column(title="stop at", width=34.0, size=7.0, bold=True),
        Column(title="boards", width=area.width - 73.0, size=4.2),
    )
    blocks: list[Block] = []
    for sizing in board.sizing:
        way, setting, marks = sizing_cells(sizing)
        blocks += rows(columns, ("", way, setting, marks), least=10.0, most=60.0, tick=0)
    under = "Each set at one stop, all at once: first to width, then to length, from an edge that was cut straight."
    for shapes in flow(blocks, area, heading(columns)):
        yield Page(kind=KIND, title=f"Sets to bring to size: {board.board}", under=under, shapes=shapes)
