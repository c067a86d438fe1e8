"""The two printed numbers of one feature: how far from which surface. Rounded here and nowhere else."""

from collections.abc import Mapping
from functools import singledispatch

from rodwork.geometry.rounding import to_step
from rodwork.geometry.vec import cross
from rodwork.model.feature import Feature, Groove
from rodwork.model.machining import Machining
from rodwork.model.panel import Panel
from rodwork.model.setup import Reading
from rodwork.model.surface import Surface, axis_of, distance_from


def readings(
    m: Machining, panel: Panel, words: Mapping[Surface, str], mills_mm: float, step: float
) -> tuple[Reading, Reading]:
    """(along, across) of one feature."""
    return (
        _reading(m, panel, words, mills_mm, step, m.along_from, None, m.set_back),
        _reading(m, panel, words, mills_mm, step, m.across_from, m.line, None),
    )


def _reading(
    m: Machining,
    panel: Panel,
    words: Mapping[Surface, str],
    mills_mm: float,
    step: float,
    surface: Surface,
    line: float | None,
    set_back: float | None,
) -> Reading:
    middle = distance_from(surface, panel.size, m.feature.at) - _edging_to_come(m.feature, panel, surface, mills_mm)
    half = half_extent(m.feature, axis_of(surface))
    return Reading(
        from_surface=surface,
        word=words[surface],
        mm=to_step(middle - half, step),
        end_mm=to_step(middle + half, step) if half else None,
        line=None if line is None else to_step(line, step),
        set_back=None if set_back is None else to_step(set_back, step),
    )


def _edging_to_come(feature: Feature, panel: Panel, surface: Surface, mills_mm: float) -> float:
    """Before edging a number is taken from the raw edge, which lies inside the finished one."""
    added = panel.edging.at(surface)
    return added - mills_mm if feature.stage == "before edging" and added else 0.0


@singledispatch
def half_extent(feature: Feature, axis: int) -> float:
    """Half of what is printed of a feature on one axis of the part: nought where it is given to its middle."""
    return 0.0


@half_extent.register
def _(feature: Groove, axis: int) -> float:
    wide = cross(feature.into, feature.along)
    return abs(feature.along[axis]) * feature.length / 2 + abs(wide[axis]) * feature.width / 2
