"""Doors cut to a sloping top: where their upper edge runs, and what cannot be cut so.

overlay   under the line along the slope through the outside arris of the high side, by `ends` square to it
inset     under the underside of the top, by `ends` square to it; hung on the high side by no less than
          thickness x sin(slope) + 1: turned about its outer arris, the inner one comes so far down the slope
"""

from math import cos, radians, sin

from rodwork.carcass.face import Span
from rodwork.carcass.under_roof import Roof
from rodwork.model.fronts import Doors
from rodwork.model.job import Cabinet, CannotBuild

SWING_MM = 1.0  # over what the swing of an inset door takes


def refuse(cabinet: Cabinet, asked: Doors, place: tuple[str | int, ...]) -> None:
    """What cannot be cut to a slope. Raises CannotBuild."""
    below = "or hang doors before the openings below a fixed shelf alone: openings = [1, 1]"
    for wrong, word, what, mend in (
        ("up" in asked.hung, "hung", "a door cut to the slope has no level edge to lift up from",
         "hang it left, right or in a pair"),
        (asked.bought is not None, "bought", "a bought door cannot be cut to the slope: its cups are bored",
         "leave `bought` out"),
        (cabinet.on_grid, "style", "the upper edge of a door cut to the slope lies on no line of the grid",
         "leave fronts_on_grid out"),
    ):  # fmt: skip
        if wrong:
            raise CannotBuild((*place, word), what, f"{mend}, {below}")


def upper_edge(roof: Roof, asked: Doors, thickness: float, x: Span) -> Span:
    """How high a door comes at its left and its right edge; all doors of its table stay in line."""
    lean, inset = radians(roof.degrees), asked.style == "inset"
    reveal = asked.ends_mm
    if inset and {"pair", "left" if roof.falls_right else "right"} & set(asked.hung):
        reveal = max(reveal, thickness * sin(lean) + SWING_MM)
    line = roof.under if inset else roof.outer
    left, right = (round(line(at) - reveal / cos(lean), 6) for at in x)
    return left, right
