"""Every example in the handbook and in examples/ is run: job files are set out, commands are typed, outputs compared.

How a page is read:

- A TOML block that has a [job] is a whole job file. One that has none is a piece of one: what it lacks is put to it
  from PIECES below. Set out, it must have no fault and no proof against it.
- A TOML block whose first line is "# NAME.toml" lies under that name beside the commands of its page. So does a text
  block: that is a job file with faults.
- A table after it that begins "| board | finished |" gives sizes that the set-out must come to.
- In a console block each line that begins "$ rodwork" is typed in a folder that has the examples in it. It must end
  with 0, or with what stands under a following "$ echo $?". Lines that follow must be in what it prints, in this
  order; "..." stands for lines that are left out, or for a part of a line.
"""

import os
import re
import shlex
import shutil
import subprocess
import sys
import tomllib
from math import floor
from pathlib import Path

import pytest

import rodwork
from rodwork.pipeline import set_out
from tests.docs.pages import PAGES, ROOT, all_blocks, blocks

PYTHON = all_blocks("python")
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
BOARDS = {
    "birch18": '[boards.birch18]\nmaterial = "birch plywood"\nthickness = 18\nactual = 17.6\nsheet = [2440, 1220]\n',
    "birch6": '[boards.birch6]\nmaterial = "birch plywood"\nthickness = 6\nactual = 5.8\nsheet = [2440, 1220]\n',
}
PIECES = {
    "job": '[job]\nname = "Glaze cupboard"\n',
    "boards": "".join(BOARDS.values()),
    "edgings": "[edgings.birch]\nthickness = 1.0\n",
    "cabinets": '[cabinets.glaze]\nwidth = 600\nheight = 720\ndepth = 320\nboard = "birch18"\nfixed_shelves = 1\n',
}


def whole(text: str) -> str:
    """A piece of a job file with what it lacks."""
    says = tomllib.loads(text)
    if "job" in says:
        return text
    pieces = {name: piece for name, piece in PIECES.items() if name not in says}
    if "cabinets" not in says:  # the cabinet that is put in is of these, whatever other boards there are
        pieces["boards"] = "".join(text for name, text in BOARDS.items() if name not in says.get("boards", {}))
    glaze = says.get("cabinets", {}).get("glaze", {})
    if "cabinets" in says and glaze and not any(k in glaze for k in ("width", "board")):
        pieces["cabinets"] = PIECES["cabinets"]  # a table inside the cabinet: [cabinets.glaze.back]
    if "joints" in says and "every_cabinet" not in says and "joint" not in str(says.get("cabinets", "")):
        pieces["every_cabinet"] = f'[every_cabinet]\njoint = "{next(iter(says["joints"]))}"\n'
    return "".join(pieces.values()) + "\n" + text


TOML = all_blocks("toml")


@pytest.mark.parametrize("block", TOML, ids=lambda b: b.place)
def test_every_job_file_in_the_handbook_is_sound(block):
    rod = set_out(whole(block.text), block.place)
    wrong = [f"{f.code}: {f.message}" for f in rod.findings if f.severity == "fault"]
    assert not wrong, "\n".join(wrong)
    assert rod.cabinets


SIZED = [b for b in TOML if b.table and b.table[0][:2] == ("board", "finished")]


@pytest.mark.parametrize("block", SIZED, ids=lambda b: b.place)
def test_boards_come_to_the_sizes_that_the_handbook_gives(block):
    rod = set_out(whole(block.text), block.place)
    sizes = {p.name: " x ".join(f"{floor(s * 10 + 0.5) / 10:g}" for s in p.size) for c in rod.cabinets for p in c.parts}
    for row in block.table[1:]:
        for name in re.split(r", | and ", row[0]):
            assert name in sizes, f"{block.place}: there is no {name} among {sorted(sizes)}"
            assert sizes[name] == row[1], f"{block.place}: {name}"


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda p: p.name)
def test_every_example_is_set_out_without_a_stop(example):
    rod = rodwork.set_out(example)
    assert [f.message for f in rod.findings if f.severity == "fault"] == []


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda p: p.name)
def test_every_example_is_named_in_the_handbook(example):
    assert any(example.name in page.read_text(encoding="utf-8") for page in PAGES)


def test_there_are_examples_of_every_kind_of_block():
    """Or the tests above would pass over an empty handbook."""
    assert len(TOML) > 12
    assert len(SIZED) >= 6
    assert len(CONSOLE_PAGES) >= 3
    assert PYTHON


@pytest.mark.parametrize("block", PYTHON, ids=lambda b: b.place)
def test_python_in_the_handbook_runs(block, monkeypatch):
    monkeypatch.chdir(ROOT)
    exec(compile(block.text, block.place, "exec"), {})


CONSOLE_PAGES = [p for p in PAGES if any(b.language == "console" for b in blocks(p))]


@pytest.mark.parametrize("page", CONSOLE_PAGES, ids=lambda p: p.relative_to(ROOT).as_posix())
def test_commands_in_the_handbook_do_what_it_says(page, tmp_path):
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    for block in blocks(page):
        if block.language in ("toml", "text"):
            name = re.match(r"# (\S+\.toml)\n", block.text)
            if name:
                (tmp_path / name.group(1)).write_text(block.text, encoding="utf-8")
        elif block.language == "console":
            for typed, exit_code, lines in commands(block.text):
                run(block.place, typed, exit_code, lines, tmp_path)


def commands(text: str) -> list[tuple[str, int, list[str]]]:
    """(what is typed, how it ends, the lines that it must print) of a console block."""
    out: list[tuple[str, int, list[str]]] = []
    lines = text.splitlines()
    i = 0
    while i < len(lines):
        if lines[i] == "$ echo $?":
            typed, _, printed = out[-1]
            out[-1] = (typed, int(lines[i + 1]), printed)
            i += 2
            continue
        if lines[i].startswith("$ "):
            out.append((lines[i][2:], 0, []))
        elif out:
            out[-1][2].append(lines[i])
        i += 1
    return out


def run(place: str, typed: str, exit_code: int, lines: list[str], folder: Path) -> None:
    words = shlex.split(typed)
    if words[0] == "ls":
        printed = "\n".join(sorted(p.name for p in (folder / words[1]).iterdir()))
        assert "..." in lines or printed == "\n".join(lines), f"{place}: {typed}\n{printed}"
    else:
        assert words[0] == "rodwork", f"{place}: {typed} is not tested"
        done = subprocess.run(
            [sys.executable, "-m", "rodwork", *words[1:]], cwd=folder, capture_output=True, encoding="utf-8",
            env={**os.environ, "COLUMNS": "100", "PYTHONUTF8": "1"},
        )  # fmt: skip
        printed = done.stdout + done.stderr
        assert "Traceback" not in printed, f"{place}: {typed}\n{printed}"  # it too ends with 1
        assert done.returncode == exit_code, f"{place}: {typed} ended with {done.returncode}\n{printed}"
    there = [" ".join(line.split()) for line in printed.splitlines()]
    at = 0
    for line in lines:
        wanted = " ".join(line.split())
        if wanted in ("", "..."):
            continue
        pattern = ".*".join(re.escape(piece) for piece in wanted.split("..."))
        found = next((n for n in range(at, len(there)) if re.fullmatch(pattern, there[n])), None)
        assert found is not None, f"{place}: {typed} does not print, or not in this place:\n{line}\nbut\n{printed}"
        at = found + 1
