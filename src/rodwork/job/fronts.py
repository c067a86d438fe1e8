"""Doors as the job file has them, with what they are where it is silent."""

from collections.abc import Mapping
from typing import Any

from rodwork.model.fronts import Doors, DoorStyle, Handle, HingeSheet

# Margins: lay-on 1.5 at each outer edge, 1.5 to 2 above and below, 3 between; inset 2. Common practice, no source.
MARGINS: Mapping[DoorStyle, tuple[float, float, float]] = {
    "overlay": (1.5, 1.5, 3.0), "half overlay": (1.5, 1.5, 3.0), "inset": (2.0, 2.0, 2.0),
}  # fmt: skip
# Fixed distances of common hinges, from memory: the sheet of the hinge that is bought goes before them.
FIXED_MM = (11.0, 1.5, -6.0)  # straight, half cranked, cranked for inset doors
BEHIND_INSET_MM = 3.0  # from an inset door to the shelves behind it; common practice, no source
PLATES_MM = (0.0, 2.0, 4.0)


def doors_of(table: Mapping[str, Any], board: str, openings: int) -> Doors:
    """The doors of one cabinet whose front has so many openings."""
    style: DoorStyle = table.get("style", "overlay")
    sides, ends, between = MARGINS[style]
    first, last = table.get("openings", (1, openings))
    handle = None if "handle" not in table else Handle(
        centres_mm=table["handle"], from_edge_mm=table.get("handle_from_edge", 40.0),
        from_end_mm=table.get("handle_from_end", 60.0), diameter_mm=5.0,
    )  # fmt: skip
    return Doors(
        board=board, style=style, hung=table["hung"], openings=(first, last), sides_mm=table.get("sides", sides),
        ends_mm=table.get("ends", ends), between_mm=table.get("between", between), grain=table.get("grain", "up"),
        hinge=HingeSheet(
            fixed_mm=table.get("hinge_fixed", FIXED_MM),
            plates_mm=tuple(sorted(table.get("plates", PLATES_MM))), number=table.get("hinges"),
            cup_depth_mm=table.get("cup_depth", 12.5),
        ),
        handle=handle,
    )  # fmt: skip
