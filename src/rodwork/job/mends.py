"""What a mend writes to the file, in a job whose bare numbers are inches: mm there say that they are mm."""

import re
from collections.abc import Iterator
from functools import cache

from rodwork.job import words
from rodwork.job.inline import Inline
from rodwork.job.lengths import Unit
from rodwork.job.values import Amount, Kind, Length, LengthOr, LengthOrName, ListOf, OneOrList, Whole

_WRITTEN = re.compile(r"\b(?P<word>[a-z_]+) = (?P<value>\[[\d., ]+\]|-?\d+(?:\.\d+)?)")
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def in_units(mend: str, units: Unit) -> str:
    """The mend as it can be copied into a job with these units: `start = 6.15` becomes `start = "6.15 mm"`."""
    if units == "mm":
        return mend
    return _WRITTEN.sub(lambda m: _said(m["word"], m["value"]), mend)


def _said(word: str, value: str) -> str:
    if word in _length_words():
        value = _NUMBER.sub(lambda n: f'"{n[0]} mm"', value)
    return f"{word} = {value}"


@cache
def _length_words() -> frozenset[str]:
    """The words of the job file whose bare numbers are lengths, in every table that has them."""
    tables = [t for t in vars(words).values() if isinstance(t, type) and issubclass(t, words.Words)]
    found = [one for table in tables for one in _kinds(table)]
    lengths = frozenset(word for word, kind in found if isinstance(kind, Length | LengthOr | LengthOrName))
    return lengths - {word for word, kind in found if isinstance(kind, Whole | Amount)}


def _kinds(table: type[words.Words]) -> Iterator[tuple[str, Kind]]:
    for name, field in table.model_fields.items():
        for kind in field.metadata:
            if isinstance(kind, Kind):
                yield from _within(field.alias or name, kind)


def _within(word: str, kind: Kind) -> Iterator[tuple[str, Kind]]:
    """A word's kind, and where it is a list or a small table the kinds that stand in it."""
    if isinstance(kind, ListOf | OneOrList):
        yield from _within(word, kind.kind)
    elif isinstance(kind, Inline):
        for inner, of in kind.words.items():
            yield from _within(inner, of)
    else:
        yield word, kind
