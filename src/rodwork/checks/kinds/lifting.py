"""A board or a full sheet that is too heavy for one person."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, told_once
from rodwork.model.finding import Finding
from rodwork.model.rod import BoardStock, Rod, RodCabinet

CODE = "lifting"
ONE_PERSON_KG = 25.0
SOURCE = (
    "HSE, Manual handling at work, INDG143: lifting guideline, 25 kg for a man and 16 kg for a woman, held close at "
    "elbow height"
)


def look(rod: Rod) -> Iterable[Finding]:
    """Every board by its own weight, and every sheet that the job is cut from."""
    yield from _sheets(rod)
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _sheets(rod: Rod) -> Iterator[Finding]:
    """One note for each kind of sheet, under the first cabinet that is cut from it."""
    told: set[str] = set()
    for cabinet in rod.cabinets:
        for part in cabinet.parts:
            stock = rod.boards[part.board]
            weight = stock.sheet_kg
            if part.board not in told and weight is not None:
                told.add(part.board)
                if weight > ONE_PERSON_KG:
                    yield _sheet(cabinet, stock, weight)


def _sheet(cabinet: RodCabinet, stock: BoardStock, weight: float) -> Finding:
    length, width = stock.sheet
    who = (
        "Two people carry it"
        if weight <= 2 * ONE_PERSON_KG
        else "It is too much for two people: use a trolley or hoist"
    )
    return Finding(
        severity="note", code=CODE, cabinet=cabinet.name, where=(),
        message=f"A full sheet of {stock.thickness:g} mm {stock.material}, {length:g} x {width:g}, weighs about "
                f"{weight:.0f} kg.",
        mend=f"{who}, or have it cut to rough size where it is bought.", source=SOURCE,
    )  # fmt: skip


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    for part in cabinet.parts:
        if part.weight is not None and part.weight.kg > ONE_PERSON_KG:
            yield Spot(
                severity="note", parts=(part,), what=f"about {part.weight.kg:.0f} kg a board",
                mend="two people lift and turn it; do not reach with it or carry it up stairs alone", source=SOURCE,
            )  # fmt: skip


CHECK = Check(code=CODE, title="Too heavy for one", look=look)
