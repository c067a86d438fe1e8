"""The files of a pack, one after another, as names and bytes: what cli.py writes and the tests read."""

import json
from collections.abc import Callable, Iterator
from typing import Literal

from rodwork.documents.comparison_pages import comparison_pages
from rodwork.documents.cost_picture import cost_drawing
from rodwork.documents.cutting_pages import cutting_pages
from rodwork.documents.cutting_words import CUT_HEADER, PLACE_HEADER, cut_rows, place_rows
from rodwork.documents.pack import pack_drawings
from rodwork.documents.page import numbered
from rodwork.documents.spreadsheets import workbook_tables
from rodwork.model.costing import Comparison
from rodwork.model.cutting import CuttingPlan
from rodwork.model.plain import to_plain
from rodwork.model.results import NOTHING_ASKED, Results
from rodwork.model.rod import Rod
from rodwork.writers.csv_table import csv_bytes
from rodwork.writers.dxf import dxf_files, sheet_dxf_files
from rodwork.writers.glb import glb_files
from rodwork.writers.pdf import pdf
from rodwork.writers.svg import svg
from rodwork.writers.user_text import file_name
from rodwork.writers.xlsx import xlsx_bytes

Say = Callable[[str], None]


def _in_silence(what: str) -> None:
    """Say nothing of the progress."""


def pack_files(
    rod: Rod, dxf: Literal["R12", "R2010"], say: Say = _in_silence, results: Results = NOTHING_ASKED
) -> Iterator[tuple[str, bytes]]:
    """(file name, content) of every file of the pack, the PDF first. `say` is told what is being made."""
    say("drawing the pages")
    drawings = pack_drawings(rod, results)
    say(f"printing {len(drawings)} pages")
    yield file_name((rod.job, rod.heading.letter), "pack.pdf"), pdf(drawings, rod.job, rod.heading.date)
    say("writing the lists")
    tables = workbook_tables(rod, results)
    yield "cutting-list.csv", csv_bytes(tables[0].header, tables[0].rows)
    yield "cut-and-edge.csv", csv_bytes(tables[1].header, tables[1].rows)
    yield "lists.xlsx", xlsx_bytes((t.title, t.header, t.rows) for t in tables)
    yield "set-out.json", (json.dumps(rod.to_dict(), ensure_ascii=False) + "\n").encode()
    if results.cutting:
        yield from cutting_files(results.cutting, dxf)
    say("drawing the boards for machines")
    for name, content in dxf_files(rod, dxf):
        yield f"dxf/{name}", content
    say("building the cabinets")
    for name, content in glb_files(rod):
        yield f"3d/{name}", content
    say("")


def cutting_files(plan: CuttingPlan, dxf: Literal["R12", "R2010"]) -> Iterator[tuple[str, bytes]]:
    """The cutting plan as data and as lists; for a router a drawing of each sheet."""
    yield "cutting-plan.json", (json.dumps(to_plain(plan), ensure_ascii=False) + "\n").encode()
    yield "cuts.csv", csv_bytes(CUT_HEADER, cut_rows(plan))
    yield "sheets.csv", csv_bytes(PLACE_HEADER, place_rows(plan))
    if plan.saw.kind == "router":
        for name, content in sheet_dxf_files(plan, dxf):
            yield f"dxf/{name}", content


def cutting_plan_files(rod: Rod, plan: CuttingPlan, dxf: Literal["R12", "R2010"]) -> Iterator[tuple[str, bytes]]:
    """The cutting plan alone: its pages, and beside them what cutting_files has."""
    drawings = numbered(cutting_pages(rod, plan), rod)
    yield file_name((rod.job, rod.heading.letter), "cutting-plan.pdf"), pdf(drawings, rod.job, rod.heading.date)
    yield from cutting_files(plan, dxf)


def comparison_file(rod: Rod, compared: Comparison, suffix: str) -> bytes:
    """The comparison as a PDF of its own (".pdf"), or the picture of costs alone (".svg")."""
    if suffix == ".svg":
        return svg(cost_drawing(compared)).encode()
    return pdf(numbered(comparison_pages(rod, compared), rod), rod.job, rod.heading.date)
