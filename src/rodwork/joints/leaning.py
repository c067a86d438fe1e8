"""Where a fixing stands in an end that is bevelled: what goes in square to it comes nearer to one face as it goes.

In a mitre that face is the outside, so a slot stands near the inside, where it can go deepest: the wood about the
inside arris is blunt (135 degrees) and stays on.
"""

from math import sqrt

from rodwork.geometry.rounding import down_to_step
from rodwork.joints.kind import Run
from rodwork.model.job import CannotBuild
from rodwork.model.shop import Shop

LEAST_INSIDE_MM = 2.0  # of the mitre between a slot and the inside arris; common practice, no source


def in_a_mitre(asked: float | None, half: float, run: Run, shop: Shop) -> float:
    """How far from the outside arris a slot of this half width stands, along the mitre: as asked, or near the inside.

    Raises CannotBuild where what is asked runs out at an arris.
    """
    nearest = run.guest_thickness - half - LEAST_INSIDE_MM
    if asked is None:
        return down_to_step(nearest, shop.fence_step_mm)
    if asked > nearest + 1e-9 or asked < half + LEAST_INSIDE_MM:
        raise CannotBuild(
            ("offset",), f"a slot {asked:g} from the outside arris, in a mitre {run.guest_thickness:.1f} wide, runs "
            "out at an arris", f"set it between {half + LEAST_INSIDE_MM:g} and {nearest:.1f} from the outside arris",
        )  # fmt: skip
    return asked


def room_below(v: float, half: float, run: Run, shop: Shop) -> float:
    """How deep the guest's half may go that stands at v, `half` each way, and leave the least remainder, mm."""
    if not run.nears:
        return float("inf")
    lean = abs(run.nears)
    upright = sqrt(1 - lean * lean)
    beside = v - half if run.nears > 0 else run.guest_thickness - v - half
    return (beside * upright - shop.least_remainder_mm) / lean


def least_board(depth: float, half: float, shop: Shop) -> float:
    """The thinnest board in whose mitre something goes so deep that has this half width, mm (45 degrees)."""
    return depth + shop.least_remainder_mm + (2 * half + LEAST_INSIDE_MM) * sqrt(0.5)


def too_deep(what: str, depth: float, half: float, run: Run, shop: Shop) -> CannotBuild:
    """What is said where the mitre has no room for it."""
    least = least_board(depth, half, shop)
    return CannotBuild(
        (), f"{what} {depth:g} deep in the mitre of a {run.host_thickness:g} mm board comes within "
        f"{shop.least_remainder_mm:g} mm of the outside",
        f"use a board of at least {least + 0.4:.0f} mm, or a spline",
    )  # fmt: skip
