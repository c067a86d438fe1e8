"""The search: ruin and recreate towards cheaper and cheaper layouts, with a covering of the sheets seen on the way.

Everything that is drawn by chance comes from one seed, and every part of the work is counted in steps and not in
seconds, so that one seed and one number of steps give one layout. Time only ever stops it: see Effort.go_on.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import gcd

import numpy as np

from rodwork.sheets.aims import aims
from rodwork.sheets.cover import cover
from rodwork.sheets.kernel import (
    COST,
    N_OUT,
    Floats,
    Layout,
    Pool,
    Stock,
    copy_layout,
    read_all,
    recreate,
    search,
    shrink,
    write_all,
)
from rodwork.sheets.problem import CannotCut, Effort, Laid, Piece, Problem, Tree

STARTS = 10  # layouts made afresh before one is bettered
CHUNK = 500  # steps between two looks at the clock
AT_LEAST = 2_000  # steps that are done whatever the clock says: a tenth of a second, on a machine that is not busy
TRIES = 3  # layouts that are bettered apart at the end
MANY = 1000  # parts beyond which steps are slow
HISTORY = 100  # a layout is kept when it is no worse than the one so many steps ago
MEAN_OUT = (4.0, 4.0, 12.0)  # parts taken out in a step, by turns: small steps and large ones
POOL = 60_000  # sheets remembered at most
WELL_FILLED = 0.8  # share of a sheet that makes it worth remembering
COVER_AT = (
    5_000,
    15_000,
    40_000,
    90_000,
    160_000,
    250_000,
    400_000,
    700_000,
    1_200_000,
)  # steps after which the covering is tried
ANY_NUMBER = 1 << 30
DEAR = 1 << 60

# weights: left over, value of what is free, number of free pieces
SEARCHING = (1.0, 0.3, 0.0)
POLISHING = (1000.0, 1.0, 0.002)
OFFCUT_COUNTS = 3.0  # how many times more a leftover worth keeping counts than one that is not


class Bench:
    """The arrays of one search: the problem, three layouts, the pool."""

    def __init__(self, problem: Problem, rooms: int, seed: int, *, remember: bool) -> None:
        self.problem = problem
        self.stock = stock_of(problem)
        n = len(problem.pieces)
        rooms = max(1, min(n, rooms))
        self.now, self.work, self.best, self.empty = (_blank(self.stock, n, rooms) for _ in range(4))
        size = POOL if remember else rooms
        self.pool = _pool(size, 16 * size + 6 * n + 64)
        self.page = _pool(rooms, 6 * n + 4 * rooms + 16)
        self.ring = np.full(HISTORY, np.inf)
        self.rng = np.array([0x9E3779B97F4A7C15 ^ (seed * 0x2545F4914F6CDD1D & 0xFFFFFFFFFFFFFFFF) or 1], np.uint64)
        self.clock = np.zeros(4, np.int64)
        self.key, self.stack = np.zeros(n), np.zeros(n, np.int32)
        self.cost = DEAR
        self.unit = gcd(*(kind.cost for kind in problem.kinds)) or 1  # by which costs can differ

    def run(self, setting: Floats, upto: int, limit: int, polishing: bool = False) -> bool:
        """Steps until the goal or `upto`. True: a cheaper layout is in `best`."""
        self.clock[1], self.clock[2], self.clock[3] = upto, limit, int(polishing)
        return bool(
            search(
                self.stock, self.now, self.work, self.best, self.pool, self.ring, self.rng, self.clock, setting,
                self.key, self.stack,
            )
        )  # fmt: skip

    @property
    def steps(self) -> int:
        """Steps done so far."""
        return int(self.clock[0])

    def remembered(self, column: int) -> Tree:
        """A sheet of the pool."""
        rows = self.pool.tree[self.pool.start[column] : self.pool.start[column + 1]].tolist()
        return tree_of(rows, self.problem.pieces, self.problem.rules.kerf)

    def take(self) -> None:
        """Count what is in `best` as the best."""
        self.cost = int(self.best.tally[COST])


def improve(problem: Problem, first: Laid | None, bound: int, effort: Effort) -> Laid:
    """The cheapest layout that is found, then the one of its cost that leaves the best offcuts. Raises CannotCut."""
    best = first
    bought = tuple(n for n, kind in enumerate(problem.kinds) if not kind.own)
    if 0 < len(bought) < len(problem.kinds) and any(problem.kinds[n].copies is None for n in bought):
        # first without the shop's offcuts: with them it may then only become cheaper
        few = replace(problem, kinds=tuple(problem.kinds[n] for n in bought))
        half = replace(effort, steps=effort.steps // 2, tell=_told_as(effort, bought))
        alone = _cheapest(few, None, 0, half)
        if alone is not None and (best is None or alone.cost < best.cost):
            best = _renumbered(alone, bought, bound)
        effort = replace(effort, steps=effort.steps - effort.steps // 2)
    best = _cheapest(problem, best, bound, effort) or best
    if best is None:
        raise CannotCut(
            "the sheets and offcuts there are do not hold all parts, as far as was found",
            "Allow one more sheet, or let sheets be bought",
        )
    return _polished(problem, best, effort)


def _told_as(effort: Effort, kinds: tuple[int, ...]) -> Callable[[Laid], None]:
    return lambda laid: effort.tell(_renumbered(laid, kinds, 0))


def _renumbered(laid: Laid, kinds: tuple[int, ...], bound: int) -> Laid:
    return replace(laid, sheets=tuple((kinds[k], tree) for k, tree in laid.sheets), bound=bound)


def _cheapest(problem: Problem, first: Laid | None, bound: int, effort: Effort) -> Laid | None:
    """The cheapest layout found within the effort; `first` where nothing is cheaper."""
    if first is not None and (first.cost <= bound or effort.steps <= 0):
        return first
    rooms = 4 * len(first.sheets) + 20 if first is not None else len(problem.pieces)
    bench = Bench(problem, rooms, effort.seed, remember=True)
    best = first
    for laid in _cheaper_and_cheaper(bench, first, bound, effort):
        best = laid
        effort.tell(laid)
    return None if best is None else replace(best, bound=bound, steps=bench.steps)


def _cheaper_and_cheaper(bench: Bench, first: Laid | None, bound: int, effort: Effort) -> Iterator[Laid]:
    if first is not None:
        load(bench, bench.best, first)
        bench.take()
    if _started(bench):
        yield _taken(bench, bound)
    covered = 0
    settings = tuple(np.array([mean, *SEARCHING, WELL_FILLED]) for mean in MEAN_OUT)
    _aim_below(bench, bench.cost)
    least = AT_LEAST if len(bench.problem.pieces) <= MANY else 0
    while bench.cost > bound and bench.steps < effort.steps and (bench.steps < least or effort.go_on()):
        upto = min(bench.steps + CHUNK, effort.steps)
        setting = settings[bench.steps // CHUNK % len(settings)]
        if bench.run(setting, upto, bench.cost - bench.unit):
            bench.take()
            yield _taken(bench, bound)
            _aim_below(bench, bench.cost)
        elif covered < len(COVER_AT) and bench.steps >= COVER_AT[covered]:
            covered += 1
            found = cover(bench.problem, bench.stock, bench.pool, bench.cost - bench.unit, bench.remembered)
            if found is not None:
                load(bench, bench.best, found)
                bench.take()
                yield _taken(bench, bound)
                _aim_below(bench, bench.cost)


def _started(bench: Bench) -> bool:
    """Lay all parts out afresh several times; True where one of them is cheaper than what there was."""
    cheaper = False
    for _ in range(STARTS if len(bench.problem.pieces) <= MANY else 1):
        copy_layout(bench.work, bench.empty)
        recreate(bench.stock, bench.work, DEAR, bench.rng, bench.key)
        if bench.work.tally[N_OUT] == 0 and bench.work.tally[COST] < bench.cost:
            copy_layout(bench.best, bench.work)
            bench.take()
            cheaper = True
    return cheaper


def _aim_below(bench: Bench, cost: int) -> None:
    """Begin again from the best with a sheet taken away; from nothing where there is none yet."""
    copy_layout(bench.now, bench.empty if cost == DEAR else bench.best)
    shrink(bench.stock, bench.now, cost - bench.unit, bench.rng, bench.stack)
    bench.ring[:] = np.inf


def _taken(bench: Bench, bound: int) -> Laid:
    return Laid(sheets=trees(bench, bench.best), cost=bench.cost, bound=bound, steps=bench.steps)


def _polished(problem: Problem, laid: Laid, effort: Effort) -> Laid:
    """At the same cost: of several layouts that were bettered apart, the one that serves the next aims best."""
    if effort.polish <= 0:
        return laid
    found = [laid, *(_bettered(problem, laid, effort, n) for n in range(TRIES))]
    return min(found, key=lambda one: (one.cost, aims(problem, one.sheets)))


def _bettered(problem: Problem, laid: Laid, effort: Effort, number: int) -> Laid:
    """The leftovers worth keeping as large as can be, then few pieces, so few cuts; in a share of the steps."""
    share = effort.polish // TRIES
    bench = Bench(problem, 2 * len(laid.sheets) + 4, effort.seed + number, remember=False)
    bench.stock.keep[2] = OFFCUT_COUNTS
    load(bench, bench.best, laid)
    copy_layout(bench.now, bench.best)
    setting = np.array([MEAN_OUT[0], *POLISHING, 0.0])
    least = AT_LEAST // TRIES if len(problem.pieces) <= MANY else 0
    while bench.steps < share and (bench.steps < least or effort.go_on()):
        bench.run(setting, min(bench.steps + CHUNK, share), laid.cost, polishing=True)
    return replace(laid, sheets=trees(bench, bench.best), cost=int(bench.best.tally[COST]))


# arrays and values -------------------------------------------------------------------------------------------


def stock_of(problem: Problem) -> Stock:
    """The problem as arrays, a saw cut added to every size."""
    k, rules = problem.rules.kerf, problem.rules
    wide = np.array([p.wide + k for p in problem.pieces], np.int64)
    high = np.array([p.high + k for p in problem.pieces], np.int64)
    sheet_wide = np.array([s.wide + k for s in problem.kinds], np.int64)
    sheet_high = np.array([s.high + k for s in problem.kinds], np.int64)
    largest = float((sheet_wide * sheet_high).max())
    alike, signs = np.unique([_alike(p) for p in problem.pieces], return_inverse=True)
    marks = np.random.default_rng(len(alike)).integers(1, 1 << 62, size=len(alike), dtype=np.uint64)
    bundles = sorted({p.together for p in problem.pieces} - {""})
    short, long = rules.offcut
    return Stock(
        wide=wide, high=high,
        turn=np.array([int(p.turn) for p in problem.pieces], np.int64),
        deep=np.array([int(bool(p.inner)) for p in problem.pieces], np.int64),
        sign=marks[signs],
        together=np.array([bundles.index(p.together) if p.together else -1 for p in problem.pieces], np.int64),
        area=wide * high / largest,
        sheet_wide=sheet_wide, sheet_high=sheet_high,
        sheet_cost=np.array([s.cost for s in problem.kinds], np.int64),
        sheet_copies=np.array([ANY_NUMBER if s.copies is None else s.copies for s in problem.kinds], np.int64),
        sheet_area=sheet_wide * sheet_high / largest,
        rule=np.array([rules.first, rules.levels, rules.longest + k if rules.longest else 0], np.int64),
        keep=np.array([short + k, long + k, 0.0, largest]),
    )  # fmt: skip


def _alike(piece: Piece) -> str:
    """Equal for pieces that may take each other's place on any sheet."""
    sides = sorted((piece.wide, piece.high)) if piece.turn else (piece.wide, piece.high)
    return f"{sides} {piece.turn} {piece.together} {piece.run if piece.inner else 0}"


def _blank(stock: Stock, n: int, rooms: int) -> Layout:
    rows = 5 * n + 4 * rooms + 16
    tally = np.zeros(6, np.int64)
    tally[N_OUT] = n
    bundles = int(stock.together.max(initial=-1)) + 1
    return Layout(
        node=np.zeros((rows, 13), np.int32), value=np.zeros(rows), where=np.full(n, -1, np.int32),
        out=np.arange(n, dtype=np.int32), root=np.full((rooms, 2), -1, np.int32),
        used=np.zeros(len(stock.sheet_wide), np.int32), bundle=np.zeros((bundles, 2), np.int32), tally=tally,
        total=np.array([stock.area.sum(), 0.0]), mark=np.zeros(rooms, np.uint64), fill=np.zeros(rooms),
    )  # fmt: skip


def _pool(sheets: int, rows: int) -> Pool:
    table = 1 << max(4, (4 * sheets).bit_length())
    return Pool(
        table=np.zeros(table, np.uint64), start=np.zeros(sheets + 1, np.int64), kind=np.zeros(sheets, np.int64),
        tree=np.zeros((rows, 5), np.int32), size=np.zeros(2, np.int64),
    )  # fmt: skip


def load(bench: Bench, layout: Layout, laid: Laid) -> None:
    """A layout given as values into the arrays."""
    page = bench.page
    page.size[:] = 0
    row = 0
    for n, (kind, tree) in enumerate(laid.sheets):
        for line in rows_of(tree, 0):
            page.tree[row] = line
            row += 1
        page.kind[n], page.start[n + 1] = kind, row
    page.size[:] = len(laid.sheets), row
    copy_layout(layout, bench.empty)
    read_all(bench.stock, layout, page)


def rows_of(tree: Tree, depth: int) -> Iterator[tuple[int, int, int, int, int]]:
    """A tree as rows, each node before its children: depth, cut, part (-1 free, -2 divided), width, height."""
    part = -2 if tree.children else -1 if tree.piece is None else tree.piece
    yield depth, tree.cut, part, tree.wide, tree.high
    for child in tree.children:
        yield from rows_of(child, depth + 1)


def trees(bench: Bench, layout: Layout) -> tuple[tuple[int, Tree], ...]:
    """The sheets of a layout as values."""
    write_all(layout, bench.page)
    page, k = bench.page, bench.problem.rules.kerf
    rows = page.tree[: int(page.size[1])].tolist()
    start = page.start[: int(page.size[0]) + 1].tolist()
    pieces = bench.problem.pieces
    return tuple((int(page.kind[c]), tree_of(rows[start[c] : start[c + 1]], pieces, k)) for c in range(len(start) - 1))


def tree_of(rows: list[list[int]], pieces: tuple[Piece, ...], kerf: int) -> Tree:
    """A tree from its rows: the reverse of rows_of."""
    waiting: list[tuple[int, Tree]] = []  # (depth, tree) of what has no parent yet, from the last row backwards
    for depth, cut, part, wide, high in reversed(rows):
        children: list[Tree] = []
        while waiting and waiting[-1][0] == depth + 1:
            children.append(waiting.pop()[1])
        turned = part >= 0 and (wide, high) != (pieces[part].wide + kerf, pieces[part].high + kerf)
        tree = Tree(
            wide=wide, high=high, cut=cut if children else 0, children=tuple(children),
            piece=part if part >= 0 else None, turned=turned,
        )  # fmt: skip
        waiting.append((depth, tree))
    return waiting[0][1]
