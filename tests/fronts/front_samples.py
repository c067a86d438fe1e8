"""Cabinets with doors for the tests, and a door swung about its edge. The sizes are invented."""

from math import cos, radians, sin

from rodwork.job.fronts import doors_of, drawers_of
from rodwork.model.fronts import Doors
from tests.building import cabinet, job, rod_of


def doors(hung="pair", openings=1, **words) -> Doors:
    """Doors as a job file would have them."""
    return doors_of({"hung": (hung,) if isinstance(hung, str) else hung, **words}, "birch18", (1, openings))


def fronted(front: Doors, **changes):
    """The set-out of a cabinet of 600 x 720 x 320 with these doors and no shelf, unless it is said otherwise."""
    values = {"openings": ("rest",), "loose_shelves": (0,), "edging": None, "doors": front, **changes}
    return rod_of(job(cabinet(**values)))


def box_of(part):
    a, b = part.pose.to_cabinet((0.0, 0.0, 0.0)), part.pose.to_cabinet(part.size)
    return tuple(map(min, a, b)), tuple(map(max, a, b))


def swung(part, hinged, degrees):
    """The corners of a door's section, opened so far about the outer arris of its hinged edge, and its stretch.

    Seen along the hinged edge: (across, from front to back) of four corners, and (from, to) along that edge. A cup hinge
    keeps an opening door within its own closed edge; turning about the outer arris does the same.
    """
    low, high = box_of(part)
    across, run = (2, 0) if hinged == "up" else (0, 2)
    pivot = (low[across] if hinged == "left" else high[across], low[1])
    turn = radians(degrees) * (-1 if hinged == "left" else 1)
    c, s = cos(turn), sin(turn)
    corners = [(a - pivot[0], b - pivot[1]) for a in (low[across], high[across]) for b in (low[1], high[1])]
    return [(pivot[0] + c * a - s * b, pivot[1] + s * a + c * b) for a, b in corners], (low[run], high[run])


def foul(corners, box):
    """Whether a turned rectangle and an upright one share more than a hair: no line parts them."""
    (x0, y0), (x1, y1) = box
    other = [(x0, y0), (x0, y1), (x1, y0), (x1, y1)]
    p, q, r = corners[0], corners[1], corners[2]
    axes = [(1.0, 0.0), (0.0, 1.0), (q[0] - p[0], q[1] - p[1]), (r[0] - p[0], r[1] - p[1])]
    for ax, ay in axes:
        size = (ax * ax + ay * ay) ** 0.5
        mine, theirs = ([(x * ax + y * ay) / size for x, y in pts] for pts in (corners, other))
        if max(mine) <= min(theirs) + 1e-6 or max(theirs) <= min(mine) + 1e-6:
            return False
    return True


def strikes_slope(door, hinged, degrees, top):
    """Whether a door opened so far about the outer arris of its hinged edge has wood of its upper edge in a sloping top."""
    low, high = box_of(door)
    pivot = (low[0] if hinged == "left" else high[0], low[1])
    turn = radians(degrees) * (-1 if hinged == "left" else 1)
    c, s = cos(turn), sin(turn)
    for x, z in upper_edge(door, 80):
        for y in (low[1] + k / 6 * (high[1] - low[1]) for k in range(7)):
            a, b = x - pivot[0], y - pivot[1]
            p = top.pose.to_part((pivot[0] + c * a - s * b, pivot[1] + s * a + c * b, z))
            if all(1e-6 < p[k] < top.size[k] - 1e-6 for k in range(3)):
                return True
    return False


def upper_edge(door, parts):
    """Points along the upper edge of a door: (across, up)."""
    corners = sorted((p[0], -p[2]) for p in (door.pose.to_cabinet((x, y, 0.0)) for x, y in door.outline))
    (x0, z0), (x1, z1) = corners[0], corners[2]
    return [(x0 + (x1 - x0) * k / parts, -z0 - (z1 - z0) * k / parts) for k in range(parts + 1)]


def drawers(number=3, openings=1, **words):
    """Drawers as a job file would have them, their boxes of the boards of the tests."""
    boards = {"board": "birch18", "box_board": "birch18", "bottom_board": "birch6"}
    return drawers_of({"number": number, **words}, boards, words.get("opening", openings))
