"""The slope that a cabinet stands under, as the job file has it."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from rodwork.job.lines import Path
from rodwork.model.job import Recipe, RoofAsked

if TYPE_CHECKING:
    from rodwork.job.tables import Reading


def roof_of(table: Mapping[str, Any], joint: Recipe | None, path: Path, reading: "Reading") -> RoofAsked | None:
    """The slope as a value; a fault where its low side is said twice or not at all."""
    low, degrees = table.get("low"), table.get("degrees")
    if (low is None) == (degrees is None):
        reading.fault(
            path if low is None else (*path, "degrees"),
            "roof says neither how high the low side is nor how steep the slope is"
            if low is None
            else "low and degrees say the same thing in two ways",
            "Write low = the outside height of the low side, or degrees = the slope; one of the two",
        )
        return None
    if joint is None:
        return None
    return RoofAsked(
        falls=table["falls"], low_mm=low, degrees=degrees, joint=joint, side_tops=table.get("side_tops", "square")
    )
