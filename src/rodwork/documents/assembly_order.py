"""In what order the boards of a cabinet go home: worked out by taking the finished cabinet apart.

Taking a board away never shuts another in, so whatever comes away first may go on last, and nothing has to be
tried twice. A board comes away in a direction when no wood stands in its path and no dowel holds it; where no
single board does, the smallest number of boards that come away together do. Nothing is taken from a family's
name: only the grooves in the boards, the law of each fixing and the way it is pushed home.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property

from rodwork.documents.pictorial import Box, Solid, extent, solids
from rodwork.geometry.vec import Vec, neg
from rodwork.model.fixing import Joint
from rodwork.model.rod import RodCabinet

WAYS: tuple[Vec, ...] = (
    (0.0, -1.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0),
)  # fmt: skip
_FAR = 1e6
_LEVEL = 1e-9
_CLEAR = 0.3  # boards may brush past each other by this, mm


class NoOrder(Exception):  # noqa: N818 - it is an answer about the cabinet, not a fault of ours
    """These boards hold one another: none of them comes away, nor any number of them together."""

    def __init__(self, boards: tuple[str, ...]) -> None:
        super().__init__(f"no order of assembly: {', '.join(boards)} hold one another")
        self.boards = boards


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Boards that go home together in one push (a unit vector of the cabinet).

    `there` are the boards that stand already, `on` those of them that the new ones are joined to, `joints` the
    joints that are closed. `shut_in` could still be put in before this step, and cannot after it.
    """

    new: tuple[str, ...]
    push: Vec
    there: tuple[str, ...]
    on: tuple[str, ...]
    joints: tuple[str, ...]
    shut_in: tuple[str, ...]


def assembly_steps(cabinet: RodCabinet) -> tuple[Step, ...]:
    """Every step after the first board, which is the `there` of the first. Raises NoOrder where there is none."""
    return tuple(_Workings(cabinet).steps(tuple(p.id for p in cabinet.whole_boards)))


@dataclass(frozen=True)
class _Workings:
    """What holds what, worked out once for a cabinet."""

    cabinet: RodCabinet

    @cached_property
    def wood(self) -> dict[str, tuple[Box, ...]]:
        return {s.id: _pieces(s) for s in solids(self.cabinet)}

    @cached_property
    def joints(self) -> dict[frozenset[str], list[Joint]]:
        found: dict[frozenset[str], list[Joint]] = {}
        for joint in self.cabinet.joints:
            found.setdefault(frozenset(joint.parts), []).append(joint)
        return found

    @cached_property
    def held(self) -> dict[Vec, dict[str, frozenset[str]]]:
        """For each way: which boards stop a board from being moved that way."""
        ids = [p.id for p in self.cabinet.whole_boards]
        whole = {i: extent(self.wood[i]) for i in ids}
        return {
            way: {i: frozenset(j for j in ids if j != i and self._stops(j, i, way, whole)) for i in ids}
            for way in self.ways
        }

    @cached_property
    def ways(self) -> tuple[Vec, ...]:
        """The ways that a board may be moved: along the cabinet, and square to a slope that it is joined to."""
        sloped = (j for j in self.cabinet.joints if j.contact.place != "mitre")  # a mitre closes with its fellows
        pushes = (f.motion[-1].push for j in sloped for f in j.fixings if f.motion)
        return tuple(dict.fromkeys((*WAYS, *(way for p in pushes for way in (p, neg(p))))))

    def _stops(self, other: str, board: str, way: Vec, whole: dict[str, Box]) -> bool:
        for joint in self.joints.get(frozenset((board, other)), ()):
            for fixing in joint.fixings:
                if fixing.law == "meet" and fixing.motion:
                    push = fixing.motion[-1].push
                    if way != (push if joint.parts[0] == board else neg(push)):
                        return True
        if not _runs_into(whole[board], way, whole[other]):
            return False
        near = [b for b in self.wood[other] if _runs_into(whole[board], way, b)]
        return any(_runs_into(a, way, b) for a in self.wood[board] if _runs_into(a, way, whole[other]) for b in near)

    def steps(self, boards: tuple[str, ...]) -> Iterator[Step]:
        """The steps that put these boards together, in order."""
        taken: list[tuple[tuple[str, ...], Vec, tuple[str, ...]]] = []
        rest = boards
        while len(rest) > 1:
            away, way = self._next(rest, taken[-1][1] if taken else None)
            rest = tuple(i for i in rest if i not in away)
            taken.append((away, way, rest))
        for away, way, there in reversed(taken):
            if len(away) > 1:
                yield from self.steps(away)
            yield self._step(away, neg(way), there)

    def _step(self, new: tuple[str, ...], push: Vec, there: tuple[str, ...]) -> Step:
        closed = [
            j for j in self.cabinet.joints if (j.parts[0] in new and j.parts[1] in there)
            or (j.parts[1] in new and j.parts[0] in there)
        ]  # fmt: skip
        on = {i for j in closed for i in j.parts} & set(there)
        after = (*there, *new)
        return Step(
            new=new,
            push=push,
            there=there,
            on=tuple(i for i in there if i in on),
            joints=tuple(j.id for j in closed),
            shut_in=tuple(
                i for i in there if len(there) > 1 and self._ways_out(i, there) and not self._ways_out(i, after)
            ),
        )

    def _ways_out(self, board: str, among: Iterable[str]) -> tuple[Vec, ...]:
        others = frozenset(among) - {board}
        return tuple(way for way in self.ways if not self.held[way][board] & others)

    def _next(self, boards: tuple[str, ...], last: Vec | None) -> tuple[tuple[str, ...], Vec]:
        """What comes away next: one board if any does, else the smallest number that come away together."""
        free = [(i, self._natural(i, ways, boards)) for i in boards if (ways := self._ways_out(i, boards))]
        if free:
            board, (way, _) = min(free, key=lambda f: self._order(f[0], f[1], boards, last))
            return (board,), way
        together = [(self._carried(i, way, boards), way) for i in boards for way in self.ways]
        together = [(group, way) for group, way in together if len(group) < len(boards)]
        if not together:
            raise NoOrder(boards)
        group, way = min(together, key=lambda g: (len(g[0]), self._base(boards) in g[0]))
        return tuple(i for i in boards if i in group), way

    def _carried(self, board: str, way: Vec, boards: tuple[str, ...]) -> frozenset[str]:
        """All that has to move when this board is moved this way."""
        among, moved, new = frozenset(boards), frozenset((board,)), frozenset((board,))
        while new:
            new = frozenset(j for i in new for j in self.held[way][i]) & among - moved
            moved |= new
        return moved

    def _natural(self, board: str, ways: tuple[Vec, ...], boards: tuple[str, ...]) -> tuple[Vec, bool]:
        """The free way that one of its fixings was pushed home by, reversed; else the first, and False."""
        for other in boards:
            for joint in self.joints.get(frozenset((board, other)), ()):
                for fixing in joint.fixings:
                    for move in fixing.motion[-1:]:
                        way = move.push if joint.parts[0] == board else neg(move.push)
                        if way in ways:
                            return way, True
        return ways[0], False

    def _order(
        self, board: str, found: tuple[Vec, bool], boards: tuple[str, ...], last: Vec | None
    ) -> tuple[object, ...]:
        """What is taken off first: loose boards, the back, the board that closes the box; the first board last.

        A board that would have to be slid along a housing comes after those that are pushed straight home.
        """
        way, natural = found
        lo, hi = extent(self.wood[board])
        if not any(board in pair for pair in self.joints):
            rank = 0
        elif self.cabinet.part[board].role == "back":
            rank = 1
        else:
            rank = 4 if board == self._base(boards) else 2 if board in self._closers else 3
            rank += 0 if natural else 3
        across = -(lo[0] + hi[0]) if rank == 2 else 0.0
        return (self._parts_the_rest(board, boards), rank, way != last, across, -lo[2], -lo[0])

    @cached_property
    def _closers(self) -> frozenset[str]:
        """The boards that the corners are worked on the face of: they close the box."""
        return frozenset(j.parts[0] for j in self.cabinet.joints if j.contact.place == "corner")

    def _base(self, boards: tuple[str, ...]) -> str:
        """The board that lies on the bench first: a closing one, the furthest left, then the lowest."""
        among = [i for i in boards if i in self._closers] or list(boards)
        return min(among, key=lambda i: (extent(self.wood[i])[0], -extent(self.wood[i])[1][2]))

    def _parts_the_rest(self, board: str, boards: tuple[str, ...]) -> bool:
        """Whether the joined boards would fall in two without it."""
        rest = [i for i in boards if i != board and any(i in pair for pair in self.joints)]
        if not rest:
            return False
        reached, new = {rest[0]}, {rest[0]}
        while new:
            new = {j for i in new for j in rest if j not in reached and frozenset((i, j)) in self.joints}
            reached |= new
        return len(reached) < len(rest)


def _pieces(solid: Solid) -> tuple[Box, ...]:
    """The wood of a board less its grooves and rebates, as boxes that may overlap."""
    pieces = list(solid.wood)
    for air in solid.air:
        pieces = [rest for piece in pieces for rest in _less(piece, air)]
    return tuple(pieces)


def _less(piece: Box, air: Box) -> Iterator[Box]:
    if not _meet(piece, air):
        yield piece
        return
    lo, hi = piece
    for i in range(3):
        if air[0][i] > lo[i]:
            yield lo, _with(hi, i, air[0][i])
        if air[1][i] < hi[i]:
            yield _with(lo, i, air[1][i]), hi


def _with(corner: Vec, axis: int, value: float) -> Vec:
    changed = [*corner]
    changed[axis] = value
    return (changed[0], changed[1], changed[2])


def _meet(a: Box, b: Box) -> bool:
    return all(a[0][i] < b[1][i] and b[0][i] < a[1][i] for i in range(3))


def _runs_into(box: Box, way: Vec, other: Box) -> bool:
    """Whether a box, a hair slimmer than it is, meets another as it is moved on and on this way."""
    first, last = 0.0, _FAR
    for i in range(3):
        ahead, behind = other[0][i] - box[1][i] + _CLEAR, other[1][i] - box[0][i] - _CLEAR
        if abs(way[i]) < _LEVEL:
            if ahead >= 0 or behind <= 0:
                return False
            continue
        near, far = sorted((ahead / way[i], behind / way[i]))
        first, last = max(first, near), min(last, far)
    return first < last
