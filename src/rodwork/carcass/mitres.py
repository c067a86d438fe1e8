"""A box with mitred corners: four boards of the full outside size, every end cut to 45 degrees.

The upright is the host of each corner. Both halves are set out from the outside arris, the only line that is seen, and
from the front; along the mitre, not square to a face.
"""

from collections.abc import Callable, Mapping

from rodwork.carcass.back import Frame
from rodwork.carcass.boards import LEFT_SIDE, LYING, RIGHT_SIDE, TOP
from rodwork.carcass.contacts import facing, meet
from rodwork.geometry.directions import DOWN, FRONT, LEFT, RIGHT, UP
from rodwork.geometry.vec import Vec
from rodwork.model.contact import Register
from rodwork.model.job import Cabinet, CannotBuild
from rodwork.model.meeting import Meeting
from rodwork.model.panel import Panel
from rodwork.model.surface import Surface

MITRE_DEG = 45.0
_BOTH_ENDS: Mapping[Surface, float] = {"left_end": MITRE_DEG, "right_end": MITRE_DEG}


def box(cabinet: Cabinet, t: float, frame: Frame, make: Callable[..., Panel]) -> dict[str, Panel]:
    """Sides, top and bottom. Raises CannotBuild where a back leaves them of two depths, or there are not all four."""
    for asked, what in ((cabinet.rails is not None and cabinet.rails.instead_of_top, "rails"), (cabinet.toe_mm, "toe")):
        if asked:
            raise CannotBuild(
                (*cabinet.place.path, "sides"),
                "mitred corners want four whole boards, and here there are "
                + ("rails in place of the top" if what == "rails" else "sides notched for a toe space"),
                'write sides = "through", or leave that out',
            )
    if abs(frame.side_depth - frame.cross_depth) > 1e-6:
        style = cabinet.back.style if cabinet.back else ""
        raise CannotBuild(
            (*cabinet.place.path, "sides"),
            f"a back {style} leaves top and bottom {frame.side_depth - frame.cross_depth:g} mm narrower than the "
            "sides, and a mitre joins boards of one width",
            'choose a back grooved all round, rebated, planted or inset, or write sides = "through"',
        )
    w, h, d = cabinet.width_mm, cabinet.height_mm, frame.side_depth
    return {
        "left side": make("left side", "side", (0.0, 0.0, 0.0), (t, d, h), LEFT_SIDE, bevelled=_BOTH_ENDS),
        "right side": make("right side", "side", (w - t, 0.0, 0.0), (w, d, h), RIGHT_SIDE, bevelled=_BOTH_ENDS),
        "top": make("top", "top", (0.0, 0.0, h - t), (w, d, h), TOP, bevelled=_BOTH_ENDS),
        "bottom": make("bottom", "bottom", (0.0, 0.0, 0.0), (w, d, t), LYING, bevelled=_BOTH_ENDS),
    }


def corners(cabinet: Cabinet, box: Mapping[str, Panel], wall_at: Vec | None) -> list[Meeting]:
    """The four corners, each from the outside arris; `wall_at`: a point on the near wall of a back groove."""

    def register(panel: Panel, end: Vec, outside: Vec) -> Register:
        return Register(
            bears=facing(panel, end), along_from=facing(panel, FRONT), across_from=facing(panel, outside)
        )  # fmt: skip

    return [
        meet(
            host=box[side], guest=box[cross], place="mitre", recipe=cabinet.corner_joint, groove_at=wall_at,
            host_register=register(box[side], up, way), guest_register=register(box[cross], way, up),
        )
        for side, way in (("left side", LEFT), ("right side", RIGHT))
        for cross, up in (("top", UP), ("bottom", DOWN))
    ]  # fmt: skip
