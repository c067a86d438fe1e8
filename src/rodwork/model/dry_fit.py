"""What the dry fit on paper says: chances, lips, squareness, what costs the fit, and what to do about it."""

from dataclasses import dataclass
from typing import Literal

from rodwork.model.finding import Finding

BY_HAND, KNOCK, FIGHTS, DRY_FIT = 0.98, 0.90, 0.70, 0.30
NOT_MEASURED = "A guess from other shops' habits"
Place = Literal[
    "left edges", "right edges", "front edges", "back edges", "bottom edges", "top edges",
    "left", "right", "front", "back", "at the bottom", "at the top",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Lip:
    """One place where two boards should finish flush, mm; positive: the guest stands proud of the host.

    `likely` is the middle size of the lip, `worst` is passed by 5 in 100; `drawn` are 20 assemblies for a picture.
    """

    joint: str
    place: Place
    guest: str
    host: str
    mean_mm: float
    likely_mm: float
    worst_mm: float
    felt: float
    drawn: tuple[float, ...]

    @property
    def is_of_edges(self) -> bool:
        """Whether edges should be flush, at the front as a rule; else outer faces, at one end of the joint."""
        return self.place.endswith("edges")


@dataclass(frozen=True, slots=True, kw_only=True)
class Square:
    """One of three numbers for squareness, mm: 95 in 100 lie from low to high; pulling by hand reaches the pull range.

    `diagonals`: one less the other; `width`: wider at the top; `height`: taller at the left.
    """

    name: Literal["diagonals", "width", "height"]
    mean_mm: float
    low_mm: float
    high_mm: float
    pull_low_mm: float | None
    pull_high_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Mitres:
    """How far mitred corners stand open, drawn up all together but not bent, mm: at the inside or at the outside.

    `likely` is the middle size, `worst` is passed by 5 in 100. `outside`: how often it is the outside that gapes, which
    is what is seen.
    """

    likely_mm: float
    worst_mm: float
    outside: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What costs the fit: a share of what is missing, and the chance if this alone were halved or perfect."""

    what: str
    share: float
    chance_if_halved: float
    chance_if_perfect: float


@dataclass(frozen=True, slots=True, kw_only=True)
class JointCost:
    """A joint's share of what costs the fit, and its own chance of going together alone."""

    joint: str
    host: str
    guest: str
    share: float
    chance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """One thing to do: in words, what it gains, how long it takes, and the chance after it."""

    do: str
    gains: str
    minutes: float
    chance: float
    lip_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CorrectedMark:
    """A number of the papers that follows a board as it was cut."""

    mark: str
    what: str
    was_mm: float
    now_mm: float
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AsCut:
    """One measured board: what was found, what it does if nothing is done, and the ways on, best first."""

    mark: str
    part: str
    dimension: Literal["length", "width", "thickness"]
    asked_mm: float
    measured_mm: float
    mates: tuple[str, ...]
    warning: str | None
    does: tuple[str, ...]
    ways: tuple[Remedy, ...]
    corrected: tuple[CorrectedMark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Histogram:
    """Counts of a figure in equal bins from `low_mm`, each `wide_mm`."""

    name: str
    low_mm: float
    wide_mm: float
    counts: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CabinetFit:
    """One cabinet, or those copies of it that are forecast alike.

    `sampling` is the interval of counting alone; `band` is that of what is known of the shop's accuracy.
    `resolved` counts samples that a second solver had to settle; none is dropped.
    """

    cabinet: str
    copies: tuple[int, ...]
    boards: int
    boards_measured: int
    chance: float
    sampling: tuple[float, float]
    band: tuple[float, float]
    weakest: JointCost
    worst_gap_mm: float
    joints: tuple[JointCost, ...]
    lips: tuple[Lip, ...]
    squareness: tuple[Square, ...]
    mitres: Mitres | None
    costs: tuple[Cost, ...]
    remedies: tuple[Remedy, ...]
    as_cut: tuple[AsCut, ...]
    histograms: tuple[Histogram, ...]
    resolved: int

    @property
    def worst_lip(self) -> Lip | None:
        """The lip that is passed furthest by 5 in 100."""
        return max(self.lips, key=lambda lip: lip.worst_mm, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class DryFit:
    """The dry fit of a job. `assumed`: no reading of this shop stands behind it. One seed, one answer."""

    seed: int
    samples: int
    assumed: bool
    feel_mm: float
    cabinets: tuple[CabinetFit, ...]
    findings: tuple[Finding, ...]


def word_of(chance: float) -> str:
    """A chance in a word or two."""
    if chance >= BY_HAND:
        return "by hand"
    if chance >= KNOCK:
        return "with a knock now and then"
    if chance >= FIGHTS:
        return "one in five fights"
    if chance >= DRY_FIT:
        return "one in two fights"
    return "it will not go"


def sentence(fit: CabinetFit, assumed: bool) -> str:
    """What a maker reads first: words, and no decimals."""
    if assumed:
        low, high = (word_of(c) for c in fit.band)
        between = f'between "{high}" and "{low}"' if low != high else f'"{low}"'
        return f"{NOT_MEASURED}: {between}. Measure 6 offcuts to know."
    first = fit.remedies[0].do if fit.remedies else "measure what is cut"
    if fit.chance >= BY_HAND:
        return "Goes together by hand."
    if fit.chance >= KNOCK:
        return "Goes together; expect to knock one home now and then."
    if fit.chance >= FIGHTS:
        return f"One in five will fight you. Do this first: {first}."
    if fit.chance >= DRY_FIT:
        return "Do not glue without a dry fit."
    return f"It will not go. Change this: {first}."
