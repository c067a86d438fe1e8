"""Lower bounds: what no layout can do better than, whatever saw cuts it. The only proofs that the plan speaks of.

Area: the pieces' area over the sheet's. Dual feasible functions: sizes are changed so that whatever fits on a sheet
still fits by area, and the changed area is larger; every pair of functions for length and width gives a bound.
Sources: S. P. Fekete, J. Schepers, "New classes of fast lower bounds for bin packing problems", Mathematical
Programming 91 (2001), u and U; J. Carlier, F. Clautiaux, A. Moukrim, "New reduction procedures and lower bounds for the
two-dimensional bin packing problem with fixed orientation", Computers & Operations Research 34 (2007), f0 and f2.
"""

from collections.abc import Callable
from math import ceil

import numpy as np
from numpy.typing import NDArray

from rodwork.sheets.problem import Kind, Piece, Problem

MOST_FUNCTIONS = 60  # for each side: more of them cost time and hardly ever help
SLACK = 1e-7  # rounding is never let turn a bound upwards

Table = NDArray[np.float64]
SizeOf = Callable[[Kind], int]


def cost_bound(problem: Problem) -> int:
    """The least that all pieces can cost: a number of sheets where there is one size, else by area alone."""
    if not problem.pieces:
        return 0
    if len(problem.kinds) == 1:
        return sheets_bound(problem) * problem.kinds[0].cost
    k = problem.rules.kerf
    return area_cost(sum((p.wide + k) * (p.high + k) for p in problem.pieces), problem.kinds, k)


def sheets_bound(problem: Problem) -> int:
    """The least number of sheets of the one size there is: L_dff, never less than the area bound."""
    kind, k = problem.kinds[0], problem.rules.kerf
    W, H = kind.wide + k, kind.high + k
    sizes = np.array([(p.wide + k, p.high + k) for p in problem.pieces], dtype=np.float64)
    may_turn = np.array([_both_ways(p, kind) for p in problem.pieces])
    only_turned = np.array([p.wide > kind.wide or p.high > kind.high for p in problem.pieces])
    sizes[only_turned] = sizes[only_turned][:, ::-1]
    fixed, free = sizes[~may_turn], sizes[may_turn]
    sides = np.unique(np.concatenate([sizes.ravel(), [1.0]]))
    by_width, by_height = _functions(W, sides), _functions(H, sides)
    wf, hf = _apply(by_width, W, fixed[:, 0]), _apply(by_height, H, fixed[:, 1])
    total = wf @ hf.T
    if len(free):
        wa, wb = _apply(by_width, W, free[:, 0]), _apply(by_width, W, free[:, 1])
        ha, hb = _apply(by_height, H, free[:, 0]), _apply(by_height, H, free[:, 1])
        for row in range(len(total)):
            total[row] += np.minimum(wa[row] * hb, wb[row] * ha).sum(axis=1)
    return max(1, ceil(float(total.max()) - SLACK))


def _both_ways(piece: Piece, kind: Kind) -> bool:
    straight = piece.wide <= kind.wide and piece.high <= kind.high
    return piece.turn and straight and piece.high <= kind.wide and piece.wide <= kind.high


def _functions(size: float, sides: Table) -> list[tuple[str, float]]:
    """The functions to try on a side of this size: (which, its number)."""
    halves = [float(s) for s in sides if 0 < s <= size / 2]
    halves += [float(size - s) for s in sides if size / 2 <= s < size]
    chosen = sorted(set(halves))
    if len(chosen) > MOST_FUNCTIONS:
        chosen = [chosen[i * len(chosen) // MOST_FUNCTIONS] for i in range(MOST_FUNCTIONS)]
    steps = [("u", float(n)) for n in range(1, 9)]
    return [("itself", 0.0), *(("f0", e) for e in chosen), *(("f2", e) for e in chosen), *steps]


def _apply(functions: list[tuple[str, float]], size: float, x: Table) -> Table:
    """(functions, pieces): each function of each length, as a share of the sheet's."""
    rows = [_one(which, number, size, x) for which, number in functions]
    return np.array(rows).reshape(len(functions), len(x))


def _one(which: str, number: float, size: float, x: Table) -> Table:
    if which == "itself":
        return x / size
    if which == "f0":  # what leaves less than `number` takes all; what is smaller than that takes nothing
        return np.where(x > size - number, 1.0, np.where(x < number, 0.0, x / size))
    if which == "f2":
        whole = np.floor(size / number)
        large = 2 * (whole - np.floor((size - x) / number))
        small = 2 * np.floor(x / number)
        return np.asarray(np.where(2 * x > size, large, np.where(2 * x == size, whole, small)) / (2 * whole))
    parts = (number + 1) * x / size  # u: rounded down to whole parts of the sheet, unless it is whole already
    exact = np.abs(parts - np.round(parts)) < 1e-9
    return np.where(exact, x / size, np.floor(parts + 1e-9) / number)


def area_cost(area: int, kinds: tuple[Kind, ...], kerf: int) -> int:
    """The least cost of sheets whose area together is enough, the dearest by area in fractions of a sheet.

    Exact in the number of the sheets that may be bought most cheaply for their area; the rest is relaxed.
    """

    def size(kind: Kind) -> int:
        return (kind.wide + kerf) * (kind.high + kerf)

    endless = [k for k in kinds if k.copies is None]
    if not endless:
        return ceil(_relaxed(area, kinds, size) - SLACK)
    main = min(endless, key=lambda k: k.cost / size(k))
    others = tuple(k for k in kinds if k is not main)
    best = None
    for count in range(ceil(area / size(main)) + 1):
        left = area - count * size(main)
        rest = 0.0 if left <= 0 else _relaxed(left, others, size)
        if rest != float("inf"):
            cost = count * main.cost + ceil(rest - SLACK)
            best = cost if best is None else min(best, cost)
    return best or 0


def _relaxed(area: float, kinds: tuple[Kind, ...], size: SizeOf) -> float:
    """The least cost of so much area when parts of sheets may be bought; infinite where there is not so much."""
    cost = 0.0
    for kind in sorted(kinds, key=lambda k: k.cost / size(k)):
        there = float("inf") if kind.copies is None else kind.copies * size(kind)
        taken = min(area, there)
        cost += taken * kind.cost / size(kind)
        area -= taken
        if area <= 0:
            return cost
    return float("inf")
