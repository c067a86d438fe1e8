"""`rodwork cutting` as a maker runs it, and the words of the job file that it goes by."""

import json

import pytest

from rodwork.model.cutting import CuttingPlan
from rodwork.model.plain import from_plain
from rodwork.pipeline import set_out
from tests.cli.test_cli import FIRST, run

JOB = """
[job]
name = "x"
[boards.birch18]
material = "birch plywood"
thickness = 18
sheet = [2440, 1220]
[cabinets.glaze]
width = 600
height = 720
depth = 320
board = "birch18"
"""


def plan_of(*words):
    done = run("cutting", FIRST, "--seconds", "0.1", "--json", *words)
    return done.exit_code, from_plain(CuttingPlan, json.loads(done.stdout))


def test_the_plan_is_printed_with_every_cut_and_what_is_proven():
    done = run("cutting", FIRST, "--seconds", "0.1")
    assert done.exit_code == 0, done.output
    assert "no fewer sheets are possible" in done.output
    assert "take off 5" in done.output


def test_another_saw_and_kerf():
    code, plan = plan_of("--saw", "panel saw", "--kerf", "4.2")
    assert (code, plan.saw.kind, plan.saw.kerf, plan.saw.levels) == (0, "panel saw", 4.2, 3)
    _, plan = plan_of("--saw", "router")
    assert all(sheet.cuts == () for board in plan.boards for sheet in board.sheets)


def test_no_kerf_is_drawn_and_warned_of():
    code, plan = plan_of("--kerf", "0")
    assert code == 1
    assert any(f.code == "no_kerf" for f in plan.findings)


def test_pages_lists_and_drawings_are_written(tmp_path):
    done = run("cutting", FIRST, "--seconds", "0.1", "--saw", "router", "-o", tmp_path)
    assert done.exit_code == 0
    names = {f.name for f in tmp_path.rglob("*") if f.is_file()}
    assert {"cuts.csv", "sheets.csv", "cutting-plan.json"} <= names
    assert any(n.endswith("cutting-plan.pdf") for n in names)
    assert any(n.startswith("sheet-1") and n.endswith("mm.dxf") for n in names)


def test_a_spoilt_board_is_cut_anew_from_a_plan_that_is_begun(tmp_path):
    begun = tmp_path / "plan.json"
    _, before = plan_of()
    begun.write_text(run("cutting", FIRST, "--seconds", "0.1", "--json").stdout, encoding="utf-8")
    mark = next(iter(before.sheet_numbers))
    done = run("cutting", FIRST, "--begun", begun, "--recut", mark, "--json")
    after = from_plain(CuttingPlan, json.loads(done.stdout))
    assert sum(b.count for b in after.boards) == sum(b.count for b in before.boards) + 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--kerf", "-1"), "-1"),
        (("--kerf", "nan"), "nan"),
        (("--seconds", "0"), "0"),
        (("--saw", "bandsaw"), "bandsaw"),
        (("--recut", "G1-LS"), "go together"),
        (("--begun", "nosuch.json", "--recut", "G1-LS"), "no such file"),
        (("--begun", str(FIRST), "--recut", "G1-LS"), "is not a cutting plan"),
    ],
)
def test_wrong_words_are_refused_in_words(words, says):
    done = run("cutting", FIRST, *words)
    assert done.exit_code == 2
    assert says in done.output
    assert "Traceback" not in done.output


def test_a_mark_that_is_not_there_is_said(tmp_path):
    begun = tmp_path / "plan.json"
    begun.write_text(run("cutting", FIRST, "--seconds", "0.1", "--json").stdout, encoding="utf-8")
    done = run("cutting", FIRST, "--begun", begun, "--recut", "Q9-LS")
    assert done.exit_code == 1
    assert "there is no board Q9-LS" in done.output


def test_a_board_larger_than_any_sheet_is_said_with_what_would_mend_it(tmp_path):
    job = tmp_path / "large.toml"
    job.write_text(JOB.replace("height = 720", "height = 2440"), encoding="utf-8")
    done = run("cutting", job, "--seconds", "0.1")
    assert done.exit_code == 1
    assert "no sheet is as large" in done.output
    assert "Take a sheet of at least 2440" in done.output


def test_the_words_of_saw_stock_and_offcuts_reach_the_set_out():
    more = """
[saw]
kind = "panel saw"
trim = [10, 5, 12, 5]
first = "along"
[stock.large]
board = "birch18"
size = [3050, 1525]
price = 99
count = 2
[offcuts.rack3]
board = "birch18"
size = [900, 400]
[matched.sides]
marks = ["G1-LS", "G1-RS"]
run = "across"
[cutting]
least_offcut = [500, 150]
offcut_share = 30
may_turn = ["back"]
one_sheet = ["glaze"]
"""
    sawing = set_out(JOB + more, "x").sawing
    assert (sawing.saw.kind, sawing.saw.levels, sawing.saw.kerf, sawing.saw.first) == ("panel saw", 3, 3.0, "along")
    assert sawing.saw.trim == (10.0, 5.0, 12.0, 5.0)
    assert [(s.name, s.count, s.offcut, s.price) for s in sawing.stock] == [
        ("large", 2, False, "99.00 GBP"), ("rack3", 1, True, None),
    ]  # fmt: skip
    assert sawing.least_offcut == (150.0, 500.0)
    assert (sawing.offcut_share, sawing.may_turn, sawing.one_sheet) == (0.3, ("back",), ("glaze",))
    assert sawing.matched[0].marks == ("G1-LS", "G1-RS")


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("[saw]\nkerf = -1", "kerf is -1, which is under 0"),
        ("[saw]\nkerf = nan", "kerf"),
        ("[saw]\nkind = 'tracksaw'", 'Did you mean "track saw"'),
        ("[saw]\ntrim = [1, 2]", "has 2 entries"),
        ("[saw]\nrail = 1e9", "rail"),
        ("[offcuts.a]\nboard = 'birch1'\nsize = [900, 400]", "birch18"),
        ("[offcuts]\nboard = 'birch18'", "[offcuts.rack3]"),
        ("[stock.a]\nboard = 'birch18'", "has no size"),
        ("[cutting]\none_sheet = ['glase']", "glaze"),
        ("[cutting]\nmay_turn = ['backs']", "back"),
        ("[cuting]\nspare = 1", "Did you mean cutting"),
        ("[matched.a]\nmarks = ['G1-LS']", "has 1 entry"),
    ],
)
def test_wrong_words_of_the_file_are_told_with_how_to_mend_them(tmp_path, more, says):
    job = tmp_path / "wrong.toml"
    job.write_text(JOB + more, encoding="utf-8")
    done = run("cutting", job)
    assert done.exit_code == 2
    assert says in done.output
    assert "Traceback" not in done.output
