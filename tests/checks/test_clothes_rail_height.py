"""Clear height under a rail, 900 for short clothes and 1400 for long: common practice, no source."""

import re

import pytest

from tests.checks.clothes_rails import hung, rail
from tests.checks.shop import severities, told

CODE = "clothes-rail-height"
OVER = 2 * 17.6 + 60 + 15  # two boards, what is above the middle of the tube, half the tube


@pytest.mark.parametrize(("clothes", "wanted"), [("short", 900.0), ("long", 1400.0)])
def test_from_the_tube_down_to_the_board_below(clothes, wanted):
    assert severities(CODE, hung(clothes=clothes, height_mm=OVER + wanted)) == []
    assert severities(CODE, hung(clothes=clothes, height_mm=OVER + wanted - 1)) == ["warning"]


def test_a_second_rail_below_takes_its_height():
    """Two rows of shirts in 2000: 60 and 1060 down."""
    two = (rail(), rail(below_mm=1060.0))
    assert told(CODE, hung(clothes_rails=two, height_mm=OVER + 1900.0)) == []
    (found,) = told(CODE, hung(clothes_rails=(two[0], rail(below_mm=900.0)), height_mm=OVER + 2000.0))
    assert "have 810" in found.message  # 840 from middle to middle, and half a tube each
    assert "Set the rail below it 90 lower" in found.mend
    assert told(CODE, hung(clothes_rails=(two[0], rail(below_mm=990.0)), height_mm=OVER + 2000.0)) == []


@pytest.mark.parametrize("clothes", ["short", "long"])
def test_the_height_that_it_asks_for_mends_it(clothes):
    (found,) = told(CODE, hung(clothes=clothes, height_mm=800.3))
    higher = float(re.search(r"opening ([\d.]+) higher", found.mend).group(1))
    assert ("short" in found.mend) == (clothes == "long")
    assert told(CODE, hung(clothes=clothes, height_mm=800.3 + higher)) == []
    assert told(CODE, hung(clothes=clothes, height_mm=798.0 + higher)) != []
