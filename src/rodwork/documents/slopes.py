"""Edges that are sawn on the slope, in words."""

from itertools import pairwise

from rodwork.documents.machined import words_of
from rodwork.model.panel import Part
from rodwork.model.surface import Surface


def slopes(part: Part) -> str:
    """ "bottom edge sawn at 45": every edge whose bevel is not square, by its cabinet word; nothing where all are."""
    words, corners = words_of(part), (*part.outline, part.outline[0])
    found: dict[str, None] = {}
    for ((x0, y0), (x1, y1)), bevel in zip(pairwise(corners), part.bevels, strict=True):
        if bevel:
            found[f"{words[_outward(x1 - x0, y1 - y0)]} sawn at {abs(bevel):g}"] = None
    return ", ".join(found)


def _outward(dx: float, dy: float) -> Surface:
    """The edge or end that a stretch of the outline belongs to: it runs counter-clockwise."""
    if abs(dx) > abs(dy):
        return "face_edge" if dx > 0 else "far_edge"
    return "right_end" if dy > 0 else "left_end"
