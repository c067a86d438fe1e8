"""The largest upright box that goes into a surveyed opening, and where a unit stands in it.

A box that stands upright and square to the front touches no wall if its left is right of the left wall at every depth
and height that it takes up, and its right left of the right wall. Walls are straight between readings in both ways,
so that a wall comes furthest in at a reading or at a corner of the box: those places are asked, and no others.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil, hypot, inf, sqrt
from typing import Any

from rodwork.geometry.rounding import down_to_step
from rodwork.geometry.vec import clean
from rodwork.model.alcove import (
    CLEAR_OF_SERVICE_MM,
    LEAST_AT_HINGES_MM,
    SPARE_TO_PLANE_MM,
    Alcove,
    Behind,
    Gap,
    ScribeStrip,
    Side,
)
from rodwork.model.fronts import Doors
from rodwork.model.job import BackCutOut, Board
from rodwork.model.survey import Moulding, Survey

# Common practice, no source: 20 to 40 of scribe a wall. What a check asks for as well stands in model/alcove.py.
LEAST_SCRIBE_MM = 25.0
ROUND_TO_MM = 10.0
CLEAR_OF_MOULDING_MM = 3.0
BEHIND_MM = 10.0  # a wall bowed by that much does not push the unit forward
UNDER_CEILING_MM = 10.0
TILT_CLEAR_MM = 3.0
LEAST_SIZE_MM = 100.0

Corner = tuple[float, float]  # across, up


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """What is asked of a unit in an opening, mm; sizes that follow the opening are None.

    Pairs are (left, right): the least scribe, the scribe as it is supplied (None: by the gap), whether a door hangs
    there. `lifted`: it is hung, not tilted up from the floor.
    """

    width: float | None
    height: float | None
    depth: float | None
    above_floor: float
    least: tuple[float, float]
    supplied: tuple[float | None, float | None]
    hinged: tuple[bool, bool]
    board: str
    board_mm: float
    round_to: float
    lifted: bool


def ask_of(
    sizes: Mapping[str, float], above_floor: float, scribes: Mapping[str, Any], board: Board,
    hinged: tuple[bool, bool], lifted: bool,
) -> Ask:  # fmt: skip
    """What a cabinet asks: the sizes that it says itself, its words for scribes, their board, its doors."""
    least = [scribes.get("least", LEAST_AT_HINGES_MM if h else LEAST_SCRIBE_MM) for h in hinged]
    return Ask(
        width=sizes.get("width"), height=sizes.get("height"), depth=sizes.get("depth"), above_floor=above_floor,
        least=(least[0], least[1]), supplied=(scribes.get("left"), scribes.get("right")), hinged=hinged,
        board=board.name, board_mm=board.actual_mm, round_to=scribes.get("round_to", ROUND_TO_MM), lifted=lifted,
    )  # fmt: skip


def hinged_sides(doors: tuple[Doors, ...], bays: int) -> tuple[bool, bool]:
    """Whether a door hangs on the left side of the first bay, and on the right side of the last."""
    left = right = False
    for asked in doors:
        numbers = asked.bays or tuple(range(1, bays + 1))
        hung = asked.hung * len(numbers) if len(asked.hung) == 1 else asked.hung
        by_bay = dict(zip(numbers, hung, strict=False))
        left = left or by_bay.get(1) in ("left", "pair")
        right = right or by_bay.get(bays) in ("right", "pair")
    return left, right


class NoRoom(Exception):  # noqa: N818 - it is a finding about the opening, not a fault of ours
    """An opening that no unit can stand in: the size that it does not give, and why."""

    def __init__(self, size: str, why: str) -> None:
        super().__init__(why)
        self.size = size
        self.why = why


def stand_in(survey: Survey, ask: Ask) -> Alcove:
    """Where the unit stands, its sizes where they follow the opening, its gaps and scribes. Raises NoRoom."""
    low, under = survey.high_point + ask.above_floor, _under(survey)
    reach = under if ask.height is None else low + ask.height
    if reach is None:
        raise NoRoom("height", "no ceiling was measured")
    behind = _least_depth(survey, low, reach)
    depth = ask.depth if ask.depth is not None else _depth(behind, ask)
    height = ask.height if ask.height is not None else _height(survey, ask, reach - low, depth)
    high = low + height
    room_left, held_left = _limit(survey, "left", depth, (low, high), 0.0, 0.0)
    room_right, held_right = _limit(survey, "right", depth, (low, high), 0.0, 0.0)
    left, _ = _limit(survey, "left", depth, (low, high), ask.least[0], CLEAR_OF_MOULDING_MM)
    right, _ = _limit(survey, "right", depth, (low, high), ask.least[1], CLEAR_OF_MOULDING_MM)
    width = ask.width if ask.width is not None else _rounded("width", right - left, ask)
    x = round((left + right - width) / 2, 3)
    strips = [_strip(survey, ask, side, x if side == "left" else x + width, (low, high)) for side in _SIDES]
    tilt = None if ask.lifted or survey.lowest_ceiling is None else hypot(height, depth)
    return Alcove(
        survey=survey.name, at=(x, 0.0, round(low, 3)), size=(width, height, depth),
        room_x=round(room_left, 3), room_width=round(room_right - room_left, 3),
        room_height=None if under is None else round(under - low, 3),
        room_depth=None if behind is None else round(behind, 3), held=(held_left, held_right),
        moves=(round(x - left, 3), round(right - width - x, 3)),
        gaps=tuple(_gaps(survey, x, width, (low, high))),
        scribes=tuple(strip for strip in strips if strip.widest > 0),  # else there is no gap to close
        feet=_feet(survey, x, width, depth, low),
        behind=tuple(_behind(survey, (x, low), (width, height, depth))), tilt=None if tilt is None else round(tilt, 3),
        headroom=None if tilt is None or survey.lowest_ceiling is None
        else round(survey.lowest_ceiling - survey.high_point, 3),
    )  # fmt: skip


_SIDES: tuple[Side, Side] = ("left", "right")


def largest_in(survey: Survey) -> Alcove | None:
    """The largest unit that would stand in an opening, scribed both sides; None of a wall, or of a mere slot."""
    if survey.depths_left is None:
        return None
    height = None if survey.ceiling is not None else survey.heights[-1] - survey.high_point
    ask = Ask(
        width=None, height=height, depth=None, above_floor=0.0, least=(LEAST_SCRIBE_MM, LEAST_SCRIBE_MM),
        supplied=(None, None), hinged=(False, False), board="", board_mm=0.0, round_to=ROUND_TO_MM, lifted=False,
    )  # fmt: skip
    try:
        return stand_in(survey, ask)
    except NoRoom:
        return None


def _rounded(size: str, mm: float, ask: Ask) -> float:
    """A size that follows the opening, down to a round one."""
    if mm < LEAST_SIZE_MM:
        raise NoRoom(size, f"the opening leaves {max(mm, 0.0):.0f} mm for its {size}")
    return down_to_step(mm, ask.round_to)


# up and back ----------------------------------------------------------------------------------------------------


def _under(survey: Survey) -> float | None:
    """What the unit must stay under: the lowest of the ceiling, or of a cornice that stays; None: not measured."""
    if survey.lowest_ceiling is None:
        return None
    return survey.lowest_ceiling - (survey.cornice.height if survey.cornice and survey.cornice.stays else 0.0)


def _height(survey: Survey, ask: Ask, room: float, depth: float) -> float:
    """The largest height in so much room that can still be tilted up."""
    most = room - UNDER_CEILING_MM
    if not ask.lifted and survey.lowest_ceiling is not None:
        headroom = survey.lowest_ceiling - survey.high_point - TILT_CLEAR_MM
        most = min(most, sqrt(max(headroom**2 - depth**2, 0.0)))
    return _rounded("height", most, ask)


def _depth(behind: float | None, ask: Ask) -> float:
    if behind is None:
        raise NoRoom("depth", "no depth was measured")
    return _rounded("depth", behind - BEHIND_MM, ask)


def _least_depth(survey: Survey, low: float, high: float) -> float | None:
    """How deep the opening is at its shallowest, past skirting and cornice of the back wall; None of a wall alone."""
    if survey.depths_left is None:
        return None
    found = []
    for (a, b), out, _ in _zones(survey, "back", (low, high)):
        for z in _places(survey, a, b):
            ends = (survey.left_at(survey.deep, z), survey.right_at(survey.deep, z))
            found += [back - out for x in ends if (back := survey.back_at(x, z)) is not None]
    return min(found)


# across ---------------------------------------------------------------------------------------------------------


def _limit(
    survey: Survey, side: Side, depth: float, up: tuple[float, float], off_wall: float, off_moulding: float
) -> tuple[float, str]:
    """How far to one side the box may reach, so far off wall and mouldings; and the reading that holds it."""
    sign = 1.0 if side == "left" else -1.0
    wall = survey.left_at if side == "left" else survey.right_at
    worst, held = -inf, ""
    for (low, high), out, what in _zones(survey, side, up):
        clear = off_moulding + out if out else off_wall
        for z in _places(survey, low, high):
            for y in _back_and_front(survey, depth):
                at = sign * wall(y, z) + clear
                if at > worst + 1e-9:
                    worst, held = at, f"the {what} on the {side}, {_spot(y, z)}"
    return sign * worst, held


def _spot(y: float, z: float) -> str:
    where = "on the line" if not round(z) else f"{abs(z):.0f} {'above' if z > 0 else 'below'} the line"
    return f"{'at the back' if y else 'at the front'}, {where}"


def _zones(survey: Survey, wall: str, up: tuple[float, float]) -> Iterator[tuple[tuple[float, float], float, str]]:
    """The heights of the box with how far what comes there stands out: the wall all the way, skirting, cornice."""
    low, high = up
    yield (low, high), 0.0, "wall"
    floor, ceiling = _ends(survey, wall)
    if survey.skirting and survey.skirting.stays and low < floor + survey.skirting.height:
        yield (low, min(high, floor + survey.skirting.height)), survey.skirting.out, "skirting"
    if survey.cornice and survey.cornice.stays and ceiling is not None and high > ceiling - survey.cornice.height:
        yield (max(low, ceiling - survey.cornice.height), high), survey.cornice.out, "cornice"


def _ends(survey: Survey, wall: str) -> tuple[float, float | None]:
    """The highest floor and the lowest ceiling at one wall: skirting and cornice start from them."""
    if wall == "back":
        return survey.high_point, survey.lowest_ceiling
    n = 0 if wall == "left" else -1
    floor = max(survey.floor[n], survey.floor_back[n])
    return floor, None if survey.ceiling is None else survey.ceiling[n]


def _places(survey: Survey, low: float, high: float) -> tuple[float, ...]:
    """The heights between which walls are straight."""
    return (low, *(z for z in survey.heights if low < z < high), high)


def _back_and_front(survey: Survey, depth: float) -> tuple[float, ...]:
    return (0.0, depth) if depth <= survey.deep or not survey.deep else (0.0, survey.deep, depth)


# what is left ---------------------------------------------------------------------------------------------------


def _gaps(survey: Survey, x: float, width: float, up: tuple[float, float]) -> Iterator[Gap]:
    """Left and right gap at the bottom and top of the unit and at each reading, front and back as those were taken."""
    for z in _places(survey, *up):
        for y in sorted({0.0, survey.deep}):
            yield Gap(
                height=round(z, 3), depth=y, left=round(x - survey.left_at(y, z), 3),
                right=round(survey.right_at(y, z) - x - width, 3),
            )  # fmt: skip


def _strip(survey: Survey, ask: Ask, side: Side, edge: float, up: tuple[float, float]) -> ScribeStrip:
    """The scribe of one side, whose straight edge lies against the carcass at x = edge, its face at the front."""
    n, sign = _SIDES.index(side), 1.0 if side == "left" else -1.0
    wall = survey.left_at if side == "left" else survey.right_at

    def gap(z: float, y: float = 0.0) -> float:
        return sign * (edge - wall(y, z))

    over = [gap(z, y) for z in _places(survey, *up) for y in (0.0, ask.board_mm)]
    widest = max(over)
    supplied = ask.supplied[n]
    rough = supplied if supplied is not None else float(ceil(round(widest + SPARE_TO_PLANE_MM, 6)))
    bottom, top = up
    off = [rough - gap(z) for z in (bottom, (bottom + top) / 2, top)]
    return ScribeStrip(
        side=side, board=ask.board, rough=rough, least=round(min(over), 3), widest=round(widest, 3),
        take_off=(round(off[0], 3), round(off[1], 3), round(off[2], 3)), foot=_foot(survey, side, bottom),
        hinged=ask.hinged[n],
    )  # fmt: skip


def _foot(survey: Survey, side: Side, bottom: float) -> tuple[float, float] | None:
    skirting: Moulding | None = survey.skirting
    if skirting is None or not skirting.stays:
        return None
    over = _ends(survey, side)[0] + skirting.height - bottom
    return (round(over, 3), skirting.out) if over > 0 else None


def _behind(survey: Survey, at: tuple[float, float], size: tuple[float, float, float]) -> Iterator[Behind]:
    """Services that lie within the unit's height and width, or beside its depth, from its own lower left corner."""
    (x, z), (width, height, depth) = at, size
    for s in survey.services:
        (along, up), (long, high) = s.low, s.size
        z0, z1 = up - z, up + high - z
        if s.wall == "back":
            wall = survey.back_at(along + long / 2, up + high / 2)
            across, deep = (along - x, along + long - x), ((wall or depth) - s.out, wall or depth)
        else:
            side = survey.left_at(along, up) - x if s.wall == "left" else survey.right_at(along, up) - x
            across = (side, side + s.out) if s.wall == "left" else (side - s.out, side)
            deep = (along, along + long)
        beside = s.wall != "back" and deep[0] < depth
        if z0 < height and z1 > 0 and (beside or (across[0] < width and across[1] > 0)):
            low, high_ = (across[0], deep[0], z0), (across[1], deep[1], z1)
            yield Behind(name=s.name, what=s.what, wall=s.wall, low=clean(low, 3), high=clean(high_, 3))


def cut_outs(alcove: Alcove, board_mm: float, own: tuple[BackCutOut, ...]) -> tuple[BackCutOut, ...]:
    """What is cut out of the back for services behind it, with room all round; those that meet become one.

    One that reaches into a side, top or bottom is left out: no cut-out in the back would free it. So is one that the
    maker has an `own` cut-out for: what that leaves round it is for a check to say.
    """
    boxes: list[BackCutOut] = []
    for b in alcove.behind:
        if any(_meet((b.low[0], b.low[2]), (b.high[0], b.high[2]), o.low_mm, o.high_mm) for o in own):
            continue
        low, high = [v - CLEAR_OF_SERVICE_MM for v in b.low], [v + CLEAR_OF_SERVICE_MM for v in b.high]
        inside = board_mm <= min(low[0], low[2]) and all(
            high[k] <= alcove.size[n] - board_mm for k, n in ((0, 0), (2, 1))
        )
        if b.wall == "back" and inside:
            boxes = _with(boxes, BackCutOut(
                what=f"the {b.what} “{b.name}”", low_mm=(low[0], low[2]), high_mm=(high[0], high[2]),
                out_mm=max(alcove.size[2] - low[1], 0.0),
            ))  # fmt: skip
    return tuple(boxes)


def _meet(low: Corner, high: Corner, other_low: Corner, other_high: Corner) -> bool:
    return all(low[k] <= other_high[k] and other_low[k] <= high[k] for k in (0, 1))


def _with(boxes: list[BackCutOut], new: BackCutOut) -> list[BackCutOut]:
    """The cut-outs with one more, joined with those that it meets."""
    for old in boxes:
        if _meet(old.low_mm, old.high_mm, new.low_mm, new.high_mm):
            both = BackCutOut(
                what=f"{old.what} and {new.what}", out_mm=max(old.out_mm, new.out_mm),
                low_mm=(min(old.low_mm[0], new.low_mm[0]), min(old.low_mm[1], new.low_mm[1])),
                high_mm=(max(old.high_mm[0], new.high_mm[0]), max(old.high_mm[1], new.high_mm[1])),
            )  # fmt: skip
            return _with([b for b in boxes if b is not old], both)
    return [*boxes, new]


def cut_out_of(said: Mapping[str, Any]) -> BackCutOut:
    """A cut-out as the job file has it, from the outside left and bottom of the carcass."""
    left, bottom, out = said["left"], said["bottom"], said.get("out", 0.0)
    return BackCutOut(
        what=f"the {said['for']}", low_mm=(left, bottom), high_mm=(left + said["width"], bottom + said["height"]),
        out_mm=out + CLEAR_OF_SERVICE_MM if out else 0.0,
    )  # fmt: skip


def _feet(survey: Survey, x: float, width: float, depth: float, low: float) -> tuple[float, float, float, float]:
    fl, fr, bl, br = (round(low - survey.floor_at(a, y), 3) for y in (0.0, depth) for a in (x, x + width))
    return fl, fr, bl, br
