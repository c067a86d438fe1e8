"""An infill of 30 mm beside a hinged side at a wall (common practice, no source)."""

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
