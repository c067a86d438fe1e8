"""Whatever is wrong in what a job says of a family is told in one clear message: where, what, and how to mend it."""

import re
from dataclasses import fields

import pytest

from rodwork.job.faults import JobFaults
from rodwork.job.words import setting_words
from rodwork.joints.registry import joint_kinds
from rodwork.pipeline import set_out

KINDS = joint_kinds()
JOB = """[job]
name = "What cannot be"

[boards.ply18]
material = "birch plywood"
thickness = {board}
sheet = [2440, 1220]

[joints.own]
use = [{{ family = "{name}"{more} }}]

[cabinets.box]
width = 600
height = 500
depth = {depth}
board = "ply18"
{word} = "own"
"""
WORD = {"corner": "joint", "fixed shelf": "shelf_joint"}
STANDING = [name for name, kind in KINDS.items() if "corner" in kind.places]


def told(name, more="", board=18, depth=300, word="joint"):
    """The message that such a job is refused with."""
    with pytest.raises(JobFaults) as refused:
        set_out(JOB.format(name=name, more=more, board=board, depth=depth, word=word), "box.toml")
    assert len(refused.value.faults) == 1
    text = str(refused.value)
    assert re.match(r"box\.toml:(10|13|16|17): ", text), text
    assert "Traceback" not in text
    return text


def lengths():
    for name, kind in KINDS.items():
        words = setting_words(kind.settings)
        by_name = {f.name: f.metadata for f in fields(kind.settings) if f.metadata}
        for word, field in words.items():
            if "length" in by_name[field]:
                yield name, word


@pytest.mark.parametrize(("name", "word"), sorted(lengths()))
@pytest.mark.parametrize("value", ["-1", "1e9", "nan", "inf", '"wide"', "[]"])
def test_no_family_takes_a_length_that_is_none(name, word, value):
    assert word in told(name, f", {word} = {value}")


@pytest.mark.parametrize("name", sorted(KINDS))
def test_a_word_that_no_family_knows_is_met_with_the_nearest_one(name):
    word = next(iter(setting_words(KINDS[name].settings)))
    assert f"`{word}`" in told(name, f", {word}s = 40") or word in told(name, f", {word}s = 40")


@pytest.mark.parametrize("name", sorted(KINDS))
def test_a_family_asked_where_it_cannot_stand_says_where_else_to_look(name):
    missing = next((p for p in WORD if p not in KINDS[name].places), None)
    if missing is None:
        assert {"corner", "fixed shelf"} <= set(KINDS[name].places)
        return
    text = told(name, word=WORD[missing]) if missing == "corner" else told(name, "", word="shelf_joint")
    assert f"{name} cannot make" in text
    assert "dowel" in text


@pytest.mark.parametrize(("name", "more", "board", "says", "mend"), [
    ("biscuit", ', set_by = "base", offset = 7', 18, "can be set to nothing else", "set_by"),
    ("biscuit", ', size = "30"', 18, "size", "Did you mean"),
    ("biscuit", "", 10.5, "no biscuit goes into a 10.5 mm board", "at least 11 mm"),
    ("loose tenon", ', size = "30x5"', 18, "thicker than its width", "Change one of the two"),
    ("loose tenon", ', size = "five"', 18, "size", "5x30"),
    ("carcass screw", ', size = "7x30"', 18, "only 12 mm into the edge", "at least 38 mm"),
    ("carcass screw", ", head_diameter = 6", 18, "has no steps", "head wider"),
    ("pocket screw", ', size = "4x40"', 18, "comes within 0.0 mm of the other side", "32 mm or less"),
    ("pocket screw", ", shoulder = 35", 18, "leaves no pocket in 18 mm board", "30 or less"),
    ("nail", ', size = "1.4x20"', 18, "only 2 mm into the second board", "at least 28 mm"),
    ("tongue", ", shoulder = 17", 18, "leaves a tongue of 1 mm", "15 or less"),
    ("tongue", ", tongue = 17", 18, "cuts a 18 mm board in two", "6 mm"),
])  # fmt: skip
def test_what_cannot_be_made_says_what_would_do(name, more, board, says, mend):
    text = told(name, more, board=board)
    assert says in text
    assert mend in text


@pytest.mark.parametrize("name", [n for n in STANDING if any(f.name == "count" for f in fields(KINDS[n].settings))])
def test_more_than_go_in_or_too_short_a_run_is_told(name):
    text = told(name, ", first = 30", depth=60)
    assert "do not fit" in text or "no room" in text
