"""What the maker wants, resolved: shop defaults, job, cabinet and joint are settled before this is made.

All lengths are mm. Nothing here is optional for want of a default: None always means something, and the
comment beside it says what.
"""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal

from rodwork.model.alcove import Alcove
from rodwork.model.clothes_rail import ClothesRailAsked
from rodwork.model.costing import ShopFigures
from rodwork.model.demand import Contents, Declared, Hanging, Room, SagLimits, Tested, Wall
from rodwork.model.drilled_sides import DrilledSides
from rodwork.model.finish import Finish
from rodwork.model.footing import FeetStyle
from rodwork.model.fronts import BlindEnd, Doors, Drawers, FaceFrame
from rodwork.model.lipping import Lipping
from rodwork.model.measured import MeasuredBoard
from rodwork.model.own_family import OwnFamily
from rodwork.model.sawing import Sawing
from rodwork.model.shop import Shop
from rodwork.model.stiffener import StiffenersAsked
from rodwork.model.survey import Survey

if TYPE_CHECKING:  # which itself knows places and recipes
    from rodwork.model.run_asked import RunAsked

Rest = Literal["rest"]
BackStyle = Literal[
    "grooved all round", "grooved in the sides", "rebated", "rebated in the sides", "planted", "inset"
]  # fmt: skip
Corners = Literal["through", "between", "under the top", "mitred"]
SideTops = Literal["square", "high side bevelled", "bevelled"]
Kind = Literal["wall", "base", "tall", "wardrobe", "bookcase", "under slope", "open box"]
NO_WORKTOP_OVER: tuple[Kind, ...] = ("tall", "wall", "wardrobe")
EdgedPlace = Literal[
    "fronts", "shelf fronts", "side tops", "side bottoms", "top and bottom ends", "doors", "drawer fronts"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where in the job file a value stands: the path to it, as written."""

    path: tuple[str | int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A sheet material. `actual` is the measured thickness; all geometry uses it."""

    name: str
    material: str
    thickness_mm: float
    actual_mm: float
    sheet_mm: tuple[float, float]
    grain: bool
    price: str | None  # None: not entered
    density_kg_m3: float | None  # None: not known to the catalogue nor entered
    grade: str | None = None  # None: as the catalogue takes that material
    declared: Declared | None = None  # None: nothing entered


@dataclass(frozen=True, slots=True, kw_only=True)
class Edging:
    """An edging: what it adds at an edge, and what the bander mills off first."""

    name: str
    thickness_mm: float
    adds_mm: float
    mills_mm: float
    price_per_m: str | None  # None: not entered
    lipping: Lipping | None = None  # None: tape, bought by the metre


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """One family in a recipe, with its settings (the frozen Settings of that joint kind)."""

    family: str
    settings: Any = field(hash=False)
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """How one kind of corner or shelf is joined; it may mix families."""

    name: str
    uses: tuple[Use, ...]
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Appliance:
    """An appliance by its maker's sheet, mm: its size, and what its opening is larger by, in all and above it.

    `behind_mm` is free depth that it wants behind it; `vented`: the back is cut out behind it.
    """

    name: str
    width_mm: float
    height_mm: float
    depth_mm: float
    beside_mm: float
    above_mm: float
    behind_mm: float
    vented: bool

    @property
    def opening_mm(self) -> tuple[float, float]:
        """(clear width, clear height) of the opening that it stands in."""
        return self.width_mm + self.beside_mm, self.height_mm + self.above_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Housed:
    """An appliance in an opening of a cabinet, counted from the bottom, from 1."""

    appliance: Appliance
    opening: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BackCutOut:
    """A cut-out in the back, in cabinet axes: (across, up) of its lower left and upper right corner.

    `out_mm`: how far before the back of the carcass drawers must end, for what stands behind it.
    """

    what: str
    low_mm: tuple[float, float]
    high_mm: tuple[float, float]
    out_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Back:
    """The back: its board and style, the void behind it, its clearance (None: the style's own).

    `void_mm` is measured from the back face of the back to the back of the carcass.
    """

    board: str
    style: BackStyle
    void_mm: float
    depth_mm: float | None  # groove depth, or how far a rebate goes into the board; None: the style's own
    clearance_mm: float | None
    grain: Literal["up", "across"] | None  # None: up, or across where it comes out of its sheet only so
    joint: Recipe | None  # None: the style's own fixing
    cut_outs: tuple[BackCutOut, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Pins:
    """Shelf-pin bores in rows: a grid of `pitch_mm` that starts `start_mm` from the bottom end."""

    diameter_mm: float = 5.0
    depth_mm: float | None = None  # None: 12, or less where that leaves too little board
    front_mm: float = 37.0
    back_mm: float = 37.0
    start_mm: float = 24.0
    pitch_mm: float = 32.0
    holes: int = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Rails:
    """Rails across between the sides, mm: widths of those in place of a top, the height of one to fix through.

    `flat`: the top rails lie; else they stand on edge. `behind_back`: the fixing rail stands in the void.
    """

    front_mm: float | None  # None: there is none
    back_mm: float | None
    fixing_mm: float | None
    flat: bool = True
    behind_back: bool = False

    @property
    def instead_of_top(self) -> bool:
        """Whether there is no full top."""
        return self.front_mm is not None or self.back_mm is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Feet:
    """What a cabinet stands on, mm: `set_back` from its front to the plinth board; `lower`: that board than the legs.

    `plinth`: it has a plinth board of its own, where its run has none.
    """

    style: FeetStyle
    height_mm: float
    set_back_mm: float
    board: str
    joint: Recipe | None  # None: as the corners
    lower_mm: float = 4.0
    plinth: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofAsked:
    """The slope that a cabinet stands under: its low side's outside height, or the slope against the level.

    `side_tops`: cut square and flush with the top inside, or bevelled to the slope, both or the high one alone.
    """

    falls: Literal["left", "right"]
    low_mm: float | None  # None: by the degrees
    degrees: float | None  # None: by the low side
    joint: Recipe
    side_tops: SideTops = "square"


@dataclass(frozen=True, slots=True, kw_only=True)
class CabinetEdging:
    """Which edging goes on which edges."""

    edging: str
    on: tuple[EdgedPlace, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class InBay:
    """What stands in one bay: its clear heights from the bottom, and how many loose shelves in each.

    `openings`: clear heights between fixed shelves; "rest" shares what is left; one entry: no fixed shelf.
    """

    openings: tuple[float | Rest, ...]
    loose_shelves: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartDividers:
    """Part-height dividers of one opening (from 1), in these `bays` (from 1; none named: all).

    `widths`: clear widths between them from the left; "rest" shares what is left. `path`: where they stand in the file.
    """

    opening: int
    widths: tuple[float | Rest, ...]
    bays: tuple[int, ...]
    path: tuple[str | int, ...]

    def in_bay(self, number: int) -> bool:
        """Whether this bay has them."""
        return not self.bays or number in self.bays


@dataclass(frozen=True, slots=True, kw_only=True)
class Cabinet:
    """One cabinet entry. `width`, `height`, `depth`: outside sizes of the carcass, back and edging included.

    `bays`: clear widths between dividers, left to right; "rest" shares what is left; one entry: no divider.
    `in_bays`: what stands in each of them; `by_bay`: the job file says it bay by bay. `by_run`: its width is what its
    run leaves for it, and is nought until the run has shared it out.
    """

    name: str
    mark: str
    kind: Kind
    count: int
    width_mm: float
    height_mm: float
    depth_mm: float
    board: str
    shelf_board: str
    sides: Corners
    corner_joint: Recipe
    shelf_joint: Recipe
    divider_joint: Recipe
    back: Back | None  # None: open at the back
    bays: tuple[float | Rest, ...]
    in_bays: tuple[InBay, ...]
    shelf_set_back_mm: float
    pins: Pins
    edging: CabinetEdging | None  # None: no edge is edged
    contents: Contents | None  # None: not said
    notes: str | None
    place: Place
    hanging: Hanging | None = None  # None: it stands
    room: Room = "heated"
    sag: SagLimits = field(default_factory=SagLimits)
    doors: tuple[Doors, ...] = ()  # nothing: open at the front
    drawers: tuple[Drawers, ...] = ()
    alcove: Alcove | None = None  # None: it stands in no surveyed opening
    blind: BlindEnd | None = None  # None: its whole front is open
    face_frame: FaceFrame | None = None  # None: fronts lie on the carcass itself
    houses: tuple[Housed, ...] = ()
    finish: Finish | None = None  # None: not said, or none that adds to a size
    rails: Rails | None = None  # None: a full top, and none to fix through
    rail_joint: Recipe | None = None  # None: as the corners
    feet: Feet | None = None  # None: it stands on its sides, or hangs
    part_dividers: tuple[PartDividers, ...] = ()
    by_bay: bool = False
    by_run: bool = False
    on_grid: bool = False  # its fronts are whole modules of the system holes, less the gap
    drilled: DrilledSides | None = None  # None: its sides are made for it
    roof: RoofAsked | None = None  # None: its top is level
    clothes_rails: tuple[ClothesRailAsked, ...] = ()
    stiffeners: StiffenersAsked | None = None  # None: no shelf has one

    def openings_path(self, bay: int) -> tuple[str | int, ...]:
        """Where the clear heights of a bay (from 0) stand in the job file."""
        return (*self.place.path, "openings", *((bay,) if self.by_bay else ()))

    @property
    def toe_mm(self) -> float:
        """How far its bottom is raised above the ends of its sides, mm."""
        return self.feet.height_mm if self.feet is not None and self.feet.style == "notched sides" else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """The whole job as the maker wants it."""

    name: str
    letter: str
    date: str | None
    customer: str | None
    address: str | None
    notes: str | None
    currency: str
    units: Literal["mm", "in"]
    paper: Literal["A4", "Letter"]
    shop: Shop
    boards: dict[str, Board] = field(hash=False)
    edgings: dict[str, Edging] = field(hash=False)
    cabinets: tuple[Cabinet, ...]
    walls: dict[str, Wall] = field(default_factory=dict, hash=False)
    tested: dict[str, Tested] = field(default_factory=dict, hash=False)
    recipes: dict[str, Recipe] = field(default_factory=dict, hash=False)
    figures: ShopFigures = field(default_factory=ShopFigures)
    own_families: dict[str, OwnFamily] = field(default_factory=dict, hash=False)
    sawing: Sawing = field(default_factory=Sawing)
    measured: tuple[MeasuredBoard, ...] = ()
    surveys: dict[str, Survey] = field(default_factory=dict, hash=False)
    runs: tuple["RunAsked", ...] = ()


class CannotBuild(Exception):  # noqa: N818 - it is a finding about the job, not a fault of ours
    """Something the maker asked for that no carcass can be made from.

    `path` is the place in the job file, `what` is wrong there, `mend` how to put it right with numbers.
    """

    def __init__(self, path: tuple[str | int, ...], what: str, mend: str) -> None:
        super().__init__(what)
        self.path = path
        self.what = what
        self.mend = mend
