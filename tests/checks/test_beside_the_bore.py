"""Board left beside a bore in an edge or end. The limits: common practice, no source; the rest is arithmetic."""

from dataclasses import replace

import pytest

from tests.building import back, cabinet, job, recipe, rod, rod_of
from tests.checks.shop import DOWN, IN, RIGHT, board, bore, rod_of_boards, told
from tests.fronts.front_samples import drawers

CODE = "beside-the-bore"


def end_bore(thickness, at=None, **changes):
    hole = bore("a", (0.0, 100.0, thickness / 2 if at is None else at), into=RIGHT, depth=20.0, **changes)
    return rod_of_boards(board(hole, size=(720.0, 320.0, thickness)))


@pytest.mark.parametrize(
    ("thickness", "severity"),
    [
        # common practice: an 8 mm dowel is sound in 15 (3.5 beside it) and in 15.7 (3.85)
        (15.7, None),
        (15.0, None),
        (14.98, "warning"),
        (14.0, "warning"),
        (13.98, "fault"),
        (12.0, "fault"),
    ],
)
def test_an_8_mm_dowel_in_the_middle(thickness, severity):
    assert [f.severity for f in told(CODE, end_bore(thickness))] == ([severity] if severity else [])


@pytest.mark.parametrize(
    ("at", "severity"),
    [
        (7.5, None),
        (7.49, "warning"),
        (7.0, "warning"),
        (6.99, "fault"),
        (10.5, None),
        (10.51, "warning"),
        (11.01, "fault"),
    ],
)
def test_off_the_middle_the_nearer_face_counts(at, severity):
    assert [f.severity for f in told(CODE, end_bore(18.0, at))] == ([severity] if severity else [])


def test_the_dust_of_arithmetic_is_no_trouble():
    """15.2 less 7.7 is 7.499999999999999 to the machine."""
    assert 15.2 - 7.7 < 7.5
    assert told(CODE, end_bore(15.2, 7.7)) == []
    assert told(CODE, end_bore(15.0, 7.5000000001)) == []


def test_it_looks_at_edges_as_at_ends_and_not_at_faces():
    edge = board(bore("a", (100.0, 0.0, 6.0), into=IN, depth=20.0))
    face = board(bore("a", (3.0, 3.0, 18.0), into=DOWN))
    assert len(told(CODE, rod_of_boards(edge))) == 1
    assert told(CODE, rod_of_boards(face)) == []


def test_off_the_middle_it_says_where_the_middle_is():
    (found,) = told(CODE, end_bore(17.6, 6.0))
    assert found.message == "Left side, top end: a bore of 8 in 17.6 board leaves 2 beside it; 3 is the least."
    assert found.mend == "Set it nearer the middle, 9 from a face."


def test_in_a_board_too_thin_it_says_how_thick_and_how_large():
    (found,) = told(CODE, end_bore(14.5))
    assert "under 3.5" in found.message
    assert found.mend == "Use a bore of 7.5 or less in the middle of the edge, or a board of at least 15 mm."
    (found,) = told(CODE, end_bore(8.0))
    assert found.message.endswith("breaks out; 3 is the least.")
    assert found.mend == "Use a board of at least 15 mm."


def test_real_corners():
    assert told(CODE, rod_of(job(cabinet(), thickness=15.0))) == []
    assert told(CODE, rod_of(job(cabinet(), thickness=15.7))) == []
    (found,) = told(CODE, rod_of(job(cabinet(), thickness=13.0)))
    assert found.severity == "fault"
    assert found.message.startswith(
        "Top, bottom and fixed shelf, left end and right end: a dowel bore of 8 in 13 board"
    )


def test_a_pilot_in_the_edge_of_a_thin_back_is_left_to_the_check_that_says_no_screw_holds_there():
    thin = rod(back=back("inset"))
    assert told(CODE, thin) == []
    assert [f.severity for f in told("cannot-be-made", thin)] == ["fault"]
    assert told(CODE, end_bore(9.9, role="pilot", diameter=6.0)) == []
    assert len(told(CODE, end_bore(10.0, role="pilot", diameter=6.0))) == 1


def test_an_offset_in_the_job_is_found():
    off = recipe(("dowel", {"offset_mm": 7.4}))
    assert [f.severity for f in told(CODE, rod(corner_joint=off))] == ["warning"]
    assert told(CODE, rod(corner_joint=recipe(("dowel", {"offset_mm": 7.5})))) == []


@pytest.mark.parametrize(("offset", "told_by"), [(4.5, "beside-the-bore"), (5.2, "slot-cover"), (7.0, None)])
def test_too_little_beside_a_slot_is_told_once(offset, told_by):
    """A slot 4 wide: 2.5 beside it is too little for anything, 3.2 for a slot that swells, 5 is enough."""
    from rodwork.checks.registry import run_checks
    from tests.building import cabinet, job, recipe, rod_of

    rod = rod_of(job(cabinet(corner_joint=recipe(("biscuit", {"offset_mm": offset})), openings=("rest",))))
    codes = {f.code for f in run_checks(rod)} & {"beside-the-bore", "slot-cover"}
    assert codes == ({told_by} if told_by else set())


def test_a_thin_drawer_box_is_given_a_recipe_of_its_own():
    """Boxes of 12 mm under dowels of 8: no smaller dowel mends it, and screws of 3.5 do (common practice, no source)."""
    thin = replace(drawers(2), box_board="birch12")

    def chest(**changes):
        made = job(cabinet(kind="base", depth_mm=560.0, openings=("rest",), loose_shelves=(0,),
                           drawers=replace(thin, **changes)))  # fmt: skip
        board = replace(made.boards["birch18"], name="birch12", thickness_mm=12.0, actual_mm=11.8)
        return rod_of(replace(made, boards={**made.boards, "birch12": board}))

    (finding,) = told(CODE, chest())
    assert "`joint` under drawers" in finding.mend
    assert "box_board" in finding.mend
    assert told(CODE, chest(joint=recipe(("screw", {"size": "3.5x40"})))) == []
