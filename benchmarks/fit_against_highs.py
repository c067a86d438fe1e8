"""The kernel's verdicts against HiGHS, one linear program each: `.venv/bin/python benchmarks/fit_against_highs.py`.

Three carcasses of 2,000 programs each, then 80 random ones of 15: boards, families, number of fixings, and errors from
a tenth to sixteen times a shop's. Prints what differs; seeds stand here. About two minutes.
"""

import random
import sys
import time
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.optimize import linprog

sys.path.insert(0, str(Path(__file__).parents[1]))

from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.fit.carcass import model_of
from rodwork.fit.draws import draw
from rodwork.fit.linear import LinearModel
from rodwork.fit.solve import SIGNED, factored, verdict
from rodwork.pipeline import set_out

EASE_MM = 0.1
PLAINLY_NOT_MM = 1.0  # what needs more give than this will not go, whatever the last figure
CLIPPED_MM = -0.199  # below, the kernel says "at least 0.2 to spare"
JOB = """
[job]
name = "Box"
[boards.birch18]
material = "birch plywood"
thickness = 18
actual = 17.6
sheet = [2440, 1220]
[boards.birch6]
material = "birch plywood"
thickness = 6
actual = 5.8
sheet = [2440, 1220]
[joints.own]
use = [{{ family = "{family}"{count} }}]
[cabinets.box]
kind = "open box"
width = {width}
height = {height}
depth = {depth}
board = "birch18"
joint = "own"
sides = "{sides}"
fixed_shelves = {shelves}
dividers = {dividers}
{back}
"""
BACKS = ("", *(f'back = {{ board = "birch6", style = "{s}" }}' for s in ("grooved all round", "planted")))


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


def carcass(
    family: str = "dowel", fixings: int = 4, width: int = 600, height: int = 720, depth: int = 320,
    sides: str = "through", shelves: int = 0, dividers: int = 0, back: str = "",
) -> LinearModel:  # fmt: skip
    """The model of one box. Raises JobFaults where it cannot be made."""
    count = "" if family in ("housing", "tongue") else f", count = {fixings}"
    text = JOB.format(
        family=family, count=count, width=width, height=height, depth=depth, sides=sides, shelves=shelves,
        dividers=dividers, back=back,
    )  # fmt: skip
    return model_of(set_out(text, "box"), "box", assumed_accuracy())


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
    off = np.abs(np.maximum(mine.give_mm, CLIPPED_MM) - np.maximum(theirs, CLIPPED_MM))
    near = theirs < PLAINLY_NOT_MM
    return Found(
        programs=programs, differ=differ, furthest_mm=float(off[near].max(initial=0.0)), resolved=mine.resolved
    )


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
    """80 random carcasses of 15 programs each; those that cannot be made are drawn anew."""
    stream, total, made, start = random.Random(7), Found(), 0, time.process_time()
    while made < 80:
        family = stream.choice(("dowel", "biscuit", "loose tenon", "screw", "keyhole", "housing", "tongue"))
        try:
            model = carcass(
                family, stream.randint(2, 6), stream.randrange(400, 1200), stream.randrange(400, 2000),
                stream.randrange(250, 600), stream.choice(("through", "between")), stream.randint(0, 2),
                stream.randint(0, 1), stream.choice(BACKS),
            )  # fmt: skip
        except Exception as problem:  # what cannot be made is told in words
            if type(problem).__name__ != "JobFaults":
                raise
            continue
        made += 1
        total.add(compared(model, 15, stream.choice((0.1, 0.5, 1.0, 4.0, 16.0)), made))
    said("80 random carcasses", total, time.process_time() - start)


if __name__ == "__main__":
    large()
    random_carcasses()
