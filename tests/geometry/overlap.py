"""Which boards of an assembled cabinet want to be in the same place, and which connectors do not go home or rattle.

Boards are compared by their boxes first; only where the boxes run into each other is any solid made.
"""

from dataclasses import dataclass
from itertools import combinations

from rodwork.documents.solids import drawn_boards, drawn_solid, part_solid
from rodwork.geometry.vec import along, neg, sub

LEAST_MM3 = 1e-6
FLATS_MM = 0.05  # an arc of a solid is drawn as flats, which lie so far inside it at most
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
    solids, drawn = {}, {d.part.id: d for d in drawn_boards(cabinet, segments)}
    found = []
    for a, b in combinations(cabinet.parts, 2):
        if frozenset((a.id, b.id)) in allowed or not _run_into(boxes[a.id], boxes[b.id]):
            continue
        for part in (a, b):
            if part.id not in solids:
                solids[part.id] = placed(drawn_solid(drawn[part.id]), drawn[part.id].pose)
        shared = (solids[a.id] ^ solids[b.id]).volume()
        if shared > LEAST_MM3:
            found.append(Overlap(a.id, b.id, shared))
    return found


def struck(cabinet, rail, segments=16):
    """Boards that reach into the room of a clothes rail: its tube, and its sockets as boxes."""
    from manifold3d import Manifold

    (high, wide, reach), (_, y, z), found = rail.socket, rail.middle, []
    (x0, _, _), (x1, _, _) = rail.low, rail.high
    tube = Manifold.cube(tuple(b - a for a, b in zip(rail.low, rail.high, strict=True))).translate(rail.low)
    ends = [Manifold.cube((reach, wide, high)).translate((x, y - wide / 2, z - high / 2)) for x in (x0, x1 - reach)]
    for part in cabinet.parts:
        if (Manifold.compose([tube, *ends]) ^ placed(part_solid(part, segments), part.pose)).volume() > LEAST_MM3:
            found.append(part.id)
    return found


def connectors_that_do_not_go_home(cabinet, segments=16):
    """Dowels, biscuits, tenons and screws that would have to go into wood: too long, or the halves do not meet.

    Each stands on the floor of the half in the board worked on its face, as it is driven.
    """
    from manifold3d import Manifold

    beside = {}
    for joint in cabinet.joints:
        for fixing in joint.fixings:
            for solid, parts in connector(cabinet, joint, fixing, segments):
                for part in parts:
                    beside.setdefault(part, []).append((fixing.id, solid))
    found = []
    for part, connectors in beside.items():
        board = placed(part_solid(cabinet.part[part], segments), cabinet.part[part].pose)
        if (Manifold.compose([d for _, d in connectors]) ^ board).volume() > LEAST_MM3:
            each = ((name, (d ^ board).volume()) for name, d in connectors)
            found += [Overlap(name, part, mm3) for name, mm3 in each if mm3 > LEAST_MM3]
    return found


def too_loose(cabinet, segments=64, more=0.07):
    """Connectors that have more room along or across than their declared play and a trace; one of each kind is tried.

    A board that enters a channel itself has its slack on one side or shared: it is moved by the whole of it.
    """
    tried, found = set(), []
    for joint in cabinet.joints:
        for fixing in joint.fixings:
            kind = (fixing.family, joint.contact.place, fixing.play, fixing.duty)
            if kind in tried:
                continue
            tried.add(kind)
            ways = {"along": joint.contact.along, "across": joint.contact.across}
            for name, way in ways.items():
                if not _stopped(cabinet, joint, fixing, way, getattr(fixing.play, name) + more, segments):
                    found.append((fixing.id, name))
    return found


def _stopped(cabinet, joint, fixing, way, by, segments):
    """Whether the connector moved so far, one way or the other, runs into the board it stands in."""
    if fixing.law == "enter":
        if way != joint.contact.across:
            return True  # along a channel the board is stopped by its neighbours, not by the joint
        host, guest = (cabinet.part[p] for p in joint.parts)
        solid, board = (placed(part_solid(p, segments), p.pose) for p in (guest, host))
        return any((solid.translate([s * (2 * by) * c for c in way]) ^ board).volume() > LEAST_MM3 for s in (1, -1))
    slid = len(fixing.motion) > 1 and way == joint.contact.along
    signs = (-1,) if slid else (1, -1)  # the way back out of a keyhole is free: the screw would go on towards its entry
    for solid, parts in connector(cabinet, joint, fixing, segments):
        for part in parts:
            board = placed(part_solid(cabinet.part[part], segments), cabinet.part[part].pose)
            if not all((solid.translate([s * by * c for c in way]) ^ board).volume() > LEAST_MM3 for s in signs):
                return False
    return True


def placed(solid, pose):
    """A solid of the part frame, in the cabinet frame."""
    import numpy as np

    return solid.transform(np.column_stack([np.array(pose.rotation), np.array(pose.origin)]))


def connector(cabinet, joint, fixing, segments):
    """(solid in the cabinet, the boards it must find room in) of what is bought for a fixing, by its published size.

    A nail makes its own room, and a thread cuts its own: of a screw its shank is stood in the board it passes.
    """
    for item in fixing.hardware:
        make = _headed if ", head " in item.item else next(
            (m for word, m in SOLIDS.items() if f"{item.item} ".startswith(f"{word} ")), None
        )  # fmt: skip
        shank = make is _shank and fixing.law != "line"  # a screw that is only driven into the face
        if make is not None and not shank:
            yield make(item.item.split()[-1], cabinet, joint, fixing, segments), _boards(item.item, joint)


def _boards(item, joint):
    if ", head " in item or item.startswith("cam bolt"):  # what is in the other board is thread
        return (joint.parts[1],)
    if item.startswith(("screw", "carcass screw")):
        return (joint.parts[0],)
    return (joint.parts[1],) if item.startswith("pocket screw") else joint.parts


def _dowel(size, cabinet, joint, fixing, segments):
    """A rod of as many flats as a bore, its corners on the same lines."""
    from manifold3d import Manifold

    diameter, length = (float(n) for n in size.split("x"))
    return _stood(Manifold.cylinder(length, diameter / 2, diameter / 2, segments), fixing.halves[0], cabinet)


def _biscuit(size, cabinet, joint, fixing, segments):
    """A lens of two arcs, 4 thick; sizes as published, 0.5 above the floor of the slot in the face."""
    from manifold3d import CrossSection

    length, width = {"0": (47.0, 15.0), "10": (53.0, 19.0), "20": (56.0, 23.0)}[size]
    half, deep = length / 2, width / 2
    radius = (half * half + deep * deep) / (2 * deep)
    circle = CrossSection.circle(radius, 8 * segments)
    lens = circle.translate([0, radius - deep]) ^ circle.translate([0, deep - radius])
    flat = lens.extrude(4.0).translate([0, 0, -2.0]).rotate([90, 0, 0])
    return _stood(flat.translate([0, 0, width / 2]), fixing.halves[0], cabinet, up_by=0.5)


def _tenon(size, cabinet, joint, fixing, segments):
    """A bar with round edges: thickness x width x length."""
    from manifold3d import CrossSection

    thick, width, length = (float(n) for n in size.split("x"))
    r = thick / 2
    ends = [CrossSection.circle(r, segments).translate([x, 0]) for x in (r - width / 2, width / 2 - r)]
    bar = CrossSection.square([width - thick, thick], True) + ends[0] + ends[1]
    return _stood(bar.extrude(length), fixing.halves[0], cabinet)


def _spline(size, cabinet, joint, fixing, segments):
    """A strip with square ends: thickness x width x length, in the middle of its groove along it."""
    from manifold3d import Manifold

    thick, wide, long = (float(n) for n in size.split("x"))
    groove = _feature(cabinet, fixing.halves[0])
    low = groove.end_radius + 0.5 if groove.both_ends[0] == "round" else 0.0
    strip = Manifold.cube([long, thick, wide]).translate([low - groove.length / 2, -thick / 2, 0.0])
    return _stood(strip, fixing.halves[0], cabinet)


def _shank(size, cabinet, joint, fixing, segments):
    """The screw where it passes the first board, from under its head to the joint."""
    from manifold3d import Manifold

    diameter = float(size.split("x")[0])
    half = fixing.halves[0]
    bore = _feature(cabinet, half)
    sunk = ((bore.countersink.diameter - bore.diameter) / 2 + 0.1) if bore.countersink else 0.0
    solid = Manifold.cylinder(bore.depth - sunk, diameter / 2, diameter / 2, segments)
    return _stood(solid, half, cabinet)


def _pocket(size, cabinet, joint, fixing, segments):
    """The screw from its shoulder to the end, thinner by a hair: askew, no flat of it lies just on a flat of the bore."""
    from manifold3d import Manifold

    diameter = float(size.split("x")[0])
    half = fixing.halves[1]
    pocket = _feature(cabinet, half)
    r = diameter / 2 - 1e-4
    solid = Manifold.cylinder(pocket.ahead_depth - pocket.depth, r, r, segments)
    return _stood(solid, half, cabinet, up_by=pocket.depth - pocket.ahead_depth)


def _bolt(length, cabinet, joint, fixing, segments):
    """The smooth part of a cam's bolt in its tunnel, half a millimetre thinner than it; common practice, no source."""
    from manifold3d import Manifold

    half = fixing.halves[1]
    r = _feature(cabinet, half).diameter / 2 - 0.25
    return _stood(Manifold.cylinder(float(length), r, r, segments), half, cabinet)


def _headed(item, cabinet, joint, fixing, segments):
    """A screw's shank and head in the keyhole, drawn up to the lip: 0.5 of room over a head 2.5 high."""
    from manifold3d import Manifold

    half = fixing.halves[1]
    hole = _feature(cabinet, half)
    head, shank = hole.head_width - 0.5, hole.slot_width - 0.5
    solid = Manifold.cylinder(2.5, head / 2, head / 2, segments)
    neck = Manifold.cylinder(hole.depth - 3.0, shank / 2, shank / 2, segments).translate([0, 0, 2.5])
    return _stood(solid + neck, half, cabinet, up_by=0.5)


def _in_undercuts(word, cabinet, joint, fixing, segments):
    """Both halves of a connector as one: as long as it is said to be, on each side the arc of its own disc, 0.2 thinner.

    An arc that may slide so far each way is what two arcs, moved that far apart, have in common.
    """
    from manifold3d import CrossSection, Manifold

    both = []
    for half in fixing.halves:
        slot = _feature(cabinet, half)
        free = (2 * (slot.depth * (2 * slot.cutter_radius - slot.depth)) ** 0.5 - fixing.length) / 2 - FLATS_MM
        disc = CrossSection.circle(slot.cutter_radius - FLATS_MM, 8 * segments).translate([0, slot.cutter_radius])
        inner = CrossSection.circle(slot.cutter_radius - slot.root_depth + FLATS_MM, 8 * segments)
        above = CrossSection.square([200, slot.depth]).translate([-100, 0])
        whole = disc.translate([-free, 0]) ^ disc.translate([free, 0]) ^ above
        lips = [inner.translate([x, slot.cutter_radius]) for x in (-free, free)]
        root = whole - (lips[0] + lips[1])

        def thick(shape, width):
            return shape.extrude(width).translate([0, 0, -width / 2]).rotate([90, 0, 0])

        both.append(_stood(thick(whole, slot.thickness - 0.2) + thick(root, slot.root_width - 0.2), half, cabinet))
    return Manifold.compose(both)


def _steel_tenon(word, cabinet, joint, fixing, segments):
    """A bar with round edges as long as its two mortises are deep, 0.1 of room all round."""
    slot = _feature(cabinet, fixing.halves[0])
    return _tenon(f"{slot.width - 0.2}x{slot.length - 0.2}x{fixing.length}", cabinet, joint, fixing, segments)


SOLIDS = {
    "dowel": _dowel, "biscuit": _biscuit, "loose tenon": _tenon, "spline": _spline, "screw": _shank, "carcass screw": _shank,
    "pocket screw": _pocket, "cam bolt": _bolt, "quarter-turn connector plain": _in_undercuts,
    "clip-in connector pair": _in_undercuts, "tenon-and-bolt fitting": _steel_tenon,
}  # fmt: skip


def _feature(cabinet, half):
    return next(f for f in cabinet.part[half.part].features if f.id == half.feature)


def _stood(solid, half, cabinet, up_by=0.0):
    """A solid that rises from nought, stood on the floor of a feature: x along its run, z out through its mouth."""
    import numpy as np

    feature, pose = _feature(cabinet, half), cabinet.part[half.part].pose
    if max(abs(d) for d in feature.into) < 1 - 1e-9:  # a hair smaller: askew, no flat of it lies just on a flat
        solid = solid.scale([1 - 1e-4, 1 - 1e-4, 1.0]).translate([0.0, 0.0, 1e-4])
    foot = pose.to_cabinet(along(feature.at, (feature.into, feature.depth - up_by)))
    up = pose.direction_to_cabinet(neg(feature.into))
    side = pose.direction_to_cabinet(feature.along)
    third = tuple(np.cross(up, side))
    return solid.transform(np.column_stack([side, third, up, foot]))


def _box(part):
    low = part.pose.to_cabinet((0.0, 0.0, 0.0))
    high = part.pose.to_cabinet(part.size)
    return tuple(map(min, low, high)), tuple(map(max, low, high))


def _run_into(a, b):
    deep = sub(tuple(map(min, a[1], b[1])), tuple(map(max, a[0], b[0])))
    return min(deep) > _TOUCHING_MM
