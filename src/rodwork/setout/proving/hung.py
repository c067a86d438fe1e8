"""Do cup and plate of every hinge meet when the door is closed, by their printed numbers?

A hinge of a given sheet holds its door over the board by fixed + rim - plate, and its screw moves it a little. The
rim is what the printed number from the door's hinged edge leaves beside the cup; the overlay is measured between the
two boards as they stand.
"""

from collections.abc import Iterator
from typing import NamedTuple

from rodwork.model.feature import Bore, Feature
from rodwork.model.fronts import DoorHung, Hinge
from rodwork.model.rod import RodCabinet
from rodwork.model.surface import Surface
from rodwork.setout.proving.printed import Entry, Void
from rodwork.setout.proving.stand import AT, LIES, Point, Stand, Way
from rodwork.setout.proving.trouble import DUST, Trouble, mm

_TAKES_UP_MM = 2.0  # by the screw of a hinge
_TOWARD = {"left": Way(0, -1), "right": Way(0, 1), "up": Way(2, 1)}


def of_door(cabinet: RodCabinet, part: str) -> DoorHung | None:
    """How a board is hung, if it is a door."""
    return next((d for d in cabinet.doors if d.door == part), None)


def hinged_edge(stand: Stand, door: DoorHung) -> Surface | None:
    """The surface of the door that looks to its hinges."""
    return next((AT[LIES[s]] for s, way in stand.toward.items() if way == _TOWARD[door.hinged]), None)


def from_its_edge(stand: Stand, feature: Feature, entry: Entry, door: DoorHung) -> Trouble | None:
    """A cup is set out from the hinged edge, a handle from the free one; along that edge the usual datum holds."""
    hinged = hinged_edge(stand, door)
    if hinged is None:
        return Trouble("stands", "the door has no edge on the side that it is hinged")
    axis, far = LIES[hinged]
    wanted = hinged if feature.role == "hinge" else AT[axis, not far]
    for reading in (entry.done.along, entry.done.across):
        if reading is not None and LIES[reading.from_surface][0] == axis and reading.from_surface != wanted:
            what = "a cup is set out from the hinged edge, a handle from the free one"
            return Trouble("datum", what, f"from the {stand.word[wanted]}", f"from the {reading.word}")
    return None


class Bored(NamedTuple):
    """A bore as it comes out: its board, the middle of its mouth and its way in, in the cabinet."""

    part: str
    at: Point
    into: Point
    diameter: float


def bores(stands: dict[str, Stand], voids: dict[str, Void]) -> dict[str, Bored]:
    """Every bore by its id: from the printed numbers, and those that are there as bought as they come."""
    found = {
        id: Bored(v.stand.part.id, v.mouth(), v.into, v.feature.diameter)
        for id, v in voids.items()
        if isinstance(v.feature, Bore)
    }
    for stand in stands.values():
        for f in stand.part.features:
            if isinstance(f, Bore) and f.stage == "as bought":
                found[f.id] = Bored(stand.part.id, stand.in_cabinet(f.at), stand.way_in_cabinet(f.into), f.diameter)
    return found


def hinges(
    door: DoorHung, stands: dict[str, Stand], bored: dict[str, Bored], half_step: float
) -> Iterator[tuple[Hinge, Trouble]]:
    """What is wrong with each hinge of a door, at most one thing."""
    for hinge in door.hinges:
        trouble = _bored(hinge, bored) or _meets(door, hinge, stands[door.door], bored, half_step)
        if trouble is not None:
            yield hinge, trouble


def _bored(hinge: Hinge, bored: dict[str, Bored]) -> Trouble | None:
    for id, part in ((hinge.cup, hinge.door), *((p, hinge.carrier) for p in hinge.plate)):
        bore = bored.get(id)
        if bore is None:
            return Trouble("missing", f"{hinge.id} has no bore {id}")
        if bore.part != part:
            return Trouble("wrong board", f"{id} is in another board", part, bore.part)
    return None


def _meets(door: DoorHung, hinge: Hinge, leaf: Stand, bored: dict[str, Bored], half_step: float) -> Trouble | None:
    cup, plates = bored[hinge.cup], [bored[p] for p in hinge.plate]
    way, run = _TOWARD[door.hinged], 0 if door.hinged == "up" else 2
    middle = sum(p.at[run] for p in plates) / len(plates)
    if abs(middle - cup.at[run]) > 2 * half_step + DUST:
        return Trouble("pair", f"{hinge.id}: cup and plate stand at different places", mm(cup.at[run]), mm(middle))
    if abs(cup.into[1] + 1) > DUST or any(abs(p.into[way.axis] - way.sign) > DUST for p in plates):
        return Trouble("pair", f"{hinge.id}: a bore goes in the wrong way")
    edge = (leaf.high if way.sign > 0 else leaf.low)[way.axis]
    overlay = (edge - plates[0].at[way.axis]) * way.sign
    rim = (edge - cup.at[way.axis]) * way.sign - cup.diameter / 2
    holds = hinge.fixed + rim - hinge.plate_height + hinge.take_up
    if abs(holds - overlay) > half_step + DUST or abs(hinge.take_up) > _TAKES_UP_MM:
        return Trouble("pair", f"{hinge.id}: how far it holds the door over its board", mm(overlay), mm(holds))
    behind = plates[0].at[1] - leaf.high[1]
    if abs(behind - hinge.behind) > half_step + DUST or any(abs(p.at[1] - plates[0].at[1]) > DUST for p in plates):
        return Trouble("pair", f"{hinge.id}: the plate's line behind the door", mm(hinge.behind), mm(behind))
    return None
