"""What a joint kind is: settings, how far the guest enters, and its fixings in contact axes.

A kind sees one Run and answers with fixings placed by (u, v, w): u along the run from the guest's front,
v across from the guest's registering face into it, w out of the host into the guest, mm. Both halves come from
these numbers (halves.py); a kind never places a hole in board coordinates, and knows no other kind.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, Literal

from rodwork.geometry.vec import Vec
from rodwork.model.contact import JOINED_AS, Place
from rodwork.model.feature import End, Feature, Stage
from rodwork.model.fixing import Duty, Item, Law, Move, Play
from rodwork.model.job import Back, BackStyle
from rodwork.model.machining import FenceOn
from rodwork.model.meeting import Entry
from rodwork.model.nature import Nature
from rodwork.model.shop import Shop

Which = Literal["host", "guest"]

# directions in contact axes
ALONG: Vec = (1.0, 0.0, 0.0)
ACROSS: Vec = (0.0, 1.0, 0.0)
INTO_GUEST: Vec = (0.0, 0.0, 1.0)
INTO_HOST: Vec = (0.0, 0.0, -1.0)


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
    run_from: float = 0.0
    taken: tuple[float, ...] = ()  # where earlier families of the recipe stand along the run
    bored: tuple[tuple[float, float], ...] = ()  # what is bored near it for others: along the run, half its bore
    inner: bool = False  # a corner that is set out from the guest's inner face
    covered: bool = False  # another board stands on the host's other face just there
    start_edging: float = 0.0  # what edging adds to the host where the run begins, and where it ends
    end_edging: float = 0.0
    nears: float = (
        0.0  # how much nearer to the face it registers on a void in the guest comes, for each mm of its depth
    )
    end_recedes: float = 0.0  # how much the host's end, which the joint is set out from, recedes for each mm of depth
    from_end: float = 0.0  # and how far from it the joint begins
    slopes: tuple[bool, bool] = (False, False)  # the host's own ends are bevelled where the run begins and ends

    def stage(self, ends: tuple[End, End]) -> Stage:
        """A channel that runs out through an edged edge is cut before the edging closes it."""
        runs_out = (ends[0] == "open" and self.start_edging > 0) or (ends[1] == "open" and self.end_edging > 0)
        return "before edging" if runs_out else "after edging"


@dataclass(frozen=True, slots=True, kw_only=True)
class Void:
    """One void of a fixing: in which board, what is cut, and with what.

    `cut` is the feature itself in contact axes: its places and directions are (u, v, w), and its `id` is what its
    id in the cabinet ends in (with a space before it, once in the joint). The way it goes in says which surface it
    is worked from: a bore into (0, 0, 1) of the host comes from the host's other face.
    """

    board: Which
    cut: Feature
    tool: str
    cutter: str
    fence_on: FenceOn = "centre"
    to_marks: bool = False  # along the run a pencil mark is true enough: no stop
    stands_on: str | None = None  # None: the end of the guest, a batten or the machined face of the host

    @property
    def through_the_host(self) -> bool:
        """Whether it is worked from the host's other face."""
        return self.board == "host" and self.cut.into[2] > 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingPlan:
    """One fixing in contact axes. `host` and `guest` are its two halves (None: nothing is machined there).

    `moves`: how the guest goes home, one straight move after another, each `push` in contact axes.
    """

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
    moves: tuple[Move, ...]
    driven_through: bool = False  # driven through the host from its other face, with nothing bored for it

    @property
    def voids(self) -> tuple[Void, ...]:
        """Everything that is machined for it."""
        return tuple(v for v in (self.host, self.guest, *self.others) if v is not None)

    @property
    def through_the_host(self) -> bool:
        """Whether it needs the host's other face free."""
        return self.driven_through or any(v.through_the_host for v in self.voids)


def straight_in(mm: float) -> tuple[Move, ...]:
    """The guest goes straight home for the last so many mm."""
    return (Move(push=INTO_HOST, mm=mm),)


@dataclass(frozen=True, slots=True, kw_only=True)
class JointKind:
    """One family. The folder kinds/ is the list of them."""

    name: str
    title: str
    settings: type
    plan: Callable[[Run, Any, Shop], tuple[FixingPlan, ...]]
    glued: bool
    nature: Nature
    places: tuple[Place, ...]
    entry: Callable[[float, float, Any, Shop], Entry] = lambda host_t, guest_t, settings, shop: Entry()
    backs: tuple[BackStyle, ...] = ()
    for_back: Callable[[Back], Any] | None = field(default=None)

    def makes(self, place: Place) -> bool:
        """Whether it can join boards there; a rail's end as it does a corner."""
        return JOINED_AS.get(place, place) in self.places

    @property
    def file_name(self) -> str:
        """What its file, its test and its page are called."""
        return self.name.replace(" ", "_").replace("-", "_")
