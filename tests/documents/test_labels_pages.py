"""Labels: one for every mark, lying as the board lies, its border telling where the board is edged."""

from dataclasses import replace

import pytest
from page_laws import check_pages
from samples import PAPERS, SAMPLES, glaze, sample
from tests.building import rod

from rodwork.documents.drawing import Drawing, Path_, Text
from rodwork.documents.labels import EDGED, HEIGHT, WIDTH, label_pages, next_words, qr_shapes
from rodwork.documents.machined import Works
from rodwork.writers.svg import svg


def texts(pages):
    return [s.text for p in pages for s in p.shapes if isinstance(s, Text)]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_every_page_keeps_the_laws(name, paper):
    made = sample(name, paper)
    check_pages(label_pages(made), made)


@pytest.mark.parametrize("name", SAMPLES)
def test_every_board_of_every_copy_has_one_label(name):
    made = sample(name)
    marks = [mark for c in made.cabinets for p in c.parts for mark in p.marks]
    said = texts(label_pages(made))
    assert sorted(said.count(mark) for mark in marks) == [1] * len(marks)


def _label_of(made, mark):
    """The shapes of one label, from its lower left corner."""
    for page in label_pages(made):
        for text in page.shapes:
            if isinstance(text, Text) and text.text == mark:
                cells = [s for s in page.shapes if isinstance(s, Path_) and _is_cell(s)]
                cell = next(c for c in cells if _holds(c, text.at))
                inside = [s for s in page.shapes if _holds(cell, s.points[0] if isinstance(s, Path_) else s.at)]
                return cell.points[0], [s for s in inside if s is not cell]
    raise AssertionError(mark)


def _is_cell(s):
    xs, ys = [p[0] for p in s.points], [p[1] for p in s.points]
    return abs(max(xs) - min(xs) - WIDTH) < 1e-6 and abs(max(ys) - min(ys) - HEIGHT) < 1e-6


def _holds(cell, p):
    (x, y) = cell.points[0]
    return x + 0.1 < p[0] < x + WIDTH - 0.1 and y + 0.1 < p[1] < y + HEIGHT - 0.1


def _where(made, mark, word):
    (x, y), shapes = _label_of(made, mark)
    at = next(s.at for s in shapes if isinstance(s, Text) and s.text == word)
    return (at[0] - x, at[1] - y)


def test_the_top_of_a_left_side_points_left_and_of_a_right_side_right():
    """Inside up and front towards you, a left side has its top at your left hand."""
    assert _where(glaze(), "G1-LS", "TOP")[0] < WIDTH / 4
    assert _where(glaze(), "G1-RS", "TOP")[0] > WIDTH * 3 / 4
    for mark in ("G1-LS", "G1-RS", "G1-T", "G2-B", "G1-FS"):
        assert _where(glaze(), mark, "FRONT")[1] < HEIGHT / 4


def test_the_border_is_thick_where_the_board_is_edged():
    made = glaze()
    for mark, sides in (("G1-LS", ["bottom"]), ("G1-BK", [])):
        (_, y), shapes = _label_of(made, mark)
        thick = [s for s in shapes if isinstance(s, Path_) and s.pen == EDGED]
        assert len(thick) == len(sides)
        assert all(p[1] - y < 5 for s in thick for p in s.points)


def test_a_label_says_what_is_next():
    made = glaze()
    cabinet = made.cabinets[0]
    works = Works(made)
    assert next_words(works, cabinet, cabinet.part["top"]) == "edge, S9 S14"
    assert next_words(works, cabinet, cabinet.part["back"]) == "nothing, it is ready"
    early = rod(sides="between")
    words = next_words(Works(early), early.cabinets[0], early.cabinets[0].part["left side"])
    assert words.index("edge") < words.index("S")


def test_a_label_carries_size_letter_and_job():
    (_, shapes) = _label_of(glaze(), "G2-FS")
    said = {s.text for s in shapes if isinstance(s, Text)}
    assert {"G2-FS", "FIXED SHELF", "564.8 x 296 x 17.6", "letter A", "Pottery studio, glaze"} <= said


def test_a_long_name_is_cut_short_and_stays_on_its_label():
    made = glaze()
    named = replace(made, job="A very long name of a job " * 12)
    check_pages(label_pages(named), named)


def test_the_code_is_drawn_module_for_module():
    """Against the reference library's own matrix, with the white border of four modules of ISO/IEC 18004."""
    import segno

    matrix = segno.make("Pottery studio A G1-LS", error="m", micro=False).matrix
    n = len(matrix)
    shapes = qr_shapes("Pottery studio A G1-LS", 0.0, 0.0, float(n + 8))
    dark = set()
    for s in shapes:
        (x0, y0), (x1, y1) = s.points[0], s.points[2]
        dark |= {(round(x), round(y0)) for x in range(round(x0), round(x1))}
        assert y1 - y0 == pytest.approx(1)
    wanted = {(x + 4, n + 3 - y) for y, row in enumerate(matrix) for x, on in enumerate(row) if on}
    assert dark == wanted


def test_golden_label(golden):
    (x, y), shapes = _label_of(glaze(), "G1-LS")
    from rodwork.documents.drawing import moved

    plain = tuple(s for s in shapes if not (isinstance(s, Path_) and s.fill == "black" and len(s.points) == 4))
    golden("label.svg", svg(Drawing(width=WIDTH, height=HEIGHT, shapes=moved(plain, -x, -y)), 2))
