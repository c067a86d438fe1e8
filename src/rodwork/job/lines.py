"""On which line of a TOML text each value stands: a scan that keeps places and leaves the values to tomllib.

It reads any valid text rightly. In a text that is not valid it keeps what comes before the first wrong place
(tomllib then says what is wrong there). It also measures how deeply tables and lists stand in one another,
since tomllib's own time and stack grow with that, and it notes what is written twice.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

Path = tuple[str | int, ...]

DEEPEST = 16  # a job file needs six

_BLANK = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_MULTILINE = re.compile(
    r'"""[^"\\]*(?:(?:\\.|"{1,2}(?!"))[^"\\]*)*"{3,5}' r"|'''[^']*(?:'{1,2}(?!')[^']*)*'{3,5}", re.DOTALL
)
_STRING = re.compile(r'"[^"\\\n]*(?:\\.[^"\\\n]*)*"' r"|'[^'\n]*'")
_SCALAR = re.compile(r"[^,\[\]{}#\"'\r\n]+")
_ESCAPE = re.compile(r"\\(?:u([0-9A-Fa-f]{4})|U([0-9A-Fa-f]{8})|(.))", re.DOTALL)
_ESCAPED = {"b": "\b", "t": "\t", "n": "\n", "f": "\f", "r": "\r", '"': '"', "\\": "\\"}


@dataclass(frozen=True, slots=True)
class Lines:
    """The line of each place of a job file, from 1. A place that is not written has the line of what holds it."""

    known: Mapping[Path, int] = field(default_factory=dict)

    def __getitem__(self, path: Path) -> int:
        """The line of a place: its own, else that of the default it comes from, else of what holds it."""
        if path[:1] == ("cabinets",) and path[:3] not in self.known:
            default = ("every_cabinet", *path[2:])
            if len(path) > 2 and default[:2] in self.known:
                path = default
        for length in range(len(path), 0, -1):
            line = self.known.get(path[:length])
            if line is not None:
                return line
        return 1


@dataclass(slots=True)
class Scan:
    """What one look over the text found. `stopped_at` is the line where it could not go on, or None."""

    lines: dict[Path, int] = field(default_factory=dict)
    twice: list[tuple[Path, int, int]] = field(default_factory=list)  # place, first line, line it comes again
    too_deep_at: int | None = None
    stopped_at: int | None = None
    open_since: int = 1  # the line of the last value begun


class _CannotGoOn(Exception):  # noqa: N818 - a way out of the scan
    """The text is not valid TOML from here."""


class _TooDeep(Exception):  # noqa: N818 - a way out of the scan
    """Deeper than any job file."""


def scan(text: str) -> Scan:
    """The lines of all places in a TOML text. Never raises; its time grows with the length of the text only."""
    scanner = _Scanner(text)
    try:
        scanner.whole_text()
    except _CannotGoOn:
        scanner.found.stopped_at = scanner.line()
    except _TooDeep:
        scanner.found.too_deep_at = scanner.line()
    return scanner.found


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.found = Scan()
        self.tables: set[Path] = set()  # tables with a header of their own
        self.values: set[Path] = set()  # places given by key = value
        self.numbers: dict[Path, int] = {}  # how many tables a [[list of tables]] has so far
        self._counted_to = 0
        self._line = 1

    def line(self) -> int:
        """The line of the present place. Counts on from the last one, so the whole is linear."""
        if self.at > self._counted_to:
            self._line += self.text.count("\n", self._counted_to, self.at)
            self._counted_to = self.at
        return self._line

    def whole_text(self) -> None:
        table: Path = ()
        while True:
            self.skip(_BLANK)
            if self.at >= len(self.text):
                return
            if self.text[self.at] == "[":
                table = self.header()
            else:
                self.key_and_value(table)
            self.skip(_SPACE)
            if self.peek() not in ("", "#", "\n", "\r"):
                raise _CannotGoOn

    def header(self) -> Path:
        line = self.line()
        double = self.text.startswith("[[", self.at)
        self.at += 2 if double else 1
        path: Path = ()
        *holders, last = self.dotted_key(())
        for key in holders:
            path = (*path, key)
            self.found.lines.setdefault(path, line)
            if path in self.numbers:
                path = (*path, self.numbers[path] - 1)
        path = (*path, last)
        if not self.text.startswith("]]" if double else "]", self.at):
            raise _CannotGoOn
        self.at += 2 if double else 1
        if double:
            self.found.lines.setdefault(path, line)
            self.numbers[path] = self.numbers.get(path, 0) + 1
            path = (*path, self.numbers[path] - 1)
        elif path in self.tables or path in self.values:
            self.found.twice.append((path, self.found.lines[path], line))
        else:
            self.found.lines[path] = line  # a header of its own says more than a mention in passing
        self.tables.add(path)
        self.found.lines.setdefault(path, line)
        return path

    def dotted_key(self, holder: Path) -> list[str]:
        keys: list[str] = []
        while True:
            self.skip(_SPACE)
            keys.append(self.key())
            if len(holder) + len(keys) > DEEPEST:
                raise _TooDeep
            self.skip(_SPACE)
            if self.peek() != ".":
                return keys
            self.at += 1

    def key(self) -> str:
        bare = _BARE_KEY.match(self.text, self.at)
        if bare:
            self.at = bare.end()
            return bare.group()
        quoted = _STRING.match(self.text, self.at)
        if not quoted:
            raise _CannotGoOn
        self.at = quoted.end()
        inside = quoted.group()[1:-1]
        return _ESCAPE.sub(_unescaped, inside) if quoted.group()[0] == '"' else inside

    def key_and_value(self, table: Path) -> None:
        line = self.line()
        path = table
        for key in self.dotted_key(table):
            path = (*path, key)
            self.found.lines.setdefault(path, line)
        if path in self.values or path in self.tables:
            self.found.twice.append((path, self.found.lines[path], line))
        self.values.add(path)
        if self.peek() != "=":
            raise _CannotGoOn
        self.at += 1
        self.skip(_SPACE)
        self.found.open_since = line
        self.value(path)

    def value(self, path: Path) -> None:
        if len(path) > DEEPEST:
            raise _TooDeep
        start = self.peek()
        if start == "[":
            self.array(path)
        elif start == "{":
            self.inline_table(path)
        elif start in ("'", '"') and self.text.startswith(start * 3, self.at):
            self.must(_MULTILINE)
        elif start in ("'", '"'):
            self.must(_STRING)
        else:
            self.must(_SCALAR)

    def array(self, path: Path) -> None:
        self.at += 1
        number = 0
        while True:
            self.skip(_BLANK)
            if self.peek() == "]":
                self.at += 1
                return
            if self.line() != self.found.open_since:  # else the line of the list will do
                self.found.lines.setdefault((*path, number), self.line())
            self.value((*path, number))
            self.skip(_BLANK)
            if self.peek() == ",":
                self.at += 1
                number += 1
            elif self.peek() != "]":
                raise _CannotGoOn

    def inline_table(self, path: Path) -> None:
        self.at += 1
        while True:
            self.skip(_BLANK)  # a newline or a last comma in here is for tomllib to judge
            if self.peek() == "}":
                self.at += 1
                return
            self.key_and_value(path)
            self.skip(_BLANK)
            if self.peek() == ",":
                self.at += 1
            elif self.peek() != "}":
                raise _CannotGoOn

    def peek(self) -> str:
        return self.text[self.at : self.at + 1]

    def skip(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self.text, self.at)
        self.at = match.end() if match else self.at

    def must(self, pattern: re.Pattern[str]) -> None:
        match = pattern.match(self.text, self.at)
        if not match:
            raise _CannotGoOn
        self.at = match.end()


def _unescaped(match: re.Match[str]) -> str:
    code = match.group(1) or match.group(2)
    if code is None:
        return _ESCAPED.get(match.group(3), match.group(0))
    return chr(int(code, 16)) if int(code, 16) <= 0x10FFFF else match.group(0)
