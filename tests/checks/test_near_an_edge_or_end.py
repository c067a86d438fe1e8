"""Too near an edge or an end. EN 1995-1-1 8.3.1.3 for screws in plywood (from memory); the rest common practice."""

from dataclasses import replace

import pytest

from rodwork.checks.kinds.near_an_edge_or_end import to_edges
from tests.building import back, cabinet, job, recipe, rod, rod_of
from tests.checks.shop import RIGHT, board, bore, rod_of_boards, row, told

CODE = "near-an-edge-or-end"


@pytest.mark.parametrize("at", [(100.0, 7.0), (100.0, 313.0), (7.0, 100.0), (713.0, 100.0)])
@pytest.mark.parametrize("nearer", [0.0, 0.01])
def test_three_are_left_to_every_edge_and_end_of_a_face(at, nearer):
    x, y = at
    moved = (x - nearer if x < 360 else x + nearer, y - nearer if y < 160 else y + nearer)
    if 100.0 in at:
        moved = tuple(a if a == 100.0 else b for a, b in zip(at, moved, strict=True))
    found = told(CODE, rod_of_boards(board(bore("a", (*moved, 18.0)))))
    assert [f.severity for f in found] == (["fault"] if nearer else [])


def test_it_names_the_edge_in_words_of_the_cabinet_and_says_how_far():
    (found,) = told(CODE, rod_of_boards(board(bore("a", (100.0, 5.0, 18.0), role="shelf_pin", diameter=5.0))))
    assert found.message == (
        "Left side: a shelf-pin bore of 5 stands 5 from the front edge, which leaves 2.5; 3 is the least."
    )
    assert found.mend == "Keep its centre at least 5.5 from the front edge."
    (found,) = told(CODE, rod_of_boards(board(bore("a", (718.0, 100.0, 18.0)))))
    assert "stands 2 from the bottom end, and breaks out" in found.message


def test_the_head_of_a_screw_counts():
    flat = board(bore("a", (100.0, 6.0, 18.0), diameter=4.5, through=True, depth=18.0))
    sunk = board(bore("a", (100.0, 6.0, 18.0), diameter=4.5, through=True, depth=18.0, head=8.0))
    assert told(CODE, rod_of_boards(flat)) == []
    (found,) = told(CODE, rod_of_boards(sunk))
    assert "leaves 2 beside its head" in found.message


def test_a_notch_is_an_edge_too():
    notched = ((20.0, 0.0), (720.0, 0.0), (720.0, 320.0), (0.0, 320.0), (0.0, 50.0), (20.0, 50.0))
    into_notch = board(bore("a", (26.0, 30.0, 18.0)), outline=notched, bevels=(0.0,) * 6)
    beside = board(bore("a", (27.0, 30.0, 18.0)), outline=notched, bevels=(0.0,) * 6)
    (found,) = told(CODE, rod_of_boards(into_notch))
    assert "stands 6 from the top end" in found.message
    assert told(CODE, rod_of_boards(beside)) == []


@pytest.mark.parametrize(
    ("at", "near"),
    [
        ((109.5, 40.0), {"left_end": 9.5}),  # over the toe space: the notch's back edge lies lower, round its corner
        ((90.0, 70.0), {"face_edge": 10.0}),  # behind it: its upper edge lies further forward
        ((106.0, 68.0), {"left_end": 10.0, "face_edge": 10.0}),  # off the corner itself, which is one of both
    ],
)
def test_round_the_inner_corner_of_a_notch_an_edge_is_no_nearer_than_the_other(at, near):
    """A carcass screw over a toe space was told to keep from a front edge that is not beside it."""
    toe = ((100.0, 0.0), (720.0, 0.0), (720.0, 320.0), (0.0, 320.0), (0.0, 60.0), (100.0, 60.0))
    part = board(bore("a", (*at, 18.0)), outline=toe, bevels=(0.0,) * 6)
    found = {surface: distance for surface, distance in to_edges(part, part.features[0]) if distance < 25.0}
    assert found == pytest.approx(near)


def test_an_end_is_as_long_as_its_notch_leaves_it():
    notched = ((20.0, 0.0), (720.0, 0.0), (720.0, 320.0), (0.0, 320.0), (0.0, 50.0), (20.0, 50.0))
    end = lambda y: board(bore("a", (0.0, y, 9.0), into=RIGHT, depth=20.0), outline=notched, bevels=(0.0,) * 6)  # noqa: E731
    assert len(told(CODE, rod_of_boards(end(56.9)))) == 1
    assert told(CODE, rod_of_boards(end(57.0))) == []
    assert told(CODE, rod_of_boards(end(313.0))) == []
    assert len(told(CODE, rod_of_boards(end(313.1)))) == 1


def test_the_wall_of_a_notch_is_an_end_of_its_own():
    notched = ((20.0, 0.0), (720.0, 0.0), (720.0, 320.0), (0.0, 320.0), (0.0, 50.0), (20.0, 50.0))
    wall = lambda y: board(bore("a", (20.0, y, 9.0), into=RIGHT, depth=20.0), outline=notched, bevels=(0.0,) * 6)  # noqa: E731
    for y in (7.0, 43.0):
        assert told(CODE, rod_of_boards(wall(y))) == []
    for y in (6.9, 43.1):
        assert len(told(CODE, rod_of_boards(wall(y)))) == 1


def doweled(u, diameter, host_x=9.0):
    """The corner of a left side and a top, one dowel u from the front."""
    joint = row((u, "h", "g"))
    side = board(bore("h", (host_x, u, 17.6), diameter=diameter, joint=joint.id), size=(720.0, 320.0, 17.6))
    top = rod().cabinets[0].part["top"]
    top = replace(
        top,
        features=(bore("g", (564.8, u, 9.0), into=(-1.0, 0.0, 0.0), diameter=diameter, depth=20.0, joint=joint.id),),
    )
    return rod_of_boards(side, top, joints=(joint,))


@pytest.mark.parametrize(
    ("u", "diameter", "severity"),
    [
        (16.0, 8.0, None),
        (15.99, 8.0, "warning"),
        (7.0, 8.0, "warning"),
        (6.99, 8.0, "fault"),
        (12.0, 6.0, None),
        (11.9, 6.0, "warning"),
        # beyond a 10 mm dowel 12 mm of wood are enough: 17, as the position rule leaves before a groove
        (17.0, 10.0, None),
        (16.99, 10.0, "warning"),
    ],
)
def test_dowels_stand_two_diameters_from_the_end_of_the_run(u, diameter, severity):
    found = told(CODE, doweled(u, diameter))
    assert [f.severity for f in found] == ([severity] if severity else [])
    if severity:
        assert found[0].message.startswith("Left side and top: ")  # both halves, told once
        assert set(found[0].where) == {"left side", "top", "h", "g"}


def test_and_from_the_back_end_of_the_run():
    assert told(CODE, doweled(304.0, 8.0)) == []
    assert [f.severity for f in told(CODE, doweled(304.1, 8.0))] == ["warning"]


def test_how_far_a_corner_row_stands_from_the_end_is_the_joint_s_own():
    """6.5 from the END leaves 2.5; what is left is judged once, in the top, where it is beside the bore."""
    assert told(CODE, doweled(40.0, 8.0, host_x=6.5)) == []
    shelf = row((40.0, "h", "g"), place="fixed shelf")
    side = board(bore("h", (6.5, 40.0, 17.6), joint=shelf.id), size=(720.0, 320.0, 17.6))
    top = replace(rod().cabinets[0].part["top"], features=())
    assert [f.severity for f in told(CODE, rod_of_boards(side, top, joints=(shelf,)))] == ["fault"]


def screwed(u, material, place="corner", host_x=9.0):
    joint = row((u, "h", "g"), law="line", family="screw", play=0.25, length=50.0, place=place)
    side = board(
        bore("h", (host_x, u, 0.0), into=(0.0, 0.0, 1.0), diameter=4.5, depth=17.6, through=True, role="clearance",
             joint=joint.id),
        size=(720.0, 320.0, 17.6), material=material,
    )  # fmt: skip
    pilot = bore("g", (564.8, u, 9.0), into=(-1.0, 0.0, 0.0), diameter=3.0, depth=32.0, role="pilot", joint=joint.id)
    top = replace(rod().cabinets[0].part["top"], features=(pilot,), material=material)
    return rod_of_boards(side, top, joints=(joint,))


@pytest.mark.parametrize(
    ("u", "material", "warned"),
    [
        (12.0, "birch plywood", False),  # three diameters of a 4 mm screw: clearance 4.5 less 0.25 each side
        (11.9, "birch plywood", True),
        (25.0, "melamine-faced chipboard", False),
        (24.9, "melamine-faced chipboard", True),
        (24.9, "Particleboard", True),
        (24.9, "MDF", False),
    ],
)
def test_screws_and_the_corners_of_chipboard(u, material, warned):
    found = told(CODE, screwed(u, material))
    assert {f.severity for f in found} == ({"warning"} if warned else set())
    if warned:  # the clearance bore and the pilot
        assert {w for f in found for w in f.where} == {"left side", "top", "h", "g"}


def test_a_row_across_the_middle_of_a_side_is_at_no_corner():
    found = told(CODE, screwed(20.0, "chipboard", place="fixed shelf", host_x=360.0))
    assert [f.where for f in found] == [("top", "g")]  # the shelf's own corner
    found = told(CODE, screwed(20.0, "chipboard", place="fixed shelf", host_x=20.0))
    assert {w for f in found for w in f.where} == {"left side", "top", "h", "g"}


def test_ordinary_joints_from_the_job_are_sound_and_a_first_one_too_near_the_front_is_not():
    for joint in ("dowel", "screw"):
        assert told(CODE, rod(corner_joint=recipe(joint), shelf_joint=recipe(joint), back=back("planted"))) == []
    near = rod(corner_joint=recipe(("dowel", {"first_mm": 15.0})))
    assert [f.severity for f in told(CODE, near)] == ["warning"]
    assert "stands 15 from the front edge; 16 is the least for one of 8" in told(CODE, near)[0].message


def test_screws_along_the_back_edge_of_a_side_are_measured_to_it():
    """A 12 mm back let in flush: the row in the sides stands 6 from the back edge, and its heads leave 2."""
    made = rod_of(
        job(cabinet(back=back("inset", board="birch6", void_mm=0.0), corner_joint=recipe("dowel")), back_thickness=12.0)
    )
    (found,) = told(CODE, made)
    assert "stands 6 from the back edge, which leaves 2 beside its head" in found.message
    assert found.mend == "Keep its centre at least 7 from the back edge."
