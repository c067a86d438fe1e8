"""The board that a cabinet hangs by: the half of a split batten that is fixed to it, or the rail screwed through."""

from rodwork.model.panel import Part, Role
from rodwork.model.rod import RodCabinet

BY: dict[str, Role] = {"split batten": "batten", "fixing rail": "rail"}


def hung_by(cabinet: RodCabinet) -> Part | None:
    """The board, or None where none is drawn: of those on edge at the back of the upper half the lowest.

    A rail in place of a top stands higher; a batten that is a wall's own half is joined to nothing.
    """
    role = BY.get(cabinet.asked.hanging.style) if cabinet.asked.hanging else None
    joined = {id for joint in cabinet.joints for id in joint.parts}
    found = [p for p in cabinet.parts if p.role == role and p.id in joined and _high_at_the_back(p, cabinet)]
    return min(found, key=lambda p: p.box[0][2], default=None)


def _high_at_the_back(part: Part, cabinet: RodCabinet) -> bool:
    (_, y0, z0), (_, y1, z1) = part.box
    return y1 - y0 < z1 - z0 and z0 + z1 > cabinet.size[1] and y0 + y1 > cabinet.size[2]


def on_the_wall(cabinet: RodCabinet) -> Part | None:
    """The half of a split batten that is screwed to the wall: the highest that is joined to nothing."""
    joined = {id for joint in cabinet.joints for id in joint.parts}
    found = [p for p in cabinet.parts if p.role == "batten" and p.id not in joined and _high_at_the_back(p, cabinet)]
    return max(found, key=lambda p: p.box[1][2], default=None)
