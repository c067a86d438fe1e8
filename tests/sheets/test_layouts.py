"""Layouts against published instances, an exhaustive solver and an independent validator; and what must never matter."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodwork.sheets.bounds import cost_bound, sheets_bound
from rodwork.sheets.first_answer import first_answer
from rodwork.sheets.free_layout import free_layout
from rodwork.sheets.lay_out import lay_out
from rodwork.sheets.problem import LEVEL, LOOSE, UPRIGHT, CannotCut, Effort, Kind, Piece, Problem, Rules
from tests.sheets.exhaustive import fewest
from tests.sheets.validator import faults

SMALL = Effort(steps=400, polish=100)
ENDLESS = 10**6


def problem(sizes, sheet, *, turn=False, rules=None, kinds=(), copies=None):
    pieces = tuple(Piece(name=f"P{n}", wide=w, high=h, turn=turn) for n, (w, h) in enumerate(sizes))
    own = Kind(name="sheet", wide=sheet[0], high=sheet[1], cost=sheet[0] * sheet[1], copies=copies)
    return Problem(pieces=pieces, kinds=(own, *kinds), rules=rules or Rules(offcut=(1, 1)))


def shape_of(laid):
    return laid.cost, len(laid.sheets)


# J. O. Berkey, P. Y. Wang, "Two-dimensional finite bin-packing algorithms", Journal of the Operational Research Society
# 38 (1987), classes 1 to 5; S. Martello, D. Vigo, Management Science 44 (1998), class 7: first instances of 20 parts,
# and the number of sheets at which lower bound and best known layout agree.
PUBLISHED = [
    pytest.param(*row, id=row[0])
    for row in (
        (
            "C01_n020_01",
            (10, 10),
            8,
            (
                (5, 9),
                (4, 2),
                (10, 6),
                (5, 7),
                (6, 3),
                (10, 7),
                (1, 5),
                (3, 5),
                (6, 9),
                (2, 4),
                (6, 7),
                (7, 2),
                (8, 3),
                (8, 3),
                (8, 3),
                (4, 10),
                (4, 5),
                (10, 3),
                (7, 8),
                (8, 7),
            ),
        ),
        (
            "C03_n020_09",
            (40, 40),
            5,
            (
                (19, 13),
                (9, 13),
                (34, 15),
                (21, 28),
                (12, 34),
                (26, 31),
                (25, 27),
                (16, 5),
                (19, 32),
                (31, 11),
                (23, 30),
                (15, 17),
                (4, 14),
                (32, 5),
                (13, 22),
                (14, 2),
                (7, 34),
                (13, 11),
                (26, 9),
                (20, 13),
            ),
        ),
        (
            "C05_n020_03",
            (100, 100),
            7,
            (
                (63, 47),
                (100, 57),
                (49, 51),
                (64, 17),
                (36, 79),
                (87, 92),
                (71, 44),
                (78, 58),
                (31, 89),
                (84, 27),
                (26, 93),
                (81, 42),
                (2, 65),
                (80, 83),
                (37, 51),
                (27, 59),
                (40, 29),
                (98, 16),
                (57, 9),
                (5, 31),
            ),
        ),
        (
            "C07_n020_01",
            (100, 100),
            5,
            (
                (56, 75),
                (98, 27),
                (74, 24),
                (99, 34),
                (80, 1),
                (84, 43),
                (88, 6),
                (89, 6),
                (98, 38),
                (78, 21),
                (75, 49),
                (31, 93),
                (90, 37),
                (21, 73),
                (71, 4),
                (93, 35),
                (89, 48),
                (90, 12),
                (13, 79),
                (10, 42),
            ),
        ),
        (
            "C09_n020_01",
            (100, 100),
            19,
            (
                (56, 75),
                (97, 77),
                (62, 73),
                (98, 84),
                (71, 50),
                (76, 93),
                (83, 55),
                (83, 55),
                (97, 88),
                (67, 71),
                (64, 99),
                (80, 89),
                (85, 87),
                (70, 60),
                (57, 53),
                (89, 85),
                (84, 98),
                (85, 61),
                (62, 70),
                (10, 42),
            ),
        ),
    )
]


@pytest.mark.parametrize(("name", "sheet", "optimum", "sizes"), PUBLISHED)
def test_published_instances_come_out_at_their_known_optimum(name, sheet, optimum, sizes):
    p = problem(sizes, sheet)
    laid = lay_out(p, Effort(steps=20_000, polish=0))
    assert faults(p, laid) == []
    assert len(laid.sheets) == optimum
    assert laid.proven


def test_the_first_answer_is_there_without_a_compiler_and_can_be_sawn():
    _, sheet, optimum, sizes = PUBLISHED[1].values
    p = problem(sizes, sheet)
    laid = first_answer(p, cost_bound(p))
    assert faults(p, laid) == []
    assert optimum <= len(laid.sheets) <= optimum + 1


SIDES = st.integers(1, 12)
SIZES = st.lists(st.tuples(SIDES, SIDES), min_size=1, max_size=6)


@settings(max_examples=60, deadline=None)
@given(sizes=SIZES, turn=st.booleans(), wide=st.integers(12, 16), high=st.integers(12, 14))
def test_a_proof_holds_against_every_way_of_cutting(sizes, turn, wide, high):
    """Up to six parts: the bound is never over the true least, and the search finds it."""
    p = problem(sizes, (wide, high), turn=turn)
    laid = lay_out(p, SMALL)
    truth = fewest(tuple(sizes), wide, high, turn)
    assert faults(p, laid) == []
    assert sheets_bound(p) <= truth
    assert len(laid.sheets) == truth
    if laid.proven:
        assert len(laid.sheets) == truth


@settings(max_examples=6, deadline=None)
@given(sizes=st.lists(st.tuples(st.integers(3, 9), st.integers(3, 9)), min_size=7, max_size=7), turn=st.booleans())
def test_seven_parts_are_as_few_sheets_as_every_way_of_cutting_gives(sizes, turn):
    p = problem(sizes, (12, 12), turn=turn)
    laid = lay_out(p, SMALL)
    assert sheets_bound(p) <= fewest(tuple(sizes), 12, 12, turn) == len(laid.sheets)


MORE = st.lists(st.tuples(st.integers(5, 60), st.integers(5, 60)), min_size=5, max_size=30)


@settings(max_examples=25, deadline=None)
@given(
    sizes=MORE, turn=st.booleans(), kerf=st.integers(0, 4), levels=st.sampled_from([0, 2, 3]), first=st.integers(0, 2)
)
def test_every_layout_can_be_sawn_by_the_saw_it_is_for(sizes, turn, kerf, levels, first):
    p = problem(sizes, (100, 70), turn=turn, rules=Rules(kerf=kerf, levels=levels, first=first, offcut=(10, 20)))
    laid = lay_out(p, SMALL)
    assert faults(p, laid, levels or None, first) == []
    used = sum(w * h for w, h in sizes)
    assert 0 < used / laid.cost <= 1
    assert laid.bound <= laid.cost


@settings(max_examples=25, deadline=None)
@given(sizes=SIZES, turn=st.booleans())
def test_scaling_all_by_two_and_any_order_of_the_list_change_nothing(sizes, turn):
    p = problem(sizes, (14, 12), turn=turn)
    twice = problem([(2 * w, 2 * h) for w, h in sizes], (28, 24), turn=turn, rules=Rules(offcut=(2, 2)))
    backwards = Problem(pieces=tuple(reversed(p.pieces)), kinds=p.kinds, rules=p.rules)
    laid = lay_out(p, SMALL)
    assert lay_out(twice, SMALL).cost == 4 * laid.cost
    other = lay_out(backwards, SMALL)
    assert other.cost == laid.cost
    assert faults(backwards, other) == []
    assert [_names(backwards, tree) for _, tree in other.sheets] == [_names(p, tree) for _, tree in laid.sheets]


def _names(p, tree):
    if tree.piece is not None:
        return p.pieces[tree.piece].name
    return [_names(p, child) for child in tree.children]


@settings(max_examples=25, deadline=None)
@given(sizes=SIZES, offcut=st.tuples(st.integers(3, 14), st.integers(3, 14)), share=st.integers(10, 60))
def test_an_offcut_never_raises_the_cost(sizes, offcut, share):
    plain = problem(sizes, (14, 12))
    own = Kind(
        name="rack", wide=offcut[0], high=offcut[1], cost=offcut[0] * offcut[1] * share // 100 + 1, copies=1, own=True
    )
    laid = lay_out(problem(sizes, (14, 12), kinds=(own,)), SMALL)
    assert faults(problem(sizes, (14, 12), kinds=(own,)), laid) == []
    assert laid.cost <= lay_out(plain, SMALL).cost


@settings(max_examples=20, deadline=None)
@given(sizes=SIZES, turn=st.booleans())
def test_the_wider_the_saw_cut_the_more_sheets_never_fewer(sizes, turn):
    counts = [
        len(lay_out(problem(sizes, (20, 18), turn=turn, rules=Rules(kerf=k, offcut=(1, 1))), SMALL).sheets)
        for k in range(4)
    ]
    assert all(a <= b for a, b in pairwise(counts))


def test_one_seed_gives_one_layout():
    _, sheet, _, sizes = PUBLISHED[2].values
    p = problem(sizes, sheet, turn=True)
    one, two = (lay_out(p, Effort(steps=3000, polish=500, seed=4)) for _ in range(2))
    assert one == two


def test_an_offcut_is_used_where_it_saves_a_sheet_and_left_where_it_does_not():
    """Two parts of 100 x 60 on sheets of 100 x 100: two sheets, or one and the offcut."""
    cheap = Kind(name="rack", wide=100, high=60, cost=2400, copies=1, own=True)
    laid = lay_out(problem([(100, 60)] * 2, (100, 100), kinds=(cheap,)), SMALL)
    assert sorted(k for k, _ in laid.sheets) == [0, 1]
    laid = lay_out(problem([(100, 50)] * 2, (100, 100), kinds=(cheap,)), SMALL)
    assert [k for k, _ in laid.sheets] == [0]


def test_an_offcut_is_not_used_at_any_price():
    dear = Kind(name="rack", wide=100, high=60, cost=10_001, copies=1, own=True)
    laid = lay_out(problem([(100, 60)] * 2, (100, 100), kinds=(dear,)), SMALL)
    assert [k for k, _ in laid.sheets] == [0, 0]


def test_parts_that_belong_together_lie_on_one_sheet():
    sizes = [(50, 50)] * 8
    p = problem(sizes, (100, 100))
    pieces = tuple(
        Piece(name=q.name, wide=q.wide, high=q.high, together="one" if n in (0, 5, 7) else "two" if n in (1, 2) else "")
        for n, q in enumerate(p.pieces)
    )
    p = Problem(pieces=pieces, kinds=p.kinds, rules=p.rules)
    laid = lay_out(p, Effort(steps=2000, polish=500))
    assert faults(p, laid) == []
    assert len(laid.sheets) == 2


def test_no_cut_is_longer_than_the_saw_can_make():
    """A sheet 300 long and a saw that cuts 200: the first cut has to go across."""
    p = problem([(140, 60)] * 4, (300, 120), rules=Rules(longest=200, offcut=(1, 1)))
    laid = lay_out(p, SMALL)
    assert all(tree.cut == UPRIGHT for _, tree in laid.sheets)
    free = problem([(300, 60)] * 2, (300, 120), rules=Rules(offcut=(1, 1)))
    assert lay_out(free, SMALL).sheets[0][1].cut == LEVEL


def test_grain_keeps_a_part_from_being_turned():
    assert len(lay_out(problem([(60, 100), (60, 40)], (100, 100), turn=False), SMALL).sheets) == 2
    assert len(lay_out(problem([(60, 100), (40, 100)], (100, 100), turn=False), SMALL).sheets) == 1
    assert len(lay_out(problem([(100, 60), (40, 100)], (100, 100), turn=True), SMALL).sheets) == 1


@pytest.mark.parametrize(
    ("sizes", "sheet", "rules", "says"),
    [
        ([(120, 30)], (100, 100), Rules(), "no sheet is as large"),
        ([(30, 120)], (200, 100), Rules(), "let it be turned"),
        ([(0, 30)], (100, 100), Rules(), "has no size"),
        ([(10, 30)], (100, 100), Rules(kerf=-1), "less than nothing"),
    ],
)
def test_what_cannot_be_is_said_with_what_would_mend_it(sizes, sheet, rules, says):
    with pytest.raises(CannotCut, match=says):
        lay_out(problem(sizes, sheet, rules=rules), SMALL)


def test_no_stock_and_too_little_stock_are_said():
    with pytest.raises(CannotCut, match="no sheet to cut from"):
        lay_out(Problem(pieces=problem([(1, 1)], (9, 9)).pieces, kinds=(), rules=Rules()), SMALL)
    with pytest.raises(CannotCut, match="do not hold all parts"):
        lay_out(problem([(80, 80)] * 3, (100, 100), copies=2), SMALL)
    assert len(lay_out(problem([(80, 80)] * 2, (100, 100), copies=2), SMALL).sheets) == 2


def test_a_stop_keeps_the_best_so_far():
    _, sheet, _, sizes = PUBLISHED[2].values
    seen = []
    p = problem(sizes * 4, sheet)
    laid = lay_out(p, Effort(steps=ENDLESS, polish=ENDLESS, go_on=lambda: len(seen) < 1, tell=seen.append))
    assert faults(p, laid) == []
    assert laid.cost <= seen[0].cost


def test_several_hundred_kinds_of_parts_are_handled():
    sizes = [(200 + 37 * n % 400, 100 + 53 * n % 300) for n in range(1000)]
    p = problem(sizes, (2440, 1220), turn=True, rules=Rules(kerf=3, offcut=(200, 600)))
    laid = lay_out(p, Effort(steps=200, polish=0))
    assert len(laid.sheets) <= 1.12 * laid.bound / p.kinds[0].cost
    assert faults(p, laid) == []


def test_a_router_goes_round_a_pinwheel_that_no_saw_can_cut():
    """Four parts of 20 x 10 round one of 10 x 10 fill a sheet of 30 x 30, and no cut runs right across it."""
    sizes = ((200, 100), (100, 200), (100, 200), (200, 100), (100, 100))
    p = problem(list(sizes), (300, 300))
    sawn = lay_out(p, SMALL)
    assert len(sawn.sheets) == fewest(sizes, 300, 300) == 2
    ((_, tree),) = free_layout(p, sawn).sheets
    assert tree.cut == LOOSE
    corners = {
        (x, y) for c in tree.children for x in range(c.x, c.x + c.wide, 10) for y in range(c.y, c.y + c.high, 10)
    }
    assert len(corners) == 900
