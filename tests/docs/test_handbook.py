"""The handbook as a whole: it builds, it loads nothing from a network, its pictures are what the program draws."""

import importlib.util
import re
import subprocess
import sys

import pytest

from tests.docs.pages import DOCS, PAGES, ROOT, tables_under

DECISIONS = sorted((DOCS / "decisions").glob("*.md"))


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """The built handbook; any broken link fails."""
    out = tmp_path_factory.mktemp("site")
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "--strict", "--site-dir", str(out)],
        cwd=ROOT, capture_output=True, encoding="utf-8",
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return out


def test_every_page_is_built(site):
    for page in PAGES:
        path = page.relative_to(DOCS).with_suffix("")
        folder = site / path.parent if path.name == "index" else site / path
        assert (folder / "index.html").exists(), page


def test_no_page_loads_anything_from_a_network(site):
    """No font, script, style or picture from elsewhere: only links that a reader may follow."""
    for page in site.rglob("*.html"):
        text = page.read_text(encoding="utf-8")
        loaded = re.findall(r"<(?:script|img|iframe|source)[^>]*\bsrc=\"([^\"]+)\"|<link[^>]*\bhref=\"([^\"]+)\"", text)
        for address in (a or b for a, b in loaded):
            assert not re.match(r"(https?:)?//", address), f"{page.name} loads {address}"
    for style in site.rglob("*.css"):
        assert not re.search(r"url\(\s*['\"]?(https?:)?//|@import", style.read_text(encoding="utf-8")), style.name


def test_no_page_of_the_program_is_in_the_site(site):
    assert list(site.rglob("*.py")) == []


def pictures_module():
    spec = importlib.util.spec_from_file_location("make_pictures", DOCS / "make_pictures.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_pictures_are_what_the_program_draws():
    """But for the letters that are put into them, which hang on the version of a library."""
    make = pictures_module()

    def drawn(text):
        return re.sub(r"<style>.*?</style>", "", text)

    expected = make.pictures()
    assert {p.name for p in make.PICTURES.glob("*.svg")} == set(expected)
    for name, drawing in expected.items():
        kept = (make.PICTURES / name).read_text(encoding="utf-8")
        assert drawn(kept) == drawn(make.text_of(drawing)), f"{name} is out of date: run python docs/make_pictures.py"


def test_every_picture_is_shown_and_says_what_it_shows():
    texts = {page: page.read_text(encoding="utf-8") for page in PAGES}
    for picture in (DOCS / "pictures").glob("*.svg"):
        shown = [alt for t in texts.values() for alt in re.findall(rf"!\[([^\]]*)\]\([^)]*{picture.name}\)", t)]
        assert shown, f"{picture.name} is on no page"
        assert all(len(alt) > 20 for alt in shown), picture.name


@pytest.mark.parametrize("record", DECISIONS, ids=lambda p: p.stem)
def test_a_decision_has_its_question_what_was_chosen_given_up_and_would_change_it(record):
    text = record.read_text(encoding="utf-8")
    places = [text.find(f"**{w}**") for w in ("Question.", "Chosen.", "Why.", "Given up.", "What would change it.")]
    assert -1 not in places
    assert places == sorted(places)
    assert len(text.splitlines()) <= 30


def test_decisions_are_numbered_without_gaps():
    assert [int(p.name[:4]) for p in DECISIONS] == list(range(1, len(DECISIONS) + 1))


def test_the_settings_page_names_every_machine_in_the_order_of_work():
    from rodwork.setout import settings

    (table,) = tables_under(DOCS / "settings.md", "The machines")
    assert [row[0] for row in table[1:]] == list(settings._TOOLS)


def test_every_command_stands_in_the_handbook():
    from rodwork.cli import main

    text = "".join(page.read_text(encoding="utf-8") for page in PAGES)
    for name in main.commands:
        assert f"rodwork {name}" in text, name


def test_the_changelog_has_the_version_that_is_installed():
    from rodwork import __version__

    assert f"## {__version__}" in (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
