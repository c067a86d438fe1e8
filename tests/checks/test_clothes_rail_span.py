"""A rail of more than 1000 between supports: common practice, 900 to 1000, no source."""

import re

import pytest

from tests.checks.clothes_rails import hung
from tests.checks.shop import severities, told

CODE = "clothes-rail-span"
BOARDS = 2 * 17.6


@pytest.mark.parametrize(
    ("clear", "supports", "says"),
    [
        (1000.0, 0, []),
        (1001.0, 0, ["warning"]),
        (1001.0, 1, []),
        (2000.0, 1, []),
        (2001.0, 1, ["warning"]),
    ],
)
def test_between_one_support_and_the_next(clear, supports, says):
    assert severities(CODE, hung(width_mm=clear + BOARDS, supports=supports)) == says


@pytest.mark.parametrize("clear", [1100.0, 2000.0, 2001.0, 2700.0])
def test_the_supports_that_it_asks_for_mend_it_and_one_fewer_would_not(clear):
    (found,) = told(CODE, hung(width_mm=clear + BOARDS))
    asked = int(re.search(r"supports = (\d+)", found.mend).group(1))
    assert told(CODE, hung(width_mm=clear + BOARDS, supports=asked)) == []
    assert asked == 1 or told(CODE, hung(width_mm=clear + BOARDS, supports=asked - 1))


def test_a_divider_mends_it_too():
    assert told(CODE, hung(width_mm=1300.0, bays=("rest", "rest"))) == []
