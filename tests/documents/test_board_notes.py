"""What a board's page says and keeps room for, read from the text of a job: notches, grooves off a line, long stacks."""

import re
from dataclasses import replace

import pytest
from page_laws import check_pages
from tests.texts import HEAD, joint

from rodwork.documents.annotate import text_box
from rodwork.documents.board_face import Board, face_shapes
from rodwork.documents.board_notches import notches
from rodwork.documents.board_notes import surfaces_words
from rodwork.documents.board_numbers import LEAST_NUMBER
from rodwork.documents.boards import board_pages, pair_faces
from rodwork.documents.cutting_list import cutting_rows
from rodwork.documents.drawing import Text
from rodwork.documents.labels import label_pages
from rodwork.documents.machined import Works
from rodwork.documents.page import numbered
from rodwork.model.surface import level
from rodwork.pipeline import set_out

MARKED_ROOF = (
    'kind = "under slope"\nroof = { falls = "left", degrees = 9, joint = "slope", side_tops = "high side bevelled" }'
)
ROOF = 'kind = "under slope"\nroof = { falls = "left", degrees = 9, joint = "slope" }\nloose_shelves = 2'


def made(lines, shelf="dowel", corner="dowel", slope="quarter-turn connector", height=718, depth=448, shelves=1):
    recipes = joint("corner", f'"{corner}"') + joint("shelf", f'"{shelf}"') + joint("slope", f'"{slope}"')
    return set_out(
        f"""{HEAD}{recipes}
[cabinets.shelf]
board = "birch18"
corner_joint = "corner"
shelf_joint = "shelf"
divider_joint = "corner"
width = 1000
height = {height}
depth = {depth}
fixed_shelves = {shelves}
{lines}
""",
        "shelf.toml",
    )


def texts(page):
    return [s.text for s in page.shapes if isinstance(s, Text)]


def page_of(rod, word):
    return next(p for p in board_pages(rod) if word in p.title)


def test_the_numbers_at_the_ends_of_a_low_divider_stay_on_its_page_and_large_enough():
    rod = made("dividers = 1\n" + ROOF, shelf="loose tenon")
    check_pages(board_pages(rod), rod)
    page = page_of(rod, "DIVIDER")
    numbers = [s for s in page.shapes if isinstance(s, Text) and s.text in ("37", "40", "60", "388", "408", "411")]
    assert len(numbers) >= 6
    assert min(s.size for s in numbers) >= LEAST_NUMBER


def test_many_notes_stand_in_columns_beside_the_boards_where_that_leaves_these_larger():
    page = page_of(made("dividers = 1\n" + ROOF, shelf="loose tenon"), "DIVIDER")
    titles = [s for s in page.shapes if isinstance(s, Text) and s.bold and s.text.startswith(("dowel", "loose"))]
    columns = sorted({round(s.at[0], 3) for s in titles})
    assert len(columns) == 2
    assert columns[0] > max(s.at[0] for s in page.shapes if isinstance(s, Text) and s.text == "TOP")


def test_a_side_cut_back_over_its_toe_space_says_so_in_figures():
    page = page_of(made('dividers = 1\nkind = "base"\nfeet = { style = "notched sides", height = 100 }'), "SIDES")
    said = " ".join(texts(page))
    assert "notch right through, bottom end 100 from the end, 60 from the FRONT edge" in said


def test_a_plain_board_is_said_to_have_no_notch():
    rod = made('dividers = 0\nkind = "wall"', corner="screw")
    assert not any("notch" in text for page in board_pages(rod) for text in texts(page))
    assert all(notches(part) == () for cabinet in rod.cabinets for part in cabinet.parts)


def test_what_is_said_of_a_groove_beside_a_line_is_where_it_lies_on_the_board():
    """The walls in words against the machined solid: housings on their line and tongue grooves beyond it."""
    for shelf in ("housing", "tongue"):
        rod = made('dividers = 0\nkind = "wall"', shelf=shelf)
        cabinet, works = rod.cabinets[0], Works(rod)
        part = cabinet.part["left side"]
        work = next(w for w in works.of(cabinet, part) if w.groove is not None and w.line is not None)
        start = level(work.across.from_surface, part.size)
        walls = sorted(abs(abs(x - start) - work.line) for x in work.span[0])
        said = " ".join(texts(page_of(rod, "SIDES")))
        shown = [f"{w:.2f}".rstrip("0").rstrip(".") for w in walls]
        assert (
            f"the other {shown[1]} to the X side" if walls[0] < 0.01 else f"walls {shown[0]} and {shown[1]}"
        ) in said


def test_the_sides_of_a_drawer_are_a_pair_and_so_are_those_of_drawers_like_it():
    """Four drawers of three heights: one page for each height, with every board by its mark, or its drawer by its own.

    A mark less its last letter is the drawer's: both sides of it are meant.
    """
    drawers = 'number = 4, heights = [150, 150, 150, "rest"], bottom_board = "birch6", joint = "corner"'
    rod = made(f'kind = "base"\ndividers = 0\ndrawers = {{ {drawers} }}', shelves=0)
    sides = [p for c in rod.cabinets for p in c.parts if p.role == "drawer side"]
    pages = [p for p in board_pages(rod) if "DRAWER SIDE" in p.title]
    assert len(sides) == 8
    assert len(pages) == len({p.size for p in sides})
    assert all(sum(mark[:-1] in p.title for p in pages) == 1 for part in sides for mark in part.marks)
    assert all(p.title.startswith(("S1-W1L and S1-W1R", "S1-W2L and S1-W2R", "S1-W4L and S1-W4R")) for p in pages)
    assert [p.title.partition("pair")[2] for p in pages] == ["", " (also S1-W3)", ""]
    assert all(p.under.startswith("insides up, bottoms together, backs to the left") for p in pages)
    check_pages(board_pages(rod), rod)


def test_the_end_that_numbers_run_from_stands_in_their_row_where_there_is_room():
    """A top lies inside up, its left end at the right: a number under it is not from the left of the page."""
    rod = made("dividers = 1", shelves=0)
    (page,) = [p for p in board_pages(rod) if p.title.startswith("S1-T ")]
    at = {s.text: s.at for s in page.shapes if isinstance(s, Text)}
    said = at["from LEFT"]
    number = next(p for t, p in at.items() if re.fullmatch(r"4\d\d(\.\d)?", t) and abs(p[1] - said[1]) < 3.0)
    assert said[0] > number[0] + 30.0
    assert at["LEFT"][0] > at["RIGHT"][0]


def test_bores_in_the_two_ends_are_said_to_be_in_both():
    assert surfaces_words(["right end", "left end"]) == surfaces_words(["top end", "bottom end"]) == "both ends"
    assert surfaces_words(["right end", "inside"]) == "inside and right end"


@pytest.mark.parametrize("scale", [0.11, 0.095])
def test_the_name_of_a_board_keeps_clear_of_its_edges(scale):
    """On a drawing where the largest letters have air round them, and on one where only smaller ones have.

    Over the bench the first letter is not to be taken for part of the edge.
    """
    rod = made("dividers = 0", depth=560, shelves=0)
    left, right = (rod.cabinets[0].part[f"{hand} side"] for hand in ("left", "right"))
    boards = [Board(part=p, works=Works(rod).of(rod.cabinets[0], p)) for p in (left, right)]
    for face in pair_faces(*boards, "face_side", with_edges=True):
        face = replace(face, view=replace(face.view, scale=scale, x=40.0, y=40.0))
        (name,) = [s for s in face_shapes(face, "face_edge") if isinstance(s, Text) and "SIDE" in s.text]
        room = text_box(name)
        assert room.left > face.view.box.left + 3.9
        assert room.right < face.view.box.right - 3.9


def test_no_title_and_no_label_of_a_drawer_is_cut_short():
    """Dots name no board: long names of drawers' boards are printed smaller, on sheets and on labels."""
    drawers = '{ number = 4, bottom_board = "birch6", joint = "corner" }'
    rod = made(f'kind = "base"\ncount = 2\ndividers = 0\ndrawers = {drawers}', shelves=0)
    pages = (*board_pages(rod), *label_pages(rod))
    short = [s.text for d in numbered(pages, rod) for s in d.shapes if isinstance(s, Text) and s.text.endswith("...")]
    assert short == []


def test_a_board_has_one_size_on_sheet_label_and_cutting_list():
    """Under a slope sizes fall between two steps: all three print the step of the job, here 0.1."""
    rod = made(ROOF)
    listed = {mark: row.size for row in cutting_rows(rod) for mark in row.marks}
    sheets = {p.title.split()[0]: p.right for p in board_pages(rod)}
    assert "S1-T" in sheets
    for mark in ("S1-T", "S1-B"):
        long, wide, thick = listed[mark]
        size = f"{round(long, 1):g} x {round(wide, 1):g} x {thick:g}"
        assert sheets[mark] == size
        assert size in [s.text for p in label_pages(rod) for s in p.shapes if isinstance(s, Text)]


def test_the_right_side_of_a_drawer_lies_above_and_the_left_below_with_their_bottoms_together():
    """Against the boards as they stand in the drawer: down is towards the fold, backwards to the left, insides up."""
    rod = made(
        'kind = "base"\ndividers = 0\ndrawers = { number = 1, bottom_board = "birch6", joint = "corner" }', shelves=0
    )
    cabinet = rod.cabinets[0]
    left, right = (Board(part=cabinet.part[f"drawer {hand} side"], works=()) for hand in ("left", "right"))
    faces = pair_faces(left, right, "face_side", with_edges=True)
    assert [f.board.part.id for f in faces] == ["drawer right side", "drawer left side"]
    for face, sign in zip(faces, (1, -1), strict=True):
        view, pose = face.view, face.board.part.pose
        down, back = (view.at(*pose.direction_to_part(way)[:2]) for way in ((0, 0, -1), (0, 1, 0)))
        origin = view.at(0.0, 0.0)
        assert sign * (down[1] - origin[1]) < 0
        assert back[0] - origin[0] < 0
        assert pose.direction_to_cabinet((0, 0, 1))[0] == (1 if face.letter == "L" else -1)  # inside up, never mirrored


def test_a_bevelled_end_is_no_notch():
    """Its long point lies beyond the outline of the face side; what is cut back from it is the bevel."""
    rod = made(ROOF)
    assert any(any(part.bevels) for cabinet in rod.cabinets for part in cabinet.parts)
    assert all(notches(part) == () for cabinet in rod.cabinets for part in cabinet.parts if any(part.bevels))


def test_screws_along_a_slope_have_one_note_with_both_numbers_of_each():
    """Each had a note of its own: sixteen of them filled the page beside a planted back."""
    rod = made('loose_shelves = 1\nback = { board = "birch6", style = "planted" }\n' + MARKED_ROOF, slope="biscuit")
    (back,) = (p for p in board_pages(rod) if "BACK" in p.title)
    texts = [s.text for s in back.shapes if isinstance(s, Text)]
    marked = next(s for s in rod.setups if s.is_marked)
    assert len(marked.features) > 4
    said = " ".join(texts)
    assert said.count("each where two marks cross") == 1
    for f in marked.features:
        assert f"{round(f.along.mm, 2):g} and {round(f.across.mm, 2):g}" in said
        assert f"{round(f.across.mm, 2):g}" not in texts  # not a second time beside the board
