"""The dual active-set method of Goldfarb and Idnani for many right-hand sides at once, in the space of the rows.

    minimise  1/2 q'Hq + (K z)-terms + rho/2 s^2   subject to   A q + C z - w s <= b

With v0 = A q0 + C z - b (q0 the minimum without rows) and the Gram matrix G = A H^-1 A' + w w'/rho, a sample is solved
from v0 and G alone: q = q0 - H^-1 A' lam, s = w.lam / rho. Source: Goldfarb and Idnani, A numerically stable dual
method for solving strictly convex quadratic programs, Mathematical Programming 27 (1983).

Rules that keep it honest: the inverse of the active block is refreshed as soon as an active row shows a violation, a
row that cannot be stepped to ends the sample as not solved, and what is not solved is told (`solved` False), never
dropped: solve.py hands it to another solver.
"""

import numpy as np

from rodwork.fit.arrays import Array, Bools, Ints
from rodwork.fit.compiled import compiled

TOLERANCE_MM = 1e-7
MOST_STEPS = 2000


@compiled
def _add(inverse: Array, k: int, r: Array, step: float) -> None:
    """Border the inverse of the active block with one more row."""
    for a in range(k):
        for b in range(k):
            inverse[a, b] += r[a] * r[b] / step
        inverse[a, k] = -r[a] / step
        inverse[k, a] = -r[a] / step
    inverse[k, k] = 1.0 / step


@compiled
def _drop(inverse: Array, k: int, rows: Ints, lam: Array, at: int) -> int:
    """Take one row out of the active block; the last takes its place. Gives how many are left."""
    last = k - 1
    if at != last:
        for a in range(k):
            inverse[at, a], inverse[last, a] = inverse[last, a], inverse[at, a]
        for a in range(k):
            inverse[a, at], inverse[a, last] = inverse[a, last], inverse[a, at]
        rows[at], lam[at] = rows[last], lam[last]
    pivot = inverse[last, last]
    for a in range(last):
        for b in range(last):
            inverse[a, b] -= inverse[a, last] * inverse[last, b] / pivot
    return last


@compiled
def _invert(gram: Array, rows: Ints, k: int, inverse: Array) -> bool:
    """Inverse of the active block from its Cholesky factor; False where it has none."""
    low = np.zeros((k, k))
    for i in range(k):
        for j in range(i + 1):
            value = gram[rows[i], rows[j]]
            for t in range(j):
                value -= low[i, t] * low[j, t]
            if i == j:
                if value <= 1e-13 * gram[rows[i], rows[i]]:
                    return False
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
    return True


@compiled
def _refresh(gram: Array, v0: Array, rows: Ints, lam: Array, k: int, inverse: Array) -> int:
    """Solve the multipliers of the active rows afresh, dropping those that pull. Gives how many are left, or -1."""
    if not _invert(gram, rows, k, inverse):
        return -1
    while k > 0:
        worst, at = 0.0, -1
        for a in range(k):
            value = 0.0
            for b in range(k):
                value += inverse[a, b] * v0[rows[b]]
            lam[a] = value
            if value < worst:
                worst, at = value, a
        if at < 0:
            return k
        k = _drop(inverse, k, rows, lam, at)
    return k


@compiled
def _step_to(
    gram: Array, p: int, v: Array, rows: Ints, lam: Array, k: int, inverse: Array, r: Array, room: int
) -> tuple[int, int]:
    """Bring row p to nought, dropping what blocks the way. Gives (rows now active or -1, steps taken)."""
    lam_p, steps = 0.0, 0
    while steps < room:
        steps += 1
        zz = gram[p, p]
        for a in range(k):
            value = 0.0
            for b in range(k):
                value += inverse[a, b] * gram[rows[b], p]
            r[a] = value
        for a in range(k):
            zz -= r[a] * gram[rows[a], p]
        blocked, t1 = -1, np.inf
        for a in range(k):
            if r[a] > 1e-14 and lam[a] / r[a] < t1:
                t1, blocked = lam[a] / r[a], a
        free = zz > 1e-11 * gram[p, p] and k < rows.shape[0]
        t2 = v[p] / zz if free else np.inf
        t = min(t1, t2)
        if t == np.inf:
            return -1, steps
        for a in range(k):
            lam[a] -= t * r[a]
        lam_p += t
        v[p] -= t * zz
        if t2 <= t1:
            _add(inverse, k, r, zz)
            rows[k], lam[k] = p, lam_p
            return k + 1, steps
        lam[blocked] = 0.0
        k = _drop(inverse, k, rows, lam, blocked)
    return -1, steps


@compiled
def _violations(gram: Array, v0: Array, rows: Ints, lam: Array, k: int, v: Array) -> float:
    """Fill v with what each row is violated by; gives the largest |v| of an active row."""
    v[:] = v0
    for a in range(k):
        row = gram[rows[a]]
        weight = lam[a]
        for i in range(v.shape[0]):
            v[i] -= weight * row[i]
    worst = 0.0
    for a in range(k):
        worst = max(worst, abs(v[rows[a]]))
    return worst


@compiled
def active_sets(v0: Array, gram: Array, most_rows: int, most_steps: int) -> tuple[Ints, Array, Ints, Bools]:
    """(rows (N, most_rows), multipliers (N, most_rows), how many of them (N,), solved (N,)) of every sample.

    v0: (N, m) violations at the minimum without rows; gram: (m, m).
    """
    samples, m = v0.shape
    all_rows = np.zeros((samples, most_rows), dtype=np.int64)
    all_lam = np.zeros((samples, most_rows))
    counts = np.zeros(samples, dtype=np.int64)
    solved = np.zeros(samples, dtype=np.bool_)
    scale = np.empty(m)
    for i in range(m):
        scale[i] = 1.0 / np.sqrt(gram[i, i]) if gram[i, i] > 1e-18 else 0.0
    inverse = np.empty((most_rows + 1, most_rows + 1))
    r = np.empty(most_rows + 1)
    v = np.empty(m)
    for n in range(samples):
        rows, lam = all_rows[n], all_lam[n]
        k, steps = 0, 0
        v[:] = v0[n]
        while steps < most_steps:
            p, worst = -1, 0.0
            for i in range(m):
                if v[i] > TOLERANCE_MM and v[i] * scale[i] > worst:
                    p, worst = i, v[i] * scale[i]
            if p < 0:
                solved[n] = True
                break
            again = False
            for a in range(k):
                again = again or rows[a] == p
            if not again:
                k, taken = _step_to(gram, p, v, rows, lam, k, inverse, r, most_steps - steps)
                steps += taken
                if k < 0:
                    break
            else:
                steps += 1
            if _violations(gram, v0[n], rows, lam, k, v) > 10 * TOLERANCE_MM or again:
                k = _refresh(gram, v0[n], rows, lam, k, inverse)
                if k < 0:
                    break
                _violations(gram, v0[n], rows, lam, k, v)
        counts[n] = max(k, 0)
    return all_rows, all_lam, counts, solved


@compiled
def gathered(rows: Ints, lam: Array, counts: Ints, table: Array) -> Array:
    """(N, k): for each sample the sum over its active rows of multiplier times that row of `table` (m, k)."""
    samples, wide = rows.shape[0], table.shape[1]
    out = np.zeros((samples, wide))
    for n in range(samples):
        for a in range(counts[n]):
            row = table[rows[n, a]]
            for j in range(wide):
                out[n, j] += lam[n, a] * row[j]
    return out
