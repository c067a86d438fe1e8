"""Faults of a job file: where, what is wrong, how to mend it. Every one of them is reported, not only the first."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from difflib import get_close_matches
from typing import Any

from rodwork.job.lines import Lines, Path

SHOWN_AT_MOST = 40  # letters of a value that are repeated in a message
LISTED_AT_MOST = 20
NEAR = 0.6  # how alike two words must be before one is offered for the other


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing to put right in a job file: the line it stands on, what is wrong there, and how to mend it.

    Line 0: it was typed, and stands on no line.
    """

    file: str
    line: int
    path: Path
    what: str
    mend: str

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        return f"{place}: {self.what.rstrip('.')}. {self.mend}"


class JobFaults(Exception):  # noqa: N818 - the faults are the maker's to mend, not an error of ours
    """A job file that cannot be read: all its faults, in the order of their lines."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        told = {
            (f.file, f.line or f.path, f.what, f.mend): f for f in faults
        }  # once for all that take it from one line
        self.faults = tuple(sorted(told.values(), key=lambda fault: fault.line))
        super().__init__("\n".join(str(fault) for fault in self.faults))


def fault_at(lines: Lines, file: str, path: Path, what: str, mend: str) -> Fault:
    """The fault of a place in the job file, with the line that the place is written on."""
    return Fault(file=file, line=lines[path], path=path, what=what, mend=mend)


class Wrong(ValueError):  # noqa: N818 - the value is wrong, not the programme
    """A value that cannot be what it is written for.

    `why` follows "width is 5, which "; `at` is the place inside the value, where it is a list.
    """

    def __init__(self, why: str, mend: str, at: Path = ()) -> None:
        super().__init__(why)
        self.why = why
        self.mend = mend
        self.at = at


def shown(value: Any) -> str:
    """A value as it would stand in the file, cut short."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'"{_cut(value)}"'
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, int | float | Decimal):
        return _cut(str(value))
    return "something else"


def _cut(text: str) -> str:
    plain = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text[: SHOWN_AT_MOST + 1])
    return plain if len(plain) <= SHOWN_AT_MOST else plain[: SHOWN_AT_MOST - 3] + "..."


def near(word: str, words: Iterable[str], alike: float = NEAR) -> str | None:
    """The word that was probably meant, or None."""
    by_small_letters = {w.casefold(): w for w in words}
    small = word.strip().replace("-", "_").casefold()
    if small in by_small_letters:
        return by_small_letters[small]
    if len(word) > 2 * SHOWN_AT_MOST:
        return None  # comparing goes with the square of the length
    found = get_close_matches(small, by_small_letters, n=1, cutoff=alike)
    return by_small_letters[found[0]] if found else None


def one_of(words: Iterable[str], word: str, such_as: str) -> str:
    """How to mend a word that is none of these: the one that was probably meant, or the whole list."""
    words = tuple(words)
    meant = near(word, words)
    if meant is not None:
        return f'Did you mean "{meant}"?'
    if not words:
        return such_as
    listed = ", ".join(f'"{_cut(w)}"' for w in words[:LISTED_AT_MOST])
    return f"Write {'one of ' if len(words) > 1 else ''}{listed}{', ...' if len(words) > LISTED_AT_MOST else ''}"
