"""What a cabinet stands on: notched sides, a separate plinth frame, levelling legs with a plinth board.

Sources: W15 of data/plans.toml prints cross pieces of 11 in for a platform 14 in deep of 1 1/2 in boards (depth less two
thicknesses); W01 a toe kick as long as the width less two boards. A plinth board lower than the legs by 3 to 5, and a leg
each 600 along the front, are common practice, no source.
"""

from dataclasses import replace
from itertools import pairwise

import pytest

from rodwork.load.tipping import front_feet_mm, tipping
from rodwork.pipeline import load
from rodwork.setout.proof import prove
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps
from tests.inside.inside_samples import CABINET, GROOVED, box, refused, rod_of_text

T = 17.6
NOTCHED = 'feet = { style = "notched sides", height = 100, set_back = 70 }'
FRAME = 'feet = { style = "plinth frame", height = 90, set_back = 50 }'
LEGS = 'feet = { style = "legs" }'
BACKS = ["", GROOVED, GROOVED.replace("in the sides", "all round"), GROOVED.replace("grooved in the sides", "rebated"),
         'back = { board = "birch6", style = "planted" }\n', 'back = { board = "birch18", style = "inset", void = 10 }\n']  # fmt: skip


def only(rod):
    (cabinet,) = rod.cabinets
    return cabinet


def test_with_notched_sides_the_height_is_from_the_floor_and_the_bottom_is_raised():
    cabinet = only(rod_of_text(GROOVED, NOTCHED, "loose_shelves = 1", 'doors = { hung = "pair" }'))
    assert cabinet.size[1] == 720
    for name in ("left side", "right side"):
        low, high = box(cabinet.part[name])
        assert (low[2], high[2]) == (0.0, 720.0)
        part = cabinet.part[name]
        at = [part.pose.to_cabinet((x, y, 0.0)) for x, y in part.outline]
        assert {(round(y, 3), round(z, 3)) for _, y, z in at} == {
            (0.0, 100.0), (70.0, 100.0), (70.0, 0.0), (560.0, 0.0), (560.0, 720.0), (0.0, 720.0)
        }  # fmt: skip
    assert box(cabinet.part["bottom"])[0][2] == 100.0
    assert cabinet.asked.openings[0].comes_to == pytest.approx(720 - 100 - 2 * T)
    assert (
        box(cabinet.part["left door"])[0][2] == 101.5
    )  # 1.5 above the underside of the bottom, clear of the toe space
    plinth = cabinet.part["plinth board"]
    assert plinth.size == (600 - 2 * T, 100.0, T)  # a toe kick between the sides, as W01 has it
    assert box(plinth)[0][1] == 70.0
    assert all(box(p)[0][2] >= 100 for p in cabinet.parts if p.role in ("back", "door", "loose shelf"))


def test_a_separate_frame_lies_under_the_carcass_and_its_cross_pieces_are_the_depth_less_two_boards():
    cabinet = only(rod_of_text(GROOVED, FRAME))
    assert cabinet.size[1] == 720
    frame = [p for p in cabinet.parts if p.role == "plinth frame"]
    assert {p.in_box for p in frame} == {False}
    assert (min(box(p)[0][2] for p in frame), max(box(p)[1][2] for p in frame)) == (-90.0, 0.0)
    crosses = [p for p in frame if "cross" in p.id]
    assert {p.size[0] for p in crosses} == {560 - 50 - 2 * T}
    assert len(crosses) == 2
    wide = only(rod_of_text(GROOVED, FRAME, size=CABINET.replace("width = 600", "width = 1300")))
    at = sorted(box(p)[0][0] for p in wide.parts if "cross" in p.id)
    assert max(b - a for a, b in pairwise(at)) <= 600


def test_the_cross_pieces_of_a_published_platform():
    """W15: 14 deep, 1 1/2 boards, 3 1/2 high: cross rails 11 x 3 1/2."""
    more = '[boards.two]\nmaterial = "birch plywood"\nthickness = "1 1/2 in"\nsheet = [2440, 1220]\n'
    size = 'width = "30 in"\nheight = "34 1/2 in"\ndepth = "14 in"\nboard = "birch18"\n'
    feet = 'feet = { style = "plinth frame", height = "3 1/2 in", set_back = 0, board = "two" }'
    cabinet = only(rod_of_text(feet, size=size, more=more))
    assert cabinet.part["plinth cross piece 1"].size == pytest.approx((11 * 25.4, 3.5 * 25.4, 1.5 * 25.4))


def test_a_plinth_board_before_legs_is_lower_than_they_stand_by_three_to_five():
    cabinet = only(rod_of_text(GROOVED, LEGS))
    plinth = cabinet.part["plinth board"]
    assert not plinth.in_box
    low, high = box(plinth)
    assert low[2] == -150.0
    assert 3 <= -high[2] <= 5
    assert (low[0], high[0]) == (0.0, 600.0)
    assert {h.item: h.count for h in cabinet.hardware} == {"levelling leg 150 mm": 4, "plinth clip": 2}
    in_a_run = only(rod_of_text(GROOVED, 'feet = { style = "legs", plinth = false }'))
    assert "plinth board" not in in_a_run.part


@pytest.mark.parametrize(("width", "legs"), [(300, 4), (700, 4), (701, 6), (1300, 6), (1301, 8)])
def test_legs_by_the_width_stand_under_their_own_cabinet(width, legs):
    cabinet = only(rod_of_text(LEGS, size=CABINET.replace("width = 600", f"width = {width}")))
    assert len(cabinet.footing.feet) == legs
    assert {h.item: h.count for h in cabinet.hardware}["levelling leg 150 mm"] == legs
    assert all(0 < x < width and 50 + T < y < 560 for x, y in cabinet.footing.feet)  # clear of what stands beside it


@pytest.mark.parametrize("back", BACKS)
@pytest.mark.parametrize("feet", [NOTCHED, FRAME, LEGS])
@pytest.mark.parametrize("joint", ["dowels", "screws"])
def test_every_foot_is_proven_and_no_boards_overlap(feet, back, joint):
    rod = rod_of_text(
        back, feet, "dividers = 1", "fixed_shelves = 1", "loose_shelves = 1", 'shelf_joint = "dowels"', joint=joint
    )
    assert [f.message for f in prove(rod)] == []
    assert overlaps(only(rod)) == []
    assert connectors_that_do_not_go_home(only(rod)) == []


def test_it_tips_about_what_stands_on_the_floor():
    """Not about the plinth board before the legs, nor about the front of notched sides: statics."""
    plain = rod_of_text(GROOVED, 'kind = "base"', "contents = { kg = 20 }")
    for lines, feet in ((NOTCHED, 70.0), (FRAME, 50.0), (LEGS, 50 + T + 50)):
        rod = rod_of_text(GROOVED, 'kind = "base"', "contents = { kg = 20 }", lines)
        assert front_feet_mm(only(rod)) == pytest.approx(feet)
        margins = [s.margin for s in load(rod).cabinets[0].tipping.states]
        assert all(m < p.margin for m, p in zip(margins, load(plain).cabinets[0].tipping.states, strict=True))
    rod = rod_of_text(GROOVED, 'kind = "base"', "contents = { kg = 20 }", LEGS)
    higher = replace(only(rod), footing=replace(only(rod).footing, below=300.0))
    assert tipping(higher).states[0].margin < tipping(only(rod)).states[0].margin


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        (["feet = {}"], "feet has no style"),
        (['feet = { style = "leg" }'], '"legs"'),
        (['feet = { style = "legs", hieght = 100 }'], "Did you mean height?"),
        (['feet = { style = "legs", height = nan }'], "feet.height"),
        (['feet = { style = "legs", height = -100 }'], "under 30 mm"),
        (['feet = { style = "legs", height = 1e9 }'], "feet.height"),
        (['feet = { style = "legs", board = "birch" }'], "Did you mean"),
        (['feet = "wheels"'], "neither a table"),
        (['feet = { style = "plinth frame", lower = 4 }'], "Leave it out"),
        (['feet = { style = "legs", joint = "dowels" }'], "clipped"),
        ([NOTCHED, 'sides = "between"'], 'sides = "through"'),
        (['feet = { style = "notched sides", set_back = 0 }'], "no toe space"),
        (['feet = { style = "plinth frame", joint = "tongues" }'], "joint = ... under feet"),
    ],
)
def test_what_cannot_be_is_refused_with_a_way_to_mend_it(lines, says):
    assert says in refused(*lines)


@pytest.mark.parametrize("style", ["plinth frame", "legs"])
def test_what_has_no_room_at_any_set_back_is_not_asked_for_less_than_none(style):
    told = refused(f'feet = {{ style = "{style}" }}', size=CABINET.replace("depth = 560", "depth = 80"))
    assert "deeper, by " in told
    assert "-" not in told.split("Make")[1]
    most = refused(
        f'feet = {{ style = "{style}", set_back = 390 }}', size=CABINET.replace("depth = 560", "depth = 400")
    )
    assert "set_back of " in most


def test_screws_of_a_planted_back_over_a_toe_space_begin_on_the_back():
    """The back ends above the toe space, and the sides run on below it."""
    back = 'back = { board = "birch6", style = "planted" }'
    cabinet = only(rod_of_text(back, 'feet = { style = "notched sides", height = 60 }'))
    part = cabinet.part["back"]
    bores = [f for f in part.features if f.kind == "bore"]
    assert bores
    for f in bores:
        assert all(5.0 <= f.at[k] <= part.size[k] - 5.0 for k in (0, 1)), f.id
