"""An infill of 30 mm beside a hinged side at a wall, and room for a handle of 35 (common practice, no source)."""

import pytest

from tests.checks.run_cases import FRONTS
from tests.checks.shop import told
from tests.runs.run_samples import rod_of

CODE = "infill-missing"


@pytest.mark.parametrize(
    ("run", "told_of"),
    [
        ("length = 600\nof = ['bench']", True),
        ("length = 600\nof = [{ infill = 29 }, 'bench']", True),
        ("length = 600\nof = [{ infill = 30 }, 'bench']", False),
        ("length = 600\nof = ['bench']\nstarts = 'right'", False),  # what is left over lies beside the hinges
        ("length = 600\nof = ['bench']\nwalls = 'right'", False),  # hinged at its left
        ("of = ['bench']", False),
        ("length = 600\nof = ['plain']", False),
    ],
)
def test_a_door_beside_a_wall(run, told_of):
    rod = rod_of(run + "\nscrews = 'none'\n", FRONTS)
    assert [f.severity for f in told(CODE, rod)] == ["warning"] * told_of


def test_nothing_is_said_of_a_handle_where_the_door_has_none():
    """The door stands its margin of 1.5 off the side of the carcass, and so far off the wall."""
    (found,) = told(CODE, rod_of("length = 600\nof = ['bench']\nscrews = 'none'\n", FRONTS))
    assert "open to a right angle its door leaves 1.5, and it opens hardly further" in found.message
    assert "handle" not in found.message
    assert "an infill of 30 or more" in found.mend


HANDLED = FRONTS.replace('doors = { hung = "left" }', 'doors = { hung = "left", handle = 128 }')


@pytest.mark.parametrize(
    ("infill", "told_of"),
    [
        (29, "leaves 30.5, and a handle stands out 35"),
        (30, "leaves 31.5, and a handle stands out 35"),
        (33, "34.5"),
        (34, None),
    ],
)
def test_a_handle_wants_more_than_the_door(infill, told_of):
    """The open door stands its margin of 1.5 off the infill: 33.5 is the least, told as 34."""
    run = f"length = 700\nof = [{{ infill = {infill} }}, 'bench']\nscrews = 'none'\nwalls = 'left'\n"
    found = told(CODE, rod_of(run, HANDLED))
    assert [told_of in f.message for f in found] == ([True] if told_of else [])
    assert all("an infill of 34 or more" in f.mend for f in found)
    assert told(CODE, rod_of(run, HANDLED.replace('"left"', '"right"'))) == []
