"""What a feature looks like from where its tool comes in, and cut through its middle: by kind, in the part frame."""

from functools import singledispatch
from math import asin, cos, pi, sin, sqrt

from rodwork.geometry.vec import Vec, along, cross, scale
from rodwork.model.feature import ArcSlot, Bore, Channel, Feature, Keyhole, Pocket

Point = tuple[float, float]
_STEPS = 24  # of a full circle on paper
_ORIGIN: Vec = (0.0, 0.0, 0.0)


@singledispatch
def mouth(feature: Feature) -> tuple[Vec, ...]:
    """The outline of its mouth as steps from the middle of it, part frame, mm."""
    raise ValueError(f"{feature.id}: no drawing yet for a {feature.kind}")


@singledispatch
def profile(feature: Feature) -> tuple[Point, ...]:
    """It cut through along its run: (from the middle, deep), from one side of the mouth to the other, mm."""
    raise ValueError(f"{feature.id}: no drawing yet for a {feature.kind}")


def widest(feature: Feature) -> float:
    """How far its mouth reaches at the most, from one side to the other, mm."""
    return 2 * max(sqrt(x * x + y * y + z * z) for x, y, z in mouth(feature))


def _circle(u: Vec, v: Vec) -> tuple[Vec, ...]:
    angles = (2 * pi * k / _STEPS for k in range(_STEPS))
    return tuple(along(_ORIGIN, (u, cos(a)), (v, sin(a))) for a in angles)


def _square(half: float, deep: float) -> tuple[Point, ...]:
    return ((-half, 0.0), (-half, deep), (half, deep), (half, 0.0))


@mouth.register
def _(bore: Bore) -> tuple[Vec, ...]:
    r = bore.diameter / 2
    return _circle(scale(bore.along, r), scale(cross(bore.into, bore.along), r))


@profile.register
def _(bore: Bore) -> tuple[Point, ...]:
    return _square(bore.diameter / 2, bore.depth)


@mouth.register
def _(pocket: Pocket) -> tuple[Vec, ...]:
    """An ellipse, as long as a hole askew leaves in the face."""
    x, y, slope = pocket.into
    level = sqrt(x * x + y * y)
    r = pocket.diameter / 2
    return _circle(scale(pocket.along, r), scale((x / level, y / level, 0.0), r / abs(slope)))


@profile.register
def _(pocket: Pocket) -> tuple[Point, ...]:
    return _square(pocket.diameter / 2, pocket.depth * abs(pocket.into[2]))


@mouth.register
def _(channel: Channel) -> tuple[Vec, ...]:
    """A rectangle; an end that is run on by the cutter is rounded by it."""
    u, v = channel.along, cross(channel.into, channel.along)
    half, side = channel.length / 2, channel.width / 2
    low, high = channel.both_ends
    points: list[Point] = []
    for end, sign in ((high, 1.0), (low, -1.0)):
        r = min(channel.end_radius, side) if end == "round" else 0.0
        quarter = [pi / 2 * k / (_STEPS // 4) for k in range(_STEPS // 4 + 1)] if r else [0.0]
        corner = [(half - r + r * cos(a), side - r + r * sin(a)) for a in quarter]
        turned = [*((a, -b) for a, b in reversed(corner)), *corner]
        points += [(sign * a, sign * b) for a, b in turned]
    return tuple(along(_ORIGIN, (u, a), (v, b)) for a, b in points)


@profile.register
def _(channel: Channel) -> tuple[Point, ...]:
    return _square(channel.length / 2, channel.depth)


@mouth.register
def _(slot: ArcSlot) -> tuple[Vec, ...]:
    u, v = scale(slot.along, slot.length / 2), scale(cross(slot.into, slot.along), slot.thickness / 2)
    return tuple(along(_ORIGIN, (u, i), (v, j)) for i, j in ((1, -1), (1, 1), (-1, 1), (-1, -1)))


@profile.register
def _(slot: ArcSlot) -> tuple[Point, ...]:
    """The arc of the cutter."""
    half, rise = slot.length / 2, slot.cutter_radius - slot.depth
    across = (half * (2 * k / _STEPS - 1) for k in range(_STEPS + 1))
    return tuple((x, sqrt(slot.cutter_radius**2 - x * x) - rise) for x in across)


@mouth.register
def _(keyhole: Keyhole) -> tuple[Vec, ...]:
    """The entry bore, and the slot that leaves it and ends round about the screw's home; from half way between."""
    u, v = keyhole.along, cross(keyhole.into, keyhole.along)
    half, R, r = keyhole.slide / 2, keyhole.entry_diameter / 2, keyhole.slot_width / 2
    leaves = asin(min(r / R, 1.0))  # where the slot's walls meet the entry bore, from its axis
    big = [pi - leaves - k * (2 * pi - 2 * leaves) / _STEPS for k in range(_STEPS + 1)]
    small = [-pi / 2 - k * pi / (_STEPS // 2) for k in range(_STEPS // 2 + 1)]
    points = [(half + R * cos(a), R * sin(a)) for a in big] + [(-half + r * cos(a), r * sin(a)) for a in small]
    return tuple(along(_ORIGIN, (u, i), (v, j)) for i, j in points)


@profile.register
def _(keyhole: Keyhole) -> tuple[Point, ...]:
    """From the far side of the home to the far side of the entry bore, the head's room below the lip."""
    half, R, head = keyhole.slide / 2, keyhole.entry_diameter / 2, keyhole.head_width / 2
    lip, floor = keyhole.depth - keyhole.head_depth, keyhole.depth
    neck = -half - keyhole.slot_width / 2
    return ((neck, 0.0), (neck, lip), (-half - head, lip), (-half - head, floor), (half + R, floor), (half + R, 0.0))
