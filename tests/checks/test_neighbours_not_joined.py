"""Neighbours with no row of pins in common, and no heights said."""

import pytest

from tests.checks.run_cases import FRONTS
from tests.checks.shop import told
from tests.runs.run_samples import rod_of

CODE = "neighbours-not-joined"


@pytest.mark.parametrize(
    ("run", "told_of"),
    [
        ("of = ['plain', 'plain']", True),
        ("of = ['plain', { gap = 10 }, 'plain']", False),
        ("of = ['plain', 'plain']\nscrews = { heights = [100, 600] }", False),
        ("of = ['plain', 'plain']\nscrews = 'none'", False),
        ("of = ['bench', 'bench']", False),
    ],
)
def test_what_is_told(run, told_of):
    assert [f.severity for f in told(CODE, rod_of(run, FRONTS))] == ["note"] * told_of
