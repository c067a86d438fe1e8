"""What a user wrote, made fit for a file's name or for one line: any text may come, none may do harm."""

import re
import unicodedata
from collections.abc import Sequence

_LONGEST_STEM = 80


def one_line(text: str) -> str:
    """The text on one line, without control characters or marks that turn the direction of writing."""
    kept = (" " if ch in "\t\r\n\v\f\x85\u2028\u2029" else ch for ch in text)
    visible = "".join(ch for ch in kept if unicodedata.category(ch)[0] != "C")
    return re.sub(r"\s+", " ", visible).strip()


def file_name(words: Sequence[str], ending: str) -> str:
    """A name that every system takes: plain letters, figures, - and _, whatever the words hold.

    `ending` is our own, such as "mm.dxf"; it always follows an underscore, so no name is one that a system keeps
    for itself, and none begins with a dot or a hyphen.
    """
    plain = (_plain(word) for word in words)
    stem = "_".join(word for word in plain if word)[:_LONGEST_STEM].strip("_-") or "board"
    return f"{stem}_{ending}"


def _plain(word: str) -> str:
    letters = unicodedata.normalize("NFKD", word).encode("ascii", "ignore").decode("ascii")
    return re.sub(r"[^A-Za-z0-9-]+", "_", letters).strip("_-")


def told_apart(names: Sequence[str]) -> tuple[str, ...]:
    """The names, with _2, _3 ... before the ending where two would be one file (capitals do not tell them apart)."""
    taken: set[str] = set()
    out = []
    for name in names:
        stem, dot, ending = name.partition(".")
        candidate, n = name, 1
        while candidate.lower() in taken:
            n += 1
            candidate = f"{stem}_{n}{dot}{ending}"
        taken.add(candidate.lower())
        out.append(candidate)
    return tuple(out)
