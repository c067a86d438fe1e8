"""Hanging brackets that are drawn: bores in both sides, the back cut away for the hooks, the rail on the wall.

A notch or void behind the back of 15 to 20 for hook and rail: common practice, no source. All other figures of a bracket are
its supplier's; those here are invented.
"""

import pytest

from rodwork.documents.boards import board_pages
from rodwork.documents.buying_list import buying_rows
from rodwork.documents.drawing import Text
from rodwork.geometry.prismatoid import moments
from rodwork.job.faults import JobFaults
from rodwork.pipeline import load, set_out
from rodwork.setout.proof import prove
from tests.geometry.overlap import overlaps
from tests.inside.inside_samples import GROOVED, box, refused, rod_of_text, text_of

T = 17.6
HOOKS = 'hanging = { style = "brackets", wall = "kitchen", bracket = {} }'
SHEET = (
    'hanging = { style = "brackets", bracket = { high = 70, wide = 24, deep = 50, below = 5, hook = 41, void = 20, bore = 10, '
    "depth = 13, notch = 66, notch_wide = 36, rail_short = 25, bores = [{ down = 20, forward = 30 }, { down = 52, forward = 30 }] } }"
)
WALL = '[walls.kitchen]\nkind = "brick"\npull_kn = 0.6\nshear_kn = 0.9\nsource = "own test"\n'
ROUND = GROOVED.replace("in the sides", "all round")


def hung(*lines, hooks=HOOKS, **kw):
    return rod_of_text('kind = "wall"', hooks, *lines, more=WALL, **kw)


def only(rod):
    (cabinet,) = rod.cabinets
    return cabinet


def bores(part):
    return [f for f in part.features if f.role == "hanging"]


@pytest.mark.parametrize("back", [GROOVED, ROUND])
@pytest.mark.parametrize("hooks", [HOOKS, SHEET])
def test_it_is_proven_shares_no_wood_and_both_hands_mirror_each_other(back, hooks):
    rod = hung(back, "fixed_shelves = 1", hooks=hooks)
    assert prove(rod) == ()
    assert not [f for f in rod.findings if f.severity == "fault"]
    cabinet = only(rod)
    assert overlaps(cabinet) == []
    left, right = (
        sorted(tuple(p.pose.to_cabinet(f.at)) for f in bores(p)) for p in map(cabinet.part.get, ("left side", "right side"))
    )  # fmt: skip
    assert left
    assert [(round(600 - x, 6), y, z) for x, y, z in left] == right


def test_every_figure_of_the_sheet_is_found_where_it_says():
    """Under the top at 720 - 17.6 = 702.4, before a back whose front is at 560 - 22 - 5.8 less half the groove's play."""
    cabinet = only(hung(GROOVED, hooks=SHEET))
    front_of_back = box(cabinet.part["back"])[0][1]
    for one, x in zip(cabinet.brackets, (T, 600 - T - 24), strict=True):
        assert one.low == pytest.approx((x, front_of_back - 50, 702.4 - 75))
        assert one.high == pytest.approx((x + 24, front_of_back, 702.4 - 5))
        assert one.line == pytest.approx(702.4 - 41)
    at = [cabinet.part["left side"].pose.to_cabinet(f.at) for f in bores(cabinet.part["left side"])]
    assert [z for _, _, z in at] == pytest.approx([682.5, 650.5])  # 20 and 52 down, to the half millimetre of a fence
    assert [y for _, y, _ in at] == pytest.approx([front_of_back - 30] * 2, abs=0.25)
    assert {(f.diameter, f.depth) for f in bores(cabinet.part["left side"])} == {(10.0, 13.0)}


@pytest.mark.parametrize(("back", "corners", "from_z"), [(GROOVED, 12, 720 - T), (ROUND, 8, None)])
def test_the_back_is_cut_away_for_the_hooks_and_keeps_what_holds_it(back, corners, from_z):
    """Behind the top it keeps the strip that its screws go through; in a groove of the top its corners go."""
    cabinet = only(hung(back, hooks=SHEET))
    board = cabinet.part["back"]
    assert len(board.outline) == corners
    area = moments(board.outline)[0]
    (x0, _, z0), (x1, _, z1) = box(board)
    reach = T - x0
    high = 66.0 if from_z else 66.0 + z1 - (720 - T)
    assert area == pytest.approx((x1 - x0) * (z1 - z0) - 2 * (36 + reach) * high)
    for f in board.features:
        x, _, z = board.pose.to_cabinet(f.at)
        assert not (720 - T - 66 < z < 720 - T and (x < T + 36 or x > 600 - T - 36)), f.id


def test_the_rail_is_on_the_wall_at_its_line_and_on_the_buying_list():
    rod = hung(GROOVED, hooks=SHEET.replace('"brackets",', '"brackets", wall = "kitchen",'))
    hanging = load(rod).cabinets[0].hanging
    assert hanging.down_mm == pytest.approx(720 - 702.4 + 41)
    assert any(link.name == "hanging bracket" for link in hanging.chain.links)
    assert "58.6 below the top" in " ".join(hanging.words)
    bought = {row.item: row.buy for row in buying_rows(rod)}
    assert bought["hanging bracket, left"] == bought["hanging bracket, right"] == 1
    assert bought["wall rail for hanging brackets, 514.8 long"] == 1  # 600 - 2 x 17.6 - 2 x 25


def test_the_board_s_page_tells_its_notches():
    said = [s.text for p in board_pages(hung(GROOVED)) if "BACK" in p.title for s in p.shapes if isinstance(s, Text)]
    assert any(text == "35.5 in from the edge" for text in said)
    assert any("17.6 to 67.6 from the TOP end" in text for text in said)


def test_without_a_back_the_brackets_stand_before_their_rail():
    cabinet = only(hung())
    assert cabinet.brackets[0].high[1] == pytest.approx(560 - 15)


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ([GROOVED.replace("22", "14")], "want 15 behind the back, and there is 14"),
        ([GROOVED.replace("grooved", "rebated")], "Let it into grooves"),
        (['back = { board = "birch6", style = "planted" }'], "Let it into grooves"),
        ([GROOVED, "rails = { fixing = 90 }"], "where the brackets stand"),
        ([GROOVED, "rails = { fixing = 90, behind_back = true }"], "in the void"),
        ([GROOVED, 'openings = ["rest", 70]'], "82 or more"),
    ],
)
def test_what_leaves_no_room_is_refused_with_a_way_to_mend_it(lines, says):
    assert says in refused('kind = "wall"', HOOKS, *lines, more=WALL)


def test_a_cabinet_too_narrow_for_two_is_refused():
    size = 'width = 190\nheight = 720\ndepth = 560\nboard = "birch18"\n'
    assert "195.2 wide or more" in refused(HOOKS, GROOVED, size=size, more=WALL)


@pytest.mark.parametrize(
    ("hooks", "says"),
    [
        ('{ style = "split batten", bracket = {} }', 'Write style = "brackets"'),
        ('{ style = "brackets", from_top = 40, bracket = {} }', "Leave from_top out"),
        ('{ style = "brackets", bracket = { hihg = 60 } }', "Did you mean high?"),
        ('{ style = "brackets", bracket = { high = nan } }', "high"),
        ('{ style = "brackets", bracket = { deep = -5 } }', "deep"),
        ('{ style = "brackets", bracket = { wide = 1e9 } }', "wide"),
        ('{ style = "brackets", bracket = { bores = [{ down = 16 }] } }', "forward"),
        ('{ style = "brackets", bracket = 60 }', "table"),
    ],
)
def test_wrong_words_are_told_at_their_line(hooks, says):
    text = text_of('kind = "wall"', GROOVED, f"hanging = {hooks}")
    with pytest.raises(JobFaults) as problem:
        set_out(text, "it.toml")
    (fault,) = problem.value.faults
    assert says in f"{fault.what} {fault.mend}"
    assert fault.line == next(n for n, line in enumerate(text.splitlines(), 1) if line.startswith("hanging"))
