"""Volumes in closed form, mm3. Nothing here knows how a solid is made: school geometry only.

With `segments` a circle is the regular polygon whose corners lie on it; with None it is the true circle.
"""

from math import pi, radians, sin, tan

from rodwork.model.feature import Bore


def disc(radius, segments):
    """Area of a circle: pi r2, or of the polygon of n flats in it: n/2 r2 sin(2 pi / n)."""
    if segments is None:
        return pi * radius**2
    return segments / 2 * radius**2 * sin(2 * pi / segments)


def polygon(points):
    """Area of a polygon by its corners (the surveyor's formula)."""
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs) / 2


def bore(feature, way_through, segments):
    """A cylinder, the cone of its point, and what a screw's head takes beside it (a truncated cone)."""
    r = feature.diameter / 2
    area = disc(r, segments)
    volume = area * way_through if feature.through else area * (feature.depth + feature.tip / 3)
    if feature.countersink:
        R = feature.countersink.diameter / 2
        high = (R - r) / tan(radians(feature.countersink.angle / 2))
        volume += high / 3 * disc(1, segments) * (R * R + R * r + r * r) - high * area
    return volume


def channel(feature, segments):
    """Length x width x depth, less what a round cutter leaves standing in the corners of its round ends."""
    radius = min(feature.end_radius, feature.width / 2)
    left_standing = radius**2 - disc(radius, segments) / 4
    corners = 2 * feature.both_ends.count("round")
    return (feature.length * feature.width - corners * left_standing) * feature.depth


def feature_volume(feature, size, segments):
    """What one feature takes out of a board of this size, where it meets no other."""
    if isinstance(feature, Bore):
        axis = max(range(3), key=lambda i: abs(feature.into[i]))
        return bore(feature, size[axis], segments)
    return channel(feature, segments)


def part_volume(part, segments):
    """A board with upright edges, where no two features meet."""
    taken = sum(feature_volume(f, part.size, segments) for f in part.features)
    return polygon(part.outline) * part.size[2] - taken
