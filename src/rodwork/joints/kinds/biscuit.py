"""Biscuits: the same slot in both boards, as a round cutter leaves it, and a flat blank glued into it."""

from dataclasses import dataclass
from math import sqrt

from rodwork.joints.jointer import across, back_to_back, base_height, set_by
from rodwork.joints.kind import ALONG, INTO_GUEST, INTO_HOST, FixingPlan, JointKind, Run, Void, Which, straight_in
from rodwork.joints.leaning import room_below, too_deep
from rodwork.joints.positions import RowSettings, row_of
from rodwork.model.feature import ArcSlot, chord
from rodwork.model.fixing import Item, Play
from rodwork.model.job import CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import choice, length
from rodwork.model.shop import Shop

CUTTER_RADIUS_MM = 50.0  # 100 mm cutters, 4 mm thick: an encyclopaedia's page on biscuit joiners
THICKNESS_MM = 4.0
WOOD_MM = 12.0  # from the slot to the end of the run; common practice, no source
BETWEEN_MM = 3.0  # wood between two slots
LAID_CLOSE_MM = 0.05  # across: a dry blank in its slot is a push fit


@dataclass(frozen=True, slots=True)
class Blank:
    """A size of biscuit: the blank's length and width, and the depth that the machine's own stop cuts for it, mm.

    The width and length of 10 and 20: an encyclopaedia's page on biscuit joiners; of 0: a page that quotes it. The
    depths are the stops that such machines have, half the blank and half a millimetre: common practice, no source.
    """

    length: float
    width: float
    depth: float

    def free_along(self) -> float:
        """How far the blank can be slid each way in its slot, mm: until its arc touches the arc of the floor.

        The half of a blank in one board is taken as a segment with its own length and half its width. A circle of
        radius r moves inside one of radius R until their middles are R - r apart.
        """
        half, deep = self.length / 2, self.width / 2
        radius = (half * half + deep * deep) / (2 * deep)
        apart = CUTTER_RADIUS_MM - radius
        rise = (CUTTER_RADIUS_MM - self.depth) - (radius - deep)
        return sqrt(apart * apart - rise * rise)


BLANKS = {
    "20": Blank(56.0, 23.0, 12.0),
    "10": Blank(53.0, 19.0, 10.0),
    "0": Blank(47.0, 15.0, 8.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings(RowSettings):
    """What a job file may say of biscuits."""

    size: str = choice("fits", ("fits", "20", "10", "0"), "size of biscuit; fits: the largest the boards allow")
    set_by: str = set_by()
    base_mm: float = base_height()
    offset_mm: float | None = length(
        None,
        4,
        40,
        "across the thickness from the registering face; nearest setting to the middle if left out",
    )


def size_of(s: Settings, host_thickness: float, shop: Shop) -> str:
    """The size as asked, or the largest that leaves the least remainder under its slot in the face."""
    if s.size != "fits":
        return s.size
    for name, blank in BLANKS.items():
        if blank.depth + shop.least_remainder_mm <= host_thickness + 1e-9:
            return name
    least = BLANKS["0"].depth + shop.least_remainder_mm
    raise CannotBuild(
        ("size",), f"no biscuit goes into a {host_thickness:g} mm board: the smallest wants a slot 8 mm deep",
        f"use a board of at least {least:g} mm, or another joint",
    )  # fmt: skip


def _size_in(s: Settings, v: float, run: Run, shop: Shop) -> str:
    """The size for this run: where the end is bevelled, one whose slot does not come out at a face."""
    room = room_below(v, THICKNESS_MM / 2, run, shop)
    if s.size == "fits" and run.nears:
        able = [n for n, b in BLANKS.items() if b.depth <= min(room, run.host_thickness - shop.least_remainder_mm)]
        size = able[0] if able else "0"
    else:
        size = size_of(s, run.host_thickness, shop)
    if BLANKS[size].depth > room + 1e-9:
        raise too_deep(f"a slot for biscuit {size},", BLANKS[size].depth, THICKNESS_MM / 2, run, shop)
    return size


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Biscuits along the run, all in one row."""
    if run.reach > 0:
        raise CannotBuild((), "biscuits cannot stand in a channel that the board itself enters", "name biscuits alone")
    v, stands_on = across(s.offset_mm, s.set_by, s.base_mm, THICKNESS_MM, run, shop)
    size = _size_in(s, v, run, shop)
    slot = chord(CUTTER_RADIUS_MM, BLANKS[size].depth)
    row = row_of(
        run, s, shop, what="biscuits", half=slot / 2, clear=WOOD_MM, pitch=2 * shop.pitch_mm,
        least_apart=slot + BETWEEN_MM, between=slot + BETWEEN_MM, shift=back_to_back(BLANKS[size].depth, run, shop),
    )  # fmt: skip
    return tuple(_biscuit(u, v, size, stands_on) for u in row)


def _biscuit(u: float, v: float, size: str, stands_on: tuple[str | None, str | None]) -> FixingPlan:
    blank = BLANKS[size]

    def slot(board: Which) -> Void:
        on_host = board == "host"
        cut = ArcSlot(
            id=board[0], role="seat", at=(u, v, 0.0), into=INTO_HOST if on_host else INTO_GUEST, along=ALONG,
            depth=blank.depth, cutter_radius=CUTTER_RADIUS_MM, thickness=THICKNESS_MM,
        )  # fmt: skip
        return Void(
            board=board, cut=cut, tool="slot jointer", cutter=f"disc {2 * CUTTER_RADIUS_MM:g} x {THICKNESS_MM:g}",
            to_marks=True, stands_on=stands_on[0 if on_host else 1],
        )  # fmt: skip

    return FixingPlan(
        u=u, v=v, length=blank.length, law="meet", duty="both", host=slot("host"), guest=slot("guest"),
        hardware=(Item(item=f"biscuit {size}", count=1),),
        play=Play(along=round(blank.free_along(), 2), across=LAID_CLOSE_MM, shape="box"),
        moves=straight_in(blank.width - blank.depth),
    )  # fmt: skip


KIND = JointKind(
    name="biscuit", title="Biscuits", settings=Settings, plan=plan, glued=True,
    nature=Nature(
        machines=("slot jointer",),
        registers_on="fence: the outer face of the board worked on its end, and the end of the other; base: the same "
        "face laid down, its end on the line; never fence and base in one joint",
        support="fence or base on the face; on an end, clamp an offcut flush beside a board under 15 mm",
        board_mm=(12.0, 40.0), glue="needed", clamps="needed", draws_up=False, at_once=False, apart=False,
        shows="", covered_by="", demands_along_mm=2.8, demands_across_mm=0.2,
    ),
    places=("corner", "mitre", "on a slope", "fixed shelf", "divider", "inset back", "edge to edge", "face frame"),
)  # fmt: skip
