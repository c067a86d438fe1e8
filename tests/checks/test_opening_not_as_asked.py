"""Openings against what was asked: arithmetic."""

from dataclasses import replace

import pytest

from rodwork.model.rod import Opening
from tests.building import cabinet, job, rod, rod_of
from tests.checks.shop import BASE, told

CODE = "opening-not-as-asked"


def opening(asked, comes_to, bays=1):
    first = Opening(bay=1, asked=asked, comes_to=comes_to, width=564.8, between=("bottom", "fixed shelf"))
    more = tuple(
        Opening(bay=b, asked=None, comes_to=300.0, width=300.0, between=("bottom", "top")) for b in range(2, bays + 1)
    )
    c = BASE.cabinets[0]
    return replace(BASE, cabinets=(replace(c, asked=replace(c.asked, openings=(first, *more))),))


@pytest.mark.parametrize(
    ("comes_to", "severity"),
    [
        (300.0, None), (300.05, None), (299.95, None), (300.06, "warning"), (299.94, "warning"),
        (300.5, "warning"), (299.5, "warning"), (300.51, "fault"), (299.49, "fault"),
    ],
)  # fmt: skip
def test_a_twentieth_is_let_pass_and_half_a_millimetre_stops(comes_to, severity):
    assert [f.severity for f in told(CODE, opening(300.0, comes_to))] == ([severity] if severity else [])


def test_the_rest_is_whatever_is_left():
    assert told(CODE, opening(None, 123.4)) == []


def test_what_it_says():
    (found,) = told(CODE, opening(300.0, 299.4))
    assert found.message == "Bottom to fixed shelf: 300 was asked and it comes to 299.4, 0.6 too low."
    assert found.mend == 'Make the cabinet 0.6 higher, ask for 299.4 here, or let one of the openings be "rest".'
    assert found.where == ("bottom", "fixed shelf")
    (found,) = told(CODE, opening(300.0, 300.07, bays=2))
    assert "in bay 1 from the left: 300 was asked and it comes to 300.07, 0.07 too high" in found.message
    assert found.mend.startswith("Make the cabinet 0.07 lower")


def test_a_job_that_asks_for_more_than_there_is():
    """720 less three boards of 17.6 leaves 667.2 for two openings: 300 and 367.2."""
    right = rod(openings=(300.0, 367.2))
    assert told(CODE, right) == []
    (found,) = told(CODE, rod(openings=(300.0, 350.0)))
    assert "350 was asked and it comes to 367.2, 17.2 too high" in found.message
    mended = rod_of(job(cabinet(openings=(300.0, 350.0), height_mm=720.0 - 17.2)))
    assert told(CODE, mended) == []
    assert told(CODE, rod(openings=(300.0, "rest"))) == []
