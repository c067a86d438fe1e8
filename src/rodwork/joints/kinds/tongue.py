"""A tongue: the board's end is rebated on its flush face, and what is left goes into a narrower groove."""

from dataclasses import dataclass

from rodwork.geometry.rounding import to_step
from rodwork.joints.channel import RUN_ON_MM, channel, channel_width, cutter_for, half_of, run_on, third_of
from rodwork.joints.kind import ACROSS, ALONG, FixingPlan, JointKind, Run, Void, straight_in
from rodwork.model.feature import Groove, Rebate
from rodwork.model.fixing import Play
from rodwork.model.job import CannotBuild
from rodwork.model.meeting import Entry
from rodwork.model.nature import Nature
from rodwork.model.settings import choice, length
from rodwork.model.shop import Shop

SLACK_MM = 0.1
UNDER_MM = 0.5  # the groove is this much deeper than the tongue is long, for glue; common practice, no source
LEAST_TONGUE_MM = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a job file may say of a tongue."""

    tongue_mm: float | None = length(None, 2, 25, "length of the tongue; a third of the other board if left out")
    shoulder_mm: float | None = length(
        None, 2, 40, "flush face to the tongue: what the rebate takes off; half of the board if left out"
    )
    front: str = choice("through", ("stopped", "through"), "stopped short of the front, or run out through it")
    stop_mm: float = length(10.0, 3, 100, "board left in front of a stopped groove; common practice is 8 to 12")


def _reach(host_thickness: float, s: Settings, shop: Shop) -> float:
    """Length of the tongue, as it is printed: what enters is then what is cut."""
    return to_step(s.tongue_mm, shop.step_mm) if s.tongue_mm is not None else third_of(host_thickness)


def _shoulder(guest_thickness: float, s: Settings) -> float:
    shoulder = s.shoulder_mm if s.shoulder_mm is not None else half_of(guest_thickness)
    if guest_thickness - shoulder < LEAST_TONGUE_MM:
        raise CannotBuild(
            ("shoulder",), f"a shoulder of {shoulder:g} leaves a tongue of {max(guest_thickness - shoulder, 0):g} mm",
            f"make it {guest_thickness - LEAST_TONGUE_MM:g} or less",
        )  # fmt: skip
    return shoulder


def entry(host_thickness: float, guest_thickness: float, s: Settings, shop: Shop) -> Entry:
    """The board goes in by the length of its tongue; behind a stop its front corner is notched back."""
    _, cutter = _groove(guest_thickness, s, shop)
    stop = s.stop_mm + cutter / 2 + RUN_ON_MM if s.front == "stopped" else 0.0
    return Entry(reach=_reach(host_thickness, s, shop), stop=stop)


def _groove(guest_thickness: float, s: Settings, shop: Shop) -> tuple[float, float]:
    """(width of the groove, its cutter), mm."""
    width = channel_width(guest_thickness - _shoulder(guest_thickness, s), SLACK_MM, shop)
    return width, cutter_for(width, shop)


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """A groove as wide as the tongue that this very board leaves, and the rebate that leaves it.

    Both are set from the flush face, so a thicker board has a thicker tongue and stays flush.
    """
    reach, shoulder = _reach(run.host_thickness, s, shop), _shoulder(run.guest_thickness, s)
    tongue = run.guest_thickness - shoulder
    width, cutter = _groove(run.guest_thickness, s, shop)
    stop = entry(run.host_thickness, run.guest_thickness, s, shop).stop
    notched = max(stop - run.set_back, 0.0)
    start, end, ends = run_on(run, notched, cutter / 2)
    groove = channel(
        run, id=" groove", shape=Groove, start=start, end=end, ends=ends, width=width, v=shoulder + width / 2,
        depth=reach + UNDER_MM, end_radius=cutter / 2, tool="router and fence", cutter=f"{cutter:g} mm",
        fence_on="near wall",
    )  # fmt: skip
    rebate = Void(
        board="guest", tool="router and fence", cutter="rebate cutter", fence_on="far wall",
        cut=Rebate(id=" tongue", role="housing", at=((notched + run.length) / 2, 0.0, -reach / 2), into=ACROSS,
                   along=ALONG, depth=shoulder, width=reach, length=round(run.length - notched, 6), ends="open"),
    )  # fmt: skip
    play = Play(
        along=RUN_ON_MM if "round" in ends else 0.0, across=round((width - tongue) / 2, 6), shape="box"
    )  # fmt: skip
    return (
        FixingPlan(
            u=(start + end) / 2, v=groove.cut.at[1], length=end - start, law="enter", duty="locates", host=groove,
            guest=None, others=(rebate,), play=play, moves=straight_in(reach),
        ),
    )  # fmt: skip


KIND = JointKind(
    name="tongue", title="Tongue in a groove", settings=Settings, plan=plan, entry=entry, glued=True,
    nature=Nature(
        machines=("router and fence",),
        registers_on="the flush face of the board that has the tongue, and the end of the other, or the line",
        support="the router stands on the whole face of both boards",
        board_mm=(12.0, 50.0), glue="needed", clamps="needed", draws_up=False, at_once=False, apart=False,
        shows="the end of the groove at the front, where it is not stopped",
        covered_by="the edging, glued on after, or stopping it behind the front",
        demands_along_mm=1.0, demands_across_mm=0.15,
    ),
    places=("corner", "fixed shelf", "divider"),
)  # fmt: skip
