"""Doors as the job file has them, with what they are where it is silent."""

from collections.abc import Mapping
from typing import Any

from rodwork.job.lines import Path
from rodwork.job.recipes import in_rails, on_carcass
from rodwork.model.fronts import (
    HANDLE_OUT_MM,
    MODULE_MM,
    BlindEnd,
    BoughtDoor,
    Doors,
    DoorStyle,
    Drawers,
    FaceFrame,
    Handle,
    HingeSheet,
)
from rodwork.model.job import Recipe

# Margins: lay-on 1.5 at each outer edge, 1.5 to 2 above and below, 3 between; inset 2. Common practice, no source.
MARGINS: Mapping[DoorStyle, tuple[float, float, float]] = {
    "overlay": (1.5, 1.5, 3.0), "half overlay": (1.5, 1.5, 3.0), "inset": (2.0, 2.0, 2.0),
}  # fmt: skip
# Fixed distances of common hinges, from memory: the sheet of the hinge that is bought goes before them.
FIXED_MM = (11.0, 1.5, -6.0)  # straight, half cranked, cranked for inset doors
BEHIND_INSET_MM = 3.0  # from an inset door to the shelves behind it; common practice, no source
# Drawer suppliers' pages: side-mounted runners 1 1/16 in off the opening in all; concealed ones 5/8 in off it for
# nominal 1/2 in sides and 3/8 in for 5/8 in, which is 1 5/8 in off the inside width either way.
RUNNERS_TAKE_MM = {False: 27.0, True: 41.3}
PLATES_MM = (0.0, 2.0, 4.0)
MEMBER_MM = 38.0  # 1 1/2 in: a cabinet maker's page on face frames, which has them 3/4 in thick
OVER_FRAME_MM = 13.0  # of an overlay front over a frame's member, 1/2 in; common practice, no source


def doors_of(
    table: Mapping[str, Any], board: str, openings: tuple[int, int], path: Path = (), frame: FaceFrame | None = None
) -> Doors:
    """The doors of one table, before `openings`: the first and the last of them."""
    style: DoorStyle = table.get("style", "overlay")
    bought = table.get("bought")
    sides, ends, between = _margins(style, frame)
    handle = None if "handle" not in table else Handle(
        centres_mm=table["handle"], from_edge_mm=table.get("handle_from_edge", 40.0),
        from_end_mm=table.get("handle_from_end"), diameter_mm=5.0,
    )  # fmt: skip
    return Doors(
        board=board, style=style, hung=table["hung"], openings=openings, sides_mm=table.get("sides", sides),
        ends_mm=table.get("ends", ends), between_mm=table.get("between", between), grain=table.get("grain", "up"),
        hinge=HingeSheet(
            fixed_mm=table.get("hinge_fixed", FIXED_MM),
            plates_mm=tuple(sorted(table.get("plates", PLATES_MM))), number=table.get("hinges"),
            cup_depth_mm=table.get("cup_depth", 12.5),
        ),
        handle=handle, bought=None if bought is None else BoughtDoor(
            height_mm=bought["height"], width_mm=bought["width"], cups_from_ends_mm=bought["cups_from_ends"],
            cups_from_edge_mm=bought.get("cups_from_edge", 22.5),
        ),
        bays=table.get("bays", ()), path=path,
    )  # fmt: skip


def _margins(style: DoorStyle, frame: FaceFrame | None) -> tuple[float, float, float]:
    """Margins where none are written: the trade's; over a frame, what leaves a front OVER_FRAME_MM over each member."""
    sides, ends, between = MARGINS[style]
    if frame is None or style == "inset":
        return sides, ends, between
    return max(frame.stile_mm - OVER_FRAME_MM, sides), max(frame.rail_mm - OVER_FRAME_MM, ends), between


def face_frame_of(
    table: Mapping[str, Any], board: str, joint: Recipe | None, fixed: Recipe | None, families: Mapping[str, type],
    cabinet: Path,
) -> FaceFrame | None:  # fmt: skip
    """A frame as its table has it; None where it names no recipe and the families it would have are not here."""
    joint = joint or in_rails(families, cabinet)
    fixed = fixed or on_carcass(families, cabinet)
    if joint is None or fixed is None:
        return None
    return FaceFrame(
        board=board, stile_mm=table.get("stile", MEMBER_MM), rail_mm=table.get("rail", MEMBER_MM),
        overhang_mm=table.get("overhang", 0.0), above_mm=table.get("above", 0.0), below_mm=table.get("below", 0.0),
        rails=table.get("rails", "between"), joint=joint, fixed=fixed,
    )  # fmt: skip


def blind_of(table: Mapping[str, Any], board: str, fixed: Recipe) -> BlindEnd:
    """A blind end as its table has it."""
    return BlindEnd(
        side=table["side"], takes_mm=table["takes"], infill_mm=table.get("infill", 50.0),
        from_corner_mm=table.get("from_corner", 0.0), handle_mm=table.get("handle", HANDLE_OUT_MM), board=board,
        fixed=fixed,
    )  # fmt: skip


def drawers_of(
    table: Mapping[str, Any], boards: Mapping[str, str], opening: int, joint: Recipe | None = None, path: Path = (),
    frame: FaceFrame | None = None,
) -> Drawers:  # fmt: skip
    """The drawers of one table, in this opening."""
    style: DoorStyle = table.get("style", "overlay")
    sides, ends, between = _margins(style, frame)
    concealed = table.get("runners") == "concealed"
    heights = table.get("heights", ("rest",) * table["number"])
    if "modules" in table:
        heights = tuple(n * MODULE_MM - table.get("between", between) for n in table["modules"])
    handle = None if "handle" not in table else Handle(
        centres_mm=table["handle"], from_edge_mm=0.0, from_end_mm=0.0, diameter_mm=5.0
    )  # fmt: skip
    return Drawers(
        opening=opening, heights_mm=tuple(None if h == "rest" else h for h in heights),
        board=boards["board"], box_board=boards["box_board"], bottom_board=boards["bottom_board"],
        inset=style == "inset", sides_mm=table.get("sides", sides), ends_mm=table.get("ends", ends),
        between_mm=table.get("between", between), concealed=concealed,
        take_mm=table.get("runners_take", RUNNERS_TAKE_MM[concealed]), length_mm=table.get("runner_length"),
        line_mm=table.get("runner_line"), box_width_mm=table.get("box_width"), handle=handle, joint=joint,
        grain=table.get("grain", "across"), match=table.get("match", False),
        bays=table.get("bays", ()), path=path,
    )  # fmt: skip
