#!/usr/bin/env python3
"""The two commands that set rodwork up on a fresh machine with nothing but Python 3.11 or newer.

python3 start.py         makes the environment, installs, sets out the example job, says where its pack lies
python3 start.py test    runs every test, lint and type check, and builds the docs
"""

import os
import subprocess
import sys
import venv
from pathlib import Path

HERE = Path(__file__).resolve().parent
ENV = HERE / ".venv"
BIN = ENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
PINS = HERE / "requirements.lock"
STAMP = ENV / "rodwork-installed"
EXAMPLE = HERE / "examples" / "first-cupboard.toml"
PACK = HERE / "packs" / "first-cupboard"

CHECKS = (
    ("format", ["-m", "ruff", "format", "--check", "."]),
    ("lint", ["-m", "ruff", "check", "."]),
    ("types", ["-m", "mypy"]),
    ("docs", ["-m", "mkdocs", "build", "--strict", "--quiet", "--site-dir", "build/site"]),
    ("tests", ["-m", "pytest", "-n", "2"]),
)


def main(words: list[str]) -> int:
    """Run the command that the words name."""
    if sys.version_info < (3, 11):  # noqa: UP036 - this is the first thing a newcomer's older Python meets
        print(f"rodwork needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
        return 2
    if words not in ([], ["test"]):
        print(__doc__)
        return 2
    install(with_tests=bool(words))
    return test() if words else show()


def install(with_tests: bool) -> None:
    """Make the environment and install what the pins say, unless that is done already."""
    wanted = f"{'test' if with_tests else 'use'} {_text_of(PINS)} {_text_of(HERE / 'pyproject.toml')}"
    if STAMP.exists() and PYTHON.exists() and STAMP.read_text(encoding="utf-8") in (wanted, "test" + wanted[3:]):
        return
    if not PYTHON.exists():
        print("Making the environment ...", flush=True)
        venv.create(ENV, with_pip=True)
    print("Installing; the first time takes a minute or two ...", flush=True)
    what = f"{HERE}[dev]" if with_tests else str(HERE)
    pip = [str(PYTHON), "-m", "pip", "install", "--quiet", "--disable-pip-version-check"]
    subprocess.run([*pip, "-c", str(PINS), "-e", what], check=True, cwd=HERE)
    STAMP.write_text(wanted, encoding="utf-8")


def show() -> int:
    """Set out the example job and say where its pack lies."""
    done = subprocess.run([str(PYTHON), "-m", "rodwork", "pack", str(EXAMPLE), "-o", str(PACK)], cwd=HERE)
    if done.returncode > 1:
        return done.returncode
    print(f"\nThe pack of the example cupboard lies in {PACK}")
    print(f"Try your own:  {BIN / 'rodwork'} new my-job.toml")
    return 0


def test() -> int:
    """Every check in turn; the first word of each line says which failed."""
    failed = []
    for name, command in CHECKS:
        print(f"== {name}", flush=True)
        if subprocess.run([str(PYTHON), *command], cwd=HERE).returncode:
            failed.append(name)
    print(f"failed: {', '.join(failed)}" if failed else "all checks passed")
    return 1 if failed else 0


def _text_of(file: Path) -> str:
    return file.read_text(encoding="utf-8") if file.exists() else ""


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
