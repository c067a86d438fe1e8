"""A run: cabinets side by side along a wall, as it comes to stand.

The frame of a run: x to the right from the left end of the wall (or of the run, where it has no wall), y to the back
from the fronts of the carcasses, z up from the floor at its high point.
"""

from dataclasses import dataclass
from typing import Literal

CLEAR_OF_CUT_OUT_MM = 300.0  # of a joint in a worktop, from a sink or hob; common practice, no source

StandsAs = Literal["cabinet", "gap", "infill", "end panel"]
WallsAt = Literal["both", "left", "right", "none"]
End = Literal["left", "right"]
StartsAt = Literal["left", "right", "high point"]
DoorsAlike = Literal["equal", "by cabinet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """One thing in the run from the left, `x0` to `x1` and `z0` to `z1`. `part`: the run's own board there."""

    stands_as: StandsAs
    name: str
    copy: int
    x0: float
    x1: float
    z0: float
    z1: float
    part: str | None
    under_worktop: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StackUp:
    """How far the run may come out longer or shorter than it is drawn: at the worst, and as likely as three sigma.

    `left` is what the wall leaves beside all that has a size of its own; None where there is no wall. `measured`: by
    readings that the shop has taken of what the run's widths hang on; else by what is assumed of other shops.
    """

    length: float
    worst: float
    likely: float
    left: float | None
    measured: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOutPlace:
    """A cut-out in the worktop: `x0` to `x1` along the run, `y0` to `y1` from the fronts of the carcasses."""

    what: str
    part: str
    feature: str
    x0: float
    x1: float
    y0: float
    y1: float
    radius: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ConnectingScrew:
    """A screw through two sides that stand against each other, bored right through in place.

    `between`: how manieth things from the left, from 1. `height` from their undersides, `front` from their fronts;
    `by_pins`: through a bore for shelf pins that both have there.
    """

    between: tuple[int, int]
    height: float
    front: float
    by_pins: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CabinetRun:
    """A run as it stands. `length`: of the wall, or of what stands there. `front` is the plane of the doors.

    `joints` are the places along the run where its worktop is joined, `plinth_joints` those of its plinth board.
    `origin`: where its left end comes in its `survey`; `out`: how far the left and right wall lean away from its ends.
    `door_width`: of all its doors, where it asks for equal ones, else None.
    """

    name: str
    where: str | None
    length: float
    walls: WallsAt
    starts: End
    above_floor: float
    behind: float
    depth: float
    front: float
    scribe: float
    standings: tuple[Standing, ...]
    stack: StackUp
    joints: tuple[float, ...] = ()
    plinth_joints: tuple[float, ...] = ()
    cut_outs: tuple[CutOutPlace, ...] = ()
    screws: tuple[ConnectingScrew, ...] = ()
    not_connected: tuple[int, ...] = ()
    survey: str | None = None
    origin: float = 0.0
    out: tuple[float, float] = (0.0, 0.0)
    door_width: float | None = None
