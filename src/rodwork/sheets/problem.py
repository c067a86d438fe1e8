"""What is to be laid out on what, in whole tenths of a millimetre: the exact model that the search works on.

The saw cut is added once to every piece and every sheet (w + k, h + k; W - trims + k): between two pieces that touch
there is then exactly one cut, and the cut itself needs no further thought. Exact for cuts right across the piece.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

UPRIGHT, LEVEL = 1, 2  # cuts that part what lies side by side, and what lies one above the other
LOOSE = 3  # no cuts right across: a router goes round each part


class CannotCut(ValueError):  # noqa: N818 - it is said of the job, not of the programme
    """A list that no layout exists for: what is wrong and what would mend it, in words."""

    def __init__(self, what: str, mend: str) -> None:
        super().__init__(f"{what}. {mend}")
        self.what = what
        self.mend = mend


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A part to saw out, or several that are sawn out as one and parted afterwards, in this order (`inner`, `run`).

    `wide` runs along the sheet's length and so along its grain. `together`: pieces that name the same lie on one sheet.
    """

    name: str
    wide: int
    high: int
    turn: bool = False
    together: str = ""
    inner: tuple["Piece", ...] = ()
    run: int = UPRIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A size of sheet: what is left of it within its trims, its cost, and how many there are (None: any number)."""

    name: str
    wide: int
    high: int
    cost: int
    copies: int | None = None
    own: bool = False  # an offcut that the shop has


@dataclass(frozen=True, slots=True, kw_only=True)
class Rules:
    """What the saw takes and can do. `levels` 0: any number; `first` 0: the first cut may go either way.

    `longest`: the longest cut it can make, 0: any. `offcut`: short and long side of the least leftover worth keeping.
    """

    kerf: int = 0
    levels: int = 0
    first: int = 0
    longest: int = 0
    offcut: tuple[int, int] = (2000, 6000)


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Pieces of one board, the sheets of it that there are, and the saw."""

    pieces: tuple[Piece, ...]
    kinds: tuple[Kind, ...]
    rules: Rules


@dataclass(frozen=True, slots=True, kw_only=True)
class Tree:
    """A rectangle of a sheet, one saw cut larger each way than it is; `piece`: place in the problem, None: free.

    Where it has children they divide it, by cuts of this way, in this order; where they are LOOSE they have places.
    """

    wide: int
    high: int
    cut: int = 0
    children: tuple["Tree", ...] = ()
    piece: int | None = None
    turned: bool = False
    x: int = 0
    y: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """All pieces on sheets: (kind, tree) of each. `bound`: no layout can cost less; `steps`: how many were taken."""

    sheets: tuple[tuple[int, Tree], ...]
    cost: int
    bound: int
    steps: int = 0

    @property
    def proven(self) -> bool:
        """Whether nothing cheaper is possible."""
        return self.cost <= self.bound


def _always() -> bool:
    return True


def _in_silence(laid: Laid) -> None:
    """Say nothing of the progress."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Effort:
    """How long to search: at most so many steps, and while `go_on` says so. One seed and number: one layout."""

    steps: int = 20_000
    polish: int = 2_000
    seed: int = 1
    go_on: Callable[[], bool] = field(default=_always)
    tell: Callable[[Laid], None] = field(default=_in_silence)


def check(problem: Problem) -> None:
    """Raises CannotCut where no layout can exist whatever the search does."""
    if not problem.kinds:
        raise CannotCut("there is no sheet to cut from", "Write a sheet or an offcut for this board")
    if problem.rules.kerf < 0:
        raise CannotCut("a saw cut cannot be less than nothing", "Write what the blade takes, such as 3")
    for piece in problem.pieces:
        if piece.wide <= 0 or piece.high <= 0:
            raise CannotCut(f"{piece.name} has no size", "Look at its length and width")
        if not any(fits(piece, kind) for kind in problem.kinds):
            raise CannotCut(*_too_large(piece, problem.kinds))


def fits(piece: Piece, kind: Kind) -> bool:
    """Whether a piece alone can be sawn out of a sheet, in a way that its grain allows."""
    if piece.wide <= kind.wide and piece.high <= kind.high:
        return True
    return piece.turn and piece.high <= kind.wide and piece.wide <= kind.high


def _too_large(piece: Piece, kinds: tuple[Kind, ...]) -> tuple[str, str]:
    largest = max(kinds, key=lambda k: k.wide * k.high)
    size = f"{piece.wide / 10:g} x {piece.high / 10:g}"
    what = f"{piece.name} is {size} and no sheet is as large: the largest leaves {_size(largest)} inside its trims"
    turned = any(piece.high <= k.wide and piece.wide <= k.high for k in kinds)
    if turned:
        return what, "It would fit across the grain: let it be turned, or buy a sheet whose grain runs the other way"
    long, short = max(piece.wide, piece.high) / 10, min(piece.wide, piece.high) / 10
    return what, f"Take a sheet of at least {long:g} x {short:g} inside its trims, or make it of two parts"


def _size(kind: Kind) -> str:
    return f"{kind.wide / 10:g} x {kind.high / 10:g}"
