"""Something to put right: where, why, and how to mend it with numbers."""

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
