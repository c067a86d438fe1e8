"""A screw or a fitting that no driver or key comes to once the neighbouring board stands."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import called, features_of, mouth_of, word
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.checks.standing import Stood, ahead, standing, stood
from rodwork.geometry.vec import Vec, neg
from rodwork.model.feature import Bore, Feature
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing
from rodwork.model.rod import Rod, RodCabinet

CODE = "out-of-reach"
DRIVER_MM = 150.0  # a drill driver and its bit, straight on a screw
KEY_MM = 60.0  # a cranked key or a stubby driver, in the bore of a fitting
TOOL_RADIUS_MM = 6.0


def look(rod: Rod) -> Iterable[Finding]:
    """Every bore that a screw is driven through, and every one that a fitting is tightened through."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    features, boards = features_of(cabinet), standing(cabinet)
    of_drawer = {id: tuple(stood(cabinet.part[b]) for b in d.box) for d in cabinet.drawers for id in d.box}
    for joint in cabinet.joints:
        for fixing in joint.fixings:
            for half in (fixing.halves[0], *fixing.others):
                feature = features.get(half.feature or "")
                if feature is not None and (room := _room(feature)) is not None:
                    beside = of_drawer.get(half.part, boards)  # a drawer goes together on the bench, by itself
                    yield from _blocked(cabinet, half.part, feature, fixing, room, beside)


def _room(feature: Feature) -> float | None:
    """How much room the tool wants in front of this mouth, or None where no tool comes through it."""
    if not isinstance(feature, Bore):
        return None
    return {"access": KEY_MM, "clearance": DRIVER_MM}.get(feature.role)


def _blocked(
    cabinet: RodCabinet, part_id: str, bore: Feature, fixing: Fixing, room: float, boards: tuple[Stood, ...]
) -> Iterator[Spot]:
    part = cabinet.part[part_id]
    mouth = part.pose.to_cabinet(bore.at)
    out: Vec = part.pose.direction_to_cabinet(neg(bore.into))
    found = ahead(mouth, out, TOOL_RADIUS_MM, (b for b in boards if b.part.id != part_id))
    if found is None or found[0] >= room - 1e-6:
        return
    distance, other = found
    tool = "a driver" if room == DRIVER_MM else "a key"
    name, what = called(bore, fixing, None), other.part.name
    where = f"{word(part, mouth_of(bore))}"
    if distance < 1e-6:
        says = f"the {what} stands on the {name}, so that {tool} does not come to it"
    else:
        says = f"the {what} stands {too_little(distance)} from the {name}, and {tool} wants {mm(room)}"
    yield Spot(
        severity="fault" if room == KEY_MM and distance < KEY_MM / 2 else "warning", parts=(part,),
        ids=(bore.id,), at=where, what=says,
        mend=f"tighten it before the {what} stands, and take nothing apart after; or leave {mm(room)} there, or join "
             "these boards with something that is not tightened",
        source=COMMON,
    )  # fmt: skip


CHECK = Check(code=CODE, title="Out of reach once the neighbour stands", look=look)
