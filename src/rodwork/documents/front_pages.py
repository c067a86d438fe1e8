"""The front of a cabinet, shut: what opens which way, its size, its margins, its mark.

Dashed lines on a door meet at its hinged edge, as on a builder's drawing. A customer can read it and sign it.
"""

from collections.abc import Callable, Iterator, Sequence

from rodwork.documents.annotate import listed
from rodwork.documents.drawing import HIDDEN, LINE, THIN, Circle, Path_, Point, Shape, Text, line, wrapped
from rodwork.documents.elevations import heights_of_sides
from rodwork.documents.figures import dimension_across, size_text
from rodwork.documents.hulls import front_heights, front_outline, outside_heights
from rodwork.documents.page import Area, Page, body, fitted
from rodwork.documents.pictorial import extent, part_box
from rodwork.documents.run_drawing import opening_lines
from rodwork.model.fronts import DoorHung, DrawerMade
from rodwork.model.margins import Margin, fronts, margins
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

_SEEN = ("side", "top", "bottom", "fixed shelf", "divider", "part divider")
_PLINTH = ("plinth board", "plinth frame")
_ROOM = 16.0  # for a dimension beside the front, mm
_WORDS = 78.0  # width of what is said beside it, mm
_SIZE = 3.6


def front_pages(rod: Rod) -> tuple[Page, ...]:
    """One page for every cabinet that has doors or drawers."""
    area = body(rod.heading.paper, landscape=True)
    return tuple(
        Page(
            kind="front", title=f"{c.name}: the front", right=f"{size_text(c.size[0])} x {size_text(c.size[1])}",
            under="Shut, as seen from the front. The dashed lines of a door meet where it is hinged.",
            shapes=tuple(_front(c, area)),
        )
        for c in rod.cabinets
        if fronts_of(c)
    )  # fmt: skip


def fronts_of(cabinet: RodCabinet) -> tuple[Part, ...]:
    """What is seen of a cabinet that is shut: its doors, from the left, then from the bottom."""
    return tuple(sorted(fronts(cabinet), key=lambda p: (part_box(p)[0][0], part_box(p)[0][2])))


def _front(cabinet: RodCabinet, area: Area) -> Iterator[Shape]:
    fronts = fronts_of(cabinet)
    boxed = [part_box(p) for p in cabinet.parts if p.in_box or p.role in _PLINTH]
    (x0, _, z0), (x1, _, z1) = extent([*boxed, *(part_box(p) for p in fronts)])
    k = min((area.width - _WORDS - 2 * _ROOM) / (x1 - x0), (area.height - 2 * _ROOM) / (z1 - z0))
    left, low = area.left + _ROOM, area.top - 6.0 - (z1 - z0) * k

    def at(x: float, z: float) -> Point:
        return (left + (x - x0) * k, low + (z - z0) * k)

    for part in sorted(cabinet.parts, key=lambda p: -part_box(p)[0][1]):  # what stands before hides what is behind
        before = part.role in ("face frame", "infill", *_PLINTH)
        if before or (part.in_box and part.role in _SEEN):
            outline = tuple(at(x, z) for x, z in front_outline(part))
            yield Path_(points=outline, closed=True, pen=THIN, fill="white" if before else "none")
    hinged = {d.door: d.hinged for d in cabinet.doors}
    for part in fronts:
        yield from _door(part, hinged.get(part.id), at, k)
    right = at(x1, z1)[0]
    yield from dimension_across(left, right, low - 7.0, size_text(cabinet.size[0]), 5.0, bold=True, reach=4.0)
    yield from heights_of_sides(cabinet, (left - 5.0, right + 9.0), at(0.0, 0.0)[1], k)
    beside = _ROOM if outside_heights(cabinet) else 8.0
    words = Area(left=max(right + beside, area.right - _WORDS), bottom=area.bottom, right=area.right, top=area.top)
    for n, row in enumerate(r for text in _said(cabinet, fronts) for r in wrapped(text, _SIZE, words.width)):
        if words.top - (n + 1) * 1.3 * _SIZE > words.bottom:
            yield Text(at=(words.left, words.top - (n + 1) * 1.3 * _SIZE), text=row, size=_SIZE)


def _door(part: Part, hinged: str | None, at: Callable[[float, float], Point], k: float) -> Iterator[Shape]:
    (a, _, c), (b, _, _) = part_box(part)
    (left, right), outline = front_heights(part), front_outline(part)
    low, high = at(a, c), at(b, min(left, right))
    yield Path_(points=tuple(at(x, z) for x, z in outline), closed=True, pen=LINE, fill="white")
    opens = opening_lines(hinged, low, at(b, right), at(a, left)[1])
    yield from (line(p, q, HIDDEN) for p, q in opens)
    for f in part.features:
        if f.role == "handle":
            x, _, z = part.pose.to_cabinet(f.at)
            yield Circle(centre=at(x, z), radius=max(2.5 * k, 0.6))
    size = fitted(part.marks[0], 5.0, 0.8 * (high[0] - low[0]), True)
    heights = [y for ends in opens for _, y in ends] or [low[1], high[1]]  # half way between the dashed lines
    middle = ((low[0] + high[0]) / 2, sum(heights) / len(heights) - 0.33 * size)
    yield Text(at=middle, text=part.marks[0], size=size, bold=True, anchor="middle")


def _opens(door: DoorHung | None, drawer: DrawerMade | None) -> str:
    if door is not None:
        way = {"left": "hinged left", "right": "hinged right", "up": "lifts up"}[door.hinged]
        return f"{way}, {len(door.hinges)} hinges"
    kind = "concealed" if drawer is not None and drawer.concealed else "side-mounted"
    return f"a drawer on {kind} runners" + (f" of {size_text(drawer.travel)}" if drawer is not None else "")


def _said(cabinet: RodCabinet, fronts: tuple[Part, ...]) -> Iterator[str]:
    """Sizes of the doors, how they hang, and what is left between them."""
    alike: dict[str, list[str]] = {}
    hung = {d.door: d for d in cabinet.doors}
    drawn = {d.front: d for d in cabinet.drawers}
    for p in fronts:
        (a, _, c), (b, _, _) = part_box(p)
        left, right = (size_text(z - c) for z in front_heights(p))
        high = f"{left} high" if left == right else f"{left} high at the left and {right} at the right"
        words = f"{size_text(b - a)} wide, {high}, {_opens(hung.get(p.id), drawn.get(p.id))}"
        alike.setdefault(words, []).append(p.marks[0].rsplit("-", 1)[-1])
    for words, which in alike.items():
        yield f"{listed(which)}: {words}."
    yield from _margins_said(cabinet)
    if cabinet.doors:
        yield "Hinges take up 2 mm each way: set the margins even when the cabinet stands level (common practice)."
        yield "Heights of hinges are on the sheets of the doors and of the boards that carry them."


_BESIDE = {
    "fronts": "between fronts",
    "blind board": "to the blind board",
    "opening": "round fronts in their opening",
    "outside": "to the outside",
}


def _margins_said(cabinet: RodCabinet) -> Iterator[str]:
    """The margins as made and, where a finish enters them, as they will be."""
    found = margins(cabinet)
    if not found:
        return
    yield f"Margins: {'; '.join(_each(found, None))}."
    if cabinet.finish is not None:
        film = cabinet.finish.film_mm
        yield f"With the finish on, {size_text(film, 0.01)} a face: {'; '.join(_each(found, film))}."


def _each(found: Sequence[Margin], film: float | None) -> Iterator[str]:
    for beside, words in _BESIDE.items():
        sizes = sorted({m.mm if film is None else m.finished(film) for m in found if m.beside == beside})
        if sizes:
            yield f"{listed([*dict.fromkeys(size_text(mm) for mm in sizes)])} {words}"
