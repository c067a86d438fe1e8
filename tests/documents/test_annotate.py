"""Labels make room for each other, and figures are written as a maker reads them."""

from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from rodwork.documents.annotate import Box, capital, figure, listed, named, place_for, setting, several_named, spread
from rodwork.documents.drawing import text_width
from rodwork.documents.page import fitted_text

lengths = st.floats(0, 500)


@given(st.lists(st.tuples(lengths, st.floats(0.5, 20)), min_size=1, max_size=25))
def test_labels_never_touch_and_keep_their_order(labels):
    places, sizes = [p for p, _ in labels], [s for _, s in labels]
    out = spread(places, sizes, -1e6, 1e6, 1.0)
    order = sorted(range(len(places)), key=lambda i: places[i])
    for a, b in pairwise(order):
        assert out[b] - out[a] >= (sizes[a] + sizes[b]) / 2 + 1.0 - 1e-6


@example("settings S51, S55, S56, S59, S60 and 6 more", 118.8)
@given(st.text(st.characters(min_codepoint=32, max_codepoint=126), min_size=1, max_size=60), st.floats(20, 250))
def test_a_text_is_cut_short_only_where_the_least_size_does_not_fit(text, width):
    """What is shrunk to a width fits it: a hair of rounding once cut every second long title."""
    cut, em = fitted_text(text, 7.0, 0.0, width, True)
    assert (cut, em <= 7.0) == (text, True)
    cut, em = fitted_text(text, 7.0, 4.0, width, True)
    assert (cut == text) == (text_width(text, 4.0, True) <= width + 1e-9)
    assert text_width(cut, em, True) <= width + 1e-9 or cut == "..."


@given(st.lists(lengths, min_size=1, max_size=25))
def test_labels_with_room_stand_where_they_belong(places):
    places = [p + 30.0 * n for n, p in enumerate(sorted(places))]
    assert spread(places, [10.0] * len(places), -100, 2000, 1.0) == pytest.approx(places)


@given(st.lists(lengths, min_size=1, max_size=10))
def test_labels_stay_between_the_bounds_if_they_fit_there(places):
    out = spread(places, [8.0] * len(places), 100.0, 200.0, 1.0)
    assert min(out) >= 104.0 - 1e-6
    assert max(out) <= 196.0 + 1e-6


@given(
    st.lists(st.tuples(st.floats(0, 90), st.floats(0, 40), st.floats(1, 30), st.floats(1, 20)), max_size=12),
    st.tuples(st.floats(0, 100), st.floats(0, 50)),
)
def test_a_place_that_is_found_is_free(taken, wish):
    within = Box(left=0, bottom=0, right=100, top=50)
    boxes = [Box(left=x, bottom=y, right=x + w, top=y + h) for x, y, w, h in taken]
    spot = place_for(20.0, 6.0, within, boxes, wish)
    if spot is not None:
        box = Box(left=spot[0] + 1e-9, bottom=spot[1] + 1e-9, right=spot[0] + 20 - 1e-9, top=spot[1] + 6 - 1e-9)
        assert all(box.clear_of(other) for other in boxes)
        assert spot[0] >= 0
        assert spot[0] + 20 <= 100 + 1e-9


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (40.0, "40"),
        (8.6, "8.6"),
        (564.75, "564.75"),
        (-0.0, "0"),
        (-0.001, "0"),
        (100.0, "100"),
        (7.999999, "8"),
        (-1.5, "-1.5"),
    ],
)
def test_a_figure_has_the_places_it_needs(mm, text):
    assert figure(mm) == text


def test_a_setting_always_has_its_tenth():
    assert [setting(9.0), setting(18.5), setting(100), setting(6.25)] == ["9.0", "18.5", "100.0", "6.25"]


def test_words():
    assert [capital("front edge"), capital("outside")] == ["FRONT edge", "OUTSIDE"]
    assert [listed([]), listed(["a"]), listed(["a", "b", "c"])] == ["", "a", "a, b and c"]


@pytest.mark.parametrize(("board", "words"), [("left side", "the left side"), ("stile 1", "stile 1")])
def test_a_numbered_board_has_no_article(board, words):
    assert named(board) == words


def test_boards_of_one_name_are_told_by_their_numbers():
    assert several_named(["fixed shelf 4", "fixed shelf 2", "fixed shelf 3"]) == "fixed shelves 2 to 4"
    assert several_named(["loose shelf 1", "loose shelf 3"]) == "loose shelves 1 and 3"
    assert several_named(["door 1", "door 2"]) == "doors 1 and 2"
    assert several_named(["divider 1", "divider 2", "divider 4"]) == "dividers 1, 2 and 4"
