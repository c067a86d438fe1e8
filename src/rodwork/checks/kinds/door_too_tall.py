"""A door with too few hinges for its height and weight, or past the end of the guide, or wider than its hinges."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import Spot, mm, told_once
from rodwork.model.finding import Finding
from rodwork.model.fronts import DoorHung
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CODE = "door-too-tall"
PAIR = ("left door", "right door")
_HAIR = 1e-6
GUIDE = "a hinge chart, read second-hand, for 19 mm chipboard of 750 kg per m3"


def look(rod: Rod) -> Iterable[Finding]:
    """Every door by the guide."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    for door in cabinet.doors:
        part, size = cabinet.part[door.door], _size(cabinet, door)
        if door.guide is None:
            yield Spot(
                severity="fault", parts=(part,), what=f"{size} is more than the guide for cup hinges goes to",
                mend="divide the door, or ask the hinge's maker: the guide ends at 2540 mm and 27.2 kg", source=GUIDE,
            )  # fmt: skip
        elif len(door.hinges) < door.guide:
            what = f"{size} asks for {door.guide} hinges, and it has {len(door.hinges)}"
            if part.bought:  # its cups are bored, and a guide is no more than that
                mend = "ask the maker of the hinges whether so many hold it, or choose a lighter or a lower door"
                yield Spot(severity="warning", parts=(part,), what=what, mend=mend, source=GUIDE)
            else:
                mend = f"write hinges = {door.guide} under doors, or leave the word out"
                yield Spot(severity="fault", parts=(part,), what=what, mend=mend, source=GUIDE)
        apart, wide = _apart(cabinet, door), _wide(cabinet, door)
        if door.hinged != "up" and apart < wide:
            yield Spot(
                severity="warning", parts=(part,),
                what=f"its outer hinges are {mm(apart)} apart and it is {mm(wide)} wide: it will drop at its free edge",
                mend=_narrower(part), source=GUIDE,
            )  # fmt: skip


def _narrower(part: Part) -> str:
    """A door of a pair has no pair to make way for."""
    if part.name in PAIR:
        return "make the opening higher or narrower, divide it, or hang one door that lifts up"
    return "hang a pair of narrower doors, or make it lift up"


def _size(cabinet: RodCabinet, door: DoorHung) -> str:
    weight = "" if door.kg is None else f" and {door.kg:.1f} kg"
    return f"a door of {mm(_along(cabinet, door))} along its hinges{weight}"


def _along(cabinet: RodCabinet, door: DoorHung) -> float:
    """Length of the hinged edge: under a slope that of either side is its own."""
    part = cabinet.part[door.door]
    run, across = (0, 2) if door.hinged == "up" else (2, 0)
    low, high = part.box
    edge = low[across] if door.hinged == "left" else high[across]
    corners = [part.pose.to_cabinet((x, y, 0.0)) for x, y in part.outline]
    at = [p[run] for p in corners if abs(p[across] - edge) < _HAIR]
    return max(at) - min(at)


def _cups(cabinet: RodCabinet, door: DoorHung) -> list[float]:
    part, run = cabinet.part[door.door], 0 if door.hinged == "up" else 2
    cups = {h.cup for h in door.hinges}
    return sorted(part.pose.to_cabinet(f.at)[run] for f in part.features if f.id in cups)


def _apart(cabinet: RodCabinet, door: DoorHung) -> float:
    at = _cups(cabinet, door)
    return at[-1] - at[0]


def _wide(cabinet: RodCabinet, door: DoorHung) -> float:
    low, high = cabinet.part[door.door].box
    return high[0] - low[0]


CHECK = Check(code=CODE, title="Door too tall or too heavy for its hinges", look=look)
