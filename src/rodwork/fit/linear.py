"""The linear model of a carcass: every gap, residual and output is  a . q + c . z.

q: how each board is displaced from where it belongs (mm; turns in mrad) with its two ways of bending; z: the error
sources, independent, of unit variance. Rows are  low - w s <= a . q + c . z <= high + w s: what must
hold, if need be by giving s.
Small displacements: a turn is linear, its error about angle^2 times length / 2 (0.002 mm at 2 mrad on 1 m).
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from rodwork.fit.arrays import Array, Bools, Ints


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One source of error: a stable key, its standard deviation, the figure of the shop it comes from, and in words.

    `parameter` is (method, kind of error, "shared" or "each"): sources with one parameter share one figure.
    """

    key: str
    sigma: float
    parameter: tuple[str, str, str]
    words: str


@dataclass(frozen=True, kw_only=True, eq=False)
class Holds:
    """Every fixing: its joint, where it stands along its run (mm), its residuals' errors, and how far they may lie.

    f fixings: joint (f,), at (f,), along_z and across_z (f, p), along and across (2, f) low and high, infinite where
    nothing holds it; `round` (f,) where both are one round play.
    """

    joint: Ints
    at: Array
    along_z: Array
    across_z: Array
    along: Array
    across: Array
    round: Bools

    def of(self, joint: int) -> "Holds":
        """Those of one joint."""
        own = self.joint == joint
        return Holds(
            joint=self.joint[own], at=self.at[own], along_z=self.along_z[own], across_z=self.across_z[own],
            along=self.along[:, own], across=self.across[:, own], round=self.round[own],
        )  # fmt: skip


@dataclass(frozen=True, kw_only=True, eq=False)
class LinearModel:
    """Rows, outputs and what the assembled pose minimises, as arrays; n unknowns, m rows, p sources, k outputs.

    `kinds` of the objective's forms: 0 fixing, 1 gap, 2 step, 3 flex (one unknown), 4 held by hand.
    """

    row_q: Array  # (m, n)
    row_z: Array  # (m, p)
    low: Array  # (m,), -inf where nothing holds it that way
    high: Array  # (m,), inf where nothing holds it that way
    give: Array  # (m,): w
    row_joint: Ints  # (m,): index into joints, -1 for none
    row_between: Bools  # (m,): of a fixing that is neither the first nor the last of its row
    aim_q: Array  # (g, n): forms that the pose would have at nought
    aim_z: Array  # (g, p)
    aim_kind: Ints  # (g,)
    movement: Array  # (n, n): how far boards are moved and bent, squared: what nothing else decides stays near nought
    out_q: Array  # (k, n)
    out_z: Array  # (k, p)
    outputs: tuple[str, ...]
    joints: tuple[str, ...]
    sources: tuple[Source, ...]
    holds: Holds
    sizes: dict[str, Array]  # (p,) each: measurable sizes of boards, by "part/length" and so on

    def only(self, keep: Bools) -> "LinearModel":
        """The same with some of the rows (m,) alone."""
        return replace(
            self, row_q=self.row_q[keep], row_z=self.row_z[keep], low=self.low[keep], high=self.high[keep],
            give=self.give[keep], row_joint=self.row_joint[keep], row_between=self.row_between[keep],
        )  # fmt: skip

    @cached_property
    def source_at(self) -> dict[str, int]:
        """Index of every source by its key."""
        return {s.key: i for i, s in enumerate(self.sources)}

    @cached_property
    def output_at(self) -> dict[str, int]:
        """Index of every output by its name."""
        return {name: i for i, name in enumerate(self.outputs)}

    def one_sided(self) -> tuple[Array, Array, Array, Array]:
        """(A, C, b, w) of  A q + C z - w s <= b: every side that holds anything, for solvers that know no other."""
        sides = []
        for sign, bound in ((1.0, self.high), (-1.0, -self.low)):
            holds = np.isfinite(bound)
            sides.append((sign * self.row_q[holds], sign * self.row_z[holds], bound[holds], self.give[holds]))
        a, c, b, w = (np.concatenate(parts) for parts in zip(*sides, strict=True))
        return a, c, b, w

    def z_of(self, errors_mm: dict[str, float]) -> Array:
        """(1, p): every source at nought but those given, by key, in mm (or mrad)."""
        z = np.zeros((1, len(self.sources)))
        for key, value in errors_mm.items():
            at = self.source_at[key]
            z[0, at] = value / self.sources[at].sigma
        return z
