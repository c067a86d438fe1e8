"""Grain of fronts that stand side by side, in jobs as a maker writes them, each mend tried. All common practice, no source."""

import pytest
from hypothesis import HealthCheck, given, settings

from rodwork.model.pose import levelled
from rodwork.pipeline import set_out
from tests.checks.shop import told
from tests.laws.vocabulary import jobs
from tests.runs.run_samples import rod_of
from tests.texts import HEAD

CODE = "grain-of-fronts"
UNIT = """
[cabinets.unit]
kind = "base"
width = 1000
height = 720
depth = 560
board = "birch18"
dividers = 1
"""
BANK = '{{ bays = [2], number = 3, bottom_board = "birch6"{grain} }}'


def unit(words, head=HEAD):
    return told(CODE, set_out(head + UNIT + words, "it.toml"))


def two_doors(first, second):
    return f'doors = [{{ bays = [1], hung = "left"{first} }}, {{ bays = [2], hung = "right"{second} }}]\n'


ACROSS = ', grain = "across"'


@pytest.mark.parametrize(
    ("words", "severities"),
    [
        (two_doors("", ""), []),
        (two_doors(ACROSS, ACROSS), []),
        (two_doors("", ACROSS), ["warning"]),
        ('doors = { hung = "pair" }\n', []),
        ('doors = { bays = [1], hung = "left" }\ndrawers = ' + BANK.format(grain="") + "\n", ["note"]),
        ('doors = { bays = [1], hung = "left" }\ndrawers = ' + BANK.format(grain=', grain = "up"') + "\n", []),
        ('doors = { bays = [1], hung = "left", grain = "across" }\ndrawers = ' + BANK.format(grain="") + "\n", []),
        # a drawer over a door stands beside nothing that differs
        ('openings = ["rest", 150]\ndoors = { hung = "left", openings = [1, 1] }\n'
         'drawers = { number = 1, bottom_board = "birch6" }\n', []),
    ],
)  # fmt: skip
def test_fronts_side_by_side_in_a_cabinet(words, severities):
    assert [f.severity for f in unit(words)] == severities


def test_it_says_which_and_under_which_words():
    (finding,) = unit('doors = { bays = [1], hung = "left" }\ndrawers = ' + BANK.format(grain="") + "\n")
    assert finding.message == (
        "Grain runs up on door and across on drawer 1 front, drawer 2 front and drawer 3 front, side by side, on fronts of "
        "birch18."
    )
    assert "under doors and drawers" in finding.mend
    assert set(finding.where) == {"door", "drawer 1 front", "drawer 2 front", "drawer 3 front"}


def test_a_board_without_grain_runs_no_way():
    plain = HEAD.replace('"birch plywood"', '"MDF"', 1)
    assert unit(two_doors("", ACROSS), plain) == []


CABINETS = """
[cabinets.one]
width = 450
doors = { hung = "left" }

[cabinets.other]
width = 450
doors = { hung = "left"%s }
"""


@pytest.mark.parametrize(
    ("between", "grain", "severities"),
    [
        ("", ACROSS, ["warning"]),
        ("", "", []),
        ("{ infill = 60 }, ", ACROSS, []),  # 63 apart with the margins
        ("{ infill = 50 }, ", ACROSS, ["warning"]),
        ("{ gap = 602, for = 'drier' }, ", ACROSS, []),
    ],
)
def test_fronts_side_by_side_along_a_run(between, grain, severities):
    rod = rod_of(f"of = ['one', {between}'other']\nscrews = 'none'\n", CABINETS % grain)
    found = told(CODE, rod)
    assert [(f.severity, f.cabinet) for f in found] == [(s, "north") for s in severities]
    assert all("door of the one" in f.message and "door of the other" in f.message for f in found)


@pytest.mark.parametrize(
    ("width", "grain", "told_of"), [(700, "", True), (500, "", False), (700, ACROSS, False)]
)  # fmt: skip
def test_a_wide_flap_with_its_grain_the_short_way(width, grain, told_of):
    """A flap of 697 by 417 is more than one and a half times as wide as high, one of 497 is not."""
    made = set_out(
        HEAD + UNIT.replace("1000", str(width)).replace("720", "420").replace("dividers = 1", "")
        + f'doors = {{ hung = "up"{grain} }}\n', "it.toml",
    )  # fmt: skip
    found = told(CODE, made)
    assert [f.severity for f in found] == ["note"] * told_of
    assert all('grain = "across"' in f.mend for f in found)


def test_a_flap_that_follows_an_upright_door_is_meant():
    above = (
        'openings = ["rest", 250]\nwidth = 500\n'
        'doors = [{ hung = "left", openings = [1, 1] }, { hung = "up", openings = [2, 2] }]\n'
    )
    job = HEAD + UNIT.replace("width = 1000\n", "").replace("720", "1000").replace("dividers = 1\n", "") + above
    assert told(CODE, set_out(job, "it.toml")) == []


UPRIGHT = {"side", "divider"}
LYING = {"top", "bottom", "fixed shelf", "loose shelf", "rail", "plinth board", "batten"}


@settings(max_examples=40, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(jobs())
def test_grain_of_a_carcass_runs_up_its_uprights_and_along_its_lying_boards(drawn):
    """Nothing asks for it otherwise: in uprights with the load, in shelves from end to end."""
    for cabinet in drawn.rod.boxes:
        for part in cabinet.parts:
            x, _, z = (row[0] for row in levelled(part.pose.rotation))  # a top on a slope as if it lay level
            if part.role in UPRIGHT:
                assert abs(z) == pytest.approx(1.0), part.id
            if part.role in LYING:
                assert abs(x) == pytest.approx(1.0), part.id
