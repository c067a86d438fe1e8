"""Volume and centre of a board from its outline: straight or bevelled edges, any polygon."""

from collections.abc import Sequence

from rodwork.geometry.bevels import Point, outline_below
from rodwork.geometry.vec import Vec

Moments = tuple[float, float, float]  # area, and its first moments about y and about x


def moments(polygon: Sequence[Point]) -> Moments:
    """(area, area x mean x, area x mean y) of a polygon that runs counter-clockwise; below nought if clockwise.

    The shoelace formula and its companions for the centroid.
    """
    area = along = across = 0.0
    for (ax, ay), (bx, by) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        turned = ax * by - bx * ay
        area += turned
        along += (ax + bx) * turned
        across += (ay + by) * turned
    return area / 2, along / 6, across / 6


def volume_and_centre(
    outline: Sequence[Point], bevels: Sequence[float], thickness: float, holes: Sequence[Sequence[Point]] = ()
) -> tuple[float, Vec]:
    """Volume (mm3) and centre (mm, part frame) of a board with straight holes through it.

    Exact: a bevelled edge moves evenly through the thickness, so the area goes with its square and the first moments
    with its cube, which Simpson's rule integrates without error. Holes may run either way round.
    """
    volume = x = y = z = 0.0
    for below, share in ((0.0, 1 / 6), (thickness / 2, 4 / 6), (thickness, 1 / 6)):
        area, along, across = moments(outline_below(outline, bevels, below))
        slab = share * thickness
        volume += slab * area
        x += slab * along
        y += slab * across
        z += slab * area * (thickness - below)
    for hole in holes:
        area, along, across = moments(hole)
        out = thickness if area > 0 else -thickness
        volume -= out * area
        x -= out * along
        y -= out * across
        z -= out * area * thickness / 2
    return volume, (x / volume, y / volume, z / volume)
