"""Boards that go home all at the same time: the four of a mitred box, closing upon what stands inside.

No one of them comes away alone, for each mitre opens at 45 degrees. Moved out at one speed, every board square to its
own outside, all the mitres open square to themselves at once. That is shown here joint by joint, from the way each
fixing goes home; a box in which it does not hold is told like any other that has no order.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace

from rodwork.documents.annotate import listed
from rodwork.documents.drawing import HEAVY, HIDDEN, Path_, Point, Shape, Text, box, wrapped
from rodwork.documents.figures import arrow
from rodwork.documents.page import Area
from rodwork.documents.pictorial import Box, part_box
from rodwork.documents.tables import LEADING
from rodwork.geometry.vec import Vec, dot, scale, sub
from rodwork.model.fixing import Joint
from rodwork.model.panel import Part
from rodwork.model.rod import RodCabinet

FROM_BEHIND = ("planted back", "inset back", "back in a rebate")  # a back that goes on when the box is closed
_STILL: Vec = (0.0, 0.0, 0.0)
_SAME = 1e-6
_OPEN = 0.16  # how far apart they are drawn, of the larger size
_SIZE = 4.6
_NEW = replace(HEAVY, width=0.75)


def closes_at_once(cabinet: RodCabinet) -> bool:
    """Whether the mitred boards close upon all others in one move: then each joint goes home its own way or stays."""
    ring = _ring(cabinet)
    if not ring:
        return False
    speeds = {part.id: _inwards(part) if part.id in ring else _STILL for part in cabinet.parts}
    first = [joint for joint in cabinet.joints if joint.contact.place not in FROM_BEHIND]
    return all(_goes_home(joint, sub(speeds[joint.parts[1]], speeds[joint.parts[0]])) for joint in first)


def drawn_at_once(cabinet: RodCabinet, area: Area) -> Iterator[Shape]:
    """The front with its boards apart and an arrow on each, and what to do in words beside it."""
    ring = [p for p in cabinet.parts if p.id in _ring(cabinet)]
    after = _put_on_after(cabinet)
    inside = [
        p for p in cabinet.parts
        if p.id not in _ring(cabinet) and p.id not in after and p.in_box and p.role != "loose shelf"
    ]  # fmt: skip
    width, height, _ = cabinet.size
    apart = _OPEN * max(width, height)
    room = 0.5 * area.width
    k = min(room / (width + 2 * apart), (area.height - 6.0) / (height + 2 * apart))
    x0, y0 = area.left + k * apart, area.top - 4.0 - k * (height + apart)

    def on_page(p: Point) -> Point:
        return x0 + k * p[0], y0 + k * p[1]

    for part in inside:
        (a, _, c), (d, _, f) = part_box(part)
        pen = HIDDEN if part.role == "back" else HEAVY
        yield box(*on_page((a, c)), k * (d - a), k * (f - c), pen)
    for part in ring:
        way = _inwards(part)
        out = (-apart * way[0], -apart * way[2])
        yield Path_(
            points=tuple(on_page((x + out[0], z + out[1])) for x, z in _front(part_box(part), way)),
            closed=True,
            pen=_NEW,
        )
        yield from _arrow(part_box(part), way, apart, on_page)
    yield from _words(ring, inside, bool(after), Area(left=area.left + room + 8.0, bottom=area.bottom, right=area.right,
                                                     top=area.top))  # fmt: skip


def _ring(cabinet: RodCabinet) -> frozenset[str]:
    return frozenset(id for joint in cabinet.joints if joint.contact.place == "mitre" for id in joint.parts)


def _put_on_after(cabinet: RodCabinet) -> frozenset[str]:
    """Backs that go on from behind."""
    behind = {id for joint in cabinet.joints if joint.contact.place in FROM_BEHIND for id in joint.parts}
    return frozenset(part.id for part in cabinet.parts if part.role == "back" and part.id in behind)


def _inwards(part: Part) -> Vec:
    """The way its inside looks: the face side of the boards of a box."""
    x, y, z = part.pose.direction_to_cabinet((0.0, 0.0, 1.0))
    return (round(x, 9) + 0.0, round(y, 9) + 0.0, round(z, 9) + 0.0)


def _goes_home(joint: Joint, closing: Vec) -> bool:
    """Whether the guest so moved against its host goes the way of every fixing, or does not move against it at all."""
    for fixing in joint.fixings:
        if len(fixing.motion) > 1:
            return False
        for move in fixing.motion:
            forward = dot(closing, move.push)
            aside = sub(closing, scale(move.push, forward))
            if forward < -_SAME or dot(aside, aside) > _SAME:
                return False
    return True


def _front(of: Box, way: Vec) -> tuple[Point, ...]:
    """A mitred board as it is seen from the front, its long side outside."""
    (a, _, c), (d, _, f) = of
    if abs(way[0]) > 0.5:
        t = (d - a) * way[0]
        outer, inner = (a, d) if t > 0 else (d, a)
        return ((outer, c), (inner, c + abs(t)), (inner, f - abs(t)), (outer, f))
    t = (f - c) * way[2]
    outer, inner = (c, f) if t > 0 else (f, c)
    return ((a, outer), (a + abs(t), inner), (d - abs(t), inner), (d, outer))


def _arrow(of: Box, way: Vec, apart: float, on_page: Callable[[Point], Point]) -> Iterator[Shape]:
    (a, _, c), (d, _, f) = of
    middle = ((a + d) / 2, (c + f) / 2)
    start = on_page((middle[0] - 0.85 * apart * way[0], middle[1] - 0.85 * apart * way[2]))
    end = on_page((middle[0] - 0.2 * apart * way[0], middle[1] - 0.2 * apart * way[2]))
    yield from arrow(start, end)


def _words(ring: list[Part], inside: list[Part], back_after: bool, area: Area) -> Iterator[Shape]:
    standing = listed([p.name for p in inside])
    told = [
        "All four corners close at the same time.",
        "Lay the four boards in a row, outsides up, arris to arris, and stretch tape across each joint. Turn the row "
        "over; glue the mitres.",
        f"Stand {standing} in place on the first board: what is inside does not go in afterwards." if standing else "",
        f"Bring {listed([p.name for p in ring])} home together, each square to its own outside, until the outside "
        "arrises meet all along; tape the last corner, and draw the box up with mitre cauls or a strap.",
        "Pull both diagonals equal, front and back, before the glue takes. Dry-fit the first of each kind without "
        "glue.",
        "Then fix the back from behind: it keeps the box square." if back_after else "",
    ]
    y = area.top - 6.0
    for number, text in enumerate((t for t in told if t), 1):
        for line_ in wrapped(f"{number}. {text}", _SIZE, area.width, number == 1):
            yield Text(at=(area.left, y), text=line_, size=_SIZE, bold=number == 1)
            y -= _SIZE * LEADING
        y -= 2.5
