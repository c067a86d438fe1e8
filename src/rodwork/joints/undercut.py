"""What the connectors that stand in an undercut slot share: its sizes, which each take from the fitting's own sheet."""

from dataclasses import dataclass

from rodwork.joints.kind import ALONG, INTO_GUEST, INTO_HOST, Run, Void, Which
from rodwork.joints.leaning import across_the_slope, room_below, too_deep
from rodwork.joints.positions import across_mm, stand_in
from rodwork.model.feature import Undercut, chord
from rodwork.model.job import CannotBuild
from rodwork.model.settings import length, whole
from rodwork.model.shop import Shop

LEAST_UNDER_SLOT_MM = 3.0
END_CLEAR_MM = 8.0  # board between the slot's end and the end of the run; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class SlotSettings:
    """What a job file may say of any connector in an undercut slot."""

    slot_mm: float = length(7.0, 3, 12, "width of the slot at its mouth; from the connector's own sheet")
    root_mm: float = length(9.0, 3.2, 16, "width of the slot at its floor; from the connector's own sheet")
    root_depth_mm: float = length(2.0, 0.5, 8, "how far up from the floor the slot is that wide")
    depth_mm: float = length(10.0, 4, 25, "depth of the slot in its middle, the same in both boards")
    cutter_mm: float = length(100.0, 50, 200, "diameter of the disc that cuts it")
    length_mm: float | None = length(
        None, 20, 150, "length of the connector; a little shorter than its slot if left out"
    )
    first_mm: float | None = length(
        None, 15, 1000, "front edge to the first connector; 60 if left out, and as far from the other end of the run"
    )
    pitch_mm: float = length(300.0, 60, 2000, "farthest from one connector to the next before there is one more")
    count: int | None = whole(None, 1, 60, "a fixed number in every row")
    offset_mm: float | None = length(
        None, 3, 40, "across the thickness from the flush face; nearest setting to the middle if left out"
    )

    def __post_init__(self) -> None:
        """Refuse sizes that contradict one another."""
        if self.root_mm <= self.slot_mm:
            raise ValueError(f"the slot is {self.root_mm:g} wide at its floor and {self.slot_mm:g} at its mouth")
        if self.root_depth_mm >= self.depth_mm:
            raise ValueError(f"a slot {self.depth_mm:g} deep cannot be wide over the last {self.root_depth_mm:g} of it")


FIRST_MM = 60.0
SHORTER_MM = 2.0  # a connector than its slot at the mouth; common practice, no source


def connector_length(s: SlotSettings) -> float:
    """How long the connector is, mm: as its sheet says, or what its slot takes."""
    return s.length_mm if s.length_mm is not None else round(chord(s.cutter_mm / 2, s.depth_mm) - SHORTER_MM, 1)


def row_of(run: Run, s: SlotSettings, what: str, shop: Shop) -> tuple[tuple[float, ...], float]:
    """(places along the run, distance across) of the slots. Raises CannotBuild where a slot is too long or deep."""
    half = chord(s.cutter_mm / 2, s.depth_mm) / 2
    if run.host_thickness - s.depth_mm < LEAST_UNDER_SLOT_MM:
        raise CannotBuild(
            ("depth",), f"a slot {s.depth_mm:g} deep leaves {max(run.host_thickness - s.depth_mm, 0):.1f} mm of a "
            f"{run.host_thickness:g} mm board",
            f"use a board of at least {s.depth_mm + LEAST_UNDER_SLOT_MM:g} mm, or a connector with a shallower slot",
        )  # fmt: skip
    connector = connector_length(s)
    if connector > 2 * half:
        raise CannotBuild(
            ("length",), f"a connector {connector:g} long does not go into a slot {2 * half:.1f} long, which is what "
            f"a disc of {s.cutter_mm:g} cuts at {s.depth_mm:g} deep",
            "take `length`, `depth` and `cutter` from the connector's own sheet",
        )  # fmt: skip
    if run.run_to < 2 * (half + END_CLEAR_MM):
        raise CannotBuild(
            (), f"a slot {2 * half:.1f} long has no room in a run of {run.run_to:g} mm with {END_CLEAR_MM:g} beside it",
            f"make the run at least {2 * (half + END_CLEAR_MM):.0f} mm, or use another joint there",
        )  # fmt: skip
    back_to_back = run.stagger and run.host_thickness - 2 * s.depth_mm < LEAST_UNDER_SLOT_MM
    first = max(s.first_mm if s.first_mm is not None else FIRST_MM, half + END_CLEAR_MM)
    alone = s.count == 1 or run.run_to < 4 * half + 3 * END_CLEAR_MM
    row = stand_in(
        what=what, run_to=run.run_to, to_groove=run.to_groove, radius=half, first=first, pitch=s.pitch_mm,
        number=1 if alone else s.count,
        shift=2 * half + END_CLEAR_MM if back_to_back else 0.0, taken=run.taken, apart=half + END_CLEAR_MM, shop=shop,
    )  # fmt: skip
    return row, _across(run, s, what, shop)


def _across(run: Run, s: SlotSettings, what: str, shop: Shop) -> float:
    """Where the slots stand across: in the middle, or in a bevelled end where they can go deep."""
    if not run.nears:
        return across_mm(s.offset_mm, run.guest_thickness, shop)
    v = across_the_slope(s.offset_mm, s.slot_mm / 2, run, shop)
    if s.depth_mm > room_below(v, s.root_mm / 2, run, shop) + 1e-9:
        raise too_deep(f"slots for {what}", s.depth_mm, s.root_mm / 2, run, shop)
    return v


def slot(board: Which, u: float, v: float, s: SlotSettings) -> Void:
    """The slot in one of the two boards; both are alike."""
    cut = Undercut(
        id="h" if board == "host" else "g", role="seat", at=(u, v, 0.0), along=ALONG,
        into=INTO_HOST if board == "host" else INTO_GUEST, depth=s.depth_mm, cutter_radius=s.cutter_mm / 2,
        thickness=s.slot_mm, root_width=s.root_mm, root_depth=s.root_depth_mm,
    )  # fmt: skip
    disc = f"undercut disc {s.cutter_mm:g} x {s.slot_mm:g}"
    return Void(board=board, cut=cut, tool="undercut slot jointer", cutter=disc, to_marks=True)
