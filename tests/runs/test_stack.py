"""How small errors add up along a row: against published stacks, and a run worked by hand."""

from math import hypot
from statistics import fmean, variance

import pytest

from rodwork.geometry.stack import Dimension, stack
from rodwork.job.faults import JobFaults
from rodwork.own_accuracy import own_accuracy, readings_of
from rodwork.pipeline import set_out
from tests.runs.run_samples import job_text, rod_of

# Dimensioning and Tolerancing Handbook (McGraw-Hill), chapter 9, motor assembly, inches: (way, nominal, plus, minus)
MOTOR = [
    (-1, 0.375, 0, -0.031), (1, 0.032, 0.002, -0.002), (1, 0.06, 0.003, -0.003), (1, 0.438, 0, -0.015),
    (1, 0.12, 0.005, -0.005), (1, 1.5, 0.01, -0.004), (1, 0.12, 0.005, -0.005), (1, 0.438, 0, -0.015),
    (1, 0.45, 0.007, -0.007), (-1, 3.019, 0.012, 0), (1, 0.3, 0.03, -0.03),
]  # fmt: skip
# The demonstration of a shaft in the README of dimstack 0.9.0 (PyPI), mm
SHAFT = [
    (1, 208, 0.036, -0.036), (-1, 1.75, 0.06, 0), (-1, 23, 0.12, 0), (1, 20, 0.026, -0.026), (-1, 200, 0.145, -0.145),
    (1, 20, 0.026, -0.026), (-1, 23, 0.12, 0),
]  # fmt: skip


@pytest.mark.parametrize(
    ("row", "mean", "worst", "likely"), [(MOTOR, 0.0615, 0.0955, 0.03808), (SHAFT, 0.1, 0.383, 0.17825)]
)
def test_published_stacks_come_to_their_printed_figures(row, mean, worst, likely):
    said = stack(Dimension(*one) for one in row)
    assert said.mean == pytest.approx(mean, abs=1e-6)
    assert said.worst == pytest.approx(worst, abs=1e-6)
    assert said.likely == pytest.approx(likely, abs=1e-5)


def test_ten_of_a_tenth_each_come_to_a_third_unless_they_are_all_sawn_at_one_stop():
    """A tutorial's figure: ten of 0.1 are 0.316 by the root of the squares, 1.0 at the worst."""
    alone = stack(Dimension(1, 60, 0.1, -0.1) for _ in range(10))
    assert alone.likely == pytest.approx(0.316, abs=5e-4)
    assert alone.worst == pytest.approx(1.0)
    assert stack(Dimension(1, 60, 0.1, -0.1, "stop") for _ in range(10)).likely == pytest.approx(1.0)


def test_a_run_of_three_alike_worked_by_hand():
    """Three tops of one length at one stop (0.15 shared, 0.08 each), six sides of a measured sheet (0.05, 0.03)."""
    stacked = rod_of("length = 2000\nof = ['bench', 'bench', 'bench', { infill = 'rest' }]").runs[0].stack
    likely = hypot(3 * 3 * 0.15, 3 * 0.08 * 3**0.5, 6 * 3 * 0.05, 3 * 0.03 * 6**0.5)
    assert stacked.likely == pytest.approx(likely, abs=0.006)
    assert stacked.worst == pytest.approx(3 * 3 * (0.15 + 0.08) + 6 * 3 * (0.05 + 0.03), abs=0.006)
    assert (stacked.length, stacked.left) == (2000, 200)


OURS = ((0.1, 0.2), (-0.1, 0.0), (0.0, 0.1))  # how far two tops came off at each of three settings of the stop, mm


def measured_run():
    typed = [" ".join(map(str, two)) for two in OURS]
    _, file = own_accuracy(None, "ours.toml", readings_of("sawing to length", "size", typed, None, "ours.toml"))
    job = job_text("length = 2000\nof = ['bench', 'bench', 'bench', { infill = 'rest' }]")
    return (
        set_out(f"[shop]\naccuracy = 'ours.toml'\n{job}", "runs.toml", {"ours.toml": file.encode()}.__getitem__)
        .runs[0]
        .stack
    )


def test_a_shop_that_has_measured_its_stop_has_its_runs_added_up_by_its_own_readings():
    """By Python's statistics: each piece by the mean of the variances in a setting, the setting by what its mean has over.

    Readings within a setting vary by 0.0707; the settings' means by 0.1, of which 0.0707 / sqrt 2 is the pieces' own.
    """
    each = fmean(variance(two) for two in OURS) ** 0.5
    shared = (variance(fmean(two) for two in OURS) - each**2 / 2) ** 0.5
    ours = measured_run()
    assert ours.measured
    likely = hypot(3 * 3 * shared, 3 * each * 3**0.5, 6 * 3 * 0.05, 3 * 0.03 * 6**0.5)
    assert ours.likely == pytest.approx(likely, abs=0.01)
    assert not rod_of("of = ['bench']").runs[0].stack.measured


@pytest.mark.parametrize(
    ("content", "says"), [(None, "cannot be read"), (b"\xff\xfe", "UTF-8"), (b"hours = 3", "ours.toml"), (b"=", "ours")]
)
def test_a_file_of_readings_that_is_none_is_refused_at_its_line(content, says):
    def beside(name):
        if content is None:
            raise FileNotFoundError(name)
        return content

    text = "[shop]\naccuracy = 'ours.toml'\n" + job_text("of = ['bench']")
    with pytest.raises(JobFaults, match=says) as caught:
        set_out(text, "runs.toml", beside)
    assert caught.value.faults[0].line == 2
