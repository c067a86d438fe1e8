"""Readings as a shop writes them: typed at the prompt, in a table, in its own file. Raises AccuracyFault.

A reading is how far a piece came off what the machine was set to, mm. Where a comma stands for the point it is read so,
but for a list of numbers that have points in them: `0,05 0,1` and `0.05,0.1` are the same two readings.
"""

import csv
import re
import tomllib
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from io import StringIO
from typing import Any

from rodwork.model.own_accuracy import AccuracyFault, Readings

SCHEMA = "rodwork/accuracy/1"
LARGEST_MM = 5.0  # a piece further off than this was not set to that figure
COLUMNS = ("method", "kind", "setting", "reading")
MARKS = (",", ";", "\t")  # between the cells of a table; spreadsheets write semicolons where a comma is the point
SHOWN = 40
_FIGURE = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?", re.IGNORECASE | re.ASCII)
_DECIMAL_COMMA = re.compile(r"[+-]?\d*,\d+", re.ASCII)
_MINUS = "\u2212"


def read_numbers(text: str, where: str) -> tuple[float, ...]:
    """Readings as typed, with spaces, semicolons or commas between: "0.05 -0.1"."""
    words = [word.strip(",") for word in text.replace(";", " ").split()]
    found = [figure for word in words if word for figure in _figures(word)]
    if not found:
        raise AccuracyFault(where, "there is no reading in it", "Write how far each piece came off, in mm: 0.1 -0.05")
    return tuple(_number(figure, where) for figure in found)


def _figures(word: str) -> list[str]:
    """The figures of a word without spaces: more than one where commas stand between numbers with points."""
    return word.split(",") if "." in word else [word]


def _number(word: str, where: str) -> float:
    plain = word.strip().replace(_MINUS, "-")
    if _DECIMAL_COMMA.fullmatch(plain):
        plain = plain.replace(",", ".")
    if not _FIGURE.fullmatch(plain):
        raise AccuracyFault(
            where, f'"{word[:SHOWN]}" is not a number',
            "Write how far the piece came off, in mm, and a space between two readings: 0.1 -0.05",
        )  # fmt: skip
    return _within(float(plain), word, where)


def _within(value: float, shown: str, where: str) -> float:
    if not abs(value) <= LARGEST_MM:
        raise AccuracyFault(
            where, f"{shown[:SHOWN]} is over {LARGEST_MM:g} mm",
            "Is it the right piece? If it is, write how far it came off the setting, not its size",
        )  # fmt: skip
    return float(value)


def read_csv(text: str, where: str) -> tuple[Readings, ...]:
    """Readings from a table with the headings method, kind, setting, reading, in any order; others are passed over."""
    rows = _rows(text.removeprefix("\ufeff"), where)
    try:
        first, cells = next(rows)
    except StopIteration:
        raise AccuracyFault(
            where, "there is nothing in it", f"Head the columns {', '.join(COLUMNS)}; then a line for each piece"
        ) from None
    headings = [cell.casefold() for cell in cells]
    for name in COLUMNS:
        if headings.count(name) != 1:
            what = f"it has no column {name}" if name not in headings else f"two columns are headed {name}"
            raise AccuracyFault(f"{where}:{first}", what, f"Head the columns {', '.join(COLUMNS)}")
    found: dict[tuple[str, str], dict[str, list[float]]] = {}
    for line, cells in rows:
        method, kind, setting, reading = _row(headings, cells, f"{where}:{line}")
        found.setdefault((method, kind), {}).setdefault(setting, []).append(_number(reading, f"{where}:{line}"))
    if not found:
        raise AccuracyFault(where, "there is no reading in it", "Write a line for each piece")
    return tuple(
        Readings(method=method, kind=kind, settings=tuple(tuple(pieces) for pieces in settings.values()))
        for (method, kind), settings in found.items()
    )


def _rows(text: str, where: str) -> Iterator[tuple[int, list[str]]]:
    """Every row in which anything stands, with its line; parted by what stands most often in the first."""
    heading = text.lstrip("\r\n").partition("\n")[0]
    table = csv.reader(StringIO(text, newline=""), delimiter=max(MARKS, key=heading.count), strict=True)
    try:
        for cells in table:
            if any(cell.strip() for cell in cells):
                yield table.line_num, [cell.strip() for cell in cells]
    except csv.Error as problem:
        raise AccuracyFault(
            f"{where}:{table.line_num}", f"it is no table: {problem}", "Save it as CSV from the spreadsheet"
        ) from None


def _row(headings: list[str], cells: list[str], where: str) -> tuple[str, str, str, str]:
    while len(cells) > len(headings) and not cells[-1]:
        cells.pop()
    if len(cells) > len(headings):
        raise AccuracyFault(
            where, f"{len(cells)} cells stand under {len(headings)} headings",
            "With a comma as the point, save it with semicolons between the cells",
        )  # fmt: skip
    named = dict(zip(headings, cells, strict=False))
    for name in COLUMNS:
        if not named.get(name):
            mend = (
                "Give each setting a name or a number of its own"
                if name == "setting"
                else "Write it, or take the line out"
            )
            raise AccuracyFault(where, f"there is no {name}", mend)
    return named["method"], named["kind"], named["setting"], named["reading"]


def readings_in(text: str, where: str) -> tuple[Readings, ...]:
    """The readings of a shop's own file."""
    try:
        table = tomllib.loads(text.removeprefix("\ufeff"))
    except (ValueError, OverflowError, RecursionError) as problem:  # also of figures and brackets without end
        why = str(problem) if isinstance(problem, tomllib.TOMLDecodeError) else "a number or a list in it has no end"
        raise AccuracyFault(where, f"it is not TOML: {why}", "Let `rodwork accuracy` write it") from None
    if table.get("schema") != SCHEMA:
        raise AccuracyFault(where, "it is not a file of accuracies", f'Its first line is schema = "{SCHEMA}"')
    _no_other_words(table, ("schema", "readings"), where)
    return tuple(
        Readings(method=method, kind=kind, settings=_settings(row, f"{where}: {method}, {kind}"))
        for method, kinds in _table(table.get("readings", {}), where).items()
        for kind, row in _table(kinds, f"{where}: {method}").items()
    )


def _table(value: Any, where: str) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise AccuracyFault(where, "the readings are not a table", 'Write [readings."dowel jig".across]')
    return value


def _settings(row: Any, where: str) -> tuple[tuple[float, ...], ...]:
    if isinstance(row, Mapping):
        _no_other_words(row, ("settings",), where)
    settings = row.get("settings") if isinstance(row, Mapping) else None
    if not isinstance(settings, list) or not settings or not all(isinstance(s, list) and s for s in settings):
        raise AccuracyFault(where, "it has no readings", "Write settings = [[0.1, 0.05], [-0.1, -0.05]]")
    return tuple(tuple(_figure_of_file(value, where) for value in setting) for setting in settings)


def _figure_of_file(value: Any, where: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or value != value:
        raise AccuracyFault(where, f'"{str(value)[:SHOWN]}" is not a number', "Write how far the piece came off, in mm")
    return _within(value, str(value), where)


def _no_other_words(table: Mapping[str, Any], known: tuple[str, ...], where: str) -> None:
    for word in table:
        if word not in known:
            raise AccuracyFault(where, f'it has no word "{word[:SHOWN]}"', did_you_mean(word, known))


def did_you_mean(word: str, known: tuple[str, ...]) -> str:
    """How to mend a word that is none of these."""
    near = get_close_matches(word[:SHOWN].casefold(), known, n=1)
    return f'Did you mean "{near[0]}"?' if near else f"Write one of: {', '.join(known)}"
