"""A shop's own accuracy: readings -> standard deviations, their intervals, how little they prove; and a file.

A reading is how far a piece came off what the machine was set to, mm. Pieces of one setting share the setting's error.
Three settings of two offcuts are what a shop will really do; eight of three are the whole test; the first-off of
every job after adds a setting of one.
"""

import math
from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from rodwork.fit.readings import LARGEST_MM, SCHEMA, SHOWN, did_you_mean, readings_in
from rodwork.fit.statistics import Estimate, piece_to_piece, setting_to_setting
from rodwork.model.accuracy import Accuracy, ErrorKind, Method, Sigma, Spread
from rodwork.model.own_accuracy import AccuracyFault, Readings, TrialResult

ENOUGH = 8  # settings, of three pieces: the interval of either spread is then within about half and twice of it
WIDEST = 50.0  # an interval has no end with one degree of freedom or so: it is written as this many times the figure
KINDS: tuple[ErrorKind, ...] = ("size", "square", "bevel", "across", "stop", "marks", "depth")


def result_of(readings: Readings, accuracy: Accuracy) -> TrialResult:
    """What the readings of one method and kind come to. Raises AccuracyFault where they cannot be its readings."""
    method = known_method(readings.method, readings.kind, accuracy)
    known: ErrorKind = next(k for k in KINDS if k == readings.kind)
    values = [v for setting in readings.settings for v in setting]
    where = f"{readings.method}, {readings.kind}"
    if len(values) < 2:
        raise AccuracyFault(where, "one reading says nothing of how much they differ", "Measure two pieces at least")
    if max(values) == min(values):
        raise AccuracyFault(
            where, f"all {len(values)} readings are {values[0]:g}: no saw or jig is as true as that",
            "Read to 0.05 or finer, with a calliper, and write what it says",
        )  # fmt: skip
    before = method.errors[known]
    each, shared = _each(readings.settings), _shared(readings.settings)
    return TrialResult(
        method=method.name, kind=known, settings=len(readings.settings), readings=len(values),
        each=_sigma(each) if each else before.each, shared=_sigma(shared) if shared else before.shared,
        before=before, proves=_proves(each, shared, readings.settings),
    )  # fmt: skip


def known_method(name: str, kind: str, accuracy: Accuracy) -> Method:
    """The way of working of this name, which makes errors of this kind. Raises AccuracyFault."""
    named = {m.name: m for m in accuracy.methods}
    method = named.get(name)
    if method is None:
        raise AccuracyFault(f'"{name[:SHOWN]}"', "there is no such way of working", did_you_mean(name, tuple(named)))
    if kind not in method.errors:
        raise AccuracyFault(
            f'{name}, "{kind[:SHOWN]}"', "it has no such error", did_you_mean(kind, tuple(method.errors))
        )
    return method


def _each(settings: tuple[tuple[float, ...], ...]) -> Estimate | None:
    """From piece to piece, pooled over settings of any number of pieces."""
    several = [np.array(s) for s in settings if len(s) > 1]
    freedom = sum(len(s) - 1 for s in several)
    if freedom == 0 or not any(s.std() > 0 for s in several):
        return None
    square = sum(float(((s - s.mean()) ** 2).sum()) for s in several) / freedom
    scaled = np.zeros((1, freedom + 1))
    scaled[0, 0] = 1.0
    whole = piece_to_piece(scaled)
    k = math.sqrt(square) / whole.value
    return replace(whole, value=whole.value * k, low=whole.low * k, high=whole.high * k)


def _shared(settings: tuple[tuple[float, ...], ...]) -> Estimate | None:
    """From setting to setting, from those that have the most common number of pieces.

    None too where they lie closer together than their pieces would let them by chance: no interval is left of it.
    """
    sizes = [len(s) for s in settings]
    common = max(set(sizes), key=lambda n: (sizes.count(n), n))
    alike = [s for s in settings if len(s) == common]
    found = setting_to_setting(np.array(alike)) if len(alike) > 1 else None
    return found if found is not None and found.high > 0 else None


def _sigma(found: Estimate) -> Sigma:
    value = max(found.value, 1e-3)
    return Sigma(
        value=value, low=max(found.low, 1e-3), high=min(max(found.high, value), value * WIDEST),
        readings=found.freedom,
    )  # fmt: skip


def _proves(
    each: Estimate | None, shared: Estimate | None, settings: tuple[tuple[float, ...], ...]
) -> tuple[str, ...]:  # fmt: skip
    """How little few readings prove, in words."""
    said = []
    if each is None and any(len(pieces) > 1 for pieces in settings):
        said.append(
            "Pieces of one setting read all alike, which says nothing of how they differ: read to 0.05 or finer."
        )
    elif each is None:
        said.append("Nothing is known of how pieces of one setting differ: measure two pieces at a setting.")
    else:
        said.append(f"Piece to piece: {each.value:.2f}; it may be {_least(each.low)} and it may be {_most(each.high)}.")
    if shared is None and len(settings) > 1:
        said.append("The settings differ less than their pieces do: nothing is known of the setting itself yet.")
    elif shared is None:
        said.append("Nothing is known of the setting itself: set the machine anew and measure again.")
    else:
        said.append(
            f"Setting to setting: {shared.value:.2f}; anything from {_least(shared.low)} to {_most(shared.high)}."
        )
    if len(settings) < ENOUGH:
        prove = f"{len(settings)} settings prove" if len(settings) > 1 else "One setting proves"
        said.append(f"{prove} little: every first-off you type in makes it surer. Eight of three do.")
    return tuple(said)


def _least(value: float) -> str:
    return f"as little as {value:.2f}" if value >= 0.005 else "next to nothing"


def _most(value: float) -> str:
    return f"{value:.2f}" if value < LARGEST_MM else "anything"


def joined(readings: Iterable[Readings]) -> tuple[Readings, ...]:
    """Readings of one method and kind gathered, in the order they came."""
    found: dict[tuple[str, str], tuple[tuple[float, ...], ...]] = {}
    for one in readings:
        key = (one.method, one.kind)
        found[key] = (*found.get(key, ()), *one.settings)
    return tuple(Readings(method=m, kind=k, settings=s) for (m, k), s in found.items())


def merged(accuracy: Accuracy, results: Iterable[TrialResult]) -> Accuracy:
    """The accuracies with these in place of what was assumed."""
    by_method: dict[str, dict[ErrorKind, Spread]] = {}
    for result in results:
        by_method.setdefault(result.method, {})[result.kind] = Spread(shared=result.shared, each=result.each)
    return replace(
        accuracy,
        methods=tuple(
            replace(m, errors={**m.errors, **by_method[m.name]}) if m.name in by_method else m for m in accuracy.methods
        ),
    )


def file_of(results: Iterable[TrialResult], readings: Iterable[Readings]) -> str:
    """The shop's own file: every reading that was taken, and what they come to as comments."""
    lines = [f'schema = "{SCHEMA}"', "# The readings of this shop, mm off what the machine was set to; add to them."]
    for result, taken in zip(results, readings, strict=True):
        lines += ["", f'[readings."{taken.method}".{taken.kind}]', *(f"# {said}" for said in result.proves)]
        lines.append("settings = [" + ", ".join(str(list(s)) for s in taken.settings) + "]")
    return "\n".join(lines) + "\n"


def shop_accuracy(assumed: Accuracy, text: str | None, where: str) -> Accuracy:
    """The accuracies of a shop: its own readings, and what is assumed for the rest. Raises AccuracyFault."""
    if text is None:
        return assumed
    return merged(assumed, (result_of(r, assumed) for r in readings_in(text, where)))
