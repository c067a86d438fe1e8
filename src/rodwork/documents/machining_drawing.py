"""A board for a machine that reads drawings: each worked surface seen square on, one layer for each depth.

The views lie as the board would unfold, as if it were a box of card: the inside (or upper side) in the middle with
its corner at nought, the edges and ends folded out beside it, the other face folded out beyond its far edge. So
every view is seen from outside the board, and nothing is mirrored.

                 +-----------+
                 | other face|        y = W + 2 gaps + T  and up
                 +-----------+
                 | far edge  |
            +---++-----------++---+
            |end||face side  ||end|   (0, 0) is its bottom left corner: x along the board, y across it
            +---++-----------++---+
                 | face edge |
                 +-----------+

Lengths are mm, of the finished board with its edging. A depth is from the surface of the board, however deep in a
groove or a notch the mouth lies. What is bored at assembly is left out: no machine may bore it beforehand.
"""

import textwrap
from collections.abc import Callable
from dataclasses import dataclass
from functools import singledispatch
from math import asin, degrees, pi, tan
from typing import Literal

from rodwork.documents.bevels import bevel_words
from rodwork.documents.mouths import mouth
from rodwork.geometry.bevels import outline_below
from rodwork.geometry.vec import Vec, add, along, cross
from rodwork.model.feature import (
    NOT_SET_OUT,
    ArcSlot,
    Bore,
    Channel,
    Feature,
    Keyhole,
    Pocket,
    Undercut,
    through,
)
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet
from rodwork.model.slope import bevel_at, on_the_slope
from rodwork.model.surface import SURFACES, Surface, distance_from
from rodwork.model.words import cabinet_words

GAP = 40.0  # between views, mm
TEXT = 8.0  # height of a letter, mm
LONGEST_NAME = 31  # what the oldest form of the file allows a layer's name
_QUARTER_BULGE = tan(pi / 8)

Point = tuple[float, float]
Purpose = Literal["outline", "machining", "guide", "notes"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """A circle."""

    centre: Point
    radius: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Loop:
    """A closed run of lines and arcs, anticlockwise: (x, y, bulge to the next).

    Bulge is the tangent of a quarter of the arc's angle, nought for a straight line; outwards is positive.
    """

    points: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A line of text; `ends_here`: `at` is its right end."""

    at: Point
    text: str
    ends_here: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """All that is done with one cutter to one depth from one surface, or lines that only explain."""

    name: str
    purpose: Purpose
    shapes: tuple[Round | Loop | Label, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MachiningDrawing:
    """One kind of board, in layers."""

    layers: tuple[Layer, ...]


def kinds_of_board(cabinet: RodCabinet) -> tuple[tuple[Part, tuple[str, ...]], ...]:
    """Each kind of board of the cabinet with the marks of every board that is made like it."""
    kinds: dict[str, list[Part]] = {}
    for part in cabinet.parts:
        kinds.setdefault(part.same_as or part.id, []).append(part)
    return tuple((same[0], tuple(mark for part in same for mark in part.marks)) for same in kinds.values())


def machining_drawing(part: Part, marks: tuple[str, ...] | None = None) -> MachiningDrawing:
    """The drawing of one kind of board; `marks`: of all boards that are cut from it (None: the part's own).

    A bevelled end is seen square on, as wide as its slope.
    """
    words = cabinet_words(part.role, part.pose.rotation)
    machined: dict[tuple[str, Purpose], list[Round | Loop]] = {}
    worked: set[Surface] = set()
    for feature in sorted(part.features, key=_order):
        if feature.stage in NOT_SET_OUT:
            continue
        surface = feature.mouth
        worked.add(surface)
        for name, purpose, shape in _shapes(feature, part, surface, words[surface]):
            machined.setdefault((name, purpose), []).append(shape)
    layers = [
        *_outlines(part),
        *(Layer(name=n, purpose=p, shapes=tuple(s)) for (n, p), s in sorted(machined.items())),
    ]
    if guides := _guides(part, worked):
        layers.append(Layer(name="VIEW_LINES", purpose="guide", shapes=guides))
    layers.append(Layer(name="NOTES", purpose="notes", shapes=_notes(part, marks or part.marks, worked, words)))
    return MachiningDrawing(layers=tuple(layers))


def _order(feature: Feature) -> tuple[object, ...]:
    return (feature.into, feature.kind, feature.at, feature.id)


# where a point of the board comes in the drawing ---------------------------------------------------------------


def view(surface: Surface, size: Vec) -> Callable[[Vec], Point]:
    """How points of the part frame come to lie in the view of one surface."""
    L, W, T = size
    places: dict[Surface, Callable[[Vec], Point]] = {
        "face_side": lambda p: (p[0], p[1]),
        "face_edge": lambda p: (p[0], p[2] - T - GAP),
        "far_edge": lambda p: (p[0], W + GAP + T - p[2]),
        "left_end": lambda p: (p[2] - T - GAP, p[1]),
        "right_end": lambda p: (L + GAP + T - p[2], p[1]),
        "back_side": lambda p: (p[0], W + GAP + T + GAP + W - p[1]),
    }
    return places[surface]


def _placed(part: Part, surface: Surface) -> Callable[[Vec], Point]:
    """The view of one surface of a board, square on: a bevelled end shows its whole slope."""
    L, W, T = part.size
    steep = on_the_slope(part, surface, 1.0)
    flat = view(surface, (L, W, T * steep))
    return lambda p: flat((p[0], p[1], p[2] * steep))


def _loop(surface: Surface, part: Part, points: tuple[tuple[Vec, float], ...]) -> Loop:
    """Points of the part frame, each with the outward bulge to the next, as a loop, anticlockwise in its view."""
    place = _placed(part, surface)
    flat = [(*place(p), bulge) for p, bulge in points]
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(flat, (*flat[1:], flat[0]), strict=True))
    if area < 0.0:  # walked backwards, an arc belongs to what was its far point
        flat = [(flat[k][0], flat[k][1], flat[k - 1][2]) for k in range(len(flat) - 1, -1, -1)]
    return Loop(points=tuple((round(x, 6) + 0.0, round(y, 6) + 0.0, bulge) for x, y, bulge in flat))


# what is machined ----------------------------------------------------------------------------------------------


_Drawn = tuple[str, Purpose, Round | Loop]


@singledispatch
def _shapes(feature: Feature, part: Part, surface: Surface, word: str) -> list[_Drawn]:
    """What one feature draws, with the name and purpose of the layer of each."""
    raise ValueError(f"{feature.id}: no drawing yet for a {feature.kind}")


def _deep(feature: Feature, part: Part, surface: Surface) -> float:
    """How far its floor lies below the surface of the board, mm."""
    below = 0.0 if bevel_at(part, surface) else distance_from(surface, part.size, feature.at)
    return below + feature.depth


def _raw(feature: Feature) -> bool:
    return feature.stage == "before edging"


@_shapes.register
def _(bore: Bore, part: Part, surface: Surface, word: str) -> list[_Drawn]:
    x, y = _placed(part, surface)(bore.at)
    centre = (round(x, 6) + 0.0, round(y, 6) + 0.0)
    depth = None if bore.through else _deep(bore, part, surface)
    name = layer_name(word, "BORE", bore.diameter, depth, _raw(bore))
    hole: list[_Drawn] = [(name, "machining", Round(centre=centre, radius=bore.diameter / 2.0))]
    if bore.countersink is None:
        return hole
    sink = bore.countersink
    name = sink_name(word, "CSK", sink.diameter, sink.angle, _raw(bore))
    return [*hole, (name, "machining", Round(centre=centre, radius=sink.diameter / 2.0))]


@_shapes.register
def _(pocket: Pocket, part: Part, surface: Surface, word: str) -> list[_Drawn]:
    """Only where it goes in: no cutter that comes from straight above can bore it."""
    name = sink_name(word, "POCKET", pocket.diameter, degrees(asin(abs(pocket.into[2]))), _raw(pocket))
    return [(name, "guide", _mouth_loop(pocket, part, surface))]


@_shapes.register
def _(channel: Channel, part: Part, surface: Surface, word: str) -> list[_Drawn]:
    depth = None if through(channel) else _deep(channel, part, surface)
    name = layer_name(word, channel.kind.upper(), channel.width, depth, _raw(channel))
    return [(name, "machining", _channel(part, channel, surface))]


@_shapes.register
def _(slot: ArcSlot, part: Part, surface: Surface, word: str) -> list[_Drawn]:
    """Its mouth; the cutter goes in straight, to this depth at the middle."""
    name = layer_name(word, "ARC", slot.thickness, _deep(slot, part, surface), _raw(slot))
    return [(name, "machining", _mouth_loop(slot, part, surface))]


@_shapes.register
def _(slot: Undercut, part: Part, surface: Surface, word: str) -> list[_Drawn]:
    """Its mouth, named for what it is: a plain disc would not cut it."""
    name = layer_name(word, "UNDERCUT", slot.thickness, _deep(slot, part, surface), _raw(slot))
    return [(name, "machining", _mouth_loop(slot, part, surface))]


@_shapes.register
def _(keyhole: Keyhole, part: Part, surface: Surface, word: str) -> list[_Drawn]:
    """Its mouth, named for the neck; the cutter goes in at the entry bore and out there again."""
    name = layer_name(word, "KEYHOLE", keyhole.slot_width, _deep(keyhole, part, surface), _raw(keyhole))
    return [(name, "machining", _mouth_loop(keyhole, part, surface))]


def _mouth_loop(feature: Feature, part: Part, surface: Surface) -> Loop:
    return _loop(surface, part, tuple((add(feature.centre, step), 0.0) for step in mouth(feature)))


def _channel(part: Part, groove: Channel, surface: Surface) -> Loop:
    """The mouth of a channel, its round ends as arcs of the cutter's radius."""
    u, v = groove.along, cross(groove.into, groove.along)
    half_l, half_w = groove.length / 2.0, groove.width / 2.0
    radius = min(groove.end_radius, half_w)
    low, high = groove.both_ends
    corners = ((1, 1, high), (-1, 1, low), (-1, -1, low), (1, -1, high))
    points: list[tuple[Vec, float]] = []
    for a, b, end in corners:
        r = radius if end == "round" else 0.0
        on_side = along(groove.at, (u, a * (half_l - r)), (v, b * half_w))
        on_end = along(groove.at, (u, a * half_l), (v, b * (half_w - r)))
        two = (on_end, on_side) if a * b > 0 else (on_side, on_end)
        if r == 0.0:
            points.append((two[0], 0.0))
        else:
            points += [(two[0], _QUARTER_BULGE), (two[1], 0.0)]
    merged = [p for i, p in enumerate(points) if _apart(p[0], points[(i + 1) % len(points)][0])]
    return _loop(surface, part, tuple(merged))


def _apart(a: Vec, b: Vec) -> bool:
    return max(abs(a[0] - b[0]), abs(a[1] - b[1]), abs(a[2] - b[2])) > 1e-9


# the names of layers -------------------------------------------------------------------------------------------


def layer_name(word: str, kind: str, width: float, depth: float | None, raw: bool) -> str:
    """Such as INSIDE_BORE_8_DEEP_12; P stands for the decimal point, RAW for before edging, None for through.

    The oldest form of the file allows 31 letters, figures and underscores, so a long name is drawn together:
    BOTTOM_EDGE_BORE12P7_D19P05_RAW.
    """
    end = ["RAW"] if raw else []
    surface = word.upper().replace(" ", "_")
    for digits in (2, 1):
        w = _figure(width, digits)
        d = None if depth is None else _figure(depth, digits)
        deep = "THROUGH" if d is None else f"DEEP_{d}"
        short = "THRU" if d is None else f"D{d}"
        for name in (
            "_".join([surface, kind, w, deep, *end]),
            "_".join([surface, kind + w, deep.replace("_", ""), *end]),
            "_".join([surface, kind + w, short, *end]),
            "_".join([surface.replace("_", ""), kind + w, short, *end]),
        ):
            if len(name) <= LONGEST_NAME:
                return name
    return name[:LONGEST_NAME]  # wider than a metre: no cutter is


def sink_name(word: str, what: str, diameter: float, angle: float, raw: bool) -> str:
    """Such as OUTSIDE_CSK_9_AT_90: a countersink (or POCKET), its diameter, and its angle in degrees."""
    end = ["RAW"] if raw else []
    surface, degrees = word.upper().replace(" ", "_"), _figure(angle, 1)
    full = "_".join([surface, what, _figure(diameter, 2), "AT", degrees, *end])
    if len(full) <= LONGEST_NAME:
        return full
    return "_".join([surface.replace("_", ""), what + _figure(diameter, 2), degrees, *end])


def _figure(value: float, digits: int) -> str:
    return f"{round(value, digits):.{digits}f}".rstrip("0").rstrip(".").replace(".", "P")


# what explains -------------------------------------------------------------------------------------------------


def _outlines(part: Part) -> list[Layer]:
    """The board as finished, as it comes from the saw where that differs, and how far its bevels reach."""
    L, W, T = part.size

    def level(points: tuple[Point, ...]) -> Loop:
        return _loop("face_side", part, tuple(((x, y, T), 0.0) for x, y in points))

    name = f"OUTLINE_{_figure(T, 2)}_THICK"
    layers = [Layer(name=name, purpose="outline", shapes=(level(part.outline),))]
    if any(part.bevels):
        below = outline_below(part.outline, part.bevels, T)
        layers.append(Layer(name="BEVELS_REACH_OUT_TO", purpose="guide", shapes=(level(below),)))
    if max(abs(part.cut[0] - L), abs(part.cut[1] - W)) > 1e-6:
        x = _sawn(part.cut[0], L, part.edging.left_end, part.edging.right_end)
        y = _sawn(part.cut[1], W, part.edging.face_edge, part.edging.far_edge)
        corners = ((x, y), (x + part.cut[0], y), (x + part.cut[0], y + part.cut[1]), (x, y + part.cut[1]))
        layers.append(Layer(name="SAWN_SIZE", purpose="guide", shapes=(level(corners),)))
    return layers


def _sawn(cut: float, size: float, first: float, second: float) -> float:
    """Where the sawn board begins, from the finished edge: what the edging adds there, less what is milled off."""
    edged = (first > 0.0) + (second > 0.0)
    milled = (cut - size + first + second) / edged if edged else 0.0
    if not edged:  # a lipping, sawn over size all round
        return (size - cut) / 2
    return first - milled if first > 0.0 else 0.0


def _guides(part: Part, worked: set[Surface]) -> tuple[Loop, ...]:
    """The surface itself in each view but the first, to place the machining by."""
    L, W, T = part.size
    below = outline_below(part.outline, part.bevels, T)
    boxes: dict[Surface, tuple[Vec, ...]] = {
        "face_edge": ((0.0, 0.0, 0.0), (L, 0.0, 0.0), (L, 0.0, T), (0.0, 0.0, T)),
        "far_edge": ((0.0, W, 0.0), (L, W, 0.0), (L, W, T), (0.0, W, T)),
        "left_end": ((0.0, 0.0, 0.0), (0.0, W, 0.0), (0.0, W, T), (0.0, 0.0, T)),
        "right_end": ((L, 0.0, 0.0), (L, W, 0.0), (L, W, T), (L, 0.0, T)),
        "back_side": tuple((x, y, 0.0) for x, y in below),
    }
    seen = (s for s in SURFACES if s in worked and s in boxes)
    return tuple(_loop(s, part, tuple((p, 0.0) for p in boxes[s])) for s in seen)


def _notes(part: Part, marks: tuple[str, ...], worked: set[Surface], words: dict[Surface, str]) -> tuple[Label, ...]:
    L, W, T = part.size
    under = -TEXT - 4.0
    labels = [Label(at=(0.0, under), text=words["face_side"].upper())]
    places: dict[Surface, tuple[Point, str]] = {
        "face_edge": ((0.0, -GAP - T + under), ""),
        "far_edge": ((0.0, W + GAP + under), ""),
        "left_end": ((-GAP, under), ""),
        "right_end": ((L + GAP, under), ""),
        "back_side": ((0.0, W + GAP + T + GAP + under), f" (turned over its {words['far_edge']})"),
    }
    for surface in SURFACES:
        if surface in worked and surface in places:
            at, more = places[surface]
            text = words[surface].upper() + more
            labels.append(Label(at=at, text=text, ends_here=surface == "left_end"))
    top = -GAP - T - GAP if "face_edge" in worked else -GAP
    for n, text in enumerate(_about(part, marks, words)):
        labels.append(Label(at=(0.0, top - n * 1.6 * TEXT), text=text))
    return tuple(labels)


def _about(part: Part, marks: tuple[str, ...], words: dict[Surface, str]) -> list[str]:
    """What the board is, how it lies here, and how to read the layers."""
    L, W, T = part.size
    sawn = f", sawn {part.cut[0]:g} x {part.cut[1]:g} before edging" if part.cut != (L, W) else ""
    grain = ", grain from left to right" if part.grain else ""
    lines = [
        f"{', '.join(marks)}: {part.name}, {len(marks)} off",
        f"{part.material}{grain}",
        f"Finished {L:g} x {W:g} x {T:g} mm{sawn}",
        f"{words['face_side'].capitalize()} up, {words['face_edge']} at the foot, {words['left_end']} to the left",
        "All in mm, of the finished board. Depths are from the surface, to full diameter.",
        "P in the name of a layer is the decimal point.",
    ]
    lines += [f"{text}." for text in bevel_words(part)]
    if any(f.stage == "before edging" for f in part.features):
        lines.append("RAW in the name of a layer: machined before edging, in the board as sawn.")
    if any(f.stage == "in place" for f in part.features):
        lines.append("Bores made at assembly are not in this file.")
    if any(f.stage == "as bought" for f in part.features):
        lines.append("Bores that are there as it is bought are not in this file.")
    return [short for text in lines for short in textwrap.wrap(text, 80, break_on_hyphens=False)]
