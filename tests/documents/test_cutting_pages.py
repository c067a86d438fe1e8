"""The cutting plan on paper: every law of a page, every cut and every board on it, sheets to scale."""

from dataclasses import replace
from itertools import combinations

import ezdxf
import pytest
from page_laws import check_pages
from tests.building import cabinet, job, rod_of

from rodwork.documents.annotate import text_box
from rodwork.documents.buying_list import buying_list_pages, buying_rows
from rodwork.documents.cutting_pages import cutting_pages
from rodwork.documents.cutting_words import CUT_HEADER, PLACE_HEADER, cut_rows, place_rows, proven_words, sheet_title
from rodwork.documents.drawing import Path_, Text
from rodwork.documents.labels import label_pages
from rodwork.documents.pack import pack_pages
from rodwork.documents.page import Area
from rodwork.documents.sheet_drawing import sheet_shapes, times_wider
from rodwork.model.cutting import CutSheet, Sawn, Strip
from rodwork.model.results import Results
from rodwork.model.sawing import Saw, StockSheet, usual_saw
from rodwork.sheets.plan import Work, plan_cutting
from rodwork.writers.dxf import sheet_dxf_files

LITTLE = Work(steps=400, polish=100)
PAPERS = ("A4", "Letter")


def many():
    kiln = cabinet(name="kiln", mark="K", count=4, width_mm=800.0, openings=(300.0, "rest"))
    return rod_of(job(cabinet(count=3), kiln))


def planned(rod, saw=None):
    return plan_cutting(rod, LITTLE, saw)


def texts(pages):
    return [s.text for p in pages for s in p.shapes if isinstance(s, Text)]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(
    "saw", [None, Saw(kind="panel saw", levels=3), usual_saw("router"), Saw(rough=5.0, rail=1300.0)],
    ids=["track saw", "panel saw", "router", "rough"],
)  # fmt: skip
def test_every_page_of_the_plan_obeys_the_laws(paper, saw):
    rod = many()
    rod = replace(rod, heading=replace(rod.heading, paper=paper))
    check_pages(cutting_pages(rod, planned(rod, saw)), rod)


@pytest.mark.parametrize("upright", [False, True])
def test_the_names_of_narrow_strips_stand_apart(upright):
    """Strips of 20 of a sheet drawn to 1 : 15: their names are wider and higher than they are."""
    _, sheet = next((board, s) for board in planned(many()).boards for s in board.sheets)
    strips = tuple(
        Strip(name=f"1{c}", upright=upright, low=n * 23.0, high=n * 23.0 + 20.0) for n, c in enumerate("ABC")
    )
    drawn = sheet_shapes(replace(sheet, strips=strips), Area(left=0.0, bottom=0.0, right=180.0, top=120.0), grain=False)
    boxes = [text_box(s) for s in drawn if isinstance(s, Text) and s.text in ("1A", "1B", "1C")]
    assert len(boxes) == 3
    assert all(a.clear_of(b) for a, b in combinations(boxes, 2))


def test_every_cut_is_in_the_table_and_on_the_drawing():
    rod = many()
    plan = planned(rod)
    pages = cutting_pages(rod, plan)
    for board in plan.boards:
        for sheet in board.sheets:
            drawing, *tables = _of(pages, sheet, board)
            assert len(tables) == 0 or len(sheet.cuts) > 12  # drawing and cuts stand on one page where they have room
            numbers = {t for t in texts([drawing]) if t.isdigit()}
            for cut in sheet.cuts:
                assert str(cut.number) in numbers, f"cut {cut.number} of sheet {sheet.numbers} has no number on it"
                assert str(cut.number) in texts(tables or [drawing])


@pytest.mark.parametrize("width", [60.0, 65.0, 70.0, 75.0, 80.0, 90.0])
def test_the_number_of_a_cut_keeps_off_the_mark_of_a_narrow_board(width):
    """An infill with the cut that frees it along its edge: number and mark touched on the studio's first sheet."""
    sawn = Sawn(marks=("GL1-IN1",), name="infill", x=1700.0, y=1100.0, length=720.0, width=width, turned=False)
    sheet = replace(planned(many()).boards[0].sheets[0], size=(2440.0, 1220.0), strips=(), leftovers=(), sawn=(sawn,))
    cut = replace(sheet.cuts[0], number=9, start=(1700.0, 1100.0 + width), end=(2420.0, 1100.0 + width))
    area = Area(left=0.0, bottom=0.0, right=186.0, top=120.0)
    drawn = sheet_shapes(replace(sheet, cuts=(cut,)), area, grain=False)
    mark = text_box(next(s for s in drawn if isinstance(s, Text) and s.text == "GL1-IN1"))
    number = next(n for n, s in enumerate(drawn) if isinstance(s, Text) and s.text == "9")
    (left, low), _, (right, high), _ = drawn[number - 1].points  # its white ground
    apart = max(mark.left - right, left - mark.right, mark.bottom - high, low - mark.top)
    assert apart >= 0.6 - 1e-9


def test_the_number_of_a_cut_stays_on_its_cut_between_boards_that_leave_it_little_room():
    """Off the cut it would stand beside a mark, and be read as part of it: the drawer sides of the studio's last sheet."""
    boards = [
        Sawn(marks=(mark,), name="drawer 3 right side", x=1980.0, y=y, length=450.0, width=197.0, turned=False)
        for mark, y in (("B1-W3R", 400.0), ("B2-W3R", 600.0))
    ]
    sheet = replace(
        planned(many()).boards[0].sheets[0], size=(2440.0, 1220.0), strips=(), leftovers=(), sawn=tuple(boards)
    )
    cut = replace(sheet.cuts[0], number=14, start=(1980.0, 598.5), end=(2430.0, 598.5))
    area = Area(left=0.0, bottom=0.0, right=273.0, top=160.0)
    drawn = sheet_shapes(replace(sheet, cuts=(cut,)), area, grain=False)
    number = next(n for n, s in enumerate(drawn) if isinstance(s, Text) and s.text == "14")
    (_, low), _, (_, high), _ = drawn[number - 1].points
    level = next(s.points for s in drawn if isinstance(s, Path_) and s.pen.width == 0.5)
    assert (low + high) / 2 == pytest.approx(level[0][1])


@pytest.mark.parametrize("many_cuts", [32, 33, 35, 60])
def test_a_few_cuts_more_than_a_page_takes_do_not_stand_alone_on_the_next(many_cuts):
    rod = many()
    plan = planned(rod)
    board = plan.boards[0]
    cut = board.sheets[0].cuts[-1]
    sheet = replace(board.sheets[0], cuts=tuple(replace(cut, number=n) for n in range(1, many_cuts + 1)))
    pages = cutting_pages(rod, replace(plan, boards=(replace(board, sheets=(sheet,)),)))
    tables = [p for p in pages if p.title.endswith("the cuts")]
    assert len(tables) == (1 if many_cuts <= 35 else 2)
    check_pages(tuple(tables), rod)


def _of(pages, sheet, board):
    title = f"{sheet_title(sheet)}: {board.board}"
    return [p for p in pages if p.title == title or p.title == f"{title}, the cuts"]


def test_boards_are_drawn_to_one_scale_and_in_their_places():
    rod = many()
    plan = planned(rod)
    board = plan.boards[0]
    sheet = board.sheets[0]
    (drawing, *_) = _of(cutting_pages(rod, plan), sheet, board)
    boxes = [s.points for s in drawing.shapes if isinstance(s, Path_) and s.closed]
    whole = max(boxes, key=lambda b: b[1][0] - b[0][0])
    scale = (whole[1][0] - whole[0][0]) / sheet.size[0]
    assert (whole[2][1] - whole[1][1]) / scale == pytest.approx(sheet.size[1])
    for sawn in sheet.sawn:
        want = (whole[0][0] + sawn.x * scale, whole[0][1] + sawn.y * scale, sawn.length * scale, sawn.width * scale)
        assert any(
            (b[0][0], b[0][1], b[1][0] - b[0][0], b[2][1] - b[1][1]) == pytest.approx(want, abs=1e-6) for b in boxes
        )


def test_no_fewer_is_said_only_with_the_bound_as_proof():
    board = planned(many()).boards[0]
    assert "no fewer sheets are possible" in proven_words(replace(board, proven=True, least=board.count))
    assert "no fewer" not in proven_words(replace(board, proven=False, least=board.count - 1))
    assert "no fewer" not in proven_words(replace(board, proven=False, least=None))


def test_the_buying_list_takes_the_count_of_the_plan():
    rod = many()
    plan = planned(rod)
    for board in plan.boards:
        (row,) = [r for r in buying_rows(rod, plan) if r.item.startswith(f"{board.board}:")]
        assert row.buy == board.count
        assert "cutting plan" in row.reckoning
    said = " ".join(texts(buying_list_pages(rod, plan)))
    assert "by area alone" not in said
    check_pages(buying_list_pages(rod, plan), rod)
    offcut = StockSheet(name="rack", board="birch6", size=(2400.0, 1200.0), price=None, count=9, offcut=True)
    rod = replace(rod, sawing=replace(rod.sawing, stock=(offcut,)))
    assert not [r for r in buying_rows(rod, planned(rod)) if r.item.startswith("birch6:")]


def test_labels_carry_the_number_of_the_sheet():
    rod = many()
    plan = planned(rod)
    pages = label_pages(rod, plan)
    check_pages(pages, rod)
    said = texts(pages)
    for mark, number in plan.sheet_numbers.items():
        assert mark in said
        assert any(t.endswith(f"sheet {number}") for t in said)
    assert not any("sheet" in t for t in texts(label_pages(rod)))


def test_the_plan_stands_in_the_pack_where_it_was_asked_for():
    rod = rod_of(job(cabinet()))
    kinds = [p.kind for p in pack_pages(rod, Results(cutting=planned(rod)))]
    assert kinds.index("cutting list") < kinds.index("cutting plan") < kinds.index("settings")
    assert "cutting plan" not in [p.kind for p in pack_pages(rod)]


def test_lists_have_every_cut_and_every_board():
    plan = planned(many())
    cuts, places = list(cut_rows(plan)), list(place_rows(plan))
    assert len(cuts) == sum(len(s.cuts) for b in plan.boards for s in b.sheets)
    assert all(len(row) == len(CUT_HEADER) for row in cuts)
    assert all(len(row) == len(PLACE_HEADER) for row in places)
    assert {row[2] for row in places} >= set(plan.sheet_numbers)


def test_a_router_has_a_drawing_of_each_sheet_that_another_reader_takes(tmp_path):
    plan = planned(many(), usual_saw("router"))
    files = sheet_dxf_files(plan)
    assert len(files) == sum(b.count for b in plan.boards)
    name, content = files[0]
    assert name.endswith("mm.dxf")
    (tmp_path / name).write_bytes(content)
    document = ezdxf.readfile(tmp_path / name)
    assert not document.audit().errors
    through = [e for e in document.modelspace() if e.dxf.layer == "BOARDS_THROUGH"]
    assert len(through) == len(plan.boards[0].sheets[0].sawn)
    corners = [v.dxf.location for e in through for v in e.vertices]
    assert all(0 <= c.x <= 2440 and 0 <= c.y <= 1220 for c in corners)


def test_a_plank_is_drawn_wide_enough_for_the_marks_of_its_strips():
    """Lippings of 20 out of a plank of 150: to one scale they were lines with no name."""
    lippings = tuple(
        Sawn(
            marks=(f"C1-LP{row}{n}",), name="lipping", x=5 + 480.0 * n, y=5 + 23.0 * row, length=477.0, width=20.0,
            turned=False,
        )
        for row in range(6)
        for n in range(5)
    )  # fmt: skip
    sheet = CutSheet(
        numbers=(1,), stock="", offcut=False, size=(2440.0, 150.0), kg=3.0, sawn=lippings, leftovers=(), strips=(),
        cuts=(),
    )  # fmt: skip
    shapes = sheet_shapes(sheet, Area(left=0.0, bottom=0.0, right=180.0, top=120.0), grain=True)
    told = [s.text for s in shapes if isinstance(s, Text)]
    assert {mark for sawn in sheet.sawn for mark in sawn.marks} <= set(told)
    assert f"drawn {times_wider(sheet)} times as wide as it is" in told
    assert times_wider(sheet) == 4  # a fifth of 2440 is 488, over 150: 3.3
    whole = max((s.points for s in shapes if isinstance(s, Path_) and s.closed), key=lambda b: b[1][0] - b[0][0])
    along, across = whole[1][0] - whole[0][0], whole[2][1] - whole[1][1]
    assert across / along == pytest.approx(4 * 150 / 2440)
    assert times_wider(replace(sheet, size=(2440.0, 1220.0))) == 1


def test_nothing_is_said_of_edging_where_there_is_none():
    rod = many()
    plan = planned(rod)
    assert any(t.startswith("Edging on all boards") for t in texts(cutting_pages(rod, plan)))
    assert not any("Edging" in t for t in texts(cutting_pages(rod, replace(plan, edging_m=0.0))))
