"""What joining a job costs, and the ways of joining it side by side. Money is Decimal in the job's currency.

First the shop's own figures, as the job file has them; then what comes of them and the Rod: a way with all that stands
behind its four figures, and the comparison.
"""

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, Literal

from rodwork.model.plain import to_plain

LineKind = Literal["fittings", "glue", "settings", "machining", "assembly", "labour", "machine to buy"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PackPrice:
    """What a packet costs, and how many pieces are in it."""

    price: Decimal
    pieces: int = 1

    @property
    def each(self) -> Decimal:
        """What one piece costs."""
        return self.price / self.pieces


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnMachine:
    """What the shop says of a machine: whether it has it, what it costs (None: not said)."""

    owned: bool | None = None
    price: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopFigures:
    """The shop's own prices and times, as the job file has them. What is None or not there was not entered."""

    hour: Decimal | None = None
    cabinets_to_come: int | None = None
    one_pound: Decimal | None = None
    prices: dict[str, PackPrice] = field(default_factory=dict, hash=False)
    minutes: dict[str, Decimal] = field(default_factory=dict, hash=False)
    machines: dict[str, OwnMachine] = field(default_factory=dict, hash=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class CostLine:
    """One line behind a figure, for the whole job: so many of a thing, minutes, money (None: no price for it).

    `own`: the figure is the shop's, and not a starting value.
    """

    kind: LineKind
    what: str
    count: Decimal
    unit: str
    minutes: Decimal | None
    money: Decimal | None
    own: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What a customer sees of one joint: marks of one kind on one surface, where they stand along it, mm.

    `inside` the cabinet or not; `covered` by a plug; `depth` is the length of the joint.
    """

    what: str
    surface: str
    inside: bool
    diameter: float
    covered: bool
    along: tuple[float, ...]
    depth: float

    @property
    def where(self) -> str:
        """Where it is seen, in words."""
        if self.surface.endswith(("edge", "end")):
            return f"at the {self.surface}"
        return "inside" if self.inside else "outside"


@dataclass(frozen=True, slots=True, kw_only=True)
class ToBuy:
    """A machine that a way needs and the shop does not have; its price (None: not known)."""

    name: str
    price: Decimal | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way of joining the job. `money` and `minutes` are for all of it; `running` leaves out what is to be bought.

    `across_mm` and `along_mm`: how true its halves must be set out. `pays_from`: the cabinet with which its machine is
    earned back against `Comparison.against` (None: nothing to buy, or never). `loaded`: something was said to stand
    inside; `times_over`: how many times over its weakest joint then bears it (None: a figure is missing).
    `goes_together`: the share of its worst cabinets that go together in this shop (None: not asked for).
    """

    name: str
    made_with: str
    as_written: bool
    money: Decimal | None
    running: Decimal | None
    minutes: Decimal
    across_mm: float
    along_mm: float
    clamps: int
    waits_min: Decimal
    demountable: bool
    handled_at_once: bool
    self_clamping: bool
    glue: bool
    seen: tuple[Seen, ...]
    machines: tuple[str, ...]
    to_buy: tuple[ToBuy, ...]
    weakest: str | None
    lines: tuple[CostLine, ...]
    unpriced: tuple[str, ...]
    pays_from: int | None = None
    loaded: bool = False
    times_over: float | None = None
    goes_together: float | None = None

    @property
    def shows(self) -> str:
        """What the customer sees, in words."""
        return ", ".join(dict.fromkeys(f"{s.what} {s.where}" for s in self.seen)) or "nothing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cannot:
    """A way that cannot make this job, and why not."""

    name: str
    made_with: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """The ways of joining one job: with the tools at hand, those that want a machine, those that cannot.

    `against`: the way that a machine is reckoned against, None where nothing is priced. `left_out`: ways that can, but
    not as the maker wants. `starting`: figures that are not the shop's.
    `unused`: prices entered for things that no way here uses.
    """

    job: str
    currency: str
    cabinets: int
    cabinets_to_come: int
    ways: tuple[Way, ...]
    with_machine: tuple[Way, ...]
    cannot: tuple[Cannot, ...]
    against: str | None = None
    left_out: tuple[Cannot, ...] = ()
    starting: tuple[str, ...] = ()
    unused: tuple[str, ...] = ()

    @property
    def all(self) -> tuple[Way, ...]:
        """Every way that can: with tools at hand first."""
        return (*self.ways, *self.with_machine)

    def to_dict(self) -> dict[str, Any]:
        """The comparison as plain data: money and minutes as text, exactly."""
        plain: dict[str, Any] = to_plain(self)
        return plain
