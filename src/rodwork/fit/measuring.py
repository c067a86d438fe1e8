"""A shop's own accuracy: readings -> standard deviations, their intervals, how little they prove; and a file.

A reading is how far a piece came off what the machine was set to, mm. Pieces of one setting share the setting's error.
Three settings of two offcuts are what a shop will really do; eight of three are the whole test; the first-off of
every job after adds a setting of one.
"""

import csv
import math
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from io import StringIO
from typing import Any

import numpy as np

from rodwork.fit.statistics import Estimate, piece_to_piece, setting_to_setting
from rodwork.model.accuracy import Accuracy, ErrorKind, Method, Sigma, Spread
from rodwork.model.own_accuracy import AccuracyFault, Readings, TrialResult

SCHEMA = "rodwork/accuracy/1"
LARGEST_MM = 5.0  # a piece further off than this was not set to that figure
WIDEST = 50.0  # an interval has no end with one degree of freedom or so: it is written as this many times the figure
KINDS: tuple[ErrorKind, ...] = ("size", "square", "bevel", "across", "stop", "marks", "depth")


def read_numbers(text: str, where: str) -> tuple[float, ...]:
    """Readings as typed, with spaces or commas between: "0.05 -0.1". Raises AccuracyFault."""
    words = text.replace(",", " ").replace(";", " ").split()
    if not words:
        raise AccuracyFault(where, "there is no reading in it", "Write how far each piece came off, in mm: 0.1 -0.05")
    return tuple(_number(word, where) for word in words)


def _number(word: str, where: str) -> float:
    try:
        value = float(word)
    except ValueError:
        raise AccuracyFault(
            where, f'"{word[:40]}" is not a number', "Write how far the piece came off, in mm"
        ) from None
    if not math.isfinite(value) or abs(value) > LARGEST_MM:
        raise AccuracyFault(
            where,
            f"{word[:40]} is over {LARGEST_MM:g} mm",
            "Write how far the piece came off the setting, not its size",
        )
    return value


def read_csv(text: str, where: str) -> tuple[Readings, ...]:
    """Readings from a table with the headings method, kind, setting, reading. Raises AccuracyFault."""
    table = csv.DictReader(StringIO(text.lstrip("\ufeff")))
    needed = ("method", "kind", "setting", "reading")
    lacking = [n for n in needed if n not in (table.fieldnames or ())]
    if lacking:
        raise AccuracyFault(f"{where}:1", f"it has no column {lacking[0]}", f"Head the columns {', '.join(needed)}")
    found: dict[tuple[str, str], dict[str, list[float]]] = {}
    for number, row in enumerate(table, 2):
        place = f"{where}:{number}"
        settings = found.setdefault(((row["method"] or "").strip(), (row["kind"] or "").strip()), {})
        settings.setdefault((row["setting"] or "").strip(), []).append(_number((row["reading"] or "").strip(), place))
    if not found:
        raise AccuracyFault(where, "there is no reading in it", "Write a line for each piece")
    return tuple(
        Readings(method=method, kind=kind, settings=tuple(tuple(v) for v in settings.values()))
        for (method, kind), settings in found.items()
    )


def result_of(readings: Readings, accuracy: Accuracy) -> TrialResult:
    """What the readings of one method and kind come to. Raises AccuracyFault where they cannot be its readings."""
    method = _known(readings, accuracy)
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
        before=before, proves=_proves(each, shared, len(readings.settings)),
    )  # fmt: skip


def _known(readings: Readings, accuracy: Accuracy) -> Method:
    named = {m.name: m for m in accuracy.methods}
    method = named.get(readings.method)
    if method is None:
        raise AccuracyFault(
            f'"{readings.method[:40]}"', "there is no such way of working", f"Write one of: {', '.join(named)}"
        )
    if readings.kind not in method.errors:
        raise AccuracyFault(
            f"{readings.method}, {readings.kind[:40]!r}", "it has no such error",
            f"Write one of: {', '.join(method.errors)}",
        )  # fmt: skip
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
    """From setting to setting, from those that have the most common number of pieces."""
    sizes = [len(s) for s in settings]
    common = max(set(sizes), key=lambda n: (sizes.count(n), n))
    alike = [s for s in settings if len(s) == common]
    return setting_to_setting(np.array(alike)) if len(alike) > 1 else None


def _sigma(found: Estimate) -> Sigma:
    value = max(found.value, 1e-3)
    return Sigma(
        value=value, low=max(found.low, 1e-3), high=min(max(found.high, value), value * WIDEST),
        readings=found.freedom,
    )  # fmt: skip


def _proves(each: Estimate | None, shared: Estimate | None, settings: int) -> tuple[str, ...]:
    """How little few readings prove, in words."""
    said = []
    if each is None:
        said.append("Nothing is known of how pieces of one setting differ: measure two pieces at a setting.")
    else:
        said.append(f"Piece to piece: {each.value:.2f}; it may be {_least(each.low)} and it may be {_most(each.high)}.")
    if shared is None:
        said.append("Nothing is known of the setting itself: set the machine anew and measure again.")
    else:
        said.append(
            f"Setting to setting: {shared.value:.2f}; anything from {_least(shared.low)} to {_most(shared.high)}."
        )
    if settings < 8:
        said.append(f"{settings} settings prove little: every first-off you type in makes it surer. Eight of three do.")
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


def readings_in(text: str, where: str) -> tuple[Readings, ...]:
    """The readings of a shop's own file. Raises AccuracyFault."""
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as problem:
        raise AccuracyFault(where, f"it is not TOML: {problem}", "Let `rodwork accuracy` write it") from None
    if table.get("schema") != SCHEMA:
        raise AccuracyFault(where, "it is not a file of accuracies", f'Its first line is schema = "{SCHEMA}"')
    found = table.get("readings", {})
    if not isinstance(found, dict):
        raise AccuracyFault(where, "readings is not a table", 'Write [readings."dowel jig".across]')
    return tuple(
        Readings(method=str(method), kind=str(kind), settings=_settings(row, f"{where}: {method}, {kind}"))
        for method, kinds in found.items()
        for kind, row in (kinds.items() if isinstance(kinds, dict) else ())
    )


def _settings(row: Any, where: str) -> tuple[tuple[float, ...], ...]:
    settings = row.get("settings") if isinstance(row, Mapping) else None
    if not isinstance(settings, list) or not all(isinstance(s, list) and s for s in settings) or not settings:
        raise AccuracyFault(where, "it has no readings", "Write settings = [[0.1, 0.05], [-0.1, -0.05]]")
    return tuple(tuple(_number(str(v), where) for v in s) for s in settings)


def shop_accuracy(assumed: Accuracy, text: str | None, where: str) -> Accuracy:
    """The accuracies of a shop: its own readings, and what is assumed for the rest. Raises AccuracyFault."""
    if text is None:
        return assumed
    return merged(assumed, (result_of(r, assumed) for r in readings_in(text, where)))
