"""The PDF is read back with pdfplumber, a reader that shares nothing with what wrote it."""

import io

import pdfplumber
import pytest

from rodwork.documents.drawing import Circle, Drawing, Text, box, line, text_width
from rodwork.writers.pdf import pdf

MM = 72 / 25.4
SHAPES = (
    line((10, 20), (190.25, 20)),
    line((33.3, 12.345), (33.3, 180)),
    box(50, 60, 70.7, 35.1),
    Circle(centre=(150, 100), radius=4),
    Text(at=(10, 150), text="Café & <b>9.0</b> from the TOP", size=8, bold=True),
    Text(at=(10, 140), text="leaves 3.6 under the point", size=4),
    Text(at=(200, 60), text="BOTTOM", size=5, turn=90),
)
PAGE = Drawing(width=210.0, height=297.0, shapes=SHAPES)
LETTER = Drawing(width=279.4, height=215.9, shapes=(line((1, 2), (270, 2)),))


@pytest.fixture(scope="module")
def read():
    with pdfplumber.open(io.BytesIO(pdf([PAGE, LETTER], "Pottery <studio>", "2026-11-25"))) as document:
        yield document


def test_each_page_is_exactly_its_own_size(read):
    sizes = [(page.width / MM, page.height / MM) for page in read.pages]
    assert sizes == [pytest.approx((210, 297), abs=0.01), pytest.approx((279.4, 215.9), abs=0.01)]


def _near(found, wanted):
    return any(all(abs(a - b) <= 0.05 for a, b in zip(row, wanted, strict=True)) for row in found)


def test_lines_and_circles_are_where_they_were_drawn(read):
    page = read.pages[0]
    h = float(page.height)
    drawn = [*page.lines, *page.rects, *page.curves]
    boxes = [(o["x0"] / MM, (h - o["bottom"]) / MM, o["x1"] / MM, (h - o["top"]) / MM) for o in drawn]
    assert _near(boxes, (10, 20, 190.25, 20))
    assert _near(boxes, (33.3, 12.345, 33.3, 180))
    assert _near(boxes, (50, 60, 120.7, 95.1))
    assert _near(boxes, (146, 96, 154, 104))


def test_texts_can_be_searched_for_and_stand_where_they_were_put(read):
    text = read.pages[0].extract_text()
    assert "Café & <b>9.0</b> from the TOP" in text
    (word,) = [w for w in read.pages[0].extract_words() if w["text"] == "leaves"]
    assert word["x0"] / MM == pytest.approx(10, abs=0.4)  # the side bearing of the first letter


def test_a_text_is_no_wider_than_our_measure_of_it(read):
    words = read.pages[0].search("leaves 3.6 under the point")[0]
    width = (words["x1"] - words["x0"]) / MM
    ours = text_width("leaves 3.6 under the point", 4)
    assert ours - 1.0 <= width <= ours + 0.05


def test_only_our_own_two_fonts_are_embedded(read):
    fonts = {char["fontname"].split("+")[-1].removesuffix("-Identity-H") for page in read.pages for char in page.chars}
    assert fonts == {"SourceSansPro-Regular", "SourceSansPro-Bold"}


def test_no_other_font_creeps_in_for_a_sign_that_ours_lacks():
    strange = Drawing(width=100, height=50, shapes=(Text(at=(5, 5), text="a 日本 ★ \u05d0 b"),))
    with pdfplumber.open(io.BytesIO(pdf([strange], "x", None))) as document:
        chars = document.pages[0].chars
        assert all("SourceSansPro" in char["fontname"] for char in chars)
        assert "".join(char["text"] for char in chars) == "a ?? ? ? b"


def test_bold_is_bold(read):
    bold = {c["text"] for c in read.pages[0].chars if "Bold" in c["fontname"]}
    assert "é" in bold
    assert "v" not in bold


def test_the_same_pages_give_the_same_bytes():
    assert pdf([PAGE], "a", "2026-11-25") == pdf([PAGE], "a", "2026-11-25")
    assert pdf([PAGE], "a", None) == pdf([PAGE], "a", None)


def test_title_and_date_are_the_jobs(read):
    assert read.metadata["Title"] == "Pottery <studio>"
    assert "20261125" in str(read.metadata.get("CreationDate", ""))


@pytest.mark.parametrize("date", ["25 November", "2026-13-40", ""])
def test_a_date_that_is_no_date_is_left_out_of_the_papers_properties(date):
    assert pdf([LETTER], 'quote " #panic()', date).startswith(b"%PDF")


def test_no_page_is_an_error():
    with pytest.raises(ValueError, match="no page"):
        pdf([], "empty", None)
