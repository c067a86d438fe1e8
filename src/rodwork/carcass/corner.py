"""A square corner unit with a blind end: its front is closed as far as the neighbour round the corner stands before it.

blind board   from the corner's end of the carcass to `takes` + `infill`, less what the unit stands off the corner
opening       from there to the far side: the door hangs on the far side and opens away from the corner
infill        what is seen of the blind board: the neighbour's handle must pass the door with LEAST_PAST_MM to spare
"""

from collections.abc import Iterator

from rodwork.carcass.boards import BACK_UP, panel
from rodwork.carcass.contacts import facing, meet
from rodwork.carcass.face import Face
from rodwork.carcass.face_frame import Faced, Stands
from rodwork.carcass.pins import Bay
from rodwork.geometry.directions import BACK, DOWN, FRONT, LEFT
from rodwork.geometry.vec import Vec
from rodwork.model.contact import Register
from rodwork.model.fronts import BlindEnd
from rodwork.model.job import CannotBuild
from rodwork.model.meeting import Meeting
from rodwork.model.panel import Panel
from rodwork.model.surface import EDGES

LEAST_PAST_MM = 5.0  # between the neighbour's handle and the door; common practice, no source
LEAST_OPENING_MM = 300.0  # to reach what stands behind the blind end; common practice, no source


def blind_end(of: Stands, face: Face, asked: BlindEnd) -> Faced:
    """The face of a corner unit, with its blind board. Raises CannotBuild."""
    cabinet, path = of.cabinet, (*of.cabinet.place.path, "blind")
    covered = round(asked.takes_mm + asked.infill_mm - asked.from_corner_mm, 6)
    _refuse_what_cannot_open(of, asked, path)
    clear = of.bays[0].x1 - covered if asked.side == "left" else cabinet.width_mm - covered - of.bays[0].x0
    if clear < LEAST_OPENING_MM:
        raise CannotBuild(
            (*path, "takes"),
            f"the neighbour and the infill cover {covered:g} of the front and leave {max(clear, 0):g} open",
            f"make the unit {cabinet.width_mm + LEAST_OPENING_MM - clear:g} wide or more, for an opening of "
            f"{LEAST_OPENING_MM:g}",
        )  # fmt: skip
    edge = covered if asked.side == "left" else cabinet.width_mm - covered
    span = (0.0, edge) if asked.side == "left" else (edge, cabinet.width_mm)
    board = of.boards[asked.board]
    blind = panel(
        id="blind board", role="infill", board=board, rotation=BACK_UP, edged=(), edging=None,
        shows=(*EDGES, "face_side"), in_box=False,
        box=((span[0], -board.actual_mm, face.high[0]), (span[1], 0.0, face.high[1])),
    )  # fmt: skip
    bay = of.bays[0]
    x0, x1 = (edge, bay.x1) if asked.side == "left" else (bay.x0, edge)
    wide = (edge, face.wide[1]) if asked.side == "left" else (face.wide[0], edge)
    open_face = Face(
        bays=(Bay(left=bay.left, right=bay.right, x0=x0, x1=x1),), spaces=face.spaces, wide=wide, high=face.high,
        over=face.over,
    )  # fmt: skip
    return Faced(face=open_face, panels=(blind,), meetings=tuple(_joined(of, blind, asked)))


def _refuse_what_cannot_open(of: Stands, asked: BlindEnd, path: tuple[str | int, ...]) -> None:
    cabinet, away = of.cabinet, "right" if asked.side == "left" else "left"
    if cabinet.drawers or cabinet.face_frame is not None or len(of.bays) > 1:
        raise CannotBuild(
            path, "a corner unit with a blind end has one bay, no drawers and no face frame",
            "leave them out, or make a unit beside it that has them",
        )  # fmt: skip
    for doors in cabinet.doors:
        if doors.hung != (away,) or doors.style == "inset":
            raise CannotBuild(
                (*(doors.path or (*cabinet.place.path, "doors")), "hung"),
                f"the door of a unit that is blind on its {asked.side} lies over it and opens away from the corner",
                f'write hung = "{away}", style = "overlay"',
            )  # fmt: skip
    if asked.infill_mm < asked.handle_mm + LEAST_PAST_MM:
        raise CannotBuild(
            (*path, "infill"),
            f"the neighbour's handle stands out by {asked.handle_mm:g}, and an infill of {asked.infill_mm:g} lets it "
            "strike the door",
            f"make the infill {asked.handle_mm + LEAST_PAST_MM:g} or more",
        )  # fmt: skip


def _joined(of: Stands, blind: Panel, asked: BlindEnd) -> Iterator[Meeting]:
    """On the front edges of the side at the corner, of bottom and top."""
    yield _on_back(blind, of.sides[0 if asked.side == "left" else 1], DOWN, LEFT, asked)
    for board in (of.bottom, of.top):
        if facing(board, FRONT) in EDGES:
            yield _on_back(blind, board, LEFT, DOWN, asked)


def _on_back(host: Panel, guest: Panel, along: Vec, across: Vec, asked: BlindEnd) -> Meeting:
    return meet(
        host=host, guest=guest, place="face frame", recipe=asked.fixed,
        host_register=Register(bears=facing(host, BACK), along_from=facing(host, along),
                               across_from=facing(host, across)),
        guest_register=Register(bears=facing(guest, FRONT), along_from=facing(guest, along),
                                across_from=facing(guest, across)),
    )  # fmt: skip
