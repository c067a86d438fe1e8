"""Where a guest board's edge or end meets a host board, and from what surfaces each half is set out."""

from dataclasses import dataclass, field
from math import dist
from typing import Literal

from rodwork.geometry.vec import Vec
from rodwork.model.surface import Surface

Place = Literal[
    "corner",
    "mitre",
    "fixed shelf",
    "divider",
    "rail",
    "back in a groove",
    "back in a rebate",
    "planted back",
    "inset back",
    "edge to edge",
    "face frame",
    "on a slope",
    "under a shelf",
]
JOINED_AS: dict[Place, Place] = {
    "rail": "corner",
    "under a shelf": "face frame",
}  # what can make the one can make the other


@dataclass(frozen=True, slots=True, kw_only=True)
class Register:
    """From where one half is set out on its own board: the surface worked on, and the two datums."""

    bears: Surface
    along_from: Surface
    across_from: Surface


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """The rectangle where two boards touch, cabinet axes, mm.

    `from_point` lies on the guest's registering face at the guest's datum end of the run; `along` runs from
    it, `across` goes from the registering face into the guest, `out` from host into guest. `line` is where
    the guest's registering face comes on the host, from the host's datum (None: the two are flush);
    `set_back` is how far the guest's front stands behind the host's (None: flush). Where the guest's end is bevelled,
    `out` is square to it, `across` runs along it from the arris of the registering face, and `width` is its own.
    """

    from_point: Vec = field(metadata={"key": "from"})
    to_point: Vec = field(metadata={"key": "to"})
    along: Vec
    across: Vec
    out: Vec
    width: float
    place: Place
    host_register: Register
    guest_register: Register
    line: float | None = None
    set_back: float | None = None

    @property
    def length(self) -> float:
        """Length of the run, mm."""
        return dist(self.from_point, self.to_point)
