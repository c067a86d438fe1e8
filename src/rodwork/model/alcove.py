"""A unit that stands in a surveyed opening: where, how large a box goes in, the gaps left, the scribes that close them.

All in the survey's frame, mm.
"""

from dataclasses import dataclass, field
from typing import Literal

from rodwork.geometry.vec import Vec
from rodwork.model.finding import Finding
from rodwork.model.survey import ServiceKind, Survey, SurveyedWall

Side = Literal["left", "right"]
# Common practice, no source, all three: what the set-out leaves and what a check asks for are one figure.
LEAST_AT_HINGES_MM = 30.0  # between carcass and wall on a hinged side, or the door strikes the wall
SPARE_TO_PLANE_MM = 10.0  # over the widest gap, to be planed off
CLEAR_OF_SERVICE_MM = 20.0  # all round a socket or a pipe
SURVEY_CODES = ("scribe-allowance", "will-not-enter", "service-covered")  # what a check of a surveyed opening tells


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """What is left between the unit and the two walls at one height and one depth; mouldings apart."""

    height: float
    depth: float
    left: float
    right: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ScribeStrip:
    """A strip between a side of the unit and the wall, planed to the wall on site.

    `rough` is the width it is supplied at; `least` and `widest` the gap over its height, at the front; `take_off` what
    the wall takes of the rough width at its bottom, middle and top. `foot`: (how high, how much more) round a skirting.
    `hinged`: a door hangs on that side of the unit.
    """

    side: Side
    board: str
    rough: float
    least: float
    widest: float
    take_off: tuple[float, float, float]
    foot: tuple[float, float] | None
    hinged: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Behind:
    """A service that the unit stands before or beside, in the cabinet's own axes: `low` and `high` its corners."""

    name: str
    what: ServiceKind
    wall: SurveyedWall
    low: Vec
    high: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Alcove:
    """A unit in its opening.

    `at` is the outside front bottom left corner of the carcass, `size` its width, height and depth. The largest
    upright box over that height and depth goes from `room_x` on and is `room_width` wide; `held` says which readings
    hold its left and its right. Height and depth of the room are None where no ceiling or no back wall was measured.
    `moves`: how far the unit may still go to the left and to the right before a scribe is too narrow.
    `feet`: from the carcass down to the floor at its front left, front right, back left, back right.
    `behind`: services that it would cover. `tilt` is what the unit takes to be tilted up, `headroom` what is there
    (None: hung, or no ceiling was measured).
    """

    survey: str
    at: Vec
    size: Vec
    room_x: float
    room_width: float
    room_height: float | None
    room_depth: float | None
    held: tuple[str, str]
    moves: tuple[float, float]
    gaps: tuple[Gap, ...]
    scribes: tuple[ScribeStrip, ...]
    feet: tuple[float, float, float, float]
    behind: tuple[Behind, ...] = ()
    tilt: float | None = None
    headroom: float | None = None

    @property
    def to_share(self) -> tuple[float, float]:
        """The least and the most that is left for both scribes together."""
        both = [gap.left + gap.right for gap in self.gaps]
        return min(both), max(both)

    def scribe(self, side: Side) -> ScribeStrip:
        """The scribe of one side."""
        return next(s for s in self.scribes if s.side == side)


@dataclass(frozen=True, slots=True, kw_only=True)
class Surveyed:
    """What the readings of one survey come to: the units that stand there by their names.

    `empty`: where nothing stands there yet, the largest unit that would, from floor to ceiling or to the highest
    reading. None: something stands there, or it is a wall alone. `findings` are those of the units there.
    """

    survey: Survey
    units: dict[str, Alcove] = field(hash=False)
    empty: Alcove | None
    findings: tuple[Finding, ...] = ()
