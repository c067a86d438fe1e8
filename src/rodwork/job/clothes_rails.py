"""Clothes rails as the job file has them, with what they are where it is silent."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from rodwork.job.lines import Path
from rodwork.model.clothes_rail import ClothesRailAsked, SocketSheet

if TYPE_CHECKING:
    from rodwork.job.tables import Reading

OVAL_MM = (30.0, 15.0)  # high and wide; common practice, no source: the tube that is bought goes before it
SOCKET_OVER_MM = (20.0, 7.0)  # its height and width over the tube's; common practice, no source
BELOW_MM = 60.0  # board above to the middle of the tube: room to lift a hook over; common practice, no source


def clothes_rail_of(table: Mapping[str, Any], opening: int, path: Path, reading: "Reading") -> ClothesRailAsked | None:
    """The rail of one table in this opening; None where its figures contradict each other."""
    diameter = table.get("diameter")
    size = table.get("oval", OVAL_MM) if diameter is None else (diameter, diameter)
    socket, before = _socket_of(table.get("socket", {}), size), len(reading.faults)
    if diameter is not None and "oval" in table:
        reading.fault(
            (*path, "oval"), "diameter and oval say the same thing in two ways", "Keep the one that is bought"
        )
    _holds(socket, size, (*path, "socket"), reading)
    if len(reading.faults) > before:
        return None
    return ClothesRailAsked(
        opening=opening, below_mm=table.get("below", BELOW_MM),
        from_front_mm=table.get("from_front"), section="oval" if diameter is None else "round", size_mm=size,
        clothes=table.get("clothes", "short"), supports=table.get("supports", 0), socket=socket,
        bays=table.get("bays", ()), path=path,
    )  # fmt: skip


def _holds(socket: SocketSheet, tube: tuple[float, float], path: Path, reading: "Reading") -> None:
    """Notes where a socket cannot hold its tube."""
    for word, of_socket, of_tube in (("high", socket.high_mm, tube[0]), ("wide", socket.wide_mm, tube[1])):
        if of_socket < of_tube:
            reading.fault(
                path, f"a socket {of_socket:g} {word} holds no tube {of_tube:g} {word}",
                f"Write {word} = {of_tube:g} or more, by its sheet, or leave it out",
            )  # fmt: skip
    if socket.reach_mm <= 2 * socket.play_mm:
        reading.fault(
            path,
            f"a tube {socket.play_mm:g} short at each end falls out of a socket that reaches {socket.reach_mm:g}",
            f"Write reach = {2 * socket.play_mm + 1:g} or more, or less play",
        )


def _socket_of(said: Mapping[str, Any], tube: tuple[float, float]) -> SocketSheet:
    """A socket by the figures that are written, over the starting values. Those are common practice, no source."""
    sizes = {f"{word}_mm": said[word] for word in ("high", "wide", "reach", "play", "bore", "depth") if word in said}
    if "bores" in said:
        sizes["bores"] = tuple((bore["up"], bore.get("forward", 0.0)) for bore in said["bores"])
    usual = {"high_mm": tube[0] + SOCKET_OVER_MM[0], "wide_mm": tube[1] + SOCKET_OVER_MM[1]}
    return SocketSheet(**{**usual, **sizes})
