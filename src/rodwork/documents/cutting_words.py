"""The cutting plan in words: what the terminal, the pages and the spreadsheet say of it, once."""

from collections.abc import Iterator

from rodwork.documents.annotate import figure, listed, setting
from rodwork.documents.masses import carried_by
from rodwork.model.cutting import BoardPlan, Cut, CutSheet, CuttingPlan, SizingSet

CUT_COLUMNS = ("no.", "piece in hand", "cut", "set to", "gives", "stays in hand")
TOGETHER = 12  # marks named in a row before the rest are counted


def sheet_title(sheet: CutSheet) -> str:
    """Sheet 3, or Sheets 3 and 4, cut alike."""
    if len(sheet.numbers) == 1:
        return f"{'Offcut' if sheet.offcut else 'Sheet'} {sheet.numbers[0]}"
    return f"{'Offcuts' if sheet.offcut else 'Sheets'} {listed([str(n) for n in sheet.numbers])}, cut alike"


def stock_words(sheet: CutSheet) -> str:
    """What it is cut from: 2440 × 1220, or the name of the offcut with its size."""
    size = f"{figure(sheet.size[0])} × {figure(sheet.size[1])}"
    if sheet.offcut:
        return f"own offcut {sheet.stock}, {size}"
    return size if sheet.stock == "sheet" else f"{sheet.stock}, {size}"


def lifting_words(sheet: CutSheet) -> str:
    """Who lifts it: the last cut at which the piece in hand is more than one person's."""
    heavy = [cut.number for cut in sheet.cuts if cut.people > 1]
    if sheet.kg is None:
        return "its weight is not known: weigh before you lift"
    kg = f"{sheet.kg:.0f} kg"
    if not heavy:
        return kg
    return f"{kg}: {carried_by(sheet.kg)}, as far as cut {heavy[-1]}"


def cut_words(cut: Cut) -> str:
    """Which way the blade runs."""
    if cut.kind == "trim":
        return f"trim, {cut.run}"
    return f"{cut.run}{', to break it down' if cut.kind == 'break down' else ''}"


def cut_cells(cut: Cut) -> tuple[str, ...]:
    """One cut, by CUT_COLUMNS."""
    notes = ["longer than the rail"] if cut.long else []
    notes += ["two people"] if cut.people > 1 else []
    stays = "; ".join(w for w in (cut.rest, *notes) if w)
    shown = f"take off {figure(cut.setting)}" if cut.kind == "trim" else setting(cut.setting)
    return (
        str(cut.number),
        cut.piece,
        cut_words(cut),
        f"{shown} (as before)" if cut.again else shown,
        cut.gives,
        stays,
    )


def kept_words(sheet: CutSheet) -> str:
    """The offcuts worth keeping, with their sizes."""
    kept = [f"{x.name} {figure(round(x.length, 1))} × {figure(round(x.width, 1))}" for x in sheet.leftovers if x.kept]
    return listed(kept)


def proven_words(plan: BoardPlan) -> str:
    """What is proven, and nothing more."""
    if plan.proven:
        only = plan.least is not None
        return "no fewer sheets are possible" if only else "no cheaper choice of sheets is possible"
    if plan.least is not None and plan.least < plan.count:
        return f"{plan.least} might be possible, {plan.count} is what was found"
    return "cheaper may be possible; it was not found"


def total_words(plan: BoardPlan, currency: str) -> str:
    """Sheets, share used, cost."""
    bought = sum(plan.bought.values())
    own = plan.count - bought
    sheets = f"{bought} {'sheet' if bought == 1 else 'sheets'}"
    if own:
        sheets += f" and {own} of the shop's {'offcuts' if own > 1 else 'offcut'}"
    cost = "not priced" if plan.cost is None else f"{plan.cost:.2f} {currency}".strip()
    return f"{sheets}, {used_words(plan)}, {cost}; {proven_words(plan)}"


def used_words(plan: BoardPlan) -> str:
    """The yield, with what it is of."""
    return f"{plan.used_m2:.2f} of {plan.bought_m2:.2f} m² used ({100 * plan.used_share:.0f} %)"


def sizing_cells(sizing: SizingSet) -> tuple[str, str, str]:
    """One stop for parts that were broken down over size."""
    marks = sizing.marks[:TOGETHER]
    more = len(sizing.marks) - len(marks)
    return (f"to {sizing.way}", setting(sizing.setting), ", ".join(marks) + (f" and {more} more" if more else ""))


def saw_words(plan: CuttingPlan) -> str:
    """The saw and how the plan was made for it."""
    saw = plan.saw
    words = [saw.kind, f"{'gap' if saw.kind == 'router' else 'saw cut'} {figure(saw.kerf)}"]
    if saw.levels and saw.kind != "router":
        words.append(f"at most {saw.levels} changes of the way of cutting")
    if any(saw.trim):
        trims = dict.fromkeys(figure(t) for t in saw.trim)
        words.append(f"new sheets trimmed by {'/'.join(trims)}")
    if saw.rough:
        words.append(f"broken down {figure(saw.rough)} over size")
    return ", ".join(words)


def cut_rows(plan: CuttingPlan) -> Iterator[tuple[str | int | float, ...]]:
    """Every cut as plain values: board, sheets, number, kind, piece, run, setting, gives, rest, length, people."""
    for board in plan.boards:
        for sheet in board.sheets:
            for c in sheet.cuts:
                yield (
                    board.board, " ".join(map(str, sheet.numbers)), c.number, c.kind, c.piece, c.run,
                    round(c.setting, 2), c.gives, c.rest, round(c.length, 1), c.people,
                )  # fmt: skip


CUT_HEADER = (
    "board", "sheets", "cut", "kind", "piece in hand", "blade runs", "set to", "gives", "stays in hand", "length",
    "people",
)  # fmt: skip


def place_rows(plan: CuttingPlan) -> Iterator[tuple[str | int | float, ...]]:
    """Every board and leftover with its place on its sheet, as plain values."""
    for board in plan.boards:
        for sheet in board.sheets:
            for n, number in enumerate(sheet.numbers):
                for s in sheet.sawn:
                    yield (
                        board.board, number, s.marks[n], s.name, round(s.x, 2), round(s.y, 2), s.length, s.width,
                        "across the sheet" if s.turned else "along the sheet",
                    )  # fmt: skip
                for left in sheet.leftovers:
                    what = "offcut to keep" if left.kept else "waste"
                    yield (
                        board.board, number, left.name, what, round(left.x, 2), round(left.y, 2), left.length,
                        left.width, "",
                    )  # fmt: skip


PLACE_HEADER = ("board", "sheet", "mark", "what", "x", "y", "along the sheet", "across it", "its length lies")
