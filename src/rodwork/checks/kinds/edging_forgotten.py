"""An edge that is seen and left bare, though the cabinet has other boards of the same sheet edged."""

from collections.abc import Iterable, Iterator

from rodwork.checks.check import Check
from rodwork.checks.holes import word
from rodwork.checks.spot import COMMON, Spot, mm, told_once
from rodwork.model.finding import Finding
from rodwork.model.panel import Part, Role
from rodwork.model.rod import Rod, RodCabinet
from rodwork.model.surface import EDGES, Surface

CODE = "edging-forgotten"
# the places of an edging, by the boards that they cover: what to write for the edge that was left out
FRONTS = "fronts"
PLACES: dict[Role, str] = {
    "side": FRONTS, "top": FRONTS, "bottom": FRONTS, "divider": FRONTS, "fixed shelf": FRONTS, "rail": FRONTS,
    "part divider": FRONTS,
    "loose shelf": FRONTS, "door": "doors", "drawer front": "drawer fronts",
}  # fmt: skip


def look(rod: Rod) -> Iterable[Finding]:
    """Every board in a cabinet where boards of its sheet are edged: one left bare altogether is a choice."""
    for cabinet in rod.cabinets:
        yield from told_once(CODE, cabinet, _spots(cabinet))


def _spots(cabinet: RodCabinet) -> Iterator[Spot]:
    edged = {p.board: p.edging.at(surface) for p in cabinet.parts for surface in EDGES if p.edging.at(surface) > 0}
    in_a_box = {id for drawer in cabinet.drawers for id in drawer.box}
    for part in cabinet.parts:
        place = PLACES.get(part.role) if part.id not in in_a_box and not part.bought else None
        bare = _bare(part)
        if place is None or part.board not in edged or not bare:
            continue
        edges = ", ".join(word(part, surface) for surface in bare)
        yield Spot(
            severity="warning", parts=(part,),
            what=f"{edges}: seen and left bare, though other boards of {part.board} here are edged with "
                 f"{mm(edged[part.board])} mm",
            mend=f'write "{place}" under edging too; where a bare edge is wanted, leave it as it is', source=COMMON,
        )  # fmt: skip


def _bare(part: Part) -> list[Surface]:
    """The edges and ends that are seen and carry nothing."""
    return [surface for surface in EDGES if surface in part.shows and part.edging.at(surface) <= 0]


CHECK = Check(code=CODE, title="Edging forgotten on an edge that is seen", look=look)
