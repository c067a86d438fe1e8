"""An edge that is seen and bare beside edged boards of the same sheet. The rule is common practice, no source."""

import pytest

from rodwork.model.job import CabinetEdging
from tests.building import rod
from tests.checks.shop import told
from tests.fronts.front_samples import doors, drawers, fronted

CODE = "edging-forgotten"


def edged(*on):
    return CabinetEdging(edging="birch", on=on)


def bare(of):
    """The boards that are told."""
    ids = {p.id for p in of.cabinets[0].parts}
    return {w for f in told(CODE, of) for w in f.where if w in ids}


def test_all_fronts_edged_leave_nothing_to_say():
    assert bare(rod(edging=edged("fronts"))) == set()


def test_a_cabinet_without_edging_is_a_choice():
    assert bare(rod(edging=None)) == set()


def test_edged_shelves_in_bare_sides_of_the_same_sheet_are_told():
    found = bare(rod(edging=edged("shelf fronts")))
    assert found == {"left side", "right side", "top", "bottom"}


def test_edged_ends_do_not_stand_for_the_front_edge():
    assert "left side" in bare(rod(edging=edged("side bottoms")))


@pytest.mark.parametrize(("on", "told_of"), [(("fronts",), {"door"}), (("fronts", "doors"), set())])
def test_doors_are_edged_all_round_or_told(on, told_of):
    assert bare(fronted(doors("left"), edging=edged(*on))) == told_of


def test_it_names_the_edges_and_the_word_to_write():
    (finding,) = told(CODE, fronted(doors("left"), edging=edged("fronts")))
    assert finding.severity == "warning"
    for edge in ("left edge", "right edge", "top end", "bottom end"):
        assert edge in finding.message
    assert '"doors"' in finding.mend


def test_a_board_of_another_sheet_is_left_alone():
    assert "back" not in bare(rod(edging=edged("shelf fronts")))


def test_the_front_of_a_drawer_s_box_is_no_front_of_the_cabinet():
    """Its bare top edge is as it should be; the front that is seen is told where it is bare."""
    assert bare(fronted(None, drawers=drawers(2), edging=edged("fronts"), kind="base", depth_mm=500.0)) == {
        "drawer 1 front", "drawer 2 front",
    }  # fmt: skip
    assert bare(fronted(None, drawers=drawers(2), edging=edged("fronts", "drawer fronts"), depth_mm=500.0)) == set()
