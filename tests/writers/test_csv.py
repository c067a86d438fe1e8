"""CSV: read back by the standard library it is the same table, and no cell can be a formula."""

import csv
import io
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.writers.csv_table import csv_bytes


def read(data):
    return list(csv.reader(io.StringIO(data.decode("utf-8"), newline="")))


def test_numbers_stay_numbers_and_nothing_is_nothing():
    data = csv_bytes(("a", "b", "c", "d"), [(1, -2.5, Decimal("64.00"), None), (720.0, 564.8, -0.0, "x")])
    assert read(data) == [["a", "b", "c", "d"], ["1", "-2.5", "64.00", ""], ["720", "564.8", "0", "x"]]
    assert data.endswith(b"\r\n")  # RFC 4180


@pytest.mark.parametrize(
    "text", ['=HYPERLINK("http://x")', "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", " =1", "=cmd|' /C calc'!A0"]
)
def test_a_text_that_would_be_a_formula_is_made_plain(text):
    """The starts that spreadsheets act on, as listed by the OWASP page on CSV injection (from memory)."""
    ((header,), (cell,)) = read(csv_bytes((text,), [(text,)]))
    assert cell == header == f"'{text}"


@pytest.mark.parametrize("text", ["G1-LS", "birch, 18 mm", 'a "quoted" name', "two\r\nlines", "Blåbär", "a=b"])
def test_other_texts_come_back_as_they_were(text):
    assert read(csv_bytes(("name",), [(text,)]))[1] == [text]


@given(st.lists(st.lists(st.text(st.characters(codec="utf-8")), min_size=3, max_size=3), max_size=6))
def test_whatever_is_written_comes_back_and_never_as_a_formula(table):
    back = read(csv_bytes(("a", "b", "c"), table))
    assert len(back) == len(table) + 1
    for row, was in zip(back[1:], table, strict=True):
        for cell, text in zip(row, was, strict=True):
            assert cell in (text, f"'{text}")
            assert not cell.lstrip().startswith(("=", "+", "-", "@"))
