"""The kinds of value that a word of the job file may have: how each is read, and what the schema says of it.

Each kind is the annotation of a field in words.py. Read by pydantic, it answers with the value in mm (or the
number, the text) or with a fault in trade words.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any
from unicodedata import category

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from rodwork.catalogue.boards import materials
from rodwork.job.faults import Wrong, near, one_of
from rodwork.job.lengths import LENGTH_PATTERN, MM, Unit, as_written, read_length

RANGE = "x-range"  # the key under which a kind hands its limits to the description; taken out of the schema
MM_PER_INCH = 25.4


class Kind:
    """One kind of value."""

    def read(self, value: Any, unit: Unit) -> Any:
        """The value as the rest of the programme has it. Raises Wrong."""
        raise NotImplementedError

    def schema(self) -> dict[str, Any]:
        """The kind as JSON Schema."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(
            lambda value, info: said(self.read, value, info.context["unit"])
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return self.schema()


def said(read: Callable[[Any, Unit], Any], value: Any, unit: Unit) -> Any:
    """Read a value, and tell pydantic of what is wrong in its own way."""
    try:
        return read(value, unit)
    except Wrong as wrong:
        raise PydanticCustomError("said", "{why}", {"why": wrong.why, "mend": wrong.mend, "at": wrong.at}) from None


@dataclass(frozen=True, slots=True)
class Length(Kind):
    """A length from low to high mm."""

    low: float
    high: float

    def read(self, value: Any, unit: Unit) -> float:
        """In mm."""
        mm = read_length(value, unit)
        if mm < self.low or mm > self.high:
            over = mm > self.high
            limit = as_written(self.high if over else self.low, unit)
            others = [] if isinstance(value, str) else [u for u in MM if self.low <= float(value) * MM[u] <= self.high]
            also = (
                f", or say the unit: {' or '.join(f'{chr(34)}{value} {u}{chr(34)}' for u in others)}" if others else ""
            )
            raise Wrong(
                f"is {'over' if over else 'under'} {limit}",
                f"Write a length from {as_written(self.low, unit)} to {as_written(self.high, unit)}{also}",
            )
        return mm

    def schema(self) -> dict[str, Any]:
        """A number in either unit, or a text."""
        return {
            "anyOf": [
                {"type": "number", "minimum": min(self.low, round(self.low / MM_PER_INCH, 6)), "maximum": self.high},
                {"type": "string", "pattern": LENGTH_PATTERN},
            ],
            RANGE: f"From {self.low:g} to {self.high:g} mm",
        }


@dataclass(frozen=True, slots=True)
class LengthOr(Kind):
    """A length, or one word in its place. `alone`: it is no entry of a list."""

    length: Length
    word: str
    alone: bool = False

    def read(self, value: Any, unit: Unit) -> Any:
        """Mm, or the word."""
        if value == self.word:
            return value
        if isinstance(value, str) and near(value, [self.word]):
            raise Wrong(f'is neither a length nor "{self.word}"', f'Did you mean "{self.word}"?')
        return self.length.read(value, unit)

    def schema(self) -> dict[str, Any]:
        """The word first, so that an editor offers it."""
        inner = self.length.schema()
        limits = inner[RANGE] if self.alone else f"Each {_small(inner[RANGE])}"
        return {"anyOf": [{"const": self.word}, *inner["anyOf"]], RANGE: f'{limits}, or "{self.word}"'}


@dataclass(frozen=True, slots=True)
class LengthOrName(Kind):
    """A length, or the name of what has it. Whether there is one is asked later."""

    length: Length
    section: str

    def read(self, value: Any, unit: Unit) -> Any:
        """Mm, or the name as written."""
        try:
            return self.length.read(value, unit)
        except Wrong:
            if isinstance(value, str) and value[:1].isalpha():
                return value
            raise

    def schema(self) -> dict[str, Any]:
        """A length or a string."""
        inner = self.length.schema()
        return {
            "anyOf": [*inner["anyOf"], {"type": "string"}],
            RANGE: f"{inner[RANGE]}, or the NAME of one of [{self.section}.NAME]",
        }  # fmt: skip


def _small(text: str) -> str:
    return text[0].lower() + text[1:]


@dataclass(frozen=True, slots=True)
class Amount(Kind):
    """A number that is no length."""

    low: float
    high: float
    unit: str

    def read(self, value: Any, unit: Unit) -> float:
        """As a float."""
        mend = f"Write a number from {self.low:g} to {self.high:g}, in {self.unit}"
        if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
            raise Wrong("is not a number", mend)
        if not self.low <= value <= self.high:
            raise Wrong(f"is not from {self.low:g} to {self.high:g}", mend)
        return float(value)

    def schema(self) -> dict[str, Any]:
        """A number within its limits."""
        return {
            "type": "number", "minimum": self.low, "maximum": self.high,
            RANGE: f"From {self.low:g} to {self.high:g} {self.unit}",
        }  # fmt: skip


@dataclass(frozen=True, slots=True)
class Price(Kind):
    """Money as a number alone, kept exactly as written; the currency is the job's."""

    high = 1_000_000
    places = 4

    def read(self, value: Any, unit: Unit) -> Decimal:
        """As a Decimal."""
        mend = "Write the number alone, such as price = 64.00; the currency stands once under [job]"
        if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
            raise Wrong("is not a price", mend)
        if not 0 <= value <= self.high:
            raise Wrong(f"is not from 0 to {self.high}", mend)
        exact = Decimal(repr(value)) if isinstance(value, float) else Decimal(value)
        if int(exact.as_tuple().exponent) < -self.places:
            raise Wrong(f"has more than {self.places} figures after the point", mend)
        return exact

    def schema(self) -> dict[str, Any]:
        """A number from nought."""
        return {"type": "number", "minimum": 0, "maximum": self.high, RANGE: "A number alone, in the job's currency"}


@dataclass(frozen=True, slots=True)
class Minutes(Kind):
    """Minutes as a number alone, kept exactly as written."""

    high = 480
    places = 4

    def read(self, value: Any, unit: Unit) -> Decimal:
        """As a Decimal."""
        mend = f"Write a number of minutes from 0 to {self.high}"
        if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
            raise Wrong("is no number of minutes", mend)
        if not 0 <= value <= self.high:
            raise Wrong(f"is not from 0 to {self.high}", mend)
        exact = Decimal(repr(value)) if isinstance(value, float) else Decimal(value)
        if int(exact.as_tuple().exponent) < -self.places:
            raise Wrong(f"has more than {self.places} figures after the point", mend)
        return exact

    def schema(self) -> dict[str, Any]:
        """A number from nought."""
        return {"type": "number", "minimum": 0, "maximum": self.high, RANGE: f"From 0 to {self.high} minutes"}


@dataclass(frozen=True, slots=True)
class Whole(Kind):
    """A whole number from low to high."""

    low: int
    high: int

    def read(self, value: Any, unit: Unit) -> int:
        """As an int."""
        mend = f"Write a whole number from {self.low} to {self.high}"
        if isinstance(value, bool) or not isinstance(value, int):
            raise Wrong("is not a whole number", mend)
        if not self.low <= value <= self.high:
            raise Wrong(f"is {'over' if value > self.high else 'under'} {max(self.low, min(value, self.high))}", mend)
        return value

    def schema(self) -> dict[str, Any]:
        """An integer within its limits."""
        return {
            "type": "integer", "minimum": self.low, "maximum": self.high,
            RANGE: f"A whole number from {self.low} to {self.high}",
        }  # fmt: skip


@dataclass(frozen=True, slots=True)
class Switch(Kind):
    """True or false."""

    def read(self, value: Any, unit: Unit) -> bool:
        """As a bool."""
        if not isinstance(value, bool):
            raise Wrong("is neither true nor false", "Write true or false, without quotes")
        return value

    def schema(self) -> dict[str, Any]:
        """A boolean."""
        return {"type": "boolean", RANGE: "true or false"}


@dataclass(frozen=True, slots=True)
class Choice(Kind):
    """One of a few words."""

    options: tuple[str, ...]

    def read(self, value: Any, unit: Unit) -> str:
        """The word."""
        if isinstance(value, str) and value in self.options:
            return value
        meant = one_of(self.options, value, "") if isinstance(value, str) else None
        listed = ", ".join(f'"{option}"' for option in self.options)
        raise Wrong("is none of the words for it", meant or f"Write one of {listed}")

    def schema(self) -> dict[str, Any]:
        """An enumeration."""
        return {"enum": list(self.options), RANGE: ", ".join(f'"{option}"' for option in self.options)}


@dataclass(frozen=True, slots=True)
class Text(Kind):
    """Text without control characters; in more than one line where it is a note."""

    longest: int
    lines: bool = False

    def read(self, value: Any, unit: Unit) -> str:
        """As written."""
        if not isinstance(value, str):
            raise Wrong("is not text", "Write text in quotes")
        if not value.strip():
            raise Wrong("is blank", "Write something, or take the line out")
        if len(value) > self.longest:
            raise Wrong(f"is {len(value)} letters long", f"Write at most {self.longest} letters")
        for number, row in enumerate(value.split("\n")):
            if any(category(c) == "Cc" and not (self.lines and c == "\t") for c in row) or (number and not self.lines):
                raise Wrong("has an invisible letter in it", "Take it out, or write the text again by hand")
        return value

    def schema(self) -> dict[str, Any]:
        """A string."""
        return {"type": "string", "minLength": 1, "maxLength": self.longest, RANGE: f"At most {self.longest} letters"}


@dataclass(frozen=True, slots=True)
class Material(Kind):
    """What a board is made of: a word of the catalogue, or the maker's own."""

    def read(self, value: Any, unit: Unit) -> str:
        """The catalogue's word where it has one, else as written."""
        text = Text(60).read(value, unit).strip()
        for row in materials().values():
            if text.casefold() in (row.name.casefold(), *row.also):
                return row.name
        return text

    def schema(self) -> dict[str, Any]:
        """Any text; the catalogue's words are offered."""
        return {
            "anyOf": [{"enum": list(materials())}, {"type": "string", "minLength": 1, "maxLength": 60}],
            RANGE: "A word of the catalogue, or your own with its grain said",
        }


@dataclass(frozen=True, slots=True)
class Reference(Kind):
    """The name of a board, edging or recipe of this job. Whether there is one is asked later."""

    section: str

    def read(self, value: Any, unit: Unit) -> str:
        """As written."""
        if not isinstance(value, str):
            raise Wrong("is not a name", f"Write the NAME of a [{self.section}.NAME], in quotes")
        if not value.strip():
            raise Wrong("is blank", f"Write the NAME of a [{self.section}.NAME], or take the word out")
        return value

    def schema(self) -> dict[str, Any]:
        """A string."""
        return {"type": "string", RANGE: f"The NAME of a [{self.section}.NAME]"}


@dataclass(frozen=True, slots=True)
class Pattern(Kind):
    """A short text of a given form, which `form` says in words."""

    pattern: str
    example: str
    form: str = ""

    def read(self, value: Any, unit: Unit) -> str:
        """As written."""
        if not isinstance(value, str) or len(value) > 60 or not re.fullmatch(self.pattern, value):
            like = f'{self.form}, such as "{self.example}"' if self.form else f'it like "{self.example}", in quotes'
            raise Wrong(
                f"is not {self.form}" if self.form else f'is not written like "{self.example}"', f"Write {like}"
            )
        return value

    def schema(self) -> dict[str, Any]:
        """A string with a pattern."""
        return {"type": "string", "pattern": f"^(?:{self.pattern})$", RANGE: f'Such as "{self.example}"'}


@dataclass(frozen=True, slots=True)
class Day(Kind):
    """A day."""

    def read(self, value: Any, unit: Unit) -> str:
        """As year-month-day."""
        if isinstance(value, date) and not isinstance(value, datetime):
            return value.isoformat()
        try:
            if isinstance(value, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
                return date.fromisoformat(value).isoformat()
        except ValueError:
            pass
        raise Wrong("is not a day", "Write year-month-day, such as date = 2026-03-31")

    def schema(self) -> dict[str, Any]:
        """A string; editors hand a TOML date over as one."""
        return {"type": "string", "format": "date", RANGE: "Year-month-day"}


@dataclass(frozen=True, slots=True)
class ListOf(Kind):
    """A list of one kind of value. `once`: no value twice."""

    kind: Kind
    least: int
    most: int
    such_as: str
    once: bool = False

    def read(self, value: Any, unit: Unit) -> tuple[Any, ...]:
        """As a tuple."""
        if not isinstance(value, list):
            raise Wrong("is not a list", f"Write a list, such as {self.such_as}")
        if not self.least <= len(value) <= self.most:
            number = f"{self.least}" if self.least == self.most else f"from {self.least} to {self.most}"
            entries = "entry" if len(value) == 1 else "entries"
            raise Wrong(f"has {len(value)} {entries}", f"Write {number}, such as {self.such_as}")
        return tuple(self._entry(value, i, unit) for i in range(len(value)))

    def _entry(self, values: list[Any], i: int, unit: Unit) -> Any:
        if self.once and values[i] in values[:i]:
            raise Wrong("stands twice in the list", "Take one of the two out", (i,))
        try:
            return self.kind.read(values[i], unit)
        except Wrong as wrong:
            raise Wrong(wrong.why, wrong.mend, (i, *wrong.at)) from None

    def schema(self) -> dict[str, Any]:
        """An array."""
        inner = self.kind.schema()
        each = inner.pop(RANGE)
        unique = {"uniqueItems": True} if self.once else {}
        return {
            "type": "array", "items": inner, "minItems": self.least, "maxItems": self.most, **unique,
            RANGE: f"A list such as {self.such_as}. {each}",
        }  # fmt: skip


@dataclass(frozen=True, slots=True)
class ByBay(Kind):
    """One list for every bay alike, or with lists in it what each bay has, from the left."""

    alike: ListOf
    each: ListOf

    @property
    def such_as(self) -> str:
        """An example of either."""
        return f"{self.alike.such_as}, or bay by bay {self.each.such_as}"

    def read(self, value: Any, unit: Unit) -> tuple[Any, ...]:
        """As a tuple, of tuples where it is bay by bay."""
        by_bay = isinstance(value, list) and any(isinstance(one, list) for one in value)
        return (self.each if by_bay else self.alike).read(value, unit)

    def schema(self) -> dict[str, Any]:
        """Either of the two."""
        alike, each = self.alike.schema(), self.each.schema()
        del each[RANGE]
        return {"anyOf": [alike, each], RANGE: f"{alike.pop(RANGE).rstrip('.')}; or bay by bay, {self.each.such_as}"}


@dataclass(frozen=True, slots=True)
class OneOrList(Kind):
    """One value, or a list of them. One word reads as a list of one where `wrap`."""

    kind: Kind
    many: ListOf | ByBay
    wrap: bool = False

    def read(self, value: Any, unit: Unit) -> Any:
        """The value, or a tuple."""
        if isinstance(value, list):
            return self.many.read(value, unit)
        one = self.kind.read(value, unit)
        return (one,) if self.wrap else one

    def schema(self) -> dict[str, Any]:
        """Either of the two."""
        one, many = self.kind.schema(), self.many.schema()
        del many[RANGE]
        return {"anyOf": [one, many], RANGE: f"{one.pop(RANGE)}; or a list such as {self.many.such_as}"}


@dataclass(frozen=True, slots=True)
class TablesOr:
    """A table, a list of tables, or one word in their place, such as doors = "none"."""

    word: str
    such_as: str

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        def read(value: Any, tables: Callable[[Any], Any]) -> Any:
            if value == self.word:
                return value
            if isinstance(value, dict):
                return tables([value])[0]
            if not isinstance(value, list) or not value or not all(isinstance(one, dict) for one in value):
                raise PydanticCustomError(
                    "said", "", {
                        "why": f'is neither a table nor a list of tables nor "{self.word}"',
                        "mend": f'Write {self.such_as}, [{{ ... }}, {{ ... }}] for several, or "{self.word}" for none',
                        "at": (),
                    },
                )  # fmt: skip
            return tables(value)

        return core_schema.no_info_wrap_validator_function(read, core_schema.list_schema(handler(source)))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        many = handler(schema)
        return {
            "anyOf": [{"const": self.word}, many["items"], many],
            RANGE: f'A table, a list of tables, or "{self.word}" for none',
        }  # fmt: skip


@dataclass(frozen=True, slots=True)
class TableOr:
    """A table, or one word in its place, such as back = "open"."""

    word: str
    such_as: str

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        def read(value: Any, table: Callable[[Any], Any]) -> Any:
            if value == self.word:
                return value
            if not isinstance(value, dict):
                raise PydanticCustomError(
                    "said", "", {
                        "why": f'is neither a table nor "{self.word}"',
                        "mend": f'Write {self.such_as}, or "{self.word}" for none', "at": (),
                    },
                )  # fmt: skip
            return table(value)

        return core_schema.no_info_wrap_validator_function(read, handler(source))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"anyOf": [{"const": self.word}, handler(schema)], RANGE: f'A table, or "{self.word}" for none'}
