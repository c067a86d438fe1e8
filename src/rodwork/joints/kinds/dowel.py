"""Dowels: a bore of the same diameter in both boards, glued."""

from dataclasses import dataclass

from rodwork.geometry.vec import Vec
from rodwork.joints.kind import ALONG, INTO_GUEST, INTO_HOST, FixingPlan, JointKind, Run, Void, Which, straight_in
from rodwork.joints.leaning import across_the_slope, room_below, too_deep
from rodwork.joints.positions import RowSettings, across_mm, depth_from_stops, row_of
from rodwork.model.feature import Bore
from rodwork.model.fixing import Item, Play
from rodwork.model.job import CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import length, text
from rodwork.model.shop import Shop

HOST_SHARE = 0.375  # 12 of 30 + 2: near the third that is taught, to a whole mm a stop can be set to
LEAST_IN_FACE_MM = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings(RowSettings):
    """What a job file may say of dowels."""

    size: str = text("8x30", r"(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)", "8x30", "diameter x length of the dowel, mm")
    offset_mm: float | None = length(
        None,
        2,
        40,
        "across the thickness from the face that is registered on; nearest setting to the middle if left out",
    )
    depth_in_face_mm: float | None = length(None, 3, 60, "bore in the board worked on its face")
    depth_in_end_mm: float | None = length(None, 3, 120, "bore in the board worked on its end")
    glue_room_mm: float = length(2.0, 0, 10, "both bores together are this much deeper than the dowel is long")
    tip_mm: float = length(2.0, 0, 6, "how far the point of the bit goes beyond the full depth")


def depths(
    s: Settings, dowel_length: float, host_thickness: float, shop: Shop, share: float = HOST_SHARE
) -> tuple[float, float]:
    """Depth in the face and in the end, mm: split by `share`, but leaving the least remainder under the point.

    Both together hold the dowel and its glue room. Source of the third and two thirds: a trade knowledge base's
    dowel guidelines; of the remainder: common practice, no source.
    """
    both = dowel_length + s.glue_room_mm
    deepest = host_thickness - shop.least_remainder_mm - s.tip_mm
    if s.depth_in_face_mm is not None:
        face = s.depth_in_face_mm
    elif s.depth_in_end_mm is not None:
        face = both - s.depth_in_end_mm
    else:
        face = depth_from_stops(min(share * both, deepest), shop)
    if face < LEAST_IN_FACE_MM:
        raise CannotBuild(
            ("size",),
            f"a dowel cannot stand deep enough in a {host_thickness:g} mm board: only {max(deepest, 0):g} mm may be "
            f"bored if {shop.least_remainder_mm:g} are to be left under the point of the bit",
            f"use a board of at least {LEAST_IN_FACE_MM + shop.least_remainder_mm + s.tip_mm:g} mm, a bit with a "
            "shorter point, or another joint",
        )
    if s.depth_in_end_mm is not None:
        return face, s.depth_in_end_mm
    end = both - face
    longer = [d for d in shop.depth_stops_mm if d >= end - 1e-9]
    return face, (min(longer) if longer else end)


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Dowels along the run, all in one row."""
    diameter, dowel_length = (float(n) for n in s.size.split("x"))
    if run.reach > 0:
        raise CannotBuild((), "dowels cannot stand in a channel that the board itself enters", "name dowels alone")
    share = 0.5 if run.place == "edge to edge" else HOST_SHARE
    in_face, in_end = depths(s, dowel_length, run.host_thickness, shop, share)
    across = across_mm(s.offset_mm, run.guest_thickness, shop)
    if run.nears:
        across = across_the_slope(s.offset_mm, diameter / 2, run, shop)
        if in_end > room_below(across, diameter / 2, run, shop) + 1e-9:
            raise too_deep(f"a bore for a dowel {s.size},", in_end, diameter / 2, run, shop)
    row = row_of(
        run, s, shop, what="dowels", half=diameter / 2, pitch=shop.pitch_mm, least_apart=4 * diameter,
        between=2 * diameter, shift=2 * diameter,
    )  # fmt: skip
    return tuple(_dowel(u, across, diameter, dowel_length, in_face, in_end, s) for u in row)


def _dowel(
    u: float, v: float, diameter: float, dowel_length: float, in_face: float, in_end: float, s: Settings
) -> FixingPlan:
    def bore(board: Which, suffix: str, into: Vec, depth: float) -> Void:
        cut = Bore(
            id=suffix, role="seat", at=(u, v, 0.0), into=into, along=ALONG, depth=depth,
            diameter=diameter, tip=s.tip_mm,
        )  # fmt: skip
        return Void(board=board, cut=cut, tool="dowel jig", cutter=f"{diameter:g} mm")

    return FixingPlan(
        u=u, v=v, length=dowel_length, law="meet", duty="both",
        host=bore("host", "h", INTO_HOST, in_face), guest=bore("guest", "g", INTO_GUEST, in_end),
        hardware=(Item(item=f"dowel {s.size}", count=1),),
        play=Play(along=0.05, across=0.05, shape="round"), moves=straight_in(dowel_length - in_face),
    )  # fmt: skip


KIND = JointKind(
    name="dowel", title="Dowels", settings=Settings, plan=plan, glued=True,
    nature=Nature(
        machines=("dowel jig",),
        registers_on="the outer face of the board worked on its end and, at the same fence, the end of the other; "
        "a shelf on its named face and the line where that comes",
        support="the jig stands on the end of the board: clamp an offcut beside a board under 15 mm",
        board_mm=(12.0, 40.0), glue="needed", clamps="needed", draws_up=False, at_once=False, apart=False,
        shows="", covered_by="", demands_along_mm=0.2, demands_across_mm=0.2,
    ),
    places=("corner", "fixed shelf", "divider", "inset back", "edge to edge", "face frame", "on a slope"),
)  # fmt: skip
