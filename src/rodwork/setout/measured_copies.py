"""A copy of a cabinet with a board that is cut and measured becomes an entry of its own: count 1, its own marks.

What is measured is a board with one mark, not a kind of board; the other copies are as asked, and stay one entry.
"""

from collections.abc import Iterator
from dataclasses import replace

from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.run import Standing
from rodwork.model.setup import Setup


def measured_copies(rod: Rod) -> Rod:
    """The Rod with every measured board told, and its copy of the cabinet an entry of its own."""
    marks = {board.mark for board in rod.measured}
    if not marks:
        return rod
    taken = {cabinet.name for cabinet in rod.cabinets}
    entries = {cabinet.name: tuple(_entries(cabinet, marks, taken)) for cabinet in rod.cabinets}
    names = {name: [entry.name for entry in of] for name, of in entries.items()}
    now = {
        (cabinet.name, cabinet.parts[0].marks.index(mark) + 1): (entry.name, n)
        for cabinet in rod.cabinets
        for entry in entries[cabinet.name]
        for n, mark in enumerate(entry.parts[0].marks, 1)
    }
    return replace(
        rod, cabinets=tuple(entry for cabinet in rod.cabinets for entry in entries[cabinet.name]),
        setups=tuple(_at_every_entry(setup, names) for setup in rod.setups),
        runs=tuple(replace(run, standings=tuple(_renamed(s, now) for s in run.standings)) for run in rod.runs),
    )  # fmt: skip


def _renamed(standing: Standing, now: dict[tuple[str, int], tuple[str, int]]) -> Standing:
    """What stands in a run, by the entry that its copy has now."""
    if standing.stands_as != "cabinet":
        return standing
    name, copy = now[standing.name, standing.copy]
    return replace(standing, name=name, copy=copy)


def _entries(cabinet: RodCabinet, marks: set[str], taken: set[str]) -> Iterator[RodCabinet]:
    """Those copies of which nothing is measured, if any, then each of the others; the first keeps the name."""
    by_copy = [{p.id for p in cabinet.parts if p.marks[n] in marks} for n in range(cabinet.count)]
    plain = [n for n, measured in enumerate(by_copy) if not measured]
    if plain:
        yield _entry(cabinet, plain, set())
    for n, measured in enumerate(by_copy):
        if measured:
            entry = _entry(cabinet, [n], measured)
            is_first = not plain and n == 0
            yield entry if is_first else replace(entry, name=_name(cabinet, n, taken), copy_of=cabinet.name)


def _name(cabinet: RodCabinet, copy: int, taken: set[str]) -> str:
    """The cabinet's name and the copy, as its marks begin: "glaze G2"."""
    name = f"{cabinet.name} {cabinet.parts[0].marks[copy].partition('-')[0]}"
    while name in taken:
        name += " measured"
    taken.add(name)
    return name


def _entry(cabinet: RodCabinet, copies: list[int], measured: set[str]) -> RodCabinet:
    first_of: dict[str, str] = {}  # of boards that are alike and not measured, by what they were the same as
    parts: list[Part] = []
    for part in cabinet.parts:
        same_as = None
        if part.id not in measured:
            first = first_of.setdefault(part.same_as or part.id, part.id)
            same_as = None if first == part.id else first
        marks = tuple(part.marks[n] for n in copies)
        parts.append(replace(part, marks=marks, measured=part.id in measured, same_as=same_as))
    return replace(cabinet, count=len(copies), parts=tuple(parts))


def _at_every_entry(setup: Setup, names: dict[str, list[str]]) -> Setup:
    """What is done at a setting for a cabinet is done for each of its entries."""
    features = tuple(replace(e, cabinet=name) for e in setup.features for name in names[e.cabinet])
    return replace(setup, features=features)
