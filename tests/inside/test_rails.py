"""Rails in place of a top, and the one that a unit is screwed to the wall through.

A cross panel between sides is W - 2t long: published plans W02 and W29 (tests/published). That a fixing rail stands between
the sides, and what it stands before or behind, is common practice, no source.
"""

from dataclasses import replace
from math import hypot

import pytest

from rodwork.pipeline import load
from rodwork.setout.proof import prove
from tests import texts
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps
from tests.inside.inside_samples import CABINET, GROOVED, box, refused, rod_of_text
from tests.load.test_hanging import figures

T = 17.6
TOP_RAILS = "rails = { top_front = 80, top_back = 100 }"
ON_EDGE = 'rails = { top_front = 80, top_back = 100, set = "on edge" }'


def only(rod):
    (cabinet,) = rod.cabinets
    return cabinet


def test_flat_rails_lie_where_a_top_would_and_are_as_long_as_the_width_less_two_boards():
    cabinet = only(rod_of_text(GROOVED, TOP_RAILS))
    assert "top" not in cabinet.part
    front, back = cabinet.part["front rail"], cabinet.part["back rail"]
    assert front.size == (600 - 2 * T, 80.0, T)
    assert back.size == (600 - 2 * T, 100.0, T)
    cross = cabinet.part["bottom"].size[1]  # the back passes behind top and bottom alike
    assert box(front) == ((T, 0.0, 720 - T), (600 - T, 80.0, 720.0))
    assert box(back)[0] == pytest.approx((T, cross - 100, 720 - T))
    assert box(back)[1] == pytest.approx((600 - T, cross, 720.0))
    assert [o.comes_to for o in cabinet.asked.openings] == [pytest.approx(720 - 2 * T)]


def test_rails_on_edge_end_the_opening_where_the_deeper_one_does():
    cabinet = only(rod_of_text(GROOVED, ON_EDGE))
    assert box(cabinet.part["front rail"]) == ((T, 0.0, 640.0), (600 - T, T, 720.0))
    assert box(cabinet.part["back rail"])[0][2] == 620.0
    assert cabinet.asked.openings[0].comes_to == pytest.approx(620 - T)


def test_a_fixing_rail_stands_under_the_top_before_the_back_or_in_its_void():
    before = only(rod_of_text(GROOVED, "rails = { fixing = 100 }"))
    low, high = box(before.part["fixing rail"])
    assert (low[2], high[2]) == (pytest.approx(720 - T - 100), pytest.approx(720 - T))
    assert high[1] == pytest.approx(box(before.part["back"])[0][1], abs=0.2)  # but for the play of the groove
    behind = only(rod_of_text(GROOVED, "rails = { fixing = 100, behind_back = true }"))
    low, high = box(behind.part["fixing rail"])
    assert high[1] == 560.0
    assert low[1] > box(behind.part["back"])[1][1]


@pytest.mark.parametrize("joint", ["dowels", "screws", "cams"])
@pytest.mark.parametrize("back", ["", GROOVED, GROOVED.replace("grooved", "rebated"),
                                  'back = { board = "birch6", style = "planted" }\n'])  # fmt: skip
@pytest.mark.parametrize("rails", [TOP_RAILS, ON_EDGE, "rails = { top_front = 90 }", "rails = { top_back = 90 }",
                                   "rails = { top_front = 80, top_back = 80, fixing = 90 }"])  # fmt: skip
def test_every_rail_is_proven_and_no_boards_overlap(rails, back, joint):
    if joint == "cams" and ("edge" in rails or "fixing" in rails):
        joint = "dowels"  # a cam wants more width than a rail has
    rod = rod_of_text(back, rails, joint=joint, size=CABINET.replace("560", "540"))
    assert [f.message for f in prove(rod)] == []
    assert overlaps(only(rod)) == []
    assert connectors_that_do_not_go_home(only(rod)) == []
    if joint == "dowels" and "planted" not in back:  # a screw of a planted back may meet another: the checks say so
        assert [f.message for f in rod.findings if f.severity == "fault"] == []


def test_on_a_narrow_rail_two_fixings_stand_a_quarter_of_its_width_in():
    cabinet = only(rod_of_text(GROOVED, TOP_RAILS))
    for rail, wide in (("front rail", 80.0), ("back rail", 100.0)):
        ends = [f for f in cabinet.part[rail].features if f.into[0] > 0]
        assert sorted(f.at[1] for f in ends) == [wide / 4, 3 * wide / 4]


def test_a_flat_rail_is_set_out_from_the_top_end_and_one_on_edge_down_from_it():
    rod = rod_of_text(GROOVED, ON_EDGE, "rail_joint = 'screws'")
    cabinet = only(rod)
    assert {j.recipe for j in cabinet.joints if "front rail" in j.parts} == {"screws"}
    words = {(f.along.word, f.across.word) for s in rod.setups for f in s.features
             if f.feature and f.part == "left side" and "rail" in f.feature}  # fmt: skip
    assert words == {("top end", "front edge")}


def test_a_rail_set_out_from_its_other_edge_is_found_by_the_proof():
    rod = rod_of_text(GROOVED, ON_EDGE)
    setups = []
    for s in rod.setups:
        features = tuple(
            replace(f, along=replace(f.along, from_surface="face_edge", word="bottom edge"))
            if f.feature and f.part == "front rail" else f
            for f in s.features
        )  # fmt: skip
        setups.append(replace(s, features=features))
    told = " ".join(f.message for f in prove(replace(rod, setups=tuple(setups))))
    assert "registers on the bottom edge where its mate registers on the top end of the left side" in told


def test_what_stands_inside_keeps_clear_of_a_fixing_rail():
    lines = (GROOVED, "rails = { fixing = 150 }", "dividers = 1", "loose_shelves = 3")
    cabinet = only(rod_of_text(*lines, size=CABINET.replace("width = 600", "width = 1000")))
    assert overlaps(cabinet) == []
    under = box(cabinet.part["fixing rail"])[0][2]
    assert all(box(p)[1][2] < under for p in cabinet.parts if p.role == "loose shelf")
    drawn = only(rod_of_text(GROOVED, "rails = { fixing = 150 }", 'drawers = { number = 2, bottom_board = "birch6" }'))
    assert overlaps(drawn) == []


def test_a_divider_stands_under_the_front_rail_and_is_joined_to_it():
    cabinet = only(rod_of_text(GROOVED, TOP_RAILS, "dividers = 1", size=CABINET.replace("width = 600", "width = 1000")))
    assert "front rail / divider" in cabinet.joint
    assert overlaps(cabinet) == []
    assert box(cabinet.part["divider"])[1][2] == pytest.approx(720 - T)


def test_a_unit_hung_by_its_fixing_rail_hangs_by_the_one_that_is_drawn():
    lines = (GROOVED, 'hanging = { style = "fixing rail", wall = "kitchen", fixings = 3 }', "contents = { kg = 30 }")
    rod = rod_of_text(*lines, "rails = { fixing = 100 }", more='[walls.kitchen]\nkind = "brick"\n')
    hung = load(rod).cabinets[0].hanging
    assert hung.down_mm == pytest.approx(T + 50)  # the middle of the rail
    link = next(x for x in hung.chain.links if x.name == "hanging joint to the carcass")
    assert "dowel" in link.asks  # the dowels of the rail itself, of which nothing is known
    known = load(replace(rod, tested={"dowel": figures()})).cabinets[0].hanging
    link = next(x for x in known.chain.links if x.name == "hanging joint to the carcass")
    assert link.margin is not None
    each = max(hypot(s.weight_N, s.pull_N) for s in hung.states) / 4  # two dowels at each end share weight and pull
    assert f"{each:.0f} N" in link.carries


def test_a_box_with_rails_for_a_top_is_reckoned_and_put_together_square():
    rod = rod_of_text(GROOVED, TOP_RAILS)
    racking = load(rod).cabinets[0].racking
    assert racking is not None
    from rodwork.documents.assembly import diagonals

    assert diagonals(only(rod)).outer == pytest.approx((600**2 + 720**2) ** 0.5)


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        (["rails = {}"], "names no rail"),
        (["rails = { top_frnt = 80 }"], "Did you mean top_front?"),
        (['rails = { fixing = 100, set = "on edge" }'], "there is none"),
        (["rails = { top_front = 80, behind_back = true }"], "there is none"),
        (['rails = { top_front = 80, set = "on edges" }'], '"on edge"'),
        (["rails = { top_front = -80 }"], "under 30 mm"),
        (["rails = { top_front = 1e9 }"], "rails.top_front"),
        (["rails = { top_front = nan }"], "rails.top_front"),
        (["rails = 80"], "neither a table"),
        (["rails = { top_front = 501 }"], "over 500 mm"),
        ([GROOVED, TOP_RAILS, 'sides = "between"'], 'sides = "through"'),
        (['back = { board = "birch6", style = "grooved all round" }', TOP_RAILS], "passes up behind the rails"),
        ([GROOVED, "rails = { top_front = 300, top_back = 200 }"], "leave 32.1 mm between them"),
        ([GROOVED, ON_EDGE, "dividers = 1"], "dividers stand under a flat rail"),
        ([GROOVED, ON_EDGE, 'doors = { hung = "up" }'], "lifts up"),
        ([GROOVED, "rails = { fixing = 500 }", "height = 560"], "474.8 or less"),
        ([GROOVED, "rails = { fixing = 94 }", 'openings = [120, "rest", 90]'], "Make it 90 or less"),
        ([GROOVED, "rails = { fixing = 94 }", 'openings = [120, "rest", 30]'], "Make that opening 94 or more"),
        (
            ["rails = { fixing = 100 }", 'feet = { style = "notched sides", height = 500 }', "height = 560"],
            "Leave it out",
        ),
        (["rails = { fixing = 100, behind_back = true }"], "there is no back"),
        ([GROOVED.replace("22", "10"), "rails = { fixing = 100, behind_back = true }"], "void of 17.6 or more"),
        ([GROOVED.replace("grooved", "rebated"), "rails = { fixing = 100, behind_back = true }"], "into grooves"),
        ([GROOVED, TOP_RAILS, 'rail_joint = "tongues"'], "rail_joint"),
        ([GROOVED, TOP_RAILS, 'rail_joint = "dowel"'], 'Did you mean "dowels"?'),
        ([GROOVED, TOP_RAILS, "dividers = 1", 'divider_joint = "housings"'], "divider_joint"),
    ],
)
def test_what_cannot_be_is_refused_with_a_way_to_mend_it(lines, says):
    size = CABINET.replace("height = 720\n", "") if "height = 560" in lines else CABINET
    assert says in refused(*lines, size=size)


@pytest.mark.parametrize(
    ("lines", "word"),
    [
        ("rails = { top_front = 80 }", "rail_joint"),
        ('feet = { style = "notched sides", height = 80 }', "`joint` under feet"),
        ('drawers = { number = 6, bottom_board = "birch6" }', "`joint` under drawers"),
        ("fixed_shelves = 1\nshelf_set_back = 400", "shelf_joint"),
    ],
)
def test_a_joint_without_room_names_the_word_that_gives_it_a_recipe_of_its_own(lines, word):
    """Two biscuits of size 20 want 158 along the joint."""
    said = refused(GROOVED, lines, joint="biscuits", more=texts.joint("biscuits", '"biscuit"'))
    assert said.endswith(f"; or name another recipe there: {word}")
