"""The pages of the handbook as tests read them: fenced blocks with their place, and tables."""

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
PAGES = tuple(sorted(DOCS.rglob("*.md")))


@dataclass(frozen=True)
class Block:
    """A fenced block: its language, its text, and the first table that follows before the next heading or block."""

    page: str
    line: int
    language: str
    text: str
    table: tuple[tuple[str, ...], ...]

    @property
    def place(self) -> str:
        return f"{self.page}:{self.line}"


@cache
def blocks(page: Path) -> tuple[Block, ...]:
    lines = page.read_text(encoding="utf-8").splitlines()
    out, i = [], 0
    while i < len(lines):
        fence = re.match(r"^(\s*)```(\w*)\s*$", lines[i])
        if not fence:
            i += 1
            continue
        start = i
        i += 1
        body = []
        while not re.match(r"^\s*```\s*$", lines[i]):
            body.append(lines[i].removeprefix(fence.group(1)))
            i += 1
        i += 1
        name = page.relative_to(ROOT).as_posix()
        out.append(Block(name, start + 1, fence.group(2), "\n".join(body) + "\n", _table_after(lines, i)))
    return tuple(out)


def all_blocks(language: str) -> list[Block]:
    return [b for page in PAGES for b in blocks(page) if b.language == language]


def _table_after(lines: list[str], i: int) -> tuple[tuple[str, ...], ...]:
    for n in range(i, len(lines)):
        if lines[n].startswith(("#", "```")):
            return ()
        if lines[n].startswith("|"):
            return table_at(lines, n)
    return ()


def table_at(lines: list[str], n: int) -> tuple[tuple[str, ...], ...]:
    """The rows of the table that begins at a line, its head first, without its rule."""
    rows = []
    while n < len(lines) and lines[n].startswith("|"):
        rows.append(tuple(cell.strip() for cell in re.split(r"(?<!\\)\|", lines[n].strip())[1:-1]))
        n += 1
    return tuple(r for r in rows if not all(re.fullmatch(r":?-+:?", c) for c in r))


def tables_under(page: Path, heading: str) -> tuple[tuple[tuple[str, ...], ...], ...]:
    """Every table between a heading (its words, without the hashes) and the next one."""
    lines = page.read_text(encoding="utf-8").splitlines()
    starts = [n for n, line in enumerate(lines) if re.match(rf"^#+ {re.escape(heading)}\s*$", line)]
    assert len(starts) == 1, f"{page.name} has {len(starts)} headings {heading!r}"
    out, n = [], starts[0] + 1
    while n < len(lines) and not lines[n].startswith("#"):
        if lines[n].startswith("|"):
            found = table_at(lines, n)
            out.append(found)
            while n < len(lines) and lines[n].startswith("|"):
                n += 1
        n += 1
    return tuple(out)
