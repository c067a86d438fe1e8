"""Too heavy for one. HSE INDG143: 25 kg for a man, close to the body at elbow height. Weights by arithmetic:
2440 x 1220 x 18 at 650 kg/m3 is 34.8 kg, at 740 39.7 kg."""

from dataclasses import replace

import pytest

from tests.building import rod
from tests.checks.shop import BASE, board, rod_of_boards, told

CODE = "lifting"


def stock(density, actual=18.0, sheet=(2440.0, 1220.0)):
    return {"birch18": replace(BASE.boards["birch18"], density_kg_m3=density, actual=actual, sheet=sheet)}


@pytest.mark.parametrize(("density", "says"), [(650.0, "about 35 kg"), (740.0, "about 40 kg"), (400.0, None)])
def test_a_full_sheet(density, says):
    found = told(CODE, rod_of_boards(board(), boards=stock(density)))
    assert [f.severity for f in found] == (["note"] if says else [])
    assert all(says in f.message for f in found)


def test_a_sheet_over_what_two_could_is_not_given_to_two():
    """3050 x 1220 x 39.5 at 680 kg/m3 is 100 kg; 2 x 25 is 50."""
    (thick,) = told(CODE, rod_of_boards(board(), boards=stock(680.0, actual=39.5, sheet=(3050.0, 1220.0))))
    (thin,) = told(CODE, rod_of_boards(board(), boards=stock(680.0)))
    assert thick.mend.startswith("It is too much for two people: use a trolley or hoist, or have it cut")
    assert thin.mend.startswith("Two people carry it")


@pytest.mark.parametrize(("density", "heavy"), [(1000.0, False), (1000.1, True)])
def test_25_kg_is_one_person_s_limit(density, heavy):
    """A board of 2500 x 1000 x 10 is a fortieth of a cubic metre."""
    part = board(size=(2500.0, 1000.0, 10.0))
    found = told(CODE, rod_of_boards(part, boards=stock(density, sheet=(100.0, 100.0))))
    assert [f.where for f in found] == ([("left side",)] if heavy else [])


def test_the_measured_thickness_counts_for_a_sheet():
    thin = told(CODE, rod_of_boards(board(), boards=stock(680.0, actual=12.0)))
    thick = told(CODE, rod_of_boards(board(), boards=stock(680.0, actual=12.5)))
    assert (thin, len(thick)) == ([], 1)  # 24.3 and 25.3 kg


def test_one_note_a_sheet_under_the_first_cabinet_that_uses_it():
    one = rod()
    two = replace(one, cabinets=(one.cabinets[0], replace(one.cabinets[0], name="second")))
    assert [f.cabinet for f in told(CODE, two)] == ["glaze"]


def test_nothing_is_said_of_a_board_whose_weight_is_not_known():
    assert told(CODE, rod_of_boards(board(size=(2500.0, 1200.0, 40.0)), boards=stock(None))) == []


def test_equal_boards_are_told_together():
    big = {"size": (2300.0, 900.0, 18.0)}
    found = told(CODE, rod_of_boards(board(**big), board(**big, id="right side"), boards=stock(680.0)))
    assert found[1].message == "Left side and right side: about 25 kg a board."
    assert found[1].mend.startswith("Two people lift and turn it")
