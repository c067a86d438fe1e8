"""A row of fixings under a force and a turning moment: each takes its share as an elastic row does.

    across:  V/n, and M r / sum(r^2) square to its arm about the middle of the row
Source: any text on eccentric bolt groups. All of one stiffness, the boards stiff. Sums balance exactly.
"""

from collections.abc import Sequence


def shares_N(places_mm: Sequence[float], force_N: float, at_mm: float) -> tuple[float, ...]:
    """What comes to each of a row of fixings at these places, from one force at a place along the row, N.

    Their sum is the force, and their moments about any point are its moment; one fixing alone takes the force, and
    the moment is left to the boards. Raises ValueError for no fixing.
    """
    n = len(places_mm)
    if n == 0:
        raise ValueError("there is no fixing to share a force")
    middle = sum(places_mm) / n
    arms = [p - middle for p in places_mm]
    second = sum(a * a for a in arms)
    turning = force_N * (at_mm - middle)
    return tuple(force_N / n + (turning * a / second if second > 1e-9 else 0.0) for a in arms)
