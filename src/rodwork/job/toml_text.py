"""From the bytes of a job file to its tables: what is no text, no TOML, or too much is said in plain words."""

import re
import tomllib
from decimal import Decimal, InvalidOperation
from typing import Any

from rodwork.job.faults import Fault, JobFaults, fault_at
from rodwork.job.lines import Lines, Scan, scan

LARGEST_BYTES = 1_000_000

_A_UNIT = r"(?:mm|cm|m|in|inch|inches|ft|feet|foot|\"|'|\u2032|\u2033)"


def read_toml(text: str | bytes, file: str) -> tuple[dict[str, Any], Lines]:
    """The tables of a job file, numbers with a point as Decimal, and the line of each place.

    Raises JobFaults.
    """
    plain = _as_text(text, file).replace("\r\n", "\n")
    found = scan(plain)
    lines = Lines(found.lines)
    if found.too_deep_at is not None:
        raise _fault(
            file, found.too_deep_at, "tables and lists stand too deep in one another here",
            "A job file goes no deeper than a table in a cabinet, such as back = { board = \"birch6\" }",
        )  # fmt: skip
    try:
        tables = tomllib.loads(plain, parse_float=_number)
    except (ValueError, OverflowError, RecursionError) as error:
        raise JobFaults(_why_not(plain, file, error, found, lines)) from None
    if not tables:
        raise _fault(
            file, 1, "there is nothing in it", "Run  rodwork new FILE  for a job file to fill in, FILE a new name"
        )
    return tables, lines


def _fault(file: str, line: int, what: str, mend: str) -> JobFaults:
    return JobFaults([Fault(file=file, line=line, path=(), what=what, mend=mend)])


def _as_text(text: str | bytes, file: str) -> str:
    if len(text) > LARGEST_BYTES:
        raise _fault(
            file, 1, f"the file is {len(text) / 1e6:.1f} MB, and a job file is at most {LARGEST_BYTES / 1e6:g} MB",
            "If it is the right file, cut the job into several",
        )  # fmt: skip
    if isinstance(text, str):
        try:
            return _as_text(text.encode("utf-8"), file)
        except UnicodeEncodeError as error:
            line = text.count("\n", 0, error.start) + 1
            raise _fault(file, line, "a letter here is no letter", "Take it out") from None
    if text.startswith((b"\xff\xfe", b"\xfe\xff")) or text.count(b"\0") > len(text) // 4:
        raise _fault(
            file, 1, "the file is not saved as UTF-8 text",
            "Save it as UTF-8 (the editor's Save as, Encoding: UTF-8), or name the job file if this is another",
        )  # fmt: skip
    if b"\0" in text:
        line = text.count(b"\n", 0, text.index(b"\0")) + 1
        raise _fault(file, line, "this is no text file", "Name the job file: a text file that ends in .toml")
    try:
        return text.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = text.count(b"\n", 0, error.start) + 1
        raise _fault(
            file, line, "a letter here is not UTF-8 text",
            "Save the file as UTF-8 (the editor's Save as, Encoding: UTF-8), or name the job file if this is another",
        ) from None  # fmt: skip


def _number(text: str) -> Decimal | float:
    """A number with a point, exactly as written: a price of 64.00 keeps its pence."""
    try:
        exact = Decimal(text)
    except InvalidOperation:  # more noughts than there are numbers for
        return float(text)
    return exact if exact.is_finite() else float(text)


def _why_not(text: str, file: str, error: Exception, found: Scan, lines: Lines) -> list[Fault]:
    """What is wrong with a text that is not TOML."""
    message = str(error)
    if found.twice and message.startswith(("Cannot", "Duplicate")):
        return [
            fault_at(
                Lines({path: line}), file, path, f"{_written(path)} stands here again; it is on line {first} already",
                "Keep one of the two, or give this one another name",
            )
            for path, first, line in found.twice
            if not any(path[: len(whole)] == whole for whole, _, _ in found.twice if len(whole) < len(path))
        ]  # fmt: skip
    rows = text.split("\n")
    at = re.search(r"at line (\d+)", message)
    line = int(at.group(1)) if at else (found.stopped_at or max(1, len(text.rstrip().split("\n"))))
    if "integer string" in message and (figures := re.search(r"[0-9][0-9_]{4000}", text)):
        line = text.count("\n", 0, figures.start()) + 1
    if line > 1 and message.startswith("Unclosed") and not found.twice:
        line = min(line, found.open_since)
    line = min(line, len(rows))
    what, mend = _in_plain_words(rows[line - 1], message)
    return [Fault(file=file, line=line, path=(), what=what, mend=mend)]


def _written(path: tuple[str | int, ...]) -> str:
    return ".".join(str(part) for part in path)[:80]


# what is often typed, and what to type instead; the first that fits the line is said
_TYPED: tuple[tuple[str, str, str], ...] = (
    (r"[\u201c\u201d\u201e\u2018\u2019]", "the quotes are curly ones", 'Type straight quotes: "wall"'),
    (r"=\s*(?:yes|on|True|TRUE)\b", "yes is written true", "Write true, in small letters and without quotes"),
    (r"=\s*(?:no|off|False|FALSE)\b", "no is written false", "Write false, in small letters and without quotes"),
    (r"=\s*[-+]?\d+,\d+\s*(?:$|[a-z\"])", "a number has a comma in it", "Write the decimal with a point: 17.6"),
    (r"=\s*[£$€]", "a price is written as a number alone", "Write price = 64.00 and currency = \"GBP\" under [job]"),
    (
        r"=\s*[\d./]+(?:[ -]+\d+/\d+)?\s*" + _A_UNIT + r"(?:\s|$|\d)",
        "a length with its unit is text, and text stands in quotes", 'Write "600 mm", "23 5/8 in" or "2 ft 3 in"',
    ),
    (r"=\s*\d+(?:\s+\d+)?/\d+", "a fraction is text, and text stands in quotes", 'Write "23 5/8 in"'),
    (r"=\s*$", "nothing stands after the =", "Write the value after it, or take the line out"),
    (r"=\s*(?:[-+]?0\d|\.\d|\d+\.(?:\s|$))", "the number is not written in full", "Write 0.5, 12 or 12.0"),
    (
        r"^\s*\[[^\]\"]*[^\s\]\"]\s+[^\s\]\"]+[^\]]*\]",
        "a name with a space in it stands in quotes",
        'Write [cabinets."tall bookcase"]',
    ),
    (r"^\s*\[[^\]]*$", "the ] at the end of the heading is missing", "Write [cabinets.glaze]"),
    (
        r"^\s*[A-Za-z]\w*\s+[\w\s]+=",
        "a word of the job file has no space in it",
        "Write fixed_shelves = 1, or put a name in quotes",
    ),
    (r"^\s*[\w.\"-]+\s*:", "a colon stands where = is written", "Write width = 600"),
    (r"=\s*[A-Za-z_]", "text stands in quotes", 'Write kind = "wall"'),
)  # fmt: skip
_SAID: tuple[tuple[str, str, str], ...] = (
    (
        r"Illegal character '\\n'|Unterminated|Expected \"'\"|Expected \"'''\"",
        "the quote at the end of the text is missing",
        "Close the text with the quote it was opened with",
    ),
    (
        r"Unescaped|Invalid hex|Escaped character", "a \\ in text in quotes begins a special letter",
        "Write it twice, \\\\, or put the text in single quotes",
    ),
    (r"[Cc]haracter .*\\x|[Cc]haracter '\\r'", "an invisible letter stands here", "Take it out"),
    (
        r"Unclosed inline table|Invalid initial character",
        "a { table } is not closed, or a name is missing or not in quotes",
        "Close it on the line it began on, with a comma between its words, or write it as a table of its own: "
        "[cabinets.glaze.back]",
    ),
    (r"Unclosed array", "a list has no comma between two values, or no ] at its end", 'Write [333, "rest"]'),
    (r"Expected '='", "there is no = after the word", "Write width = 600"),
    (r"Expected ']", "the ] at the end of the heading is missing", "Write [cabinets.glaze]"),
    (r"Cannot|Duplicate", "this is written already, as a table or as a value", "Keep one of the two"),
    (r"date", "this is no date", "Write date = 2026-03-31"),
    (r"integer string", "a number is far too long", "Write it with fewer figures"),
    (r"recursion", "tables and lists stand too deep in one another", "Take out the brackets that are too many"),
    (
        r"Expected newline",
        "more stands on the line than one word and its value",
        "Begin a new line, or put text in quotes",
    ),
)  # fmt: skip


def _in_plain_words(row: str, message: str) -> tuple[str, str]:
    """What is wrong with this line, and what to write instead: from the line itself, else from tomllib's word."""
    if len(row) < 1000:
        for pattern, what, mend in _TYPED if not message.startswith(("Cannot", "Duplicate")) else ():
            if re.search(pattern, _without_texts(row)):
                return what, mend
    for pattern, what, mend in _SAID:
        if re.search(pattern, message):
            return what, mend
    return (
        "this line cannot be read",
        'Write a heading such as [cabinets.glaze], or a word and its value: kind = "wall"',
    )


def _without_texts(row: str) -> str:
    """The line without its note and what stands in closed quotes, so that no = or unit in there is blamed."""
    return re.sub(r"#.*", "", re.sub(r'"[^"\\]*"' + r"|'[^']*'", '""', row))
