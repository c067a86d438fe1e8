"""Hinges by the published guide: 2 to 1016 mm and 6.8 kg, 3 to 1524 and 13.6, 4 to 2032 and 20.4, 5 to 2540 and 27.2."""

from dataclasses import replace

import pytest

from tests.building import cabinet, job, rod_of
from tests.checks.shop import told
from tests.fronts.front_samples import doors, fronted

CODE = "door-too-tall"


def tall(height, hinges=None, width=400.0):
    words = {"hinges": hinges} if hinges else {}
    return fronted(doors("left", **words), height_mm=height, width_mm=width, depth_mm=560.0)


@pytest.mark.parametrize(
    ("height", "hinges", "severities"),
    [
        (1018.0, 2, []),  # 1015 high
        (1021.0, 2, ["fault"]),  # 1018 high
        (1021.0, 3, []),
        (2034.0, 4, []),
        (2300.0, 4, ["fault"]),
        (2300.0, None, []),
        (2600.0, None, ["fault"]),  # past the end of the guide
    ],
)
def test_number_by_height(height, hinges, severities):
    assert [f.severity for f in told(CODE, tall(height, hinges))] == severities


def test_weight_counts_as_well():
    """717 x 897 x 17.6 at 680 kg per m3 is 7.7 kg: three by weight where two would do by height."""
    assert [f.severity for f in told(CODE, tall(720.0, 2, width=900.0))] == ["fault", "warning"]


def test_a_bought_door_comes_with_as_many_cups_as_it_has():
    """At 30 thick one of 715 x 596 is too heavy for two by the guide, and nobody can write hinges = 3 for it."""
    with_cups = doors("left", bought={"height": 715.0, "width": 596.0, "cups_from_ends": 98.0})
    assert not [f for f in told(CODE, fronted(with_cups)) if "asks for" in f.message]
    thick = replace(job(cabinet()).boards["birch18"], name="thick", actual_mm=30.0)
    values = cabinet(openings=("rest",), loose_shelves=(0,), edging=None, doors=replace(with_cups, board="thick"))
    in_job = job(values)
    heavy = rod_of(replace(in_job, boards={**in_job.boards, "thick": thick}))
    (finding,) = [f for f in told(CODE, heavy) if "asks for 3 hinges, and it has 2" in f.message]
    assert finding.severity == "warning"
    assert "hinges = " not in finding.mend


def test_a_door_wider_than_its_hinges_are_apart_drops():
    """717 high: outer hinges 517 apart."""
    assert told(CODE, tall(720.0, width=520.0)) == []
    (finding,) = told(CODE, tall(720.0, width=522.0))
    assert finding.severity == "warning"
    assert "517 apart" in finding.message
    assert "a pair of narrower doors" in finding.mend


def test_a_door_of_a_pair_is_not_told_to_become_a_pair():
    """420 high: outer hinges 217 apart, under two doors of 297."""
    found = told(CODE, fronted(doors("pair"), height_mm=420.0))
    assert found
    assert all("pair" not in f.mend and "lifts up" in f.mend for f in found)
