"""What a joint kind is: settings, how far the guest enters, and its fixings in contact axes.

A kind sees one Run and answers with fixings placed by (u, v, w): u along the run from the guest's front,
v across from the guest's registering face into it, w out of the host into the guest, mm. Both halves come from
these numbers (halves.py); a kind never places a hole in board coordinates, and knows no other kind.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, Literal

from rodwork.geometry.vec import Vec
from rodwork.model.contact import Place
from rodwork.model.feature import Countersink, End, FeatureRole, Stage
from rodwork.model.fixing import Duty, Item, Law, Play
from rodwork.model.job import Back, BackStyle
from rodwork.model.meeting import Entry
from rodwork.model.shop import Shop

Which = Literal["host", "guest"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One contact as a kind sees it. See model.meeting.Meeting for the words."""

    place: Place
    length: float
    guest_thickness: float
    host_thickness: float
    reach: float
    run_to: float
    to_groove: bool
    stagger: int
    beyond_start: float
    beyond_end: float
    set_back: float
    taken: tuple[float, ...] = ()  # where earlier families of the recipe stand along the run
    start_edging: float = 0.0  # what edging adds to the host where the run begins, and where it ends
    end_edging: float = 0.0

    def stage(self, ends: tuple[End, End]) -> Stage:
        """A channel that runs out through an edged edge is cut before the edging closes it."""
        runs_out = (ends[0] == "open" and self.start_edging > 0) or (ends[1] == "open" and self.end_edging > 0)
        return "before edging" if runs_out else "after edging"


@dataclass(frozen=True, slots=True, kw_only=True)
class Void:
    """One void of a fixing in contact axes: in which board, its mouth (u, v, w), directions and sizes."""

    board: Which
    shape: Literal["bore", "groove", "rebate"]
    role: FeatureRole
    suffix: str
    at: Vec
    into: Vec
    along: Vec
    depth: float
    tool: str
    cutter: str
    stage: Stage = "after edging"
    diameter: float = 0.0
    tip: float = 0.0
    through: bool = False
    countersink: Countersink | None = None
    width: float = 0.0
    length: float = 0.0
    ends: tuple[End, End] = ("open", "open")
    end_radius: float = 0.0
    from_other_face: bool = False  # worked from the host's other face: a clearance bore from the outside
    fence_on: Literal["centre", "near wall", "far wall"] = "centre"


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingPlan:
    """One fixing in contact axes. `host` and `guest` are its two halves (None: the board itself enters)."""

    u: float
    v: float
    length: float
    law: Law
    duty: Duty
    host: Void | None
    guest: Void | None
    others: tuple[Void, ...] = ()
    hardware: tuple[Item, ...] = ()
    play: Play
    goes_home_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class JointKind:
    """One family. The folder kinds/ is the list of them."""

    name: str
    title: str
    settings: type
    plan: Callable[[Run, Any, Shop], tuple[FixingPlan, ...]]
    glued: bool
    places: tuple[Place, ...]
    entry: Callable[[float, float, Any, Shop], Entry] = lambda host_t, guest_t, settings, shop: Entry()
    backs: tuple[BackStyle, ...] = ()
    for_back: Callable[[Back], Any] | None = field(default=None)
