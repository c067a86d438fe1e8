"""Clothes rails: where each tube stands, how long it is cut, and the bores of its sockets in the uprights.

        board above ______________________
            |              | below
         [s]|==============+=========|[s]     s: a socket on the face of each upright, the tube in both
            |                        |
            |<------ clear width --->|        the tube is shorter by the play of its two sockets

Both ends are placed from one height and one distance from the front, so that the rail comes level and square.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from rodwork.carcass.pins import Bay
from rodwork.geometry.directions import DOWN, FRONT, LEFT, RIGHT
from rodwork.geometry.rounding import down_to_step, to_step
from rodwork.geometry.vec import Vec, clean
from rodwork.model.clothes_rail import ClothesRail, ClothesRailAsked
from rodwork.model.fixing import Item
from rodwork.model.fronts import FittingBore
from rodwork.model.job import Board, Cabinet, CannotBuild
from rodwork.model.panel import Panel
from rodwork.model.shop import Shop

DEPTH_MM = 12.0  # of a socket's bores; common practice, no source
LEAST_OVER_MM = 20.0  # over the tube, to lift a hook off; common practice, no source
LEAST_UNDER_MM = 200.0  # under the tube: a hanger alone wants as much; common practice, no source
LEAST_TUBE_MM = 100.0  # that is seen between the sockets
SAW_STEP_MM = 1.0  # a tube is cut to whole millimetres
DUST = 1e-6

Spaces = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class HungIn:
    """What clothes rails need to know of their cabinet. `spaces`: the openings of each bay. `depth`: front to back."""

    cabinet: Cabinet
    boards: Mapping[str, Board]
    bays: Sequence[Bay]
    spaces: Sequence[Spaces]
    depth: float
    shop: Shop

    @property
    def step(self) -> float:
        """Of the fence."""
        return self.shop.fence_step_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class WithRails:
    """The clothes rails of a cabinet, the bores of their sockets, and what is bought."""

    rails: tuple[ClothesRail, ...] = ()
    bores: tuple[FittingBore, ...] = ()
    items: tuple[Item, ...] = ()


def clothes_rails(of: HungIn) -> WithRails:
    """Every clothes rail of a cabinet, table by table, bay by bay from the left. Raises CannotBuild."""
    placed = [_place(of, asked, i) for asked in of.cabinet.clothes_rails for i in _bays(of, asked)]
    _refuse_too_near(placed)
    _refuse_supports(of, placed)
    bores = tuple(bore for n, one in enumerate(placed, 1) for bore in _bores(of, one, n, placed))
    rails = tuple(_standing(one, n, placed) for n, one in enumerate(placed, 1))
    return WithRails(rails=rails, bores=bores, items=tuple(i for p in placed for i in _items(p)))


@dataclass(frozen=True, slots=True)
class _Placed:
    """One rail in one bay (from 0): the opening, and the height and the distance from the front of its middle."""

    asked: ClothesRailAsked
    number: int
    bay: Bay
    space: tuple[float, float]
    y: float
    z: float

    @property
    def tube_mm(self) -> float:
        return down_to_step(self.bay.x1 - self.bay.x0 - 2 * self.asked.socket.play_mm, SAW_STEP_MM)

    @property
    def top(self) -> float:
        return self.z + self.asked.size_mm[0] / 2

    @property
    def foot(self) -> float:
        return self.z - self.asked.size_mm[0] / 2


def _bays(of: HungIn, asked: ClothesRailAsked) -> tuple[int, ...]:
    """The bays (from 0) that have it, each with the opening free for it."""
    beyond = [n for n in asked.bays if n > len(of.bays)]
    if beyond:
        raise CannotBuild(
            (*asked.path, "bays"), f"bay {beyond[0]} is asked for, and there are {len(of.bays)}",
            f"write numbers from 1 to {len(of.bays)}, from the left",
        )  # fmt: skip
    numbers = tuple(i for i in range(len(of.bays)) if asked.in_bay(i + 1))
    for i in numbers:
        if asked.opening > len(of.spaces[i]):
            raise CannotBuild(
                (*asked.path, "opening"),
                f"opening {asked.opening} is asked for, and there are {len(of.spaces[i])}",
                f"write a number from 1 to {len(of.spaces[i])}, from the bottom",
            )  # fmt: skip
        _refuse_taken(of.cabinet, asked, i)
    return numbers


def _refuse_taken(cabinet: Cabinet, asked: ClothesRailAsked, i: int) -> None:
    """Drawers, an appliance or loose shelves stand where the clothes would hang."""
    where = f"opening {asked.opening}" + (f" of bay {i + 1}" if len(cabinet.bays) > 1 else "")
    if any(d.opening == asked.opening and d.in_bay(i + 1) for d in cabinet.drawers):
        raise CannotBuild(
            (*asked.path, "opening"), f"{where} has drawers and a clothes rail",
            "keep them apart with a fixed shelf, and give the rail the opening over it",
        )  # fmt: skip
    if any(h.opening == asked.opening for h in cabinet.houses):
        raise CannotBuild((*asked.path, "opening"), f"{where} houses an appliance", "give the rail another opening")
    hangs = [r for r in cabinet.clothes_rails if r.opening == asked.opening]
    everywhere = all(any(r.in_bay(n) for r in hangs) for n in range(1, len(cabinet.bays) + 1))
    if cabinet.in_bays[i].loose_shelves[asked.opening - 1] and (everywhere or cabinet.by_bay):
        raise CannotBuild(
            (*asked.path, "opening"), f"{where} has loose shelves and a clothes rail",
            "list the loose shelves by opening, 0 for this one; or name the bays of the rail: bays = [...]",
        )  # fmt: skip


def _place(of: HungIn, asked: ClothesRailAsked, i: int) -> _Placed:
    """One rail in its bay. Raises CannotBuild where its opening has no room for it."""
    bay, space = of.bays[i], of.spaces[i][asked.opening - 1]
    front = _behind_inset_doors(of, asked, i)
    y = (front + of.depth) / 2 if asked.from_front_mm is None else asked.from_front_mm
    one = _Placed(asked, i, bay, space, to_step(y, of.step), to_step(space[1] - asked.below_mm, of.step))
    high, half = space[1] - space[0], asked.size_mm[0] / 2
    over, under = asked.below_mm - half, high - asked.below_mm - half  # as asked, before it is rounded
    least_over = max(LEAST_OVER_MM, asked.socket.high_mm / 2 - half)
    if over < least_over:
        raise CannotBuild(
            (*asked.path, "below"), f"{over:g} over the tube leave no room for its sockets, or to lift a hook off it",
            f"write below = {ceil(asked.below_mm + least_over - over - DUST)} or more",
        )  # fmt: skip
    if under < LEAST_UNDER_MM:
        raise CannotBuild(
            (*asked.path, "opening"),
            f"opening {asked.opening} is {high:.1f} high, which leaves {max(under, 0):.1f} under a clothes rail",
            f"make that opening {ceil(high + LEAST_UNDER_MM - under - DUST)} or more, and much more for clothes",
        )  # fmt: skip
    _refuse_outside(of, one, front)
    return one


def _refuse_outside(of: HungIn, one: _Placed, front: float) -> None:
    """A socket that reaches over an edge, a bore that is not in the opening, a bay with no room between sockets."""
    asked, socket = one.asked, one.asked.socket
    half = socket.wide_mm / 2
    if one.y - half < front or one.y + half > of.depth:
        raise CannotBuild(
            (*asked.path, "from_front"),
            f"a socket {socket.wide_mm:g} wide, {one.y:g} from the front, reaches out of the room, {front:g} to "
            f"{of.depth:g}",
            "leave from_front out for the middle of the depth, or write what leaves room",
        )  # fmt: skip
    r = socket.bore_mm / 2
    for up, forward in socket.bores:
        in_height = one.space[0] <= one.z + up - r and one.z + up + r <= one.space[1]
        if not in_height or one.y - forward - r < front or one.y - forward + r > of.depth:
            raise CannotBuild(
                (*asked.path, "socket"), f"the bore {up:g} up and {forward:g} forward is outside the opening",
                "bores are taken from the middle of the tube; see the sheet of the socket",
            )  # fmt: skip
    least = LEAST_TUBE_MM + 2 * (socket.reach_mm - socket.play_mm)
    if one.tube_mm < least:
        raise CannotBuild(
            asked.path, f"a bay {one.bay.x1 - one.bay.x0:g} wide has no room for a clothes rail",
            f"make it {ceil(least + 2 * socket.play_mm)} or more, or name the bays of the rail: bays = [...]",
        )  # fmt: skip


def _refuse_supports(of: HungIn, placed: Sequence[_Placed]) -> None:
    """A middle support is screwed up into a level board, straight over its tube."""
    for one in placed:
        over = _over(of, one, placed)
        if one.asked.supports and over:
            raise CannotBuild(
                (*one.asked.path, "supports"), f"a middle support hangs from the board above, and here {over}",
                "put a fixed shelf over the rail, or divide the bay and leave supports out",
            )  # fmt: skip


def _over(of: HungIn, one: _Placed, placed: Sequence[_Placed]) -> str:
    """What is between a rail and a level board, or in place of that; nothing where the board is there."""
    if one.asked.opening == len(of.spaces[one.number]):
        if of.cabinet.roof is not None:
            return "the top slopes"
        if of.cabinet.rails is not None and of.cabinet.rails.instead_of_top:
            return "rails stand in place of a top"
    between = any((p.number, p.space) == (one.number, one.space) and p.z > one.z for p in placed)
    return "another rail is between" if between else ""


def _behind_inset_doors(of: HungIn, asked: ClothesRailAsked, i: int) -> float:
    """Where the room begins: behind doors that shut inside the opening, else at the front of the carcass."""
    shut = (d for d in of.cabinet.doors if d.in_bay(i + 1) and d.openings[0] <= asked.opening <= d.openings[1])
    framed = of.cabinet.face_frame is not None  # which they shut within
    return max((of.boards[d.board].actual_mm for d in shut if d.style == "inset" and not framed), default=0.0)


def _refuse_too_near(placed: Sequence[_Placed]) -> None:
    """Two rails of one opening, one over another, each with room to hang something."""
    for one in placed:
        for other in placed:
            same = one is not other and (one.number, one.asked.opening) == (other.number, other.asked.opening)
            if same and one.z >= other.z and one.foot - other.top < LEAST_UNDER_MM:
                raise CannotBuild(
                    (*other.asked.path, "below"),
                    f"two clothes rails of opening {one.asked.opening} have {max(one.foot - other.top, 0):g} between",
                    f"keep them {LEAST_UNDER_MM:g} apart, and much more for clothes; or give them bays of their own",
                )  # fmt: skip


def _bores(of: HungIn, one: _Placed, n: int, placed: Sequence[_Placed]) -> Iterator[FittingBore]:
    """Of the left and of the right socket."""
    for (upright, word), ids in zip(_uprights(one), _ids(one, n), strict=True):
        into, x = (LEFT, one.bay.x0) if word == "left" else (RIGHT, one.bay.x1)
        for id, (up, forward) in zip(ids, one.asked.socket.bores, strict=True):
            at = (x, to_step(one.y - forward, of.step), to_step(one.z + up, of.step))
            yield FittingBore(
                panel=upright.id, id=id, role="clothes_rail", at=clean(at), into=into, along_from=DOWN,
                across_from=FRONT, diameter=one.asked.socket.bore_mm, depth=_depth(of, one, upright, placed),
            )  # fmt: skip


def _uprights(one: _Placed) -> tuple[tuple[Panel, str], tuple[Panel, str]]:
    return (one.bay.left, "left"), (one.bay.right, "right")


def _ids(one: _Placed, n: int) -> tuple[tuple[str, ...], tuple[str, ...]]:
    left, right = (
        tuple(f"clothes rail {n} {word} {k}" for k in range(1, len(one.asked.socket.bores) + 1))
        for _, word in _uprights(one)
    )
    return left, right


def _depth(of: HungIn, one: _Placed, upright: Panel, placed: Sequence[_Placed]) -> float:
    """As the sheet has it, else as deep as the board takes: half of that where its other face has sockets too."""
    if one.asked.socket.depth_mm is not None:
        return one.asked.socket.depth_mm
    room = upright.size[2] - of.shop.least_remainder_mm
    both = any(p.number != one.number and upright.id in (p.bay.left.id, p.bay.right.id) for p in placed)
    return min(DEPTH_MM, down_to_step(room / 2 if both else room, of.step))


def _standing(one: _Placed, n: int, placed: Sequence[_Placed]) -> ClothesRail:
    high, wide = one.asked.size_mm
    middle, half = (one.bay.x0 + one.bay.x1) / 2, one.tube_mm / 2
    low: Vec = (middle - half, one.y - wide / 2, one.foot)
    beneath = (p.top for p in placed if p.number == one.number and one.space == p.space and p.z < one.z)
    socket = one.asked.socket
    return ClothesRail(
        bay=one.number + 1, opening=one.asked.opening, uprights=(one.bay.left.id, one.bay.right.id), low=clean(low),
        high=clean((middle + half, one.y + wide / 2, one.foot + high)), tube=one.asked.tube,
        above=one.space[1], under=round(one.foot - max(beneath, default=one.space[0]), 6), clothes=one.asked.clothes,
        supports=one.asked.supports, socket=(socket.high_mm, socket.wide_mm, socket.reach_mm), bores=_ids(one, n),
    )  # fmt: skip


def _items(one: _Placed) -> Iterator[Item]:
    tube = one.asked.tube
    yield Item(item=f"clothes rail, {tube}, cut to {one.tube_mm:g}", count=1)
    yield Item(item=f"clothes rail socket, {tube}", count=2)
    if one.asked.supports:
        yield Item(item=f"clothes rail middle support, {tube}", count=one.asked.supports)
