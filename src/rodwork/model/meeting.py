"""What the carcass hands on: panels in place, and where they meet, before anything is bored."""

from collections.abc import Callable
from dataclasses import dataclass

from rodwork.model.bracket import HungBracket
from rodwork.model.clothes_rail import ClothesRail
from rodwork.model.contact import Contact
from rodwork.model.fixing import Item
from rodwork.model.footing import Footing
from rodwork.model.fronts import DoorHung, DrawerMade, FittingBore
from rodwork.model.job import Recipe
from rodwork.model.machining import Machining
from rodwork.model.panel import Panel
from rodwork.model.rod import Opening
from rodwork.model.sawing import Run
from rodwork.model.surface import Surface


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """How a guest goes into its host under a recipe, mm.

    `reach` is how far its end passes the host's face; `slack` the width of the channel less the guest's
    thickness; `stop` how far from the host's front the channel's full depth begins, so that the guest's
    front corner is notched back to there (nought: not notched). `inner`: at a corner both halves are set out from
    the guest's inner face, since a fitting is sunk in it.
    """

    reach: float = 0.0
    slack: float = 0.0
    stop: float = 0.0
    inner: bool = False


EntryOf = Callable[[Recipe, float, float], Entry]  # of a recipe, from the host's thickness and the guest's


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """One contact with the recipe that joins it, and the room that its fixings have along the run.

    `run_to`: fixings stand before this distance along the run. It is the wall of a back groove (`to_groove`)
    or the end of the run. `run_from`: and beyond this one, the far wall of a groove that the run crosses near its
    start, nought where there is none. `stagger` is 1 where the row must keep clear of one on the host's other face;
    `covered` where another board stands on that face just there.
    `beyond_start` and `beyond_end`: board of the host beyond each end of the run before it ends or a groove
    begins, mm (nought or less: the run reaches it). `host_run`: the host's edges where the run begins and ends.
    """

    id: str
    host: str
    guest: str
    contact: Contact
    recipe: Recipe
    host_thickness: float
    reach: float
    run_to: float
    to_groove: bool
    run_from: float = 0.0
    stagger: int
    covered: bool
    beyond_start: float
    beyond_end: float
    host_run: tuple[Surface, Surface]


@dataclass(frozen=True, slots=True, kw_only=True)
class PinRow:
    """A row of shelf-pin bores on one face of an upright: heights from its bottom end, mm.

    `as_bought`: they are there already. `for_shelves`: a shelf may stand on them; else they are left over.
    """

    panel: str
    face: str
    from_front: float
    heights: tuple[float, ...]
    diameter: float
    depth: float
    as_bought: bool = False
    for_shelves: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchedFronts:
    """Fronts that come out of one piece, from the bottom: following each other along the grain, or across it."""

    fronts: tuple[str, ...]
    run: Run


@dataclass(frozen=True, slots=True, kw_only=True)
class Carcass:
    """The boards of one cabinet in place, their meetings, rows of pins, clear openings, and what hangs on it."""

    panels: tuple[Panel, ...]
    meetings: tuple[Meeting, ...]
    pin_rows: tuple[PinRow, ...]
    openings: tuple[Opening, ...]
    shelf_pins: int
    fitting_bores: tuple[FittingBore, ...] = ()
    doors: tuple[DoorHung, ...] = ()
    drawers: tuple[DrawerMade, ...] = ()
    fittings: tuple[Item, ...] = ()
    matched: tuple[MatchedFronts, ...] = ()
    footing: Footing | None = None
    brackets: tuple[HungBracket, ...] = ()
    clothes_rails: tuple[ClothesRail, ...] = ()
    machining: tuple[Machining, ...] = ()  # that belongs to no joint, pin or fitting
