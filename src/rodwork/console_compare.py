"""The ways of joining a job side by side, on a terminal: one line for each, what stands behind it on request."""

from rich.console import Console

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
from rodwork.terminal import print_table, say, wide_console

BEHIND = (("", False), ("what", False), ("how many", True), ("minutes", True), ("money", True))


def print_comparison(compared: Comparison, long: bool) -> None:
    """Print the comparison; with `long`, every line that stands behind a figure as well."""
    console = wide_console()
    cabinets = "1 cabinet" if compared.cabinets == 1 else f"{compared.cabinets} cabinets"
    say(console, f"{cabinets}, money in {compared.currency}", f"{compared.job}   ", lead_style="bold")
    if compared.ways:
        _print_ways(console, "With the tools at hand", compared.ways, compared)
    if compared.with_machine:
        _print_ways(console, "With a machine to buy, its share in the money", compared.with_machine, compared)
    _print_cannot(console, "Cannot make this job", compared.cannot)
    _print_cannot(console, "Left out, as you asked", compared.left_out)
    if long:
        for way in compared.all:
            _print_behind(console, way, compared)
    for sentence in starting_text(compared):
        say(console, sentence, style="dim")


def _print_ways(console: Console, title: str, ways: tuple[Way, ...], compared: Comparison) -> None:
    """The figures of these ways side by side, then what each is made with, shows, and would have bought."""
    shown = columns(compared)
    headings = [("joined with", False), *((column.title, column.figure) for column in shown)]
    print_table(console, title, headings, ((name_text(w), *(c.says(w, compared) for c in shown)) for w in ways))
    for way in ways:
        pays = f"; {pays_text(way, compared)}" if way.to_buy else ""
        say(console, f"{way.made_with}; {shows_text(way)}{pays}", f"  {way.name}: ", style="dim")
    console.print()


def _print_cannot(console: Console, title: str, ways: tuple[Cannot, ...]) -> None:
    if ways:
        say(console, title, style="bold")
        for way in ways:
            say(console, way.why, f"  {way.name}: ", style="dim", lead_style="dim")


def _print_behind(console: Console, way: Way, compared: Comparison) -> None:
    whole = ("a job", "", "", f"{way.minutes:.0f}", money_text(way.money, compared.currency))
    print_table(console, way.name, BEHIND, [*behind(way, compared), whole])
    for sentence in facts_text(way, compared):
        say(console, sentence, "  ")
