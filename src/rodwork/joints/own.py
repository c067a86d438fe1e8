"""A family that a maker has written as data, as a joint kind like any other: the same plan, the same laws."""

from dataclasses import dataclass, field, make_dataclass
from functools import lru_cache
from typing import Any

from rodwork.geometry.vec import Vec
from rodwork.joints.kind import ALONG, INTO_GUEST, INTO_HOST, FixingPlan, JointKind, Run, Void, straight_in
from rodwork.joints.positions import across_mm, stand_at, stand_between
from rodwork.model.feature import KINDS
from rodwork.model.fixing import Move
from rodwork.model.job import CannotBuild
from rodwork.model.meeting import Entry
from rodwork.model.own_family import OwnCut, OwnFamily
from rodwork.model.settings import choice, length, whole
from rodwork.model.shop import Shop

INWARDS: Vec = (0.0, 1.0, 0.0)  # across the board worked on its end, from the face that is registered on
OUTWARDS: Vec = (0.0, -1.0, 0.0)
RADIUS_MM = 6.0  # kept from a back groove beyond the middle of a fitting


@dataclass(frozen=True, slots=True, kw_only=True)
class Faces:
    """How the faces of the board worked on its end lie in one run.

    `inner_first`: the inner face is the one that is registered on; `turned`: the file has it the other way.
    """

    inner_first: bool
    turned: bool


@lru_cache(maxsize=64)
def settings_of(family: OwnFamily) -> type:
    """What a job file may say of a family of its own: where its fittings stand, as with any row."""
    words = {
        "first_mm": length(None, 5, 1000, "front edge to the first one; the shop's habit if left out"),
        "pitch_mm": length(None, 16, 1000, "from one to the next; the shop's habit if left out"),
        "end_mm": length(None, 5, 1000, "last one to the end of the run; the shop's habit if left out"),
        "positions": choice("shop", ("shop", "fixed", "evenly"), "how they stand along the run"),
        "count": whole(None, 2, 60, "a fixed number in every row, shared evenly"),
    }
    types: dict[str, Any] = {"positions": str, "count": int | None}
    rows: list[Any] = [(name, types.get(name, float | None), said) for name, said in words.items()]
    made = make_dataclass(
        "Settings", [*rows, ("family", OwnFamily, field(default=family))], frozen=True, slots=True, kw_only=True
    )
    made.__doc__ = f"What a job file may say of {family.title}."
    return made


@lru_cache(maxsize=64)
def own_kind(family: OwnFamily) -> JointKind:
    """The joint kind of a family's file."""
    return JointKind(
        name=family.name, title=family.title, settings=settings_of(family), plan=plan, glued=family.glued,
        nature=family.nature, places=family.places,
        entry=lambda host, guest, settings, shop: Entry(inner=family.from_inner_face),
    )  # fmt: skip


def plan(run: Run, s: Any, shop: Shop) -> tuple[FixingPlan, ...]:
    """Every fixing of the run, each with all the cuts of the file."""
    family: OwnFamily = s.family
    _refuse(run, family)
    evenly = (shop.positions if s.positions == "shop" else s.positions) == "evenly"
    pitch = s.pitch_mm if s.pitch_mm is not None else shop.pitch_mm
    if run.taken and s.first_mm is None and s.end_mm is None and s.count is None:
        row = stand_between(run.taken, what=family.title, pitch=pitch, apart=family.least_apart_mm / 2, shop=shop)
    else:
        row = stand_at(
            what=family.title, run_to=run.run_to, to_groove=run.to_groove and s.end_mm is None, radius=RADIUS_MM,
            first=s.first_mm if s.first_mm is not None else shop.first_mm,
            end=s.end_mm if s.end_mm is not None else shop.end_mm, shift=family.least_apart_mm * run.stagger,
            pitch=pitch, least_apart=family.least_apart_mm, evenly=evenly, number=s.count, shop=shop,
        )  # fmt: skip
    return tuple(_fixing(u, family, run, shop) for u in row)


def _refuse(run: Run, family: OwnFamily) -> None:
    if run.reach > 0 and family.law != "line":
        raise CannotBuild(
            (), f"{family.title} cannot stand in a channel that the board itself enters", "name them alone"
        )
    thin, thick = family.nature.board_mm
    for thickness in (run.host_thickness, run.guest_thickness):
        if not thin <= thickness <= thick:
            raise CannotBuild(
                (), f"{family.title} want boards of {thin:g} to {thick:g} mm, and this one is {thickness:g}",
                "use another board there, or another joint",
            )  # fmt: skip


def _fixing(u: float, family: OwnFamily, run: Run, shop: Shop) -> FixingPlan:
    voids = [(cut, _void(number, cut, u, run, _faces(family, run), shop)) for number, cut in enumerate(family.cuts, 1)]
    halves: dict[str, Void | None] = {"host": None, "guest": None}
    for cut, void in reversed(voids):
        if _is_half(cut, family):
            halves[void.board] = void
    v = next(void.cut.at[1] for cut, void in voids if cut.cut_from in ("joint", "other face"))
    return FixingPlan(
        u=u, v=v, length=family.length_mm, law=family.law, duty=family.duty, host=halves["host"], guest=halves["guest"],
        others=tuple(void for _, void in voids if void not in halves.values()), hardware=family.hardware,
        play=family.play, moves=_moves(family),
    )  # fmt: skip


def _moves(family: OwnFamily) -> tuple[Move, ...]:
    """Straight home, then along the joint where it slides."""
    if not family.slides_mm:
        return straight_in(family.goes_home_mm)
    way = 1.0 if family.slides_mm > 0 else -1.0
    return (*straight_in(family.goes_home_mm), Move(push=(way, 0.0, 0.0), mm=abs(family.slides_mm)))


def _is_half(cut: OwnCut, family: OwnFamily) -> bool:
    """The cuts that the law is about; where it asks for none, the first in each board."""
    roles = {"meet": ("seat",), "line": ("clearance", "pilot"), "none": ("seat", "clearance", "pilot")}[family.law]
    from_other = family.law == "line" and cut.board == "face"
    return cut.role in roles and cut.cut_from == ("other face" if from_other else "joint")


def _void(number: int, cut: OwnCut, u: float, run: Run, faces: Faces, shop: Shop) -> Void:
    at, into, room = _mouth(cut, u, run, faces, shop)
    sizes: dict[str, Any] = dict(cut.sizes)
    if cut.depth_mm is None:
        sizes["through"] = True
    feature = KINDS[cut.kind](
        id=chr(ord("a") + number - 1), role=cut.role, at=at, into=into, along=ALONG,
        depth=room if cut.depth_mm is None else cut.depth_mm, stage="in place" if cut.in_place else "after edging",
        **sizes,
    )  # fmt: skip
    across_the_end = cut.cut_from in ("outer face", "inner face")
    return Void(
        board="host" if cut.board == "face" else "guest", cut=feature, tool=cut.tool, cutter=cut.cutter,
        stands_on="the machined face" if across_the_end else None,
    )  # fmt: skip


def _faces(family: OwnFamily, run: Run) -> Faces:
    """Which way the file's faces lie here: another family of the recipe may have the corner set out from inside.

    A shelf or a divider is set out from one named face, which is the one that the file calls its own.
    """
    inner_first = run.inner if run.place == "corner" else family.from_inner_face
    return Faces(inner_first=inner_first, turned=inner_first != family.from_inner_face)


def _mouth(cut: OwnCut, u: float, run: Run, faces: Faces, shop: Shop) -> tuple[Vec, Vec, float]:
    """Where a cut begins, which way it goes, and how much board there is for it to go through."""
    along, across = u + cut.along_mm, across_mm(cut.across_mm, run.guest_thickness, shop)
    if faces.turned and cut.across_mm is not None:
        across = run.guest_thickness - across
    entered = max(run.reach, 0.0)
    if cut.cut_from == "joint":
        return (along, across, -entered), INTO_HOST if cut.board == "face" else INTO_GUEST, run.host_thickness
    if cut.cut_from == "other face":
        return (along, across, -run.host_thickness), INTO_GUEST, run.host_thickness - entered
    out = (cut.out_mm or 0.0) - entered
    if (cut.cut_from == "inner face") == faces.inner_first:
        return (along, 0.0, out), INWARDS, run.guest_thickness
    return (along, run.guest_thickness, out), OUTWARDS, run.guest_thickness
