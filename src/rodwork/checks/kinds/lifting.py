"""A board or a full sheet that is too heavy for one person."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, told_once
from rodwork.model.finding import Finding
from rodwork.model.panel import Part
from rodwork.model.rod import BoardStock, Rod, RodCabinet

CODE = "lifting"
ONE_PERSON_KG = 25.0
SOURCE = (
    "HSE, Manual handling at work, INDG143: lifting guideline, 25 kg for a man and 16 kg for a woman, held close at "
    "elbow height"
)
_M3_PER_MM3 = 1e-9


def look(rod: Rod) -> Iterable[Finding]:
    """Every board by its own weight, and every sheet that the job is cut from."""
    yield from _sheets(rod)
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet, rod))


def _kg(length: float, width: float, thickness: float, density_kg_m3: float) -> float:
    return length * width * thickness * _M3_PER_MM3 * density_kg_m3


def _sheets(rod: Rod) -> Iterator[Finding]:
    """One note for each kind of sheet, under the first cabinet that is cut from it."""
    told: set[str] = set()
    for cabinet in rod.cabinets:
        for part in cabinet.parts:
            stock = rod.boards[part.board]
            if part.board not in told and stock.density_kg_m3 is not None:
                told.add(part.board)
                weight = _kg(*stock.sheet, stock.actual, stock.density_kg_m3)
                if weight > ONE_PERSON_KG:
                    yield _sheet(cabinet, stock, weight)


def _sheet(cabinet: RodCabinet, stock: BoardStock, weight: float) -> Finding:
    length, width = stock.sheet
    return Finding(
        severity="note", code=CODE, cabinet=cabinet.name, where=(),
        message=f"A full sheet of {stock.thickness:g} mm {stock.material}, {length:g} x {width:g}, weighs about "
                f"{weight:.0f} kg.",
        mend="Two people carry it, or have it cut to rough size where it is bought.", source=SOURCE,
    )  # fmt: skip


def _spots(cabinet: RodCabinet, rod: Rod) -> Iterator[Spot]:
    for part in cabinet.parts:
        density = rod.boards[part.board].density_kg_m3
        if density is not None and (weight := weight_of(part, density)) > ONE_PERSON_KG:
            yield Spot(
                severity="note", parts=(part,), what=f"about {weight:.0f} kg a board",
                mend="two people lift and turn it; do not reach with it or carry it up stairs alone", source=SOURCE,
            )  # fmt: skip


def weight_of(part: Part, density_kg_m3: float) -> float:
    """Weight of a board, kg, without what is machined out of it."""
    return _kg(*part.size, density_kg_m3)


CHECK = Check(code=CODE, title="Too heavy for one", look=look)
