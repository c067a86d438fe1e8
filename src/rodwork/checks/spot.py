"""One trouble at one place of one board, and how equal troubles are told once for all boards that have them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from rodwork.geometry.rounding import down_to_step
from rodwork.model.finding import Finding, Severity
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet

COMMON = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One trouble in one board, or between a few. `ids`: the bores, channels or joints that it is about.

    `at` is the cabinet word of the surface it is at, or nothing; `what` goes on from the names of the boards
    and surfaces, and holds nothing that differs between equal troubles. Both sentences are given without a
    capital and a full stop. `place` says where in the board; of equal troubles the first place is told, and how
    many there are.
    """

    severity: Severity
    parts: tuple[Part, ...]
    ids: tuple[str, ...] = ()
    at: str = ""
    place: str = ""
    what: str
    mend: str
    source: str = COMMON


def told_once(code: str, cabinet: RodCabinet, spots: Iterable[Spot]) -> Iterator[Finding]:
    """One finding for all equal spots of a cabinet: the message names every board, `where` every place in them."""
    groups: dict[tuple[Severity, str, str, str], list[Spot]] = {}
    for spot in spots:
        groups.setdefault((spot.severity, spot.what, spot.mend, spot.source), []).append(spot)
    for (severity, what, mend, source), equal in groups.items():
        ids = {p.id for s in equal for p in s.parts}
        parts = [p.id for p in cabinet.parts if p.id in ids]
        surfaces = [at for at in dict.fromkeys(s.at for s in equal) if at]
        yield Finding(
            severity=severity, code=code, cabinet=cabinet.name,
            where=tuple(dict.fromkeys([*parts, *(i for s in equal for i in s.ids)])),
            message=capital(f"{listed(parts)}{', ' if surfaces else ''}{listed(surfaces)}: {what}{_places(equal)}."),
            mend=capital(f"{mend}."), source=source,
        )  # fmt: skip


def _places(equal: list[Spot]) -> str:
    places = [s.place for s in equal if s.place]
    if not places:
        return ""
    return f", {places[0]}" if len(places) == 1 else f", in {len(places)} places, the first {places[0]}"


def listed(words: list[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def capital(text: str) -> str:
    """The first letter large, the rest as it is (a name keeps its own)."""
    return text[:1].upper() + text[1:]


def too_little(value: float) -> str:
    """A length that is under its limit, to 0.1 below: 2.96 is never told as 3."""
    return mm(down_to_step(value, 0.1))


def mm(value: float) -> str:
    """A length for a message: to 0.1, without a needless nought after the point."""
    return f"{round(value, 1) + 0.0:g}"
