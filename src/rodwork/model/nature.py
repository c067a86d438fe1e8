"""What a maker weighs of a family of joints before choosing it: facts of the trade, the same in every job."""

from dataclasses import dataclass
from typing import Literal

Need = Literal["needed", "optional", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Nature:
    """One family's nature. Figures are mm; texts are whole phrases in a maker's words.

    `registers_on`: which surface each half really registers on. `support`: what the tool needs to bear on, and what
    helps where half a board is all there is. `board_mm`: thinnest and thickest board it works in. `clamps`: while it
    is driven or the glue sets. `draws_up`: it pulls the joint tight by itself. `at_once`: the work can be handled
    without waiting. `apart`: it can be taken apart again. `shows` is "" where nothing does, `covered_by` how what
    shows is covered ("" where it cannot or need not be). `demands_along_mm` and `demands_across_mm`: how true the
    halves must be to one another for it to go home, along the run and through the thickness.
    """

    machines: tuple[str, ...]
    registers_on: str
    support: str
    board_mm: tuple[float, float]
    glue: Need
    clamps: Need
    draws_up: bool
    at_once: bool
    apart: bool
    shows: str
    covered_by: str
    demands_along_mm: float
    demands_across_mm: float
