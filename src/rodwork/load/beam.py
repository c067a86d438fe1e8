"""A straight beam over any number of supports, solved exactly: bending and shear, even loads and single ones.

    v(x) = v0 + psi0 x - (1/EI) double integral of M + (1/GA) integral of V

with M a sum of brackets <x - a>: Macaulay's method, with Timoshenko's shear added. Downward is positive, sagging
moments are positive. A support may resist turning (a jointed end): its moment is stiffness x slope. Units N, mm, rad.
Source: any text on strength of materials (Macaulay 1919; Timoshenko 1921); held to two finite-element
libraries by tests. Small elastic movement of a straight beam of one section.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

_SAMPLES = 8  # places looked at between two points of the beam before the worst is narrowed down
_NARROWINGS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """Where a beam is held, mm from its left end; `turning` is what it takes to turn it there, N mm per rad."""

    at_mm: float
    turning_Nmm_per_rad: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PointLoad:
    """A single load, N, mm from the left end."""

    at_mm: float
    N: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """A beam from 0 to its length. `shear_N` is G A', None where shear is left out."""

    length_mm: float
    bending_Nmm2: float
    shear_N: float | None
    supports: tuple[Support, ...]
    even_N_per_mm: float = 0.0
    points: tuple[PointLoad, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Bent:
    """A beam under its loads: largest sag and where, largest moment (size), push of each support up on it, N.

    `held_Nmm` is the moment that each support's stiffness takes, hogging positive at the left end.
    """

    sag_mm: float
    sag_at_mm: float
    moment_Nmm: float
    shear_N: float
    reactions_N: tuple[float, ...]
    held_Nmm: tuple[float, ...]


class NotHeld(ValueError):  # noqa: N818 - it says what is wrong with the beam, not with us
    """A beam that would fall or turn: fewer than two supports and none that resists turning."""


@lru_cache(maxsize=4096)
def bend(beam: Beam) -> Bent:
    """The beam under its loads. Raises NotHeld where it is a mechanism."""
    supports = beam.supports
    stiff = [i for i, s in enumerate(supports) if s.turning_Nmm_per_rad > 0]
    places = {round(s.at_mm, 9) for s in supports}
    if len(places) < 2 and not stiff:
        raise NotHeld("one support alone: the shelf would tip off it" if supports else "nothing holds it")
    solved = _Solved(beam, _unknowns(beam, stiff), tuple(stiff))
    sag, at = solved.largest_sag()
    moment = max(abs(m) for x in solved.places for m in (solved.moment(x), solved.moment(x, after=False)))
    return Bent(
        sag_mm=sag, sag_at_mm=at, moment_Nmm=max(moment, solved.largest_between()), shear_N=solved.largest_shear(),
        reactions_N=solved.reactions, held_Nmm=solved.held,
    )  # fmt: skip


def _unknowns(beam: Beam, stiff: Sequence[int]) -> list[float]:
    """v0, psi0 x length, the supports' reactions, and the moments / length of those that resist turning."""
    n, m, L = len(beam.supports), len(stiff), beam.length_mm
    rows: list[list[float]] = []
    for s in beam.supports:  # no sag at a support
        rows.append([*_sag_terms(beam, stiff, s.at_mm), -_loads_sag(beam, s.at_mm)])
    for j, i in enumerate(stiff):  # its moment is its stiffness times the slope there
        s = beam.supports[i]
        terms = [t * s.turning_Nmm_per_rad / L for t in _slope_terms(beam, stiff, s.at_mm)]
        terms[2 + n + j] -= 1.0
        rows.append([*terms, -_loads_slope(beam, s.at_mm) * s.turning_Nmm_per_rad / L])
    total = beam.even_N_per_mm * L + sum(p.N for p in beam.points)
    rows.append([0.0, 0.0, *[1.0] * n, *[0.0] * m, total])
    about_end = beam.even_N_per_mm * L * L / 2 + sum(p.N * (L - p.at_mm) for p in beam.points)
    rows.append([0.0, 0.0, *[(L - s.at_mm) / L for s in beam.supports], *[-1.0] * m, about_end / L])
    return _solved(rows)


def _past(x: float, a: float, power: int) -> float:
    """Macaulay's bracket <x - a>^power."""
    return (x - a) ** power if x > a else 0.0


def _sag_terms(beam: Beam, stiff: Sequence[int], x: float) -> list[float]:
    EI, L, GA = beam.bending_Nmm2, beam.length_mm, beam.shear_N
    shear = 1 / GA if GA else 0.0
    reactions = [-_past(x, s.at_mm, 3) / (6 * EI) + shear * _past(x, s.at_mm, 1) for s in beam.supports]
    held = [L * _past(x, beam.supports[i].at_mm, 2) / (2 * EI) for i in stiff]
    return [1.0, x / L, *reactions, *held]


def _slope_terms(beam: Beam, stiff: Sequence[int], x: float) -> list[float]:
    EI, L = beam.bending_Nmm2, beam.length_mm
    reactions = [-_past(x, s.at_mm, 2) / (2 * EI) for s in beam.supports]
    held = [L * _past(x, beam.supports[i].at_mm, 1) / EI for i in stiff]
    return [0.0, 1.0 / L, *reactions, *held]


def _loads_sag(beam: Beam, x: float) -> float:
    EI, GA, w = beam.bending_Nmm2, beam.shear_N, beam.even_N_per_mm
    sag = w * x**4 / (24 * EI) + sum(p.N * _past(x, p.at_mm, 3) for p in beam.points) / (6 * EI)
    return sag - (w * x**2 / 2 + sum(p.N * _past(x, p.at_mm, 1) for p in beam.points)) / GA if GA else sag


def _loads_slope(beam: Beam, x: float) -> float:
    w = beam.even_N_per_mm
    return (w * x**3 / 6 + sum(p.N * _past(x, p.at_mm, 2) for p in beam.points) / 2) / beam.bending_Nmm2


def _solved(rows: list[list[float]]) -> list[float]:
    """Gauss with the largest pivot of each scaled row: a handful of equations at most."""
    n = len(rows)
    rows = [[v / scale for v in row] for row in rows if (scale := max(map(abs, row[:-1])) or 1.0)]
    for k in range(n):
        best = max(range(k, n), key=lambda i: abs(rows[i][k]))
        if abs(rows[best][k]) < 1e-14:
            raise NotHeld("it is not held: it would turn or fall")
        rows[k], rows[best] = rows[best], rows[k]
        pivot = rows[k]
        for row in rows[k + 1 :]:
            factor = row[k] / pivot[k]
            if factor:
                for j in range(k, n + 1):
                    row[j] -= factor * pivot[j]
    out = [0.0] * n
    for k in range(n - 1, -1, -1):
        out[k] = (rows[k][n] - sum(rows[k][j] * out[j] for j in range(k + 1, n))) / rows[k][k]
    return out


class _Solved:
    """A solved beam: sag, moment and shear anywhere along it."""

    def __init__(self, beam: Beam, unknowns: list[float], stiff: tuple[int, ...]) -> None:
        n = len(beam.supports)
        self.beam, self.unknowns, self.stiff = beam, unknowns, stiff
        self.reactions = tuple(unknowns[2 : 2 + n])
        held = [0.0] * n
        for j, i in enumerate(stiff):
            held[i] = unknowns[2 + n + j] * beam.length_mm
        self.held = tuple(held)
        self.places = sorted({0.0, beam.length_mm, *(s.at_mm for s in beam.supports), *(p.at_mm for p in beam.points)})

    def sag(self, x: float) -> float:
        terms = _sag_terms(self.beam, self.stiff, x)
        return sum(t * u for t, u in zip(terms, self.unknowns, strict=True)) + _loads_sag(self.beam, x)

    def moment(self, x: float, after: bool = True) -> float:
        """Just after x, or just before it: they differ where a support resists turning."""
        beam = self.beam
        lifted = sum(r * _past(x, s.at_mm, 1) for r, s in zip(self.reactions, beam.supports, strict=True))
        held = sum(m for m, s in zip(self.held, beam.supports, strict=True) if (s.at_mm <= x if after else s.at_mm < x))
        pressed = beam.even_N_per_mm * x * x / 2 + sum(p.N * _past(x, p.at_mm, 1) for p in beam.points)
        return lifted - held - pressed

    def shear(self, x: float, after: bool) -> float:
        """Just after x, or just before it."""
        beam = self.beam
        passed = [(r, s.at_mm) for r, s in zip(self.reactions, beam.supports, strict=True)]
        passed += [(-p.N, p.at_mm) for p in beam.points]
        return sum(f for f, a in passed if (a <= x if after else a < x)) - beam.even_N_per_mm * x

    def largest_shear(self) -> float:
        return max(abs(self.shear(x, after)) for x in self.places for after in (True, False))

    def largest_between(self) -> float:
        """The largest moment where the shear is nought between two places, or nought."""
        found, w = 0.0, self.beam.even_N_per_mm
        for a, b in zip(self.places, self.places[1:], strict=False):
            x = a + self.shear(a, after=True) / w if w > 0 else a
            if a < x < b:
                found = max(found, abs(self.moment(x)))
        return found

    def largest_sag(self) -> tuple[float, float]:
        """The largest sag up or down, as a size, and where it is."""
        best, at, step = 0.0, 0.0, 0.0
        for a, b in zip(self.places, self.places[1:], strict=False):
            for i in range(_SAMPLES + 1):
                x = a + (b - a) * i / _SAMPLES
                if abs(self.sag(x)) > best:
                    best, at, step = abs(self.sag(x)), x, (b - a) / _SAMPLES
        for _ in range(_NARROWINGS):  # the top of the parabola through three near places, nearer each time
            before, here, after = (abs(self.sag(x)) for x in (at - step, at, at + step))
            bow = before - 2 * here + after
            x = at + step * (before - after) / (2 * bow) if bow < 0 else at
            x = min(max(x, at - step, 0.0), at + step, self.beam.length_mm)
            if abs(self.sag(x)) > best:
                best, at = abs(self.sag(x)), x
            step /= 8
        return best, at
