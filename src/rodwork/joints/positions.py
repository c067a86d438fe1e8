"""Where fixings stand along a run: the position rule of design section 3."""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from rodwork.geometry.rounding import down_to_step, to_step, up_to_step
from rodwork.joints.keep_clear import moved_clear
from rodwork.joints.kind import Run
from rodwork.model.job import CannotBuild
from rodwork.model.settings import choice, length, whole
from rodwork.model.shop import Shop

LEAST_FROM_FRONT_MM = 15.0  # a row moved nearer the front than this would break the edge; common practice, no source

LATE_MM = 5.0  # a host that begins so much later than its guest, as a back over a toe space, puts the first off
LEAST_BESIDE_MM = 5.0  # wood beside a fixing in a narrow board; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class RowSettings:
    """What a job file may say of a row: every family that stands in one has these settings."""

    first_mm: float | None = length(None, 5, 1000, "front edge to the first; the shop's habit if left out")
    pitch_mm: float | None = length(None, 16, 1000, "from one to the next; by the shop's habit if left out")
    end_mm: float | None = length(None, 5, 1000, "last to the end of the run; the shop's habit if left out")
    positions: str = choice("shop", ("shop", "fixed", "evenly"), "how they stand along the run")
    count: int | None = whole(None, 2, 60, "a fixed number in every row, shared evenly")


def row_of(
    run: Run,
    s: RowSettings,
    shop: Shop,
    *,
    what: str,
    half: float,
    pitch: float,
    least_apart: float,
    between: float,
    shift: float | None,
    clear: float = 0.0,
    bore: float = 0.0,
) -> tuple[float, ...]:
    """Where a row stands: as asked, else by the shop's habit, or between what stands in the run already.

    On a board too narrow for the habit, such as a rail, two stand a quarter of its width in from either edge,
    or nearer to the edges where they would crowd each other. The first keeps clear of a groove that the run crosses
    near its start, as a drawer's corner does, where there is room for two beyond it.
    `half`: what one takes along the run, each way. `pitch`: where none is asked. `between`: least distance from an
    earlier family's. `shift`: off the row on a divider's other face; None: too long for that, so the rows on the two
    faces take turns. `clear`: least wood before and after the row, where the shop's habit would leave less. `bore`:
    half of its bore in the host, where that is wider than itself.
    """
    pitch = s.pitch_mm if s.pitch_mm is not None else pitch
    if run.taken and s.first_mm is None and s.end_mm is None and s.count is None:
        return stand_between(run.taken, what=what, pitch=pitch, apart=between, shop=shop)
    room = float(ceil(half + clear - 1e-9)) if clear else 0.0
    late = -run.beyond_start if run.beyond_start < -LATE_MM else 0.0
    first = s.first_mm if s.first_mm is not None else max(shop.first_mm, room) + late
    end = s.end_mm if s.end_mm is not None else max(shop.end_mm, room)
    to_groove = run.to_groove and s.end_mm is None
    if s.first_mm is None and s.end_mm is None and run.run_to < first + least_apart + end and not to_groove:
        both = run.run_to - late
        widest = (both - least_apart) / 2  # nearer to the edges where they would else crowd each other
        end = max(room, down_to_step(min(both / 4, widest), shop.fence_step_mm), half + LEAST_BESIDE_MM)
        first = end + late
    if s.first_mm is None and run.run_from:
        beyond = up_to_step(run.run_from + max(half, bore) + shop.least_remainder_mm, shop.fence_step_mm)
        ends = run.run_to - max(first, beyond) - least_apart
        if s.end_mm is None and ends >= max(room, half + LEAST_BESIDE_MM):
            end = min(end, down_to_step(ends, shop.fence_step_mm))
        if ends >= end:
            first = max(first, beyond)
    # the guest's own end, at the groove or past it, wants as much wood as where there is none
    radius = half + max(0.0, clear - (run.length - run.run_to) - shop.clear_of_groove_mm)
    if shift is None and run.covered:
        last = _last(run.run_to, end, to_groove, radius, shop)
        return _turn_about(first, last, what=what, pitch=pitch, apart=between, turn=run.stagger, shop=shop)
    row = stand_at(
        what=what, run_to=run.run_to, to_groove=to_groove, radius=radius, first=first, end=end,
        shift=(shift or 0.0) * run.stagger, pitch=pitch, least_apart=least_apart,
        evenly=(shop.positions if s.positions == "shop" else s.positions) == "evenly", number=s.count, shop=shop,
    )  # fmt: skip
    return moved_clear(row, run.bored, max(half, bore), shop.least_remainder_mm, shop.fence_step_mm)


def stand_at(
    *,
    what: str,
    run_to: float,
    to_groove: bool,
    radius: float,
    first: float,
    pitch: float,
    end: float,
    least_apart: float,
    evenly: bool,
    number: int | None,
    shop: Shop,
    shift: float = 0.0,
) -> tuple[float, ...]:
    """Distances from the front of the run, mm, rounded once to what is printed (and shared ones to a fence's step).

    Fixed: `first`, then every `pitch`, the same on every board; the last at `end` from the end of the run, or
    with wood left between it and a back groove. `shift` moves the row clear of the one on a divider's other face:
    all of it nearer the front where there is room, else in from both ends. Evenly, or a given number: shared
    between first and last.
    Raises CannotBuild (with an empty path) where two do not fit.
    """
    forward = first - shift >= max(shift, LEAST_FROM_FRONT_MM)
    inward = 0.0 if forward else shift
    first += inward
    from_end = _from_end(end, to_groove, radius, shop) + inward
    last = down_to_step(run_to - from_end, shop.fence_step_mm)
    if last - first < least_apart:
        room = ceil(10 * (first + least_apart + from_end) - 1e-6) / 10
        raise CannotBuild(
            (),
            f"two {what} do not fit in a run of {run_to:g} mm: the first stands {first:g} from the front and the "
            f"last {from_end:g} from the {'back groove' if to_groove else 'other end'}",
            f"make the run at least {room:g} mm, or lower `first`" + ("" if to_groove else " and `end`"),
        )
    gaps = number - 1 if number is not None else ceil((last - first) / pitch - 1e-9)
    if number is not None or evenly:
        out = [to_step(first + i * (last - first) / gaps, shop.fence_step_mm) for i in range(gaps)]
    else:
        out = [first]
        while out[-1] + pitch <= last - least_apart + 1e-9:
            out.append(out[-1] + pitch)
    return tuple(to_step(u - (shift if forward else 0.0), shop.step_mm) for u in (*out, last))


def _from_end(end: float, to_groove: bool, radius: float, shop: Shop) -> float:
    """How far the last of a row stands from the end of the run: clear of a back groove, or as asked."""
    return shop.clear_of_groove_mm + radius if to_groove else end


def _last(run_to: float, end: float, to_groove: bool, radius: float, shop: Shop) -> float:
    return down_to_step(run_to - _from_end(end, to_groove, radius, shop), shop.fence_step_mm)


def _turn_about(
    first: float, last: float, *, what: str, pitch: float, apart: float, turn: int, shop: Shop
) -> tuple[float, ...]:
    """Every second place of a comb from first to last, for the rows on the two faces of one board.

    Raises CannotBuild where the comb has no two teeth for each face.
    """
    least = apart + shop.fence_step_mm  # they are put where a rule can find them
    gaps = min(max(ceil(2 * (last - first) / pitch - 1e-9), 3), int((last - first) / least + 1e-9))
    if gaps < 3:
        raise CannotBuild(
            (),
            f"there is no room for two {what} from each face of the board: they would meet inside it",
            f"make the run at least {first + 3 * least - last:.0f} mm longer, or use another joint there",
        )
    comb = [to_step(first + i * (last - first) / gaps, shop.fence_step_mm) for i in range(gaps + 1)]
    return tuple(to_step(u, shop.step_mm) for u in comb[turn % 2 :: 2])


def stand_between(taken: tuple[float, ...], *, what: str, pitch: float, apart: float, shop: Shop) -> tuple[float, ...]:
    """Places between the members of an earlier row: shared evenly in each gap, none further apart than `pitch`.

    `apart`: least distance from any other. Raises CannotBuild where no gap has room.
    """
    out: list[float] = []
    for low, high in pairwise(sorted(taken)):
        number = ceil((high - low) / pitch - 1e-9)
        each = (high - low) / number
        if each >= 2 * apart:
            out += [to_step(low + (i + 0.5) * each, shop.fence_step_mm) for i in range(number)]
    if not out:
        raise CannotBuild(
            (),
            f"there is no room for {what} between what stands in the run already",
            "give them a `first` and an `end` of their own, or fewer of the others",
        )
    return tuple(out)


def across_mm(asked: float | None, thickness: float, shop: Shop) -> float:
    """Distance across the thickness from the registering face: as asked, or the nearest setting to the middle."""
    return asked if asked is not None else to_step(thickness / 2, shop.fence_step_mm)


def depth_from_stops(wanted: float, shop: Shop) -> float:
    """The depth a machine can be set to that is nearest below `wanted`."""
    if not shop.depth_stops_mm:
        return down_to_step(wanted, 1.0) if wanted >= 1.0 else wanted
    below = [d for d in shop.depth_stops_mm if d <= wanted + 1e-9]
    return max(below) if below else min(shop.depth_stops_mm)


def stand_in(
    *,
    what: str,
    run_to: float,
    to_groove: bool,
    radius: float,
    first: float,
    pitch: float,
    number: int | None,
    shift: float,
    taken: tuple[float, ...],
    apart: float,
    shop: Shop,
) -> tuple[float, ...]:
    """Where bought connectors stand: as far from the one end of the run as from the other, the rest shared evenly.

    One alone stands in the middle. `shift` moves each towards the middle of the run, clear of the one on a divider's
    other face. Each is moved clear of what stands in the run already (`taken`) by `apart` or more.
    Raises CannotBuild (with an empty path) where there is no room.
    """
    clear = shop.clear_of_groove_mm + radius if to_groove else 0.0
    low, high = first, down_to_step(run_to - max(first, clear), shop.fence_step_mm)
    if number != 1 and high - low - 2 * shift < 2 * radius + apart:
        raise CannotBuild(
            (),
            f"two {what} do not fit in a run of {run_to:g} mm, {first:g} from each of its ends",
            f"make the run at least {2 * max(first, clear) + 2 * shift + 2 * radius + apart:g} mm, lower `first`, or "
            "write count = 1",
        )
    gaps = number - 1 if number is not None else max(1, ceil((high - low) / pitch - 1e-9))
    wanted = [(low + high) / 2] if gaps == 0 else [low + i * (high - low) / gaps for i in range(gaps + 1)]
    wanted = [u + (shift if i <= gaps / 2 else -shift) for i, u in enumerate(wanted)]
    return tuple(_moved_clear(to_step(u, shop.fence_step_mm), taken, apart, what, run_to, shop) for u in wanted)


def _moved_clear(u: float, taken: tuple[float, ...], apart: float, what: str, run_to: float, shop: Shop) -> float:
    """The nearest place to u that is `apart` from all that is taken."""
    tries = [u, *(to_step(t + sign * apart, shop.step_mm) for t in taken for sign in (-1.0, 1.0))]
    free = [x for x in tries if 0 < x < run_to and all(abs(x - t) >= apart - 1e-9 for t in taken)]
    if not free:
        raise CannotBuild((), f"there is no room for {what} between what stands in the run already",
                          "give them a `first` of their own, or fewer of the others")  # fmt: skip
    return min(free, key=lambda x: (abs(x - u), x))
