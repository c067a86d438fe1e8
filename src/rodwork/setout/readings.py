"""The two printed numbers of one feature: how far from which surface. Rounded here and nowhere else.

On a bevelled end the number from a face runs along the slope, from its arris; in a face, that from a bevelled end is
from its long point.
"""

from collections.abc import Mapping
from functools import singledispatch

from rodwork.geometry.rounding import to_step
from rodwork.geometry.vec import Vec, along, cross
from rodwork.model.feature import Channel, Cutout, Feature, Groove, Keyhole
from rodwork.model.machining import Machining
from rodwork.model.panel import Panel
from rodwork.model.setup import Reading
from rodwork.model.slope import bevel_at, on_the_slope
from rodwork.model.surface import Surface, axis_of, distance_from, inward

_ONE_POINT_MM = 1e-6  # nearer together than this, two points are one


def readings(
    m: Machining, panel: Panel, words: Mapping[Surface, str], mills_mm: float, step: float
) -> tuple[Reading, Reading]:
    """(along, across) of one feature."""
    return (
        _reading(m, panel, words, mills_mm, step, m.along_from, None, m.set_back),
        _reading(m, panel, words, mills_mm, step, m.across_from, m.line, None),
    )


def worded(m: Machining, panel: Panel, words: Mapping[Surface, str], surface: Surface) -> str:
    """What a surface that a number is taken from is called: on a slope, its arris."""
    return f"{words[surface]} arris" if axis_of(surface) == 2 and bevel_at(panel, m.bears) else words[surface]


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
    raw = _edging_to_come(m.feature, panel, surface, mills_mm)
    start, end = (distance_from(surface, panel.size, p) - raw for p in given(m.feature, surface))
    if axis_of(surface) == 2:
        start, end = (on_the_slope(panel, m.bears, mm) for mm in (start, end))
    return Reading(
        from_surface=surface,
        word=worded(m, panel, words, surface),
        mm=to_step(start, step),
        end_mm=to_step(end, step) if abs(end - start) > _ONE_POINT_MM else None,
        line=None if line is None else to_step(line, step),
        set_back=None if set_back is None else to_step(set_back, step),
    )


def _edging_to_come(feature: Feature, panel: Panel, surface: Surface, mills_mm: float) -> float:
    """Before edging a number is taken from the raw edge, which lies inside the finished one."""
    added = panel.edging.at(surface)
    return added - mills_mm if feature.stage == "before edging" and added else 0.0


@singledispatch
def given(feature: Feature, surface: Surface) -> tuple[Vec, Vec]:
    """The two points that are printed of a feature, seen from a surface: one and the same where it is its middle."""
    return feature.at, feature.at


@given.register(Groove)
@given.register(Cutout)
def _(feature: Channel, surface: Surface) -> tuple[Vec, Vec]:
    """Its near wall and its far one."""
    axis, wide = axis_of(surface), cross(feature.into, feature.along)
    half = abs(feature.along[axis]) * feature.length / 2 + abs(wide[axis]) * feature.width / 2
    way = inward(surface)
    return along(feature.at, (way, -half)), along(feature.at, (way, half))


@given.register
def _(feature: Keyhole, surface: Surface) -> tuple[Vec, Vec]:
    """The entry bore and the screw's home."""
    return feature.entry, feature.at
