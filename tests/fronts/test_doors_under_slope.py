"""Doors cut to a sloping top: a maker cuts their upper edge along the slope and hangs them on an upright edge.

Their sizes are those of plane trigonometry and their areas those of trapezoids, worked here from the job's own numbers.
How many hinges: the guide that the hinges' page names. Their margins are common practice, no source.
"""

from dataclasses import replace
from math import cos, hypot, radians, sin, tan

import pytest

from rodwork.carcass.hinges import guided
from rodwork.checks.registry import checks
from rodwork.documents.boards import board_pages
from rodwork.documents.drawing import HIDDEN, Path_, Text, text_width
from rodwork.documents.front_pages import front_pages
from rodwork.documents.solids import part_mesh, volume_mm3
from rodwork.job.faults import JobFaults
from rodwork.model.slope import edge_length
from rodwork.pipeline import cutting, dry_fit, load, set_out
from rodwork.setout.proof import prove
from tests.fronts.front_samples import strikes_slope, upper_edge
from tests.geometry.overlap import overlaps
from tests.texts import EDGING, HEAD

T, W, H = 17.6, 700.0, 1500.0
END, INSET = 1.5, 2.0  # margins of overlay and of inset doors
DEGREES = (0.1, 0.5, 1, 3, 6, 10, 20, 35, 50, 70, 90, 100)
TOPS = ', side_tops = "high side bevelled"'


def text(doors, *lines, degs=30.0, falls="right", tops=TOPS, head=HEAD, width=W):
    own = "\n".join((f"width = {width:g}\nheight = {H:g}\ndepth = 400", *lines))
    roof = f'roof = {{ falls = "{falls}", degrees = {degs:g}{tops} }}'
    return f'{head}\n[cabinets.eaves]\nkind = "under slope"\nboard = "birch18"\n{own}\n{roof}\ndoors = {{ {doors} }}\n'


def eaves(doors, *lines, **said):
    rod = set_out(text(doors, *lines, **said), "eaves.toml")
    assert [f.message for f in prove(rod)] == []
    (cabinet,) = rod.cabinets
    assert overlaps(cabinet) == []
    return cabinet


def corners(part):
    """Lowest and highest at the left edge, the same at the right one: (x, z)."""
    return sorted((round(p[0], 5), round(p[2], 5)) for p in (part.pose.to_cabinet((x, y, 0)) for x, y in part.outline))


def shoelace(outline):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, (*outline[1:], outline[0]), strict=True))) / 2


# the shape


@pytest.mark.parametrize("tops", ["", TOPS])
@pytest.mark.parametrize("falls", ["left", "right"])
@pytest.mark.parametrize("degs", [10, 30, 45])
def test_an_overlay_door_ends_by_its_margin_square_under_the_slope_from_the_high_corner(degs, falls, tops):
    door, lean = eaves('hung = "left"', degs=degs, falls=falls, tops=tops).part["door"], radians(degs)

    def edge(x):
        return H - (x if falls == "right" else W - x) * tan(lean) - END / cos(lean)

    sides = (END, W - END)
    want = [(x, z) for x in sides for z in (END, edge(x))]
    assert [n for p in corners(door) for n in p] == pytest.approx([n for p in want for n in p], abs=1e-4)
    mean = (edge(sides[0]) + edge(sides[1])) / 2 - END
    assert shoelace(door.outline) == pytest.approx(mean * (sides[1] - sides[0]))
    assert door.weight.kg == pytest.approx(mean * (sides[1] - sides[0]) * T * 680e-9, rel=1e-4)
    assert volume_mm3(part_mesh(replace(door, features=()))) == pytest.approx(
        mean * (sides[1] - sides[0]) * T, rel=1e-6
    )


def test_no_door_stands_above_the_high_side():
    for tops in ("", TOPS):
        assert max(z for _, z in corners(eaves('hung = "left"', degs=50, tops=tops).part["door"])) < H


@pytest.mark.parametrize(
    ("hung", "reveal"), [("right", INSET), ("left", T * sin(radians(30)) + 1), ("pair", T * sin(radians(30)) + 1)]
)
def test_an_inset_door_keeps_its_reveal_and_on_the_high_side_what_its_swing_takes(hung, reveal):
    c, lean = eaves(f'hung = "{hung}", style = "inset"', degs=30), radians(30)
    for part in (p for p in c.parts if p.role == "door"):
        for x, z in upper_edge(part, 4):
            under = H - x * tan(lean) - T / cos(lean)
            assert (under - z) * cos(lean) == pytest.approx(reveal, abs=1e-4)


def test_the_leaves_of_a_pair_end_in_one_line():
    c = eaves('hung = "pair"', degs=25)
    left, right = corners(c.part["left door"]), corners(c.part["right door"])
    (x0, z0), (x1, z1), (x2, z2), (x3, z3) = left[1], left[3], right[1], right[3]
    assert x2 - x1 == pytest.approx(3.0)
    assert (z0 - z1) / (x1 - x0) == pytest.approx(tan(radians(25)))
    assert (
        (z1 - z2) / (x2 - x1)
        == pytest.approx((z2 - z3) / (x3 - x2), rel=1e-4)
        == pytest.approx(tan(radians(25)), rel=1e-4)
    )


def test_before_a_divider_every_bay_has_doors_along_one_slope():
    c = eaves('hung = ["left", "right"]', "dividers = 1", degs=20, width=1200)
    for name in ("door 1", "door 2"):
        for x, z in upper_edge(c.part[name], 3):
            assert z == pytest.approx(H - x * tan(radians(20)) - END / cos(radians(20)), abs=1e-4)


# the swing


@pytest.mark.parametrize("style", ["overlay", "inset"])
@pytest.mark.parametrize("hung", ["left", "right", "pair"])
@pytest.mark.parametrize("degs", [8, 30, 50])
def test_a_door_opens_all_the_way_without_touching_the_sloping_top(style, hung, degs):
    c = eaves(f'hung = "{hung}", style = "{style}"', degs=degs)
    for door in c.doors:
        assert not any(strikes_slope(c.part[door.door], door.hinged, d, c.part["top"]) for d in DEGREES)


def test_with_the_usual_reveal_an_inset_door_on_the_high_side_would_strike_it():
    c = eaves('hung = "left", style = "inset"', degs=30)
    door = c.part["door"]
    raised = T * sin(radians(30)) + 1 - INSET  # square to the slope
    pose = replace(
        door.pose, origin=(door.pose.origin[0], door.pose.origin[1], door.pose.origin[2] + raised / cos(radians(30)))
    )
    assert any(strikes_slope(replace(door, pose=pose), "left", d, c.part["top"]) for d in DEGREES)
    assert not any(strikes_slope(replace(door, pose=pose), "right", d, c.part["top"]) for d in DEGREES)


# hinges and handles


@pytest.mark.parametrize("degs", [10, 30, 50])
@pytest.mark.parametrize("hung", ["left", "right"])
def test_cups_stand_by_the_height_of_their_own_edge_with_wood_all_round(hung, degs):
    c = eaves(f'hung = "{hung}"', degs=degs)
    (door,), part = c.doors, c.part["door"]
    left, right = (z for _, z in corners(part)[1::2])
    own = (left if hung == "left" else right) - END
    cups = [part.pose.to_cabinet(f.at) for f in part.features if f.id in {h.cup for h in door.hinges}]
    heights = sorted(z for _, _, z in cups)
    assert heights[0] == pytest.approx(END + 100, abs=20.1)
    lowered = 45 * tan(radians(degs)) if hung == "left" else 0.0  # so far in the slope has come down over a cup
    assert END + own - lowered - 100 - 0.2 <= heights[-1] <= END + own - lowered - 80 + 0.2
    for x, _, z in cups:
        over = left + (right - left) * (x - END) / (W - 2 * END)
        assert (over - z) * cos(radians(degs)) > 17.5 + 8
    carrier = c.part[f"{hung} side"]
    assert {h.carrier for h in door.hinges} == {carrier.id}


@pytest.mark.parametrize("hung", ["left", "right"])
def test_the_guide_is_asked_with_the_hinged_edge_and_the_weight_where_it_hangs(hung):
    """The centroid of a trapezoid lies w (a + 2b) / 3 (a + b) from its edge a (any handbook of plane figures)."""
    c = eaves(f'hung = "{hung}"', degs=40)
    (door,) = c.doors
    left, right = (z - END for _, z in corners(c.part["door"])[1::2])
    own, far = (left, right) if hung == "left" else (right, left)
    wide = W - 2 * END
    kg = wide * (own + far) / 2 * T * 680e-9
    off = wide * (own + 2 * far) / (3 * (own + far))
    assert door.kg == pytest.approx(kg, abs=1e-3)
    assert door.guide == guided(own, kg * max(1.0, off / (wide / 2)))
    assert len(door.hinges) == door.guide


def test_a_door_hung_on_the_short_edge_may_want_a_hinge_more_than_its_weight_alone_would():
    c = eaves('hung = "right"', degs=52, width=440)
    (door,) = c.doors
    own = corners(c.part["door"])[3][1] - END
    assert guided(own, door.kg) == 2
    assert door.guide == 3


def test_plates_keep_clear_of_the_sloping_top_where_it_comes_to_their_side():
    for hung in ("left", "right"):
        rod = set_out(text(f'hung = "{hung}"', degs=35), "eaves.toml")
        assert list(checks()["hinge-against-shelf"].look(rod)) == []
        (c,) = rod.cabinets
        for hinge in c.doors[0].hinges:
            side = c.part[hinge.carrier]
            x, _, z = side.pose.to_cabinet(next(f.at for f in side.features if f.id == hinge.plate[1]))
            assert z < H - x * tan(radians(35)) - T / cos(radians(35)) - 5


def test_a_plate_under_the_sloping_top_is_told():
    rod = set_out(text('hung = "left"', degs=35), "eaves.toml")
    (c,) = rod.cabinets
    side = c.part["left side"]
    plates = {p for h in c.doors[0].hinges for p in h.plate}
    raised = replace(
        side, features=tuple(replace(f, at=(f.at[0] - 100, *f.at[1:])) if f.id in plates else f for f in side.features)
    )
    wrong = replace(c, parts=tuple(raised if p.id == side.id else p for p in c.parts))
    found = list(checks()["hinge-against-shelf"].look(replace(rod, cabinets=(wrong,))))
    assert any("top" in f.where for f in found)


@pytest.mark.parametrize("hung", ["left", "right"])
@pytest.mark.parametrize("handle", [0, 160])
def test_a_handle_keeps_its_distance_under_the_slope(hung, handle):
    part = eaves(f'hung = "{hung}", handle = {handle}', degs=45).part["door"]
    left, right = (z for _, z in corners(part)[1::2])
    for f in (f for f in part.features if f.role == "handle"):
        x, _, z = part.pose.to_cabinet(f.at)
        assert left + (right - left) * (x - END) / (W - 2 * END) - z > 40


# sawing, edging, papers


@pytest.mark.parametrize("grain", ["up", "across"])
def test_it_is_sawn_before_edging_to_a_line_as_far_inside_as_the_edging_adds(grain):
    head = HEAD + EDGING.replace("thickness = 1.0", "thickness = 1.0\nmills = 0.4")
    edged = 'edging = { with = "birch", on = ["doors"] }'
    said = text(f'hung = "left", grain = "{grain}"', edged, degs=30, head=head)
    rod = set_out(said, "eaves.toml")
    assert [f.message for f in prove(rod)] == []
    door, lean, add = rod.cabinets[0].part["door"], radians(30), 1.0 - 0.4
    setup = next(s for s in rod.setups if s.tool == "saw, to a line" and any(d.part == "door" for d in s.features))
    reading = setup.features[0].along or setup.features[0].across
    raw = [H - x * tan(lean) - (END + add) / cos(lean) - (END + add) for x in (END + add, W - END - add)]
    assert sorted((reading.mm, reading.end_mm)) == pytest.approx(sorted(raw), abs=0.051)
    for change in ({"mm": reading.mm + 0.5}, {"end_mm": reading.end_mm - 0.5}):
        wrong = replace(reading, **change)
        done = replace(setup.features[0], **{"along" if setup.features[0].along else "across": wrong})
        setups = tuple(replace(s, features=(done,)) if s is setup else s for s in rod.setups)
        assert any("a mark of the line" in f.message for f in prove(replace(rod, setups=setups)))
    wide = W - 2 * END
    lengths = sorted(edge_length(door, e) for e in ("face_edge", "far_edge", "left_end", "right_end"))
    ends = [z - END for _, z in corners(door)[1::2]]
    assert lengths == pytest.approx(sorted([wide, *ends, hypot(wide, ends[0] - ends[1])]), abs=1e-3)


def test_its_page_tells_both_heights_the_angle_and_the_diagonals_and_its_front_is_drawn_as_cut():
    rod = set_out(text('hung = "pair", handle = 128', degs=30), "eaves.toml")
    door = rod.cabinets[0].part["left door"]
    (a, _), (_, z1), (_, _), (d, z3) = corners(door)
    page = next(p for p in board_pages(rod) if p.title.endswith("LEFT DOOR"))
    told = " ".join(s.text for s in page.shapes if isinstance(s, Text))
    wide, tall, short = d - a, z1 - END, z3 - END
    for number in (tall, short, hypot(wide, tall), hypot(wide, short)):
        assert any(f"{number:.{n}f}" in told for n in (1, 2)), number
    assert "30 degrees" in told
    (front,) = front_pages(rod)
    said = " ".join(s.text for s in front.shapes if isinstance(s, Text))
    assert "high at the left and" in said
    shapes = [s for s in front.shapes if isinstance(s, Path_) and s.closed and s.fill == "white"]
    assert len(shapes) == 2
    for s in shapes:
        xs = [x for x, _ in s.points]
        tops = sorted(max(y for x, y in s.points if abs(x - at) < 1e-6) for at in (min(xs), max(xs)))
        assert (tops[1] - tops[0]) / (max(xs) - min(xs)) == pytest.approx(tan(radians(30)), rel=1e-3)


@pytest.mark.parametrize("hung", ["left", "right"])
@pytest.mark.parametrize("degs", [15, 40])
def test_its_mark_stands_clear_of_the_lines_that_say_how_it_opens(hung, degs):
    (front,) = front_pages(set_out(text(f'hung = "{hung}"', degs=degs), "eaves.toml"))
    (mark,) = (s for s in front.shapes if isinstance(s, Text) and s.bold and s.text.endswith("-DR"))
    half = text_width(mark.text, mark.size, True) / 2
    dashed = [s for s in front.shapes if isinstance(s, Path_) and s.pen == HIDDEN]
    assert len(dashed) == 2
    for (ax, ay), (bx, by) in (s.points for s in dashed):
        for x in (mark.at[0] - half, mark.at[0], mark.at[0] + half):
            y = ay + (by - ay) * (x - ax) / (bx - ax)
            assert not mark.at[1] - 0.2 * mark.size <= y <= mark.at[1] + 0.8 * mark.size


def test_the_cutting_plan_takes_the_box_round_it_and_every_station_an_answer():
    rod = set_out(text('hung = "left"', "fixed_shelves = 1", degs=30), "eaves.toml")
    plan = cutting(rod, steps=20)
    mark = rod.cabinets[0].part["door"].marks[0]
    (sawn,) = (p for board in plan.boards for s in board.sheets for p in s.sawn if mark in p.marks)
    assert sorted(rod.cabinets[0].part["door"].cut) == pytest.approx(sorted(rod.cabinets[0].part["door"].size[:2]))
    assert sawn.marks
    assert load(rod).cabinets[0].shelves
    assert 0.0 <= dry_fit(rod, samples=40).cabinets[0].chance <= 1.0


# what cannot be


@pytest.mark.parametrize(("doors", "lines", "said"), [
    ('hung = "up"', (), "no level edge to lift up from"),
    ('hung = "left", bought = { height = 715, width = 696, cups_from_ends = 98, cups_from_edge = 21.5 }', (), "cannot be cut to the slope"),
    ('hung = "left"', ("fronts_on_grid = true",), "lies on no line of the grid"),
    ('hung = "left", ends = 1200', (), "ends"),
    ('hung = "left", style = "slanted"', (), "style"),
    ('hung = "low"', (), "hung"),
])  # fmt: skip
def test_what_cannot_be_cut_so_is_refused_with_a_way_out(doors, lines, said):
    with pytest.raises(JobFaults) as problem:
        set_out(text(doors, *lines), "eaves.toml")
    told = " ".join(f"{f.what} {f.mend}" for f in problem.value.faults)
    assert said in told, told
    assert all(f.line is not None and f.mend for f in problem.value.faults)


def test_an_edge_too_short_for_two_hinges_is_refused_and_the_tall_one_is_not():
    steep = {"degs": 59, "width": 800}
    with pytest.raises(JobFaults) as problem:
        set_out(text('hung = "right"', **steep), "eaves.toml")
    assert "along its hinged edge, too short for two hinges" in problem.value.faults[0].what
    assert eaves('hung = "left"', **steep).doors[0].hinged == "left"
