"""A round cutter that comes out at an edge, or too near it, at the end of the arc that it leaves."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import DUST, called, fixing_of, mouth_of, up_to_step, word
from rodwork.checks.shapes import rooms_of
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.model.feature import Channel, Feature
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.shop import Shop
from rodwork.model.surface import EDGES, Surface, axis_of, level, outward

CODE = "end-of-arc"
LEAST_MM = 3.0  # of board between the end of the arc and the edge, as beside a bore


def look(rod: Rod) -> Iterable[Finding]:
    """Every slot that a round cutter is plunged for."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet, rod.shop))


def _spots(cabinet: RodCabinet, shop: Shop) -> Iterator[Spot]:
    fixings = fixing_of(cabinet)
    for part in cabinet.parts:
        for feature in part.features:
            if hasattr(feature, "cutter_radius") and not isinstance(feature, Channel):
                for surface, left in _ends(part, feature):
                    if left < LEAST_MM - DUST:
                        yield _spot(part, feature, surface, left, fixings.get(feature.id), shop)


def _ends(part: Part, feature: Feature) -> Iterator[tuple[Surface, float]]:
    """The edges that the arc runs towards, and the board left before each (under nought: it is out)."""
    bounds = [room.bounds() for room in rooms_of(feature)]
    along = max(range(3), key=lambda k: abs(feature.along[k]))
    for surface in EDGES:
        if axis_of(surface) != along or surface == mouth_of(feature):
            continue
        at, out = level(surface, part.size), outward(surface)[along]
        end = max((b[1][along] if out > 0 else -b[0][along]) for b in bounds)
        yield surface, at * out - end


def _spot(part: Part, feature: Feature, surface: Surface, left: float, fixing: Fixing | None, shop: Shop) -> Spot:
    edge, what = word(part, surface), called(feature, fixing, None)
    out = left < -DUST
    further = up_to_step(LEAST_MM - left, shop.fence_step_mm)
    says = f"comes out {mm(-left)} beyond the {edge}" if out else f"leaves {too_little(max(left, 0.0))} at the {edge}"
    seen = surface in part.shows
    return Spot(
        severity="fault" if out and seen else "warning", parts=(part,), ids=(feature.id,),
        what=f"the cutter for the {what} {says} at the end of its arc; {mm(LEAST_MM)} is the least",
        mend=f"stand it {mm(further)} further from the {edge}, or take a smaller one",
        source=f"geometry of a round cutter; the limit: {COMMON}",
    )  # fmt: skip


CHECK = Check(code=CODE, title="The cutter comes out at the end of its arc", look=look)
