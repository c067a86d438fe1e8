"""Joints that cannot be made. Half the board for dowels: published; 4 mm screws in 15 to 18: BioResources 9(4), 2014."""

from dataclasses import replace

import pytest

from tests.building import back, cabinet, job, recipe, rod, rod_of
from tests.checks.shop import BASE, board, bore, rod_of_boards, row, told

CODE = "cannot-be-made"
TOP = BASE.cabinets[0].part["top"]


def doweled(*, diameter=8.0, host=18.0, guest=18.0, in_face=12.0, in_end=20.0, length=30.0):
    joint = row((40.0, "h", "g"), (136.0, "h", "g"), length=length)
    side = board(bore("h", (9.0, 40.0, host), depth=in_face, diameter=diameter), size=(720.0, 320.0, host))
    end = bore("g", (564.8, 40.0, guest / 2), into=(-1.0, 0.0, 0.0), depth=in_end, diameter=diameter)
    return rod_of_boards(side, replace(TOP, features=(end,), size=(564.8, 320.0, guest)), joints=(joint,))


@pytest.mark.parametrize(
    ("in_face", "in_end", "severity"),
    [
        # common practice: 12 in the face and 20 in the end for a dowel of 30
        (12.0, 20.0, None),
        (12.0, 19.0, None),
        (12.0, 18.9, "warning"),
        (12.0, 18.0, "warning"),
        (12.0, 17.99, "fault"),
    ],
)
def test_both_bores_hold_the_dowel_and_a_little_glue(in_face, in_end, severity):
    found = told(CODE, doweled(in_face=in_face, in_end=in_end))
    assert [f.severity for f in found] == ([severity] if severity else [])


def test_what_it_says_to_do_when_dowels_bottom():
    (found,) = told(CODE, doweled(in_face=12.0, in_end=15.0))
    assert (
        found.message
        == "Left side and top: dowel bores 12 and 15 deep make 27 for a dowel 30 long: the joint cannot close."
    )
    assert found.mend == "Bore 19 deep in the end, or take a dowel 26 long or less."
    assert told(CODE, doweled(in_face=12.0, in_end=19.0)) == []
    assert told(CODE, doweled(in_face=12.0, in_end=15.0, length=26.0)) == []


@pytest.mark.parametrize(
    ("diameter", "host", "guest", "warned"),
    [
        # an 8 mm dowel is sound in 15 and in 15.7: common practice, no source
        (8.0, 15.0, 15.0, False),
        (8.0, 15.7, 15.7, False),
        (10.0, 19.0, 19.0, False),
        (10.0, 18.9, 18.9, True),
        (10.0, 19.0, 18.9, True),
        (10.0, 18.9, 19.0, True),
        (6.0, 12.0, 13.0, False),
    ],
)
def test_a_dowel_is_half_as_thick_as_the_thinner_board(diameter, host, guest, warned):
    found = told(CODE, doweled(diameter=diameter, host=host, guest=guest))
    assert [f.severity for f in found] == (["warning"] if warned else [])


def test_what_is_said_already_of_the_board_beside_the_bore_is_not_said_twice():
    thin = doweled(diameter=8.0, host=14.9, guest=14.9)
    assert told(CODE, thin) == []
    assert len(told("beside-the-bore", thin)) == 1
    (found,) = told(CODE, doweled(diameter=10.0, host=14.0, guest=18.0))
    assert found.mend == "Take dowels of 6, or use boards of at least 19 mm."


def screwed(thickness, *, diameter=4.0):
    joint = row((40.0, "h", "g"), (136.0, "h", "g"), law="line", family="screw", play=0.25, length=50.0)
    side = board(bore("h", (9.0, 40.0, 0.0), into=(0.0, 0.0, 1.0), depth=18.0, diameter=diameter + 0.5, through=True))
    pilot = bore("g", (564.8, 40.0, thickness / 2), into=(-1.0, 0.0, 0.0), depth=30.0, diameter=0.7 * diameter)
    return rod_of_boards(side, replace(TOP, features=(pilot,), size=(564.8, 320.0, thickness)), joints=(joint,))


@pytest.mark.parametrize(
    ("thickness", "diameter", "severity"),
    [
        # 4 x 50 in 15 to 18 mm board: BioResources 9(4), 2014
        (18.0, 4.0, None),
        (15.0, 4.0, None),
        (13.4, 4.0, None),
        (13.3, 4.0, "warning"),
        (10.0, 4.0, "warning"),
        (10.0, 3.0, None),
        (9.99, 3.0, "fault"),
        (16.7, 5.0, None),
        (16.6, 5.0, "warning"),
    ],
)
def test_a_screw_is_three_tenths_of_the_edge_it_goes_into_and_none_goes_into_a_thin_one(thickness, diameter, severity):
    found = told(CODE, screwed(thickness, diameter=diameter))
    assert [f.severity for f in found] == ([severity] if severity else [])


def test_what_it_says_to_do_with_a_screw():
    (found,) = told(CODE, screwed(12.0))
    assert found.message == "Top: a screw of 4 in the edge of 12 board may swell or split it."
    assert found.mend == "Take one of 3.5 or less, or a board of at least 13.4 mm."
    assert (told(CODE, screwed(12.0, diameter=3.5)), told(CODE, screwed(13.4))) == ([], [])
    (found,) = told(CODE, screwed(6.0))
    assert found.mend == "Use a board of at least 13.4 mm there, or another joint."


def test_from_the_job():
    assert told(CODE, rod(corner_joint=recipe("screw"))) == []
    (found,) = told(CODE, rod(back=back("inset")))
    assert found.message == "Back: a screw of 4 goes into the edge of 5.8 board, which cannot hold it."
    shallow = recipe(("dowel", {"depth_in_face_mm": 10.0, "depth_in_end_mm": 19.0}))
    assert [f.severity for f in told(CODE, rod(corner_joint=shallow))] == ["fault"]
    assert [f.severity for f in told(CODE, rod(corner_joint=recipe(("dowel", {"glue_room_mm": 0.5}))))] == ["warning"]
    assert told(CODE, rod(corner_joint=recipe(("dowel", {"glue_room_mm": 1.0})))) == []
    (found,) = told(CODE, rod_of(job(cabinet(corner_joint=recipe(("dowel", {"size": "10x40"}))))))
    assert found.mend == "Take dowels of 8, or use boards of at least 19 mm."


def test_a_screw_into_a_face_is_judged_by_no_edge():
    """A planted back: its screws go through the back into the edges of the carcass; the back's own 5.8 is no edge."""
    assert told(CODE, rod(back=back("planted"))) == []
