"""A drawer that runs out against the hinge of a door, a door that stands open, its handle, or its own opening."""

from collections.abc import Iterable, Iterator
from itertools import permutations

from rodwork.checks.check import Check
from rodwork.checks.hung import HALF_PLATE_MM, PLATE_BEHIND_MM, PLATE_OUT_MM, opened, opened_handle, plate_middle
from rodwork.checks.spot import COMMON, Spot, capital, mm, told_once
from rodwork.checks.standing import Stood, meet, standing
from rodwork.geometry.vec import Vec, along
from rodwork.model.finding import Finding
from rodwork.model.fronts import HANDLE_OUT_MM, DoorHung, DrawerMade
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.run import CabinetRun

CODE = "drawer-against-door"
BRUSH_MM = 0.5  # by so much two of them may share room: what rounding leaves
_STRUCK = (
    f"with the door open to a right angle, the drawer runs out against its handle, which stands {mm(HANDLE_OUT_MM)} out"
)


_HANG_AWAY = "hang the door on its other side, away from the drawer; else it is to be shut first"
_SOURCE = f"geometry; plates, handles and open doors: {COMMON}"

Room = tuple[Vec, Vec]


def look(rod: Rod) -> Iterable[Finding]:
    """Every drawer of a cabinet against what is in it; along a run against the open doors of the others."""
    for cabinet in rod.boxes:
        yield from told_once(CODE, cabinet, _spots(cabinet))
    for run in rod.runs:
        yield from _along(rod, run)


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    boards = standing(cabinet)
    for drawer in cabinet.drawers:
        front, way = cabinet.part[drawer.front], _way_out(cabinet, drawer)
        for board in (b for b in boards if any(meet(*room, b, BRUSH_MM) for room in way)):
            yield Spot(
                severity="fault", parts=(front, board.part),
                what=f"the drawer's box, {mm(drawer.box_width)} wide in an opening of {mm(drawer.opening_width)}, "
                     "meets the other board as it runs out",
                mend="make its box narrower by what the board stands in, `box_width` under "
                     f"{mm(drawer.box_width)}, and pack its runners out",
                source="geometry",
            )  # fmt: skip
        for door in cabinet.doors:
            yield from _hinges(cabinet, drawer, door, way)
            yield from _stood_open(cabinet, drawer, door, way)


def _way_out(cabinet: RodCabinet, drawer: DrawerMade) -> tuple[Room, Room]:
    """The rooms that its box and its front go through, from shut to run out."""
    boxes = [cabinet.part[i].box for i in drawer.box]
    box = _round(boxes)
    front = cabinet.part[drawer.front].box
    return _swept(box, drawer.travel), _swept(front, drawer.travel)


def _round(boxes: list[Room]) -> Room:
    x, y, z = ((min(a[k] for a, _ in boxes), max(b[k] for _, b in boxes)) for k in range(3))
    return (x[0], y[0], z[0]), (x[1], y[1], z[1])


def _swept(room: Room, travel: float) -> Room:
    (x, y, z), high = room
    return (x, y - travel, z), high


def _hinges(cabinet: RodCabinet, drawer: DrawerMade, door: DoorHung, way: tuple[Room, Room]) -> Iterator[Spot]:
    if door.hinged == "up":
        return
    for hinge in door.hinges:
        body = _body(cabinet, door, plate_middle(cabinet, hinge), hinge.carrier)
        if any(meet(*room, body, BRUSH_MM) for room in way):
            yield Spot(
                severity="fault", parts=(cabinet.part[drawer.front], cabinet.part[door.door]), ids=(hinge.id,),
                what=f"the drawer runs out against a hinge, which stands {mm(PLATE_OUT_MM)} off its board over "
                     f"{mm(2 * HALF_PLATE_MM)} of height",
                mend=f"pack its runners {mm(PLATE_OUT_MM)} or more off that board, or move the hinge clear with "
                     "`hinges`",
                source=_SOURCE,
            )  # fmt: skip


def _body(cabinet: RodCabinet, door: DoorHung, middle: Vec, carrier: str) -> Stood:
    """The plate and arm of a hinge on the face of its board."""
    x = sorted((middle[0], middle[0] + (PLATE_OUT_MM if door.hinged == "left" else -PLATE_OUT_MM)))
    front = cabinet.part[door.door].box[1][1]
    low = (x[0], min(front, middle[1]), middle[2] - HALF_PLATE_MM)
    return Stood(cabinet.part[carrier], low, (x[1], middle[1] + PLATE_BEHIND_MM, middle[2] + HALF_PLATE_MM))


def _stood_open(cabinet: RodCabinet, drawer: DrawerMade, door: DoorHung, way: tuple[Room, Room]) -> Iterator[Spot]:
    parts = (cabinet.part[drawer.front], cabinet.part[door.door])
    if any(meet(*room, opened(cabinet, door), BRUSH_MM) for room in way):
        yield Spot(
            severity="fault", parts=parts,
            what="the drawer runs out against the door, which stands in its way even open to a right angle",
            mend="pack its runners out by the thickness of the door, or hang the door over the edge of the side",
            source=_SOURCE,
        )  # fmt: skip
        return
    handle = opened_handle(cabinet, door)
    if handle is not None and any(meet(*room, handle, BRUSH_MM) for room in way):
        yield Spot(severity="note", parts=parts, what=_STRUCK, mend=_HANG_AWAY, source=_SOURCE)


def _along(rod: Rod, run: CabinetRun) -> Iterator[Finding]:
    """The drawers of one cabinet and the handles of another's open doors; equal pairs once."""
    told = set[str]()
    for one, other in permutations([s for s in run.standings if s.stands_as == "cabinet"], 2):
        drawn, hung = rod.cabinet[one.name], rod.cabinet[other.name]
        for door in hung.doors:
            handle = opened_handle(hung, door)
            if handle is None:
                continue
            by = (other.x0 - one.x0, 0.0, other.z0 - one.z0)
            there = Stood(handle.part, along(handle.low, (by, 1.0)), along(handle.high, (by, 1.0)))
            struck = [d for d in drawn.drawers if any(meet(*room, there, BRUSH_MM) for room in _way_out(drawn, d))]
            message = f"{door.door} of the {other.name}, beside the drawers of the {one.name}: {_STRUCK}."
            if struck and message not in told:
                told.add(message)
                yield Finding(
                    severity="note", code=CODE, cabinet=run.name, where=(), message=capital(message),
                    mend=capital(f"{_HANG_AWAY}."), source=_SOURCE,
                )  # fmt: skip


CHECK = Check(code=CODE, title="Drawer against a door, its hinge or its opening", look=look)
