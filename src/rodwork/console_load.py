"""Will it hold, on a terminal: shelves, joints, the box, the wall, tipping and lifting, cabinet by cabinet."""

from rich.console import Console
from rich.markup import escape
from rich.table import Table

from rodwork.console import NARROWEST
from rodwork.documents.load_words import JOINT_COLUMNS, SHELF_COLUMNS, joint_cells, more_lines, shelf_cells
from rodwork.model.finding import PRINTED
from rodwork.model.loading import CabinetLoad, Loading


def print_loading(job: str, loading: Loading) -> None:
    """Print the whole load, and what it is not."""
    console = Console(highlight=False)
    if not console.is_terminal:
        console = Console(highlight=False, width=max(console.width, NARROWEST))
    console.print(f"[bold]{escape(job)}[/bold]   will it hold?")
    for cabinet in loading.cabinets:
        _print_cabinet(console, cabinet)
    for f in loading.findings:
        console.print(f"[bold]{PRINTED[f.severity]}[/bold]  {escape(f.cabinet)}: {escape(f.message)}")
        console.print(f"       {escape(f.mend)}")
        console.print(f"       [dim]{escape(f.source)}[/dim]")
    for sentence in loading.not_a_certificate:
        console.print(f"[dim]{escape(sentence)}[/dim]")


def _print_cabinet(console: Console, cabinet: CabinetLoad) -> None:
    console.print(f"\n[bold]{escape(cabinet.name)}[/bold]   inside: {escape(cabinet.contents)}")
    console.print(_table(SHELF_COLUMNS, [shelf_cells(s) for s in cabinet.shelves]))
    if cabinet.joints:
        console.print(_table(JOINT_COLUMNS, [joint_cells(j) for j in cabinet.joints]))
    for line in more_lines(cabinet):
        console.print(f"  {escape(line)}")


def _table(columns: tuple[tuple[str, bool], ...], cells: list[tuple[str, ...]]) -> Table:
    table = Table(box=None, pad_edge=False, header_style="dim")
    for title, figure in columns:
        table.add_column(title, justify="right" if figure else "left", overflow="fold")
    for row in cells:
        table.add_row(*map(escape, row))
    return table
