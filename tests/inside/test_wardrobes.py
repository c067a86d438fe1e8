"""Wardrobes and their clothes rails: a tube between two uprights, in sockets bored by their maker's sheet.

The middle of the tube 60 below the board above and in the middle of the depth: common practice, no source. All other figures of a
tube and its sockets are their supplier's; those here are invented.
"""

from dataclasses import replace

import pytest

from rodwork.documents.assembly import assembly_pages
from rodwork.documents.boards import board_pages
from rodwork.documents.buying_list import buying_rows
from rodwork.documents.drawing import Text
from rodwork.documents.inside_pages import inside_pages
from rodwork.documents.load_pages import load_pages
from rodwork.job.faults import JobFaults
from rodwork.model.rod import Rod
from rodwork.pipeline import load, set_out
from rodwork.setout.proof import prove
from tests.geometry.overlap import overlaps, struck
from tests.inside.inside_samples import refused as refused_job
from tests.inside.inside_samples import rod_of_text, text_of

T = 17.6
SIZE = 'kind = "wardrobe"\nwidth = 1200\nheight = 2000\ndepth = 600\nboard = "birch18"\n'
BACK = 'back = { board = "birch6", style = "grooved in the sides", void = 10 }'
SHEET = (
    "clothes_rails = { opening = 1, diameter = 25, below = 75, from_front = 270, socket = { high = 44, wide = 30, reach = 20, "
    "play = 3.5, bore = 4, depth = 7, bores = [{ up = 14, forward = 11 }, { up = 14, forward = -11 }, { up = -17 }] } }"
)
SPACES = ['openings = ["rest", 300]', "dividers = 1"]


def hung(*lines, size=SIZE):
    return rod_of_text(*lines, size=size)


def only(rod):
    (cabinet,) = rod.cabinets
    return cabinet


def refused(*lines):
    return refused_job(*lines, size=SIZE)


def sockets(part):
    return [f for f in part.features if f.role == "clothes_rail"]


def in_cabinet(part):
    """(across, from the front, up) of the bores of sockets in a board."""
    return sorted(tuple(round(v, 3) for v in part.pose.to_cabinet(f.at)) for f in sockets(part))


@pytest.mark.parametrize("sides", ["through", "between", "under the top"])
@pytest.mark.parametrize("rails", ["clothes_rails = { opening = 1 }", SHEET])
def test_it_is_proven_and_both_ends_mirror_each_other(sides, rails):
    rod = hung(BACK, *SPACES, f'sides = "{sides}"', rails)
    assert prove(rod) == ()
    assert not [f for f in rod.findings if f.severity == "fault"]
    cabinet = only(rod)
    assert overlaps(cabinet) == []
    left, right = (in_cabinet(cabinet.part[name]) for name in ("left side", "right side"))
    assert left
    assert sorted((round(1200 - x, 3), y, z) for x, y, z in left) == right


def test_every_figure_of_the_sheet_is_found_where_it_says():
    """The shelf over opening 1 is 2000 - 17.6 - 300 - 17.6 = 1664.8 up; 75 below that, to the half millimetre of a fence."""
    cabinet = only(hung(BACK, *SPACES, SHEET))
    first, second = cabinet.clothes_rails
    clear = (1200 - 3 * T) / 2
    assert [r.length for r in (first, second)] == [int(clear - 7)] * 2
    assert first.middle == pytest.approx((T + clear / 2, 270.0, 1590.0))
    assert second.middle == pytest.approx((1200 - T - clear / 2, 270.0, 1590.0))
    assert first.high[2] - first.low[2] == first.high[1] - first.low[1] == 25.0
    assert first.under == pytest.approx(1590 - 12.5 - T)
    assert in_cabinet(cabinet.part["left side"]) == [(T, 259.0, 1604.0), (T, 270.0, 1573.0), (T, 281.0, 1604.0)]
    assert {(f.diameter, f.depth) for f in sockets(cabinet.part["left side"])} == {(4.0, 7.0)}
    assert (first.uprights, second.uprights) == (("left side", "divider"), ("divider", "right side"))


def test_left_to_itself_it_stands_sixty_down_and_in_the_middle_of_the_room():
    """Room from the front to the back; behind inset doors, 17.6 thick, from their inside."""
    cabinet = only(hung('back = { board = "birch18", style = "inset" }', "clothes_rails = {}"))
    assert cabinet.clothes_rails[0].middle[2] == pytest.approx(2000 - T - 60, abs=0.25)
    room = 600 - T
    assert cabinet.clothes_rails[0].middle[1] == pytest.approx(room / 2, abs=0.25)
    inset = only(
        hung(
            'back = { board = "birch18", style = "inset" }',
            "clothes_rails = {}",
            'doors = { hung = "pair", style = "inset" }',
        )
    )
    assert inset.clothes_rails[0].middle[1] == pytest.approx((T + room) / 2, abs=0.25)


def test_a_divider_with_sockets_on_both_faces_is_bored_half_way_from_each():
    both = only(hung(BACK, *SPACES, "clothes_rails = { opening = 1 }"))
    one = only(hung(BACK, *SPACES, "clothes_rails = { opening = 1, bays = [1] }"))
    assert {f.depth for f in sockets(both.part["divider"])} == {7.0}  # (17.6 - 3) / 2, down to a half
    assert (
        {f.depth for f in sockets(one.part["divider"])} == {f.depth for f in sockets(both.part["left side"])} == {12.0}
    )


def test_loose_shelves_stand_in_the_bays_that_have_no_rail():
    cabinet = only(hung(BACK, *SPACES, "loose_shelves = [3, 0]", "clothes_rails = { opening = 1, bays = [2] }"))
    shelves = [p.box for p in cabinet.parts if p.role == "loose shelf"]
    assert len(shelves) == 3
    assert all(high[0] < 600 for _, high in shelves)
    assert {i.item: i.count for i in cabinet.hardware}["shelf pin 5 mm"] == 12


def test_two_rails_one_over_another_take_the_height_between_them():
    cabinet = only(hung(BACK, "clothes_rails = [{ }, { below = 1050 }]"))
    upper, lower = cabinet.clothes_rails
    assert upper.under == pytest.approx(upper.low[2] - lower.high[2])
    assert lower.under == pytest.approx(lower.low[2] - T)


def test_tubes_and_sockets_are_bought_to_the_piece():
    rod = hung(BACK, *SPACES, "count = 2", SHEET.replace("socket =", "supports = 1, socket ="))
    bought = {row.item: row.buy for row in buying_rows(rod) if "clothes" in row.item}
    assert bought == {
        "clothes rail, round 25, cut to 566": 4,
        "clothes rail socket, round 25": 8,
        "clothes rail middle support, round 25": 4,
    }


def said(pages, title):
    return [s.text for p in pages if title in p.title for s in p.shapes if isinstance(s, Text)]


def test_the_papers_show_it():
    rod = hung(BACK, *SPACES, "clothes_rails = { opening = 1, bays = [1], supports = 1 }")
    open_ = " ".join(said(inside_pages(rod), "open"))
    rail = only(rod).clothes_rails[0]
    assert f"rail {rail.length:g}, middle {rail.middle[2]:g}" in open_
    assert "Clothes rail in bay 1: oval 30 x 15, cut to 569" in open_
    assert "1 middle support" in open_
    assert "socket bores 5" in said(board_pages(rod), "SIDE")
    assert any("push a socket on to both its ends" in text for text in said(assembly_pages(rod), "Assembly"))


def test_the_load_says_that_clothes_are_left_out():
    rod = hung(BACK, *SPACES, "clothes_rails = { opening = 1 }")
    loading = load(rod)
    assert "No figure for clothes" in loading.cabinets[0].left_out[0]
    assert any("what hangs on the clothes rails" in text for text in said(load_pages(rod, loading), "Will it hold"))
    bare = hung(BACK, *SPACES)
    assert load(bare).cabinets[0].left_out == ()
    assert load(bare).cabinets[0].tipping == loading.cabinets[0].tipping
    assert loading.cabinets[0].tipping is not None


def test_the_set_out_is_the_same_when_it_is_read_again():
    rod = hung(BACK, *SPACES, SHEET)
    assert Rod.from_dict(rod.to_dict()) == rod


def moved_bore(rod, part_id, n, by):
    """The set-out with one socket's bore moved, in board and settings alike."""
    cabinet = only(rod)
    part = cabinet.part[part_id]
    old = sockets(part)[n]
    new = replace(old, at=tuple(a + b for a, b in zip(old.at, by, strict=True)))
    parts = tuple(
        replace(p, features=tuple(new if f.id == old.id else f for f in p.features)) if p.id == part_id else p
        for p in cabinet.parts
    )
    return replace(rod, cabinets=(replace(cabinet, parts=parts),))


def test_a_socket_that_its_other_end_does_not_look_at_is_no_proven_rail():
    rod = hung(BACK, *SPACES, "clothes_rails = { opening = 1, bays = [1] }")
    cabinet = only(rod)
    rail = cabinet.clothes_rails[0]
    crossed = replace(rail, bores=(rail.bores[0], rail.bores[1][::-1]))
    (first, *_) = prove(replace(rod, cabinets=(replace(cabinet, clothes_rails=(crossed,)),)))
    assert first.cause == "pair"
    assert "not equally high" in first.message
    long_ = replace(rail, high=(rail.high[0] + 5, *rail.high[1:]))
    assert "too long" in prove(replace(rod, cabinets=(replace(cabinet, clothes_rails=(long_,)),)))[0].message
    lost = replace(rail, bores=(rail.bores[0], ("nowhere", "no more")))
    assert "has no bore nowhere" in prove(replace(rod, cabinets=(replace(cabinet, clothes_rails=(lost,)),)))[0].message
    assert prove(moved_bore(rod, "left side", 0, (3.0, 0.0, 0.0))) != ()


def test_bores_that_meet_others_are_found():
    """Concealed in a divider 12 deep from both faces, at one place: 24 of 17.6."""
    deep = hung(BACK, *SPACES, "clothes_rails = { opening = 1, socket = { depth = 12 } }")
    found = [f for f in deep.findings if f.code == "machining-that-meets"]
    assert found[0].severity == "fault"
    assert "socket bore" in found[0].message
    pins = "pins = { front = 280 }\nloose_shelves = [4, 0]\nclothes_rails = { opening = 1, bays = [1], below = 260, socket = { bores = [{ up = 0 }] } }"
    assert [f for f in hung(BACK, *SPACES, *pins.splitlines()).findings if f.code == "machining-that-meets"]


def test_a_wardrobe_has_no_worktop_over_it():
    run = '[runs.wall]\nof = ["it", "low"]\nworktop = { board = "birch18", joint = "dowels" }\n'
    low = '[cabinets.low]\nkind = "base"\nwidth = 600\nheight = 720\ndepth = 600\nboard = "birch18"\njoint = "dowels"\n'
    made = set_out(text_of("clothes_rails = {}", size=SIZE) + low + run, "it.toml")
    assert [s.under_worktop for s in made.runs[0].standings] == [False, True]


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        (["clothes_rails = { opening = 3 }"], "opening 3 is asked for, and there are 2 Write a number from 1 to 2"),
        (["clothes_rails = { opening = 1, bays = [3] }"], "bay 3 is asked for, and there are 2"),
        (["clothes_rails = { opening = 2 }", "loose_shelves = [0, 1]"], "opening 2 of bay 1 has loose shelves and a clothes rail"),
        (["clothes_rails = { opening = 1, bays = [1] }", 'drawers = { number = 2, opening = 1, bottom_board = "birch6" }'], "opening 1 of bay 1 has drawers and a clothes rail"),
        (["clothes_rails = { opening = 2, below = 120 }"], "300.0 high, which leaves 165.0 under a clothes rail Make that opening 335 or more"),
        (["clothes_rails = { opening = 1, below = 30 }"], "Write below = 35 or more"),
        (["clothes_rails = { opening = 1, from_front = 10 }"], "a socket 22 wide, 10 from the front, reaches out of the room"),
        (["clothes_rails = { opening = 1, from_front = 590 }"], "reaches out of the room"),
        (["clothes_rails = { opening = 1, socket = { bores = [{ up = 70 }] } }"], "the bore 70 up and 0 forward is outside the opening"),
        (["clothes_rails = [{ opening = 1 }, { opening = 1, below = 160 }]"], "two clothes rails of opening 1 have 70 between"),
        (["clothes_rails = [{ opening = 1 }, { opening = 1 }]"], "two clothes rails of opening 1 have 0 between"),
        (["clothes_rails = [{ opening = 1 }, { opening = 1, below = 900, supports = 1 }]"], "another rail is between"),
    ],
)  # fmt: skip
def test_what_leaves_no_room_is_refused_with_a_way_to_mend_it(lines, says):
    assert says in refused(*SPACES, BACK, *lines)


@pytest.mark.parametrize(
    "above",
    ["rails = { top_front = 80, top_back = 80 }", 'kind = "under slope"\nroof = { falls = "left", low = 1400 }'],
)
def test_a_middle_support_wants_a_level_board_above_it(above):
    size = SIZE.replace('kind = "wardrobe"\n', "") if "slope" in above else SIZE
    rail = "clothes_rails = { supports = 1 }"
    assert "hangs from the board above" in refused_job(*above.splitlines(), rail, size=size)
    under_a_shelf = rail.replace("supports", "opening = 1, supports")
    assert prove(rod_of_text(*above.splitlines(), "fixed_shelves = 1", under_a_shelf, size=size)) == ()


def test_under_a_slope_it_keeps_below_the_lowest_point_and_meets_no_board():
    size = SIZE.replace("wardrobe", "under slope")
    cabinet = only(
        rod_of_text('roof = { falls = "left", low = 1400 }', "dividers = 1", "clothes_rails = { }", size=size)
    )
    lowest = min(z for p in cabinet.parts if p.role == "top" for z in (p.pose.to_cabinet(c)[2] for c in corners(p)))
    for rail in cabinet.clothes_rails:
        assert rail.high[2] < lowest
        assert struck(cabinet, rail) == []


def corners(part):
    return [(x, y, z) for x in (0.0, part.size[0]) for y in (0.0, part.size[1]) for z in (0.0, part.size[2])]


def test_a_bay_too_narrow_is_refused_with_the_width_that_would_do():
    assert "make it 132 or more" in refused('bays = [130, "rest"]', "clothes_rails = { bays = [1] }").lower()
    only(hung('bays = [132, "rest"]', "clothes_rails = { bays = [1] }"))


def test_the_opening_of_an_appliance_is_not_for_clothes():
    drier = "[appliances.drier]\nwidth = 595\nheight = 800\ndepth = 500\n"
    size = SIZE.replace("width = 1200\n", "")
    text = 'appliance = { of = "drier", opening = 1 }', "fixed_shelves = 1", "clothes_rails = { opening = 1 }"
    assert "houses an appliance" in refused_job(*text, size=size, more=drier)
    assert rod_of_text(*text[:2], "clothes_rails = { opening = 2 }", size=size, more=drier)


@pytest.mark.parametrize(
    ("rails", "says"),
    [
        ("{ diameter = 25, oval = [30, 15] }", "diameter and oval say the same thing in two ways"),
        ("{ socket = { play = 8 } }", "Write reach = 17 or more"),
        ("{ diameter = 40, socket = { wide = 38 } }", "a socket 38 wide holds no tube 40 wide Write wide = 40 or more"),
        ("{ socket = { high = 20 } }", "a socket 20 high holds no tube 30 high"),
        ("{ openning = 1 }", "Did you mean opening?"),
        ("{ socket = { bore = -1 } }", "bore"),
        ("{ socket = { bores = [{ forward = 3 }] } }", "up"),
        ("{ socket = { bores = [{ up = 16, foreward = 3 }] } }", "Did you mean forward?"),
        ("{ socket = 5 }", "table"),
        ("{ below = nan }", "below"),
        ("{ from_front = 1e9 }", "from_front"),
        ("{ diameter = 200 }", "diameter"),
        ("{ oval = [30] }", "oval"),
        ("{ clothes = 'coats' }", "clothes"),
        ("{ supports = 1.5 }", "supports"),
        ("{ opening = 0 }", "opening"),
        ("{ bays = [1, 1] }", "bays"),
        ("true", "clothes_rails"),
    ],
)
def test_wrong_words_are_told_at_their_line(rails, says):
    text = text_of(BACK, f"clothes_rails = {rails}", size=SIZE)
    with pytest.raises(JobFaults) as problem:
        set_out(text, "it.toml")
    (fault,) = problem.value.faults
    assert says in f"{fault.what} {fault.mend}"
    assert fault.mend
    assert fault.line == next(n for n, line in enumerate(text.splitlines(), 1) if line.startswith("clothes_rails"))
