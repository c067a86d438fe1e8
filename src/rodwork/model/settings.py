"""Settings of a joint kind as a frozen dataclass whose fields say what a job file may hold.

`job/` reads the metadata to make the schema and the messages; the kinds read the values.
"""

from dataclasses import field
from typing import Any


def length(default: float | None, low: float, high: float, about: str) -> Any:
    """A length in mm, or text with a unit in the job file, from low to high. None: the family decides."""
    return field(default=default, metadata={"length": True, "low": low, "high": high, "about": about})


def choice(default: str, options: tuple[str, ...], about: str) -> Any:
    """One of a few words."""
    return field(default=default, metadata={"options": options, "about": about})


def switch(default: bool, about: str) -> Any:
    """Yes or no."""
    return field(default=default, metadata={"switch": True, "about": about})


def text(default: str | None, pattern: str, example: str, about: str) -> Any:
    """A short text that must match a pattern, such as a size "8x30"."""
    return field(default=default, metadata={"pattern": pattern, "example": example, "about": about})


def whole(default: int | None, low: int, high: int, about: str) -> Any:
    """A whole number from low to high. None: the family decides."""
    return field(default=default, metadata={"count": True, "low": low, "high": high, "about": about})
