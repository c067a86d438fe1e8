"""A run against its wall: the stack of three tops and six sides is worked by hand in tests/runs/test_stack.py."""

import pytest

from tests.checks.run_cases import FRONTS
from tests.checks.shop import told
from tests.runs.run_samples import rod_of

CODE = "run-longer-than-wall"


@pytest.mark.parametrize(
    ("wall", "severities"),
    [
        (1500.0, ["fault"]),
        (1501.0, ["fault"]),
        (1501.2, ["warning"]),
        (1502.3, ["warning"]),
        (1502.4, []),
        (1530.0, []),
    ],
)
def test_what_the_wall_leaves_must_be_more_than_small_errors_come_to(wall, severities):
    """Two tops sawn at one stop and four sides of a measured sheet: 1.15 in most runs, 2.34 at the worst."""
    rod = rod_of(f"length = {wall}\nof = ['bench', 'bench', {{ gap = 500 }}]\nscrews = 'none'\n", FRONTS)
    stack = rod.runs[0].stack
    assert (stack.likely, stack.worst) == (pytest.approx(1.15, abs=0.006), pytest.approx(2.34, abs=0.006))
    assert [f.severity for f in told(CODE, rod)] == severities


def test_a_run_between_no_walls_may_be_longer_than_the_length_it_was_given():
    """A row in the middle of a room shares a length out over its cabinets: a millimetre more is nothing to stop for."""
    asked = "length = 1500.0\nwalls = {}\nof = ['bench', 'bench', {{ gap = 500 }}]\nscrews = 'none'\n"
    assert told(CODE, rod_of(asked.format("'none'"), FRONTS)) == []
    assert told(CODE, rod_of(asked.format("'both'"), FRONTS)) != []


def test_a_run_without_a_wall_has_nothing_to_be_longer_than():
    assert told(CODE, rod_of("of = ['bench', 'bench']\n", FRONTS)) == []
