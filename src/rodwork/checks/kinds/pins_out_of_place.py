"""A bore for a shelf pin that is off its board or behind another, and a loose shelf that does not lie on four pins."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from rodwork.checks.check import Check
from rodwork.checks.holes import mouth_of, place_in, word
from rodwork.checks.spot import COMMON, Spot, listed, mm, told_once
from rodwork.checks.standing import Stood, standing, stood, stood_at
from rodwork.geometry.polygon import inside
from rodwork.geometry.vec import Vec, along, neg
from rodwork.model.feature import Bore
from rodwork.model.finding import Finding
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CODE = "pins-out-of-place"
LEVEL_MM = 0.6  # a pin that is out by more lets the shelf rock; common practice, no source
REACH_MM = 6.0  # how far a pin stands out of its bore at the least; common practice, no source
_HAIR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pin:
    """One bore: its board, the middle of its mouth and the way out of it, in the cabinet."""

    part: Part
    bore: Bore
    at: Vec
    out: Vec


def look(rod: Rod) -> Iterable[Finding]:
    """Every bore for a shelf pin, then every loose shelf."""
    for cabinet in rod.boxes:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    pins, boards = _pins(cabinet), standing(cabinet)
    for pin in pins:
        yield from _off_its_face(pin, boards)
    for shelf in (stood(p) for p in cabinet.parts if p.role == "loose shelf"):
        yield from _unheld(shelf, pins)


def _pins(cabinet: RodCabinet) -> tuple[_Pin, ...]:
    return tuple(
        _Pin(part=p, bore=f, at=p.pose.to_cabinet(f.at), out=neg(p.pose.direction_to_cabinet(f.into)))
        for p in cabinet.parts
        for f in p.features
        if isinstance(f, Bore) and f.role == "shelf_pin"
    )


def _off_its_face(pin: _Pin, boards: Sequence[Stood]) -> Iterator[Spot]:
    part, ids = pin.part, (pin.bore.id,)
    if not inside(pin.bore.at[:2], part.outline):
        yield Spot(
            severity="fault", parts=(part,), ids=ids, at=word(part, mouth_of(pin.bore)),
            what="a bore for a shelf pin stands off the board", place=place_in(part, pin.bore),
            mend="leave it out: ask for fewer `holes` under pins, or for the shelf in another opening",
            source="geometry",
        )  # fmt: skip
        return
    before = along(pin.at, (pin.out, REACH_MM / 2))
    behind = next((b for b in boards if b.part.id != part.id and _within(before, b)), None)
    if behind is not None:
        yield Spot(
            severity="fault", parts=(part, behind.part), ids=ids,
            what="a bore for a shelf pin lies behind the end of the other board", place=place_in(part, pin.bore),
            mend="leave it out: ask for fewer `holes` under pins, or another `start`", source="geometry",
        )  # fmt: skip


def _within(point: Vec, board: Stood) -> bool:
    """Whether a point lies in a board; of one on a slope, in what of it lies there."""
    if board.part.pose.slopes and board.low[0] < point[0] < board.high[0]:
        board = stood_at(board.part, point[0])
    return all(board.low[k] + _HAIR < point[k] < board.high[k] - _HAIR for k in range(3))


def _unheld(shelf: Stood, pins: Sequence[_Pin]) -> Iterator[Spot]:
    """Four pins hold it: at each end one before its middle and one behind it, all level with its underside."""
    under = [p for p in pins if abs(p.at[2] + p.bore.diameter / 2 - shelf.low[2]) <= LEVEL_MM]
    middle = (shelf.low[1] + shelf.high[1]) / 2
    ends = {"left": (shelf.low[0], 1.0), "right": (shelf.high[0], -1.0)}
    short = []
    for end, (x, out) in ends.items():
        here = [p.at[1] for p in under if p.out[0] * out > 0 and 0 <= (x - p.at[0]) * out < REACH_MM]
        here = [y for y in here if shelf.low[1] < y < shelf.high[1]]
        if not any(y < middle for y in here) or not any(y > middle for y in here):
            short.append(end)
    if short:
        yield Spot(
            severity="fault", parts=(shelf.part,),
            what=f"at its {listed(short)} end there are not two pins under it, one before and one behind the middle of "
                 f"its {mm(shelf.high[1] - shelf.low[1])}: it tips",
            mend="put both rows under the shelf, `front` and `back` of the pins, and bore them at one height at both "
                 "ends", source=f"geometry; {COMMON}",
        )  # fmt: skip


CHECK = Check(code=CODE, title="Pins off the board, behind a board, or too few under a shelf", look=look)
