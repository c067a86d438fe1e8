"""The command as a maker runs it: words, exit codes, files, and messages in place of tracebacks."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

import rodwork
from rodwork.cli import main
from rodwork.model.rod import Rod

ROOT = Path(__file__).parents[2]
FIRST = ROOT / "examples" / "first-cupboard.toml"
STUDIO = ROOT / "examples" / "pottery-studio.toml"


def run(*words):
    return CliRunner().invoke(main, [str(w) for w in words], catch_exceptions=False)


def test_new_writes_a_job_that_sets_out_and_a_schema_beside_it(tmp_path):
    file = tmp_path / "kitchen.toml"
    assert run("new", file).exit_code == 0
    assert (tmp_path / "rodwork-job.schema.json").exists()
    json.loads((tmp_path / "rodwork-job.schema.json").read_text(encoding="utf-8"))
    done = run("set-out", file, "--json")
    assert done.exit_code in (0, 1), done.output
    assert json.loads(done.stdout)["schema"] == "rodwork/rod/1"


def test_new_never_writes_over_a_file(tmp_path):
    file = tmp_path / "kitchen.toml"
    file.write_text("mine", encoding="utf-8")
    done = run("new", file)
    assert done.exit_code == 2
    assert "is there already" in done.output
    assert file.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("job", [FIRST, STUDIO], ids=lambda p: p.stem)
def test_examples_set_out_with_nothing_to_stop_them(job):
    done = run("set-out", job, "--json")
    rod = Rod.from_dict(json.loads(done.stdout))
    assert [f for f in rod.findings if f.severity == "fault"] == []
    assert done.exit_code == (1 if any(f.severity == "warning" for f in rod.findings) else 0)


def test_the_python_door_gives_what_the_command_prints():
    done = run("set-out", FIRST, "--json")
    assert rodwork.set_out(FIRST).to_dict() == json.loads(done.stdout)


def test_set_out_on_a_terminal_shows_parts_joints_settings_and_what_to_put_right():
    done = run("set-out", FIRST)
    for word in ("Parts", "Joints", "Settings", "G1-LS", "dowel 8x30", "batten at 277.6", "left side"):
        assert word in done.output, word
    for word in ("feature", "pose", "host", "guest", "seat"):
        assert word not in done.output


def test_markup_in_a_name_is_shown_as_it_was_written(tmp_path):
    text = FIRST.read_text(encoding="utf-8").replace('"Glaze cupboard"', '"[red]Glaze[/red] <b>"')
    file = tmp_path / "job.toml"
    file.write_text(text, encoding="utf-8")
    assert "[red]Glaze[/red] <b>" in run("set-out", file).output


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("missing.toml", None, "no such file"),
        ("empty.toml", b"", "rodwork new"),
        ("binary.toml", bytes(range(256)), "binary.toml"),
        ("broken.toml", b"[job\nname = 1\n", "broken.toml:1"),
        ("unknown.toml", b"[jub]\nname = 'x'\n", "job"),
    ],
)
def test_a_file_that_cannot_be_read_gets_a_message_and_exit_2(tmp_path, name, content, says):
    file = tmp_path / name
    if content is not None:
        file.write_bytes(content)
    done = run("set-out", file)
    assert done.exit_code == 2
    assert says in done.output
    assert "Traceback" not in done.output


def test_a_folder_is_no_job_file(tmp_path):
    done = run("set-out", tmp_path)
    assert done.exit_code == 2
    assert "folder" in done.output


def test_what_cannot_be_built_names_the_line(tmp_path):
    text = FIRST.read_text(encoding="utf-8").replace('openings = [260, "rest"]', 'openings = [900, "rest"]')
    file = tmp_path / "job.toml"
    file.write_text(text, encoding="utf-8")
    line = text[: text.index("openings")].count("\n") + 1
    done = run("set-out", file)
    assert done.exit_code == 2
    assert f"job.toml:{line}" in done.output
    assert "900" in done.output


def test_every_cabinet_that_cannot_be_built_is_named_at_once(tmp_path):
    text = STUDIO.read_text(encoding="utf-8")
    text = text.replace('openings = [260, "rest"]', 'openings = [900, "rest"]').replace(
        "fixed_shelves = 4", "fixed_shelves = 4\nshelf_set_back = 260"
    )
    file = tmp_path / "job.toml"
    file.write_text(text, encoding="utf-8")
    done = run("set-out", file)
    assert done.exit_code == 2
    assert done.output.count("job.toml:") == 2


def test_version_and_completion():
    assert rodwork.__version__ in run("--version").output
    for shell in ("bash", "zsh", "fish"):
        assert "_RODWORK_COMPLETE" in run("completion", shell).output


def test_help_is_quick_because_it_loads_nothing_heavy():
    code = "import sys; from rodwork.cli import main\ntry: main(['--help'])\nexcept SystemExit: pass\nprint(sorted(sys.modules), file=sys.stderr)"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stderr
    for heavy in ("numpy", "pydantic", "typst", "ezdxf", "rich", "trimesh", "manifold3d", "openpyxl", "fontTools"):
        assert f"'{heavy}'" not in loaded, heavy


def test_what_several_cabinets_have_alike_is_said_once():
    """The backs of the studio's glaze cupboards, drawers and benches are loose alike; that of the eaves, being larger, a
    little less: told twice, not four times.
    """
    said = " ".join(run("set-out", STUDIO).output.split())
    assert "WATCH glaze, drawers and bench: The grooved back holds the box" in said
    assert said.count("The grooved back holds the box") == 2
