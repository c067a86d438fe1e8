"""Lengths as a maker writes them, exact: 600, "60 cm", "23 5/8 in", "2 ft 3 1/2 in". Inside, all is mm."""

import re
from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal
from unicodedata import normalize

from rodwork.job.faults import Wrong

Unit = Literal["mm", "in"]

# an inch is 25.4 mm exactly: international yard and pound agreement of 1959; also ISO 80000-3
MM: dict[str, Fraction] = {
    "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": Fraction(254, 10), "ft": Fraction(3048, 10),
}  # fmt: skip
LONGEST_TEXT = 40
FARTHEST = 10**9  # no number beyond this is looked at
SUCH_AS = 'such as 600, "600 mm", "23 5/8 in" or "2 ft 3 in"'

_FIGURE = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_MIXED = rf"(?:(?:[0-9]+[ -])?[0-9]+/[0-9]+|{_FIGURE})"
_METRIC = re.compile(rf"({_FIGURE}) ?(mm|cm|m)")
_FEET_AND_INCHES = re.compile(rf"(?:({_FIGURE}) ?ft)?[ -]?(?:({_MIXED}) ?in)?")
_BARE = re.compile(_MIXED)
_UNIT_WORDS = (
    (r"(?:inches|inch|\u2033|\u201d|\"|'')\.?", "in"),
    (r"(?:feet|foot|\u2032|\u2019|')\.?", "ft"),
    (r"\b(in|ft)\.", r"\1"),
)  # fmt: skip

# for the schema: no text that is read here fails it, and most that are no length do
LENGTH_PATTERN = "^\\s*-?\\s*[0-9.½¼¾⅛⅜⅝⅞⅓⅔][-0-9½¼¾⅛⅜⅝⅞⅓⅔\\s./\u2044\"'\u2032\u2033\u2019\u201dCEFHIMNOSTcefhimnost]*$"


def read_length(value: Any, default_unit: Unit) -> float:
    """A length in mm from a number (of the job's unit) or a text with a unit. May be nought or below.

    Raises Wrong where it is not a length.
    """
    if isinstance(value, str):
        return float(_from_text(value, default_unit))
    if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
        raise Wrong("is not a length", f"Write a length {SUCH_AS}")
    if not -FARTHEST < value < FARTHEST:  # nan too
        raise Wrong("is not a length for a shop", f"Write a length {SUCH_AS}")
    exact = Decimal(repr(value)) if isinstance(value, float) else Decimal(value)
    return float(exact if default_unit == "mm" else exact * Decimal("25.4"))


def as_written(mm: float, unit: Unit) -> str:
    """A limit as the job's own unit has it: 100 mm, or 3.94 in."""
    return f"{mm:g} mm" if unit == "mm" else f"{mm / 25.4:.4g} in"


def _from_text(text: str, default_unit: Unit) -> Fraction:
    if len(text) > LONGEST_TEXT:
        raise Wrong("is too long for a length", f"Write a length {SUCH_AS}")
    plain = _plain(text)
    sign = -1 if plain[:1] == "-" else 1
    plain = plain.removeprefix("-").lstrip()
    if metric := _METRIC.fullmatch(plain):
        return sign * _figure(metric.group(1)) * MM[metric.group(2)]
    if (imperial := _FEET_AND_INCHES.fullmatch(plain)) and plain:
        feet, inches = (_figure(figure) if figure else Fraction(0) for figure in imperial.groups())
        return sign * (feet * MM["ft"] + inches * MM["in"])
    if _BARE.fullmatch(plain) and (default_unit == "in" or "/" not in plain):
        return sign * _figure(plain) * MM[default_unit]
    raise Wrong("is not a length", _hint(text, plain))


def _plain(text: str) -> str:
    """Small letters, single spaces, mm cm m in ft for every way of writing a unit."""
    spaced = "".join(f" {normalize('NFKC', c)} " if c in "½¼¾⅛⅜⅝⅞⅓⅔" else c for c in text)
    plain = spaced.replace("\u2044", "/").casefold()
    for written, unit in _UNIT_WORDS:
        plain = re.sub(written, unit, plain)
    return re.sub(r" ?([/]) ?", r"\1", re.sub(r"\s+", " ", plain)).strip()


def _figure(text: str) -> Fraction:
    """A whole number, a decimal, a fraction, or a whole number and a fraction."""
    total = Fraction(0)
    for part in re.split(r"[ -]", text):
        over, _, under = part.partition("/")
        if under and int(under) == 0:
            raise Wrong("is divided by nought", f"Write a length {SUCH_AS}")
        total += Fraction(over) / (int(under) if under else 1)
    return total


def _hint(text: str, plain: str) -> str:
    if "," in plain:
        return f'Write the decimal with a point and thousands without a comma: "{_no_comma(plain)}"'
    if _BARE.fullmatch(plain):
        return f'Say the unit of a fraction: "{plain} in"'
    if re.fullmatch(rf"{_FIGURE} ?ft[ -]?{_MIXED}", plain):
        return f'Say what the last figure is: "{plain} in"'
    unit = re.fullmatch(rf"{_MIXED} ?([^0-9 ./-][^0-9]*)", plain)
    if unit:
        return f'Lengths are in mm, cm, m, in or ft, not in "{unit.group(1)}": write "600 mm" or "23 5/8 in"'
    return f"Write a length {SUCH_AS}"


def _no_comma(plain: str) -> str:
    thousands = re.sub(r",(?=[0-9]{3}(?![0-9]))", "", plain)
    return thousands.replace(",", ".")
