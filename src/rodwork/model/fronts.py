"""Doors: what the maker asks of them, and the hinges that hang them, as both halves are bored.

A cup hinge is four figures from its maker's sheet. The door lies over the upright by
overlay = fixed distance + rim (cup to door's edge) - plate (its height); all else follows from the door's margins.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from rodwork.geometry.vec import Vec
from rodwork.model.feature import FeatureRole, Stage

if TYPE_CHECKING:
    from rodwork.model.job import Recipe

MODULE_MM = 32.0  # of the grid of system holes; trade pages on it, and cup hinge plates with two screws

DoorStyle = Literal["overlay", "half overlay", "inset"]
Hung = Literal["left", "right", "pair", "up"]
Grain = Literal["up", "across"]
FrameRails = Literal["between", "through"]
HANDLE_OUT_MM = 35.0  # how far a handle stands out where none is said; common practice, 25 to 40


@dataclass(frozen=True, slots=True, kw_only=True)
class HingeSheet:
    """Cup hinges by the figures of their maker's sheet, mm: the fixed distances and plates that there are."""

    fixed_mm: tuple[float, ...]
    plates_mm: tuple[float, ...]
    least_rim_mm: float = 3.0
    most_rim_mm: float = 8.0
    cup_mm: float = 35.0
    cup_depth_mm: float = 12.5
    line_mm: float = 37.0  # from the carcass's front edge, or an inset door's inside, to the plate's screws
    number: int | None = None  # None: by the door's height and weight


@dataclass(frozen=True, slots=True, kw_only=True)
class BoughtDoor:
    """A door that comes with its cups bored, mm: its size, and where the middles of the cups are."""

    height_mm: float
    width_mm: float
    cups_from_ends_mm: float
    cups_from_edge_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Handle:
    """Bores for a handle: `centres_mm` apart (nought: a knob), so far from the free edge and from the door's end.

    `from_end_mm` None: near the end, or where a hand finds it on a door that ends too high.
    """

    centres_mm: float
    from_edge_mm: float
    from_end_mm: float | None
    diameter_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Doors:
    """Doors of a cabinet, in these `bays` (from 1; none named: all). `hung`: one word for every bay, or one for each.

    `openings`: (first, last), from 1. Margins: `sides_mm` at each outer edge, `ends_mm` above and below, `between_mm`
    between two doors. `path`: where in the job file they stand. `edges_mm`: left and right edge of the front of each
    bay, where their run has settled them; none: by the margins.
    """

    board: str
    style: DoorStyle
    hung: tuple[Hung, ...]
    openings: tuple[int, int]
    sides_mm: float
    ends_mm: float
    between_mm: float
    grain: Grain
    hinge: HingeSheet
    handle: Handle | None  # None: bored on site
    bought: BoughtDoor | None = None  # None: made here, by its margins
    bays: tuple[int, ...] = ()
    path: tuple[str | int, ...] = ()
    edges_mm: tuple[tuple[float, float], ...] = ()

    def in_bay(self, number: int) -> bool:
        """Whether this bay has them."""
        return not self.bays or number in self.bays

    def hung_in(self, number: int, bays: int) -> Hung:
        """How they are hung in this bay of so many."""
        having = [n for n in range(1, bays + 1) if self.in_bay(n)]
        return self.hung[having.index(number) if len(self.hung) == len(having) > 1 else 0]


@dataclass(frozen=True, slots=True, kw_only=True)
class FittingBore:
    """A bore for a hinge or a handle, in cabinet axes: `at` its mouth, `into` the wood.

    `along_from` and `across_from` are the ways in which the two surfaces look that it is set out from.
    """

    panel: str
    id: str
    role: FeatureRole
    at: Vec
    into: Vec
    along_from: Vec
    across_from: Vec
    diameter: float
    depth: float
    tip: float = 0.0
    through: bool = False
    stage: Stage = "after edging"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hinge:
    """One hinge: its bores in the door and in the board that carries it, and what must lie between them as closed.

    `across` is from the carrying face to the middle of the cup, `behind` from the door's inside to the plate's
    line, both mm; along the hinged edge the cup stands half way between the plate's screws. `take_up`: what
    its own screw has to move the door, as the cup was set to a step of the fence or came bored.
    """

    id: str
    door: str
    carrier: str
    cup: str
    plate: tuple[str, ...]
    fixed: float
    overlay: float
    rim: float
    plate_height: float
    across: float
    behind: float
    take_up: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorHung:
    """How one door opens: hinged at its left, right or upper edge; its weight, and the hinges that the guide asks."""

    door: str
    hinged: Literal["left", "right", "up"]
    style: DoorStyle
    kg: float | None
    hinges: tuple[Hinge, ...]
    guide: int | None  # None: past the end of the guide


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawers:
    """The drawers of one opening, in these `bays` (from 1; none named: all).

    `heights_mm`: of the fronts from the bottom, None for an even share of the rest. Runners by their maker's sheet:
    side-mounted ones take `take_mm` of the opening's width in all, concealed ones of it and the box's inside width.
    `box_width_mm`: of a box that is bought or made already. `path`: where in the job file they stand.
    """

    opening: int
    heights_mm: tuple[float | None, ...]
    board: str
    box_board: str
    bottom_board: str
    inset: bool
    sides_mm: float
    ends_mm: float
    between_mm: float
    concealed: bool
    take_mm: float
    length_mm: float | None  # None: the longest in steps of 50 that the carcass takes
    line_mm: float | None  # from the box's bottom edge to the runner's screws; None: half the box's height
    box_width_mm: float | None
    handle: Handle | None
    joint: "Recipe | None" = None  # None: as the cabinet's corners
    grain: Grain = "across"
    match: bool = False  # the fronts of a bay come out of one piece
    bays: tuple[int, ...] = ()
    path: tuple[str | int, ...] = ()
    edges_mm: tuple[tuple[float, float], ...] = ()  # as those of doors

    def in_bay(self, number: int) -> bool:
        """Whether this bay has them."""
        return not self.bays or number in self.bays


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceFrame:
    """A frame on the front of a carcass, mm: widths of its stiles and rails, how far it stands over the carcass.

    `overhang_mm` at each side. `joint`: of its members with one another; `fixed`: of the frame with the carcass.
    """

    board: str
    stile_mm: float
    rail_mm: float
    overhang_mm: float
    above_mm: float
    below_mm: float
    rails: FrameRails
    joint: "Recipe"
    fixed: "Recipe"


@dataclass(frozen=True, slots=True, kw_only=True)
class BlindEnd:
    """The blind end of a corner unit, mm: what the neighbour takes from the corner, doors included, and the infill.

    `from_corner_mm`: how far the unit stands off the corner. `handle_mm`: how far the neighbour's handle stands out.
    """

    side: Literal["left", "right"]
    takes_mm: float
    infill_mm: float
    from_corner_mm: float
    handle_mm: float
    board: str
    fixed: "Recipe"


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawerMade:
    """One drawer: its front, its box's boards, how far it comes out, the room between its box and the opening."""

    front: str
    box: tuple[str, ...]
    travel: float
    opening_width: float
    box_width: float
    concealed: bool
