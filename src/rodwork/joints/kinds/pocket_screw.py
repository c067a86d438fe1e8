"""Pocket screws: only the board that meets with its end is bored, askew through a face; the clamp keeps it in place."""

from dataclasses import dataclass
from math import cos, radians, sin, tan

from rodwork.geometry.rounding import down_to_step
from rodwork.geometry.vec import Vec
from rodwork.joints.kind import ALONG, FixingPlan, JointKind, Run, Void, straight_in
from rodwork.joints.positions import RowSettings, row_of
from rodwork.model.feature import Pocket
from rodwork.model.fixing import Item, Play
from rodwork.model.job import CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import choice, length, switch, text
from rodwork.model.shop import Shop

SLOPE = radians(15.0)  # a builders' magazine's guide to pocket-hole joinery
LENGTHS_MM = ((22.0, 38.0), (16.0, 32.0), (0.0, 25.0))  # from this board on; the same guide and common practice
LEAST_HOLD_MM = 8.0
LEAST_LEFT_MM = 2.0  # of the host under the point of the screw
LEAST_POCKET_MM = 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings(RowSettings):
    """What a job file may say of pocket screws."""

    size: str | None = text(
        None, r"(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)", "4x32", "diameter x length; chosen from the board if left out"
    )
    face: str = choice("flush face", ("flush face", "other face"), "which face the pockets are in")
    pocket_mm: float = length(9.5, 6, 15, "diameter of the pocket")
    shoulder_mm: float = length(16.0, 6, 60, "board that the screw passes, from shoulder to end, on its axis")
    glue: bool = switch(True, "glue on the butt as well")


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Pockets along the run, their axes coming out in the middle of the end."""
    if run.reach > 0:
        raise CannotBuild((), "a board in a channel needs no pocket screws", "name the channel alone, or screws")
    diameter, screw_length = _size(s, run)
    bored = down_to_step(run.guest_thickness / 2 / sin(SLOPE) - s.shoulder_mm, shop.fence_step_mm)
    hold = (screw_length - s.shoulder_mm) * cos(SLOPE)
    if bored < LEAST_POCKET_MM:
        most = run.guest_thickness / 2 / sin(SLOPE) - LEAST_POCKET_MM
        raise CannotBuild(
            ("shoulder",),
            f"a shoulder {s.shoulder_mm:g} from the end leaves no pocket in {run.guest_thickness:g} mm board",
            f"make it {int(most)} or less",
        )  # fmt: skip
    if hold < LEAST_HOLD_MM:
        raise CannotBuild(
            ("size",), f"a screw {screw_length:g} long goes only {max(hold, 0):.1f} mm into the other board",
            f"use one of at least {s.shoulder_mm + LEAST_HOLD_MM / cos(SLOPE):.0f} mm",
        )  # fmt: skip
    if hold > run.host_thickness - LEAST_LEFT_MM:
        most = s.shoulder_mm + (run.host_thickness - LEAST_LEFT_MM) / cos(SLOPE)
        raise CannotBuild(
            ("size",), f"a screw {screw_length:g} long comes within {max(run.host_thickness - hold, 0):.1f} mm of the "
            f"other side of a {run.host_thickness:g} mm board",
            f"use one of {int(most)} mm or less",
        )  # fmt: skip
    row = row_of(
        run, s, shop, what="pocket screws", half=s.pocket_mm / 2, pitch=2 * shop.pitch_mm,
        least_apart=2 * s.pocket_mm, between=s.pocket_mm, shift=2 * s.pocket_mm,
    )  # fmt: skip
    return tuple(_screw(u, diameter, screw_length, bored, run, s) for u in row)


def _size(s: Settings, run: Run) -> tuple[float, float]:
    """As asked, or the longest for the board it starts in that does not come through the other."""
    if s.size is not None:
        diameter, screw_length = (float(n) for n in s.size.split("x"))
        return diameter, screw_length
    for_board = [screw for board, screw in LENGTHS_MM if run.guest_thickness >= board]
    most = (run.host_thickness - LEAST_LEFT_MM) / cos(SLOPE) + s.shoulder_mm
    return 4.0, next((screw for screw in for_board if screw <= most), for_board[-1])


def _screw(u: float, diameter: float, screw_length: float, bored: float, run: Run, s: Settings) -> FixingPlan:
    middle = run.guest_thickness / 2
    flush = s.face == "flush face"
    into: Vec = (0.0, sin(SLOPE) if flush else -sin(SLOPE), -cos(SLOPE))
    mouth: Vec = (u, 0.0 if flush else run.guest_thickness, middle / tan(SLOPE))
    cut = Pocket(
        id="k", role="access", at=mouth, into=into, along=ALONG, depth=bored, diameter=s.pocket_mm, ahead=diameter,
        ahead_depth=middle / sin(SLOPE),
    )  # fmt: skip
    pocket = Void(
        board="guest", cut=cut, tool="pocket jig", cutter=f"stepped bit {diameter:g}/{s.pocket_mm:g}",
        fence_on="no fence", to_marks=True,
    )  # fmt: skip
    return FixingPlan(
        u=u, v=middle, length=screw_length, law="none", duty="draws up", host=None, guest=pocket,
        hardware=(Item(item=f"pocket screw {diameter:g}x{screw_length:g}", count=1),),
        play=Play(along=1.0, across=1.0, shape="round"), moves=straight_in(1.0),
    )  # fmt: skip


KIND = JointKind(
    name="pocket screw", title="Pocket screws", settings=Settings, plan=plan, glued=True,
    nature=Nature(
        machines=("pocket jig",),
        registers_on="the face with the pockets, the collar set for the board; nothing in the other board: the clamp "
        "decides where it comes, its flush face held to a flat",
        support="the jig is clamped to the face; half a board is enough for it",
        board_mm=(12.0, 38.0), glue="optional", clamps="needed", draws_up=True, at_once=True, apart=True,
        shows="the pockets, on the face they are in", covered_by="plugs cut to the slope, or the hidden face",
        demands_along_mm=0.5, demands_across_mm=0.5,
    ),
    places=("corner", "fixed shelf", "divider", "edge to edge", "face frame"),
)  # fmt: skip
