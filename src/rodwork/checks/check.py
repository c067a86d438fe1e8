"""What a check is: one thing to look for in a set-out job, and how it is told to the maker."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from rodwork.model.finding import Finding
from rodwork.model.rod import Rod


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One check. `code` stands in every finding it makes; `look` reads the Rod and nothing else."""

    code: str
    title: str
    look: Callable[[Rod], Iterable[Finding]]
