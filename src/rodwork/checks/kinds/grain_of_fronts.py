"""Fronts side by side whose grain runs different ways, and a wide door whose grain runs across it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, capital, listed, mm
from rodwork.geometry.directions import RIGHT
from rodwork.model.finding import Finding, Severity
from rodwork.model.margins import fronts
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CODE = "grain-of-fronts"
BESIDE_MM = 60.0  # no further apart than by an infill; common practice, no source
LEVEL = 0.5  # of the lower of the two, that they share up and down
WIDE = 1.5  # times as wide as high: its grain is looked for along it; common practice, no source
_HAIR = 1e-6

Way = Literal["up", "across"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Front:
    """A front as it is seen: what a maker calls it, where it stands, which way its grain runs."""

    name: str
    part: Part
    x: tuple[float, float]
    z: tuple[float, float]
    way: Way


def look(rod: Rod) -> Iterable[Finding]:
    """The fronts of every run together, and of every cabinet that stands in none."""
    in_runs = {s.name for run in rod.runs for s in run.standings if s.stands_as == "cabinet"}
    for run in rod.runs:
        standings = [s for s in run.standings if s.stands_as == "cabinet"]
        seen = [f for s in standings for f in _fronts(rod, rod.cabinet[s.name], s.x0, s.z0, f" of the {s.name}")]
        yield from _told(run.name, (), seen)
    for cabinet in rod.boxes:
        if cabinet.name not in in_runs:
            seen = _fronts(rod, cabinet, 0.0, 0.0, "")
            yield from _told(cabinet.name, tuple(f.part.id for f in seen), seen)


def _fronts(rod: Rod, cabinet: RodCabinet, x: float, z: float, whose: str) -> list[_Front]:
    """Those with a grain that must run one way."""
    out = []
    for part in fronts(cabinet):
        if part.grain and rod.boards[part.board].grain:
            (x0, _, z0), (x1, _, z1) = part.box
            way: Way = "across" if abs(part.pose.direction_to_cabinet(RIGHT)[0]) > 0.5 else "up"
            out.append(
                _Front(name=f"{part.name}{whose}", part=part, x=(x0 + x, x1 + x), z=(z0 + z, z1 + z), way=way)
            )  # fmt: skip
    return out


def _told(name: str, where: tuple[str, ...], seen: Sequence[_Front]) -> Iterator[Finding]:
    """One finding for all that are of a kind and differ, one for doors beside drawers, one for each wide door."""
    mixed = [(a, b) for a, b in combinations(seen, 2) if a.way != b.way and _side_by_side(a, b)]
    severities: dict[bool, Severity] = {True: "warning", False: "note"}  # of two doors; of a door beside drawers
    for alike, severity in severities.items():
        pairs = [(a, b) for a, b in mixed if (a.part.role == b.part.role) == alike]
        if pairs:
            yield _mixed(name, where, severity, [f for f in seen if any(f in pair for pair in pairs)])
    told = set[str]()
    for front in seen:
        if _across_it(front, seen) and front.name not in told:
            told.add(front.name)
            yield _wide(name, where, front)


def _side_by_side(a: _Front, b: _Front) -> bool:
    """Of one board, next to each other from left to right, level with each other for the most part."""
    apart = max(a.x[0] - b.x[1], b.x[0] - a.x[1])
    shared = min(a.z[1], b.z[1]) - max(a.z[0], b.z[0])
    lower = min(a.z[1] - a.z[0], b.z[1] - b.z[0])
    return a.part.board == b.part.board and -_HAIR <= apart <= BESIDE_MM and shared > LEVEL * lower


def _across_it(front: _Front, seen: Sequence[_Front]) -> bool:
    """A wide door with its grain up, as it is where nothing is asked, and no upright front whose grain it follows."""
    along, across, _ = front.part.size
    others = (f.part.size for f in seen if f is not front and f.part.board == front.part.board and f.way == "up")
    wide = front.part.role == "door" and front.way == "up" and across >= WIDE * along
    return wide and not any(s[0] > s[1] for s in others)


def _mixed(name: str, where: tuple[str, ...], severity: Severity, which: Sequence[_Front]) -> Finding:
    said = {way: listed(list(dict.fromkeys(f.name for f in which if f.way == way))) for way in ("up", "across")}
    words = {"door": "doors", "drawer front": "drawers"}
    kinds = listed(list(dict.fromkeys(words[f.part.role] for f in which)))
    return Finding(
        severity=severity, code=CODE, cabinet=name, where=tuple(i for i in where if i in {f.part.id for f in which}),
        message=f"Grain runs up on {said['up']} and across on {said['across']}, side by side, on fronts of "
                f"{which[0].part.board}.",
        mend=f'Write one grain for them under {kinds}, "up" or "across"; where it is wanted so, leave it as it is.',
        source=COMMON,
    )  # fmt: skip


def _wide(name: str, where: tuple[str, ...], front: _Front) -> Finding:
    along, across, _ = front.part.size
    return Finding(
        severity="note", code=CODE, cabinet=name, where=tuple(i for i in where if i == front.part.id),
        message=f"{capital(front.name)}: {mm(across)} wide and {mm(along)} high, its grain runs up, the short way.",
        mend='Write grain = "across" under doors, and it runs along it; where it is to follow another front, leave it '
             "as it is.",
        source=COMMON,
    )  # fmt: skip


CHECK = Check(code=CODE, title="Grain of fronts", look=look)
