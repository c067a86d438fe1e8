"""A layout that is begun, and a board that is spoilt: cut it from what is left, and move nothing that is not cut.

The offcuts that the plan keeps are the stock, then new sheets. What is cut already and what is still to be cut stays
as it is, with its numbers.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from difflib import get_close_matches

from rodwork.model.cutting import BoardPlan, CuttingPlan
from rodwork.model.finding import Finding
from rodwork.model.rod import Rod
from rodwork.model.sawing import StockSheet
from rodwork.sheets.parts import Board, boards_of
from rodwork.sheets.plan import SOURCE, finding_of, plan_of, sources_of
from rodwork.sheets.problem import CannotCut, Effort

STEPS = 2_000
NEXT_TO_NOTHING = 0.01  # share of the price of its area that an offcut of this very job counts


def recut_plan(rod: Rod, plan: CuttingPlan, marks: Sequence[str]) -> CuttingPlan:
    """The plan with what the spoilt boards are cut from added at the end. Marks that are in no plan are findings."""
    rod = replace(rod, sawing=replace(rod.sawing, saw=plan.saw, matched=(), one_sheet=()))
    known = {b.mark: (name, b) for name in rod.boards for b in boards_of(rod, name)}
    findings = [_unknown(mark, known) for mark in marks if mark not in known]
    number = 1 + sum(board.count for board in plan.boards)
    plans = []
    for board in plan.boards:
        spoilt = tuple(known[m][1] for m in dict.fromkeys(marks) if m in known and known[m][0] == board.board)
        made = board
        if spoilt:
            try:
                made = _with(rod, board, spoilt, number)
            except CannotCut as problem:
                findings.append(finding_of(board.board, problem))
        number += made.count - board.count
        plans.append(made)
    return replace(plan, boards=tuple(plans), findings=(*plan.findings, *findings))


def _with(rod: Rod, board: BoardPlan, spoilt: tuple[Board, ...], number: int) -> BoardPlan:
    used_up = {sheet.stock for sheet in board.sheets if sheet.offcut}
    left = tuple(s for s in _left(board) if s.name not in used_up)
    own = tuple(s for s in rod.sawing.stock if not s.offcut)
    sawing = replace(rod.sawing, stock=(*own, *left), offcut_share=NEXT_TO_NOTHING)
    rod = replace(rod, sawing=sawing)
    new, _ = plan_of(rod, board.board, spoilt, sources_of(rod, board.board), number, Effort(steps=STEPS))
    bought = sum(sheet.size[0] * sheet.size[1] * len(sheet.numbers) for sheet in new.sheets if not sheet.offcut)
    return replace(
        board, sheets=(*board.sheets, *new.sheets), least=None, proven=False,
        cost=None if board.cost is None or new.cost is None else board.cost + new.cost,
        used_m2=board.used_m2 + new.used_m2, bought_m2=board.bought_m2 + bought * 1e-6,
    )  # fmt: skip


def _left(board: BoardPlan) -> Iterator[StockSheet]:
    """What the plan keeps, as offcuts of the shop, each with the sheet that it comes from."""
    for sheet in board.sheets:
        for number in sheet.numbers:
            for leftover in sheet.leftovers:
                if leftover.kept:
                    yield StockSheet(
                        name=f"{leftover.name} of sheet {number}", board=board.board,
                        size=(leftover.length, leftover.width), price=None, count=1, offcut=True,
                    )  # fmt: skip


def _unknown(mark: str, known: Iterable[str]) -> Finding:
    near = get_close_matches(mark, list(known), n=1)
    mend = f"did you mean {near[0]}?" if near else "write it as it stands on the cutting list"
    return Finding(
        severity="fault", code="cannot_be_sawn", cabinet="", where=(mark,), message=f"there is no board {mark}",
        mend=mend, source=SOURCE,
    )  # fmt: skip
