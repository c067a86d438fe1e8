"""A board standing in the cabinet (panel), and the same board on the bench with its machining (part)."""

from dataclasses import dataclass
from typing import Literal

from rodwork.geometry.bevels import outline_below
from rodwork.geometry.vec import Vec
from rodwork.model.feature import Feature
from rodwork.model.pose import Pose
from rodwork.model.surface import EDGES, Surface
from rodwork.model.weight import Weight

Role = Literal[
    "side", "top", "bottom", "fixed shelf", "loose shelf", "divider", "rail", "back", "door", "drawer front",
    "drawer side", "drawer back", "drawer bottom", "plinth board", "plinth frame", "batten", "face frame",
    "end panel", "infill", "scribe", "worktop", "upstand", "cornice", "pelmet", "lipping", "stiffener",
    "part divider",
]  # fmt: skip
PUT_IN_LAST: tuple[Role, ...] = (
    "loose shelf", "door", "drawer front", "drawer side", "drawer back", "drawer bottom", "scribe",
)  # fmt: skip
Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgingOnPart:
    """What the edging adds at each edge and end of a part, mm (nought where there is none)."""

    face_edge: float = 0.0
    far_edge: float = 0.0
    left_end: float = 0.0
    right_end: float = 0.0

    def at(self, surface: Surface) -> float:
        """What is added at one edge or end; nought on a face."""
        return float(getattr(self, surface)) if surface in EDGES else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A board in place. `size` = finished length, width, thickness, edging included; `cut` = to saw to.

    `outline` runs counter-clockwise seen from the face side, from the corner nearest (0, 0); `bevels` are
    degrees per edge. `edging_name` is the edging that its edged edges carry, or None.
    `bought`: it comes as it is: nothing of it is sawn or edged here, and its features "as bought" are there.
    `glued_on`: the board that a lipping is glued on, and in whose finished size it is counted.
    """

    id: str
    name: str
    role: Role
    in_box: bool
    board: str
    material: str
    grain: bool
    measured: bool
    size: Vec
    cut: Point
    edging: EdgingOnPart
    edging_name: str | None
    shows: tuple[Surface, ...]
    outline: tuple[Point, ...]
    bevels: tuple[float, ...]
    pose: Pose
    bought: bool = False
    glued_on: str | None = None

    @property
    def box(self) -> tuple[Vec, Vec]:
        """The lowest and the highest corner of the box round it, as it stands in the cabinet, mm."""
        corners = [self.pose.to_cabinet((0.0, 0.0, 0.0)), self.pose.to_cabinet(self.size)]
        if self.pose.slopes:
            faces = ((self.outline, self.size[2]), (outline_below(self.outline, self.bevels, self.size[2]), 0.0))
            corners = [self.pose.to_cabinet((x, y, z)) for outline, z in faces for x, y in outline]
        xs, ys, zs = zip(*corners, strict=True)
        return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))


@dataclass(frozen=True, slots=True, kw_only=True)
class Part(Panel):
    """A panel with its marks and everything that is machined in it.

    `same_as` is the first part of the same cabinet that a turn carries onto this one, or None.
    """

    marks: tuple[str, ...]
    same_as: str | None
    features: tuple[Feature, ...]
    weight: Weight | None = None  # None: the density of its board is not known


def put_in_last(part: Panel) -> bool:
    """Whether a board goes in or is hung when the carcass stands; a loose shelf's stiffener goes in with it."""
    return part.role in PUT_IN_LAST or (part.role == "stiffener" and not part.in_box)
