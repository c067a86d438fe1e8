"""Every place of a job file has its line: headings, dotted and quoted words, lists and tables within lines."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.job.faults import fault_at
from rodwork.job.lines import DEEPEST, Lines, scan

TEXT = '''\
# a note with [brackets] and = signs
top = 1
a.b . "c d" = 2          # dotted

[cabinets."tall # [bookcase]"]   # a quoted name
width = 600
'back' = { board = "b", style = "x = { y", void = 18 }
openings = [
  333,   # ] in a note

  "rest", "]",
]
notes = """
[not.a.heading]
still = "text" \\""" here
"""
path = \'\'\'
x = 1
\'\'\'
last = 2026-01-02 03:04:05

[joints.corner]
use = [
  { family = "dowel", first = 40 },
  # a note between
  { family = "screw", rows = [
    50 ], first = 50 },
]
[[rows]]
n = 1
[[rows]]
n = 2
[rows.under]
m = 3
["\\u0041\\"b"]
z = 1
'''
LINES = {
    ("top",): 2,
    ("a",): 3,
    ("a", "b", "c d"): 3,
    ("cabinets",): 5,
    ("cabinets", "tall # [bookcase]"): 5,
    ("cabinets", "tall # [bookcase]", "width"): 6,
    ("cabinets", "tall # [bookcase]", "back"): 7,
    ("cabinets", "tall # [bookcase]", "back", "void"): 7,
    ("cabinets", "tall # [bookcase]", "openings"): 8,
    ("cabinets", "tall # [bookcase]", "openings", 0): 9,
    ("cabinets", "tall # [bookcase]", "openings", 1): 11,
    ("cabinets", "tall # [bookcase]", "openings", 2): 11,
    ("cabinets", "tall # [bookcase]", "notes"): 13,
    ("cabinets", "tall # [bookcase]", "path"): 17,
    ("cabinets", "tall # [bookcase]", "last"): 20,
    ("joints", "corner", "use"): 23,
    ("joints", "corner", "use", 0): 24,
    ("joints", "corner", "use", 0, "first"): 24,
    ("joints", "corner", "use", 1): 26,
    ("joints", "corner", "use", 1, "family"): 26,
    ("joints", "corner", "use", 1, "rows", 0): 27,
    ("joints", "corner", "use", 1, "first"): 27,
    ("rows",): 29,
    ("rows", 0, "n"): 30,
    ("rows", 1): 31,
    ("rows", 1, "n"): 32,
    ("rows", 1, "under", "m"): 34,
    ('A"b', "z"): 36,
}


@pytest.mark.parametrize("path", LINES, ids=str)
def test_the_line_of_a_place(path):
    assert Lines(scan(TEXT).lines)[path] == LINES[path]


def test_the_text_of_these_tests_is_sound_and_a_windows_line_end_changes_nothing():
    found = scan(TEXT)
    assert found.stopped_at is None
    assert scan(TEXT.replace("\n", "\r\n")).lines == found.lines


def places(value, path=()):
    yield path
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, below in inner:
        yield from places(below, (*path, key))


def test_every_place_that_tomllib_finds_is_found():
    found = scan(TEXT).lines
    for path in places(tomllib.loads(TEXT)):
        assert path == () or path in found or path[:-1] in found  # an entry on the line of its list needs no line


def test_what_is_not_written_has_the_line_of_what_holds_it():
    lines = Lines(scan("[job]\n[cabinets.glaze]\nwidth = 600\n").lines)
    assert lines[("cabinets", "glaze", "height")] == 2
    assert lines[("cabinets", "other", "height")] == 2
    assert lines[("shop",)] == 1
    assert lines[()] == 1


def test_what_every_cabinet_says_has_its_line_there():
    text = "[every_cabinet]\nback = { style = 1 }\n[cabinets.glaze]\nwidth = 6\n[cabinets.other]\nback = { void = 2 }\n"
    lines = Lines(scan(text).lines)
    assert lines[("cabinets", "glaze", "back", "style")] == 2
    assert lines[("cabinets", "other", "back", "void")] == 6
    fault = fault_at(lines, "a.toml", ("cabinets", "glaze", "back", "style"), "it is wrong.", "Mend it")
    assert str(fault) == "a.toml:2: it is wrong. Mend it"


KEYS = st.text(alphabet="ab \"#=[]{}.'\\\t", min_size=1, max_size=6)
SCALARS = st.sampled_from(["1", "1.5", "true", '"x # ] }"', "'\"'", '"""\n\n"""', "'''\n'''", "2026-01-02 03:04:05"])


@st.composite
def documents(draw):
    """A sound TOML text and the line that each of its words was written on."""
    rows, lines = [], {}

    def quoted(key):
        return '"' + key.replace("\\", "\\\\").replace('"', '\\"').replace("\t", "\\t") + '"'

    def here():
        return sum(row.count("\n") for row in rows) + 1

    for heading in draw(st.lists(KEYS, max_size=4, unique=True)):
        rows.append("\n" * draw(st.integers(0, 2)))
        lines[(heading,)] = here()
        rows.append(f"[ {quoted(heading)} ] # note\n")
        for key in draw(st.lists(KEYS, max_size=4, unique=True)):
            lines[(heading, key)] = here()
            rows.append(f"{quoted(key)} = ")
            if draw(st.booleans()):
                rows.append(draw(SCALARS) + "\n")
                continue
            rows.append("[")
            for i in range(draw(st.integers(0, 4))):
                rows.append(draw(st.sampled_from(["", "\n", " # ] note\n"])))
                lines[(heading, key, i)] = here()
                rows.append(draw(st.sampled_from(["{ a = [1,\n2] }", "[[]]", draw(SCALARS)])) + ",")
            rows.append("]\n")
    return "".join(rows), lines


@given(documents())
def test_lines_of_any_sound_text(document):
    text, written = document
    tomllib.loads(text)
    found = scan(text)
    assert found.stopped_at is None
    known = Lines(found.lines)
    assert {path: known[path] for path in written} == written


def test_what_is_written_twice_is_noted_with_both_lines():
    found = scan("[a]\nx = 1\ny = 2\nx = 3\n[b]\n[a]\n")
    assert found.twice == [(("a", "x"), 2, 4), (("a",), 1, 6)]


@pytest.mark.parametrize("deep", ["a = " + "[" * 100_000, ".".join("a" * 200_000) + " = 1", "a = " + "{a=" * 100_000])
def test_what_is_too_deep_is_left_off_at_once(deep):
    found = scan("\n\n" + deep)
    assert found.too_deep_at == 3
    assert all(len(path) <= DEEPEST for path in found.lines)


@given(st.text(alphabet="[]{}=,.\"'#\\\n ab1\r\t"))
def test_a_scan_of_any_text_ends_well(text):
    found = scan(text)
    assert all(1 <= line <= text.count("\n") + 1 for line in found.lines.values())
