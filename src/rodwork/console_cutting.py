"""How it comes out of the boards, on a terminal: sheets, cuts in order, what is left, what is proven."""

from rich.console import Console

from rodwork.documents.cutting_words import (
    CUT_COLUMNS,
    cut_cells,
    kept_words,
    lifting_words,
    saw_words,
    sheet_title,
    sizing_cells,
    stock_words,
    total_words,
)
from rodwork.model.cutting import BoardPlan, CutSheet, CuttingPlan
from rodwork.terminal import print_findings, print_table, say, wide_console


def print_plan(job: str, plan: CuttingPlan) -> None:
    """Print the whole plan."""
    console = wide_console()
    say(console, f"cutting plan for a {saw_words(plan)}", f"{job}   ", lead_style="bold")
    for board in plan.boards:
        _print_board(console, board, plan.currency)
    print_findings(console, plan.findings)


def _print_board(console: Console, board: BoardPlan, currency: str) -> None:
    console.print()
    say(console, total_words(board, currency), f"{board.board}   ", lead_style="bold")
    for sheet in board.sheets:
        _print_sheet(console, sheet)
    for sizing in board.sizing:
        say(console, "  ".join(sizing_cells(sizing)), "  ")


def _print_sheet(console: Console, sheet: CutSheet) -> None:
    title = f"{sheet_title(sheet)}: {stock_words(sheet)}, {lifting_words(sheet)}"
    if not sheet.cuts:
        say(console, title)
        for sawn in sheet.sawn:
            at = f"{', '.join(sawn.marks)} at {sawn.x:g}, {sawn.y:g}: {sawn.length:g} × {sawn.width:g}"
            say(console, at, "  ")
    else:
        headings = [(name, n == 0) for n, name in enumerate(CUT_COLUMNS)]
        print_table(console, title, headings, (cut_cells(cut) for cut in sheet.cuts))
    if kept := kept_words(sheet):
        say(console, kept, "  to keep: ")
