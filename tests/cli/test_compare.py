"""`rodwork compare`, run as a maker runs it."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from rodwork.cli import main
from tests.money.box import BOX

pytestmark = pytest.mark.usefixtures("steady_families")

RACK = str(Path(__file__).parents[2] / "examples" / "travelling-rack.toml")


@pytest.fixture
def box(tmp_path):
    file = tmp_path / "box.toml"
    file.write_text(BOX, encoding="utf-8")
    return file


def run(*words):
    return CliRunner().invoke(main, ["compare", *map(str, words)])


def test_it_prints_a_line_for_each_way_and_ends_with_nought(box):
    done = run(box)
    assert done.exit_code == 0
    for said in ("screw", "dowel", "mixed", "Cannot make this job", "money a", "your job"):
        assert said in done.output


def test_long_shows_what_stands_behind_a_figure(box):
    done = run(box, "--long", "--of", "corners")
    assert "dowel 8x30" in done.output
    assert "36.12" in done.output
    assert "Its weakest point" in done.output


def test_as_data(box):
    plain = json.loads(run(box, "--json", "--of", "corners").output)
    assert [w["name"] for w in plain["ways"]] == ["screw", "dowel", "mixed"]
    assert plain["ways"][1]["money"] == "36.95"


def test_the_pages_and_the_picture_are_written(box, tmp_path):
    assert run(box, "-o", tmp_path / "c.pdf").exit_code == 0
    assert (tmp_path / "c.pdf").read_bytes().startswith(b"%PDF")
    assert run(box, "-o", tmp_path / "c.svg").exit_code == 0
    assert (tmp_path / "c.svg").read_text(encoding="utf-8").startswith("<svg")


def test_a_file_of_another_kind_is_refused_before_anything_is_done(box, tmp_path):
    done = run(box, "-o", tmp_path / "c.docx")
    assert done.exit_code == 2
    assert ".pdf" in done.output


def test_a_job_beside_its_family_file():
    done = run(RACK, "--want", "demountable")
    assert done.exit_code == 0
    assert "bolted" in done.output
    assert "it does not come apart again" in " ".join(done.output.split())


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("hour = 36", "hour = -1"), "hour is -1, which is not from 0"),
        (("hour = 36", "hour = nan"), "hour"),
        (("hour = 36", "hor = 36"), "Did you mean hour?"),
        (("set_fence = 2", "set_fense = 2"), "Did you mean set_fence?"),
        (("set_fence = 2", "set_fence = 1e9"), "is not from 0 to 480"),
        (("price = 6.40, pieces", "prize = 6.40, pieces"), "Did you mean price?"),
        (("[times]", '[machines."dowel jigg"]\nowned = true\n[times]'), 'Did you mean "dowel jig"?'),
        (("hour = 36", "hour = 36\none_pound = 0"), "one_pound is 0"),
        (("cabinets_to_come = 50", "cabinets_to_come = 0"), "cabinets_to_come is 0"),
    ],
)
def test_wrong_figures_are_told_with_file_and_line(tmp_path, change, says):
    assert change[0] in BOX
    file = tmp_path / "box.toml"
    file.write_text(BOX.replace(*change), encoding="utf-8")
    done = run(file)
    assert done.exit_code == 2
    assert says in done.output
    assert "box.toml:" in done.output


def test_where_no_way_can_it_ends_with_one(tmp_path):
    file = tmp_path / "box.toml"
    file.write_text(BOX.replace("thickness = 18", "thickness = 9"), encoding="utf-8")
    done = run(file, "--of", "corners")
    assert done.exit_code == 1
    assert "cannot hold it" in " ".join(done.output.split())


def test_a_starter_family_is_read_by_the_starter_job(tmp_path):
    made = CliRunner().invoke(main, ["new", str(tmp_path / "ours.toml"), "--family"])
    assert made.exit_code == 0
    assert (tmp_path / "rodwork-family.schema.json").is_file()
    job = tmp_path / "job.toml"
    job.write_text(BOX.replace('name = "Two', 'families = ["ours.toml"]\nname = "Two'), encoding="utf-8")
    assert "bolt and barrel nut" in [w["name"] for w in json.loads(run(job, "--json").output)["ways"]]


def test_the_dry_fit_is_a_column_where_it_is_asked_for_and_screws_forgive_more_than_dowels(box):
    plain = run(box, "--of", "corners")
    assert "fits" not in plain.output
    asked = run(box, "--of", "corners", "--dry-fit")
    assert asked.exit_code == 0
    assert "fits" in asked.output
    ways = {w["name"]: w for w in json.loads(run(box, "--of", "corners", "--dry-fit", "--json").output)["ways"]}
    assert all(0.0 <= w["goes_together"] <= 1.0 for w in ways.values())
    assert ways["screw"]["goes_together"] > ways["dowel"]["goes_together"]
    without = json.loads(run(box, "--of", "corners", "--json").output)["ways"]
    assert {w["goes_together"] for w in without} == {None}
