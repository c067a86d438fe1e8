"""What the stations after the set-out found, as far as it was asked for: the pack takes it through this one value."""

from dataclasses import dataclass

from rodwork.model.cutting import CuttingPlan
from rodwork.model.dry_fit import DryFit
from rodwork.model.loading import Loading


@dataclass(frozen=True, slots=True, kw_only=True)
class Results:
    """A field for each station; None: not asked for."""

    cutting: CuttingPlan | None = None
    loading: Loading | None = None
    dry_fit: DryFit | None = None


NOTHING_ASKED = Results()
