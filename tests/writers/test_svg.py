"""The SVG of a drawing is read back with the standard library's XML parser."""

from xml.etree import ElementTree

from hypothesis import given
from hypothesis import strategies as st

from rodwork.documents.drawing import FONT_FAMILY, Circle, Drawing, Path_, Pen, Text, box, line
from rodwork.writers.svg import number, svg

NS = "{http://www.w3.org/2000/svg}"


def read(*shapes, width=100.0, height=50.0, decimals=3):
    return ElementTree.fromstring(svg(Drawing(width=width, height=height, shapes=shapes), decimals))


def test_a_sheet_is_its_size_in_mm():
    root = read(width=215.9, height=279.4)
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("215.9mm", "279.4mm", "0 0 215.9 279.4")


def test_a_reader_without_our_font_takes_a_plain_one_and_not_whatever_it_has():
    """CSS Fonts Module Level 4, 2.1: a list of families in order of preference, a generic one last."""
    first, *others = [name.strip() for name in read().get("font-family").split(",")]
    assert first == FONT_FAMILY
    assert others == ["sans-serif"]


def test_y_goes_up_in_the_drawing_and_down_in_the_file():
    low, high = read(line((10, 1), (10, 2)), Circle(centre=(0, 49), radius=1))
    assert low.get("d") == "M10 49 L10 48"
    assert (high.get("cx"), high.get("cy"), high.get("r")) == ("0", "1", "1")


def test_a_text_turns_anticlockwise_as_in_the_drawing():
    (text,) = read(Text(at=(10, 20), text="TOP", turn=90, bold=True, anchor="middle"))
    assert text.get("transform") == "rotate(-90 10 30)"
    assert (text.get("font-weight"), text.get("text-anchor")) == ("700", "middle")


@given(st.text(max_size=40))
def test_whatever_a_user_writes_the_file_stays_well_formed_and_says_it(words):
    (text,) = read(Text(at=(0, 0), text=words))
    assert len(list(text)) == 0
    if words.isascii() and words.isprintable():
        assert (text.text or "") == words


def test_markup_is_text_and_a_sign_the_font_lacks_is_never_dropped():
    (text,) = read(Text(at=(0, 0), text="<b>&\"' \x00 ½ ① 日"))
    assert text.text == "<b>&\"'   ½ 1 ?" or text.text == "<b>&\"'   ½ ① ?"


@given(st.floats(-1e4, 1e4), st.integers(0, 4))
def test_a_number_is_right_to_its_last_place_and_never_minus_nought(value, places):
    text = number(value, places)
    assert text != "-0"
    assert abs(float(text) - value) <= 0.5001 * 10**-places
    assert "e" not in text
    assert not ("." in text and text.endswith("0"))


def test_no_minus_nought():
    assert "-0" not in svg(Drawing(width=10, height=0, shapes=(line((-0.00001, 0.00001), (-0.0, 1e-9)),)))


def test_a_pen_of_no_ink_draws_no_line_and_dashes_are_kept():
    bare, dashed = read(box(0, 0, 1, 1, pen=Pen(ink="none"), fill="light"), line((0, 0), (1, 1), Pen(dashes=(2, 1.2))))
    assert bare.get("stroke") is None
    assert bare.get("fill") not in (None, "none")
    assert dashed.get("stroke-dasharray") == "2 1.2"


def test_a_closed_path_is_closed():
    (path,) = read(Path_(points=((0, 0), (1, 0), (1, 1)), closed=True))
    assert path.get("d").endswith("Z")
