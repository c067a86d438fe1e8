"""The two halves of a split batten, drawn: sizes, the slope they meet on, what joins the cabinet's half to the box.

Sources: W30 of the published plans (a utility cabinet 48 in wide, hung on a split batten: halves 46 1/2, the width less two
boards of 3/4). That the wall's half is shorter, for moving the unit sideways: a furniture magazine's forum, second-hand. Halves
of 75 to 100 ripped from one board: a woodworkers' forum, second-hand. A void of the batten and 3 to 5: common practice.
"""

from dataclasses import replace

import pytest

from rodwork.pipeline import load
from rodwork.setout.proof import prove
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps, placed
from tests.inside.inside_samples import CABINET, GROOVED, box, refused, rod_of_text
from tests.load.test_hanging import figures

T = 17.6
HUNG = 'hanging = { style = "split batten", wall = "kitchen", fixings = 3, batten = 90 }'
WALL = '[walls.kitchen]\nkind = "brick"\n'


def hung(*lines, **kw):
    return rod_of_text('kind = "wall"', HUNG, *lines, more=WALL, **kw)


def only(rod):
    (cabinet,) = rod.cabinets
    return cabinet


def test_a_published_batten_is_as_long_as_the_clear_width():
    size = 'width = "48 in"\nheight = "24 in"\ndepth = "18 in"\nboard = "three"\n'
    more = '[boards.three]\nmaterial = "birch plywood"\nthickness = "3/4 in"\nsheet = [2440, 1220]\n'
    cabinet = only(rod_of_text('hanging = { style = "split batten", batten = "4 in" }', GROOVED, size=size, more=more))
    assert cabinet.part["cabinet batten"].size[0] == pytest.approx(46.5 * 25.4)
    assert cabinet.part["wall batten"].size[0] < 46.5 * 25.4


def test_the_halves_meet_on_the_slope_and_share_no_wood():
    """Lifted by a hair they are apart, let down by one they run into each other: whatever the void has over."""
    from rodwork.documents.solids import part_solid

    for void in (18, 21, 22):
        cabinet = only(hung(GROOVED.replace("22", str(void))))
        ours, theirs = (cabinet.part[i] for i in ("cabinet batten", "wall batten"))
        a, b = (placed(part_solid(p, 8), p.pose) for p in (ours, theirs))
        assert a.min_gap(b, 5.0) < 1e-3
        assert (a ^ b).volume() < 1e-3
        assert (a.translate((0.0, 0.0, 0.05)) ^ b).volume() == 0.0
        assert (a.translate((0.0, 0.0, -0.05)) ^ b).volume() > 1.0
        low, high = box(ours)
        assert high[2] == pytest.approx(720 - T)  # close under the top
        assert low[1] == pytest.approx(560 - void, abs=0.2)
        assert box(theirs)[1][1] == 560.0  # on the wall


@pytest.mark.parametrize("joint", ["dowels", "screws"])
@pytest.mark.parametrize("back", [GROOVED, GROOVED.replace("in the sides", "all round"),
                                  'back = { board = "birch18", style = "inset", void = 22 }\n'])  # fmt: skip
def test_it_is_proven_and_no_boards_overlap(back, joint):
    rod = hung(back, "loose_shelves = 1", joint=joint, size=CABINET.replace("560", "320"))
    assert [f.message for f in prove(rod)] == []
    assert overlaps(only(rod)) == []
    assert connectors_that_do_not_go_home(only(rod)) == []
    assert [f.message for f in rod.findings if f.severity == "fault"] == []


@pytest.mark.parametrize("high", [75, 80, 100])
def test_halves_of_the_usual_heights_take_two_dowels_at_each_end(high):
    """75 to 100: a woodworkers' forum, second-hand. 8 mm dowels stand four diameters apart and 5 clear of the slope."""
    rod = rod_of_text('kind = "wall"', GROOVED, HUNG.replace("90", str(high)), more=WALL)
    ends = sorted(f.at[1] for f in only(rod).part["cabinet batten"].features if f.into[0] > 0)
    assert len(ends) == 2
    assert ends[1] - ends[0] >= 32 - 1e-6
    assert ends[0] - 4 - T >= 5
    assert [f.message for f in prove(rod)] == []
    assert [f.message for f in rod.findings if f.severity == "fault"] == []


def test_the_link_from_the_batten_to_the_carcass_closes_by_its_own_fixings():
    rod = hung(GROOVED, "contents = { kg = 30 }")
    link = next(x for x in load(rod).cabinets[0].hanging.chain.links if x.name == "hanging joint to the carcass")
    assert link.margin is None
    assert "dowel" in link.asks
    known = replace(rod, tested={"dowel": figures()})
    link = next(x for x in load(known).cabinets[0].hanging.chain.links if x.name == "hanging joint to the carcass")
    assert link.margin is not None


def test_the_wall_screws_stand_in_the_middle_of_the_walls_half():
    rod = hung(GROOVED)
    low, high = box(only(rod).part["wall batten"])
    assert load(rod).cabinets[0].hanging.down_mm == pytest.approx(720 - (low[2] + high[2]) / 2)


def test_all_three_boards_are_sawn_bought_and_marked():
    cabinet = only(hung(GROOVED))
    marks = {p.marks for p in cabinet.parts if p.role == "batten"}
    assert len(marks) == 3
    assert [p.in_box for p in cabinet.parts if p.role == "batten"] == [True, False, False]


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        (['hanging = { style = "split batten", baten = 90 }'], "Did you mean batten?"),
        (['hanging = { style = "split batten", batten = nan }'], "hanging.batten"),
        (['hanging = { style = "split batten", batten = -1 }'], "under 40 mm"),
        (['hanging = { style = "fixing rail", batten = 90 }'], 'style = "split batten"'),
        (['hanging = { style = "split batten", batten = 90, batten_board = "birch17" }'], "Did you mean"),
        ([GROOVED.replace("22", "10"), 'hanging = { style = "split batten", batten = 90 }'], "void of 20.6 to 22.6"),
        ([GROOVED.replace("grooved", "rebated"), 'hanging = { style = "split batten", batten = 90 }'], "into grooves"),
        (['hanging = { style = "split batten", batten = 90 }'], "there is none"),
        (
            [
                GROOVED,
                "rails = { fixing = 90, behind_back = true }",
                'hanging = { style = "split batten", batten = 90 }',
            ],
            "behind_back = false",
        ),
        ([GROOVED, 'hanging = { style = "split batten", batten = 45 }'], "52.8 high or more"),
        ([GROOVED, 'hanging = { style = "split batten", batten = 300 }'], "four times as high"),
    ],
)
def test_what_cannot_be_is_refused_with_a_way_to_mend_it(lines, says):
    assert says in refused(*lines)


def test_a_recipe_that_lets_boards_in_is_refused_for_a_batten():
    said = refused(GROOVED, HUNG, 'rail_joint = "tongues"', more=WALL)
    assert "tongues lets it in" in said
    assert "rail_joint" in said
