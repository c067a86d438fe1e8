"""Something to put right: where, why, and how to mend it with numbers."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Severity = Literal["fault", "warning", "note"]
PRINTED: dict[Severity, str] = {"fault": "STOP", "warning": "WATCH", "note": "NOTE"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One finding; `where` holds ids of parts, joints or features; `source` a reference or "common practice"."""

    severity: Severity
    code: str
    cabinet: str
    where: tuple[str, ...]
    message: str
    mend: str
    source: str


def alike(findings: Iterable[Finding]) -> tuple[tuple[Finding, ...], ...]:
    """Findings that say the same and are mended the same way together, in the order of the first of each: told once."""
    groups: dict[tuple[str, str, str, str], list[Finding]] = {}
    for f in findings:
        groups.setdefault((f.severity, f.code, f.message, f.mend), []).append(f)
    return tuple(tuple(group) for group in groups.values())
