"""Boards as cut: what they do, and the ways on in their order. Words and order: common practice, no source."""

from dataclasses import replace

import pytest

from rodwork.fit.station import dry_fit_of
from rodwork.job.faults import JobFaults
from rodwork.model.measured import MeasuredBoard
from rodwork.pipeline import set_out
from rodwork.setout.measured_copies import measured_copies
from tests.building import recipe
from tests.fit.rods import ACCURACY, box, from_the_other_side

JOB = open("examples/first-cupboard.toml", encoding="utf-8").read()  # noqa: SIM115


def with_measured(rod, **boards):
    marks = {p.id: p.marks[0] for p in rod.cabinets[0].parts}
    found = tuple(MeasuredBoard(mark=marks[part.replace("_", " ")], **sizes) for part, sizes in boards.items())
    return measured_copies(replace(rod, measured=found))


def as_cut(rod):
    fit = dry_fit_of(rod, ACCURACY, samples=200).cabinets[0]
    return fit, fit.as_cut


def test_a_top_0_7_short_is_answered_by_its_mates_first_then_left_then_cut_anew():
    fit, (top,) = as_cut(with_measured(box(), top={"length": 564.1}))
    assert fit.boards_measured == 1
    assert top.mates == ("G1-B is not cut yet",)
    assert top.does == ("No lip.", "Sides lean in 0.35 each at the top; diagonals will not show it.")
    first, second, third = (way.do for way in top.ways)
    assert first == "G1-B not cut yet: cut to 564.1 too."
    assert top.ways[0].gains == "Cupboard 599.3 wide."
    assert second == "Leave it."
    assert third.startswith("Cut a new one to 564.8")
    assert [(c.mark, c.was_mm, c.now_mm) for c in top.corrected] == [("G1-B", 564.8, 564.1)]


def test_with_the_mate_cut_it_says_so_and_corrects_nothing():
    _, found = as_cut(with_measured(box(), top={"length": 564.1}, bottom={"length": 564.8}))
    top = next(a for a in found if a.part == "top")
    assert top.mates == ("G1-B is cut 564.8",)
    assert not top.corrected
    assert top.ways[0].do == "Leave it."


def test_another_copy_can_take_it():
    rod = measured_copies(replace(box(count=3), measured=(MeasuredBoard(mark="G1-T", length=564.1),)))
    fit = dry_fit_of(rod, ACCURACY, samples=200)
    assert [(f.cabinet, f.copies) for f in fit.cabinets] == [("glaze", (1, 2)), ("glaze G1", (1,))]
    ways = [w.do for w in fit.cabinets[1].as_cut[0].ways]
    assert ways[1].startswith("Swap: let it be G2-T")
    assert not fit.cabinets[0].as_cut


def test_where_the_other_copy_is_cut_too_there_is_nothing_to_swap():
    boards = (MeasuredBoard(mark="G1-T", length=564.1), MeasuredBoard(mark="G2-T", length=564.8))
    fit = dry_fit_of(measured_copies(replace(box(count=2), measured=boards)), ACCURACY, samples=200)
    assert [f.cabinet for f in fit.cabinets] == ["glaze", "glaze G2"]
    assert not any(w.do.startswith("Swap") for f in fit.cabinets for a in f.as_cut for w in a.ways)


def test_a_long_side_set_from_the_top_end_has_no_lip_and_from_the_bottom_stands_above_the_top():
    sizes = {"left_side": {"length": 720.4}, "right_side": {"length": 720.0}}
    _, found = as_cut(with_measured(box(), **sizes))
    assert found[0].does == ("No lip.", "Top out of level 0.4.")
    bottom = from_the_other_side(box(), {"left side", "right side"}, axis=0, joints="side / top")
    _, found = as_cut(with_measured(bottom, **sizes))
    assert any(said.startswith("Left side stands 0.") and said.endswith("above the top.") for said in found[0].does)
    assert any("take left side / top from the top end" in way.do for way in found[0].ways)
    assert any("set the fence over" in way.do for way in found[0].ways)


def test_a_size_as_asked_needs_no_way_on():
    _, (top,) = as_cut(with_measured(box(), top={"length": 564.85}))
    assert top.ways == ()
    assert top.warning is None


def test_a_size_the_saw_does_not_explain_is_measured_again():
    _, (top,) = as_cut(with_measured(box(), top={"length": 562.0}))
    assert "measure it once more" in (top.warning or "")


def test_a_measured_board_narrows_the_forecast():
    free = dry_fit_of(box(), ACCURACY, samples=400).cabinets[0]
    known = with_measured(box(), top={"length": 564.8}, bottom={"length": 564.8})
    fit, _ = as_cut(known)
    spread = [next(s.high_mm - s.low_mm for s in f.squareness if s.name == "width") for f in (free, fit)]
    assert fit.boards_measured == 2
    assert spread[1] < 1.3 * spread[0]


def test_a_joint_that_draws_up_only_has_its_dry_fit_as_cut():
    _, (top,) = as_cut(with_measured(box(corner_joint=recipe("screw")), top={"length": 564.1}))
    assert top.ways


def read(extra):
    return set_out(JOB + extra, "job.toml")


@pytest.mark.parametrize(
    ("measured", "said"),
    [
        ('[measured]\n"G1-LS" = { length = 700 }', "20.0 off. Is this the right board?"),
        ('[measured]\n"G9-LS" = { length = 720 }', 'no board is marked "G9-LS"'),
        ('[measured]\n"G1-LS" = { length = -720 }', "length"),
        ('[measured]\n"G1-LS" = { length = nan }', "length"),
        ('[measured]\n"G1-LS" = { lenght = 720 }', "Did you mean length?"),
        ('[measured]\n"G1-LS" = { }', "nothing is measured"),
        ('[measured]\n"G1-LS" = 720', "stands straight under [measured]"),
    ],
)
def test_what_cannot_be_a_measured_board_is_refused_in_words(measured, said):
    with pytest.raises(JobFaults) as problem:
        read("\n" + measured + "\n")
    assert said in str(problem.value)


def test_a_measured_board_is_in_the_set_out_as_data():
    rod = read('\n[measured]\n"G1-LS" = { length = 720.4 }\n')
    assert rod.to_dict()["measured"] == [{"mark": "G1-LS", "length": 720.4, "width": None, "thickness": None}]
