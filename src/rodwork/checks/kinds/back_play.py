"""A back that is loose in its grooves squares the box only within its play."""

from collections.abc import Iterable, Iterator
from math import hypot

from rodwork.checks.check import Check
from rodwork.checks.holes import DUST, axis_in
from rodwork.checks.spot import mm
from rodwork.geometry.directions import RIGHT
from rodwork.model.finding import Finding
from rodwork.model.fixing import Joint
from rodwork.model.panel import Part
from rodwork.model.rod import Rod, RodCabinet

CODE = "back-play"


def look(rod: Rod) -> Iterable[Finding]:
    """Every back that stands in grooves on all four sides and is held by nothing else."""
    for cabinet in rod.cabinets:
        for part in cabinet.parts:
            yield from _told(
                cabinet, part, [j for j in cabinet.joints if j.parts[1] == part.id or j.parts[0] == part.id]
            )


def diagonals_mm(width: float, height: float, back_width: float, back_height: float, across: float, up: float) -> float:
    """By how much the diagonals of a box can still differ, mm.

    The box leans until the back, loose by `across` between the sides and by `up` between top and bottom (both
    grooves together), stands corner to corner in its grooves: by across / back_height + up / back_width. A lean of
    one lengthens one diagonal and shortens the other by width x height / diagonal.
    Small angles; rigid boards; the corner joints are taken to be still loose.
    """
    lean = across / back_height + up / back_width
    return 2 * width * height / hypot(width, height) * lean


def _told(cabinet: RodCabinet, back: Part, joints: list[Joint]) -> Iterator[Finding]:
    if any(j.contact.place != "back in a groove" for j in joints):
        return
    across = _play(cabinet, joints, upright=True)
    up = _play(cabinet, joints, upright=False)
    if len(across) != 2 or len(up) != 2 or sum(across) + sum(up) <= DUST:
        return
    run = axis_in(back, RIGHT)
    back_width, back_height = back.size[run], back.size[1 - run]
    width, height = cabinet.size[0], cabinet.size[1]
    differ = diagonals_mm(width, height, back_width, back_height, sum(across), sum(up))
    all_round = len({round(p, 3) for p in (*across, *up)}) == 1
    yield Finding(
        severity="warning", code=CODE, cabinet=cabinet.name, where=(back.id,),
        message=f"The grooved back holds the box only within its play of {round(max(*across, *up), 2):g}"
                f"{' all round' if all_round else ''}: the diagonals can still differ by {mm(differ)}.",
        mend="Pull the diagonals equal before the glue sets, then pin or glue the back.",
        source=f"arithmetic: 2 x {mm(width)} x {mm(height)} / {mm(hypot(width, height))} x ({sum(across):.1f} / "
               f"{mm(back_height)} + {sum(up):.1f} / {mm(back_width)})",
    )  # fmt: skip


def _play(cabinet: RodCabinet, joints: list[Joint], *, upright: bool) -> list[float]:
    """The play at each of the two edges of the back that stand in uprights, or in the top and the bottom."""
    return [
        joint.fixings[0].play.along
        for joint in joints
        if joint.fixings and (cabinet.part[joint.parts[0]].role == "side") == upright
    ]


CHECK = Check(code=CODE, title="A loose back does not square the box", look=look)
