"""How the board goes home: the joint cut through square to its run, apart with an arrow, and closed.

What stands loose in both boards, a dowel or biscuit, is black, and sits in the board that is lifted.
All of one joint's machining is drawn in one cut, wherever along the run it stands: v across from the registering face,
w out of the board worked on its face into the other. manifold3d is imported inside, as in solids.py.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal

from rodwork.documents.annotate import arrow
from rodwork.documents.drawing import LINE, NO_PEN, Path_, Pen, Shape, Text, line
from rodwork.documents.joint_kinds import Opened
from rodwork.documents.mouths import mouth
from rodwork.geometry.vec import Vec, dot, sub
from rodwork.model.feature import Feature, Pocket
from rodwork.model.panel import Part
from rodwork.model.slope import level_at
from rodwork.model.surface import Surface

Point = tuple[float, float]
WIDTH = 60.0  # of both pictures, mm of the page
_AIR = 13.0  # mm of either board that is shown beyond the joint
_LIFT = 11.0  # mm by which the board is lifted where they are apart
_CLEAR = 5.0  # mm by which what stands loose in it is clear of the other board then
_OUT = 0.5  # mm by which a void is begun outside its board, so that no sliver is left
_ARROW = Pen(width=0.9)
_NAIL = Pen(width=0.5)


@dataclass(frozen=True, slots=True)
class _Page:
    """From (v, w) of the joint to the page."""

    left: float
    foot: float
    scale: float

    def at(self, v: float, w: float) -> Point:
        """Where a point of the cut comes."""
        return (self.left + v * self.scale, self.foot + w * self.scale)


def home_shapes(one: Opened, left: float, top: float, height: float) -> tuple[Shape, ...]:
    """Both pictures side by side, from their top left corner."""
    host, guest = _section(one, one.face_board), _section(one, one.end_board)
    loose = _loose(one)
    low_v, low_w, high_v, high_w = (host + guest).bounds()
    up = max([_LIFT, *(_CLEAR - w for bar in loose for _, w in bar)])
    size = min((WIDTH / 2 - 6.0) / (high_v - low_v), (height - 5.0) / (high_w + up + 3.0 - low_w), 0.7)
    shapes: list[Shape] = []
    for n, (lift, says) in enumerate(((up, "apart"), (0.0, "home"))):
        x = left + n * WIDTH / 2
        page = _Page(x - low_v * size, top - height + 4.5 - low_w * size, size)
        shapes += _drawn(host, page, "light")
        shapes += _drawn(guest.translate([0.0, lift]), page, "white")
        shapes += [_bar_on(page, bar, lift) for bar in loose]
        if lift:
            v = guest.bounds()[2]
            (tip_x, tip_y), (_, tail_y) = page.at(v, 2.0), page.at(v, high_w + lift)
            shapes += arrow((tip_x + 4.0, tail_y), (tip_x + 4.0, tip_y), _ARROW, 2.8)
        else:
            shapes += _nails(one, page)
        middle = page.at((low_v + high_v) / 2, low_w)[0]
        shapes.append(Text(at=(middle, top - height), text=says, size=3.4, anchor="middle"))
    return tuple(shapes)


def _section(one: Opened, part: Part) -> Any:
    """One board cut through, less everything that this joint machines in it, as a manifold3d.CrossSection."""
    from manifold3d import CrossSection, FillRule

    corners = _profile(one, part)
    (v0, v1), (w0, w1) = ((min(c[k] for c in corners), max(c[k] for c in corners)) for k in (0, 1))
    v0, v1 = max(v0, -_AIR), min(v1, one.joint.contact.width + _AIR)
    deepest = max((w.feature.depth for w in (*one.on_face, *one.on_end) if w.part.id == part.id), default=0.0)
    w0, w1 = max(w0, -2.0 * _AIR), min(w1, max(1.3 * _AIR, deepest + 4.0))
    board = CrossSection([[(v0, w0), (v1, w0), (v1, w1), (v0, w1)]], FillRule.NonZero)
    if _cut_lengthways(one, part):
        board = board ^ CrossSection([corners], FillRule.NonZero)
    for feature, at in _machined(one, part, w0):
        for void in _voids(one, part, feature, at):
            board = board - CrossSection([void], FillRule.NonZero)
    return board


def _cut_lengthways(one: Opened, part: Part) -> bool:
    """Whether the run goes across a board with bevelled ends, so that the cut shows them."""
    return any(part.bevels) and abs(part.pose.direction_to_part(one.joint.contact.along)[1]) > 0.5


def _profile(one: Opened, part: Part) -> list[Point]:
    """The board cut through square to the run: two corners of its box, or all four where its bevelled ends are cut."""
    if not _cut_lengthways(one, part):
        return [_vw(one, part.pose.to_cabinet(p)) for p in ((0.0, 0.0, 0.0), part.size)]
    thick, y = part.size[2], part.size[1] / 2
    ends: tuple[Surface, ...] = ("left_end", "right_end")
    places = ((ends[0], 0.0), (ends[1], 0.0), (ends[1], thick), (ends[0], thick))
    corners = [_vw(one, part.pose.to_cabinet((level_at(part, end, z), y, z))) for end, z in places]
    area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(corners, (*corners[1:], corners[0]), strict=True))
    return corners if area > 0 else corners[::-1]


def _machined(one: Opened, part: Part, end: float) -> Iterator[tuple[Feature, Point]]:
    """What is machined in a board, with the middle of its mouth where the printed numbers put it.

    What is bored in place has none: it stands where its screw does, from the `end` of the board.
    """
    works = [w for w in (*one.on_face, *one.on_end, *one.tongue) if w.part.id == part.id]
    for work in works:
        at = [level_at(part, work.bears, work.middle.get(2, 0.0))] * 3
        for axis, middle in work.middle.items():
            at[axis] = middle
        yield work.feature, _vw(one, part.pose.to_cabinet((at[0], at[1], at[2])))
    in_place = {f.id: f for f in part.features if f.joint == one.joint.id and f.stage == "in place"}
    for fixing in one.joint.fixings:
        for half in (*fixing.halves, *fixing.others):
            if half.feature in in_place:
                yield in_place[half.feature], (_vw(one, fixing.at)[0], end)


def _vw(one: Opened, point: Vec) -> Point:
    contact = one.joint.contact
    from_it = sub(point, contact.from_point)
    return (dot(from_it, contact.across), dot(from_it, contact.out))


def _voids(one: Opened, part: Part, feature: Feature, at: Point) -> Iterator[list[Point]]:
    """What a feature takes of the cut: as wide as its mouth square to its axis, from a little outside to its floor."""
    contact, pose = one.joint.contact, part.pose
    into = pose.direction_to_cabinet(feature.into)
    dv, dw = dot(into, contact.across), dot(into, contact.out)
    steps = _steps(part, feature)
    wide = [-dw * dot(step, contact.across) + dv * dot(step, contact.out) for step in steps]
    out = _OUT if dv * dw == 0.0 else 2 * max(wide)  # askew: until the whole mouth is clear
    yield _bar(at, (dv, dw), max(wide), -out, feature.depth)
    if isinstance(feature, Pocket) and feature.ahead:
        yield _bar(at, (dv, dw), feature.ahead / 2, feature.depth - _OUT, feature.ahead_depth + _OUT)


def _steps(part: Part, feature: Feature) -> list[Vec]:
    """The outline of a mouth as steps in cabinet axes."""
    return [sub(part.pose.to_cabinet(step), part.pose.origin) for step in mouth(feature)]


def _bar(at: Point, way: Point, half: float, start: float, end: float) -> list[Point]:
    """A straight void of the cut, counter-clockwise."""
    (v, w), (dv, dw) = at, way
    corners = ((start, -half), (end, -half), (end, half), (start, half))
    return [(v + d * dv - s * dw, w + d * dw + s * dv) for d, s in corners]


def _loose(one: Opened) -> list[list[Point]]:
    """The one thing that stands loose in two mouths that are alike, with half its play at either floor.

    A biscuit's length lies along the run: half a millimetre is left over and under it. What lies over one another in
    the cut is drawn once. A fitting of several pieces is not drawn: each is fixed in its own board.
    """
    mouths = {w.feature.id: w for w in (*one.on_face, *one.on_end)}
    found: dict[tuple[float, float], list[Point]] = {}
    for fixing in one.joint.fixings:
        a, b = (mouths.get(half.feature or "") for half in fixing.halves)
        if a is None or b is None or a.size_words != b.size_words or sum(i.count for i in fixing.hardware) > 1:
            continue
        at = next(p for f, p in _machined(one, one.face_board, 0.0) if f.id == a.feature.id)
        into, out = a.feature.depth, b.feature.depth
        play = into + out - fixing.length if fixing.length < into + out else 1.0
        half = max(abs(dot(step, one.joint.contact.across)) for step in _steps(one.face_board, a.feature))
        found[round(at[0], 2), half] = _bar(at, (0.0, 1.0), half, play / 2 - into, out - play / 2)
    return list(found.values())


def _bar_on(page: _Page, bar: list[Point], lift: float) -> Path_:
    return Path_(points=tuple(page.at(v, w + lift) for v, w in bar), closed=True, pen=NO_PEN, fill="black")


def _drawn(section: Any, page: _Page, fill: Literal["white", "light"]) -> list[Shape]:
    """The outlines of a cut board; a hole inside it is left white."""
    shapes: list[Shape] = []
    for contour in sorted(_from_its_least(polygon) for polygon in section.to_polygons()):
        points = tuple(page.at(v, w) for v, w in contour)
        area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, (*points[1:], points[0]), strict=True))
        shapes.append(Path_(points=points, closed=True, pen=LINE, fill=fill if area > 0 else "white"))
    return shapes


def _from_its_least(polygon: Any) -> list[Point]:
    """A contour begun at its least point and without the dust of arithmetic: the same however it was reckoned."""
    points = [(round(float(v), 4) + 0.0, round(float(w), 4) + 0.0) for v, w in polygon]
    first = points.index(min(points))
    return [*points[first:], *points[:first]]


def _nails(one: Opened, page: _Page) -> list[Shape]:
    """Nails, driven from the host's other face."""
    thick = one.face_board.size[2]
    longest = max((f.length for f in one.joint.fixings), default=0.0)
    return [line(page.at(v, -thick), page.at(v, min(longest - thick, 1.2 * _AIR)), _NAIL) for _, v in one.driven[:1]]
