"""Dowels, biscuits or screws of one joint that stand too close, too far apart, or alone."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from rodwork.checks.check import Check
from rodwork.checks.holes import DUST, axis_in, bores_of, diameter_of, features_of, joined_by
from rodwork.checks.shapes import rooms_of
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.geometry.vec import dot, sub
from rodwork.model.feature import Bore, Feature, noun_of
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.rod import Rod, RodCabinet

CODE = "spacing"
CLOSEST_DIAMETERS = 4.0  # centre to centre, in board
LEAST_WOOD_MM = 3.0  # between two bores
FARTHEST_DOWELS_MM = 256.0
FARTHEST_SCREWS_MM = 300.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stood:
    """One dowel, biscuit or screw in its row: how far along, its own diameter if it is round, and what it takes.

    `taken`: the longest that is machined for it along the run, `made`: what that is.
    """

    fixing: Fixing
    u: float
    diameter: float
    taken: float
    made: str

    @property
    def farthest(self) -> float:
        return FARTHEST_DOWELS_MM if self.fixing.law == "meet" else FARTHEST_SCREWS_MM


def look(rod: Rod) -> Iterable[Finding]:
    """Every joint that is held by dowels or screws."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    features = features_of(cabinet)
    for joint in cabinet.joints:
        row = sorted(_row(cabinet, joint, features), key=lambda s: s.u)
        let_in = any(f.law == "enter" for f in joint.fixings)
        if not let_in and len(row) < 2 and not _held_all_along(joint, row):
            yield _too_few(cabinet, joint, row)
        for a, b in pairwise(row):
            yield from _too_close(cabinet, joint, a, b)
            if not let_in:
                yield from _too_far(cabinet, joint, a, b)


def _held_all_along(joint: Joint, row: list[_Stood]) -> bool:
    """Whether what stands there alone is a strip along most of the joint."""
    return len(row) == 1 and row[0].taken >= joint.contact.length / 2


def _row(cabinet: RodCabinet, joint: Joint, features: Mapping[str, Feature]) -> Iterator[_Stood]:
    contact = joint.contact
    for fixing in joint.fixings:
        if fixing.law != "enter":
            taken = [
                (
                    _taken(features[h.feature], axis_in(cabinet.part[h.part], contact.along)),
                    noun_of(features[h.feature]),
                )
                for h in (*fixing.halves, *fixing.others)
                if h.feature is not None
            ]
            longest, made = max(taken, default=(0.0, ""))
            u = dot(sub(fixing.at, contact.from_point), contact.along)
            yield _Stood(
                fixing=fixing, u=u, diameter=diameter_of(fixing, features), taken=longest, made=f"{made}s"
            )  # fmt: skip


def _taken(feature: Feature, axis: int) -> float:
    """What a feature takes along one axis of its board, mm; of a bore its diameter without its countersink."""
    if isinstance(feature, Bore):
        return feature.diameter
    return max(high[axis] - low[axis] for low, high in (room.bounds() for room in rooms_of(feature)))


def _too_few(cabinet: RodCabinet, joint: Joint, row: list[_Stood]) -> Spot:
    held = f"one {row[0].fixing.family} alone lets the board turn about it" if row else "nothing holds it"
    return Spot(
        severity="fault", parts=joined_by(cabinet, joint), ids=(joint.id,), what=held,
        mend="put in at least two, as far apart as the joint is long", source=f"mechanics; {COMMON}",
    )  # fmt: skip


def _too_close(cabinet: RodCabinet, joint: Joint, a: _Stood, b: _Stood) -> Iterator[Spot]:
    apart = b.u - a.u
    both = (a.taken + b.taken) / 2
    wood = apart - both
    least = max(CLOSEST_DIAMETERS * (a.diameter + b.diameter) / 2, both + LEAST_WOOD_MM if both else 0.0)
    if apart >= least - DUST:
        return
    bare = wood < LEAST_WOOD_MM - DUST
    left = f"{too_little(wood)} is left between the {a.made}" if wood > DUST else f"the {a.made} cut into each other"
    says = f"{left}, {mm(LEAST_WOOD_MM)} is the least" if bare else f"under {mm(least)} the board between may split"
    yield Spot(
        severity="fault" if bare else "warning", parts=joined_by(cabinet, joint), ids=_ids(joint, a, b),
        what=f"{_named(a, b)} stand {too_little(apart)} apart, centre to centre: {says}",
        mend=f"stand them at least {mm(least)} apart, or take fewer", source=f"four diameters in board: {COMMON}",
    )  # fmt: skip


def _too_far(cabinet: RodCabinet, joint: Joint, a: _Stood, b: _Stood) -> Iterator[Spot]:
    apart, most = b.u - a.u, max(a.farthest, b.farthest)
    if apart > most + DUST:
        yield Spot(
            severity="warning", parts=joined_by(cabinet, joint), ids=_ids(joint, a, b),
            what=f"{_named(a, b)} stand {mm(apart)} apart: over {mm(most)} the joint may open between them",
            mend=f"set one more between them, or lower the pitch to {mm(most)} or less",
            source=f"about 250 mm for dowels in an edge joint: published tips on dowelling; the limits: {COMMON}",
        )  # fmt: skip


def _ids(joint: Joint, a: _Stood, b: _Stood) -> tuple[str, ...]:
    return (joint.id, *bores_of(a.fixing), *bores_of(b.fixing))


def _named(a: _Stood, b: _Stood) -> str:
    one, other = a.fixing.family, b.fixing.family
    return f"two {one}s" if one == other else f"a {one} and a {other}"


CHECK = Check(code=CODE, title="Too close, too far apart, or alone", look=look)
