"""Shelf-pin bores: rows on the uprights, from the bottom end and the front edge."""

from collections.abc import Mapping
from typing import cast

from rodwork.geometry.directions import DOWN, FRONT
from rodwork.geometry.vec import Vec
from rodwork.model.feature import Bore
from rodwork.model.machining import Machining
from rodwork.model.meeting import PinRow
from rodwork.model.panel import Panel
from rodwork.model.surface import Surface, axis_of, inward, level, outward, surface_facing


def pin_machining(rows: tuple[PinRow, ...], panels: Mapping[str, Panel]) -> tuple[Machining, ...]:
    """Every bore of every row."""
    return tuple(m for row in rows for m in _row(row, panels[row.panel]))


def _row(row: PinRow, panel: Panel) -> tuple[Machining, ...]:
    face = cast(Surface, row.face)
    bottom = surface_facing(panel.pose.direction_to_part(DOWN))
    front = surface_facing(panel.pose.direction_to_part(FRONT))
    out = []
    for height in row.heights:
        at = _point(panel, face, ((bottom, height), (front, row.from_front)))
        bore = Bore(
            id=f"{panel.id} {'pin' if row.for_shelves else 'row'} {height:g}/{row.from_front:g}"
            + (" r" if face == "back_side" else ""),
            role="shelf_pin" if row.for_shelves else "row", joint=None,
            stage="as bought" if row.as_bought else "after edging", at=at, into=inward(face), along=inward(bottom),
            depth=row.depth, diameter=row.diameter,
        )  # fmt: skip
        out.append(
            Machining(
                part=panel.id, feature=bore, tool="drill and pin strip", cutter=f"{row.diameter:g} mm", bears=face,
                along_from=bottom, across_from=front, stands_on="the machined face",
            )
        )  # fmt: skip
    return tuple(out)


def _point(panel: Panel, face: Surface, offsets: tuple[tuple[Surface, float], ...]) -> Vec:
    """A point on a face, from its distances inside two edges."""
    at = [0.0, 0.0, 0.0]
    at[axis_of(face)] = level(face, panel.size)
    for surface, distance in offsets:
        axis = axis_of(surface)
        at[axis] = level(surface, panel.size) - outward(surface)[axis] * distance
    return (round(at[0], 6), round(at[1], 6), round(at[2], 6))
