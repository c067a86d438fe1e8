"""What there is to put right about the load, each with a number that mends it; equal troubles are told once."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from rodwork.model.finding import PRINTED, Finding, Severity
from rodwork.model.loading import CabinetLoad, ShelfLoad

_WORST_FIRST = {severity: n for n, severity in enumerate(PRINTED)}
STRAIGHT_SOURCE = "1 mm in 400 after creep: common practice, no source; or the maker's own"
SOUND_SOURCE = "span / 240: composite panel trade tables; 1/16 in per foot and 1/4 in: ANSI/KCMA A161.1, second-hand"
STRONG_SOURCE = "EN 1995-1-1, 2.4.1; load factors of EN 1990 from memory"
ASKED = "a figure that is not known is asked for, and none is made up"


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """One trouble of one thing, without its name: sentences without a capital and a full stop."""

    severity: Severity
    code: str
    what: str
    mend: str
    source: str


def findings(cabinets: Iterable[CabinetLoad]) -> tuple[Finding, ...]:
    """All of them, the worst first, then cabinet by cabinet."""
    found = [f for cabinet in cabinets for f in _of(cabinet)]
    return tuple(sorted(found, key=lambda f: _WORST_FIRST[f.severity]))


def _of(cabinet: CabinetLoad) -> Iterator[Finding]:
    told = [(s.part, s.name, t) for s in cabinet.shelves for t in _shelf(s)]
    yield from _told_once(cabinet, told)


def _told_once(cabinet: CabinetLoad, told: list[tuple[str, str, Trouble]]) -> Iterator[Finding]:
    """One finding for all things of a cabinet that have the same trouble."""
    groups: dict[Trouble, list[tuple[str, str]]] = {}
    for part, name, trouble in told:
        groups.setdefault(trouble, []).append((part, name))
    for t, whose in groups.items():
        names = [name for _, name in whose]
        listed = " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
        yield Finding(
            severity=t.severity, code=t.code, cabinet=cabinet.name, where=tuple(part for part, _ in whose),
            message=_sentence(f"{listed}: {t.what}"), mend=_sentence(t.mend), source=t.source,
        )  # fmt: skip


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."


def _shelf(shelf: ShelfLoad) -> Iterator[Trouble]:
    for ask in shelf.asks:
        falls = shelf.new_mm is None and shelf.stiffness is not None
        what, _, mend = ask.partition(". ")
        yield Trouble(
            severity="fault" if falls else "warning", code="load-shelf-unknown", what=what,
            mend=mend or "enter it in the job file", source="statics" if falls else ASKED,
        )  # fmt: skip
    if shelf.new_mm is None:
        return
    mend = _mend(shelf)
    if shelf.strong is not None and shelf.strong < 1:
        what = f"it bears its load {shelf.strong:.2f} times over with the factors of the code; 1 is needed"
        yield Trouble(severity="fault", code="load-shelf-strength", what=what, mend=mend, source=STRONG_SOURCE)
    if shelf.sound is not None and shelf.sound < 1:
        what = f"sags {shelf.new_mm:.1f} mm as new, where {shelf.sound_mm:.1f} is sound over {shelf.span_mm:.0f}"
        yield Trouble(severity="warning", code="load-shelf-sound", what=what, mend=mend, source=SOUND_SOURCE)
    elif shelf.straight is not None and shelf.straight < 1:
        what = (
            f"will sag {shelf.later_mm:.1f} mm in time, where {shelf.straight_mm:.1f} still looks straight "
            f"over {shelf.span_mm:.0f}"
        )
        yield Trouble(severity="warning", code="load-shelf-straight", what=what, mend=mend, source=STRAIGHT_SOURCE)


def _mend(shelf: ShelfLoad) -> str:
    ways = list(shelf.would_do)
    if shelf.longest_mm is not None:
        ways.insert(0, f"a span of at most {int(shelf.longest_mm)} for this load")
    return f"what would do: {'; or '.join(ways)}" if ways else "nothing of this board will do: carry less"
