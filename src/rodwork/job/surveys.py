"""What was measured off a level line, as the job file says it: readings -> walls, and readings that contradict others.

The left wall is the one that everything is measured from. Its lean comes from its own plumb, else from the diagonals,
else from the right wall's plumb, else it is taken as plumb; the right wall is the left and the width. On plan the left
wall is taken square to the front, unless diagonals on plan say otherwise.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import hypot, sqrt
from typing import TYPE_CHECKING, Any

from rodwork.geometry.profile import reading_at
from rodwork.job.faults import shown
from rodwork.model.survey import Moulding, Service, Survey

if TYPE_CHECKING:
    from rodwork.job.tables import Given, Reading

LINE_ABOVE_FLOOR_MM = 1000.0  # common practice, no source: the line is drawn a metre above the floor's high point
OUT_OF_LINE_MM = 40.0  # a reading further off its neighbours is a slip of the tape
PLUMB_OFF_MM = 15.0  # how far plumb and widths may disagree over the readings: walls are not flat
DIAGONAL_OFF_MM = 10.0
MOST_FALL_MM = 100.0  # of a floor or ceiling in one opening
MOST_LEAN = 0.05

Readings = tuple[float, ...]


def read_surveys(
    tables: Mapping[str, Any], services: Mapping[str, Any], reading: "Reading", misspelt: Iterable[str] = ()
) -> dict[str, Survey | None]:
    """The surveys of the job by name; None for one that is written but wrong.

    `misspelt`: the names of those under a misspelt heading, which has had its fault.
    """
    from rodwork.job.tables import read_table
    from rodwork.job.words import SurveyWords

    boxes = _services(services, dict.fromkeys((*tables, *misspelt)), reading)
    found: dict[str, Survey | None] = {}
    for name, raw in tables.items():
        before = len(reading.faults)
        said = read_table(SurveyWords, raw, ("surveys", name), f"the survey {shown(name)}", reading)
        survey = _survey(name, said, boxes.get(name, ()), reading) if len(reading.faults) == before else None
        found[name] = survey if len(reading.faults) == before else None
    return found


def _services(
    tables: Mapping[str, Any], surveys: Mapping[str, Any], reading: "Reading"
) -> dict[str, tuple[Service, ...]]:
    """Services by the survey that they belong to."""
    from rodwork.job.tables import read_table, unknown_name
    from rodwork.job.words import ServiceWords

    found: dict[str, tuple[Service, ...]] = {}
    for name, raw in tables.items():
        before = len(reading.faults)
        said = read_table(ServiceWords, raw, ("services", name), f"the service {shown(name)}", reading)
        survey = said.get("survey")
        if survey is not None and survey not in surveys:
            reading.fault((*said.path, "survey"), *unknown_name(survey, surveys, "surveys"))
        if len(reading.faults) == before:
            box = Service(
                name=name, what=said.get("what"), wall=said.get("wall", "back"), low=said.get("low"),
                size=said.get("size"), out=said.get("out", 0.0),
            )  # fmt: skip
            found[survey] = (*found.get(survey, ()), box)
    return found


@dataclass(frozen=True, slots=True)
class _Readings:
    """One survey's readings while it is worked out."""

    name: str
    said: "Given"
    reading: "Reading"
    heights: Readings
    widths: Readings
    back: Readings

    def fault(self, word: str, what: str, mend: str) -> None:
        """Note a fault of one word of this survey."""
        self.reading.fault((*self.said.path, word), f"{what} in the survey {shown(self.name)}", mend)

    @property
    def high(self) -> float:
        """From the lowest to the highest reading."""
        return self.heights[-1] - self.heights[0]


def _survey(name: str, said: "Given", services: tuple[Service, ...], reading: "Reading") -> Survey | None:
    heights, widths = said.get("heights", (0.0,)), said.get("widths")
    r = _Readings(name, said, reading, heights, widths, said.get("back_widths", widths))
    before = len(reading.faults)
    _counts(r)
    _needs(r)
    if len(reading.faults) > before:
        return None
    _in_line(r)
    taken: list[str] = []
    lean, offsets = _left_wall(r, taken)
    _diagonals_agree(r, offsets)
    skew = _skew(r, taken)
    floor = said.get("floor", (-LINE_ABOVE_FLOOR_MM,))
    if not said.says("floor"):
        taken.append(f"no floor was read: it is taken as level, {LINE_ABOVE_FLOOR_MM:g} below the line")
    _levels(r, floor)
    at_line = reading_at(heights, offsets, 0.0) + lean * (0.0 - min(max(0.0, heights[0]), heights[-1]))
    left = tuple(x - at_line for x in offsets)
    return Survey(
        name=name, heights=heights, left=_clean(left), right=_clean(x + w for x, w in zip(left, widths, strict=True)),
        left_back=_clean(x + skew for x in left),
        right_back=_clean(x + skew + w for x, w in zip(left, r.back, strict=True)),
        depths_left=said.get("depths"), depths_right=said.get("right_depths", said.get("depths")), lean=lean,
        floor=floor, floor_back=said.get("back_floor", floor), ceiling=said.get("ceiling"),
        skirting=_moulding(said.get("skirting")), cornice=_moulding(said.get("cornice")), services=services,
        taken=tuple(taken),
    )  # fmt: skip


def _clean(values: Any) -> Readings:
    return tuple(round(v, 6) + 0.0 for v in values)


def _moulding(said: Mapping[str, Any] | None) -> Moulding | None:
    if said is None:
        return None
    return Moulding(height=said["height"], out=said["out"], stays=not said.get("taken_out", False))


# what belongs together ------------------------------------------------------------------------------------------


def _counts(r: _Readings) -> None:
    """As many readings as heights, and heights that rise."""
    if any(b <= a for a, b in zip(r.heights, r.heights[1:], strict=False)):
        r.fault("heights", "the heights do not rise", "Write them from the lowest to the highest, each once")
    n = len(r.heights)
    lists = {word: r.said.get(word) for word in ("widths", "back_widths", "depths", "right_depths")}
    lists |= {f"{wall}.readings": (r.said.get(wall) or {}).get("readings") for wall in ("left_plumb", "right_plumb")}
    for word, values in lists.items():
        if values is not None and len(values) != n:
            heights = "one height" if n == 1 else f"{n} heights"
            r.fault(
                word.partition(".")[0], f"{word} has {len(values)} readings for {heights}",
                "Write one reading for each of the heights" if r.said.says("heights")
                else f"Write heights = [...], the {len(values)} heights they were taken at",
            )  # fmt: skip


def _needs(r: _Readings) -> None:
    """Readings that mean nothing without others."""
    for word, other in (
        ("back_widths", "depths"), ("right_depths", "depths"), ("plan_diagonals", "depths"), ("back_floor", "depths"),
    ):  # fmt: skip
        if r.said.says(word) and not r.said.says(other):
            r.fault(word, f"{word} is there and {other} is not", f"Write {other} = [...], or take {word} out")
    if r.said.says("diagonals") and len(r.heights) < 2:
        r.fault("diagonals", "diagonals need two heights", "Write the heights whose corners they join")
    for wall in ("left_plumb", "right_plumb"):
        said = r.said.get(wall)
        if said is not None and ("readings" in said) == ("out" in said or "height" in said):
            r.fault(
                wall,
                f"{wall} is not one way of saying it",
                "Write { out = 6, height = 2400 }, or { readings = [0, 3, 6] }",
            )
        elif said is not None and "readings" not in said and not ("out" in said and "height" in said):
            r.fault(wall, f"{wall} is half of it", "Write both: { out = 6, height = 2400 }")
    for word in ("skirting", "cornice"):
        said = r.said.get(word)
        if said is not None and not ("height" in said and "out" in said):
            r.fault(word, f"{word} needs height and out", "Write { height = 120, out = 18 }")


def _in_line(r: _Readings) -> None:
    """A width or depth far from its neighbours, or a front far from its back, is a slip of the tape."""
    before = len(r.reading.faults)
    for word in ("widths", "back_widths", "depths", "right_depths"):
        values = r.said.get(word, ())
        for n in range(1, len(values) - 1):
            between = reading_at((r.heights[n - 1], r.heights[n + 1]), (values[n - 1], values[n + 1]), r.heights[n])
            if abs(values[n] - between) > OUT_OF_LINE_MM:
                r.fault(
                    word, f"{word} has {values[n - 1]:g}, {values[n]:g} and {values[n + 1]:g} one above another",
                    f"Measure all three again: {between:.0f} would lie between the other two. If the wall is so, take "
                    "more heights",
                )  # fmt: skip
    if len(r.reading.faults) > before:
        return
    steps = [b - f for f, b in zip(r.widths, r.back, strict=True)]
    if max(steps) - min(steps) > OUT_OF_LINE_MM:
        r.fault(
            "back_widths", f"the back is from {min(steps):+g} to {max(steps):+g} against the front at the same height",
            "Measure front and back again: one of them is off",
        )  # fmt: skip


# which way the walls lean ---------------------------------------------------------------------------------------


def _left_wall(r: _Readings, taken: list[str]) -> tuple[float, Readings]:
    """The left wall's lean, mm in each mm, and its x at each height from any plumb line."""
    left, right = (_plumb(r, wall) for wall in ("left_plumb", "right_plumb"))
    if left is not None:
        if right is not None:
            _plumbs_agree(r, left, right)
        return _lean(r, left), left
    if r.said.says("diagonals"):
        shift = _shift(r.widths[0], r.widths[-1], r.high, r.high, r.said.get("diagonals"))
        if shift is None:
            return 0.0, (0.0,) * len(r.heights)  # what is wrong with them is told by _diagonals_agree
        slope = shift / r.high
        taken.append(f"the lean of the walls is that of the diagonals, {shift:+.0f} in {r.high:.0f}")
        return slope, tuple(slope * (z - r.heights[0]) for z in r.heights)
    if right is not None:
        offsets = tuple(-x - w for x, w in zip(right, r.widths, strict=True))
        return _lean(r, offsets), offsets
    taken.append("no plumb was read: the left wall is taken as plumb")
    return 0.0, (0.0,) * len(r.heights)


def _plumb(r: _Readings, wall: str) -> Readings | None:
    """How far into the opening a wall stands at each height, from a plumb line."""
    said = r.said.get(wall)
    if said is None:
        return None
    if "readings" in said:
        return tuple(said["readings"])
    return tuple(said["out"] / said["height"] * (z - r.heights[0]) for z in r.heights)


def _lean(r: _Readings, offsets: Readings) -> float:
    said = r.said.get("left_plumb") or {}
    if "height" in said:
        return float(said["out"] / said["height"])
    return (offsets[-1] - offsets[0]) / r.high if r.high else 0.0


def _plumbs_agree(r: _Readings, left: Readings, right: Readings) -> None:
    """Both walls' plumb and the widths say the same thing twice."""
    by_plumb = -(left[-1] - left[0]) - (right[-1] - right[0])
    by_width = r.widths[-1] - r.widths[0]
    if abs(by_plumb - by_width) > PLUMB_OFF_MM:
        r.fault(
            "right_plumb", f"by the plumb of both walls the width grows by {by_plumb:.0f} from the lowest to the "
            f"highest height, and by the widths {r.widths[0]:g} and {r.widths[-1]:g} it grows by {by_width:.0f}",
            "Measure the plumb and the widths again",
        )  # fmt: skip


# diagonals ------------------------------------------------------------------------------------------------------


def _shift(first: float, second: float, rise: float, rise_right: float, diagonals: Any) -> float | None:
    """How far the left end of the second width lies to the right of that of the first, by both diagonals.

    The second lies `rise` from the first at its left, `rise_right` at its right. None: no such figure can be drawn.
    """
    up_right, up_left = diagonals
    if up_right <= rise_right or up_left <= rise:
        return None
    by_one = sqrt(up_right**2 - rise_right**2) - second
    by_other = first - sqrt(up_left**2 - rise**2)
    return float((by_one + by_other) / 2)


def _diagonals_agree(r: _Readings, offsets: Readings) -> None:
    """The diagonals of the front, from the corners at the lowest height to those at the highest."""
    if not r.said.says("diagonals"):
        return
    up_right = hypot(offsets[-1] + r.widths[-1] - offsets[0], r.high)
    up_left = hypot(offsets[0] + r.widths[0] - offsets[-1], r.high)
    lean = abs(offsets[-1] - offsets[0]) / r.high
    belongs = f"widths of {r.widths[0]:g} and {r.widths[-1]:g}, {r.high:g} apart"
    _cannot_belong(r, "diagonals", (up_right, up_left), belongs, too_far=lean > MOST_LEAN)


def _skew(r: _Readings, taken: list[str]) -> float:
    """How far the left wall lies further right at the back than at the front, at the height nearest the line."""
    if not r.said.says("depths"):
        return 0.0
    if not r.said.says("plan_diagonals"):
        taken.append("no diagonals were read on plan: the left wall is taken as square to the front")
        return 0.0
    n = min(range(len(r.heights)), key=lambda i: abs(r.heights[i]))
    front, back, left = r.widths[n], r.back[n], r.said.get("depths")[n]
    right = r.said.get("right_depths", r.said.get("depths"))[n]
    skew = _shift(front, back, left, right, r.said.get("plan_diagonals"))
    drawn = (hypot((skew or 0.0) + back, right), hypot(front - (skew or 0.0), left))
    belongs = f"widths of {front:g} and {back:g} and depths of {left:g} and {right:g}"
    _cannot_belong(r, "plan_diagonals", drawn, belongs, too_far=skew is None)
    return skew or 0.0


def _cannot_belong(r: _Readings, word: str, drawn: tuple[float, float], belongs: str, too_far: bool) -> None:
    """A fault where the diagonals as read are not those of the figure that the other readings draw."""
    read = r.said.get(word)
    if not too_far and all(abs(a - b) <= DIAGONAL_OFF_MM for a, b in zip(read, drawn, strict=True)):
        return
    r.fault(
        word, f"diagonals of {read[0]:g} and {read[1]:g} cannot belong to {belongs}, which ask for {drawn[0]:.0f} and "
        f"{drawn[1]:.0f}", "Measure diagonals and widths again",
    )  # fmt: skip


def _levels(r: _Readings, floor: Readings) -> None:
    """Floor under all readings, ceiling over them, neither falling further than floors do."""
    ceiling = r.said.get("ceiling")
    if max(*floor, *r.said.get("back_floor", floor)) >= r.heights[0]:
        r.fault(
            "floor",
            "the floor is not below the lowest height",
            "Heights go up from the line, the floor lies below nought",
        )
    if ceiling is not None and min(ceiling) <= r.heights[-1]:
        r.fault("ceiling", "the ceiling is not above the highest height", "Measure it up from the level line")
    for word in ("floor", "back_floor", "ceiling"):
        values = r.said.get(word, (0.0,))
        if max(values) - min(values) > MOST_FALL_MM:
            r.fault(
                word, f"{word} goes up and down by {max(values) - min(values):g}",
                f"Measure it again: more than {MOST_FALL_MM:g} is not one {word.removeprefix('back_')}",
            )  # fmt: skip
