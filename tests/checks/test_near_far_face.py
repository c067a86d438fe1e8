"""Too near the far face. The remainder: common practice, as the issue of 8 x 30 dowels in 18 mm board shows it."""

from dataclasses import replace

import pytest

from rodwork.model.shop import Shop
from tests.building import cabinet, job, recipe, rod, rod_of
from tests.checks.shop import IN, RIGHT, UP, board, bore, channel, rebate, rod_of_boards, told

CODE = "near-far-face"
SHOP = Shop(name=None)


@pytest.mark.parametrize(
    ("thickness", "depth", "tip", "left"),
    [
        # common practice, no source: an 8 x 30 dowel set 15 deep in 18 leaves 3 to the shoulder
        (18.0, 15.0, 0.0, None),
        (17.99, 15.0, 0.0, "2.9"),
        # with a 2 mm spur in a 17.6 board 0.6: STOP
        (17.6, 15.0, 2.0, "0.6"),
        # 12 in the face leaves 3.6: sound
        (17.6, 12.0, 2.0, None),
        (17.0, 12.0, 2.0, None),
        (16.99, 12.0, 2.0, "2.9"),
        # shelf pins 12 deep are ordinary in 15 to 18
        (15.0, 12.0, 0.0, None),
        (14.9, 12.0, 0.0, "2.9"),
    ],
)
def test_three_are_left_under_the_deepest_point(thickness, depth, tip, left):
    part = board(bore("a", (100.0, 100.0, thickness), depth=depth, tip=tip), size=(720.0, 320.0, thickness))
    found = told(CODE, rod_of_boards(part))
    if left is None:
        assert found == []
    else:
        assert [f.severity for f in found] == ["fault"]
        assert f"leaves {left} of {thickness:.1f}".replace(".0 ", " ") in found[0].message or left == "2.9"
        assert f"leaves {left} of" in found[0].message
        assert found[0].where == ("left side", "a")


def test_the_tip_counts():
    shoulder = rod_of_boards(board(bore("a", (100.0, 100.0, 18.0), depth=15.0)))
    point = rod_of_boards(board(bore("a", (100.0, 100.0, 18.0), depth=15.0, tip=0.5)))
    assert (told(CODE, shoulder), len(told(CODE, point))) == ([], 1)


def test_a_bore_from_the_other_face_is_measured_to_the_face_it_goes_to():
    deep = bore("a", (100.0, 100.0, 0.0), into=UP, depth=16.0)
    (found,) = told(CODE, rod_of_boards(board(deep)))
    assert "outside: a bore 16 deep leaves 2 of 18 board under it" in found.message


def test_a_bore_through_the_board_is_meant_to_be():
    assert told(CODE, rod_of_boards(board(bore("a", (100.0, 100.0, 18.0), depth=18.0, through=True)))) == []


def test_one_that_is_not_meant_to_comes_through():
    (found,) = told(CODE, rod_of_boards(board(bore("a", (100.0, 100.0, 18.0), depth=16.0, tip=2.0))))
    assert "comes through 18 board" in found.message


def test_a_bore_in_an_end_is_measured_along_the_board():
    short = board(bore("a", (0.0, 100.0, 9.0), into=RIGHT, depth=20.0), size=(22.9, 320.0, 18.0))
    enough = board(bore("a", (0.0, 100.0, 9.0), into=RIGHT, depth=20.0), size=(23.0, 320.0, 18.0))
    assert (len(told(CODE, rod_of_boards(short))), told(CODE, rod_of_boards(enough))) == (1, [])


def test_the_shop_says_how_much_is_least():
    part = board(bore("a", (100.0, 100.0, 18.0), depth=13.5))
    assert told(CODE, rod_of_boards(part, shop=replace(SHOP, least_remainder_mm=4.5))) == []
    (found,) = told(CODE, rod_of_boards(part, shop=replace(SHOP, least_remainder_mm=5.0)))
    assert found.mend == "Bore 13 deep, or use a board of at least 18.5 mm."


def test_it_says_how_deep_and_what_then_comes_into_the_end():
    """17.6 less 3 less a 2 mm point is 12.6: 12.5 on a scale of halves; 12.5 and 19.5 hold the dowel and its glue."""
    deep = recipe(("dowel", {"depth_in_face_mm": 15.0}))
    (found,) = told(CODE, rod(corner_joint=deep))
    assert found.message == (
        "Left side and right side, inside: a dowel bore 15 deep with a point of 2 leaves 0.6 of 17.6 board under it; "
        "3 is the least."
    )
    assert found.mend == "Bore 12.5 deep here and 19.5 in the other board, or use a board of at least 20 mm."
    stops = Shop(name=None, depth_stops_mm=(8.0, 12.0, 15.0, 20.0, 25.0))
    (found,) = told(CODE, rod_of(job(cabinet(corner_joint=deep), shop=stops)))
    assert found.mend.startswith("Bore 12 deep here and 20 in the other board")


def test_a_stop_that_is_just_what_may_be_bored_is_taken():
    stops = Shop(name=None, depth_stops_mm=(12.6, 15.0, 20.0))
    (found,) = told(CODE, rod_of(job(cabinet(corner_joint=recipe(("dowel", {"depth_in_face_mm": 15.0}))), shop=stops)))
    assert found.mend.startswith("Bore 12.6 deep here and 20 in the other board")


def test_what_it_says_to_do_is_sound():
    assert told(CODE, rod(corner_joint=recipe(("dowel", {"depth_in_face_mm": 12.5})))) == []


def test_in_a_board_too_thin_for_any_depth_only_a_thicker_one_helps():
    part = board(bore("a", (100.0, 100.0, 3.0), depth=2.0), size=(720.0, 320.0, 3.0))
    (found,) = told(CODE, rod_of_boards(part))
    assert found.mend == "Use a board of at least 5 mm."


def housing(depth, joint="left side / fixed shelf"):
    return channel("h", (360.0, 160.0, 17.6), depth, 17.6, 300.0, along=IN, joint=joint)


@pytest.mark.parametrize(
    ("depth", "severity"), [(7.04, None), (7.05, "warning"), (8.8, "warning"), (8.81, "fault")]
)  # fmt: skip
def test_a_housing_over_four_tenths_weakens_and_over_half_stops(depth, severity):
    made = rod(shelf_joint=recipe("housing"))
    part = board(housing(depth), size=(720.0, 320.0, 17.6))
    found = told(
        CODE, rod_of_boards(part, joints=tuple(j for j in made.cabinets[0].joints if j.id == "left side / fixed shelf"))
    )
    assert [f.severity for f in found] == ([severity] if severity else [])


@pytest.mark.parametrize(("depth", "severity"), [(8.8, []), (8.81, ["fault"])])
def test_a_back_groove_and_a_rebate_may_go_to_half(depth, severity):
    joints = tuple(j for j in rod().cabinets[0].joints if j.id == "left side / back")
    groove = channel("g", (360.0, 299.0, 17.6), depth, 6.0, 700.0, joint="left side / back")
    step = rebate("r", (360.0, 317.0, 17.6), depth, 6.0, 700.0, joint="left side / back")
    for one, word in ((groove, "back groove"), (step, "rebate")):
        found = told(CODE, rod_of_boards(board(one, size=(720.0, 320.0, 17.6)), joints=joints))
        assert [f.severity for f in found] == severity
        assert all(f"the {word} is 8.8 deep in 17.6 board" in f.message for f in found)


def test_half_of_a_thin_board_is_too_deep_when_less_than_three_are_left():
    thin = (720.0, 320.0, 5.0)
    assert told(CODE, rod_of_boards(board(channel("g", (360.0, 99.0, 5.0), 2.0, 4.0, 700.0), size=thin))) == []
    (found,) = told(CODE, rod_of_boards(board(channel("g", (360.0, 99.0, 5.0), 2.1, 4.0, 700.0), size=thin)))
    assert "2 is the most" in found.message
    assert found.mend == "Make it 2 deep or less, or use a board of at least 5.1 mm."


def test_a_deep_housing_from_the_job_is_found_and_mended():
    (found,) = told(CODE, rod(shelf_joint=recipe(("housing", {"depth_mm": 9.5}))))
    assert found.mend == "Make it 8.5 deep or less, or use a board of at least 19 mm."
    assert [f.severity for f in told(CODE, rod(shelf_joint=recipe(("housing", {"depth_mm": 8.5}))))] == ["warning"]
    assert told(CODE, rod(shelf_joint=recipe(("housing", {"depth_mm": 5.5})))) == []
