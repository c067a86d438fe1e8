"""`rodwork accuracy`, run as a maker runs it: readings typed one by one, as options, or as a table."""

import json

import pytest
from click.testing import CliRunner

from rodwork.cli import main


@pytest.fixture
def file(tmp_path):
    return tmp_path / "ours.toml"


def run(file, *words, typed=None):
    return CliRunner().invoke(main, ["accuracy", str(file), *map(str, words)], input=typed)


def test_without_a_reading_it_says_what_to_do_and_writes_nothing(file):
    done = run(file)
    assert done.exit_code == 0
    assert "A guess from other shops' habits: nothing is measured yet." in done.output
    assert "cut or bore 2 offcuts; set it anew, 2 more; and once more" in done.output
    assert not file.exists()


def test_readings_are_typed_setting_by_setting_until_an_empty_line(file):
    done = run(file, "--of", "dowel jig", typed="0.05 0.1\n-0.1 -0.05\n0 0.03\n\n")
    assert done.exit_code == 0
    assert "6 readings at 3 settings" in done.output
    assert "3 settings prove little" in done.output
    assert "settings = [[0.05, 0.1], [-0.1, -0.05], [0.0, 0.03]]" in file.read_text(encoding="utf-8")


def test_the_first_off_of_every_job_after_makes_it_surer(file):
    six = ("--of", "dowel jig", "--setting", "0.05 0.1", "--setting", "-0.1 -0.05", "--setting", "0 0.03")
    before = json.loads(run(file, *six, "--json").output)["results"][0]
    after = json.loads(run(file, "--of", "dowel jig", "--setting", "0.02 0.05", "--json").output)["results"][0]
    assert (before["readings"], after["readings"]) == (6, 8)
    assert after["each"]["high"] / after["each"]["value"] < before["each"]["high"] / before["each"]["value"]
    assert run(file).output.startswith("dowel jig, across: 8 readings at 4 settings")


def test_a_table_is_read(file, tmp_path):
    table = tmp_path / "t.csv"
    table.write_text("method,kind,setting,reading\nrouter,across,a,0.1\nrouter,across,a,0.05\nrouter,across,b,-0.1\n")
    assert "router, across: 3 readings at 2 settings" in run(file, "--csv", table).output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--of", "dowel jig", "--setting", "0.1 x"), '"x" is not a number'),
        (("--of", "dowel jig", "--setting", "0.1 nan"), '"nan" is not a number'),
        (("--of", "dowel jig", "--setting", ""), "there is no reading in it"),
        (("--of", "dowel jig", "--setting", "0.1 1e9"), "1e9 is over 5 mm"),
        (("--of", "dowel jig", "--setting", "0.1 20"), "Is it the right piece?"),
        (("--of", "dowel jig", "--setting", "0.1"), "one reading says nothing"),
        (("--of", "dowel jig", "--setting", "0.1 0.1", "--setting", "0.1 0.1"), "no saw or jig is as true as that"),
        (("--of", "dowel jig", "--setting", "564.1 564.3"), "not its size"),
        (("--of", "dowl jig", "--setting", "0.1 0.2"), 'there is no such way of working. Did you mean "dowel jig"?'),
        (("--of", "dowel jig", "--kind", "bevel", "--setting", "0.1 0.2"), "it has no such error"),
        (("--setting", "0.1 0.2"), "Say --of"),
        (("--csv", "nowhere.csv"), "there is no such file"),
    ],
)
def test_what_is_no_reading_is_refused_and_nothing_is_written(file, words, said):
    done = run(file, *words)
    assert done.exit_code == 2
    assert said in done.stderr
    assert not file.exists()


def test_a_way_of_working_that_is_none_is_told_before_anything_is_typed(file):
    done = run(file, "--of", "dowl jig", typed="0.05 0.1\n\n")
    assert done.exit_code == 2
    assert "setting 1" not in done.output
    assert done.stderr.endswith('Did you mean "dowel jig"?\n')


@pytest.mark.parametrize("typed", ["", "\n", "  \n0.1 0.2\n"])
def test_nothing_typed_is_said_and_nothing_is_written(file, typed):
    done = run(file, "--of", "dowel jig", typed=typed)
    assert done.exit_code == 2
    assert "No reading was typed, and nothing was written." in done.stderr
    assert not file.exists()


def test_readings_that_end_without_an_empty_line_are_taken(file):
    assert "2 readings at one setting" in run(file, "--of", "dowel jig", typed="0,05 0,1").output


@pytest.mark.parametrize("text", ["setings = 1", "[readings.router.across]\nsettings = [[0.1, nan]]"])
def test_a_file_that_is_wrong_is_told_and_left_as_it_is(file, text):
    file.write_text(f'schema = "rodwork/accuracy/1"\n{text}\n', encoding="utf-8")
    before = file.read_bytes()
    done = run(file, "--of", "dowel jig", "--setting", "0.1 0.2")
    assert done.exit_code == 2
    assert done.stderr.startswith(str(file))
    assert file.read_bytes() == before


def test_what_is_typed_wrong_is_told_with_its_setting(file):
    done = run(file, "--of", "dowel jig", typed="0.05 0.1\n0,05 o.1\n\n")
    assert done.exit_code == 2
    assert 'setting 2: "o.1" is not a number' in done.stderr
    assert not file.exists()


def test_a_table_with_a_word_in_place_of_a_reading_is_told_with_its_line(file, tmp_path):
    table = tmp_path / "t.csv"
    table.write_text("method,kind,setting,reading\nrouter,across,a,0.1\nrouter,across,a,about nothing\n")
    done = run(file, "--csv", table)
    assert done.exit_code == 2
    assert 't.csv:3: "about nothing" is not a number' in done.stderr
