"""Will it go together, flush and square: the dry fit of every cabinet of a Rod. Read this first.

Rod -> errors (errors.py) -> linear model (carcass.py, builder.py) -> draws -> verdict and pose (solve.py, kernel.py)
-> chances, lips, squareness, costs (forecast.py, here) -> what to do (remedies.py, as_cut.py) -> findings
"""

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace

import numpy as np

from rodwork.fit.arrays import Array
from rodwork.fit.as_cut import Copy, as_cut, asked_of
from rodwork.fit.carcass import MITRE, SQUARENESS, model_of
from rodwork.fit.forecast import (
    Asked,
    Few,
    Forecast,
    band,
    chance_with,
    first_few,
    forecast,
    joint_chances,
    pull_range,
    stiff,
    worst_gap,
)
from rodwork.fit.live import live, live_chance
from rodwork.fit.remedies import remedies
from rodwork.fit.solve import all_as_drilled
from rodwork.fit.statistics import middle_range, wilson
from rodwork.geometry.vec import Vec, neg
from rodwork.model.accuracy import Accuracy
from rodwork.model.dry_fit import (
    FIGHTS,
    CabinetFit,
    Cost,
    DryFit,
    Histogram,
    JointCost,
    Lip,
    Mitres,
    Place,
    Square,
    word_of,
)
from rodwork.model.finding import Finding
from rodwork.model.fixing import Joint
from rodwork.model.rod import Rod, RodCabinet

SEED = 20261128
SAMPLES = 2000
MOST_BESIDE, LEAST_BESIDE, ALL_BESIDE = 800, 200, 2000  # assemblies for costs and things to do
MOST_COSTS = 5
RANGE_SAMPLES = 20
DRAWN = 20
BINS = 16
# by the way it looks, or lies: left, right, front, back, down, up
EDGES_AT: tuple[Place, ...] = (
    "left edges", "right edges", "front edges", "back edges", "bottom edges", "top edges",
)  # fmt: skip
ENDS_AT: tuple[Place, ...] = ("left", "right", "front", "back", "at the bottom", "at the top")
Say = Callable[[str, int], None]  # which cabinet, and how many samples of it are done


def in_silence(cabinet: str, samples: int) -> None:
    """Say nothing of the progress."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Work:
    """What is asked of every cabinet alike: the accuracies, how many assemblies, and how many for what is beside."""

    rod: Rod
    accuracy: Accuracy
    samples: int
    beside: int
    seed: int
    cores: int
    say: Say


def dry_fit_of(
    rod: Rod, accuracy: Accuracy, samples: int = SAMPLES, seed: int = SEED, cores: int = 1, say: Say = in_silence
) -> DryFit:
    """The dry fit of a whole job; cabinets of which no board is joined to another are passed over.

    Cabinets that differ in name and marks alone are forecast once, but for those of which a board was measured. Where
    there are many cabinets, costs and things to do are found from fewer assemblies.
    """
    asked = list(_copies(rod, accuracy, seed))
    alike = _first_alike(asked)
    different = [asked[n] for n in dict.fromkeys(alike)]
    beside = min(MOST_BESIDE, max(LEAST_BESIDE, ALL_BESIDE // max(len(different), 1)))
    work = _Work(rod=rod, accuracy=accuracy, samples=samples, beside=beside, seed=seed, cores=cores, say=say)
    if cores > 1 and len(different) > 1:
        alone = replace(work, cores=1)
        with ThreadPoolExecutor(cores) as pool:
            found = list(pool.map(lambda copy: _cabinet(copy, alone), different))
    else:
        found = [_cabinet(copy, work) for copy in different]
    fit_of = dict(zip(dict.fromkeys(alike), found, strict=True))
    for n, copy in enumerate(asked):
        if alike[n] != n:
            say(copy.cabinet.name, samples)
    fits = tuple(
        replace(fit_of[first], cabinet=copy.cabinet.name, copies=copy.numbers)
        for copy, first in zip(asked, alike, strict=True)
    )
    return DryFit(
        seed=seed, samples=samples, assumed=not accuracy.measured, feel_mm=accuracy.give.feel_mm, cabinets=fits,
        findings=tuple(_finding(f, accuracy) for f in fits if f.chance < FIGHTS),
    )  # fmt: skip


def _first_alike(copies: list[Copy]) -> list[int]:
    """For each the first of those that are made the same way; measured ones are like no other."""
    shapes: list[object] = []
    out = []
    for n, copy in enumerate(copies):
        shape = None if copy.measured else _shape(copy.rod, copy.cabinet)
        shapes.append(shape)
        out.append(n if shape is None else shapes.index(shape))
    return out


def _shape(rod: Rod, cabinet: RodCabinet) -> object:
    """All that the model of a cabinet is made from, without its name and marks: equal shapes have equal dry fits."""
    setups = []
    for setup in rod.setups:
        mine = tuple(replace(e, cabinet="") for e in setup.features if e.cabinet == cabinet.name)
        if mine:
            setups.append(replace(setup, id="", features=mine))
    return [replace(p, marks=()) for p in cabinet.parts], cabinet.joints, setups


def too_demanding(rod: Rod, accuracy: Accuracy) -> tuple[Finding, ...]:
    """Cabinets that demand more accuracy than the shop has, by the answer that needs no assemblies."""
    found = []
    for cabinet in rod.boxes:
        if cabinet.joints:
            answer = live(model_of(rod, cabinet.name, accuracy), accuracy.give.ease_mm)
            if answer.chance < FIGHTS:
                weakest = min(answer.joints, key=lambda joint: answer.joints[joint])
                mend = "`rodwork dry-fit` says what costs the fit and what to do"
                found.append(_demands(cabinet.name, weakest, answer.chance, accuracy, "", mend))
    return tuple(found)


def least_chance(rod: Rod, accuracy: Accuracy) -> float | None:
    """How often the worst cabinet of a job goes together, as it is drawn and before a board is cut; None: no joints.

    By the answer that is there while somebody types: near enough to put families side by side.
    """
    models = (model_of(rod, cabinet.name, accuracy) for cabinet in rod.boxes if cabinet.joints)
    return min((live_chance(model, accuracy.give.ease_mm) for model in models), default=None)


def _copies(rod: Rod, accuracy: Accuracy, seed: int) -> Iterator[Copy]:
    """Every entry of which boards are joined, with those of its boards that were measured."""
    by_mark = {board.mark: board for board in rod.measured}
    for cabinet in rod.boxes:
        if cabinet.joints:
            measured = {p.id: by_mark[p.marks[0]] for p in cabinet.parts if p.measured and p.marks[0] in by_mark}
            yield Copy(rod=rod, cabinet=cabinet, measured=measured, accuracy=accuracy, seed=seed)


def _cabinet(copy: Copy, work: _Work) -> CabinetFit:
    cabinet, accuracy = copy.cabinet, work.accuracy
    asked = asked_of(copy)
    found = forecast(asked, work.samples, work.cores, lambda n: work.say(cabinet.name, n))
    few = first_few(asked, work.beside)
    z, chance = few.z, found.chance(asked.ease_mm)
    joints = _joints(cabinet, asked, found, z)
    return CabinetFit(
        cabinet=cabinet.name, copies=copy.numbers, boards=len(_boards(cabinet)),
        boards_measured=len(_boards(cabinet) & set(copy.measured)), chance=chance,
        sampling=wilson(round(chance * work.samples), work.samples),
        band=band(asked, accuracy, few.first(work.beside // 4)),
        weakest=min(joints, key=lambda j: (j.chance, -j.share)), worst_gap_mm=worst_gap(asked, z), joints=joints,
        lips=_lips(cabinet, found, accuracy.give.feel_mm), squareness=_squareness(asked, found, z[:RANGE_SAMPLES]),
        mitres=_mitres(asked, z), costs=_costs(asked, found, few),
        remedies=remedies(asked, found, few, accuracy.give.feel_mm), as_cut=as_cut(copy),
        histograms=_histograms(found, asked.ease_mm), resolved=found.resolved,
    )  # fmt: skip


def _boards(cabinet: RodCabinet) -> set[str]:
    return {part for joint in cabinet.joints for part in joint.parts}


def _costs(asked: Asked, found: Forecast, few: Few) -> tuple[Cost, ...]:
    """What is missing, by what it comes from, the largest first; and what halving or perfecting each would do."""
    words = [s.words for s in asked.model.sources]
    shares: dict[str, float] = {}
    for word, share in zip(words, found.by_source, strict=True):
        shares[word] = shares.get(word, 0.0) + float(share)
    largest = sorted(shares, key=lambda w: -shares[w])[:MOST_COSTS]

    def chance_at(word: str, k: float) -> float:
        return chance_with(asked, few, np.array([k if w == word else 1.0 for w in words]))

    return tuple(
        Cost(what=w, share=shares[w], chance_if_halved=chance_at(w, 0.5), chance_if_perfect=chance_at(w, 0.0))
        for w in largest
        if shares[w] >= 0.01
    )


def _joints(cabinet: RodCabinet, asked: Asked, found: Forecast, z: Array) -> tuple[JointCost, ...]:
    chances = joint_chances(asked, z)
    parts = {j.id: j.parts for j in cabinet.joints}
    return tuple(
        JointCost(
            joint=joint, host=parts[joint][0], guest=parts[joint][1], share=float(share), chance=float(chance)
        )
        for joint, share, chance in zip(asked.model.joints, found.by_joint, chances, strict=True)
    )  # fmt: skip


def _lips(cabinet: RodCabinet, found: Forecast, feel_mm: float) -> tuple[Lip, ...]:
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
                worst_mm=float(np.quantile(size, 0.95)), felt=float((size > feel_mm).mean()),
                drawn=tuple(round(float(v), 4) for v in values[:DRAWN]),
            )
        )  # fmt: skip
    return tuple(out)


def _place(joint: Joint, end: str) -> Place:
    """Where two boards should be flush: by their edges that look against the run, or at which end of the run."""
    along = joint.contact.along
    return EDGES_AT[_way(neg(along))] if end == "front" else ENDS_AT[_way(along if end == "to" else neg(along))]


def _way(way: Vec) -> int:
    """0 to 5: left, right, front, back, down, up; the nearest of them."""
    axis = max(range(3), key=lambda i: abs(way[i]))
    return 2 * axis + (way[axis] > 0)


def _squareness(asked: Asked, found: Forecast, middle: Array) -> tuple[Square, ...]:
    out = []
    for name in SQUARENESS:
        if name not in found.model.output_at:
            continue
        values = found.shape(name, asked.ease_mm)
        low, high = middle_range(values)
        pull = pull_range(asked, middle, name) if name == "diagonals" else None
        out.append(
            Square(
                name=name, mean_mm=float(values.mean()), low_mm=low, high_mm=high,
                pull_low_mm=pull[0] if pull else None, pull_high_mm=pull[1] if pull else None,
            )
        )  # fmt: skip
    return tuple(out)


def _mitres(asked: Asked, z: Array) -> Mitres | None:
    """Of boards that nothing bends; None where no corner is mitred.

    A box can be racked, which opens two corners as it closes two; what is left of the angles' errors stays open.
    """
    names = [name for name in asked.model.outputs if name.startswith(MITRE)]
    if not names:
        return None
    forms = all_as_drilled(stiff(asked.model))
    gapes = z @ np.array([forms[asked.model.output_at[name]] for name in names]).T
    return Mitres(
        likely_mm=float(np.median(np.abs(gapes))), worst_mm=float(np.quantile(np.abs(gapes), 0.95)),
        outside=float((gapes < 0).mean()),
    )  # fmt: skip


def _histograms(found: Forecast, ease_mm: float) -> tuple[Histogram, ...]:
    """Worst lip of every assembly, and each of the three numbers of squareness of what goes together."""
    lips = [at for name, at in found.model.output_at.items() if name.startswith("lip|")]
    out = []
    if lips:
        out.append(_histogram("lip", np.abs(found.outputs[:, lips]).max(axis=1)))
    out += [_histogram(name, found.shape(name, ease_mm)) for name in SQUARENESS if name in found.model.output_at]
    return tuple(out)


def _histogram(name: str, values: Array) -> Histogram:
    low, high = float(values.min()), float(values.max())
    wide = max((high - low) / BINS, 1e-6)
    counts, _ = np.histogram(values, bins=BINS, range=(low, low + BINS * wide))
    return Histogram(name=name, low_mm=low, wide_mm=wide, counts=tuple(int(c) for c in counts))


def _finding(fit: CabinetFit, accuracy: Accuracy) -> Finding:
    """The design demands more accuracy than the shop has."""
    largest = fit.costs[0].what if fit.costs else "the joints themselves"
    do = fit.remedies[0] if fit.remedies else None
    mend = f"{do.do[:1].upper()}{do.do[1:]}: {do.gains}." if do else "Give the fixings more play, or set fewer."
    return _demands(fit.cabinet, fit.weakest.joint, fit.chance, accuracy, f" What costs most is {largest}.", mend)


def _demands(cabinet: str, weakest: str, chance: float, accuracy: Accuracy, why: str, mend: str) -> Finding:
    whose = "this shop measures" if accuracy.measured else "other shops have (nothing is measured here)"
    return Finding(
        severity="warning" if accuracy.measured else "note", code="dry-fit", cabinet=cabinet, where=(weakest,),
        message=f"It demands more accuracy than {whose}: {word_of(chance)}.{why}", mend=mend,
        source="the dry fit on paper; accuracies " + ("measured" if accuracy.measured else "assumed"),
    )  # fmt: skip
