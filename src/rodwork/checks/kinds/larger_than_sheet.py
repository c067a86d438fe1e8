"""A board that is larger than the sheet it is to be cut from."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import DUST
from rodwork.checks.spot import COMMON, Spot, mm, told_once
from rodwork.model.finding import Finding
from rodwork.model.panel import Part
from rodwork.model.rod import BoardStock, Rod, RodCabinet
from rodwork.model.sawing import SHEET_TRIM_MM

CODE = "larger-than-sheet"

Size = tuple[float, float]


def look(rod: Rod) -> Iterable[Finding]:
    """Every board, as sawn, against its sheet."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet, rod))


def _spots(cabinet: RodCabinet, rod: Rod) -> Iterator[Spot]:
    for part in (p for p in cabinet.parts if not p.bought):
        stock = rod.boards[part.board]
        length, width = stock.sheet
        if not _comes_out(part, (length - 2 * SHEET_TRIM_MM, width - 2 * SHEET_TRIM_MM), stock):
            yield _spot(part, stock)


def _comes_out(part: Part, sheet: Size, stock: BoardStock) -> bool:
    ways = (part.cut,) if _keeps_grain(part, stock) else (part.cut, part.cut[::-1])
    return any(a <= sheet[0] + DUST and b <= sheet[1] + DUST for a, b in ways)


def _keeps_grain(part: Part, stock: BoardStock) -> bool:
    return part.grain and stock.grain


def _spot(part: Part, stock: BoardStock) -> Spot:
    length, width = stock.sheet
    most = (length - 2 * SHEET_TRIM_MM, width - 2 * SHEET_TRIM_MM)
    grain = ", grain along the first" if _keeps_grain(part, stock) else ""
    size = f"{mm(part.cut[0])} x {mm(part.cut[1])}"
    sheet = f"a {mm(length)} x {mm(width)} sheet"
    needs = f"a sheet of at least {mm(part.cut[0] + 2 * SHEET_TRIM_MM)} x {mm(part.cut[1] + 2 * SHEET_TRIM_MM)}"
    if _comes_out(part, stock.sheet, stock):
        return Spot(
            severity="warning", parts=(part,),
            what=f"{size}{grain}, comes out of {sheet} only if its edges are as good as sawn: nothing is left for a "
                 f"trim of {mm(SHEET_TRIM_MM)} a side",
            mend=f"look at the sheet's own edges first, or use {needs}", source=f"{COMMON}, for the trim",
        )  # fmt: skip
    turned = (
        f"let its grain run the other way, {mm(part.cut[1])} along it, "
        if _keeps_grain(part, stock) and _comes_out(part, (most[1], most[0]), stock)
        else ""
    )
    return Spot(
        severity="fault", parts=(part,),
        what=f"{size}{grain}, does not come out of {sheet}: {mm(most[0])} x {mm(most[1])} is the most after a trim of "
             f"{mm(SHEET_TRIM_MM)} a side",
        mend=f"use {needs}, {turned}join it from two boards, or make it {mm(most[0])} x {mm(most[1])} or less",
        source=f"arithmetic; the trim: {COMMON}",
    )  # fmt: skip


CHECK = Check(code=CODE, title="Larger than its sheet", look=look)
