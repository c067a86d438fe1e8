"""Reading one table of the job file by its words: every fault of it, and all that is sound in it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from rodwork.job.faults import Fault, fault_at, near, one_of, shown
from rodwork.job.lengths import Unit
from rodwork.job.lines import Lines, Path
from rodwork.job.mends import in_units
from rodwork.job.words import NAME_LONGEST, NEEDED, SUCH_AS, Words

EXAMPLE_NAMES = {
    "boards": "birch18", "edgings": "birch", "joints": "corner", "fittings": '"our cam"', "cabinets": "glaze",
    "walls": "kitchen", "runs": "glazing", "measured": "G1-LS", "tested": "cam fitting",
    "stock": "large", "offcuts": "rack3", "matched": "fronts",
    "prices": '"dowel 8x30"',
    "machines": '"dowel jig"', "surveys": "alcove", "services": "socket", "appliances": "oven",
    "drilled_sides": "S720",
}  # fmt: skip


@dataclass(slots=True)
class Reading:
    """One reading of one job file: where its lines are, what a bare number means, what was found wrong so far."""

    file: str
    lines: Lines
    unit: Unit = "mm"
    faults: list[Fault] = field(default_factory=list)

    def fault(self, path: Path, what: str, mend: str) -> None:
        """Note a fault of this place."""
        self.faults.append(fault_at(self.lines, self.file, path, what, in_units(mend, self.unit)))


@dataclass(frozen=True, slots=True)
class Given:
    """What a table gives: its sound words, and the words that are written but wrong."""

    path: Path
    values: Mapping[str, Any] = field(default_factory=dict)
    wrong: frozenset[str] = frozenset()

    def get(self, word: str, default: Any = None) -> Any:
        """A word's value, or what it is when left out."""
        return self.values.get(word, default)

    def says(self, word: str) -> bool:
        """Whether the word is written, rightly or wrongly."""
        return word in self.values or word in self.wrong


def read_table(words: type[Words], raw: Any, path: Path, called: str, reading: Reading, whole: bool = True) -> Given:
    """A table by its words. `called` is what a maker calls it; `whole`: words that are needed must be there."""
    if not isinstance(raw, dict):
        reading.fault(
            path,
            f"{called} is {shown(raw)} where a table is expected",
            f"Write it under a heading of its own, {_heading(path)}",
        )
        return Given(path=path, wrong=frozenset(_words(words)))
    sound, wrong = raw, set[str]()
    for _ in range(len(raw) + 2):  # every round takes out what is wrong, so it ends
        try:
            values = _plain(words.model_validate(sound, context={"unit": reading.unit}))
            break
        except ValidationError as error:
            for detail in error.errors(include_url=False):
                meant = _note(detail, words, raw, path, reading)
                sound = _without(sound, detail["loc"])
                wrong.update((str(detail["loc"][0]), meant or ""))
    else:
        values = {}
    if whole:
        _need(words, {*raw, *wrong}, path, called, reading)
    return Given(path=path, values=values, wrong=frozenset(wrong))


def read_named(section: str, raw: Any, words: type[Words], called: str, reading: Reading) -> dict[str, Any]:
    """The tables of a section with NAMEs, [boards.birch18], as written; faults of the names themselves."""
    example = f"[{section}.{EXAMPLE_NAMES[section]}]"
    if not isinstance(raw, dict):
        reading.fault(
            (section,), f"{section} is {shown(raw)} where tables with a name are expected", f"Write {example}"
        )
        return {}
    nameless = [name for name, table in raw.items() if name in _words(words) or not _is_table(table)]
    if any(not isinstance(raw[name], dict) for name in nameless):  # the words of a table whose name was forgotten
        reading.fault(
            (section, nameless[0]), f"{shown(nameless[0])[1:-1]} stands straight under [{section}], in no {called}",
            f"Give every {called} a name and a heading: {example}",
        )  # fmt: skip
        raw = {name: table for name, table in raw.items() if name not in nameless}
    tables, like = dict[str, Any](raw), dict[str, str]()
    for name in tables:
        path = (section, name)
        if (what := wrong_name(name)) is not None:
            reading.fault(path, f"the name {shown(name)} {what}", f"Give the {called} another name, such as {example}")
        other = like.setdefault(name.strip().casefold(), name)
        if other != name:
            reading.fault(
                path, f"the names {shown(other)} and {shown(name)} differ in capitals only",
                f"Give one {called} another name",
            )  # fmt: skip
    return tables


def _is_table(value: Any) -> bool:
    """A table, or a [[list]] of tables, whose name at least is there."""
    return isinstance(value, dict) or (isinstance(value, list) and len(value) > 0 and isinstance(value[0], dict))


def wrong_name(name: str) -> str | None:
    """What is wrong with the name of a board, edging, recipe or cabinet, or None."""
    if not name.strip():
        return "is blank"
    if name != name.strip():
        return "has a space at its end"
    if len(name) > NAME_LONGEST:
        return f"is over {NAME_LONGEST} letters long"
    if not name.isprintable():
        return "has an invisible letter in it"
    if "/" in name or "\\" in name:
        return "has / or \\ in it"
    if not name.strip("."):
        return "is made of points only"
    return None


def unknown_name(name: str, names: Mapping[str, Any], section: str) -> tuple[str, str]:
    """What is wrong with the name of a board, edging or recipe that there is none of, and what to write."""
    return (
        f"there is no [{section}.{shown(name)[1:-1]}] in this file",
        one_of(names, name, f"Write a table [{section}.{shown(name)[1:-1]}]"),
    )


@cache
def _words(words: type[Words]) -> tuple[str, ...]:
    return tuple(info.alias or name for name, info in words.model_fields.items())


@cache
def _needed(words: type[Words]) -> dict[str, tuple[str, str]]:
    """The words that may not be left out, with an example and what they mean."""
    return {
        info.alias or name: (info.json_schema_extra.get(SUCH_AS) or "...", info.description or "")  # type: ignore[misc]
        for name, info in words.model_fields.items()
        if isinstance(info.json_schema_extra, dict) and info.json_schema_extra.get(NEEDED)
    }


def _need(words: type[Words], said: set[str], path: Path, called: str, reading: Reading) -> None:
    for word in _needed(words):
        if word not in said:
            reading.fault(path, *lacks(words, word, called))


def lacks(words: type[Words], word: str, called: str) -> tuple[str, str]:
    """What to say of a word that is needed and not there."""
    such_as, about = _needed(words)[word]
    return f"{called} has no {word}", f"Write {word} = {such_as} ({about[:1].lower()}{about[1:]})"


def _note(detail: ErrorDetails, words: type[Words], raw: Any, path: Path, reading: Reading) -> str | None:
    """One thing that pydantic found, in the words of the trade. Gives the word that a misspelt one was meant for."""
    place = _written_place(detail["loc"], raw)
    if detail["type"] == "extra_forbidden":
        known = _words(_table_at(words, place[:-1]))
        meant = near(str(place[-1]), known)
        reading.fault(
            (*path, *place), f"{shown(place[-1])[1:-1]} is not a word that is known here",
            f"Did you mean {meant}?" if meant else f"Take it out; the words here are: {', '.join(known)}",
        )  # fmt: skip
        return meant
    why, mend, at = _said(detail)
    value = _at(raw, (*place, *at))
    reading.fault((*path, *place, *at), f"{_in_words((*place, *at))} is {shown(value)}, which {why}", mend)
    return None


def _said(detail: ErrorDetails) -> tuple[str, str, Path]:
    """Why a value cannot stand, how to mend it, and where inside the value it is."""
    context = detail.get("ctx", {})
    if detail["type"] == "said":
        return context["why"], context["mend"], tuple(context["at"])
    if detail["type"] in ("list_type", "too_short"):
        return "is not a list of tables", 'Write [{ family = "dowel" }]', ()
    return "is not a table", "Write it as a table, { word = value }", ()


def _table_at(words: type[Words], place: Path) -> type[Words]:
    """The words of a table inside a table, such as back in a cabinet."""
    for word in place:
        found = next((i.annotation for n, i in words.model_fields.items() if (i.alias or n) == word), None)
        if not (isinstance(found, type) and issubclass(found, Words)):
            break
        words = found
    return words


def _written_place(loc: tuple[int | str, ...], raw: Any) -> Path:
    """The part of pydantic's place that stands in the file."""
    place: Path = ()
    for part in loc:
        if isinstance(part, int) and isinstance(raw, dict):
            continue  # one table, written where there may be a list of them
        place = (*place, part)
        if not isinstance(raw, dict | list):
            break
        raw = _at(raw, (part,))
    return place


def _at(raw: Any, path: Path) -> Any:
    for part in path:
        if isinstance(raw, dict):
            raw = raw.get(str(part))
        elif isinstance(raw, list) and isinstance(part, int) and part < len(raw):
            raw = raw[part]
    return raw


def _in_words(place: Path) -> str:
    """A place inside a table: back.board, openings entry 2."""
    text = ""
    for part in place:
        text += (
            f" entry {part + 1}" if isinstance(part, int) else f".{shown(part)[1:-1]}" if text else shown(part)[1:-1]
        )
    return text


def _without(raw: Any, loc: tuple[int | str, ...]) -> Any:
    """The table without the wrong word: the inmost one, so that its neighbours are still read."""
    word, *inner = loc
    rest = {key: value for key, value in raw.items() if key != word}
    if inner and isinstance(raw.get(word), list) and isinstance(inner[0], int) and inner[1:]:
        number = inner[0]
        rest[str(word)] = [_without(one, tuple(inner[1:])) if n == number else one for n, one in enumerate(raw[word])]
        return rest
    inner = inner[1:] if inner and isinstance(inner[0], int) else inner
    if inner and isinstance(raw.get(word), dict) and isinstance(inner[0], str):
        rest[str(word)] = _without(raw[word], tuple(inner))
    return rest


def _plain(table: BaseModel) -> dict[str, Any]:
    """What is written in a table, as values; nothing that was left out."""
    found: dict[str, Any] = {}
    for name in type(table).model_fields:
        if name in table.model_fields_set:
            value = getattr(table, name)
            found[name.rstrip("_")] = _plain(value) if isinstance(value, BaseModel) else _plain_list(value)
    return found


def _plain_list(value: Any) -> Any:
    """Tables of a list as values, or what else it is."""
    if isinstance(value, list) and any(isinstance(one, BaseModel) for one in value):
        return tuple(_plain(one) for one in value)
    return value


def _heading(path: Path) -> str:
    return f"[{'.'.join(str(part) for part in path)}]" if all(isinstance(p, str) for p in path) else "{ word = value }"
