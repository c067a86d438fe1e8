"""Cut-outs in a back for sockets, pipes and the like, and the room that they leave for drawers."""

from rodwork.carcass.contacts import facing
from rodwork.geometry.directions import DOWN, LEFT
from rodwork.model.feature import Cutout
from rodwork.model.job import BackCutOut, Cabinet, CannotBuild
from rodwork.model.machining import MACHINED_FACE, Machining
from rodwork.model.panel import Panel
from rodwork.model.surface import axis_of

LEAST_WOOD_MM = 15.0  # of the back beside a cut-out; common practice, no source
CORNER_MM = 10.0  # the radius that the template's cutter leaves


def back_cut_outs(cabinet: Cabinet, back: Panel | None) -> tuple[Machining, ...]:
    """Every cut-out in the back. Raises CannotBuild where one runs out of it."""
    if back is None or cabinet.back is None:
        return ()
    return tuple(_cut(cabinet, back, n, cut) for n, cut in enumerate(cabinet.back.cut_outs, 1))


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
    length, width, thick = back.size
    if min(x0, y0, length - x1, width - y1) < LEAST_WOOD_MM:
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
