"""A groove, housing or rebate cut through: there is one half only, the other board itself goes in.

The board that is worked lies face up; the wall that is set from the fence or the line is heavy.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from rodwork.documents.annotate import capital, figure, listed, plain_name, setting, several
from rodwork.documents.drawing import (
    FOLD,
    HEAVY,
    LINE,
    NO_PEN,
    THIN,
    Path_,
    Pen,
    Shape,
    Text,
    line,
    text_width,
    wrapped,
)
from rodwork.documents.joint_kinds import Opened, unique
from rodwork.documents.machined import Work, cabinet_marks, marks_words, words_of
from rodwork.documents.page import Area
from rodwork.model.panel import Part

BIG = 14.0
AIR = 20.0  # mm of either board that is shown beyond the joint
WALL = Pen(width=0.9)


@dataclass(frozen=True, slots=True)
class Section:
    """From millimetres across the joint to the page: v from the edge or line, z up from the worked face."""

    left: float
    face: float
    scale: float
    low: float

    def x(self, v: float) -> float:
        """Where a distance from the edge or the line comes."""
        return self.left + (v - self.low) * self.scale

    def y(self, z: float) -> float:
        """Where a height above the worked face comes."""
        return self.face + z * self.scale


def channel_shapes(one: Opened, area: Area) -> tuple[Shape, ...]:
    """The joint cut through, large, with what is set; at its right how the channel runs."""
    (work,) = one.on_face[:1]
    v0, v1 = one.face_uv(work)[1]
    low = -AIR if one.has_line else 0.0
    thick, depth = one.face_board.size[2], work.feature.depth
    room_x, room_y = 0.42 * area.width, area.height - 37.0
    scale = min(room_x / (v1 + AIR - low), room_y / (thick + AIR), 2.2)
    s = Section(area.left + 44.0, area.bottom + 20.0 + thick * scale, scale, low)
    end_thick = one.end_board.size[2]
    at = v0 if one.has_line else v0 + (v1 - v0 - end_thick) / 2
    bottom = -min(max((m.mm for f in one.joint.fixings for m in f.motion), default=depth), depth)
    if one.tongue:
        at = 0.0  # both are set from the flush face
    if v0 < 0.005:
        bottom, at = -depth, v1 - end_thick  # a rebate: the board lies in it against its shoulder
    shapes: list[Shape] = [
        *_face_board(one, s, v0, v1, depth, low),
        *_end_board(one, s, at, bottom),
        *_across(one, s, work, v0, v1),
        *_depth(s, v1, depth, thick),
    ]
    return (*shapes, *_words(one, work, s, area))


def _face_board(one: Opened, s: Section, v0: float, v1: float, depth: float, low: float) -> list[Shape]:
    thick = one.face_board.size[2]
    high = v1 + AIR
    cut = [(low, 0.0), (v0, 0.0), (v0, -depth), (v1, -depth), (v1, 0.0), (high, 0.0), (high, -thick), (low, -thick)]
    points = [p for n, p in enumerate(cut) if n == 0 or p != cut[n - 1]]
    shapes: list[Shape] = [
        Path_(points=tuple((s.x(v), s.y(z)) for v, z in points), closed=True, pen=NO_PEN, fill="light")
    ]
    top = [(s.x(v), s.y(z)) for v, z in cut[:6]]
    shapes.append(Path_(points=tuple(top), pen=LINE))
    shapes.append(line((s.x(low), s.y(-thick)), (s.x(high), s.y(-thick))))
    shapes.append(_jagged(s.x(high), s.y(-thick), s.y(0.0)))
    if one.has_line:
        shapes.append(_jagged(s.x(low), s.y(-thick), s.y(0.0)))
    else:
        shapes.append(line((s.x(0.0), s.y(-thick)), (s.x(0.0), s.y(0.0 if v0 > 0 else -depth)), HEAVY))
    wall = v0 if v0 > 0.005 or one.has_line else v1
    shapes.append(line((s.x(wall), s.y(-depth)), (s.x(wall), s.y(0.0)), WALL))
    return shapes


def _end_board(one: Opened, s: Section, at: float, bottom: float) -> list[Shape]:
    thick = one.end_board.size[2]
    x0, x1, top = s.x(at), s.x(at + thick), s.y(AIR * 0.75)
    foot = [(x0, s.y(bottom))]
    if one.tongue:
        shoulder = s.x(at + one.tongue[0].feature.depth)
        foot = [(x0, s.y(0.0)), (shoulder, s.y(0.0)), (shoulder, s.y(bottom))]
    return [
        Path_(points=((x0, top), *foot, (x1, s.y(bottom)), (x1, top)), pen=LINE, fill="white"),
        Path_(points=tuple((x0 + (x1 - x0) * n / 4, top + (0.7 if n % 2 else -0.7)) for n in range(5)), pen=THIN),
    ]


def _jagged(x: float, y0: float, y1: float) -> Path_:
    return Path_(points=tuple((x + (0.7 if n % 2 else -0.7), y0 + (y1 - y0) * n / 6) for n in range(7)), pen=THIN)


def _across(one: Opened, s: Section, work: Work, v0: float, v1: float) -> list[Shape]:
    """Below: how far from the edge or the line, and how wide."""
    thick = one.face_board.size[2]
    y = s.y(-thick) - 9.5
    reach = s.y(-thick) - 1.0
    width = f"{setting(v1 - v0)} wide"
    shapes: list[Shape] = []
    marks = sorted({0.0, v0, v1})
    shapes += [line((s.x(v), y + 6.5), (s.x(v), reach), THIN) for v in marks]
    shapes.append(line((s.x(marks[0]), y + 8.0), (s.x(marks[-1]), y + 8.0), THIN))
    if v0 > 0.005:
        shapes.append(_number((s.x(0.0) + s.x(v0)) / 2, y - 3.4, setting(v0), s))
        shapes.append(Text(at=(s.x(v1) + 3.0, y - 3.4), text=width, size=6.0, bold=True))
    else:
        shapes.append(_number((s.x(0.0) + s.x(v1)) / 2, y - 3.4, setting(v1), s))
    if one.has_line:
        x = s.x(0.0)
        shapes += [line((x, s.y(-thick) - 1.0), (x, s.y(0.0) + 9.0), FOLD)]
        shapes.append(Text(at=(s.x(v1) + 2.0, s.y(0.0) + 2.0), text="X", size=7.0, bold=True))
    return shapes


def _number(x: float, y: float, text: str, s: Section) -> Text:
    return Text(at=(x, y), text=text, size=BIG, bold=True, anchor="middle")


def _depth(s: Section, v1: float, depth: float, thick: float) -> list[Shape]:
    """At the right: how deep, large, and what is left under it."""
    x = s.x(v1 + AIR) + 5.0
    middle = (s.y(0.0) + s.y(-depth)) / 2
    deep = figure(depth)
    return [
        line((x - 3.5, s.y(0.0)), (x + 1.0, s.y(0.0)), THIN),
        line((x - 3.5, s.y(-depth)), (x + 1.0, s.y(-depth)), THIN),
        Text(at=(x + 3.0, middle - 0.32 * BIG), text=deep, size=BIG, bold=True),
        Text(at=(x + 4.5 + text_width(deep, BIG, True), middle - 0.32 * BIG), text="deep", size=4.0),
        Text(
            at=(x + 3.0, middle - 0.32 * BIG - 4.4), text=f"leaves {figure(round(thick - depth, 2))} under it", size=3.3
        ),
    ]


def _words(one: Opened, work: Work, s: Section, area: Area) -> list[Shape]:
    """Names of both boards, what is measured from where, and how the channel runs along each board."""
    face_words = words_of(one.face_board)
    register = one.joint.contact.host_register
    datum = face_words[register.across_from]
    shapes: list[Shape] = []
    if one.has_line:
        shapes += [
            Text(
                at=(s.x(0.0) - 2.5, s.y(0.0) + 7.0), text=f"line {figure(one.line)}", size=6.0, bold=True, anchor="end"
            ),
            Text(at=(s.x(0.0) - 2.5, s.y(0.0) + 2.6), text=f"from the {capital(datum)}", size=3.5, anchor="end"),
        ]
    else:
        y = s.y(-one.face_board.size[2] / 2) + 1.5
        for n, text in enumerate(capital(datum).split()):
            shapes.append(Text(at=(s.x(0.0) - 3.0, y - 4.6 * n), text=text, size=5.0, bold=True, anchor="end"))
    told = text_width(figure(work.feature.depth), BIG, True) + text_width("deep", 4.0)
    x = s.x(one.face_uv(work)[1][1] + AIR) + max(44.0, told + 14.0)  # clear of the depth beside the drawing
    width = area.right - x
    rows: list[tuple[str, float, bool]] = [
        (f"{one.face_board.name.upper()}, {face_words[work.bears]} up", 4.6, True),
        (
            f"{one.end_board.name} goes in with its {words_of(one.end_board)[one.joint.contact.guest_register.bears]}",
            3.8,
            False,
        ),
        *((text, 3.8, False) for text in _runs(one)),
        *_tongue_rows(one),
    ]
    y = area.top - 8.0
    for text, size, bold in rows:
        for piece in wrapped(text, size, width, bold):
            shapes.append(Text(at=(x, y), text=piece, size=size, bold=bold))
            y -= 1.25 * size
        y -= 1.5
    return shapes


def _tongue_rows(one: Opened) -> list[tuple[str, float, bool]]:
    """What is cut off the end board to leave its tongue."""
    rows: list[tuple[str, float, bool]] = []
    words = words_of(one.end_board)
    for w in one.tongue[:1]:
        rows.append((f"{one.end_board.name.upper()}, {words[w.bears]} up", 4.6, True))
        long = figure(w.across.end_mm or w.across.mm)
        rows.append((f"rebate {figure(w.feature.depth)} deep, {long} from the {capital(w.across.word)}", 4.6, True))
        left = one.end_board.size[2] - w.feature.depth
        rows.append((f"leaves a tongue of {figure(round(left, 2))}: measure it before you cut the groove", 3.8, False))
    return rows


MOST_RUNS = 6  # that are told beside the drawing


def _runs(one: Opened) -> list[str]:
    """From where to where the channel runs, once for the boards it is the same on."""
    found: dict[str, list[Part]] = {}
    for o in one.all:
        for w in o.on_face:
            if w.groove is not None:
                found.setdefault(_run(w), []).append(o.face_board)
    boards = [part for parts in found.values() for part in parts]
    out = [f"{_boards(parts, boards)}: {text}" for text, parts in found.items()]
    if len(out) > MOST_RUNS:
        out = [*out[:MOST_RUNS], "the rest on their boards' sheets"]
    cutters = {w.setup.cutter for w in one.on_face if w.setup.cutter}
    return [*out, f"cutter: {listed(sorted(cutters))}"] if cutters else out


def _run(w: Work) -> str:
    """From where to where one channel runs: "8.6 to 711.4 from the BOTTOM end, stopped round"."""
    if w.runs_through(w.along):
        text = "from edge to edge"
    else:
        ends = {"round": "stopped round", "square": "stopped square"}
        stops = sorted({ends[e] for e in w.groove.both_ends if e in ends}) if w.groove else []
        text = f"{figure(w.along.mm)} to {figure(w.along.end_mm or 0.0)} from the {capital(w.along.word)}"
        text += f", {listed(stops)}" if stops else ""
    return f"{text}, before edging: from the raw edge" if w.feature.stage == "before edging" else text


def _boards(parts: Sequence[Part], among: Sequence[Part]) -> str:
    """Boards by name, and of which cabinets where there are several among them: "top and bottom of G1 and G2".

    Boards of one kind are told as one where all of the cabinet are meant: "drawer left sides of D1".
    """
    of: dict[str, list[str]] = {}
    for copies in unique([cabinet_marks(part) for part in parts]):
        names = [p.name for p in parts if cabinet_marks(p) == copies]
        others = {p.name for p in among if cabinet_marks(p) == copies} - set(names)
        of.setdefault(listed(_kinds(unique(names), others)), []).extend(copies)
    if len({cabinet_marks(part) for part in among}) == 1:
        return next(iter(of))
    return "; ".join(f"{names} of {marks_words(copies)}" for names, copies in of.items())


def _kinds(names: Sequence[str], others: Collection[str]) -> list[str]:
    """Names, those of one kind as one, unless there are others of that kind."""
    kinds: dict[str, list[str]] = {}
    for name in names:
        kinds.setdefault(plain_name(name), []).append(name)
    told: list[str] = []
    for kind, mine in kinds.items():
        whole = len(mine) > 1 and kind not in {plain_name(name) for name in others}
        told += [several(kind)] if whole else mine
    return told
