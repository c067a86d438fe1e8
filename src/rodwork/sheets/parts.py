"""From the Rod to pieces: what is sawn out of each board, in tenths of a millimetre, grain along the sheet."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, floor

from rodwork.geometry.rounding import to_step
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.sawing import Matched, Sawing
from rodwork.sheets.problem import LEVEL, UPRIGHT, CannotCut, Piece

TENTHS = 10
NEARLY = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """One board of the job by its mark, with what the plan prints of it. Sizes mm, as it is to be sawn at last."""

    mark: str
    name: str
    cabinet: str
    length: float
    width: float
    may_turn: bool


def up(mm: float) -> int:
    """Tenths of a millimetre, a part never smaller than it should be."""
    return ceil(mm * TENTHS - NEARLY)


def down(mm: float) -> int:
    """Tenths of a millimetre, a sheet never larger than it is."""
    return floor(mm * TENTHS + NEARLY)


def boards_of(rod: Rod, board: str) -> tuple[Board, ...]:
    """Every board to be sawn of one material, cut already and measured ones left out."""
    found = []
    for cabinet in rod.cabinets:
        for part in cabinet.parts:
            if part.board == board and not part.measured and not part.bought:
                found += [_board(rod, cabinet, part, mark) for mark in part.marks]
    return tuple(found)


def _board(rod: Rod, cabinet: RodCabinet, part: Part, mark: str) -> Board:
    """A board with its sizes as the cutting list prints them: a slope leaves some that fall between two steps."""
    sawing = rod.sawing
    length, width = (to_step(mm, rod.step) for mm in part.cut)
    spare = sawing.spare if not sawing.spare_on or part.role in sawing.spare_on else 0.0
    turn = not part.grain or part.role in sawing.may_turn
    copy = mark.partition("-")[0]
    return Board(
        mark=mark, name=part.name, cabinet=copy if cabinet.name in sawing.one_sheet else "",
        length=length + spare, width=width + spare, may_turn=turn,
    )  # fmt: skip


def pieces_of(boards: Iterable[Board], sawing: Sawing) -> tuple[Piece, ...]:
    """The pieces to lay out, matched boards as one. Raises CannotCut where a matched set does not lie in a row."""
    rough = sawing.saw.rough
    single = {
        b.mark: Piece(
            name=b.mark, wide=up(b.length + rough), high=up(b.width + rough), turn=b.may_turn, together=b.cabinet
        )
        for b in boards
    }
    sets = []
    for matched in sawing.matched:
        if any(mark in single for mark in matched.marks):
            sets.append(_set(matched, single, up(sawing.saw.kerf)))
            single = {mark: piece for mark, piece in single.items() if mark not in matched.marks}
    return (*single.values(), *sets)


def _set(matched: Matched, single: dict[str, Piece], kerf: int) -> Piece:
    missing = [mark for mark in matched.marks if mark not in single]
    if missing:
        raise CannotCut(
            f"the matched set {matched.name} names {missing[0]}, which is not among the boards of this material",
            "Name the boards as they stand on the cutting list, each in one set only",
        )
    inner = tuple(single[mark] for mark in matched.marks)
    along = matched.run == "along"
    across = {p.high if along else p.wide for p in inner}
    if len(across) > 1:
        side = "wide" if along else "long"
        raise CannotCut(
            f"the boards of the matched set {matched.name} are not equally {side}",
            f'Matched {matched.run} the grain they must be: write run = "{"across" if along else "along"}", '
            "or leave the odd one out",
        )
    total = sum(p.wide if along else p.high for p in inner) + kerf * (len(inner) - 1)
    return Piece(
        name="+".join(matched.marks), wide=total if along else across.pop(), high=across.pop() if along else total,
        turn=all(p.turn for p in inner), together=inner[0].together, inner=inner, run=UPRIGHT if along else LEVEL,
    )  # fmt: skip
