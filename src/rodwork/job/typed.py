"""Sizes of boards as cut that are typed at the prompt: 'G1-T 564.1', or 'G1-T 564.1 x 319.2 x 17.6'."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from rodwork.job.faults import Fault, JobFaults, Wrong, shown
from rodwork.job.lengths import Unit
from rodwork.job.values import Length
from rodwork.model.job import Job
from rodwork.model.measured import DIMENSIONS, Dimension, MeasuredBoard

TYPED = "--cut"
RANGES: dict[Dimension, Length] = {"length": Length(10, 6000), "width": Length(10, 6000), "thickness": Length(1, 63)}


def with_typed(job: Job, typed: Sequence[str]) -> Job:
    """The job with these boards as cut, each in place of what its file says of that size. Raises JobFaults."""
    measured = {board.mark: board for board in job.measured}
    faults: list[Fault] = []
    seen: dict[tuple[str, Dimension], str] = {}
    for one in typed:
        try:
            mark, sizes = _read(one, job.units)
            for dimension in sizes:
                if (mark, dimension) in seen:
                    also = shown(seen[mark, dimension])
                    raise Wrong(f"and {also} are two figures for one {dimension}", "Leave one of them out")
                seen[mark, dimension] = one
            measured[mark] = measured.get(mark, MeasuredBoard(mark=mark)).but(sizes)
        except Wrong as wrong:
            faults.append(Fault(file=TYPED, line=0, path=(), what=f"{shown(one)} {wrong.why}", mend=wrong.mend))
    if faults:
        raise JobFaults(faults)
    return replace(job, measured=tuple(measured.values()))


def _read(typed: str, unit: Unit) -> tuple[str, dict[Dimension, float]]:
    mark, *sizes = typed.split(maxsplit=1)[:2] or [""]
    words = re.split(r"\s+[xX×]\s+|(?<=\d)[xX×](?=\d)", sizes[0].strip()) if sizes else []
    if not words or len(words) > len(DIMENSIONS):
        raise Wrong("is not a mark and its sizes", "Write the length, or length x width: --cut 'G1-T 564.1'")
    return mark, dict(_sizes(mark, words, unit))


def _sizes(mark: str, words: list[str], unit: Unit) -> Iterator[tuple[Dimension, float]]:
    for dimension, word in zip(DIMENSIONS, words, strict=False):
        try:
            value: float | str = float(word)
        except ValueError:
            value = word
        try:
            yield dimension, RANGES[dimension].read(value, unit)
        except Wrong as wrong:
            raise Wrong(f"has a {dimension} that {wrong.why}", wrong.mend) from None
