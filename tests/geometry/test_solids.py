"""The solid of a board has the volume that school geometry gives, and boards of a cabinet share no wood."""

import os
import subprocess
import sys
from dataclasses import replace
from math import isclose, tan
from pathlib import Path

import pytest
from hypothesis import given, settings

from rodwork.documents.solids import board_shape, cabinet_solids, part_mesh, part_solid, volume_mm3
from rodwork.model.feature import Countersink
from tests.geometry.formulas import disc, part_volume, polygon
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps, placed
from tests.geometry.sample_boards import DOWN, X, Y, Z, board, bore, glaze, groove, handed, machined_boards, rebate

NOTCHED = ((0.0, 0.0), (600.0, 0.0), (600.0, 300.0), (12.0, 300.0), (12.0, 280.0), (0.0, 280.0))


@settings(max_examples=60, deadline=None)
@given(part=machined_boards())
def test_a_board_weighs_its_outline_less_each_of_its_features(part):
    for segments in (16, 32):
        assert part_solid(part, segments).volume() == pytest.approx(part_volume(part, segments), rel=1e-6)


@settings(max_examples=10, deadline=None)
@given(part=machined_boards())
def test_many_flats_come_to_true_cylinders(part):
    blank = polygon(part.outline) * part.size[2]
    taken = blank - part_volume(part, None)
    assert blank - part_solid(part, 720).volume() == pytest.approx(taken, rel=2e-5)


@pytest.mark.parametrize("part", glaze().cabinets[0].parts, ids=lambda part: part.id)
def test_the_glaze_cupboard_weighs_what_the_formulas_say(part):
    assert part_solid(part).volume() == pytest.approx(part_volume(part, 16), rel=1e-9)
    true = part_volume(part, None)
    assert 0 <= part_solid(part).volume() / true - 1 < 1.1e-4, "16 flats leave a little wood that a drill takes"
    assert part_solid(part, 720).volume() == pytest.approx(true, rel=1e-6)


@settings(max_examples=30, deadline=None)
@given(part=machined_boards())
def test_the_triangles_are_closed_and_hold_the_same_volume(part):
    mesh = part_mesh(part)
    assert_closed(mesh)
    assert volume_mm3(mesh) == pytest.approx(part_solid(part).volume(), rel=1e-9)
    for axis, size in enumerate(part.size):
        assert (min(p[axis] for p in mesh.points), max(p[axis] for p in mesh.points)) == (0.0, size)


def assert_closed(mesh):
    """Every edge is walked once each way: no hole, no flap, no triangle turned inside out."""
    edges = {(t[i], t[(i + 1) % 3]) for t in mesh.triangles for i in range(3)}
    assert len(edges) == 3 * len(mesh.triangles)
    assert all((b, a) in edges for a, b in edges)


def removed(*features, segments=16, **how):
    part = board(*features, **how)
    return polygon(part.outline) * part.size[2] - part_solid(part, segments).volume()


def test_a_countersink_takes_the_cone_beside_the_hole():
    through = {"at": (100.0, 100.0, 0.0), "into": Z, "depth": 18.0, "diameter": 4.5, "through": True}
    plain = removed(bore(**through))
    sunk = removed(bore(**through, countersink=Countersink(diameter=9.0, angle=90.0)))
    a, A = disc(2.25, 16), disc(4.5, 16)
    assert sunk - plain == pytest.approx(2.25 / 3 * (A + (A * a) ** 0.5 + a) - 2.25 * a, rel=1e-9)


def test_a_counterbore_on_the_same_axis_counts_once():
    hole = bore(id="hole", at=(100.0, 100.0, 0.0), into=Z, depth=18.0, diameter=4.5, through=True)
    plug = bore(id="plug", at=(100.0, 100.0, 0.0), into=Z, depth=8.0, diameter=10.0)
    assert removed(hole, plug) == pytest.approx(disc(5, 16) * 8 + disc(2.25, 16) * 10, rel=1e-9)


def test_a_hole_through_the_floor_of_a_housing_goes_right_through():
    housing = groove(id="h", at=(100.0, 150.0, 18.0), along=Y, depth=6.0, width=17.6, length=300.0, ends="open")
    hole = bore(id="hole", at=(100.0, 150.0, 0.0), into=Z, depth=12.0, diameter=4.5, through=True)
    assert removed(housing, hole) == pytest.approx(6 * 17.6 * 300 + disc(2.25, 16) * 12, rel=1e-9)


def test_a_groove_that_crosses_a_housing_counts_the_crossing_once():
    housing = groove(id="h", at=(100.0, 150.0, 18.0), along=Y, depth=6.0, width=18.0, length=300.0, ends="open")
    back = groove(id="b", at=(300.0, 290.0, 18.0), depth=8.0, width=6.0, length=600.0, ends="open")
    assert removed(housing, back) == pytest.approx(6 * 18 * 300 + 8 * 6 * 600 - 6 * 6 * 18, rel=1e-9)


def test_round_ends_lie_within_the_length_and_square_ends_fill_it():
    how = {"at": (300.0, 150.0, 18.0), "depth": 5.0, "width": 20.0, "length": 200.0, "end_radius": 3.0}
    full = 200 * 20 * 5.0
    corner = 9 - disc(3, 64) / 4
    taken = {ends: removed(groove(**how, ends=ends), segments=64) for ends in ("square", "round", ("round", "square"))}
    assert taken["square"] == pytest.approx(full, rel=1e-9)
    assert taken["round"] == pytest.approx(full - 4 * corner * 5, rel=1e-9)
    assert taken["round", "square"] == pytest.approx(full - 2 * corner * 5, rel=1e-9)


def test_which_end_is_round_follows_along():
    part = board(
        groove(at=(300.0, 150.0, 18.0), along=(-1.0, 0.0, 0.0), depth=5.0, width=6.0, length=200.0,
               ends=("square", "round"), end_radius=3.0),
    )  # fmt: skip
    on_floor = [p for p in part_mesh(part).points if isclose(p[2], 13.0)]
    assert sum(isclose(p[0], 400.0) for p in on_floor) == 2, "square at -along, which is the right"
    assert sum(isclose(p[0], 200.0) for p in on_floor) == 1, "round at +along, which is the left"


@pytest.mark.parametrize("back", [Y, X, (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0)])
def test_a_rebate_has_no_wall_on_the_side_of_the_edge_whichever_way_it_runs(back):
    lengthwise = back[0] != 0.0
    at = (300.0, 295.5, 18.0) if lengthwise else (595.5, 150.0, 18.0)
    length = 600.0 if lengthwise else 300.0
    part = board(rebate(at=at, along=back, depth=8.0, width=9.0, length=length, ends="open"))
    assert 600 * 300 * 18 - part_solid(part).volume() == pytest.approx(8 * 9 * length, rel=1e-9)
    assert part_solid(part).genus() == 0
    assert len(part_mesh(part).points) == 12, "an L, twice: no skin is left standing on the edge"


@pytest.mark.parametrize("dust", [0.0, 1e-7, -1e-7, 1e-13, -1e-13])
def test_the_dust_of_arithmetic_leaves_no_skin_where_a_rebate_meets_the_edge(dust):
    width = 16.0 + dust
    part = board(rebate(at=(300.0, 586.5 - 8.0, 18.0), depth=8.0, width=width, length=600.0, ends="open"),
                 size=(600.0, 586.5, 18.0))  # fmt: skip
    assert len(part_mesh(part).points) == 12


def test_a_stopped_rebate_in_a_notched_board_leaves_the_notch_alone():
    part = board(
        rebate(at=(306.0, 295.0, 18.0), depth=8.0, width=10.0, length=588.0, ends=("square", "open")),
        outline=NOTCHED,
    )
    assert polygon(NOTCHED) * 18 - part_solid(part).volume() == pytest.approx(8 * 10 * 588, rel=1e-9)


def test_bevelled_edges_give_the_volume_of_a_prismatoid():
    # on the face side 600 x 260, and each bevel lies T tan(b) further out on the back side
    front, right = 18 * tan(45 * 3.141592653589793 / 180), 18 * tan(30 * 3.141592653589793 / 180)
    part = board(
        size=(600.0 + right, 260.0 + front, 18.0),
        outline=((0.0, front), (600.0, front), (600.0, 260.0 + front), (0.0, 260.0 + front)),
        bevels=(45.0, 30.0, 0.0, 0.0),
    )
    area = [(600 + right * k / 2) * (260 + front * k / 2) for k in range(3)]
    assert part_solid(part).volume() == pytest.approx(18 / 6 * (area[0] + 4 * area[1] + area[2]), rel=1e-12)
    low = [p for p in part_mesh(part).points if p[2] == 0.0]
    assert min(p[1] for p in low) == pytest.approx(0.0, abs=1e-9)
    assert max(p[0] for p in low) == pytest.approx(600 + right)


def test_equal_boards_are_one_mesh_whatever_they_are_called():
    cabinet = glaze().cabinets[0]
    top, bottom = cabinet.part["top"], cabinet.part["bottom"]
    assert part_mesh(top) is part_mesh(bottom)
    assert board_shape(top) == board_shape(replace(top, features=top.features[::-1], name="other"))


def test_the_left_side_is_the_mirror_of_the_right_and_not_the_same_board():
    cabinet = handed(glaze().cabinets[0])
    left, right = cabinet.part["left side"], cabinet.part["right side"]
    mirrored = part_solid(right).mirror((1, 0, 0)).translate((right.size[0], 0, 0))
    assert (part_solid(left) - mirrored).volume() < 1e-6
    assert (mirrored - part_solid(left)).volume() < 1e-6
    six_pins = 6 * 12 * disc(2.5, 16)
    assert (part_solid(left) - part_solid(right)).volume() == pytest.approx(six_pins, rel=1e-9)
    assert part_mesh(left) is not part_mesh(right)


def test_a_cabinet_stands_in_its_own_size():
    cabinet = glaze().cabinets[0]
    points = [p for solid in cabinet_solids(cabinet) for p in solid.mesh.points]
    width, height, depth = cabinet.size
    assert tuple(min(p[i] for p in points) for i in range(3)) == (0.0, 0.0, 0.0)
    assert tuple(max(p[i] for p in points) for i in range(3)) == (width, depth, height)


def test_boards_in_the_cabinet_frame_are_those_of_the_part_frame_moved_by_the_pose():
    cabinet = glaze().cabinets[0]
    for solid in cabinet_solids(cabinet):
        stood = placed(part_solid(solid.part), solid.part.pose)
        assert volume_mm3(solid.mesh) == pytest.approx(stood.volume(), rel=1e-9)
        box = stood.bounding_box()
        assert [min(p[i] for p in solid.mesh.points) for i in range(3)] == pytest.approx(box[:3], abs=1e-6)


def test_no_two_boards_of_the_glaze_cupboard_share_wood_and_every_dowel_goes_home():
    cabinet = glaze().cabinets[0]
    assert overlaps(cabinet) == []
    assert connectors_that_do_not_go_home(cabinet) == []


def with_part(cabinet, changed):
    return replace(cabinet, parts=tuple(changed if p.id == changed.id else p for p in cabinet.parts))


def test_a_back_without_its_grooves_is_seen_to_share_wood_with_four_boards():
    cabinet = glaze().cabinets[0]
    for name in ("left side", "right side", "top", "bottom"):
        part = cabinet.part[name]
        cabinet = with_part(cabinet, replace(part, features=tuple(f for f in part.features if f.kind == "bore")))
    found = {(o.first, o.second): o.mm3 for o in overlaps(cabinet)}
    assert set(found) == {(name, "back") for name in ("left side", "right side", "top", "bottom")}
    assert found["left side", "back"] == pytest.approx(5.5 * 5.8 * 695.8), "it goes 5.5 into the side"
    pairs = [(name, "back") for name in ("left side", "right side")]
    assert {o.first for o in overlaps(cabinet, declared=pairs)} == {"top", "bottom"}


def test_a_hundredth_of_overlap_is_found_and_a_touch_is_not():
    cabinet = glaze().cabinets[0]
    shelf = cabinet.part["fixed shelf"]
    for shift, shared in ((0.0, 0.0), (0.01, 0.01 * 296 * 17.6)):
        x, y, z = shelf.pose.origin
        moved = with_part(cabinet, replace(shelf, pose=replace(shelf.pose, origin=(x + shift, y, z))))
        found = overlaps(moved)
        assert sum(o.mm3 for o in found) == pytest.approx(shared, rel=0.1)
        assert [(o.first, o.second) for o in found] == ([("right side", "fixed shelf")] if shift else [])


def test_a_dowel_too_long_for_its_bores_is_found_in_the_board_it_would_burst():
    cabinet = glaze().cabinets[0]
    top = cabinet.part["top"]
    first = next(f for f in top.features if f.id == "left side / top 1g")
    shallow = replace(first, depth=17.0, tip=0.0)  # 12 + 17 for a dowel of 30
    shorter = replace(top, features=tuple(shallow if f is first else f for f in top.features))
    found = connectors_that_do_not_go_home(with_part(cabinet, shorter))
    assert [(o.first, o.second) for o in found] == [("left side / top 1", "top")]
    assert found[0].mm3 == pytest.approx(disc(4, 16) * 1.0)


def test_a_bore_a_tenth_out_of_line_stops_its_dowel():
    cabinet = glaze().cabinets[0]
    side = cabinet.part["left side"]
    first = side.features[0]
    off = replace(first, at=(first.at[0], first.at[1] + 0.1, first.at[2]))
    found = connectors_that_do_not_go_home(with_part(cabinet, replace(side, features=(off, *side.features[1:]))))
    assert [(o.first, o.second) for o in found] == [("left side / top 1", "top")]


def test_a_number_of_flats_that_has_no_corner_on_each_axis_is_refused():
    with pytest.raises(ValueError, match="multiple of four"):
        part_solid(board(), segments=10)


def test_machining_without_a_solid_is_named():
    odd = replace(bore(id="odd one", at=(1.0, 1.0, 18.0), depth=3.0, diameter=2.0))
    feature = type(odd).__mro__[1](
        id="odd one", role="seat", joint=None, stage="after edging", at=odd.at, into=DOWN, along=X, depth=3.0
    )
    with pytest.raises(ValueError, match="odd one"):
        part_solid(board(feature))


def test_the_same_board_gives_the_same_triangles_in_another_process():
    code = (
        "import hashlib, sys; sys.path.insert(0, sys.argv[1]); from tests.geometry.sample_boards import glaze;"
        "from rodwork.documents.solids import cabinet_solids;"
        "print(hashlib.sha256(repr([s.mesh for s in cabinet_solids(glaze().cabinets[0])]).encode()).hexdigest())"
    )
    run = [sys.executable, "-c", code, str(Path(__file__).parents[2])]
    seeds = [{**os.environ, "PYTHONHASHSEED": str(n)} for n in (1, 2)]
    first, second = (subprocess.run(run, env=env, capture_output=True, text=True, check=True).stdout for env in seeds)
    assert first == second
    assert len(first.strip()) == 64
