"""Cut-outs in a back for sockets, pipes and the like, and the room that they leave for drawers."""

from rodwork.carcass.contacts import facing
from rodwork.carcass.pins import Bay
from rodwork.geometry.directions import DOWN, LEFT
from rodwork.geometry.polygon import room_round
from rodwork.model.feature import Cutout
from rodwork.model.job import Appliance, BackCutOut, Cabinet, CannotBuild
from rodwork.model.machining import MACHINED_FACE, Machining
from rodwork.model.panel import Panel
from rodwork.model.surface import axis_of

LEAST_WOOD_MM = 15.0  # of the back beside a cut-out; common practice, no source
VENT_FRAME_MM = 20.0  # of the back that is left round a vented opening, on its inside
DUST = 1e-6
CORNER_MM = 10.0  # the radius that the template's cutter leaves


def back_cut_outs(cabinet: Cabinet, back: Panel | None, vents: tuple[BackCutOut, ...]) -> tuple[Machining, ...]:
    """Every cut-out in the back, with those for `vents`. Raises CannotBuild where one runs out of it."""
    if back is None or cabinet.back is None:
        return ()
    return tuple(_cut(cabinet, back, n, cut) for n, cut in enumerate((*cabinet.back.cut_outs, *vents), 1))


def housed(
    cabinet: Cabinet, inside: float, bays: tuple[Bay, ...], spaces: tuple[tuple[float, float], ...]
) -> tuple[BackCutOut, ...]:
    """What is cut out of the back for the appliances of the cabinet. Raises CannotBuild where one does not go in.

    `inside`: the clear depth before the back.
    """
    made = (_housed(cabinet, h.appliance, inside, bays[0], spaces[h.opening - 1]) for h in cabinet.houses)
    return tuple(cut for cut in made if cut is not None)


def _housed(
    cabinet: Cabinet, appliance: Appliance, inside: float, bay: Bay, space: tuple[float, float]
) -> BackCutOut | None:
    """The air behind one appliance."""
    place, (wide, high) = cabinet.place.path, appliance.opening_mm
    (x0, x1), (z0, z1) = (bay.x0, bay.x1), space
    room = cabinet.depth_mm if appliance.vented else inside
    for word, there, wanted, size in (
        ("width", x1 - x0, wide, cabinet.width_mm), ("height", z1 - z0, high, cabinet.height_mm),
        ("depth", room, appliance.depth_mm + appliance.behind_mm, cabinet.depth_mm),
    ):  # fmt: skip
        if there < wanted - DUST:
            raise CannotBuild(
                (*place, word), f"the opening has a {word} of {there:g}, and the {appliance.name} wants {wanted:g}",
                f"make the {word} of the cabinet {round(size + wanted - there, 3):g} or more",
            )  # fmt: skip
    if not appliance.vented:
        return None
    beside = VENT_FRAME_MM
    return BackCutOut(
        what=f"the {appliance.name}", low_mm=(x0 + beside, z0 + beside), high_mm=(x1 - beside, z1 - beside)
    )  # fmt: skip


def drawer_room(cabinet: Cabinet, space: tuple[float, float], depth: float) -> float:
    """How deep drawers between these heights may be: `depth`, or as far as to what stands behind them."""
    cuts = cabinet.back.cut_outs if cabinet.back else ()
    out = [cut.out_mm for cut in cuts if cut.low_mm[1] < space[1] and cut.high_mm[1] > space[0]]
    return min(depth, cabinet.depth_mm - max(out, default=0.0))


def _cut(cabinet: Cabinet, back: Panel, n: int, cut: BackCutOut) -> Machining:
    """One cut-out, on the front face of the back, from its left and from its bottom."""
    front = back.pose.origin[1]
    a = back.pose.to_part((cut.low_mm[0], front, cut.low_mm[1]))
    b = back.pose.to_part((cut.high_mm[0], front, cut.high_mm[1]))
    (x0, x1), (y0, y1) = (sorted((round(a[k], 6), round(b[k], 6))) for k in (0, 1))
    thick = back.size[2]
    if room_round((x0, y0), (x1, y1), back.outline) < LEAST_WOOD_MM - DUST:
        raise CannotBuild(
            (*cabinet.place.path, "back", "cut_outs"),
            f"the cut-out for {cut.what} leaves less than {LEAST_WOOD_MM:g} of the back beside it, or runs out of it",
            "move what stands behind, or make the cut-out smaller",
        )  # fmt: skip
    left, low = facing(back, LEFT), facing(back, DOWN)
    along, across = (left, low) if axis_of(left) == 0 else (low, left)
    radius = min(CORNER_MM, (x1 - x0) / 2, (y1 - y0) / 2)
    feature = Cutout(
        id=f"{back.id} cut-out {n}", role="service", at=((x0 + x1) / 2, (y0 + y1) / 2, thick), into=(0.0, 0.0, -1.0),
        along=(1.0, 0.0, 0.0), depth=thick, length=x1 - x0, width=y1 - y0, ends="round", end_radius=radius,
        polygon=((x0, y0), (x1, y0), (x1, y1), (x0, y1)), stage="after edging",
    )  # fmt: skip
    return Machining(
        part=back.id, feature=feature, tool="router and template", cutter="template cutter", bears="face_side",
        along_from=along, across_from=across, stands_on=MACHINED_FACE, fence_on="no fence", to_marks=True,
    )  # fmt: skip
