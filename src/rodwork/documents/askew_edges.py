"""What a maker checks on a board with an edge that runs askew: both its lengths, the angle and the two diagonals."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, degrees, dist

from rodwork.documents.annotate import Row, capital, figure
from rodwork.documents.board_face import Board
from rodwork.documents.figures import size_text
from rodwork.documents.machined import words_of
from rodwork.model.panel import Part
from rodwork.model.slope import askew, corner_of
from rodwork.model.surface import EDGES, OPPOSITE, Surface, axis_of, distance_from


@dataclass(frozen=True, slots=True, kw_only=True)
class _Askew:
    """One edge askew of a finished board: how far it comes at the edges beside it, and its angle, in words."""

    edge: str
    ends: str
    degrees: str
    corners: str


def _edges(part: Part, step: float) -> Iterator[_Askew]:
    for edge in EDGES:
        at = _beside(part, edge)
        if not at:
            continue
        words, (one, other) = words_of(part), at.values()
        a, b, c, d = part.outline
        yield _Askew(
            edge=words[edge],
            ends=" and ".join(f"{size_text(mm, step)} at the {capital(words[e])}" for e, mm in at.items()),
            degrees=f"{figure(round(degrees(atan2(abs(one - other), part.size[1 - axis_of(edge)])), 1))} degrees",
            corners=f"{figure(round(dist(a, c), 1))} and {figure(round(dist(b, d), 1))} from corner to corner",
        )


def _beside(part: Part, edge: Surface) -> dict[Surface, float]:
    """How long each of the two edges beside an edge askew is, to the edge opposite it; nothing where it is square."""
    if askew(part.outline, edge) is None:
        return {}
    beside: tuple[Surface, Surface] = ("face_edge", "far_edge") if axis_of(edge) == 0 else ("left_end", "right_end")
    return {b: distance_from(OPPOSITE[edge], part.size, corner_of(part, edge, b, "face_side")) for b in beside}


def lengths_beside(board: Board) -> dict[Surface, str]:
    """The edges that run into one askew, with their lengths as they are printed."""
    found = {b: mm for edge in EDGES for b, mm in _beside(board.part, edge).items()}
    return {surface: size_text(mm, board.step) for surface, mm in found.items()}


def finished_words(board: Board) -> Iterator[str]:
    """What the finished board measures: "Finished 1327.2 at the LEFT edge and 985 at the RIGHT edge, ..."."""
    for one in _edges(board.part, board.step):
        yield f"Finished {one.ends}, the {one.edge} at {one.degrees}; {one.corners}."


def askew_notes(board: Board) -> Iterator[tuple[Row, ...]]:
    """The same as a note beside the drawing, with the line that the edge is sawn to before edging."""
    for one, cut in zip(_edges(board.part, board.step), board.to_lines, strict=False):
        yield (
            Row(text=f"{one.edge} sawn to a line", bold=True, size=4.0, before=2.6), Row(text=cut.words),
            Row(text=f"finished {one.ends}, at {one.degrees}; {one.corners}"),
            Row(text=f"setting {cut.setup.id}", size=3.3),
        )  # fmt: skip
