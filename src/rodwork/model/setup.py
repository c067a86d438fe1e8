"""Machine settings: each serves every board of the job that shares it."""

from dataclasses import dataclass, field
from typing import Literal

from rodwork.model.feature import Stage
from rodwork.model.surface import Surface


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One printed number: how far from which surface. A groove has a near and a far wall (`end_mm`)."""

    from_surface: Surface = field(metadata={"key": "from"})
    word: str = field(metadata={"key": "is"})
    mm: float
    end_mm: float | None = field(default=None, metadata={"leave_out": True})
    line: float | None = field(default=None, metadata={"leave_out": True})
    set_back: float | None = field(default=None, metadata={"leave_out": True})


@dataclass(frozen=True, slots=True, kw_only=True)
class SetupFeature:
    """One feature (or one sawn size, where `feature` and `bears` are None) done at a setting."""

    cabinet: str
    part: str
    feature: str | None
    bears: Surface | None
    along: Reading | None = field(default=None, metadata={"leave_out": True})
    across: Reading | None = field(default=None, metadata={"leave_out": True})


@dataclass(frozen=True, slots=True, kw_only=True)
class Fence:
    """A fence as set: the id outlives a change of depth, since one setting is one error."""

    id: str
    mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Setup:
    """One machine setting and all that is done at it.

    `tilt`: degrees that a saw's blade is set out of upright, or the fence of a hand machine out of square (None: not).
    """

    id: str
    stage: Stage
    tool: str
    cutter: str | None
    registers_on: str
    stands_on: str
    fence: Fence | None
    stop: tuple[float, ...] | Literal["marks"]
    depth: float | None
    first_off: str
    features: tuple[SetupFeature, ...]
    tilt: float | None = field(default=None, metadata={"leave_out": True})

    @property
    def is_marked(self) -> bool:
        """Whether each place is marked by its two numbers: no fence and no jig has them all."""
        return self.fence is None and self.tool == "drill and fence"
