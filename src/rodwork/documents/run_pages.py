"""The run on paper: from the front with fronts on and off; from above and cut through, and what stands in it."""

from collections.abc import Iterator

from rodwork.documents.annotate import listed
from rodwork.documents.drawing import Shape, Text, wrapped
from rodwork.documents.figures import size_text
from rodwork.documents.page import Area, Page, body
from rodwork.documents.pictorial import part_box
from rodwork.documents.run_drawing import (
    FRONTS,
    Sheet,
    chain,
    cut_out_words,
    front,
    heights,
    mark_of,
    named,
    overall,
    plan,
    reach,
    section,
    section_places,
    services,
)
from rodwork.documents.run_services import service_words, services_of
from rodwork.model.rod import Rod
from rodwork.model.run import CabinetRun, Standing

_SIDE = 26.0  # for heights beside a view, mm
_OVER = 7.0  # for numbers above it
_UNDER = 15.0  # for the chain and the whole length below it
_CAPTION, _WORDS = 4.2, 3.4
_STOPS_SHORT_MM = 20.0  # a worktop that ends further from a wall was never meant to reach it


def run_pages(rod: Rod) -> tuple[Page, ...]:
    """Three pages for every run; two where it has no fronts to take off."""
    pages: list[Page] = []
    for run in rod.runs:
        views = (("fronts on", True), ("fronts off", False)) if _has_fronts(rod, run) else (("from the front", True),)
        pages += [_front_page(rod, run, what, on) for what, on in views]
        pages.append(_plan_page(rod, run))
    return tuple(pages)


def _has_fronts(rod: Rod, run: CabinetRun) -> bool:
    cabinets = [rod.cabinet[s.name] for s in run.standings if s.stands_as == "cabinet"]
    return any(p.role in FRONTS for c in cabinets for p in c.parts)


def _page(rod: Rod, run: CabinetRun, what: str, under: str, shapes: tuple[Shape, ...]) -> Page:
    where = f"{run.where}: " if run.where else ""
    return Page(kind="run", title=f"{where}{run.name}, {what}", under=under, right=size_text(run.length), shapes=shapes)


def _front_page(rod: Rod, run: CabinetRun, what: str, fronts: bool) -> Page:
    """The whole run as it is seen from the front, as large as the page takes."""
    area = body(rod.heading.paper, landscape=True)
    x0, x1, _, top = reach(rod, run)
    k = min((area.width - _SIDE - 12.0) / (x1 - x0), (area.height - _OVER - _UNDER - 5.0) / top)
    high = max(area.top - _OVER - 3.0 - 0.25 * max(area.height - _OVER - _UNDER - top * k, 0.0), 0.0)
    sheet = Sheet(left=area.left + _SIDE - x0 * k, floor=high - top * k, k=k)
    places = [p for s in run.standings for p in (s.x0, s.x1)]
    shapes = (
        *front(rod, run, sheet, fronts),
        *(services(rod, run, sheet) if not fronts or not _has_fronts(rod, run) else ()),
        *named(rod, run, sheet, 4.0),
        *heights(run, rod, sheet, sheet.left + x0 * k - 8.0),
        *chain([0.0, run.length, *places], sheet, sheet.floor - 3.5, area.left + _SIDE - 6.0, area.right),
        *overall(0.0, run.length, sheet, sheet.floor - 13.0),
    )
    under = "Numbers are from the left. All sizes in mm, heights from the floor at its high point."
    under += "" if run.door_width is None else f" All doors are {size_text(run.door_width)} wide."
    return _page(rod, run, what, under, shapes)


def _plan_page(rod: Rod, run: CabinetRun) -> Page:
    """From above with its chain of joints and cut-outs; under it the section and what stands in the run."""
    area = body(rod.heading.paper, landscape=True)
    x0, x1, _, top = reach(rod, run)
    spans = section_places(rod, run, _cut(run))
    y0, y1 = min(spans[0], run.front), spans[-1]
    k = min((area.width - 12.0) / (x1 - x0), 0.3 * area.height / (y1 - y0))
    sheet = Sheet(left=area.left + 4.0 - x0 * k, floor=area.top - 9.0 - y1 * k, k=k)
    shapes: list[Shape] = [Text(at=(area.left, area.top - 4.0), text="Plan, front below", size=_CAPTION, bold=True)]
    shapes += [*plan(rod, run, sheet), *cut_out_words(run, sheet)]
    low = sheet.floor + y0 * k - 4.0
    shapes += chain(_along(rod, run), sheet, low, area.left, area.right)
    shapes += overall(0.0, run.length, sheet, low - 9.5)
    below = Area(left=area.left, bottom=area.bottom, right=area.right, top=low - 13.0)
    shapes += _section(rod, run, below, top)
    return _page(rod, run, "from above and cut through", _said(run), tuple(shapes))


def _along(rod: Rod, run: CabinetRun) -> list[float]:
    """What the plan is measured to: worktops, their joints and cut-outs; or everything that stands there."""
    tops = [p for p in rod.cabinet[run.name].parts if p.role == "worktop"]
    if not tops:
        return [0.0, run.length, *(p for s in run.standings for p in (s.x0, s.x1))]
    ends = [x for p in tops for x in (p.pose.origin[0], p.pose.origin[0] + p.size[0])]
    return [*ends, *run.joints, *(x for c in run.cut_outs for x in (c.x0, c.x1))]


def _cut(run: CabinetRun) -> Standing:
    """The cabinet that is cut through: under the worktop, if one is."""
    cabinets = [s for s in run.standings if s.stands_as == "cabinet"]
    return next((s for s in cabinets if s.under_worktop), cabinets[0])


def _section(rod: Rod, run: CabinetRun, area: Area, top: float) -> Iterator[Shape]:
    s, places = _cut(run), section_places(rod, run, _cut(run))
    deep = places[-1] - min(places[0], -120.0)
    k = min((0.36 * area.width - 22.0) / (deep + 40.0), (area.height - 24.0) / (top + 120.0))
    sheet = Sheet(left=area.left + 24.0 + max(120.0, -places[0]) * k, floor=area.bottom + 15.0, k=k)
    number = run.standings.index(s) + 1
    yield Text(at=(area.left, area.top - 4.0), text=f"Section through number {number}", size=_CAPTION, bold=True)
    yield from section(rod, run, s, sheet)
    left = sheet.at(-120.0, 0.0)[0]
    yield from heights(run, rod, sheet, left - 4.0)
    yield from chain(places, sheet, sheet.floor - 3.5, left, area.left + 0.42 * area.width)
    yield from overall(places[0], places[-1], sheet, sheet.floor - 13.0)
    words = Area(left=area.left + 0.44 * area.width, bottom=area.bottom, right=area.right, top=area.top)
    yield from _list(rod, run, words)


def _list(rod: Rod, run: CabinetRun, area: Area) -> Iterator[Shape]:
    """What stands there by number, then how it is joined; smaller where there is much of it."""
    texts = [*_standings(rod, run), "", *_notes(rod, run)]
    for size in (_WORDS, 3.0, 2.6, 2.4):
        rows = [row for text in texts for row in wrapped(text, size, area.width)]
        if len(rows) * 1.3 * size <= area.height:
            break
    most = int(area.height / (1.3 * size))
    for n, row in enumerate(rows[:most]):
        if not row:
            continue
        yield Text(at=(area.left, area.top - (n + 1) * 1.3 * size), text=row, size=size)


def _standings(rod: Rod, run: CabinetRun) -> Iterator[str]:
    parts = rod.cabinet[run.name].part
    for n, s in enumerate(run.standings, 1):
        wide = size_text(s.x1 - s.x0)
        if s.stands_as == "cabinet":
            yield f"{n}   {mark_of(rod, s)} {s.name}, {wide}"
        elif s.stands_as == "gap":
            yield f"{n}   gap for the {s.name}, {wide}" if s.name != "gap" else f"{n}   gap, {wide}"
        else:
            part = parts[s.part or ""]
            over = f", {size_text(part.size[1])} supplied, to be scribed" if part.size[1] - (s.x1 - s.x0) > 0.05 else ""
            yield f"{n}   {part.marks[0]} {s.stands_as}, {wide}{over if s.stands_as == 'infill' else ''}"


def _notes(rod: Rod, run: CabinetRun) -> Iterator[str]:
    order = "left to right" if run.starts == "left" else "right to left"
    survey = rod.surveys.get(run.survey or "")
    yield f"Fit them from {order}: level the first on the high point of the floor, and the others to it."
    if survey is not None:
        falls = survey.high_point - min(*survey.floor, *survey.floor_back)
        yield (
            f"Drawn on the survey {survey.name}. Its level line, in dots and dashes if it crosses the run, is "
            f"{size_text(-survey.high_point)} above the floor's high point; the floor falls by {size_text(falls)}."
        )
    yield from service_words(services_of(run, survey))
    pairs: dict[tuple[int, int], list[str]] = {}
    for screw in run.screws:
        pairs.setdefault(screw.between, []).append(f"{size_text(screw.height)}")
    fronts = {s.front for s in run.screws}
    for (a, b), up in pairs.items():
        yield f"{a} to {b}: connecting screws {listed(up)} up from the undersides."
    if run.screws:
        through = " through the bores for pins" if all(s.by_pins for s in run.screws) else ""
        yield (
            f"Clamp the fronts flush, then bore for them right through both sides{through}, "
            f"{listed([size_text(f) for f in sorted(fronts)])} from the front."
        )
    yield from _short_of_walls(rod, run)
    if run.joints:
        yield f"The worktop is joined at {listed([size_text(x) for x in run.joints])} from the left, edge to edge."
    if run.plinth_joints:
        yield f"The plinth board butts at {listed([size_text(x) for x in run.plinth_joints])}, under a cabinet."
    returns = [p for p in rod.cabinet[run.name].parts if "return" in p.name]
    if returns:
        yield (
            f"{listed([p.marks[0] for p in returns])} butt against the back of the strip; for a mitred corner saw them "
            f"{size_text(returns[0].size[2])} longer, to their long points."
        )


def _short_of_walls(rod: Rod, run: CabinetRun) -> Iterator[str]:
    """Why the lengths of a worktop add up to less than the wall."""
    tops = [part_box(p) for p in rod.cabinet[run.name].parts if p.role == "worktop"]
    if not tops:
        return
    ends = {"left": min(low[0] for low, _ in tops), "right": run.length - max(high[0] for _, high in tops)}
    gaps = {w: size_text(ends[w]) for w in ends if run.walls in ("both", w) and 0.05 < ends[w] < _STOPS_SHORT_MM}
    if len(gaps) == 2 and gaps["left"] == gaps["right"]:
        yield f"The worktop stops {gaps['left']} short of both walls, so that it goes in."
    elif gaps:
        each = listed([f"{mm} short of the {wall} wall" for wall, mm in gaps.items()])
        yield f"The worktop stops {each}, so that it goes in."


def _said(run: CabinetRun) -> str:
    """What is left of the wall, and how far small errors add up."""
    stack = run.stack
    by = ", by the shop's own readings" if stack.measured else ""
    likely, worst = size_text(stack.likely), size_text(stack.worst)
    adds_up = f"small errors add up to {likely} more or less in most runs, {worst} at the worst{by}"
    if stack.left is None:
        return f"All sizes in mm. {adds_up[:1].upper()}{adds_up[1:]}."
    return f"All sizes in mm. The wall leaves {size_text(stack.left)} beside what has a size of its own; {adds_up}."
