"""Drawings as one PDF, a page of exactly its own size for each, its texts searchable.

All pages are compiled at once: a hundred take about as long as the shaping of their texts, and the fonts are
embedded once. What a user wrote never enters the typst source; it goes in as data.
"""

import datetime
import json
import re
import shutil
from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

from rodwork.documents.drawing import Drawing, font_file
from rodwork.writers.svg import svg

_SOURCE = b"""
#let pack = json(bytes(sys.inputs.pack))
#set document(
  title: pack.title,
  date: if pack.date == none { none } else { datetime(..pack.date) },
)
#set page(margin: 0pt)
#for sheet in pack.pages {
  page(
    width: sheet.width * 1mm,
    height: sheet.height * 1mm,
    image(bytes(sheet.svg), format: "svg", width: 100%, height: 100%),
  )
}
"""


def pdf(drawings: Sequence[Drawing], title: str, date: str | None) -> bytes:
    """The drawings as a PDF, one page each; `date` is the job's (year-month-day), never the clock's.

    The same drawings give the same bytes. Raises ValueError where there is nothing to print.
    """
    import typst

    if not drawings:
        raise ValueError("there is no page to print")
    pack = {"title": title, "date": _day(date), "pages": [_sheet(drawing) for drawing in drawings]}
    with TemporaryDirectory(prefix="rodwork-", ignore_cleanup_errors=True) as folder:
        for bold in (False, True):  # a folder of just these two: the package also holds lookalikes of each
            shutil.copy(font_file(bold), Path(folder) / font_file(bold).name)
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder])
        inputs = {"pack": json.dumps(pack)}
        made: bytes = typst.compile(_SOURCE, font_paths=fonts, sys_inputs=inputs, format="pdf")
    return made


def _sheet(drawing: Drawing) -> dict[str, object]:
    return {"width": drawing.width, "height": drawing.height, "svg": svg(drawing)}


def _day(date: str | None) -> dict[str, int] | None:
    """Year, month and day of a date as in 2026-11-25; None where it is none (the page shows it as written)."""
    if date is None or not re.fullmatch(r"\d{4}-\d\d-\d\d", date):
        return None
    try:
        day = datetime.date.fromisoformat(date)
    except ValueError:
        return None
    return {"year": day.year, "month": day.month, "day": day.day}
