"""Scribes against the gaps of the worked alcove: 30.4 at the widest on the left, 25.4 at the narrowest."""

import pytest

from rodwork.pipeline import set_out
from tests.survey.alcoves import BOOKCASE, job_text

CODE = "scribe-allowance"


def told(words: str):
    rod = set_out(job_text(BOOKCASE + words), "job.toml")
    return [f for f in rod.findings if f.code == CODE]


def test_scribes_that_follow_the_gaps_are_sound():
    assert told("") == []


@pytest.mark.parametrize(
    ("left", "severities"),
    [(30, ["fault"]), (31, ["warning"]), (40, ["warning"]), (41, []), (60, [])],
)
def test_one_of_a_width_of_its_own_must_reach_and_leave_something_to_plane(left, severities):
    findings = told(f"scribes = {{ left = {left} }}\n")
    assert [f.severity for f in findings] == severities
    assert all(f.where == ("left scribe",) for f in findings)


def test_its_message_gives_the_width_that_does():
    (finding,) = told("scribes = { left = 28 }\n")
    assert "the gap is 30.4 at its widest" in finding.message
    assert "40.4 or more" in finding.mend


def test_a_cabinet_of_a_width_of_its_own_is_told_what_is_missing_in_all():
    (finding,) = told("width = 1160\n")
    assert finding.severity == "warning"
    assert set(finding.where) == {"left scribe", "right scribe"}
    assert told("width = 1140\n") == []


def test_a_door_beside_the_wall_wants_thirty():
    doors = 'width = 1150\ndoors = { hung = "left" }\n'
    found = {f.severity: f for f in told(doors)}
    assert found["fault"].where == ("left scribe",)
    assert "strikes the wall" in found["fault"].message
    assert "fault" not in {
        f.severity for f in told('width = 1150\ndividers = 1\ndoors = { hung = ["right", "left"] }\n')
    }
    assert told('doors = { hung = "pair" }\n') == []
