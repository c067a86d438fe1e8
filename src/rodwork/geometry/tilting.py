"""A board got in through an opening, seen on its end: a rectangle of length by thickness that tilts and goes in. mm.

With R the diagonal and a = atan(thickness / length), tilted by an angle it takes

    across   length cos + thickness sin = R cos(angle - a)
    up       length sin + thickness cos = R sin(angle + a)

so that the least angle at which it is no wider than w is a + acos(w / R), and the largest at which it is no higher
than h is asin(h / R) - a. Up grows with the angle until it is R, and ends at the length.
"""

from dataclasses import dataclass
from math import acos, asin, atan2, hypot, inf, pi, sin, tan

_HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Doorway:
    """What a board goes through, and the room behind it in which it turns level again."""

    wide: float
    high: float
    room_wide: float
    room_high: float


def across_and_up(length: float, thickness: float, angle: float) -> tuple[float, float]:
    """What a board takes, tilted by an angle from nought to a right one (radians)."""
    diagonal, own = hypot(length, thickness), atan2(thickness, length)
    return diagonal * sin(pi / 2 - angle + own), diagonal * sin(angle + own)


def goes_in_tilted(length: float, thickness: float, through: Doorway) -> bool:
    """Whether it goes through level, or tilted by one angle and then back to level within the room."""
    if length <= through.wide + _HAIR and thickness <= through.high + _HAIR:
        return True
    return least_height(length, thickness, through) <= min(through.high, through.room_high) + _HAIR or _on_its_end(
        length, thickness, through
    )


def least_height(length: float, thickness: float, through: Doorway) -> float:
    """The height that is needed to tilt it through a doorway so wide; infinite where no height would do.

    Turned back to level it is, for a moment, as wide as its diagonal: the room must take that.
    """
    diagonal = hypot(length, thickness)
    if diagonal > through.room_wide + _HAIR or thickness > through.wide + _HAIR:
        return inf
    if length <= through.wide + _HAIR:
        return thickness
    own = atan2(thickness, length)
    return diagonal * sin(min(2 * own + acos(min(through.wide / diagonal, 1.0)), pi / 2))


def _on_its_end(length: float, thickness: float, through: Doorway) -> bool:
    """Upright it takes no more than its length; to lie down it needs its diagonal."""
    diagonal = hypot(length, thickness)
    return (
        thickness <= through.wide + _HAIR
        and length <= through.high + _HAIR
        and diagonal <= min(through.room_high, through.room_wide) + _HAIR
    )


def goes_in_on_edge(length: float, thickness: float, wide: float, reach: float, wall: float, room: Doorway) -> bool:
    """Whether it goes in standing on its edge, pushed in endways at one angle on plan and then swung flat.

    `wide` is the doorway in a front `wall` thick; `reach` from the doorway's nearer jamb to the far wall of the room;
    `room.room_wide` and `room.room_high` are the room on plan: its width and its depth.

    It is turned as far as the depth allows, asin(depth / R) - a: a larger angle is narrower across, and crosses the
    front more squarely. Sliding along itself at an angle it takes thickness / sin + wall / tan of the doorway; its last
    end then goes straight back through the thickness of the front.
    """
    diagonal, own = hypot(length, thickness), atan2(thickness, length)
    if diagonal > room.room_wide + _HAIR:
        return False
    angle = asin(min(room.room_high / diagonal, 1.0)) - own if room.room_high < diagonal else pi / 2
    if angle <= _HAIR:
        return False
    takes = thickness / sin(angle) + (wall / tan(angle) if angle < pi / 2 - _HAIR else 0.0)
    return across_and_up(length, thickness, angle)[0] <= reach + _HAIR and takes <= wide + _HAIR
