"""What a cabinet stands on, as later stations need it: how high, and where it bears on the floor at the front."""

from dataclasses import dataclass
from typing import Literal

FeetStyle = Literal["notched sides", "plinth frame", "legs"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Footing:
    """`height`: of toe space, frame or legs. `below`: so far under the carcass is the floor (nought: sides reach it).

    `feet`: places on the floor, from the left and from the front of the carcass: every leg, or the two ends of the
    foremost line on which it stands.
    """

    style: FeetStyle
    height: float
    below: float
    feet: tuple[tuple[float, float], ...]
