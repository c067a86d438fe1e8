"""What a cabinet must stand up to, as the maker says it: contents, sag, the wall, and figures from tests.

These values are made by the job's reader and carried unchanged in the Rod. None means that it was not said;
nothing here is made up in its place.
"""

from dataclasses import dataclass
from typing import Literal

from rodwork.model.bracket import BracketSheet

Lasts = Literal["permanent", "long", "medium", "short", "instantaneous"]
Room = Literal["heated", "damp", "wet"]
HangingStyle = Literal["split batten", "fixing rail", "brackets", "screws"]
WallKind = Literal[
    "brick", "dense block", "aerated block", "dot and dab", "lath and plaster", "timber stud", "metal stud",
    "plasterboard", "unknown",
]  # fmt: skip
Basis = Literal["working load", "characteristic", "mean of tests"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """What will stand inside: a use of the catalogue, or a weight in one of three ways; and for how long.

    `kg` is all that one cabinet holds. `heaviest_kg` is one thing that may stand in the middle of any shelf.
    """

    of: str | None = None
    kg_per_m2: float | None = None
    kg_per_m: float | None = None
    kg: float | None = None
    heaviest_kg: float | None = None
    lasts: Lasts = "permanent"


@dataclass(frozen=True, slots=True, kw_only=True)
class SagLimits:
    """How far a shelf may sag: 1 mm in so many, and at most so much."""

    straight_1_in: float = 400.0  # after creep; common practice, no source
    sound_1_in: float = 240.0  # as new; composite panel trade tables, second-hand
    most_mm: float = 6.4  # as new; ANSI/KCMA A161.1, 5.1, second-hand


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """How a cabinet hangs: the style, the wall's name in the job file, so many fixings, how far below its top.

    `batten_mm`: the height of each half of a split batten that is drawn, and the board it is of. `bracket`: the sheet
    of hanging brackets that are drawn.
    """

    style: HangingStyle
    wall: str | None
    fixings: int | None
    from_top_mm: float | None
    batten_mm: float | None = None
    batten_board: str | None = None
    bracket: BracketSheet | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tested:
    """What one fitting or fixing was found to bear: straight out, sideways, against turning; by whose figures.

    `turning_Nmm_per_rad` is what it takes to turn a corner with one of them.
    """

    pull_N: float | None
    shear_N: float | None
    moment_Nmm: float | None
    turning_Nmm_per_rad: float | None = None
    basis: Basis
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """A wall: what it is, the gap behind its board, its stud centres, and what one fixing in it bears."""

    kind: WallKind
    gap_mm: float | None
    studs_mm: float | None
    fixing: Tested | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Declared:
    """What a board's own maker declares of it, N/mm2; it goes before the catalogue."""

    stiffness_N_per_mm2: float | None
    strength_N_per_mm2: float | None
    kdef: float | None
    source: str
