"""Doors for the checks: where the plates of their hinges are, how they and their handles stand when they are open."""

from rodwork.checks.standing import Stood, stood
from rodwork.geometry.vec import Vec
from rodwork.model.fronts import HANDLE_OUT_MM, DoorHung, Hinge
from rodwork.model.rod import RodCabinet

HALF_PLATE_MM = 24.0  # a plate of two screws 32 apart is 45 to 50 long; common practice, no source
PLATE_BEHIND_MM = 23.0  # and its arm reaches so far behind the line of its screws; common practice, no source
PLATE_OUT_MM = 12.0  # plate and arm stand so far off the board; common practice, no source
CARRIED_MM = 3.0  # a cup hinge carries a door's edge so far out of the opening as it opens; common practice, no source
HAND_MM = 10.0  # a handle is so much longer and wider than its bores, each way; common practice, no source


def plate_middle(cabinet: RodCabinet, hinge: Hinge) -> Vec:
    """Half way between the plate's screws, in the cabinet."""
    part = cabinet.part[hinge.carrier]
    at = [part.pose.to_cabinet(f.at) for f in part.features if f.id in hinge.plate]
    x, y, z = (sum(p[k] for p in at) / len(at) for k in range(3))
    return (x, y, z)


def opened(cabinet: RodCabinet, hung: DoorHung) -> Stood:
    """A door as it stands open to a right angle, turned about the outer arris of its hinged edge and carried out."""
    door = stood(cabinet.part[hung.door])
    (x0, y0, z0), (x1, y1, z1) = door.low, door.high
    thick, out = y1 - y0 - CARRIED_MM, (z1 - z0) if hung.hinged == "up" else (x1 - x0)
    (a, c), (b, d) = {
        "left": ((x0, z0), (x0 + thick, z1)),
        "right": ((x1 - thick, z0), (x1, z1)),
        "up": ((x0, z1 - thick), (x1, z1)),
    }[hung.hinged]
    return Stood(door.part, (a, y0 - out, c), (b, y0, d))


def opened_handle(cabinet: RodCabinet, hung: DoorHung) -> Stood | None:
    """The handle of a side-hung door that stands open: beside its outer face. None: it has none, or lifts up."""
    part = cabinet.part[hung.door]
    bores = [part.pose.to_cabinet(f.at) for f in part.features if f.role == "handle"]
    if not bores or hung.hinged == "up":
        return None
    low, high = part.box
    edge = low[0] if hung.hinged == "left" else high[0]
    out, up = [abs(b[0] - edge) for b in bores], [b[2] for b in bores]
    x = (edge - HANDLE_OUT_MM, edge) if hung.hinged == "left" else (edge, edge + HANDLE_OUT_MM)
    y = (low[1] - max(out) - HAND_MM, low[1] - min(out) + HAND_MM)
    return Stood(part, (x[0], y[0], min(up) - HAND_MM), (x[1], y[1], max(up) + HAND_MM))
