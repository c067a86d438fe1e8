"""The kernel's verdicts against HiGHS, one linear program each: `.venv/bin/python benchmarks/fit_against_highs.py`.

Three carcasses of 2,000 programs each, then 80 random ones of 15: boards, families, number of fixings, and errors from
a tenth to sixteen times a shop's. Prints what differs; seeds stand here. About two minutes.
"""

import sys
import time
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.optimize import linprog

sys.path.insert(0, str(Path(__file__).parents[1]))

from tests.fit.random_carcasses import carcass, random_carcass

from rodwork.fit.draws import draw
from rodwork.fit.linear import LinearModel
from rodwork.fit.solve import SIGNED, TO_SPARE_MM, factored, verdict

EASE_MM = 0.1
TOLD_MM = 1e-5  # a carcass of which a give is further off is named


@dataclass
class Found:
    """What a run of linear programs came to."""

    programs: int = 0
    differ: int = 0
    furthest_mm: float = 0.0
    resolved: int = 0

    def add(self, other: "Found") -> None:
        """Both together."""
        self.programs += other.programs
        self.differ += other.differ
        self.furthest_mm = max(self.furthest_mm, other.furthest_mm)
        self.resolved += other.resolved


def compared(model: LinearModel, programs: int, budget: float, seed: int) -> Found:
    """So many assemblies judged twice."""
    z = draw(model.sources, programs, seed) * budget
    mine = verdict(factored(model, SIGNED), z)
    a, c, b, w = model.one_sided()
    rows, n = np.hstack([a, -w[:, None]]), a.shape[1]
    cost, bounds = [0.0] * n + [1.0], [(None, None)] * (n + 1)
    theirs = np.array(
        [linprog(cost, A_ub=rows, b_ub=b - c @ one, bounds=bounds, method="highs").x[n] for one in z]
    )  # fmt: skip
    differ = int(((mine.give_mm <= EASE_MM) != (theirs <= EASE_MM)).sum())
    off = np.abs(np.maximum(mine.give_mm, -TO_SPARE_MM) - np.maximum(theirs, -TO_SPARE_MM))
    return Found(programs=programs, differ=differ, furthest_mm=float(off.max()), resolved=mine.resolved)


def said(name: str, found: Found, seconds: float) -> None:
    """One line."""
    print(
        f"{name}: {found.programs} linear programs, {found.differ} verdicts differ, "
        f"furthest {found.furthest_mm:.1e} mm, "
        f"{found.resolved} settled by the second solver, {seconds:.0f} s"
    )


def large() -> None:
    """Three carcasses, 2,000 programs each, at a shop's own errors."""
    for name, asked in (
        ("four boards, dowels", {}),
        ("five boards, dowels", {"shelves": 1}),
        ("six boards, tenons", {"family": "loose tenon", "shelves": 1, "dividers": 1, "width": 900}),
    ):
        start = time.process_time()
        said(name, compared(carcass(**asked), 2000, 1.0, 11), time.process_time() - start)


def random_carcasses() -> None:
    """80 random carcasses of 15 programs each."""
    total, start = Found(), time.process_time()
    for seed in range(80):
        drawn = random_carcass(seed)
        found = compared(drawn.model, 15, drawn.budget, seed)
        total.add(found)
        if found.resolved or found.differ or found.furthest_mm > TOLD_MM:
            print(f"  {drawn.words}: {found.furthest_mm:.1e} mm, {found.resolved} settled by the second solver")
    said("80 random carcasses", total, time.process_time() - start)


if __name__ == "__main__":
    large()
    random_carcasses()
