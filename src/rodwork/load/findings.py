"""What there is to put right about the load, each with a number that mends it; equal troubles are told once."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil

from rodwork.model.finding import PRINTED, Finding, Severity
from rodwork.model.loading import CabinetLoad, JointLoad, Racking, ShelfLoad
from rodwork.model.rod import Rod

_WORST_FIRST = {severity: n for n, severity in enumerate(PRINTED)}
STRAIGHT_SOURCE = "1 mm in 400 after creep: common practice, no source; or the maker's own"
SOUND_SOURCE = "span / 240: composite panel trade tables; 1/16 in per foot and 1/4 in: ANSI/KCMA A161.1, second-hand"
STRONG_SOURCE = "EN 1995-1-1, 2.4.1; load factors of EN 1990 from memory"
BOTTOM_HANGS = "bottom-hangs"  # the check that flags a wall unit whose bottom hangs under its sides
ASKED = "a figure that is not known is asked for, never made up"


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """One trouble of one thing, without its name: sentences without a capital and a full stop."""

    severity: Severity
    code: str
    what: str
    mend: str
    source: str


def findings(rod: Rod, cabinets: Iterable[CabinetLoad]) -> tuple[Finding, ...]:
    """All of them, the worst first, then cabinet by cabinet."""
    found = [f for f in rod.findings if f.code == BOTTOM_HANGS]
    found += [f for cabinet in cabinets for f in _of(cabinet, rod)]
    return tuple(sorted(found, key=lambda f: _WORST_FIRST[f.severity]))


def _of(cabinet: CabinetLoad, rod: Rod) -> Iterator[Finding]:
    told = [(s.part, s.name, t) for s in cabinet.shelves for t in _shelf(s)]
    told += [(j.joint, j.name, t) for j in cabinet.joints for t in _joint(j)]
    told += [("", "on the wall", t) for t in _hanging(cabinet, rod)]
    told += [("", "the box", t) for t in _racking(cabinet.racking)]
    told += [("", "standing", t) for t in _tipping(cabinet)]
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
            severity=t.severity, code=t.code, cabinet=cabinet.name, where=tuple(part for part, _ in whose if part),
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


def _joint(joint: JointLoad) -> Iterator[Trouble]:
    if joint.asks:
        what, _, mend = joint.asks.partition(". ")
        yield Trouble(severity="warning", code="load-joint-unknown", what=what, mend=mend, source=ASKED)
    elif joint.margin is not None and joint.margin < 1:
        what = f"{joint.mode}: it bears its load {joint.margin:.2f} times over, and 1 is needed"
        mend = f"what would do: {ceil(len(joint.forces) / joint.margin)} of them, or carry less"
        source = joint.bears.source if joint.bears else ASKED
        yield Trouble(severity="fault", code="load-joint", what=what, mend=mend, source=source)


def _racking(box: Racking | None) -> Iterator[Trouble]:
    if box is None:
        return
    if box.backed_mm is None:
        for ask in box.asks:
            what, _, mend = ask.partition(". ")
            yield Trouble(severity="note", code="load-racking-unknown", what=what, mend=mend, source=ASKED)
    if box.margin is not None and box.margin < 1:
        what = (
            f"the screws of its back bear a push of {box.push_N:.0f} N at its top {box.margin:.2f} times; 1 is needed"
        )
        mend = "put more screws or pins in the back"
        yield Trouble(severity="fault", code="load-racking", what=what, mend=mend, source=box.source)


def _hanging(cabinet: CabinetLoad, rod: Rod) -> Iterator[Trouble]:
    hanging = cabinet.hanging
    if hanging is None:
        if rod.cabinet[cabinet.name].asked.style == "wall":
            yield Trouble(
                severity="warning", code="load-hanging-unsaid", what="nobody has said how this wall unit is hung",
                mend='write hanging = { style = "split batten", wall = "NAME" } in the cabinet', source=ASKED,
            )  # fmt: skip
        return
    for link in hanging.chain.links:
        if link.margin is None:
            what, _, mend = link.asks.partition(". ")
            yield Trouble(
                severity="warning", code="load-open-link", what=f"the link “{link.name}” is open: {what}", mend=mend,
                source=ASKED,
            )  # fmt: skip
        elif link.margin < 1:
            what = (
                f"{link.name}: {link.carries} comes to it, and it bears that {link.margin:.2f} times over; 1 is needed"
            )
            yield Trouble(
                severity="fault", code="load-chain", what=what, source=link.source,
                mend=f"carry less, or put {ceil(len(hanging.at_mm) / link.margin)} screws into the wall in place of "
                f"{len(hanging.at_mm)}",
            )  # fmt: skip
    if hanging.level_N is not None:
        most = max(max(abs(f.pull_N), abs(f.shear_N)) for f in hanging.states[-1].forces)
        if most > hanging.level_N.value:
            yield Trouble(
                severity="warning", code="load-wall-level",
                what=f"{most:.0f} N comes to one screw, over the {hanging.level_N.value:.0f} N that we warn at where "
                "nothing is entered for the wall",
                mend=f"put {ceil(len(hanging.at_mm) * most / hanging.level_N.value)} of them or more, into masonry or "
                "studs, and enter what one bears",
                source=hanging.level_N.source,
            )  # fmt: skip


def _tipping(cabinet: CabinetLoad) -> Iterator[Trouble]:
    if cabinet.tipping is None or cabinet.tipping.restraint_N <= 0:
        return
    worst = max(cabinet.tipping.states, key=lambda s: s.restraint_N)
    yield Trouble(
        severity="warning", code="load-tips", what=f"it falls forward when it is {worst.state}",
        mend=f"fix it to the wall at its top: a restraint that bears {cabinet.tipping.restraint_N:.0f} N pull or more; "
        "hand the customer the words on the page",
        source=worst.source,
    )  # fmt: skip


def _mend(shelf: ShelfLoad) -> str:
    ways = list(shelf.would_do)
    if shelf.longest_mm is not None:
        ways.insert(0, f"a span of at most {int(shelf.longest_mm)} for this load")
    return f"what would do: {'; or '.join(ways)}" if ways else "nothing of this board will do: carry less"
