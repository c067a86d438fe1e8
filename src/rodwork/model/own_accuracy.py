"""A shop's own readings, and what they come to."""

from dataclasses import dataclass

from rodwork.model.accuracy import ErrorKind, Sigma, Spread


class AccuracyFault(Exception):  # noqa: N818 - it is about the readings, not a fault of ours
    """Readings that cannot be what they should be: where, what is wrong, how to mend it."""

    def __init__(self, where: str, what: str, mend: str) -> None:
        super().__init__(f"{where}: {what}. {mend}")
        self.where = where
        self.what = what
        self.mend = mend


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """How far pieces came off what a machine was set to, mm, setting by setting."""

    method: str
    kind: str
    settings: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialResult:
    """What readings come to, what stood there before them, and how much they prove, in words."""

    method: str
    kind: ErrorKind
    settings: int
    readings: int
    each: Sigma
    shared: Sigma
    before: Spread
    proves: tuple[str, ...]
