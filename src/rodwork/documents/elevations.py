"""Front, section and plan of a cabinet with its overall sizes and clear openings.

Loose shelves and doors are left out, so that the openings can be read; the pictorial view shows them.
"""

from collections.abc import Iterable, Iterator
from itertools import pairwise

from rodwork.documents.annotate import listed
from rodwork.documents.drawing import LINE, NO_PEN, THIN, Path_, Shape, Text, line, moved, text_width, wrapped
from rodwork.documents.figures import arrow_head, clear_height, clear_width, dimension_across, dimension_up, size_text
from rodwork.documents.hulls import lowest_at, outside_heights
from rodwork.documents.page import Area
from rodwork.documents.pictorial import (
    FROM_ABOVE,
    FROM_RIGHT,
    FRONT,
    Box,
    View,
    cut_faces,
    drawn,
    extent,
    part_box,
    seen,
    solids,
)
from rodwork.model.panel import put_in_last
from rodwork.model.rod import Opening, RodCabinet

_FIGURE = 4.2
_BESIDE = 1.6  # of an arrow under a slope from the upright that it stands beside, mm on paper
_SIDE = 10.0  # room for a dimension beside a view, mm
_BELOW = 14.0  # room for a dimension and the name of a view below it, mm
_FAR = 1e6


def elevations(cabinet: RodCabinet, area: Area) -> tuple[Shape, ...]:
    """The three views at one scale, as large as the area takes: plan under the front, section beside it."""
    width, height, depth = _whole(cabinet)
    low_side = _SIDE if outside_heights(cabinet) else 0.0
    across, up = area.width - 2 * _SIDE - low_side - 6.0, area.height - 2 * _BELOW - 5.0
    k = min(across / (width + depth), up / (height + depth))
    left = area.left + _SIDE
    low = area.top - 5.0 - height * k  # foot of the front and the section
    plan_low = low - _BELOW - depth * k
    beside = left + width * k + _SIDE + low_side + 6.0
    return (
        *_front(cabinet, left, low, k),
        *_section(cabinet, beside, low, k),
        *_plan(cabinet, left, plan_low, k),
        *_listed(cabinet, Area(left=beside, bottom=area.bottom, right=area.right, top=low - _BELOW), k),
    )


def bays(cabinet: RodCabinet) -> tuple[tuple[float, float], ...]:
    """The clear widths between uprights, left to right: (from, to) across the cabinet, mm."""
    uprights = sorted(part_box(p) for p in cabinet.parts if p.role in ("side", "divider"))
    return tuple((a[1][0], b[0][0]) for a, b in pairwise(uprights) if b[0][0] > a[1][0])


def clear_depth(cabinet: RodCabinet) -> float | None:
    """From the front edge of the carcass to the front of the back, mm; None where there is no back."""
    backs = [part_box(p)[0][1] for p in cabinet.parts if p.role == "back"]
    return min(backs) - _fronts(cabinet) if backs else None


def _fronts(cabinet: RodCabinet) -> float:
    return min((part_box(p)[0][1] for p in cabinet.parts if p.in_box), default=0.0)


def _whole(cabinet: RodCabinet) -> tuple[float, float, float]:
    (x0, y0, z0), (x1, y1, z1) = extent([part_box(cabinet.part[i]) for i in _fixed(cabinet)])
    return x1 - x0, z1 - z0, y1 - y0


def _fixed(cabinet: RodCabinet) -> tuple[str, ...]:
    return tuple(p.id for p in cabinet.whole_boards if not put_in_last(p))


def _view(cabinet: RodCabinet, view: View, within: Box, left: float, low: float, k: float) -> tuple[Shape, ...]:
    """One view with its bottom left corner here; wood that is cut is shaded."""
    boards = solids(cabinet, _fixed(cabinet))
    (x0, y0, z0), (x1, y1, z1) = extent([s.whole for s in boards])
    corners = [view.on_paper(p) for p in ((x0, y0, z0), (x1, y1, z1))]
    ox, oy = min(c[0] for c in corners), min(c[1] for c in corners)
    faces = tuple(Path_(points=face, closed=True, pen=NO_PEN, fill="light") for face in cut_faces(boards, view, within))
    return moved((*faces, *drawn(seen(boards, view, within), LINE, LINE)), left - ox * k, low - oy * k, k)


def _all_of_it() -> Box:
    return ((-_FAR, -_FAR, -_FAR), (_FAR, _FAR, _FAR))


def _front(cabinet: RodCabinet, left: float, low: float, k: float) -> tuple[Shape, ...]:
    (x0, _, z0), (x1, _, z1) = extent([part_box(cabinet.part[i]) for i in _fixed(cabinet)])
    side, high = left - x0 * k, (z1 - z0) * k
    width = size_text(cabinet.size[0])
    shapes: list[Shape] = [
        *_view(cabinet, FRONT, _all_of_it(), left, low, k),
        *heights_of_sides(cabinet, (left - 4.0, left + (x1 - x0) * k + 8.0), low - z0 * k, k),
        *dimension_across(side, side + cabinet.size[0] * k, low - 6.0, width, 5.0, bold=True, reach=4.0),
        Text(at=(left, low + high + 1.5), text="Front", size=_FIGURE, bold=True),
    ]
    for opening, (a, b), (lo, hi) in _openings(cabinet):
        if not _fits(cabinet, opening, (a, b), (lo, hi), k):
            continue
        if _top_slopes(cabinet, opening):
            shapes += _heights_under_slope(cabinet, opening, (a, b), lo, (left - x0 * k, low - z0 * k), k)
            continue
        x = left + ((a + b) / 2 - x0) * k
        shapes += clear_height(x, low + (lo - z0) * k, low + (hi - z0) * k, size_text(opening.comes_to), _FIGURE)
    return tuple(shapes)


def _top_slopes(cabinet: RodCabinet, opening: Opening) -> bool:
    """Whether what closes an opening above is on a slope, so that its height is not one figure."""
    return cabinet.part[opening.between[1]].pose.slopes


def _under_slope(cabinet: RodCabinet, opening: Opening, across: tuple[float, float]) -> tuple[float, float]:
    """The clear height of an opening under a slope at its left and at its right end, mm."""
    floor, above = part_box(cabinet.part[opening.between[0]])[1][2], cabinet.part[opening.between[1]]
    return lowest_at(above, across[0]) - floor, lowest_at(above, across[1]) - floor


def _heights_under_slope(
    cabinet: RodCabinet,
    opening: Opening,
    across: tuple[float, float],
    low: float,
    origin: tuple[float, float],
    k: float,
) -> Iterator[Shape]:
    """The clear height at either end of an opening: arrows beside the uprights, their figures turned along them."""
    above = cabinet.part[opening.between[1]]
    y0 = origin[1] + low * k
    for at, inwards, high in zip(across, (1.0, -1.0), _under_slope(cabinet, opening, across), strict=True):
        x = origin[0] + at * k + inwards * _BESIDE
        y1 = origin[1] + lowest_at(above, at + inwards * _BESIDE / k) * k
        yield from (line((x, y0), (x, y1), THIN), arrow_head((x, y1), (0.0, 1.0)), arrow_head((x, y0), (0.0, -1.0)))
        baseline = x + (1.0 + 0.72 * _FIGURE if inwards > 0 else -1.0)
        text = size_text(high)
        yield Text(at=(baseline, (y0 + y1) / 2), text=text, size=_FIGURE, anchor="middle", turn=90.0)


def heights_of_sides(cabinet: RodCabinet, places: tuple[float, float], low: float, k: float) -> Iterator[Shape]:
    """The height from the carcass's bottom, `low` on paper, at the first place; under a slope that of each side."""
    heights = outside_heights(cabinet) or (cabinet.size[1],)
    for x, mm, reach in zip(places, heights, (2.0, -6.0), strict=False):
        yield from dimension_up(x, low, low + mm * k, size_text(mm), 5.0, bold=True, reach=reach)


def _openings(
    cabinet: RodCabinet,
) -> Iterable[tuple[Opening, tuple[float, float], tuple[float, float]]]:
    """Each clear opening with where it lies: across and up, mm."""
    found = bays(cabinet)
    for opening in cabinet.asked.openings:
        below, above = (cabinet.part.get(i) for i in opening.between)
        if below and above and 1 <= opening.bay <= len(found):
            yield opening, found[opening.bay - 1], (part_box(below)[1][2], part_box(above)[0][2])


def _fits(
    cabinet: RodCabinet, opening: Opening, across: tuple[float, float], up: tuple[float, float], k: float
) -> bool:  # fmt: skip
    if _parted(cabinet, across, up):
        return False
    if _top_slopes(cabinet, opening):
        heights = _under_slope(cabinet, opening, across)
        return (across[1] - across[0]) * k > 2 * (_BESIDE + 1.5 + _FIGURE) and _has_room(min(heights) * k, max(heights))
    return (up[1] - up[0]) * k > 1.3 * _FIGURE and _has_room((across[1] - across[0]) * k, opening.comes_to)


def _parted(cabinet: RodCabinet, across: tuple[float, float], up: tuple[float, float]) -> bool:
    """Whether part-height dividers stand in this room, whose lines would go through a figure."""
    boxes = (part_box(p) for p in cabinet.parts if p.role == "part divider")
    return any(lo[0] < across[1] and across[0] < hi[0] and lo[2] < up[1] and up[0] < hi[2] for lo, hi in boxes)


def _has_room(room: float, mm: float) -> bool:
    """Whether a figure goes into so much paper without touching what is on either side."""
    return text_width(size_text(mm), _FIGURE) + 1.6 <= room


def _section(cabinet: RodCabinet, left: float, low: float, k: float) -> tuple[Shape, ...]:
    (_, y0, z0), (_, y1, z1) = extent([part_box(cabinet.part[i]) for i in _fixed(cabinet)])
    high, deep = (z1 - z0) * k, (y1 - y0) * k
    at = sum(_cut_bay(cabinet)) / 2
    shapes: list[Shape] = [
        *_view(cabinet, FROM_RIGHT, ((-_FAR, -_FAR, -_FAR), (at, _FAR, _FAR)), left, low, k),
        *dimension_across(left, left + deep, low - 6.0, size_text(cabinet.size[2]), 5.0, bold=True, reach=4.0),
        Text(at=(left, low + high + 1.5), text="Section", size=_FIGURE, bold=True),
    ]
    height = _room_for_depth(cabinet, k)
    inside = clear_depth(cabinet)
    if inside is not None and height is not None:
        front = left + (_fronts(cabinet) - y0) * k
        shapes += clear_width(front, front + inside * k, low + (height - z0) * k, size_text(inside), _FIGURE)
    return tuple(shapes)


def _cut_bay(cabinet: RodCabinet) -> tuple[float, float]:
    """The bay that the section goes through: the widest, (from, to) across the cabinet, mm."""
    return max(bays(cabinet), key=lambda b: b[1] - b[0], default=(0.0, cabinet.size[0]))


def _room_for_depth(cabinet: RodCabinet, k: float) -> float | None:
    """The height at which the clear depth can be drawn in the section; None where there is no room for it."""
    inside = clear_depth(cabinet)
    places = [up for _, across, up in _openings(cabinet) if across == _cut_bay(cabinet)]
    if inside is None or not places or not _has_room(inside * k, inside):
        return None
    lo, hi = max(places, key=lambda p: p[1] - p[0])
    return (lo + hi) / 2 if (hi - lo) * k > 2 * _FIGURE else None


def _plan(cabinet: RodCabinet, left: float, low: float, k: float) -> tuple[Shape, ...]:
    (x0, y0, _), (_, y1, _) = extent([part_box(cabinet.part[i]) for i in _fixed(cabinet)])
    under = ((-_FAR, -_FAR, -_FAR), (_FAR, _FAR, _clear_level(cabinet)))
    shapes: list[Shape] = [
        *_view(cabinet, FROM_ABOVE, under, left, low, k),
        Text(at=(left, low - 5.0), text="Plan, front below", size=_FIGURE, bold=True),
    ]
    y = low + 0.45 * (y1 - y0) * k
    for a, b in bays(cabinet):
        if _width_fits(cabinet, (a, b), k):
            shapes += clear_width(left + (a - x0) * k, left + (b - x0) * k, y, size_text(b - a), _FIGURE)
    return tuple(shapes)


def _width_fits(cabinet: RodCabinet, bay: tuple[float, float], k: float) -> bool:
    """Whether the clear width of a bay can stand in the plan, which is cut at one height."""
    level, wide = _clear_level(cabinet), bay[1] - bay[0]
    return _has_room(wide * k, wide) and not _parted(cabinet, bay, (-_FAR, level))


def _clear_level(cabinet: RodCabinet) -> float:
    """A height at which no lying board is cut: the middle of the largest room between them."""
    lying = [part_box(p) for p in cabinet.parts if p.role in ("top", "bottom", "fixed shelf", "rail")]
    spans = sorted((lo[2], hi[2]) for lo, hi in lying) or [(0.0, 0.0), (cabinet.size[1], cabinet.size[1])]
    best, level, reached = 0.0, cabinet.size[1] / 2, spans[0][1]
    for lo, hi in spans[1:]:
        if lo - reached > best:
            best, level = lo - reached, (lo + reached) / 2
        reached = max(reached, hi)
    return level


def _listed(cabinet: RodCabinet, area: Area, k: float) -> tuple[Shape, ...]:
    """The clear openings in words, where the drawing has no room for a figure."""
    words = []
    widths = [b - a for a, b in bays(cabinet)]
    if not all(_width_fits(cabinet, bay, k) for bay in bays(cabinet)):
        words.append("Clear widths, from the left: " + ", ".join(map(size_text, widths)))
    if not all(_fits(cabinet, o, across, up, k) for o, across, up in _openings(cabinet)):
        words += _heights(cabinet)
    inside = clear_depth(cabinet)
    if inside is not None and _room_for_depth(cabinet, k) is None:
        words.append(f"Clear depth: {size_text(inside)}")
    return _paragraphs(words, area)


def _heights(cabinet: RodCabinet) -> Iterable[str]:
    """The clear heights of every bay from the bottom; bays that are alike together."""
    rows: dict[int, list[str]] = {}
    for o in cabinet.asked.openings:
        ends = _under_slope(cabinet, o, bays(cabinet)[o.bay - 1]) if _top_slopes(cabinet, o) else (o.comes_to,)
        rows.setdefault(o.bay, []).append(" to ".join(map(size_text, ends)))
    alike: dict[str, list[str]] = {}
    for bay, heights in rows.items():
        alike.setdefault(", ".join(heights), []).append(str(bay))
    for told, which in alike.items():
        name = f", bay {which[0]}" if len(which) == 1 else f", bays {listed(which)}"
        name = ("" if len(rows) == 1 else " of every bay") if len(alike) == 1 else name
        yield f"Clear heights{name}, from the bottom: {told}"


def _paragraphs(words: list[str], area: Area) -> tuple[Shape, ...]:
    """Texts one under another, set smaller where they would run out of the area."""
    for size in (3.6, 3.0, 2.5):
        rows = [row for text in words for row in wrapped(text, size, area.width)]
        if len(rows) * 1.28 * size <= area.height:
            break
    return tuple(
        Text(at=(area.left, area.top - (n + 1) * 1.28 * size), text=row, size=size) for n, row in enumerate(rows)
    )
