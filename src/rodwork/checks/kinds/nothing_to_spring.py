"""A ring of boards that clip together all round: the last one would have to spring over two clips at once."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from rodwork.checks.check import Check
from rodwork.checks.holes import features_of
from rodwork.checks.spot import COMMON, Spot, told_once
from rodwork.model.feature import Feature
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.rod import Rod, RodCabinet

CODE = "nothing-to-spring"


def look(rod: Rod) -> Iterable[Finding]:
    """Every ring of joints that hold by clipping alone."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    """The joint that closes a ring is found by joining boards one after another: its two are joined already."""
    features = features_of(cabinet)
    joined: dict[str, list[str]] = {part.id: [] for part in cabinet.parts}
    for joint in cabinet.joints:
        if not _clips(joint, features):
            continue
        one, other = joint.parts
        ring = _boards_between(joined, one, other)
        if ring is None:
            joined[one].append(other)
            joined[other].append(one)
            continue
        yield Spot(
            severity="fault", parts=tuple(cabinet.part[id] for id in joint.parts), ids=(joint.id,),
            what=f"it closes a ring of {ring} boards that clip together all round, and the last board cannot be sprung "
                 "over two clips at once: nothing is left to give",
            mend="make one corner of the ring with something that is drawn up from outside, or put in after: screws, "
                 "or fittings with a key",
            source=COMMON,
        )  # fmt: skip


def _boards_between(joined: Mapping[str, Sequence[str]], one: str, other: str) -> int | None:
    """How many boards stand in the shortest chain from one to the other, both counted; None where none joins them."""
    reached, number = {one}, 1
    while other not in reached:
        wider = reached.union(*(joined[id] for id in reached))
        if wider == reached:
            return None
        reached, number = wider, number + 1
    return number


def _clips(joint: Joint, features: Mapping[str, Feature]) -> bool:
    """Whether all that draws this joint up is pushed straight home and tightened by nothing: it can only clip.

    What is glued is drawn up by clamps, unless an undercut holds it as well. Mitres all close at once, each board going
    straight in: no board is the last.
    """
    if joint.contact.place == "mitre":
        return False
    drawing = [f for f in joint.fixings if f.duty != "locates"]
    return bool(drawing) and all(_clip(f, joint, features) for f in drawing)


def _clip(fixing: Fixing, joint: Joint, features: Mapping[str, Feature]) -> bool:
    halves = [features.get(half.feature or "") for half in fixing.halves]
    undercut = any(f is not None and f.kind == "undercut" for f in halves)
    tightened = bool(fixing.others) or len(fixing.motion) != 1
    return fixing.law == "meet" and not tightened and (undercut or not joint.glued)


CHECK = Check(code=CODE, title="Nothing left to spring", look=look)
