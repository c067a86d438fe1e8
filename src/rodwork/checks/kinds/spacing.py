"""Dowels or screws of one joint that stand too close, too far apart, or alone."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from rodwork.checks.check import Check
from rodwork.checks.holes import DUST, bores_of, diameter_of, features_of, joined_by
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.geometry.vec import dot, sub
from rodwork.model.feature import Bore, Feature
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
    """One dowel or screw in its row: how far along, its own diameter, and its widest bore."""

    fixing: Fixing
    u: float
    diameter: float
    bored: float

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
        row = sorted(_row(joint, features), key=lambda s: s.u)
        let_in = any(f.law == "enter" for f in joint.fixings)
        if not let_in and len(row) < 2:
            yield _too_few(cabinet, joint, row)
        for a, b in pairwise(row):
            yield from _too_close(cabinet, joint, a, b)
            if not let_in:
                yield from _too_far(cabinet, joint, a, b)


def _row(joint: Joint, features: Mapping[str, Feature]) -> Iterator[_Stood]:
    contact = joint.contact
    for fixing in joint.fixings:
        diameter = diameter_of(fixing, features)
        if diameter:
            u = dot(sub(fixing.at, contact.from_point), contact.along)
            yield _Stood(fixing=fixing, u=u, diameter=diameter, bored=_widest(fixing, features))


def _widest(fixing: Fixing, features: Mapping[str, Feature]) -> float:
    return max(b.diameter for b in (features[i] for i in bores_of(fixing)) if isinstance(b, Bore))


def _too_few(cabinet: RodCabinet, joint: Joint, row: list[_Stood]) -> Spot:
    held = f"one {row[0].fixing.family} alone lets the board turn about it" if row else "nothing holds it"
    return Spot(
        severity="fault", parts=joined_by(cabinet, joint), ids=(joint.id,), what=held,
        mend="put in at least two, as far apart as the joint is long", source=f"mechanics; {COMMON}",
    )  # fmt: skip


def _too_close(cabinet: RodCabinet, joint: Joint, a: _Stood, b: _Stood) -> Iterator[Spot]:
    apart = b.u - a.u
    wood = apart - (a.bored + b.bored) / 2
    least = max(CLOSEST_DIAMETERS * (a.diameter + b.diameter) / 2, (a.bored + b.bored) / 2 + LEAST_WOOD_MM)
    if apart >= least - DUST:
        return
    bare = wood < LEAST_WOOD_MM - DUST
    left = f"{too_little(wood)} is left between the bores" if wood > DUST else "the bores cut into each other"
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
