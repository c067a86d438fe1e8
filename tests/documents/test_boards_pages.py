"""Pair sheets and board sheets: two real hands, numbers from the settings alone, nothing left out or run over."""

import re
from dataclasses import replace

import pytest
from page_laws import check_pages
from samples import PAPERS, SAMPLES, glaze, sample
from tests.building import back, rod
from tests.fronts.front_samples import doors

from rodwork.documents.board_drawing import View, board_view, shelf_lines
from rodwork.documents.board_face import Board
from rodwork.documents.boards import board_pages, pair_faces
from rodwork.documents.drawing import Circle, Drawing, Text
from rodwork.documents.machined import Works, marks_words, words_of
from rodwork.geometry.vec import cross, dot, sub
from rodwork.model.surface import outward
from rodwork.writers.svg import svg


def texts(page):
    return [s.text for s in page.shapes if isinstance(s, Text)]


def said(page):
    return " ".join([page.title, page.under, page.right, *texts(page)])


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_every_page_keeps_the_laws(name, paper):
    rod = sample(name, paper)
    check_pages(board_pages(rod), rod)


def test_every_shelf_of_an_even_row_has_the_number_of_its_line():
    """Six openings alike: five shelves at one pitch. Of a row of pins two numbers will do, a shelf is marked by its own."""
    rod = sample("tall bookcase")
    page = next(p for p in board_pages(rod) if p.kind == "pair")
    works = Works(rod)
    side = rod.cabinets[0].part["left side"]
    lines = {f"{w.line:g}" for w in works.of(rod.cabinets[0], side) if w.line is not None}
    assert len(lines) == 5
    assert lines <= set(texts(page))


# Two hands


def _hands(rod):
    """(name, view) of each side as the pair sheet draws it: both insides, then both outsides."""
    cabinet = rod.cabinets[0]
    left, right = (Board(part=cabinet.part[f"{hand} side"], works=()) for hand in ("left", "right"))
    for seen in ("face_side", "back_side"):
        for face in pair_faces(left, right, seen, with_edges=True):
            yield face.board.part.id, replace(face.view, scale=0.2)


def test_each_hand_is_a_true_look_at_its_board_and_never_a_mirror_image():
    """The page's right, its up and the way to the eye are right-handed in the cabinet, as they are for any eye."""
    for side, view in _hands(glaze()):
        pose = view.part.pose
        origin = view.at(0, 0)
        step = {axis: sub3(view.at(*p), origin) for axis, p in (("x", (100, 0)), ("y", (0, 100)))}
        across = {axis: pose.direction_to_cabinet(v) for axis, v in (("x", (1, 0, 0)), ("y", (0, 1, 0)))}
        right = combined(across, {a: step[a][0] for a in step})
        up = combined(across, {a: step[a][1] for a in step})
        eye = pose.direction_to_cabinet(outward(view.seen))
        assert dot(cross(right, up), eye) > 0, (side, view.seen)


def sub3(a, b):
    return sub((*a, 0.0), (*b, 0.0))


def combined(axes, amounts):
    return tuple(sum(axes[a][i] * amounts[a] for a in axes) for i in range(3))


def _holes(view, works):
    return {(round(c.centre[0], 3), round(c.centre[1], 3)) for c in board_view(view, works) if isinstance(c, Circle)}


def test_the_two_hands_on_the_page_mirror_each_other_about_the_gutter_and_are_not_the_same():
    page = board_pages(glaze())[0]
    holes = sorted(c.centre for c in page.shapes if isinstance(c, Circle))
    middle = (max(y for _, y in holes) + min(y for _, y in holes)) / 2
    upper, lower = [h for h in holes if h[1] > middle], [h for h in holes if h[1] < middle]
    assert len(upper) == len(lower) == 24
    down = min(y for _, y in upper) - min(y for _, y in lower)
    assert _same([(x, 2 * middle - y) for x, y in lower], upper)
    assert not _same([(x, y + down) for x, y in lower], upper)


def _same(some, others):
    return all(any(abs(x - u) + abs(y - v) < 0.01 for u, v in others) for x, y in some)


@pytest.mark.parametrize("name", ["data", "screws, housings, rebate"])
def test_bottoms_lie_to_the_left_and_fronts_together(name):
    for _, view in _hands(sample(name)):
        words = words_of(view.part)
        assert words[view.surface_at("left")] == "bottom end"
        assert words[view.surface_at("top" if view.turned else "bottom")] == "front edge"


def test_the_right_side_lies_above_inside_up_and_the_left_above_outside_up():
    insides, outsides = [p for p in board_pages(sample("screws, housings, rebate")) if p.kind == "pair"]
    for page, upper, lower in ((insides, "RIGHT", "LEFT"), (outsides, "LEFT", "RIGHT")):
        height = {
            hand: s.at[1]
            for s in page.shapes
            if isinstance(s, Text)
            for hand in (upper, lower)
            if f"{hand} SIDE" in s.text
        }
        assert height[upper] > height[lower]


# Numbers from the settings alone


def _moved_features(rod):
    """The same settings with every bore and groove of the model somewhere else."""

    def part(p):
        return replace(p, features=tuple(replace(f, at=(1.0, 2.0, 3.0)) for f in p.features))

    cabinets = tuple(replace(c, parts=tuple(part(p) for p in c.parts)) for c in rod.cabinets)
    return replace(rod, cabinets=cabinets)


@pytest.mark.parametrize("name", SAMPLES)
def test_no_number_or_place_is_taken_from_the_model(name):
    rod = sample(name)
    assert board_pages(_moved_features(rod)) == board_pages(rod)


def _with_reading(rod, part, old, new):
    """The same job with one printed number of one board changed."""

    def reading(r):
        return replace(r, mm=new) if r is not None and r.mm == old else r

    def row(r):
        changed = r.feature is not None and r.part == part
        return replace(r, along=reading(r.along), across=reading(r.across)) if changed else r

    return replace(rod, setups=tuple(replace(s, features=tuple(row(r) for r in s.features)) for s in rod.setups))


def test_a_changed_setting_changes_the_number_and_the_place_of_the_hole():
    rod = glaze()
    shifted = _with_reading(rod, "fixed shelf", 136.0, 140.5)
    (before,) = [p for p in board_pages(rod) if "SHELF" in p.title]
    (after,) = [p for p in board_pages(shifted) if "SHELF" in p.title]
    assert "136" in texts(before)
    assert "140.5" in texts(after)
    assert "136" not in texts(after)
    circles = [{s.centre for s in p.shapes if isinstance(s, Circle)} for p in (before, after)]
    assert circles[0] != circles[1]


def test_holes_stand_where_the_printed_numbers_put_them():
    rod = glaze()
    part = rod.cabinets[0].part["left side"]
    view = View(part=part, turned=True)  # full size, bottom end at the left, front edge at the top
    drawn = _holes(view, Works(rod).of(rod.cabinets[0], part))
    rows = [
        (r.along, r.across)
        for s in rod.setups
        for r in s.features
        if r.part == "left side" and r.feature and r.along.end_mm is None
    ]
    expected = set()
    for pair in rows:
        by_word = {r.word: r.mm for r in pair}
        x = by_word["bottom end"] if "bottom end" in by_word else 720 - by_word["top end"]
        expected.add((round(x, 3), round(320 - by_word["front edge"], 3)))
    assert drawn == expected


def test_numbers_that_differ_are_marked_left_or_right():
    """A longer right side: the line of its shelf is not the left's."""
    rod = glaze()

    def line(r):
        return replace(r, mm=r.mm + 4, line=355.0) if r is not None and r.line == 351.0 else r

    changed = tuple(
        replace(
            s, features=tuple(replace(r, across=line(r.across)) if r.part == "right side" else r for r in s.features)
        )
        for s in rod.setups
    )
    page = board_pages(replace(rod, setups=changed))[0]
    assert {"L 351", "R 355"} <= set(texts(page))
    assert "351" not in texts(page)
    assert "NOT alike" in page.under
    assert "NOT alike" not in board_pages(rod)[0].under


def test_a_number_common_to_both_is_written_once_between_them():
    page = board_pages(glaze())[0]
    assert texts(page).count("351") == 1
    assert texts(page).count("9 from TOP") == 1
    assert texts(page).count("40") == 2  # at the right-hand end of each


def test_every_hinge_of_an_even_row_is_figured_and_a_row_of_pins_by_its_ends_alone():
    tall = rod(height_mm=2250.0, doors=(doors("left"),), openings=("rest",), loose_shelves=(4,))
    door = next(p for p in board_pages(tall) if "DOOR" in p.title)
    part = tall.cabinets[0].part["door"]
    cups = [f.at[0] for f in part.features if f.role == "hinge" and f.diameter == 35]
    assert len(cups) >= 3
    written = {t.split()[0] for t in texts(door)}
    assert {f"{at:g}" for at in cups} <= written or {f"{part.size[0] - at:g}" for at in cups} <= written
    sides = next(p for p in board_pages(tall) if "SIDES" in p.title)
    pins = sorted({2250 - f.at[0] for f in tall.cabinets[0].part["left side"].features if f.role == "shelf_pin"})
    assert f"{pins[0]:g}" in texts(sides)
    assert f"{pins[1]:g}" not in texts(sides)


def test_the_x_stands_on_the_side_of_the_line_where_the_bores_are():
    rod = glaze()
    part = rod.cabinets[0].part["right side"]
    view = View(part=part)
    (line,) = shelf_lines(view, Works(rod).of(rod.cabinets[0], part))
    assert (line.at, line.after) == (351.0, True)
    hung = _with_reading(rod, "right side", 360.0, 342.0)  # set from the upper side of the shelf instead
    (line,) = shelf_lines(view, Works(hung).of(hung.cabinets[0], hung.cabinets[0].part["right side"]))
    assert (line.at, line.after) == (351.0, False)


def test_a_line_along_the_board_is_drawn_and_figured_from_the_back():
    page = next(p for p in board_pages(rod(back=back("inset", board="birch18", void_mm=20.0))) if "outsides" in p.under)
    assert {"20", "X"} <= set(texts(page))
    assert "9 to the X side of the line at 20 from the BACK edge" in said(page)


def test_a_note_says_which_bores_stand_at_which_numbers():
    """Corner and shelf in one pair, the shelf set back: two rows of dowels, each with its own numbers."""
    page = board_pages(rod(shelf_set_back_mm=20.0))[0]
    assert "at 40, 136, 232 and 280 from the FRONT" in said(page)
    assert "at 60, 156 and 280 from the FRONT" in said(page)


# Which boards have a sheet


def test_boards_that_are_the_same_share_a_sheet_that_names_every_mark():
    pages = board_pages(glaze())
    assert [p.kind for p in pages] == ["pair", "board", "board"]
    assert all(mark in pages[1].title for mark in ("G1-T", "G2-T", "G1-B", "G2-B"))
    assert pages[1].under.startswith("4 of these")


def test_every_machined_or_notched_board_is_on_a_sheet_and_no_other():
    for name in SAMPLES:
        rod = sample(name)
        works = Works(rod)
        printed = " ".join(said(p) for p in board_pages(rod))
        for cabinet in rod.cabinets:
            for part in cabinet.parts:
                first = cabinet.part[part.same_as] if part.same_as else part
                due = bool(works.of(cabinet, first)) or len(first.outline) > 4
                shown = _covers(printed, part.marks[0], first.marks[0])
                assert shown == due, (name, part.id, part.marks)


def _covers(printed, mark, first):
    """Whether a mark is named: by itself, in a row of copies "K1-LS ... (also K2 to K8)", or with its like."""
    if re.search(rf"\b{re.escape(mark)}\b", printed):
        return True
    return f"{first}" in printed and mark != first


def test_boards_bored_from_outside_show_that_face_too():
    rod = sample("screws, housings, rebate")
    outside = next(p for p in board_pages(rod) if "outsides up" in p.under)
    assert "clearance bores 4.5, countersunk to 8" in said(outside)
    assert any("Grey rings" in t for p in board_pages(rod) for t in texts(p))


def test_a_notched_shelf_has_its_notch_in_figures():
    page = next(p for p in board_pages(sample("screws, housings, rebate")) if "SHELF" in p.title)
    assert "notch" in texts(page)
    assert "13.5 from the FRONT edge" in said(page)


def test_a_divider_shows_both_faces_with_their_fronts_together():
    page = next(p for p in board_pages(sample("tall bookcase")) if "DIVIDER" in p.title)
    assert "left face up above, right face up below" in page.under


@pytest.mark.parametrize(
    ("marks", "words"),
    [
        (["G1-LS"], "G1-LS"),
        (["G1-LS", "G2-LS"], "G1-LS and G2-LS"),
        ([f"G{n}-LS" for n in range(1, 9)], "G1-LS to G8-LS"),
        (["G1-LS", "G2-LS", "K1-LS", "K2-LS", "K3-LS"], "G1-LS, G2-LS, K1-LS and 2 more"),
    ],
)
def test_long_rows_of_marks_are_shortened(marks, words):
    assert marks_words(marks) == words


def test_golden_pair(golden):
    rod = glaze()
    works = Works(rod)
    shapes = []
    for side, turned, y in (("right side", False, 48.0), ("left side", True, 5.0)):
        part = rod.cabinets[0].part[side]
        view = View(part=part, turned=turned, scale=0.12, x=5.0, y=y)
        shapes += board_view(view, works.of(rod.cabinets[0], part), thick=("face_edge",))
    golden("pair.svg", svg(Drawing(width=96.4, height=91.4, shapes=tuple(shapes)), 2))
