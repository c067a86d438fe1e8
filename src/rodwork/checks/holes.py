"""What every check asks of a bore or a channel: where its mouth is, what is left, and what a maker calls it."""

from collections.abc import Mapping
from functools import singledispatch
from math import sqrt

from rodwork.checks.shapes import askew, rooms_of
from rodwork.checks.spot import mm
from rodwork.geometry.rounding import down_to_step
from rodwork.geometry.vec import Vec
from rodwork.model.feature import Bore, Feature, Groove, Pocket, Rebate, noun_of
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet
from rodwork.model.shop import Shop
from rodwork.model.surface import EDGES, OPPOSITE, Surface, axis_of, distance_from
from rodwork.model.words import cabinet_words

DUST = 1e-6  # what arithmetic leaves behind, mm
SOUND_MM = 3.5  # beside a bore in an edge: an 8 mm dowel in the middle of 15 mm board
BLUNT_MM = 2.0  # along a slope, towards its blunt arris; common practice, no source
THINNEST_EDGE_MM = 10.0  # that a screw is driven into


def mouth_of(feature: Feature) -> Surface:
    """The surface that the mouth is in: the one that the tool comes through."""
    return feature.mouth


def in_a_face(feature: Feature) -> bool:
    """Whether it is worked from a face of the board, and not from an edge or an end."""
    return axis_of(mouth_of(feature)) == 2


def left_below(part: Part, feature: Feature) -> float:
    """Board left between the deepest point, the tip of the bit included, and the surface across from the mouth."""
    return distance_from(OPPOSITE[mouth_of(feature)], part.size, feature.at) - _deepest(feature)


@singledispatch
def _deepest(feature: Feature) -> float:
    """How far below its mouth a feature reaches."""
    return feature.depth


@_deepest.register
def _(bore: Bore) -> float:
    return bore.depth + bore.tip


@_deepest.register
def _(pocket: Pocket) -> float:
    slope = abs(pocket.into[2])
    return pocket.depth * slope + pocket.diameter / 2 * sqrt(1 - slope * slope)


def beside(part: Part, feature: Feature) -> float:
    """Board between what is machined in an edge or end and the nearer face, mm.

    Askew, in a bevelled end, it nears one face as it goes in. Towards the other the wood is blunt, and stays on with
    less: there only what is left of the slope counts, and only where that is under BLUNT_MM.
    """
    bounds = [room.bounds() for room in rooms_of(feature)]
    below, above = min(low[2] for low, _ in bounds), part.size[2] - max(high[2] for _, high in bounds)
    if not askew(feature):
        return min(below, above)
    nears, leaves = (below, above) if feature.into[2] < 0 else (above, below)
    blunt = leaves / sqrt(1 - feature.into[2] ** 2)
    return nears if blunt >= BLUNT_MM - DUST else min(nears, blunt)


def half_across(feature: Feature) -> float:
    """Half of what a feature in an edge or end takes across it, mm: of the thickness, where the end is square."""
    if askew(feature):
        wide: float = next(getattr(feature, n) for n in ("thickness", "width", "diameter") if hasattr(feature, n))
        return wide / 2
    return max(abs(high[2] - low[2]) for low, high in (room.bounds() for room in rooms_of(feature))) / 2


def word(part: Part, surface: Surface) -> str:
    """What a maker calls a surface of this board."""
    return cabinet_words(part.role, part.pose.rotation)[surface]


def place_in(part: Part, feature: Feature) -> str:
    """Where its mouth is, from the edges and ends that a maker measures from: front, bottom, left."""
    mouth = mouth_of(feature)
    told = []
    for surface in EDGES:
        says = word(part, surface)
        if says.split()[0] in ("front", "bottom", "left") and axis_of(surface) != axis_of(mouth):
            told.append(f"{mm(distance_from(surface, part.size, feature.at))} from the {says}")
    return ("" if in_a_face(feature) else f"in the {word(part, mouth)} ") + " and ".join(told)


def joint_of(cabinet: RodCabinet) -> dict[str, Joint]:
    """Joints by id."""
    return cabinet.joint


def joined_by(cabinet: RodCabinet, joint: Joint) -> tuple[Part, Part]:
    """The two boards of a joint: the one worked on its face, the one worked on its end."""
    return cabinet.part[joint.parts[0]], cabinet.part[joint.parts[1]]


def bores_of(fixing: Fixing) -> tuple[str, ...]:
    """Ids of all bores of one dowel or screw."""
    return tuple(h.feature for h in (*fixing.halves, *fixing.others) if h.feature is not None)


def fixing_of(cabinet: RodCabinet) -> dict[str, Fixing]:
    """The dowel or screw that each bore belongs to, by the bore's id."""
    return cabinet.fixing


def called(feature: Feature, fixing: Fixing | None, joint: Joint | None) -> str:
    """What a maker calls a bore or a channel: "dowel bore", "shelf-pin bore", "back groove", "housing"."""
    if isinstance(feature, Bore):
        if feature.role == "shelf_pin":
            return "shelf-pin bore"
        if feature.role == "access":
            return _access(feature, fixing)
        if feature.role == "clothes_rail":
            return "socket bore"
        family = f"{fixing.family} " if fixing is not None else ""
        return f"{family}{'pilot' if feature.role == 'pilot' else 'bore'}"
    if not isinstance(feature, Groove):
        noun = noun_of(feature)
        return noun if fixing is None or noun in fixing.family else f"{fixing.family} {noun}"
    if isinstance(feature, Rebate):
        return "rebate"
    if joint is not None and any(f.law == "enter" and f.others for f in joint.fixings):
        return "groove for a tongue"
    return "back groove" if joint is not None and "back" in joint.contact.place else "housing"


def _access(bore: Bore, fixing: Fixing | None) -> str:
    """A plug sits over what is driven through the board worked on its face; a key or a nut goes into the other."""
    host = fixing.halves[0].part if fixing is not None else None
    other = fixing is not None and any(h.feature == bore.id and h.part != host for h in fixing.others)
    return f"{fixing.family} access bore" if fixing is not None and other else "bore for the plug"


def features_of(cabinet: RodCabinet) -> dict[str, Feature]:
    """Every bore and channel of the cabinet by its id."""
    return cabinet.feature


def diameter_of(fixing: Fixing, features: Mapping[str, Feature]) -> float:
    """Diameter of the dowel or screw itself, mm; nought where it is neither.

    A dowel fills its bore. A screw is its clearance bore less the play in it.
    """
    bore = features.get(fixing.halves[0].feature or "")
    if not isinstance(bore, Bore):
        return 0.0
    return bore.diameter - (2 * fixing.play.along if fixing.law == "line" else 0.0)


def axis_in(part: Part, direction: Vec) -> int:
    """The axis of the board (0 its length, 1 its width, 2 its thickness) that a cabinet direction runs on."""
    r = part.pose.rotation
    on = [abs(r[0][k] * direction[0] + r[1][k] * direction[1] + r[2][k] * direction[2]) for k in range(3)]
    return on.index(max(on))


def settable(depth: float, shop: Shop) -> float:
    """The deepest setting of the machine that is not over this depth (nought: there is none)."""
    if shop.depth_stops_mm:
        return max((d for d in shop.depth_stops_mm if d <= depth + DUST), default=0.0)
    return max(down_to_step(depth, shop.fence_step_mm), 0.0)


def up_to_step(value: float, step: float) -> float:
    """The least setting of a fence that is not under this distance."""
    return -down_to_step(-value, step)
