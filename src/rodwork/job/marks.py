"""The marks of cabinets: one to three capitals, unique in the job, made from the name where none is given."""

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain, product
from string import ascii_uppercase
from unicodedata import normalize


def marks(names: Iterable[str], given: Mapping[str, str]) -> dict[str, str]:
    """The mark of every cabinet. Those given stand; the others are made in the order of the file.

    "glaze" is G; where G is taken GL, GLA, then G with two later letters. "tall bookcase" is TB. A name without a
    letter of the alphabet, or whose letters are all used up, has the next free of A, B, ... ZZZ.
    """
    taken = set(given.values())
    free = chain.from_iterable(product(ascii_uppercase, repeat=n) for n in (1, 2, 3))
    found: dict[str, str] = {}
    for name in names:
        mark = given.get(name)
        if mark is None:
            mark = next((m for m in _from_name(name) if m not in taken), None)
            mark = mark or next(m for m in map("".join, free) if m not in taken)
            taken.add(mark)
        found[name] = mark
    return found


def _from_name(name: str) -> Iterator[str]:
    plain = normalize("NFKD", name).upper()
    words = "".join(
        c if c in ascii_uppercase else " " if not ("\u0300" <= c <= "\u036f") else "" for c in plain
    ).split()
    letters = "".join(words)
    if len(words) > 1:
        yield "".join(word[0] for word in words)[:3]
    yield from (letters[:n] for n in (1, 2, 3) if len(letters) >= n)
    for i in range(1, len(letters)):
        yield letters[0] + letters[i]
        yield from (letters[0] + letters[i] + later for later in letters[i + 1 :])
