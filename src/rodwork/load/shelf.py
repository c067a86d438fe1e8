"""One shelf under its load: how far it sags as new and later, how sure it is, and what would do instead.

Load factors of the strength check, 1.35 on its own weight and 1.5 on what stands on it: EN 1990 table A1.2(B),
from memory. Its strength: kmod f / gamma_M (EN 1995-1-1, 2.4.1). Creep: sag (1 + kdef), 2.2.3, with the whole load
lasting; fibreboard by its association's rule where that is taken (see the catalogue).
"""

from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from math import exp, inf, log

from rodwork.load.beam import Beam, Bent, PointLoad, Support, bend
from rodwork.load.section import Section, Strip, section

G_OWN, G_CONTENTS = 1.35, 1.5
KCMA_RATIO = (1 / 16) / 12  # 1/16 in for every foot of span: ANSI/KCMA A161.1, 5.1, second-hand


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How far it may sag: 1 mm in so many, later and as new; as new never more than `most_mm`."""

    straight_1_in: float
    sound_1_in: float
    most_mm: float

    def straight_mm(self, span_mm: float) -> float:
        """What still looks straight, mm."""
        return span_mm / self.straight_1_in

    def sound_mm(self, span_mm: float) -> float:
        """What is sound: the least of the three published limits, or the maker's."""
        return min(span_mm / self.sound_1_in, span_mm * KCMA_RATIO, self.most_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """A shelf as it is reckoned. `strips`: the board and what stiffens it, strength already with its factors.

    `at_mm`: where it is held along its length, 0 to the whole; `turning`: how stiffly each of them holds it.
    `weight_N_per_mm` its own, `even_N_per_mm` the contents', `middle_N` one heavy thing in mid-span, `points` what
    stands on it: (place, N).
    `creep`: further sag in time as a share; None: not known. `across_mm`: front and back line that it rests on, and
    its depth, where that is narrower than the shelf.
    """

    strips: tuple[Strip, ...]
    length_mm: float
    at_mm: tuple[float, ...]
    turning_Nmm_per_rad: tuple[float, ...]
    weight_N_per_mm: float
    even_N_per_mm: float
    middle_N: float
    creep: float | None
    limits: Limits
    points: tuple[tuple[float, float], ...] = ()
    across: "Across | None" = None

    @property
    def span_mm(self) -> float:
        """The longest clear span, mm."""
        return max((b - a for a, b in pairwise(self.at_mm)), default=self.length_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """A shelf that is held over part of its depth: first and last place that hold it, from its front, mm."""

    depth_mm: float
    first_mm: float
    last_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sagged:
    """What comes of it. Margins: how many times over; None where a figure is missing."""

    new_mm: float
    later_mm: float | None
    straight_mm: float
    sound_mm: float
    straight: float | None
    sound: float
    strong: float | None
    bent: Bent

    @property
    def least(self) -> float:
        """The smallest margin of those that are known."""
        return min(m for m in (self.straight, self.sound, self.strong) if m is not None)


def sagged(shelf: Shelf) -> Sagged:
    """The shelf under its load. Raises NotHeld where it would fall."""
    made = section(shelf.strips)
    bent = bend(_beam(shelf, made, 1.0, 1.0))
    new = bent.sag_mm + _across_sag(shelf, made)
    later = None if shelf.creep is None else new * (1 + shelf.creep)
    span = shelf.span_mm
    straight, sound = shelf.limits.straight_mm(span), shelf.limits.sound_mm(span)
    used = made.used(bend(_beam(shelf, made, G_OWN, G_CONTENTS)).moment_Nmm)
    return Sagged(
        new_mm=new, later_mm=later, straight_mm=straight, sound_mm=sound,
        straight=None if later is None else _over(straight, later), sound=_over(sound, new),
        strong=None if used is None else _over(1.0, used), bent=bent,
    )  # fmt: skip


def _over(limit: float, value: float) -> float:
    return inf if value <= 0 else limit / value


def _beam(shelf: Shelf, made: Section, own: float, contents: float) -> Beam:
    supports = tuple(
        Support(at_mm=a, turning_Nmm_per_rad=k)
        for a, k in zip(shelf.at_mm, shelf.turning_Nmm_per_rad, strict=True)
    )  # fmt: skip
    points = tuple(PointLoad(at_mm=x, N=force * contents) for x, force in shelf.points)
    if shelf.middle_N:
        a, b = max(pairwise(shelf.at_mm), key=lambda s: s[1] - s[0], default=(0.0, 0.0))
        points = (*points, PointLoad(at_mm=(a + b) / 2, N=shelf.middle_N * contents))
    return Beam(
        length_mm=shelf.length_mm, bending_Nmm2=made.bending_Nmm2, shear_N=made.shear_N, supports=supports,
        even_N_per_mm=shelf.weight_N_per_mm * own + shelf.even_N_per_mm * contents, points=points,
    )  # fmt: skip


def _across_sag(shelf: Shelf, made: Section) -> float:
    """What a shelf dips at its front or back edge where its ends are held over part of their depth.

    Our own approximation: the end of the shelf bends across as a strip as wide as the shelf is deep (at most half
    its length), under the half of the load that comes to that end.
    """
    a = shelf.across
    if a is None or (a.first_mm <= 0 and a.last_mm >= a.depth_mm):
        return 0.0
    board = shelf.strips[0]
    wide = min(a.depth_mm, shelf.length_mm / 2)
    strip = section([replace(board, width_mm=wide)])
    load = (shelf.weight_N_per_mm + shelf.even_N_per_mm) * shelf.length_mm + shelf.middle_N
    return bend(
        Beam(
            length_mm=a.depth_mm, bending_Nmm2=strip.bending_Nmm2, shear_N=strip.shear_N,
            supports=(Support(at_mm=a.first_mm), Support(at_mm=a.last_mm)), even_N_per_mm=load / 2 / a.depth_mm,
        )
    ).sag_mm  # fmt: skip


@lru_cache(maxsize=1024)
def longest_span_mm(shelf: Shelf) -> float | None:
    """The longest that each span may be for this load to the metre, by every limit that is known; None: none.

    The heavy thing in the middle stays. Between 50 mm and 10 m.
    """
    low, high = 50.0, 10_000.0

    def margin(span: float) -> float:
        k = span / shelf.span_mm
        longer = replace(
            shelf, length_mm=shelf.length_mm * k, at_mm=tuple(a * k for a in shelf.at_mm),
            points=tuple((x * k, force) for x, force in shelf.points),
        )  # fmt: skip
        return sagged(longer).least

    if margin(high) >= 1:
        return high
    b = high
    while (a := b * 0.8) >= low and margin(a) < 1:
        b = a
    if a < low:
        return None
    guess = a
    for _ in range(40):  # the margin falls nearly as a power of the span: the straight line in logarithms
        m = margin(guess)
        a, b = (guess, b) if m >= 1 else (a, guess)
        if b - a < 0.5 or abs(m - 1) < 1e-6:
            break
        following = exp(log(guess) + log(m) / 3.2)
        guess = following if a < following < b else (a + b) / 2
    return a


def strip_under(shelf: Shelf, height_mm: float, thickness_mm: float) -> Shelf:
    """The shelf with a strip of its own board glued under an edge, on edge."""
    board = shelf.strips[0]
    under = replace(
        board, width_mm=thickness_mm, height_mm=height_mm, middle_mm=board.middle_mm - (board.height_mm + height_mm) / 2
    )
    heavier = shelf.weight_N_per_mm * (1 + height_mm * thickness_mm / (board.width_mm * board.height_mm))
    return replace(shelf, strips=(*shelf.strips, under), weight_N_per_mm=heavier)
