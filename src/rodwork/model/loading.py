"""What the load of a job comes to, cabinet by cabinet: shelves, joints, the box, the wall, tipping, lifting.

A margin says how many times over a thing bears its load; None: a figure is missing, and `asks` says which. No
margin is ever made up. Forces N, moments N mm, sizes mm, masses kg.
"""

from dataclasses import dataclass

from rodwork.model.figure import Figure, Standing
from rodwork.model.finding import Finding

NOT_A_CERTIFICATE = (
    "This is no structural certificate. It is a sum from published formulas, for the maker's own judgement.",
    "The wall and the anchors in it are for the fitter to look at and to test; nothing here says what a wall bears.",
    "Local codes and the word of a licensed engineer come first.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfLoad:
    """One shelf or bottom: what stands on it, how it is held, its sag as new and later, and what would do.

    `straight`, `sound`, `strong`: margins. `spans`: how many, over boards between its ends.
    """

    part: str
    name: str
    span_mm: float
    spans: int
    depth_mm: float
    thickness_mm: float
    held: str
    contents_kg: float
    own_kg: float
    stiffness: Figure | None
    creep: Figure | None
    new_mm: float | None
    later_mm: float | None
    moment_Nmm: float | None
    straight_mm: float
    sound_mm: float
    straight: float | None
    sound: float | None
    strong: float | None
    longest_mm: float | None
    would_do: tuple[str, ...]
    asks: tuple[str, ...]
    stiffened: str = ""  # by what, in words; nothing: it bends alone
    taken: str = ""  # for granted, of how it is held

    @property
    def margin(self) -> float | None:
        """The smallest of its margins; None where one of them is not known."""
        known = [m for m in (self.straight, self.sound, self.strong) if m is not None]
        return min(known) if len(known) == 3 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingForce:
    """What comes to one dowel, screw or anchor: across it, and pulling it out."""

    fixing: str
    shear_N: float
    pull_N: float


@dataclass(frozen=True, slots=True, kw_only=True)
class JointLoad:
    """One joint: what it carries, and its worst fixing with the way in which that gives out."""

    joint: str
    name: str
    shear_N: float
    pull_N: float
    moment_Nmm: float
    forces: tuple[FixingForce, ...]
    governing: str
    bears: Figure | None
    mode: str
    margin: float | None
    beside: str
    asks: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Racking:
    """The box pushed sideways at its top by `push_N`: how far the front opening goes out of square, mm.

    `bare_mm`: by its corners alone. `backed_mm`: with its back. None: not known, see `asks`.
    """

    push_N: float
    bare_mm: float | None
    backed_mm: float | None
    margin: float | None
    how: str
    source: str
    asks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallForce:
    """A wall unit in one state (shut, doors open, ...): pull at its top line, shear, push at its foot."""

    state: str
    weight_N: float
    out_mm: float
    pull_N: float
    shear_N: float
    push_N: float
    forces: tuple[FixingForce, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One link of the chain from the contents to the wall: margin None is an open link."""

    name: str
    carries: str
    margin: float | None
    standing: Standing | None
    source: str
    asks: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """The chain of the load. `verdict` is what stands large beside it."""

    links: tuple[Link, ...]
    verdict: str

    @property
    def closed(self) -> bool:
        """Whether every link has a figure."""
        return all(link.margin is not None for link in self.links)

    @property
    def weakest(self) -> Link | None:
        """The link with the least margin; None where one is open."""
        margins = [link for link in self.links if link.margin is not None]
        return min(margins, key=lambda x: x.margin or 0.0) if self.closed and margins else None


@dataclass(frozen=True, slots=True, kw_only=True)
class HangingLoad:
    """A wall unit on its wall: its states, the worst of them with one fixing missing, places of fixings, the chain.

    `level_N`: the low warning level for one fixing where the maker entered none, with its source; never a capacity.
    """

    wall: str
    kind: str
    style: str
    at_mm: tuple[float, ...]
    down_mm: float
    states: tuple[WallForce, ...]
    one_missing: WallForce
    level_N: Figure | None
    chain: Chain
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TippingState:
    """A standing unit in one state: what keeps it down and what tips it, about its front feet, N mm."""

    state: str
    keeps_Nmm: float
    tips_Nmm: float
    margin: float
    restraint_N: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tipping:
    """A standing unit: its states, what a wall restraint must bear, and what to hand to the customer."""

    states: tuple[TippingState, ...]
    restraint_N: float
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lifting:
    """How heavy it is to carry, empty, and how many people that takes by the published guide."""

    kg: float | None
    people: int | None
    words: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CabinetLoad:
    """Everything about one cabinet. `left_out`: what loads it and is not reckoned, in words."""

    name: str
    count: int
    contents: str
    contents_from: Figure | None
    shelves: tuple[ShelfLoad, ...]
    joints: tuple[JointLoad, ...]
    racking: Racking | None
    hanging: HangingLoad | None
    tipping: Tipping | None
    lifting: Lifting
    left_out: tuple[str, ...] = ()

    @property
    def weakest(self) -> tuple[str, float] | None:
        """The name and margin of what gives out first; None where nothing is known."""
        found = [(s.name, m) for s in self.shelves if (m := s.margin) is not None]
        found += [(j.name, j.margin) for j in self.joints if j.margin is not None]
        if self.hanging:
            found += [(x.name, x.margin) for x in self.hanging.chain.links if x.margin is not None]
        return min(found, key=lambda f: f[1], default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Loading:
    """The load of a whole job, and what there is to put right."""

    cabinets: tuple[CabinetLoad, ...]
    findings: tuple[Finding, ...]
    not_a_certificate: tuple[str, ...] = NOT_A_CERTIFICATE
