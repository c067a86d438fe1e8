"""Fronts along a run: what differs by little is a slip, what differs by much is meant (common practice, no source)."""

import pytest

from tests.checks.shop import told
from tests.runs.run_samples import rod_of

CODE = "margins-differ"
TWO = """
[cabinets.one]
count = 2
width = 500
doors = { hung = "left" }

[cabinets.other]
width = %s
height = 720
doors = { hung = "left", %s }
"""
RUN = "of = ['one', 'one', 'other']\nscrews = 'none'\n"


@pytest.mark.parametrize(
    ("width", "doors", "word"),
    [
        (500, "sides = 1.5", None),
        (500, "sides = 2", "Margins between fronts differ"),
        (500, "ends = 2.5", "edges of the fronts"),
        (505, "sides = 1.5", "Doors are 497 wide on the one and 502 on the other"),
        (600, "sides = 1.5", None),
    ],
)
def test_what_is_told(width, doors, word):
    messages = [f.message for f in told(CODE, rod_of(RUN, TWO % (width, doors)))]
    assert any(word in message for message in messages) if word else messages == []


def test_margins_are_those_of_the_trade_three_between_neighbours():
    """1.5 at each outer edge makes 3 between neighbours, as between the doors of a pair."""
    rod = rod_of("of = ['one', 'one']\nscrews = 'none'\n", TWO % (500, "sides = 1.5"))
    door = rod.cabinet["one"].part["door"]
    x0 = door.pose.to_cabinet((0.0, 0.0, 0.0))[0]
    assert 500 - (x0 + 497) + x0 == 3
