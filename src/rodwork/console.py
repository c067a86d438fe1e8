"""The set-out on a terminal: parts, joints, settings and what to put right, as tables a maker can read."""

from collections.abc import Iterable

from rich.box import SIMPLE_HEAD
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from rodwork.documents.annotate import listed
from rodwork.documents.cutting_list import cutting_rows
from rodwork.model.finding import PRINTED, alike
from rodwork.model.fixing import Item
from rodwork.model.machining import BATTEN, LAID_ON_LINE
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.setup import Setup

NARROWEST = 100  # columns: narrower than this a piped table would break its sizes


def print_rod(rod: Rod) -> None:
    """Print the whole set-out."""
    console = wide_console()
    console.print(f"[bold]{escape(rod.job)}[/bold]   letter {rod.heading.letter}")
    for made in (_parts(rod), _joints(rod), _settings(rod)):
        console.print(made)
    _print_findings(console, rod)


def wide_console() -> Console:
    """The terminal; what is piped is never narrower than a table needs."""
    console = Console(highlight=False)
    return console if console.is_terminal else Console(highlight=False, width=max(console.width, NARROWEST))


def table(title: str, *columns: tuple[str, str]) -> Table:
    """An empty table of these columns: (heading, "right" for figures)."""
    made = Table(title=title, title_justify="left", title_style="bold", box=SIMPLE_HEAD, pad_edge=False)
    for name, justify in columns:
        made.add_column(name, justify="right" if justify == "right" else "left", overflow="fold")
    return made


def _mm(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _parts(rod: Rod) -> Table:
    made = table(
        "Parts", ("board", ""), ("name", ""), ("marks", ""), ("saw to", "right"), ("finished", "right"), ("edging", "")
    )
    for row in cutting_rows(rod):
        cut = f"{_mm(row.cut[0])} x {_mm(row.cut[1])}"
        size = " x ".join(_mm(s) for s in row.size)
        cells = (row.board, row.name_text, ", ".join(row.marks), cut, size, row.edging_text)
        made.add_row(*(escape(c) for c in cells))
    for (board, name, size), marks in _bought_boards(rod).items():
        made.add_row(*(escape(c) for c in (board, name, ", ".join(marks), "bought", size, "as it comes")))
    return made


def _bought_boards(rod: Rod) -> dict[tuple[str, str, str], list[str]]:
    """Boards that come as they are, by (board, name, size): their marks."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for part in (p for cabinet in rod.cabinets for p in cabinet.parts if p.bought):
        size = " x ".join(_mm(s) for s in part.size)
        found.setdefault((part.board, part.name, size), []).extend(part.marks)
    return found


def _joints(rod: Rod) -> Table:
    made = table("Joints", ("cabinet", ""), ("boards", ""), ("made with", ""), ("from the front, or along", ""))
    for cabinet in rod.cabinets:
        for joint in cabinet.joints:
            boards = f"{joint.parts[1]} to {joint.parts[0]}"
            cells = (cabinet.name, boards, _bought(f.hardware for f in joint.fixings), _places(cabinet, joint.id))
            made.add_row(*(escape(c) for c in cells))
    return made


def _bought(hardware: Iterable[tuple[Item, ...]]) -> str:
    counts: dict[str, int] = {}
    for items in hardware:
        for item in items:
            counts[item.item] = counts.get(item.item, 0) + item.count
    return ", ".join(f"{n} {item}" for item, n in counts.items()) or "groove, rebate or housing"


def _places(cabinet: RodCabinet, joint_id: str) -> str:
    """Distances of the fixings along the run, from the guest's own datum."""
    joint = next(j for j in cabinet.joints if j.id == joint_id)
    start, way = joint.contact.from_point, joint.contact.along
    at = [sum((f.at[i] - start[i]) * way[i] for i in range(3)) for f in joint.fixings if f.law != "enter"]
    return ", ".join(_mm(u) for u in at)


def _settings(rod: Rod) -> Table:
    made = table(
        "Settings", ("", "right"), ("machine", ""), ("cutter", ""), ("against", ""), ("fence", "right"),
        ("deep", "right"), ("boards", ""),
    )  # fmt: skip
    stage = ""
    for setup in rod.setups:
        if setup.stage != stage:
            stage = setup.stage
            made.add_row("", f"[bold]{stage}[/bold]")
        made.add_row(*(escape(c) for c in _setting_cells(rod, setup)))
    return made


def _setting_cells(rod: Rod, setup: Setup) -> tuple[str, ...]:
    marks: dict[str, None] = {}
    for entry in setup.features:
        for mark in rod.cabinet[entry.cabinet].part[entry.part].marks:
            marks[mark] = None
    fence = "" if setup.fence is None else _mm(setup.fence.mm)
    deep = "" if setup.depth is None else _mm(setup.depth)
    return (setup.id[1:], setup.tool, setup.cutter or "", _against(setup), fence, deep, ", ".join(marks))


def _against(setup: Setup) -> str:
    if setup.stands_on not in (BATTEN, LAID_ON_LINE):
        return setup.registers_on
    line = next((e.across.line for e in setup.features if e.across and e.across.line is not None), 0.0)
    lies = "batten" if setup.stands_on == BATTEN else "other board"
    return f"{lies} at {_mm(line)} from the {setup.registers_on}"


def _print_findings(console: Console, rod: Rod) -> None:
    if not rod.findings:
        console.print("Nothing to put right.")
        return
    console.print("[bold]To put right[/bold]")
    for group in alike(rod.findings):
        f, cabinets = group[0], listed(list(dict.fromkeys(f.cabinet for f in group)))
        console.print(f"[bold]{PRINTED[f.severity]}[/bold]  {escape(cabinets)}: {escape(f.message)}")
        console.print(f"       {escape(f.mend)}", soft_wrap=False)
