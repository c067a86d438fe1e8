"""[fittings.NAME]: a bought fitting's sizes, written once; what is wrong with one is told at its own line."""

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out

JOB = """[job]
name = "Box"

[boards.ply18]
material = "birch plywood"
thickness = 18
sheet = [2440, 1220]

[fittings."our cam"]
family = "cam"
distance = 24
cam_depth = 13.5

[joints.drawn]
use = [{ family = "cam", fitting = "our cam" }]

[cabinets.box]
width = 500
height = 500
depth = 300
board = "ply18"
joint = "drawn"
"""


def cams(text):
    part = set_out(text, "box.toml").cabinets[0].part["top"]
    return {(f.depth, f.diameter) for f in part.features if f.role == "access"}


def faults(text):
    with pytest.raises(JobFaults) as problem:
        set_out(text, "box.toml")
    return [str(f) for f in problem.value.faults]


def test_a_recipe_takes_the_sizes_of_the_fitting_that_it_names():
    assert cams(JOB) == {(13.5, 15.0)}
    assert all(f.length == 24.0 for j in set_out(JOB, "box.toml").cabinets[0].joints for f in j.fixings)


def test_what_the_recipe_says_itself_goes_before_the_fitting():
    own = JOB.replace('fitting = "our cam"', 'fitting = "our cam", cam_depth = 12')
    assert cams(own) == {(12.0, 15.0)}


@pytest.mark.parametrize(("was", "now", "line", "says"), [
    ('fitting = "our cam"', 'fitting = "our can"', 15, 'Did you mean "our cam"?'),
    ('family = "cam"\n', 'family = "cammm"\n', 10, 'Did you mean "cam"?'),
    ("cam_depth = 13.5", "cam_dept = 13.5", 12, "Did you mean cam_depth?"),
    ("cam_depth = 13.5", "cam_depth = -3", 12, "6"),
    ("cam_depth = 13.5", "cam_depth = nan", 12, "cam_depth is nan"),
    ('[{ family = "cam", fitting', '[{ family = "dowel", fitting', 15, 'is a fitting of the family cam, and this is a dowel'),
    ('[fittings."our cam"]', '[fitings."our cam"]', 9, "Did you mean fittings?"),
    ("distance = 24", 'fitting = "our cam"', 11, "not a word that is known here"),
])  # fmt: skip
def test_what_is_wrong_with_a_fitting_is_told_at_its_line(was, now, line, says):
    told = faults(JOB.replace(was, now, 1))
    assert any(f"box.toml:{line}" in t and says in t for t in told), told
