"""Room for hangers, 560 clear front to back: common practice, no source. The sizes are invented."""

import re

import pytest

from tests.checks.clothes_rails import hung
from tests.checks.shop import severities, told
from tests.fronts.front_samples import doors

CODE = "clothes-rail-depth"


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"back": None, "depth_mm": 560.0}, []),
        ({"back": None, "depth_mm": 559.0}, ["warning"]),
        ({"back": None, "depth_mm": 600.0, "from_front_mm": 280.0}, []),
        ({"back": None, "depth_mm": 600.0, "from_front_mm": 279.0}, ["warning"]),
        ({"back": None, "depth_mm": 600.0, "from_front_mm": 321.0}, ["warning"]),
        ({"depth_mm": 584.0}, []),  # a void of 18 and a back of 5.8, and its play: 560 are left
        ({"depth_mm": 580.0}, ["warning"]),
        ({"doors": doors("pair"), "depth_mm": 584.0}, []),
        ({"doors": doors("pair", style="inset"), "depth_mm": 584.0}, ["warning"]),
        ({"doors": doors("pair", style="inset"), "depth_mm": 602.0}, []),
    ],
)
def test_half_of_it_before_the_rail_and_half_behind(changes, says):
    assert severities(CODE, hung(**changes)) == says


def test_the_depth_that_it_asks_for_mends_it():
    (found,) = told(CODE, hung(depth_mm=520.0))
    deeper = float(re.search(r"cabinet ([\d.]+) deeper", found.mend).group(1))
    assert "front to back, under the board above" in found.mend
    assert told(CODE, hung(depth_mm=520.0 + deeper)) == []
    assert told(CODE, hung(depth_mm=518.0 + deeper)) != []


def test_a_rail_off_the_middle_is_sent_back_to_it():
    (found,) = told(CODE, hung(from_front_mm=200.0))
    assert "leave from_front out" in found.mend.lower()


def test_other_cabinets_are_left_alone():
    assert told(CODE, hung(clothes_rails=(), depth_mm=300.0)) == []
