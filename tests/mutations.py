"""Job files gone wrong: a sound one with a few random changes that keep it mostly readable, or do not."""

import random
import re

NUMBERS = (
    "0",
    "-1",
    "1e9",
    "nan",
    "inf",
    "-inf",
    "0.0001",
    "17.6",
    "99999999999999999999",
    "3",
    "1000",
    '"2 ft"',
    "true",
    "[]",
)
WORDS = ('"rest"', '""', '"dowel"', '"screw"', '"housing"', '"groove"', '"biscuit"', '"loose tenon"', '"carcass screw"', '"pocket screw"',
         '"nail"', '"tongue"', '"planted"', '"inset"', '"rebated"', "[1, 2]", "{}",
         '"../../x"', '"<b>&"', '"\\u0000"', '"=1+1"', '"x" # y', "2026-13-45")  # fmt: skip
LINES = ("[cabinets.extra]", "[job]", "[[cabinets]]", "x = 1", "back = {}", "openings = [100, 100]", "dividers = 3",
         "loose_shelves = [1, 1, 1]", "sides = \"between\"", "]", "{", "\x07", "shelf_set_back = 200")  # fmt: skip


def mutated(text: str, rng: random.Random) -> bytes:
    """The text with one change or a few."""
    for _ in range(rng.choice((1, 1, 1, 2, 3, 4))):
        text = rng.choice(CHANGES)(text, rng)
    raw = text.encode("utf-8", "surrogatepass")
    if rng.random() < 0.05 and raw:
        at = rng.randrange(len(raw))
        raw = raw[:at] + bytes([rng.randrange(256)]) + raw[at + 1 :]
    return raw


def _number(text: str, rng: random.Random) -> str:
    found = list(re.finditer(r"(?<![\w.\"])\d+(?:\.\d+)?(?![\w.\"])", text))
    if not found:
        return text
    m = rng.choice(found)
    new = rng.choice(NUMBERS) if rng.random() < 0.5 else str(round(float(m.group()) * rng.uniform(0.05, 3), 1))
    return text[: m.start()] + new + text[m.end() :]


def _word(text: str, rng: random.Random) -> str:
    found = list(re.finditer(r'"[^"\n]*"', text))
    if not found:
        return text
    m = rng.choice(found)
    new = rng.choice(WORDS) if rng.random() < 0.6 else rng.choice(found).group()
    return text[: m.start()] + new + text[m.end() :]


def _line(text: str, rng: random.Random) -> str:
    rows = text.split("\n")
    at = rng.randrange(len(rows))
    kind = rng.random()
    if kind < 0.35:
        del rows[at]
    elif kind < 0.6:
        rows.insert(at, rng.choice(rows))
    elif kind < 0.8:
        rows.insert(at, rng.choice(LINES))
    else:
        rows[at], rows[-1 - at] = rows[-1 - at], rows[at]
    return "\n".join(rows)


def _letter(text: str, rng: random.Random) -> str:
    if not text:
        return text
    at = rng.randrange(len(text))
    return text[:at] + rng.choice("abz_=[]{}\"'#\n,.0-é\x00") + text[at + 1 :]


CHANGES = (_number, _number, _number, _word, _word, _line, _letter)
