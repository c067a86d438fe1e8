"""Do the two sockets of every clothes rail look at each other, by the printed numbers of their bores?

The rail is level and square if each bore of the left socket has one of the right at the same height and the same
distance from the front, and its tube goes between them if it is shorter than the two faces are apart.
"""

from collections.abc import Iterator
from typing import NamedTuple

from rodwork.model.clothes_rail import ClothesRail
from rodwork.setout.proving.hung import Bored
from rodwork.setout.proving.trouble import DUST, Trouble, mm


class Socketed(NamedTuple):
    """What is wrong with a rail, and the bore and the board that it is told at."""

    part: str
    bore: str
    trouble: Trouble


def sockets(rail: ClothesRail, bored: dict[str, Bored], half_step: float) -> Iterator[Socketed]:
    """What is wrong with the bores of one rail, the first thing at each pair."""
    for left, right in zip(*rail.bores, strict=True):
        trouble = _bored(rail, left, right, bored) or _level(rail, bored[left], bored[right], half_step)
        if trouble is not None:
            yield Socketed(rail.uprights[0], left, trouble)


def _bored(rail: ClothesRail, left: str, right: str, bored: dict[str, Bored]) -> Trouble | None:
    for id, upright in zip((left, right), rail.uprights, strict=True):
        if id not in bored:
            return Trouble("missing", f"a clothes rail has no bore {id}")
        if bored[id].part != upright:
            return Trouble("wrong board", f"{id} is in another board", upright, bored[id].part)
    return None


def _level(rail: ClothesRail, left: Bored, right: Bored, half_step: float) -> Trouble | None:
    if abs(left.into[0] + 1) > DUST or abs(right.into[0] - 1) > DUST:
        return Trouble("pair", "the sockets of a clothes rail are bored away from each other")
    for axis, word in ((2, "high"), (1, "far from the front")):
        if abs(left.at[axis] - right.at[axis]) > 2 * half_step + DUST:
            what = f"the two sockets of a clothes rail are not equally {word}"
            return Trouble("pair", what, mm(left.at[axis]), mm(right.at[axis]))
    apart, tube = right.at[0] - left.at[0], rail.high[0] - rail.low[0]
    if tube > apart + DUST:
        return Trouble("pair", "the tube of a clothes rail is too long", f"{mm(apart)} or less", mm(tube))
    return None
