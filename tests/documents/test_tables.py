"""Rows and blocks: they flow over pages, nothing is lost, and marks are told shortly."""

import pytest
from page_laws import faults

from rodwork.documents.drawing import Drawing, Text
from rodwork.documents.page import Area
from rodwork.documents.tables import Block, Column, band, closed, flow, gap, heading, marks_text, paragraph, rows

AREA = Area(left=10.0, bottom=20.0, right=110.0, top=120.0)


def block(text, height=10.0, **how):
    return Block(height=height, shapes=(Text(at=(0.0, -5.0), text=text),), **how)


def said(page):
    return [s.text for s in page if isinstance(s, Text)]


def test_blocks_go_on_to_the_next_page_in_order_and_none_is_lost():
    pages = flow([block(str(n)) for n in range(25)], AREA)
    assert [len(p) for p in pages] == [10, 10, 5]
    assert [t for p in pages for t in said(p)] == [str(n) for n in range(25)]


def test_every_page_has_the_heading():
    pages = flow([block(str(n)) for n in range(12)], AREA, head=block("head", 20.0))
    assert all(said(p)[0] == "head" for p in pages)
    assert all(len(said(p)) <= 9 for p in pages)


def test_a_strip_never_stands_last_on_a_page_and_is_said_again_on_the_next():
    blocks = [block(str(n), 9.8) for n in range(9)] + [band("birch18", 100.0), gap(1.0, keep=True)]
    blocks += [block(f"b{n}") for n in range(12)]
    first, second, third = (said(p) for p in flow(blocks, AREA))
    assert "birch18" not in first
    assert second[0] == "birch18"
    assert third[0] == "birch18"


def test_a_gap_at_the_foot_of_a_page_begins_no_other():
    """A list that just fills its page, its gap at the end left over: a second page would have a strip and nothing else."""
    blocks = [band("birch18", 100.0, height=10.0), *(block(str(n)) for n in range(9)), gap(4.0)]
    assert len(flow(blocks, AREA)) == 1
    first, second = (said(p) for p in flow([*blocks, band("birch6", 100.0), block("a")], AREA))
    assert first[-1] == "8"
    assert second == ["birch6", "a"]


def test_a_kept_block_at_the_very_end_is_not_lost():
    assert said(flow([block("a"), block("b", keep=True)], AREA)[0]) == ["a", "b"]


def test_a_row_that_is_too_high_goes_on_in_another():
    columns = (Column(title="", width=20.0), Column(title="", width=30.0))
    found = rows(columns, ("board", " ".join(f"G{n}-LS" for n in range(200))), least=10.0, most=60.0)
    assert len(found) > 1
    assert all(b.height <= 62.0 for b in found)
    words = " ".join(t for b in found for t in said(b.shapes)).split()
    assert words.count("board") == 1
    assert [w for w in words if w != "board"] == [f"G{n}-LS" for n in range(200)]


def test_cells_of_a_row_keep_clear_of_each_other():
    columns = tuple(Column(title=f"heading {n}", width=22.0, size=4.0 + n % 3) for n in range(8))
    blocks = [heading(columns), *rows(columns, ("a longer cell that wraps",) * 8, least=10.0, most=80.0)]
    (page,) = flow(blocks, Area(left=10.0, bottom=20.0, right=190.0, top=120.0))
    assert faults(Drawing(width=200.0, height=140.0, shapes=page)) == []


@pytest.mark.parametrize(
    ("marks", "text"),
    [
        (("G1-LS",), "G1-LS"),
        (("G1-LS", "G2-LS", "G3-LS"), "G1-LS, G2-LS, G3-LS"),
        (("G1-LS", "G2-LS", "G3-LS", "G4-LS"), "G1-LS to G4-LS"),
        (("G1-T", "G2-T", "G3-T", "G4-T", "G1-B"), "G1-T to G4-T, G1-B"),
        (("G1-T", "G2-B", "G3-T", "G4-T"), "G1-T, G2-B, G3-T, G4-T"),
        (("G1-T", "G2-T", "G4-T", "G5-T"), "G1-T, G2-T, G4-T, G5-T"),
        (("odd", "odd"), "odd, odd"),
    ],
)
def test_marks_are_told_shortly_and_never_wrongly(marks, text):
    assert marks_text(marks) == text


def test_a_paragraph_is_as_high_as_its_lines():
    assert paragraph("one", 100.0, 4.0).height < paragraph("word " * 60, 100.0, 4.0).height
    assert gap(3.0).shapes == ()


def test_a_strip_whose_words_are_long_grows():
    tall = band("a name " * 20, 60.0, "12 boards")
    assert tall.height > 8.0


def test_what_stands_under_a_list_never_stands_on_a_page_without_its_last_row():
    blocks = closed([block(str(n)) for n in range(10)], gap(3.0), block("sum", 5.0), block("glue", 5.0))
    first, second = (said(p) for p in flow(blocks, AREA))
    assert (first[-1], second) == ("8", ["9", "sum", "glue"])
