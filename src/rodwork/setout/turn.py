"""The turn test of design section 3: when two boards are one kind of board, laid the other way round.

Two parts are the same only if a turn that keeps the grain carries outline, board, edging, showing surfaces,
machining and the surfaces that the numbers are taken from onto each other. Never a mirror. Compared within
0.01 mm, and never by rounding first.
"""

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, fields
from functools import cache
from typing import Any, cast

from rodwork.geometry.bevels import outline_below
from rodwork.geometry.vec import Matrix, Vec, apply, neg
from rodwork.model.feature import Channel, Feature, Groove
from rodwork.model.machining import Machining
from rodwork.model.panel import Panel
from rodwork.model.surface import EDGES, SURFACES, Surface, outward, surface_facing

TOLERANCE_MM = 0.01

_KEEP_GRAIN: tuple[Matrix, ...] = (
    ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    ((-1, 0, 0), (0, -1, 0), (0, 0, 1)),
    ((1, 0, 0), (0, -1, 0), (0, 0, -1)),
    ((-1, 0, 0), (0, 1, 0), (0, 0, -1)),
)
_CROSS_GRAIN: tuple[Matrix, ...] = (
    ((0, -1, 0), (1, 0, 0), (0, 0, 1)),
    ((0, 1, 0), (-1, 0, 0), (0, 0, 1)),
    ((0, 1, 0), (1, 0, 0), (0, 0, -1)),
    ((0, -1, 0), (-1, 0, 0), (0, 0, -1)),
)


@dataclass(frozen=True, slots=True)
class Turn:
    """A turn of a part of one size onto the box of a part of the same size. `half`: of that box, turned."""

    matrix: Matrix
    size: Vec
    half: Vec

    @staticmethod
    def of(matrix: Matrix, size: Vec) -> "Turn":
        """The turn by this matrix of a part of this size."""
        upright: Matrix = tuple(tuple(abs(v) for v in row) for row in matrix)  # type: ignore[assignment]
        return Turn(matrix, size, apply(upright, (size[0] / 2, size[1] / 2, size[2] / 2)))

    def point(self, p: Vec) -> Vec:
        """Where a point of the part comes to lie."""
        (a, b, c), half = self.size, self.half
        x, y, z = apply(self.matrix, (p[0] - a / 2, p[1] - b / 2, p[2] - c / 2))
        return (x + half[0], y + half[1], z + half[2])

    def way(self, d: Vec) -> Vec:
        """Where a direction comes to point."""
        return apply(self.matrix, d)


def _surfaces(matrix: Matrix) -> dict[Surface, Surface]:
    return {s: surface_facing(apply(matrix, outward(s))) for s in SURFACES}


_SURFACES_OF = {matrix: _surfaces(matrix) for matrix in (*_KEEP_GRAIN, *_CROSS_GRAIN)}


def first_like(
    part: Panel, machining: Sequence[Machining], earlier: Sequence[tuple[Panel, Sequence[Machining]]]
) -> str | None:
    """The id of the first earlier part that a turn carries onto this one, or None."""
    for other, cuts in earlier:
        if same_by_a_turn(other, cuts, part, machining):
            return other.id
    return None


def same_by_a_turn(a: Panel, cuts_a: Sequence[Machining], b: Panel, cuts_b: Sequence[Machining]) -> bool:
    """Whether some turn carries a onto b."""
    if (a.board, a.grain, a.measured, a.edging_name) != (b.board, b.grain, b.measured, b.edging_name):
        return False
    if len(cuts_a) != len(cuts_b) or len(a.outline) != len(b.outline) or not _near(a.size[2], b.size[2]):
        return False
    if any(a.bevels) or any(b.bevels):  # boards sawn on the slope only as they lie
        return a.bevels == b.bevels and a.outline == b.outline and _carries(_KEEP_GRAIN[0], a, cuts_a, b, cuts_b)
    turns = _KEEP_GRAIN if a.grain else (*_KEEP_GRAIN, *_CROSS_GRAIN)
    return any(_carries(matrix, a, cuts_a, b, cuts_b) for matrix in turns)


def _near(p: float, q: float) -> bool:
    return abs(p - q) <= TOLERANCE_MM


def _together(p: Sequence[float], q: Sequence[float]) -> bool:
    return all(abs(i - j) <= TOLERANCE_MM for i, j in zip(p, q, strict=True))


def _carries(matrix: Matrix, a: Panel, cuts_a: Sequence[Machining], b: Panel, cuts_b: Sequence[Machining]) -> bool:
    turn, to = Turn.of(matrix, a.size), _SURFACES_OF[matrix]
    if not _together(turn.point(a.size), b.size) and not _box_fits(turn, b.size):
        return False
    if {to[s] for s in a.shows} != set(b.shows):
        return False
    if not all(_near(a.edging.at(e), b.edging.at(to[e])) for e in EDGES):
        return False
    return _outlines_match(turn, a, b) and _cuts_match(turn, to, cuts_a, cuts_b)


def _box_fits(turn: Turn, size: Vec) -> bool:
    corners = (turn.point((0.0, 0.0, 0.0)), turn.point(turn.size))
    return _together([abs(p - q) for p, q in zip(*corners, strict=True)], size)


def _outlines_match(turn: Turn, a: Panel, b: Panel) -> bool:
    if any(a.bevels) or any(b.bevels):
        return all(any(_together(turn.point(p), q) for q in _corners(b)) for p in _corners(a))
    carried = [turn.point((x, y, 0.0))[:2] for x, y in a.outline]
    return all(any(_together(p, q) for q in b.outline) for p in carried)


def _corners(panel: Panel) -> list[Vec]:
    """Of both its faces."""
    thick = panel.size[2]
    levels = ((thick, panel.outline), (0.0, outline_below(panel.outline, panel.bevels, thick)))
    return [(x, y, z) for z, outline in levels for x, y in outline]


def _cuts_match(
    turn: Turn, to: Mapping[Surface, Surface], cuts_a: Sequence[Machining], cuts_b: Sequence[Machining]
) -> bool:
    left = list(cuts_b)
    for cut in cuts_a:
        match = next((c for c in left if _same_cut(turn, to, cut, c)), None)
        if match is None:
            return False
        left.remove(match)
    return True


def _same_cut(turn: Turn, to: Mapping[Surface, Surface], a: Machining, b: Machining) -> bool:
    if (to[a.bears], to[a.across_from]) != (b.bears, b.across_from):
        return False
    if to[a.along_from] != b.along_from and not _runs_right_through(a.feature):
        return False
    if (a.tool, a.cutter) != (b.tool, b.cutter):
        return False
    f, g = a.feature, b.feature
    return _together(turn.point(f.at), g.at) and _together(turn.way(f.into), g.into) and _same_sizes(turn, f, g)


def _runs_right_through(f: Feature) -> bool:
    """A channel open at both ends is the same from either: nobody takes a number along it."""
    return isinstance(f, Groove) and f.both_ends == ("open", "open")


def _same_sizes(turn: Turn, f: Feature, g: Feature) -> bool:
    """Of one kind and all its sizes alike, as it comes to lie: a channel turned end for end has its ends exchanged."""
    if type(f) is not type(g) or not all(_alike(getattr(f, n), getattr(g, n)) for n in _sizes(cast(Hashable, type(f)))):
        return False
    if f.lies == "any way":
        return True
    way = turn.way(f.along)
    same_way = _together(way, g.along)
    if not same_way and (f.lies == "one way" or not _together(way, neg(g.along))):
        return False
    if isinstance(f, Channel) and isinstance(g, Channel):
        return (f.both_ends if same_way else f.both_ends[::-1]) == g.both_ends
    return True


@cache
def _sizes(kind: Any) -> tuple[str, ...]:
    """What a kind of machining says of itself beside its name and the way it lies."""
    return tuple(f.name for f in fields(kind) if f.name not in ("id", "joint", "at", "into", "along", "ends"))


def _alike(p: object, q: object) -> bool:
    return _near(p, q) if isinstance(p, float) and isinstance(q, float) else p == q
