"""The set-out on a terminal: parts, joints, settings and what to put right, as tables a maker can read."""

from collections.abc import Iterable, Iterator

from rich.text import Text

from rodwork.documents.cutting_list import cutting_rows
from rodwork.model.fixing import Item
from rodwork.model.machining import BATTEN, LAID_ON_LINE
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.setup import Setup
from rodwork.terminal import Cell, Heading, print_findings, print_table, say, wide_console

PARTS: tuple[Heading, ...] = (
    ("board", False), ("name", False), ("marks", False), ("saw to", True), ("finished", True), ("edging", False),
)  # fmt: skip
JOINTS: tuple[Heading, ...] = (
    ("cabinet", False), ("boards", False), ("made with", False), ("from the front, or along", False),
)  # fmt: skip
SETTINGS: tuple[Heading, ...] = (
    ("", True), ("machine", False), ("cutter", False), ("against", False), ("fence", True), ("deep", True),
    ("boards", False),
)  # fmt: skip


def print_rod(rod: Rod) -> None:
    """Print the whole set-out."""
    console = wide_console()
    say(console, f"letter {rod.heading.letter}", f"{rod.job}   ", lead_style="bold")
    print_table(console, "Parts", PARTS, _parts(rod))
    print_table(console, "Joints", JOINTS, _joints(rod))
    print_table(console, "Settings", SETTINGS, _settings(rod))
    if not rod.findings:
        say(console, "Nothing to put right.")
        return
    say(console, "To put right", style="bold")
    print_findings(console, rod.findings)


def _mm(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _parts(rod: Rod) -> Iterator[tuple[str, ...]]:
    for row in cutting_rows(rod):
        cut = f"{_mm(row.cut[0])} x {_mm(row.cut[1])}"
        size = " x ".join(_mm(s) for s in row.size)
        yield row.board, row.name_text, ", ".join(row.marks), cut, size, row.edging_text
    for (board, name, size), marks in _bought_boards(rod).items():
        yield board, name, ", ".join(marks), "bought", size, "as it comes"


def _bought_boards(rod: Rod) -> dict[tuple[str, str, str], list[str]]:
    """Boards that come as they are, by (board, name, size): their marks."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for part in (p for cabinet in rod.cabinets for p in cabinet.parts if p.bought):
        size = " x ".join(_mm(s) for s in part.size)
        found.setdefault((part.board, part.name, size), []).extend(part.marks)
    return found


def _joints(rod: Rod) -> Iterator[tuple[str, ...]]:
    for cabinet in rod.cabinets:
        for joint in cabinet.joints:
            boards = f"{joint.parts[1]} to {joint.parts[0]}"
            yield cabinet.name, boards, _bought(f.hardware for f in joint.fixings), _places(cabinet, joint.id)


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


def _settings(rod: Rod) -> Iterator[tuple[Cell, ...]]:
    stage = ""
    for setup in rod.setups:
        if setup.stage != stage:
            stage = setup.stage
            yield "", Text(stage, style="bold"), "", "", "", "", ""
        yield _setting_cells(rod, setup)


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
