"""XLSX: read back by an independent reader of the format it is the same table, and every text is text."""

import io
import json
import re
import zipfile
from decimal import Decimal
from pathlib import Path

import pytest
from openpyxl import load_workbook

from rodwork.documents.spreadsheets import buying_table, cutting_table, settings_table, workbook_tables
from rodwork.model.rod import Rod
from rodwork.writers.xlsx import xlsx_bytes

GLAZE = Path(__file__).parents[1] / "data" / "glaze.rod.json"


def glaze():
    return Rod.from_dict(json.loads(GLAZE.read_text(encoding="utf-8")))


def book(*sheets):
    return load_workbook(io.BytesIO(xlsx_bytes(sheets)))


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", " =1", "\t=1", "=cmd|' /C calc'!A0"])
def test_a_text_that_would_be_a_formula_is_stored_as_text(text):
    cell = book(("t", ("name",), [(text,)]))["t"]["A2"]
    assert (cell.value, cell.data_type) == (text, "s")
    assert cell.quotePrefix or text[0] not in "=+-@"


def test_no_sheet_of_a_job_holds_a_formula():
    data = xlsx_bytes((t.title, t.header, t.rows) for t in workbook_tables(glaze()))
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for name in archive.namelist():
            if "worksheets" in name:
                assert b"<f>" not in archive.read(name)


def test_numbers_are_numbers():
    sheet = book(("t", ("a", "b", "c", "d"), [(4, 564.8, Decimal("128.00"), None)]))["t"]
    assert [c.value for c in sheet[2]] == [4, 564.8, 128.0, None]
    assert [c.data_type for c in sheet[2]][:3] == ["n", "n", "n"]


def test_the_same_tables_give_the_same_bytes_and_no_clock_is_in_them():
    tables = [("t", ("a",), [("x", 1)])]
    data = xlsx_bytes(tables)
    assert xlsx_bytes(tables) == data
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert set(re.findall(rb">(\d{4})-", archive.read("docProps/core.xml"))) == {b"1980"}


def test_what_a_workbook_cannot_hold_is_shown_and_not_lost_in_silence():
    sheet = book(("a/b:c*d?[e]" + "x" * 40, ("n\x00me",), [("one\x07two",)]))
    title = sheet.sheetnames[0]
    assert title.startswith("a b c d")
    assert len(title) <= 31
    assert sheet[title]["A1"].value == "n\ufffdme"
    assert sheet[title]["A2"].value == "one\ufffdtwo"


def test_nothing_to_write_is_refused():
    with pytest.raises(ValueError, match="no table"):
        xlsx_bytes([])


def test_the_lists_of_a_job_come_back_from_the_workbook():
    r = glaze()
    tables = workbook_tables(r)
    read = book(*((t.title, t.header, t.rows) for t in tables))
    assert read.sheetnames == ["cutting list", "cut and edge", "buying list", "settings"]
    for table in tables:
        sheet = read[table.title]
        assert [c.value for c in sheet[1]] == list(table.header)
        assert sheet.max_row == len(table.rows) + 1


def test_the_cutting_table_by_hand():
    rows = {row[2]: row for row in cutting_table(glaze()).rows}
    side = rows["left and right side: 2 pairs"]
    assert side[3:9] == (4, 720.0, 319.0, 720.0, 320.0, 17.6)
    assert side[10:14] == ("front edge", "birch", 2, "G1-LS, G2-LS, G1-RS, G2-RS")


def test_the_buying_and_settings_tables_hold_what_the_pages_do():
    buying = {row[1]: row for row in buying_table(glaze()).rows}
    assert buying["dowel 8x30"][5:7] == (1, "box of 100")
    settings = [row for row in settings_table(glaze()).rows if row[0] == 11]
    assert settings[0][6:10] == (9.0, None, 12.0, 351.0)
    assert settings[0][13] == "G1-LS, G1-RS, G2-LS, G2-RS"
