"""Two doors on one divider. 35 mm for a handle: common practice, no source."""

import pytest

from tests.checks.shop import told
from tests.fronts.front_samples import doors, fronted

CODE = "door-against-neighbour"


def two(hung, **words):
    return fronted(doors(hung, **words), bays=("rest", "rest"), width_mm=900.0)


@pytest.mark.parametrize(
    ("hung", "words", "told_of"),
    [
        (("right", "left"), {"handle": 128.0}, True),
        (("right", "left"), {}, False),  # no handle: they stand back to back
        (("left", "right"), {"handle": 128.0}, False),  # hinged on the sides
        (("right", "right"), {"handle": 128.0}, False),
    ],
)
def test_doors_that_open_against_each_other(hung, words, told_of):
    assert [f.severity for f in told(CODE, two(hung, **words))] == (["warning"] if told_of else [])
