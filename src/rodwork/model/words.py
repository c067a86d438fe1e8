"""What a maker calls each surface of a board. Frame words stay in the data; these go on paper."""

from functools import lru_cache

from rodwork.geometry.vec import Matrix, Vec
from rodwork.model.panel import Role
from rodwork.model.pose import levelled
from rodwork.model.surface import EDGES, SURFACES, Surface, axis_of, outward

_LOOKS = (("left", "right"), ("front", "back"), ("bottom", "top"))
_FACES = (("left face", "right face"), ("front face", "back face"), ("underside", "upper side"))
_OF_A_STRIP: dict[Surface, str] = {
    "left_end": "either end", "right_end": "other end", "face_edge": "other edge", "far_edge": "either edge",
    "back_side": "glued face", "face_side": "seen face",
}  # fmt: skip
# boards that shut something in: their face side is the inside
_SHUT_IN: tuple[Role, ...] = (
    "side", "top", "bottom", "door", "drawer front", "drawer side", "drawer back",
)  # fmt: skip


@lru_cache(maxsize=512)
def cabinet_words(role: Role, rotation: Matrix) -> dict[Surface, str]:
    """The cabinet word of each surface of a part, from its role and the rotation of its pose.

    Edges and ends go by the way they look, faces too, but those of boards that shut something in: inside, outside. A
    lipping is sawn, planed and trimmed without a hand: only the face that will be seen is told from the other.
    """
    if role == "lipping":
        return _OF_A_STRIP.copy()
    level = levelled(rotation)
    return {surface: _word(role, surface, level) for surface in SURFACES}


def _word(role: Role, surface: Surface, rotation: Matrix) -> str:
    if surface not in EDGES and role in _SHUT_IN:
        return "inside" if surface == "face_side" else "outside"
    axis, positive = _looks(rotation, outward(surface))
    if surface not in EDGES:
        return _FACES[axis][positive]
    return f"{_LOOKS[axis][positive]} {'end' if axis_of(surface) == 0 else 'edge'}"


def _looks(rotation: Matrix, way: Vec) -> tuple[int, bool]:
    """The axis of the cabinet that a way of the board lies along, or nearest to, and whether it looks up it."""
    turned = [sum(row[i] * way[i] for i in range(3)) for row in rotation]
    axis = max(range(3), key=lambda i: abs(turned[i]))
    return axis, turned[axis] > 0
