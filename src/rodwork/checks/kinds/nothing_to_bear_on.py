"""A tool that stands on an edge or an end with too little of it to bear on, and the scrap that cures it."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import DUST, called, features_of, fixing_of, mouth_of, word
from rodwork.checks.spot import COMMON, Spot, mm, told_once
from rodwork.model.feature import Bore, Feature, Groove
from rodwork.model.finding import Finding
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.setup import Setup
from rodwork.model.surface import EDGES, axis_of, distance_from

CODE = "nothing-to-bear-on"
STANDS_ON_END = "the end"
HALF_BASE_MM = 35.0  # from the middle of the cutter to the end of an ordinary jointer's base
HALF_JIG_MM = 15.0  # and of a drilling jig
THINNEST_MM = 15.0  # edge on which a base stands by itself


def look(rod: Rod) -> Iterable[Finding]:
    """Everything that is set out with the tool standing on an edge or an end."""
    by_cabinet: dict[str, list[tuple[Setup, str, str]]] = {}
    for setup in rod.setups:
        if setup.stands_on == STANDS_ON_END and setup.stage != "in place":
            for entry in setup.features:
                if entry.feature is not None:
                    by_cabinet.setdefault(entry.cabinet, []).append((setup, entry.part, entry.feature))
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet, by_cabinet.get(cabinet.name, [])))


def _spots(cabinet: RodCabinet, work: list[tuple[Setup, str, str]]) -> Iterator[Spot]:
    features, fixings = features_of(cabinet), fixing_of(cabinet)
    for setup, part_id, id in work:
        part, feature = cabinet.part.get(part_id), features.get(id)
        if part is None or feature is None or isinstance(feature, Groove) or axis_of(mouth_of(feature)) == 2:
            continue
        yield from _near_the_end(part, feature, setup, called(feature, fixings.get(id), None))
        if part.size[2] < THINNEST_MM - DUST:
            yield _thin(part, feature, setup)


def _near_the_end(part: Part, feature: Feature, setup: Setup, what: str) -> Iterator[Spot]:
    half = HALF_JIG_MM if isinstance(feature, Bore) else HALF_BASE_MM
    for surface in EDGES:
        if axis_of(surface) == axis_of(mouth_of(feature)):
            continue
        left = distance_from(surface, part.size, feature.at)
        if left < half - DUST:
            edge = word(part, surface)
            yield Spot(
                severity="note", parts=(part,), ids=(feature.id,), at=word(part, mouth_of(feature)),
                what=f"the {what} stands {mm(left)} from the {edge}, and half the base of the {setup.tool} has "
                     f"{mm(half)} to stand on: it tips there",
                mend=f"clamp an offcut of the same board flush with the {edge}, so that the base runs on to it",
                source=COMMON,
            )  # fmt: skip


def _thin(part: Part, feature: Feature, setup: Setup) -> Spot:
    return Spot(
        severity="note", parts=(part,), ids=(feature.id,), at=word(part, mouth_of(feature)),
        what=f"the {setup.tool} stands on {mm(part.size[2])} of board, under {mm(THINNEST_MM)} it rocks",
        mend="clamp an offcut with a sawn edge beside it, flush, on the side away from the fence", source=COMMON,
    )  # fmt: skip


CHECK = Check(code=CODE, title="Nothing for the tool to bear on", look=look)
