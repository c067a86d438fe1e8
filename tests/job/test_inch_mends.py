"""What a mend writes to the file can be copied into it: in a job of inches its mm say that they are mm."""

import pytest

from rodwork.job.mends import in_units
from rodwork.pipeline import set_out
from tests.texts import BOARDS, JOB

ROW = """
[cabinets.bench]
kind = "base"
width = "600 mm"
height = "720 mm"
depth = "320 mm"
board = "birch18"
loose_shelves = 1
pins = { start = %s }
"""
INCHES = (JOB + 'units = "in"\n' + BOARDS).replace("2440, 1220", '"2440 mm", "1220 mm"')
for bare in ("18", "17.6", "6", "5.8"):
    INCHES = INCHES.replace(f"= {bare}\n", f'= "{bare} mm"\n')


@pytest.mark.parametrize(
    ("mend", "copied"),
    [
        ("Write pins = { start = 6.15 }, or leave it", 'Write pins = { start = "6.15 mm" }, or leave it'),
        ("screws = { heights = [100, 620] }", 'screws = { heights = ["100 mm", "620 mm"] }'),
        (
            'cut_outs = [{ for = "socket", left = 280, bottom = 240 }]',
            'cut_outs = [{ for = "socket", left = "280 mm", bottom = "240 mm" }]',
        ),
        ("Write hinges = 3 under doors, or count = 2", "Write hinges = 3 under doors, or count = 2"),
        ('openings = ["rest", 140 clear]', 'openings = ["rest", 140 clear]'),
    ],
)
def test_only_what_is_a_length_in_the_file_gets_its_unit(mend, copied):
    assert in_units(mend, "in") == copied
    assert in_units(mend, "mm") == mend


def test_a_start_that_is_copied_from_a_finding_balances_the_row():
    """720 = 22 x 32 + 2 x 8, published in trade pages on system holes; in inches a bare 8 would be 203 mm."""
    rod = set_out(INCHES + ROW % '"16 mm"', "job.toml")
    (finding,) = (f for f in rod.findings if f.code == "holes-not-balanced")
    start = finding.mend.split("start = ")[1].split(" }")[0]
    assert start == '"8 mm"'
    mended = set_out(INCHES + ROW % start, "job.toml")
    assert "holes-not-balanced" not in {f.code for f in mended.findings}
