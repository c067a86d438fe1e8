"""A cabinet under a sloping ceiling: one side lower than the other, the top on the slope between them.

    |.                height of the high side at its outside; `low`, the same of the low side
    | '. '.           the top stands between the sides, its ends cut plumb, its upper face flush with their tops
    |    '. '|        tops of the sides square, flush with it at the arris inside; or bevelled to the slope
    |       '|
    |________|

Everything but the top, what stands against its underside and the back is as in any other cabinet.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from math import atan, cos, degrees, radians, sin, tan

from rodwork.carcass.back import Frame
from rodwork.carcass.boards import DIVIDER, LEFT_SIDE, RIGHT_SIDE, TOP, cut_to
from rodwork.carcass.contacts import facing, meet
from rodwork.geometry.directions import FRONT, LEFT, RIGHT, UP
from rodwork.geometry.vec import Matrix, Vec
from rodwork.model.contact import Register
from rodwork.model.job import Cabinet, CannotBuild, RoofAsked, SideTops
from rodwork.model.meeting import Entry, Meeting
from rodwork.model.panel import Panel
from rodwork.model.pose import Pose
from rodwork.model.surface import Surface

STEEPEST_DEG = 60.0
FLATTEST_DEG = 3.0  # a top is set level, or it is no slope
LEAST_LOW_MM = 100.0  # clear under the top at the low side
_BACKS = ("grooved all round", "rebated", "planted")
# of the high side and of the low one: there the slope comes to the arris inside, else to the one outside
_SQUARE_TOPS: dict[SideTops, tuple[bool, bool]] = {
    "square": (True, True), "high side bevelled": (False, True), "bevelled": (False, False),
}  # fmt: skip


@dataclass(frozen=True)
class Roof:
    """Where the slope runs in a cabinet, cabinet axes, mm: heights by how far they are from the left."""

    width: float
    high: float
    low: float
    t: float
    falls_right: bool
    side_tops: SideTops

    @cached_property
    def degrees(self) -> float:
        """The slope against the level."""
        return degrees(atan((self.high - self.low) / (self.width - self.t * sum(_SQUARE_TOPS[self.side_tops]))))

    @property
    def _radians(self) -> float:
        return radians(self.degrees)

    @property
    def upright(self) -> float:
        """The thickness of the top, measured plumb."""
        return self.t / cos(self._radians)

    def over(self, x: float) -> float:
        """Where the upper face of the top comes."""
        from_high = x if self.falls_right else self.width - x
        return self.high - (from_high - self.t * _SQUARE_TOPS[self.side_tops][0]) * tan(self._radians)

    def outer(self, x: float) -> float:
        """Along the slope through the outside arris of the high side: under it nothing stands above that."""
        from_high = x if self.falls_right else self.width - x
        return self.high - from_high * tan(self._radians)

    def under(self, x: float) -> float:
        """Where the underside of the top comes."""
        return self.over(x) - self.upright

    @property
    def least_clear(self) -> float:
        """Where the underside comes at the inside of the low side."""
        return min(self.under(self.t), self.under(self.width - self.t))

    def bevel_up(self, panel_looks_left: bool) -> float:
        """The bevel of an upright's top end that lies along the slope, degrees; by the way its face side looks."""
        return -self.degrees if panel_looks_left == self.falls_right else self.degrees


def roof_of(cabinet: Cabinet, t: float) -> Roof | None:
    """The slope of a cabinet that stands under one. Raises CannotBuild where it cannot be built so."""
    asked = cabinet.roof
    if asked is None:
        return None
    _refuse(cabinet)
    across = cabinet.width_mm - t * sum(_SQUARE_TOPS[asked.side_tops])
    low = asked.low_mm if asked.low_mm is not None else cabinet.height_mm - across * tan(radians(asked.degrees or 0.0))
    word = "low" if asked.low_mm is not None else "degrees"
    path = (*cabinet.place.path, "roof", word)
    roof = Roof(round(cabinet.width_mm, 6), cabinet.height_mm, low, t, asked.falls == "right", asked.side_tops)
    if not FLATTEST_DEG <= roof.degrees <= STEEPEST_DEG:
        level = roof.degrees < FLATTEST_DEG
        raise CannotBuild(
            path,
            f"from {cabinet.height_mm:g} down to {low:.0f} over a width of {cabinet.width_mm:g} the top "
            + (f"slopes {roof.degrees:.1f} degrees" if roof.degrees > 0 else "does not fall"),
            f"set the low side {across * tan(radians(FLATTEST_DEG)):.0f} or more lower, or leave `roof` out"
            if level
            else f"make the low side at least {cabinet.height_mm - across * tan(radians(STEEPEST_DEG)):.0f} high: "
            f"up to {STEEPEST_DEG:g} degrees can be built",
        )
    clear = roof.least_clear - t
    if clear < LEAST_LOW_MM:
        raise CannotBuild(
            path, f"{max(clear, 0.0):.0f} mm is clear inside at the low side",
            f"make the low side {low + LEAST_LOW_MM - clear:.0f} or higher, or the slope less steep",
        )  # fmt: skip
    return roof


def _refuse(cabinet: Cabinet) -> None:
    """What does not go with a sloping top."""
    assert cabinet.roof is not None
    path = cabinet.place.path
    on = cabinet.edging.on if cabinet.edging else ()
    tops = [(i, len(bay.openings)) for i, bay in enumerate(cabinet.in_bays, 1)]
    for wrong, word, what, mend in (
        (cabinet.sides != "through", "sides", f"a sloping top stands between the sides, and these are {cabinet.sides}",
         'leave `sides` out, or write sides = "through"'),
        (cabinet.rails is not None, "rails", "rails want a level top", "leave `rails` out"),
        (cabinet.hanging is not None, "hanging", "a cabinet under a slope stands: its high side alone would carry it",
         "leave `hanging` out"),
        (cabinet.feet is not None and cabinet.feet.style == "notched sides", "feet",
         "sides under a slope are not notched", 'choose feet of the style "plinth frame" or "legs"'),
        (cabinet.face_frame is not None, "face_frame", "a face frame wants a level top", "leave `face_frame` out"),
        (cabinet.blind is not None, "blind", "a blind end wants a level top", "leave `blind` out"),
        (cabinet.alcove is not None, "alcove", "the ceiling of an alcove is level",
         "leave `alcove` out and write the width, height and depth"),
        (cabinet.back is not None and cabinet.back.style not in _BACKS, "back",
         f"a back {cabinet.back.style if cabinet.back else ''} is not set out under a slope",
         f"choose a back {', '.join(_BACKS[:-1])} or {_BACKS[-1]}"),
        (cabinet.back is not None and cabinet.back.style == "planted" and cabinet.roof.side_tops == "square", "back",
         "planted behind the high side's square top a back cut to the slope would stand above it",
         'bevel that side: roof = { side_tops = "high side bevelled" }; or choose a back grooved all round or rebated'),
        (any(d.opening == n for d in cabinet.drawers for i, n in tops if d.in_bay(i)), "drawers",
         "drawers in the opening under the slope would have to be cut to it",
         "put them in an opening below a fixed shelf: opening = 1"),
        ("side tops" in on, "edging", "the tops of the sides are closed by the slope", 'leave "side tops" out'),
    ):  # fmt: skip
        if wrong:
            raise CannotBuild((*path, word), what, mend)


def refuse_let_in(cabinet: Cabinet, entry: Entry) -> None:
    """A divider's bevelled top butts against the slope: no channel runs along it. Raises CannotBuild."""
    if cabinet.roof is not None and entry.reach > 0:
        raise CannotBuild(
            (*cabinet.place.path, "divider_joint"),
            "a divider under a slope is let into nothing: its top end is bevelled and butts against the slope",
            "join it with dowels, screws or biscuits: divider_joint = ...",
        )


def refuse_in_run(cabinet: Cabinet, path: tuple[str | int, ...]) -> None:
    """What goes along a run lies on level tops. Raises CannotBuild with the place of the cabinet in its run."""
    if cabinet.roof is not None:
        raise CannotBuild(
            path, f"the top of {cabinet.name} slopes, and a run has one height for what lies on its cabinets",
            f'leave "{cabinet.name}" out of the run: it stands alone',
        )  # fmt: skip


def box(cabinet: Cabinet, roof: Roof, frame: Frame, make: Callable[..., Panel]) -> dict[str, Panel]:
    """Sides and the sloping top. `make` makes a panel of a name, role, box and rotation."""
    w, t, d = cabinet.width_mm, roof.t, frame.side_depth

    def side(name: str, x: float, rotation: Matrix, looks_left: bool) -> Panel:
        inside = roof.over(x if looks_left else x + t)
        square = _SQUARE_TOPS[roof.side_tops][looks_left == roof.falls_right]
        high = inside if square else max(roof.over(x), roof.over(x + t))
        end: Surface = "right_end" if looks_left else "left_end"
        bevelled = {} if square else {end: roof.bevel_up(looks_left)}
        return make(name, "side", (x, 0.0, 0.0), (x + t, d, high), rotation, bevelled=bevelled)

    return {
        "left side": side("left side", 0.0, LEFT_SIDE, looks_left=False),
        "right side": side("right side", w - t, RIGHT_SIDE, looks_left=True),
        "top": _top(roof, frame.cross_depth, make),
    }


def _top(roof: Roof, depth: float, make: Callable[..., Panel]) -> Panel:
    """The top between the sides, its ends plumb: made level, then laid on the slope."""
    lean, t = radians(roof.degrees), roof.t
    between = roof.width - 2 * t
    length = between / cos(lean) + t * tan(lean)
    # at the high end the upper face (back side) reaches further out, at the low end the underside
    high, low = roof.degrees, -roof.degrees
    bevelled = {"left_end": low, "right_end": high} if roof.falls_right else {"left_end": high, "right_end": low}
    level = make("top", "top", (0.0, 0.0, 0.0), (length, depth, t), TOP, bevelled=bevelled)
    c, s = cos(lean), sin(lean)
    if roof.falls_right:  # its own length runs to the left, upwards
        rotation: Matrix = ((-c, 0.0, -s), (0.0, 1.0, 0.0), (s, 0.0, -c))
        reach = between / c + t * tan(lean)
        at = (t + reach * c, 0.0, roof.over(t) - reach * s)
    else:
        rotation = ((-c, 0.0, s), (0.0, 1.0, 0.0), (-s, 0.0, -c))
        at = (roof.width - t, 0.0, roof.over(roof.width - t))
    return replace(level, pose=Pose(rotation=rotation, origin=at))


def divider(roof: Roof, name: str, at: Vec, make: Callable[..., Panel]) -> Panel:
    """An upright under the slope, its top bevelled. `at`: its left face, its bottom end and its depth."""
    x, z, depth = at
    high = max(roof.under(x), roof.under(x + roof.t))
    bevelled: Mapping[Surface, float] = {"right_end": roof.bevel_up(panel_looks_left=True)}
    return make(name, "divider", (x, 0.0, z), (x + roof.t, depth, high), DIVIDER, bevelled=bevelled)


def corners(roof: RoofAsked, panels: Mapping[str, Panel], wall_at: Vec | None) -> list[Meeting]:
    """The top's plumb ends against the sides, both from the front and the upper face."""
    out = []
    for side, way in (("left side", LEFT), ("right side", RIGHT)):
        host, guest = panels[side], panels["top"]
        end: Surface = "right_end" if way is LEFT else "left_end"
        out.append(
            meet(
                host=host, guest=guest, place="on a slope", recipe=roof.joint, groove_at=wall_at,
                host_register=Register(bears=facing(host, RIGHT if way is LEFT else LEFT),
                                       along_from=facing(host, FRONT), across_from=_upper(host)),
                guest_register=Register(bears=end, along_from=facing(guest, FRONT), across_from="back_side"),
            )
        )  # fmt: skip
    return out


def _upper(upright: Panel) -> Surface:
    return "left_end" if upright.pose.direction_to_cabinet((-1.0, 0.0, 0.0)) == UP else "right_end"


def under_top(roof: RoofAsked, top: Panel, upright: Panel, wall_at: Vec | None) -> Meeting:
    """A divider's bevelled end against the underside of the top: on a line from the top's left end."""
    return meet(
        host=top, guest=upright, place="on a slope", recipe=roof.joint, groove_at=wall_at,
        host_register=Register(bears="face_side", along_from=facing(top, FRONT), across_from="right_end"),
        guest_register=Register(bears=_upper(upright), along_from=facing(upright, FRONT),
                                across_from=facing(upright, LEFT)),
    )  # fmt: skip


def back(roof: Roof, frame: Frame, make: Callable[..., Panel]) -> Panel:
    """The back with its upper edge along the slope, as far into the top as it goes into the other boards."""
    (x0, y0, z0), (x1, y1, _) = frame.low, frame.high
    above = (roof.t - x0) / cos(radians(roof.degrees))
    tops = [roof.under(x) + above for x in (x0, x1)]
    made = make("back", "back", (x0, y0, z0), (x1, y1, max(tops)), frame.rotation, board=frame.board)
    return cut_to(made, [(x, y0, z) for x, z in ((x0, z0), (x1, z0), (x1, tops[1]), (x0, tops[0]))])
