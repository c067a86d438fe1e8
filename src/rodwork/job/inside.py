"""What stands inside a carcass or under it, as the job file has it: rails."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from rodwork.job.lines import Path
from rodwork.model.job import Rails

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
