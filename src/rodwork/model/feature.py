"""Voids machined in one part, in its own frame (mm). The kinds of design section 3 that are built so far.

A new kind is a class here and a line in KINDS; each station that has to know more of it than its fields say has one
function by kind (functools.singledispatch), to which the new kind is added.
"""

from dataclasses import dataclass, field
from math import sqrt
from typing import ClassVar, Literal

from rodwork.geometry.vec import Vec, along, neg
from rodwork.model.surface import Surface, surface_worked

Stage = Literal["before edging", "after edging", "in place", "as bought"]
NOT_SET_OUT: tuple[Stage, ...] = ("in place", "as bought")  # in no setting: bored at assembly, or there already
FeatureRole = Literal[
    "seat",
    "housing",
    "pilot",
    "clearance",
    "access",
    "shelf_pin",
    "hinge",
    "handle",
    "hanging",
    "clothes_rail",
    "service",
    "row",
]
End = Literal["open", "round", "square"]
Lies = Literal["any way", "either way", "one way"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Feature:
    """What every void has: `at` the centre of its mouth, `into` the way into the material.

    `along` is square to `into`. `joint` is the joint it belongs to, or None (a shelf pin's bore).
    `lies`: whether it stays the same when `along` is turned about `into` (any way), only reversed (either way), or
    not at all.
    """

    kind: ClassVar[str] = ""
    noun: ClassVar[str] = ""  # what a maker calls it, alone
    lies: ClassVar[Lies] = "either way"
    id: str
    role: FeatureRole
    joint: str | None = None
    stage: Stage = "after edging"
    at: Vec
    into: Vec
    along: Vec
    depth: float

    @property
    def mouth(self) -> Surface:
        """The surface that the mouth is in: the one that the tool comes through."""
        return surface_worked(neg(self.into))

    @property
    def centre(self) -> Vec:
        """The middle of its mouth: `at`, unless that is another point of it."""
        return self.at


@dataclass(frozen=True, slots=True, kw_only=True)
class Countersink:
    """The cone of a screw head: its diameter at the mouth and its full angle in degrees."""

    diameter: float
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bore(Feature):
    """A round hole. `depth` is to full diameter; the bit's `tip` reaches that much further."""

    kind: ClassVar[str] = "bore"
    noun: ClassVar[str] = "bore"
    lies: ClassVar[Lies] = "any way"
    diameter: float
    tip: float = 0.0
    through: bool = False
    countersink: Countersink | None = field(default=None, metadata={"leave_out": True})


@dataclass(frozen=True, slots=True, kw_only=True)
class Pocket(Feature):
    """A round hole that goes in askew, from a face of the board: `into` and `depth` lie on its own axis.

    `depth` is to its shoulder, on the axis. `ahead` is the diameter of the narrower bit ahead of it, which comes out
    at an edge or end `ahead_depth` from the mouth, on the axis (both nought: there is none). `along` lies in the face.
    """

    kind: ClassVar[str] = "pocket"
    noun: ClassVar[str] = "pocket"
    lies: ClassVar[Lies] = "one way"
    diameter: float
    ahead: float = 0.0
    ahead_depth: float = 0.0

    @property
    def mouth(self) -> Surface:
        """The face that it goes in through."""
        return "back_side" if self.into[2] > 0 else "face_side"


@dataclass(frozen=True, slots=True, kw_only=True)
class Channel(Feature):
    """A flat-bottomed void between walls: `length` on `along` (half each way), `width` on into x along.

    `ends` is open (it runs out), round (stopped, run on by the cutter's radius) or square (stopped and
    chiselled), or a pair [at -along, at +along]. `end_radius` is the cutter's, in the corners of round ends.
    """

    width: float
    length: float
    ends: End | tuple[End, End]
    end_radius: float = 0.0

    @property
    def both_ends(self) -> tuple[End, End]:
        """(end at -along, end at +along)."""
        return self.ends if isinstance(self.ends, tuple) else (self.ends, self.ends)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot(Channel):
    """A short channel that a connector stands in, given to its middle: a mortise has both ends round."""

    kind: ClassVar[str] = "slot"
    noun: ClassVar[str] = "mortise"


LONG = 12.0  # times its width: longer than that a slot is a groove to a maker


def noun_of(feature: Feature) -> str:
    """What a maker calls it: a slot that is very long is a groove."""
    long = isinstance(feature, Slot) and feature.length > LONG * feature.width
    return "groove" if long else feature.noun


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcSlot(Feature):
    """What a round cutter leaves that is plunged straight in: `depth` at its middle, nought at both its ends.

    `thickness` on into x along is the cutter's; `cutter_radius` gives the arc of its floor.
    """

    kind: ClassVar[str] = "arc_slot"
    noun: ClassVar[str] = "slot"
    cutter_radius: float
    thickness: float

    @property
    def length(self) -> float:
        """Length of its mouth on `along`, the chord that the cutter leaves at this depth, mm."""
        return chord(self.cutter_radius, self.depth)


@dataclass(frozen=True, slots=True, kw_only=True)
class Undercut(ArcSlot):
    """An arc slot that is wider at its floor, for a connector that grips behind its lips.

    `root_width` is the width there, `root_depth` how far up from the floor it reaches, along the cutter's radius.
    """

    kind: ClassVar[str] = "undercut"
    noun: ClassVar[str] = "undercut slot"
    root_width: float
    root_depth: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Keyhole(Feature):
    """A bore that a screw's head goes in through, and a slot along which it slides home behind a shoulder.

    `at` is the screw's home, `along` points to the entry bore, `slide` away. The slot is `slot_width` wide at its
    mouth and `head_width` over the last `head_depth` of its depth.
    """

    kind: ClassVar[str] = "keyhole"
    noun: ClassVar[str] = "keyhole"
    lies: ClassVar[Lies] = "one way"
    slide: float
    entry_diameter: float
    slot_width: float
    head_width: float
    head_depth: float

    @property
    def entry(self) -> Vec:
        """The middle of the bore that the head goes in through."""
        return along(self.at, (self.along, self.slide))

    @property
    def centre(self) -> Vec:
        """Half way between the entry bore and the screw's home."""
        return along(self.at, (self.along, self.slide / 2))


def chord(cutter_radius: float, depth: float) -> float:
    """Length of the slot that a round cutter leaves in a flat surface when it is plunged so deep, mm."""
    return 2 * sqrt(depth * (2 * cutter_radius - depth))


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove(Channel):
    """A channel that a board stands in, given to its two walls."""

    kind: ClassVar[str] = "groove"
    noun: ClassVar[str] = "groove"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rebate(Groove):
    """A step along an edge: a groove with one wall missing, its mouth on the face its depth is taken from."""

    kind: ClassVar[str] = "rebate"
    noun: ClassVar[str] = "rebate"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutout(Channel):
    """A hole right through a board between four walls, for a sink, a hob or a service: `polygon` is its outline.

    The corners of the polygon are those of the walls, in the part frame; the cutter rounds them by `end_radius`.
    """

    kind: ClassVar[str] = "cutout"
    noun: ClassVar[str] = "cut-out"
    polygon: tuple[tuple[float, float], ...]


def through(feature: Feature) -> bool:
    """Whether it goes right through its board, so that no depth is set for it."""
    return isinstance(feature, Cutout) or (isinstance(feature, Bore) and feature.through)


KINDS: dict[str, type[Feature]] = {
    kind.kind: kind for kind in (Bore, Pocket, Slot, ArcSlot, Undercut, Keyhole, Groove, Rebate, Cutout)
}
OWN_KINDS = tuple(kind for kind in KINDS if KINDS[kind] is not Cutout)  # that a joint may have
