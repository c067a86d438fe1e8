"""Carcasses for the kernel and another solver to judge: one as asked, or one drawn from a seed."""

import random
from dataclasses import dataclass

from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.fit.carcass import model_of
from rodwork.fit.linear import LinearModel
from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out

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
FAMILIES = ("dowel", "biscuit", "loose tenon", "screw", "keyhole", "housing", "tongue")
BACKS = ("", *(f'back = {{ board = "birch6", style = "{s}" }}' for s in ("grooved all round", "planted")))
BUDGETS = (0.1, 0.5, 1.0, 4.0, 16.0)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A random carcass: its words, its model, and how many times a shop's its errors are."""

    words: str
    model: LinearModel
    budget: float


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


def random_carcass(seed: int) -> Drawn:
    """Boards, family, number of fixings and budget drawn from a seed; what cannot be made is drawn anew."""
    stream = random.Random(seed)
    while True:
        asked = (
            stream.choice(FAMILIES), stream.randint(2, 6), stream.randrange(400, 1200), stream.randrange(400, 2000),
            stream.randrange(250, 600), stream.choice(("through", "between")), stream.randint(0, 2),
            stream.randint(0, 1), stream.choice(BACKS),
        )  # fmt: skip
        budget = stream.choice(BUDGETS)
        try:
            return Drawn(f"seed {seed}: {asked}, errors x {budget:g}", carcass(*asked), budget)
        except JobFaults:
            continue
