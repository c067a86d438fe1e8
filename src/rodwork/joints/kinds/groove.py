"""A groove that a back stands in, on all four sides or in the two uprights only."""

from dataclasses import dataclass

from rodwork.joints.channel import channel, channel_width, cutter_for, reaches_into, run_on, third_of
from rodwork.joints.kind import FixingPlan, JointKind, Run, straight_in
from rodwork.model.feature import Groove
from rodwork.model.fixing import Play
from rodwork.model.job import Back
from rodwork.model.meeting import Entry
from rodwork.model.nature import Nature
from rodwork.model.settings import length
from rodwork.model.shop import Shop

SLACK_MM = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a job file may say of a groove."""

    depth_mm: float | None = length(None, 1, 30, "depth of the groove; a third of the board if left out")
    clearance_mm: float = length(0.5, 0, 5, "between the edge of the back and the bottom of the groove")


def entry(host_thickness: float, guest_thickness: float, s: Settings, shop: Shop) -> Entry:
    """The back reaches the groove's depth less its clearance."""
    depth = s.depth_mm if s.depth_mm is not None else third_of(host_thickness)
    reaches_into(depth, s.clearance_mm, "groove")
    width = channel_width(guest_thickness + shop.film_mm, SLACK_MM, shop)
    return Entry(reach=depth - s.clearance_mm, slack=width - guest_thickness)


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """One groove along the whole run; the back itself is the other half."""
    depth = s.depth_mm if s.depth_mm is not None else third_of(run.host_thickness)
    width = channel_width(run.guest_thickness + shop.film_mm, SLACK_MM, shop)
    cutter = cutter_for(width, shop)
    start, end, ends = run_on(run, 0.0, cutter / 2)
    u, v = (start + end) / 2, run.guest_thickness / 2
    groove = channel(
        run, id=" groove", shape=Groove, start=start, end=end, ends=ends, width=width, v=v, depth=depth,
        end_radius=cutter / 2, tool="router and fence", cutter=f"{cutter:g} mm", fence_on="near wall",
    )  # fmt: skip
    play = Play(along=s.clearance_mm, across=round((width - run.guest_thickness) / 2, 6), shape="box")
    return (
        FixingPlan(
            u=u, v=v, length=end - start, law="enter", duty="locates", host=groove, guest=None, play=play,
            moves=straight_in(run.reach),
        ),
    )  # fmt: skip


def for_back(back: Back) -> Settings:
    """The groove that a back's own line of the job file describes."""
    own = Settings()
    return Settings(
        depth_mm=back.depth_mm,
        clearance_mm=back.clearance_mm if back.clearance_mm is not None else own.clearance_mm,
    )


KIND = JointKind(
    name="groove", title="Groove for a back", settings=Settings, plan=plan, entry=entry, glued=False,
    nature=Nature(
        machines=("router and fence",),
        registers_on="the back edges of all boards, ripped together to one width; or their front edges",
        support="the router stands on the whole face of the board; its fence on the edge",
        board_mm=(9.0, 50.0), glue="none", clamps="none", draws_up=False, at_once=True, apart=True,
        shows="its ends, where it runs out through an end that is seen", covered_by="stopping it, or edging after",
        demands_along_mm=1.0, demands_across_mm=0.2,
    ),
    places=("back in a groove",), backs=("grooved all round", "grooved in the sides"), for_back=for_back,
)  # fmt: skip
