"""The front of a cabinet with doors and drawer fronts off: plates, runners, pins, drawer boxes, shelves, clothes rails.

Heights are from the bottom of the carcass. A figure stands beside what it belongs to where there is room, and all of
them stand in words beside the drawing.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from rodwork.documents.annotate import Box, clipped, listed, named, place_for, text_box
from rodwork.documents.drawing import (
    HIDDEN,
    LINE,
    NO_PEN,
    Circle,
    Ink,
    Path_,
    Pen,
    Point,
    Shape,
    Text,
    box,
    moved,
    text_width,
    wrapped,
)
from rodwork.documents.elevations import bays, heights_of_sides
from rodwork.documents.figures import dimension_across, size_text
from rodwork.documents.hulls import outside_heights
from rodwork.documents.page import Area, Page, body
from rodwork.documents.pictorial import FRONT, drawn, extent, part_box, seen, solids
from rodwork.geometry.rounding import to_step
from rodwork.model.feature import Bore, Feature
from rodwork.model.fronts import DoorHung, DrawerMade
from rodwork.model.margins import fronts
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

_ROOM = 16.0  # for a dimension beside the drawing, mm
_WORDS = 84.0  # width of what is said beside it, mm
_SIZES = (3.6, 3.2, 2.8, 2.5)  # of the words: the largest that leaves room for all
_FIGURE = 2.8
_PIECE = 1.0  # mm of a slanting line at a time
_PLATE_MM = (12.0, 24.0)  # how far a plate stands in, and half its length: as they are usually bought
_RUNNER_MM = 16.0  # half the height of a runner, drawn only
_PIN_MM = 8.0  # how far a pin stands in, drawn only
_DOT_IN_MM = 2.0  # a dot stands so far inside the face that it is bored in, drawn only
_NEAR_MM = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheet:
    """Where the cabinet comes on paper: its bottom left corner, its lowest places, its scale."""

    left: float
    low: float
    x0: float
    z0: float
    k: float

    def at(self, x: float, z: float) -> Point:
        """A place of the front on paper."""
        return (self.left + (x - self.x0) * self.k, self.low + (z - self.z0) * self.k)

    def ground(self, a: Point, b: Point) -> Box:
        """The paper that a rectangle of the front takes."""
        (x0, y0), (x1, y1) = self.at(*a), self.at(*b)
        return Box(left=min(x0, x1), bottom=min(y0, y1), right=max(x0, x1), top=max(y0, y1))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Thing:
    """Something screwed in, as a rectangle of the front; its figure, and the way in which that stands of it.

    `on`: the board that it is screwed to; what stands before that hides it.
    """

    low: Point
    high: Point
    on: Part
    figure: str = ""
    way: float = 0.0


def inside_pages(rod: Rod) -> tuple[Page, ...]:
    """One page for every cabinet with doors, drawers, loose shelves or clothes rails."""
    area = body(rod.heading.paper, landscape=True)
    return tuple(
        Page(
            kind="inside", title=f"{c.name}: the front, open", right=f"{size_text(c.size[0])} x {size_text(c.size[1])}",
            under="Doors and drawer fronts off, as seen from the front. Heights are from the bottom of the carcass.",
            shapes=tuple(_page(c, area, rod.step)),
        )
        for c in rod.boxes
        if c.doors or c.drawers or c.clothes_rails or any(p.role == "loose shelf" for p in c.parts)
    )  # fmt: skip


def _page(cabinet: RodCabinet, area: Area, step: float) -> Iterator[Shape]:
    hidden = {p.id for p in fronts(cabinet)} | {p.id for p in cabinet.parts if p.role == "scribe"}
    shown = [p for p in cabinet.whole_boards if p.id not in hidden]
    (x0, _, z0), (x1, _, z1) = extent([part_box(p) for p in shown])
    k = min((area.width - _WORDS - 2 * _ROOM) / (x1 - x0), (area.height - 2 * _ROOM) / (z1 - z0))
    sheet = _Sheet(left=area.left + _ROOM, low=area.top - 6.0 - (z1 - z0) * k, x0=x0, z0=z0, k=k)
    lines = moved(
        drawn(seen(solids(cabinet, [p.id for p in shown]), FRONT), LINE, LINE),
        sheet.left - x0 * k, sheet.low - z0 * k, k,
    )  # fmt: skip
    plates, runners = list(_plates(cabinet, step)), list(_runners(cabinet, step))
    yield from lines
    yield from (_drawn(cabinet, t, sheet, "white") for t in plates)
    yield from (_drawn(cabinet, t, sheet, "light") for t in runners)
    yield from _pins(cabinet, sheet)
    tubes, sockets = list(_tubes(cabinet)), list(_sockets(cabinet))
    yield from (_drawn(cabinet, t, sheet, "white") for t in tubes)
    yield from (_drawn(cabinet, t, sheet, "light") for t in sockets)
    things = (*plates, *runners, *tubes, *sockets)
    taken = [*_grounds(lines), *(sheet.ground(t.low, t.high) for t in things)]
    yield from _figures(cabinet, sheet, [*plates, *runners], taken, step)
    (left, low), (right, _) = sheet.at(0.0, 0.0), sheet.at(cabinet.size[0], 0.0)
    yield from dimension_across(left, right, sheet.low - 7.0, size_text(cabinet.size[0]), 5.0, bold=True, reach=4.0)
    yield from heights_of_sides(cabinet, (sheet.left - 5.0, sheet.at(x1, 0.0)[0] + 9.0), low, k)
    beside = max(sheet.at(x1, 0.0)[0] + (_ROOM if outside_heights(cabinet) else 8.0), area.right - _WORDS)
    yield from _words(list(_said(cabinet, step)), Area(left=beside, bottom=area.bottom, right=area.right, top=area.top))


# what is screwed and put in


def _height(z: float, step: float) -> float:
    return to_step(z, step)


def _plates(cabinet: RodCabinet, step: float) -> Iterator[_Thing]:
    """Every plate of a side-hung door, from the face of its board into the opening; of a flap, hanging from above."""
    out, half = _PLATE_MM
    for door in cabinet.doors:
        for (x, z), hinge in zip(_plate_places(cabinet, door), door.hinges, strict=True):
            on = cabinet.part[hinge.carrier]
            if door.hinged == "up":
                yield _Thing(low=(x - half, z - out), high=(x + half, z), on=on)
                continue
            way = 1.0 if door.hinged == "left" else -1.0
            yield _Thing(
                low=(min(x, x + way * out), z - half), high=(max(x, x + way * out), z + half), on=on,
                figure=size_text(_height(z, step)), way=way,
            )  # fmt: skip


def _plate_places(cabinet: RodCabinet, door: DoorHung) -> Iterator[tuple[float, float]]:
    """The middles of a door's plates, across and up."""
    for hinge in door.hinges:
        carrier = cabinet.part[hinge.carrier]
        at = _in_cabinet(carrier, (f for f in carrier.features if f.id in hinge.plate))
        yield sum(p[0] for p in at) / len(at), sum(p[2] for p in at) / len(at)


def _in_cabinet(part: Part, features: Iterable[Feature]) -> list[tuple[float, float, float]]:
    return [part.pose.to_cabinet(f.at) for f in features]


def _runners(cabinet: RodCabinet, step: float) -> Iterator[_Thing]:
    """Both runners of every drawer, beside its box; the figure stands at the left one."""
    for drawer in cabinet.drawers:
        (x0, _, z0), (x1, _, z1) = extent([part_box(cabinet.part[i]) for i in drawer.box])
        half = min(_RUNNER_MM, (z1 - z0) / 2)
        for face, z, on in _runner_lines(cabinet, drawer):
            left = face <= x0
            low, high = max(z - half, z0 - 2 * _RUNNER_MM), min(z + half, z1)
            yield _Thing(
                low=(face if left else x1, low), high=(x0 if left else face, high), on=on,
                figure=size_text(_height(z, step)) if left else "", way=1.0,
            )  # fmt: skip


def _runner_lines(cabinet: RodCabinet, drawer: DrawerMade) -> Iterator[tuple[float, float, Part]]:
    """The faces on both sides of a box that its runners are screwed to, the height of their screws, and the board."""
    (x0, _, z0), (x1, _, z1) = extent([part_box(cabinet.part[i]) for i in drawer.box])
    middle = (z0 + z1) / 2
    found = [
        (x, z, part)
        for part in cabinet.parts
        if part.role in ("side", "divider")
        for x, _, z in _in_cabinet(part, (f for f in part.features if f.role == "pilot" and f.joint is None))
    ]
    for nearest in ([f for f in found if f[0] <= x0], [f for f in found if f[0] >= x1]):
        if nearest:
            yield min(nearest, key=lambda f: (min(abs(f[0] - x0), abs(f[0] - x1)), abs(f[1] - middle)))


def _tubes(cabinet: RodCabinet) -> Iterator[_Thing]:
    """Every clothes rail from the front."""
    for rail in cabinet.clothes_rails:
        low, high = (rail.low[0], rail.low[2]), (rail.high[0], rail.high[2])
        yield _Thing(low=low, high=high, on=cabinet.part[rail.uprights[0]])


def _sockets(cabinet: RodCabinet) -> Iterator[_Thing]:
    """The sockets at both ends of every clothes rail, from the face of their upright, and its middle supports."""
    for rail in cabinet.clothes_rails:
        z, (high, _, reach) = rail.middle[2], rail.socket
        for upright, way in zip(rail.uprights, (1.0, -1.0), strict=True):
            on = cabinet.part[upright]
            face = part_box(on)[1 if way > 0 else 0][0]
            xs = sorted((face, face + way * reach))
            yield _Thing(low=(xs[0], z - high / 2), high=(xs[1], z + high / 2), on=on)
        for n in range(rail.supports):
            x = rail.low[0] + rail.length * (n + 1) / (rail.supports + 1)
            on = cabinet.part[rail.uprights[0]]
            yield _Thing(low=(x - reach / 2, rail.low[2]), high=(x + reach / 2, rail.above), on=on)


def _drawn(cabinet: RodCabinet, thing: _Thing, sheet: _Sheet, fill: Ink) -> Path_:
    """In dashes what a face frame or a blind board hides."""
    b = sheet.ground(thing.low, thing.high)
    hidden = _hidden(cabinet, thing.on, ((thing.low[0] + thing.high[0]) / 2, (thing.low[1] + thing.high[1]) / 2))
    pen, ink = (HIDDEN, "none") if hidden else (LINE, fill)
    return box(b.left, b.bottom, b.right - b.left, b.top - b.bottom, pen, fill=ink)  # type: ignore[arg-type]


def _hidden(cabinet: RodCabinet, on: Part, at: Point) -> bool:
    """Whether something planted on the front stands before a place of another board."""
    before = (part_box(p) for p in cabinet.parts if p.role in ("face frame", "infill") and p.id != on.id)
    return any(a[0] < at[0] < b[0] and a[2] < at[1] < b[2] for a, b in before)


@dataclass(frozen=True, slots=True)
class _Row:
    """A bore for a pin as the front shows it: across, up, the way out of its board, its radius, and the board."""

    x: float
    z: float
    way: float
    radius: float
    part: str


def _pins(cabinet: RodCabinet, sheet: _Sheet) -> Iterator[Shape]:
    """A dot for each bore of a row, grey where something hides it, and a stroke for each pin under a shelf."""
    under = [part_box(p) for p in cabinet.parts if p.role == "loose shelf"]
    for row in _rows(cabinet):
        at = (row.x - row.way * _DOT_IN_MM, row.z)
        ink: Ink = "grey" if _hidden(cabinet, cabinet.part[row.part], at) else "black"
        yield Circle(centre=sheet.at(*at), radius=max(row.radius * sheet.k, 0.3), pen=NO_PEN, fill=ink)
        ends = [e for a, b in under if abs(row.z + row.radius - a[2]) < _NEAR_MM for e in (a[0], b[0])]
        if any(abs(row.x - e) < _PIN_MM for e in ends):
            ends_at = sheet.at(row.x, row.z), sheet.at(row.x + row.way * _PIN_MM, row.z)
            yield Path_(points=ends_at, pen=Pen(width=0.7, ink=ink))


def _rows(cabinet: RodCabinet) -> tuple[_Row, ...]:
    """Every bore for a pin, those of the front and the back row once."""
    found = dict[_Row, None]()
    for part in cabinet.parts:
        for f in part.features:
            if isinstance(f, Bore) and f.role == "shelf_pin":
                x, _, z = part.pose.to_cabinet(f.at)
                way = 1.0 if part.pose.direction_to_cabinet(f.into)[0] < 0 else -1.0
                found[_Row(round(x, 3), round(z, 3), way, f.diameter / 2, part.id)] = None
    return tuple(found)


# figures in the drawing


def _grounds(lines: Sequence[Shape]) -> Iterator[Box]:
    """A hair of paper along every line; a slanting one piece by piece, or it would take all that lies under it."""
    for path in lines:
        if isinstance(path, Path_):
            for a, b in pairwise(path.points):
                aslant = min(abs(b[0] - a[0]), abs(b[1] - a[1]))
                pieces = max(1, ceil(aslant / _PIECE))
                points = [
                    (a[0] + (b[0] - a[0]) * n / pieces, a[1] + (b[1] - a[1]) * n / pieces) for n in range(pieces + 1)
                ]
                for (x0, y0), (x1, y1) in pairwise(points):
                    low, high = (min(x0, x1), min(y0, y1)), (max(x0, x1), max(y0, y1))
                    yield Box(left=low[0] - 0.3, bottom=low[1] - 0.3, right=high[0] + 0.3, top=high[1] + 0.3)


def _figures(
    cabinet: RodCabinet, sheet: _Sheet, things: Sequence[_Thing], taken: list[Box], step: float
) -> Iterator[Shape]:
    """Marks of shelves and drawers first, then heights; what has no room stands in the words alone."""
    for text, bold, wish in (
        *_marks(cabinet, sheet, step),
        *_rail_words(cabinet, sheet, step),
        *_heights(sheet, things),
    ):
        size = _FIGURE + 0.6 if bold else _FIGURE
        wide, high = text_width(text, size, bold) + 0.8, size
        window = Box(
            left=wish[0] - wide / 2 - 9.0, bottom=wish[1] - 8.0, right=wish[0] + wide / 2 + 9.0, top=wish[1] + 8.0
        )
        corner = place_for(wide, high, window, taken, wish)
        if corner is not None:
            label = Text(
                at=(corner[0] + wide / 2, corner[1] + 0.22 * size), text=text, size=size, bold=bold, anchor="middle"
            )
            taken.append(text_box(label))
            yield label


def _marks(cabinet: RodCabinet, sheet: _Sheet, step: float) -> Iterator[tuple[str, bool, Point]]:
    for drawer in cabinet.drawers:
        (x0, _, z0), (x1, _, z1) = extent([part_box(cabinet.part[i]) for i in drawer.box])
        yield f"behind {_leaf(cabinet.part[drawer.front])}", True, sheet.at((x0 + x1) / 2, (z0 + z1) / 2)
    for part in cabinet.parts:
        if part.role == "loose shelf":
            a, b = part_box(part)
            x, y = sheet.at(sum(_seen_of(cabinet, part)) / 2, b[2])
            yield f"{part.marks[0]}, underside {size_text(_height(a[2], step))}", False, (x, y + 2.4)


def _rail_words(cabinet: RodCabinet, sheet: _Sheet, step: float) -> Iterator[tuple[str, bool, Point]]:
    """Under each clothes rail: what its tube is cut to and how high its middle is."""
    for rail in cabinet.clothes_rails:
        x, y = sheet.at(rail.middle[0], rail.low[2])
        yield f"rail {size_text(rail.length)}, middle {size_text(_height(rail.middle[2], step))}", False, (x, y - 3.0)


def _seen_of(cabinet: RodCabinet, shelf: Part) -> tuple[float, float]:
    """From where to where a shelf is seen past a blind board or the stiles of a frame."""
    a, b = part_box(shelf)
    x0, x1 = a[0], b[0]
    for low, high in (part_box(p) for p in cabinet.parts if p.role in ("face frame", "infill")):
        if low[2] < a[2] and b[2] < high[2] and low[0] < x1 and x0 < high[0]:
            x0, x1 = max((x0, low[0]), (high[0], x1), key=lambda s: s[1] - s[0])
    return x0, x1


def _heights(sheet: _Sheet, things: Sequence[_Thing]) -> Iterator[tuple[str, bool, Point]]:
    for thing in things:
        if thing.figure:
            edge = thing.high[0] if thing.way > 0 else thing.low[0]
            x, y = sheet.at(edge, (thing.low[1] + thing.high[1]) / 2)
            yield thing.figure, False, (x + thing.way * (text_width(thing.figure, _FIGURE) / 2 + 1.6), y)


# in words


def _said(cabinet: RodCabinet, step: float) -> Iterator[str]:
    """All heights, each kind by itself, what is alike together."""
    yield from _plates_said(cabinet, step)
    yield from _drawers_said(cabinet, step)
    yield from _shelves_said(cabinet, step)
    yield from _rails_said(cabinet, step)
    shown = {
        "white: plates of hinges": cabinet.doors,
        "grey: runners": cabinet.drawers,
        "dots: bores for pins": _rows(cabinet),
        "grey ends of a rail: its sockets": cabinet.clothes_rails,
    }
    if key := "; ".join(words for words, there in shown.items() if there):
        yield f"{key[:1].upper()}{key[1:]}."


def _plates_said(cabinet: RodCabinet, step: float) -> Iterator[str]:
    alike = dict[str, list[str]]()
    for door in cabinet.doors:
        carrier = cabinet.part[door.hinges[0].carrier].name if door.hinges else ""
        axis = 0 if door.hinged == "up" else 1
        places = listed([size_text(_height(p[axis], step)) for p in _plate_places(cabinet, door)])
        where = f", {places} from the left" if door.hinged == "up" else f": {places}"
        alike.setdefault(f"on {named(carrier)}{where}", []).append(_leaf(cabinet.part[door.door]))
    for words, which in alike.items():
        yield f"Plates of {listed(which)}, {words}."


def _leaf(part: Part) -> str:
    """A mark without the cabinet's own: D1."""
    return part.marks[0].rpartition("-")[2]


def _drawers_said(cabinet: RodCabinet, step: float) -> Iterator[str]:
    for drawer in cabinet.drawers:
        (x0, y0, z0), (x1, y1, z1) = extent([part_box(cabinet.part[i]) for i in drawer.box])
        heights = sorted({_height(z, step) for _, z, _ in _runner_lines(cabinet, drawer)})
        line = f", screws of its runners {listed([size_text(z) for z in heights])}" if heights else ""
        sizes = " x ".join(size_text(v) for v in (x1 - x0, z1 - z0, y1 - y0))
        yield f"Box behind {_leaf(cabinet.part[drawer.front])}: {sizes}, from {size_text(_height(z0, step))} up{line}."


def _shelves_said(cabinet: RodCabinet, step: float) -> Iterator[str]:
    alike = dict[str, list[str]]()
    for part in cabinet.parts:
        if part.role == "loose shelf":
            alike.setdefault(size_text(_height(part_box(part)[0][2], step)), []).append(_leaf(part))
    if alike:
        each = "; ".join(f"{listed(which)} at {height}" for height, which in alike.items())
        yield f"Undersides of loose shelves: {each}."
    rows = dict.fromkeys(_stretches(cabinet))
    if rows:
        each = "; ".join(f"{size_text(row[0])} to {size_text(row[-1])}" for row in rows)
        pitches = sorted({size_text(b - a) for row in rows for a, b in pairwise(row)})
        yield f"Bores for pins{f', {listed(pitches)} apart' if pitches else ''}: {each}."


def _rails_said(cabinet: RodCabinet, step: float) -> Iterator[str]:
    for rail in cabinet.clothes_rails:
        _, y, z = (size_text(_height(v, step)) for v in rail.middle)
        bay = f" in bay {rail.bay}" if len(bays(cabinet)) > 1 else ""
        more = f", {rail.supports} middle support{'s' * (rail.supports > 1)}" if rail.supports else ""
        yield (
            f"Clothes rail{bay}: {rail.tube}, cut to {size_text(rail.length)}; its middle {z} up and {y} from the front"
            f"{more}; {size_text(rail.under)} clear under it."
        )


def _stretches(cabinet: RodCabinet) -> Iterator[tuple[float, ...]]:
    """Heights of the bores in each face, parted where a row has a gap."""
    faces = dict[tuple[str, float], list[float]]()
    for row in _rows(cabinet):
        faces.setdefault((row.part, row.way), []).append(row.z)
    for heights in (sorted(h) for h in faces.values()):
        pitch = min((b - a for a, b in pairwise(heights)), default=0.0)
        ends = [n for n, (a, b) in enumerate(pairwise(heights), 1) if b - a > pitch + _NEAR_MM]
        yield from (tuple(heights[a:b]) for a, b in pairwise((0, *ends, len(heights))))


def _words(said: Sequence[str], area: Area) -> Iterator[Shape]:
    """Rows one under another, set smaller where they would run out of the page, and cut short at the last."""
    for size in _SIZES:
        rows = [row for text in said for row in wrapped(text, size, area.width)]
        most = int(area.height / (1.3 * size))
        if len(rows) <= most:
            break
    for n, row in enumerate(rows[:most]):
        text = clipped(f"{row} ...", size, area.width) if n == most - 1 < len(rows) - 1 else row
        yield Text(at=(area.left, area.top - (n + 1) * 1.3 * size), text=text, size=size)
