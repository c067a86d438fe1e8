"""What slot and mortise jointers share: set by their fence or by their own base, never both in one joint."""

from rodwork.joints.kind import Run
from rodwork.joints.leaning import across_the_slope
from rodwork.joints.positions import across_mm
from rodwork.model.job import CannotBuild
from rodwork.model.machining import LAID_ON_LINE, OWN_BASE
from rodwork.model.settings import choice, length
from rodwork.model.shop import Shop

LEAST_OVER_MM = 4.0  # of board between a slot and the face; common practice, no source
ON_A_LINE = ("fixed shelf", "divider")  # there the base is quicker: the boards themselves are stop and fence


def set_by() -> str:
    """The setting that says which of the two the machine is set by."""
    by: str = choice(
        "usual", ("usual", "fence", "base"), "what sets the machine: its fence, or its own base; usual: base on a line"
    )
    return by


def base_height() -> float:
    """The setting that says how far above its own base the machine cuts."""
    mm: float = length(10.0, 4, 30, "from the machine's own base to the middle of its cutter; measure yours")
    return mm


def across(
    asked: float | None, by: str, base_mm: float, cut_mm: float, run: Run, shop: Shop
) -> tuple[float, tuple[str | None, str | None]]:
    """How far from the registering face, mm, and what (host's, guest's) halves stand on: None for the usual.

    Usual: by its base on a line, where that leaves enough of the board over the cut; else by its fence.
    By its base: the guest lies on its registering face with its end on the line; the machine stands beside it on
    the host for the guest's half, and upright against its end for the host's. Raises CannotBuild where an offset is
    asked of a base, which has one only.
    """
    if run.nears:
        if by == "base":
            raise CannotBuild(
                ("set_by",), "a bevelled end cannot be set by the machine's own base: it would not stand on the slope",
                'leave `set_by` out, or write set_by = "fence"',
            )  # fmt: skip
        return across_the_slope(asked, cut_mm / 2, run, shop), (None, None)
    over = run.guest_thickness - base_mm - cut_mm / 2
    if by == "fence" or (by == "usual" and (run.place not in ON_A_LINE or asked is not None or over < LEAST_OVER_MM)):
        return across_mm(asked, run.guest_thickness, shop), (None, None)
    if asked is not None:
        raise CannotBuild(
            ("offset",), f"the machine's own base cuts {base_mm:g} from the board and can be set to nothing else",
            'leave `offset` out, or write set_by = "fence"',
        )  # fmt: skip
    return base_mm, (LAID_ON_LINE if run.place in ON_A_LINE else OWN_BASE, OWN_BASE)


def back_to_back(depth: float, run: Run, shop: Shop) -> float | None:
    """How far to move a row off the one on a divider's other face: not at all where the board is thick enough."""
    return 0.0 if run.host_thickness - 2 * depth >= shop.least_remainder_mm else None
