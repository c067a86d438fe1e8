"""Builds a linear model board by board, joint by joint. It knows directions and points, and no cabinets.

Each board has six movements about its middle and two ways of bending, square to its face: twist tau xi eta and bow
beta (1 - xi^2), xi and eta from -1 to 1 along its length and width (a thin plate: what stands zeta off the middle
plane moves by -zeta times the slope). One board stands still in its six; which one does not matter.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from math import cos, inf, pi, sin, sqrt, tan
from typing import NamedTuple

import numpy as np

from rodwork.fit.arrays import Array, Bools, Ints
from rodwork.fit.linear import Holds, LinearModel, Source
from rodwork.geometry.vec import Matrix, Vec, apply, cross, scale, sub, transpose
from rodwork.model.accuracy import Give

ROUND_SIDES = 16  # a regular polygon for the round of a dowel
EQUAL_AREA = sqrt(pi / (ROUND_SIDES * tan(pi / ROUND_SIDES)))  # 0.9935: as large as the circle
FIXING, GAP, STEP, FLEX, BY_HAND = range(5)
SHOULDER_GIVE = 0.5  # a shoulder gives half of what a fixing does: without it a shelf too long has no answer
PER_MRAD = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """A board where it stands: its middle and its axes (columns: length, width, thickness) in cabinet axes, mm."""

    id: str
    middle: Vec
    axes: Matrix
    size: Vec
    bends: bool = True


@dataclass(frozen=True, eq=False)
class Form:
    """One linear form a . q + c . z."""

    q: Array
    z: dict[str, float] = field(default_factory=dict)

    def plus(self, other: "Form", k: float = 1.0) -> "Form":
        """This form and k times another."""
        z = dict(self.z)
        for key, value in other.z.items():
            z[key] = z.get(key, 0.0) + k * value
        return Form(self.q + k * other.q, z)


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How far a residual may lie each way."""

    low: float
    high: float

    @staticmethod
    def either_way(play: float) -> "Limits":
        """The same play both ways."""
        return Limits(low=-play, high=play)


FREE = Limits(low=-inf, high=inf)


class _Row(NamedTuple):
    """One two-sided row, the give it takes, and its joint (-1: none)."""

    form: Form
    limits: Limits
    give: float
    joint: int
    between: bool = False


class _Round(NamedTuple):
    """A fixing in a round hole: two residuals and one play."""

    along: Form
    across: Form
    play: float
    joint: int
    between: bool


class _Hold(NamedTuple):
    """A fixing as the closed forms see it: both residuals with their limits, and where it stands along its run."""

    along: Form
    across: Form
    limits: tuple[Limits, Limits]
    at: float
    joint: int
    is_round: bool


Arrays = Callable[[Iterable[Form]], tuple[Array, Array]]  # forms -> (number of forms, n) and (number of forms, p)
Rows = tuple[Array, Array, Array, Array, Array, Ints, Bools]  # of q, of z, low, high, give, joints, between


class _Table:
    """Every form once, as one row of q and one of z, however often it is asked for; only sources of some effect.

    `forms` say which sources are of effect; `more` are forms that may name others, which are then left out.
    """

    def __init__(self, forms: Iterable[Form], more: Iterable[Form], sources: Mapping[str, Source]) -> None:
        distinct = {id(form): form for form in forms}
        counted = len(distinct)
        distinct.update((id(form), form) for form in more)
        self._row = {key: i for i, key in enumerate(distinct)}
        self._q = np.array([form.q for form in distinct.values()])
        at = {key: i for i, key in enumerate(sources)}
        named = [form.z for form in distinct.values()]
        z = np.zeros((len(distinct), len(at)))
        rows = np.repeat(np.arange(len(named)), [len(of) for of in named])
        z[rows, [at[key] for of in named for key in of]] = [value for of in named for value in of.values()]
        sigma = np.array([source.sigma for source in sources.values()])
        used = (z[:counted] != 0).any(axis=0) & (sigma > 0)
        self._z = z[:, used] * sigma[used]
        self.sources = tuple(source for source, is_used in zip(sources.values(), used, strict=True) if is_used)

    def of(self, forms: Iterable[Form]) -> tuple[Array, Array]:
        """(number of forms, n) and (number of forms, p)."""
        rows = [self._row[id(form)] for form in forms]
        return self._q[rows], self._z[rows]


class Builder:
    """Gathers rows, aims and outputs; `done` makes the arrays."""

    def __init__(self, boards: Iterable[Stand], standing_still: str, give: Give) -> None:
        self.boards = {b.id: b for b in boards}
        self._to_board = {b.id: transpose(b.axes) for b in self.boards.values()}
        self.columns: dict[tuple[str, int], int] = {}
        for board in self.boards.values():
            for i in range(8 if board.bends else 6):
                if i >= 6 or board.id != standing_still:
                    self.columns[board.id, i] = len(self.columns)
        self.n = len(self.columns)
        self._rows: list[_Row] = []
        self._rounds: list[_Round] = []
        self._holds: list[_Hold] = []
        self._aims: list[tuple[Form, int]] = []
        self._outputs: dict[str, Form] = {}
        self._joints: dict[str, int] = {}
        for board in self.boards.values():
            if board.bends:
                self._bound_bending(board, give)

    def moved(self, board: str, point: Vec, way: Vec) -> Form:
        """How far the wood at a point of a board comes to lie, along a direction."""
        b = self.boards[board]
        arm = sub(point, b.middle)
        turn = scale(cross(arm, way), PER_MRAD)  # (r x arm) . way = r . (arm x way)
        own = self._to_board[board]
        moves = (*turn, *_bending(b.size, apply(own, arm), apply(own, way))) if b.bends else turn
        q = np.zeros(self.n)
        first = self.columns.get((board, 0))  # the columns of a board stand together
        if first is not None:
            q[first : first + 3], q[first + 3 : first + 3 + len(moves)] = way, moves
        elif b.bends:  # the board that stands still bends only
            bends = self.columns[board, 6]
            q[bends : bends + 2] = moves[3:]
        return Form(q)

    def nought(self) -> Form:
        """The form that is nought."""
        return Form(np.zeros(self.n))

    def fixing(
        self, joint: str, along: Form, across: Form, limits: tuple[Limits, Limits], *, is_round: bool = False,
        between: bool = False, at_mm: float = 0.0,
    ) -> None:  # fmt: skip
        """A fixing from its two residuals, guest's half less host's, at_mm along its run.

        `between`: neither first nor last of its row.
        """
        at = self._joint(joint)
        self._holds.append(_Hold(along, across, limits, at_mm, at, is_round))
        for form, lim in zip((along, across), limits, strict=True):
            if lim != FREE:  # what has more room on one side is put home by hand: no middle of its play pulls it
                self._aims.append((form, FIXING if lim.low == -lim.high else BY_HAND))
        if is_round:
            self._rounds.append(_Round(along, across, limits[0].high * EQUAL_AREA, at, between))
        else:
            self._rows += [_Row(f, lim, 1.0, at, between) for f, lim in zip((along, across), limits, strict=True)]

    def shoulder(self, joint: str, gap: Form, limits: Limits) -> None:
        """One corner of a shoulder: how far it may press in, and stand open."""
        self._aims.append((gap, GAP))
        self.stop(joint, gap, limits)

    def stop(self, joint: str, gap: Form, limits: Limits) -> None:
        """What may come no nearer, though nothing pulls it shut: a back in its groove, a dowel at the bottom."""
        self._rows.append(_Row(gap, limits, SHOULDER_GIVE, self._joint(joint)))

    def output(self, name: str, form: Form, step: bool = False) -> None:
        """A figure that is wanted. A step is pushed flush as far as the fixings let it."""
        self._outputs[name] = form
        if step:
            self._aims.append((form, STEP))

    def held(self, joint: str, form: Form) -> None:
        """What is held by hand while it is fixed in place: it stops nothing from going together."""
        self._joint(joint)
        self._aims.append((form, BY_HAND))

    def done(self, sources: Mapping[str, Source], sizes: Mapping[str, Mapping[str, float]]) -> LinearModel:
        """The arrays. `sources` is every source that a form may name; those of no effect are left out."""
        size_forms = [Form(np.zeros(self.n), dict(size)) for size in sizes.values()]
        table = _Table([*self._forms(), *size_forms], [f for h in self._holds for f in (h.along, h.across)], sources)
        arrays = table.of
        row_q, row_z, low, high, give, row_joint, row_between = self._all_rows(arrays)
        aim_q, aim_z = arrays(f for f, _ in self._aims)
        out_q, out_z = arrays(self._outputs.values())
        _, size_z = arrays(size_forms)
        return LinearModel(
            row_q=row_q, row_z=row_z, low=low, high=high, give=give, row_joint=row_joint, row_between=row_between,
            aim_q=aim_q, aim_z=aim_z, aim_kind=np.array([kind for _, kind in self._aims], dtype=np.int64),
            movement=self._movement(), out_q=out_q, out_z=out_z,
            outputs=tuple(self._outputs), joints=tuple(self._joints), sources=table.sources,
            holds=self._all_holds(arrays), sizes=dict(zip(sizes, size_z, strict=True)),
        )  # fmt: skip

    def _movement(self) -> Array:
        """(n, n): all movements and bends squared and added up, as the form q' M q, less what all boards move as one.

        So it is the same whichever board stands still.
        """
        boards = list(self.boards.values())
        middle = np.mean([board.middle for board in boards], axis=0)
        as_one = np.tile(np.eye(6), (len(boards), 1))  # three shifts, and three turns, which shift each board too
        for b, board in enumerate(boards):
            as_one[6 * b : 6 * b + 3, 3:] = np.cross(np.eye(3), PER_MRAD * (board.middle - middle)).T
        taken = np.linalg.qr(as_one)[0]
        own = [(6 * b + i, self.columns.get((board.id, i))) for b, board in enumerate(boards) for i in range(6)]
        rows, columns = zip(*((row, column) for row, column in own if column is not None), strict=True)
        movement = np.eye(self.n)
        movement[np.ix_(columns, columns)] -= taken[list(rows)] @ taken[list(rows)].T
        return movement

    def _forms(self) -> Iterable[Form]:
        yield from (row.form for row in self._rows)
        for one in self._rounds:
            yield from (one.along, one.across)
        yield from (f for f, _ in self._aims)
        yield from self._outputs.values()

    def _all_holds(self, arrays: Arrays) -> Holds:
        held = self._holds
        limits = np.array([[(lim.low, lim.high) for lim in h.limits] for h in held]).reshape(len(held), 2, 2)
        return Holds(
            joint=np.array([h.joint for h in held], dtype=np.int64),
            at=np.array([h.at for h in held], dtype=np.float64),
            along_z=arrays(h.along for h in held)[1], across_z=arrays(h.across for h in held)[1],
            along=limits[:, 0].T, across=limits[:, 1].T, round=np.array([h.is_round for h in held], dtype=np.bool_),
        )  # fmt: skip

    def _all_rows(self, arrays: Arrays) -> Rows:
        """Every row that holds something, and half the sides of each round: the opposite ones are their low sides."""
        rows = [row for row in self._rows if row.limits != FREE]
        q, z = arrays(row.form for row in rows)
        low, high, give = (np.array(of) for of in ([r.limits.low for r in rows], [r.limits.high for r in rows],
                                                   [r.give for r in rows]))  # fmt: skip
        joint = np.array([row.joint for row in rows], dtype=np.int64)
        blocks: list[Rows] = [(q, z, low, high, give, joint, np.array([row.between for row in rows], dtype=np.bool_))]
        if self._rounds:
            blocks.append(self._sides_of_rounds(arrays))
        row_q, row_z, lows, highs, gives, joints, betweens = (
            np.concatenate(parts) for parts in zip(*blocks, strict=True)
        )
        return row_q, row_z, lows, highs, gives, joints, betweens

    def _sides_of_rounds(self, arrays: Arrays) -> Rows:
        along_q, along_z = arrays(r.along for r in self._rounds)
        across_q, across_z = arrays(r.across for r in self._rounds)
        half = ROUND_SIDES // 2
        ways = [(cos(2 * pi * k / ROUND_SIDES), sin(2 * pi * k / ROUND_SIDES)) for k in range(half)]
        play = np.tile([r.play for r in self._rounds], half)
        return (
            np.concatenate([c * along_q + s * across_q for c, s in ways]),
            np.concatenate([c * along_z + s * across_z for c, s in ways]),
            -play, play, np.ones(len(play)),
            np.tile(np.array([r.joint for r in self._rounds], dtype=np.int64), half),
            np.tile(np.array([r.between for r in self._rounds], dtype=np.bool_), half),
        )  # fmt: skip

    def _joint(self, joint: str) -> int:
        return self._joints.setdefault(joint, len(self._joints))

    def _bound_bending(self, board: Stand, give: Give) -> None:
        """Twist and bow that clamps can put in: F L^3 / (48 E I), a board as a beam on its two ends."""
        length, width, thickness = board.size
        bow = give.clamp_N * length**3 / (48 * give.E_N_per_mm2 * width * thickness**3 / 12)
        for i, most in ((6, give.twist_mm), (7, bow)):
            q = np.zeros(self.n)
            q[self.columns[board.id, i]] = 1.0
            self._rows.append(_Row(Form(q), Limits.either_way(most), 0.0, -1))
            self._aims.append((Form(q), FLEX))


def _bending(size: Vec, arm: Vec, way: Vec) -> tuple[float, float]:
    """Along `way`, per mm of twist and per mm of bow, at `arm` from the middle of the board: both in its own axes."""
    (x, y, zeta), (along, across, out), (length, width, _) = arm, way, size
    xi, eta = 2 * x / length, 2 * y / width
    twist = out * xi * eta - zeta * (along * eta * 2 / length + across * xi * 2 / width)
    bow = out * (1 - xi * xi) + zeta * along * 4 * xi / length
    return twist, bow
