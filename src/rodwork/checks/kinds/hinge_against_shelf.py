"""A hinge plate that meets a shelf, or a board above or below: it cannot be screwed on, or the hinge binds."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.hung import HALF_PLATE_MM, PLATE_BEHIND_MM, plate_middle
from rodwork.checks.spot import Spot, mm, told_once
from rodwork.checks.standing import Stood, stood, stood_at
from rodwork.geometry.vec import Vec
from rodwork.model.finding import Finding
from rodwork.model.fronts import DoorHung, Hinge
from rodwork.model.panel import put_in_last
from rodwork.model.rod import Rod, RodCabinet

CODE = "hinge-against-shelf"
LOOSE_MM = 2.0  # a loose shelf ends so far from the board, at the most


def look(rod: Rod) -> Iterable[Finding]:
    """Every hinge whose plate has a lying or standing board across it."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    boards = tuple(p for p in cabinet.whole_boards if not put_in_last(p))
    loose = tuple(stood(p) for p in cabinet.parts if p.role in ("loose shelf", "stiffener") and put_in_last(p))
    for door in cabinet.doors:
        for hinge in door.hinges:
            middle = plate_middle(cabinet, hinge)
            here = (stood_at(p, middle[0]) for p in boards if p.id != hinge.carrier)
            across = next((b for b in here if _over(door, b, middle)), None)
            if across is not None:
                yield Spot(
                    severity="fault", parts=(cabinet.part[door.door], across.part), ids=(hinge.id,),
                    what=f"the plate of a hinge needs {mm(2 * HALF_PLATE_MM)} along the board and meets another",
                    place=_place(door, hinge),
                    mend=f"keep that board {mm(HALF_PLATE_MM)} clear of the hinge: move the shelf, or change `hinges`",
                )  # fmt: skip
            for shelf in (b for b in loose if _over(door, b, middle)):
                yield Spot(
                    severity="warning", parts=(cabinet.part[door.door], shelf.part), ids=(hinge.id,),
                    what=f"on its pins the shelf lies across the plate of a hinge, which needs {mm(2 * HALF_PLATE_MM)} "
                    "along the board",
                    place=_place(door, hinge),
                    mend="lay it a hole higher or lower, notch it round the plate, or keep it behind: "
                    f"shelf_set_back = {mm(middle[1] + PLATE_BEHIND_MM)}",
                )  # fmt: skip


def _place(door: DoorHung, hinge: Hinge) -> str:
    return f"{hinge.id.removeprefix(f'{door.door} ')} of {door.door}"


def _over(door: DoorHung, board: Stood, middle: Vec) -> bool:
    """Whether the board reaches the plate's face where the plate is."""
    run, face = (0, 2) if door.hinged == "up" else (2, 0)
    inward = 1.0 if door.hinged == "left" else -1.0
    probe = middle[face] + inward * LOOSE_MM
    return (
        board.low[run] - HALF_PLATE_MM < middle[run] < board.high[run] + HALF_PLATE_MM
        and board.low[1] < middle[1] < board.high[1]
        and board.low[face] < probe < board.high[face]
    )


CHECK = Check(code=CODE, title="Hinge plate against a shelf", look=look)
