"""Tenon and bolt: a knock-down fitting in two mortises, drawn up by a bolt through a bore in the inner face."""

from dataclasses import dataclass

from rodwork.geometry.rounding import down_to_step
from rodwork.geometry.vec import neg
from rodwork.joints.kind import (
    ACROSS,
    ALONG,
    INTO_GUEST,
    INTO_HOST,
    FixingPlan,
    JointKind,
    Run,
    Void,
    Which,
    straight_in,
)
from rodwork.joints.positions import across_mm, stand_in
from rodwork.model.feature import Bore, Slot
from rodwork.model.fixing import Item, Play
from rodwork.model.job import CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import length, switch, whole
from rodwork.model.shop import Shop

IN_FACE_MM = 15.0  # with 28 in an edge leaves 3 in 18 mm board; common practice, no source
IN_END_MM = 28.0
LEAST_IN_FACE_MM = 10.0
LEAST_LEFT_MM = 2.0
LEAST_OVER_MM = 3.0  # of board between a mortise and the face


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a job file may say of tenon-and-bolt fittings. Take the sizes from the fitting's own sheet."""

    thickness_mm: float = length(8.0, 4, 16, "thickness of the mortise: the cutter that makes it")
    width_mm: float = length(23.0, 8, 60, "length of the mortise along the joint")
    depth_in_face_mm: float | None = length(
        None, 6, 40, "mortise in the board worked on its face; 15, or what leaves the least remainder, if left out"
    )
    depth_in_end_mm: float | None = length(
        None, 10, 80, "mortise in the board worked on its end; 28, and what the face has less, if left out"
    )
    access_mm: float = length(14.0, 4, 25, "bore in the inner face that the bolt is tightened through")
    access_distance_mm: float = length(28.0, 8, 80, "end of the board to the middle of that bore")
    first_mm: float | None = length(
        None, 15, 1000, "front edge to the first fitting; 60 if left out, and as far from the other end of the run"
    )
    pitch_mm: float = length(400.0, 60, 2000, "farthest from one fitting to the next before there is one more")
    count: int | None = whole(None, 1, 60, "a fixed number in every row")
    offset_mm: float | None = length(
        None, 3, 40, "across the thickness from the flush face; nearest setting to the middle if left out"
    )
    caps: bool = switch(True, "a cap in every access bore")


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Fittings along the run; the bore in the inner face comes down into the mortise, and no further."""
    in_face, in_end = _depths(s, run.host_thickness, shop)
    if run.host_thickness - in_face < LEAST_LEFT_MM or in_face < LEAST_IN_FACE_MM:
        raise CannotBuild(
            ("depth_in_face",), f"a mortise {IN_FACE_MM if s.depth_in_face_mm is None else s.depth_in_face_mm:g} deep "
            f"does not go into a board that is {run.host_thickness:g}",
            f"use a board of at least {max(in_face, LEAST_IN_FACE_MM) + shop.least_remainder_mm:g} mm, or a shorter "
            "fitting",
        )  # fmt: skip
    over = (run.guest_thickness - s.thickness_mm) / 2
    if over < LEAST_OVER_MM:
        raise CannotBuild(
            ("thickness",), f"a mortise {s.thickness_mm:g} thick leaves {max(over, 0):.1f} mm over it in a "
            f"{run.guest_thickness:g} mm board",
            f"use a board of at least {s.thickness_mm + 2 * LEAST_OVER_MM:g} mm, or a thinner fitting",
        )  # fmt: skip
    if s.access_distance_mm - s.access_mm / 2 >= in_end:
        raise CannotBuild(
            ("access_distance",), f"an access bore of {s.access_mm:g} at {s.access_distance_mm:g} from the end "
            f"misses a mortise {in_end:g} deep",
            "take `access_distance` and `access` from the fitting's own sheet",
        )  # fmt: skip
    across = across_mm(s.offset_mm, run.guest_thickness, shop)
    row = stand_in(
        what="fittings", run_to=run.run_to, to_groove=run.to_groove, radius=s.width_mm / 2,
        first=s.first_mm if s.first_mm is not None else 60.0, pitch=s.pitch_mm, number=s.count,
        shift=2 * s.width_mm * run.stagger, taken=run.taken, apart=s.width_mm, shop=shop,
    )  # fmt: skip
    return tuple(_fitting(u, across, run.guest_thickness, (in_face, in_end), s) for u in row)


def _depths(s: Settings, host_thickness: float, shop: Shop) -> tuple[float, float]:
    """(in the face, in the end), mm: 15 and 28, or in thinner board less in the face and as much more in the end."""
    usual = min(IN_FACE_MM, down_to_step(host_thickness - shop.least_remainder_mm, shop.fence_step_mm))
    face = s.depth_in_face_mm if s.depth_in_face_mm is not None else usual
    end = s.depth_in_end_mm if s.depth_in_end_mm is not None else IN_FACE_MM + IN_END_MM - face
    return face, end


def _fitting(u: float, v: float, thickness: float, depths: tuple[float, float], s: Settings) -> FixingPlan:
    def mortise(board: Which, depth: float) -> Void:
        cut = Slot(
            id="h" if board == "host" else "g", role="seat", at=(u, v, 0.0), along=ALONG, depth=depth,
            into=INTO_HOST if board == "host" else INTO_GUEST, width=s.thickness_mm, length=s.width_mm, ends="round",
            end_radius=s.thickness_mm / 2,
        )  # fmt: skip
        return Void(board=board, cut=cut, tool="mortise jointer", cutter=f"{s.thickness_mm:g} mm")

    access = Void(
        board="guest", tool="drill and fence", cutter=f"{s.access_mm:g} mm", stands_on="the machined face",
        cut=Bore(id="a", role="access", at=(u, thickness, s.access_distance_mm), into=neg(ACROSS), along=ALONG,
                 diameter=s.access_mm, depth=round(thickness - v + s.thickness_mm / 2, 1)),
    )  # fmt: skip
    bought = [Item(item="tenon-and-bolt fitting", count=1)]
    if s.caps:
        bought.append(Item(item=f"cap for a bore of {s.access_mm:g}", count=1))
    return FixingPlan(
        u=u, v=v, length=sum(depths), law="meet", duty="both",
        host=mortise("host", depths[0]), guest=mortise("guest", depths[1]), others=(access,),
        hardware=tuple(bought), play=Play(along=0.1, across=0.1, shape="box"), moves=straight_in(depths[0]),
    )  # fmt: skip


KIND = JointKind(
    name="tenon-and-bolt fitting", title="Tenon-and-bolt fittings", settings=Settings, plan=plan, glued=False,
    nature=Nature(
        machines=("mortise jointer", "drill and fence"),
        registers_on="the outer face of the board worked on its end and, at the same fence, the end of the other; the "
        "access bore from the end, in the inner face",
        support="the machine's fence lies on the face; on an end under 19 mm clamp an offcut flush beside it",
        board_mm=(17.5, 40.0), glue="none", clamps="none", draws_up=True, at_once=True, apart=True,
        shows="a bore in the inner face", covered_by="a cap in each", demands_along_mm=0.2, demands_across_mm=0.2,
    ),
    places=("corner", "fixed shelf", "divider"),
)  # fmt: skip
