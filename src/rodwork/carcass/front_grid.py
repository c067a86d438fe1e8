"""Fronts on the grid of system holes: every front a whole number of modules of 32 mm high, less the gap.

Lines lie at every module up from half a gap under the lowest front; a gap is centred on each line that it falls on. So
whatever is bored for a front lies at the same height in it, on every front of as many modules: hinge plates and runners
take the heights of the pins' grid.
"""

from itertools import pairwise
from math import floor

from rodwork.carcass.divide import divide
from rodwork.model.fronts import MODULE_MM, Doors, Drawers
from rodwork.model.job import Cabinet, CannotBuild, Rest

SAME_MM = 0.01

Span = tuple[float, float]


def spaces(cabinet: Cabinet, bay: int, low: float, high: float, shelf: float) -> tuple[float | Rest, ...]:
    """The clear heights in a bay (from 0), the shelves that share what is left put behind lines of the grid.

    `low` and `high`: inside the bottom and the top; `shelf`: thickness of a shelf. Raises CannotBuild.
    """
    asked = cabinet.in_bays[bay].openings
    if not cabinet.on_grid:
        return asked
    start = _start(cabinet)
    if "rest" not in asked[:-1]:
        return asked
    even = divide(low, high, shelf, asked, None, cabinet.openings_path(bay), "the openings").spaces
    out, at = list[float | Rest](), low
    for i, ((_, top), (above, _)) in enumerate(pairwise(even)):
        middle = (top + above) / 2
        if "rest" in asked[: i + 1] and "rest" in asked[i + 1 :]:
            middle = start + round((middle - start) / MODULE_MM) * MODULE_MM
        out.append(round(middle - shelf / 2 - at, 6))
        at = middle + shelf / 2
    return (*out, "rest")


def _start(cabinet: Cabinet) -> float:
    """The lowest line: half a gap under the lowest front. Raises CannotBuild where the fronts cannot be on one grid."""
    fronts: list[Doors | Drawers] = [*cabinet.doors, *cabinet.drawers]
    path = (*cabinet.place.path, "fronts_on_grid")
    if not fronts:
        raise CannotBuild(
            path, "there are no fronts to be on the grid", "give it doors or drawers, or leave the word out"
        )
    inset = any(f.inset if isinstance(f, Drawers) else f.style == "inset" for f in fronts)
    if inset or cabinet.face_frame is not None:
        what = "inset fronts lie between boards" if inset else "fronts on a face frame follow its rails"
        raise CannotBuild(
            path, f"{what}, and not on a grid", "hang overlay fronts on the carcass, or leave the word out"
        )
    if abs(cabinet.pins.pitch_mm - MODULE_MM) > SAME_MM:
        raise CannotBuild(
            path, f"modules are {MODULE_MM:g}, and the holes are {cabinet.pins.pitch_mm:g} apart",
            f"write pitch = {MODULE_MM:g} under pins, or leave fronts_on_grid out",
        )  # fmt: skip
    margins = {(f.ends_mm, f.between_mm) for f in fronts}
    if len(margins) > 1:
        told = " and ".join(f"{ends:g} and {between:g}" for ends, between in sorted(margins))
        raise CannotBuild(
            path, f"fronts on one grid have one gap, and theirs (ends and between) are {told}",
            "give doors and drawers the same ends and the same between",
        )  # fmt: skip
    ((ends, between),) = margins
    return cabinet.toe_mm + ends - between / 2


def refuse_off(cabinet: Cabinet, front: Span, between: float, place: tuple[str | int, ...]) -> None:
    """Refuse a front, or a stack of them, whose edges lie on no lines. Raises CannotBuild with what would do."""
    if not cabinet.on_grid:
        return
    start = _start(cabinet)
    low, high = front[0] - between / 2, front[1] + between / 2
    for word, at in (("lower", low), ("upper", high)):
        off = (at - start) % MODULE_MM
        if min(off, MODULE_MM - off) > SAME_MM:
            raise CannotBuild(place, *_off(cabinet, front, between, word, off))


def _off(cabinet: Cabinet, front: Span, between: float, word: str, off: float) -> tuple[str, str]:
    """What is wrong with an edge that lies `off` over a line, and how to mend it."""
    modules = (front[1] - front[0] + between) / MODULE_MM
    what = (
        f"fronts are to be whole modules of {MODULE_MM:g} less {between:g}, and from {front[0]:g} to {front[1]:g} up "
        f"these are {modules:.2f} modules: their {word} edge lies {off:.1f} over a line"
    )
    if word == "upper" and front[1] > cabinet.height_mm - MODULE_MM:
        lower, higher = (cabinet.height_mm - off, cabinet.height_mm - off + MODULE_MM)
        whole = floor(modules)
        return what, f"make the cabinet {lower:g} high for {whole} modules, or {higher:g} for {whole + 1}"
    return what, f"put the shelf there {off:.1f} lower or {MODULE_MM - off:.1f} higher: openings = [...]"


def heights(cabinet: Cabinet, drawers: Drawers, room: float, path: tuple[str | int, ...]) -> tuple[float | None, ...]:
    """The heights of a stack of fronts that has this room: what is shared comes in whole modules, most of them below.

    Raises CannotBuild where a height that is given is no whole number of modules less the gap.
    """
    asked = drawers.heights_mm
    if not cabinet.on_grid:
        return asked
    gap = drawers.between_mm
    given = [None if h is None else (h + gap) / MODULE_MM for h in asked]
    wrong = next((i for i, n in enumerate(given) if n is not None and abs(n - round(n)) * MODULE_MM > SAME_MM), None)
    if wrong is not None:
        n = floor(given[wrong] or 0.0)
        raise CannotBuild(
            path, f"a front {asked[wrong]:g} high is {given[wrong]:.2f} modules of {MODULE_MM:g} less {gap:g}",
            f"write {max(n, 2) * MODULE_MM - gap:g} or {max(n, 2) * MODULE_MM + MODULE_MM - gap:g}",
        )  # fmt: skip
    every = round((room + gap) / MODULE_MM)
    left = every - sum(round(n) for n in given if n is not None)
    shares = sum(1 for n in given if n is None)
    if left and not shares:
        raise CannotBuild(
            path, f"there are {every} modules for the fronts, and {every - left} are asked for",
            f"write modules or heights that come to {every} modules in all, or, where shelves bound their opening, "
            f"make it {abs(left) * MODULE_MM:g} {'lower' if left > 0 else 'higher'}",
        )  # fmt: skip
    each, over = divmod(left, shares) if shares else (0, 0)
    out = list[float | None]()
    for height in asked:
        modules = each + (over > 0)
        over -= height is None
        out.append(modules * MODULE_MM - gap if height is None else height)
    return tuple(out)


def hole_heights(cabinet: Cabinet) -> tuple[float, ...]:
    """The heights of the pins' grid on the sides of a cabinet whose fronts are on the grid; none of another."""
    if not cabinet.on_grid:
        return ()
    p = cabinet.pins
    return tuple(
        round(p.start_mm + n * p.pitch_mm, 6) for n in range(int((cabinet.height_mm - p.start_mm) // p.pitch_mm))
    )
