"""Loose tenons: a mortise with round ends in both boards; the first one tight, the rest wide so that they only pull."""

from collections.abc import Sequence
from dataclasses import dataclass

from rodwork.joints.jointer import across, back_to_back, base_height, set_by
from rodwork.joints.kind import ALONG, INTO_GUEST, INTO_HOST, FixingPlan, JointKind, Run, Void, Which, straight_in
from rodwork.joints.leaning import room_below, too_deep
from rodwork.joints.positions import RowSettings, row_of
from rodwork.model.feature import Slot
from rodwork.model.fixing import Item, Play
from rodwork.model.job import CannotBuild
from rodwork.model.nature import Nature
from rodwork.model.settings import length, text
from rodwork.model.shop import Shop

STOPS_MM = (8.0, 12.0, 15.0, 20.0, 25.0, 28.0)  # that such machines have; common practice, no source
HOST_SHARE = 0.43  # 12 of 28, 15 of 35: what 5 x 30 and 6 x 40 come to in 18 mm; common practice, no source
SIZES = (  # thinnest board, and thickness and length of its tenon
    (28.0, (10.0, 50.0)), (24.0, (8.0, 40.0)), (19.5, (6.0, 40.0)), (14.0, (5.0, 30.0)), (0.0, (4.0, 20.0)),
)  # fmt: skip
TIGHT_MM = 0.1  # the tight mortise over the tenon's width
PITCH_PITCHES = 1.5  # of the shop's: 144 where that is 96; 120 to 200 is common practice, no source
BETWEEN_MM = 3.0  # wood between two mortises


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings(RowSettings):
    """What a job file may say of loose tenons."""

    size: str | None = text(
        None, r"(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)", "5x30", "thickness x length of the tenon; by the board if left out"
    )
    tenon_mm: float = length(20.0, 8, 60, "width of the tenon, over its round edges")
    wider_mm: float = length(6.0, 0, 20, "how much wider than the tight one every mortise after the first is")
    set_by: str = set_by()
    base_mm: float = base_height()
    offset_mm: float | None = length(
        None,
        4,
        40,
        "across the thickness from the registering face; nearest setting to the middle if left out",
    )
    depth_in_face_mm: float | None = length(None, 4, 60, "mortise in the board worked on its face")
    depth_in_end_mm: float | None = length(None, 4, 60, "mortise in the board worked on its end")
    glue_room_mm: float = length(1.0, 0, 10, "both mortises together are this much deeper than the tenon is long")

    def __post_init__(self) -> None:
        """The tenon must be wider than it is thick."""
        if self.size is not None and float(self.size.split("x")[0]) >= self.tenon_mm:
            raise ValueError(f"a tenon {self.size} is thicker than its width of {self.tenon_mm:g}")


def size_for(thickness: float) -> tuple[float, float]:
    """Thickness and length of the tenon for a board: a third to a quarter of it; common practice, no source."""
    return next(tenon for least, tenon in SIZES if thickness >= least)


def depths(s: Settings, tenon: float, run: Run, shop: Shop) -> tuple[float, float]:
    """Depth in the face and in the end, mm, from the machine's own stops; both hold the tenon and its glue room."""
    stops = sorted(shop.depth_stops_mm or STOPS_MM)
    both = tenon + s.glue_room_mm
    deepest = run.host_thickness - shop.least_remainder_mm
    share = 0.5 if run.place == "edge to edge" else HOST_SHARE
    if s.depth_in_face_mm is not None:
        face = s.depth_in_face_mm
    elif s.depth_in_end_mm is not None:
        face = both - s.depth_in_end_mm
    else:
        able = [d for d in stops if d <= deepest + 1e-9]
        if not able:
            raise CannotBuild(
                ("size",), f"no stop of the machine leaves {shop.least_remainder_mm:g} mm in a "
                f"{run.host_thickness:g} mm board: the shallowest is {stops[0]:g}",
                f"use a board of at least {stops[0] + shop.least_remainder_mm:g} mm, or write `depth_in_face`",
            )  # fmt: skip
        face = _face_stop(able, stops, both, share * both)
    if s.depth_in_end_mm is not None:
        return face, s.depth_in_end_mm
    return face, next((d for d in stops if d >= both - face - 1e-9), both - face)


def _size(s: Settings, run: Run, shop: Shop) -> tuple[float, float]:
    """Thickness and length of the tenon: as asked, by the board, or in a bevelled end the largest that has room."""
    if s.size is not None:
        thickness, tenon = (float(n) for n in s.size.split("x"))
        return thickness, tenon
    by_board = size_for(min(run.guest_thickness, run.host_thickness))
    if not run.nears:
        return by_board
    for size in (t for _, t in SIZES if t <= by_board):
        v, _ = across(s.offset_mm, s.set_by, s.base_mm, size[0], run, shop)
        end = (size[1] + s.glue_room_mm) / 2 if run.place == "mitre" else depths(s, size[1], run, shop)[1]
        if end <= room_below(v, size[0] / 2, run, shop):
            return size
    return SIZES[-1][1]


def _depths_in(s: Settings, size: tuple[float, float], v: float, run: Run, shop: Shop) -> tuple[float, float]:
    """Depths in the face and in the end, which must not come out at a face where the end is bevelled.

    Both alike where a mitre lets them: each by a stop that holds half the tenon.
    """
    if run.place != "mitre":
        deep = depths(s, size[1], run, shop)
        if run.nears and deep[1] > room_below(v, size[0] / 2, run, shop) + 1e-9:
            raise too_deep("a mortise", deep[1], size[0] / 2, run, shop)
        return deep
    each = (size[1] + s.glue_room_mm) / 2
    face = s.depth_in_face_mm if s.depth_in_face_mm is not None else None
    end = s.depth_in_end_mm if s.depth_in_end_mm is not None else None
    room = room_below(v, size[0] / 2, run, shop)
    if face is None and end is None:
        stops = [d for d in sorted(shop.depth_stops_mm or STOPS_MM) if each - 1e-9 <= d <= room + 1e-9]
        face = end = stops[0] if stops else each
    face = 2 * each - end if face is None and end is not None else face
    end = 2 * each - face if end is None and face is not None else end
    assert face is not None
    assert end is not None
    if max(face, end) > room + 1e-9:
        raise too_deep("a mortise", max(face, end), size[0] / 2, run, shop)
    return face, end


def _face_stop(able: Sequence[float], stops: Sequence[float], both: float, wanted: float) -> float:
    """The stop nearest below what is wanted in the face; a deeper one where only then the end has a stop as well."""
    first = max((d for d in able if d <= wanted + 1e-9), default=able[0])
    return next((d for d in able if d >= first and both - d <= stops[-1] + 1e-9), first)


def plan(run: Run, s: Settings, shop: Shop) -> tuple[FixingPlan, ...]:
    """Tenons along the run: the first in tight mortises, to a stop; the rest in wider ones, to a pencil mark."""
    if run.reach > 0:
        raise CannotBuild((), "tenons cannot stand in a channel that the board itself enters", "name tenons alone")
    thickness, tenon = _size(s, run, shop)
    v, stands_on = across(s.offset_mm, s.set_by, s.base_mm, thickness, run, shop)
    deep = _depths_in(s, (thickness, tenon), v, run, shop)
    wide = s.tenon_mm + TIGHT_MM + s.wider_mm
    row = row_of(
        run, s, shop, what="tenons", half=wide / 2, pitch=PITCH_PITCHES * shop.pitch_mm,
        least_apart=wide + BETWEEN_MM, between=wide + BETWEEN_MM, shift=back_to_back(deep[0], run, shop),
    )  # fmt: skip
    return tuple(
        _tenon(u, v, (thickness, tenon), deep, 0.0 if number == 0 else s.wider_mm, s, stands_on)
        for number, u in enumerate(row)
    )


def _tenon(
    u: float,
    v: float,
    size: tuple[float, float],
    deep: tuple[float, float],
    wider: float,
    s: Settings,
    stands_on: tuple[str | None, str | None],
) -> FixingPlan:
    thickness, tenon = size

    def mortise(board: Which) -> Void:
        on_host = board == "host"
        cut = Slot(
            id=board[0], role="seat", at=(u, v, 0.0), into=INTO_HOST if on_host else INTO_GUEST, along=ALONG,
            depth=deep[0 if on_host else 1], width=thickness, length=round(s.tenon_mm + TIGHT_MM + wider, 6),
            ends="round", end_radius=thickness / 2,
        )  # fmt: skip
        return Void(
            board=board, cut=cut, tool="mortise jointer", cutter=f"{thickness:g} mm", to_marks=wider > 0,
            stands_on=stands_on[0 if on_host else 1],
        )  # fmt: skip

    return FixingPlan(
        u=u, v=v, length=tenon, law="meet", duty="draws up" if wider else "both", host=mortise("host"),
        guest=mortise("guest"),
        hardware=(Item(item=f"loose tenon {thickness:g}x{s.tenon_mm:g}x{tenon:g}", count=1),),
        play=Play(along=round((TIGHT_MM + wider) / 2, 6), across=0.05, shape="box"),
        moves=straight_in(tenon - deep[0]),
    )  # fmt: skip


KIND = JointKind(
    name="loose tenon", title="Loose tenons", settings=Settings, plan=plan, glued=True,
    nature=Nature(
        machines=("mortise jointer",),
        registers_on="fence: the outer face of the board worked on its end, and the end of the other; base: the same "
        "face laid down, its end on the line; never fence and base in one joint",
        support="fence or base on the face; on an end, clamp an offcut flush beside a board under 15 mm",
        board_mm=(12.0, 40.0), glue="needed", clamps="needed", draws_up=False, at_once=False, apart=False,
        shows="", covered_by="", demands_along_mm=0.2, demands_across_mm=0.2,
    ),
    places=("corner", "mitre", "on a slope", "fixed shelf", "divider", "inset back", "edge to edge", "face frame"),
)  # fmt: skip
