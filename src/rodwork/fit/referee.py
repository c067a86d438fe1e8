"""HiGHS for the few samples that the kernel does not solve: one program each, slow and sure."""

import highspy
import numpy as np
from scipy.optimize import linprog

from rodwork.fit.arrays import Array
from rodwork.fit.linear import LinearModel


def least_give(model: LinearModel, z: Array) -> float:
    """The least s with A q + C z - w s <= b, for one draw (p,). Raises ArithmeticError where there is none."""
    n = model.row_q.shape[1]
    cost = np.zeros(n + 1)
    cost[n] = 1.0
    found = linprog(
        cost, A_ub=np.hstack([model.row_q, -model.give[:, None]]), b_ub=model.bound - model.row_z @ z,
        bounds=[(None, None)] * (n + 1), method="highs",
    )  # fmt: skip
    if found.status != 0:
        raise ArithmeticError(f"no least give was found: {found.message}")
    return float(found.x[n])


def pose_by_quadratic_program(model: LinearModel, hessian: Array, pull: Array, rho: float, z: Array) -> Array:
    """(n,) minimum of 1/2 q'Hq - pull.q + rho/2 s^2 under the rows, for one draw (p,)."""
    m, n = model.row_q.shape
    program = _silent()
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = n + 1, m
    lp.col_cost_ = np.append(-pull, 0.0)
    lp.col_lower_ = np.append(np.full(n, -highspy.kHighsInf), 0.0)
    lp.col_upper_ = np.full(n + 1, highspy.kHighsInf)
    lp.row_lower_ = np.full(m, -highspy.kHighsInf)
    lp.row_upper_ = model.bound - model.row_z @ z
    dense = np.hstack([model.row_q, -model.give[:, None]])
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.arange(0, m * (n + 1) + 1, n + 1)
    lp.a_matrix_.index_ = np.tile(np.arange(n + 1), m)
    lp.a_matrix_.value_ = dense.ravel()
    square = highspy.HighsHessian()
    square.dim_ = n + 1
    square.format_ = highspy.HessianFormat.kTriangular
    full = np.zeros((n + 1, n + 1))
    full[:n, :n], full[n, n] = hessian, rho
    columns = [np.arange(j, n + 1) for j in range(n + 1)]
    square.start_ = np.cumsum([0, *(len(c) for c in columns)])
    square.index_ = np.concatenate(columns)
    square.value_ = np.concatenate([full[c, j] for j, c in enumerate(columns)])
    model_of = highspy.HighsModel()
    model_of.lp_, model_of.hessian_ = lp, square
    program.passModel(model_of)
    program.run()
    if program.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        raise ArithmeticError("no pose was found")
    return np.array(program.getSolution().col_value[:n])


def furthest(model: LinearModel, z: Array, give_mm: float, form: Array, constant: float, way: float) -> float:
    """The furthest that form . q + constant can be pulled, way +1 or -1, with every row hard at a give."""
    found = linprog(
        -way * form, A_ub=model.row_q, b_ub=model.bound - model.row_z @ z + give_mm * model.give,
        bounds=[(None, None)] * len(form), method="highs",
    )  # fmt: skip
    if found.status == 3:
        return way * np.inf  # nothing holds it
    if found.status != 0:
        raise ArithmeticError(f"no range was found: {found.message}")
    return float(form @ found.x) + constant


def _silent() -> highspy.Highs:
    program = highspy.Highs()  # type: ignore[no-untyped-call]
    program.setOptionValue("output_flag", False)
    program.setOptionValue("log_to_console", False)
    return program
