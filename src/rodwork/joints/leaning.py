"""Where a fixing stands in an end that is bevelled: what goes in square to it comes nearer to one face as it goes.

In a mitre that face is the outside, so a slot stands near the inside, where it can go deepest: the wood about the
inside arris is blunt (135 degrees) and stays on. On a flatter slope it moves that way from the middle no further than
what goes in deepest wants.
"""

from math import sqrt

from rodwork.geometry.rounding import down_to_step, up_to_step
from rodwork.joints.kind import FixingPlan, Run
from rodwork.model.feature import ArcSlot, Bore, Channel, Feature
from rodwork.model.job import CannotBuild
from rodwork.model.shop import Shop

LEAST_INSIDE_MM = 2.0  # of the mitre between a slot and the inside arris; common practice, no source
WOOD_BESIDE_MM = 3.5  # of wood beside it in the face of the other board; common practice, no source
DEEPEST_MM = 20.0  # what goes deepest into a bevelled end: a dowel of 30, half a tenon


def across_the_slope(asked: float | None, half: float, run: Run, shop: Shop) -> float:
    """How far from the registering face something of this half width stands in a bevelled end, along the slope.

    As asked; else in a mitre near the inside, elsewhere as far as needed towards the face that it does not near.
    Raises CannotBuild where what is asked runs out at an arris.
    """
    wide, least = run.guest_thickness, half + (LEAST_INSIDE_MM if run.place == "mitre" else WOOD_BESIDE_MM)
    if asked is not None:
        if not least - 1e-9 <= asked <= wide - least + 1e-9:
            raise _runs_out(asked, least, run)
        return asked
    off = wide - least if run.place == "mitre" else min(wide - least, (wide + DEEPEST_MM * _tan(run)) / 2)
    return down_to_step(off, shop.fence_step_mm) if run.nears > 0 else up_to_step(wide - off, shop.fence_step_mm)


def _tan(run: Run) -> float:
    return abs(run.nears) / sqrt(1 - run.nears * run.nears)


def _runs_out(asked: float, least: float, run: Run) -> CannotBuild:
    end, arris = ("a mitre", "outside arris") if run.place == "mitre" else ("a bevelled end", "arris of that face")
    return CannotBuild(
        ("offset",), f"a slot {asked:g} from the {arris}, in {end} {run.guest_thickness:.1f} wide, runs "
        "out at an arris", f"set it between {least:g} and {run.guest_thickness - least:.1f} from the {arris}",
    )  # fmt: skip


def keep_inside(plans: tuple[FixingPlan, ...], run: Run, shop: Shop) -> None:
    """Raises CannotBuild where what goes into the host comes out at its bevelled end, which recedes as it goes in."""
    if not run.end_recedes:
        return
    for void in (v for plan in plans for v in plan.voids if v.board == "host"):
        from_end = run.from_end + void.cut.at[1] - _half(void.cut)
        deepest = (from_end - shop.least_remainder_mm * sqrt(1 + run.end_recedes**2)) / run.end_recedes
        if void.cut.depth > deepest + 1e-9:
            raise CannotBuild(
                (), f"what goes {void.cut.depth:g} into the side there comes out at its bevelled end, or within "
                f"{shop.least_remainder_mm:g} mm of it",
                'cut the tops of the sides square: roof = { side_tops = "square" }; or use something less deep',
            )  # fmt: skip


def _half(cut: Feature) -> float:
    """Half of how wide a void is across the joint."""
    if isinstance(cut, Bore):
        return cut.diameter / 2
    if isinstance(cut, ArcSlot):
        return max(cut.thickness, getattr(cut, "root_width", 0.0)) / 2
    return cut.width / 2 if isinstance(cut, Channel) else 0.0


def room_below(v: float, half: float, run: Run, shop: Shop) -> float:
    """How deep the guest's half may go that stands at v, `half` each way, and leave the least remainder, mm."""
    if not run.nears:
        return float("inf")
    lean = abs(run.nears)
    upright = sqrt(1 - lean * lean)
    beside = v - half if run.nears > 0 else run.guest_thickness - v - half
    return (beside * upright - shop.least_remainder_mm) / lean


def least_board(depth: float, half: float, run: Run, shop: Shop) -> float:
    """A board in whose bevelled end something goes so deep that has this half width, mm; the steps of fences in it."""
    upright = sqrt(1 - run.nears * run.nears)
    return depth + shop.least_remainder_mm + (2 * half + LEAST_INSIDE_MM) * upright


def too_deep(what: str, depth: float, half: float, run: Run, shop: Shop) -> CannotBuild:
    """What is said where the slope has no room for it."""
    least, board = least_board(depth, half, run, shop), run.guest_thickness * sqrt(1 - run.nears * run.nears)
    where, face = ("the mitre", "the outside") if run.place == "mitre" else ("the bevelled end", "its face")
    return CannotBuild(
        (), f"{what} {depth:g} deep in {where} of a {board:g} mm board comes within "
        f"{shop.least_remainder_mm:g} mm of {face}",
        f"use a board of at least {least + 0.4:.0f} mm, or "
        + ("a spline" if run.place == "mitre" else "something that goes in less deep: biscuits, or a shorter size"),
    )  # fmt: skip
