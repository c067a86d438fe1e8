"""A board standing in its cabinet: the proof's own surfaces, words, points and raw edges.

part frame: x along the length, y across the width, z up through the thickness
cabinet:    x to the right, y to the back, z up
"""

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
_LOOKS_OUT_UP = {"top": True, "bottom": False, "door": False, "drawer front": False, "drawer back": True}


class Stand:
    """A board with the way it stands. `low` and `high` are its box in the cabinet."""

    __slots__ = ("columns", "high", "inset", "low", "on_right", "origin", "part", "size", "toward", "word")

    def __init__(self, part: Part, cabinet: RodCabinet) -> None:
        r = part.pose.rotation
        self.part = part
        self.size = part.size
        self.origin = part.pose.origin
        self.columns = ((r[0][0], r[1][0], r[2][0]), (r[0][1], r[1][1], r[2][1]), (r[0][2], r[1][2], r[2][2]))
        a, b = self.in_cabinet((0.0, 0.0, 0.0)), self.in_cabinet(part.size)
        self.low = (min(a[0], b[0]), min(a[1], b[1]), min(a[2], b[2]))
        self.high = (max(a[0], b[0]), max(a[1], b[1]), max(a[2], b[2]))
        self.on_right = self.low[0] + self.high[0] > cabinet.size[0]
        self.toward: dict[str, Way] = {}
        self.word: dict[str, str] = {}
        hand = self.on_right if part.role != "drawer side" else self.columns[2][0] < 0
        for surface, (axis, far) in LIES.items():
            way = along_axis(self.columns[axis])
            if way is not None:
                self.toward[surface] = way = Way(way.axis, way.sign if far else -way.sign)
                self.word[surface] = _word(part.role, axis, way, hand)
        self.inset = _inset(part)

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
        """The cabinet axis that the surface is square to, and where it lies on it."""
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
