"""Nonsense in place of every word of the job file, one at a time, in a sound job that uses it.

It is refused with one message that has file, line, what is wrong and how to mend it, at the word itself; or the value
may stand, and then what is set out of it is finite and proven. Nothing is ever raised but JobFaults. A word of words.py
that no job of every_word.py uses makes the first test fail.
"""

import json
from datetime import time
from functools import cache
from typing import Any

import pytest
from click.testing import CliRunner

from rodwork.cli import main
from rodwork.job.faults import Fault, JobFaults
from rodwork.job.values import (
    Amount,
    Length,
    LengthOr,
    LengthOrName,
    ListOf,
    Minutes,
    OneOrList,
    Price,
    Reference,
    Switch,
    Text,
    Whole,
)
from rodwork.job.words import NEEDED, SECTIONS, family_words
from rodwork.joints.registry import families
from rodwork.model.plain import to_plain
from rodwork.model.rod import Rod
from rodwork.pipeline import read, set_out
from tests.job.every_word import (
    SAMPLES,
    TABLE,
    as_text,
    beside,
    family_sample,
    for_all_cabinets,
    grammar,
    heading_of,
    places,
    tables,
    with_key,
    with_value,
    without,
)

NAN = float("nan")
NONSENSE = (NAN, float("inf"), 1e9, "", [], {}, True, "nonsense")
PASSED_ON = ("money", "prices", "times", "machines", "saw", "stock", "offcuts", "cutting")  # no set-out reads them
ELSEWHERE = (-float("inf"), time(7, 32), [[]])  # for words that are read by the same kinds in a second place
BAD_NAMES = ("", " x", "a/b", "..", "x" * 61, "a\u202eb")


def faults_of(job: dict[str, Any], read_only: bool = False) -> tuple[Fault, ...]:
    """The faults that a job is refused with; none where it may stand, and then it is set out soundly."""
    text, faults = as_text(job), tuple[Fault, ...]()
    try:
        if read_only:
            read(text, "job.toml", beside)
        else:
            sound(set_out(text, "job.toml", beside))
    except JobFaults as refused:
        faults = refused.faults
        faults = faults or (Fault(file="", line=0, path=(), what="refused, and nothing said", mend=""),)
    for fault in faults:
        assert str(fault).startswith(f"job.toml:{fault.line}: ")
        assert fault.what
        assert fault.mend
        assert str(fault).isprintable()
        assert len(str(fault)) < 800
    return faults


def sound(rod: Rod) -> None:
    json.dumps(to_plain(rod), allow_nan=False)
    assert [f.message for f in rod.findings if f.code == "proof"] == []
    for cabinet in rod.cabinets:
        for part in cabinet.parts:
            assert min(*part.size, *part.cut) > 0, part.id


def refused_at(job: dict[str, Any], path: tuple[str | int, ...]) -> Fault:
    """The one fault of a job that is wrong at this place only."""
    faults = faults_of(job)
    assert len(faults) == 1, f"{path}: one slip, one message: {[str(f) for f in faults]}"
    assert faults[0].path[: len(path)] == path, faults[0]
    assert faults[0].line == line_of(as_text(job), path), faults[0]
    return faults[0]


def line_of(text: str, path: tuple[str | int, ...]) -> int:
    """The line of a word in a text of as_text: the inmost of its path that has a line of its own."""
    rows = text.splitlines()
    depth = 2 if SECTIONS[str(path[0])][1] else 1
    heading = rows.index(heading_of(*map(str, path[:depth])))
    if len(path) == depth:
        return heading + 1
    return next(n for n in range(heading + 1, len(rows)) if rows[n].startswith(f"{path[depth]} = ")) + 1


def may_stand(kind: Any, value: Any) -> bool:
    """Whether it is no nonsense for this kind of value: the maker may mean it, or it leaves all to us."""
    if kind is TABLE:
        return value == {}
    return (isinstance(kind, Switch) and value is True) or (isinstance(kind, Text) and value == "nonsense")


SPOKEN = {key: place for key, place in places().items() if key[0] != "every_cabinet"}
EVERY = {key: place for key, place in places().items() if key[0] == "every_cabinet"}


def test_every_word_of_the_job_file_is_in_a_sound_job_here():
    assert [key for key in grammar() if key not in places()] == [], "write it into a job of tests/job/every_word.py"


@pytest.mark.parametrize("sample", SAMPLES)
def test_the_jobs_that_are_spoilt_are_sound(sample):
    assert faults_of(tables(sample)) == ()
    assert faults_of(for_all_cabinets(tables(sample))) == ()


@pytest.mark.parametrize("value", NONSENSE, ids=repr)
def test_nonsense_in_place_of_a_word_is_refused_at_the_word(value):
    for place in SPOKEN.values():
        job = with_value(tables(place.sample), place.path, value)
        if may_stand(place.kind, value):
            faults_of(job)
        else:
            refused_at(job, place.path)


def test_nonsense_under_every_cabinet_is_refused_there():
    for n, place in enumerate(EVERY.values()):
        value = (*NONSENSE[:5], *ELSEWHERE)[n % 8]
        refused_at(with_value(for_all_cabinets(tables(place.sample)), place.path, value), place.path)


def edges(kind: Any) -> tuple[tuple[Any, ...], tuple[Any, ...]]:
    """Of a kind of number: its least and its most, and what is just beyond them."""
    if isinstance(kind, Length | Amount | Whole):
        step = 1 if isinstance(kind, Whole) else 0.01
        return (kind.low, kind.high), (kind.low - step, kind.high + step)
    if isinstance(kind, Price | Minutes):
        return (0, kind.high), (-0.01, kind.high + 0.01)
    if isinstance(kind, LengthOr | LengthOrName):
        return edges(kind.length)
    if isinstance(kind, OneOrList):
        return edges(kind.kind)
    if isinstance(kind, ListOf):
        number = kind.least
        return (
            tuple(tuple([v] * number for v in some) for some in edges(kind.kind))
            if not kind.once or number == 1
            else ((), ())
        )
    return (), ()


def test_numbers_just_beyond_their_limits_are_refused_at_the_word():
    seen = 0
    for place in SPOKEN.values():
        for value in edges(place.kind)[1]:
            refused_at(with_value(tables(place.sample), place.path, value), place.path)
            seen += 1
    assert seen > 300


@pytest.mark.parametrize("end", [0, 1], ids=("least", "most"))
def test_numbers_at_their_limits_are_set_out_soundly_or_refused(end):
    """The least and the most of one word may not go with the others: then it is said of what it does not go with."""
    stood = 0
    for place in SPOKEN.values():
        at = edges(place.kind)[0]
        if at:
            job = with_value(tables(place.sample), place.path, at[end])
            stood += faults_of(job, read_only=place.path[0] in PASSED_ON) == ()
    assert stood > 40


def misspelt(word: str) -> str:
    """The word with one letter twice."""
    half = len(word) // 2
    return word[:half] + word[half] + word[half:]


def test_a_misspelt_word_is_refused_and_the_right_one_named():
    for place in (*SPOKEN.values(), *EVERY.values()):
        job = tables(place.sample)
        job = for_all_cabinets(job) if place.path[0] == "every_cabinet" else job
        word = str(place.path[-1])
        slip = (*place.path[:-1], misspelt(word))
        faults = faults_of(with_key(job, place.path, slip[-1]))
        assert len(faults) == 1, [str(f) for f in faults]
        assert faults[0].mend == f"Did you mean {word}?", faults[0]
        assert faults[0].path in (slip, place.path[:-1]), faults[0]


def test_a_misspelt_part_of_the_file_is_refused_and_the_right_one_named():
    for section in SECTIONS:
        job = (
            next(tables(s) for s in SAMPLES if section in tables(s))
            if section != "every_cabinet"
            else for_all_cabinets(tables("doors"))
        )
        faults = faults_of(with_key(job, (section,), misspelt(section)))
        assert faults[0].mend == f"Did you mean {section}?"
        assert len(faults) == 1, [str(f) for f in faults]


def needed(key: tuple[str, ...]) -> bool:
    """Whether words.py says that the word must be there."""
    words: Any = SECTIONS[key[0]][0]
    for word in key[1:]:
        if not hasattr(words, "model_fields"):
            return False  # a word of a small table in a list, which says itself what it needs
        info = next(i for n, i in words.model_fields.items() if (i.alias or n) == word)
        words = info.annotation
    return bool(info.json_schema_extra[NEEDED])


def test_a_word_that_must_be_there_is_asked_for_with_an_example():
    seen = 0
    for key, place in SPOKEN.items():
        if needed(key):
            faults = faults_of(without(tables(place.sample), place.path))
            assert len(faults) <= 1, [str(f) for f in faults]
            for fault in faults:
                assert f"no {place.path[-1]}" in f"{fault.what}", fault
                assert fault.path in (place.path, place.path[:-1])
                seen += 1
    assert seen > 40


def names(kind: Any) -> bool:
    return isinstance(kind, Reference | LengthOrName)


def test_a_name_that_there_is_none_of_is_refused_and_the_nearest_named():
    seen = 0
    for place in SPOKEN.values():
        job = tables(place.sample)
        name: Any = job
        for part in place.path:
            name = name[part]
        if names(place.kind) and isinstance(name, str):
            fault = refused_at(with_value(job, place.path, misspelt(name)), place.path)
            assert fault.mend == f'Did you mean "{name}"?'
            seen += 1
    assert seen > 30


def test_an_entry_of_a_list_that_is_nonsense_or_stands_twice_is_refused_at_the_entry():
    for place in SPOKEN.values():
        kind = place.kind.many if isinstance(place.kind, OneOrList) else place.kind
        if not isinstance(kind, ListOf):
            continue
        job: Any = tables(place.sample)
        written: Any = job
        for part in place.path:
            written = written[part]
        first = written[0] if isinstance(written, list) else written
        rest = [first] * (kind.least - 1)
        refused_at(with_value(job, place.path, [NAN, *rest]), (*place.path, 0))
        refused_at(with_value(job, place.path, [first] * (kind.most + 1)), place.path)
        if kind.once and kind.most > 1:
            fault = refused_at(with_value(job, place.path, [first, first]), (*place.path, 1))
            assert "twice" in fault.what


def test_names_of_your_own_that_cannot_stand_are_refused():
    for section, (_, named) in SECTIONS.items():
        if not named:
            continue
        job = next(tables(s) for s in SAMPLES if section in tables(s))
        name, table = next(iter(job[section].items()))
        other = {k: v for k, v in table.items() if k != "mark"}
        for bad in (*BAD_NAMES, name.swapcase()):
            faults = faults_of({**job, section: {**job[section], bad: other}})
            assert any(f.path == (section, bad) and "name" in f.what for f in faults), (section, bad, faults)


def test_a_word_written_twice_is_refused_at_the_second():
    for section in SECTIONS:
        job = next((tables(s) for s in SAMPLES if section in tables(s)), None) or for_all_cabinets(tables("doors"))
        text = as_text(job)
        rows = text.splitlines()
        at = next(n for n, row in enumerate(rows) if row.startswith((f"[{section}]", f"[{section}."))) + 1
        rows.insert(at, rows[at])
        with pytest.raises(JobFaults) as refused:
            read("\n".join(rows), "job.toml", beside)
        (fault,) = refused.value.faults
        assert (fault.line, "again" in fault.what) == (at + 2, True)


FAMILIES = families()


@cache
def settings_of(family: str) -> dict[str, Any]:
    words = family_words(family, FAMILIES[family]).model_fields
    return {word: info.metadata[0] for word, info in words.items() if word != "family"}


@pytest.mark.parametrize("family", FAMILIES)
def test_nonsense_in_a_setting_of_a_family_is_refused_there(family):
    """In a recipe of a cabinet that is joined by it; and in a fitting, which is read by the same words."""
    job = family_sample(family)
    assert faults_of(job) == ()
    for n, (word, kind) in enumerate(settings_of(family).items()):
        path = ("joints", "it", "use", 0, word)
        for value in (*NONSENSE[n % 2 : 6 : 2], ELSEWHERE[n % 3], *edges(kind)[1]):
            refused_at(with_value(job, path, value), path)
        for value in edges(kind)[0]:
            faults_of(with_value(job, path, value))
        slip = with_value(job, (*path[:-1], misspelt(word)), 1)
        assert refused_at(slip, (*path[:-1], misspelt(word))).mend == f"Did you mean {word}?"
        if word != "fitting":
            bought = {**job, "fittings": {"ours": {"family": family, word: NONSENSE[n % 6]}}}
            refused_at(bought, ("fittings", "ours", word))


def test_a_back_with_too_much_play_is_refused_at_its_play():
    place = SPOKEN["cabinets", "back", "clearance"]
    fault = refused_at(with_value(tables(place.sample), place.path, 5.5), place.path)
    assert "does not stay in a groove 6 deep" in fault.what


def test_the_command_refuses_nonsense_of_every_part_with_two_and_its_line(tmp_path):
    for section in SECTIONS:
        found = next((p for key, p in SPOKEN.items() if key[0] == section and p.kind is not TABLE), None)
        place = found or next(iter(EVERY.values()))
        job = tables(place.sample) if found else for_all_cabinets(tables(place.sample))
        file = tmp_path / "job.toml"
        file.write_text(as_text(with_value(job, place.path, NAN)), encoding="utf-8")
        result = CliRunner().invoke(main, ["set-out", str(file)])
        assert result.exit_code == 2, (section, result.output)
        assert f"job.toml:{line_of(file.read_text(encoding='utf-8'), place.path)}: " in " ".join(result.output.split())
        assert "Traceback" not in result.output
