"""Bores and channels that meet inside a board: geometry against distances worked by hand; limits common practice."""

from dataclasses import replace
from math import cos, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rodwork.checks.kinds import machining_that_meets
from rodwork.checks.shapes import Room, rooms_of, wood_between
from rodwork.model.feature import Undercut
from tests.building import back, cabinet, job, recipe, rod, rod_of
from tests.checks.shop import DOWN, IN, LEFT, OUT, RIGHT, UP, board, bore, channel, rebate, rod_of_boards, told

CODE = "machining-that-meets"


def wood(a, b):
    return min(wood_between(r, s) for r in rooms_of(a) for s in rooms_of(b))


# --- the wood between two, by hand -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("a", "b", "between"),
    [
        # side by side: centres 20 apart, radii 4 and 2.5
        (bore("a", (100.0, 50.0, 18.0)), bore("b", (100.0, 70.0, 18.0), diameter=5.0), 13.5),
        # on a slant: 3-4-5
        (bore("a", (100.0, 50.0, 18.0)), bore("b", (106.0, 58.0, 18.0)), 2.0),
        # from both faces on one axis: 18 - 8 - 7
        (bore("a", (100.0, 50.0, 18.0), depth=8.0), bore("b", (100.0, 50.0, 0.0), into=UP, depth=7.0), 3.0),
        # the point of the bit counts
        (bore("a", (100.0, 50.0, 18.0), depth=8.0, tip=2.0), bore("b", (100.0, 50.0, 0.0), into=UP, depth=7.0), 1.0),
        # from both faces, beside each other and past each other: 10 between centres, radii 4 and 4
        (bore("a", (100.0, 50.0, 18.0), depth=12.0), bore("b", (100.0, 60.0, 0.0), into=UP, depth=12.0), 2.0),
        # past each other on a slant: 2 sideways from the rim, 3 - 4 - 5 down to the corner of the other's rim
        (bore("a", (100.0, 50.0, 18.0), depth=5.0), bore("b", (100.0, 62.0, 0.0), into=UP, depth=10.0), 5.0),
        # a bore in the end under one in the face: 18 - 4 - (9 + 4)
        (bore("a", (10.0, 50.0, 18.0), depth=4.0), bore("b", (0.0, 50.0, 9.0), into=RIGHT, depth=20.0), 1.0),
        # the same, the bore in the end stops 3 short of it
        (bore("a", (10.0, 50.0, 18.0), depth=12.0), bore("b", (0.0, 50.0, 9.0), into=RIGHT, depth=3.0), 3.0),
        # from an end and an edge, crossing over each other: 9 + 2 and 13 - 1.5
        (bore("a", (0.0, 20.0, 9.0), into=RIGHT, depth=30.0, diameter=4.0),
         bore("b", (15.0, 0.0, 13.0), into=IN, depth=30.0, diameter=3.0), 0.5),
        # from both ends of a narrow board: 60 - 28 - 29.5
        (bore("a", (0.0, 20.0, 9.0), into=RIGHT, depth=28.0), bore("b", (60.0, 20.0, 9.0), into=LEFT, depth=29.5), 2.5),
        # to the wall of a groove: 296 - 280 - 4
        (bore("a", (100.0, 280.0, 18.0)), channel("g", (360.0, 299.0, 18.0), 6.0, 6.0, 700.0), 12.0),
        # under the bottom of a groove: 18 - 6 - 8
        (bore("a", (100.0, 299.0, 0.0), into=UP, depth=8.0), channel("g", (360.0, 299.0, 18.0), 6.0, 6.0, 700.0), 4.0),
        # a bore in the back edge towards the groove: 320 - 17 - 302
        (bore("a", (100.0, 320.0, 14.0), into=OUT, depth=17.0, diameter=3.0),
         channel("g", (360.0, 299.0, 18.0), 6.0, 6.0, 700.0), 1.0),
        # beyond the round end of a groove, on its middle line: 110 - 4 - 100
        (bore("a", (110.0, 50.0, 18.0)), channel("g", (50.0, 50.0, 18.0), 6.0, 6.0, 100.0, ends="round", end_radius=3.0), 6.0),
        # and off it, on a slant from the middle of the rounding at 97, 50: 30-40-50 less 3 and 4
        (bore("a", (127.0, 90.0, 18.0)), channel("g", (50.0, 50.0, 18.0), 6.0, 6.0, 100.0, ends="round", end_radius=3.0), 43.0),
        # a square end has its corner at 100, 53
        (bore("a", (130.0, 93.0, 18.0)), channel("g", (50.0, 50.0, 18.0), 6.0, 6.0, 100.0), 46.0),
        # two grooves: 60 - 2 - 53
        (channel("g", (50.0, 60.0, 18.0), 6.0, 4.0, 100.0), channel("k", (50.0, 50.0, 18.0), 6.0, 6.0, 100.0), 5.0),
        # back to back: 18 - 6 - 7
        (channel("g", (50.0, 50.0, 18.0), 6.0, 4.0, 100.0), channel("k", (50.0, 50.0, 0.0), 7.0, 6.0, 100.0, into=UP), 5.0),
        # the head of a screw is wider than its bore: 20 - 4 - 5
        (bore("a", (100.0, 50.0, 18.0), diameter=4.0, head=8.0), bore("b", (100.0, 70.0, 18.0), diameter=10.0), 11.0),
        # but not where it is no longer: from the other face, under the head, 20 - 2 - 5
        (bore("a", (100.0, 50.0, 18.0), diameter=4.0, head=8.0, depth=18.0),
         bore("b", (100.0, 70.0, 0.0), into=UP, diameter=10.0, depth=4.0), 13.0),
    ],
)  # fmt: skip
def test_wood_between_by_hand(a, b, between):
    assert wood(a, b) == pytest.approx(between, abs=1e-6)
    assert wood(b, a) == pytest.approx(between, abs=1e-6)


def test_two_that_cut_each_other_have_no_wood_between():
    assert wood(bore("a", (10.0, 50.0, 18.0)), bore("b", (0.0, 50.0, 9.0), into=RIGHT, depth=20.0)) < 1e-6
    assert wood(bore("a", (10.0, 50.0, 18.0)), bore("b", (10.0, 55.0, 18.0))) < 1e-6


def points_of(room, n=9):
    """Points all over a bore, worked out from its own centre line: independent of how distances are found."""
    i, j = (k for k in range(3) if k != room.axis)
    for t in range(n):
        for ring in (0.0, 0.5, 1.0):
            for turn in range(16):
                p = [0.0, 0.0, 0.0]
                p[room.axis] = room.low[room.axis] + (room.high[room.axis] - room.low[room.axis]) * t / (n - 1)
                p[i] = room.low[i] + ring * room.radius * cos(radians(22.5 * turn))
                p[j] = room.low[j] + ring * room.radius * sin(radians(22.5 * turn))
                yield tuple(p)


anywhere = st.tuples(st.floats(0, 30), st.floats(0, 30), st.floats(0, 18))
ways = st.sampled_from([DOWN, UP, RIGHT, LEFT, IN, OUT])
bores = st.builds(
    lambda at, into, depth, diameter: bore("a", at, into=into, depth=depth, diameter=diameter),
    anywhere, ways, st.floats(1, 30), st.floats(2, 12),
)  # fmt: skip


@settings(max_examples=60, deadline=None, derandomize=True)
@given(bores, bores)
def test_no_two_points_of_two_bores_are_nearer_than_the_wood_between_them(a, b):
    room_a, room_b = rooms_of(a)[0], rooms_of(b)[0]
    gap = wood_between(room_a, room_b)
    assert gap == pytest.approx(wood_between(room_b, room_a), abs=1e-3)
    nearest = min(
        sum((p - q) ** 2 for p, q in zip(u, v, strict=True)) ** 0.5
        for u in points_of(room_a, 5)
        for v in (room_b.nearest(u),)
    )
    assert nearest >= gap - 1e-3
    assert nearest <= gap + 12.0  # and the points are not all far away


@settings(max_examples=60, deadline=None, derandomize=True)
@given(anywhere, ways, bores)
def test_the_nearest_point_is_in_the_bore_and_none_of_its_points_is_nearer(p, into, b):
    room = rooms_of(b)[0]
    near = room.nearest(p)
    assert room.nearest(near) == pytest.approx(near, abs=1e-9)
    to = lambda q: sum((x - y) ** 2 for x, y in zip(p, q, strict=True))  # noqa: E731
    assert all(to(near) <= to(q) + 1e-6 for q in points_of(room))


# --- what the check makes of it ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("apart", "severity"),
    [(11.0, None), (10.99, "warning"), (9.0, "warning"), (8.98, "fault"), (8.0, "fault"), (3.0, "fault")],
)
def test_three_of_wood_are_least_and_one_is_none(apart, severity):
    part = board(bore("a", (100.0, 50.0, 18.0)), bore("b", (100.0, 50.0 + apart, 18.0)))
    assert [f.severity for f in told(CODE, rod_of_boards(part))] == ([severity] if severity else [])


@pytest.mark.parametrize("pointed", ["a", "b"])
def test_points_that_nearly_meet_are_found_though_the_bores_are_far_apart(pointed):
    """20 less 8 less 8 is plenty; a point of 2 leaves 2."""
    a = bore("a", (100.0, 50.0, 20.0), depth=8.0, tip=2.0 if pointed == "a" else 0.0)
    b = bore("b", (100.0, 50.0, 0.0), into=UP, depth=8.0, tip=2.0 if pointed == "b" else 0.0)
    (found,) = told(CODE, rod_of_boards(board(a, b, size=(720.0, 320.0, 20.0))))
    assert "leave 2 of board" in found.message


def test_bores_are_found_wherever_they_stand_in_the_order():
    """A long groove is met by the last bore as by the first."""
    holes = [bore(f"b{n}", (20.0 + 30 * n, 100.0, 18.0)) for n in range(20)]
    groove = channel("g", (360.0, 106.0, 18.0), 6.0, 6.0, 720.0)
    for features in ((groove, *holes), (*holes, groove)):
        (found,) = told(CODE, rod_of_boards(board(*features)))
        assert {f"b{n}" for n in range(20)} <= set(found.where)
        assert "in 20 places" in found.message


def test_one_joint_is_one():
    """Counterbore and clearance on one axis, a screw through its own housing: no trouble."""
    plug = bore("p", (9.0, 50.0, 0.0), into=UP, depth=8.0, diameter=10.0, role="access", joint="j")
    clear = bore("c", (9.0, 50.0, 0.0), into=UP, depth=18.0, diameter=4.5, through=True, role="clearance", joint="j")
    house = channel("h", (9.0, 160.0, 18.0), 6.0, 18.0, 300.0, along=IN, joint="j")
    assert told(CODE, rod_of_boards(board(plug, clear, house))) == []
    other = replace(clear, joint="k")
    assert len(told(CODE, rod_of_boards(board(plug, other)))) == 1
    nobody_s = replace(clear, joint=None)
    assert len(told(CODE, rod_of_boards(board(replace(plug, joint=None), nobody_s)))) == 1


def test_a_housing_that_runs_out_into_the_back_groove_is_meant_to():
    groove = channel("g", (360.0, 299.0, 18.0), 6.0, 6.0, 720.0, joint="back")
    into_it = channel("h", (300.0, 153.0, 18.0), 6.0, 18.0, 286.0, along=IN, ends=("round", "open"), joint="shelf")
    short = channel(
        "h", (300.0, 152.0, 18.0), 6.0, 18.0, 286.0, along=IN, ends=("round", "round"), end_radius=3.0, joint="shelf"
    )
    assert told(CODE, rod_of_boards(board(groove, into_it))) == []
    (found,) = told(CODE, rod_of_boards(board(groove, short)))
    assert found.severity == "warning"  # 296 - 295
    across = channel("h", (300.0, 160.0, 18.0), 6.0, 18.0, 320.0, along=IN, joint="shelf")
    assert len(told(CODE, rod_of_boards(board(groove, across)))) == 1
    behind = replace(into_it, at=(300.0, 153.0, 0.0), into=UP, depth=13.0)
    assert len(told(CODE, rod_of_boards(board(groove, behind)))) == 1


def test_equal_boards_are_looked_at_once_and_named_together(monkeypatch):
    looked = []
    real = machining_that_meets._taken
    monkeypatch.setattr(machining_that_meets, "_taken", lambda part: looked.append(part.id) or real(part))
    two = (bore("a", (100.0, 50.0, 18.0)), bore("b", (100.0, 60.0, 18.0)))
    (found,) = told(CODE, rod_of_boards(board(*two), board(*two, id="right side", same_as="left side")))
    assert looked == ["left side"]
    assert found.message.startswith("Left side and right side: a bore and another leave 2 of board between them")


def test_mends_are_numbers_that_work():
    """Each mend is carried out and found sound."""
    near = (bore("a", (100.0, 50.0, 18.0)), bore("b", (100.0, 60.0, 18.0)))
    (found,) = told(CODE, rod_of_boards(board(*near)))
    assert found.mend == "Stand them at least 11 apart, centre to centre."
    assert told(CODE, rod_of_boards(board(near[0], replace(near[1], at=(100.0, 61.0, 18.0))))) == []

    facing = (bore("a", (100.0, 50.0, 22.0), tip=2.0), bore("b", (100.0, 50.0, 0.0), into=UP, tip=2.0))
    thick = {"size": (720.0, 320.0, 22.0)}
    (found,) = told(CODE, rod_of_boards(board(*facing, **thick)))
    assert found.mend == "Stand them at least 11 apart, centre to centre, or bore both no deeper than 7.5."
    assert told(CODE, rod_of_boards(board(*(replace(f, depth=7.5) for f in facing), **thick))) == []
    thin = tuple(replace(f, at=(*f.at[:2], min(f.at[2], 17.6))) for f in facing)
    (found,) = told(CODE, rod_of_boards(board(*thin, size=(720.0, 320.0, 17.6))))
    assert found.mend == "Stand them at least 11 apart, centre to centre."  # 5.3 deep would hold nothing

    square = (bore("a", (10.0, 50.0, 18.0), depth=12.0), bore("b", (0.0, 50.0, 9.0), into=RIGHT, depth=4.0))
    (found,) = told(CODE, rod_of_boards(board(*square)))
    assert found.mend == "Move one of them at least 1 away from the other, or make it less deep."
    assert told(CODE, rod_of_boards(board(replace(square[0], at=(11.0, 50.0, 18.0)), square[1]))) == []


def test_it_says_where_from_the_front_and_the_bottom():
    (found,) = told(
        CODE, rod_of_boards(board(bore("a", (100.0, 50.0, 18.0)), rebate("r", (360.0, 57.0, 18.0), 6.0, 6.0, 700.0)))
    )
    assert (
        found.message
        == "Left side: a bore and a rebate cut into each other, 50 from the front edge and 620 from the bottom end."
    )
    in_end = board(bore("a", (0.0, 50.0, 9.0), into=RIGHT), bore("b", (0.0, 60.0, 9.0), into=RIGHT))
    (found,) = told(CODE, rod_of_boards(in_end))
    assert found.message.endswith("in the top end 50 from the front edge.")


def test_ordinary_cabinets_have_nothing_that_meets():
    for style in ("grooved all round", "grooved in the sides", "rebated", "rebated in the sides"):
        for shelf in ("dowel", "screw", "housing"):
            made = rod(back=back(style), shelf_joint=recipe(shelf), openings=("rest",) * 3)
            assert told(CODE, made) == [], (style, shelf)


def test_a_screw_of_a_planted_back_that_comes_behind_a_housing_is_found():
    made = rod(back=back("planted"), shelf_joint=recipe("housing"), openings=("rest",) * 3)
    (found,) = told(CODE, made)
    assert found.message.startswith(
        "Left side and right side: a screw pilot for the back and a housing for a fixed shelf leave "
    )
    assert "in the back edge" in found.message


def test_shelves_on_both_faces_of_a_divider_meet_in_it():
    """Two housings 9 deep at one height want 18 of a board of 17.6."""
    deep = recipe(("housing", {"depth_mm": 9.0}))
    made = rod_of(job(cabinet(width_mm=1200.0, bays=("rest", "rest"), shelf_joint=deep)))
    faults = [f for f in told(CODE, made) if f.severity == "fault"]
    assert any("Divider: a housing for a fixed shelf and another cut into each other" in f.message for f in faults)
    assert all(f.where[0] == "divider" for f in faults)


def undercut(id, z, into, x=100.0, depth=8.0):
    """A slot that a disc of 100 cuts in a face, 9 wide over the last 2 of its depth."""
    return Undercut(
        id=id, role="seat", joint=id, at=(x, 50.0, z), into=into, along=IN, depth=depth, cutter_radius=50.0, thickness=7.0,
        root_width=9.0, root_depth=2.0,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("thickness", "aside", "severity"),
    [
        (18.0, 0.0, "warning"),  # 18 - 8 - 8 leaves 2
        (19.0, 0.0, None),  # 3
        (15.0, 0.0, "fault"),  # they cut into each other
        (15.0, 9.5, "fault"),  # beside each other: 9.5 less half of 9 twice leaves 0.5 where they pass each other
        (15.0, 10.0, "warning"),  # 1
        (15.0, 12.0, None),  # 3
    ],
)
def test_two_connectors_that_meet_through_a_divider_are_told(thickness, aside, severity):
    a, b = undercut("left", thickness, DOWN), undercut("right", 0.0, UP, x=100.0 + aside)
    found = told(CODE, rod_of_boards(board(a, b, size=(720.0, 320.0, thickness))))
    assert [f.severity for f in found] == ([severity] if severity else [])


@pytest.mark.parametrize("family", ["quarter-turn connector", "clip-in connector", "cam", "tenon-and-bolt fitting"])
def test_shelves_at_one_height_on_both_faces_of_a_divider_keep_their_fittings_apart(family):
    """The rows are moved by themselves; put back to where the first stands, they meet and are told."""
    made = rod_of(job(cabinet(width_mm=1200.0, depth_mm=420.0, bays=("rest", "rest"), shelf_joint=recipe(family))))
    assert [f for f in told(CODE, made) if f.severity == "fault"] == []
    divider = made.cabinets[0].part["divider"]
    seats = [f for f in divider.features if f.joint and "fixed shelf" in f.joint and f.role == "seat"]
    left = [f for f in seats if f.into[2] < 0]
    facing = [
        replace(f, id=f"{f.id} moved", joint="other", at=(f.at[0], f.at[1], 0.0), into=UP) for f in left[:1]
    ]  # the twin of the first, from the other face
    both = replace(divider, features=(*left, *facing))
    wood_left = divider.size[2] - 2 * left[0].depth
    found = told(CODE, rod_of_boards(both))
    assert len(found) == (1 if wood_left < 3.0 else 0)
    assert len(found) == (0 if family == "cam" and wood_left >= 3.0 else 1)


def test_pins_too_near_the_back_groove():
    from rodwork.model.job import Pins

    assert told(CODE, rod(pins=Pins(back_mm=16.0))) == []
    # the groove's wall stands at 296, the row at 296 - 4, its radius is 2.5
    (found,) = told(CODE, rod(pins=Pins(back_mm=4.0)))
    assert found.severity == "warning"
    assert found.message.startswith("Left side and right side: a shelf-pin bore and the back groove leave 1.5 of board")
    assert [f.severity for f in told(CODE, rod(pins=Pins(back_mm=1.5)))] == ["fault"]


def test_a_room_is_where_its_bore_is():
    assert rooms_of(bore("a", (10.0, 20.0, 18.0), depth=12.0, diameter=8.0)) == (
        Room(2, (10.0, 20.0, 6.0), (10.0, 20.0, 18.0), 4.0),
    )


@pytest.mark.parametrize("style", ["grooved all round", "grooved in the sides"])
def test_a_tongue_may_run_out_past_the_back_groove_at_a_corner(style):
    """Its groove crosses the back groove squarely where the board ends: nothing is held there that could break out."""
    made = rod(corner_joint=recipe("tongue"), back=back(style))
    assert told(CODE, made) == []


@pytest.mark.parametrize(("thick", "deep"), [(19.0, ", or bore both no deeper than 6"), (18.8, "")])
def test_no_bore_is_made_shallower_than_holds_a_dowel(thick, deep):
    """From both faces on one axis, points of 2: (19 - 3) / 2 - 2 = 6 is the least; 5.5 would hold nothing."""
    facing = (bore("a", (100.0, 50.0, thick), tip=2.0), bore("b", (100.0, 50.0, 0.0), into=UP, tip=2.0))
    (found,) = told(CODE, rod_of_boards(board(*facing, size=(720.0, 320.0, thick))))
    assert found.mend == f"Stand them at least 11 apart, centre to centre{deep}."
