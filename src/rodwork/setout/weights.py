"""The weight of every board and every cabinet, with its centre."""

from dataclasses import replace

from rodwork.model.panel import Part
from rodwork.model.rod import BoardStock, Rod, RodCabinet
from rodwork.model.weight import weight_of, whole_weight


def weighed(rod: Rod) -> Rod:
    """The Rod with what everything weighs and where."""
    return replace(rod, cabinets=tuple(_weighed(c, rod.boards) for c in rod.cabinets))


def _weighed(cabinet: RodCabinet, boards: dict[str, BoardStock]) -> RodCabinet:
    parts = tuple(_part(p, cabinet.lippings.get(p.id, ()), boards) for p in cabinet.parts)
    whole = whole_weight(p.weight for p in parts if p.glued_on is None)
    return replace(cabinet, parts=parts, weight=whole)


def _part(part: Part, lippings: tuple[Part, ...], boards: dict[str, BoardStock]) -> Part:
    """A board with its lippings on it: so much more, or less, than if it were its own wood to its edges."""
    own = boards[part.board].density_kg_m3
    theirs = [boards[p.board].density_kg_m3 for p in lippings]
    if own is None or None in theirs:
        return replace(part, weight=None)
    more = [weight_of(p, d - own) for p, d in zip(lippings, theirs, strict=True) if d is not None]
    return replace(part, weight=whole_weight((weight_of(part, own, part.features), *more)))
