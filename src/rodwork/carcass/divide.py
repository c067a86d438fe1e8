"""Sharing a clear width or height between boards: what is asked, what is left, and where each line comes."""

from dataclasses import dataclass

from rodwork.geometry.rounding import to_step
from rodwork.model.job import CannotBuild, Rest

LEAST_CLEAR_MM = 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Division:
    """Clear spaces from the datum, mm: (from, to) of each, and what was asked of it (None: the rest)."""

    spaces: tuple[tuple[float, float], ...]
    asked: tuple[float | None, ...]


def divide(
    start: float,
    end: float,
    board: float,
    asked: tuple[float | Rest, ...],
    step: float | None,
    path: tuple[str | int, ...],
    what: str,
) -> Division:
    """Clear spaces between boards of one thickness, from `start` to `end`.

    A line between asked sizes is exact; one that comes of sharing the rest is put where a rule can find it (to
    `step`), or left exact where boards of equal length matter more (None). Where no space is the rest, the last
    one takes what is left, and the checks say so.
    """
    clear = end - start - board * (len(asked) - 1)
    fixed = sum(a for a in asked if a != "rest")
    rests = sum(1 for a in asked if a == "rest")
    left = clear - (fixed if rests else sum(a for a in asked[:-1] if a != "rest"))
    each = left / rests if rests else left
    if each < LEAST_CLEAR_MM:
        whom = "each of the rest" if rests else "the last"
        short = f"{-left:g} too many" if left < 0 else f"which leaves {each:.1f} for {whom}"
        most = clear - LEAST_CLEAR_MM * max(rests, 1)
        raise CannotBuild(
            path,
            f"{what} do not fit: {max(clear, 0.0):g} mm are clear and {clear - left:g} are asked for, {short}",
            f"ask for {f'no more than {most:.1f} mm in all' if most > 0 else 'fewer'}, or make the cabinet larger",
        )
    sizes = [each if a == "rest" else a for a in asked]
    if not rests:
        sizes[-1] = left
    spaces = []
    low = start
    for i, size in enumerate(sizes):
        exact = "rest" not in asked[: i + 1] or "rest" not in asked[i + 1 :]
        high = end if i == len(sizes) - 1 else low + size
        if step and not exact:
            high = to_step(high, step)
        spaces.append((round(low, 6), round(high, 6)))
        low = high + board
    return Division(spaces=tuple(spaces), asked=tuple(None if a == "rest" else a for a in asked))
