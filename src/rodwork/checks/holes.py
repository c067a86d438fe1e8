"""What every check asks of a bore or a channel: where its mouth is, what is left, and what a maker calls it."""

from rodwork.model.feature import Bore, Feature, Rebate
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet
from rodwork.model.surface import OPPOSITE, Surface, axis_of, distance_from, surface_facing
from rodwork.model.words import cabinet_words

DUST = 1e-6  # what arithmetic leaves behind, mm

_AXIS_WAYS: dict[tuple[float, float, float], Surface] = {}


def mouth_of(feature: Feature) -> Surface:
    """The surface that the mouth is in: the one that the tool comes through."""
    into = feature.into
    if into not in _AXIS_WAYS:
        _AXIS_WAYS[into] = surface_facing((-into[0], -into[1], -into[2]))
    return _AXIS_WAYS[into]


def in_a_face(feature: Feature) -> bool:
    """Whether it is worked from a face of the board, and not from an edge or an end."""
    return axis_of(mouth_of(feature)) == 2


def left_below(part: Part, feature: Feature) -> float:
    """Board left between the deepest point, the tip of the bit included, and the surface across from the mouth."""
    tip = feature.tip if isinstance(feature, Bore) else 0.0
    return distance_from(OPPOSITE[mouth_of(feature)], part.size, feature.at) - feature.depth - tip


def word(part: Part, surface: Surface) -> str:
    """What a maker calls a surface of this board."""
    r = part.pose.rotation
    return cabinet_words(part.role, (r[0][0], r[1][0], r[2][0]))[surface]


def joint_of(cabinet: RodCabinet) -> dict[str, Joint]:
    """Joints by id."""
    return {j.id: j for j in cabinet.joints}


def fixing_of(cabinet: RodCabinet) -> dict[str, Fixing]:
    """The dowel or screw that each bore belongs to, by the bore's id."""
    return {
        half.feature: fixing
        for joint in cabinet.joints
        for fixing in joint.fixings
        for half in (*fixing.halves, *fixing.others)
        if half.feature is not None
    }


def called(feature: Feature, fixing: Fixing | None, joint: Joint | None) -> str:
    """What a maker calls a bore or a channel: "dowel bore", "shelf-pin bore", "back groove", "housing"."""
    if isinstance(feature, Bore):
        if feature.role == "shelf_pin":
            return "shelf-pin bore"
        if feature.role == "access":
            return "bore for the plug"
        family = f"{fixing.family} " if fixing is not None else ""
        return f"{family}{'pilot' if feature.role == 'pilot' else 'bore'}"
    if isinstance(feature, Rebate):
        return "rebate"
    return "back groove" if joint is not None and "back" in joint.contact.place else "housing"
