"""Doors: their places over the front of the carcass, by margins; then hung on the boards beside them.

Where a door lies on the face is `face.py`'s. One that lies over it stands DOOR_OFF_MM off it on its buffers, outside
the box that width, height and depth give.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from rodwork.carcass import sloped_doors
from rodwork.carcass.boards import DOOR_LEFT, DOOR_RIGHT, FRONT_ACROSS, cut_to, panel
from rodwork.carcass.drilled_sides import plate_holes
from rodwork.carcass.face import Face
from rodwork.carcass.front_grid import refuse_off
from rodwork.carcass.hinges import PLATE_SCREWS_MM, Hinged, Leaf, Taken, handle_bores, hang, items, plate_bores
from rodwork.carcass.pins import Bay
from rodwork.carcass.under_roof import Roof
from rodwork.geometry.vec import Vec
from rodwork.model.fixing import Item
from rodwork.model.fronts import DoorHung, Doors, Drawers, FittingBore
from rodwork.model.job import Board, Cabinet, CannotBuild, Edging
from rodwork.model.meeting import PinRow
from rodwork.model.panel import Panel
from rodwork.model.surface import EDGES, SURFACES
from rodwork.model.weight import weight_of

DOOR_OFF_MM = 2.0  # buffers; common practice, 1.5 to 2
FLUSH_MM = 1.0  # of a frame's edge with the board behind it; the hinge takes up more
LEAST_MM = 60.0  # of a door, either way
PLATE_OUT_MM = 30.0  # a plate and its arm stand so far off the board; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """The carcass behind the doors, the face that they lie on, and what is in the way of plates."""

    cabinet: Cabinet
    bays: tuple[Bay, ...]
    spaces: tuple[tuple[tuple[float, float], ...], ...]  # of each bay
    face: Face
    pins: tuple[PinRow, ...]
    edging: Edging | None
    step: float
    loose: tuple[Panel, ...] = ()  # shelves on their pins
    roof: Roof | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fronted:
    """The doors of a cabinet with their bores and what is bought for them."""

    panels: tuple[Panel, ...]
    bores: tuple[FittingBore, ...]
    hung: tuple[DoorHung, ...]
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class _Space:
    """Where one door goes, seen from the front, and how it is hinged in which bay (from 0).

    `upper`: how high it comes at its left and its right edge, where it is cut to a slope.
    """

    asked: Doors
    bay: Bay
    number: int
    hinged: Hinged
    x: tuple[float, float]
    z: tuple[float, float]
    upper: tuple[float, float] | None = None


def doors(of: Opened, boards: Mapping[str, Board], drawn: Sequence[FittingBore] = ()) -> Fronted:
    """Every door of a cabinet; hinges keep clear of what is `drawn`, the bores of runners. Raises CannotBuild."""
    spaces = [s for asked in of.cabinet.doors for s in _asked_for(of, asked, boards[asked.board])]
    pins = pins_of(of.pins, of.bays)
    leaves, hung, bores = [], list[DoorHung](), list[FittingBore]()
    for space, name in zip(spaces, _names(spaces), strict=True):
        asked = space.asked
        leaf = _leaf(of, asked, boards[asked.board], space, name, _place(of, asked))
        door, made = hang(leaf, _taken(of, leaf, space, pins, (*drawn, *bores)), of.step)
        leaves.append(leaf.panel)
        hung.append(door)
        bores += made
        if asked.handle is not None:
            bores += handle_bores(leaf, asked.handle, low_on_door=of.cabinet.kind == "wall")
    handles = sum(1 for s in spaces if s.asked.handle is not None)
    bought = (*items(hung, handles), *_come(spaces, boards))
    return Fronted(panels=tuple(leaves), bores=tuple(bores), hung=tuple(hung), items=bought)


def _asked_for(of: Opened, asked: Doors, board: Board) -> tuple[_Space, ...]:
    """The places of one table's doors. Raises CannotBuild."""
    place = _place(of, asked)
    if any(_is_sloped(of, asked, i) for i in bays_of(of, asked, place)):
        sloped_doors.refuse(of.cabinet, asked, place)
    asked = _margins_of(of, asked, place)
    _thick_enough(asked, board, place)
    _shelves_behind(of, asked, board)
    return _spaces(of, asked, board.actual_mm, place)


def _place(of: Opened, asked: Doors) -> tuple[str | int, ...]:
    return asked.path or (*of.cabinet.place.path, "doors")


def _come(spaces: Sequence[_Space], boards: Mapping[str, Board]) -> tuple[Item, ...]:
    """The doors that are bought."""
    counts: dict[str, int] = {}
    for asked in (s.asked for s in spaces):
        if (b := asked.bought) is not None:
            size = f"{b.height_mm:g} x {b.width_mm:g} x {boards[asked.board].actual_mm:g}"
            name = f"door {size}, cups {b.cups_from_ends_mm:g} from its ends"
            counts[name] = counts.get(name, 0) + 1
    return tuple(Item(item=name, count=n) for name, n in counts.items())


def _margins_of(of: Opened, asked: Doors, place: tuple[str | int, ...]) -> Doors:
    """The margins that a bought door leaves, shared alike at both sides of every bay, and above and below."""
    bought = asked.bought
    if bought is None:
        return asked
    if "up" in asked.hung or asked.handle is not None or asked.hinge.number is not None or asked.grain != "up":
        raise CannotBuild(
            (*place, "bought"),
            "a bought door is side-hung, grain up, bored already, with a hinge to each of its two cups",
            "leave out handle, hinges and grain, and hang it left, right or in a pair",
        )  # fmt: skip
    leaves = 2 if asked.hung[0] == "pair" else 1
    even = replace(asked, sides_mm=0.0, ends_mm=0.0)
    x0, x1 = _across(of, even, 0)
    low, high = _upright(of, even, 0)
    sides = round((x1 - x0 - leaves * bought.width_mm - (leaves - 1) * asked.between_mm) / 2, 6)
    ends = round((high - low - bought.height_mm) / 2, 6)
    if len(of.bays) > 1 or asked.style == "half overlay" or not (0 <= sides <= 20 and 0 <= ends <= 20):
        raise CannotBuild(
            (*place, "bought"),
            f"doors of {bought.height_mm:g} x {bought.width_mm:g} leave {sides:g} at each side "
            f"and {ends:g} above and below",
            "choose a cabinet of one bay that leaves 0 to 20 there, with doors overlay or inset",
        )  # fmt: skip
    return replace(asked, sides_mm=sides, ends_mm=ends)


def _thick_enough(asked: Doors, board: Board, place: tuple[str | int, ...]) -> None:
    least = asked.hinge.cup_depth_mm + 3.0
    if board.actual_mm < least:
        raise CannotBuild(
            place, f"doors of {board.actual_mm:g} mm are too thin for a cup {asked.hinge.cup_depth_mm:g} deep",
            f"take a board of {least:g} or more for them: doors = {{ board = ... }}",
        )  # fmt: skip


def _shelves_behind(of: Opened, asked: Doors, board: Board) -> None:
    """An inset door shuts in front of the shelves, which within a face frame may come up to it."""
    first, last = asked.openings
    behind = [bay.loose_shelves[first - 1 : last] for i, bay in enumerate(of.cabinet.in_bays, 1) if asked.in_bay(i)]
    parted = any(first <= d.opening <= last for d in of.cabinet.part_dividers)
    shelves = last > first or parted or any(any(loose) for loose in behind)
    _, door_to = of.face.in_front(board.actual_mm, True, 0.0)
    if asked.style == "inset" and shelves and of.cabinet.shelf_set_back_mm < door_to:
        raise CannotBuild(
            (*of.cabinet.place.path, "shelf_set_back"),
            f"inset doors of {board.actual_mm:g} mm would shut on shelves set back by {of.cabinet.shelf_set_back_mm:g}",
            f"set them back by {door_to + 3:g}{'' if of.cabinet.face_frame else ', or leave shelf_set_back out'}",
        )  # fmt: skip


def _spaces(of: Opened, asked: Doors, thickness: float, place: tuple[str | int, ...]) -> tuple[_Space, ...]:
    """The place of every door, bay by bay from the left, by its margins."""
    numbers = bays_of(of, asked, place)
    if len(asked.hung) not in (1, len(numbers)):
        raise CannotBuild(
            (*place, "hung"), f"hung has {len(asked.hung)} words, and there are {len(numbers)} bays",
            "write one word for all, or one for each bay from the left",
        )  # fmt: skip
    first, last = asked.openings
    fewest = min(numbers, key=lambda i: len(of.spaces[i]))
    there = len(of.spaces[fewest])
    if not 1 <= first <= last <= there:
        raise CannotBuild(
            (*place, "openings"), f"doors over openings {first} to {last}, and {_there_are(of, fewest)}",
            f"write two numbers from 1 to {there}, the lower first: [1, {there}]",
        )  # fmt: skip
    out = []
    for i in numbers:
        _once(of, i, first, last, place)
        bay, z = of.face.bays[i], _upright(of, asked, i)
        leaves = [_Space(asked, bay, i, hinged, x, z) for hinged, x in _leaves(of, asked, i)]
        if of.roof is not None and _is_sloped(of, asked, i):
            leaves = [_cut_to(of.roof, s, thickness) for s in leaves]
        refuse_off(of.cabinet, z, asked.between_mm, place)
        out += leaves
    for s in out:
        least = min(s.upper or s.z[1:]) - s.z[0]
        if min(s.x[1] - s.x[0], least) < LEAST_MM:
            raise CannotBuild(
                place, f"a door would be {s.x[1] - s.x[0]:.1f} wide and {least:.1f} high",
                f"leave at least {LEAST_MM:g} each way: smaller margins, fewer doors, or a larger cabinet",
            )  # fmt: skip
    return tuple(out)


def _leaves(of: Opened, asked: Doors, i: int) -> Iterator[tuple[Hinged, tuple[float, float]]]:
    """How the door or the pair of a bay (from 0) is hinged, and from where to where each goes across."""
    hung = asked.hung_in(i + 1, len(of.bays))
    x0, x1 = _across(of, asked, i)
    if hung != "pair":
        yield hung, (x0, x1)
        return
    middle, half = (x0 + x1) / 2, asked.between_mm / 2
    yield "left", (x0, round(middle - half, 6))
    yield "right", (round(middle + half, 6), x1)


def _is_sloped(of: Opened, asked: Doors, i: int) -> bool:
    """Whether doors shut the opening of a bay (from 0) that lies under a slope."""
    return of.roof is not None and asked.openings[1] == len(of.spaces[i])


def _cut_to(roof: Roof, space: _Space, thickness: float) -> _Space:
    """The place of a door whose upper edge runs along the slope."""
    upper = sloped_doors.upper_edge(roof, space.asked, thickness, space.x)
    return replace(space, z=(space.z[0], max(upper)), upper=upper)


def bays_of(of: Opened, asked: Doors | Drawers, place: tuple[str | int, ...]) -> tuple[int, ...]:
    """The bays (from 0) that have these doors or drawers. Raises CannotBuild."""
    beyond = [n for n in asked.bays if n > len(of.bays)]
    if beyond:
        raise CannotBuild(
            (*place, "bays"), f"bay {beyond[0]} is asked for, and there are {len(of.bays)}",
            f"write numbers from 1 to {len(of.bays)}, from the left",
        )  # fmt: skip
    return tuple(i for i in range(len(of.bays)) if asked.in_bay(i + 1))


@dataclass(frozen=True, slots=True)
class _Front:
    """What shuts openings of a bay: doors or drawers, from the first to the last, and how they lie."""

    kind: Literal["doors", "drawers"]
    first: int
    last: int
    inset: bool


def _fronts(cabinet: Cabinet, i: int) -> Iterator[_Front]:
    """All that shuts openings of a bay (from 0)."""
    for d in cabinet.doors:
        if d.in_bay(i + 1):
            yield _Front("doors", *d.openings, d.style == "inset")
    for w in cabinet.drawers:
        if w.in_bay(i + 1):
            yield _Front("drawers", w.opening, w.opening, w.inset)


def _overlaid(of: Opened, i: int, opening: int) -> bool:
    """Whether fronts that lie over the boards shut this opening, so that a neighbour shares the shelf with them."""
    return any(f.first <= opening <= f.last and not f.inset for f in _fronts(of.cabinet, i))


def _once(of: Opened, i: int, first: int, last: int, place: tuple[str | int, ...]) -> None:
    """An opening is shut once."""
    there = [f for f in _fronts(of.cabinet, i) if f.first <= last and first <= f.last]
    if len(there) > 1:
        raise CannotBuild(
            place, f"{_opening_of(of, i, max(f.first for f in there))} has {there[0].kind} and {there[1].kind}",
            "keep them apart with a fixed shelf: doors = { openings = [...] }, or with a divider: bays = [...]",
        )  # fmt: skip


def _opening_of(of: Opened, i: int, opening: int) -> str:
    return f"opening {opening}" + (f" of bay {i + 1}" if len(of.bays) > 1 else "")


def _there_are(of: Opened, i: int) -> str:
    """How many openings a bay (from 0) has."""
    where = f"bay {i + 1} has" if of.cabinet.by_bay else "there are"
    return f"{where} {len(of.spaces[i])}"


def _across(of: Opened, asked: Doors, i: int) -> tuple[float, float]:
    """Left and right edge of the front of a bay."""
    if asked.edges_mm:
        return asked.edges_mm[i]
    return of.face.across(
        i, inset=asked.style == "inset", half=asked.style == "half overlay", sides=asked.sides_mm,
        between=asked.between_mm,
    )  # fmt: skip


def _upright(of: Opened, asked: Doors | Drawers, i: int) -> tuple[float, float]:
    """Lower and upper edge of fronts in a bay (from 0), which share a shelf with those above or below it."""
    if isinstance(asked, Doors):
        (first, last), inset = asked.openings, asked.style == "inset"
    else:
        first, last, inset = asked.opening, asked.opening, asked.inset
    shared = (_overlaid(of, i, first - 1), _overlaid(of, i, last + 1))
    return of.face.upright(
        i, first, last, inset=inset, ends=asked.ends_mm, between=asked.between_mm, shared=shared
    )  # fmt: skip


def _names(spaces: Sequence[_Space]) -> tuple[str, ...]:
    if len(spaces) == 1:
        return ("door",)
    if len(spaces) == 2 and spaces[0].number == spaces[1].number and spaces[0].asked is spaces[1].asked:
        return ("left door", "right door")
    return tuple(f"door {n}" for n in range(1, len(spaces) + 1))


def _leaf(
    of: Opened, asked: Doors, board: Board, space: _Space, name: str, place: tuple[str | int, ...]
) -> Leaf:  # fmt: skip
    t = board.actual_mm
    y0, y1 = of.face.in_front(t, asked.style == "inset", DOOR_OFF_MM)
    low: Vec = (space.x[0], y0, space.z[0])
    high: Vec = (space.x[1], y1, space.z[1])
    upright = DOOR_RIGHT if space.hinged == "right" else DOOR_LEFT
    edged = asked.bought is None and of.cabinet.edging is not None and "doors" in of.cabinet.edging.on
    made = panel(
        id=name, role="door", board=board, box=(low, high), rotation=upright if asked.grain == "up" else FRONT_ACROSS,
        edged=EDGES if edged else (), edging=of.edging, shows=SURFACES, in_box=False, bought=asked.bought is not None,
    )  # fmt: skip
    if space.upper is not None:
        (x0, x1), (z0, _), (left, right) = space.x, space.z, space.upper
        made = cut_to(made, [(x0, y0, z0), (x1, y0, z0), (x1, y0, right), (x0, y0, left)])
    carrier, overlay = _carried(of, space, board, place)
    weight = None if board.density_kg_m3 is None else weight_of(made, board.density_kg_m3)
    return Leaf(
        panel=made, hinged=space.hinged, style=asked.style, carrier=carrier, overlay=round(overlay, 6), low=low,
        high=high, weight=weight, upper=space.upper, sheet=asked.hinge, place=place, bought=asked.bought,
        line=_plate_line(of, asked, carrier, board),
    )  # fmt: skip


def _flush_with_it(of: Opened, off: float) -> str:
    """What brings the edge of an outer stile before the side's inside, from which it lies `off` into the opening."""
    frame = of.cabinet.face_frame
    overhang = round((frame.overhang_mm if frame else 0.0) + off, 6)
    return f"write overhang = {overhang:g} under face_frame, which brings its edge flush with that side"


def _carried(
    of: Opened, space: _Space, board: Board, place: tuple[str | int, ...]
) -> tuple[Panel, float]:  # fmt: skip
    """The board that carries the hinges, and how far the door lies over its face. Raises CannotBuild."""
    last, bay = space.asked.openings[1], of.face.bays[space.number]
    if space.hinged == "up":
        return of.face.over[space.number][last - 1], space.z[1] - of.face.spaces[space.number][last - 1][1]
    left = space.hinged == "left"
    overlay = bay.x0 - space.x[0] if left else space.x[1] - bay.x1
    if not of.face.framed or space.asked.style != "inset":
        return (bay.left if left else bay.right), overlay
    behind = of.bays[space.number]  # the door's edge covers the stile's: the plate stands on the board behind it
    off = bay.x0 - behind.x0 if left else behind.x1 - bay.x1
    if abs(off) > FLUSH_MM:
        carrier = behind.left if left else behind.right
        flush = _flush_with_it(of, off)
        raise CannotBuild(
            (*place, "style"),
            f"an inset door of {board.actual_mm:g} covers the edge of the stile, and the {carrier.name} behind the "
            f"stile, which would carry the plates, lies {off:.1f} back from that edge",
            ("hang it from a side of the cabinet, hung bay by bay" if carrier.role == "divider" else flush)
            + ", or hang the doors over the frame",
        )  # fmt: skip
    return (behind.left if left else behind.right), round(overlay - off, 6)


def _plate_line(of: Opened, asked: Doors, carrier: Panel, board: Board) -> float:
    """The line of the plates' screws, front to back: on a frame's member in the middle of its thickness."""
    if carrier.role == "face frame":
        return round(of.face.y + of.face.thickness / 2, 6)
    inset = board.actual_mm if asked.style == "inset" else 0.0
    return round(of.face.y + asked.hinge.line_mm + inset, 6)


def pins_of(rows: Sequence[PinRow], bays: Sequence[Bay]) -> dict[str, list[tuple[float, float]]]:
    """Pin bores by board: (height in the cabinet, from the front)."""
    boards = {p.id: p for bay in bays for p in (bay.left, bay.right)}
    out: dict[str, list[tuple[float, float]]] = {}
    for row in rows:
        p = boards[row.panel]
        bottom = p.box[0][2]
        out.setdefault(row.panel, []).extend((bottom + h, row.from_front) for h in row.heights)
    return out


def _taken(
    of: Opened, leaf: Leaf, space: _Space, pins: Mapping[str, list[tuple[float, float]]], bores: Sequence[FittingBore]
) -> Taken:  # fmt: skip
    """What is in the way of plates on the carrying board."""
    if leaf.hinged == "up":
        return Taken((), plate_bores(bores, leaf.carrier.id, 0))
    spaces = (of.face.spaces if leaf.carrier.role == "face frame" else of.spaces)[space.number]
    lies = [(a[1], b[0]) for a, b in pairwise(spaces)] + _loose_before(of, leaf, space)
    ends = ((min(0.0, of.face.high[0]), spaces[0][0]), (_under(of, space), max(of.face.high[1], of.cabinet.height_mm)))
    taken = (*pins.get(leaf.carrier.id, ()), *plate_bores(bores, leaf.carrier.id, 2))
    return Taken((*ends, *lies), taken, plate_holes(of.cabinet, leaf.carrier, PLATE_SCREWS_MM))


def _under(of: Opened, space: _Space) -> float:
    """How far down the board above comes on the board that carries the plates, as far as a plate stands off it."""
    if of.roof is None:
        return (of.face if of.face.framed else of).spaces[space.number][-1][1]
    at, way = (space.bay.x0, 1) if space.hinged == "left" else (space.bay.x1, -1)
    return min(of.roof.under(at), of.roof.under(at + way * PLATE_OUT_MM))


def _loose_before(of: Opened, leaf: Leaf, space: _Space) -> list[tuple[float, float]]:
    """Where loose shelves of the bay lie across the line of the plates."""
    bay = of.bays[space.number]
    boxes = (shelf.box for shelf in of.loose)
    return [(a[2], b[2]) for a, b in boxes if bay.x0 <= a[0] and b[0] <= bay.x1 and a[1] < leaf.line]


def drawer_across(of: Opened, asked: Drawers, i: int) -> tuple[float, float]:
    """Left and right edge of the fronts of a bay's drawers."""
    if asked.edges_mm:
        return asked.edges_mm[i]
    return of.face.across(i, inset=asked.inset, half=False, sides=asked.sides_mm, between=asked.between_mm)


def drawer_edges(of: Opened, asked: Drawers, i: int) -> tuple[float, float]:
    """Lower and upper edge of all the fronts of an opening's drawers in one bay (from 0). Raises CannotBuild."""
    cabinet, n = of.cabinet, asked.opening
    path = (*(asked.path or (*cabinet.place.path, "drawers")), "opening")
    if not 1 <= n <= len(of.spaces[i]):
        raise CannotBuild(
            path, f"drawers in opening {n}, and {_there_are(of, i)}",
            f"write a number from 1 to {len(of.spaces[i])}, from the bottom",
        )  # fmt: skip
    every = len(bays_of(of, asked, path[:-1])) == len(of.bays)
    if cabinet.in_bays[i].loose_shelves[n - 1] and (every or cabinet.by_bay):
        raise CannotBuild(
            path, f"{_opening_of(of, i, n)} has loose shelves and drawers",
            "keep them apart with a fixed shelf: loose_shelves as a list, one number for each opening",
        )  # fmt: skip
    _once(of, i, n, n, path)
    edges = _upright(of, asked, i)
    refuse_off(cabinet, edges, asked.between_mm, path[:-1])
    return edges
