"""The two boards of a joint hinged open about the line on which both register, so that nothing is mirrored.

Along the run both lie as they meet, front on the same hand; the running numbers stand once, in the fold between
them. The two heavy lines finish flush, or stand where the line is.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from rodwork.documents.annotate import capital, figure, fits, listed, named, setting, spread, triangle
from rodwork.documents.drawing import (
    FOLD,
    HEAVY,
    HIDDEN,
    LINE,
    NO_PEN,
    THIN,
    Circle,
    Path_,
    Pen,
    Point,
    Shape,
    Text,
    box,
    line,
    text_width,
)
from rodwork.documents.joint_kinds import Opened
from rodwork.documents.machined import Work, words_of
from rodwork.documents.page import Area, fitted, fitted_text
from rodwork.model.slope import on_the_slope
from rodwork.model.surface import axis_of, level

LEFT, RIGHT = 44.0, 44.0  # mm of the page for the offsets and for the depths
BIG, RUN = 14.0, 9.0  # em of what is set, and of the running numbers
CENTRE = Pen(width=0.13, ink="grey", dashes=(2.0, 1.0))
EXIT = Pen(width=0.25, ink="grey")
LABEL = 5.0
FIGURE = 0.65  # of the em: the height of a figure


@dataclass(frozen=True, slots=True)
class Along:
    """From millimetres along the run to millimetres on paper; a long run has its middle broken out."""

    left: float
    scale: float
    low: float
    high: float
    cut: tuple[float, float] | None
    datum_left: bool

    def x(self, u: float) -> float:
        """Where this distance along the run comes on paper; what is broken out, at the nearer side of the break."""
        if self.cut is not None and self.hidden(u):
            u = min(self.cut, key=lambda end: abs(end - u))
        d = u - self.low
        if self.cut is not None and u >= self.cut[1]:
            d -= self.cut[1] - self.cut[0] - BREAK / self.scale
        width = self.width
        return self.left + (d * self.scale if self.datum_left else width - d * self.scale)

    @property
    def width(self) -> float:
        """How wide the run is on paper."""
        out = self.high - self.low
        if self.cut is not None:
            out -= self.cut[1] - self.cut[0] - BREAK / self.scale
        return out * self.scale

    def hidden(self, u: float) -> bool:
        """Whether this place is in the part that is broken out."""
        return self.cut is not None and self.cut[0] < u < self.cut[1]

    def broken(self, u0: float, u1: float) -> bool:
        """Whether some of this stretch is broken out."""
        return self.cut is not None and u0 < self.cut[1] and u1 > self.cut[0]


BREAK = 7.0  # mm on paper between the two sides of a break
BESIDE = 60.0  # mm of a board in which nothing is set out, on either side of the other
LEAST_SCALE = 0.33
LEAST_SHOWN = 10.0  # of the board beyond the fold
ROW = 16.0  # from one depth to the next where there are several


@dataclass(frozen=True, slots=True)
class Frame:
    """Heights on paper: the fold, and how far on each side of it the boards begin."""

    fold: float
    gap: float  # from the fold to either heavy line
    scale: float
    face_sign: float  # +1: the face board lies above the fold

    def face_y(self, v: float) -> float:
        """Height of a distance from the registering line, in the face board."""
        return self.fold + self.face_sign * (self.gap + v * self.scale)

    def end_y(self, v: float) -> float:
        """Height of a distance from the registering face, in the end board."""
        return self.fold - self.face_sign * (self.gap + v * self.scale)


def opened_shapes(one: Opened, area: Area) -> tuple[Shape, ...]:
    """The opened joint in this area of the page."""
    along = _along(one, area)
    frame, shown = _frame(one, area, along)
    shapes: list[Shape] = []
    shapes += _end_board(one, along, frame)
    shapes += _face_board(one, along, frame, shown)
    shapes += _bores(one, along, frame)
    shapes += _fold(one, along, frame, area)
    shapes += _offsets(one, along, frame, area)
    shapes += _depths(one, along, frame, area)
    shapes += _names(one, along, frame, shown, area)
    return tuple(shapes)


# Where everything comes


def _along(one: Opened, area: Area) -> Along:
    low = min(0.0, one.set_back)
    high = max(one.face_length, one.set_back + one.end_length)
    if one.aside:  # nothing is set out in the other board: only a little of it is drawn on either side
        low, high = max(low, one.set_back - BESIDE), min(high, one.set_back + one.end_length + BESIDE)
    room = area.width - LEFT - RIGHT
    upright = area.height - 2 * (LABEL + 4.5 + _gap(one)) - LEAST_SHOWN
    scale = min(room / (high - low), 0.8, max(upright / one.end_shown, LEAST_SCALE))
    cut = None
    if scale < LEAST_SCALE:
        scale = LEAST_SCALE
        keep = (room - BREAK) / scale
        cut = _cut(one, low, high, keep)
    along = Along(area.left + LEFT, scale, low, high, cut, one.datum_left)
    slack = room - along.width
    return Along(area.left + LEFT + slack / 2, scale, low, high, cut, one.datum_left)


def _cut(one: Opened, low: float, high: float, keep: float) -> tuple[float, float]:
    """The stretch of a long run that is broken out, its two ends as clear of bores as can be."""
    bores = {*_run_numbers(one, one.on_face, "face").values(), *_run_numbers(one, one.on_end, "end").values()}

    def clear(share: float) -> float:
        start = low + share * keep
        ends = (start, high - (keep - (start - low)))
        return min((abs(u - end) for u in bores for end in ends), default=0.0)

    start = low + max((n / 100 for n in range(45, 76)), key=clear) * keep
    return (start, high - (keep - (start - low)))


def _frame(one: Opened, area: Area, along: Along) -> tuple[Frame, float]:
    """The fold's height and how much of the face board is shown."""
    gap = _gap(one)
    end_height = one.end_shown * along.scale
    room = area.height - 2 * (LABEL + 4.5) - end_height - 2 * gap
    reach = max([one.end_thick, *(one.face_uv(w)[1][1] for w in one.on_face)])
    shown = min(
        max(room, LEAST_SHOWN),
        max(2.6 * reach * along.scale + 8.0, one.end_thick * along.scale + 8.0),
        (one.face_board.size[2] if one.aside else one.beyond_fold) * along.scale,
    )
    used = end_height + 2 * gap + shown
    spare = max(area.height - 2 * (LABEL + 4.5) - used, 0.0) / 2
    top = area.top - LABEL - 4.5 - spare
    sign = 1.0 if one.face_above else -1.0
    fold = top - gap - (shown if one.face_above else end_height)
    return Frame(fold, gap, along.scale, sign), shown


def _gap(one: Opened) -> float:
    """From the fold to either board: room for one row of numbers, or for two."""
    return 13.5 if _rows_differ(one) else 8.0


def _rows_differ(one: Opened) -> bool:
    """Whether the numbers along the run are not the same on both boards."""
    return (abs(one.set_back) > 0.005 or one.slide > 0) and bool(one.on_end) and bool(one.on_face)


# The boards


def _rect(
    x0: float, y0: float, x1: float, y1: float, pen: Pen = LINE, fill: Literal["white", "light"] = "white"
) -> Path_:
    return box(min(x0, x1), min(y0, y1), abs(x1 - x0), abs(y1 - y0), pen, fill)


def _end_board(one: Opened, along: Along, frame: Frame) -> list[Shape]:
    """The end or edge of the board worked on it (or a face, from its end); dashed where nothing is set out in it."""
    u0, u1 = one.set_back, one.set_back + one.end_length
    near, far = frame.end_y(0.0), frame.end_y(one.end_shown)
    if not one.on_end:
        return [_rect(along.x(u0), near, along.x(u1), far, HIDDEN)]
    shapes: list[Shape] = [_rect(along.x(u0), near, along.x(u1), far, NO_PEN if one.aside else LINE)]
    if one.aside:
        shapes += [line((x, near), (x, far)) for x in (along.x(u0), along.x(u1))]
        shapes.append(_jagged(along.x(u0), along.x(u1), far))
    for w in one.beside:
        shapes += _groove_in_end(one, w, along, frame)
    shapes.append(line((along.x(u0), near), (along.x(u1), near), HEAVY))
    if along.broken(u0, u1):
        shapes += _break(along, near, far)
    return shapes


def _groove_in_end(one: Opened, w: Work, along: Along, frame: Frame) -> list[Shape]:
    """A groove that runs out through the end, as a notch in it."""
    register = one.joint.contact.guest_register
    if w.part.id != one.end_board.id or w.bears not in ("face_side", "back_side"):
        return []
    axis = axis_of(register.bears)
    at = level(register.bears, w.part.size)
    if axis not in w.span or not (w.span[axis][0] - 0.01 <= at <= w.span[axis][1] + 0.01):
        return []
    u = one.end_u(w)
    if along.hidden(u[0]) and along.hidden(u[1]):
        return []
    thickness, depth = w.part.size[2], w.feature.depth
    same = w.bears == register.across_from
    v0, v1 = (0.0, depth) if same else (thickness - depth, thickness)
    v0, v1 = (on_the_slope(w.part, register.bears, v) for v in (v0, v1))
    return [_rect(along.x(u[0]), frame.end_y(v0), along.x(u[1]), frame.end_y(v1), THIN, "light")]


def _face_board(one: Opened, along: Along, frame: Frame, shown: float) -> list[Shape]:
    """The face of the other board from the registering line on, broken off where it goes further."""
    near, far = frame.face_y(0.0), frame.face_y(shown / frame.scale)
    if one.aside:
        return _beside_the_end(one, along, near, far)
    x0, x1 = along.x(0.0), along.x(one.face_length)
    whole = shown / frame.scale >= one.beyond_fold - 0.5
    shapes: list[Shape] = [_rect(x0, near, x1, far, NO_PEN)]
    shapes += [line((x0, near), (x0, far)), line((x1, near), (x1, far))]
    for w in (*one.beside, *one.on_face):
        if w.part.id == one.face_board.id and w.groove is not None and w.bears == one.seen:
            shapes += _groove_in_face(one, w, along, frame, shown)
    shapes.append(line((x0, far), (x1, far)) if whole else _jagged(min(x0, x1), max(x0, x1), far))
    shapes.append(line((x0, near), (x1, near), HEAVY))
    if along.cut is not None:
        shapes += _break(along, near, far)
    return shapes


def _beside_the_end(one: Opened, along: Along, near: float, far: float) -> list[Shape]:
    """What is drawn of a face board in which nothing is set out: dashed, open where it goes on."""
    ends = (max(0.0, along.low), min(one.face_length, along.high))
    x0, x1 = (along.x(u) for u in ends)
    sides = [along.x(u) for u in ends if u in (0.0, one.face_length)]
    edges = [line((x0, y), (x1, y), HIDDEN) for y in (near, far)]
    return [*edges, *(line((x, near), (x, far), HIDDEN) for x in sides)]


def _groove_in_face(one: Opened, w: Work, along: Along, frame: Frame, shown: float) -> list[Path_]:
    u, v = one.face_uv(w)
    v0, v1 = max(v[0], 0.0), min(v[1], shown / frame.scale)
    if v1 <= v0 or (along.hidden(u[0]) and along.hidden(u[1])):
        return []
    return [_rect(along.x(u[0]), frame.face_y(v0), along.x(u[1]), frame.face_y(v1), THIN, "light")]


def _jagged(x0: float, x1: float, y: float) -> Path_:
    """A break line: the board goes on."""
    steps = max(4, round((x1 - x0) / 12.0))
    points = tuple((x0 + (x1 - x0) * n / steps, y + (0.9 if n % 2 else -0.9)) for n in range(steps + 1))
    return Path_(points=points, pen=THIN)


def _break(along: Along, y0: float, y1: float) -> list[Shape]:
    """The middle of a long run taken out: white, with a break line on either side."""
    assert along.cut is not None
    a, b = along.x(along.cut[0]), along.x(along.cut[1])
    low, high = min(y0, y1) - 1.1, max(y0, y1) + 1.1  # past a jagged edge that it breaks
    left, right = min(a, b), max(a, b)
    shapes: list[Shape] = [box(left, low, right - left, high - low, NO_PEN, "white")]
    for x in (left, right):
        points = tuple((x + (0.7 if n % 2 else -0.7), low + (high - low) * n / 6) for n in range(7))
        shapes.append(Path_(points=points, pen=THIN))
    return shapes


# Bores and numbers


def _bores(one: Opened, along: Along, frame: Frame) -> list[Shape]:
    """Every bore of both halves with its centre lines; those that only come out here are grey."""
    shapes: list[Shape] = []
    for works, uv, y in ((one.on_face, one.face_uv, frame.face_y), (one.on_end, one.end_uv, frame.end_y)):
        for w in works:
            u, v = _mid(uv(w))
            if w.groove is None and not along.hidden(u):
                grey = works is one.on_face and w.bears != one.seen
                if w.bore is not None:
                    shapes += _bore(w, (along.x(u), y(v)), frame, grey)
                else:
                    shapes += _mouth(tuple((along.x(u + du), y(v + dv)) for du, dv in one.mouth_uv(w)), grey)
    for u, v in one.driven:
        if not along.hidden(u):
            shapes += _cross((along.x(u), frame.face_y(v)))
    return shapes


def _cross(at: Point) -> list[Shape]:
    """Where a nail is driven: two strokes."""
    (x, y), arm = at, 1.8
    return [line((x - arm, y - arm), (x + arm, y + arm), LINE), line((x - arm, y + arm), (x + arm, y - arm), LINE)]


def _mouth(points: tuple[Point, ...], grey: bool) -> list[Shape]:
    """A slot or mortise with its centre lines."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    return [
        Path_(points=points, closed=True, pen=EXIT if grey else LINE, fill="white"),
        line((min(xs) - 1.4, y), (max(xs) + 1.4, y), CENTRE),
        line((x, min(ys) - 1.4), (x, max(ys) + 1.4), CENTRE),
    ]


def _mid(uv: tuple[tuple[float, float], tuple[float, float]]) -> tuple[float, float]:
    return ((uv[0][0] + uv[0][1]) / 2, (uv[1][0] + uv[1][1]) / 2)


def _bore(w: Work, at: Point, frame: Frame, grey: bool) -> list[Shape]:
    assert w.bore is not None
    radius = max(w.bore.diameter / 2 * frame.scale, 0.6)
    shapes: list[Shape] = []
    if w.bore.countersink is not None and not grey:
        shapes.append(Circle(centre=at, radius=w.bore.countersink.diameter / 2 * frame.scale, pen=THIN, fill="white"))
    shapes.append(
        Circle(centre=at, radius=radius, pen=EXIT if grey else LINE, fill="none" if w.is_counterbore else "white")
    )
    reach = radius + 1.4
    shapes.append(line((at[0] - reach, at[1]), (at[0] + reach, at[1]), CENTRE))
    shapes.append(line((at[0], at[1] - reach), (at[0], at[1] + reach), CENTRE))
    return shapes


def _run_numbers(one: Opened, works: Sequence[Work], half: str) -> dict[float, float]:
    """The numbers printed along the run: figure to its place on the run. Of a keyhole, its entry bore's."""
    out = {round(u, 2): u for u, _ in one.driven} if half == "face" else {}
    for w in works:
        if w.groove is None:
            u = (one.end_uv(w) if half == "end" else one.face_uv(w))[0]
            further = w.along.end_mm is not None and w.along.mm > w.along.end_mm
            out[round(w.along.mm, 2)] = (u[1] if further else u[0]) if w.along.end_mm else (u[0] + u[1]) / 2
    return dict(sorted(out.items()))


def _fold(one: Opened, along: Along, frame: Frame, area: Area) -> list[Shape]:
    """The fold with the running numbers on it, once for both boards, or boxed apart where they differ."""
    end = _run_numbers(one, one.on_end, "end")
    face = _run_numbers(one, one.on_face, "face")
    x0, x1 = along.left - 6.0, along.left + along.width + 6.0
    shapes: list[Shape] = [line((x0, frame.fold), (x1, frame.fold), FOLD)]
    if _rows_differ(one) and end and face:
        shapes += _row(end, along, frame.fold - frame.face_sign * 6.4, one, boxed=True)
        shapes += _row(face, along, frame.fold + frame.face_sign * 6.4, one, boxed=True)
        reason = _why_they_differ(one)
        width = text_width(reason, 3.6) + 3.0
        middle = along.left + along.width / 2
        shapes.append(box(middle - width / 2, frame.fold - 2.0, width, 4.0, NO_PEN, "white"))
        shapes.append(Text(at=(middle, frame.fold - 1.2), text=reason, size=3.6, anchor="middle"))
    else:
        both = dict((*face.items(), *end.items()))
        shapes += _row(both, along, frame.fold, one, boxed=False)
    shapes += _datum(one, along, frame)
    if one.has_line and not one.aside:
        shapes += _line_box(one, along, frame, area)
    return shapes


def _row(numbers: dict[float, float], along: Along, y: float, one: Opened, boxed: bool) -> list[Shape]:
    """One row of running numbers about this height."""
    seen = {mm: u for mm, u in numbers.items() if not along.hidden(u)}
    texts = [figure(mm) for mm in seen]
    size = 6.2 if boxed else RUN
    room = along.width + 6.0
    while size > 4.0 and not fits([text_width(t, size, True) + 1.5 for t in texts], room, 1.5):
        size -= 0.4
    widths = [text_width(t, size, True) + 1.6 for t in texts]
    places = spread([along.x(u) for u in seen.values()], widths, along.left - 8.0, along.left + along.width + 8.0, 1.0)
    shapes: list[Shape] = []
    half = FIGURE * size / 2
    for text, x, width in zip(texts, places, widths, strict=True):
        pen = THIN if boxed else NO_PEN
        shapes.append(box(x - width / 2, y - half - 0.8, width, 2 * half + 1.6, pen, "white"))
        shapes.append(Text(at=(x, y - half), text=text, size=size, bold=True, anchor="middle"))
    return shapes


def not_drawn(one: Opened, area: Area) -> list[float]:
    """The numbers along the run that stand in a stretch that is broken out of the drawing."""
    along = _along(one, area)
    both = {**_run_numbers(one, one.on_face, "face"), **_run_numbers(one, one.on_end, "end")}
    return sorted(mm for mm, u in both.items() if along.hidden(u))


def _why_they_differ(one: Opened) -> str:
    """Why the numbers along the run are not the same on both boards."""
    reasons = [_set_back_words(one)] if abs(one.set_back) > 0.005 else []
    if one.slide:
        reasons.append(f"the entry bores lie {figure(one.slide)} on: {named(one.end_board.name)} slides home by that")
    return "; ".join(reasons)


# further into the other board from that edge or end of it, and out beyond it
_WAYS = {
    "front": ("behind", "before"), "back": ("before", "behind"), "top": ("below", "above"),
    "bottom": ("above", "below"), "left": ("right of", "left of"), "right": ("left of", "right of"),
}  # fmt: skip


def _set_back_words(one: Opened) -> str:
    edge = words_of(one.face_board)[one.joint.contact.host_register.along_from]
    way = _WAYS[edge.split()[0]][one.set_back < 0]
    return f"{named(one.end_board.name)} stands {figure(abs(one.set_back))} {way} {named(one.face_board.name)}'s {edge}"


def _datum(one: Opened, along: Along, frame: Frame) -> list[Shape]:
    """FRONT (or whatever the run is measured from) with a solid triangle at that edge of each board."""
    register = one.joint.contact.host_register
    word = words_of(one.face_board)[register.along_from].split()[0].upper()
    way = -1.0 if along.datum_left else 1.0
    shapes: list[Shape] = []
    if one.on_end:
        x = along.x(one.set_back)
        y = (frame.end_y(0.0) + frame.end_y(one.end_shown)) / 2
        shapes.append(triangle((x + way * 4.2, y), (way, 0.0), 4.2))
    x = along.x(0.0)
    if not one.aside:
        shapes.append(triangle((x + way * 4.2, frame.face_y(one.end_thick / 2)), (way, 0.0), 4.2))
    edge = along.left - 8.0 if along.datum_left else along.left + along.width + 8.0
    anchor: Literal["start", "end"] = "end" if along.datum_left else "start"
    shapes.append(Text(at=(edge, frame.fold - 1.7), text=word, size=5.2, bold=True, anchor=anchor))
    return shapes


def _line_box(one: Opened, along: Along, frame: Frame, area: Area) -> list[Shape]:
    """Where the line is, boxed at the end of the fold: it is what the fence is set from."""
    word = capital(words_of(one.face_board)[one.joint.contact.host_register.across_from])
    lines = sorted({o.line for o in one.all if o.face_board.name == one.face_board.name and o.cabinet is one.cabinet})
    what = f"line {figure(lines[0])}" if len(lines) == 1 else f"{len(lines)} lines"
    width, height = 34.0, 11.0
    left = area.right - width if along.datum_left else area.left
    return [
        box(left, frame.fold - height / 2, width, height, LINE, "white"),
        Text(at=(left + width / 2, frame.fold - 0.2), text=what, size=6.0, bold=True, anchor="middle"),
        Text(at=(left + width / 2, frame.fold - 4.2), text=f"from the {word}", size=3.3, anchor="middle"),
    ]


def _offsets(one: Opened, along: Along, frame: Frame, area: Area) -> list[Shape]:
    """The fence: how far from the heavy line, large, on both sides of the fold."""
    shapes: list[Shape] = []
    thickness = one.end_shown
    for half, works, y_at in (("end", one.on_end, frame.end_y), ("face", one.on_face, frame.face_y)):
        rows = _offset_rows(one, works, half)
        if not rows:
            continue
        away = 1.0 if y_at(1.0) > y_at(0.0) else -1.0
        middle = (y_at(0.0) + y_at(thickness)) / 2
        middle = frame.fold + away * max(abs(middle - frame.fold), 9.0)
        x = area.left + LEFT - 15.0
        size = BIG if len(rows) == 1 else _size_beside_words(rows, x - area.left)
        for n, (mm, says) in enumerate(rows):
            y = middle + away * n * 1.05 * size * 0.8 - FIGURE * size / 2
            by_itself = bool(works) and all(w.setup.fence is None and w.groove is None for w in works)
            if by_itself:  # the tool holds this distance: nobody sets it
                size, says = 5.0, ""
                shapes.append(Text(at=(x, y - 4.4), text="by the jig", size=3.4, anchor="end"))
            shapes.append(Text(at=(x, y), text=setting(mm), size=size, bold=True, anchor="end"))
            if says:
                shapes.append(
                    Text(at=(x - text_width(setting(mm), size, True) - 1.5, y), text=says, size=3.4, anchor="end")
                )
        if len(rows) == 1:
            mm = rows[0][0]
            near, far = y_at(0.0), y_at(mm)
            x2 = min(along.x(along.low), along.x(along.high)) - 5.5
            for y in (near, far):
                shapes.append(line((x + 2.0, y), (max(x2, x + 5.0), y), THIN))
    return shapes


def _size_beside_words(rows: Sequence[tuple[float, str]], room: float) -> float:
    """How large several numbers can be with what each is for at its left in this room."""
    size = 8.5
    while size > 5.0 and any(
        text_width(setting(mm), size, True) + 1.5 + text_width(says, 3.4) > room for mm, says in rows
    ):
        size -= 0.5
    return size


def _offset_rows(one: Opened, works: Sequence[Work], half: str) -> list[tuple[float, str]]:
    """The distinct offsets of a half; with what they are for where there are several."""
    found: dict[float, list[str]] = {round(v, 2): ["nails"] for _, v in one.driven} if half == "face" else {}
    for w in works:
        v = (one.end_uv(w) if half == "end" else one.face_uv(w))[1]
        if w.groove is not None:
            if not (half == "face" and one.has_line and abs(v[0]) < 0.005):
                mm = v[1] if abs(v[0]) < 0.005 else v[0]
                found.setdefault(round(mm, 2), []).append(w.thing)
        else:
            found.setdefault(round((v[0] + v[1]) / 2, 2), []).append(w.thing)
    single = len(found) == 1
    return [(mm, "" if single else listed(list(dict.fromkeys(things)))) for mm, things in sorted(found.items())]


def _depths(one: Opened, along: Along, frame: Frame, area: Area) -> list[Shape]:
    """How deep each half goes, large, and small what is left under the point."""
    shapes: list[Shape] = []
    for half, works in (("end", one.on_end), ("face", one.on_face)):
        rows = _depth_rows(works)
        if not rows:
            continue
        y_at = frame.end_y if half == "end" else frame.face_y
        away = 1.0 if y_at(1.0) > y_at(0.0) else -1.0
        middle = (y_at(0.0) + y_at(one.end_shown)) / 2
        middle = frame.fold + away * max(abs(middle - frame.fold), 9.0 if not one.has_line else 11.5)
        x = area.right - RIGHT + 7.5
        far = middle + away * ((len(rows) - 1) * ROW + 12.0)
        over = max(far - area.top, area.bottom - far, 0.0)  # never over what stands beyond the drawing
        shapes += _depth_block(rows, x, middle - away * over, away)
    return shapes


def _depth_block(rows: Sequence[tuple[str, str, str]], x: float, middle: float, away: float) -> list[Shape]:
    """Rows of (depth, what for, what is left), from the fold outwards: a single one large, several smaller."""
    single = len(rows) == 1
    shapes: list[Shape] = []
    for n, (depth, what, left) in enumerate(rows):
        number = depth.replace(" deep", "")
        size = 5.4 if number == depth else BIG if single else 8.5
        base = middle + away * n * ROW - FIGURE * size / 2
        shapes.append(Text(at=(x, base), text=number, size=size, bold=True))
        if number != depth:
            shapes.append(Text(at=(x + text_width(number, size, True) + 1.5, base), text="deep", size=4.0))
        small = [t for t in (what if not single else "", left) if t]
        above = away > 0
        for k, text in enumerate(reversed(small) if above else small):
            y = base + FIGURE * size + 1.5 + 4.0 * k if above else base - 4.0 * (k + 1)
            shapes.append(Text(at=(x, y), text=text, size=fitted(text, 3.3, RIGHT - 8.5)))
    return shapes


def _depth_rows(works: Sequence[Work]) -> list[tuple[str, str, str]]:
    found: dict[str, tuple[str, str, str]] = {}
    for w in works:
        left = ""
        if w.bears in ("face_side", "back_side") and not w.right_through:
            rest = w.part.size[2] - w.reach
            under = "under the point" if w.bore is not None and w.bore.tip else "under it"
            left = f"leaves {figure(round(rest, 2))} {under}"
        what = f"{w.thing} {w.size_words.partition(',')[0]}"
        found.setdefault(f"{w.thing}{w.depth_words}", (w.depth_words, what, left))
    return list(found.values())


def _names(one: Opened, along: Along, frame: Frame, shown: float, area: Area) -> list[Shape]:
    """Which board, which of its surfaces; where the other board comes to."""
    end_words, face_words = words_of(one.end_board), words_of(one.face_board)
    middle = along.left + along.width / 2
    end_far = frame.end_y(one.end_shown)
    face_far = frame.face_y(shown / frame.scale)
    up = frame.face_sign
    end_name = f"{one.end_board.name.upper()}, its {end_words[one.end_seen]}"
    face_name = one.face_board.name.upper() + ("" if one.aside else f", its {face_words[one.seen]}")
    if one.aside:
        end_name += f", from its {end_words[one.end_from]}"
    shapes: list[Shape] = []
    for name, far, way in ((end_name, end_far, -up), (face_name, face_far, up)):
        y = far + 3.0 if way > 0 else far - 3.0 - 0.7 * LABEL
        shapes.append(Text(at=(middle, y), text=name, size=LABEL, bold=True, anchor="middle"))
    if not one.on_end:
        says = "bored in place, through the other board" if one.in_place else "nothing is machined in it"
        if one.driven:
            says = "nailed through the other board"
        a, b = sorted((along.x(one.set_back), along.x(one.set_back + one.end_length)))
        size = fitted(says, 3.6, b - a - 2.0)
        at = ((a + b) / 2, (frame.end_y(0.0) + end_far) / 2 - 1.2)
        shapes.append(Text(at=at, text=says, size=size, anchor="middle"))
    if one.aside:
        y = (frame.face_y(0.0) + face_far) / 2
        shapes.append(Text(at=(middle, y - 1.2), text="nothing is set out in it", size=3.6, anchor="middle"))
    shapes += _comes_to(one, along, frame, shown, area)
    return shapes


def _comes_to(one: Opened, along: Along, frame: Frame, shown: float, area: Area) -> list[Shape]:
    """The dashed line in the face board where the other face of the end board comes to."""
    thickness = one.end_thick
    if one.is_channel or one.aside or one.mitred or thickness * frame.scale > shown - 6.0:
        return []
    y = frame.face_y(thickness)
    a, b = along.x(max(one.set_back, 0.0)), along.x(min(one.set_back + one.end_length, one.face_length))
    surfaces = words_of(one.end_board)
    register = one.joint.contact.guest_register.across_from
    other = surfaces["back_side" if register == "face_side" else "face_side"]
    square = thickness == one.end_board.size[2]
    words = f"{other} of {one.end_board.name} comes to here ({figure(thickness if square else round(thickness, 1))})"
    x, anchor = _beside_datum(one, along, min(a, b), max(a, b), text_width(words, 3.5))
    room_here = area.right - RIGHT + 6.0 - x if anchor == "start" else x - (area.left + LEFT - 6.0)
    text, size = fitted_text(words, 3.5, 2.6, room_here)
    width = text_width(text, size)
    base = y + frame.face_sign * 1.2 - (0.0 if frame.face_sign > 0 else 0.7 * size)
    left = x if anchor == "start" else x - width
    room = (left - 0.8, base - 0.25 * size, left + width + 0.8, base + 0.8 * size)
    ground = [box(room[0], room[1], room[2] - room[0], room[3] - room[1], NO_PEN, "white")]
    return [
        *(ground if _over_a_groove(one, along, frame, room, shown) else []),
        line((a, y), (b, y), HIDDEN), Text(at=(x, base), text=text, size=size, anchor=anchor),
    ]  # fmt: skip


def _over_a_groove(
    one: Opened, along: Along, frame: Frame, room: tuple[float, float, float, float], shown: float
) -> bool:
    """Whether a groove that is drawn in the face board lies under this room (left, bottom, right, top)."""
    left, bottom, right, top = room
    for w in (*one.beside, *one.on_face):
        if w.part.id == one.face_board.id and w.groove is not None and w.bears == one.seen:
            for rect in _groove_in_face(one, w, along, frame, shown):
                xs, ys = [p[0] for p in rect.points], [p[1] for p in rect.points]
                if min(xs) < right and left < max(xs) and min(ys) < top and bottom < max(ys):
                    return True
    return False


def _beside_datum(
    one: Opened, along: Along, low: float, high: float, width: float
) -> tuple[float, Literal["start", "end"]]:
    """Where a text of this width stands on the dashed line: at the datum edge, where no groove crosses it.

    A break in the drawing may leave no room there; then on the other side of the break. Nor may the end of the board,
    where a narrow one comes far from the datum; then before the line.
    """
    first, last = sorted((along.x(0.0), along.x(one.face_length)))
    if (low + 6.0 + width > last) if one.datum_left else (high - 6.0 - width < first):
        before = low - 3.0 - width > first
        after = high + 3.0 + width < last
        return (high + 3.0, "start") if after or (one.datum_left and not before) else (low - 3.0, "end")
    if along.cut is not None:
        left, right = sorted((along.x(along.cut[0]), along.x(along.cut[1])))
        near = left - low if one.datum_left else high - right
        if near < width + 9.0:
            return (right + 3.0, "start") if one.datum_left else (left - 3.0, "end")
    return (low + 6.0, "start") if one.datum_left else (high - 6.0, "end")
