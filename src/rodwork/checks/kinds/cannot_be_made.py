"""A joint that cannot be made in boards as thin as these, or with bores as shallow."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import (
    DUST,
    SOUND_MM,
    THINNEST_EDGE_MM,
    beside,
    bores_of,
    diameter_of,
    features_of,
    in_a_face,
    joined_by,
    up_to_step,
)
from rodwork.checks.spot import COMMON, Spot, mm, told_once
from rodwork.geometry.rounding import down_to_step
from rodwork.model.feature import Bore
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CODE = "cannot-be-made"
DOWEL_SHARE = 0.5  # of the thinner board
DOWEL_LET_PASS_MM = 0.5  # 8 mm in 15 and 15.7 mm board is ordinary
ORDINARY_DOWELS_MM = (5.0, 6.0, 8.0, 10.0, 12.0, 16.0)
GLUE_MM = 1.0  # both bores together are to be this much deeper than the dowel is long
SCREW_SHARE = 0.3  # of the board whose edge it goes into: 4 mm in 15 mm board is tested practice
ONE_PIECE_SHARE = 7 / 16  # of the board, for one that fills its hole: 7 mm in 16 mm board is common practice, no source
GLUE_SOURCE = (
    f"about 1 mm more in each bore for wet glue: published guidelines on dowels; 1 mm for both as the limit: {COMMON}"
)
DOWEL_SOURCE = f"half the thinner board: published tips on dowelling; what is let pass: {COMMON}"
SCREW_SOURCE = (
    f"4 mm screws in 15 to 18 mm board: BioResources 9(4), 2014, tests of screwed corners; the limit: {COMMON}"
)


def look(rod: Rod) -> Iterable[Finding]:
    """Every dowel and every screw, against the two boards it joins."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    features = features_of(cabinet)
    for joint in cabinet.joints:
        boards = joined_by(cabinet, joint)
        for fixing in joint.fixings:
            bores = [b for b in (features.get(h.feature or "") for h in fixing.halves) if isinstance(b, Bore)]
            if len(bores) == 2 and fixing.law == "meet":
                yield from _too_shallow(boards, joint, fixing, bores[0].depth, bores[1].depth)
                if in_a_face(bores[1]) or beside(boards[1], bores[1]) >= SOUND_MM - DUST:
                    yield from _too_thick(boards, joint, fixing, diameter_of(fixing, features))
            elif len(bores) == 2 and not in_a_face(bores[1]) and bores[1].role != "clearance":
                yield from _screw(boards[1], joint, fixing, diameter_of(fixing, features))


def _too_shallow(
    boards: tuple[Part, Part], joint: Joint, fixing: Fixing, in_face: float, in_end: float
) -> Iterator[Spot]:
    both, thing = in_face + in_end, fixing.family
    if both >= fixing.length + GLUE_MM - DUST:
        return
    bottoms = both < fixing.length - DUST
    says = "the joint cannot close" if bottoms else f"{mm(both - fixing.length)} is too little room for the glue"
    deeper, shorter = mm(fixing.length + GLUE_MM - in_face), mm(both - GLUE_MM)
    yield Spot(
        severity="fault" if bottoms else "warning", parts=boards, ids=(joint.id, *bores_of(fixing)),
        what=f"{thing} bores {mm(in_face)} and {mm(in_end)} deep make {mm(both)} for a {thing} {mm(fixing.length)} "
             f"long: {says}",
        mend=f"bore {deeper} deep in the end, or take a {thing} {shorter} long or less",
        source="arithmetic" if bottoms else GLUE_SOURCE,
    )  # fmt: skip


def _too_thick(boards: tuple[Part, Part], joint: Joint, fixing: Fixing, diameter: float) -> Iterator[Spot]:
    thinner = min(boards[0].size[2], boards[1].size[2])
    most = thinner * DOWEL_SHARE + DOWEL_LET_PASS_MM
    if diameter <= most + DUST:
        return
    fits = [d for d in ORDINARY_DOWELS_MM if d <= most]
    smaller = f"take {fixing.family}s of {mm(max(fits))}, or " if fits else ""
    least = (diameter - DOWEL_LET_PASS_MM) / DOWEL_SHARE
    yield Spot(
        severity="warning", parts=boards, ids=(joint.id, *bores_of(fixing)),
        what=f"a {fixing.family} of {mm(diameter)} is more than half as thick as the {mm(thinner)} board",
        mend=f"{smaller}use boards of at least {mm(least)} mm", source=DOWEL_SOURCE,
    )  # fmt: skip


def _screw(guest: Part, joint: Joint, fixing: Fixing, diameter: float) -> Iterator[Spot]:
    thickness = guest.size[2]
    one_piece = fixing.duty == "both"  # it locates as well, so its thread fills a stepped hole
    share = ONE_PIECE_SHARE if one_piece else SCREW_SHARE
    ids = (joint.id, *bores_of(fixing))
    screw = f"a {fixing.family} of {mm(diameter)}"
    board = f"a board of at least {mm(max(THINNEST_EDGE_MM, up_to_step(diameter / share, 0.1)))} mm"
    if thickness < THINNEST_EDGE_MM - DUST:
        yield Spot(
            severity="fault", parts=(guest,), ids=ids,
            what=f"{screw} goes into the edge of {mm(thickness)} board, which cannot hold it",
            mend=f"use {board} there, or another joint",
        )  # fmt: skip
    elif diameter > thickness * share + DUST:
        yield Spot(
            severity="warning", parts=(guest,), ids=ids,
            what=f"{screw} in the edge of {mm(thickness)} board may swell or split it",
            mend=f"take one of {mm(down_to_step(thickness * share, 0.5))} or less, or {board}",
            source=COMMON if one_piece else SCREW_SOURCE,
        )  # fmt: skip


CHECK = Check(code=CODE, title="Cannot be made in these boards", look=look)
