"""One dowel, screw or tongue with its two halves, and the joint that gathers them along one contact."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from rodwork.geometry.vec import Vec
from rodwork.model.contact import Contact

Law = Literal["meet", "line", "enter", "none"]
MOST_PLAY_MM = 50.0
Duty = Literal["locates", "draws up", "both"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """One half: the part, and the feature in it (None where the board itself enters)."""

    part: str
    feature: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """So many of one bought thing."""

    item: str
    count: int


def tallied(items: Iterable[Item]) -> tuple[Item, ...]:
    """Each thing once, with how many there are of it in all."""
    counts: dict[str, int] = {}
    for one in items:
        counts[one.item] = counts.get(one.item, 0) + one.count
    return tuple(Item(item=name, count=n) for name, n in counts.items())


@dataclass(frozen=True, slots=True, kw_only=True)
class Play:
    """Free play of a fixing each way, mm, along and across the run.

    `short`: where the guest slides home along the run to a stop, how far short of it the fixing may lie and still hold;
    past the stop there is only `along`. None: as far as it slides.
    """

    along: float
    across: float
    shape: Literal["round", "box"]
    short: float | None = field(default=None, metadata={"leave_out": True})

    def __post_init__(self) -> None:
        """Refuse a play under nought, or over what any fixing has."""
        for name, value in (("along", self.along), ("across", self.across), ("short", self.short or 0.0)):
            if not 0.0 <= value <= MOST_PLAY_MM:
                raise ValueError(f"a play of {value:g} mm {name}: play is from 0 to {MOST_PLAY_MM:g} mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One straight move of the guest going home: a unit vector in cabinet axes, and how far, mm."""

    push: Vec
    mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """One fixing. halves = (host's, guest's); `others` are pilot, clearance and access bores."""

    id: str
    family: str
    duty: Duty
    law: Law
    at: Vec
    length: float
    halves: tuple[Half, Half]
    others: tuple[Half, ...]
    hardware: tuple[Item, ...]
    play: Play
    motion: tuple[Move, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Fixings along one contact; parts = (host id, guest id)."""

    id: str
    parts: tuple[str, str]
    contact: Contact
    recipe: str
    glued: bool
    fixings: tuple[Fixing, ...]
