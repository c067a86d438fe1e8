"""How true a shop works: what every board of one setting shares, what differs from piece to piece, and what wood gives.

Every figure is one standard deviation, in mm (angles in mrad: mm in a metre), with the range it may lie in. Until a
shop has measured its own, `readings` is nought and the figure is an assumption from other shops' habits.
"""

from dataclasses import dataclass, field
from typing import Literal

ErrorKind = Literal["size", "square", "bevel", "across", "stop", "marks", "depth"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sigma:
    """One standard deviation, and the range in which the true one lies at 95 in 100; `readings` 0: assumed."""

    value: float
    low: float
    high: float
    readings: int = 0

    @property
    def assumed(self) -> bool:
        """Whether no reading of this shop stands behind it."""
        return self.readings == 0


NOTHING = Sigma(value=0.0, low=0.0, high=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """One kind of error of one method: shared by all that is done at one setting, and each piece's own."""

    shared: Sigma
    each: Sigma


@dataclass(frozen=True, slots=True, kw_only=True)
class Method:
    """One way of working, the words of a machine that it is known by, and its errors by kind."""

    name: str
    words: tuple[str, ...]
    errors: dict[ErrorKind, Spread] = field(hash=False)
    source: str

    def error(self, kind: ErrorKind) -> Spread:
        """The errors of one kind; none where the method makes none."""
        return self.errors.get(kind, Spread(shared=NOTHING, each=NOTHING))


@dataclass(frozen=True, slots=True, kw_only=True)
class Give:
    """What wood and clamps give, all assumed: mm, N, N/mm2.

    `ease`: how far a fixing may be forced beyond its play; `close`: a shoulder this open still looks shut;
    `crush`: how far faces press into each other; `feel`: a lip that a finger finds.
    """

    ease_mm: float
    close_mm: float
    crush_mm: float
    feel_mm: float
    clamp_N: float
    E_N_per_mm2: float
    twist_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Accuracy:
    """The methods of a shop. A machine is known by its words; the last method serves any that none names."""

    methods: tuple[Method, ...]
    give: Give

    def method(self, tool: str) -> Method:
        """The method of a machine: the first whose words stand in the machine's name."""
        for method in self.methods:
            if any(word in tool for word in method.words):
                return method
        return self.methods[-1]

    def named(self, name: str) -> Method:
        """A method by its own name."""
        return next(m for m in self.methods if m.name == name)

    @property
    def measured(self) -> bool:
        """Whether this shop has measured anything at all."""
        return any(not s.assumed for m in self.methods for e in m.errors.values() for s in (e.shared, e.each))
