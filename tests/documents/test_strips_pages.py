"""Rod strips: full size to a twentieth of a millimetre in the PDF, and whole on one sheet or the next."""

import io
from itertools import combinations

import pdfplumber
import pytest
from hypothesis import given
from hypothesis import strategies as st
from page_laws import check_pages
from samples import PAPERS, SAMPLES, glaze, sample
from tests.building import cabinet as box
from tests.building import job, recipe, rod_of
from tests.checks.clothes_rails import rail as clothes_rail

from rodwork.documents.annotate import text_box
from rodwork.documents.drawing import Drawing, Text, text_width
from rodwork.documents.page import numbered, paper_size
from rodwork.documents.strip_lines import RodLine, RodStrip, strips_of
from rodwork.documents.strips import EDGE, WARNING, WIDE, overlap_mm, strip_pages, tile_shapes, tiles_of
from rodwork.writers.pdf import pdf
from rodwork.writers.svg import svg

MM = 72 / 25.4
CLOTHES = {"clothes_rails": (clothes_rail(),)}


def texts(page):
    return [s.text for s in page.shapes if isinstance(s, Text)]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_every_page_keeps_the_laws(name, paper):
    rod = sample(name, paper)
    check_pages(strip_pages(rod), rod)


def test_the_lines_of_a_rod_are_the_faces_of_the_boards():
    height, width, depth = strips_of(glaze().cabinets[0])
    assert [(row.mm, row.words) for row in height.lines] == [
        (0.0, "bottom, outside"), (17.6, "bottom, inside"), (351.0, "fixed shelf, underside"),
        (368.6, "fixed shelf, upper side"), (702.4, "top, inside"), (720.0, "top, outside"),
    ]  # fmt: skip
    assert [row.mm for row in width.lines] == [0.0, 17.6, 582.4, 600.0]
    assert [(row.mm, row.words) for row in depth.lines] == [
        (0.0, "front edges"), (296.0, "fixed shelf, back edge"), (296.1, "back, front face"),
        (301.9, "back, back face"), (320.0, "back edges"),
    ]  # fmt: skip
    assert height.boards == ((0.0, 17.6), (351.0, 368.6), (702.4, 720.0))


def test_a_clothes_rail_has_its_line_up_and_from_the_front():
    """Its middle 60 under a top that is 17.6 thick, half way into 560: common practice, no source."""
    rail = {"kind": "wardrobe", "height_mm": 1000.0, "depth_mm": 560.0, "back": None, **CLOTHES}
    height, width, depth = strips_of(rod_of(job(box(openings=("rest",), loose_shelves=(0,), **rail))).cabinets[0])
    assert RodLine(mm=922.5, words="clothes rail, middle") in height.lines
    assert RodLine(mm=280.0, words="clothes rail, middle") in depth.lines
    assert "clothes rail, middle" not in [row.words for row in width.lines]
    for strip in (height, depth):
        assert [row.mm for row in strip.lines] == sorted(row.mm for row in strip.lines)


@pytest.mark.parametrize("paper", PAPERS)
def test_every_line_is_full_size_in_the_pdf(paper):
    """Read back with pdfplumber: the lines right across each strip, from the first line of its sheet."""
    rod = sample("data", paper)
    room = paper_size(paper, landscape=True)[0] - 2 * EDGE
    pages = strip_pages(rod)
    due = []
    for strip in strips_of(rod.cabinets[0]):
        for tile in tiles_of(strip, room, overlap_mm(rod)):
            here = {tile.start, *(row.mm for row in strip.lines if tile.start <= row.mm <= tile.end)}
            due.append([mm - tile.start for mm in sorted(here)])
    found = []
    with pdfplumber.open(io.BytesIO(pdf(numbered(pages, rod), rod.job, None))) as document:
        for page in document.pages:
            upright = [
                (o["x0"] / MM, round(o["top"] / MM, 1), (o["bottom"] - o["top"]) / MM)
                for o in (*page.lines, *page.curves)
                if o["x1"] - o["x0"] < 0.01
            ]
            rows = {}
            for x, top, length in upright:
                if length > 20:
                    assert length == pytest.approx(WIDE, abs=0.05)
                    rows.setdefault(top, []).append(x)
            found += [sorted(xs) for _, xs in sorted(rows.items())]
    flat = sorted(round(x, 2) for row in found for x in row)
    assert len(flat) == sum(len(row) for row in due)
    for row in due:
        assert any(_holds_steps(xs, row) for xs in found), row


def _holds_steps(xs, row, tolerance=0.05):
    """Whether a printed row of lines holds these distances from one of its lines."""
    return any(all(any(abs(x0 + mm - x) <= tolerance for x in xs) for mm in row) for x0 in xs)


def test_each_sheet_begins_at_its_own_figure_and_says_what_it_is_for():
    page = strip_pages(glaze())[0]
    said = texts(page)
    assert {"0", "240", "480", "351", "720"} <= set(said)
    assert said.count(WARNING) >= 5
    assert "glaze, HEIGHT from the BOTTOM: 240 to 517, sheet 2 of 3" in said


@pytest.mark.parametrize("name", SAMPLES)
def test_what_a_strip_is_for_is_not_read_as_one_with_a_figure_of_its_scale(name):
    """No strip says "0 TO CHECK": the words keep 2.5 mm clear of the figures at the same height."""
    found = 0
    for page in strip_pages(sample(name)):
        level = [s for s in page.shapes if isinstance(s, Text) and not s.turn]
        for words in (s for s in level if s.text == WARNING):
            half = text_width(WARNING, words.size, True) / 2
            figures = [s for s in level if s.size == 2.6 and abs(s.at[1] - words.at[1]) < 1.0]
            found += len(figures)
            for figure in figures:
                ends = figure.at[0] + text_width(figure.text, figure.size)
                assert ends + 2.5 <= words.at[0] - half or words.at[0] + half + 2.5 <= figure.at[0]
    assert found


def _strip(lines, length):
    rows = tuple(RodLine(mm=mm, words="a shelf, underside") for mm in sorted(lines))
    return RodStrip(cabinet="x", name="HEIGHT", datum="BOTTOM", length=length, lines=rows, boards=())


@given(st.sets(st.integers(0, 30000).map(lambda n: n / 10), min_size=1, max_size=20), st.floats(200, 400))
def test_every_line_is_on_a_sheet(lines, room):
    strip = _strip(lines, 3000.0)
    tiles = tiles_of(strip, room, 30.0)
    for mm in lines:
        assert any(t.start - 1e-6 <= mm <= t.end + 1e-6 for t in tiles)
    assert all(t.length <= room + 1e-6 and t.start % 10 == 0 for t in tiles)


@pytest.mark.parametrize("name", SAMPLES)
def test_sheets_overlap_by_more_than_the_thickest_board(name):
    rod = sample(name)
    thickest = max(p.size[2] for c in rod.cabinets for p in c.parts)
    assert overlap_mm(rod) > thickest
    for strip in strips_of(rod.cabinets[0]):
        tiles = tiles_of(strip, 257.0, overlap_mm(rod))
        for low, high in strip.boards:
            assert any(t.start <= low and high <= t.end for t in tiles)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_every_line_of_every_strip_has_its_figure(name, paper):
    rod = sample(name, paper)
    said = [t for page in strip_pages(rod) for t in texts(page)]
    for cabinet in rod.cabinets:
        for strip in strips_of(cabinet):
            for row in strip.lines:
                assert f"{round(row.mm, 1):g}" in said, (strip.name, row)


def test_an_x_stands_on_every_board():
    said = [t for page in strip_pages(glaze()) for t in texts(page)]
    assert said.count("X") == 3 + 2 + 1  # bottom, shelf, top; two sides; the back


def test_golden_strip(golden):
    strip = strips_of(glaze().cabinets[0])[0]
    tile = tiles_of(strip, 277.0, 30.0)[1]
    golden("strip.svg", svg(Drawing(width=287, height=35, shapes=tile_shapes(tile, 5.0, 3.0)), 2))


def test_a_strip_comes_to_its_end_beside_a_groove_longer_than_paper():
    """A spline's groove runs along the whole mitre of a cabinet 600 deep: it is no wider than its cutter."""
    rod = rod_of(job(box(sides="mitred", corner_joint=recipe("spline"), depth_mm=600.0, back=None)))
    pages = strip_pages(rod)
    check_pages(pages, rod)
    assert overlap_mm(rod) == overlap_mm(rod_of(job(box(back=None))))


@pytest.mark.parametrize("name", SAMPLES)
def test_every_strip_has_its_whole_caption_and_none_runs_into_the_next(name):
    """A knock-down shelf had "HEIGHT from the BOTTOM: 960" over its last short piece, and not to where."""
    rod = sample(name)
    expected = [
        tile.caption
        for cabinet in rod.boxes
        for strip in strips_of(cabinet)
        for tile in tiles_of(strip, paper_size("A4", landscape=True)[0] - 2 * EDGE, overlap_mm(rod))
    ]
    pages = strip_pages(rod)
    said = [t for page in pages for t in texts(page)]
    assert all(caption in said for caption in expected)
    for page in pages:
        boxes = [text_box(s) for s in page.shapes if isinstance(s, Text) and s.text in expected]
        assert all(a.clear_of(b) for a, b in combinations(boxes, 2))


def test_a_line_tells_all_its_words():
    strip = RodStrip(
        cabinet="run", name="LENGTH", datum="LEFT", length=260.0, boards=(),
        lines=(RodLine(mm=130.0, words="glaze drier ends, cupboard begins"),),
    )  # fmt: skip
    (tile,) = tiles_of(strip, 270.0, 30.0)
    told = " ".join(s.text for s in tile_shapes(tile, 10.0, 100.0) if isinstance(s, Text) and s.turn)
    assert "glaze drier ends, cupboard begins" in told
