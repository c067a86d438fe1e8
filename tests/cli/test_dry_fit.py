"""`rodwork dry-fit`, run as a maker runs it: sizes as cut are typed, joints tried, and what is wrong is told in words."""

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from rodwork.cli import main

JOB = Path(__file__).parents[2] / "examples" / "first-cupboard.toml"


@pytest.fixture
def job(tmp_path):
    return shutil.copy(JOB, tmp_path / "job.toml")


def name_the_file(job):
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace("[shop]\n", '[shop]\naccuracy = "ours.toml"\n'), encoding="utf-8")


def run(job, *words):
    return CliRunner().invoke(main, ["dry-fit", str(job), "--samples", "200", *words])


def test_the_sentence_comes_first_and_it_says_that_nothing_is_measured(job):
    done = run(job)
    assert done.exit_code == 0
    assert done.output.splitlines()[2].startswith("glaze: A guess from other shops' habits: ")
    assert "As cut so far: 0 of 6 boards measured." in done.output
    assert "seed 1 gives the same answer again" in done.output


def test_a_typed_size_is_answered_by_its_mates_and_the_ways_on(job):
    said = run(job, "--cut", "G1-T 564.1").output
    assert "G1-T length 564.1, asked 564.8" in said
    assert "Of its mates: G1-B is not cut yet, G1-FS is not cut yet." in said
    assert "1. G1-B and G1-FS not cut yet: cut to 564.1 too. Cupboard 599.3 wide." in said


def test_length_and_width_may_be_typed_in_any_unit_and_stand_in_place_of_what_the_file_says(job):
    with job.open("a", encoding="utf-8") as stream:
        stream.write('\n[measured]\n"G1-T" = { length = 565.5, thickness = 17.5 }\n')
    fit = json.loads(run(job, "--json", "--cut", "G1-T 564.1 x 31.89 cm", "--cut", "G1-B 564.8").output)
    found = {(a["mark"], a["dimension"]): a["measured_mm"] for a in fit["cabinets"][0]["as_cut"]}
    assert found == {
        ("G1-T", "length"): 564.1, ("G1-T", "width"): 318.9, ("G1-T", "thickness"): 17.5, ("G1-B", "length"): 564.8,
    }  # fmt: skip


def test_two_figures_typed_for_one_size_are_refused(job):
    done = run(job, "--cut", "G1-T 564.1", "--cut", "G1-T 560 x 318.9")
    assert done.exit_code == 2
    assert '"G1-T 560 x 318.9" and "G1-T 564.1" are two figures for one length' in done.stderr


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("G1-T 564,1", "Write the decimal with a point"),
        ("G1-T 318.9 x 564.8", "is 245.9 off. Is this the right board?"),
        ("G1-T", "is not a mark and its sizes"),
        ("", "is not a mark and its sizes"),
        ("G1-T 1 x 2 x 3 x 4", "is not a mark and its sizes"),
        ("G1-T nan", "not a length"),
        ("G1-T long", "is not a length"),
        ("G1-T -564", "under 10 mm"),
        ("G1-T 1e9", "not a length for a shop"),
        ("G1-T 584.8", "is 20.0 off. Is this the right board?"),
        ("G1-TT 564.8", "Did you mean G1-T?"),
        ("Z9-Q 564.8", "The marks of this job are G1-LS"),
    ],
)
def test_what_cannot_be_a_size_of_a_board_is_refused_and_says_where_it_stands(job, typed, said):
    done = run(job, "--cut", typed)
    assert done.exit_code == 2
    assert done.stderr.startswith("--cut: ")
    assert said in done.stderr
    assert "Traceback" not in done.output


def test_another_family_is_shown_before_and_after(job):
    said = run(job, "--joint", "biscuit").output
    assert "as it is and joined by biscuit" in said
    assert "before" in said
    assert "goes together" in said
    both = json.loads(run(job, "--joint", "biscuit", "--json").output)
    alone = json.loads(run(job, "--json").output)
    assert both["before"] == alone
    assert both["after"]["cabinets"][0]["chance"] > both["before"]["cabinets"][0]["chance"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--joint", "biscuits"), "did you mean biscuit?"),
        (("--joint", "glue and hope"), "there are "),
        (("--joint", "groove"), "joins no corner, shelf or divider"),
        (("--joint", "biscuit", "--cut", "G1-T 564.1"), "do not go together"),
        (("--samples", "3"), "--samples"),
    ],
)
def test_wrong_words_are_refused(job, words, said):
    done = run(job, *words)
    assert done.exit_code == 2
    assert said in done.stderr


def test_a_file_of_accuracies_that_is_none_is_refused(job, tmp_path):
    (tmp_path / "ours.toml").write_text("nothing = 1", encoding="utf-8")
    name_the_file(job)
    done = run(job)
    assert done.exit_code == 2
    assert "it is not a file of accuracies" in done.stderr


def test_a_shop_that_has_measured_is_not_told_that_it_is_a_guess(job, tmp_path):
    words = [
        "accuracy",
        str(tmp_path / "ours.toml"),
        "--of",
        "dowel jig",
        "--setting",
        "0.2 -0.2",
        "--setting",
        "0.1 0",
    ]
    assert CliRunner().invoke(main, words).exit_code == 0
    name_the_file(job)
    done = run(job)
    assert "A guess" not in done.output
    assert "It demands more accuracy than this shop measures" in done.output
    assert done.exit_code == 1
    looked = CliRunner().invoke(main, ["set-out", str(job)])
    assert looked.exit_code == 1
    assert "It demands more accuracy than this shop measures" in " ".join(looked.output.split())
    packed = CliRunner().invoke(main, ["pack", str(job), "-o", str(tmp_path / "pack"), "--json"])
    assert packed.exit_code == 1
    assert "dry-fit" in json.loads(packed.output)["findings"]


def test_a_set_out_where_nothing_is_measured_says_nothing_of_accuracy(job):
    assert "demands more accuracy" not in CliRunner().invoke(main, ["set-out", str(job)]).output
