"""A balanced side is 32 n + 2 s high: 2131 mm for 66 pitches and 9.5 mm ends, published in trade pages on system holes."""

import pytest

from rodwork.model.job import Pins
from rodwork.pipeline import set_out
from tests.building import rod
from tests.checks.shop import told
from tests.texts import HEAD

CODE = "holes-not-balanced"


def side(height, start):
    return rod(height_mm=height, pins=Pins(start_mm=start), openings=("rest",), loose_shelves=(2,))


@pytest.mark.parametrize(
    ("height", "start", "balances"),
    [
        (2131.0, 9.5, True),  # 66 x 32 + 2 x 9.5
        (2131.0, 24.0, False),
        (1074.0, 9.0, True),  # 33 x 32 + 2 x 9
        (1056.0, 16.0, True),  # 33 x 32, half a pitch at each end
        (774.0, 35.0, True),  # 22 x 32 + 2 x 35
        (720.0, 24.0, True),  # 21 x 32 + 2 x 24
        (720.0, 16.0, False),
    ],
)
def test_32_n_and_twice_s(height, start, balances):
    found = told(CODE, side(height, start))
    assert [f.severity for f in found] == ([] if balances else ["note"])


def test_the_start_that_is_named_balances():
    (finding,) = told(CODE, side(2131.0, 24.0))
    assert "start = 9.5" in finding.mend
    assert told(CODE, side(2131.0, 9.5)) == []


def test_no_loose_shelves_no_row():
    assert told(CODE, rod(loose_shelves=(0, 0))) == []


def test_sides_that_are_two_anyway_are_not_asked_to_be_one():
    """Under a slope they differ in height; beside a bay without loose shelves one has no rows."""
    unit = '[cabinets.eaves]\nwidth = 1200\nheight = 1400\ndepth = 400\nboard = "birch18"\ndividers = 1\n'
    slope = 'kind = "under slope"\nroof = { falls = "right", low = 750 }\nloose_shelves = 2\n'
    for words in (slope, "openings = [['rest'], ['rest']]\nloose_shelves = [[0], [2]]\n"):
        assert CODE not in {f.code for f in set_out(HEAD + unit + words, "it.toml").findings}


def test_what_is_named_can_be_read_off_a_rule():
    (finding,) = told(CODE, side(1184.906, 24.0))
    assert "start = 16.5 " in finding.mend
    assert told(CODE, side(1184.906, 16.5)) == []
