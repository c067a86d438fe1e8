"""docs/rod.md has every key of the set-out as data, with its words for what it is, and no key that is not there."""

import re
from dataclasses import fields, is_dataclass
from typing import Any, get_args, get_type_hints

import pytest

from rodwork.model.feature import KINDS, Channel, Feature, Groove
from rodwork.model.rod import Rod
from tests.docs.pages import DOCS, tables_under

PAGE = DOCS / "rod.md"


def reached() -> dict[str, type]:
    """Every class of value that a Rod is made of, by its name."""
    found: dict[str, type] = {}

    def walk(tp: Any) -> None:
        if is_dataclass(tp) and isinstance(tp, type):
            if tp.__name__ not in found:
                found[tp.__name__] = tp
                for hint in get_type_hints(tp).values():
                    walk(hint)
        else:
            for inner in get_args(tp):
                walk(inner)

    walk(Rod)
    for kind in KINDS.values():
        walk(kind)
    return found


CLASSES = reached()


def keys(cls: type) -> list[str]:
    """The keys of one kind of value as they stand in the data; of a kind of machining, those it adds to all."""
    base = {f.name for f in fields(Feature)} if issubclass(cls, Feature) and cls is not Feature else set()
    if issubclass(cls, Channel) and cls is not Groove:
        base |= {f.name for f in fields(KINDS["groove"])}
    own = [str(f.metadata.get("key", f.name)) for f in fields(cls) if f.name not in base]
    return [*own[:1], "kind", *own[1:]] if cls is Feature else own


@pytest.mark.parametrize("name", [n for n, cls in CLASSES.items() if keys(cls)])
def test_the_page_has_every_key_of_every_kind_of_value(name):
    (table,) = tables_under(PAGE, f"`{name}`")
    expected = [f"`{k}`" for k in keys(CLASSES[name])]
    assert [row[0] for row in table[1:]] == expected
    assert all(row[1] for row in table[1:]), f"{name}: a key without its meaning"


def test_the_page_has_no_kind_of_value_that_is_not_there():
    text = PAGE.read_text(encoding="utf-8")
    said = set(re.findall(r"^### `(\w+)`$", text, re.MULTILINE))
    assert said == {n for n, cls in CLASSES.items() if keys(cls)}


def test_the_keys_are_those_that_are_really_written():
    """Over the examples: every key that is written is on the page."""
    from rodwork import set_out
    from tests.docs.pages import ROOT

    known = {k for cls in CLASSES.values() for k in keys(cls)}
    written: set[str] = set()

    def walk(value: Any, named: bool = False) -> None:
        if isinstance(value, dict):
            if not named:
                written.update(value)
            for key, inner in value.items():
                walk(inner, named=not named and key in ("boards", "edgings", "walls", "tested", "surveys"))
        elif isinstance(value, list):
            for inner in value:
                walk(inner)

    for example in sorted((ROOT / "examples").glob("*.toml")):
        walk(set_out(example).to_dict())
    assert written
    assert written - known == set()


def test_the_example_on_the_page_is_what_a_set_out_has():
    """The JSON on the page is a piece of the first example's set-out, value for value."""
    import json

    from rodwork.pipeline import set_out
    from tests.docs.pages import ROOT, blocks

    example = ROOT / "examples" / "first-cupboard.toml"
    data = set_out(example.read_bytes(), example.name).to_dict()
    (block,) = [b for b in blocks(PAGE) if b.language == "json"]
    shown = json.loads(block.text)
    part = next(p for p in data["cabinets"][0]["parts"] if p["id"] == "top")
    for key, value in shown.items():
        if key == "features":
            for feature in value:
                assert feature in part["features"]
        else:
            assert part[key] == value, key
