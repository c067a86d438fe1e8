"""The job file to begin with reads cleanly, and every line of it that is commented out would too."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.job.reader import read_job
from rodwork.job.starter import starter
from rodwork.model.job import InBay
from tests.job.job_samples import FAMILIES


def test_it_is_one_sound_wall_cupboard():
    job = read_job(starter("Pottery studio"), "new.toml", FAMILIES)[0]
    assert job.name == "Pottery studio"
    (cabinet,) = job.cabinets
    assert (cabinet.kind, cabinet.mark) == ("wall", "G")
    assert cabinet.in_bays == (InBay(openings=(333.0, "rest"), loose_shelves=(1, 1)),)
    assert cabinet.back.style == "grooved all round"


def test_every_line_that_is_commented_out_is_sound_too():
    text = starter("x")
    spare = re.findall(r"^# (\w+ = [^#\n]*)", text, re.MULTILINE)
    assert len(spare) > 8
    for line in spare:
        job = read_job(text.replace(f"# {line}", line), "new.toml", FAMILIES)[0]
        assert job.cabinets, line


def test_it_says_where_the_schema_is_and_how_to_go_on():
    text = starter("x")
    assert "rodwork-job.schema.json" in text
    assert "rodwork set-out" in text
    assert not re.search(r"^#:", text, re.MULTILINE), "no editor's own mark"
    assert max(map(len, text.splitlines())) <= 112


@given(st.text(max_size=150))
def test_any_name_of_a_file_makes_a_sound_job(name):
    job = read_job(starter(name), "new.toml", FAMILIES)[0]
    assert job.name
    seen = "".join(letter for letter in name if letter.isprintable())
    assert job.name == (seen[:100].strip() or "First job")


@pytest.mark.parametrize("name", ['a "b"', "back\\slash", "@NAME@", "=1+1", "'''", "#"])
def test_a_name_that_means_something_in_the_file_stays_a_name(name):
    assert read_job(starter(name), "new.toml", FAMILIES)[0].name == name


def test_with_the_families_there_are_it_is_sound():
    registry = pytest.importorskip("rodwork.joints.registry")
    assert read_job(starter("x"), "new.toml", registry.families())[0].cabinets
