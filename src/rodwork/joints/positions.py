"""Where fixings stand along a run: the position rule of design section 3."""

from itertools import pairwise
from math import ceil

from rodwork.geometry.rounding import down_to_step, to_step
from rodwork.model.job import CannotBuild
from rodwork.model.shop import Shop

LEAST_FROM_FRONT_MM = 15.0  # a row moved nearer the front than this would break the edge; common practice, no source


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
    from_end = (shop.clear_of_groove_mm + radius if to_groove else end) + inward
    last = down_to_step(run_to - from_end, shop.fence_step_mm)
    if last - first < least_apart:
        room = first + least_apart + from_end
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
