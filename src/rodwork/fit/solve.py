"""From a linear model and draws to answers: the signed verdict, the assembled pose, the attainable range.

Verdict and pose are two runs of one kernel with two settings, and must not be mixed: in the pose the weights push the
give up by about w.lam / rho, so that its give is no verdict (two dowels would pass 88 in 100 instead of 95).

A give is believed where its active rows prove it the least (`ActiveSets.proven`) or there is plainly enough to spare.
What is left is solved once more with a hundred times the push, and what that does not solve, by HiGHS.
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.linalg import cho_factor, cho_solve

from rodwork.fit.arrays import Array, Bools, Ints
from rodwork.fit.kernel import MOST_STEPS, NOTHING, TOLERANCE_MM, ActiveSets, Rows, active_sets, gathered
from rodwork.fit.linear import LinearModel
from rodwork.fit.referee import furthest, least_give, pose_by_least_distance


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """What the pose costs per mm^2 of each kind of form; `give` is rho; the give is counted from -`shift` up."""

    fixing: float
    gap: float
    step: float
    flex: float
    by_hand: float
    ridge: float
    give: float
    shift: float

    def of(self, kinds: Ints) -> Array:
        """The weight of every aim, by the kinds of builder.py."""
        return np.array([self.fixing, self.gap, self.step, self.flex, self.by_hand])[kinds]


# condition of H stays under about 1e6: gap 1000, step 100 and give 1e7 broke 8 in 100 active sets (errors of mm)
SIGNED = Weights(fixing=1, gap=1, step=0, flex=1, by_hand=0, ridge=3e-2, give=3e4, shift=0.25)
ASSEMBLED = Weights(fixing=1, gap=100, step=30, flex=5, by_hand=1, ridge=1e-6, give=1e5, shift=0.0)
PULLED = replace(SIGNED, ridge=1)  # at 1e-3 the free rack ran off by 5 km before rows held it, and many samples broke
AS_DRILLED = Weights(fixing=1, gap=100, step=0, flex=1e4, by_hand=1, ridge=1e-6, give=1e5, shift=0.0)
TO_SPARE_MM = 0.2  # a give is exact above -0.2; below, there is that much to spare, and more is not asked
FIRM_SHIFT_MM = 25.0  # of the second try: a hundred times the push
PULL = 5e3  # how hard a range is pulled to its end; 1e5 broke samples
STEPS_OF_A_PULL = 400  # the end of a range is a corner of many rows: past this a linear program is quicker


@dataclass(frozen=True, kw_only=True, eq=False)
class Factored:
    """A model made ready for one set of weights."""

    model: LinearModel
    weights: Weights
    hessian: Array  # (n, n)
    to_pose: Array  # (n, p): q0 = to_pose z
    values: Array  # (m, p): what the rows come to at q0 = values z
    answer: Array  # (n, m): H^-1 A'
    rows: Rows

    @property
    def most_rows(self) -> int:
        """No more rows can be active at once than there are unknowns and the give."""
        return len(self.hessian) + 1

    def only(self, keep: Bools) -> "Factored":
        """The same with some of the rows (m,) alone: what the pose costs stays as it is."""
        rows = self.rows
        return replace(
            self, model=self.model.only(keep), values=self.values[keep], answer=self.answer[:, keep],
            rows=Rows(
                gram=np.ascontiguousarray(rows.gram[np.ix_(keep, keep)]), give=rows.give[keep], press=rows.press,
                low=rows.low[keep], high=rows.high[keep],
            ),
        )  # fmt: skip


def factored(model: LinearModel, weights: Weights) -> Factored:
    """Everything that does not depend on the draws."""
    hessian, pull = _aims(model, weights)
    factor = cho_factor(hessian)
    to_pose = -cho_solve(factor, pull)
    answer = cho_solve(factor, model.row_q.T)
    gram = model.row_q @ answer
    return Factored(
        model=model, weights=weights, hessian=hessian, to_pose=to_pose,
        values=model.row_q @ to_pose + model.row_z, answer=answer,
        rows=Rows(
            gram=np.ascontiguousarray((gram + gram.T) / 2), give=model.give, press=1.0 / weights.give,
            low=model.low, high=model.high,
        ),
    )  # fmt: skip


def _aims(model: LinearModel, weights: Weights) -> tuple[Array, Array]:
    """(n, n) and (n, p): the pose without rows is where  hessian q + pull z = 0."""
    weighed = model.aim_q.T * weights.of(model.aim_kind)
    return weighed @ model.aim_q + weights.ridge * model.movement, weighed @ model.aim_z


def on_sides(table: Array) -> Array:
    """(2 m, k) of (m, k): a row's figures for its high side, and turned round for its low side."""
    return np.concatenate([table, -table])


def _of_give(model: LinearModel) -> Array:
    """(2 m, 1): what each side of each row takes of the give."""
    return np.concatenate([model.give, model.give])[:, None]


@dataclass(frozen=True, kw_only=True, eq=False)
class Verdict:
    """The signed give of every sample: what goes together needs no more than the ease.

    Exact above -0.2 mm; below it stands at -0.2 and means "at least 0.2 to spare". `resolved` counts what the kernel
    handed to the referee.
    """

    give_mm: Array
    active: ActiveSets
    resolved: int


def verdict(ready: Factored, z: Array, begin: ActiveSets = NOTHING) -> Verdict:
    """The least give (N,) with which every row holds, for draws z (N, p).

    begin: active rows of the same samples under other errors or other play; it saves steps and changes nothing.
    """
    r0 = z @ ready.values.T
    active, give = _pushed(ready, r0, ready.weights.shift, begin)
    settled = active.solved & ((give <= -TO_SPARE_MM) | active.proven)
    doubted = np.flatnonzero(~settled)
    if len(doubted):
        again, give[doubted] = _pushed(ready, r0[doubted], FIRM_SHIFT_MM, NOTHING)
        for whole, part in zip(active, again, strict=True):
            whole[doubted] = part
    bad = np.flatnonzero(~active.solved)
    for i in bad:
        give[i] = least_give(ready.model, z[i])
        active.counts[i] = 0
    return Verdict(give_mm=np.maximum(give, -TO_SPARE_MM), active=active, resolved=len(bad))


def goes_together(ready: Factored, z: Array, ease_mm: float, near: ActiveSets = NOTHING) -> Bools:
    """(N,) whether the least give is no more than the ease, without saying what it is.

    near: the verdict of the same samples under other errors or other play. Where boards that are pushed as they were
    there hold every row, they prove it; only the rest has to be solved.
    """
    goes: Bools = np.zeros(len(z), dtype=np.bool_)
    if len(near.counts):
        values = z @ ready.values.T - gathered(near, on_sides(ready.rows.gram))
        over = np.maximum(values - ready.rows.high, ready.rows.low - values) - ready.rows.give * ease_mm
        goes[:] = (over <= TOLERANCE_MM).all(axis=1)
    rest = np.flatnonzero(~goes)
    begin = near.of(rest) if len(near.counts) else NOTHING
    goes[rest] = verdict(ready, z[rest], begin).give_mm <= ease_mm
    return goes


def _pushed(ready: Factored, r0: Array, shift_mm: float, begin: ActiveSets) -> tuple[ActiveSets, Array]:
    """Active rows and give (N,), which is pushed from -shift up."""
    slack = np.full(len(r0), -shift_mm)
    active = active_sets(r0, slack, ready.rows, ready.most_rows, MOST_STEPS, begin)
    return active, slack + ready.rows.press * gathered(active, _of_give(ready.model))[:, 0]


@dataclass(frozen=True, kw_only=True, eq=False)
class Poses:
    """Outputs (N, k) of every sample as assembled, and how many were solved by the referee."""

    outputs: Array
    active: ActiveSets
    resolved: int


def poses(ready: Factored, z: Array, begin: ActiveSets = NOTHING) -> Poses:
    """What the maker sees when he has pushed everything as flush as the fixings let him; `begin` as in `verdict`."""
    model = ready.model
    active = active_sets(z @ ready.values.T, np.zeros(len(z)), ready.rows, ready.most_rows, MOST_STEPS, begin)
    free = z @ (model.out_q @ ready.to_pose + model.out_z).T
    outputs = free - gathered(active, on_sides((model.out_q @ ready.answer).T))
    bad = np.flatnonzero(~active.solved)
    for i in bad:
        q = pose_by_least_distance(model, ready.hessian, ready.weights.give, ready.to_pose @ z[i], z[i])
        outputs[i] = model.out_q @ q + model.out_z @ z[i]
    return Poses(outputs=outputs, active=active, resolved=len(bad))


def attainable(model: LinearModel, z: Array, give_mm: Array, output: str, way: float) -> Array:
    """(N,) the furthest an output can be pulled, way +1 or -1, with rows hard at the give that is needed anyway.

    A linear pull is added to the objective; the referee settles the rest.
    """
    ready = factored(model, PULLED)
    at = model.output_at[output]
    pull = way * PULL * np.linalg.solve(ready.hessian, model.out_q[at])
    hard_at = np.maximum(give_mm, 0.0) + 1e-3
    hard = ready.rows._replace(press=0.0)
    active = _one_after_all(z @ ready.values.T + model.row_q @ pull, hard_at, hard, ready.most_rows)
    free = z @ (model.out_q[at] @ ready.to_pose + model.out_z[at]) + model.out_q[at] @ pull
    moved = gathered(active, on_sides((model.out_q[at] @ ready.answer)[:, None]))
    out: Array = free - moved[:, 0]
    for i in np.flatnonzero(~active.solved):
        out[i] = furthest(model, z[i], hard_at[i], model.out_q[at], float(model.out_z[at] @ z[i]), way)
    return out


def _one_after_all(r0: Array, slack: Array, rows: Rows, most_rows: int) -> ActiveSets:
    """The first sample from nothing, all others from its active rows: at the end of a pull they are much the same."""
    first = active_sets(r0[:1], slack[:1], rows, most_rows, STEPS_OF_A_PULL, NOTHING)
    others = active_sets(r0[1:], slack[1:], rows, most_rows, STEPS_OF_A_PULL, first)
    return ActiveSets(*(np.concatenate(pair) for pair in zip(first, others, strict=True)))


def as_drilled(model: LinearModel, output: str) -> Array:
    """(p,) an output with every fixing in the middle of its play: linear in the errors, so its spread is exact."""
    linear: Array = all_as_drilled(model)[model.output_at[output]]
    return linear


def all_as_drilled(model: LinearModel) -> Array:
    """(k, p) every output, as `as_drilled` gives it."""
    hessian, pull = _aims(model, AS_DRILLED)
    linear: Array = model.out_z - model.out_q @ cho_solve(cho_factor(hessian), pull)
    return linear


def shares_of_give(ready: Factored, found: Verdict, z: Array) -> tuple[Array, Array]:
    """What the give is made of: (N, p) by source, exact by duality, and (N, joints) by joint, adding up to one.

    With y = lam / (w.lam) the give is sum_k (y.C_k) z_k - y.b. Rows of the flex bounds belong to no joint.
    """
    model = ready.model
    total = np.maximum(gathered(found.active, _of_give(model)), 1e-300)
    by_source = gathered(found.active, on_sides(model.row_z)) * z / total
    belongs = np.zeros((len(model.give), len(model.joints)))
    inside = model.row_joint >= 0
    belongs[np.flatnonzero(inside), model.row_joint[inside]] = model.give[inside]
    by_joint = gathered(found.active, np.concatenate([belongs, belongs])) / total
    return by_source, by_joint
