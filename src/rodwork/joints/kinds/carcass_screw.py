"""One-piece carcass screws: one stepped bit bores the thread's pilot, the shank's hole and the head's seat."""

from dataclasses import dataclass

from rodwork.geometry.rounding import to_step
from rodwork.joints.kind import ALONG, INTO_GUEST, FixingPlan, JointKind, Run, Void, straight_in
from rodwork.joints.positions import RowSettings, across_mm, row_of
from rodwork.model.feature import Bore, Countersink
from rodwork.model.fixing import Item, Play
from rodwork.model.job import CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import choice, length, switch, text
from rodwork.model.shop import Shop

LENGTHS_MM = (40, 50, 60, 70)
HOLD_MM = 31.0  # thread in the edge: 7 x 50 through 18 mm leaves 32; common practice, no source
LEAST_HOLD_MM = 20.0
LEAST_FIRST_MM = 40.0  # nearer the end the edge splits; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings(RowSettings):
    """What a job file may say of one-piece carcass screws."""

    size: str | None = text(
        None, r"(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)", "7x50", "diameter x length; chosen from the board if left out"
    )
    offset_mm: float | None = length(
        None, 3, 40, "across the thickness from the flush face; nearest setting to the middle if left out"
    )
    pilot_diameter_mm: float = length(5.0, 2, 10, "the thread's pilot, in the edge")
    head_diameter_mm: float = length(10.0, 5, 20, "the head, sunk flush")
    pilot: str = choice("in place", ("in place", "beforehand"), "bored through the other board, or set out")
    glue: bool = switch(False, "glue on the butt as well")


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Screws along the run, each one's hole stepped in one pass."""
    through = run.host_thickness - max(run.reach, 0.0)
    diameter, screw_length = _size(s, through)
    hold = screw_length - run.host_thickness + run.reach
    if hold < LEAST_HOLD_MM:
        raise CannotBuild(
            ("size",), f"a {diameter:g} x {screw_length:g} screw goes only {max(hold, 0):g} mm into the edge",
            f"use one of at least {through + LEAST_HOLD_MM:g} mm",
        )  # fmt: skip
    if s.pilot_diameter_mm >= diameter or s.head_diameter_mm <= diameter:
        raise CannotBuild(
            ("size",),
            f"a stepped hole of {s.pilot_diameter_mm:g}, {diameter:g} and {s.head_diameter_mm:g} mm has no steps",
            "the pilot is narrower than the screw and the head wider",
        )  # fmt: skip
    row = row_of(
        run, s, shop, what="screws", half=diameter / 2, clear=LEAST_FIRST_MM - diameter / 2, pitch=2 * shop.pitch_mm,
        least_apart=5 * diameter, between=3 * diameter, shift=2 * s.head_diameter_mm,
    )  # fmt: skip
    v = across_mm(s.offset_mm, run.guest_thickness, shop)
    return tuple(_screw(u, v, diameter, screw_length, through, hold, run, s, shop) for u in row)


def _size(s: Settings, through: float) -> tuple[float, float]:
    """Diameter and length of the screw, mm."""
    if s.size is not None:
        diameter, screw_length = (float(n) for n in s.size.split("x"))
        return diameter, screw_length
    return 7.0, float(next((n for n in LENGTHS_MM if n >= through + HOLD_MM), LENGTHS_MM[-1]))


def _screw(
    u: float,
    v: float,
    diameter: float,
    screw_length: float,
    through: float,
    hold: float,
    run: Run,
    s: Settings,
    shop: Shop,
) -> FixingPlan:
    bit = f"stepped bit {s.pilot_diameter_mm:g}/{diameter:g}/{s.head_diameter_mm:g}"
    shank = Void(
        board="host", tool="drill and fence", cutter=bit,
        cut=Bore(id="c", role="clearance", at=(u, v, -run.host_thickness), into=INTO_GUEST, along=ALONG, depth=through,
                 diameter=diameter, through=True, countersink=Countersink(diameter=s.head_diameter_mm, angle=90.0)),
    )  # fmt: skip
    thread = Void(
        board="guest", tool="drill and fence", cutter=f"{s.pilot_diameter_mm:g} mm",
        cut=Bore(id="p", role="pilot", at=(u, v, -run.reach), into=INTO_GUEST, along=ALONG,
                 depth=to_step(hold, shop.fence_step_mm), diameter=s.pilot_diameter_mm,
                 stage="in place" if s.pilot == "in place" else "after edging"),
    )  # fmt: skip
    return FixingPlan(
        u=u, v=v, length=screw_length, law="line", duty="both", host=shank, guest=thread,
        hardware=(Item(item=f"carcass screw {diameter:g}x{screw_length:g}", count=1),),
        play=Play(along=0.0, across=0.0, shape="round"), moves=straight_in(max(run.reach, 1.0)),
    )  # fmt: skip


KIND = JointKind(
    name="carcass screw", title="One-piece carcass screws", settings=Settings, plan=plan, glued=True,
    nature=Nature(
        machines=("drill and fence",),
        registers_on="none, bored in place: held flush by hand, clamp or corner block; bored beforehand, as a dowel: "
        "the outer face of the board worked on its end and the end of the other",
        support="the drill stands on the whole outer face; beforehand, on the end: clamp an offcut beside it",
        board_mm=(16.0, 30.0), glue="optional", clamps="optional", draws_up=True, at_once=True, apart=True,
        shows="heads of 10 mm on the outside", covered_by="caps or an end panel",
        demands_along_mm=0.3, demands_across_mm=0.3,
    ),
    places=("corner", "fixed shelf", "divider"),
)  # fmt: skip
