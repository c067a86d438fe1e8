"""The dual active-set method of Goldfarb and Idnani for many right-hand sides at once, in the space of the rows.

    minimise  1/2 q'Hq + (K z)-terms + rho/2 s^2   subject to   low - w s <= A q + C z <= high + w s

With r0 = A q0 + C z (q0 the minimum without rows), the Gram matrix G = A H^-1 A' and press = 1 / rho, a sample is
solved from r0 alone: q = q0 - H^-1 A' (side lam), s = press w.lam. A row with two sides is held once: half the
arithmetic of a row for each side, and a Gram matrix of a quarter the size, which stays in the cache. Source: Goldfarb
and Idnani, A numerically stable dual method for solving strictly convex quadratic programs, Mathematical Programming
27 (1983).

Rules that keep it honest: the inverse of the active block is refreshed as soon as an active row shows a violation, a
row that cannot be stepped to ends the sample as not solved, and what is not solved is told (`solved` False), never
dropped: solve.py hands it to another solver. Whether the give of a sample is the least one there is, or only near it
for the sake of the quadratic part, is read off its active rows (`proven`).
"""

from typing import NamedTuple

import numpy as np

from rodwork.fit.arrays import Array, Bools, Ints
from rodwork.fit.compiled import compiled

TOLERANCE_MM = 5e-8
MOST_STEPS = 600  # the longest of 100,000 took 300; past this it goes round in circles
PROOF = 1e-6  # by how much the weights of a proof may miss; rounding alone makes 1e-9 of it


class Rows(NamedTuple):
    """The rows, F of them: Gram matrix (F, F), what each takes of the give (F,), 1 / rho, and its two bounds (F,)."""

    gram: Array
    give: Array
    press: float
    low: Array
    high: Array


class ActiveSets(NamedTuple):
    """Of N samples the active rows (N, k), their multipliers (N, k), how many of them (N,), solved (N,), proven (N,).

    Proven: no less give will do. Of F rows, one that holds on its low side is given as its index plus F.
    """

    rows: Ints
    lam: Array
    counts: Ints
    solved: Bools
    proven: Bools

    def of(self, samples: Ints | slice) -> "ActiveSets":
        """Those of some of the samples."""
        rows, lam, counts, solved, proven = self
        return ActiveSets(rows[samples], lam[samples], counts[samples], solved[samples], proven[samples])


NOTHING = ActiveSets(
    np.empty((0, 0), dtype=np.int64),
    np.empty((0, 0)),
    np.empty(0, dtype=np.int64),
    np.empty(0, dtype=np.bool_),
    np.empty(0, dtype=np.bool_),
)


class _Active(NamedTuple):
    """The active rows: index, side (1 high, -1 low), multiplier, the inverse of their block; the rest is scratch."""

    row: Ints
    side: Array
    lam: Array
    inverse: Array
    column: Array
    r: Array


@compiled
def _scratch(most_rows: int) -> _Active:
    """Room for so many active rows."""
    return _Active(
        np.zeros(most_rows, dtype=np.int64), np.zeros(most_rows), np.zeros(most_rows),
        np.empty((most_rows + 1, most_rows + 1)), np.empty(most_rows + 1), np.empty(most_rows + 1),
    )  # fmt: skip


@compiled
def _between(rows: Rows, i: int, side_i: float, j: int, side_j: float) -> float:
    """One entry of the Gram matrix of rows with their sides, the give included."""
    entry: float = side_i * side_j * rows.gram[i, j] + rows.press * rows.give[i] * rows.give[j]
    return entry


@compiled
def _add(active: _Active, k: int, step: float) -> None:
    """Border the inverse of the active block with one more row."""
    inverse, r = active.inverse, active.r
    for a in range(k):
        share = r[a] / step
        for b in range(k):
            inverse[a, b] += share * r[b]
        inverse[a, k] = -share
        inverse[k, a] = -share
    inverse[k, k] = 1.0 / step


@compiled
def _drop(active: _Active, k: int, at: int) -> int:
    """Take one row out of the active block; the last takes its place. Gives how many are left; -1: worn out."""
    inverse, last = active.inverse, k - 1
    if at != last:
        for a in range(k):
            inverse[at, a], inverse[last, a] = inverse[last, a], inverse[at, a]
        for a in range(k):
            inverse[a, at], inverse[a, last] = inverse[a, last], inverse[a, at]
        active.row[at], active.side[at], active.lam[at] = active.row[last], active.side[last], active.lam[last]
    pivot = inverse[last, last]
    if not pivot > 0.0:
        return -1
    for a in range(last):
        share = inverse[a, last] / pivot
        for b in range(last):
            inverse[a, b] -= share * inverse[last, b]
    return last


@compiled
def _invert(rows: Rows, active: _Active, k: int) -> int:
    """Inverse of the active block from its Cholesky factor. Gives -1, or which row depends on those before it."""
    low, inverse = np.zeros((k, k)), active.inverse
    for i in range(k):
        for j in range(i + 1):
            value = _between(rows, active.row[i], active.side[i], active.row[j], active.side[j])
            whole = value
            for t in range(j):
                value -= low[i, t] * low[j, t]
            if i == j:
                if value <= 1e-13 * whole:
                    return i
                low[i, i] = np.sqrt(value)
            else:
                low[i, j] = value / low[j, j]
    for column in range(k):
        x = np.zeros(k)
        for i in range(column, k):
            value = 1.0 if i == column else 0.0
            for t in range(column, i):
                value -= low[i, t] * x[t]
            x[i] = value / low[i, i]
        for i in range(k - 1, -1, -1):
            value = x[i]
            for t in range(i + 1, k):
                value -= low[t, i] * inverse[t, column]
            inverse[i, column] = value / low[i, i]
    return -1


@compiled
def _over(rows: Rows, value: float, slack: float, i: int, side: float) -> float:
    """By how much one side of a row is violated where the row comes to `value` and the give is `slack`."""
    bound = rows.high[i] if side > 0 else -rows.low[i]
    over: float = side * value - bound - rows.give[i] * slack
    return over


@compiled
def _refresh(rows: Rows, r0: Array, slack: float, active: _Active, k: int) -> int:
    """Solve the multipliers of the active rows afresh, dropping those that pull. Gives how many are left, or -1.

    A row that depends on others, let in by dust in the inverse, goes first: where it is violated still, it comes back.
    """
    dependent = _invert(rows, active, k)
    while dependent >= 0:
        k -= 1
        active.row[dependent], active.side[dependent] = active.row[k], active.side[k]
        dependent = _invert(rows, active, k)
    while k > 0:
        worst, at = 0.0, -1
        for a in range(k):
            value = 0.0
            for b in range(k):
                i = active.row[b]
                value += active.inverse[a, b] * _over(rows, r0[i], slack, i, active.side[b])
            active.lam[a] = value
            if value < worst:
                worst, at = value, a
        if at < 0:
            return k
        k = _drop(active, k, at)
    return k


@compiled
def _step_to(rows: Rows, p: int, side: float, v_p: float, active: _Active, k: int, room: int) -> tuple[int, int]:
    """Bring row p to nought, dropping what blocks the way. Gives (rows now active or -1, steps taken)."""
    lam_p, steps = 0.0, 0
    own = rows.gram[p, p] + rows.press * rows.give[p] ** 2
    column, r, lam = active.column, active.r, active.lam
    while steps < room:
        steps += 1
        zz = own
        r[:k] = 0.0
        for a in range(k):
            column[a] = _between(rows, active.row[a], active.side[a], p, side)
            for b in range(k):  # the inverse is symmetric: by its rows, as sums down a row wait for each other
                r[b] += active.inverse[a, b] * column[a]
        for a in range(k):
            zz -= r[a] * column[a]
        blocked, t1 = -1, np.inf
        for a in range(k):
            if r[a] > 1e-14 and lam[a] / r[a] < t1:
                t1, blocked = lam[a] / r[a], a
        free = zz > 1e-11 * own and k < active.row.shape[0]
        t2 = v_p / zz if free else np.inf
        t = min(t1, t2)
        if t == np.inf:
            return -1, steps
        for a in range(k):
            lam[a] -= t * r[a]
        lam_p += t
        v_p -= t * zz
        if t2 <= t1:
            _add(active, k, zz)
            active.row[k], active.side[k], lam[k] = p, side, lam_p
            return k + 1, steps
        lam[blocked] = 0.0
        k = _drop(active, k, blocked)
        if k < 0:
            return -1, steps
    return -1, steps


@compiled
def _values(rows: Rows, r0: Array, slack: float, active: _Active, k: int, value: Array) -> tuple[float, float]:
    """Fill what each row comes to. Gives the give, and the largest violation or slackness of an active row."""
    value[:] = r0
    for a in range(k):
        row, weight = rows.gram[active.row[a]], active.side[a] * active.lam[a]
        for i in range(value.shape[0]):
            value[i] -= weight * row[i]
        slack += rows.press * rows.give[active.row[a]] * active.lam[a]
    worst = 0.0
    for a in range(k):
        i = active.row[a]
        worst = max(worst, abs(_over(rows, value[i], slack, i, active.side[a])))
    return slack, worst


@compiled
def _most_violated(rows: Rows, value: Array, slack: float, scale: Array, over: Array) -> int:
    """The row that is violated furthest by its own measure, -1 for none; `over` is filled."""
    low, high, give = rows.low, rows.high, rows.give
    for i in range(value.shape[0]):
        above, below = value[i] - high[i], low[i] - value[i]
        over[i] = (above if above > below else below) - give[i] * slack
    p, worst = -1, 0.0
    for i in range(value.shape[0]):
        if over[i] > TOLERANCE_MM and over[i] * scale[i] > worst:
            p, worst = i, over[i] * scale[i]
    return p


@compiled
def _proves(rows: Rows, active: _Active, k: int) -> bool:
    """Whether the active rows prove that no less give will do.

    They do where weights y >= 0 of them cancel every movement, A'y = 0, and take up the give, w.y = 1: by duality no
    pose then needs less. With G0 the block without the give, y solves (G0 + press w w') y = press w; where w.y falls
    short of 1, G0 y is not nought.
    """
    least, taken = np.inf, 0.0
    for a in range(k):
        y = 0.0
        for b in range(k):
            y += active.inverse[a, b] * rows.give[active.row[b]] * rows.press
        least = min(least, y)
        taken += y * rows.give[active.row[a]]
    return abs(taken - 1.0) <= PROOF and least >= -PROOF


@compiled
def _taken_up(active: _Active, found: ActiveSets, n: int, m: int) -> int:
    """Set the active rows to those of one sample. Gives how many they are."""
    for a in range(found.counts[n]):
        on_low = found.rows[n, a] >= m
        active.row[a] = found.rows[n, a] - m if on_low else found.rows[n, a]
        active.side[a] = -1.0 if on_low else 1.0
    return int(found.counts[n])


@compiled
def active_sets(
    r0: Array, slack: Array, rows: Rows, most_rows: int, most_steps: int, begin: ActiveSets
) -> ActiveSets:  # fmt: skip
    """The active rows of every sample, at most `most_rows` each.

    r0: (N, F) what the rows come to at the minimum without them; slack: (N,) give that is there to begin with.
    begin: rows to begin with, of each sample its own, or of one for all, or NOTHING. What is found does not depend on
    it, as there is but one minimum; near it there are fewer steps to go.
    """
    samples, m = r0.shape
    all_rows = np.zeros((samples, most_rows), dtype=np.int64)
    all_lam = np.zeros((samples, most_rows))
    counts = np.zeros(samples, dtype=np.int64)
    solved, proven = np.zeros(samples, dtype=np.bool_), np.zeros(samples, dtype=np.bool_)
    scale = np.empty(m)
    for i in range(m):
        own = rows.gram[i, i] + rows.press * rows.give[i] ** 2
        scale[i] = 1.0 / np.sqrt(own) if own > 1e-18 else 0.0
    value, over = np.empty(m), np.empty(m)
    active = _scratch(most_rows)
    for n in range(samples):
        k, steps, give = 0, 0, slack[n]
        value[:] = r0[n]
        if begin.counts.shape[0] > 0:
            k = _taken_up(active, begin, n % begin.counts.shape[0], m)
            k = max(_refresh(rows, r0[n], slack[n], active, k), 0)
            give, _ = _values(rows, r0[n], slack[n], active, k, value)
        while steps < most_steps:
            p = _most_violated(rows, value, give, scale, over)
            if p < 0:
                solved[n], proven[n] = True, _proves(rows, active, k)
                break
            side = 1.0 if value[p] - rows.high[p] >= rows.low[p] - value[p] else -1.0
            again = False
            for a in range(k):
                again = again or (active.row[a] == p and active.side[a] == side)
            if not again:
                k, taken = _step_to(rows, p, side, over[p], active, k, most_steps - steps)
                steps += taken
                if k < 0:
                    break
            else:
                steps += 1
            give, wrong = _values(rows, r0[n], slack[n], active, k, value)
            if wrong > 10 * TOLERANCE_MM or again:
                k = _refresh(rows, r0[n], slack[n], active, k)
                if k < 0:
                    break
                give, _ = _values(rows, r0[n], slack[n], active, k, value)
        counts[n] = max(k, 0)
        for a in range(counts[n]):
            all_rows[n, a] = active.row[a] + (0 if active.side[a] > 0 else m)
            all_lam[n, a] = active.lam[a]
    return ActiveSets(all_rows, all_lam, counts, solved, proven)


@compiled
def gathered(found: ActiveSets, table: Array) -> Array:
    """(N, k): for each sample the sum over its active rows of multiplier times that row of `table` (2 F, k)."""
    samples, wide = found.rows.shape[0], table.shape[1]
    out = np.zeros((samples, wide))
    for n in range(samples):
        for a in range(found.counts[n]):
            row = table[found.rows[n, a]]
            for j in range(wide):
                out[n, j] += found.lam[n, a] * row[j]
    return out
