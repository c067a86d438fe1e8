"""What a maker calls each surface of a board. Frame words stay in the data; these go on paper."""

from rodwork.model.panel import Role
from rodwork.model.surface import Surface

_UPRIGHT_LEFT: dict[Surface, str] = {
    "face_edge": "front edge", "far_edge": "back edge", "left_end": "top end", "right_end": "bottom end",
    "face_side": "inside", "back_side": "outside",
}  # fmt: skip
_UPRIGHT_RIGHT: dict[Surface, str] = {**_UPRIGHT_LEFT, "left_end": "bottom end", "right_end": "top end"}
_LYING: dict[Surface, str] = {
    "face_edge": "front edge", "far_edge": "back edge", "left_end": "left end", "right_end": "right end",
    "face_side": "inside", "back_side": "outside",
}  # fmt: skip
_TOP: dict[Surface, str] = {**_LYING, "left_end": "right end", "right_end": "left end"}
_SHELF: dict[Surface, str] = {**_LYING, "face_side": "upper side", "back_side": "underside"}
_DIVIDER: dict[Surface, str] = {**_UPRIGHT_RIGHT, "face_side": "left face", "back_side": "right face"}
_BACK_UP: dict[Surface, str] = {
    "face_edge": "left edge", "far_edge": "right edge", "left_end": "top end", "right_end": "bottom end",
    "face_side": "front face", "back_side": "back face",
}  # fmt: skip
_BACK_ACROSS: dict[Surface, str] = {
    "face_edge": "bottom edge", "far_edge": "top edge", "left_end": "left end", "right_end": "right end",
    "face_side": "front face", "back_side": "back face",
}  # fmt: skip

_FRONT_UP: dict[Surface, str] = {
    "face_edge": "left edge", "far_edge": "right edge", "left_end": "bottom end", "right_end": "top end",
    "face_side": "inside", "back_side": "outside",
}  # fmt: skip
_FRONT_DOWN: dict[Surface, str] = {
    **_FRONT_UP, "face_edge": "right edge", "far_edge": "left edge", "left_end": "top end", "right_end": "bottom end",
}  # fmt: skip
_FRONT_ACROSS: dict[Surface, str] = {
    **_FRONT_UP, "face_edge": "bottom edge", "far_edge": "top edge", "left_end": "right end", "right_end": "left end",
}  # fmt: skip

_DRAWER_SIDE: dict[Surface, str] = {
    "face_edge": "bottom edge", "far_edge": "top edge", "left_end": "front end", "right_end": "back end",
    "face_side": "inside", "back_side": "outside",
}  # fmt: skip
_DRAWER_SIDE_RIGHT: dict[Surface, str] = {**_DRAWER_SIDE, "left_end": "back end", "right_end": "front end"}
_DRAWER_BACK: dict[Surface, str] = {**_DRAWER_SIDE, "left_end": "left end", "right_end": "right end"}


def cabinet_words(role: Role, x_in_cabinet: tuple[float, float, float]) -> dict[Surface, str]:
    """The cabinet word of each surface of a part, from its role and the way its length lies in the cabinet.

    `x_in_cabinet` is the first column of the pose's rotation.
    """
    downwards = x_in_cabinet[2] < -0.5
    upwards = x_in_cabinet[2] > 0.5
    if role == "side":
        return _UPRIGHT_LEFT if downwards else _UPRIGHT_RIGHT
    if role == "divider":
        return _DIVIDER
    if role == "back":
        return _BACK_UP if downwards or upwards else _BACK_ACROSS
    if role == "top":
        return _TOP
    if role == "bottom":
        return _LYING
    if role in ("door", "drawer front"):
        return _FRONT_UP if upwards else _FRONT_DOWN if downwards else _FRONT_ACROSS
    if role == "drawer side":
        return _DRAWER_SIDE if x_in_cabinet[1] > 0 else _DRAWER_SIDE_RIGHT
    if role == "drawer back":
        return _DRAWER_BACK
    if role in ("fixed shelf", "loose shelf", "drawer bottom"):
        return _SHELF
    raise ValueError(f"no cabinet words yet for a {role}")
