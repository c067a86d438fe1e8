"""A published figure with how sure it is and where it is from: what stands beside every number that a load rests on."""

from dataclasses import dataclass
from typing import Literal

Standing = Literal["verified", "second-hand", "from memory", "arithmetic", "practice", "judgement", "entered"]
FIRM: frozenset[Standing] = frozenset(("verified", "second-hand", "arithmetic", "entered"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A value in mm, N, kg or a pure number; `standing` says how sure it is, `source` whose it is."""

    value: float
    standing: Standing
    source: str

    @property
    def is_firm(self) -> bool:
        """Whether it was read somewhere, reckoned or entered: not remembered, customary or judged."""
        return self.standing in FIRM


_WORST_FIRST: tuple[Standing, ...] = (
    "judgement", "from memory", "practice", "second-hand", "arithmetic", "verified", "entered",
)  # fmt: skip


def least_sure(*standings: Standing) -> Standing:
    """How sure a figure is that rests on all of these. Raises ValueError for none."""
    return min(standings, key=_WORST_FIRST.index)
