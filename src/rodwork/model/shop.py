"""What the shop's machines can be set to, and its habits: printed figures and checks depend on them."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """What the shop's machines can be set to, and its habits. Depth stops: empty means any depth by step."""

    name: str | None  # None: not printed
    step_mm: float = 0.1
    fence_step_mm: float = 0.5
    first_mm: float = 40.0
    pitch_mm: float = 96.0
    end_mm: float = 40.0
    positions: Literal["fixed", "evenly"] = "fixed"
    clear_of_groove_mm: float = 12.0
    least_remainder_mm: float = 3.0
    depth_stops_mm: tuple[float, ...] = ()
    groove_cutter_mm: float = 6.0
    accuracy: str | None = None  # file of the shop's own readings, beside the job; None: accuracies are assumed
    ripped_together: bool = True  # False: back grooves are set from the front edge
    film_mm: float = 0.0  # what the finish of a cabinet takes of the room in its channels
