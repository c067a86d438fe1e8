"""A ring of boards that clip together all round: the last one would have to spring over two clips at once."""

from collections.abc import Iterable, Iterator, Mapping

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
    leads: dict[str, str] = {part.id: part.id for part in cabinet.parts}
    for joint in cabinet.joints:
        if not _clips(joint, features):
            continue
        one, other = (_first(leads, id) for id in joint.parts)
        if one != other:
            leads[one] = other
            continue
        yield Spot(
            severity="fault", parts=tuple(cabinet.part[id] for id in joint.parts), ids=(joint.id,),
            what="it closes a ring of boards that clip together all round, and the last board cannot be sprung over "
                 "two clips at once: nothing is left to give",
            mend="make one corner of the ring with something that is drawn up from outside, or put in after: screws, "
                 "or fittings with a key",
            source=COMMON,
        )  # fmt: skip


def _first(leads: dict[str, str], id: str) -> str:
    """The board that stands for all that this one is joined to so far."""
    while leads[id] != id:
        leads[id] = leads[leads[id]]
        id = leads[id]
    return id


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
