"""Sides from a stock that are drilled already, and what a cabinet that takes them may still say of itself."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from rodwork.job.faults import shown
from rodwork.job.tables import unknown_name
from rodwork.model.drilled_sides import DrilledSides
from rodwork.model.job import Pins

if TYPE_CHECKING:
    from rodwork.job.tables import Reading

# All common practice: a row 37 behind the front edge, every 32, of 5 mm holes.
LINE_MM, PITCH_MM, DIAMETER_MM, DEEP_MM = 37.0, 32.0, 5.0, 13.0
LEFT_MM = 2.0  # of board beyond the outermost hole


def read_drilled_sides(
    tables: Mapping[str, Any], boards: Mapping[str, Any], reading: "Reading"
) -> dict[str, DrilledSides | None]:
    """The drilled sides of the job by name; None for one that is written but wrong."""
    from rodwork.job.tables import read_table
    from rodwork.job.words import DrilledSidesWords

    found: dict[str, DrilledSides | None] = {}
    for name, raw in tables.items():
        before, path = len(reading.faults), ("drilled_sides", name)
        said = read_table(DrilledSidesWords, raw, path, f"the drilled sides {shown(name)}", reading)
        board = said.get("board")
        if board is not None and board not in boards:
            reading.fault((*path, "board"), *unknown_name(board, boards, "boards"))
        if len(reading.faults) > before or boards.get(board) is None:
            found[name] = None
            continue
        back = said.get("back")
        sides = DrilledSides(
            name=name, board=board, height_mm=said.get("height"), depth_mm=said.get("depth"),
            first_mm=said.get("first"), pitch_mm=said.get("pitch", PITCH_MM), holes=said.get("holes"),
            front_mm=said.get("front", LINE_MM), back_mm=None if back == "none" else LINE_MM if back is None else back,
            diameter_mm=said.get("diameter", DIAMETER_MM), deep_mm=said.get("hole_depth", DEEP_MM),
        )  # fmt: skip
        _on_the_board(sides, boards[board].actual_mm, reading)
        found[name] = sides if len(reading.faults) == before else None
    return found


def _on_the_board(sides: DrilledSides, thick: float, reading: "Reading") -> None:
    """Every hole is on the board, and none comes through it."""
    path, half = ("drilled_sides", sides.name), sides.diameter_mm / 2
    top = sides.heights_mm[-1]
    if top + half > sides.height_mm - LEFT_MM:
        most = int((sides.height_mm - LEFT_MM - half - sides.first_mm) // sides.pitch_mm) + 1
        reading.fault(
            (*path, "holes"), f"the highest hole would be {top:g} up a side {sides.height_mm:g} high",
            f"Write holes = {max(most, 1)}, or measure first and pitch again",
        )  # fmt: skip
    if sides.front_mm + half > sides.depth_mm - LEFT_MM:
        reading.fault(
            (*path, "front"), f"the front row would be {sides.front_mm:g} from the front edge of a side "
            f"{sides.depth_mm:g} deep", "Measure it again",
        )  # fmt: skip
    elif sides.rows_mm[-1] - half < sides.front_mm + half and sides.back_mm is not None:
        reading.fault(
            (*path, "back"), f"the back row would be {sides.rows_mm[-1]:g} from the front edge, and the front row is "
            f"{sides.front_mm:g} from it", 'Measure it again, or write back = "none"',
        )  # fmt: skip
    if sides.deep_mm > thick - 1.0:
        reading.fault(
            (*path, "hole_depth"), f"holes {sides.deep_mm:g} deep come through a board of {thick:g}",
            "Measure it again: a hole leaves 1 mm at least",
        )  # fmt: skip


def pins_in(sides: DrilledSides) -> Pins:
    """The rows that loose shelves stand in, where they are drilled already: on dividers at the same heights."""
    return Pins(
        diameter_mm=sides.diameter_mm, depth_mm=sides.deep_mm, front_mm=sides.front_mm,
        back_mm=LINE_MM if sides.back_mm is None else sides.back_mm, start_mm=sides.first_mm, pitch_mm=sides.pitch_mm,
    )  # fmt: skip
