"""Which boards of an assembled cabinet want to be in the same place, and which dowels do not go home.

Boards are compared by their boxes first; only where the boxes run into each other is any solid made.
"""

from dataclasses import dataclass
from itertools import combinations

from rodwork.documents.solids import part_solid
from rodwork.geometry.vec import along, neg, sub

LEAST_MM3 = 1e-6
_TOUCHING_MM = 1e-7  # boxes that share no more than this only touch


@dataclass(frozen=True, slots=True)
class Overlap:
    """Two things and the volume they share, mm3."""

    first: str
    second: str
    mm3: float


def overlaps(cabinet, declared=(), segments=16):
    """Pairs of boards that share more than 1e-6 mm3; `declared`: pairs of ids that are a fit on purpose."""
    allowed = {frozenset(pair) for pair in declared}
    boxes = {part.id: _box(part) for part in cabinet.parts}
    solids = {}
    found = []
    for a, b in combinations(cabinet.parts, 2):
        if frozenset((a.id, b.id)) in allowed or not _run_into(boxes[a.id], boxes[b.id]):
            continue
        for part in (a, b):
            if part.id not in solids:
                solids[part.id] = placed(part_solid(part, segments), part.pose)
        shared = (solids[a.id] ^ solids[b.id]).volume()
        if shared > LEAST_MM3:
            found.append(Overlap(a.id, b.id, shared))
    return found


def dowels_that_do_not_go_home(cabinet, segments=16):
    """Dowels that would have to go into wood: too long for their two bores, or the bores do not face each other.

    Each stands on the floor of the bore in the board worked on its face, as it is driven.
    """
    from manifold3d import Manifold

    by_id = {f.id: f for part in cabinet.parts for f in part.features}
    beside = {}
    for joint in cabinet.joints:
        for fixing in joint.fixings:
            if size := _dowel_size(fixing):
                beside.setdefault(joint.parts, []).append((fixing.id, _dowel(fixing, size, by_id, cabinet, segments)))
    found = []
    for parts, dowels in beside.items():
        for part in parts:
            board = placed(part_solid(cabinet.part[part], segments), cabinet.part[part].pose)
            if (Manifold.compose([d for _, d in dowels]) ^ board).volume() > LEAST_MM3:
                each = ((name, (d ^ board).volume()) for name, d in dowels)
                found += [Overlap(name, part, mm3) for name, mm3 in each if mm3 > LEAST_MM3]
    return found


def placed(solid, pose):
    """A solid of the part frame, in the cabinet frame."""
    import numpy as np

    return solid.transform(np.column_stack([np.array(pose.rotation), np.array(pose.origin)]))


def _dowel_size(fixing):
    """(diameter, length) where the fixing is bought as a dowel, such as "dowel 8x30"."""
    for item in fixing.hardware:
        word, _, size = item.item.partition(" ")
        if word == "dowel" and "x" in size:
            diameter, length = size.split("x")
            return float(diameter), float(length)
    return None


def _dowel(fixing, size, by_id, cabinet, segments):
    """A rod of as many flats as a bore, its corners on the same lines, standing on the floor of the host's bore."""
    import numpy as np
    from manifold3d import Manifold

    half = fixing.halves[0]
    bore, pose = by_id[half.feature], cabinet.part[half.part].pose
    foot = pose.to_cabinet(along(bore.at, (bore.into, bore.depth)))
    up = pose.direction_to_cabinet(neg(bore.into))
    side = pose.direction_to_cabinet(bore.along)
    third = tuple(np.cross(up, side))
    rod = Manifold.cylinder(size[1], size[0] / 2, size[0] / 2, segments)
    return rod.transform(np.column_stack([side, third, up, foot]))


def _box(part):
    low = part.pose.to_cabinet((0.0, 0.0, 0.0))
    high = part.pose.to_cabinet(part.size)
    return tuple(map(min, low, high)), tuple(map(max, low, high))


def _run_into(a, b):
    deep = sub(tuple(map(min, a[1], b[1])), tuple(map(max, a[0], b[0])))
    return min(deep) > _TOUCHING_MM
