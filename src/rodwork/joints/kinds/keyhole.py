"""Screw heads in routed keyholes: pushed over the heads, then slid home along the joint."""

from dataclasses import dataclass

from rodwork.joints.kind import ALONG, INTO_GUEST, INTO_HOST, FixingPlan, JointKind, Run, Void
from rodwork.joints.positions import across_mm, stand_in
from rodwork.model.feature import Bore, Keyhole
from rodwork.model.fixing import Item, Move, Play
from rodwork.model.job import CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import length, text, whole
from rodwork.model.shop import Shop

DIAMETER_MM = 4.0
LENGTHS_MM = (16.0, 20.0, 25.0, 30.0, 35.0, 40.0)  # in ordinary sale
LEAST_HOLD_MM = 8.0  # of the screw in the face
LEAST_BESIDE_MM = 3.0  # of the edge beside the entry bore
END_CLEAR_MM = 10.0
SLACK_MM = 0.5  # the neck is this much wider than the shank
DRAW_MM = 0.15  # the head stands this much too low, and so draws the joint tight; common practice 0.1 to 0.2, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What a job file may say of keyholes."""

    screw: str | None = text(
        None,
        r"(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)",
        "4x20",
        "diameter x length of the screw; chosen from the board if left out",
    )
    head_mm: float = length(8.0, 5, 14, "diameter of its head")
    head_height_mm: float = length(2.5, 1, 8, "how high the head is, seat to top")
    lip_mm: float = length(5.0, 3, 15, "wood that the head grips behind, from the mouth of the slot")
    slide_mm: float = length(11.0, 5, 40, "how far the board slides home; keep more than the head is wide")
    pilot_mm: float = length(2.5, 1, 8, "pilot bore for the screw, in the face")
    first_mm: float | None = length(
        None, 15, 1000, "front edge to the first screw; 60 if left out, and as far from the other end of the run"
    )
    pitch_mm: float = length(200.0, 50, 1000, "farthest from one screw to the next before there is one more")
    count: int | None = whole(None, 2, 60, "a fixed number in every row")
    offset_mm: float | None = length(
        None, 3, 40, "across the thickness from the flush face; nearest setting to the middle if left out"
    )

    def __post_init__(self) -> None:
        """Refuse a slide that leaves the head in its own entry bore."""
        if self.slide_mm <= self.head_mm:
            raise ValueError(f"a slide of {self.slide_mm:g} leaves a head of {self.head_mm:g} in its own entry bore")


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Keyholes along the run, every entry bore on the same side of its home: towards the back.

    The board starts `slide` nearer the front and slides back, so both numbers are taken from the front and differ by
    the slide. The keyhole is in the edge, the screw in the face, its head set by a gauge.
    """
    diameter, screw_length = _screw(s, run.host_thickness, shop)
    if s.pilot_mm >= diameter:
        raise CannotBuild(
            ("pilot",), f"in a pilot bore of {s.pilot_mm:g} a screw of {diameter:g} has no wood to hold in",
            f"use a pilot of about {0.6 * diameter:.1f} mm, or a thicker screw",
        )  # fmt: skip
    entry, neck = s.head_mm + 1.0, diameter + SLACK_MM
    if neck >= s.head_mm:
        raise CannotBuild(
            ("head",), f"a head of {s.head_mm:g} has nothing to grip behind with a screw of {diameter:g}",
            f"use a head of at least {diameter + 2.5:g} mm",
        )  # fmt: skip
    beside = (run.guest_thickness - entry) / 2
    if beside < LEAST_BESIDE_MM:
        raise CannotBuild(
            ("head",), f"an entry bore of {entry:g} leaves {max(beside, 0):.1f} mm beside it in an edge of "
            f"{run.guest_thickness:g} mm",
            f"use a smaller head, or a board of at least {entry + 2 * LEAST_BESIDE_MM:g} mm",
        )  # fmt: skip
    room = run.run_to - s.slide_mm - entry / 2 - END_CLEAR_MM
    row = stand_in(
        what="keyholes", run_to=max(room, 0.0) + END_CLEAR_MM, to_groove=False, radius=entry / 2,
        first=s.first_mm if s.first_mm is not None else 60.0, pitch=s.pitch_mm, number=s.count,
        shift=2 * entry * run.stagger, taken=run.taken, apart=s.slide_mm + entry, shop=shop,
    )  # fmt: skip
    across = across_mm(s.offset_mm, run.guest_thickness, shop)
    return tuple(_keyhole(u, across, entry, neck, screw_length, s) for u in row)


def _stands_out(s: Settings) -> float:
    """How far the top of the head stands over the face, mm: set by a gauge, a little low."""
    return round(s.lip_mm - DRAW_MM + s.head_height_mm, 2)


def _screw(s: Settings, host_thickness: float, shop: Shop) -> tuple[float, float]:
    """Diameter and length of the screw: the longest that leaves the least remainder of the board behind it."""
    if s.screw is not None:
        diameter, screw_length = (float(n) for n in s.screw.split("x"))
    else:
        deepest = host_thickness - shop.least_remainder_mm + _stands_out(s)
        diameter, screw_length = DIAMETER_MM, max((n for n in LENGTHS_MM if n <= deepest), default=LENGTHS_MM[0])
    hold = screw_length - _stands_out(s)
    if hold < LEAST_HOLD_MM:
        raise CannotBuild(
            ("screw",), f"a screw {screw_length:g} long stands {_stands_out(s):g} out of the face and is held by "
            f"{max(hold, 0):.1f} mm of it",
            f"use a screw of at least {_stands_out(s) + LEAST_HOLD_MM:.0f} mm, or a thinner `lip`",
        )  # fmt: skip
    return diameter, screw_length


def _keyhole(u: float, v: float, entry: float, neck: float, screw_length: float, s: Settings) -> FixingPlan:
    """One screw and its keyhole. Short of home the head holds as long as half of it is past the entry bore."""
    stands_out = _stands_out(s)
    pilot = Void(
        board="host", tool="drill and fence", cutter=f"{s.pilot_mm:g} mm",
        cut=Bore(id="h", role="pilot", at=(u, v, 0.0), into=INTO_HOST, along=ALONG, diameter=s.pilot_mm,
                 depth=round(screw_length - stands_out, 1)),
    )  # fmt: skip
    depth = s.lip_mm + s.head_height_mm + 0.5
    hole = Void(
        board="guest", tool="router and fence", cutter=f"keyhole bit {s.head_mm + 0.5:g} / {neck:g}",
        cut=Keyhole(id="g", role="seat", at=(u, v, 0.0), into=INTO_GUEST, along=ALONG, depth=depth, slide=s.slide_mm,
                    entry_diameter=entry, slot_width=neck, head_width=s.head_mm + 0.5,
                    head_depth=s.head_height_mm + 0.5),
    )  # fmt: skip
    return FixingPlan(
        u=u, v=v, length=screw_length, law="meet", duty="both", host=pilot, guest=hole,
        hardware=(Item(item=f"screw {neck - SLACK_MM:g}x{screw_length:g}, head {s.head_mm:g}", count=1),),
        play=Play(along=SLACK_MM / 2, across=SLACK_MM / 2, shape="box", short=round(s.slide_mm - entry / 2, 6)),
        moves=(Move(push=INTO_HOST, mm=stands_out), Move(push=ALONG, mm=s.slide_mm)),
    )  # fmt: skip


KIND = JointKind(
    name="keyhole", title="Screw heads in keyholes", settings=Settings, plan=plan, glued=False,
    nature=Nature(
        machines=("router and fence", "drill and fence"),
        registers_on="the outer face of the board with the keyholes; on the other the end that lies in its plane, and "
        "the height of each head by a gauge off its inner face",
        support="the router stands on an end: clamp an offcut flush on both sides of it",
        board_mm=(15.0, 40.0), glue="none", clamps="none", draws_up=True, at_once=True, apart=True,
        shows="", covered_by="", demands_along_mm=0.3, demands_across_mm=0.3,
    ),
    places=("corner", "fixed shelf", "divider"),
)  # fmt: skip
