"""Loose shelves that cannot be got in, in jobs as a maker writes them, and every mend tried on the job.

The heights are worked by hand: a line so long, tilted until it is as narrow as the front leaves clear, and its thickness.
"""

from math import acos, cos, sin

import pytest

from rodwork.pipeline import set_out
from tests.checks.shop import told
from tests.texts import HEAD

CODE = "loose-shelf-entry"
UNIT = """
[cabinets.unit]
kind = "base"
width = 600
height = 720
depth = 560
board = "birch18"
openings = [{low}, "rest"]
loose_shelves = [1, 0]
"""
FRAME = 'face_frame = {{ board = "birch18", stile = {stile} }}\n'


def unit(low, words):
    return set_out(HEAD + UNIT.format(low=low) + words, "it.toml")


def said(rod):
    return [(f.severity, f.message, f.mend) for f in told(CODE, rod)]


def height_by_trial(length, thick, clear):
    """The least height of a turned rectangle that is no wider than so much, by small steps of its angle."""
    angles = [acos(clear / length) + 0.00001 * n for n in range(40000)]
    return min(
        length * sin(a) + thick * cos(a) for a in angles if length * cos(a) + thick * sin(a) <= clear
    )  # fmt: skip


@pytest.mark.parametrize(
    "words", ["", 'doors = { hung = "pair" }\n', FRAME.format(stile=17.6), 'doors = { hung = "left" }\n']
)
def test_a_front_as_wide_as_the_bay_lets_it_in_level(words):
    assert said(unit(140, words)) == []


def test_behind_stiles_it_wants_the_height_to_be_tilted():
    """562.8 long between stiles that leave 524: 238.4 of height, and the frame's rails stand 20.4 and 10.2 into the opening."""
    needs = height_by_trial(562.8, 17.6, 524.0)
    assert needs == pytest.approx(238.4, abs=0.1)
    ((severity, message, mend),) = said(unit(200, FRAME.format(stile=38)))
    assert severity == "fault"
    assert message == (
        "Loose shelf: it is 562.8 long, the front leaves 524, and tilted it takes 239 of height, and 169 are there: it "
        "cannot be got in."
    )
    assert "an opening 270 high" in mend


@pytest.mark.parametrize(("low", "goes"), [(238, False), (239, True)])
def test_the_limit_is_the_height_that_tilting_takes(low, goes):
    found = said(unit(low + 30.6, FRAME.format(stile=38)))
    assert [severity for severity, *_ in found if severity == "fault"] == ([] if goes else ["fault"])


@pytest.mark.parametrize(
    ("low", "words"),
    [
        (270, FRAME.format(stile=38)),  # the opening higher
        (200, FRAME.format(stile=18)),  # the front clear
    ],
)
def test_the_mends_behind_stiles(low, words):
    assert [s for s, *_ in said(unit(low, words)) if s == "fault"] == []


def test_inset_doors_stand_in_the_opening_when_they_are_open():
    """19.6 each, door and margin, less the 3 that the hinges carry them out: 531.6 of 564.8."""
    ((severity, message, mend),) = said(unit(150, 'doors = { hung = "pair", style = "inset" }\n'))
    assert severity == "warning"
    assert "the doors, open to a right angle, leave 531.6" in message
    assert f"takes {height_by_trial(562.8, 17.6, 531.6) + 0.5:.0f} of height" in message
    assert "before the doors are hung" in mend
    for low, words in ((150, 'doors = { hung = "pair" }\n'), (300, 'doors = { hung = "pair", style = "inset" }\n')):
        assert [s for s, *_ in said(unit(low, words)) if s != "note"] == []


def test_room_over_the_pins_is_asked_by_itself():
    """In at the height of the whole opening, but not over pins that are in their bores already."""
    ((severity, message, mend),) = said(unit(270, FRAME.format(stile=38)))
    assert (severity, mend) == ("note", "Put its pins in when it is inside, or lay it on lower ones.")
    assert "takes 239 of height, and over its pins are only 1" in message
    assert said(unit(520, FRAME.format(stile=38))) == []


def test_the_long_shelf_of_a_blind_corner_goes_in_on_its_edge():
    corner = (
        UNIT.replace("600", "1100").format(low=640)
        + 'blind = { side = "left", takes = 580 }\ndoors = { hung = "right" }\n'
    )
    assert said(set_out(HEAD + corner, "it.toml")) == []


def test_in_a_low_one_it_does_not():
    corner = (
        UNIT.replace("600", "1100").format(low=400)
        + 'blind = { side = "left", takes = 580 }\ndoors = { hung = "right" }\n'
    )
    assert [severity for severity, *_ in said(set_out(HEAD + corner, "it.toml"))] == ["fault"]


def test_a_short_thick_shelf_cannot_be_turned_level():
    """72.8 long and 17.6 thick: 74.9 from corner to corner, and 74.8 between the uprights."""
    narrow = UNIT.replace("600", "110").format(low=340) + FRAME.format(stile=24)
    ((severity, message, _),) = said(set_out(HEAD + narrow, "it.toml"))
    assert severity == "fault"
    assert "cannot be turned level between uprights 74.8 apart" in message
