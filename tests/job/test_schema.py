"""The schema that editors check a job file by: sound JSON Schema, the same words and limits as the reader."""

import json
import tomllib
from datetime import date

import pytest

from rodwork.job.faults import JobFaults
from rodwork.job.reader import read_job
from rodwork.job.schema import job_schema
from rodwork.job.starter import starter
from tests.job.job_samples import FAMILIES, SOUND, with_lines

SCHEMA = job_schema(FAMILIES)


def as_an_editor_has_it(text: str):
    """What a TOML editor hands to its JSON Schema checker: dates as text."""
    return json.loads(json.dumps(tomllib.loads(text), default=lambda value: value.isoformat()))


def validator():
    """A general-purpose validator, unrelated to how the schema is made."""
    jsonschema = pytest.importorskip("jsonschema", reason="the reference validator is a development dependency")
    return jsonschema.Draft202012Validator(SCHEMA)


def test_it_is_sound_json_schema_2020_12():
    checker = validator()
    checker.check_schema(SCHEMA)
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"


EVERY_WORD = """
[shop]
name = "A shop"
step = 0.1
fence_step = 0.5
pitch = "3 3/4 in"
end = 40
positions = "evenly"
clear_of_groove = 10
least_remainder = 3
depth_stops = [12, "1 in"]
groove_cutter = 6
ripped_together = false
[cabinets.more]
mark = "ZZ"
kind = "open box"
width = 600.5
height = "2 ft 3 1/2 in"
depth = "23⅝ in"
board = "birch18"
shelf_board = "birch18"
sides = "between"
corner_joint = "corner"
shelf_joint = "corner"
divider_joint = "corner"
back = "open"
dividers = 1
fixed_shelves = 1
loose_shelves = [1, 2]
shelf_set_back = 5
pins = { diameter = 5, depth = 12, front = 37, back = 37, start = 24, pitch = 32, holes = 5 }
edging = { with = "birch", on = ["fronts", "side tops"] }
notes = '''a
b'''
"""
SOUND_FILES = [
    SOUND,
    starter("x"),
    with_lines(("[shop]\nfirst = 40\n", ""), ("[joints", "date = 2026-03-31\n[joints")).replace(
        "date = 2026-03-31\n", ""
    )
    + EVERY_WORD,
    SOUND.replace(
        "[shop]", 'date = 2026-03-31\nletter = "B"\ncurrency = "EUR"\npaper = "Letter"\nunits = "mm"\n[shop]'
    ),
    SOUND.replace("back = {", 'back = "open" # {').replace("edging = {", 'edging = "none" # {'),
    "[every_cabinet]\nback = { void = 20 }\nedging = { on = 'side tops' }\n" + SOUND,
]


@pytest.mark.parametrize("text", SOUND_FILES)
def test_what_the_reader_takes_the_schema_takes(text):
    read_job(text, "job.toml", FAMILIES)
    assert [error.message for error in validator().iter_errors(as_an_editor_has_it(text))] == []


CAUGHT_IN_THE_EDITOR = [
    ("width = 600", "widht = 600"),
    ("width = 600", "width = 0"),
    ("width = 600", "width = 7000"),
    ("width = 600", 'width = "abc"'),
    ("width = 600", 'width = "17,6"'),
    ("width = 600", "width = true"),
    ('kind = "wall"', 'kind = "wal"'),
    ("count = 2", "count = 0"),
    ("count = 2", "count = 1.5"),
    ("count = 2", 'mark = "g"'),
    ("count = 2", "doors = 2"),
    ("count = 2", 'pins = { holes = "5" }'),
    ('openings = [333, "rest"]', "openings = []"),
    ('openings = [333, "rest"]', 'openings = ["rset"]'),
    ("all round", "all around"),
    ('on = "fronts"', 'on = ["fronts", "fronts"]'),
    ('family = "dowel"', 'family = "dowl"'),
    ("first = 40 }", "frist = 40 }"),
    ("first = 40 }", 'size = "8 x 30" }'),
    ("first = 40 }", 'positions = "x" }'),
    ("sheet = [2440, 1220]", "sheet = [2440]"),
    ("sheet = [2440, 1220]", ""),
    ("price = 64.00", 'price = "64"'),
    ("[cabinets.glaze]", '[cabinets."a/b"]'),
    ("[cabinets.glaze]", "[cabinet.glaze]"),
    ('name = "Pottery studio"', ""),
    ('name = "Pottery studio"', 'name = ""'),
    ("[shop]", 'letter = "a"\n[shop]'),
]


@pytest.mark.parametrize(("old", "new"), CAUGHT_IN_THE_EDITOR)
def test_an_editor_underlines_it_and_the_reader_refuses_it(old, new):
    text = with_lines((old, new))
    with pytest.raises(JobFaults):
        read_job(text, "job.toml", FAMILIES)
    assert not validator().is_valid(as_an_editor_has_it(text))


def tables():
    return {**SCHEMA["$defs"], "": SCHEMA}


def test_every_word_says_what_it_is():
    for name, table in tables().items():
        assert table["description"], name
        for word, said in table["properties"].items():
            assert "$ref" in said or len(said["description"]) > 10, (name, word)
    assert '"x-' not in json.dumps(SCHEMA), "our own keys stay inside"


def test_every_reference_has_its_table():
    named = set()

    def look(part):
        if isinstance(part, dict):
            named.update([part["$ref"]] if "$ref" in part else [])
            for inner in part.values():
                look(inner)
        elif isinstance(part, list):
            for inner in part:
                look(inner)

    look(SCHEMA)
    assert named == {f"#/$defs/{name}" for name in SCHEMA["$defs"]}


def test_a_family_brings_its_settings_with_limits_and_what_they_are_when_left_out():
    pegs = SCHEMA["$defs"]["dowel_joint"]
    assert list(pegs["properties"]) == ["family", "size", "first", "pitch", "positions", "glue", "count", "fitting"]
    assert pegs["required"] == ["family"]
    assert pegs["properties"]["pitch"]["description"] == "from one to the next. From 16 to 1000 mm. Left out: 96."
    assert list(SCHEMA["$defs"]["loose_clamp_joint"]["properties"]) == [
        "family",
        "head",
        "head_mm",
        "least",
        "most",
        "fitting",
    ]


def test_what_every_cabinet_may_give_is_not_asked_of_each():
    assert "required" not in SCHEMA["$defs"]["CabinetWords"]
    assert SCHEMA["$defs"]["BoardWords"]["required"] == ["material", "thickness", "sheet"]


def test_dates_are_dates_for_an_editor():
    assert SCHEMA["$defs"]["JobWords"]["properties"]["date"]["format"] == "date"
    assert date.fromisoformat("2026-03-31")
