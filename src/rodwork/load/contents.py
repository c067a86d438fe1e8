"""What stands in a cabinet: from the maker's words to newtons on each millimetre of a shelf."""

from rodwork.catalogue.contents import usual_contents
from rodwork.load.boards import GRAVITY
from rodwork.model.demand import Contents
from rodwork.model.figure import Figure
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet

BEARING = ("fixed shelf", "loose shelf", "bottom")  # what contents stand on
STAYS = ("permanent", "long", "medium")  # loads that creep is reckoned for
_MM2_PER_M2 = 1e6


def bearing(cabinet: RodCabinet) -> tuple[Part, ...]:
    """The boards that contents stand on."""
    return tuple(p for p in cabinet.parts if p.role in BEARING)


def area_mm2(cabinet: RodCabinet) -> float:
    """All of it together."""
    return sum(p.size[0] * p.size[1] for p in bearing(cabinet))


def even_N_per_mm(cabinet: RodCabinet, depth_mm: float) -> float:
    """The contents on each millimetre of a shelf so deep; nought where none were said."""
    said = cabinet.asked.contents
    per_m2, per_m = _weights(said, cabinet)
    return GRAVITY * (per_m2 * depth_mm / _MM2_PER_M2 + per_m / 1000)


def _weights(said: Contents | None, cabinet: RodCabinet) -> tuple[float, float]:
    """Kg per m2 and kg per m: one of them, or both nought."""
    if said is None:
        return cabinet.asked.kg_per_m2 or 0.0, 0.0
    if said.of is not None:
        row = usual_contents()[said.of]
        return row.kg_per_m2 or 0.0, row.kg_per_m or 0.0
    if said.kg is not None:
        area = area_mm2(cabinet)
        return (said.kg * _MM2_PER_M2 / area if area else 0.0), 0.0
    return said.kg_per_m2 or 0.0, said.kg_per_m or 0.0


def contents_kg(cabinet: RodCabinet) -> float:
    """All that one cabinet holds when it is full, the heaviest thing once."""
    heavy = cabinet.asked.contents.heaviest_kg if cabinet.asked.contents else None
    even = sum(even_N_per_mm(cabinet, p.size[1]) * p.size[0] for p in bearing(cabinet)) / GRAVITY
    return even + (heavy or 0.0)


def in_words(cabinet: RodCabinet) -> tuple[str, Figure | None]:
    """What was assumed to be inside, in words, and the figure of the catalogue where it stands on one."""
    said = cabinet.asked.contents
    if said is None or (said.of or said.kg_per_m2 or said.kg_per_m or said.kg or said.heaviest_kg) is None:
        return "nothing was said to stand inside: only its own weight is reckoned", None
    heavy = f", and one thing of {said.heaviest_kg:g} kg in the middle of any shelf" if said.heaviest_kg else ""
    if said.of is not None:
        row = usual_contents()[said.of]
        weight = f"{row.kg_per_m:g} kg per m" if row.kg_per_m else f"{row.kg_per_m2:g} kg per m²"
        figure = Figure(value=row.kg_per_m or row.kg_per_m2 or 0.0, standing=row.standing, source=row.source)
        return f"{said.of}, {weight} of shelf{heavy}", figure
    if said.kg_per_m is not None:
        return f"{said.kg_per_m:g} kg per m of shelf{heavy}", None
    if said.kg is not None:
        return f"{said.kg:g} kg in all{heavy}", None
    if said.kg_per_m2 is not None:
        return f"{said.kg_per_m2:g} kg per m² of shelf{heavy}", None
    return heavy.removeprefix(", and "), None
