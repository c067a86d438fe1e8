"""What the maker wants of a run: what stands in it from the left, the boards that go along it. All lengths are mm."""

from dataclasses import dataclass

from rodwork.model.job import Place, Recipe
from rodwork.model.run import DoorsAlike, StandsAs, StartsAt, WallsAt


@dataclass(frozen=True, slots=True, kw_only=True)
class RunEntry:
    """One thing that the run is made of, from the left. `copy`: which of so many alike, from 1.

    `name`: the cabinet, what the gap is for, or the board of an infill or end panel. `mm`: None is what is left.
    """

    stands_as: StandsAs
    name: str
    mm: float | None = None
    copy: int = 1
    under_worktop: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOutAsked:
    """A cut-out in the worktop by its template's own size, mm. `place`: over which thing in the run, from 1.

    `at`: from the left end of the run to its middle, in place of that.
    """

    what: str
    width_mm: float
    depth_mm: float
    radius_mm: float
    from_front_mm: float
    place: int | None
    at_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WorktopAsked:
    """The worktop of a run. `depth_mm` None: by its overhang in front, `front_mm` before the carcasses."""

    board: str
    depth_mm: float | None
    front_mm: float
    ends_mm: tuple[float, float]
    joint: Recipe | None  # None: it may come in one length only
    joints_at_mm: tuple[float, ...] | None  # None: where they stand best
    cut_outs: tuple[CutOutAsked, ...]
    upstand_mm: float  # nought: none
    upstand_board: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StripAsked:
    """A board along the run: plinth, cornice or pelmet. `set_mm`: its face behind the fronts of the carcasses.

    `height_mm` None: from the floor to the carcasses, less `clear_mm`; so is a plinth board that has one.
    """

    board: str
    height_mm: float | None
    set_mm: float
    clear_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewsAsked:
    """Connecting screws between neighbours. Heights from the underside of the carcasses; none: by their pin rows."""

    heights_mm: tuple[float, ...]
    front_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RunAsked:
    """One run as the job asks for it. `length_mm` None: by its survey, else as long as what stands in it."""

    name: str
    mark: str
    where: str | None
    length_mm: float | None
    survey: str | None
    walls: WallsAt
    starts: StartsAt
    above_floor_mm: float
    behind_mm: float
    scribe_mm: float
    edging: str | None
    of: tuple[RunEntry, ...]
    plinth: StripAsked | None
    worktop: WorktopAsked | None
    cornice: StripAsked | None
    pelmet: StripAsked | None
    screws: ScrewsAsked | None  # None: they are not joined to each other
    notes: str | None
    place: Place
    doors: DoorsAlike = "by cabinet"
