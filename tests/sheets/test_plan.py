"""The plan of a job: every cut can be made as it is printed, grain and sets kept, sheets and offcuts counted rightly."""

import itertools
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

import rodwork
from rodwork.documents.cutting_list import cutting_rows
from rodwork.documents.figures import size_text
from rodwork.model.cutting import CuttingPlan
from rodwork.model.plain import from_plain, to_plain
from rodwork.model.sawing import Matched, Saw, StockSheet, usual_saw
from rodwork.sheets.order import ONE_PERSON_KG
from rodwork.sheets.parts import boards_of
from rodwork.sheets.plan import Work, plan_cutting
from rodwork.sheets.recut import recut_plan
from tests.building import cabinet, job, rod_of
from tests.sheets.bench import NEAR, cut_up

EXAMPLES = Path(__file__).parents[2] / "examples"
LITTLE = Work(steps=600, polish=200)
SAWS = {
    "track saw": Saw(),
    "panel saw": Saw(kind="panel saw", levels=3, first="along"),
    "panel saw, 2 levels": Saw(kind="panel saw", levels=2, first="across", kerf=4.2),
    "uneven trims": Saw(trim=(10.0, 0.0, 3.0, 7.5), kerf=3.2, rail=1400.0),
    "no trims": Saw(trim=(0.0, 0.0, 0.0, 0.0), kerf=2.5),
    "rough": Saw(rough=5.0),
    "a blade between tenths": Saw(kerf=3.25),
}


@cache
def studio():
    return rodwork.set_out(EXAMPLES / "pottery-studio.toml")


@cache
def studio_plan(name="track saw"):
    return plan_cutting(studio(), LITTLE, SAWS[name])


def asked(rod, **changes):
    return replace(rod, sawing=replace(rod.sawing, **changes))


def printed(mm):
    """A size as the cutting list has it."""
    return float(size_text(mm, studio().step))


def all_marks(rod):
    return Counter(m for c in rod.cabinets for p in c.parts for m in p.marks)


def planned_marks(plan):
    return Counter(m for b in plan.boards for s in b.sheets for w in s.sawn for m in w.marks)


@pytest.mark.parametrize("name", SAWS)
def test_every_cut_can_be_made_when_its_turn_comes_and_gives_what_it_says(name):
    plan = studio_plan(name)
    assert plan.boards
    for board in plan.boards:
        for sheet in board.sheets:
            named, pieces = cut_up(sheet, plan.saw.kerf)
            for sawn in sheet.sawn:
                piece = named[", ".join(sawn.marks)]
                assert piece in pieces, f"{sawn.marks} is cut up again"
                assert abs(piece[2] - piece[0] - sawn.length) < NEAR
                assert abs(piece[3] - piece[1] - sawn.width) < NEAR
            for left in sheet.leftovers:
                if left.kept:
                    x0, y0, x1, y1 = named[f"keep {left.name}"]
                    assert (x1 - x0, y1 - y0) == pytest.approx((left.length, left.width), abs=NEAR)


@pytest.mark.parametrize("name", SAWS)
def test_every_board_of_the_job_lies_on_a_sheet_of_its_own_material_once_and_has_its_size(name):
    rod, plan = studio(), studio_plan(name)
    assert planned_marks(plan) == all_marks(rod)
    over = plan.saw.rough
    parts = {m: p for c in rod.cabinets for p in c.parts for m in p.marks}
    for board in plan.boards:
        for sheet in board.sheets:
            for sawn in sheet.sawn:
                for mark in sawn.marks:
                    part = parts[mark]
                    assert part.board == board.board
                    size = (sawn.width, sawn.length) if sawn.turned else (sawn.length, sawn.width)
                    assert size == pytest.approx((part.cut[0] + over, part.cut[1] + over), abs=0.1)
                    assert not (sawn.turned and part.grain)


def test_a_board_has_one_size_on_the_cutting_list_and_in_the_plan():
    """Under a slope a size may fall between two steps of the job."""
    rod = studio()
    listed = {m: [printed(mm) for mm in row.cut] for row in cutting_rows(rod) for m in row.marks}
    cuts = [mm for cabinet in rod.cabinets for part in cabinet.parts for mm in part.cut]
    assert any(abs(mm - round(mm, 1)) > 1e-6 for mm in cuts)
    laid_out = {board.mark: board for name in rod.boards for board in boards_of(rod, name)}
    for mark, board in laid_out.items():
        assert [board.length, board.width] == pytest.approx(listed[mark], abs=1e-9)


def test_trims_come_first_and_equal_settings_come_together():
    for board in studio_plan().boards:
        for sheet in board.sheets:
            kinds = [cut.kind == "trim" for cut in sheet.cuts]
            assert kinds == sorted(kinds, reverse=True)
            assert sum(kinds) == 4
            assert sheet.settings == sum(1 for cut in sheet.cuts if not cut.again)
    repeated = [c for b in studio_plan().boards for s in b.sheets for c in s.cuts if c.again]
    assert repeated


@pytest.mark.parametrize(("name", "levels"), [("panel saw", 3), ("panel saw, 2 levels", 2)])
def test_a_panel_saw_turns_the_pieces_no_more_often_than_it_may(name, levels):
    """So many levels and one trimming cut: the way of the blade changes at most `levels` times."""
    for board in studio_plan(name).boards:
        for sheet in board.sheets:
            runs = [cut.run for cut in sheet.cuts if cut.kind != "trim"]
            assert sum(a != b for a, b in itertools.pairwise(runs)) <= levels
            if len(runs) > 1:
                first = {"panel saw": "along", "panel saw, 2 levels": "across"}[name]
                assert runs[0] == first or set(runs) == {runs[0]}


def test_nobody_lifts_over_25_kg_alone_and_a_heavy_sheet_is_halved_first():
    """A blank of 3050 x 1220 x 39.5 birch plywood at 680 kg/m3 weighs 99.9 kg."""
    rod, plan = studio(), studio_plan()
    for board in plan.boards:
        stock = rod.boards[board.board]
        for sheet in board.sheets:
            length, width = stock.sheet
            assert sheet.kg == pytest.approx(length * width * stock.actual * stock.density_kg_m3 * 1e-9)
            for cut in sheet.cuts:
                kg = cut.hand[0] * cut.hand[1] * stock.actual * stock.density_kg_m3 * 1e-9
                assert cut.people == (2 if kg > ONE_PERSON_KG else 1)
    heavy = next(b for b in plan.boards if b.board == "top40")
    assert heavy.sheets[0].kg == pytest.approx(99.9, abs=0.1)
    assert heavy.sheets[0].cuts[0].people == 2


def test_many_strips_of_a_heavy_sheet_are_halved_before_they_are_cut_one_by_one():
    many = [cabinet(name="c", mark="C", count=1, openings=("rest",) * 9, loose_shelves=(0,) * 9, width_mm=1000.0)]
    rod = rod_of(job(*many))
    board = replace(rod.boards["birch18"], density_kg_m3=2000.0)
    plan = plan_cutting(replace(rod, boards={**rod.boards, "birch18": board}), LITTLE)
    cuts = [c for b in plan.boards if b.board == "birch18" for s in b.sheets for c in s.cuts if c.kind != "trim"]
    assert any(c.kind == "break down" for c in cuts)
    for board_plan in plan.boards:
        for sheet in board_plan.sheets:
            cut_up(sheet, plan.saw.kerf)


def test_totals():
    rod, plan = studio(), studio_plan()
    for board in plan.boards:
        parts = [p for c in rod.cabinets for p in c.parts if p.board == board.board]
        area = sum(printed(p.cut[0]) * printed(p.cut[1]) * len(p.marks) for p in parts)
        assert board.used_m2 == pytest.approx(area * 1e-6)
        length, width = rod.boards[board.board].sheet
        assert board.bought_m2 == pytest.approx(length * width * 1e-6 * board.count)
        assert board.cost == board.count * {"birch18": 64, "birch6": 31, "top40": 180}[board.board]
        assert 0 < board.used_share <= 1
        assert board.least is not None
        assert board.least <= board.count
        assert board.proven == (board.least == board.count)
    assert plan.sheet_numbers.keys() == all_marks(rod).keys()
    numbers = [n for b in plan.boards for s in b.sheets for n in s.numbers]
    assert numbers == list(range(1, len(numbers) + 1))


def test_sheets_cut_alike_are_one_entry_with_the_boards_of_each():
    rod = rod_of(job(cabinet(count=12)))
    plan = plan_cutting(rod, LITTLE)
    assert planned_marks(plan) == all_marks(rod)
    stacked = [s for b in plan.boards for s in b.sheets if len(s.numbers) > 1]
    assert stacked
    for sheet in stacked:
        assert all(len(sawn.marks) == len(sheet.numbers) for sawn in sheet.sawn)


def test_rough_sizes_are_brought_to_size_in_sets_width_before_length():
    rod, plan = studio(), studio_plan("rough")
    for board in plan.boards:
        for way in ("width", "length"):
            sets = [s for s in board.sizing if s.way == way]
            stops = [s.setting for s in sets]
            assert stops == sorted(set(stops), reverse=True)
            assert sum(len(s.marks) for s in sets) == sum(
                len(p.marks) for c in rod.cabinets for p in c.parts if p.board == board.board
            )
    assert all(board.sizing == () for board in studio_plan().boards)


def test_an_offcut_of_the_shop_is_taken_where_it_saves_a_sheet():
    rod = rod_of(job(cabinet()))
    plain = plan_cutting(rod, LITTLE)
    back = next(b for b in plain.boards if b.board == "birch6")
    assert back.count == 1
    offcut = StockSheet(name="rack 3", board="birch6", size=(800.0, 620.0), price=None, count=1, offcut=True)
    plan = plan_cutting(asked(rod, stock=(offcut,)), LITTLE)
    sheet = next(b for b in plan.boards if b.board == "birch6").sheets[0]
    assert (sheet.offcut, sheet.stock) == (True, "rack 3")
    assert next(b for b in plan.boards if b.board == "birch6").cost == 0
    assert not [c for c in sheet.cuts if c.kind == "trim"]


def test_only_listed_stock_is_used_where_nothing_may_be_bought():
    rod = rod_of(job(cabinet()))
    few = StockSheet(name="half", board="birch18", size=(1220.0, 1220.0), price="33.00 GBP", count=2, offcut=False)
    plan = plan_cutting(asked(rod, stock=(few,), buy=False), LITTLE)
    (board,) = plan.boards
    assert board.bought == {"half": 2}
    (finding,) = [f for f in plan.findings if f.severity == "fault"]
    assert "birch6" in finding.message
    assert "no sheet to cut from" in finding.message


def test_matched_boards_are_cut_out_of_one_piece_in_order_with_one_saw_cut_between():
    rod = rod_of(job(cabinet(openings=("rest",) * 4, loose_shelves=(0,) * 4)))
    marks = ("G1-FS3", "G1-FS1", "G1-FS2")
    assert set(marks) <= set(all_marks(rod))
    for run in ("along", "across"):
        plan = plan_cutting(asked(rod, matched=(Matched(name="shelves", marks=marks, run=run),)), LITTLE)
        assert planned_marks(plan) == all_marks(rod)
        (sheet,) = [s for b in plan.boards for s in b.sheets if any(marks[0] in w.marks for w in s.sawn)]
        lie = {m: w for w in sheet.sawn for m in w.marks}
        a, b, c = (lie[m] for m in marks)
        if run == "along":
            assert (b.x - a.x - a.length, c.x - b.x - b.length) == pytest.approx((3.0, 3.0))
            assert a.y == b.y == c.y
        else:
            assert (b.y - a.y - a.width, c.y - b.y - b.width) == pytest.approx((3.0, 3.0))
            assert a.x == b.x == c.x
        cut_up(sheet, plan.saw.kerf)


@pytest.mark.parametrize(
    ("marks", "says"),
    [(("G1-LS", "G1-XX"), "not among the boards"), (("G1-LS", "G1-T"), "not equally")],
)
def test_a_set_that_cannot_be_matched_is_said(marks, says):
    plan = plan_cutting(asked(rod_of(job(cabinet())), matched=(Matched(name="m", marks=marks, run="across"),)), LITTLE)
    assert any(says in f.message for f in plan.findings if f.severity == "fault")


def test_the_boards_of_one_cabinet_come_from_one_sheet_where_it_is_asked():
    rod = rod_of(job(cabinet(count=3), cabinet(name="kiln", mark="K", count=2, width_mm=900.0)))
    plan = plan_cutting(asked(rod, one_sheet=("glaze",)), LITTLE)
    numbers = plan.sheet_numbers
    parts = [(m, p.board) for c in rod.cabinets if c.name == "glaze" for p in c.parts for m in p.marks]
    for copy in ("G1", "G2", "G3"):
        assert len({numbers[m] for m, board in parts if m.startswith(copy) and board == "birch18"}) == 1


def test_a_grain_that_may_lie_either_way_is_turned_and_only_that():
    rod = rod_of(
        job(cabinet(width_mm=1210.0, height_mm=2430.0, depth_mm=300.0, openings=("rest",), loose_shelves=(0,)))
    )
    lying = asked(replace(rod, boards={k: replace(b, sheet=(1300.0, 2500.0)) for k, b in rod.boards.items()}))
    faults = [f for f in plan_cutting(lying, LITTLE).findings if f.severity == "fault"]
    assert any("would fit across the grain" in f.mend for f in faults)
    freed = asked(lying, may_turn=("back", "side"))
    plan = plan_cutting(freed, LITTLE)
    assert not [f for f in plan.findings if f.severity == "fault"]
    turned = {w.name for b in plan.boards for s in b.sheets for w in s.sawn if w.turned}
    assert turned
    assert turned <= {"back", "left side", "right side"}


def test_a_strip_narrower_than_the_saw_holds_is_said():
    plan = plan_cutting(rod_of(job(cabinet(depth_mm=160.0))), LITTLE, Saw(least_strip=150.0))
    assert any("holds nothing under 150" in f.message for f in plan.findings)


def test_cuts_longer_than_the_rail_are_counted_and_marked():
    plan = studio_plan("uneven trims")
    long = [c for b in plan.boards for s in b.sheets for c in s.cuts if c.long]
    assert long
    assert all(c.length > 1400 for c in long)
    assert any(f.code == "longer_than_rail" for f in plan.findings)


def test_a_router_needs_no_cut_right_across_and_keeps_its_gap():
    plan = plan_cutting(studio(), LITTLE, usual_saw("router"))
    assert planned_marks(plan) == all_marks(studio())
    for board in plan.boards:
        for sheet in board.sheets:
            assert sheet.cuts == ()
            for i, a in enumerate(sheet.sawn):
                for b in sheet.sawn[i + 1 :]:
                    gap = plan.saw.kerf - NEAR
                    assert (
                        a.x + a.length + gap <= b.x or b.x + b.length + gap <= a.x
                        or a.y + a.width + gap <= b.y or b.y + b.width + gap <= a.y
                    )  # fmt: skip
                assert a.x >= 0
                assert a.x + a.length <= sheet.size[0]
                assert a.y >= 0
                assert a.y + a.width <= sheet.size[1]


def test_a_spoilt_board_is_cut_from_what_is_left_and_nothing_else_moves():
    rod, plan = studio(), studio_plan()
    new = recut_plan(rod, plan, ["B1-D"])
    for before, after in zip(plan.boards, new.boards, strict=True):
        assert after.sheets[: len(before.sheets)] == before.sheets
    added = [s for b in new.boards for s in b.sheets if s.numbers[0] > sum(x.count for x in plan.boards)]
    (sheet,) = added
    assert [w.marks for w in sheet.sawn] == [("B1-D",)]
    kept = {
        f"{x.name} of sheet {n}"
        for b in plan.boards
        for s in b.sheets
        for n in s.numbers
        for x in s.leftovers
        if x.kept
    }
    assert not sheet.offcut or sheet.stock in kept
    cut_up(sheet, plan.saw.kerf)


def test_a_spoilt_board_that_fits_on_an_offcut_takes_no_new_sheet_and_no_offcut_is_used_twice():
    rod = rod_of(job(cabinet()))
    plan = plan_cutting(rod, LITTLE)
    once = recut_plan(rod, plan, ["G1-B"])
    twice = recut_plan(rod, once, ["G1-B", "G1-T"])
    used = [s.stock for b in twice.boards for s in b.sheets if s.offcut]
    assert used
    assert len(used) == len(set(used))
    assert [b.cost for b in once.boards] == [b.cost for b in plan.boards]


def test_recutting_a_board_that_is_not_there_says_which_was_meant():
    rod = rod_of(job(cabinet()))
    new = recut_plan(rod, plan_cutting(rod, LITTLE), ["G1-LX"])
    assert any("did you mean G1-L" in f.mend for f in new.findings)


def test_a_plan_survives_being_written_down():
    plan = studio_plan()
    assert from_plain(CuttingPlan, to_plain(plan)) == plan


def test_one_seed_and_number_of_steps_give_one_plan():
    assert plan_cutting(studio(), LITTLE) == plan_cutting(studio(), LITTLE)
