"""A solid lipping: an edging that is sawn from a board, glued on, flushed, and sawn to size with its board.

    |<---------------- board, finished ---------------->|
    |<------------ board as sawn ------------>|<- adds->|<-comes off->|
    |_________________________________________|_________|_ _ _ _ _ _ _|
                                              |<------ thickness ---->|

Common practice, no source: a lipping over 4 mm is glued on over size, and the board sawn to its size again, since a
glue line and a planed strip are never quite as reckoned; it stands over both faces until it is flushed, and is longer
than its edge until it is trimmed.
"""

from dataclasses import dataclass

RECUT_OVER_MM = 4.0
RECUT_MM = 1.0
PROUD_MM = 1.0
LONGER_MM = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Lipping:
    """What a solid lipping is sawn from: its board, mm over each face of what it goes on, mm longer at each end."""

    made_of: str
    proud: float = PROUD_MM
    longer: float = LONGER_MM


def left_of(thickness_mm: float) -> float:
    """What is left of a lipping so thick, where it is not said."""
    return thickness_mm - RECUT_MM if thickness_mm > RECUT_OVER_MM else thickness_mm
