"""What stands in each bay, as the job file has it: alike in all of them, or bay by bay from the left.

One list (`openings = [300, "rest"]`) is for every bay; lists in it are one for each bay (`[[300, "rest"], ["rest"]]`).
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import groupby
from typing import Any

from rodwork.model.fronts import Doors, Drawers
from rodwork.model.job import InBay

Fault = Callable[[str, str, str], None]  # of a word: what is wrong with it, how to mend it


def is_by_bay(written: Any) -> bool:
    """Whether a word is written bay by bay."""
    return isinstance(written, tuple) and any(isinstance(one, tuple) for one in written)


def openings_by_bay(written: Any, shelves: Any, bays: int, fault: Fault) -> tuple[tuple[Any, ...], ...]:
    """The openings of every bay. `written`: their heights; `shelves`: in their place, how many fixed shelves."""
    if written is None:
        word, each = "fixed_shelves", shelves if isinstance(shelves, tuple) else (shelves,) * bays
        each = tuple(("rest",) * (number + 1) for number in each)
    else:
        word, each = "openings", written if is_by_bay(written) else (written,) * bays
    if len(each) != bays:
        fault(word, *_wrong_number(word, len(each), bays))
    return tuple(each[i] if i < len(each) else ("rest",) for i in range(bays))


def in_bays(openings: Sequence[tuple[Any, ...]], loose: Any, fault: Fault) -> tuple[InBay, ...]:
    """Every bay with its loose shelves: as listed, or dealt out one at a time from the bottom."""
    by_bay = is_by_bay(loose)
    if by_bay and len(loose) != len(openings):
        fault("loose_shelves", *_wrong_number("loose_shelves", len(loose), len(openings)))
        return ()
    out, told = [], set[int]()
    for i, here in enumerate(openings):
        asked = loose[i] if by_bay else loose
        if isinstance(asked, tuple) and len(asked) != len(here):
            if len(here) not in told:
                told.add(len(here))
                fault("loose_shelves", *_wrong_loose(asked, i + 1 if by_bay or len(set(map(len, openings))) > 1 else 0,
                                                     len(here)))  # fmt: skip
            continue
        numbers = asked if isinstance(asked, tuple) else _dealt(asked, len(here))
        out.append(InBay(openings=tuple(here), loose_shelves=numbers))
    return tuple(out)


def _dealt(number: int, openings: int) -> tuple[int, ...]:
    return tuple(number // openings + (i < number % openings) for i in range(openings))


def _wrong_number(word: str, written: int, bays: int) -> tuple[str, str]:
    have = "there is one bay" if bays == 1 else f"there are {bays} bays"
    return f"{word} is written for {written}, and {have}", "Write one for each bay from the left, or one for all"


def _wrong_loose(asked: tuple[int, ...], bay: int, openings: int) -> tuple[str, str]:
    where = f"bay {bay} has" if bay else "there is" if openings == 1 else "there are"
    have = f"{where} {'one opening' if openings == 1 else f'{openings} openings'}"
    numbers = "one number" if openings == 1 else f"{openings} numbers"
    for_it = f" for bay {bay}" if bay else ""
    return f"loose_shelves has {len(asked)} numbers{for_it}, and {have}", f"Write {numbers}{for_it}, from the bottom up"


def openings_named(bays: Sequence[InBay], table: Mapping[str, Any]) -> list[tuple[tuple[int, ...], int]]:
    """The opening of drawers or a clothes rail, with the bays of which it is that one: as named, else the top one."""
    if "opening" in table:
        return [(table.get("bays", ()), table["opening"])]
    groups = _grouped(table, len(bays), lambda n: (1, len(bays[n - 1].openings)))
    return [(own, top) for own, (_, top) in groups]


def doors_in(
    bays: Sequence[InBay], table: Mapping[str, Any], drawers: Sequence[Drawers],
    make: Callable[[tuple[int, int]], Doors],
) -> tuple[Doors, ...]:  # fmt: skip
    """One table of doors, apart for bays of which they shut others: all openings but those of drawers."""
    if "openings" in table:
        return (make(table["openings"]),)
    groups = _grouped(table, len(bays), lambda n: _not_drawn(len(bays[n - 1].openings), n, drawers))
    out, done = [], 0
    for own, span in groups:
        doors = make(span)
        if len(groups) > 1 and len(doors.hung) > 1:  # a word for each bay
            doors = replace(doors, hung=doors.hung[done : done + len(own)])
        done += len(own)
        out.append(replace(doors, bays=own))
    return tuple(out)


def _grouped(
    table: Mapping[str, Any], bays: int, shut: Callable[[int], tuple[int, int]]
) -> list[tuple[tuple[int, ...], tuple[int, int]]]:  # fmt: skip
    """The bays (from 1) of a table, neighbours of which the same openings are shut together; else as it names them."""
    named: tuple[int, ...] = table.get("bays", ())
    having = named or tuple(range(1, bays + 1))
    if any(n > bays for n in having):  # refused where the carcass is built, with all that it asks for
        return [(named, (1, 1))]
    groups = [(tuple(own), span) for span, own in groupby(having, shut)]
    return groups if len(groups) > 1 else [(named, groups[0][1])]


def _not_drawn(openings: int, bay: int, drawers: Sequence[Drawers]) -> tuple[int, int]:
    """All openings of a bay (from 1) but those of drawers at the top and the bottom."""
    taken = {d.opening for d in drawers if d.in_bay(bay)}
    first, last = 1, openings
    while first < last and last in taken:
        last -= 1
    while first < last and first in taken:
        first += 1
    return first, last
