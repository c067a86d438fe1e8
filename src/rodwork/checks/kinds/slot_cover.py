"""A slot in an edge with so little board over it that what swells in it shows on the face, or breaks it."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import DUST, beside, called, fixing_of, half_across, in_a_face, joint_of, mouth_of, word
from rodwork.checks.shapes import askew
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.model.feature import Bore, Feature, Groove, Pocket
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CODE = "slot-cover"
STOP_MM = 4.0
WATCH_MM = 5.0
SOURCE = f"6 mm (1/4 in) in solid wood: a published series on plate joinery; in board, the limits: {COMMON}"


def look(rod: Rod) -> Iterable[Finding]:
    """Every slot in an edge or an end of a glued joint; what is round in it is another check's."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    fixings, joints = fixing_of(cabinet), joint_of(cabinet)
    for part in cabinet.parts:
        for slot in part.features:
            if isinstance(slot, Bore | Pocket | Groove) or in_a_face(slot) or askew(slot):
                continue  # askew it is thin only at its deep end: that is the check's of too little board beside it
            joint = joints.get(slot.joint or "")
            if joint is None or not joint.glued:
                continue
            cover = beside(part, slot)
            if 3.0 - DUST <= cover < WATCH_MM - DUST:  # with less it is too little board beside a bore
                yield _spot(part, slot, cover, fixings.get(slot.id))


def _spot(part: Part, slot: Feature, cover: float, fixing: Fixing | None) -> Spot:
    wide, thick = 2 * half_across(slot), part.size[2]
    stop = cover < STOP_MM - DUST
    limit = f"{mm(STOP_MM)} is the least" if stop else f"under {mm(WATCH_MM)} it may show on the face"
    thinner = thick - 2 * WATCH_MM
    smaller = f"take one of {mm(thinner)} or less, or " if thinner >= 3.0 else ""
    return Spot(
        severity="fault" if stop else "warning", parts=(part,), ids=(slot.id,), at=word(part, mouth_of(slot)),
        what=f"a {called(slot, fixing, None)} {mm(wide)} wide in {mm(thick)} board has {too_little(cover)} over it; "
             f"{limit}",
        mend=f"{smaller}use a board of at least {mm(wide + 2 * WATCH_MM)} mm, with the slot in its middle",
        source=SOURCE,
    )  # fmt: skip


CHECK = Check(code=CODE, title="Too little board over a slot", look=look)
