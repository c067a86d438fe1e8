"""Cam and bolt: a bolt in the face of one board, a cam sunk in the inner face of the other that draws it home."""

from dataclasses import dataclass

from rodwork.geometry.rounding import to_step
from rodwork.joints.kind import ACROSS, ALONG, INTO_GUEST, INTO_HOST, FixingPlan, JointKind, Run, Void, straight_in
from rodwork.joints.positions import stand_in
from rodwork.model.feature import Bore
from rodwork.model.fixing import Item, Play
from rodwork.model.job import CannotBuild
from rodwork.model.meeting import Entry
from rodwork.model.nature import Nature
from rodwork.model.settings import length, switch, whole
from rodwork.model.shop import Shop

THICK_MM = 16.5  # from here on the deeper cam that stands further from its face; common practice, no source
PLAY_MM = 0.25  # of the bolt in its tunnel before the cam draws it; common practice, no source
LEAST_UNDER_CAM_MM = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a job file may say of cams. Take the sizes from the fitting's own sheet."""

    cam_diameter_mm: float = length(15.0, 8, 40, "bore for the cam, in the inner face")
    cam_depth_mm: float | None = length(
        None, 6, 40, "depth of the cam's bore; 12.5 in board under 16.5 and 14 from there on if left out"
    )
    axis_mm: float | None = length(
        None, 3, 30, "inner face to the middle of the bolt; 8 in board under 16.5 and 9 from there on if left out"
    )
    distance_mm: float = length(34.0, 12, 80, "end of the board to the middle of the cam, as the bolt is long")
    tunnel_mm: float = length(8.0, 4, 15, "bore for the bolt in the end, through to the cam")
    bolt_mm: float = length(5.0, 3, 12, "bore for the bolt's thread in the face")
    bolt_depth_mm: float = length(11.0, 5, 40, "depth of the bore for the thread")
    first_mm: float | None = length(
        None, 15, 1000, "front edge to the first cam; 60 if left out, and as far from the other end of the run"
    )
    pitch_mm: float = length(480.0, 50, 2000, "farthest from one cam to the next before there is one more")
    count: int | None = whole(None, 1, 60, "a fixed number in every row")
    caps: bool = switch(False, "a cover cap in every cam")


FIRST_MM = 60.0  # centres 50 to 70 from both edges; common practice, no source


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Cams along the run, as far from its one end as from the other, so that boards can be exchanged."""
    t = run.guest_thickness
    depth = s.cam_depth_mm if s.cam_depth_mm is not None else (14.0 if t >= THICK_MM else 12.5)
    usual = 9.0 if t >= THICK_MM else 8.0
    axis = to_step(s.axis_mm if s.axis_mm is not None else usual, shop.step_mm)  # as printed, from either face
    if t - depth < LEAST_UNDER_CAM_MM:
        raise CannotBuild(
            ("cam_depth",), f"a cam {depth:g} deep leaves {max(t - depth, 0):.1f} mm of a board that is {t:g}",
            f"use a board of at least {depth + shop.least_remainder_mm:g} mm, or a flatter cam",
        )  # fmt: skip
    if axis + s.tunnel_mm / 2 > t - LEAST_UNDER_CAM_MM:
        raise CannotBuild(
            ("axis",), f"a tunnel of {s.tunnel_mm:g} mm at {axis:g} from the inner face breaks out of a {t:g} mm board",
            "take `axis` and `tunnel` from the fitting's own sheet, or use a thicker board",
        )  # fmt: skip
    row = stand_in(
        what="cams", run_to=run.run_to, to_groove=run.to_groove, radius=s.cam_diameter_mm / 2,
        first=s.first_mm if s.first_mm is not None else FIRST_MM, pitch=s.pitch_mm, number=s.count,
        shift=2 * s.cam_diameter_mm * run.stagger, taken=run.taken, apart=s.cam_diameter_mm, shop=shop,
    )  # fmt: skip
    return tuple(_cam(u, axis, depth, s) for u in row)


def _cam(u: float, axis: float, depth: float, s: Settings) -> FixingPlan:
    bolt = Void(
        board="host", tool="drill and fence", cutter=f"{s.bolt_mm:g} mm",
        cut=Bore(id="h", role="seat", at=(u, axis, 0.0), into=INTO_HOST, along=ALONG, depth=s.bolt_depth_mm,
                 diameter=s.bolt_mm),
    )  # fmt: skip
    tunnel = Void(
        board="guest", tool="drill and fence", cutter=f"{s.tunnel_mm:g} mm",
        cut=Bore(id="g", role="seat", at=(u, axis, 0.0), into=INTO_GUEST, along=ALONG, depth=s.distance_mm,
                 diameter=s.tunnel_mm),
    )  # fmt: skip
    cam = Void(
        board="guest", tool="drill and fence", cutter=f"{s.cam_diameter_mm:g} mm flat bit",
        stands_on="the machined face",
        cut=Bore(id="c", role="access", at=(u, 0.0, s.distance_mm), into=ACROSS, along=ALONG, depth=depth,
                 diameter=s.cam_diameter_mm),
    )  # fmt: skip
    bought = [Item(item=f"cam {s.cam_diameter_mm:g} mm", count=1), Item(item=f"cam bolt {s.distance_mm:g}", count=1)]
    if s.caps:
        bought.append(Item(item=f"cover cap for cam {s.cam_diameter_mm:g} mm", count=1))
    return FixingPlan(
        u=u, v=axis, length=s.distance_mm, law="meet", duty="draws up", host=bolt, guest=tunnel, others=(cam,),
        hardware=tuple(bought), play=Play(along=PLAY_MM, across=PLAY_MM, shape="round"),
        moves=straight_in(s.distance_mm),
    )  # fmt: skip


def entry(host_thickness: float, guest_thickness: float, s: Settings, shop: Shop) -> Entry:
    """The cam's waist is a fixed depth below the face it is sunk in: both halves are set from that face."""
    return Entry(inner=True)


KIND = JointKind(
    name="cam", title="Cam and bolt", settings=Settings, plan=plan, entry=entry, glued=False,
    nature=Nature(
        machines=("drill and fence",),
        registers_on="the inner face of the board with the cam, for the cam and its tunnel; on the other board the "
        "line where that face comes, its own measured thickness from the end",
        support="the drill's fence lies on the face: clamp an offcut flush beside a narrow end",
        board_mm=(15.0, 30.0), glue="none", clamps="none", draws_up=True, at_once=True, apart=True,
        shows="a cam in the inner face", covered_by="a cap in each", demands_along_mm=0.3, demands_across_mm=0.25,
    ),
    places=("corner", "fixed shelf", "divider"),
)  # fmt: skip
