"""Lengths as makers write them.

An inch is 25.4 mm exactly: international yard and pound agreement of 1959 (yard 0.9144 m), also ISO 80000-3.
"""

import math
import re
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.job.faults import Wrong
from rodwork.job.lengths import LENGTH_PATTERN, read_length

YARD_MM = 914.4  # the agreement of 1959


@pytest.mark.parametrize(
    ("written", "mm"),
    [
        (600, 600.0),
        (17.6, 17.6),
        (Decimal("17.60"), 17.6),
        (0, 0.0),
        (-5, -5.0),
        ("600", 600.0),
        ("600 mm", 600.0),
        ("600mm", 600.0),
        ("  600   MM ", 600.0),
        ("60 cm", 600.0),
        ("1.2 m", 1200.0),
        (".5 m", 500.0),
        ("23 5/8 in", 600.075),
        ('23 5/8"', 600.075),
        ("23-5/8 in", 600.075),
        ("23.625 inches", 600.075),
        ("23⅝ in", 600.075),
        ("1 inch", 25.4),
        ("6 in.", 152.4),
        ("3/4 in", 19.05),
        ("¾″", 19.05),
        ("3 / 4 in", 19.05),
        ("2 ft 3 1/2 in", 698.5),
        ("2' 3 1/2\"", 698.5),
        ("2'3-1/2\"", 698.5),
        ("2′ 3½″", 698.5),
        ("2 feet 3.5 inches", 698.5),
        ("3 ft", YARD_MM),
        ("36 in", YARD_MM),
        ("5''", 127.0),
        ("-5 mm", -5.0),
    ],
)
def test_a_length_is_read_exactly(written, mm):
    assert read_length(written, "mm") == mm


@pytest.mark.parametrize(
    ("written", "mm"),
    [(1, 25.4), (Decimal("0.1"), 2.54), (0.1, 2.54), ("23 5/8", 600.075), ("23.625", 600.075), ("600 mm", 600.0)],
)
def test_a_bare_number_is_inches_where_the_job_says_so(written, mm):
    assert read_length(written, "in") == mm


@pytest.mark.parametrize(
    ("written", "mend"),
    [
        ("abc", "such as 600"),
        ("", "such as 600"),
        (" ", "such as 600"),
        ("in", "such as 600"),
        ("ft", "such as 600"),
        (".", "such as 600"),
        ("1/0 in", "such as 600"),
        ("1/2/3 in", "such as 600"),
        ("5 5 mm", "such as 600"),
        ("--5", "such as 600"),
        ("+-5", "such as 600"),
        ("1e3", "such as 600"),
        ("٣ mm", "such as 600"),  # figures of another script
        ("17,6", '"17.6"'),
        ("1,200 mm", '"1200 mm"'),
        ("5 yd", 'not in "yd"'),
        ("23 5/8", '"23 5/8 in"'),
        ("2 ft 3", '"2 ft 3 in"'),
        ("9" * 41, "such as 600"),
        (math.nan, "such as 600"),
        (math.inf, "such as 600"),
        (-math.inf, "such as 600"),
        (1e9, "such as 600"),
        (10**400, "such as 600"),
        (True, "such as 600"),
        (None, "such as 600"),
        ([600], "such as 600"),
        ({"mm": 600}, "such as 600"),
    ],
)
def test_what_is_no_length_says_how_to_write_one(written, mend):
    with pytest.raises(Wrong) as wrong:
        read_length(written, "mm")
    assert mend in wrong.value.mend


@given(whole=st.integers(0, 200), over=st.integers(1, 63), power=st.integers(1, 6), feet=st.integers(0, 30))
def test_feet_inches_and_fractions_add_up_to_the_nearest_number_there_is(whole, over, power, feet):
    under = 2**power
    exact = (feet * 12 + whole + Fraction(over, under)) * Fraction(254, 10)
    assert read_length(f"{feet} ft {whole} {over}/{under} in", "mm") == float(exact)


@given(st.decimals(0, 10_000, places=3))
def test_a_number_and_its_text_are_the_same_length(number):
    assert read_length(number, "mm") == read_length(f"{number} mm", "in") == float(number)
    assert read_length(number, "in") == read_length(f"{number} in", "mm") == read_length(str(number), "in")


@given(st.text(alphabet="0123456789./- ½'\"mcinft", max_size=12))
def test_what_is_read_passes_the_schema_too(written):
    try:
        mm = read_length(written, "in")
    except Wrong:
        return
    if mm >= 0 and "-" not in written[:2]:
        assert re.search(LENGTH_PATTERN, written)
