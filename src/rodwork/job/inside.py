"""What stands inside a carcass or under it, as the job file has it: rails, feet."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from rodwork.job.lines import Path
from rodwork.model.job import Feet, PartDividers, Rails, Recipe

if TYPE_CHECKING:
    from rodwork.job.tables import Reading


def rails_of(table: Mapping[str, Any], path: Path, reading: "Reading") -> Rails:
    """Rails as a value; a fault where the table names none, or says of one how it stands that is not there."""
    rails = Rails(
        front_mm=table.get("top_front"), back_mm=table.get("top_back"), fixing_mm=table.get("fixing"),
        flat=table.get("set", "flat") == "flat", behind_back=table.get("behind_back", False),
    )  # fmt: skip
    if not rails.instead_of_top and rails.fixing_mm is None:
        reading.fault(path, "rails names no rail", "Write top_front = 80 and top_back = 80, or fixing = 100")
    elif "set" in table and not rails.instead_of_top:
        reading.fault(
            (*path, "set"), "set says how top rails are set, and there is none", "Write top_front = 80, or leave it out"
        )
    elif "behind_back" in table and rails.fixing_mm is None:
        reading.fault(
            (*path, "behind_back"),
            "behind_back is said of a fixing rail, and there is none",
            "Write fixing = 100, or leave it out",
        )
    return rails


def part_dividers_of(
    table: Mapping[str, Any], bays: tuple[int, ...], opening: int, path: Path, reading: "Reading"
) -> PartDividers:  # fmt: skip
    """Part-height dividers of one table as a value, in this opening of these bays."""
    if "number" in table and "widths" in table:
        reading.fault(
            (*path, "widths"), "number and widths say the same thing in two ways",
            "Keep number for even widths, or widths for the clear sizes",
        )  # fmt: skip
    widths = table.get("widths", ("rest",) * (table.get("number", 1) + 1))
    return PartDividers(opening=opening, widths=widths, bays=bays, path=path)


def feet_of(
    table: Mapping[str, Any], board: str, joint: Recipe | None, path: Path, reading: "Reading"
) -> Feet:  # fmt: skip
    """Feet as a value; a fault where a word is said of a plinth board before legs, and there are none."""
    style = table["style"]
    for word in ("lower", "plinth"):
        if word in table and style != "legs":
            reading.fault(
                (*path, word),
                f"{word} is said of a plinth board before legs, and the style is {style}",
                'Leave it out, or write style = "legs"',
            )
    if "joint" in table and style == "legs":
        reading.fault((*path, "joint"), "a plinth board before legs is clipped to them, not joined", "Leave joint out")
    legs = style == "legs"
    return Feet(
        style=style, height_mm=table.get("height", 150.0 if legs else 100.0),
        set_back_mm=table.get("set_back", 50.0 if legs else 60.0), board=board, joint=joint,
        lower_mm=table.get("lower", 4.0), plinth=table.get("plinth", True),
    )  # fmt: skip
