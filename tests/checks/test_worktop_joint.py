"""Joints of a worktop: off gaps, 300 from cut-outs (common practice, no source)."""

import pytest

from tests.checks.run_cases import FRONTS
from tests.checks.shop import told
from tests.runs.run_samples import rod_of

CODE = "worktop-joint"
RUN = (
    "of = ['plain', { gap = 602, for = 'drier' }, 'plain', 'plain']\nscrews = 'none'\n"
    "worktop = { board = 'top40', joint = 'edge_to_edge', joints_at = [%s], cut_outs = [{ for = 'sink', over = 4, "
    "width = 400, depth = 400 }] }\n"
)


@pytest.mark.parametrize(
    ("at", "severities"),
    [
        (700, ["fault"]),
        (550, []),
        (1300, []),
        (1603, ["warning"]),  # the cut-out is from 1902 to 2302
        (1602, []),
    ],
)
def test_where_it_may_be(at, severities):
    assert [f.severity for f in told(CODE, rod_of(RUN % at, FRONTS))] == severities


def test_where_it_is_left_to_us_there_is_nothing_to_tell():
    rod = rod_of(RUN.replace("joints_at = [%s], ", ""), FRONTS)
    assert rod.runs[0].joints
    assert told(CODE, rod) == []
