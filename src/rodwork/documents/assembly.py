"""Assembly, one page to a kind of cabinet: at most six pictures, each drawn as the cabinet lies on the bench."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import hypot

from rodwork.documents.annotate import listed, several, several_named, stem_of
from rodwork.documents.assembly_at_once import closes_at_once, drawn_at_once
from rodwork.documents.assembly_order import NoOrder, Step, assembly_steps
from rodwork.documents.drawing import HEAVY, HIDDEN, NO_PEN, THIN, Point, Shape, Text, box, line, moved, wrapped
from rodwork.documents.elevations import bays
from rodwork.documents.figures import arrow, mass_text, size_text
from rodwork.documents.hulls import outside_heights
from rodwork.documents.masses import TWO_PEOPLE_KG, carried_by
from rodwork.documents.page import Area, Page, body, fitted
from rodwork.documents.pictorial import (
    FRONT,
    STANDING,
    Box,
    SeenLine,
    View,
    drawn,
    extent,
    lying,
    part_box,
    seen,
    shifted,
    solids,
)
from rodwork.documents.tables import LEADING
from rodwork.geometry.vec import Vec, dot, neg, scale
from rodwork.model.fixing import Joint
from rodwork.model.panel import put_in_last
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.surface import surface_facing
from rodwork.model.words import cabinet_words

MOST_PICTURES = 6  # the last of them is the diagonals
_LIES: dict[Vec, str] = {
    (-1.0, 0.0, 0.0): "On its left side", (1.0, 0.0, 0.0): "On its right side", (0.0, 0.0, -1.0): "Standing",
    (0.0, 0.0, 1.0): "Upside down", (0.0, -1.0, 0.0): "On its face", (0.0, 1.0, 0.0): "On its back",
}  # fmt: skip
_NEW = replace(HEAVY, width=0.75)
_GAP = 7.0
_ARROW_MM = 9.0
_STRIP = 8.0
_HEAD = 4.8
_WORDS = 3.9
_SMALLER = (1.0, 0.92, 0.85, 0.78, 0.72)  # what captions shrink to where they are long
_MOST_WORDS = 0.6  # of the height of a picture with its caption under it
_SHARES = (0.25, 0.3, 0.35, 0.4, 0.45, 0.55, 0.6)  # of the room for pictures, that the upper of two rows may have
_FEW = 3  # in a row of fewer the words stand beside the picture,
_BESIDE = 0.56  # from this share of its room on
_NOTE_SIZE = 3.4
_NOTE = (
    "Dry-fit the first of each kind without glue. Glue within the time its maker prints, a clamp across every glued "
    "joint (common practice). Measure the diagonals before the glue takes."
)
_DRY_NOTE = "Put the first of each kind together loosely. Measure the diagonals before anything is drawn up tight."


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """What is done between one picture and the next: one step, or several that are drawn together."""

    steps: tuple[Step, ...]

    @property
    def down(self) -> Vec:
        """Which direction of the cabinet is downwards on the bench."""
        return (0.0, 0.0, -1.0) if not self.steps[0].on else _laid(self.steps[0].push)

    @property
    def new(self) -> tuple[str, ...]:
        """The boards that are new in it."""
        return tuple(i for s in self.steps for i in s.new)


def _laid(push: Vec) -> Vec:
    """The way down on the bench for a push; for one askew, along a slope, the nearest to it."""
    return max(_LIES, key=lambda down: dot(down, push))


def pictures(cabinet: RodCabinet, steps: tuple[Step, ...], most: int = MOST_PICTURES - 1) -> tuple[Picture, ...]:
    """Steps gathered into few pictures: pushed the same way together, the back and what closes the box alone.

    Where they are still too many, neighbours are drawn together, fewest boards first.
    """
    shown = [Picture(steps=(s,)) for s in steps]
    n = 0
    while n + 1 < len(shown):
        if _alike(cabinet, shown[n], shown[n + 1]):
            shown[n : n + 2] = [Picture(steps=shown[n].steps + shown[n + 1].steps)]
        else:
            n += 1
    while len(shown) > most:
        n = min(range(len(shown) - 1), key=lambda i: _unlike(cabinet, shown[i], shown[i + 1]))
        shown[n : n + 2] = [Picture(steps=shown[n].steps + shown[n + 1].steps)]
    return tuple(shown)


def _alike(cabinet: RodCabinet, a: Picture, b: Picture) -> bool:
    if a.steps[0].push != b.steps[0].push or bool(a.steps[0].on) != bool(b.steps[0].on):
        return False
    if set(a.new) & set(b.steps[0].there) != set(a.new):
        return False  # a part of the cabinet that is built by itself
    return not any(_stands_alone(cabinet, s) for s in (*a.steps, *b.steps))


def _stands_alone(cabinet: RodCabinet, step: Step) -> bool:
    return len(step.shut_in) > 1 or any(cabinet.part[i].role == "back" for i in step.new)


def _unlike(cabinet: RodCabinet, a: Picture, b: Picture) -> tuple[object, ...]:
    pushes = {s.push for s in (*a.steps, *b.steps)}
    pushes = {max(p, neg(p)) for p in pushes}  # to and fro on one axis is nearly one way
    alone = any(_stands_alone(cabinet, s) for s in (*a.steps, *b.steps))
    standing = sum(not p.steps[0].on for p in (a, b))  # what is hung in the box that stands is drawn together first,
    return ((1, 2, 0)[standing], len(pushes), alone, len(a.new) + len(b.new))  # and with what is built last


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagonals:
    """Corner to corner at the front, mm: over the outside, and inside each bay from the left.

    `falling`: under a slope the outside from top left to bottom right, where `outer` is from bottom left to top right.
    """

    outer: float
    inner: tuple[float, ...]
    falling: float | None = None


def diagonals(cabinet: RodCabinet) -> Diagonals | None:
    """What the diagonals read when the front is square; None where no four boards make a box."""
    boxes = {r: [part_box(p) for p in cabinet.parts if p.role == r] for r in ("side", "top", "bottom")}
    rails = [part_box(p) for p in cabinet.parts if p.role == "rail"]
    boxes["top"] = boxes["top"] or [b for b in rails if b[1][2] > cabinet.size[1] - 1.0]
    if len(boxes["side"]) != 2 or not boxes["top"] or not boxes["bottom"]:
        return None
    (x0, _, z0), (x1, _, z1) = extent([b for found in boxes.values() for b in found])
    heights = outside_heights(cabinet)
    if heights is not None:
        left, right = (hypot(x1 - x0, z) for z in heights)
        return Diagonals(outer=right, inner=(), falling=left)
    high = min(b[0][2] for b in boxes["top"]) - max(b[1][2] for b in boxes["bottom"])
    return Diagonals(outer=hypot(x1 - x0, z1 - z0), inner=tuple(hypot(b - a, high) for a, b in bays(cabinet)))


def closing(cabinet: RodCabinet, steps: tuple[Step, ...]) -> tuple[int, tuple[str, ...]] | None:
    """The step that closes the box and the boards that cannot go in after it; None where nothing is shut in.

    Boards of the corners are not named: without them there is no box to close.
    """
    corners = {i for j in cabinet.joints if j.contact.place == "corner" for i in j.parts}
    best: tuple[int, tuple[str, ...]] | None = None
    shut: list[str] = []
    for n, step in enumerate(steps):
        now = [i for i in step.shut_in if i not in corners]
        shut += [i for i in now if i not in shut]
        if now and any(i in corners for i in step.new):
            best = (n, tuple(shut))
    return best


# the page ----------------------------------------------------------------------------------------------------


_DRAWERS = (
    "Drawers: glue up each box with its bottom in before the last side goes on; run it in, then screw its front on "
    "from inside, to the gaps."
)


APART = ("plinth frame", "plinth board", "batten", "face frame")
_STOOD = {
    "plinth frame": "Plinth frame: put it together by itself, level it on packers, set the carcass on it, screw down "
                    "through the bottom.",
    "legs": "Legs: screw them under the bottom, level the unit on them; clip the plinth board on, scribed, last.",
}  # fmt: skip
_STIFFENERS = (
    "Stiffeners: join each under its shelf before the shelf goes in, and let the glue set with the shelf lying on its "
    "upper face."
)
_BRACKETS = "Hanging brackets: one to each side while the doors are off, hooks out through the notches of the back."
_CLOTHES = (
    "Clothes rails: cut each tube, push a socket on to both its ends, hold it between the uprights and screw the "
    "sockets to their bores."
)
_SUPPORTS = " Middle supports are shared out along it and screwed up into the board above."
_FRAME = (
    "Face frame: put it together flat, its two diagonals the same, then on to the carcass that lies on its back, "
    "before anything is hung."
)


def assembly_pages(rod: Rod) -> tuple[Page, ...]:
    """One page for every kind of cabinet."""
    return tuple(_page(cabinet, rod) for cabinet in rod.boxes)


def _page(whole: RodCabinet, rod: Rod) -> Page:
    area = body(rod.heading.paper, landscape=True)
    cabinet = _the_box(whole)
    try:
        steps = assembly_steps(cabinet)
    except NoOrder as problem:
        at_once = closes_at_once(cabinet)
        shapes: tuple[Shape, ...] = tuple(
            drawn_at_once(cabinet, area) if at_once else _no_order(problem, cabinet, area)
        )
    else:
        shapes = tuple(_drawn(cabinet, steps, rod, area))
    return Page(kind="assembly", title=f"Assembly: {cabinet.name}", under=_under(cabinet), shapes=shapes)


def _the_box(cabinet: RodCabinet) -> RodCabinet:
    """The cabinet less what is put together by itself: drawers, face frame, stiffened shelves, what it stands on."""
    drawn = {i for d in cabinet.drawers for i in (d.front, *d.box)}
    drawn |= {p.id for p in cabinet.parts if p.role == "stiffener" or (p.role in APART and not p.in_box)}
    return replace(
        cabinet, parts=tuple(p for p in cabinet.parts if p.id not in drawn),
        joints=tuple(j for j in cabinet.joints if not drawn & {*j.parts}),
    )  # fmt: skip


def _under(cabinet: RodCabinet) -> str:
    alike = "" if cabinet.count == 1 else f"{cabinet.count} of them, all alike. "
    return f"{alike}Drawn as it lies on the bench; the new board is drawn heavy."


def _drawn(cabinet: RodCabinet, steps: tuple[Step, ...], rod: Rod, area: Area) -> Iterator[Shape]:
    shown = list(pictures(cabinet, steps))
    shut = closing(cabinet, steps)
    loose = shown.pop() if len(shown) == MOST_PICTURES - 1 and not shown[-1].steps[0].on else None
    at = None if shut is None else next((n for n, p in enumerate(shown) if steps[shut[0]] in p.steps), None)
    named = () if shut is None or not at else tuple(i for i in shut[1] if i not in shown[at].new)
    at = at if named else None  # what is shut in within one picture is told by the order under it
    rows = _rows(len(shown) + 1, at)
    strip = _STRIP if at is not None else 0.0
    care = _NOTE if any(j.glued for j in cabinet.joints) else _DRY_NOTE
    notes = [row for text in (*_beside_the_box(cabinet, rod), care) for row in wrapped(text, _NOTE_SIZE, area.width)]
    foot = _NOTE_SIZE * LEADING * len(notes) + 2.0
    high = area.height - strip - foot
    drawings = [_lines(rod.cabinet[cabinet.name], p) for p in shown]
    captions = [_caption(n, p, cabinet) for n, p in enumerate(shown, 1)]
    captions.append(_last_caption(len(shown) + 1, cabinet, rod, loose))
    even = (high / len(rows),) * len(rows)
    size = next((k for k in _SMALLER if _told(rows, captions, area, even, k)), _SMALLER[-1])
    ways = [
        (heights, _cells(rows, captions, area, heights, strip, at, size))
        for heights in (even, *_uneven(high, len(rows)))
        if heights == even or _told(rows, captions, area, heights, size)
    ]
    heights, cells = max(ways, key=lambda way: _smallest(drawings, way[1]))
    k = _smallest(drawings, cells)  # no other is drawn at more than twice it
    for n, (room, words) in enumerate(cells):
        if n < len(drawings):
            yield from _placed(drawings[n], room, min(_scale(drawings[n], room), 2.0 * k))
        else:
            yield from _front_with_diagonals(cabinet, room)
        yield from _written(captions[n], words, size)
    if at is not None:
        y = area.top - sum(heights[: next(i for i, row in enumerate(rows) if row[0] == at)])
        yield from _strip(named, cabinet, area, y)
    for n, text in enumerate(reversed(notes)):
        yield Text(at=(area.left, area.bottom + 1.0 + n * _NOTE_SIZE * LEADING), text=text, size=_NOTE_SIZE)


def _rows(count: int, closes: int | None) -> list[list[int]]:
    """Pictures in rows of at most four, as even as they come; a new row where the box is closed."""
    runs = [list(range(count))] if not closes else [list(range(closes)), list(range(closes, count))]
    rows: list[list[int]] = []
    for run in runs:
        most = 4 if len(runs) > 1 else 3
        lines = -(-len(run) // most)
        each = -(-len(run) // lines)
        rows += [run[n : n + each] for n in range(0, len(run), each)]
    return rows


def _room(row: list[int], area: Area) -> tuple[float, float]:
    """(width of a picture of this row, width of its words): the words stand beside it where the row holds few."""
    wide = (area.width - (len(row) - 1) * _GAP) / len(row)
    return wide, (1.0 - _BESIDE) * wide if len(row) < _FEW else wide


def _uneven(high: float, count: int) -> Iterator[tuple[float, ...]]:
    """Other heights of two rows: one with a single picture often needs less."""
    if count == 2:
        yield from ((share * high, (1 - share) * high) for share in _SHARES)


def _told(
    rows: list[list[int]], captions: list[tuple[str, str]], area: Area, heights: tuple[float, ...], k: float
) -> bool:
    """Whether every caption has room at this share of its size, and leaves its picture some."""
    return all(
        _height_of(captions[n], _room(row, area)[1], k) <= (height - 3.0 if len(row) < _FEW else _MOST_WORDS * height)
        for row, height in zip(rows, heights, strict=True) for n in row
    )  # fmt: skip


def _cells(
    rows: list[list[int]],
    captions: list[tuple[str, str]],
    area: Area,
    heights: tuple[float, ...],
    strip: float,
    at: int | None,
    k: float,
) -> list[tuple[Area, Area]]:
    """For every picture the room for its lines and the room for its words: beside it where a row holds few."""
    cells: list[tuple[Area, Area]] = []
    top = area.top
    for row, height in zip(rows, heights, strict=True):
        top -= strip if at is not None and row[0] == at else 0.0
        wide, for_words = _room(row, area)
        under = max(_height_of(captions[n], for_words, k) for n in row)
        for place in range(len(row)):
            left = area.left + place * (wide + _GAP)
            if len(row) < _FEW:
                middle = left + wide - for_words
                lines = Area(left=left, bottom=top - height + 3.0, right=middle - 4.0, top=top - 3.0)
                words = Area(left=middle, bottom=top - height, right=left + wide, top=top - 3.0)
            else:
                lines = Area(left=left, bottom=top - height + under + 3.0, right=left + wide, top=top - 3.0)
                words = Area(left=left, bottom=top - height, right=left + wide, top=top - height + under)
            cells.append((lines, words))
        top -= height
    return cells


# words


def _caption(n: int, picture: Picture, cabinet: RodCabinet) -> tuple[str, str]:
    """(the heading, the words) under a picture."""
    step = picture.steps[0]
    if not step.on:
        return f"{n}. Standing.", _from_the_front(picture.new, cabinet)
    head = f"{_LIES[picture.down]}."
    if len(step.there) == 1:
        head = f"{_name(step.there[0], cabinet)} down, {_up(step.there[0], picture.down, cabinet)} up."
    said = [
        ("" if _laid(steps[0].push) == picture.down else "Then turn it: ") + _said(steps, cabinet)
        for steps in _by_push(picture.steps)
    ]
    return f"{n}. {head}", " ".join(said)


def _by_push(steps: tuple[Step, ...]) -> Iterator[tuple[Step, ...]]:
    run: list[Step] = []
    for step in steps:
        if run and step.push != run[-1].push:
            yield tuple(run)
            run = []
        run.append(step)
    yield tuple(run)


def _said(steps: tuple[Step, ...], cabinet: RodCabinet) -> str:
    new = tuple(i for s in steps for i in s.new)
    joints = [j for j in cabinet.joints if any(j.id in s.joints for s in steps)]
    bought = Counter[str]()
    for item in (i for j in joints for f in j.fixings for i in f.hardware):
        bought[item.item] += item.count
    turns = "; then ".join(_turn(turn, cabinet) for turn in _in_turn(steps))
    words = [f"{turns[:1].upper()}{turns[1:]}."]
    bought_words = listed([f"{count} × {item}" for item, count in bought.items()])
    words.append(f"With {bought_words}. {_glue(joints, new, cabinet)}" if bought else _glue(joints, new, cabinet))
    return " ".join(words)


def _in_turn(steps: tuple[Step, ...]) -> Iterator[tuple[Step, ...]]:
    """Steps of one push that may be done in any order, then those that go on them, and so on."""
    turn: list[Step] = []
    for step in steps:
        if {*step.on} & {i for s in turn for i in s.new}:
            yield tuple(turn)
            turn = []
        turn.append(step)
    yield tuple(turn)


def _turn(steps: tuple[Step, ...], cabinet: RodCabinet) -> str:
    """What goes down on what; what goes into a groove or housing by itself."""
    parted: dict[bool, list[Step]] = {}
    for step in steps:
        joints = [j for j in cabinet.joints if j.id in step.joints]
        enters = any(f.law == "enter" and j.parts[1] in step.new for j in joints for f in j.fixings)
        parted.setdefault(enters, []).append(step)
    words = []
    for enters, some in parted.items():
        new = _names([i for s in some for i in s.new], cabinet, capital=False)
        on = _names(list(dict.fromkeys(i for s in some for i in s.on)), cabinet, capital=False)
        slope = ", pushed square to the slope" if any(s.push not in _LIES for s in some) else ""
        words.append(f"{new} {'down into' if enters else 'down on to'} {on}{slope}")
    return "; ".join(words)


def _glue(joints: list[Joint], new: tuple[str, ...], cabinet: RodCabinet) -> str:
    """Whether these joints are glued; which boards go in dry where the rest are."""
    if not any(j.glued for j in joints):
        return "No glue."
    dry = tuple(
        i for i in new
        if (mine := [j for j in joints if i in j.parts]) and not any(j.glued for j in mine)
    )  # fmt: skip
    return f"Glue, but not {_names(dry, cabinet, capital=False)}." if dry else "Glue."


def _names(ids: Sequence[str], cabinet: RodCabinet, capital: bool = True) -> str:
    """ "Bottom, fixed shelf and top"; all of a kind as "3 loose shelves", some of it as "loose shelves 1 and 3"."""
    kinds: dict[str, list[str]] = {}
    for i in ids:
        name = cabinet.part[i].name
        kinds.setdefault(stem_of(name), []).append(name)
    every = Counter(stem_of(p.name) for p in cabinet.whole_boards)
    words = []
    for stem, names in kinds.items():
        if len(names) == 1:
            words.append(names[0])
        elif len(names) == every[stem]:
            words.append(f"{len(names)} {several(stem)}")
        else:
            words.append(several_named(names))
    text = listed(words)
    return text[:1].upper() + text[1:] if capital else text


def _name(board: str, cabinet: RodCabinet) -> str:
    return _names((board,), cabinet)


def _up(board: str, down: Vec, cabinet: RodCabinet) -> str:
    part = cabinet.part[board]
    surface = surface_facing(part.pose.direction_if_level(neg(down)))
    return cabinet_words(part.role, part.pose.rotation)[surface]


def _from_the_front(new: tuple[str, ...], cabinet: RodCabinet) -> str:
    """What is put in or hung when the carcass stands."""
    doors = tuple(i for i in new if cabinet.part[i].role == "door")
    strips = tuple(i for i in new if cabinet.part[i].role == "scribe")
    rest = tuple(i for i in new if i not in (*doors, *strips))
    words = [f"{_names(rest, cabinet)} in from the front{_on_pins(rest, cabinet)}."] if rest else []
    if doors:
        words.append(f"{_names(doors, cabinet)} hung on the bench, set to the margins, taken off for the van.")
    if strips:
        words.append(f"{_names(strips, cabinet)} go with it as they are, and are fitted to the wall on site.")
    return " ".join(words)


def _on_pins(shelves: tuple[str, ...], cabinet: RodCabinet) -> str:
    pins = any(f.role == "shelf_pin" for p in cabinet.parts for f in p.features)
    return f", on to {'its' if len(shelves) == 1 else 'their'} pins" if pins else ""


def _last_caption(n: int, cabinet: RodCabinet, rod: Rod, loose: Picture | None) -> tuple[str, str]:
    found = diagonals(cabinet)
    words = []
    if found and found.falling is not None:
        rising, falling = (size_text(d, rod.step) for d in (found.outer, found.falling))
        words.append(f"At the front, outside: {rising} from bottom left to top right, {falling} the other way.")
        words.append("The same at the back.")
    elif found:
        inside = listed([size_text(d, rod.step) for d in found.inner])
        bays_ = "" if len(found.inner) == 1 else " (bays from the left)"
        outside = size_text(found.outer, rod.step)
        words.append(f"Corner to corner at the front: outside {outside}; inside {inside}{bays_}.")
        words.append("Both diagonals the same, front and back.")
    words.append(_squares(cabinet, "equal" if found is None or found.falling is None else "to these"))
    if loose:
        words.append(_from_the_front(loose.new, cabinet))
    return f"{n}. Is it square?", " ".join(w for w in words if w)


def _beside_the_box(cabinet: RodCabinet, rod: Rod) -> Iterator[str]:
    """What is told of the parts that are put together by themselves, and of the weight of the whole."""
    if cabinet.footing is not None and cabinet.footing.below:
        yield _STOOD[cabinet.footing.style]
    if any(p.role == "face frame" for p in rod.cabinet[cabinet.name].parts):
        yield _FRAME
    if any(p.role == "stiffener" for p in rod.cabinet[cabinet.name].parts):
        yield _STIFFENERS
    if cabinet.brackets:
        yield _BRACKETS
    if cabinet.clothes_rails:
        yield _CLOTHES + (_SUPPORTS if any(r.supports for r in cabinet.clothes_rails) else "")
    if cabinet.drawers:
        yield _DRAWERS
    if cabinet.weight is not None and cabinet.weight.kg > TWO_PEOPLE_KG:
        yield f"About {mass_text(cabinet.weight.kg)}, to turn and to carry: {carried_by(cabinet.weight.kg)}."


def _squares(cabinet: RodCabinet, pulled: str) -> str:
    """Whether the back holds the box square. Arithmetic of its play; common practice."""
    places = {j.contact.place for j in cabinet.joints}
    if places & {"back in a rebate", "planted back", "inset back"}:
        return f"Pull them {pulled}, then fix the back: it holds the box square."
    until = "before the glue takes" if any(j.glued for j in cabinet.joints) else "before you draw it up tight"
    if "back in a groove" in places:
        return f"Pull them {pulled} {until}: a back in a groove holds only to its own play."
    return f"Pull them {pulled} {until}: there is no back to hold it square."


def _strip(shut: tuple[str, ...], cabinet: RodCabinet, area: Area, y: float) -> Iterator[Shape]:
    names = _names(shut, cabinet, capital=False)
    after = "is it in? It does not go in" if len(shut) == 1 else "are they in? They do not go in"
    text = f"BEFORE YOU CLOSE IT: {names}, {after} afterwards."
    size = fitted(text, 4.8, area.width - 6.0, True)
    yield box(area.left, y - _STRIP + 1.0, area.width, _STRIP - 2.0, pen=NO_PEN, fill="black")
    yield Text(at=(area.left + 3.0, y - 0.5 * _STRIP - 0.33 * size), text=text, size=size, bold=True, ink="white")


def _height_of(caption: tuple[str, str], width: float, k: float) -> float:
    """How high a caption stands at this share of its size."""
    head, words = k * _HEAD, k * _WORDS
    rows = len(wrapped(caption[0], head, width, True)) * head + len(wrapped(caption[1], words, width)) * words
    return rows * LEADING + 1.0


def _written(caption: tuple[str, str], room: Area, k: float) -> Iterator[Shape]:
    y = room.top
    for text, size, bold in ((caption[0], k * _HEAD, True), (caption[1], k * _WORDS, False)):
        for row in wrapped(text, size, room.width, bold):
            y -= size * LEADING
            yield Text(at=(room.left, y + 0.25 * size), text=row, size=size, bold=bold)


# pictures


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """A picture at full size: its lines, and arrows (start, end) of the boards going home."""

    lines: tuple[SeenLine, ...]
    new: frozenset[str]
    arrows: tuple[tuple[Point, Point], ...]

    @property
    def corners(self) -> tuple[Point, Point]:
        xs = [p[0] for s in self.lines for p in (s.a, s.b)]
        ys = [p[1] for s in self.lines for p in (s.a, s.b)]
        return (min(xs), min(ys)), (max(xs), max(ys))


def _lines(cabinet: RodCabinet, picture: Picture) -> _Drawn:
    """The boards that are there, and the new ones drawn back the way they come; shelves with their stiffeners."""
    view = STANDING if picture.down == (0.0, 0.0, -1.0) else lying(picture.down)
    under = _stiffeners(cabinet)
    there = {i: None for s in picture.steps for board in (*s.there, *s.new) for i in (board, *under.get(board, ()))}
    new = [i for board in picture.new for i in (board, *under.get(board, ()))]
    boards = {s.id: s for s in solids(cabinet, there)}
    reach = 0.14 * max(cabinet.size)
    arrows = []
    layer: dict[str, int] = {}
    for step in picture.steps:
        depth = 1 + max((layer[i] for i in step.on if i in layer), default=0)
        layer.update(dict.fromkeys(step.new, depth))
        whole = extent([boards[i].whole for i in step.new])
        out = scale(step.push, -(depth * reach + _slides(step, whole, cabinet)))
        for i in (i for board in step.new for i in (board, *under.get(board, ()))):
            boards[i] = shifted(boards[i], out)
        arrows.append(_arrow(view, step, whole, out, depth * reach))
    kept = arrows[len(arrows) // 2 :][:1] if len({s.push for s in picture.steps}) == 1 else _one_each(picture, arrows)
    order = tuple(boards[i] for i in (s.id for s in solids(cabinet, there)))
    return _Drawn(lines=seen(order, view), new=frozenset(new), arrows=tuple(kept))


def _stiffeners(cabinet: RodCabinet) -> dict[str, tuple[str, ...]]:
    """The strips under each shelf that has any: joined to it before it goes in, they come with it."""
    found: dict[str, tuple[str, ...]] = {}
    for joint in cabinet.joints:
        shelf, strip = joint.parts
        if cabinet.part[strip].role == "stiffener":
            found[shelf] = (*found.get(shelf, ()), strip)
    return found


def _slides(step: Step, whole: Box, cabinet: RodCabinet) -> float:
    """How far further out a board is drawn that slides down a groove: a third of its length."""
    grooved = any(f.law == "enter" for j in cabinet.joints if j.id in step.joints for f in j.fixings)
    long = sum(abs(whole[1][i] - whole[0][i]) * abs(step.push[i]) for i in range(3))
    return 0.35 * long if grooved or not step.on else 0.0


def _one_each(picture: Picture, arrows: list[tuple[Point, Point]]) -> list[tuple[Point, Point]]:
    return list({s.push: a for s, a in zip(picture.steps, arrows, strict=True)}.values())


def _arrow(view: View, step: Step, whole: Box, out: Vec, reach: float) -> tuple[Point, Point]:
    """From the leading face of the new board, as drawn, towards its home."""
    middle = tuple((a + b) / 2 for a, b in zip(*whole, strict=True))
    half = sum(abs(whole[1][i] - whole[0][i]) * abs(step.push[i]) for i in range(3)) / 2
    ahead = half + dot(out, step.push)
    start = tuple(middle[i] + step.push[i] * ahead for i in range(3))
    end = tuple(start[i] + step.push[i] * reach * 0.9 for i in range(3))
    return view.on_paper((start[0], start[1], start[2])), view.on_paper((end[0], end[1], end[2]))


def _scale(drawing: _Drawn, room: Area) -> float:
    (x0, y0), (x1, y1) = drawing.corners
    return min(room.width / (x1 - x0), room.height / (y1 - y0))


def _smallest(drawings: list[_Drawn], cells: list[tuple[Area, Area]]) -> float:
    """The scale of the picture that comes out smallest."""
    return min((_scale(d, cells[n][0]) for n, d in enumerate(drawings)), default=1.0)


def _placed(picture: _Drawn, room: Area, k: float) -> Iterator[Shape]:
    (x0, y0), (x1, y1) = picture.corners
    dx = room.left + (room.width - (x1 - x0) * k) / 2 - x0 * k
    dy = room.bottom + (room.height - (y1 - y0) * k) / 2 - y0 * k
    yield from moved(drawn(picture.lines, THIN, _NEW, picture.new), dx, dy, k)
    for a, b in picture.arrows:
        start, end = (a[0] * k + dx, a[1] * k + dy), (b[0] * k + dx, b[1] * k + dy)
        short = _ARROW_MM / (hypot(end[0] - start[0], end[1] - start[1]) or 1.0)
        if short > 1.0:  # drawn from further back, as far as there is room
            short = min(short, _reach(end, start, room))
            start = (end[0] + (start[0] - end[0]) * short, end[1] + (start[1] - end[1]) * short)
        yield from arrow(start, end)


def _reach(end: Point, start: Point, room: Area) -> float:
    """How many times the way from end to start fits before it leaves the room; at least once."""
    reach = 1e9
    for a, b, low, high in ((end[0], start[0], room.left, room.right), (end[1], start[1], room.bottom, room.top)):
        if abs(b - a) > 1e-9:
            reach = min(reach, ((high if b > a else low) - a) / (b - a))
    return max(reach, 1.0)


def _front_with_diagonals(cabinet: RodCabinet, room: Area) -> Iterator[Shape]:
    fixed = tuple(p.id for p in cabinet.whole_boards if not put_in_last(p))
    boards = solids(cabinet, fixed)
    (x0, _, z0), (x1, _, z1) = extent([s.whole for s in boards])
    k = min(room.width / (x1 - x0), room.height / (z1 - z0))
    dx = room.left + (room.width - (x1 - x0) * k) / 2 - x0 * k
    dy = room.bottom + (room.height - (z1 - z0) * k) / 2 - z0 * k
    yield from moved(drawn(seen(boards, FRONT), THIN, THIN), dx, dy, k)
    heights = outside_heights(cabinet)
    if heights is not None:
        foot, (left, right) = z0 * k + dy, (z * k + dy for z in heights)
        yield line((x0 * k + dx, foot), (x1 * k + dx, right), HIDDEN)
        yield line((x1 * k + dx, foot), (x0 * k + dx, left), HIDDEN)
    elif diagonals(cabinet):
        a, b = (x0 * k + dx, z0 * k + dy), (x1 * k + dx, z1 * k + dy)
        yield line(a, b, HIDDEN)
        yield line((a[0], b[1]), (b[0], a[1]), HIDDEN)


def _no_order(problem: NoOrder, cabinet: RodCabinet, area: Area) -> Iterator[Shape]:
    """What is said where the boards hold one another: no picture is invented."""
    names = _names(problem.boards, cabinet, capital=False)
    words = (
        f"STOP: no order was found in which this goes together. {names[:1].upper() + names[1:]} hold one another: "
        "each is pushed home in a direction that another stands in the way of. Change one of their joints to one "
        "that is screwed, or open a housing at its end; then set out again."
    )
    for n, text in enumerate(wrapped(words, 6.0, area.width, True)):
        yield Text(at=(area.left, area.top - 10.0 - n * 6.0 * LEADING), text=text, size=6.0, bold=True)
