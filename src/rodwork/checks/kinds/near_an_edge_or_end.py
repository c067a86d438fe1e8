"""A bore that stands too near an edge or an end of its board."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from rodwork.checks.check import Check
from rodwork.checks.holes import (
    DUST,
    axis_in,
    called,
    diameter_of,
    features_of,
    fixing_of,
    in_a_face,
    joint_of,
    mouth_of,
    up_to_step,
    word,
)
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.model.feature import Bore, Feature
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.panel import Part, Point
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.shop import Shop
from rodwork.model.surface import Surface, axis_of, surface_facing

CODE = "near-an-edge-or-end"
LEAST_MM = 3.0  # of board between the bore and the edge
DOWEL_DIAMETERS = 2.0  # centre to the end of the run
ENOUGH_WOOD_MM = 12.0  # beyond a large dowel: as much as is left before a back groove
SCREW_DIAMETERS = 3.0
CHIPBOARD_CORNER_MM = 25.0
ON_THE_EDGE_MM = 0.01
SCREW_SOURCE = (
    "EN 1995-1-1:2004, 8.3.1.3: three diameters to an unloaded edge or end of plywood (from memory); other boards: "
    + COMMON
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Needs:
    """How far the centre of one thing is to stand from the end of the run, and why."""

    mm: float
    because: str
    source: str


def look(rod: Rod) -> Iterable[Finding]:
    """Every bore, to the edges and ends that its surface has."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet, rod.shop))


def _spots(cabinet: RodCabinet, shop: Shop) -> Iterator[Spot]:
    fixings, joints, features = fixing_of(cabinet), joint_of(cabinet), features_of(cabinet)
    for part in cabinet.parts:
        runs = {j.id: axis_in(part, j.contact.along) for j in cabinet.joints if part.id in j.parts}
        for bore in part.features:
            if isinstance(bore, Bore):
                joint, fixing = joints.get(bore.joint or ""), fixings.get(bore.id)
                run, set_by_it = (runs[joint.id], _set_by_the_joint(joint, part)) if joint is not None else (-1, False)
                ways = to_edges(part, bore)
                needs = _needs(part, fixing, features, _at_a_corner(bore, ways))
                for surface, distance in ways:
                    if axis_of(surface) == run:
                        yield from _judged(part, bore, fixing, surface, distance, needs, shop)
                    elif not set_by_it:
                        yield from _judged(part, bore, fixing, surface, distance, None, shop)


def _set_by_the_joint(joint: Joint, part: Part) -> bool:
    """At a corner, how far a row stands from the end of the board is how it stands in the thickness of the other.

    So it does at the edges of a planted back. What is left there is judged in the other board.
    """
    return joint.contact.place in ("corner", "rail", "planted back") and joint.parts[0] == part.id


def _at_a_corner(bore: Bore, ways: list[tuple[Surface, float]]) -> bool:
    """Whether an edge and an end are both near: always in an end, seldom in a face."""
    near = {axis_of(surface) for surface, distance in ways if distance < CHIPBOARD_CORNER_MM - DUST}
    return len(near) == 2 or not in_a_face(bore)


def _needs(part: Part, fixing: Fixing | None, features: Mapping[str, Feature], at_a_corner: bool) -> _Needs | None:
    diameter = diameter_of(fixing, features) if fixing is not None else 0.0
    if fixing is None or not diameter:
        return None
    if fixing.law == "meet":
        least = min(DOWEL_DIAMETERS * diameter, diameter / 2 + ENOUGH_WOOD_MM)
        return _Needs(mm=least, because=f"{mm(least)} is the least for one of {mm(diameter)}", source=COMMON)
    if at_a_corner and is_chipboard(part.material):
        because = f"nearer than {mm(CHIPBOARD_CORNER_MM)} to a corner, {part.material} bursts"
        return _Needs(mm=CHIPBOARD_CORNER_MM, because=because, source=COMMON)
    least = SCREW_DIAMETERS * diameter
    return _Needs(mm=least, because=f"{mm(least)} is the least for a screw of {mm(diameter)}", source=SCREW_SOURCE)


def is_chipboard(material: str) -> bool:
    """Whether a board is made of chips, by its name."""
    return "chipboard" in material.lower() or "particle" in material.lower()


def _judged(
    part: Part, bore: Bore, fixing: Fixing | None, surface: Surface, distance: float, needs: _Needs | None, shop: Shop
) -> Iterator[Spot]:
    head = bore.countersink.diameter if bore.countersink is not None else 0.0
    radius = max(bore.diameter, head) / 2
    least = max(needs.mm if needs is not None else 0.0, radius + LEAST_MM)
    if distance >= least - DUST:
        return
    what, edge = called(bore, fixing, None), word(part, surface)
    keep = f"keep its centre at least {mm(up_to_step(least, shop.fence_step_mm))} from the {edge}"
    stands = f"a {what} of {mm(bore.diameter)} stands {too_little(distance)} from the {edge}"
    left = distance - radius
    if left < LEAST_MM - DUST:
        beside = " beside its head" if head else ""
        leaves = f"which leaves {too_little(left)}{beside}" if left > DUST else "and breaks out"
        yield Spot(
            severity="fault", parts=(part,), ids=(bore.id,),
            what=f"{stands}, {leaves}; {mm(LEAST_MM)} is the least", mend=keep, source=COMMON,
        )  # fmt: skip
    elif needs is not None:
        yield Spot(
            severity="warning", parts=(part,), ids=(bore.id,), what=f"{stands}; {needs.because}", mend=keep,
            source=needs.source,
        )  # fmt: skip


def to_edges(part: Part, bore: Bore) -> list[tuple[Surface, float]]:
    """Distance from the centre of the mouth to each edge and end that its surface ends at, mm.

    A mouth in a face looks to all of them; one in an edge only to the two ends of that edge.
    """
    x, y, _ = bore.at
    mouth = mouth_of(bore)
    across = axis_of(mouth)
    if across == 2 and len(part.outline) == 4:
        length, width, _ = part.size
        return [("left_end", x), ("right_end", length - x), ("face_edge", y), ("far_edge", width - y)]
    corners = part.outline
    sides = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    if across == 2:
        return [
            (_facing(a, b), _to_segment((x, y), a, b)) for n, (a, b) in enumerate(sides) if _beside((x, y), sides, n)
        ]
    other = 1 - across
    ends: tuple[Surface, Surface] = ("face_edge", "far_edge") if across == 0 else ("left_end", "right_end")
    for a, b in sides:
        if _facing(a, b) == mouth and _to_segment((x, y), a, b) < ON_THE_EDGE_MM:
            low, high = sorted((a[other], b[other]))
            return [(ends[0], bore.at[other] - low), (ends[1], high - bore.at[other])]
    return []


def _facing(a: Point, b: Point) -> Surface:
    """The way an edge of the outline looks: it runs counter-clockwise, so outside is on its right."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    long = (dx * dx + dy * dy) ** 0.5
    return surface_facing((dy / long, -dx / long, 0.0))


def _beside(p: Point, sides: list[tuple[Point, Point]], n: int) -> bool:
    """Whether a side is beside a place, and not round the corner of a notch from the one that is."""
    t = _foot(p, *sides[n])
    if 0.0 <= t <= 1.0:
        return True
    return not 0.0 <= _foot(p, *sides[n - 1 if t < 0 else (n + 1) % len(sides)]) <= 1.0


def _foot(p: Point, a: Point, b: Point) -> float:
    """Where the square from a place to a line meets it: 0 at a, 1 at b."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    return float(((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy))


def _to_segment(p: Point, a: Point, b: Point) -> float:
    dx, dy, t = b[0] - a[0], b[1] - a[1], max(0.0, min(1.0, _foot(p, a, b)))
    return float(((p[0] - a[0] - t * dx) ** 2 + (p[1] - a[1] - t * dy) ** 2) ** 0.5)


CHECK = Check(code=CODE, title="Too near an edge or an end", look=look)
