"""The weight of every board and every cabinet, with its centre."""

from dataclasses import replace

from rodwork.model.panel import Part
from rodwork.model.rod import BoardStock, Rod, RodCabinet
from rodwork.model.weight import weight_of, whole_weight


def weighed(rod: Rod) -> Rod:
    """The Rod with what everything weighs and where."""
    return replace(rod, cabinets=tuple(_weighed(c, rod.boards) for c in rod.cabinets))


def _weighed(cabinet: RodCabinet, boards: dict[str, BoardStock]) -> RodCabinet:
    parts = tuple(_part(p, boards[p.board].density_kg_m3) for p in cabinet.parts)
    return replace(cabinet, parts=parts, weight=whole_weight(p.weight for p in parts))


def _part(part: Part, density_kg_m3: float | None) -> Part:
    return replace(part, weight=None if density_kg_m3 is None else weight_of(part, density_kg_m3, part.features))
