"""What a maker reads on a terminal: no word broken, no column left out, at the width of the smallest window."""

import io
import re

import pytest
from click.testing import CliRunner
from rich.console import Console
from rich.text import Text

import rodwork.terminal
from rodwork.cli import main
from rodwork.documents.load_words import alike_rows
from rodwork.model.finding import Finding
from rodwork.terminal import LONGEST, NARROWEST, fitted, print_findings, print_table, say
from tests.cli.test_cli import FIRST, STUDIO, run


def printed(wide, print_):
    """What `print_` puts on a console of this many columns, line by line."""
    out = io.StringIO()
    print_(Console(file=out, width=wide, highlight=False))
    return out.getvalue().splitlines()


@pytest.mark.parametrize("name", sorted(main.commands))
def test_the_list_of_commands_tells_each_in_one_line_that_is_not_cut_off(name):
    said = CliRunner().invoke(main, ["--help"], terminal_width=80).output.partition("Commands:")[2]
    (line,) = [line for line in said.splitlines() if line.startswith(f"  {name} ")]
    assert "..." not in line
    assert len(line) <= 80


@pytest.mark.parametrize("job", [FIRST, STUDIO], ids=lambda p: p.stem)
@pytest.mark.parametrize("words", [("set-out",), ("load",), ("survey",), ("cutting", "--seconds", "0.1")], ids=" ".join)
def test_nothing_is_wider_than_a_small_window_and_no_word_is_broken(job, words, monkeypatch):
    wide = run(*words, job).output
    monkeypatch.setattr(rodwork.terminal, "PIPED", NARROWEST)
    narrow = run(*words, job).output
    assert max(map(len, narrow.splitlines())) <= NARROWEST
    # a word broken over two lines is no word of the same set-out where there is room for it
    assert set(narrow.split()) <= set(wide.split()) | {"─" * n for n in range(NARROWEST)}


def test_every_column_of_a_comparison_stands_in_a_small_window(monkeypatch):
    monkeypatch.setattr(rodwork.terminal, "PIPED", NARROWEST)
    said = run("compare", FIRST).output
    assert said.count("glue?") == said.count("clamps") == 2
    assert "tenon-and-bolt" in said


@pytest.mark.parametrize(
    ("natural", "least", "room", "widths"),
    [
        ([10, 20], [5, 5], 40, [10, 20]),  # room for all
        ([10, 20], [5, 5], 25, [10, 15]),  # what is widest over its least gives way
        ([10, 20], [10, 12], 25, [10, 15]),
        ([10, 20], [10, 20], 25, [10, 20]),  # no word is broken for want of room
        ([3, 9], [4, 4], 12, [4, 8]),
        ([], [], 5, []),
    ],
)
def test_widths_give_way_down_to_the_longest_word(natural, least, room, widths):
    assert fitted(natural, least, room) == widths


def test_figures_stay_whole_and_only_a_word_that_a_maker_made_up_is_broken():
    rows = [("a name of four words", "695.8 x 575.8"), ("x" * (LONGEST + 40), "1")]
    lines = printed(48, lambda c: print_table(c, "", (("name", False), ("size", True)), rows))
    assert any("695.8 x 575.8" in line for line in lines)
    assert max(map(len, lines)) <= 48


def test_what_goes_over_to_the_next_line_hangs_under_its_first_word():
    lines = printed(20, lambda c: say(c, "one two three four five six", "  1. "))
    assert lines == ["  1. one two three", "     four five six"]


def test_markup_in_what_is_said_is_printed_as_it_stands():
    assert printed(60, lambda c: say(c, "[red]x[/red]", "[b] ")) == ["[b] [red]x[/red]"]
    assert "[red]x[/red]" in "".join(printed(60, lambda c: print_table(c, "", [("h", False)], [("[red]x[/red]",)])))
    assert "bold" in "".join(printed(60, lambda c: print_table(c, "", [("h", False)], [(Text("bold"),)])))


def test_a_finding_hangs_under_how_bad_it_is_with_its_mend_below():
    found = Finding(
        severity="warning", code="c", cabinet="glaze", where=("top",), message="it sags a long way", mend="Make it thicker.",
        source="measured",
    )  # fmt: skip
    lines = printed(24, lambda c: print_findings(c, [found], sources=True))
    assert lines == [
        "WATCH  glaze: it sags a", "       long way", "       Make it thicker.", "       measured"
    ]  # fmt: skip


def test_rows_that_differ_in_their_name_alone_are_told_once():
    rows = [("shelf 1", "jointed", "561"), ("top", "jointed", "900"), ("shelf 2", "jointed", "561")]
    assert alike_rows(rows) == [("shelf 1 and 1 more alike", "jointed", "561"), ("top", "jointed", "900")]
    said = run("load", STUDIO).output
    assert said.count("housing gives at its wall") == 1  # sixteen ends of shelves


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("cutting", FIRST, "--kerf", "abc"), "abc is not a number. Write a number from 0 to 20."),
        (("cutting", FIRST, "--kerf", "-1"), "-1 is out of range. Write a number from 0 to 20."),
        (("cutting", FIRST, "--seconds", "nan"), "nan is out of range. Write a number from 0.1 to 3 600."),
        (("cutting", FIRST, "--seed", "1.5"), "1.5 is not a whole number. Write a whole number from 1 to 1 000 000."),
        (("dry-fit", FIRST, "--samples", "5"), "5 is out of range. Write a whole number from 100 to 1 000 000."),
        (("dry-fit", FIRST, "--seed", "1e9"), "1e9 is not a whole number."),
        (("new", ""), "The file has no name."),
    ],
)
def test_a_number_or_a_name_that_cannot_be_is_refused_in_plain_words(words, says):
    done = run(*words)
    assert done.exit_code == 2
    assert says in re.sub(r"\s+", " ", done.output)


def test_the_help_of_a_number_speaks_no_programmers_words():
    for word in ("cutting", "dry-fit"):
        said = run(word, "--help").output
        assert "RANGE" not in said
        assert "<=" not in said
