"""Glue holds wood, not paint: joints that are glued must be masked. Common practice, no source."""

import pytest

from rodwork.model.finish import Finish
from tests.building import recipe, rod
from tests.checks.shop import told

CODE = "glue-on-finish"


@pytest.mark.parametrize(
    ("mask", "when", "joint", "number"),
    [
        ("nothing", "before assembly", "dowel", 1),
        ("nothing", "after assembly", "dowel", 0),
        ("joints", "before assembly", "dowel", 0),
        ("joints and ends", "before assembly", "dowel", 0),
        ("nothing", "before assembly", "cam", 0),
    ],
)
def test_it_tells_of_glued_joints_that_are_not_masked(mask, when, joint, number):
    made = rod(
        corner_joint=recipe(joint), shelf_joint=recipe(joint), finish=Finish(film_mm=0.1, when=when, mask=mask)
    )  # fmt: skip
    found = told(CODE, made)
    assert len(found) == number
    assert all(f.severity == "warning" for f in found)
