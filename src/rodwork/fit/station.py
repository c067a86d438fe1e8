"""Will it go together, flush and square: the dry fit of every cabinet of a Rod. Read this first.

Rod -> errors (errors.py) -> linear model (carcass.py, builder.py) -> draws -> verdict and pose (solve.py, kernel.py)
-> chances, lips, squareness, costs (forecast.py, here) -> what to do (remedies.py, as_cut.py) -> findings
"""

from collections.abc import Callable

import numpy as np

from rodwork.fit.arrays import Array
from rodwork.fit.carcass import SQUARENESS, model_of
from rodwork.fit.forecast import Asked, Forecast, ask, band, chance_with, forecast, joint_chances, pull_range, worst_gap
from rodwork.fit.remedies import remedies
from rodwork.fit.statistics import middle_range, wilson
from rodwork.model.accuracy import Accuracy
from rodwork.model.dry_fit import (
    FIGHTS,
    CabinetFit,
    Cost,
    DryFit,
    Histogram,
    JointCost,
    Lip,
    Place,
    Square,
    word_of,
)
from rodwork.model.finding import Finding
from rodwork.model.fixing import Joint
from rodwork.model.rod import Rod, RodCabinet

SEED = 20261128
SAMPLES = 4000
COST_SAMPLES = 1000
MOST_COSTS = 5
DRAWN = 20
BINS = 16
Say = Callable[[str, int], None]  # which cabinet, and how many samples of it are done


def in_silence(cabinet: str, samples: int) -> None:
    """Say nothing of the progress."""


def dry_fit_of(
    rod: Rod, accuracy: Accuracy, samples: int = SAMPLES, seed: int = SEED, cores: int = 1, say: Say = in_silence
) -> DryFit:
    """The dry fit of a whole job; cabinets of which no board is joined to another are passed over."""
    fits = tuple(_cabinet(rod, c, accuracy, samples, seed, cores, say) for c in rod.cabinets if c.joints)
    assumed = not accuracy.measured
    return DryFit(
        seed=seed, samples=samples, assumed=assumed, feel_mm=accuracy.give.feel_mm, cabinets=fits,
        findings=tuple(_finding(f, accuracy) for f in fits if f.chance < FIGHTS),
    )  # fmt: skip


def _cabinet(
    rod: Rod, cabinet: RodCabinet, accuracy: Accuracy, samples: int, seed: int, cores: int, say: Say
) -> CabinetFit:
    asked = ask(model_of(rod, cabinet.name, accuracy), (), seed, accuracy.give.ease_mm)
    found = forecast(asked, samples, cores, lambda n: say(cabinet.name, n))
    z = asked.draws(COST_SAMPLES)
    chance = found.chance(asked.ease_mm)
    costs = _costs(asked, found, z)
    joints = _joints(asked, found, z)
    lips = _lips(cabinet, found)
    return CabinetFit(
        cabinet=cabinet.name, copies=tuple(range(1, cabinet.count + 1)), boards=len(_boards(cabinet)),
        boards_measured=0, chance=chance, sampling=wilson(round(chance * samples), samples),
        band=band(asked, accuracy), weakest=min(joints, key=lambda j: (j.chance, -j.share)).joint,
        worst_gap_mm=worst_gap(asked, z), joints=joints, lips=lips, squareness=_squareness(asked, found), costs=costs,
        remedies=remedies(asked, found, accuracy.give.feel_mm), as_cut=(),
        histograms=_histograms(found), resolved=found.resolved,
    )  # fmt: skip


def _boards(cabinet: RodCabinet) -> set[str]:
    return {part for joint in cabinet.joints for part in joint.parts}


def _costs(asked: Asked, found: Forecast, z: Array) -> tuple[Cost, ...]:
    """What is missing, by what it comes from, the largest first; and what halving or perfecting each would do."""
    words = [s.words for s in asked.model.sources]
    shares: dict[str, float] = {}
    for word, share in zip(words, found.by_source, strict=True):
        shares[word] = shares.get(word, 0.0) + float(share)
    largest = sorted(shares, key=lambda w: -shares[w])[:MOST_COSTS]

    def chance_at(word: str, k: float) -> float:
        return chance_with(asked, z, np.array([k if w == word else 1.0 for w in words]))

    return tuple(
        Cost(what=w, share=shares[w], chance_if_halved=chance_at(w, 0.5), chance_if_perfect=chance_at(w, 0.0))
        for w in largest
        if shares[w] >= 0.01
    )


def _joints(asked: Asked, found: Forecast, z: Array) -> tuple[JointCost, ...]:
    chances = joint_chances(asked, z)
    return tuple(
        JointCost(joint=joint, share=float(share), chance=float(chance))
        for joint, share, chance in zip(asked.model.joints, found.by_joint, chances, strict=True)
    )


def _lips(cabinet: RodCabinet, found: Forecast) -> tuple[Lip, ...]:
    joints = {j.id: j for j in cabinet.joints}
    out = []
    for name, at in found.model.output_at.items():
        if not name.startswith("lip|"):
            continue
        _, joint, end = name.split("|")
        values = found.outputs[:, at]
        size = np.abs(values)
        out.append(
            Lip(
                joint=joint, place=_place(joints[joint], end), host=joints[joint].parts[0],
                guest=joints[joint].parts[1], mean_mm=float(values.mean()), likely_mm=float(np.median(size)),
                worst_mm=float(np.quantile(size, 0.95)), felt=float((size > 0.2).mean()),
                drawn=tuple(round(float(v), 4) for v in values[:DRAWN]),
            )
        )  # fmt: skip
    return tuple(out)


def _place(joint: Joint, end: str) -> Place:
    """The end of a run by the way it runs: front or back, left or right, bottom or top."""
    if end == "front":
        return "front edges"
    way = joint.contact.along if end == "to" else tuple(-c for c in joint.contact.along)
    axis = max(range(3), key=lambda i: abs(way[i]))
    ends: tuple[tuple[Place, Place], ...] = (("left", "right"), ("front", "back"), ("bottom", "top"))
    return ends[axis][way[axis] > 0]


def _squareness(asked: Asked, found: Forecast) -> tuple[Square, ...]:
    out = []
    for name in SQUARENESS:
        at = found.model.output_at.get(name)
        if at is None:
            continue
        values = found.outputs[:, at]
        low, high = middle_range(values)
        pull = pull_range(asked, name) if name == "diagonals" else None
        out.append(
            Square(
                name=name, mean_mm=float(values.mean()), low_mm=low, high_mm=high,
                pull_low_mm=pull[0] if pull else None, pull_high_mm=pull[1] if pull else None,
            )
        )  # fmt: skip
    return tuple(out)


def _histograms(found: Forecast) -> tuple[Histogram, ...]:
    """Worst lip of every assembly, and each of the three numbers of squareness."""
    lips = [at for name, at in found.model.output_at.items() if name.startswith("lip|")]
    out = []
    if lips:
        out.append(_histogram("lip", np.abs(found.outputs[:, lips]).max(axis=1)))
    out += [
        _histogram(name, found.outputs[:, found.model.output_at[name]])
        for name in SQUARENESS
        if name in found.model.output_at
    ]
    return tuple(out)


def _histogram(name: str, values: Array) -> Histogram:
    low, high = float(values.min()), float(values.max())
    wide = max((high - low) / BINS, 1e-6)
    counts, _ = np.histogram(values, bins=BINS, range=(low, low + BINS * wide))
    return Histogram(name=name, low_mm=low, wide_mm=wide, counts=tuple(int(c) for c in counts))


def _finding(fit: CabinetFit, accuracy: Accuracy) -> Finding:
    """The design demands more accuracy than the shop has."""
    largest = fit.costs[0].what if fit.costs else "the joints themselves"
    whose = "this shop measures" if accuracy.measured else "other shops have (nothing is measured here)"
    do = fit.remedies[0] if fit.remedies else None
    return Finding(
        severity="warning" if accuracy.measured else "note", code="dry-fit", cabinet=fit.cabinet, where=(fit.weakest,),
        message=f"It demands more accuracy than {whose}: {word_of(fit.chance)}. What costs most is {largest}.",
        mend=(f"{do.do[:1].upper()}{do.do[1:]}: {do.gains}." if do else "Give the fixings more play, or set fewer."),
        source="the dry fit on paper; accuracies " + ("measured" if accuracy.measured else "assumed"),
    )  # fmt: skip
