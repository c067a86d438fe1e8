"""Lippings: the strips of solid wood on the edges of boards, each a board of its own, counted in the one it is on.

        ___________________________________
       |_|_______________________________|_|     edges run through, over the ends of the lippings of the ends:
       | |                               | |     those are glued on and trimmed first
       | |                               | |
       |_|_______________________________|_|
       |___________________________________|

A strip is glued on whole, and what is notched, bevelled or bored in the edge afterwards is done in both; so its own
outline is a rectangle, as long as its edge. At a notch no less deep than the lipping there is nothing left of it.
"""

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from rodwork.geometry.vec import Matrix, Vec, apply, clean, cross, transpose
from rodwork.model.job import Board, CannotBuild, Edging
from rodwork.model.lipping import Lipping
from rodwork.model.panel import EdgingOnPart, Panel
from rodwork.model.pose import Pose
from rodwork.model.slope import askew, bevel_at
from rodwork.model.surface import EDGES, Surface, axis_of, level, outward
from rodwork.model.words import cabinet_words

LEAST_BOARD_MM = 20.0  # of a board between its lippings, to hold and to glue to
_UP: Vec = (0.0, 0.0, 1.0)
_HAIR = 1e-6
Path = tuple[str | int, ...]


def lippings(
    panels: Iterable[Panel], edgings: Mapping[str, Edging], boards: Mapping[str, Board], path: Path
) -> tuple[Panel, ...]:
    """The lippings of these boards. `path`: where their edging stands in the job. Raises CannotBuild."""
    return tuple(
        _strip(panel, edge, edging, boards[edging.lipping.made_of], edging.lipping)
        for panel in panels
        if (edging := edgings.get(panel.edging_name or "")) is not None and edging.lipping is not None
        for edge in _lipped(panel, path)
    )


def _lipped(panel: Panel, path: Path) -> Iterator[Surface]:
    """Its lipped edges and ends, each where a straight strip can be glued on."""
    words = cabinet_words(panel.role, panel.pose.rotation)
    for axis in (0, 1):
        if panel.cut[axis] < LEAST_BOARD_MM and any(panel.edging.at(e) for e in EDGES if axis_of(e) == axis):
            raise CannotBuild(
                path, f"between its lippings {max(panel.cut[axis], 0):g} mm would be left of the {panel.name}, "
                f"which is {panel.size[axis]:g} {('long', 'wide')[axis]}",
                f"use a thinner lipping there, or a tape: at least {LEAST_BOARD_MM:g} of the board must be left",
            )  # fmt: skip
    for edge in EDGES:
        if not panel.edging.at(edge):
            continue
        if askew(panel.outline, edge) is not None or abs(bevel_at(panel, edge)) > _HAIR:
            how = "runs askew" if askew(panel.outline, edge) is not None else "is bevelled"
            raise CannotBuild(
                path, f"the {words[edge]} of the {panel.name} {how}, and lippings go on straight, square edges only",
                "leave it out of edging, or edge this cabinet with a tape",
            )  # fmt: skip
        yield edge


def _strip(panel: Panel, edge: Surface, edging: Edging, board: Board, how: Lipping) -> Panel:
    """One strip where it is: its face side is the finished edge, its width runs up from the back side of its board."""
    start, end = _along(panel, edge)
    out = outward(edge)
    run = cross(_UP, out)  # so that out is run x up
    turn: Matrix = transpose((run, _UP, out))
    corner = _corner(panel, edge, start, end, run)
    long, wide, thick = clean((end - start, panel.size[2], panel.edging.at(edge)))
    name = f"{panel.name} {cabinet_words(panel.role, panel.pose.rotation)[edge].split()[0]} lipping"
    return Panel(
        id=name, name=name, role="lipping", in_box=False, board=board.name, material=board.material,
        grain=board.grain, measured=False, size=(long, wide, thick),
        cut=(round(long + 2 * how.longer, 6), round(wide + 2 * how.proud, 6)),
        edging=EdgingOnPart(), edging_name=None, shows=("face_side",),
        outline=((0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide)), bevels=(0.0,) * 4,
        pose=Pose(rotation=_times(panel.pose.rotation, turn), origin=panel.pose.to_cabinet(corner)),
        glued_on=panel.id,
    )  # fmt: skip


def _along(panel: Panel, edge: Surface) -> tuple[float, float]:
    """From where to where a strip goes along its edge: on an edge whole, on an end between the edges' lippings."""
    axis = 1 - axis_of(edge)
    low, high = _chord(panel, edge, axis)
    if axis == 1:
        low = max(low, panel.edging.face_edge)
        high = min(high, panel.size[1] - panel.edging.far_edge)
    return low, high


def _chord(panel: Panel, edge: Surface, axis: int) -> tuple[float, float]:
    """How long the outline is just inside a lipping, on this axis."""
    across = 1 - axis
    inside = level(edge, panel.size) - outward(edge)[across] * (panel.edging.at(edge) - _HAIR)
    at = []
    for a, b in pairwise((*panel.outline, panel.outline[0])):
        if (a[across] > inside) != (b[across] > inside):
            at.append(a[axis] + (inside - a[across]) * (b[axis] - a[axis]) / (b[across] - a[across]))
    return round(min(at), 6), round(max(at), 6)


def _corner(panel: Panel, edge: Surface, start: float, end: float, run: Vec) -> Vec:
    """Where the strip's own (0, 0, 0) lies in its board: on the glue line, at the end from which it runs."""
    axis = 1 - axis_of(edge)
    at = [0.0, 0.0, 0.0]
    at[axis] = start if run[axis] > 0 else end
    at[1 - axis] = level(edge, panel.size) - outward(edge)[1 - axis] * panel.edging.at(edge)
    return at[0], at[1], at[2]


def _times(a: Matrix, b: Matrix) -> Matrix:
    """The rotation of b, then of a."""
    x, y, z = (clean(apply(a, column), 12) for column in transpose(b))
    return transpose((x, y, z))
