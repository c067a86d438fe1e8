"""What the customer sees of a joint: heads, plugs, bores and ends of channels on surfaces that show. From the Rod."""

from collections.abc import Iterator, Mapping

from rodwork.geometry.vec import along
from rodwork.model.costing import Seen
from rodwork.model.feature import Bore, Feature, Groove, Pocket
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet
from rodwork.model.surface import EDGES, OPPOSITE, Surface, axis_of, distance_from, level, outward
from rodwork.model.words import cabinet_words
from rodwork.money.work import along_of

DUST = 1e-6
OUTSIDE_MM = 10.0  # a board that stands a little back is still the outside of its cabinet
Group = tuple[str, str, bool, float, bool, float]  # what, surface, inside, diameter, covered, length of the joint
NAIL_MM = 2.0  # across the head of a nail that is punched in; common practice, no source


def seen_of(cabinet: RodCabinet, joint: Joint, features: Mapping[tuple[str, str], Feature]) -> tuple[Seen, ...]:
    """The marks of one joint on surfaces that show, those of one kind on one surface together."""
    groups: dict[Group, list[float]] = {}
    plugged = any(half.part == joint.parts[0] for f in joint.fixings for half in f.others
                  if _role(features.get((cabinet.name, half.feature or ""))) == "access")  # fmt: skip
    for fixing in joint.fixings:
        driven = _driven_unbored(cabinet.part[joint.parts[0]], joint, fixing)
        if driven is not None:
            groups.setdefault(driven, []).append(along_of(fixing.at, joint))
        for half in (*fixing.halves, *fixing.others):
            feature = features.get((cabinet.name, half.feature or ""))
            if feature is None:
                continue
            part = cabinet.part[half.part]
            for what, surface, diameter, covered in _marks(part, feature, plugged):
                inside = not _on_the_outside(cabinet, part, surface)
                u = along_of(part.pose.to_cabinet(feature.at), joint)
                key = (what, _word(part, surface), inside, diameter, covered, joint.contact.length)
                groups.setdefault(key, []).append(u)
    return tuple(
        Seen(what=what, surface=surface, inside=inside, diameter=diameter, covered=covered, depth=depth,
             along=tuple(sorted(at)))
        for (what, surface, inside, diameter, covered, depth), at in groups.items()
    )  # fmt: skip


def _driven_unbored(host: Part, joint: Joint, fixing: Fixing) -> Group | None:
    """What is driven with nothing bored for it, a nail: its head is on the other face of the board it goes through."""
    if fixing.law != "none" or any(half.feature for half in (*fixing.halves, *fixing.others)) or not fixing.hardware:
        return None
    face = OPPOSITE[joint.contact.host_register.bears]
    return ("heads", _word(host, face), False, NAIL_MM, False, joint.contact.length) if face in host.shows else None


def _role(feature: Feature | None) -> str | None:
    return feature.role if feature is not None else None


def _marks(part: Part, feature: Feature, plugged: bool) -> Iterator[tuple[str, Surface, float, bool]]:
    """(what, surface, its diameter, whether a plug or cap covers it) of one bore or channel."""
    if isinstance(feature, Groove):
        for surface in _open_at(part, feature):
            if surface in part.shows and not (feature.stage == "before edging" and part.edging.at(surface) > 0):
                yield "channels", surface, feature.width, False
        return
    mouth = feature.mouth
    if mouth not in part.shows:
        return
    if isinstance(feature, Pocket):
        yield "pockets", mouth, feature.diameter, False
    elif not isinstance(feature, Bore):
        return
    elif feature.role == "access":
        yield ("plugs" if plugged else "bores"), mouth, feature.diameter, plugged
    elif feature.role == "clearance" and not plugged:
        head = feature.countersink.diameter if feature.countersink is not None else feature.diameter
        yield "heads", mouth, head, False


def _open_at(part: Part, channel: Groove) -> Iterator[Surface]:
    """The edges of the board that a channel runs out through."""
    for sign, end in zip((-1, 1), channel.both_ends, strict=True):
        mouth = along(channel.at, (channel.along, sign * channel.length / 2))
        for surface in EDGES:
            runs_out = sign * sum(a * b for a, b in zip(outward(surface), channel.along, strict=True)) > 0.5
            if end == "open" and runs_out and distance_from(surface, part.size, mouth) <= DUST:
                yield surface


def _word(part: Part, surface: Surface) -> str:
    return cabinet_words(part.role, part.pose.rotation)[surface]


def _on_the_outside(cabinet: RodCabinet, part: Part, surface: Surface) -> bool:
    """Whether a surface lies in the outside of the cabinet's own box: a shelf's underside does not."""
    way = part.pose.direction_to_cabinet(outward(surface))
    point = [part.size[k] / 2 for k in range(3)]
    point[axis_of(surface)] = level(surface, part.size)
    at = part.pose.to_cabinet((point[0], point[1], point[2]))
    width, height, depth = cabinet.size
    axis = max(range(3), key=lambda k: abs(way[k]))
    edge = (width, depth, height)[axis] if way[axis] > 0 else 0.0
    return abs(at[axis] - edge) < OUTSIDE_MM
