"""Board over a slot in an edge. Arithmetic; 6 mm in solid wood is published, the limits in board: common practice."""

import pytest

from tests.building import cabinet, job, rod_of
from tests.checks.own import disc, mortise, own
from tests.checks.shop import told

CODE = "slot-cover"


def said(family, thickness):
    rod = rod_of(job(cabinet(corner_joint=own(family)), thickness=thickness))
    return [f.severity for f in told(CODE, rod)]


@pytest.mark.parametrize(
    ("thickness", "severity"),
    [(18.0, []), (17.6, ["warning"]), (16.0, ["warning"]), (15.2, ["fault"]), (15.0, ["fault"])],
)
def test_a_mortise_of_8(thickness, severity):
    """(18 - 8) / 2 is 5; 17.6 has the fence at 9 and 4.6 on the other side; 16 has 4; 15.2 at 7.5 has 3.5."""
    assert said(mortise(), thickness) == severity


@pytest.mark.parametrize(
    ("thickness", "severity"), [(15.0, []), (14.0, []), (13.0, ["warning"]), (12.0, ["warning"]), (11.0, ["fault"])]
)
def test_a_disc_slot_of_4(thickness, severity):
    """15 mm has 5.5 over it, 12 has 4."""
    assert said(disc(), thickness) == severity


def test_under_3_it_is_another_checks():
    assert said(mortise(), 13.0) == []
