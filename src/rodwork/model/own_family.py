"""A family of joints that a maker has written as data: what it is like, what is cut for it, what is bought."""

from dataclasses import dataclass, field
from typing import Literal

from rodwork.model.contact import Place
from rodwork.model.costing import PackPrice
from rodwork.model.fixing import Duty, Item, Law, Play
from rodwork.model.nature import Nature

Worked = Literal["face", "end"]  # the board worked on its face, and the one worked on its end or edge
CutFrom = Literal["joint", "other face", "outer face", "inner face"]
OwnRole = Literal["seat", "clearance", "pilot", "access"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnCut:
    """One void of an own family's fixing.

    It is worked from where the boards meet ("joint"); from the other face of the board worked on its face; or across
    the board worked on its end, from its outer or inner face. `along_mm` is counted from the fixing's own place,
    `across_mm` from the face that is registered on (None: the nearest setting to the middle), `out_mm` from the end
    into the board: which of these two counts follows from `cut_from`. `depth_mm` None: right through. `sizes` are
    the other sizes of this kind of machining, by their names in model/feature.py.
    """

    board: Worked
    cut_from: CutFrom
    kind: str
    role: OwnRole
    along_mm: float
    across_mm: float | None
    out_mm: float | None
    depth_mm: float | None
    sizes: tuple[tuple[str, object], ...]
    tool: str
    cutter: str
    in_place: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnFamily:
    """A family of joints as its file has it. Every fixing along the run is the same; lengths are mm."""

    name: str
    title: str
    law: Law
    duty: Duty
    places: tuple[Place, ...]
    glued: bool
    from_inner_face: bool
    length_mm: float
    goes_home_mm: float
    slides_mm: float
    least_apart_mm: float
    cuts: tuple[OwnCut, ...]
    hardware: tuple[Item, ...]
    play: Play
    nature: Nature
    prices: dict[str, PackPrice] = field(default_factory=dict, hash=False, compare=False)
