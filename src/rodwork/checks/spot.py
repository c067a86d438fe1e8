"""One trouble at one place of one board, and how equal troubles are told once for all boards that have them."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from rodwork.model.finding import Finding, Severity
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet

COMMON = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One trouble in one board. `ids`: the bores, channels or joints that it is about.

    `at` is the cabinet word of the surface it is at, or nothing; `what` goes on from the names of the boards
    and surfaces, and holds nothing that differs between equal troubles. Both sentences are given without a
    capital and a full stop.
    """

    severity: Severity
    part: Part
    ids: tuple[str, ...]
    at: str = ""
    what: str
    mend: str
    source: str = COMMON


def told_once(code: str, cabinet: RodCabinet, spots: Iterable[Spot]) -> Iterator[Finding]:
    """One finding for all equal spots of a cabinet: the message names every board, `where` every place in them."""
    groups: dict[tuple[Severity, str, str, str], list[Spot]] = {}
    for spot in spots:
        groups.setdefault((spot.severity, spot.what, spot.mend, spot.source), []).append(spot)
    for (severity, what, mend, source), equal in groups.items():
        parts = {s.part.id: s.part for s in equal}
        ids = dict.fromkeys(i for s in equal for i in s.ids)
        at = listed([s for s in dict.fromkeys(s.at for s in equal) if s])
        yield Finding(
            severity=severity, code=code, cabinet=cabinet.name, where=(*parts, *ids),
            message=f"{boards(parts)}{', ' if at else ''}{at}: {what}.", mend=f"{capital(mend)}.", source=source,
        )  # fmt: skip


def boards(parts: Mapping[str, Part]) -> str:
    """The boards as a maker reads them: "Left side and right side"."""
    return capital(listed([name(p) for p in parts.values()]))


def name(part: Part) -> str:
    """The name of a board; its id tells two of one name apart."""
    return part.id if part.id.startswith(part.name) else part.name


def listed(words: list[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def capital(text: str) -> str:
    """The first letter large, the rest as it is (a name keeps its own)."""
    return text[:1].upper() + text[1:]


def mm(value: float) -> str:
    """A length for a message: to 0.1, without a needless nought after the point."""
    return f"{round(value, 1) + 0.0:g}"
