"""What a base stands on at the end of an edge. Common practice, no source, for the sizes of bases."""

import pytest

from tests.building import cabinet, job, recipe, rod_of
from tests.checks.own import disc, own
from tests.checks.shop import told

CODE = "nothing-to-bear-on"


def made(thickness=17.6, **changes):
    return rod_of(job(cabinet(**changes), thickness=thickness))


@pytest.mark.parametrize(("first", "found"), [(34.5, 1), (35.0, 0), (50.0, 0)])
def test_half_a_base_of_a_jointer_is_35(first, found):
    told_of = told(CODE, made(corner_joint=own(disc(), first_mm=first, end_mm=60.0), back=None))
    assert len(told_of) == found
    if found:
        assert "offcut of the same board flush with the front edge" in told_of[0].mend


@pytest.mark.parametrize(("first", "found"), [(14.5, 1), (15.0, 0)])
def test_half_a_jig_is_15(first, found):
    rod = made(corner_joint=recipe(("dowel", {"first_mm": first})), shelf_joint=recipe("dowel"))
    assert len(told(CODE, rod)) == found


@pytest.mark.parametrize(("thickness", "found"), [(15.0, 0), (14.9, 1), (12.0, 1)])
def test_under_15_a_base_rocks_across_the_edge(thickness, found):
    notes = told(CODE, made(thickness=thickness))
    assert [f.severity for f in notes] == ["note"] * found


def test_what_stands_on_a_face_or_is_bored_in_place_is_let_be():
    assert told(CODE, made(corner_joint=recipe("screw"), shelf_joint=recipe("housing"))) == []
