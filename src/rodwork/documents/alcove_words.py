"""What is said of a unit in an alcove, on paper and on a terminal: what is left, what goes where, in which order."""

from collections.abc import Iterator, Mapping

from rodwork.documents.annotate import listed
from rodwork.documents.figures import size_text
from rodwork.geometry.rounding import to_step
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
    share = " to ".join(dict.fromkeys(size_text(v, step) for v in (least, most)))
    return (
        f"{size_text(alcove.size[0], step)} wide: the two gaps to the walls come to {share} together, for both scribes."
    )


def held(alcove: Alcove, step: float) -> str:
    """How wide the largest upright box is, and which readings hold it."""
    widest = size_text(alcove.room_width, step)
    return f"Nothing wider than {widest} stands upright there: it is held by {alcove.held[0]}, and by {alcove.held[1]}."


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
        yield _scribe(strip, alcove, marks, step)
    if alcove.scribes:
        yield (
            f"Plane each to the wall with its back cut under by about {BEHIND_DEGREES} degrees, so that only its front "
            "arris touches. Pin it to its batten."
        )
    if alcove.tilt is not None and alcove.headroom is not None:
        yield (
            f"Tilted up it takes {size_text(alcove.tilt, 1.0)} of height; there are {size_text(alcove.headroom, 1.0)}."
        )


def _may_move(alcove: Alcove, step: float) -> str:
    left, right = alcove.moves
    if min(left, right) < 0:
        return "It is too wide for its scribes wherever it stands."
    if left + right < 2:
        return "It cannot stand anywhere else: a scribe would be too narrow."
    return f"It may go {size_text(left, step)} further left or {size_text(right, step)} further right, and no more."


def _scribe(strip: ScribeStrip, alcove: Alcove, marks: Mapping[str, str], step: float) -> str:
    """How wide it is supplied, and what the wall takes off it at its ends and at the reading nearest to its middle."""
    rough = to_step(strip.rough, step)
    gaps = {g.height: g.left if strip.side == "left" else g.right for g in reversed(alcove.gaps) if g.depth == 0.0}
    low, *between, high = sorted(gaps)
    places = {high: "at the top", low: "at the bottom"}
    if between:
        middle = min(between, key=lambda z: abs(z - (low + high) / 2))
        said = height_text(middle)
        places = {high: "at the top", middle: said if said.startswith("on") else f"at {said}", low: "at the bottom"}
    # by the gaps as they are printed: rounded apart, gap and wood might not add up to the width
    off = [f"{size_text(rough - to_step(gaps[z], step), step)} off it {where}" for z, where in places.items()]
    foot = ""
    if strip.foot:
        up, more = (size_text(v, step) for v in strip.foot)
        foot = f" At its foot cut it {more} more, {up} up, round the skirting."
    mark = marks.get(f"{strip.side} scribe", "")
    return (
        f"{strip.side.capitalize()} scribe {mark}: {size_text(rough, step)} wide; the wall takes {listed(off)}.{foot}"
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
