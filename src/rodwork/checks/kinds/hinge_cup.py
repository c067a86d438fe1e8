"""A hinge cup that stands over the stile or board its door lies on, or too near the door's edge."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.spot import COMMON, Spot, mm, told_once, too_little
from rodwork.model.finding import Finding
from rodwork.model.fronts import DoorHung, Hinge
from rodwork.model.rod import Rod, RodCabinet

CODE = "hinge-cup"
THIN_MM, BREAKS_MM = 3.0, 1.5  # wood between the cup and the door's edge
CLEARS_MM = 1.0  # the arm comes out of the cup's middle and passes the edge of the stile by this
_HAIR = 1e-6


def look(rod: Rod) -> Iterable[Finding]:
    """Every hinge, by where its cup stands in the door and before what."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    for door in cabinet.doors:
        for hinge in door.hinges:
            yield from _near_the_edge(cabinet, door, hinge)
            yield from _over_the_stile(cabinet, door, hinge)


def _near_the_edge(cabinet: RodCabinet, door: DoorHung, hinge: Hinge) -> Iterator[Spot]:
    if hinge.rim < THIN_MM - _HAIR:
        breaks = hinge.rim < BREAKS_MM
        yield Spot(
            severity="fault" if breaks else "warning", parts=(cabinet.part[door.door],), ids=(hinge.id,),
            what=f"{too_little(max(hinge.rim, 0.0))} mm of wood beside the cup of a hinge ({mm(THIN_MM)} is the least)"
            f"{': it breaks out' if breaks else ''}",
            mend="take a plate or a hinge that sets the cup further in: 3 to 8 mm is usual", source=COMMON,
        )  # fmt: skip


def _over_the_stile(cabinet: RodCabinet, door: DoorHung, hinge: Hinge) -> Iterator[Spot]:
    """The arm leaves the cup from its middle: that must lie past the edge of what the door lies over."""
    radius = cabinet.feature[hinge.cup].diameter / 2  # type: ignore[attr-defined]
    past = hinge.rim + radius - hinge.overlay
    if past < CLEARS_MM - _HAIR:
        carrier = cabinet.part[hinge.carrier]
        yield Spot(
            severity="fault", parts=(cabinet.part[door.door], carrier), ids=(hinge.id,),
            what=f"the door lies over the other by {mm(hinge.overlay)}, and the middle of a cup stands "
            f"{mm(hinge.rim + radius)} from the door's edge: its arm would go through the wood",
            mend=f"let the door lie over it by no more than {mm(hinge.rim + radius - CLEARS_MM)}: a larger margin at "
            "the side, or a narrower stile",
            source="arithmetic",
        )  # fmt: skip


CHECK = Check(code=CODE, title="A hinge cup through a stile, or near the edge", look=look)
