"""The cutting plan on paper: what to take down first, then each sheet as a drawing and its cuts in order."""

from collections.abc import Iterator

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
from rodwork.documents.page import Page, body
from rodwork.documents.sheet_drawing import sheet_shapes
from rodwork.documents.tables import Block, Column, band, flow, gap, heading, paragraph, rows
from rodwork.model.cutting import BoardPlan, CutSheet, CuttingPlan
from rodwork.model.rod import Rod

KIND = "cutting plan"
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
        Column(title="sheet", width=42.0, size=5.0, bold=True),
        Column(title="cut from", width=86.0, size=3.8),
        Column(title="boards", width=16.0, size=4.2, anchor="end"),
        Column(title="cuts", width=13.0, size=4.2, anchor="end"),
        Column(title="settings", width=17.0, size=4.2, anchor="end"),
        Column(title="to keep", width=area.width - 185.0, size=3.8),
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
    blocks += [paragraph(text, area.width, size=4.0) for text in _about(rod, plan)]
    under = f"For a {saw_words(plan)}. All sizes in mm."
    right = f"{sum(b.count for b in plan.boards)} sheets"
    for shapes in flow(blocks, area, heading(columns)):
        yield Page(kind=KIND, title="Cutting plan", under=under, right=right, shapes=shapes)


def _about(rod: Rod, plan: CuttingPlan) -> Iterator[str]:
    for finding in plan.findings:
        yield f"{finding.message}: {finding.mend}."
    yield f"Edging on all boards: {plan.edging_m:.1f} m, without ends and spare."
    yield (
        "Break down the sheets in this order. A label goes on each board as it comes off the saw, with the number of "
        "its sheet; offcuts to keep are marked with their name and size. Measure the first board of every setting."
    )
    yield CAUTION


def _sheet_pages(rod: Rod, board: BoardPlan, sheet: CutSheet) -> Iterator[Page]:
    area = body(rod.heading.paper, landscape=True)
    grain = rod.boards[board.board].grain
    used = sum(s.length * s.width for s in sheet.sawn) / (sheet.size[0] * sheet.size[1])
    title = f"{sheet_title(sheet)}: {board.board}"
    right = f"{len(sheet.sawn)} {'board' if len(sheet.sawn) == 1 else 'boards'}, {100 * used:.0f} % used"
    what = f"{stock_words(sheet)}. {lifting_words(sheet)}. "
    if sheet.cuts:
        what += "Cut along the heavy lines in the order of their numbers; shaded is waste."
    else:
        what += "The cutter goes round each board; shaded is waste."
    yield Page(kind=KIND, title=title, under=what, right=right, shapes=sheet_shapes(sheet, area, grain))
    if sheet.cuts:
        yield from _cut_pages(rod, board, sheet, title)


def _cut_pages(rod: Rod, board: BoardPlan, sheet: CutSheet, title: str) -> Iterator[Page]:
    area = body(rod.heading.paper, landscape=True)
    columns = (
        Column(title="done", width=11.0),
        Column(title="cut", width=12.0, size=6.0, bold=True, anchor="end"),
        Column(title="", width=3.0),
        Column(title="piece in hand", width=66.0, size=4.0),
        Column(title="blade runs", width=36.0, size=4.2),
        Column(title="set to", width=46.0, size=5.4, bold=True),
        Column(title="comes off", width=0.5 * (area.width - 174.0), size=4.6, bold=True),
        Column(title="stays in hand", width=0.5 * (area.width - 174.0), size=3.8),
    )
    blocks: list[Block] = []
    for cut in sheet.cuts:
        number, piece, runs, setting, gives, stays = cut_cells(cut)
        blocks += rows(columns, ("", number, "", piece, runs, setting, gives, stays), least=9.0, most=40.0, tick=0)
    if len(sheet.numbers) > 1:
        count = len(sheet.numbers)
        blocks.insert(0, gap(1.0))
        blocks.insert(
            0,
            paragraph(
                f"{count} sheets alike: stack them, and cut them together as thick as the saw takes.",
                area.width,
                bold=True,
            ),
        )
    under = (
        "Along: the blade runs along the length of the sheet. Set to: from the fence or the edge in hand to the blade."
    )
    for shapes in flow(blocks, area, heading(columns)):
        yield Page(
            kind=KIND, title=f"{title}, the cuts", under=under, right=f"{sheet.settings} settings", shapes=shapes
        )


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
