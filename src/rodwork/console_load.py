"""Will it hold, on a terminal: shelves, joints, the box, the wall, tipping and lifting, cabinet by cabinet."""

from rich.console import Console

from rodwork.documents.load_words import JOINT_COLUMNS, SHELF_COLUMNS, alike_rows, joint_cells, more_lines, shelf_cells
from rodwork.model.loading import CabinetLoad, Loading
from rodwork.terminal import print_findings, print_table, say, wide_console


def print_loading(job: str, loading: Loading) -> None:
    """Print the whole load, and what it is not."""
    console = wide_console()
    say(console, "will it hold?", f"{job}   ", lead_style="bold")
    for cabinet in loading.cabinets:
        _print_cabinet(console, cabinet)
    print_findings(console, loading.findings, sources=True)
    for sentence in loading.not_a_certificate:
        say(console, sentence, style="dim")


def _print_cabinet(console: Console, cabinet: CabinetLoad) -> None:
    console.print()
    say(console, f"inside: {cabinet.contents}", f"{cabinet.name}   ", lead_style="bold")
    print_table(console, "", SHELF_COLUMNS, alike_rows(shelf_cells(s) for s in cabinet.shelves), ruled=False)
    if cabinet.joints:
        print_table(console, "", JOINT_COLUMNS, alike_rows(joint_cells(j) for j in cabinet.joints), ruled=False)
    for line in more_lines(cabinet):
        say(console, line.lstrip(), "  " + " " * (len(line) - len(line.lstrip())))
