"""The forecast of one cabinet: draws in chunks, verdicts and poses, and what they come to."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np

from rodwork.fit.arrays import Array, Bools
from rodwork.fit.builder import FLEX, GAP
from rodwork.fit.draws import chunks, draw
from rodwork.fit.kernel import ActiveSets
from rodwork.fit.linear import LinearModel
from rodwork.fit.measured import Measurement, conditioned
from rodwork.fit.solve import (
    ASSEMBLED,
    SIGNED,
    Factored,
    attainable,
    factored,
    goes_together,
    poses,
    shares_of_give,
    verdict,
)
from rodwork.model.accuracy import Accuracy, Sigma

LEAST_TO_TELL = 50  # assemblies, of the middle 95 in 100 of which something can be said
BAND_DRAWS = 39  # 95 in 100 lie between the least and the most of n, (n - 1) / (n + 1), whatever is drawn from


@dataclass(frozen=True, kw_only=True, eq=False)
class Chunk:
    """What one chunk of draws has come to: gives (N,), outputs (N, k), shares summed over the failing, and counts."""

    give_mm: Array
    outputs: Array
    by_source: Array
    by_joint: Array
    resolved: int


@dataclass(frozen=True, kw_only=True, eq=False)
class Forecast:
    """All chunks together; `by_source` (p,) and `by_joint` are mean shares of what is missing."""

    model: LinearModel
    give_mm: Array
    outputs: Array
    by_source: Array
    by_joint: Array
    resolved: int

    def chance(self, ease_mm: float) -> float:
        """How often all of it goes together."""
        return float((self.give_mm <= ease_mm).mean())

    def shape(self, name: str, ease_mm: float) -> Array:
        """A number of squareness of the assemblies that go together; of all of them where hardly any does.

        What does not go is drawn racked as far as its back and its corners let it, to be wanting the least: nobody will
        measure that.
        """
        values, goes = self.outputs[:, self.model.output_at[name]], self.give_mm <= ease_mm
        return values[goes] if goes.sum() >= LEAST_TO_TELL else values


@dataclass(frozen=True, kw_only=True, eq=False)
class Few:
    """The first few assemblies of a forecast, on which is tried what would be otherwise: draws z (N, p).

    With the active rows of their verdicts and of their poses as they are: whatever is tried begins there.
    """

    z: Array
    judged: ActiveSets
    posed: ActiveSets

    def first(self, samples: int) -> "Few":
        """Fewer still."""
        return Few(z=self.z[:samples], judged=self.judged.of(slice(samples)), posed=self.posed.of(slice(samples)))


@dataclass(frozen=True, kw_only=True, eq=False)
class Asked:
    """One question: a model made ready twice, what was measured, and from which seed the errors are drawn."""

    signed: Factored
    assembled: Factored
    measured: tuple[Measurement, ...]
    seed: int
    ease_mm: float

    @property
    def model(self) -> LinearModel:
        """The model that both were made from."""
        return self.signed.model

    def draws(self, samples: int, chunk: int = 0) -> Array:
        """(samples, p) errors that agree with what was measured."""
        z = draw(self.model.sources, samples, self.seed, chunk)
        return conditioned(self.model, z, self.measured, self.seed, chunk)


def first_few(asked: Asked, samples: int) -> Few:
    """The first so many assemblies of the forecast."""
    z = asked.draws(samples)
    return Few(z=z, judged=verdict(asked.signed, z).active, posed=poses(asked.assembled, z).active)


def ask(model: LinearModel, measured: tuple[Measurement, ...], seed: int, ease_mm: float) -> Asked:
    """Make a model ready."""
    return Asked(
        signed=factored(model, SIGNED), assembled=factored(model, ASSEMBLED), measured=measured, seed=seed,
        ease_mm=ease_mm,
    )  # fmt: skip


def forecast(asked: Asked, samples: int, cores: int = 1, done: Callable[[int], None] = lambda n: None) -> Forecast:
    """Draw, judge and assemble by chunks; the same answer on any number of cores. `done` is told of each chunk."""

    def one(piece: tuple[int, int]) -> Chunk:
        number, size = piece
        out = _chunk(asked, asked.draws(size, number))
        done(size)
        return out

    pieces = chunks(samples)
    if cores > 1 and len(pieces) > 1:
        with ThreadPoolExecutor(cores) as pool:
            found = list(pool.map(one, pieces))
    else:
        found = [one(piece) for piece in pieces]
    return Forecast(
        model=asked.model, give_mm=np.concatenate([c.give_mm for c in found]),
        outputs=np.concatenate([c.outputs for c in found]), by_source=_shared_out([c.by_source for c in found]),
        by_joint=_shared_out([c.by_joint for c in found]), resolved=sum(c.resolved for c in found),
    )  # fmt: skip


def _chunk(asked: Asked, z: Array) -> Chunk:
    found = verdict(asked.signed, z)
    posed = poses(asked.assembled, z)
    by_source, by_joint = shares_of_give(asked.signed, found, z)
    worst = _worst(found.give_mm, asked.ease_mm)
    return Chunk(
        give_mm=found.give_mm, outputs=posed.outputs, by_source=by_source[worst].sum(axis=0),
        by_joint=by_joint[worst].sum(axis=0), resolved=found.resolved + posed.resolved,
    )  # fmt: skip


def _worst(give_mm: Array, ease_mm: float) -> Bools:
    """Those that do not go together; where they are few, the hardest twentieth."""
    failing: Bools = give_mm > ease_mm
    if failing.sum() >= len(give_mm) / 20:
        return failing
    hardest: Bools = give_mm >= np.quantile(give_mm, 0.95)
    return hardest


def _shared_out(parts: list[Array]) -> Array:
    total = np.maximum(np.sum(parts, axis=0), 0.0)
    whole = total.sum()
    shares: Array = total / whole if whole > 0 else total
    return shares


def chance_with(asked: Asked, few: Few, factors: Array) -> float:
    """How often it goes together where every source is so many times itself; the errors stay the same ones."""
    return float(goes_together(asked.signed, few.z * factors, asked.ease_mm, few.judged).mean())


def eased_between(asked: Asked, by_mm: float) -> Asked:
    """The same cabinet with more play at every fixing but the first and last of its row."""
    model = asked.model
    more = by_mm * model.row_between
    wider = replace(model, low=model.low - more, high=model.high + more)
    return ask(wider, asked.measured, asked.seed, asked.ease_mm)


def band(asked: Asked, accuracy: Accuracy, few: Few) -> tuple[float, float]:
    """Range of the chance, from what is known of the shop's sigmas: each drawn anew from its own range.

    A measured sigma: sigma^2 = nu s^2 / chi2_nu. An assumed one: logarithms evenly likely about its middle, the range
    its 95 in 100; where nothing at all is measured, all of them move together: a good shop is good at everything.
    """
    stream = np.random.Generator(np.random.Philox(key=np.array([asked.seed, 1], dtype=np.uint64)))
    parameters = list(dict.fromkeys(s.parameter for s in asked.model.sources))
    column = np.array([parameters.index(s.parameter) for s in asked.model.sources])
    measured, chances = accuracy.measured, []
    for _ in range(BAND_DRAWS):
        together = stream.standard_normal()
        factors = [
            1.0 if asked.measured and p[1] == "size"
            else _factor(_sigma(accuracy, p), stream, None if measured else together)
            for p in parameters
        ]  # fmt: skip
        chances.append(chance_with(asked, few, np.array(factors)[column]))
    return min(chances), max(chances)


def _sigma(accuracy: Accuracy, parameter: tuple[str, str, str]) -> Sigma:
    method, kind, which = parameter
    spread = accuracy.named(method).errors[kind]  # type: ignore[index]
    return spread.shared if which == "shared" else spread.each


def _factor(sigma: Sigma, stream: np.random.Generator, together: float | None) -> float:
    if not sigma.assumed:
        return float(np.sqrt(sigma.readings / stream.chisquare(sigma.readings)))
    spread = stream.standard_normal() if together is None else together
    end = sigma.high if spread > 0 else sigma.low
    return float((end / sigma.value) ** (abs(spread) / 1.959964))


def stiff(model: LinearModel) -> LinearModel:
    """The same carcass of boards that do not bend: without those unknowns, and the rows that bound them."""
    bends = model.aim_kind == FLEX
    aims, straight = ~bends, ~model.aim_q[bends].any(axis=0)
    held = model.only(model.row_joint >= 0)
    return replace(
        held, row_q=held.row_q[:, straight], aim_q=model.aim_q[np.ix_(aims, straight)], aim_z=model.aim_z[aims],
        aim_kind=model.aim_kind[aims], out_q=model.out_q[:, straight],
        movement=model.movement[np.ix_(straight, straight)],
    )  # fmt: skip


def pull_range(asked: Asked, z: Array, output: str) -> tuple[float, float] | None:
    """How far an output can be pulled either way in the middle of assemblies z, mm, boards held straight.

    None where nothing holds it.
    """
    model = stiff(asked.model)
    give = verdict(factored(model, SIGNED), z).give_mm
    ends = [np.median(attainable(model, z, give, output, way)) for way in (-1.0, 1.0)]
    return (float(ends[0]), float(ends[1])) if np.isfinite(ends).all() else None


def joint_chances(asked: Asked, z: Array) -> Array:
    """(joints,) how often each joint goes together by itself: rows of the others are let go."""
    joint = asked.model.row_joint
    out = np.ones(len(asked.model.joints))
    for j in range(len(out)):
        own = joint == j
        if own.any():
            alone = asked.signed.only(own | (joint < 0))
            out[j] = (verdict(alone, z).give_mm <= asked.ease_mm).mean()
    return out


def worst_gap(asked: Asked, z: Array) -> float:
    """The shoulder that stands open furthest in the middle assembly, as drilled and drawn up, mm."""
    at = asked.model.aim_kind == GAP
    if not at.any():
        return 0.0
    forms = asked.model.aim_q[at] @ asked.assembled.to_pose + asked.model.aim_z[at]
    return float(np.median(np.maximum(z @ forms.T, 0.0).max(axis=1)))
