"""The opening with its unit on the level line: walls as surveyed, gaps, scribes, services, and the order of fitting.

The unit is drawn to scale. Gaps at the walls and the fall of the floor are drawn wider than they are, all by one
factor that the page names, or a wall that leans would look plumb.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from rodwork.documents.alcove_words import (
    GAP_COLUMNS,
    gap_rows,
    height_text,
    held,
    order,
    service_text,
    verdict,
)
from rodwork.documents.drawing import (
    FAINT,
    FOLD,
    HIDDEN,
    LINE,
    NO_PEN,
    Path_,
    Pen,
    Point,
    Shape,
    Text,
    box,
    line,
    text_width,
)
from rodwork.documents.figures import arrow_head, dimension_across, dimension_up, size_text
from rodwork.documents.page import Area, Page, body
from rodwork.documents.pictorial import part_box
from rodwork.documents.tables import Block, Column, flow, gap, heading, paragraph, rows
from rodwork.model.alcove import Alcove
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.survey import Survey

WALL = Pen(width=0.7)
_FIGURE = 3.6
_WIDEST_MM = 14.0  # of a gap on paper
_WALL_MM = 4.0  # of wall that is drawn on paper
_BESIDE = 18.0  # for figures beside a wall, mm
_SHOWN = ("side", "top", "bottom", "fixed shelf", "divider", "part divider")
_APART = 1.4 * _FIGURE
_SCRIBE_MM = 18.0  # how thick a scribe is drawn on plan


def alcove_pages(rod: Rod) -> tuple[Page, ...]:
    """A page for every unit that stands in a surveyed opening; its words may take another."""
    return tuple(page for cabinet in rod.cabinets for page in _pages(cabinet, rod))


def _pages(cabinet: RodCabinet, rod: Rod) -> Iterator[Page]:
    alcove = cabinet.asked.alcove
    if alcove is None:
        return
    area = body(rod.heading.paper, landscape=True)
    view = _view(alcove, rod.surveys[alcove.survey], area)
    right = Area(left=view.right + 6.0, bottom=area.bottom, right=area.right, top=area.top)
    plan, used = _plan(view, right)
    below = Area(left=right.left, bottom=area.bottom, right=area.right, top=right.top - used)
    parts = flow(_words(cabinet, view, rod.step, right.width), below)
    title = f"{cabinet.name}: the opening"
    under = (
        f"Everything is up (+) or down (-) from the level line. Gaps and the fall of the floor are drawn "
        f"{view.wider:.0f} times as wide as they are."
    )
    figure = f"{size_text(alcove.size[0])} wide"
    first = (*_elevation(view, cabinet), *plan, *parts[0])
    yield Page(kind="opening", title=title, under=under, right=figure, shapes=first)
    for more in parts[1:]:
        yield Page(kind="opening", title=title, right=figure, shapes=more)


@dataclass(frozen=True, slots=True, kw_only=True)
class _View:
    """The front of the opening on paper: `left`, `low` is the unit's lower left corner, `k` its scale.

    `wider`: how many times wider than to scale gaps are drawn. `z_low`, `z_high`: what is drawn, off the level line.
    """

    alcove: Alcove
    survey: Survey
    left: float
    low: float
    k: float
    wider: float
    z_high: float

    @property
    def right(self) -> float:
        """Where the drawing ends."""
        return self.left + self.alcove.size[0] * self.k + _WIDEST_MM + _WALL_MM + _BESIDE

    def up(self, z: float) -> float:
        """A height off the level line, on paper."""
        return self.low + (z - self.alcove.at[2]) * self.k

    def floor(self, x: float, y: float = 0.0) -> float:
        """The floor on paper: below the high point so many times deeper."""
        fall = self.survey.high_point - self.survey.floor_at(x, y)
        return self.up(self.survey.high_point) - fall * self.k * self.wider

    def wall(self, side: str, y: float, z: float) -> float:
        """A wall on paper, so many times further from the unit than to scale."""
        x, width = self.alcove.at[0], self.alcove.size[0]
        if side == "left":
            return self.left - (x - self.survey.left_at(y, z)) * self.k * self.wider
        return self.left + width * self.k + (self.survey.right_at(y, z) - x - width) * self.k * self.wider


def _view(alcove: Alcove, survey: Survey, area: Area) -> _View:
    width, height, _ = alcove.size
    bottom, top = alcove.at[2], alcove.at[2] + height
    z_high = min(survey.lowest_ceiling or top + 0.1 * height, top + 0.15 * height)
    z_high = max(z_high, top)
    beside = 2 * (_WIDEST_MM + _WALL_MM + _BESIDE)
    under = _FIGURE * 2 + 16.0
    k = min((0.52 * area.width - beside) / width, (area.height - under - 6.0) / (z_high - survey.high_point))
    widest = max(1.0, *(abs(g) for gap in alcove.gaps for g in (gap.left, gap.right)))
    wider = max(1.0, round(_WIDEST_MM / widest / k))
    low = area.bottom + under + (bottom - survey.high_point) * k
    return _View(
        alcove=alcove, survey=survey, left=area.left + _BESIDE + _WALL_MM + _WIDEST_MM, low=low, k=k, wider=wider,
        z_high=z_high,
    )  # fmt: skip


# from the front -------------------------------------------------------------------------------------------------


def _elevation(view: _View, cabinet: RodCabinet) -> Iterator[Shape]:
    alcove, k = view.alcove, view.k
    width, height, _ = alcove.size
    for side in ("left", "right"):
        yield from _side_wall(view, side)
        yield from _scribe(view, side)
        yield from _gap_figures(view, side)
    yield from _floor(view)
    for part in cabinet.parts:
        if part.in_box and part.role in _SHOWN:
            a, b = part_box(part)
            yield box(view.left + a[0] * k, view.low + a[2] * k, (b[0] - a[0]) * k, (b[2] - a[2]) * k, FAINT)
    yield box(view.left, view.low, width * k, height * k, LINE)
    yield from _services(view)
    yield from _level_line(view)
    yield from dimension_across(
        view.left, view.left + width * k, view.low - _under(view) - 11.0, size_text(width), 5.0, bold=True
    )


def _under(view: _View) -> float:
    """From the unit's bottom down to the lowest of the floor, on paper."""
    ends = (view.alcove.at[0], view.alcove.at[0] + view.alcove.size[0])
    return view.low - min(view.floor(x, y) for x in ends for y in (0.0, view.survey.deep))


def _heights(view: _View) -> tuple[float, ...]:
    low, high = view.survey.high_point, view.z_high
    return (low, *(z for z in view.survey.heights if low < z < high), high)


def _side_wall(view: _View, side: str) -> Iterator[Shape]:
    """The wall and a strip of what it is built of, the skirting and the cornice at it."""
    out = -_WALL_MM if side == "left" else _WALL_MM
    edge = [(view.wall(side, 0.0, z), view.up(z)) for z in _heights(view)]
    reach = min(x for x, _ in edge) + out if side == "left" else max(x for x, _ in edge) + out
    strip = (*edge, (reach, edge[-1][1]), (reach, edge[0][1]))
    yield Path_(points=strip, closed=True, pen=NO_PEN, fill="light")
    yield Path_(points=tuple(edge), pen=WALL)
    skirting = view.survey.skirting
    if skirting is not None and skirting.stays:
        x, y = edge[0]
        across = skirting.out * view.k * view.wider
        yield box(x if side == "left" else x - across, y, across, skirting.height * view.k, LINE, fill="light")


def _scribe(view: _View, side: str) -> Iterator[Shape]:
    """What is left between unit and wall: the scribe as it will be."""
    low, high = view.alcove.at[2], view.alcove.at[2] + view.alcove.size[1]
    edge = view.left if side == "left" else view.left + view.alcove.size[0] * view.k
    places = (low, *(z for z in view.survey.heights if low < z < high), high)
    wall = [(view.wall(side, 0.0, z), view.up(z)) for z in places]
    points = (*wall, (edge, view.up(high)), (edge, view.up(low)))
    yield Path_(points=points, closed=True, pen=Pen(width=0.18))


def _gap_figures(view: _View, side: str) -> Iterator[Shape]:
    """The gap at the front at the heights of the table, as far as they do not crowd each other."""
    anchors = {gap.height: gap for gap in reversed(view.alcove.gaps) if gap.depth == 0.0}
    heights = sorted(anchors)
    kept: list[float] = []
    for z in (heights[0], heights[-1], *heights[1:-1]):
        if all(abs(view.up(z) - view.up(other)) >= _APART for other in kept):
            kept.append(z)
    reach = [view.wall(side, 0.0, z) for z in _heights(view)]
    edge = view.left if side == "left" else view.left + view.alcove.size[0] * view.k
    x = min(edge, *reach) - _WALL_MM - 1.5 if side == "left" else max(edge, *reach) + _WALL_MM + 1.5
    for z in kept:
        value = anchors[z].left if side == "left" else anchors[z].right
        yield Text(
            at=(x, view.up(z) - 0.33 * _FIGURE), text=size_text(value), size=_FIGURE, bold=True,
            anchor="end" if side == "left" else "start",
        )  # fmt: skip


def _floor(view: _View) -> Iterator[Shape]:
    """The floor as it falls, what is under each end of the unit, and where to start."""
    ends = [view.alcove.at[0], view.alcove.at[0] + view.alcove.size[0]]
    left, right = view.left, view.left + view.alcove.size[0] * view.k
    y = [view.floor(x) for x in ends]
    low = view.survey.high_point
    x0, x1 = min(left, view.wall("left", 0.0, low)), max(right, view.wall("right", 0.0, low))
    yield Path_(points=((x0, y[0]), (left, y[0]), (right, y[1]), (x1, y[1])), pen=WALL)
    start = 0 if view.alcove.feet[0] <= view.alcove.feet[1] else 1
    words = [f"{size_text(foot, 1.0)} down" for foot in view.alcove.feet[:2]]
    words[start] += ": start here"
    if sum(text_width(text, _FIGURE) for text in words) + 12.0 > right - left:
        words[start] = "start"
    for n, (x, text) in enumerate(zip((left + 4.0, right - 4.0), words, strict=True)):
        yield Text(at=(x, min(y) - 1.5 - _FIGURE), text=text, size=_FIGURE, anchor="start" if n == 0 else "end")
    tip = (left + 2.0, y[0] - 0.6) if start == 0 else (right - 2.0, y[1] - 0.6)
    yield arrow_head(tip, (0.0, 1.0), 3.0)


def _level_line(view: _View) -> Iterator[Shape]:
    if not view.alcove.at[2] < 0.0 < view.z_high:
        return
    y = view.up(0.0)
    edges = view.wall("left", 0.0, 0.0), view.wall("right", 0.0, 0.0)
    yield line((edges[0], y), (edges[1], y), FOLD)
    wide = text_width("level line", _FIGURE) + 2.0
    yield from _on_white("level line", (view.left + 3.0 + wide / 2, y + 2.4))


def _on_white(text: str, at: Point) -> Iterator[Shape]:
    wide = text_width(text, _FIGURE) + 2.0
    yield box(at[0] - wide / 2, at[1] - 1.8, wide, 3.6, NO_PEN, fill="white")
    yield Text(at=(at[0], at[1] - 0.33 * _FIGURE), text=text, size=_FIGURE, anchor="middle")


def _services(view: _View) -> Iterator[Shape]:
    """Boxes on the back wall, behind the unit: dashed, with their number."""
    x0, _, z0 = view.alcove.at
    for n, service in enumerate(view.survey.services, 1):
        if service.wall != "back":
            continue
        x, z = view.left + (service.low[0] - x0) * view.k, view.low + (service.low[1] - z0) * view.k
        wide, high = service.size[0] * view.k, service.size[1] * view.k
        yield box(x, z, wide, high, HIDDEN)
        yield from _on_white(str(n), (x + wide + 2.5, z + high / 2))


# from above -----------------------------------------------------------------------------------------------------


def _plan(view: _View, area: Area) -> tuple[tuple[Shape, ...], float]:
    """The unit between the walls on the level line, front below; and how much room it took."""
    alcove, survey = view.alcove, view.survey
    width, _, depth = alcove.size
    deep = max(depth, survey.deep)
    room = area.width - 2 * (_WIDEST_MM + _WALL_MM + _BESIDE)
    k = min(view.k, room / width, 28.0 / deep)
    left = area.left + _BESIDE + _WALL_MM + _WIDEST_MM
    low = area.top - 8.0 - deep * k
    z = min(max(0.0, alcove.at[2]), alcove.at[2] + alcove.size[1])
    shapes: list[Shape] = [
        Text(at=(area.left, area.top - 3.6), text=f"Plan, {_at(z)}, front below", size=_FIGURE, bold=True)
    ]
    wider = view.wider * view.k / k if k < view.k else view.wider
    corners = []
    for side, edge, sign in (("left", left, -1.0), ("right", left + width * k, 1.0)):
        gaps = [_gap(view, side, y, z) for y in (0.0, survey.deep)]
        points = [(edge + sign * g * k * wider, low + y * k) for g, y in zip(gaps, (0.0, deep), strict=True)]
        out = (max if sign > 0 else min)(points[0][0], points[1][0], edge) + sign * _WALL_MM
        strip = (*points, (out, points[1][1]), (out, points[0][1]))
        shapes += [Path_(points=strip, closed=True, pen=NO_PEN, fill="light"), Path_(points=tuple(points), pen=WALL)]
        corners.append(points[-1])
        shapes += _plan_figures(gaps, points, out + sign * 1.5, sign)
        top = low + max(1.2, _SCRIBE_MM * k)
        scribe = ((edge, low), points[0], (points[0][0], top), (edge, top))
        shapes.append(Path_(points=scribe, closed=True))
    if survey.depths_left is not None:
        shapes.append(Path_(points=tuple(corners), pen=WALL))
    shapes.append(box(left, low, width * k, depth * k, LINE))
    shapes += dimension_up(left + 9.0, low, low + depth * k, size_text(depth), _FIGURE)
    return tuple(shapes), area.top - low + 6.0


def _at(z: float) -> str:
    return "on the level line" if not z else f"at {height_text(z)}"


def _gap(view: _View, side: str, y: float, z: float) -> float:
    x, width = view.alcove.at[0], view.alcove.size[0]
    return x - view.survey.left_at(y, z) if side == "left" else view.survey.right_at(y, z) - x - width


def _plan_figures(gaps: list[float], points: list[Point], x: float, sign: float) -> Iterator[Shape]:
    close = abs(points[1][1] - points[0][1]) < _APART
    for value, (_, y), shift in zip(gaps, points, (1.0, -0.66 * _FIGURE - 1.0), strict=True):
        if close and shift < 0:
            return
        yield Text(
            at=(x, y + shift), text=size_text(value), size=_FIGURE, bold=True, anchor="end" if sign < 0 else "start"
        )


# in words -------------------------------------------------------------------------------------------------------


def _words(cabinet: RodCabinet, view: _View, step: float, width: float) -> Iterator[Block]:
    alcove, survey = view.alcove, view.survey
    yield paragraph(verdict(alcove, step), width, 4.2, bold=True)
    each = (width - 22.0) / 4
    columns = [Column(title="up or down", width=22.0, size=_FIGURE)]
    columns += [Column(title=t, width=each, size=_FIGURE, anchor="end") for t in GAP_COLUMNS[1:]]
    yield heading(columns)
    for cells in gap_rows(alcove, step):
        yield from rows(columns, cells, 4.7, 60.0)
    yield gap(2.0)
    marks = {p.name: p.marks[0] for p in cabinet.parts if p.role == "scribe"}
    for n, text in enumerate(order(alcove, survey, marks, step), 1):
        yield paragraph(f"{n}. {text}", width, 3.5, after=1.0)
    yield gap(1.5)
    yield paragraph(held(alcove, step), width, 3.2, after=1.0)
    for n, service in enumerate(survey.services, 1):
        yield paragraph(f"({n}) {service_text(service)}", width, 3.2, after=0.8)
    for taken in survey.taken:
        yield paragraph(f"Taken for granted: {taken}.", width, 3.2, after=0.8)
