"""Voids machined in one part, in its own frame (mm). The kinds of design section 3 that are built so far."""

from dataclasses import dataclass, field
from typing import ClassVar, Literal

from rodwork.geometry.vec import Vec

Stage = Literal["before edging", "after edging", "in place"]
FeatureRole = Literal[
    "seat", "housing", "pilot", "clearance", "access", "shelf_pin", "hinge", "handle", "hanging", "service"
]
End = Literal["open", "round", "square"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Feature:
    """What every void has: `at` the centre of its mouth, `into` the way into the material.

    `along` is square to `into`. `joint` is the joint it belongs to, or None (a shelf pin's bore).
    """

    kind: ClassVar[str] = ""
    id: str
    role: FeatureRole
    joint: str | None
    stage: Stage
    at: Vec
    into: Vec
    along: Vec
    depth: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Countersink:
    """The cone of a screw head: its diameter at the mouth and its full angle in degrees."""

    diameter: float
    angle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bore(Feature):
    """A round hole. `depth` is to full diameter; the bit's `tip` reaches that much further."""

    kind: ClassVar[str] = "bore"
    diameter: float
    tip: float = 0.0
    through: bool = False
    countersink: Countersink | None = field(default=None, metadata={"leave_out": True})


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove(Feature):
    """A channel: `length` on `along` (half each way), `width` on into x along.

    `ends` is open (it runs out), round (stopped, run on by the cutter's radius) or square (stopped and
    chiselled), or a pair [at -along, at +along]. `end_radius` is the cutter's, in the corners of round ends.
    """

    kind: ClassVar[str] = "groove"
    width: float
    length: float
    ends: End | tuple[End, End]
    end_radius: float = 0.0

    @property
    def both_ends(self) -> tuple[End, End]:
        """(end at -along, end at +along)."""
        return self.ends if isinstance(self.ends, tuple) else (self.ends, self.ends)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rebate(Groove):
    """A step along an edge: a groove with one wall missing, its mouth on the face its depth is taken from."""

    kind: ClassVar[str] = "rebate"


KINDS: dict[str, type[Feature]] = {kind.kind: kind for kind in (Bore, Groove, Rebate)}
