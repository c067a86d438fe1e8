"""Bevelled ends, in a maker's words."""

from rodwork.documents.annotate import figure, listed
from rodwork.model.panel import Part
from rodwork.model.slope import bevel_at
from rodwork.model.surface import EDGES, Surface, axis_of
from rodwork.model.words import cabinet_words


def bevel_words(part: Part) -> tuple[str, ...]:
    """What a maker has to know of bevelled ends: "Both ends bevelled 45 degrees, outside long: 720 over its points"."""
    words = cabinet_words(part.role, part.pose.rotation)
    found: dict[tuple[float, str], list[Surface]] = {}
    for end in EDGES:
        bevel = bevel_at(part, end)
        if bevel:
            long = words["back_side" if bevel > 0 else "face_side"]
            found.setdefault((round(abs(bevel), 1), long), []).append(end)
    return tuple(_said(part, words, bevel, long, ends) for (bevel, long), ends in found.items())


def _said(part: Part, words: dict[Surface, str], bevel: float, long: str, ends: list[Surface]) -> str:
    both = len(ends) == 2 and axis_of(ends[0]) == axis_of(ends[1])
    which = "both ends" if both else listed([words[end] for end in ends])
    return f"{which.capitalize()} bevelled {figure(bevel)} degrees, long on the {long}"
