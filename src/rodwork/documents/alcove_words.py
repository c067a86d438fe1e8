"""What is said of a unit in an alcove, on paper and on a terminal: what is left, what goes where, in which order."""

from collections.abc import Iterator, Mapping

from rodwork.documents.annotate import listed
from rodwork.documents.figures import size_text
from rodwork.model.alcove import Alcove, Gap, ScribeStrip
from rodwork.model.survey import Service, Survey

GAP_COLUMNS = ("height", "left, front", "left, back", "right, front", "right, back")
_CORNERS = ("front left", "front right", "back left", "back right")
BEHIND_DEGREES = 5  # common practice, no source


def height_text(mm: float) -> str:
    """A height off the level line: "+1100", "on the line", "-900"."""
    whole = size_text(abs(mm), 1.0)
    return "on the line" if whole == "0" else f"{'+' if mm > 0 else '-'}{whole}"


def gap_rows(alcove: Alcove, step: float) -> Iterator[tuple[str, ...]]:
    """Each height from the top: what is left on the left and the right, at the front and at the back."""
    by_height: dict[float, list[Gap]] = {}
    for gap in alcove.gaps:
        by_height.setdefault(gap.height, []).append(gap)
    for height in sorted(by_height, reverse=True):
        front, back = by_height[height][0], by_height[height][-1]
        yield (
            height_text(height), size_text(front.left, step), size_text(back.left, step), size_text(front.right, step),
            size_text(back.right, step),
        )  # fmt: skip


def verdict(alcove: Alcove, step: float) -> str:
    """How wide the unit is in what is there, and what is left to share."""
    least, most = alcove.to_share
    return (
        f"{size_text(alcove.size[0], step)} wide in {size_text(alcove.room_width, step)} upright: "
        f"{size_text(least, step)} to {size_text(most, step)} left for both scribes."
    )


def held(alcove: Alcove) -> str:
    """Which readings hold the largest upright box."""
    return f"Nothing wider stands upright there: it is held by {alcove.held[0]}, and by {alcove.held[1]}."


def order(alcove: Alcove, survey: Survey, marks: Mapping[str, str], step: float) -> Iterator[str]:
    """What is done, in its order, from the high point on. `marks` are those of the scribes by their names."""
    high = size_text(-survey.high_point, step)
    yield f"Strike the level line. The floor's highest point lies {high} below it: start there."
    feet = [f"{corner} {size_text(foot, 1.0)}" for corner, foot in zip(_CORNERS, alcove.feet, strict=True)]
    yield f"From the carcass down to the floor: {listed(feet)}."
    yield (
        f"Stand it {size_text(alcove.at[0], step)} from the left wall, at the front, on the line. "
        f"{_may_move(alcove, step)} Level it, and plumb it; no wall is the measure."
    )
    for strip in alcove.scribes:
        yield _scribe(strip, marks, step)
    if alcove.scribes:
        yield (
            f"Plane each to the wall with its back cut under by about {BEHIND_DEGREES} degrees, so that only its front "
            "arris touches. Pin it to its batten."
        )
    if alcove.tilt is not None and alcove.headroom is not None:
        yield f"Tilted up it takes {size_text(alcove.tilt, 1.0)}; {size_text(alcove.headroom, 1.0)} are there."


def _may_move(alcove: Alcove, step: float) -> str:
    left, right = alcove.moves
    if min(left, right) < 0:
        return "It is too wide for its scribes wherever it stands."
    if left + right < 2:
        return "It cannot stand anywhere else: a scribe would be too narrow."
    return f"It may go {size_text(left, step)} further left or {size_text(right, step)} further right, and no more."


def _scribe(strip: ScribeStrip, marks: Mapping[str, str], step: float) -> str:
    bottom, middle, top = (size_text(off, step) for off in strip.take_off)
    mark = marks.get(f"{strip.side} scribe", "")
    foot = ""
    if strip.foot:
        up, more = (size_text(v, step) for v in strip.foot)
        foot = f" At its foot cut it {more} more, {up} up, round the skirting."
    return (
        f"{strip.side.capitalize()} scribe {mark}: {size_text(strip.rough, step)} wide; the wall takes {top} off it at "
        f"the top, {middle} in the middle, {bottom} at the bottom.{foot}"
    )


def service_text(service: Service) -> str:
    """A box that must not be covered, in words."""
    along, up = service.low
    of = "the left wall" if service.wall == "back" else "the front"
    size = f"{size_text(service.size[0])} x {size_text(service.size[1])}"
    out = f", {size_text(service.out)} out of the wall" if service.out else ""
    return (
        f"{service.what.capitalize()} “{service.name}” on the {service.wall} wall: {size}, its lower corner "
        f"{size_text(along)} from {of} and {height_text(up)}{out}."
    )
