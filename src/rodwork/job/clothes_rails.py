"""Clothes rails as the job file has them, with what they are where it is silent."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from rodwork.job.lines import Path
from rodwork.model.clothes_rail import ClothesRailAsked, Section, SocketSheet

if TYPE_CHECKING:
    from rodwork.job.tables import Reading

OVAL_MM = (30.0, 15.0)  # high and wide; common practice, no source: the tube that is bought goes before it
BELOW_MM = 60.0  # board above to the middle of the tube: room to lift a hook over; common practice, no source


def clothes_rail_of(table: Mapping[str, Any], openings: int, path: Path, reading: "Reading") -> ClothesRailAsked | None:
    """The rail of one table of a cabinet with so many openings; None where its figures contradict each other."""
    before = len(reading.faults)
    if "diameter" in table and "oval" in table:
        reading.fault(
            (*path, "oval"), "diameter and oval say the same thing in two ways", "Keep the one that is bought"
        )
    socket = _socket_of(table.get("socket", {}))
    if socket.reach_mm <= 2 * socket.play_mm:
        reading.fault(
            (*path, "socket"),
            f"a tube {socket.play_mm:g} short at each end falls out of a socket that reaches {socket.reach_mm:g}",
            f"Write reach = {2 * socket.play_mm + 1:g} or more, or less play",
        )  # fmt: skip
    if len(reading.faults) > before:
        return None
    section: Section = "round" if "diameter" in table else "oval"
    round_ = table.get("diameter", 0.0)
    return ClothesRailAsked(
        opening=table.get("opening", openings), below_mm=table.get("below", BELOW_MM),
        from_front_mm=table.get("from_front"), section=section,
        size_mm=(round_, round_) if section == "round" else table.get("oval", OVAL_MM),
        clothes=table.get("clothes", "short"), supports=table.get("supports", 0), socket=socket,
        bays=table.get("bays", ()), path=path,
    )  # fmt: skip


def _socket_of(said: Mapping[str, Any]) -> SocketSheet:
    """A socket by the figures that are written, over the starting values. Those are common practice, no source."""
    bores = tuple((bore["up"], bore.get("forward", 0.0)) for bore in said.get("bores", ())) or SocketSheet().bores
    sizes = {f"{word}_mm": said[word] for word in ("high", "wide", "reach", "play", "bore", "depth") if word in said}
    return SocketSheet(bores=bores, **sizes)
