"""Units against the worked alcove: 1173 upright between its skirtings, 2396 from floor to ceiling, 322 deep past them."""

from math import hypot

import pytest

from rodwork.pipeline import set_out
from tests.survey.alcoves import BOOKCASE, SURVEY, job_text, with_line

CODE = "will-not-enter"


def told(width=None, height=2000, depth=300, more="", survey=SURVEY):
    text = BOOKCASE.replace("height = 2000", f"height = {height}").replace("depth = 300", f"depth = {depth}")
    text += (f"width = {width}\n" if width else "") + more
    return [f for f in set_out(job_text(text, survey), "job.toml").findings if f.code == CODE]


@pytest.mark.parametrize(("width", "severities"), [(1172, []), (1174, ["fault"]), (1250, ["fault"])])
def test_too_wide(width, severities):
    assert [f.severity for f in told(width=width)] == severities


def test_the_tape_alone_would_let_it_in():
    """1202 is less than every width that was read, and does not stand upright there."""
    bare = with_line("skirting", "")
    (finding,) = told(width=1202, survey=bare)
    assert "the wall on the left" in finding.message
    assert told(width=1199, survey=bare) == []


@pytest.mark.parametrize(
    ("height", "above", "severities"), [(2090, 300, []), (2097, 300, ["fault"]), (2400, 0, ["fault", "fault"])]
)
def test_too_high(height, above, severities):
    """2396 less 300; from the floor a height of 2400 is too much and is not to be tilted up either."""
    assert [f.severity for f in told(height=height, more=f"above_floor = {above}\n")] == severities


@pytest.mark.parametrize("depth", [300, 318])
def test_tilted_up_its_diagonal_must_pass(depth):
    most = (2396**2 - depth**2) ** 0.5
    assert told(height=round(most - 0.5, 1), depth=depth) == []
    (finding,) = told(height=round(most + 0.5, 1), depth=depth)
    assert f"{hypot(round(most + 0.5, 1), depth):.1f}" in finding.message


def test_what_hangs_is_lifted_and_not_tilted():
    hangs = 'hanging = { style = "screws", wall = "brick" }\n'
    assert [f.severity for f in told(height=2390)] == ["fault"]
    assert told(height=2390, more=hangs) == []


def test_deeper_than_the_opening():
    assert [f.severity for f in told(depth=325)] == ["warning"]
    assert told(depth=321) == []
