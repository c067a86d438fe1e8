"""Tables as one XLSX workbook: every text is text, never a formula, and the same tables give the same bytes."""

import io
import re
import zipfile
from collections.abc import Iterable, Sequence
from datetime import datetime
from decimal import Decimal
from typing import Any

Cell = str | int | float | Decimal | None
_EPOCH = datetime(1980, 1, 1)  # no clock: the job's own date stands on its pages
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]|[\ud800-\udfff]")
_NOT_IN_A_TITLE = re.compile(r"[\[\]:*?/\\]")
_WIDEST = 60


def xlsx_bytes(sheets: Iterable[tuple[str, Sequence[str], Iterable[Sequence[Cell]]]]) -> bytes:
    """A workbook with a sheet for each (title, heading, rows). Raises ValueError where there is no sheet.

    A text that begins with = + - @ is stored as text, marked as such (quotePrefix), so that it stays text when
    it is edited. Characters that a workbook cannot hold are shown as a question mark in a box.
    """
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.active)
    for title, header, rows in sheets:
        _fill(book, title, header, rows)
    if not book.worksheets:
        raise ValueError("there is no table to write")
    book.properties.created = book.properties.modified = _EPOCH
    book.properties.creator = "rodwork"
    out = io.BytesIO()
    book.save(out)
    return _without_clock(out.getvalue())


def _fill(book: Any, title: str, header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> None:
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    sheet = book.create_sheet(_NOT_IN_A_TITLE.sub(" ", _clean(title))[:31].strip() or "table")
    widths = [len(h) for h in header]
    for n, text in enumerate(header, 1):
        _put(sheet.cell(row=1, column=n), text)
        sheet.cell(row=1, column=n).font = Font(bold=True)
    for r, row in enumerate(rows, 2):
        for n, value in enumerate(row, 1):
            if value is not None:
                _put(sheet.cell(row=r, column=n), value)
                if n <= len(widths):
                    widths[n - 1] = max(widths[n - 1], len(str(value)))
    for n, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(n)].width = min(width, _WIDEST) + 2
    sheet.freeze_panes = "A2"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True


def _put(cell: Any, value: str | int | float | Decimal) -> None:
    if not isinstance(value, str):
        cell.value = value
        return
    text = _clean(value)
    cell.value = text
    cell.data_type = "s"
    if text.lstrip()[:1] in ("=", "+", "-", "@") and text.strip():
        cell.quotePrefix = True


def _clean(text: str) -> str:
    return _CONTROL.sub("\ufffd", text)[:32767]


def _without_clock(data: bytes) -> bytes:
    """The same archive with no time in it but 1980."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = re.sub(rb"(<dcterms:modified[^>]*>)[^<]*", rb"\g<1>1980-01-01T00:00:00Z", content)
            info = zipfile.ZipInfo(name, date_time=(1980, 1, 1, 0, 0, 0))
            info.compress_type = zipfile.ZIP_DEFLATED
            info.external_attr = 0o600 << 16
            new.writestr(info, content)
    return out.getvalue()
