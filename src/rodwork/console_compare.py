"""The ways of joining a job side by side, on a terminal: one line for each, what stands behind it on request."""

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from rodwork.console import NARROWEST
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
from rodwork.model.costing import Cannot, Comparison, Way


def print_comparison(compared: Comparison, long: bool) -> None:
    """Print the comparison; with `long`, every line that stands behind a figure as well."""
    console = Console(highlight=False)
    if not console.is_terminal:
        console = Console(highlight=False, width=max(console.width, NARROWEST))
    cabinets = "1 cabinet" if compared.cabinets == 1 else f"{compared.cabinets} cabinets"
    console.print(f"[bold]{escape(compared.job)}[/bold]   {cabinets}, money in {compared.currency}")
    if compared.ways:
        console.print(_table("With the tools at hand", compared.ways, compared))
    if compared.with_machine:
        console.print(_table("With a machine to buy, its share in the money", compared.with_machine, compared))
    _print_cannot(console, "Cannot make this job", compared.cannot)
    _print_cannot(console, "Left out, as you asked", compared.left_out)
    if long:
        for way in compared.all:
            _print_behind(console, way, compared)
    for sentence in starting_text(compared):
        console.print(f"[dim]{escape(sentence)}[/dim]")


def _table(title: str, ways: tuple[Way, ...], compared: Comparison) -> Table:
    table = Table(title=title, title_justify="left", title_style="bold", box=SIMPLE_HEAD, pad_edge=False)
    table.add_column("joined with", overflow="fold", min_width=14)
    for column in columns(
        compared
    ):  # never narrower than its longest word or figure: rich leaves out what it has no room for
        words = [*column.title.split(), *(column.says(way, compared) for way in ways)]
        table.add_column(column.title, justify="right" if column.figure else "left", width=max(map(len, words)))
    for way in ways:
        name = f"[bold]{escape(name_text(way))}[/bold]\n[dim]{escape(way.made_with)}; {escape(shows_text(way))}[/dim]"
        if way.to_buy:
            name += f"\n[dim]{escape(pays_text(way, compared))}[/dim]"
        table.add_row(name, *(escape(column.says(way, compared)) for column in columns(compared)))
    return table


def _print_cannot(console: Console, title: str, ways: tuple[Cannot, ...]) -> None:
    if ways:
        console.print(f"[bold]{title}[/bold]")
        for way in ways:
            console.print(f"[dim]  {escape(way.name)}: {escape(way.why)}[/dim]")


def _print_behind(console: Console, way: Way, compared: Comparison) -> None:
    table = Table(title=escape(way.name), title_justify="left", title_style="bold", box=SIMPLE_HEAD, pad_edge=False)
    for title, figure in (("", False), ("what", False), ("how many", True), ("minutes", True), ("money", True)):
        table.add_column(title, justify="right" if figure else "left", overflow="fold")
    for row in behind(way, compared):
        table.add_row(*(escape(cell) for cell in row))
    table.add_row("a job", "", "", f"{way.minutes:.0f}", money_text(way.money, compared.currency))
    console.print(table)
    for sentence in facts_text(way, compared):
        console.print(f"  {escape(sentence)}")
