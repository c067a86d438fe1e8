"""Spline: a groove along the mitre in both boards, near its inside, and a loose strip glued into both."""

from dataclasses import dataclass

from rodwork.geometry.rounding import down_to_step
from rodwork.joints.channel import CUTTERS_MM
from rodwork.joints.kind import ALONG, INTO_GUEST, INTO_HOST, FixingPlan, JointKind, Run, Void, Which, straight_in
from rodwork.joints.leaning import across_the_slope, room_below, too_deep
from rodwork.model.feature import End, Slot
from rodwork.model.fixing import Item, Play
from rodwork.model.job import CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import choice, length
from rodwork.model.shop import Shop

PLAY_MM = 0.5  # the strip is this much short of its groove at each end
LEAST_DEEP_MM = 4.0
LEAST_LONG_MM = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a job file may say of a spline."""

    thickness_mm: float | None = length(
        None, 3, 10, "of the strip, and of the cutter; the nearest cutter under a quarter of the board if left out"
    )
    depth_mm: float | None = length(
        None, 4, 25, "groove in each board, square to the mitre; half the board if left out"
    )
    front: str = choice("stopped", ("stopped", "through"), "stopped short of the front, or run out through it")
    stop_mm: float = length(10.0, 3, 100, "left in front of a stopped groove, and behind every one; common practice")
    glue_room_mm: float = length(1.0, 0, 5, "both grooves together are this much deeper than the strip is wide")
    offset_mm: float | None = length(
        None, 4, 60, "along the mitre from its outside arris to the middle of the groove; near the inside if left out"
    )


def _thickness(s: Settings, board: float) -> float:
    if s.thickness_mm is not None:
        return s.thickness_mm
    return max((c for c in CUTTERS_MM if c <= board / 4), default=CUTTERS_MM[0])


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """One strip along the whole mitre. Raises CannotBuild where the mitre has no room for its groove."""
    thick = _thickness(s, run.host_thickness)
    v = across_the_slope(s.offset_mm, thick / 2, run, shop)
    room = min(room_below(v, thick / 2, run, shop), run.host_thickness - shop.least_remainder_mm)
    deep = s.depth_mm if s.depth_mm is not None else down_to_step(min(room, run.host_thickness / 2), shop.fence_step_mm)
    if deep > room + 1e-9 or deep < LEAST_DEEP_MM:
        raise too_deep("a groove for a spline,", max(deep, LEAST_DEEP_MM), thick / 2, run, shop)
    through = s.front == "through"
    start = 0.0 if through else s.stop_mm
    end = run.run_to - (shop.clear_of_groove_mm if run.to_groove else s.stop_mm)
    if end - start < LEAST_LONG_MM:
        raise CannotBuild(
            ("stop",), f"{s.stop_mm:g} left before and behind a groove leave {max(end - start, 0):.0f} mm of spline",
            f"lower `stop`, or make the boards at least {LEAST_LONG_MM + start + run.run_to - end:.0f} mm wide",
        )  # fmt: skip
    ends: tuple[End, End] = ("open" if through else "round", "round")
    return (_strip(start, end, v, thick, deep, ends, s.glue_room_mm),)


def _strip(
    start: float, end: float, v: float, thick: float, deep: float, ends: tuple[End, End], glue_room: float
) -> FixingPlan:
    middle = (start + end) / 2

    def groove(board: Which) -> Void:
        on_host = board == "host"
        cut = Slot(
            id=board[0], role="seat", at=(middle, v, 0.0), into=INTO_HOST if on_host else INTO_GUEST, along=ALONG,
            depth=deep, width=thick, length=round(end - start, 6), ends=ends, end_radius=thick / 2,
        )  # fmt: skip
        return Void(board=board, cut=cut, tool="router and fence", cutter=f"{thick:g} mm")

    rounds = sum(thick / 2 + PLAY_MM for end in ends if end == "round")  # a square strip keeps clear of a round end
    wide, long = round(2 * deep - glue_room, 6), round(end - start - rounds, 1)
    return FixingPlan(
        u=middle, v=v, length=long, law="meet", duty="both", host=groove("host"), guest=groove("guest"),
        hardware=(Item(item=f"spline {thick:g}x{wide:g}x{long:g}", count=1),),
        play=Play(along=PLAY_MM, across=0.05, shape="box"), moves=straight_in(wide - deep),
    )  # fmt: skip


KIND = JointKind(
    name="spline", title="Spline in a mitre", settings=Settings, plan=plan, glued=True,
    nature=Nature(
        machines=("router and fence",),
        registers_on="the outside arris of both boards, along the mitre: the fence at 45 degrees on the outside",
        support="two boards clamped outside to outside make one square edge for the router; or a bevelled block",
        board_mm=(12.0, 40.0), glue="needed", clamps="needed", draws_up=False, at_once=False, apart=False,
        shows="the end of the strip at the front, where it runs through", covered_by="stopping it behind the front",
        demands_along_mm=1.0, demands_across_mm=0.15,
    ),
    places=("mitre",),
)  # fmt: skip
