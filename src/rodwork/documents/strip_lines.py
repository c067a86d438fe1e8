"""The lines of a cabinet's three rods: every face that a rule can be laid to, along its height, width and depth."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from rodwork.documents.annotate import plain_name, several
from rodwork.documents.machined import words_of
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet
from rodwork.model.run import CabinetRun
from rodwork.model.surface import surface_facing

SAME = 0.05  # mm: lines that cannot be told apart on paper
AXES = (("HEIGHT", 2, "BOTTOM"), ("WIDTH", 0, "LEFT"), ("DEPTH", 1, "FRONT"))


@dataclass(frozen=True, slots=True, kw_only=True)
class RodLine:
    """A line of a rod: how far from its datum, and what it is in words."""

    mm: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RodStrip:
    """One rod of a cabinet: its lines, and the stretches that a board takes up (an X stands there)."""

    cabinet: str
    name: str
    datum: str
    length: float
    lines: tuple[RodLine, ...]
    boards: tuple[tuple[float, float], ...]


def strips_of(cabinet: RodCabinet) -> tuple[RodStrip, ...]:
    """The height, width and depth rod of a cabinet."""
    width, height, depth = cabinet.size
    lengths = {0: width, 1: depth, 2: height}
    return tuple(_strip(cabinet, name, axis, datum, lengths[axis]) for name, axis, datum in AXES)


def run_strip(run: CabinetRun) -> RodStrip:
    """The length rod of a run, to lay against the wall: where one thing ends and the next begins."""
    lines: dict[float, list[str]] = {}
    for s in run.standings:
        name = s.part or s.name
        lines.setdefault(s.x0, []).append(f"{name} begins")
        lines.setdefault(s.x1, []).insert(0, f"{name} ends")
    for x in run.joints:
        lines.setdefault(x, []).append("joint of the worktop")
    return RodStrip(
        cabinet=run.name, name="LENGTH", datum="LEFT", length=run.length,
        lines=tuple(RodLine(mm=x, words=", ".join(words)) for x, words in sorted(lines.items())), boards=(),
    )  # fmt: skip


def _strip(cabinet: RodCabinet, name: str, axis: int, datum: str, length: float) -> RodStrip:
    boards = [p for p in cabinet.parts if p.in_box and p.role != "loose shelf" and (axis == 1 or not p.pose.slopes)]
    standing = [p for p in boards if _thickness_lies(p, axis)]
    edges = [p for p in boards if p not in standing and (axis == 1 or p.role != "back")]
    lines = _lines([*_faces(standing, axis)])
    known = [row.mm for row in lines]
    bands = sorted({_extent(p, axis) for p in standing})
    rails = [RodLine(mm=mm, words="clothes rail, middle") for mm in _middles(cabinet, axis)]
    new = [row for row in _faces(edges, axis) if _is_new(row[0], known) and not _is_inside(row[0], bands)]
    return RodStrip(
        cabinet=cabinet.name, name=name, datum=datum, length=length,
        lines=tuple(sorted((*lines, *_lines(new), *rails), key=lambda row: row.mm)),
        boards=tuple(bands),
    )  # fmt: skip


def _middles(cabinet: RodCabinet, axis: int) -> list[float]:
    """How high its clothes rails stand, and how far from the front: each place once."""
    return sorted({round(r.middle[axis], 3) for r in cabinet.clothes_rails}) if axis else []


def _is_new(mm: float, known: Sequence[float]) -> bool:
    return all(abs(mm - other) > SAME for other in known)


def _is_inside(mm: float, bands: Sequence[tuple[float, float]]) -> bool:
    """Whether a place lies within the thickness of a board: the end of a shelf in its housing."""
    return any(low + SAME < mm < high - SAME for low, high in bands)


def _thickness_lies(part: Part, axis: int) -> bool:
    """Whether the thickness of the board lies along this axis of the cabinet."""
    return abs(part.pose.rotation[axis][2]) > 0.5


def _extent(part: Part, axis: int) -> tuple[float, float]:
    """From where to where the board goes along this axis of the cabinet."""
    low, high = part.box
    return (round(low[axis], 3), round(high[axis], 3))


def _faces(parts: Iterable[Part], axis: int) -> list[tuple[float, str, Part]]:
    """(place, word, board) of the two surfaces of each board that are square to the axis."""
    out = []
    for part in parts:
        for place, sign in zip(_extent(part, axis), (-1.0, 1.0), strict=True):
            way = tuple(sign if i == axis else 0.0 for i in range(3))
            surface = surface_facing(part.pose.direction_if_level((way[0], way[1], way[2])))
            out.append((place, words_of(part)[surface], part))
    return out


def _lines(faces: Sequence[tuple[float, str, Part]]) -> list[RodLine]:
    """The faces as lines, those at one place together."""
    places: list[tuple[float, dict[str, list[Part]]]] = []
    for mm, word, part in sorted(faces, key=lambda row: row[0]):
        if not places or mm - places[-1][0] > SAME:
            places.append((mm, {}))
        places[-1][1].setdefault(word, []).append(part)
    return [RodLine(mm=mm, words="; ".join(_said(word, parts) for word, parts in rows.items())) for mm, rows in places]


def _said(word: str, parts: Sequence[Part]) -> str:
    """A surface in words: "bottom, inside"; one that several boards share: "fixed shelves, underside"."""
    names = list(dict.fromkeys(plain_name(p.name) for p in parts))
    if len(names) > 2:
        return f"{word}s"
    one = len(parts) == 1
    return f"{' and '.join(parts[0].name if one else _plural(n, parts) for n in names)}, {word}"


def _plural(name: str, parts: Sequence[Part]) -> str:
    many = sum(plain_name(p.name) == name for p in parts) > 1
    return several(name) if many else name
