"""Cut-outs: 50 mm of wood beside them, corners of 5, clear of the sides under them (common practice, no source)."""

import pytest

from tests.checks.run_cases import FRONTS
from tests.checks.shop import told
from tests.runs.run_samples import rod_of

CODE = "cut-out-edges"
RUN = "of = ['plain', 'plain', 'plain']\nscrews = 'none'\nworktop = { board = 'top40', cut_outs = [{ for = 'sink', %s }] }\n"


@pytest.mark.parametrize(
    ("words", "severities"),
    [
        ("over = 2, width = 400, depth = 440", []),
        ("over = 2, width = 400, depth = 495", ["warning"]),  # 45 at the back of 600
        ("over = 2, width = 400, depth = 440, from_front = 40", ["warning"]),
        ("over = 2, width = 400, depth = 440, radius = 4", ["warning"]),
        ("over = 2, width = 564.8, depth = 440", []),  # just between the sides
        ("over = 2, width = 570, depth = 440", ["fault", "fault"]),
        ("at = 600, width = 400, depth = 440", ["fault", "fault"]),
        ("over = 2, width = 400, depth = 500, radius = 0", ["warning", "warning"]),
    ],
)
def test_what_is_told(words, severities):
    assert sorted(f.severity for f in told(CODE, rod_of(RUN % words, FRONTS))) == severities
