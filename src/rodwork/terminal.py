"""What every command prints with: tables that keep their words whole, sayings that hang under their lead."""

import textwrap
from collections.abc import Iterable, Sequence

from rich.box import SIMPLE_HEAD
from rich.cells import cell_len
from rich.console import Console
from rich.table import Table
from rich.text import Text

from rodwork.documents.annotate import listed
from rodwork.model.finding import PRINTED, Finding, alike

PIPED = 100  # columns of what is piped into a file
NARROWEST = 80  # columns: nothing is made for a narrower terminal
GAPS = (2, 1)  # columns between two columns of a table: as many as there is room for
LONGEST = 24  # letters: a longer word, such as a name that a maker made up, may be broken

Heading = tuple[str, bool]  # (what it says, whether figures stand under it)
Cell = str | Text


def wide_console() -> Console:
    """The terminal; what is piped is no narrower than a table likes."""
    console = Console(highlight=False)
    return Console(highlight=False, width=max(console.width, NARROWEST if console.is_terminal else PIPED))


def print_table(
    console: Console, title: str, headings: Sequence[Heading], rows: Iterable[Sequence[Cell]], ruled: bool = True
) -> None:
    """Print a table: words wrap where it would be wider than the console, but none is broken and no column left out."""
    cells = [[cell if isinstance(cell, Text) else Text(cell) for cell in row] for row in rows]
    columns = [[Text(name), *(row[n] for row in cells)] for n, (name, _) in enumerate(headings)]
    natural = [max(cell_len(line) for cell in column for line in cell.plain.split("\n")) for column in columns]
    least = [_least(column, figures) for column, (_, figures) in zip(columns, headings, strict=True)]
    room = {gap: console.width - gap * (len(least) - 1) - 2 * ruled for gap in GAPS}
    gap = max((gap for gap in GAPS if sum(least) <= room[gap]), default=min(GAPS))
    widths = fitted(natural, least, room[gap])
    made = Table(
        title=Text(title) if title else None, title_justify="left", title_style="bold", padding=(0, gap - ruled, 0, 0),
        pad_edge=False, box=SIMPLE_HEAD if ruled else None, header_style="bold" if ruled else "dim",
    )  # fmt: skip
    for (name, figures), width in zip(headings, widths, strict=True):
        made.add_column(Text(name), justify="right" if figures else "left", width=width, overflow="fold")
    for row in cells:
        made.add_row(*row)
    console.print(made)


def _least(column: Sequence[Text], figures: bool) -> int:
    """How narrow a column may be: its longest word; figures and sizes stay whole."""
    words = column[0].plain.split()
    for cell in column[1:]:
        words += [cell.plain] if figures else cell.plain.split()
    return max((min(LONGEST, cell_len(word)) for word in words), default=1)


def fitted(natural: Sequence[int], least: Sequence[int], room: int) -> list[int]:
    """Widths of columns in `room`: what is widest over its least gives way first, and none goes below that."""
    widths = [max(pair) for pair in zip(natural, least, strict=True)]
    while sum(widths) > max(room, sum(least)):
        widths[max(range(len(widths)), key=lambda n: widths[n] - least[n])] -= 1
    return widths


def say(console: Console, text: str, lead: str = "", style: str = "", lead_style: str = "") -> None:
    """Print a saying after its lead; what goes over to the next line begins under its first word."""
    indent = " " * cell_len(lead)
    lines = textwrap.wrap(text, console.width - len(indent), break_long_words=False, break_on_hyphens=False) or [""]
    for n, line in enumerate(lines):
        console.print(Text.assemble((lead if n == 0 else indent, lead_style), (line, style)), soft_wrap=True)


def print_findings(console: Console, findings: Iterable[Finding], sources: bool = False) -> None:
    """Print what is to be put right, what is alike once, each with how; with the source of its limit, if `sources`."""
    for group in alike(findings):
        first, cabinets = group[0], list(dict.fromkeys(f.cabinet for f in group if f.cabinet))
        lead = f"{PRINTED[first.severity]:<7}"
        say(console, f"{listed(cabinets)}: {first.message}" if cabinets else first.message, lead, lead_style="bold")
        say(console, first.mend, " " * len(lead))
        if sources:
            say(console, first.source, " " * len(lead), style="dim")
