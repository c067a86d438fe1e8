"""What housings, grooves and rebates share: widths a cutter makes, and how a channel ends."""

from rodwork.geometry.rounding import down_to_step, to_step
from rodwork.joints.kind import ALONG, INTO_HOST, Run, Void
from rodwork.model.feature import End, Groove
from rodwork.model.job import CannotBuild
from rodwork.model.machining import FenceOn
from rodwork.model.shop import Shop

CUTTERS_MM = (3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 18.0, 20.0)  # straight cutters in ordinary sale
RUN_ON_MM = 0.5  # the channel's full width begins this far before the board that enters it
LEAST_CHANNEL_MM = 20.0  # behind a stop; common practice, no source
LEAST_REACH_MM = 1.0  # of a back into its groove or rebate, or it drops out; common practice, no source


def channel_width(board: float, slack: float, shop: Shop) -> float:
    """Width of a channel for a board: the shop's own cutter where it suits, else the board and its slack."""
    cutter = shop.groove_cutter_mm
    if board + 0.1 - 1e-9 <= cutter <= board + 0.5 + 1e-9:
        return cutter
    return to_step(board + slack, shop.step_mm)


def cutter_for(width: float, shop: Shop) -> float:
    """The shop's cutter if it goes into the channel, else the largest ordinary one that does."""
    if shop.groove_cutter_mm <= width + 1e-9:
        return shop.groove_cutter_mm
    able = [c for c in CUTTERS_MM if c <= width + 1e-9]
    if not able:
        raise CannotBuild(
            (),
            f"no straight cutter makes a channel {width:g} wide: {CUTTERS_MM[0]:g} is the narrowest in ordinary sale",
            "use a thicker board there, or plant it",
        )
    return max(able)


def third_of(thickness: float) -> float:
    """A third of a board to the nearest mm: 6 in 18, 5 in 15, 4 in 12; common practice is a quarter to a third."""
    return to_step(thickness / 3, 1.0)


def half_of(thickness: float) -> float:
    """Not more than half of a board, to the mm below: the limit for a rebate."""
    return down_to_step(thickness / 2, 1.0)


def reaches_into(depth: float, clearance: float, channel: str) -> None:
    """A back reaches so far into its channel that it stays there. Raises CannotBuild."""
    if depth - clearance < LEAST_REACH_MM:
        raise CannotBuild(
            ("clearance",),
            f"a back with {clearance:g} of play at each edge does not stay in a {channel} {depth:g} deep",
            f"make the play {max(depth - LEAST_REACH_MM, 0.0):g} or less, or the {channel} "
            f"{clearance + LEAST_REACH_MM:g} deep or more",
        )  # fmt: skip


def run_on(run: Run, stop_start: float, radius: float) -> tuple[float, float, tuple[End, End]]:
    """Where a channel begins and ends along the run, and how.

    It runs on beyond the board that enters by its clearance and the cutter's radius, so that the rounded end
    is out of the way; where the host ends before that, is bevelled, or a groove begins, it runs out there (up to the
    edging that closes it). Raises CannotBuild where the stop leaves nothing of it.
    """
    more = RUN_ON_MM + radius
    if stop_start > run.length - LEAST_CHANNEL_MM:
        raise CannotBuild(
            ("stop",), f"it is stopped {stop_start:g} from the front, and the run is {run.length:g} long",
            f"leave {LEAST_CHANNEL_MM:g} of it at the least, or let it run out through the front",
        )  # fmt: skip
    if stop_start > 0:
        start, first_end = stop_start - more, "round"
    elif run.beyond_start < more or run.slopes[0]:
        start, first_end = -run.beyond_start + run.start_edging, "open"
    else:
        start, first_end = -more, "round"
    if run.beyond_end < more or run.slopes[1]:
        end, last_end = run.length + run.beyond_end - run.end_edging, "open"
    else:
        end, last_end = run.length + more, "round"
    ends: tuple[End, End] = (
        "round" if first_end == "round" else "open",
        "round" if last_end == "round" else "open",
    )
    return start, end, ends


def channel(
    run: Run,
    *,
    id: str,
    shape: type[Groove],
    start: float,
    end: float,
    ends: tuple[End, End],
    width: float,
    v: float,
    depth: float,
    end_radius: float,
    tool: str,
    cutter: str,
    fence_on: FenceOn,
) -> Void:
    """A channel in the face of the host from `start` to `end` along the run, its middle `v` across."""
    cut = shape(
        id=id, role="housing", stage=run.stage(ends), at=((start + end) / 2, v, 0.0), into=INTO_HOST,
        along=ALONG, depth=depth, width=round(width, 6), length=round(end - start, 6),
        ends=ends[0] if ends[0] == ends[1] else ends, end_radius=end_radius,
    )  # fmt: skip
    return Void(board="host", cut=cut, tool=tool, cutter=cutter, fence_on=fence_on)
