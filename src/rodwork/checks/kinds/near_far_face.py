"""A bore, groove, housing or rebate that goes too near the far face of its board."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import DUST, called, fixing_of, in_a_face, joint_of, left_below, mouth_of, settable, word
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.model.feature import Bore, Feature, Groove, Pocket, through
from rodwork.model.finding import Finding
from rodwork.model.fixing import Fixing
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.shop import Shop
from rodwork.model.surface import axis_of

CODE = "near-far-face"
DEEPEST_SHARE = 0.5  # of the board, for any channel
WEAK_SHARE = 0.4  # of the board, for a housing: a third is usual
GLUE_MM = 2.0  # of room in both bores together: 1 in each, as published guidelines on dowels have it
REMAINDER_SOURCE = (
    "at least 3 mm (1/8 in) counting the point of the bit: a published guide to dowelling carcasses; "
    "the figure used is the shop's own"
)
DEPTH_SOURCE = "a quarter to a third of the board is usual and half the limit: published answers on housings in plywood"


def look(rod: Rod) -> Iterable[Finding]:
    """Every bore that stops inside its board, and every channel."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet, rod.shop))


def _spots(cabinet: RodCabinet, shop: Shop) -> Iterator[Spot]:
    fixings, joints = fixing_of(cabinet), joint_of(cabinet)
    for part in cabinet.parts:
        for feature in part.features:
            if not isinstance(feature, Groove) and not through(feature):
                if left_below(part, feature) < shop.least_remainder_mm - DUST:
                    yield _hole(cabinet, part, feature, fixings.get(feature.id), shop)
            elif isinstance(feature, Groove) and in_a_face(feature):
                what = called(feature, None, joints.get(feature.joint or ""))
                yield from _channel(part, feature, what, shop)


def _hole(cabinet: RodCabinet, part: Part, bore: Feature, fixing: Fixing | None, shop: Shop) -> Spot:
    left, least = left_below(part, bore), shop.least_remainder_mm
    tip = bore.tip if isinstance(bore, Bore) else 0.0
    point = f" with a point of {mm(tip)}" if tip else ""
    thick = f"{mm(part.size[axis_of(mouth_of(bore))])} board"
    end = f"leaves {too_little(left)} of {thick} under it" if left > DUST else f"comes through {thick}"
    per_mm = abs(bore.into[2]) if isinstance(bore, Pocket) else 1.0  # a pocket's depth is set on its own axis
    deepest = settable(bore.depth + (left - least) / per_mm, shop)
    board = f"a board of at least {mm(bore.depth + tip + least)} mm"
    return Spot(
        severity="fault", parts=(part,), ids=(bore.id,), at=word(part, mouth_of(bore)),
        what=f"a {called(bore, fixing, None)} {mm(bore.depth)} deep{point} {end}; {mm(least)} is the least",
        mend=(f"{_do(bore)} {mm(deepest)} deep{_other_half(cabinet, bore, fixing, deepest, shop)}, or use {board}"
              if deepest > 0 else f"use {board}"),
        source=REMAINDER_SOURCE,
    )  # fmt: skip


def _do(feature: Feature) -> str:
    return "bore" if isinstance(feature, Bore | Pocket) else "cut"


def _other_half(cabinet: RodCabinet, bore: Feature, fixing: Fixing | None, deepest: float, shop: Shop) -> str:
    """What the other bore of a dowel comes to, so that both together hold it as before, glue and all."""
    if fixing is None or fixing.law != "meet":
        return ""
    other = next(half for half in fixing.halves if half.feature != bore.id)
    twin = next(f for f in cabinet.part[other.part].features if f.id == other.feature)
    wanted = min(twin.depth + bore.depth, fixing.length + GLUE_MM) - deepest
    other_depth = min((d for d in shop.depth_stops_mm if d >= wanted - DUST), default=wanted)
    return f" here and {mm(other_depth)} in the other board"


def _channel(part: Part, channel: Feature, what: str, shop: Shop) -> Iterator[Spot]:
    thickness, left = part.size[2], left_below(part, channel)
    limit = min(thickness * DEEPEST_SHARE, thickness - shop.least_remainder_mm)
    board = max(channel.depth / DEEPEST_SHARE, channel.depth + shop.least_remainder_mm)
    says = f"the {what} is {mm(channel.depth)} deep in {mm(thickness)} board and leaves {too_little(max(left, 0.0))}"
    if channel.depth > limit + DUST:
        yield Spot(
            severity="fault", parts=(part,), ids=(channel.id,),
            what=f"{says}; {'half the board' if limit == thickness * DEEPEST_SHARE else mm(limit)} is the most",
            mend=f"make it {mm(settable(limit, shop))} deep or less, or use a board of at least {mm(board)} mm",
            source=DEPTH_SOURCE,
        )  # fmt: skip
    elif what == "housing" and channel.depth > thickness * WEAK_SHARE + DUST:
        yield Spot(
            severity="warning", parts=(part,), ids=(channel.id,),
            what=f"{says}; more than four tenths of the board weakens it, a third is usual",
            mend=f"make it {mm(settable(thickness / 3, shop))} deep",
            source=f"{DEPTH_SOURCE}; the four tenths: {COMMON}",
        )  # fmt: skip


CHECK = Check(code=CODE, title="Too near the far face", look=look)
