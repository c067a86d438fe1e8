"""The joint when it is home, cut through at one of its fixings: both boards, and the room that is cut in them.

It is the solids of the two boards that are cut, so the picture cannot say otherwise than they do. Seen from the front
where the run goes front to back, else along the run.
"""

from collections.abc import Callable
from dataclasses import dataclass

from rodwork.documents.annotate import arrow, figure
from rodwork.documents.drawing import LINE, NO_PEN, Drawing, Path_, Point, Shape, Text
from rodwork.documents.page import fitted
from rodwork.documents.solids import part_solid
from rodwork.geometry.vec import Vec, along, cross, dot, neg, sub
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet

WIDTH, HEIGHT = 130.0, 84.0  # of the drawing, mm
ROOM = 14.0  # of it round the boards, for words and arrows
SHOWN_MM = 62.0  # of the guest beyond the joint; of the host as much as the drawing is wide
ARROW = 9.0  # length of the arrow, mm on paper
BEYOND_MM = 3.0  # beyond the host, so that its far face is seen
BESIDE_MM = 24.0  # of the host beyond the guest's faces
SEGMENTS = 32


@dataclass(frozen=True, slots=True)
class _Cut:
    """The plane of the cut, cabinet axes: its middle, the way to the right on paper and the way up."""

    middle: Vec
    right: Vec
    up: Vec

    def on_paper(self, direction: Vec) -> Point:
        """A direction as it is seen."""
        return dot(direction, self.right), dot(direction, self.up)


def closed_joint(cabinet: RodCabinet, joint: Joint) -> Drawing:
    """One joint cut through at its first fixing, the guest going home the way its arrow points."""
    fixing = joint.fixings[0]
    host, guest = (cabinet.part[id] for id in joint.parts)
    cut = _cut(joint, fixing)
    contact = joint.contact
    window = _window(cut, joint, host, guest)
    low, high = window
    k = min((WIDTH - 2 * ROOM) / (high[0] - low[0]), (HEIGHT - 2 * ROOM) / (high[1] - low[1]))
    left = (WIDTH - k * (high[0] - low[0])) / 2
    bottom = (HEIGHT - k * (high[1] - low[1])) / 2

    def at(p: Point) -> Point:
        return left + k * (p[0] - low[0]), bottom + k * (p[1] - low[1])

    shapes: list[Shape] = []
    for part in (host, guest):
        shapes += _board(part, cut, window, at)
    out = cut.on_paper(contact.out)
    across = cut.on_paper(contact.across)
    shapes += _arrow(fixing, cut, at(_off(out, across, SHOWN_MM + 3.0 / k, contact.width / 2)))
    shapes += _words(host, guest, fixing, contact.along)
    return Drawing(width=WIDTH, height=HEIGHT, shapes=tuple(shapes))


def _cut(joint: Joint, fixing: Fixing) -> _Cut:
    """Square to the run through the fixing; what is upright in the cabinet is upright on paper, seen from the front."""
    c = joint.contact
    middle = along(c.from_point, (c.along, dot(sub(fixing.at, c.from_point), c.along)))
    right, up = (c.across, c.out) if abs(c.out[2]) > 0.5 else (c.out, c.across)
    if sum(up) < 0:
        up = neg(up)
    if sum(right) < 0:
        right = neg(right)
    return _Cut(middle, right, up)


def _off(out: Point, across: Point, w: float, v: float) -> Point:
    """A place `w` out of the host and `v` across from the registering face, on the plane of the cut."""
    return out[0] * w + across[0] * v, out[1] * w + across[1] * v


def _window(cut: _Cut, joint: Joint, host: Part, guest: Part) -> tuple[Point, Point]:
    """What of the cut is shown: (lowest, highest) corner, from its middle."""
    out, across = cut.on_paper(joint.contact.out), cut.on_paper(joint.contact.across)
    ways = [(-host.size[2] - BEYOND_MM, -BESIDE_MM), (SHOWN_MM, joint.contact.width + BESIDE_MM)]
    corners = [_off(out, across, w, v) for w, v in ways]
    low = (min(p[0] for p in corners), min(p[1] for p in corners))
    high = (max(p[0] for p in corners), max(p[1] for p in corners))
    return low, high


def _board(part: Part, cut: _Cut, window: tuple[Point, Point], at: Callable[[Point], Point]) -> list[Shape]:
    """The board where the plane cuts it; an edge that is only where the picture ends is left without a line."""
    import numpy as np
    from manifold3d import CrossSection

    pose = part.pose
    origin = sub(pose.origin, cut.middle)
    axes = (cut.right, cut.up, cross(cut.right, cut.up))
    columns = [pose.direction_to_cabinet(d) for d in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))]
    matrix = np.array([[*(dot(axis, c) for c in columns), dot(axis, origin)] for axis in axes])
    low, high = window
    frame = CrossSection([np.array([low, (high[0], low[1]), high, (low[0], high[1])])])
    shapes: list[Shape] = []
    for ring in (part_solid(part, SEGMENTS).transform(matrix).slice(0.0) ^ frame).to_polygons():
        points = [(float(x), float(y)) for x, y in ring]
        shapes.append(Path_(points=tuple(at(p) for p in points), closed=True, pen=NO_PEN, fill="light"))
        for a, b in zip(points, (*points[1:], points[0]), strict=True):
            if not _on_the_frame(a, b, low, high):
                shapes.append(Path_(points=(at(a), at(b)), pen=LINE))
    return shapes


def _on_the_frame(a: Point, b: Point, low: Point, high: Point) -> bool:
    return any(abs(a[i] - v) < 1e-6 and abs(b[i] - v) < 1e-6 for i in (0, 1) for v in (low[i], high[i]))


def _arrow(fixing: Fixing, cut: _Cut, end: Point) -> tuple[Shape, ...]:
    """How the guest goes home, beyond the end of what is shown of it; a slide along the run is said in words."""
    for move in fixing.motion:
        x, y = cut.on_paper(move.push)
        if abs(x) + abs(y) > 0.5:
            return arrow((end[0] - x * ARROW, end[1] - y * ARROW), end, LINE, 3.0)
    return ()


def _words(host: Part, guest: Part, fixing: Fixing, run: Vec) -> tuple[Shape, ...]:
    """Which board is which, how the guest goes home and where the cut is."""
    moves = []
    for move in fixing.motion:
        slides = abs(dot(move.push, run)) > 0.5
        moves.append(f"{'slides along' if slides else 'goes in'} for the last {figure(move.mm)}")
    name = guest.name[:1].upper() + guest.name[1:]
    how = f"It {', then '.join(moves)}." if moves else "It is held in its place."
    title = f"{name} and {host.name}, home"
    where = f"Cut through the first {fixing.family}. {how}"
    return (
        Text(at=(WIDTH / 2, HEIGHT - 5.5), text=title, size=3.9, bold=True, anchor="middle"),
        Text(at=(WIDTH / 2, 3.0), text=where, size=fitted(where, 3.6, WIDTH - 4.0), anchor="middle"),
    )
