"""One face of a board as it lies on the bench: its shape, its bores and grooves where the settings put them.

A view is a look at one of the two faces, turned by nothing or by half a turn, never a mirror image: the back
side is what you see when the board is turned over.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos, hypot, pi, sin

from rodwork.documents.annotate import Box
from rodwork.documents.board_notches import notches
from rodwork.documents.drawing import LINE, NO_PEN, THIN, Circle, Ink, Path_, Pen, Point, Shape, Text, box, line
from rodwork.documents.machined import Work
from rodwork.documents.mouths import mouth, profile
from rodwork.geometry.bevels import outline_below
from rodwork.model.feature import Bore
from rodwork.model.panel import Part
from rodwork.model.slope import inward_of, level_at
from rodwork.model.surface import EDGES, Surface, axis_of, level

PageSide = str  # "left", "right", "top" or "bottom" of the drawing
BORE_PEN = Pen(width=0.25)
END_PEN = Pen(width=0.18, dashes=(0.9, 0.6))
EXIT_PEN = Pen(width=0.2, ink="grey")
EDGE_PEN = Pen(width=0.9)
LEAST_RADIUS = 0.45  # mm on paper: a smaller bore is still seen


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Which face of which board is seen, which way round, how large, and where its lower left corner stands."""

    part: Part
    seen: Surface = "face_side"
    turned: bool = False  # half a turn on the bench
    scale: float = 1.0
    x: float = 0.0
    y: float = 0.0

    @property
    def width(self) -> float:
        """Width of the board on paper, mm."""
        return self.part.size[0] * self.scale

    @property
    def height(self) -> float:
        """Height of the board on paper, mm."""
        return self.part.size[1] * self.scale

    @property
    def box(self) -> Box:
        """The room the board takes up on paper."""
        return Box(left=self.x, bottom=self.y, right=self.x + self.width, top=self.y + self.height)

    def at(self, x: float, y: float) -> Point:
        """A point of the board (part frame) on paper."""
        return (self.along(x), self.across(y))

    def along(self, x: float) -> float:
        """Where a distance along the board comes on paper, from left to right."""
        runs_left = (self.seen == "back_side") != self.turned
        return self.x + self.scale * (self.part.size[0] - x if runs_left else x)

    def across(self, y: float) -> float:
        """Where a distance across the board comes on paper, from the bottom up."""
        return self.y + self.scale * (self.part.size[1] - y if self.turned else y)

    def side_of(self, surface: Surface) -> PageSide:
        """On which side of the drawing an edge or end of the board lies."""
        if axis_of(surface) == 0:
            return "left" if abs(self.along(level(surface, self.part.size)) - self.x) < 1e-6 else "right"
        return "bottom" if abs(self.across(level(surface, self.part.size)) - self.y) < 1e-6 else "top"

    def surface_at(self, side: PageSide) -> Surface:
        """The edge or end that lies on this side of the drawing."""
        return next(s for s in EDGES if self.side_of(s) == side)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfLine:
    """A line on the board where another board comes.

    `axis`: 0 for a line across the board, 1 for one along it; `at` is where it comes on paper (x or y), `after`
    whether that board stands on the greater side of it there: to the right, or above.
    """

    axis: int
    at: float
    mm: float
    after: bool
    work: Work

    def ends(self, box: Box) -> tuple[Point, Point]:
        """The line right over the drawn board."""
        if self.axis == 0:
            return ((self.at, box.bottom), (self.at, box.top))
        return ((box.left, self.at), (box.right, self.at))


def board_view(view: View, works: Sequence[Work], *, thick: Sequence[Surface] = ()) -> tuple[Shape, ...]:
    """The board and everything set out on it, as seen: `thick` edges are the ones numbers are taken from.

    Bores and grooves of the seen face in full lines; bores in the edges and ends dashed, as deep as they go; the
    exits of bores and cut-outs that come through from the other face grey, and so what is bored as it is bought.
    """
    shapes: list[Shape] = [
        Path_(points=tuple(view.at(x, y) for x, y in outline), closed=True, pen=LINE, fill="white")
        for outline in _outlines(view)
    ]
    for work in works:
        if work.groove is not None and work.bears == view.seen:
            shapes += _channel(view, work)
    shapes += [
        Circle(centre=view.at(b.at[0], b.at[1]), radius=max(b.diameter / 2 * view.scale, LEAST_RADIUS), pen=EXIT_PEN)
        for b in bored_as_bought(view.part)
        if b.mouth == view.seen
    ]
    for work in works:
        if work.groove is not None:
            continue
        if work.bears == view.seen:
            shapes += _bore(view, work) if work.bore is not None else [_mouth(view, work)]
        elif work.bears in EDGES:
            shapes.append(_end_bore(view, work))
        elif work.right_through and work.bore is None:
            shapes.append(Path_(points=_mouth_points(view, work), closed=True, pen=EXIT_PEN))
        elif work.right_through:
            shapes.append(Circle(centre=_middle(view, work), radius=_radius(view, work), pen=EXIT_PEN))
    shapes += [_thick_edge(view, surface) for surface in thick]
    return tuple(shapes)


def bored_as_bought(part: Part) -> tuple[Bore, ...]:
    """The bores that are there when the board comes."""
    return tuple(f for f in part.features if isinstance(f, Bore) and f.stage == "as bought")


def _outlines(view: View) -> tuple[tuple[Point, ...], ...]:
    """The outline of the face that is seen, over that of the other where bevels make them two."""
    part = view.part
    if not any(part.bevels):
        return (part.outline,)
    other = outline_below(part.outline, part.bevels, part.size[2])
    return (other, part.outline) if view.seen == "face_side" else (part.outline, other)


def shelf_lines(view: View, works: Sequence[Work]) -> tuple[ShelfLine, ...]:
    """The lines that other boards stand on, each once, with the side of it where they stand."""
    found: dict[tuple[int, float], ShelfLine] = {}
    for work in works:
        if work.bears != view.seen or work.line is None:
            continue
        reading = work.across
        axis = axis_of(reading.from_surface)
        far_wall = reading.mm if reading.end_mm is None else max(reading.mm, reading.end_mm)
        beyond = 1.0 if far_wall > work.line else -1.0  # a line at a far wall: the board stands before it
        start = level(reading.from_surface, view.part.size)
        sign = -1.0 if start > 0 else 1.0
        on_paper = view.along if axis == 0 else view.across
        at, far = on_paper(start + sign * work.line), on_paper(start + sign * (work.line + beyond))
        known = found.get((axis, round(at, 3)))
        if known is None or (work.groove is not None and known.work.groove is None):
            row = ShelfLine(axis=axis, at=at, mm=work.line, after=far > at, work=work)
            found[axis, round(at, 3)] = row
    return tuple(found[key] for key in sorted(found))


LEAST_CROSS = 2.6  # em of the X, mm
_TRIES = (0.3, 0.22, 0.38, 0.5, 0.62, 0.7, 0.15, 0.85, 0.08, 0.92)


def shelf_line_shapes(view: View, lines: Sequence[ShelfLine], works: Sequence[Work]) -> tuple[Shape, ...]:
    """Each line right over the board, with an X on the side of it where the other board stands."""
    shapes: list[Shape] = [line(*row.ends(view.box), THIN) for row in lines]
    crosses: list[Box] = []
    for row in lines:
        others = [_around(*a, *b, 0.3) for a, b in (other.ends(view.box) for other in lines if other is not row)]
        inside = row.work if _has_room_inside(view, row) else None
        taken = taken_boxes(view, [w for w in works if w is not inside], (), clear=0.3)
        spot, size, clear = _place_of_cross(view, row, (*taken, *others), others, crosses)
        crosses.append(_cross_box(spot, size))
        shapes += _cross(spot, size, clear)
    return tuple(shapes)


def _place_of_cross(
    view: View, row: ShelfLine, taken: Sequence[Box], lines: Sequence[Box], crosses: Sequence[Box]
) -> tuple[Point, float, bool]:
    """Where the X of a line goes, its em, and whether it is clear of all that is drawn: the largest that is.

    Where none is, it keeps clear of the other lines at least, or of the other crosses.
    """
    most = max(min(5.0, view.height / 4, 1.2 * _room_beside(view, row) - 0.4), LEAST_CROSS)
    sizes = [most, *(size for size in (4.2, 3.4, LEAST_CROSS) if size < most)]
    off_edge = _room_beside(view, row) >= 0.6 * LEAST_CROSS
    for avoided in (taken, lines, ()):
        for size in sizes:
            off = _off_the_line(view, row, size) * (1.0 if row.after else -1.0)
            for spot in (_spot(view, row, off, share) for share in _TRIES):
                if all(_cross_box(spot, size).clear_of(other) for other in (*avoided, *crosses)):
                    return spot, size, avoided is taken and off_edge
    off = _off_the_line(view, row, LEAST_CROSS) * (1.0 if row.after else -1.0)
    return _spot(view, row, off, _TRIES[0]), LEAST_CROSS, False


def _cross(spot: Point, size: float, clear: bool) -> list[Shape]:
    """The X; where there is no clear place for it, on a ground of its own that breaks what it stands on."""
    x, y = spot
    ground = box(x - 0.3 * size, y - 0.34 * size, 0.6 * size, 0.68 * size, NO_PEN, "white")
    letter = Text(at=(x, y - 0.33 * size), text="X", size=size, bold=True, anchor="middle")
    return [letter] if clear else [ground, letter]


def _room_beside(view: View, row: ShelfLine) -> float:
    """From a line to the edge of the board on the side where the other board stands, on paper."""
    low, high = (view.box.left, view.box.right) if row.axis == 0 else (view.box.bottom, view.box.top)
    return high - row.at if row.after else row.at - low


def _spot(view: View, row: ShelfLine, off: float, share: float) -> Point:
    """A place for the X beside a line, this share of the way along it from the front or the left."""
    box = view.box
    if row.axis == 1:
        return (box.left + share * view.width, row.at + off)
    from_top = view.side_of("face_edge") == "top"
    return (row.at + off, box.top - share * view.height if from_top else box.bottom + share * view.height)


def _off_the_line(view: View, row: ShelfLine, size: float) -> float:
    """How far the middle of the X stands from its line: inside a housing that has room for it, else clear of it."""
    near, far = _walls(view, row)
    if near == 0 and far > size:
        return far / 2
    beyond = far if near < 0.9 * size + 0.6 else 0.0
    return beyond + min(0.45 * size, (_room_beside(view, row) - beyond) / 2)


def _walls(view: View, row: ShelfLine) -> tuple[float, float]:
    """How far the walls of the groove at a line stand from it on paper; both 0 where it has none."""
    r = row.work.across
    if row.work.groove is None or r.end_mm is None:
        return (0.0, 0.0)
    near, far = sorted((abs(r.mm - row.mm), abs(r.end_mm - row.mm)))
    return (near * view.scale if near > 0.01 else 0.0, far * view.scale)


def _has_room_inside(view: View, row: ShelfLine) -> bool:
    """Whether the X may stand inside the groove at its line: a housing, which is as wide as the other board."""
    near, far = _walls(view, row)
    return near == 0 and far > LEAST_CROSS


def _cross_box(spot: Point, size: float) -> Box:
    x, y = spot
    return Box(left=x - size * 0.3, right=x + size * 0.3, bottom=y - size * 0.4, top=y + size * 0.4)


def taken_boxes(view: View, works: Sequence[Work], lines: Sequence[ShelfLine], clear: float = 0.8) -> tuple[Box, ...]:
    """The room on the drawn face that bores, grooves and lines take up, with a little air round each."""
    boxes: list[Box] = []
    for work in works:
        if work.groove is not None and work.bears == view.seen:
            (x0, x1), (y0, y1) = work.span[0], work.span[1]
            (ax, ay), (bx, by) = view.at(x0, y0), view.at(x1, y1)
            boxes.append(_around(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by), clear))
        elif work.bore is not None and work.bears in ("face_side", "back_side"):
            x, y = _middle(view, work)
            r = _radius(view, work)
            if work.bears == view.seen or work.right_through:
                boxes.append(_around(x - r, y - r, x + r, y + r, clear))
        elif work.groove is None and (work.bears == view.seen or work.bears in EDGES or work.right_through):
            points = _end_bore_points(view, work) if work.bears in EDGES else _mouth_points(view, work)
            xs, ys = [p[0] for p in points], [p[1] for p in points]
            boxes.append(_around(min(xs), min(ys), max(xs), max(ys), clear))
    boxes += [_around(*a, *b, clear) for a, b in (row.ends(view.box) for row in lines)]
    return (*boxes, *_arrises(view, clear), *_gone(view, clear))


def _gone(view: View, clear: float) -> Iterator[Box]:
    """What notches have taken off the board."""
    for notch in notches(view.part):
        for x0, y0, x1, y1 in notch.gone:
            (ax, ay), (bx, by) = view.at(x0, y0), view.at(x1, y1)
            yield _around(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by), clear)


def _arrises(view: View, clear: float) -> Iterator[Box]:
    """The lines within the drawn face where a bevel begins."""
    for outline in _outlines(view) if any(view.part.bevels) else ():
        for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
            (ax, ay), (bx, by) = view.at(x0, y0), view.at(x1, y1)
            yield _around(min(ax, bx), min(ay, by), max(ax, bx), max(ay, by), clear)


def _around(left: float, bottom: float, right: float, top: float, clear: float) -> Box:
    return Box(left=left - clear, bottom=bottom - clear, right=right + clear, top=top + clear)


def _middle(view: View, work: Work) -> Point:
    return view.at(work.middle[0], work.middle[1])


def _radius(view: View, work: Work) -> float:
    assert work.bore is not None
    return max(work.bore.diameter / 2 * view.scale, LEAST_RADIUS)


def _bore(view: View, work: Work) -> list[Shape]:
    """A bore in the face that is seen; a small one is a black dot, a countersink a second ring."""
    assert work.bore is not None
    centre, radius = _middle(view, work), _radius(view, work)
    small: Ink = "black" if radius < 0.75 else "white"
    shapes: list[Shape] = []
    if work.bore.countersink is not None:
        sunk = max(work.bore.countersink.diameter / 2 * view.scale, radius + 0.35)
        shapes.append(Circle(centre=centre, radius=sunk, pen=BORE_PEN, fill="white"))
    if work.is_counterbore:
        return [Circle(centre=centre, radius=max(radius, LEAST_RADIUS + 0.5), pen=BORE_PEN)]
    return [*shapes, Circle(centre=centre, radius=radius, pen=BORE_PEN, fill=small)]


def _mouth(view: View, work: Work) -> Shape:
    """A slot, mortise or pocket in the face that is seen."""
    return Path_(points=_mouth_points(view, work), closed=True, pen=BORE_PEN, fill="white")


def _mouth_points(view: View, work: Work) -> tuple[Point, ...]:
    x, y = work.middle[0], work.middle[1]
    return tuple(view.at(x + dx, y + dy) for dx, dy, _ in mouth(work.feature))


def _channel(view: View, work: Work) -> list[Shape]:
    """A groove, housing or rebate: grey, its stopped ends rounded where the cutter leaves them so."""
    return [Path_(points=_channel_points(view, work), closed=True, pen=BORE_PEN, fill="light")]


def _channel_points(view: View, work: Work) -> tuple[Point, ...]:
    """The mouth of a channel on paper. A stopped end keeps the cutter's radius in its corners, or is chiselled."""
    assert work.groove is not None
    (x0, x1), (y0, y1) = work.span[0], work.span[1]
    axis = 0 if abs(work.groove.along[0]) > 0.5 else 1
    ends = work.groove.both_ends if work.groove.along[axis] > 0 else work.groove.both_ends[::-1]
    round_low, round_high = (end == "round" for end in ends)
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    high = (False, True, True, False) if axis == 0 else (False, False, True, True)
    radius = min(work.groove.end_radius, (y1 - y0) / 2 if axis == 0 else (x1 - x0) / 2)
    points: list[Point] = []
    for n, (corner, is_high) in enumerate(zip(corners, high, strict=True)):
        rounded = (round_high if is_high else round_low) and radius > 0
        points += _rounded(corner, corners[n - 1], corners[(n + 1) % 4], radius) if rounded else [corner]
    return tuple(view.at(x, y) for x, y in points)


def _rounded(corner: Point, before: Point, after: Point, radius: float, steps: int = 5) -> list[Point]:
    """A quarter circle in the place of a square corner."""
    u, v = _unit(corner, before), _unit(corner, after)
    middle = (corner[0] + (u[0] + v[0]) * radius, corner[1] + (u[1] + v[1]) * radius)
    angles = (n / steps * pi / 2 for n in range(steps + 1))
    return [
        (middle[0] - radius * (v[0] * cos(a) + u[0] * sin(a)), middle[1] - radius * (v[1] * cos(a) + u[1] * sin(a)))
        for a in angles
    ]


def _unit(a: Point, b: Point) -> Point:
    length = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length)


def _end_bore_points(view: View, work: Work) -> tuple[Point, ...]:
    """What is in an edge or end, seen through the face: as wide as it is and as deep as it goes."""
    axis = axis_of(work.bears)
    middle = work.middle[1 - axis]
    edge = level_at(view.part, work.bears, work.middle.get(2, 0.0))
    inwards = inward_of(view.part, work.bears)[axis]
    outline = profile(work.feature)
    wider = max(1.0, LEAST_RADIUS / view.scale / outline[-1][0])  # a small bore is still seen
    points = ((edge + inwards * deep, middle + wider * a) for a, deep in outline)
    return tuple(view.at(d, a) if axis == 0 else view.at(a, d) for d, a in points)


def _end_bore(view: View, work: Work) -> Shape:
    return Path_(points=_end_bore_points(view, work), pen=END_PEN)


def _thick_edge(view: View, surface: Surface) -> Shape:
    """What is left of an edge between its notches, thick."""
    axis, at = axis_of(surface), level(surface, view.part.size)
    corners = view.part.outline if not any(view.part.bevels) else _outlines(view)[1]
    nearest = min(abs(p[axis] - at) for p in corners)
    on_it = [p for p in corners if abs(p[axis] - at) < nearest + 1e-6]
    a, b = (min(on_it, key=lambda p: p[1 - axis]), max(on_it, key=lambda p: p[1 - axis]))
    return line(view.at(*a), view.at(*b), EDGE_PEN)
