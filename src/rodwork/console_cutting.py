"""How it comes out of the boards, on a terminal: sheets, cuts in order, what is left, what is proven."""

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from rodwork.console import NARROWEST
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
from rodwork.model.finding import PRINTED


def print_plan(job: str, plan: CuttingPlan) -> None:
    """Print the whole plan."""
    console = Console(highlight=False)
    if not console.is_terminal:
        console = Console(highlight=False, width=max(console.width, NARROWEST))
    console.print(f"[bold]{escape(job)}[/bold]   cutting plan for a {escape(saw_words(plan))}")
    for board in plan.boards:
        _print_board(console, board, plan.currency)
    for f in plan.findings:
        console.print(f"[bold]{PRINTED[f.severity]}[/bold]  {escape(f.message)}")
        console.print(f"       {escape(f.mend)}")


def _print_board(console: Console, board: BoardPlan, currency: str) -> None:
    console.print(f"\n[bold]{escape(board.board)}[/bold]   {escape(total_words(board, currency))}")
    for sheet in board.sheets:
        _print_sheet(console, sheet)
    for sizing in board.sizing:
        console.print(f"  {escape('  '.join(sizing_cells(sizing)))}")


def _print_sheet(console: Console, sheet: CutSheet) -> None:
    title = f"{sheet_title(sheet)}: {stock_words(sheet)}, {lifting_words(sheet)}"
    if not sheet.cuts:
        console.print(escape(title))
        for sawn in sheet.sawn:
            console.print(
                f"  {escape(', '.join(sawn.marks))} at {sawn.x:g}, {sawn.y:g}: {sawn.length:g} × {sawn.width:g}"
            )
    else:
        table = Table(title=escape(title), title_justify="left", title_style="bold", box=SIMPLE_HEAD, pad_edge=False)
        for n, name in enumerate(CUT_COLUMNS):
            table.add_column(name, justify="right" if n == 0 else "left", overflow="fold")
        for cut in sheet.cuts:
            table.add_row(*(escape(cell) for cell in cut_cells(cut)))
        console.print(table)
    if kept := kept_words(sheet):
        console.print(f"  to keep: {escape(kept)}")
