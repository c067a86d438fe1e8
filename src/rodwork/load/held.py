"""Where a shelf is held: by joints, pins, by boards, legs or the floor under it; read from the Rod by what is there."""

from dataclasses import dataclass
from math import ceil

from rodwork.model.demand import Tested
from rodwork.model.fixing import Fixing, Joint
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

REACH_OF_PINS_MM = 12.0  # a pin's middle lies at most so far below the underside of its shelf
SIDEWAYS_MM = 6.0  # and its bore so far from the end of the shelf
END_MM = 30.0  # a joint so near an end of a shelf holds that end
NEAR_MM = 1.0
STANDS = (
    "divider",
    "part divider",
    "batten",
    "side",
    "plinth frame",
)  # boards on edge that may carry a shelf from below
ON_THE_FLOOR = ("base", "tall", "wardrobe", "bookcase", "under slope")  # kinds that stand, without feet, on the floor
FRAMED_MM = 300.0  # the boards of a plinth frame bear all along; reckoned so far apart at the most
PACKED_MM = 600.0  # a bottom on the floor is packed up so far apart at the most; common practice, no source
ON_LEGS, ON_FRAME, PACKED = "on legs", "on its plinth frame", "packed up"
TAKEN = {
    ON_FRAME: f"A bottom on its plinth frame is reckoned as held every {FRAMED_MM:g} at the most.",
    PACKED: f"A bottom that lies on the floor is taken as packed up under it at most {PACKED_MM:g} apart: pack it so "
    "(common practice, no source).",
}  # what is said of it


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """One place where a shelf is held: along it from its left end, and the first and last depth from its front, mm.

    `joints` hold it there, `others` are the boards that it is held by.
    """

    at_mm: float
    turning_Nmm_per_rad: float
    first_mm: float
    last_mm: float
    by: str
    joints: tuple[str, ...] = ()
    others: tuple[str, ...] = ()


def tested_for(fixing: Fixing, rod: Rod) -> Tested | None:
    """What the maker entered for one of the things that a fixing is bought as, by its name or how that begins.

    A fixing for which nothing is bought, such as a housing, goes by its family.
    """
    names = [item.item for item in fixing.hardware] or [fixing.family]
    return next((t for name in names if (t := named_in(name, rod)) is not None), None)


def named_in(item: str, rod: Rod) -> Tested | None:
    """What the maker entered for something on the buying list, by its name or how that begins."""
    return next((t for name, t in rod.tested.items() if item.casefold().startswith(name.casefold())), None)


def held_at(part: Part, cabinet: RodCabinet, rod: Rod, propped: bool = False) -> tuple[Held, ...]:
    """Every place that holds a lying board, from the left; places that agree are one.

    What stands on a shelf gives way with it: it holds nothing, unless `propped` asks what it would bring down.
    """
    found = [h for j in cabinet.joints if part.id in j.parts for h in _by_joint(part, j, cabinet, rod)]
    found += _by_pins(part, cabinet)
    found += _from_below(part, cabinet)
    found += _off_the_floor(part, cabinet, rod)
    if not propped:
        found = [h for h in found if not any(stands_on_shelf(cabinet.part[id], cabinet) for id in h.others)]
    out: list[Held] = []
    for held in sorted(found, key=lambda h: h.at_mm):
        if out and held.at_mm - out[-1].at_mm < END_MM:
            out[-1] = _together(out[-1], held)
        else:
            out.append(held)
    return tuple(out)


def stands_on_shelf(upright: Part, cabinet: RodCabinet) -> bool:
    """Whether a part-height divider stands on a shelf, and not on the bottom."""
    hosts = (cabinet.part[j.parts[0]] for j in cabinet.joints if j.parts[1] == upright.id and j.contact.out[2] > 0.9)
    return upright.role == "part divider" and any(host.role == "fixed shelf" for host in hosts)


def _together(a: Held, b: Held) -> Held:
    return Held(
        at_mm=a.at_mm, turning_Nmm_per_rad=max(a.turning_Nmm_per_rad, b.turning_Nmm_per_rad),
        first_mm=min(a.first_mm, b.first_mm), last_mm=max(a.last_mm, b.last_mm), by=a.by,
        joints=tuple(dict.fromkeys((*a.joints, *b.joints))), others=tuple(dict.fromkeys((*a.others, *b.others))),
    )  # fmt: skip


def _by_joint(part: Part, joint: Joint, cabinet: RodCabinet, rod: Rod) -> list[Held]:
    """An end jointed to an upright, or an upright jointed to its face that carries it from below or beside."""
    other = cabinet.part[joint.parts[0] if joint.parts[1] == part.id else joint.parts[1]]
    if other.role == "stiffener":  # it bends with the shelf, and holds it nowhere
        return []
    out = joint.contact.out
    low, high = part.box
    if joint.parts[1] == part.id and abs(out[0]) > 0.1:  # its end on an upright's face, or in a mitre with it
        at = 0.0 if out[0] > 0 else high[0] - low[0]
    elif joint.parts[0] == part.id and abs(out[2]) > 0.9 and (other.role == "side" or out[2] < 0):
        a, b = other.box
        at = min(max((a[0] + b[0]) / 2 - low[0], 0.0), high[0] - low[0])
    else:
        return []
    first, last = _depths(joint, low[1], high[1])
    turning = 0.0
    for fixing in joint.fixings:
        tested = tested_for(fixing, rod)
        turning += (tested.turning_Nmm_per_rad or 0.0) if tested else 0.0
    return [
        Held(
            at_mm=at, turning_Nmm_per_rad=turning, first_mm=first, last_mm=last, by="jointed", joints=(joint.id,),
            others=(other.id,),
        )
    ]  # fmt: skip


def _depths(joint: Joint, front: float, back: float) -> tuple[float, float]:
    """From its front, where the first and the last fixing of a joint hold it; a channel holds the whole run."""
    runs = [f for f in joint.fixings if f.law == "enter"]
    if runs:
        ends = (joint.contact.from_point[1], joint.contact.to_point[1])
    else:
        places = [f.at[1] for f in joint.fixings]
        ends = (min(places, default=front), max(places, default=back))
    return max(min(ends) - front, 0.0), min(max(ends) - front, back - front)


def _by_pins(part: Part, cabinet: RodCabinet) -> list[Held]:
    """Pins in bores beside its ends, at the height of its underside."""
    low, high = part.box
    found: dict[str, list[tuple[str, float]]] = {}
    for other in cabinet.parts:
        for f in other.features:
            if f.role != "shelf_pin":
                continue
            x, y, z = other.pose.to_cabinet(f.at)
            beside = next(
                (e for e in ("left", "right") if abs(x - (low[0] if e == "left" else high[0])) <= SIDEWAYS_MM), ""
            )
            if beside and low[2] - REACH_OF_PINS_MM <= z <= low[2] + NEAR_MM and low[1] <= y <= high[1]:
                found.setdefault(beside, []).append((other.id, y - low[1]))
    return [
        Held(
            at_mm=0.0 if end == "left" else high[0] - low[0], turning_Nmm_per_rad=0.0,
            first_mm=min(y for _, y in places), last_mm=max(y for _, y in places), by="on pins",
            others=tuple(dict.fromkeys(part for part, _ in places)),
        )
        for end, places in found.items()
    ]  # fmt: skip


def _from_below(part: Part, cabinet: RodCabinet) -> list[Held]:
    """Boards on edge that stand right under it: dividers, battens; not what only stiffens it along its length."""
    low, high = part.box
    found = []
    for other in cabinet.parts:
        a, b = other.box
        across = min(b[0], high[0]) - max(a[0], low[0])
        along = min(b[1], high[1]) - max(a[1], low[1])
        upright = b[2] - a[2] > b[0] - a[0]
        if other.role not in STANDS or abs(b[2] - low[2]) > NEAR_MM or min(across, along) <= 0:
            continue
        if upright and across < 0.5 * (high[0] - low[0]):
            found.append(
                    Held(
                        at_mm=(max(a[0], low[0]) + min(b[0], high[0])) / 2 - low[0], turning_Nmm_per_rad=0.0,
                        first_mm=max(a[1] - low[1], 0.0), last_mm=min(b[1], high[1]) - low[1], by="stands on",
                        others=(other.id,),
                    )
                )  # fmt: skip
    return found


def _off_the_floor(part: Part, cabinet: RodCabinet, rod: Rod) -> list[Held]:
    """What the bottom has between its ends: legs, a plinth frame, or the floor that it lies on, packed up."""
    if part.role != "bottom":
        return []
    low, high = part.box
    if cabinet.footing is None:
        return _evenly(part, PACKED_MM, PACKED, low[1], high[1]) if lies_on_the_floor(part, cabinet, rod) else []
    if cabinet.footing.style == "plinth frame":
        boards = [p.box for p in cabinet.parts if p.role == "plinth frame"]
        front, back = min(a[1] for a, _ in boards), max(b[1] for _, b in boards)
        return _evenly(part, FRAMED_MM, ON_FRAME, front, back)
    rows: dict[float, list[float]] = {}
    for x, y in cabinet.footing.feet if cabinet.footing.style == "legs" else ():
        rows.setdefault(x, []).append(y)
    return [_below(part, x - low[0], ON_LEGS, min(ys), max(ys)) for x, ys in rows.items() if low[0] < x < high[0]]


def _evenly(part: Part, apart_mm: float, by: str, front: float, back: float) -> list[Held]:
    low, high = part.box
    spans = ceil((high[0] - low[0]) / apart_mm)
    return [_below(part, n * (high[0] - low[0]) / spans, by, front, back) for n in range(1, spans)]


def _below(part: Part, at_mm: float, by: str, front: float, back: float) -> Held:
    """Held from below at one place of its length, from front to back of the cabinet as far as the board goes."""
    low, high = part.box
    first, last = (min(max(y, low[1]), high[1]) - low[1] for y in (front, back))
    return Held(at_mm=at_mm, turning_Nmm_per_rad=0.0, first_mm=first, last_mm=last, by=by)


def lies_on_the_floor(part: Part, cabinet: RodCabinet, rod: Rod) -> bool:
    """Whether this is the lowest board of a cabinet that stands on its own: on no feet, and on none of a run."""
    asked = cabinet.asked
    raised = asked.alcove is not None and min(asked.alcove.feet) > NEAR_MM
    stands = asked.style in ON_THE_FLOOR and cabinet.footing is None and asked.hanging is None and not raised
    in_run = any(s.name == cabinet.name for run in rod.runs for s in run.standings)
    return stands and not in_run and part.box[0][2] < NEAR_MM
