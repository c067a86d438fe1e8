"""A slot or a channel that is cut out through an edge after that edge was edged: the tape tears, and the end shows."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import called, fixing_of, joint_of, mouth_of, word
from rodwork.checks.shapes import rooms_of
from rodwork.checks.spot import COMMON, Spot, mm, told_once
from rodwork.model.feature import Channel, Feature
from rodwork.model.finding import Finding
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.surface import EDGES, Surface, axis_of, level

CODE = "through-edging"
REACHED_MM = 0.01


def look(rod: Rod) -> Iterable[Finding]:
    """Every slot and channel that is cut when the edging is on."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    fixings, joints = fixing_of(cabinet), joint_of(cabinet)
    for part in cabinet.parts:
        for feature in part.features:
            if not isinstance(feature, Channel) or feature.stage != "after edging":
                continue
            for surface in _reached(part, feature):
                what = called(feature, fixings.get(feature.id), joints.get(feature.joint or ""))
                yield _spot(part, feature, surface, what)


def _reached(part: Part, feature: Feature) -> Iterator[Surface]:
    """The edged edges and ends that it comes out at: not the one that its own mouth is in."""
    bounds = [room.bounds() for room in rooms_of(feature)]
    for surface in EDGES:
        axis = axis_of(surface)
        if part.edging.at(surface) <= 0 or axis == axis_of(mouth_of(feature)):
            continue
        at = level(surface, part.size)
        low, high = min(b[0][axis] for b in bounds), max(b[1][axis] for b in bounds)
        if low - REACHED_MM <= at <= high + REACHED_MM:
            yield surface


def _spot(part: Part, feature: Channel, surface: Surface, what: str) -> Spot:
    edge = word(part, surface)
    return Spot(
        severity="warning", parts=(part,), ids=(feature.id,),
        what=f"the {what}, {mm(feature.width)} wide, is cut out through the {edge} when its edging of "
             f"{mm(part.edging.at(surface))} is on, which tears it and leaves its end to be seen",
        mend=f"stop it short of the {edge}, or cut it before that edge is edged", source=COMMON,
    )  # fmt: skip


CHECK = Check(code=CODE, title="Cut out through an edging", look=look)
