"""A table as CSV: commas, RFC 4180 quoting and line ends, UTF-8; no cell can start a formula."""

import csv
import io
from collections.abc import Iterable, Sequence
from decimal import Decimal

Cell = str | int | float | Decimal | None
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")


def csv_bytes(header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    """The table, its heading first. Numbers stay numbers, whatever their sign.

    A text that a spreadsheet would take for a formula (it begins with = + - @, a tab or a line end, spaces before
    them or not) is written with an apostrophe before it, which is what a spreadsheet shows as plain text.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([_cell(c) for c in header])
    writer.writerows([_cell(c) for c in row] for row in rows)
    return out.getvalue().encode("utf-8", errors="replace")


def _cell(value: Cell) -> str:
    if value is None:
        return ""
    if isinstance(value, float):
        text = f"{value:.6f}".rstrip("0").rstrip(".")
        return "0" if text == "-0" else text
    if isinstance(value, str):
        return f"'{value}" if value.startswith(FORMULA_STARTS) or value.lstrip().startswith(FORMULA_STARTS) else value
    return str(value)
