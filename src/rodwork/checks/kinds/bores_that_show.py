"""Heads of screws, plugs and the open ends of channels on a surface that will be seen."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import DUST, called, fixing_of, joint_of, mouth_of, word
from rodwork.checks.spot import Spot, mm, told_once
from rodwork.geometry.vec import Vec, along
from rodwork.model.feature import Bore, Groove, Pocket
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.surface import EDGES, Surface, distance_from, inward

CODE = "bores-that-show"
SOURCE = "the surfaces that are said to show"


def look(rod: Rod) -> Iterable[Finding]:
    """Every bore that is left open or plugged, and every channel that runs out."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    fixings, joints = fixing_of(cabinet), joint_of(cabinet)
    for part in cabinet.parts:
        plugged = {f.joint for f in part.features if f.role == "access"}
        for feature in part.features:
            if isinstance(feature, Bore):
                if mouth_of(feature) in part.shows and not (feature.role == "clearance" and feature.joint in plugged):
                    yield from _bore(part, feature, fixings.get(feature.id))
            elif isinstance(feature, Pocket) and feature.mouth in part.shows:
                yield _pocket(part, feature)
            elif isinstance(feature, Groove):
                yield from _channel(part, feature, joints.get(feature.joint or ""))


def _bore(part: Part, bore: Bore, fixing: Fixing | None) -> Iterator[Spot]:
    thing = fixing.family if fixing is not None else "screw"
    if bore.role == "access" and fixing is not None and fixing.halves[1].part == part.id:
        what = f"bores of {mm(bore.diameter)} for the {thing}s will show"
        mend = "cap them, turn them to the side that is not seen, or use a joint that does not show"
    elif bore.role == "access":
        what = f"plugs of {mm(bore.diameter)} over the {thing}s will show"
        mend = "cut the plugs from the same board and set their grain with it, or use a joint that does not show"
    elif bore.role == "clearance" or bore.countersink is not None:
        head = bore.countersink.diameter if bore.countersink is not None else bore.diameter
        what = f"{thing} heads of {mm(head)} will show"
        mend = "plug or cap them, cover them with an end panel, or use a joint that does not show"
    else:
        return
    yield Spot(
        severity="warning",
        parts=(part,),
        ids=(bore.id,),
        at=word(part, mouth_of(bore)),
        what=what,
        mend=mend,
        source=SOURCE,
    )


def _pocket(part: Part, pocket: Pocket) -> Spot:
    return Spot(
        severity="warning", parts=(part,), ids=(pocket.id,), at=word(part, pocket.mouth),
        what=f"pockets of {mm(pocket.diameter)} will show",
        mend="bore them in the face that is not seen, or fill them with plugs cut to the slope", source=SOURCE,
    )  # fmt: skip


def _channel(part: Part, channel: Groove, joint: Joint | None) -> Iterator[Spot]:
    for surface in open_at(part, channel):
        closed = channel.stage == "before edging" and part.edging.at(surface) > 0
        if surface in part.shows and not closed:
            what, where = called(channel, None, joint), word(part, surface)
            size = f"{mm(channel.width)} x {mm(channel.depth)}"
            yield Spot(
                severity="warning", parts=(part,), ids=(channel.id,),
                what=f"the {what}, {size}, runs out through the {where}, which will show",
                mend=f"stop it 8 to 12 short of the {where}, or edge that edge after it is cut", source=SOURCE,
            )  # fmt: skip


def open_at(part: Part, channel: Groove) -> Iterator[Surface]:
    """The edges and ends of the board that a channel runs out through."""
    for sign, end in zip((-1, 1), channel.both_ends, strict=True):
        if end == "open":
            mouth = along(channel.at, (channel.along, sign * channel.length / 2))
            way: Vec = channel.along
            for surface in EDGES:
                towards = sum(a * b for a, b in zip(inward(surface), way, strict=True)) * sign
                if towards < -0.5 and distance_from(surface, part.size, mouth) <= DUST:
                    yield surface


CHECK = Check(code=CODE, title="Bores and channels that show", look=look)
