"""Stiffeners: a strip on edge under each shelf near its front edge, so that the two bend as one section.

         front
           |<- set back ->|
    _______|______________________________
    |                shelf               |     the strip's front face registers on the line from the shelf's front
    |______________________________ _____|
           |    |##|                           under a fixed shelf: as long as the bay is clear, less 0.5 at each end
           |    |##|  depth                    under a loose one: as long as the shelf, or between its pins
           |    |##|

Its upper edge meets the underside of the shelf along its whole length. Where it would hang into something that
stands or moves below the shelf it is refused.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from rodwork.carcass.boards import BACK_ACROSS, Box, panel
from rodwork.carcass.contacts import facing, meet
from rodwork.carcass.pins import Bay
from rodwork.carcass.site import SHOWS, numbered
from rodwork.geometry.directions import DOWN, FRONT, LEFT, UP
from rodwork.model.clothes_rail import ClothesRail
from rodwork.model.contact import Register
from rodwork.model.job import Board, Cabinet, CannotBuild
from rodwork.model.meeting import EntryOf, Meeting, PinRow
from rodwork.model.panel import Panel
from rodwork.model.stiffener import StiffenersAsked

CLEAR_OF_UPRIGHTS_MM = 0.5  # at each end under a fixed shelf: nothing goes in at dead size; common practice, no source
PIN_STANDS_OUT_MM = 12.0  # a pin under a loose shelf, from the end of the shelf; common practice, no source
BESIDE_PIN_MM = 5.0  # its plate, beside the middle of the bore; common practice, no source
LEAST_UNDER_MM = 50.0  # from the strip down to the board below; common practice, no source
OVER_TUBE_MM = 20.0  # over a clothes rail, to lift a hook off; common practice, no source
_HAIR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Stiffened:
    """The stiffeners of a cabinet, and what joins each to its shelf."""

    panels: tuple[Panel, ...] = ()
    meetings: tuple[Meeting, ...] = ()


def stiffeners(
    cabinet: Cabinet, boards: Mapping[str, Board], bays: Sequence[Bay], shelves: Sequence[Panel],
    rows: Sequence[PinRow], others: Sequence[Panel], tubes: Sequence[ClothesRail], entry: EntryOf,
) -> Stiffened:  # fmt: skip
    """`shelves`: fixed and loose; `others`: every other board of the cabinet. Raises CannotBuild."""
    asked = cabinet.stiffeners
    if asked is None:
        return Stiffened()
    chosen = [s for s in shelves if asked.shelves == "all" or s.role == f"{asked.shelves} shelf"]
    if not chosen:
        kind = "" if asked.shelves == "all" else f"{asked.shelves} "
        raise CannotBuild(
            asked.path, f"stiffeners are asked for, and there is no {kind}shelf",
            f"add one ({'loose' if asked.shelves == 'loose' else 'fixed'}_shelves = 1), or leave stiffeners out",
        )  # fmt: skip
    board = boards[asked.board]
    if entry(asked.joint, chosen[0].size[2], board.actual_mm).reach > 0:
        raise CannotBuild(
            (*asked.path, "joint"), f"a stiffener is butted under its shelf, and {asked.joint.name} lets it in",
            "name a recipe of dowels, biscuits, loose tenons, screws or nails, or leave joint out for biscuits",
        )  # fmt: skip
    made = []
    for n, shelf in enumerate(chosen, 1):
        box = _box(asked, board, shelf, bays, rows)
        _refuse_in_the_way(cabinet, asked, shelf, box, [p for p in (*shelves, *others) if p.id != shelf.id], tubes)
        made.append((shelf, _strip(numbered("stiffener", n, len(chosen)), board, box, shelf)))
    return Stiffened(
        panels=tuple(strip for _, strip in made),
        meetings=tuple(_under(asked, shelf, strip) for shelf, strip in made),
    )


def _strip(id: str, board: Board, box: Box, shelf: Panel) -> Panel:
    return panel(
        id=id, role="stiffener", board=board, box=box, rotation=BACK_ACROSS, edged=(), edging=None,
        shows=SHOWS["stiffener"], in_box=shelf.role == "fixed shelf",
    )  # fmt: skip


def _box(asked: StiffenersAsked, board: Board, shelf: Panel, bays: Sequence[Bay], rows: Sequence[PinRow]) -> Box:
    """Where the strip of one shelf hangs, cabinet axes."""
    low, high = shelf.box
    y0 = round(low[1] + asked.set_back_mm, 6)
    y1 = round(y0 + board.actual_mm, 6)
    if y1 > high[1]:
        raise CannotBuild(
            (*asked.path, "set_back"),
            f"a strip of {board.actual_mm:g} mm set back by {asked.set_back_mm:g} does not lie under a shelf "
            f"{high[1] - low[1]:g} deep",
            f"set it back by {max(high[1] - low[1] - board.actual_mm, 0):g} or less",
        )  # fmt: skip
    bay = next(b for b in bays if b.x0 - _HAIR <= (low[0] + high[0]) / 2 <= b.x1 + _HAIR)
    x0, x1 = bay.x0 + CLEAR_OF_UPRIGHTS_MM, bay.x1 - CLEAR_OF_UPRIGHTS_MM
    if shelf.role == "loose shelf":
        on = [r for r in rows if r.for_shelves and r.panel in (bay.left.id, bay.right.id)]
        over = any(y0 - BESIDE_PIN_MM < row.from_front < y1 + BESIDE_PIN_MM for row in on)
        inside = PIN_STANDS_OUT_MM if over else 0.0
        x0, x1 = low[0] + inside, high[0] - inside
    z1 = low[2]
    return (round(x0, 6), y0, round(z1 - asked.depth_mm, 6)), (round(x1, 6), y1, z1)


def _refuse_in_the_way(
    cabinet: Cabinet, asked: StiffenersAsked, shelf: Panel, box: Box, others: Sequence[Panel],
    tubes: Sequence[ClothesRail],
) -> None:  # fmt: skip
    """A strip that hangs into a drawer, a door, another board or a clothes rail, or nearly on what lies below."""
    found = next(_met(box, others, tubes), None)
    if found is None:
        found = _housed(cabinet, shelf, others)
    if found is not None:
        raise CannotBuild(
            asked.path, f"a stiffener {asked.depth_mm:g} deep under the {shelf.id} would hang into the {found}",
            f'keep it off: stiffeners only under the other shelves, shelves = "{_other(shelf)}"; '
            "or less depth, another set_back",
        )  # fmt: skip
    below = max((p.box[1][2] for p in others if _lies_under(p.box, box)), default=0.0)
    if box[0][2] - below < LEAST_UNDER_MM:
        raise CannotBuild(
            (*asked.path, "depth"),
            f"a stiffener {asked.depth_mm:g} deep under the {shelf.id} leaves {max(box[0][2] - below, 0):g} below it",
            f"make it {max(box[1][2] - below - LEAST_UNDER_MM, 0):g} or less, or have fewer shelves",
        )  # fmt: skip


def _met(box: Box, others: Sequence[Panel], tubes: Sequence[ClothesRail]) -> Iterator[str]:
    yield from (p.id for p in others if _share(box, p.box, 0.0))
    yield from ("clothes rail" for tube in tubes if _share(box, (tube.low, tube.high), OVER_TUBE_MM))


def _share(box: Box, other: Box, over: float) -> bool:
    """Whether two boxes share room, the strip's reckoned so much further down."""
    low = (box[0][0], box[0][1], box[0][2] - over)
    return all(low[k] < other[1][k] - _HAIR and other[0][k] < box[1][k] - _HAIR for k in range(3))


def _housed(cabinet: Cabinet, shelf: Panel, others: Sequence[Panel]) -> str | None:
    """An appliance right under a fixed shelf: it fills its opening."""
    if not cabinet.houses or shelf.role != "fixed shelf":
        return None
    x0, z = shelf.box[0][0], shelf.box[0][2]
    lower = sum(1 for p in others if p.role == "fixed shelf" and p.box[0][0] == x0 and p.box[0][2] < z)
    return next((h.appliance.name for h in cabinet.houses if h.opening == lower + 1), None)


def _other(shelf: Panel) -> str:
    return "loose" if shelf.role == "fixed shelf" else "fixed"


def _lies_under(other: Box, box: Box) -> bool:
    across = all(max(other[0][k], box[0][k]) < min(other[1][k], box[1][k]) - _HAIR for k in (0, 1))
    return across and other[1][2] <= box[0][2] + _HAIR


def _under(asked: StiffenersAsked, shelf: Panel, strip: Panel) -> Meeting:
    """The strip's upper edge under the shelf: along from the left ends of both, across from their fronts."""
    return meet(
        host=shelf, guest=strip, place="under a shelf", recipe=asked.joint,
        host_register=Register(bears=facing(shelf, DOWN), along_from=facing(shelf, LEFT),
                               across_from=facing(shelf, FRONT)),
        guest_register=Register(bears=facing(strip, UP), along_from=facing(strip, LEFT),
                                across_from=facing(strip, FRONT)),
    )  # fmt: skip
