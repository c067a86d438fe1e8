"""The handbook's table of contents: what comes first is said here, whatever else lies in docs/ follows by itself."""

from pathlib import Path
from typing import Any

FIRST = ("index.md", "tour.md")
FOLDERS = {"how-to": "How to", "joints": "Joints", "checks": "Checks", "decisions": "Decisions"}
THEN = ("job-file.md", "command.md", "cutting.md", "settings.md", "rod.md")
LAST = ("safety.md", "glossary.md", "benchmarks.md", "contributing.md")


def on_config(config: Any) -> Any:
    """Make the contents from the files that are there, so that a new page needs no entry anywhere."""
    docs = Path(config["docs_dir"])
    top = {p.name for p in docs.glob("*.md")}
    unnamed = sorted(top - {*FIRST, *THEN, *LAST})
    reference = [*_pages(top, THEN), *_folder(docs, "joints"), *_folder(docs, "checks")]
    config["nav"] = [
        *_pages(top, FIRST),
        *_folder(docs, "how-to"),
        {"Reference": [*reference, *unnamed]},
        {"About": [*_pages(top, LAST), *_folder(docs, "decisions")]},
    ]
    return config


def _pages(there: set[str], names: tuple[str, ...]) -> list[str]:
    return [name for name in names if name in there]


def _folder(docs: Path, name: str) -> list[dict[str, list[str]]]:
    pages = sorted(p.relative_to(docs).as_posix() for p in (docs / name).glob("*.md"))
    return [{FOLDERS[name]: pages}] if pages else []
