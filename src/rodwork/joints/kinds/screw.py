"""Screwed butt: a clearance bore through the board worked on its face, a pilot in the end of the other."""

from dataclasses import dataclass

from rodwork.geometry.rounding import to_step
from rodwork.joints.kind import ALONG, INTO_GUEST, FixingPlan, JointKind, Run, Void, straight_in
from rodwork.joints.leaning import across_the_slope, room_below, too_deep
from rodwork.joints.positions import RowSettings, across_mm, row_of
from rodwork.model.feature import Bore, Countersink
from rodwork.model.fixing import Item, Play
from rodwork.model.job import Back, CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import choice, length, switch, text
from rodwork.model.shop import Shop

LENGTHS_MM = (16, 20, 25, 30, 35, 40, 50, 60, 70, 80)
HOLD_MM = 28.0  # thread wanted in the end of a board of 12 mm and more: 4 x 50 in 18 mm; common practice, no source
HOLD_THIN_MM = 16.0  # the same for a thin back planted on an edge
THIN_MM = 10.0
CLEARANCE_OVER = {3.0: 3.5, 3.5: 4.0, 4.0: 4.5, 4.5: 5.0, 5.0: 5.5, 6.0: 6.5}
PILOT_SHARE = 0.7  # of the screw's diameter: 2.8 for a 4 mm screw; practice gives 2.5 to 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings(RowSettings):
    """What a job file may say of screws."""

    size: str | None = text(
        None, r"(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)", "4x50", "diameter x length; chosen from the boards if left out"
    )
    offset_mm: float | None = length(
        None, 2, 40, "across the thickness from the flush face; nearest setting to the middle if left out"
    )
    clearance_mm: float | None = length(None, 2, 12, "clearance bore; half a millimetre over the screw if left out")
    pilot_diameter_mm: float | None = length(None, 1, 10, "pilot bore; about seven tenths of the screw if left out")
    head: str = choice("countersunk", ("countersunk", "plugged"), "a countersunk head, or a counterbore with a plug")
    head_diameter_mm: float | None = length(None, 4, 20, "diameter of the head; twice the screw if left out")
    plug_mm: float = length(10.0, 6, 20, "diameter of the plug")
    plug_depth_mm: float = length(8.0, 3, 20, "depth of the counterbore for the plug")
    pilot: str = choice("in place", ("in place", "beforehand"), "bored through the clearance bore, or set out")
    glue: bool = switch(True, "glue on the butt as well")


def _size(s: Settings, run: Run, shop: Shop) -> tuple[float, float]:
    """Diameter and length of the screw; in a bevelled end not so long that it comes out at a face."""
    if s.size is not None:
        diameter, screw_length = (float(n) for n in s.size.split("x"))
        return diameter, screw_length
    thin = run.host_thickness < THIN_MM
    sunk = s.plug_depth_mm if s.head == "plugged" else 0.0
    before, diameter = run.host_thickness - run.reach - sunk, 3.5 if thin else 4.0
    wanted = before + (HOLD_THIN_MM if thin else HOLD_MM)
    able: tuple[int, ...] = LENGTHS_MM
    if run.nears:
        v = across_the_slope(s.offset_mm, _half(s, diameter), run, shop)
        deepest = before + room_below(v, diameter / 2, run, shop)
        able = tuple(n for n in LENGTHS_MM if n <= deepest) or LENGTHS_MM[:1]
    return diameter, float(next((n for n in able if n >= wanted), able[-1]))


def _clearance(s: Settings, diameter: float) -> float:
    return s.clearance_mm if s.clearance_mm is not None else CLEARANCE_OVER.get(diameter, diameter + 0.5)


def _half(s: Settings, diameter: float) -> float:
    """Half of what is widest on the face that it is driven through: the head, or the plug over it."""
    if s.head == "plugged":
        return s.plug_mm / 2
    return max(_clearance(s, diameter), _head(s, diameter)) / 2


def _head(s: Settings, diameter: float) -> float:
    return s.head_diameter_mm if s.head_diameter_mm is not None else 2 * diameter


def _steps(s: Settings, diameter: float) -> None:
    """The screw goes through its clearance bore, bites in its pilot and is held by its head. Raises CannotBuild."""
    clearance, pilot, head = _clearance(s, diameter), _pilot(s, diameter), _head(s, diameter)
    if clearance < diameter:
        raise CannotBuild(
            ("clearance",), f"a screw of {diameter:g} mm does not go through a clearance bore of {clearance:g}",
            f"make it {diameter:g} or more, or leave it out",
        )  # fmt: skip
    if pilot >= diameter:
        raise CannotBuild(
            ("pilot_diameter",), f"a screw of {diameter:g} mm finds no hold in a pilot bore of {pilot:g}",
            f"make it {_usual_pilot(diameter):g}, or leave it out",
        )  # fmt: skip
    if head <= clearance:
        raise CannotBuild(
            ("head_diameter",), f"a head of {head:g} mm goes through a clearance bore of {clearance:g}",
            f"make it {2 * diameter:g}, or leave it out",
        )  # fmt: skip
    if s.head == "plugged" and s.plug_mm < head:
        raise CannotBuild(
            ("plug",), f"a head of {head:g} mm does not go down a counterbore of {s.plug_mm:g}",
            f"make the plug {head:g} or more",
        )  # fmt: skip


def _pilot(s: Settings, diameter: float) -> float:
    return s.pilot_diameter_mm if s.pilot_diameter_mm is not None else _usual_pilot(diameter)


def _usual_pilot(diameter: float) -> float:
    return round(diameter * PILOT_SHARE * 2) / 2


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Screws along the run: half a pitch on from the family before it, where a recipe mixes families."""
    diameter, screw_length = _size(s, run, shop)
    through = run.host_thickness - max(run.reach, 0.0)
    sunk = s.plug_depth_mm if s.head == "plugged" else 0.0
    hold = screw_length - (run.host_thickness - run.reach - sunk)
    if sunk and through - sunk < 5.0:
        raise CannotBuild(
            ("plug_depth",), f"a plug {sunk:g} deep leaves {through - sunk:g} mm under the head of the screw",
            f"make it {max(through - 5.0, 0):g} deep or less",
        )  # fmt: skip
    _steps(s, diameter)
    if hold < 10.0:
        raise CannotBuild(
            ("size",), f"a {diameter:g} x {screw_length:g} screw goes only {max(hold, 0):g} mm into the second board",
            f"use a screw of at least {through - sunk + 10.0:g} mm",
        )  # fmt: skip
    row = row_of(
        run, s, shop, what="screws", half=diameter / 2, pitch=2 * shop.pitch_mm, least_apart=5 * diameter,
        between=3 * diameter, shift=4 * diameter,  # two diameters of the head
        bore=_clearance(s, diameter) / 2,
    )  # fmt: skip
    across = across_mm(s.offset_mm, run.guest_thickness, shop)
    if run.nears:
        across = across_the_slope(s.offset_mm, _half(s, diameter), run, shop)
        if hold > room_below(across, diameter / 2, run, shop) + 1e-9:
            raise too_deep(f"a {diameter:g} x {screw_length:g} screw", hold, diameter / 2, run, shop)
    return tuple(_screw(u, across, diameter, screw_length, through, hold, run, s, shop) for u in row)


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
    clearance = _clearance(s, diameter)
    pilot = _pilot(s, diameter)
    head = _head(s, diameter)
    plugged = s.head == "plugged"
    outside = (u, v, -run.host_thickness)
    clearance_bore = Void(
        board="host", tool="drill and fence",
        cutter=f"{clearance:g} mm" + ("" if plugged else f", countersink {head:g}"),
        cut=Bore(id="c", role="clearance", at=outside, into=INTO_GUEST, along=ALONG, depth=through,
                 diameter=clearance, through=True,
                 countersink=None if plugged else Countersink(diameter=head, angle=90.0)),
    )  # fmt: skip
    pilot_bore = Void(
        board="guest", tool="drill and fence", cutter=f"{pilot:g} mm",
        cut=Bore(id="p", role="pilot", at=(u, v, -run.reach), into=INTO_GUEST, along=ALONG,
                 depth=to_step(hold, shop.fence_step_mm), diameter=pilot,
                 stage="in place" if s.pilot == "in place" else "after edging"),
    )  # fmt: skip
    plug = Void(
        board="host", tool="drill and fence", cutter=f"{s.plug_mm:g} mm flat bit",
        cut=Bore(id="b", role="access", at=outside, into=INTO_GUEST, along=ALONG, depth=s.plug_depth_mm,
                 diameter=s.plug_mm),
    )  # fmt: skip
    bought = [Item(item=f"screw {diameter:g}x{screw_length:g}", count=1)]
    if plugged:
        bought.append(Item(item=f"plug {s.plug_mm:g} mm", count=1))
    play = round((clearance - diameter) / 2, 6)
    return FixingPlan(
        u=u, v=v, length=screw_length, law="line", duty="draws up", host=clearance_bore, guest=pilot_bore,
        others=(plug,) if plugged else (), hardware=tuple(bought),
        play=Play(along=play, across=play, shape="round"),
        moves=straight_in(max(run.reach, 1.0)),
    )  # fmt: skip


def for_back(back: Back) -> Settings:
    """Screws that hold a planted or an inset back."""
    return Settings(glue=False)


KIND = JointKind(
    name="screw", title="Screwed butt", settings=Settings, plan=plan, glued=True,
    nature=Nature(
        machines=("drill and fence",),
        registers_on="none: held flush by hand, clamp or corner block; the clearance bore is gauged on the outside, "
        "the pilot bored through it in place",
        support="the drill stands on the whole outer face",
        board_mm=(12.0, 40.0), glue="optional", clamps="none", draws_up=True, at_once=True, apart=True,
        shows="heads on the outside", covered_by="plugs, caps or an end panel",
        demands_along_mm=1.0, demands_across_mm=0.5,
    ),
    places=("corner", "fixed shelf", "divider", "planted back", "inset back", "face frame", "on a slope"),
    backs=("planted", "inset"), for_back=for_back,
)  # fmt: skip
