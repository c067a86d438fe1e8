"""The buying list: sheets, metres of edging, and dowels, screws and pins by the box."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from math import ceil

from rodwork.documents.cutting_list import cutting_rows
from rodwork.documents.figures import mass_text, size_text
from rodwork.documents.masses import TWO_PEOPLE_KG, carried_by
from rodwork.documents.page import Page, body
from rodwork.documents.tables import Block, Column, band, closed, flow, gap, heading, paragraph, rows
from rodwork.model.cutting import BoardPlan, CuttingPlan
from rodwork.model.rod import Rod
from rodwork.model.slope import edge_length
from rodwork.model.surface import EDGES

# Starting values, to be overwritten by the shop's own. Common practice, no source: waste, ends, edging, spare, boxes.
WASTE = Decimal("0.15")
EDGING_END_MM = Decimal(50)
EDGING_SPARE = Decimal("0.10")
SPARE_PERCENT = 5
BOXES: tuple[tuple[str, int], ...] = (
    ("dowel", 100), ("screw", 200), ("shelf pin", 50), ("panel pin", 500), ("plug", 100), ("cap", 100),
)  # fmt: skip

# What is used up or lost at the bench has a spare. All else is a fitting: as many as there are places for it.
SPARED = (
    "dowel ", "screw ", "carcass screw ", "pocket screw ", "nail ", "panel pin ", "shelf pin ", "plug ", "cap ",
    "cover cap ", "biscuit ", "loose tenon ",
)  # fmt: skip

_MM2_PER_M2 = Decimal(1_000_000)
_MM_PER_M = Decimal(1000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Money:
    """An amount and its currency."""

    amount: Decimal
    currency: str

    @property
    def text(self) -> str:
        """The amount to the penny with its currency."""
        return f"{self.amount:.2f} {self.currency}".strip()


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingRow:
    """One thing to buy. `needed` is what the job takes, `spare` what is allowed on top, both in `unit`.

    `buy` so many of `by` ("sheet", "m", "box of 100"); `price` is for all of them, None where none was entered.
    """

    group: str
    item: str
    needed: Decimal
    unit: str
    reckoning: str
    buy: int
    by: str
    price: Money | None


def buying_rows(rod: Rod, plan: CuttingPlan | None = None) -> tuple[BuyingRow, ...]:
    """Everything the job takes: boards, edging, fittings; sheets as the cutting plan counts them if there is one."""
    planned = {board.board: board for board in plan.boards} if plan else {}
    return (*_boards(rod, planned), *_edgings(rod), *_fittings(rod))


def totals(buying: tuple[BuyingRow, ...]) -> tuple[Money, ...]:
    """What is priced, added up: one sum for each currency."""
    sums: dict[str, Decimal] = {}
    for row in buying:
        if row.price:
            sums[row.price.currency] = sums.get(row.price.currency, Decimal(0)) + row.price.amount
    return tuple(Money(amount=a, currency=c) for c, a in sums.items())


def money(text: str | None) -> Money | None:
    """A price as entered, such as "64.00 GBP". Raises ValueError where it is no amount."""
    if text is None or not text.strip():
        return None
    written, _, currency = text.strip().partition(" ")
    try:
        amount = Decimal(written)
    except InvalidOperation:
        amount = Decimal("NaN")
    if not amount.is_finite() or amount < 0:
        raise ValueError(f"{text!r} is no price: write it as 64.00 GBP")
    return Money(amount=amount, currency=currency.strip())


def _times(price: Money | None, count: int) -> Money | None:
    return None if price is None else Money(amount=price.amount * count, currency=price.currency)


def _boards(rod: Rod, planned: Mapping[str, BoardPlan]) -> tuple[BuyingRow, ...]:
    found: list[BuyingRow] = []
    sawn = cutting_rows(rod)
    for name, stock in rod.boards.items():
        area = sum((_area_mm2(r.cut) * r.count for r in sawn if r.board == name), Decimal(0))
        if not area:
            continue
        if name in planned:
            found += _planned(rod, name, planned[name], area)
            continue
        usable = _area_mm2(stock.sheet) * (1 - WASTE)
        sheet = " × ".join(size_text(v) for v in stock.sheet)
        count = ceil(area / usable)
        found.append(
            BuyingRow(
                group="Boards",
                item=f"{name}: {stock.material}, {size_text(stock.thickness)} thick, sheet {sheet}",
                needed=round(area / _MM2_PER_M2, 2),
                unit="m²",
                reckoning=f"{area / _MM2_PER_M2:.2f} m² of boards; {usable / _MM2_PER_M2:.2f} m² reckoned of a sheet",
                buy=count,
                by="sheet",
                price=_times(money(stock.price), count),
            )
        )
    return tuple(found)


def _planned(rod: Rod, name: str, plan: BoardPlan, area: Decimal) -> Iterator[BuyingRow]:
    """A row for each size of sheet that the cutting plan takes; offcuts of the shop are not bought."""
    stock = rod.boards[name]
    others = {s.name: s for s in rod.sawing.stock if s.board == name}
    for size_name, count in plan.bought.items():
        other = others.get(size_name)
        size, price = (other.size, other.price) if other else (stock.sheet, stock.price)
        sheet = " × ".join(size_text(v) for v in size)
        yield BuyingRow(
            group="Boards",
            item=f"{name}: {stock.material}, {size_text(stock.thickness)} thick, sheet {sheet}",
            needed=round(area / _MM2_PER_M2, 2),
            unit="m²",
            reckoning=f"as the cutting plan has them, {100 * plan.used_share:.0f} % used",
            buy=count,
            by="sheet",
            price=_times(money(price), count),
        )


def _area_mm2(size: tuple[float, float]) -> Decimal:
    return Decimal(str(size[0])) * Decimal(str(size[1]))


def _edgings(rod: Rod) -> tuple[BuyingRow, ...]:
    edges: dict[str, list[Decimal]] = {}
    for cabinet in rod.cabinets:
        for part in cabinet.parts:
            for surface in EDGES:
                if part.edging_name and part.edging.at(surface):
                    run = Decimal(str(edge_length(part, surface)))
                    edges.setdefault(part.edging_name, []).extend([run] * len(part.marks))
    found = []
    for name, runs in edges.items():
        if (stock := rod.edgings.get(name)) is not None and stock.lipping is not None:
            continue  # its strips are boards
        net = sum(runs, Decimal(0))
        metres = ceil((net + 2 * EDGING_END_MM * len(runs)) * (1 + EDGING_SPARE) / _MM_PER_M)
        thick = f", {size_text(stock.thickness)} thick" if stock else ""
        found.append(
            BuyingRow(
                group="Edging",
                item=f"{name} edging{thick}",
                needed=round(net / _MM_PER_M, 2),
                unit="m",
                reckoning=f"{len(runs)} edges, {net / _MM_PER_M:.2f} m; {EDGING_END_MM} over each end, then 10 %",
                buy=metres,
                by="m",
                price=_times(money(stock.price_per_m) if stock else None, metres),
            )
        )
    return tuple(found)


def _fittings(rod: Rod) -> tuple[BuyingRow, ...]:
    items: Counter[str] = Counter()
    for cabinet in rod.cabinets:
        for item in cabinet.hardware:
            items[item.item] += item.count * cabinet.count
        for fixing in (f for joint in cabinet.joints for f in joint.fixings):
            for item in fixing.hardware:
                items[item.item] += item.count * cabinet.count
    return tuple(_fitting(item, count) for item, count in sorted(items.items()) if count)


def _fitting(item: str, count: int) -> BuyingRow:
    spare = SPARE_PERCENT if item.lower().startswith(SPARED) else 0
    with_spare = -(-count * (100 + spare) // 100)
    box = next((size for word, size in BOXES if word in item.lower()), 1)
    return BuyingRow(
        group="Dowels, screws and fittings",
        item=item,
        needed=Decimal(count),
        unit="pieces",
        reckoning=f"{count} and {spare} % spare: {with_spare}" if spare else f"{count}, nothing over",
        buy=-(-with_spare // box),
        by=f"box of {box}" if box > 1 else "piece",
        price=None,
    )


# the page ----------------------------------------------------------------------------------------------------

_UNDER = "For the whole job. Strike out what the shop has. Boxes, waste and spares are starting values."
_PAIR = "pair of "
_BY_AREA = (
    f"Sheets are at least so many, by area alone, with {WASTE:.0%} allowed for saw cuts, trim and offcuts. "
    "The cutting plan decides: long boards and grain may need more. Measure every sheet when it comes."
)


def buying_list_pages(rod: Rod, plan: CuttingPlan | None = None) -> tuple[Page, ...]:
    """The list, with a box to tick at each row and what is priced added up."""
    area = body(rod.heading.paper, landscape=True)
    columns = _columns(area.width)
    buying = buying_rows(rod, plan)
    all_planned = plan is not None and {b.board for b in plan.boards} >= {
        p.board for c in rod.cabinets for p in c.parts if not p.bought
    }
    blocks: list[Block] = []
    group = ""
    for row in buying:
        if row.group != group:
            blocks += [gap(4.0)] if group else []
            blocks += [band("Boards, at least" if row.group == "Boards" and not all_planned else row.group, area.width)]
            blocks.append(gap(1.0, keep=True))
            group = row.group
        blocks += rows(columns, _cells(row), least=11.5, most=60.0, tick=0)
        if group == "Boards" and not all_planned:
            blocks += _after_boards(row, buying, area.width)
    told = (*_sum(buying, area.width), *_glue(rod, area.width))
    pages = flow(closed(blocks, gap(3.0), *told) if blocks and told else blocks, area, heading(columns))
    return tuple(Page(kind="buying list", title="Buying list", under=_UNDER, shapes=shapes) for shapes in pages)


def _columns(width: float) -> tuple[Column, ...]:
    fixed = (
        Column(title="have", width=9.0),
        Column(title="buy", width=22.0, size=7.0, bold=True, anchor="end"),
        Column(title="", width=29.0, size=4.2, bold=True),
        Column(title="reckoned from", width=82.0, size=3.8),
        Column(title="price", width=32.0, size=4.2, anchor="end"),
    )
    rest = width - sum(c.width for c in fixed)
    return (*fixed[:3], Column(title="of", width=rest, size=4.2), *fixed[3:])


def _cells(row: BuyingRow) -> tuple[str, ...]:
    by, item = row.by, row.item
    if by == "piece" and item.startswith(_PAIR):
        by, item = "pair", item.removeprefix(_PAIR)
    if row.buy != 1 and by != "m":
        by = by.replace("box", "boxes") if by.startswith("box") else by + "s"
    return ("", str(row.buy), by, item, row.reckoning, row.price.text if row.price else "")


def _after_boards(row: BuyingRow, buying: tuple[BuyingRow, ...], width: float) -> tuple[Block, ...]:
    last = [r for r in buying if r.group == "Boards"][-1]
    return (gap(2.0), paragraph(_BY_AREA, width, size=3.8)) if row is last else ()


def _sum(buying: tuple[BuyingRow, ...], width: float) -> tuple[Block, ...]:
    added = totals(buying)
    if not added:
        return ()
    missing = sum(1 for r in buying if r.price is None)
    rest = "" if not missing else "; 1 line is not priced" if missing == 1 else f"; {missing} lines are not priced"
    text = "Priced so far: " + " + ".join(m.text for m in added) + rest + "."
    return (paragraph(text, width, size=5.0, bold=True),)


def _glue(rod: Rod, width: float) -> tuple[Block, ...]:
    glued = sum(c.count for c in rod.cabinets for j in c.joints if j.glued)
    words = []
    if glued:
        words.append(f"Glue for {glued} joints.")
    for name, stock in rod.boards.items():
        kg = stock.sheet_kg
        if kg and kg > TWO_PEOPLE_KG and any(p.board == name for c in rod.cabinets for p in c.parts):
            words.append(f"A whole sheet of {name} is about {mass_text(kg)}: {carried_by(kg)}.")
    return (paragraph(" ".join(words), width, size=4.0),) if words else ()
