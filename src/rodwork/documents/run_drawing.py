"""A run drawn where it stands: from the front with its fronts on and off, from above, and cut through.

Everything is placed in the run's own frame (x along the wall, z up from the floor) and then laid on paper at one scale.
What each cabinet shows is drawn as its own elevation has it; the run's boards are drawn over that, as they hide it.
"""

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rodwork.documents.annotate import Box, spread
from rodwork.documents.drawing import (
    HIDDEN,
    LINE,
    NO_PEN,
    THIN,
    Path_,
    Pen,
    Point,
    Shape,
    Text,
    box,
    line,
    moved,
    text_width,
)
from rodwork.documents.figures import dimension_across, dimension_up, size_text
from rodwork.documents.mouths import mouth
from rodwork.documents.pictorial import FROM_RIGHT, FRONT, cut_faces, drawn, part_box, seen, solids
from rodwork.documents.run_services import ServiceInRun, service_shapes, services_of
from rodwork.geometry.profile import even_places
from rodwork.model.feature import Cutout
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.run import CabinetRun, Standing
from rodwork.model.survey import Survey

FRONTS = ("door", "drawer front")
INSIDE = ("drawer side", "drawer back", "drawer bottom")
FIGURE, NAME = 3.6, 3.2
LEADER = Pen(width=0.13, ink="grey")
WALL = Pen(width=0.9)
LEVEL = Pen(width=0.25, dashes=(8.0, 1.5, 1.5, 1.5))
_FAR = 1e6
_ROW = 5.0  # from one row of figures to the next, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Where the run comes on paper: the left end of its wall and its floor, and its scale."""

    left: float
    floor: float
    k: float

    def at(self, x: float, z: float) -> Point:
        """A place along the run and above the floor (or behind the fronts), on paper."""
        return (self.left + x * self.k, self.floor + z * self.k)


def reach(rod: Rod, run: CabinetRun) -> tuple[float, float, float, float]:
    """From where to where a run goes: along the wall, and its lowest and highest place."""
    boxes = [part_box(p) for p in rod.cabinet[run.name].parts if p.role != "infill"]
    x0 = min([0.0, *(b[0][0] for b in boxes)])
    x1 = max([run.length, *(b[1][0] for b in boxes)])
    z1 = max([*(s.z1 for s in run.standings), *(b[1][2] for b in boxes), *(s.z[1] for s in _services(rod, run))])
    return x0, x1, 0.0, z1


def _services(rod: Rod, run: CabinetRun) -> tuple[ServiceInRun, ...]:
    return services_of(run, rod.surveys.get(run.survey or ""))


# from the front


def services(rod: Rod, run: CabinetRun, sheet: Sheet) -> Iterator[Shape]:
    """What lies on the wall behind the run, each with its name clear of the marks of the cabinets."""
    found = _services(rod, run)
    boxes = [_on_paper(sheet, (max(s.x[0], 0.0), min(s.x[1], run.length)), (max(s.z[0], 0.0), s.z[1])) for s in found]
    marks = [b for s in run.standings if s.stands_as in ("cabinet", "gap") and (b := _label_box(rod, s, sheet)[1])]
    within = _on_paper(sheet, (0.0, run.length), (0.0, reach(rod, run)[3]))
    yield from service_shapes(found, boxes, within, marks)


def _on_paper(sheet: Sheet, x: tuple[float, float], z: tuple[float, float]) -> Box:
    (left, bottom), (right, top) = sheet.at(x[0], z[0]), sheet.at(x[1], z[1])
    return Box(left=left, bottom=bottom, right=right, top=top)


def front(rod: Rod, run: CabinetRun, sheet: Sheet, fronts: bool) -> Iterator[Shape]:
    """Every cabinet as it is seen, with its doors and drawers or without, and the run's boards before them."""
    for s in run.standings:
        if s.stands_as == "cabinet":
            yield from _cabinet(rod.cabinet[s.name], s, sheet, fronts)
        elif s.stands_as == "gap":
            yield from _gap(s, sheet)
    for part in rod.cabinet[run.name].whole_boards:
        if fronts or part.role not in ("plinth board", "infill"):
            (x0, _, z0), (x1, _, z1) = part_box(part)
            if part.role == "infill":  # what it has over to be scribed is in the wall
                x0, x1 = max(x0, 0.0), min(x1, run.length)
            x, y = sheet.at(x0, z0)
            yield box(x, y, (x1 - x0) * sheet.k, (z1 - z0) * sheet.k, THIN, fill="white")
    yield from _room(rod, run, sheet, reach(rod, run)[3])


def _cabinet(cabinet: RodCabinet, s: Standing, sheet: Sheet, fronts: bool) -> Iterator[Shape]:
    hidden = (*FRONTS, *INSIDE)
    boards = solids(cabinet, [p.id for p in cabinet.parts if p.role not in hidden])
    x, y = sheet.at(s.x0, s.z0)
    yield from moved(drawn(seen(boards, FRONT), THIN, THIN), x, y, sheet.k)
    if not fronts:
        return
    hinged = {d.door: d.hinged for d in cabinet.doors}
    for part in cabinet.parts:
        if part.role in FRONTS and "back_side" in part.shows:
            (a, _, c), (b, _, d) = part_box(part)
            low, high = sheet.at(s.x0 + a, s.z0 + c), sheet.at(s.x0 + b, s.z0 + d)
            yield box(*low, high[0] - low[0], high[1] - low[1], LINE, fill="white")
            for p, q in opening_lines(hinged.get(part.id), low, high):
                yield line(p, q, HIDDEN)


def opening_lines(
    hinged: str | None, low: Point, high: Point, left: float | None = None
) -> tuple[tuple[Point, Point], ...]:
    """From the corners of a door's free edge to the middle of its hinged one; `left`: how high it comes there."""
    (a, c), (b, d) = low, high
    e = d if left is None else left
    across = (a + b) / 2
    ends = {
        "left": (((b, d), (a, (c + e) / 2)), ((b, c), (a, (c + e) / 2))),
        "right": (((a, e), (b, (c + d) / 2)), ((a, c), (b, (c + d) / 2))),
        "up": (((a, c), (across, d)), ((b, c), (across, d))),
    }  # fmt: skip
    return ends.get(hinged or "", ())


def _gap(s: Standing, sheet: Sheet) -> Iterator[Shape]:
    (x0, y0), (x1, y1) = sheet.at(s.x0, s.z0), sheet.at(s.x1, s.z1)
    yield box(x0, y0, x1 - x0, y1 - y0, HIDDEN)


def _room(rod: Rod, run: CabinetRun, sheet: Sheet, top: float) -> Iterator[Shape]:
    """The floor and the walls where there are walls; of a surveyed wall as they were read, with its level line."""
    survey = rod.surveys.get(run.survey or "")
    over = 6.0
    (x0, y0), (x1, y1) = sheet.at(0.0, 0.0), sheet.at(run.length, top)
    if survey is None:
        yield line((x0 - over, y0), (x1 + over, y0), WALL)
        for side, x in (("left", x0), ("right", x1)):
            if run.walls in ("both", side):
                yield line((x, y0), (x, y1 + 1.5), WALL)
        return
    yield from _surveyed(survey, run, sheet, top)


def _surveyed(survey: Survey, run: CabinetRun, sheet: Sheet, top: float) -> Iterator[Shape]:
    low = survey.high_point

    def at(x: float, z: float) -> Point:
        return sheet.at(x - run.origin, z - low)

    ends = (survey.left_at(0.0, 0.0), survey.right_at(0.0, 0.0))
    floor = [at(x, survey.floor_at(x)) for x in even_places(*ends, max(len(survey.floor), 2))]
    yield Path_(points=tuple(floor), pen=WALL)
    heights = [low, *(h for h in survey.heights if low < h < low + top), low + top]
    for side, wall in (("left", survey.left_at), ("right", survey.right_at)):
        if run.walls in ("both", side):
            yield Path_(points=tuple(at(wall(0.0, z), z) for z in heights), pen=WALL)
    if 0.0 < -low < top:
        (a, y), (b, _) = at(ends[0], 0.0), at(ends[1], 0.0)
        yield line((a - 3.0, y), (b + 3.0, y), LEVEL)


def named(rod: Rod, run: CabinetRun, sheet: Sheet, floor_row: float) -> Iterator[Shape]:
    """The number of each thing from the left over it, and what it is inside it where there is room."""
    top = reach(rod, run)[3]
    texts = [str(n) for n in range(1, len(run.standings) + 1)]
    widths = [text_width(t, NAME + 1.0, True) for t in texts]
    middles = [sheet.at((s.x0 + s.x1) / 2, 0.0)[0] for s in run.standings]
    y = sheet.at(0.0, top)[1] + floor_row
    places = spread(middles, widths, min(middles) - 20.0, max(middles) + 20.0, 1.2)
    for text, x, true in zip(texts, places, middles, strict=True):
        yield line((true, y - floor_row + 1.0), (x, y - 1.0), LEADER)
        yield Text(at=(x, y), text=text, size=NAME + 1.0, bold=True, anchor="middle")
    for s in run.standings:
        if s.stands_as in ("cabinet", "gap"):
            yield from _inside(rod, s, sheet)


def _inside(rod: Rod, s: Standing, sheet: Sheet) -> Iterator[Shape]:
    """A cabinet's copy by its mark, or what a gap is for, on white ground in the middle of it."""
    text, ground = _label_box(rod, s, sheet)
    if text is not None and ground is not None:
        yield box(
            ground.left, ground.bottom, ground.right - ground.left, ground.top - ground.bottom, NO_PEN, fill="white"
        )
        yield text


def _label_box(rod: Rod, s: Standing, sheet: Sheet) -> tuple[Text | None, Box | None]:
    """What stands in the middle of a cabinet or gap, and the ground that it takes; nothing where there is no room."""
    (x0, y0), (x1, y1) = sheet.at(s.x0, s.z0), sheet.at(s.x1, s.z1)
    text = mark_of(rod, s) if s.stands_as == "cabinet" else s.name
    for size in (5.0, 4.2, 3.4, 2.8, 2.4):
        wide = text_width(text, size, True)
        if wide + 3.0 <= x1 - x0:
            x, y = (x0 + x1) / 2, (y0 + y1) / 2 - 0.33 * size
            low, left = y - 0.35 * size, x - wide / 2 - 0.8
            ground = Box(left=left, bottom=low, right=left + wide + 1.6, top=low + 1.3 * size)
            return Text(at=(x, y), text=text, size=size, bold=True, anchor="middle"), ground
    return None, None


def mark_of(rod: Rod, s: Standing) -> str:
    """The mark of one copy of a cabinet: G2."""
    return rod.cabinet[s.name].parts[0].marks[s.copy - 1].partition("-")[0]


# figures


def chain(places: Sequence[float], sheet: Sheet, y: float, low: float, high: float) -> Iterator[Shape]:
    """A chain of level dimensions on paper: each stretch with its own figure, moved apart where they would touch."""
    ends = sorted({round(p, 3) for p in places})
    xs = [sheet.at(p, 0.0)[0] for p in ends]
    texts = [size_text(b - a) for a, b in itertools.pairwise(ends)]
    middles = [(a + b) / 2 for a, b in itertools.pairwise(xs)]
    widths = [text_width(t, FIGURE) for t in texts]
    size = FIGURE if sum(widths) + 1.2 * len(widths) <= high - low else 2.6
    widths = [text_width(t, size) for t in texts]
    yield line((xs[0], y), (xs[-1], y), THIN)
    for x in xs:
        yield line((x, y - 1.1), (x, y + 1.1), THIN)
    for text, x, true in zip(texts, spread(middles, widths, low, high, 1.2), middles, strict=True):
        yield line((true, y - 0.3), (x, y - 1.6), LEADER)
        yield Text(at=(x, y - 2.0 - 0.66 * size), text=text, size=size, anchor="middle")


def overall(a: float, b: float, sheet: Sheet, y: float) -> tuple[Shape, ...]:
    """The whole length under everything."""
    x0, x1 = sheet.at(a, 0.0)[0], sheet.at(b, 0.0)[0]
    return dimension_across(x0, x1, y, size_text(b - a), 5.0, bold=True)


def heights(run: CabinetRun, rod: Rod, sheet: Sheet, x: float) -> Iterator[Shape]:
    """Heights beside the run, from the floor: to its feet, its heads, its worktop, and the whole."""
    parts = [part_box(p) for p in rod.cabinet[run.name].parts if p.role in ("worktop", "cornice")]
    cabinets = [(s, rod.cabinet[s.name].footing) for s in run.standings if s.stands_as == "cabinet"]
    toes = [s.z0 + f.height for s, f in cabinets if f is not None and f.style == "notched sides"]
    places = {0.0, run.above_floor, *toes, *(s.z1 for s in run.standings), *(b[1][2] for b in parts)}
    ends = sorted({round(p, 3) for p in places})
    for a, b in itertools.pairwise(ends):
        y0, y1 = sheet.at(0.0, a)[1], sheet.at(0.0, b)[1]
        text = size_text(b - a)
        if y1 - y0 >= text_width(text, FIGURE) + 1.5:
            yield from dimension_up(x, y0, y1, text, FIGURE)
        else:  # too low for a turned figure: level, beside its own ticks
            yield from (line((x - 1.1, y), (x + 1.1, y), THIN) for y in (y0, y1))
            yield line((x, y0), (x, y1), THIN)
            yield Text(at=(x - 2.0, (y0 + y1) / 2 - 0.33 * 2.8), text=text, size=2.8, anchor="end")
    if len(ends) > 2:
        y0, y1 = sheet.at(0.0, ends[0])[1], sheet.at(0.0, ends[-1])[1]
        yield from dimension_up(x - 9.0, y0, y1, size_text(ends[-1] - ends[0]), 4.4, bold=True)


# from above


def plan(rod: Rod, run: CabinetRun, sheet: Sheet) -> Iterator[Shape]:
    """Worktops with their cut-outs over the cabinets in dashes; of wall units the cabinets alone. Front below."""
    entry = rod.cabinet[run.name]
    tops = [p for p in entry.parts if p.role == "worktop"]
    for s in run.standings:
        if s.stands_as == "cabinet":
            yield _rectangle(sheet, s.x0, 0.0, s.x1, rod.cabinet[s.name].size[2], LINE if not tops else HIDDEN)
        elif s.stands_as == "gap":
            yield _rectangle(sheet, s.x0, 0.0, s.x1, run.depth, HIDDEN)
    for part in entry.parts:
        if part.role in ("infill", "end panel", "cornice", *(() if tops else ("plinth board",))):
            (x0, y0, _), (x1, y1, _) = part_box(part)
            yield _rectangle(sheet, x0, y0, x1, y1, HIDDEN if tops else LINE)
    for part in tops:
        (x0, y0, _), (x1, y1, _) = part_box(part)
        yield _rectangle(sheet, x0, y0, x1, y1, LINE)
        yield from (_cut_out(part, f, sheet) for f in part.features if isinstance(f, Cutout))
    deep = run.depth + run.behind
    yield line(sheet.at(0.0, deep), sheet.at(run.length, deep), WALL)
    for side, x in (("left", 0.0), ("right", run.length)):
        if run.walls in ("both", side):
            yield line(sheet.at(x, deep), sheet.at(x, -60.0), WALL)


def _rectangle(sheet: Sheet, x0: float, y0: float, x1: float, y1: float, pen: Pen) -> Path_:
    x, y = sheet.at(x0, y0)
    return box(x, y, (x1 - x0) * sheet.k, (y1 - y0) * sheet.k, pen)


def _cut_out(part: Part, cut: Cutout, sheet: Sheet) -> Path_:
    x, y, _ = part.pose.to_cabinet(cut.at)
    points = tuple(sheet.at(x + dx, y + dy) for dx, dy, _ in mouth(cut))
    return Path_(points=points, closed=True, pen=LINE, fill="light")


def cut_out_words(run: CabinetRun, sheet: Sheet) -> Iterator[Shape]:
    """What each cut-out is for, its size and its corners, inside it as far as there is room."""
    for cut in run.cut_outs:
        (x0, y0), (x1, y1) = sheet.at(cut.x0, cut.y0), sheet.at(cut.x1, cut.y1)
        rows = (cut.what, f"{size_text(cut.x1 - cut.x0)} x {size_text(cut.y1 - cut.y0)}", f"corners {cut.radius:g}")
        size = next((s for s in (4.0, 3.4, 2.8, 2.4) if max(text_width(r, s) for r in rows) + 2 <= x1 - x0), 0.0)
        if size:
            for n, row in enumerate(rows):
                y = (y0 + y1) / 2 + (0.6 - n) * 1.25 * size - 0.33 * size
                if y0 + 0.5 < y < y1 - 0.8 * size:
                    yield Text(at=((x0 + x1) / 2, y), text=row, size=size, anchor="middle")


# cut through


def section(rod: Rod, run: CabinetRun, s: Standing, sheet: Sheet) -> Iterator[Shape]:
    """One cabinet cut through its middle, with the run's boards over, under and behind it. Front to the left."""
    cabinet = rod.cabinet[s.name]
    boards = solids(cabinet, [p.id for p in cabinet.parts if p.role not in INSIDE])
    middle = cabinet.size[0] / 2
    within = ((-_FAR, -_FAR, -_FAR), (middle, _FAR, _FAR))
    x, y = sheet.at(0.0, s.z0)
    faces = tuple(
        Path_(points=face, closed=True, pen=NO_PEN, fill="light") for face in cut_faces(boards, FROM_RIGHT, within)
    )
    yield from moved((*faces, *drawn(seen(boards, FROM_RIGHT, within), THIN, THIN)), x, y, sheet.k)
    at = (s.x0 + s.x1) / 2
    for part in rod.cabinet[run.name].whole_boards:
        (x0, y0, z0), (x1, y1, z1) = part_box(part)
        if x0 <= at <= x1:
            low, high = sheet.at(y0, z0), sheet.at(y1, z1)
            yield box(*low, high[0] - low[0], high[1] - low[1], LINE, fill="light")
    deep, top = run.depth + run.behind, reach(rod, run)[3]
    yield line(sheet.at(deep, 0.0), sheet.at(deep, top + 120.0), WALL)
    yield line(sheet.at(-120.0, 0.0), sheet.at(deep + 40.0, 0.0), WALL)


def section_places(rod: Rod, run: CabinetRun, s: Standing) -> tuple[float, ...]:
    """What the depth is measured to in a section: front of the worktop or doors, carcass front and back, wall."""
    at, top = (s.x0 + s.x1) / 2, [p for p in rod.cabinet[run.name].parts if p.role == "worktop"]
    boxes = [part_box(p) for p in top if part_box(p)[0][0] <= at <= part_box(p)[1][0]]
    fronts = [b[0][1] for b in boxes] or [run.front]
    return tuple(sorted({*fronts, 0.0, rod.cabinet[s.name].size[2], run.depth + run.behind}))
