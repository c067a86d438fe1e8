"""The cutting plan of a job: each board by itself, boards and thicknesses never mixed; then cuts, leftovers, totals."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from decimal import Decimal

from rodwork.model.cutting import BoardPlan, CutSheet, CuttingPlan, Sawn, SizingSet
from rodwork.model.finding import Finding
from rodwork.model.rod import BoardStock, Rod
from rodwork.model.sawing import Saw, StockSheet
from rodwork.model.slope import edge_length
from rodwork.model.surface import EDGES
from rodwork.sheets.but_for_the_saw import but_for_the_saw
from rodwork.sheets.free_layout import free_layout
from rodwork.sheets.lay_out import lay_out
from rodwork.sheets.order import Worked, work_out
from rodwork.sheets.parts import TENTHS, Board, boards_of, down, pieces_of, up
from rodwork.sheets.problem import LEVEL, UPRIGHT, CannotCut, Effort, Kind, Laid, Piece, Problem, Rules, Tree
from rodwork.sheets.tidy import parted, shape, tidy

FIRST = {"either": 0, "along": LEVEL, "across": UPRIGHT}
NO_TRIM = (0.0, 0.0, 0.0, 0.0)
COST_UNITS = 10_000  # of the currency's unit: whole numbers for the search
SHEET = "sheet"  # what a board's own size is called
SOURCE = "arithmetic of the cutting plan"


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far the plan is: which board of how many, and the best so far."""

    board: str
    number: int
    of: int
    sheets: int
    least: int | None
    steps: int


def in_silence(progress: Progress) -> None:
    """Say nothing of the progress."""


def to_the_end(number: int, of: int) -> bool:
    """Never stop, whichever board of how many it is: the steps alone are the limit."""
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """How much work the plan may take for each board: steps, and while `go_on` says so. See problem.Effort."""

    steps: int = 4_000
    polish: int = 1_500
    seed: int = 1
    go_on: Callable[[int, int], bool] = field(default=to_the_end)
    tell: Callable[[Progress], None] = field(default=in_silence)


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A kind of sheet as the plan prints it, beside the one that the search knows."""

    name: str
    size: tuple[float, float]
    offcut: bool
    price: Decimal | None
    kind: Kind


def plan_cutting(rod: Rod, work: Work, saw: Saw | None = None) -> CuttingPlan:
    """The plan of all boards of a Rod; `saw` in place of the job's own. What cannot be cut is a finding."""
    saw = saw or rod.sawing.saw
    sawing = replace(rod.sawing, saw=replace(saw, kerf=up(saw.kerf) / TENTHS))  # as the search reckons it
    rod = replace(rod, sawing=sawing)
    wanted = [(name, boards) for name in rod.boards if (boards := boards_of(rod, name))]
    plans: list[BoardPlan] = []
    findings: list[Finding] = [*_notes(rod)]
    number = 1
    for n, (name, boards) in enumerate(wanted, 1):
        try:
            plan, told = plan_of(rod, name, boards, sources_of(rod, name), number, _effort(work, name, n, len(wanted)))
        except CannotCut as problem:
            findings.append(finding_of(name, problem))
            continue
        findings += told
        plans.append(plan)
        number += plan.count
        findings += _about(plan, sawing.saw)
    return CuttingPlan(
        saw=sawing.saw, boards=tuple(plans), currency=_currency(rod), edging_m=_edging_m(rod), findings=tuple(findings)
    )


def _effort(work: Work, board: str, number: int, of: int) -> Effort:
    def tell(laid: Laid) -> None:
        work.tell(Progress(board=board, number=number, of=of, sheets=len(laid.sheets), least=None, steps=laid.steps))

    return Effort(steps=work.steps, polish=work.polish, seed=work.seed, go_on=lambda: work.go_on(number, of), tell=tell)


# one board ---------------------------------------------------------------------------------------------------


def plan_of(
    rod: Rod, name: str, boards: tuple[Board, ...], sources: tuple[Source, ...], number: int, effort: Effort
) -> tuple[BoardPlan, tuple[Finding, ...]]:
    """The plan of these boards from these sheets, numbered from here, with what there is to say. Raises CannotCut."""
    problem = Problem(
        pieces=pieces_of(boards, rod.sawing), kinds=tuple(source.kind for source in sources), rules=rules_of(rod)
    )
    _narrow(problem, rod.sawing.saw)
    laid = lay_out(problem, effort)
    if rod.sawing.saw.kind == "router":
        laid = free_layout(problem, laid)
    sheets = tuple(_cut_sheets(rod, name, boards, problem, laid, sources, number))
    own_size = len(sources) == 1
    plan = BoardPlan(
        board=name, sheets=sheets, sizing=tuple(_sizing(boards, rod.sawing.saw)),
        least=laid.bound // sources[0].kind.cost if own_size else None, proven=laid.proven,
        used_m2=sum(b.length * b.width for b in boards) * 1e-6,
        bought_m2=sum(s.size[0] * s.size[1] * len(s.numbers) for s in sheets) * 1e-6,
        cost=_cost(laid, sources), steps=laid.steps,
    )  # fmt: skip
    return plan, tuple(about_the_saw(name, problem, laid))


def sources_of(rod: Rod, name: str) -> tuple[Source, ...]:
    """Every size that the board can be cut from: its own sheet, other stock, the shop's offcuts."""
    stock, sawing = rod.boards[name], rod.sawing
    per_mm2 = _per_mm2(stock, [s for s in sawing.stock if s.board == name])
    own = StockSheet(name=SHEET, board=name, size=stock.sheet, price=stock.price, count=None, offcut=False)
    listed = [own] if sawing.buy else []
    listed += [s for s in sawing.stock if s.board == name]
    return tuple(_source(s, sawing.saw, per_mm2, sawing.offcut_share if s.offcut else 1.0) for s in listed)


def _per_mm2(stock: BoardStock, others: list[StockSheet]) -> Decimal:
    """The price of a square millimetre: of the board's own sheet, else of other stock, else any number at all."""
    for size, price in ((stock.sheet, stock.price), *((s.size, s.price) for s in others)):
        if (amount := _amount(price)) is not None and amount > 0:
            return amount / (Decimal(str(size[0])) * Decimal(str(size[1])))
    return Decimal("0.00002")


def _amount(price: str | None) -> Decimal | None:
    return None if price is None else Decimal(price.partition(" ")[0])


def _source(s: StockSheet, saw: Saw, per_mm2: Decimal, share: float) -> Source:
    trim = NO_TRIM if s.offcut else saw.trim
    price = None if s.offcut else _amount(s.price)
    worth = price or per_mm2 * Decimal(str(s.size[0])) * Decimal(str(s.size[1])) * Decimal(str(share))
    wide = down(s.size[0]) - up(trim[0]) - up(trim[1])
    high = down(s.size[1]) - up(trim[2]) - up(trim[3])
    kind = Kind(
        name=s.name, wide=max(wide, 0), high=max(high, 0), cost=max(1, int(worth * COST_UNITS)), copies=s.count,
        own=s.offcut,
    )  # fmt: skip
    return Source(name=s.name, size=s.size, offcut=s.offcut, price=price, kind=kind)


def rules_of(rod: Rod) -> Rules:
    """What the search must know of the saw and of offcuts."""
    saw, sawing = rod.sawing.saw, rod.sawing
    short, long = sawing.least_offcut
    if saw.kind == "router":
        return Rules(kerf=up(saw.kerf), offcut=(up(short), up(long)))
    return Rules(
        kerf=up(saw.kerf), levels=saw.levels or 0, first=FIRST[saw.first],
        longest=0 if saw.longest is None else down(saw.longest), offcut=(up(short), up(long)),
    )  # fmt: skip


def _narrow(problem: Problem, saw: Saw) -> None:
    """Raises CannotCut for a part narrower than the saw can hold."""
    least = up(saw.least_strip)
    for piece in problem.pieces:
        if saw.kind != "router" and min(piece.wide, piece.high) < least:
            raise CannotCut(
                f"{piece.name} is {min(piece.wide, piece.high) / 10:g} wide, and the saw holds nothing under "
                f"{saw.least_strip:g}",
                "Saw it another way, or make it wider with spare and cut it down afterwards",
            )


def _cost(laid: Laid, sources: tuple[Source, ...]) -> Decimal | None:
    """What the bought sheets cost; None where one of them has no price."""
    total = Decimal(0)
    for kind, _ in laid.sheets:
        if not sources[kind].offcut:
            price = sources[kind].price
            if price is None:
                return None
            total += price
    return total


# sheets ------------------------------------------------------------------------------------------------------


def _cut_sheets(
    rod: Rod, name: str, boards: tuple[Board, ...], problem: Problem, laid: Laid, sources: tuple[Source, ...],
    number: int,
) -> Iterator[CutSheet]:  # fmt: skip
    """The sheets in order, those that are cut alike as one entry."""
    named = {board.mark: board.name for board in boards}
    alike: dict[tuple[int, tuple[object, ...]], list[tuple[Tree, tuple[Piece, ...]]]] = {}
    for kind, tree in laid.sheets:
        made, pieces = parted(tidy(tree, problem.pieces), problem.pieces, problem.rules.kerf)
        alike.setdefault((kind, shape(made)), []).append((made, pieces))
    order = sorted(alike.items(), key=lambda item: (sources[item[0][0]].offcut, -len(item[1]), item[0][0]))
    for (kind, _), same in order:
        numbers = tuple(range(number, number + len(same)))
        number += len(same)
        yield _cut_sheet(rod, name, sources[kind], same, numbers, named)


def _cut_sheet(
    rod: Rod, name: str, source: Source, same: list[tuple[Tree, tuple[Piece, ...]]], numbers: tuple[int, ...],
    named: dict[str, str],
) -> CutSheet:  # fmt: skip
    tree, pieces = same[0]
    marks = _marks(same)
    together = tuple(
        replace(piece, name=", ".join(marks[n])) if n in marks else piece for n, piece in enumerate(pieces)
    )
    per_mm2 = rod.boards[name].kg_per_mm2
    saw = rod.sawing.saw
    worked = work_out(
        tree, together, saw, source.size, trimmed=not source.offcut, name="/".join(map(str, numbers)),
        keep=rod.sawing.least_offcut, kg_per_mm2=per_mm2,
    )  # fmt: skip
    return CutSheet(
        numbers=numbers, stock=source.name, offcut=source.offcut, size=source.size,
        kg=None if per_mm2 is None else per_mm2 * source.size[0] * source.size[1],
        sawn=tuple(_sawn(worked, marks, named, saw.kerf)), leftovers=worked.leftovers, strips=worked.strips,
        cuts=() if saw.kind == "router" else worked.cuts,
    )  # fmt: skip


def _marks(same: list[tuple[Tree, tuple[Piece, ...]]]) -> dict[int, tuple[str, ...]]:
    """By piece of the first of the sheets that are cut alike: the marks that lie there on each of them."""
    rows = [[pieces[i].name for i in _pieces_in(tree)] for tree, pieces in same]
    return {i: tuple(row[n] for row in rows) for n, i in enumerate(_pieces_in(same[0][0]))}


def _pieces_in(tree: Tree) -> Iterator[int]:
    if tree.piece is not None:
        yield tree.piece
    for child in tree.children:
        yield from _pieces_in(child)


def _sawn(worked: Worked, marks: dict[int, tuple[str, ...]], named: dict[str, str], kerf: float) -> Iterator[Sawn]:
    for spot in worked.parts:
        here = marks[spot.tree.piece or 0]
        length, width = spot.size(kerf)
        yield Sawn(
            marks=here, name=named[here[0]], x=spot.x, y=spot.y, length=round(length, 4), width=round(width, 4),
            turned=spot.tree.turned,
        )  # fmt: skip


def _sizing(boards: tuple[Board, ...], saw: Saw) -> Iterator[SizingSet]:
    """Where parts are broken down over size: each finished width once, then each length, the largest first."""
    if saw.rough <= 0:
        return
    for way in ("width", "length"):
        stops: dict[float, list[str]] = {}
        for board in boards:
            stops.setdefault(round(board.width if way == "width" else board.length, 3), []).append(board.mark)
        for setting in sorted(stops, reverse=True):
            yield SizingSet(way="width" if way == "width" else "length", setting=setting, marks=tuple(stops[setting]))


# what to put right, totals -----------------------------------------------------------------------------------


def finding_of(board: str, problem: CannotCut) -> Finding:
    """What cannot be cut, as a finding."""
    return Finding(
        severity="fault", code="cannot_be_sawn", cabinet="", where=(board,), message=f"{board}: {problem.what}",
        mend=problem.mend, source=SOURCE,
    )  # fmt: skip


def _notes(rod: Rod) -> Iterator[Finding]:
    saw = rod.sawing.saw
    if saw.kerf == 0:
        yield Finding(
            severity="warning", code="no_kerf", cabinet="", where=(), message="the saw is said to take nothing",
            mend="write kerf = 3, or what your blade takes: a plan without it cannot be cut as drawn", source=SOURCE,
        )  # fmt: skip


def _about(plan: BoardPlan, saw: Saw) -> Iterator[Finding]:
    long = sum(cut.long for sheet in plan.sheets for cut in sheet.cuts)
    if long and saw.rail is not None:
        yield Finding(
            severity="note", code="longer_than_rail", cabinet="", where=(plan.board,),
            message=f"{plan.board}: {long} cuts are longer than the rail of {saw.rail:g}",
            mend="join two rails for them and set them along a straight edge, or move the rail on with care",
            source=SOURCE,
        )  # fmt: skip


def about_the_saw(name: str, problem: Problem, laid: Laid) -> Iterator[Finding]:
    """Whether it is the saw cuts that cost a sheet, and what would mend it."""
    spared = but_for_the_saw(problem, laid)
    if spared is None:
        return
    kerf = problem.rules.kerf / 10
    sheets = "1 sheet" if spared.sheets == 1 else f"{spared.sheets} sheets"
    larger = [f"{mm / 10:g} {way}" for mm, way in ((spared.longer, "longer"), (spared.wider, "wider")) if mm]
    mend = "make the boards smaller by the saw cuts that lie between them"
    if larger:
        mend = f"a sheet {' and '.join(larger)} would do, or boards that are smaller by as much between them"
    yield Finding(
        severity="note", code="but_for_the_saw", cabinet="", where=(name,),
        message=f"{name}: {sheets} would do if the saw took nothing; with cuts of {kerf:g} it takes "
        f"{len(laid.sheets)}, as far as was found",
        mend=mend, source=SOURCE,
    )  # fmt: skip


def _currency(rod: Rod) -> str:
    prices = [b.price for b in rod.boards.values() if b.price]
    return prices[0].partition(" ")[2] if prices else ""


def _edging_m(rod: Rod) -> float:
    """Metres of edging on all boards, as they are; lippings are boards of the plan."""
    return sum(
        edge_length(part, surface) * len(part.marks)
        for cabinet in rod.cabinets
        for part in cabinet.parts
        for surface in EDGES
        if part.edging.at(surface) and rod.edgings[part.edging_name or ""].lipping is None
    ) * 1e-3  # fmt: skip
