"""A board standing in its cabinet: the proof's own surfaces, words, points and raw edges.

part frame: x along the length, y across the width, z up through the thickness
cabinet:    x to the right, y to the back, z up
"""

from collections.abc import Sequence
from math import radians, tan
from typing import NamedTuple

from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet
from rodwork.model.surface import Surface

Point = tuple[float, float, float]


class Way(NamedTuple):
    """A direction along an axis: 0, 1 or 2, and +1 or -1."""

    axis: int
    sign: int


# The axis of the board that each surface is square to, and whether it lies at the full size of it.
LIES: dict[str, tuple[int, bool]] = {
    "left_end": (0, False), "right_end": (0, True), "face_edge": (1, False), "far_edge": (1, True),
    "back_side": (2, False), "face_side": (2, True),
}  # fmt: skip
AT: dict[tuple[int, bool], Surface] = {
    (0, False): "left_end", (0, True): "right_end", (1, False): "face_edge", (1, True): "far_edge",
    (2, False): "back_side", (2, True): "face_side",
}  # fmt: skip
ENDS_AND_EDGES: tuple[Surface, ...] = ("left_end", "right_end", "face_edge", "far_edge")
NAMED = (("left", "right"), ("front", "back"), ("bottom", "top"))
_FACES = (("left face", "right face"), ("front face", "back face"), ("underside", "upper side"))
_OF_A_STRIP = (("either end", "other end"), ("other edge", "either edge"), ("glued face", "seen face"))
_LOOKS_OUT_UP = {"top": True, "bottom": False, "door": False, "drawer front": False, "drawer back": True}


class Stand:
    """A board with the way it stands. `low` and `high` are its box in the cabinet."""

    __slots__ = (
        "columns", "high", "inset", "low", "named", "on_right", "origin", "part", "size", "slope", "toward", "word",
    )  # fmt: skip

    def __init__(self, part: Part, cabinet: RodCabinet) -> None:
        r = part.pose.rotation
        self.part = part
        self.size = part.size
        self.origin = part.pose.origin
        self.columns = ((r[0][0], r[1][0], r[2][0]), (r[0][1], r[1][1], r[2][1]), (r[0][2], r[1][2], r[2][2]))
        self.slope = _slopes(part)
        self.low, self.high = self._box()
        self.on_right = self.low[0] + self.high[0] > cabinet.size[0]
        self.toward: dict[str, Way] = {}  # of the surfaces that are square to an axis of the cabinet
        self.named: dict[str, Way] = {}  # of all of them, one on a slope as if it lay level
        self.word: dict[str, str] = {}
        hand = self.on_right if part.role != "drawer side" else self.columns[2][0] < 0
        for surface, (axis, far) in LIES.items():
            way = along_axis(self.columns[axis])
            named = way or self._as_if_level(axis)
            self.named[surface] = Way(named.axis, named.sign if far else -named.sign)
            self.word[surface] = (
                _OF_A_STRIP[axis][far] if part.role == "lipping" else _word(part.role, axis, self.named[surface], hand)
            )
            if way is not None:
                self.toward[surface] = self.named[surface]
        self.inset = _inset(part)

    def _as_if_level(self, axis: int) -> Way:
        """Which way an axis of a board that lies on a slope would run if it were tipped level: the names go by it."""
        x, y, z = self.columns[axis]
        if axis == 2:
            return Way(2, 1 if z > 0 else -1)
        return Way(0, 1 if x > 0 else -1) if abs(x) > abs(y) else Way(1, 1 if y > 0 else -1)

    def _box(self) -> tuple[Point, Point]:
        """The least and the greatest of every axis of the cabinet that a corner of its two faces has."""
        corners = [(0.0, 0.0, 0.0), self.size]
        if any(self.part.bevels) or any(along_axis(c) is None for c in self.columns):
            corners = [(x, y, z) for z in (0.0, self.size[2]) for x, y in outline_at(self.part, z)]
        at = [self.in_cabinet(c) for c in corners]
        low, high = ([f(p[i] for p in at) for i in range(3)] for f in (min, max))
        return (low[0], low[1], low[2]), (high[0], high[1], high[2])

    def looks(self, surface: str) -> Point:
        """Unit vector out of a surface, square to it, in the cabinet."""
        axis, far = LIES[surface]
        out = [0.0, 0.0, 0.0]
        out[axis] = 1.0 if far else -1.0
        lean = self.slope.get(surface, 0.0)
        out[2] += lean  # the back side reaches further out by so much for each mm of thickness
        long = (1.0 + lean * lean) ** 0.5
        return self.way_in_cabinet((out[0] / long, out[1] / long, out[2] / long))

    def on_slope(self, surface: str, face: str, run: float) -> Point | None:
        """Where on a bevelled end one comes to, `run` along it from its arris with a face: axes of the board.

        The coordinate along that arris is left at nought. None where the surface is square.
        """
        lean = self.slope.get(surface, 0.0)
        if not lean or LIES[face][0] != 2:
            return None
        rise = run / (1.0 + lean * lean) ** 0.5
        z = self.size[2] - rise if LIES[face][1] else rise
        axis, far = LIES[surface]
        at = [0.0, 0.0, z]
        inside = lean * z if lean > 0 else -lean * (self.size[2] - z)
        at[axis] = self.size[axis] - inside if far else inside
        return (at[0], at[1], at[2])

    def in_cabinet(self, p: Point) -> Point:
        """A point of the board, in the cabinet."""
        (a, d, g), (b, e, h), (c, f, i) = self.columns
        x, y, z = p
        o = self.origin
        return (a * x + b * y + c * z + o[0], d * x + e * y + f * z + o[1], g * x + h * y + i * z + o[2])

    def way_in_cabinet(self, d: Point) -> Point:
        """A direction of the board, in the cabinet."""
        (a, d1, g), (b, e, h), (c, f, i) = self.columns
        x, y, z = d
        return (a * x + b * y + c * z, d1 * x + e * y + f * z, g * x + h * y + i * z)

    def on_board(self, p: Point) -> Point:
        """A point of the cabinet, on the board."""
        x, y, z = p[0] - self.origin[0], p[1] - self.origin[1], p[2] - self.origin[2]
        (a, d, g), (b, e, h), (c, f, i) = self.columns
        return (a * x + d * y + g * z, b * x + e * y + h * z, c * x + f * y + i * z)

    def coordinate(self, surface: str, mm: float, raw: bool) -> float:
        """The coordinate at which a rule put against this surface reads `mm`; `raw`: before it was edged."""
        axis, far = LIES[surface]
        inset = self.inset.get(surface, 0.0) if raw else 0.0
        return self.size[axis] - inset - mm if far else inset + mm

    def plane(self, surface: str) -> tuple[int, float] | None:
        """The cabinet axis that the surface is square to, and where it (or its long point) lies on it."""
        way = self.toward.get(surface)
        return None if way is None else (way.axis, (self.high if way.sign > 0 else self.low)[way.axis])


def along_axis(v: Point) -> Way | None:
    """The axis that a unit vector lies on; None where it lies on none."""
    x, y, z = v
    if -1e-6 < y < 1e-6 and -1e-6 < z < 1e-6:
        return Way(0, 1 if x > 0 else -1)
    if -1e-6 < x < 1e-6 and -1e-6 < z < 1e-6:
        return Way(1, 1 if y > 0 else -1)
    if -1e-6 < x < 1e-6 and -1e-6 < y < 1e-6:
        return Way(2, 1 if z > 0 else -1)
    return None


def _slopes(part: Part) -> dict[str, float]:
    """How far each bevelled edge or end reaches out on the back side, for each mm of thickness (less: on the face)."""
    found: dict[str, float] = {}
    for k, bevel in enumerate(part.bevels):
        if bevel:
            (ax, ay), (bx, by) = part.outline[k], part.outline[(k + 1) % len(part.outline)]
            if abs(ax - bx) < 1e-9:
                found["right_end" if by > ay else "left_end"] = tan(radians(bevel))
            elif abs(ay - by) < 1e-9:
                found["face_edge" if bx > ax else "far_edge"] = tan(radians(bevel))
    return found


def outline_at(part: Part, z: float) -> list[tuple[float, float]]:
    """Corners of the board at a height above its back side: every edge shifted out by its bevel, and crossed anew."""
    return shifted(part.outline, [(part.size[2] - z) * tan(radians(bevel)) for bevel in part.bevels])


def shifted(outline: Sequence[tuple[float, float]], out: Sequence[float]) -> list[tuple[float, float]]:
    """Corners of an outline with every edge shifted out by so much, and crossed anew."""
    n = len(outline)
    lines = []
    for k in range(n):
        (ax, ay), (bx, by) = outline[k], outline[(k + 1) % n]
        long = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
        p, q = (by - ay) / long, (ax - bx) / long
        lines.append((p, q, p * ax + q * ay + out[k]))
    corners = []
    for k in range(n):
        (a, b, c), (d, e, f) = lines[k - 1], lines[k]
        turn = a * e - b * d
        corners.append(((c * e - b * f) / turn, (a * f - c * d) / turn) if abs(turn) > 1e-12 else outline[k])
    return corners


def _word(role: str, axis: int, way: Way, on_right: bool) -> str:
    """What a maker calls a surface, from the way it looks in the cabinet (design section 3)."""
    if axis < 2:
        return f"{NAMED[way.axis][way.sign > 0]} {'end' if axis == 0 else 'edge'}"
    outward = on_right if role in ("side", "drawer side") else _LOOKS_OUT_UP.get(role)
    if outward is None:
        return _FACES[way.axis][way.sign > 0]
    return "outside" if (way.sign > 0) == outward else "inside"


def _inset(part: Part) -> dict[str, float]:
    """How far inside each edged edge the sawn edge lies, mm: half of what is missing where both are edged."""
    inset: dict[str, float] = {}
    for axis, pair in enumerate((("left_end", "right_end"), ("face_edge", "far_edge"))):
        edged = [surface for surface in pair if getattr(part.edging, surface)]
        for surface in edged:
            inset[surface] = (part.size[axis] - part.cut[axis]) / len(edged)
    return inset
