"""Cup hinges and handles: where they stand is settled once, in the cabinet; both halves are bored from that.

number of hinges: the published guide of `GUIDE`, by height and weight
outer hinges:     100 down to 80 mm from the door's ends (common practice), the first place clear of shelves and bores
                  on rows of holes, drilled sides or the grid: the pair of holes nearest to 100, within 60 to 130
those between:    spaced evenly, moved as little as clears shelves and bores
rim:              overlay - fixed + plate, the lowest plate that gives 3 to 8 mm; to what the fence can be set to
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from rodwork.geometry.directions import BACK, DOWN, FRONT, LEFT, RIGHT, UP
from rodwork.geometry.rounding import down_to_step, to_step
from rodwork.geometry.vec import Vec, along, clean, neg
from rodwork.model.fixing import Item
from rodwork.model.fronts import BoughtDoor, DoorHung, DoorStyle, FittingBore, Handle, Hinge, HingeSheet
from rodwork.model.job import CannotBuild
from rodwork.model.panel import Panel
from rodwork.model.weight import Weight

# Up to so tall (mm) and so heavy (kg): so many. A hinge chart read second-hand, its maker's name withheld: 2 to 40 in
# and 15 lb, 3 to 60 and 30, 4 to 80 and 45, 5 to 100 and 60. A guide, for 19 mm chipboard of 750 kg per m3.
GUIDE = ((1016.0, 6.8, 2), (1524.0, 13.6, 3), (2032.0, 20.4, 4), (2540.0, 27.2, 5))
OUTER_MM = (100.0, 80.0)
ON_HOLES_MM = (60.0, 130.0)  # the same, on sides that come drilled: two pitches, so that a pair of holes is among them
PLATE_SCREWS_MM = 32.0  # apart; 5 mm bores
PLATE_BORE_MM, PLATE_DEPTH_MM = 5.0, 12.0  # in thin board less deep
LEAST_UNDER_MM = 3.0  # of board under the point of a bore; common practice, no source
PLATE_REACH_MM = 26.0  # half the length of a plate, and room to get it on
CUP_REACH_MM = 45.0  # a cup of 35 ends so far from the door's edge, at the most
TAKE_UP_MM = 2.0  # of a hinge, each way; common practice, no source
CUP_SCREWS_MM, CUP_SCREWS_BEHIND_MM = 45.0, 9.5  # apart, and further from the door's edge than the cup's middle
PILOT_MM, PILOT_DEPTH_MM = 2.5, 10.0
HANDLE_FROM_END_MM = 60.0
# Its middle, above the bottom of the carcass: no higher than a hand goes easily, else brought down to where it hangs
HIGHEST_HANDLE_MM, HANDLE_IN_REACH_MM = 1200.0, 1000.0
APART_MM = 8.0  # middle to middle of two bores in one board

Hinged = Literal["left", "right", "up"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """A door in its place: how it is hinged, the board that carries it, how far it lies over it, the hinge.

    `low`, `high`: the box round it. `upper`: how high it comes at its left and right edge, where it is cut to a slope.
    """

    panel: Panel
    hinged: Hinged
    style: DoorStyle
    carrier: Panel
    overlay: float
    low: Vec
    high: Vec
    weight: Weight | None
    sheet: HingeSheet
    place: tuple[str | int, ...]
    line: float  # of the plates' screws, front to back in the cabinet
    bought: BoughtDoor | None = None
    upper: tuple[float, float] | None = None

    def top_at(self, x: float) -> float:
        """How high it comes at a place across the cabinet."""
        if self.upper is None:
            return self.high[2]
        left, right = self.upper
        return left + (right - left) * (x - self.low[0]) / (self.high[0] - self.low[0])

    @property
    def kg(self) -> float | None:
        """What it weighs."""
        return None if self.weight is None else round(self.weight.kg, 3)

    @property
    def pulls_kg(self) -> float | None:
        """What it counts by the guide, which has it hang half the width from the hinges: more where it is further."""
        if self.weight is None or self.upper is None:
            return self.kg
        off = abs(self.weight.centre[0] - self.edge[0]) / ((self.high[0] - self.low[0]) / 2)
        return round(self.weight.kg * max(1.0, off), 3)

    @property
    def run(self) -> Vec:
        """The way along the hinged edge: up, or to the right."""
        return RIGHT if self.hinged == "up" else UP

    @property
    def run_from(self) -> Vec:
        """The way in which the end looks that places along the hinged edge are taken from."""
        return neg(self.run)

    @property
    def toward(self) -> Vec:
        """From the door to its hinged edge."""
        return {"left": LEFT, "right": RIGHT, "up": UP}[self.hinged]

    @property
    def length(self) -> float:
        """Of the hinged edge."""
        return self.high[0] - self.low[0] if self.hinged == "up" else self.top_at(self.edge[0]) - self.low[2]

    @property
    def for_cups(self) -> float:
        """Of it, as far up as a cup has the slope over it by no less than the hinged edge ends over it."""
        if self.upper is None:
            return self.length
        inner = self.edge[0] - CUP_REACH_MM * self.toward[0]
        return min(self.length, self.top_at(inner) - self.low[2])

    @property
    def edge(self) -> Vec:
        """The lower or left end of the hinged edge, on the door's inside."""
        x = self.high[0] if self.hinged == "right" else self.low[0]
        z = self.high[2] if self.hinged == "up" else self.low[2]
        return (x, self.high[1], z)


@dataclass(frozen=True, slots=True)
class Taken:
    """Places along a carrying board that are taken: stretches by shelves, points by bores (along, from the front).

    `holes`: the only places where a plate's screws find holes, of drilled sides or of the grid; none: any.
    """

    stretches: tuple[tuple[float, float], ...]
    bores: tuple[tuple[float, float], ...]
    holes: tuple[float, ...] = ()

    def clear(self, at: float, line: float) -> bool:
        """Whether a plate may stand here."""
        if any(a - PLATE_REACH_MM < at < b + PLATE_REACH_MM for a, b in self.stretches):
            return False
        screws = (at - PLATE_SCREWS_MM / 2, at + PLATE_SCREWS_MM / 2)
        near = [z for z, y in self.bores if abs(y - line) < APART_MM]
        return all(abs(s - z) >= APART_MM for s in screws for z in near)


def guided(height: float, kg: float | None) -> int | None:
    """How many hinges the guide asks for; None past its end. A weight that is not known is passed over."""
    return next((n for h, w, n in GUIDE if height <= h and (kg is None or kg <= w)), None)


def hang(leaf: Leaf, taken: Taken, step: float) -> tuple[DoorHung, tuple[FittingBore, ...]]:
    """A door on its hinges, and their bores in both boards. Raises CannotBuild."""
    sheet = leaf.sheet
    fit = _fit(leaf, step)
    guide = guided(leaf.length, leaf.pulls_kg)
    number = 2 if leaf.bought is not None else sheet.number or guide or GUIDE[-1][2]
    line = leaf.line
    places = _places(leaf, number, taken, line)
    hinges, bores = [], list[FittingBore]()
    for n, at in enumerate(places, 1):
        hinge, made = _bored(leaf, n, at, fit)
        hinges.append(hinge)
        bores += made
    hung = DoorHung(
        door=leaf.panel.id, hinged=leaf.hinged, style=leaf.style, kg=leaf.kg, hinges=tuple(hinges), guide=guide
    )  # fmt: skip
    return hung, tuple(bores)


@dataclass(frozen=True, slots=True)
class Fit:
    """The hinge and plate that go with an overlay, and what lies between the cup and the door's edge, mm."""

    fixed: float
    plate: float
    rim: float


def _fit(leaf: Leaf, step: float) -> Fit:
    """The first hinge, and its lowest plate, that leave a rim within the sheet's limits."""
    s = leaf.sheet
    if leaf.bought is not None:
        return _taken_up(leaf, leaf.bought.cups_from_edge_mm - s.cup_mm / 2)
    for fixed in s.fixed_mm:
        for plate in s.plates_mm:
            rim = to_step(leaf.overlay - fixed + plate, step)
            if s.least_rim_mm <= rim <= s.most_rim_mm:
                return Fit(fixed, plate, rim)
    raise CannotBuild(
        leaf.place,
        f"{leaf.panel.id} lies over its {leaf.carrier.name} by {leaf.overlay:.1f}, and no hinge and plate that are "
        f"given leave {s.least_rim_mm:g} to {s.most_rim_mm:g} mm between the cup and the door's edge",
        f"give a hinge whose fixed distance is from {leaf.overlay - s.most_rim_mm + min(s.plates_mm):.1f} to "
        f"{leaf.overlay - s.least_rim_mm + max(s.plates_mm):.1f}, or {_else(leaf)}",
    )


def _else(leaf: Leaf) -> str:
    """What else than another hinge: a door that lies too far over takes a wider margin, a plate only brings it back."""
    s = leaf.sheet
    much = leaf.overlay - (max(s.fixed_mm) + s.most_rim_mm - min(s.plates_mm))
    if much <= 0.0 or leaf.style == "inset":
        return "other plates"
    margin, share = {"side": ("sides", 1), "divider": ("between", 2)}.get(leaf.carrier.role, ("ends", 1))
    return f"let it lie less far over: {margin} {much * share:.1f} mm larger under doors"


def _taken_up(leaf: Leaf, rim: float) -> Fit:
    """The hinge and plate that hold a door with its cups bored nearest to where its margins want it."""
    fits = [Fit(fixed, plate, rim) for fixed in leaf.sheet.fixed_mm for plate in leaf.sheet.plates_mm]
    best = min(fits, key=lambda f: abs(leaf.overlay - (f.fixed + f.rim - f.plate)))
    off = leaf.overlay - (best.fixed + best.rim - best.plate)
    if abs(off) > TAKE_UP_MM:
        raise CannotBuild(
            leaf.place,
            f"{leaf.panel.id} lies over its {leaf.carrier.name} by {leaf.overlay:.1f}, and with its cups {rim:g} "
            f"from its edge no hinge and plate that are given come nearer than {abs(off):.1f}",
            f"give a hinge whose fixed distance is {leaf.overlay - rim + leaf.sheet.plates_mm[0]:.1f}, "
            f"or other plates: a hinge takes up {TAKE_UP_MM:g} mm",
        )
    return best


def _places(leaf: Leaf, number: int, taken: Taken, line: float) -> tuple[float, ...]:
    """Along the hinged edge from its lower or left end; where nothing is clear, the usual place (a check says so)."""
    length, start = leaf.for_cups, leaf.edge[0] if leaf.hinged == "up" else leaf.edge[2]
    if length < 2 * OUTER_MM[1] + 2 * PLATE_REACH_MM:
        raise CannotBuild(
            leaf.place, f"{leaf.panel.id} is {length:.1f} along its hinged edge, too short for two hinges",
            f"make it at least {2 * OUTER_MM[1] + 2 * PLATE_REACH_MM:g}, or hang it another way",
        )  # fmt: skip

    if leaf.bought is not None:
        return leaf.bought.cups_from_ends_mm, length - leaf.bought.cups_from_ends_mm
    if taken.holes:
        return _on_holes(leaf, number, start, tuple(h - start for h in taken.holes if taken.clear(h, line)))

    def first(places: Iterable[float], usual: float) -> float:
        return next((p for p in places if taken.clear(start + p, line)), usual)

    ends = [float(d) for d in range(int(OUTER_MM[0]), int(OUTER_MM[1]) - 1, -1)]
    high = first((length - d for d in ends), length - OUTER_MM[0])
    low = first(ends, OUTER_MM[0])
    between = []
    for k in range(1, number - 1):
        usual = to_step(low + (high - low) * k / (number - 1), 1.0)
        between.append(first((usual + s * d for d in range(61) for s in (1, -1)), usual))
    return (low, *between, high)


def _on_holes(leaf: Leaf, number: int, start: float, places: Sequence[float]) -> tuple[float, ...]:
    """Along the hinged edge, where the rows have two holes for a plate and nothing is in the way."""
    length, usual = leaf.for_cups, OUTER_MM[0]
    low = min((p for p in places if ON_HOLES_MM[0] <= p <= ON_HOLES_MM[1]), key=lambda p: abs(p - usual), default=None)
    high = min(
        (p for p in places if ON_HOLES_MM[0] <= length - p <= ON_HOLES_MM[1]), key=lambda p: abs(length - p - usual),
        default=None,
    )  # fmt: skip
    if low is None or high is None:
        end = "lower" if low is None else "upper"
        raise CannotBuild(
            leaf.place,
            f"{leaf.panel.id} wants a hinge {ON_HOLES_MM[0]:g} to {ON_HOLES_MM[1]:g} from its {end} end, "
            f"{start if low is None else start + length:g} up, and there are no two free holes of the rows there",
            "move the shelf that is in the way, or the ends of the door",
        )  # fmt: skip
    inner = [p for p in places if low < p < high]
    between = list[float]()
    for k in range(1, number - 1):
        wanted = low + (high - low) * k / (number - 1)
        free = [p for p in inner if all(abs(p - b) >= 2 * PLATE_REACH_MM for b in (low, high, *between))]
        if not free:
            raise CannotBuild(
                leaf.place, f"{leaf.panel.id} wants {number} hinges, and the rows have no room for so many",
                "write hinges = 2",
            )  # fmt: skip
        between.append(min(free, key=lambda p: abs(p - wanted)))
    return (low, *between, high)


def _plate_depth(leaf: Leaf) -> float:
    """As deep as the carrying board takes, the way that the screws go in: a stile is wider than it is thick."""
    axis = 0 if leaf.toward[0] else 2
    low, high = leaf.carrier.box
    return min(PLATE_DEPTH_MM, down_to_step(high[axis] - low[axis] - LEAST_UNDER_MM, 0.5))


def _bored(leaf: Leaf, n: int, at: float, fit: Fit) -> tuple[Hinge, tuple[FittingBore, ...]]:
    """One hinge: cup and its screws in the door, the plate's two bores in the carrier, all from one place."""
    s, name = leaf.sheet, f"{leaf.panel.id} hinge {n}"
    on_edge = along(leaf.edge, (leaf.run, at))
    cup_in = fit.rim + s.cup_mm / 2
    cup = clean(along(on_edge, (leaf.toward, -cup_in)))
    face = clean(along(on_edge, (leaf.toward, -leaf.overlay), (BACK, leaf.line - leaf.high[1])))

    def in_door(id: str, point: Vec, diameter: float, depth: float, tip: float, in_place: bool) -> FittingBore:
        return FittingBore(
            panel=leaf.panel.id, id=id, role="hinge", at=clean(point), into=FRONT, along_from=leaf.run_from,
            across_from=leaf.toward, diameter=diameter, depth=depth, tip=tip,
            stage="in place" if in_place else "as bought" if leaf.bought is not None else "after edging",
        )  # fmt: skip

    bores = [in_door(f"{name} cup", cup, s.cup_mm, s.cup_depth_mm, 1.0, False)]
    plates = []
    for word, way in (("a", -1.0), ("b", 1.0)):
        screw = along(cup, (leaf.run, way * CUP_SCREWS_MM / 2), (leaf.toward, -CUP_SCREWS_BEHIND_MM))
        bores.append(in_door(f"{name} cup screw {word}", screw, PILOT_MM, PILOT_DEPTH_MM, 0.0, True))
        plates.append(f"{name} plate {word}")
        bores.append(
            FittingBore(
                panel=leaf.carrier.id, id=plates[-1], role="hinge",
                at=clean(along(face, (leaf.run, way * PLATE_SCREWS_MM / 2))), into=leaf.toward,
                along_from=leaf.run_from, across_from=FRONT, diameter=PLATE_BORE_MM, depth=_plate_depth(leaf),
            )
        )  # fmt: skip
    hinge = Hinge(
        id=name, door=leaf.panel.id, carrier=leaf.carrier.id, cup=f"{name} cup", plate=tuple(plates),
        fixed=fit.fixed, overlay=round(leaf.overlay, 6), rim=fit.rim, plate_height=fit.plate,
        across=round(s.cup_mm / 2 + fit.plate - fit.fixed, 6), behind=round(leaf.line - leaf.high[1], 6),
        take_up=round(leaf.overlay - (fit.fixed + fit.rim - fit.plate), 6),
    )  # fmt: skip
    return hinge, tuple(bores)


def plate_bores(bores: Sequence[FittingBore], carrier: str, run_axis: int) -> tuple[tuple[float, float], ...]:
    """What hinges have taken of a board so far, on either face: (along, from the front)."""
    return tuple((b.at[run_axis], b.at[1]) for b in bores if b.panel == carrier)


def handle_bores(leaf: Leaf, handle: Handle, low_on_door: bool) -> tuple[FittingBore, ...]:
    """Bores for a handle near the edge opposite the hinges: upright on a side-hung door, lying on a lift-up one.

    `low_on_door`: near the lower end, as a wall unit has it.
    """
    half = handle.centres_mm / 2
    outside = leaf.low[1]
    if leaf.hinged == "up":
        middle = ((leaf.low[0] + leaf.high[0]) / 2, outside, leaf.low[2] + handle.from_edge_mm)
        run = RIGHT
    else:
        x = leaf.high[0] - handle.from_edge_mm if leaf.hinged == "left" else leaf.low[0] + handle.from_edge_mm
        middle = (x, outside, _handle_height(leaf, handle, low_on_door, x))
        run = UP
    at = [middle] if half == 0 else [along(middle, (run, -half)), along(middle, (run, half))]
    free = neg(leaf.toward)
    return tuple(
        FittingBore(
            panel=leaf.panel.id, id=f"{leaf.panel.id} handle {n}", role="handle", at=clean(p), into=BACK,
            along_from=LEFT if leaf.hinged == "up" else DOWN, across_from=free, diameter=handle.diameter_mm,
            depth=leaf.panel.size[2], through=True,
        )
        for n, p in enumerate(at, 1)
    )  # fmt: skip


def _handle_height(leaf: Leaf, handle: Handle, low_on_door: bool, x: float) -> float:
    """The middle of an upright handle so far across, above the bottom of the carcass; common practice, no source.

    Under a slope it keeps from the lower of the edge's heights beside it.
    """
    asked = handle.from_end_mm
    end = (HANDLE_FROM_END_MM if asked is None else asked) + handle.centres_mm / 2
    beside = handle.from_edge_mm
    lowest, highest = leaf.low[2] + end, min(leaf.top_at(x - beside), leaf.top_at(x + beside)) - end
    if low_on_door:
        return lowest
    return highest if asked is not None or highest <= HIGHEST_HANDLE_MM else max(lowest, HANDLE_IN_REACH_MM)


def items(hung: Sequence[DoorHung], handles: int) -> tuple[Item, ...]:
    """What is bought: hinges by the plate they take, and handles."""
    counts: dict[str, int] = {}
    for door in hung:
        for h in door.hinges:
            name = f"cup hinge 35 mm, fixed distance {h.fixed:g}, plate {h.plate_height:g}"
            counts[name] = counts.get(name, 0) + 1
    made = [Item(item=name, count=n) for name, n in counts.items()]
    return (*made, *((Item(item="handle", count=handles),) if handles else ()))
