"""Options and fixtures that every test folder shares."""

from pathlib import Path

import pytest
from hypothesis import settings

# The same examples on every machine and every run: a failure here is a failure there. No time limit: a busy machine is
# no fault of the code.
settings.register_profile("repeatable", derandomize=True, deadline=None)
settings.load_profile("repeatable")

GOLDEN = Path(__file__).parent / "golden"
REWRITTEN: list[str] = []


def pytest_addoption(parser):
    parser.addoption("--rewrite-golden", action="store_true", help="rewrite the golden drawings, then look at the diff")


@pytest.fixture
def golden(request):
    """Compare a text with tests/golden/NAME; with --rewrite-golden it is written there instead.

    What is rewritten can be looked at, before beside after, in a page whose place is told at the end of the run.
    """

    def compare(name: str, text: str) -> None:
        path = GOLDEN / name
        before = path.read_text(encoding="utf-8") if path.exists() else ""
        if request.config.getoption("--rewrite-golden"):
            if text != before:
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_text(text, encoding="utf-8", newline="\n")
                REWRITTEN.append(f"<h2>{name}</h2><table><tr><td>{before}</td><td>{text}</td></tr></table>")
            return
        assert before, f"no golden {name}: run pytest --rewrite-golden, and look at what it draws"
        assert text == before, f"{name} is drawn differently: run pytest --rewrite-golden, and look at both"

    return compare


STEADY = ("dowel", "groove", "housing", "rebate", "screw")


@pytest.fixture
def steady_families(monkeypatch):
    """The comparison on a few families that stay the same, so that a new family changes no figure of a test."""
    from rodwork.joints.registry import joint_kinds

    monkeypatch.setattr("rodwork.comparing.joint_kinds", lambda: {name: joint_kinds()[name] for name in STEADY})


def pytest_terminal_summary(terminalreporter, config):
    if REWRITTEN and config.cache is not None:
        page = Path(config.cache.mkdir("golden")) / "before-after.html"
        page.write_text("<meta charset=utf-8>\n" + "\n".join(REWRITTEN), encoding="utf-8")
        terminalreporter.write_line(f"{len(REWRITTEN)} golden drawings rewritten; before and after: {page}")
