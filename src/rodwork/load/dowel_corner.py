"""Dowels in case construction: the published moment of a corner of one dowel, and what a glued dowel holds.

Zhang and Eckelman 1993, Forest Products Journal 43(6), 19-24, from its abstract: L corners of particleboard with one
dowel, moments in lb in (the unit is inferred; D and E in inches):
    closing:  460.4 D^0.452 E^1.140      opening:  614.6 D^0.591 E^1.180
for a dowel of 1/4 to 3/8 in that stands 1/4 to 5/8 in deep in the board worked on its face. Averages at failure. Depth
in the end between 3/4 and 1 1/2 in made no difference; at 3/4 some pulled out.
"""

from dataclasses import dataclass
from math import pi

N_MM_PER_LB_IN = 112.98482902761668
MM_PER_IN = 25.4
# Mean bond stress on the dowel's surface, N/mm2: Uysal, Wood and Fiber Science (abstract), best and worst of boards.
# The edge of particleboard was the worst of all, so that the other surfaces of these boards hold at least as much.
BOND_N_PER_MM2 = {
    ("mdf", "face"): 7.47, ("mdf", "end"): 2.82, ("particleboard", "face"): 2.82, ("particleboard", "end"): 2.82,
}  # fmt: skip
BOND_SOURCE = (
    "Uysal, Wood and Fiber Science, abstract: 2.82 N/mm2 on a dowel in the edge of particleboard, the least found; "
    "7.47 in the face of MDF; mean at failure"
)
SOURCE = "Zhang and Eckelman 1993, FPJ 43(6) 19-24, abstract; average at failure, lb in inferred"


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerMoment:
    """Average moment at failure of a corner of one dowel, N mm: pushed shut, and pulled open."""

    closing_Nmm: float
    opening_Nmm: float


def closing_lb_in(D_in: float, E_in: float) -> float:
    """The published expression for a corner in compression, lb in."""
    return float(460.4 * D_in**0.452 * E_in**1.140)


def opening_lb_in(D_in: float, E_in: float) -> float:
    """The published expression for a corner in tension, lb in."""
    return float(614.6 * D_in**0.591 * E_in**1.180)


def corner_moment(diameter_mm: float, in_face_mm: float, group: str) -> CornerMoment | None:
    """For one dowel of a corner; None where the board or the sizes lie outside what was tested.

    Half a step over 3/8 in is let pass for a 10 mm dowel, and 5.9 for a 6 mm one.
    """
    D, E = diameter_mm / MM_PER_IN, in_face_mm / MM_PER_IN
    if group != "particleboard" or not (0.23 <= D <= 0.40 and 0.25 <= E <= 0.625):
        return None
    return CornerMoment(
        closing_Nmm=closing_lb_in(D, E) * N_MM_PER_LB_IN, opening_Nmm=opening_lb_in(D, E) * N_MM_PER_LB_IN
    )


def dowel_withdrawal(diameter_mm: float, length_mm: float, group: str, surface: str) -> float | None:
    """A glued dowel pulled out of a board, mean at failure, N; None where nothing was published for that surface."""
    bond = BOND_N_PER_MM2.get((group, surface))
    return None if bond is None else bond * pi * diameter_mm * length_mm
