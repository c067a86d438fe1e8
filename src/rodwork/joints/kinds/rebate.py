"""A rebate along the back edges that a back lies in, glued and pinned."""

from dataclasses import dataclass
from math import ceil

from rodwork.joints.channel import channel, half_of, reaches_into
from rodwork.joints.kind import FixingPlan, JointKind, Run, straight_in
from rodwork.model.feature import End, Rebate
from rodwork.model.fixing import Item, Play
from rodwork.model.job import Back
from rodwork.model.meeting import Entry
from rodwork.model.nature import Nature
from rodwork.model.settings import length
from rodwork.model.shop import Shop

PIN_EVERY_MM = 100.0  # panel pins along a back; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a job file may say of a rebate."""

    depth_mm: float | None = length(None, 2, 30, "how far the rebate goes into the board; half of it if left out")
    clearance_mm: float = length(0.5, 0, 5, "between the edge of the back and the shoulder of the rebate")
    void_mm: float = length(0.0, 0, 200, "how far the back lies in front of the back edges")


def entry(host_thickness: float, guest_thickness: float, s: Settings, shop: Shop) -> Entry:
    """The back reaches the rebate's depth less its clearance."""
    depth = s.depth_mm if s.depth_mm is not None else half_of(host_thickness)
    reaches_into(depth, s.clearance_mm, "rebate")
    return Entry(reach=depth - s.clearance_mm)


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """One rebate along the whole run, as wide as the back is thick and the void behind it.

    Its stopped ends are chiselled square: a back has square corners.
    """
    depth = s.depth_mm if s.depth_mm is not None else half_of(run.host_thickness)
    width = run.guest_thickness + s.void_mm
    ends = (_end(run.beyond_start, s), _end(run.beyond_end, s))
    start = -run.beyond_start + run.start_edging if ends[0] == "open" else -s.clearance_mm
    end = run.length + (run.beyond_end - run.end_edging if ends[1] == "open" else s.clearance_mm)
    u, v = (start + end) / 2, (run.guest_thickness - s.void_mm) / 2  # the void is behind the back: it runs out there
    rebate = channel(
        run, id=" rebate", shape=Rebate, start=start, end=end, ends=ends, width=width, v=v, depth=depth,
        end_radius=0.0, tool="router and fence", cutter="rebate cutter", fence_on="far wall",
    )  # fmt: skip
    pins = Item(item="panel pin 25 mm", count=ceil(run.length / PIN_EVERY_MM) + 1)
    return (
        FixingPlan(
            u=u, v=v, length=end - start, law="enter", duty="both", host=rebate, guest=None, hardware=(pins,),
            play=Play(along=s.clearance_mm, across=0.0, shape="box"), moves=straight_in(width),
        ),
    )  # fmt: skip


def _end(beyond: float, s: Settings) -> End:
    return "open" if beyond <= s.clearance_mm else "square"


def for_back(back: Back) -> Settings:
    """The rebate that a back's own line of the job file describes."""
    own = Settings()
    return Settings(
        depth_mm=back.depth_mm,
        clearance_mm=back.clearance_mm if back.clearance_mm is not None else own.clearance_mm,
        void_mm=back.void_mm,
    )


KIND = JointKind(
    name="rebate", title="Rebate for a back", settings=Settings, plan=plan, entry=entry, glued=True,
    nature=Nature(
        machines=("router and fence",),
        registers_on="the inside face and the back edge of every board, at one setting",
        support="the router stands on the whole face of the board; its fence on the back edge",
        board_mm=(12.0, 50.0), glue="needed", clamps="none", draws_up=False, at_once=True, apart=False,
        shows="its ends, where it runs out through an end that is seen", covered_by="stopping it, or edging after",
        demands_along_mm=1.0, demands_across_mm=0.5,
    ),
    places=("back in a rebate",), backs=("rebated", "rebated in the sides"), for_back=for_back,
)  # fmt: skip
