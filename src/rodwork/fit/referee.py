"""Second solvers for the few samples that the kernel does not solve: one at a time, slow and sure."""

import numpy as np
from scipy.linalg import cholesky, solve_triangular
from scipy.optimize import linprog, nnls

from rodwork.fit.arrays import Array
from rodwork.fit.linear import LinearModel


def least_give(model: LinearModel, z: Array) -> float:
    """The least s with A q + C z - w s <= b, for one draw (p,). Raises ArithmeticError where there is none."""
    a, c, b, w = model.one_sided()
    n = a.shape[1]
    cost = np.zeros(n + 1)
    cost[n] = 1.0
    found = linprog(
        cost, A_ub=np.hstack([a, -w[:, None]]), b_ub=b - c @ z,
        bounds=[(None, None)] * (n + 1), method="highs",
    )  # fmt: skip
    if found.status != 0:
        raise ArithmeticError(f"no least give was found: {found.message}")
    return float(found.x[n])


def pose_by_least_distance(model: LinearModel, hessian: Array, rho: float, free: Array, z: Array) -> Array:
    """(n,) the pose nearest to `free`, in the measure of the hessian, that holds every row, if need be by giving s.

    With y = L'(q - free), t = sqrt(rho) s it is the least distance from the origin to a polyhedron, solved as a
    non-negative least squares. Source: Lawson and Hanson, Solving Least Squares Problems (1974), chapter 23. Raises
    ArithmeticError where no pose holds the rows.
    """
    a, c, b, w = model.one_sided()
    low = cholesky(hessian, lower=True)
    rows = np.hstack([-solve_triangular(low, a.T, lower=True).T, w[:, None] / np.sqrt(rho)])
    reach = np.vstack([rows.T, a @ free + c @ z - b])
    aim = np.zeros(len(reach))
    aim[-1] = 1.0
    weights, _ = nnls(reach, aim, maxiter=50 * reach.shape[1])
    left = reach @ weights - aim
    if abs(left[-1]) < 1e-14:
        raise ArithmeticError("no pose holds the rows")
    nearest = -left[:-1] / left[-1]
    pose: Array = free + solve_triangular(low.T, nearest[:-1], lower=False)
    return pose


def furthest(model: LinearModel, z: Array, give_mm: float, form: Array, constant: float, way: float) -> float:
    """The furthest that form . q + constant can be pulled, way +1 or -1, with every row hard at a give."""
    a, c, b, w = model.one_sided()
    found = linprog(
        -way * form, A_ub=a, b_ub=b - c @ z + give_mm * w, bounds=[(None, None)] * len(form), method="highs",
    )  # fmt: skip
    if found.status == 3:
        return way * np.inf  # nothing holds it
    if found.status != 0:
        raise ArithmeticError(f"no range was found: {found.message}")
    return float(form @ found.x) + constant
