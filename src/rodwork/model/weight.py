"""What a board weighs and where its weight is.

Counted from the true outline: slopes, notches, bevels and cut-outs are out. All else that is machined stays in: a
dowel, a tenon or a fitting stands in most of it, and what is left open is little. So the weight errs on the heavy side,
which is the safe one for whoever lifts.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rodwork.geometry.prismatoid import volume_and_centre
from rodwork.geometry.vec import Vec, clean
from rodwork.model.feature import Cutout, Feature

if TYPE_CHECKING:  # a part has its weight
    from rodwork.model.panel import Panel

M3_PER_MM3 = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """A weight and its centre, kg and mm, cabinet axes."""

    kg: float
    centre: Vec


def weight_of(board: "Panel", density_kg_m3: float, features: Sequence[Feature] = ()) -> Weight:
    """A board where it stands, its edging counted as the board itself."""
    holes = [f.polygon for f in features if isinstance(f, Cutout)]
    volume, centre = volume_and_centre(board.outline, board.bevels, board.size[2], holes)
    kg = round(volume * M3_PER_MM3 * density_kg_m3, 6)
    return Weight(kg=kg, centre=clean(board.pose.to_cabinet(centre)))


def whole_weight(weights: Iterable[Weight | None]) -> Weight | None:
    """All of them as one; None where one is not known, or there is none."""
    known: list[Weight] = []
    for weight in weights:
        if weight is None:
            return None
        known.append(weight)
    kg = sum(w.kg for w in known)
    if kg <= 0:
        return None
    x, y, z = (sum(w.kg * w.centre[n] for w in known) / kg for n in range(3))
    return Weight(kg=round(kg, 6), centre=clean((x, y, z)))
