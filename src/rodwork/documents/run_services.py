"""Sockets, pipes and the like of a surveyed wall, where they come along a run: drawn behind it, and told in words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from rodwork.documents.annotate import Box, place_for
from rodwork.documents.drawing import HIDDEN, NO_PEN, Pen, Point, Shape, Text, box, line, text_width
from rodwork.documents.figures import size_text
from rodwork.model.run import CabinetRun
from rodwork.model.survey import Survey

NEAR_MM = 1000.0  # over the run: what is higher is no matter of it
LETTERS = "abcdefghijklmnopqrstuvwxyz"
_SIZES = (3.2, 2.8, 2.4)
_WIDEST = 36.0  # of a name beside its box, on paper; a longer one is a letter
_APART = 1.5
_LEADER = Pen(width=0.13, ink="grey")


@dataclass(frozen=True, slots=True, kw_only=True)
class ServiceInRun:
    """A service as it lies along the run, mm: from the left end of the run, above the high point of the floor."""

    letter: str
    name: str
    what: str
    wall: str
    x: tuple[float, float]
    z: tuple[float, float]
    out: float


def services_of(run: CabinetRun, survey: Survey | None) -> tuple[ServiceInRun, ...]:
    """Those that lie along the run, not much over it; on a side wall they are seen from their edge."""
    if survey is None:
        return ()
    found = []
    top = max(s.z1 for s in run.standings) + NEAR_MM
    for service in survey.services:
        z = service.low[1] - survey.high_point
        x0, x1 = service.low[0], service.low[0] + service.size[0]
        if service.wall == "left":
            x0 = survey.left_at(service.low[0], service.low[1])
            x1 = x0 + service.out
        elif service.wall == "right":
            x1 = survey.right_at(service.low[0], service.low[1])
            x0 = x1 - service.out
        x0, x1, z1 = x0 - run.origin, x1 - run.origin, z + service.size[1]
        if x1 > 0 and x0 < run.length and z1 > 0 and z < top:
            found.append((service, (round(x0, 3), round(x1, 3)), (round(z, 3), round(z1, 3))))
    return tuple(
        ServiceInRun(
            letter=LETTERS[n] if n < len(LETTERS) else str(n + 1), name=s.name, what=s.what, wall=s.wall, x=x, z=z,
            out=s.out,
        )
        for n, (s, x, z) in enumerate(found)
    )  # fmt: skip


def service_shapes(
    services: Sequence[ServiceInRun], boxes: Sequence[Box], within: Box, taken: Sequence[Box]
) -> Iterator[Shape]:
    """Every box in dashes, as it comes on paper, and its name on white ground where nothing else stands."""
    for b in boxes:
        yield box(b.left, b.bottom, b.right - b.left, b.top - b.bottom, HIDDEN)
    names = _named(services, boxes, within, taken)
    for name in names:
        to = ((name.ground.left + name.ground.right) / 2, (name.ground.bottom + name.ground.top) / 2)
        start = _nearest(name.of, to)
        if start != to:
            yield line(start, to, _LEADER)
    for name in names:
        g = name.ground
        yield box(g.left, g.bottom, g.right - g.left, g.top - g.bottom, NO_PEN, fill="white")
        yield Text(
            at=((g.left + g.right) / 2, g.bottom + 0.25 * name.size), text=name.text, size=name.size, anchor="middle"
        )


@dataclass(frozen=True, slots=True)
class _Name:
    """What a service is called on paper, and the ground that it takes."""

    text: str
    size: float
    ground: Box
    of: Box


def _named(
    services: Sequence[ServiceInRun], boxes: Sequence[Box], within: Box, taken: Sequence[Box]
) -> list[_Name]:  # fmt: skip
    """A name inside its box where there is room for it, else the nearest place that is clear of everything."""
    names: list[_Name] = []
    clear = [*(_wider(t) for t in taken), *boxes]
    for service, b in zip(services, boxes, strict=True):
        text, size = _label(service)
        middle = ((b.left + b.right) / 2, (b.bottom + b.top) / 2)
        wide, high = text_width(text, size) + 1.2, 1.4 * size
        inside = _around(middle, wide, high)
        room = wide <= b.right - b.left and high <= b.top - b.bottom
        if room and all(inside.clear_of(c) for c in clear if c is not b):
            ground = inside
        else:
            corner = place_for(wide, high, within, clear, (middle[0], b.top + high))
            if corner is None:
                text, wide = service.letter, text_width(service.letter, size) + 1.2
                corner = place_for(wide, high, within, clear, middle)
            if corner is None:
                continue  # nowhere on the page: the list has it
            ground = Box(left=corner[0], bottom=corner[1], right=corner[0] + wide, top=corner[1] + high)
        names.append(_Name(text, size, ground, b))
        clear.append(_wider(ground))
    return names


def _around(middle: Point, wide: float, high: float) -> Box:
    x, y = middle
    return Box(left=x - wide / 2, bottom=y - high / 2, right=x + wide / 2, top=y + high / 2)


def _wider(b: Box) -> Box:
    """With room beside it, so that two words do not read as one."""
    return Box(left=b.left - _APART, bottom=b.bottom, right=b.right + _APART, top=b.top)


def _nearest(b: Box, to: Point) -> Point:
    """The point of a box that is nearest to another."""
    return (min(max(to[0], b.left), b.right), min(max(to[1], b.bottom), b.top))


def _label(service: ServiceInRun) -> tuple[str, float]:
    """Its letter and its name, or its letter where the name is too long to stand beside it; and how large."""
    text = f"{service.letter}  {service.name}"
    for size in _SIZES:
        if text_width(text, size) <= _WIDEST:
            return text, size
    return service.letter, _SIZES[0]


def service_words(services: Sequence[ServiceInRun]) -> Iterator[str]:
    """Each in words, with its places along the run and above the floor."""
    for s in services:
        where = {
            "back": f"{size_text(s.x[0])} to {size_text(s.x[1])} from the left",
            "left": "on the left wall", "right": "on the right wall",
        }[s.wall]  # fmt: skip
        out = f", {size_text(s.out)} out of it" if s.out else ""
        yield f"{s.letter}   {s.what} “{s.name}”: {where}, {size_text(s.z[0])} to {size_text(s.z[1])} up{out}."
