"""The cutting plan: sheets with what is sawn out of them, every cut in order, what is left. Lengths are mm.

Places are from the lower left corner of the sheet as it is bought, x along its length (and so along its grain).
"""

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from rodwork.model.finding import Finding
from rodwork.model.sawing import Run, Saw

CutKind = Literal["trim", "break down", "cut"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sawn:
    """A part on a sheet: its mark on each of the sheets that are sawn alike, and its size as it lies there."""

    marks: tuple[str, ...]
    name: str
    x: float
    y: float
    length: float
    width: float
    turned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Leftover:
    """What is left of a sheet; `kept`: large enough to be worth a place in the rack."""

    name: str
    x: float
    y: float
    length: float
    width: float
    kept: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What the first cuts make of a sheet, to be cut further, by the name it has on paper. `upright`: cut across."""

    name: str
    upright: bool
    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One cut right across a piece, which is as large as `hand` (along the sheet, across it). `setting`: from
    the fence or the edge in hand to the blade: the size of what `gives`.

    `run`: the cut itself runs along or across the sheet; from `start` to `end` on it. `again`: the setting is still
    that of the cut before. `long`: longer than the rail. `people`: hands for the piece in hand, as far as masses are
    known.
    """

    number: int
    kind: CutKind
    piece: str
    hand: tuple[float, float]
    run: Run
    setting: float
    gives: str
    rest: str
    start: tuple[float, float]
    end: tuple[float, float]
    again: bool
    long: bool
    people: int

    @property
    def length(self) -> float:
        """Length of the cut."""
        return abs(self.end[0] - self.start[0]) + abs(self.end[1] - self.start[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSheet:
    """A sheet to cut, or several that are cut alike. `stock`: which size; `size` as it is bought or found."""

    numbers: tuple[int, ...]
    stock: str
    offcut: bool
    size: tuple[float, float]
    kg: float | None
    sawn: tuple[Sawn, ...]
    leftovers: tuple[Leftover, ...]
    strips: tuple[Strip, ...]
    cuts: tuple[Cut, ...]

    @property
    def settings(self) -> int:
        """How often the fence or the rail is set."""
        return sum(1 for cut in self.cuts if not cut.again)


@dataclass(frozen=True, slots=True, kw_only=True)
class SizingSet:
    """Parts broken down over size that are brought to size at one stop: first to width, then to length."""

    way: Literal["width", "length"]
    setting: float
    marks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPlan:
    """How the parts of one board come out of its sheets. Areas are m2, of parts as cut and of all sheets taken.

    `least`: no layout takes fewer sheets (None where sizes and offcuts are mixed); `proven`: nothing cheaper is
    possible. `cost` is of bought sheets; None where a price is not known.
    """

    board: str
    sheets: tuple[CutSheet, ...]
    sizing: tuple[SizingSet, ...]
    least: int | None
    proven: bool
    used_m2: float
    bought_m2: float
    cost: Decimal | None
    steps: int

    @property
    def count(self) -> int:
        """Sheets and offcuts taken."""
        return sum(len(sheet.numbers) for sheet in self.sheets)

    @property
    def bought(self) -> dict[str, int]:
        """How many sheets of each size are bought."""
        found: dict[str, int] = {}
        for sheet in self.sheets:
            if not sheet.offcut:
                found[sheet.stock] = found.get(sheet.stock, 0) + len(sheet.numbers)
        return found

    @property
    def used_share(self) -> float:
        """Area of the parts over the area of the sheets taken."""
        return self.used_m2 / self.bought_m2 if self.bought_m2 else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingPlan:
    """The plan of a job: a part for each board, and what cannot be cut with what would mend it."""

    saw: Saw
    boards: tuple[BoardPlan, ...]
    currency: str
    edging_m: float
    findings: tuple[Finding, ...]

    @property
    def sheet_numbers(self) -> dict[str, int]:
        """The number of the sheet that each board comes from, by its mark; of the last where it was cut anew."""
        return {
            mark: sheet.numbers[n]
            for board in self.boards
            for sheet in board.sheets
            for sawn in sheet.sawn
            for n, mark in enumerate(sawn.marks)
        }
