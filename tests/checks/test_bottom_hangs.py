"""The bottom of a wall unit. Mechanics: withdrawal instead of shear; common practice, no source."""

import pytest

from tests.building import rod
from tests.checks.shop import told

CODE = "bottom-hangs"


@pytest.mark.parametrize("kind", ["wall", "base", "tall", "bookcase", "open box"])
@pytest.mark.parametrize("sides", ["through", "between"])
def test_only_a_wall_unit_with_its_bottom_under_the_sides(kind, sides):
    found = told(CODE, rod(kind=kind, sides=sides))
    assert [f.severity for f in found] == (["warning"] if (kind, sides) == ("wall", "between") else [])


def test_it_says_why_and_what_to_do():
    (found,) = told(CODE, rod(sides="between"))
    assert found.where == ("bottom",)
    assert "pulled straight out of the ends of the sides" in found.message
    assert found.mend.startswith("Let the sides run through")
