"""Every word has its line: classes of the data model in docs/rod.md, trade words in docs/glossary.md, each once."""

import ast
from typing import get_args

from tests.docs.pages import DOCS, ROOT, tables_under

SRC = ROOT / "src" / "rodwork"
FOLDERS = ("model", "joints", "carcass")


def classes() -> set[str]:
    """Every public class of the data model, of joints and of the carcass; a family's own Settings stand on its page."""
    found = set()
    for folder in FOLDERS:
        for file in sorted((SRC / folder).glob("*.py")):
            tree = ast.parse(file.read_text(encoding="utf-8"))
            found |= {n.name for n in tree.body if isinstance(n, ast.ClassDef) and not n.name.startswith("_")}
    return found


def words_of_the_data_model() -> list[str]:
    (table,) = tables_under(DOCS / "rod.md", "Words of the data model")
    return [row[0].strip("`") for row in table[1:]]


def trade_words() -> list[str]:
    (table,) = tables_under(DOCS / "glossary.md", "Trade words")
    return [row[0] for row in table[1:]]


def test_every_class_has_a_line_and_every_line_a_class():
    assert sorted(words_of_the_data_model()) == sorted(classes())


def test_no_word_stands_twice():
    for words in (words_of_the_data_model(), trade_words()):
        assert len(set(words)) == len(words)


def test_words_are_in_the_order_of_the_alphabet():
    for words in (words_of_the_data_model(), trade_words()):
        assert words == sorted(words, key=str.lower)


def test_what_every_role_of_a_board_is_called_stands_in_the_glossary():
    """A role that is made so far is a word that is printed."""
    from rodwork.carcass.site import SHOWS
    from rodwork.model.panel import Role

    assert set(SHOWS) <= set(get_args(Role))
    known = " ".join(trade_words()).lower()
    for role in SHOWS:
        assert role.split()[-1] in known, role


def test_every_family_of_joints_stands_in_the_glossary():
    from rodwork.joints.registry import joint_kinds

    known = {w for word in trade_words() for w in word.lower().replace(",", " ").split()}
    known |= {phrase.strip() for word in trade_words() for phrase in word.lower().split(",")}
    for name in joint_kinds():
        assert set(name.split()) <= known, name
