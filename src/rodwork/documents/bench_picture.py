"""How a board lies while one half of a joint is made: what is up, where the fence is, which way the cutter goes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import cos, radians, sin, tan

from rodwork.documents.annotate import arrow, capital, figure, hatched, setting
from rodwork.documents.drawing import LINE, THIN, Path_, Pen, Shape, Text, box, line, text_width, wrapped
from rodwork.documents.machined import Work, words_of
from rodwork.model.feature import Pocket, Rebate
from rodwork.model.machining import LAID_ON_LINE, OWN_BASE
from rodwork.model.slope import bevel_at
from rodwork.model.surface import OPPOSITE, Surface

BENCH = Pen(width=0.6)
CUTTER = Pen(width=0.9)
THICK = 12.0  # of a board as it is drawn here, mm
NARROW = 85.0  # of the room for one picture, where three stand side by side
HEIGHT = 45.0  # of a whole picture with its caption, mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """One board as it lies for one or more settings; `fence_stays`: settings whose fence is there already."""

    name: str
    works: tuple[Work, ...]
    fence_stays: frozenset[str]
    line: float | None

    @property
    def by_setup(self) -> list[list[Work]]:
        """Its works, setting by setting."""
        found: dict[str, list[Work]] = {}
        for w in self.works:
            found.setdefault(w.setup.id, []).append(w)
        return list(found.values())

    @property
    def first(self) -> Work:
        """One of its bores."""
        return self.works[0]


def picture(lie: Lie, x: float, top: float, width: float) -> tuple[Shape, ...]:
    """The picture with its caption below, from its top left corner."""
    return (*_drawn(lie)(lie, x, top, width), *_caption(lie, x, top - 35.6, width))


def _drawn(lie: Lie) -> Callable[[Lie, float, float, float], tuple[Shape, ...]]:
    """Which picture it is: by what stands on what, and where the tool comes in."""
    on_face = lie.first.bears in ("face_side", "back_side")
    if lie.first.setup.stands_on == LAID_ON_LINE:
        return _upright
    if lie.first.setup.stands_on == OWN_BASE:
        return _beside_end if on_face else _on_base
    if isinstance(lie.first.feature, Pocket):
        return _in_jig
    return _on_face if on_face else _on_slope if lie.first.setup.tilt else _on_end


def _caption(lie: Lie, x: float, y: float, width: float) -> list[Shape]:
    """A line for each setting: fence, depth, stop: what is set, in bold."""
    shapes: list[Shape] = []
    groups = lie.by_setup
    for works in groups:
        size = 4.6 if len(groups) == 1 else 3.9
        text = _caption_text(lie, works, name_them=len(groups) > 1)
        while size > 3.0 and len(wrapped(text, size, width, True)) > 1:
            size -= 0.2
        for row in wrapped(text, size, width, True)[:2]:
            shapes.append(Text(at=(x, y), text=row, size=size, bold=True))
            y -= 1.2 * size
    return shapes


def _caption_text(lie: Lie, works: Sequence[Work], name_them: bool) -> str:
    s = works[0].setup
    words = [s.id]
    if s.fence is not None:
        by = "base" if s.stands_on in (OWN_BASE, LAID_ON_LINE) else "fence"
        words.append(f"{by} {setting(s.fence.mm)}{' (as it is)' if s.id in lie.fence_stays else ''}")
    words.append("right through" if works[0].right_through else f"depth {figure(s.depth or 0.0)}")
    if name_them:
        words.append(f"{works[0].thing} {works[0].size_words}")
    elif s.stop and s.stop != "marks":
        words.append(f"{works[0].along.word} to the stop")
    elif s.stop == "marks":
        words.append("to pencil marks")
    return ", ".join(words)


def _on_end(lie: Lie, x: float, top: float, width: float) -> tuple[Shape, ...]:
    """The board flat on the bench, the face it registers on up, the fence on it; the cutter goes in level."""
    bench, thick = top - 30.0, 12.0
    right = x + min(width - 8.0, 74.0)
    end = right - 28.0
    words = words_of(lie.first.part)
    up = words[lie.first.across.from_surface]
    name = f"{lie.name}, {up} up"
    shapes: list[Shape] = [
        line((x, bench), (right, bench), BENCH),
        box(x + 2.0, bench, end - x - 2.0, thick, LINE, "white"),
        *_label(name, x + 4.5, bench + 0.5 * thick - 1.2, end - x - 8.7),
        *hatched(end - 20.0, bench + thick, 20.0, 5.0),
        box(end, bench + 0.8, 4.0, thick + 4.2, THIN, "light"),
        *arrow((right + 2.0, bench + 0.5 * thick), (end - 3.0, bench + 0.5 * thick), CUTTER, 3.4),
    ]
    label = f"fence on the {capital(up)}"
    shapes.append(
        Text(
            at=(min(end - 20.0, right - text_width(label, 4.0, True)), bench + thick + 7.0),
            text=label,
            size=4.0,
            bold=True,
        )
    )
    return tuple(shapes)


def _on_slope(lie: Lie, x: float, top: float, width: float) -> tuple[Shape, ...]:
    """The board flat, the face it registers on up, the tilted fence on it; the cutter square to the slope."""
    bench, lean = top - 24.0, radians(lie.first.setup.tilt or 0.0)
    end = x + min(width - 36.0, 46.0)
    up = lie.first.across.from_surface
    long_up = (bevel_at(lie.first.part, lie.first.bears) > 0) == (up == "back_side")
    run = THICK * tan(lean) * (1.0 if long_up else -1.0)
    head, foot = (end, bench + THICK), (end - run, bench)
    corners = ((x + 2.0, bench), foot, head, (x + 2.0, bench + THICK))
    way = (cos(lean), -sin(lean) if long_up else sin(lean))  # out of the slope
    middle = ((head[0] + foot[0]) / 2, (head[1] + foot[1]) / 2)
    tip = (middle[0] - 3.0 * way[0], middle[1] - 3.0 * way[1])
    tail = (middle[0] + 17.0 * way[0], middle[1] + 17.0 * way[1])
    base = [(p[0] + way[0] * d, p[1] + way[1] * d) for p, d in ((head, 0.3), (foot, 0.3), (foot, 4.0), (head, 4.0))]
    words = words_of(lie.first.part)
    tilt = f"{figure(round(lie.first.setup.tilt or 0.0, 1))} degrees"
    return (
        line((x, bench), (end - 26.0, bench), BENCH),
        Path_(points=corners, closed=True, pen=LINE, fill="white"),
        *_label(f"{lie.name}, {words[up]} up", x + 4.5, bench + 0.5 * THICK - 1.2, end - x - 4.0 - abs(run)),
        *hatched(end - 20.0, bench + THICK, 20.0, 4.0),
        Path_(points=tuple(base), closed=True, pen=THIN, fill="light"),
        *arrow(tail, tip, CUTTER, 3.4),
        *_says(
            end + 8.0 if long_up else tail[0] + 2.0,
            bench + THICK + 3.0,
            f"fence at {tilt},",
            f"on the {capital(words[up])}",
        ),
    )


def _on_face(lie: Lie, x: float, top: float, width: float) -> tuple[Shape, ...]:
    """The board flat, the worked face up; the fence on its end or edge, or a batten on the line."""
    bench, thick = top - 30.0, 12.0
    w = lie.first
    words = words_of(w.part)
    narrow = width < NARROW
    long = min(width - (16.0 if narrow else 43.0), 62.0)
    left, right = x + 2.0, x + 2.0 + long
    name = f"{lie.name}, {words[w.bears]} up"
    shapes: list[Shape] = [
        line((x, bench), (right + 12.0, bench), BENCH),
        box(left, bench, long, thick, LINE, "white"),
        *_label(name, left + 2.5, bench + 0.5 * thick - 1.2, long - 22.0),
    ]
    head, down = bench + thick, 15.0
    cut = right - 12.0
    if lie.line is not None:
        cut = right - 10.0
        shapes += [
            *hatched(cut - 12.0, head, 8.0, 5.0),
            Text(at=(cut + 3.4, head + 0.9), text="X", size=4.6, bold=True),
        ]
        label = ("batten on the LINE", "X side of it")
        shapes.append(line((cut - 4.0, head), (cut - 4.0, head - 3.0), THIN))
    else:
        shapes += hatched(right, head - 9.0, 5.0, 13.0)
        label = ("fence on the", capital(w.across.word).replace(" end", " END").replace(" edge", " EDGE"))
    if isinstance(w.feature, Rebate) and lie.line is None:
        cut = right - 2.5  # a step along the edge that the fence is on
        shapes.append(box(right - 5.0, head - 4.0, 5.0, 4.0, THIN, "light"))
    elif w.groove is not None:
        shapes.append(box(cut - 1.5, head - 4.0, 3.0, 4.0, THIN, "light"))
    depth = thick if w.right_through else 4.5
    shapes += arrow((cut, head + down - 2.0), (cut, head - depth + 0.5), CUTTER, 3.4)
    return (*shapes, *(_says_over(x, head + 3.0, *label) if narrow else _says(right + 7.0, head - 1.0, *label)))


def _board(lie: Lie, x: float, y: float, width: float, up: Surface, clear: float = 2.5) -> list[Shape]:
    """The board flat, named, with the face that is up; `clear`: what the name keeps free at the right."""
    name = f"{lie.name}, {words_of(lie.first.part)[up]} up"
    return [box(x, y, width, THICK, LINE, "white"), *_label(name, x + 2.5, y + 0.5 * THICK - 1.2, width - 2.5 - clear)]


def _machine(x: float, y: float, on_top: bool) -> list[Shape]:
    """A hand machine, its own base down (or, upright, against what stands at its left)."""
    if on_top:
        return [box(x, y, 20.0, 2.0, THIN, "light"), box(x + 5.0, y + 2.0, 15.0, 10.0, THIN, "white")]
    return [box(x, y, 2.0, 18.0, THIN, "light"), box(x + 2.0, y + 4.0, 8.0, 14.0, THIN, "white")]


def _says(x: float, y: float, *rows: str) -> list[Shape]:
    return [Text(at=(x, y - 4.8 * n), text=row, size=4.0, bold=True) for n, row in enumerate(rows)]


def _says_over(x: float, y: float, *rows: str) -> list[Shape]:
    """The same over the board, the last row at `y`, where there is no room beside it."""
    return [Text(at=(x, y + 3.9 * n), text=row, size=3.2, bold=True) for n, row in enumerate(rows[::-1])]


def _on_base(lie: Lie, x: float, top: float, width: float) -> tuple[Shape, ...]:
    """The board with its registering face down on a flat; the machine on the same flat, level into its end."""
    bench, narrow = top - 30.0, width < NARROW
    end = x + min(width - (34.0 if narrow else 44.0), 46.0)
    words = ("its base on the", "bench or the other board")
    said = _says_over(x, bench + THICK + 4.0, *words) if narrow else _says(end + 2.0, bench + THICK + 8.0, *words)
    down = lie.first.across.from_surface
    return (
        line((x, bench), (end + 34.0, bench), BENCH),
        *_board(lie, x + 2.0, bench, end - x - 2.0, OPPOSITE[down], clear=6.5),
        *_machine(end + 4.0, bench + 0.5, on_top=True),
        *arrow((end + 18.0, bench + 0.5 * THICK), (end - 4.0, bench + 0.5 * THICK), CUTTER, 3.4),
        *said,
    )


def _beside_end(lie: Lie, x: float, top: float, width: float) -> tuple[Shape, ...]:
    """The board flat, another clamped flush with its end; the machine upright, its base against both."""
    bench, narrow = top - 30.0, width < NARROW
    end = x + min(width - (26.0 if narrow else 44.0), 46.0)
    word = capital(lie.first.across.word)
    words = ("a board clamped flush", f"with the {word}:", "its base against that")
    said = _says_over(x, bench + THICK + 3.0, *words) if narrow else _says(end + 7.0, bench + THICK + 6.0, *words)
    return (
        line((x, bench), (end + 24.0, bench), BENCH),
        *_board(lie, x + 2.0, bench, end - x - 2.0, lie.first.bears, clear=11.0),
        box(end, bench, 5.0, THICK + 12.0, THIN, "light"),
        *arrow((end - 9.0, bench + THICK + 14.0), (end - 9.0, bench + THICK - 5.0), CUTTER, 3.4),
        *said,
    )


def _upright(lie: Lie, x: float, top: float, width: float) -> tuple[Shape, ...]:
    """The other board lying on this one, its end on the line; the machine upright against that end."""
    narrow = width < NARROW  # then the words stand over the other board, smaller
    bench, long = top - 30.0, min(width - (3.0 if narrow else 56.0), 62.0)
    at = x + 0.58 * long
    words, said_at = ("the other board lies", "with its end on the LINE,", "its base against that"), bench + THICK + 6.0
    said = _says_over(x, said_at, *words) if narrow else _says(x + long + 6.0, said_at, *words)
    return (
        line((x, bench), (x + long + (3.0 if narrow else 10.0), bench), BENCH),
        *_board(lie, x + 2.0, bench, long, lie.first.bears, clear=x + long - at + 2.0),
        box(x + 2.0, bench + THICK, at - x - 2.0, 5.0, THIN, "light"),
        *_machine(at, bench + THICK + 0.3, on_top=False),
        *arrow((at + 5.0, bench + THICK + 17.0), (at + 5.0, bench + THICK - 5.0), CUTTER, 3.4),
        Text(at=(at + 13.0, bench + THICK + 0.9), text="X", size=4.6, bold=True),
        *said,
    )


def _in_jig(lie: Lie, x: float, top: float, width: float) -> tuple[Shape, ...]:
    """The board flat, the jig clamped on it with its stop at the end; the bit goes in askew."""
    bench, narrow = top - 30.0, width < NARROW
    end = x + min(width - (8.0 if narrow else 58.0), 56.0)
    words = ("jig set to the board,", f"its stop at the {capital(lie.first.across.word)}")
    said = _says_over(x, bench + THICK + 12.0, *words) if narrow else _says(end + 7.0, bench + THICK + 4.0, *words)
    jig = ((end + 3.0, bench + THICK + 11.0), (end - 22.0, bench + THICK + 11.0), (end - 26.0, bench + THICK),
           (end, bench + THICK), (end, bench + 3.0), (end + 3.0, bench + 3.0))  # fmt: skip
    return (
        line((x, bench), (end + (3.0 if narrow else 12.0), bench), BENCH),
        *_board(lie, x + 2.0, bench, end - x - 2.0, lie.first.bears, clear=26.0),
        Path_(points=jig, closed=True, pen=THIN, fill="light"),
        *arrow((end - 44.0, bench + THICK + 9.0), (end - 6.0, bench + 5.0), CUTTER, 3.4),
        *said,
    )


def _label(text: str, x: float, y: float, width: float) -> Sequence[Shape]:
    """A name inside a board: one line, or two where it is long."""
    size = 3.8
    rows = wrapped(text, size, width)
    while size > 2.6 and (len(rows) > 2 or any(text_width(row, size) > width for row in rows)):
        size -= 0.2
        rows = wrapped(text, size, width)
    lift = 0.6 * size * (len(rows) - 1)
    return [Text(at=(x, y + lift - 1.2 * size * n), text=row, size=size) for n, row in enumerate(rows[:2])]
