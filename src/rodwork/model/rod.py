"""The Rod: the set-out of a job. Everything after set-out reads this and nothing before it."""

from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from rodwork.geometry.vec import Vec
from rodwork.model.alcove import Alcove
from rodwork.model.bracket import HungBracket
from rodwork.model.clothes_rail import ClothesRail
from rodwork.model.demand import Contents, Declared, Hanging, Room, SagLimits, Tested, Wall
from rodwork.model.feature import Feature
from rodwork.model.finding import Finding
from rodwork.model.finish import Finish
from rodwork.model.fixing import Fixing, Item, Joint
from rodwork.model.footing import Footing
from rodwork.model.fronts import DoorHung, DrawerMade
from rodwork.model.lipping import Lipping
from rodwork.model.measured import MeasuredBoard
from rodwork.model.panel import Part
from rodwork.model.plain import from_plain, to_plain
from rodwork.model.run import CabinetRun
from rodwork.model.sawing import Sawing
from rodwork.model.setup import Setup
from rodwork.model.shop import Shop
from rodwork.model.survey import Survey
from rodwork.model.weight import M3_PER_MM3, Weight

SCHEMA = "rodwork/rod/1"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardStock:
    """A board as bought; all geometry uses `actual`, its measured thickness. `sheet`: along the grain first."""

    material: str
    thickness: float
    actual: float
    grain: bool
    sheet: tuple[float, float]
    price: str | None
    density_kg_m3: float | None = None
    grade: str | None = None
    declared: Declared | None = None

    @property
    def kg_per_mm2(self) -> float | None:
        """What it weighs for its area; None where its density is not known."""
        return None if self.density_kg_m3 is None else self.actual * self.density_kg_m3 * M3_PER_MM3

    @property
    def sheet_kg(self) -> float | None:
        """A whole sheet as it is carried in; None where its density is not known."""
        per_mm2 = self.kg_per_mm2
        return None if per_mm2 is None else self.sheet[0] * self.sheet[1] * per_mm2


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgingStock:
    """An edging as bought; `adds` to the size at each edged edge, where the bander first `mills` some off."""

    thickness: float
    adds: float
    mills: float
    price_per_m: str | None
    lipping: Lipping | None = None  # None: tape

    @property
    def comes_off(self) -> float:
        """What comes off a lipping again when its board is sawn to size anew; nought of a tape."""
        return max(self.thickness - self.adds, 0.0) if self.lipping is not None else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """What stands at the head of every page."""

    letter: str
    date: str | None
    customer: str | None
    address: str | None
    notes: str | None
    paper: str
    units: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """What the printed numbers come to when they are put back together, mm."""

    largest_gap_mm: float
    largest_spread_in_a_row_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A clear opening of a bay, from the bottom up: asked (None: the rest) and what came of it, mm."""

    bay: int
    asked: float | None
    comes_to: float
    width: float
    between: tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What the maker asked for, as far as a later station needs it."""

    style: str
    corners: str
    back: str | None
    void: float
    openings: tuple[Opening, ...]
    kg_per_m2: float | None
    notes: str | None
    contents: Contents | None = None
    hanging: Hanging | None = None
    room: Room = "heated"
    sag: SagLimits = field(default_factory=SagLimits)
    alcove: Alcove | None = None


@dataclass(frozen=True, kw_only=True)
class RodCabinet:
    """One cabinet entry: `count` multiplies marks, never parts. `size` = width, height, depth.

    `weight`: of all its boards, without fittings or contents; None where a density is not known.
    `copy_of`: the entry that this is one copy of, where a board of it is measured and it stands by itself.
    """

    name: str
    count: int
    size: Vec
    asked: Asked
    hardware: tuple[Item, ...]
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    proof: Proof
    doors: tuple[DoorHung, ...] = ()
    drawers: tuple[DrawerMade, ...] = ()
    brackets: tuple[HungBracket, ...] = ()
    clothes_rails: tuple[ClothesRail, ...] = ()
    footing: Footing | None = None
    finish: Finish | None = None
    weight: Weight | None = None
    copy_of: str | None = field(default=None, metadata={"leave_out": True})

    @property
    def is_run(self) -> bool:
        """Whether it is no box but the boards that go along a run: worktop, plinth, infills."""
        return self.asked.style == "run"

    @cached_property
    def whole_boards(self) -> tuple[Part, ...]:
        """Its boards with what is glued on them: a lipping is counted in its board, and is none of these."""
        return tuple(p for p in self.parts if p.glued_on is None)

    @cached_property
    def lippings(self) -> dict[str, tuple[Part, ...]]:
        """The lippings of each board that has any, by the board's id."""
        found: dict[str, list[Part]] = {}
        for part in self.parts:
            if part.glued_on is not None:
                found.setdefault(part.glued_on, []).append(part)
        return {board: tuple(lippings) for board, lippings in found.items()}

    @cached_property
    def part(self) -> dict[str, Part]:
        """Parts by id."""
        return {p.id: p for p in self.parts}

    @cached_property
    def joint(self) -> dict[str, Joint]:
        """Joints by id."""
        return {j.id: j for j in self.joints}

    @cached_property
    def feature(self) -> dict[str, Feature]:
        """All that is machined in its parts, by id."""
        return {f.id: f for part in self.parts for f in part.features}

    @cached_property
    def fixing(self) -> dict[str, Fixing]:
        """The dowel, screw or channel that each feature belongs to, by the feature's id."""
        fixings = (fixing for joint in self.joints for fixing in joint.fixings)
        halves = ((half, fixing) for fixing in fixings for half in (*fixing.halves, *fixing.others))
        return {half.feature: fixing for half, fixing in halves if half.feature is not None}


@dataclass(frozen=True, kw_only=True)
class Rod:
    """The whole job, set out."""

    schema: str = SCHEMA
    job: str
    units: str = "mm"
    step: float
    heading: Heading
    shop: Shop
    boards: dict[str, BoardStock] = field(hash=False)
    edgings: dict[str, EdgingStock] = field(hash=False)
    cabinets: tuple[RodCabinet, ...]
    setups: tuple[Setup, ...]
    findings: tuple[Finding, ...]
    walls: dict[str, Wall] = field(default_factory=dict, hash=False)
    tested: dict[str, Tested] = field(default_factory=dict, hash=False)
    sawing: Sawing = field(default_factory=Sawing)
    measured: tuple[MeasuredBoard, ...] = ()
    surveys: dict[str, Survey] = field(default_factory=dict, hash=False)
    runs: tuple[CabinetRun, ...] = ()

    @cached_property
    def boxes(self) -> tuple[RodCabinet, ...]:
        """The cabinets that are boxes: not the entries with the boards of a run."""
        return tuple(c for c in self.cabinets if not c.is_run)

    @cached_property
    def cabinet(self) -> dict[str, RodCabinet]:
        """Cabinets by name."""
        return {c.name: c for c in self.cabinets}

    def to_dict(self) -> dict[str, Any]:
        """The Rod as plain data (design section 4), ready for json.dumps."""
        plain: dict[str, Any] = to_plain(self)
        return plain

    @staticmethod
    def from_dict(data: dict[str, Any]) -> "Rod":
        """Read a Rod back. Raises ValueError naming the place where the data is not a Rod."""
        if not isinstance(data, dict) or data.get("schema") != SCHEMA:
            raise ValueError(f"not a set-out of this kind: schema should be {SCHEMA!r}")
        rod: Rod = from_plain(Rod, data)
        return rod
