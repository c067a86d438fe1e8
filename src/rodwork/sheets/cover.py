"""The cheapest choice among the sheets seen on the way, by HiGHS: each part on one of them at least.

Where a part lies on two sheets it is left out of one. Set covering over sheets from heuristics: M. Monaci, P. Toth,
"A set-covering-based heuristic approach for bin-packing problems", INFORMS Journal on Computing 18 (2006).
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from rodwork.sheets.kernel import Pool, Stock
from rodwork.sheets.problem import UPRIGHT, Laid, Problem, Tree

MOST_SHEETS = 3000  # in the choice: the best by what they would save
NODES = 60  # of the branching: a number rather than a time, so that the answer is the same on every machine
ANY_NUMBER = 1 << 29  # copies beyond which a kind is not scarce
LONGEST_S = 2.0  # and a time all the same, for a choice that is slow to relax
Matrix = Any  # scipy's sparse matrix, which has no types


def cover(problem: Problem, stock: Stock, pool: Pool, limit: int, tree_at: Callable[[int], Tree]) -> Laid | None:
    """A layout of sheets of the pool that costs `limit` at most, or None. `tree_at`: a sheet of the pool as a tree."""
    seen = int(pool.size[0])
    if seen == 0 or bool((stock.together >= 0).any()):
        return None
    parts_alike, of_part, demand = np.unique(stock.sign, return_inverse=True, return_counts=True)
    holds = _holds(pool, of_part, len(parts_alike))
    prices = stock.sheet_cost[pool.kind[:seen]].astype(np.float64)
    chosen = _choose(holds, prices, demand, pool.kind[:seen], stock.sheet_copies, limit)
    if chosen is None:
        return None
    left = {alike: [int(i) for i in np.flatnonzero(of_part == alike)] for alike in range(len(parts_alike))}
    sheets = []
    for column, times in chosen:
        for _ in range(times):
            tree = tree_at(column)
            sheets.append((int(pool.kind[column]), _dealt(tree, of_part, left)))
    if any(left.values()):
        return None
    return Laid(sheets=tuple(sheets), cost=sum(problem.kinds[k].cost for k, _ in sheets), bound=0)


def _holds(pool: Pool, of_part: NDArray[np.int64], alike: int) -> Matrix:
    """(kinds of parts, sheets): how many of each lie on each."""
    from scipy.sparse import csc_matrix

    seen, rows = int(pool.size[0]), int(pool.size[1])
    part = pool.tree[:rows, 2]
    column = np.repeat(np.arange(seen), np.diff(pool.start[: seen + 1]))
    there = part >= 0
    held = csc_matrix((np.ones(there.sum()), (of_part[part[there]], column[there])), shape=(alike, seen))
    held.sum_duplicates()
    return held


def _choose(
    holds: Matrix, prices: NDArray[np.float64], demand: Any, kinds: Any, copies: Any, limit: int
) -> list[tuple[int, int]] | None:
    """(sheet, how many) of a choice within the limit, where one is found."""
    from scipy.optimize import Bounds, LinearConstraint, linprog, milp
    from scipy.sparse import vstack

    scarce, there = _scarce(kinds, copies)
    relaxed = linprog(
        prices, A_ub=vstack([-holds, scarce]), b_ub=np.concatenate([-demand, there]), bounds=(0, None), method="highs"
    )
    if relaxed.status != 0 or relaxed.fun > limit + 1e-6:
        return None
    saves = relaxed.lower.marginals  # what one more of it would cost beyond the relaxed choice
    kept = np.flatnonzero(saves <= limit - relaxed.fun + 1e-6)
    kept = np.sort(kept[np.argsort(saves[kept], kind="stable")][:MOST_SHEETS])
    near_enough = (limit - relaxed.fun) / limit + 1e-9  # it may end as soon as it is within the limit
    whole = milp(
        prices[kept], integrality=np.ones(len(kept)), bounds=Bounds(0, float(demand.max())),
        constraints=[LinearConstraint(holds[:, kept], lb=demand), LinearConstraint(scarce[:, kept], ub=there)],
        options={"node_limit": NODES, "time_limit": LONGEST_S, "mip_rel_gap": near_enough},
    )  # fmt: skip
    if whole.x is None:
        return None
    times = np.rint(whole.x).astype(int)
    if float(prices[kept] @ times) > limit:
        return None
    return [(int(kept[i]), int(times[i])) for i in np.flatnonzero(times)]


def _scarce(kinds: Any, copies: Any) -> tuple[Matrix, NDArray[np.float64]]:
    """(kinds of which there are so many, sheets): which is which; and how many there are."""
    from scipy.sparse import csc_matrix

    few = [k for k, count in enumerate(copies) if count < ANY_NUMBER]
    rows = np.array([(kinds == k).astype(np.float64) for k in few]).reshape(len(few), len(kinds))
    return csc_matrix(rows), np.array([float(copies[k]) for k in few])


def _dealt(tree: Tree, of_part: Any, left: dict[int, list[int]]) -> Tree:
    """A sheet with parts that are still to be laid out in place of equal ones; what is on another sheet is free."""
    if tree.piece is not None:
        waiting = left[int(of_part[tree.piece])]
        return replace(tree, piece=waiting.pop() if waiting else None)
    if not tree.children:
        return tree
    return joined(replace(tree, children=tuple(_dealt(child, of_part, left) for child in tree.children)))


def joined(tree: Tree) -> Tree:
    """A divided rectangle whose free children are one, and which is free where nothing else is in it."""
    taken = tuple(c for c in tree.children if c.piece is not None or c.children)
    if not taken:
        return Tree(wide=tree.wide, high=tree.high)
    along = sum(c.wide if tree.cut == UPRIGHT else c.high for c in taken)
    rest = (tree.wide if tree.cut == UPRIGHT else tree.high) - along
    if rest == 0:
        return replace(tree, children=taken)
    free = Tree(wide=rest if tree.cut == UPRIGHT else tree.wide, high=tree.high if tree.cut == UPRIGHT else rest)
    return replace(tree, children=(*taken, free))
