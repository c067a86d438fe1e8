"""A picture shows every edge that is seen and none that is hidden: held against rays cast box by box."""

import random

import pytest
from tests.building import back as back_of
from tests.building import cabinet, job, recipe, rod, rod_of

from rodwork.documents.pictorial import (
    FROM_ABOVE,
    FROM_RIGHT,
    FRONT,
    STANDING,
    Solid,
    cut_faces,
    extent,
    lying,
    part_box,
    pictorial,
    seen,
    shifted,
    solids,
)

VIEWS = {
    "standing": STANDING,
    "on its left side": lying((-1.0, 0.0, 0.0)),
    "on its face": lying((0.0, -1.0, 0.0)),
    "upside down": lying((0.0, 0.0, 1.0)),
    "front": FRONT,
    "from the right": FROM_RIGHT,
    "from above": FROM_ABOVE,
}


def first_hit(boxes, view, point):
    """(box, axis, level) of the surface that the eye meets at a point of the paper: slab by slab, no grid."""
    e = view.to_eye
    origin = tuple(point[0] * view.right[i] + point[1] * view.up[i] for i in range(3))
    best = None
    for n, (lo, hi) in enumerate(boxes):
        near, far, side = -1e9, 1e9, None
        for i in range(3):
            if abs(e[i]) < 1e-12:
                if not lo[i] < origin[i] < hi[i]:
                    break
                continue
            a, b = sorted(((lo[i] - origin[i]) / e[i], (hi[i] - origin[i]) / e[i]))
            near = max(near, a)
            if b < far:
                far, side = b, (i, round(hi[i] if e[i] > 0 else lo[i], 3))
        else:
            if near < far and (best is None or far > best[0]):
                best = (far, n, side)
    return None if best is None else best[1:]


def scene(seed):
    """Boxes that do not overlap, some of them touching: one in each cell of a 3 x 3 x 3 rack."""
    r = random.Random(seed)
    found = []
    for cell in range(27):
        if r.random() < 0.45:
            corner = [100.0 * (cell // 3**i % 3) for i in range(3)]
            lo = [c + r.choice((0.0, 10.0, 35.0)) for c in corner]
            hi = [c + r.choice((100.0, 90.0, 60.0)) for c in corner]
            found.append((tuple(lo), tuple(hi)))
    return found or [((0.0, 0.0, 0.0), (50.0, 60.0, 70.0))]


def crosses(line, p, q):
    """Whether a drawn line passes between two near points of the paper."""
    (ax, ay), (bx, by) = line.a, line.b

    def side(x, y):
        return (bx - ax) * (y - ay) - (by - ay) * (x - ax)

    def other(x, y):
        return (q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0])

    return side(*p) * side(*q) <= 0 and other(ax, ay) * other(bx, by) <= 0


@pytest.mark.parametrize("view", VIEWS.values(), ids=VIEWS)
@pytest.mark.parametrize("seed", range(6))
def test_where_the_eye_meets_another_surface_a_line_is_drawn_and_nowhere_else(view, seed):
    boxes = scene(seed)
    lines = seen(tuple(Solid(id=str(n), wood=(b,)) for n, b in enumerate(boxes)), view)
    for s in lines:
        (ax, ay), (bx, by) = s.a, s.b
        length = ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5
        nx, ny = -(by - ay) / length * 0.3, (bx - ax) / length * 0.3
        x, y = (ax + bx) / 2, (ay + by) / 2
        assert first_hit(boxes, view, (x + nx, y + ny)) != first_hit(boxes, view, (x - nx, y - ny)), s
    r = random.Random(seed)
    (x0, y0), (x1, y1) = (tuple(f(p[i] for s in lines for p in (s.a, s.b)) for i in (0, 1)) for f in (min, max))
    for _ in range(1500):
        p = (r.uniform(x0 - 5, x1 + 5), r.uniform(y0 - 5, y1 + 5))
        q = (p[0] + r.uniform(-3, 3), p[1] + r.uniform(-3, 3))
        if first_hit(boxes, view, p) != first_hit(boxes, view, q):
            assert any(crosses(s, p, q) for s in lines), (p, q)


def test_what_lies_in_a_groove_is_not_seen():
    c = rod().cabinets[0]
    clear = (17.6, 600 - 17.6)
    for s in pictorial(c, FRONT):
        if "back" in s.boards and len(s.boards) == 1:
            assert clear[0] - 2 <= min(s.a[0], s.b[0])
            assert max(s.a[0], s.b[0]) <= clear[1] + 2


@pytest.mark.parametrize("style", ["grooved all round", "grooved in the sides", "rebated", "planted", "inset", None])
def test_every_board_of_any_cabinet_is_seen_from_somewhere(style):
    made = rod_of(
        job(cabinet(back=back_of(style) if style else None, bays=("rest", 200.0), shelf_joint=recipe("housing")))
    ).cabinets[0]
    boards = set()
    for view in (*VIEWS.values(), lying((0.0, 1.0, 0.0))):
        boards |= {b for s in pictorial(made, view) for b in s.boards}
    assert boards == {p.id for p in made.parts}


def test_nothing_is_drawn_outside_the_box_of_the_boards():
    c = rod().cabinets[0]
    whole = extent([part_box(p) for p in c.parts])
    corners = [STANDING.on_paper((x, y, z)) for x in (whole[0][0], whole[1][0])
               for y in (whole[0][1], whole[1][1]) for z in (whole[0][2], whole[1][2])]  # fmt: skip
    for s in pictorial(c):
        for p in (s.a, s.b):
            assert min(q[0] for q in corners) - 0.01 <= p[0] <= max(q[0] for q in corners) + 0.01
            assert min(q[1] for q in corners) - 0.01 <= p[1] <= max(q[1] for q in corners) + 0.01


def test_a_section_cuts_the_boards_that_the_plane_passes_through():
    c = rod().cabinets[0]
    faces = cut_faces(solids(c), FROM_RIGHT, ((-1e6, -1e6, -1e6), (300.0, 1e6, 1e6)))
    heights = {(round(min(p[1] for p in face), 1), round(max(p[1] for p in face), 1)) for face in faces}
    assert (0.0, 17.6) in heights  # the bottom
    assert (702.4, 720.0) in heights  # the top
    assert not any(z1 - z0 > 719 for z0, z1 in heights)  # no side is cut


def test_a_board_drawn_out_of_its_place_is_moved_by_so_much():
    top = next(s for s in solids(rod().cabinets[0]) if s.id == "top")
    out = shifted(top, (0.0, 0.0, 150.0))
    assert extent(out.wood)[0][2] == pytest.approx(extent(top.wood)[0][2] + 150.0)
    assert all(b[0][2] - a[0][2] == pytest.approx(150.0) for a, b in zip(top.air, out.air, strict=True))
