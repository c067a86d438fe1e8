"""The page that says what the dry fit is held to names every test of its table, and none that is not there."""

import ast
import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "dry-fit-validation.md").read_text(encoding="utf-8")
FILES = sorted(Path(__file__).parent.glob("test_*.py"))
CASES = re.compile(r"\b(T\d+|F-[a-f]\d?)\. ")  # as a docstring begins with its case


def stories(file):
    """(name, docstring) of every test of a file."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
            yield node.name, ast.get_docstring(node) or ""


def test_every_test_that_it_names_is_there():
    there = {name for file in FILES for name, _ in stories(file)}
    named = set(re.findall(r"`(test_\w+)`", PAGE))
    assert len(named) > 30
    assert named <= there


def test_every_case_that_a_test_says_it_is_stands_in_the_table():
    for file in FILES:
        for name, said in stories(file):
            if case := CASES.match(said):
                assert re.search(rf"^\| {case.group(1)} \|.*`{name}`", PAGE, re.MULTILINE), name


def test_no_case_is_left_out():
    cases = set(re.findall(r"^\| (T\d+|F-[a-f]\d?) \|", PAGE, re.MULTILINE))
    assert {f"T{n}" for n in range(1, 20)} | {f"F-{c}" for c in "abcdef"} <= cases
