"""What a run stands against: a length that was said, or a survey and the largest straight run that goes into it."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import product

from rodwork.geometry.rounding import down_to_step
from rodwork.model.job import Cabinet, CannotBuild
from rodwork.model.run import End
from rodwork.model.run_asked import RunAsked
from rodwork.model.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class RunWall:
    """A clear length, None where there is none; how far each wall goes out beyond its ends; where it starts.

    `origin` is where the left end of the run comes in the survey, nought without one.
    """

    length: float | None
    starts: End
    out_left: float = 0.0
    out_right: float = 0.0
    origin: float = 0.0


def wall_of(asked: RunAsked, surveys: Mapping[str, Survey], cabinets: list[Cabinet]) -> RunWall:
    """The wall of a run. Raises CannotBuild where the survey leaves no run at all."""
    survey = surveys.get(asked.survey or "")
    if survey is None:
        return RunWall(length=asked.length_mm, starts="left" if asked.starts == "high point" else asked.starts)
    top = asked.above_floor_mm + max(c.height_mm for c in cabinets)
    heights = [survey.high_point, survey.high_point + top]
    heights += [h for h in survey.heights if heights[0] < h < heights[1]]
    places = tuple(product((0.0, survey.deep), heights))
    lefts = [survey.left_at(y, z) for y, z in places]
    rights = [survey.right_at(y, z) for y, z in places]
    length = down_to_step(min(rights) - max(lefts), 1.0)
    if length <= 0.0:
        raise CannotBuild(
            (*asked.place.path, "survey"), f"the walls of {survey.name} leave no straight length between them",
            "look at its widths and its plumb again",
        )  # fmt: skip
    starts: End = asked.starts if asked.starts != "high point" else _high_end(survey)
    return RunWall(
        length=length, starts=starts, out_left=round(max(lefts) - min(lefts), 3),
        out_right=round(max(rights) - min(rights), 3), origin=round(max(lefts), 3),
    )  # fmt: skip


def _high_end(survey: Survey) -> End:
    """The end of the floor that is nearer to its high point."""
    readings = [max(pair) for pair in zip(survey.floor, survey.floor_back, strict=False)]
    return "left" if 2 * readings.index(max(readings)) <= len(readings) - 1 else "right"
