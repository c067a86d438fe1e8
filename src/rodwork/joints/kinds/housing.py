"""A shelf or divider let into a channel across the other board, stopped before the front or run right through."""

from dataclasses import dataclass

from rodwork.joints.channel import RUN_ON_MM, channel, channel_width, cutter_for, run_on, third_of
from rodwork.joints.kind import FixingPlan, JointKind, Run, straight_in
from rodwork.model.feature import Groove
from rodwork.model.fixing import Play
from rodwork.model.meeting import Entry
from rodwork.model.nature import Nature
from rodwork.model.settings import choice, length
from rodwork.model.shop import Shop

SLACK_MM = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a job file may say of a housing."""

    depth_mm: float | None = length(None, 2, 30, "depth of the housing; a third of the board if left out")
    front: str = choice("stopped", ("stopped", "through"), "stopped short of the front, or run out through it")
    stop_mm: float = length(10.0, 3, 100, "board left in front of a stopped housing; common practice is 8 to 12")


def _depth(host_thickness: float, s: Settings) -> float:
    return s.depth_mm if s.depth_mm is not None else third_of(host_thickness)


def entry(host_thickness: float, guest_thickness: float, s: Settings, shop: Shop) -> Entry:
    """The board goes to the bottom of the housing; behind a stop its front corner is notched back."""
    width = channel_width(guest_thickness + shop.film_mm, SLACK_MM, shop)
    stop = s.stop_mm + cutter_for(width, shop) / 2 + RUN_ON_MM if s.front == "stopped" else 0.0
    return Entry(reach=_depth(host_thickness, s), slack=width - guest_thickness, stop=stop)


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """One housing: the wall on the line is the datum, the slack goes to the other side."""
    width = channel_width(run.guest_thickness + shop.film_mm, SLACK_MM, shop)
    cutter = cutter_for(width, shop)
    stop = entry(run.host_thickness, run.guest_thickness, s, shop).stop
    start, end, ends = run_on(run, max(stop - run.set_back, 0.0), cutter / 2)
    u, v = (start + end) / 2, width / 2
    housing = channel(
        run, id=" housing", shape=Groove, start=start, end=end, ends=ends, width=width, v=v,
        depth=_depth(run.host_thickness, s), end_radius=cutter / 2, tool="router and batten",
        cutter=f"{cutter:g} mm", fence_on="near wall",
    )  # fmt: skip
    play = Play(
        along=RUN_ON_MM if ends[0] == "round" else 0.0, across=round((width - run.guest_thickness) / 2, 6), shape="box"
    )
    return (
        FixingPlan(
            u=u, v=v, length=end - start, law="enter", duty="locates", host=housing, guest=None, play=play,
            moves=straight_in(run.reach),
        ),
    )  # fmt: skip


KIND = JointKind(
    name="housing", title="Housing", settings=Settings, plan=plan, entry=entry, glued=True,
    nature=Nature(
        machines=("router and batten",),
        registers_on="a batten on the line, from the bottom or left end; one wall of the housing on the line",
        support="the router stands on the whole face of the board, against the batten",
        board_mm=(12.0, 50.0), glue="needed", clamps="needed", draws_up=False, at_once=False, apart=False,
        shows="its end at the front, where it is not stopped", covered_by="stopping it behind the front",
        demands_along_mm=1.0, demands_across_mm=0.15,
    ),
    places=("fixed shelf", "divider"),
)  # fmt: skip
