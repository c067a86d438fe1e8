"""Part-height dividers: uprights in one opening, between the board below it and the board above. Sizes are invented."""

import pytest

from rodwork.checks.registry import run_checks
from rodwork.documents.assembly_order import assembly_steps
from rodwork.job.faults import JobFaults
from rodwork.pipeline import dry_fit, load, set_out
from rodwork.setout.proof import prove
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps
from tests.texts import HEAD, joint

T = 17.6
SIZE = 'kind = "bookcase"\nwidth = 1000\nheight = 1500\ndepth = 320\nboard = "birch18"\n'
BACK = 'back = { board = "birch6", style = "grooved all round" }'
THREE = 'openings = [300, 400, "rest"]'
PEGS = joint("pegs", '"dowel"')


def text(*lines, joints=PEGS):
    return f'{HEAD}{joints}\n[cabinets.post]\njoint = "pegs"\n{SIZE}' + "\n".join((BACK, *lines)) + "\n"


def post(*lines, **said):
    rod = set_out(text(*lines, **said), "post.toml")
    assert [f.message for f in prove(rod)] == []
    (cabinet,) = rod.cabinets
    assert overlaps(cabinet) == []
    return cabinet


def refused(*lines):
    with pytest.raises(JobFaults) as problem:
        set_out(text(*lines), "post.toml")
    return " | ".join(f"{f.what}. {f.mend}" for f in problem.value.faults)


def reach(part, axis):
    low, high = part.box
    return round(low[axis], 3), round(high[axis], 3)


def parted(cabinet):
    return [p for p in cabinet.parts if p.role == "part divider"]


def test_they_stand_between_the_boards_of_their_opening_and_share_its_width():
    c = post(THREE, "part_dividers = { opening = 2, number = 2 }")
    one, two = parted(c)
    each = (1000 - 4 * T) / 3
    assert [[mark[-4:] for mark in p.marks] for p in (one, two)] == [["-PD1"], ["-PD2"]]
    assert reach(one, 2) == reach(two, 2) == (335.2, 735.2)  # 17.6 + 300 + 17.6, and 400 more
    assert (one.box[0][0], two.box[0][0]) == pytest.approx((T + each, 2 * T + 2 * each), abs=1e-3)
    assert reach(one, 1) == (0.0, c.part["fixed shelf 1"].box[1][1])


def test_written_widths_come_from_the_left():
    c = post(THREE, 'part_dividers = { opening = 1, widths = [250, "rest", 300] }')
    assert [reach(p, 0)[0] for p in parted(c)] == [T + 250, 1000 - T - 300 - T]


def test_each_is_joined_to_the_board_below_and_to_the_one_above():
    c = post(THREE, "part_dividers = [{ opening = 1 }, { opening = 2 }, { opening = 3 }]")
    met = {tuple(j.parts) for j in c.joints if "part divider" in j.parts[1]}
    assert met == {
        ("bottom", "part divider 1"), ("fixed shelf 1", "part divider 1"),
        ("fixed shelf 1", "part divider 2"), ("fixed shelf 2", "part divider 2"),
        ("fixed shelf 2", "part divider 3"), ("top", "part divider 3"),
    }  # fmt: skip


@pytest.mark.parametrize("family", ["dowel", "biscuit", "loose tenon", "cam", "housing"])
def test_one_over_another_on_both_faces_of_a_shelf_they_go_home(family):
    joints = PEGS + joint("inner", f'"{family}"')
    lines = (THREE, 'divider_joint = "inner"', "part_dividers = [{ opening = 1 }, { opening = 2 }]")
    c = post(*lines, joints=joints)
    assert connectors_that_do_not_go_home(c) == []
    assert {f.family for j in c.joints if j.contact.place == "divider" for f in j.fixings} == {family}


def test_screws_go_through_a_shelf_where_no_other_stands_on_its_other_face():
    joints = PEGS + joint("inner", '"screw"')
    lines = (THREE, 'divider_joint = "inner"')
    c = post(*lines, "part_dividers = { opening = 2 }", joints=joints)
    assert connectors_that_do_not_go_home(c) == []
    with pytest.raises(JobFaults, match="stands on the other face"):
        set_out(text(*lines, "part_dividers = [{ opening = 1 }, { opening = 2 }]", joints=joints), "post.toml")


def test_behind_an_inset_door_they_stand_back_as_the_shelves_do():
    c = post('doors = { hung = "left", style = "inset" }', "part_dividers = {}")
    (one,) = parted(c)
    assert one.box[0][1] == pytest.approx(T + 3)


def test_turned_round_they_stand_as_in_a_mirror():
    a = [reach(p, 0) for p in parted(post(THREE, 'part_dividers = { opening = 2, widths = [200, "rest", 350] }'))]
    b = [reach(p, 0) for p in parted(post(THREE, 'part_dividers = { opening = 2, widths = [350, "rest", 200] }'))]
    assert sorted((round(1000 - x1, 3), round(1000 - x0, 3)) for x0, x1 in b) == a


def test_in_one_bay_alone():
    c = post('bays = [400, "rest"]', 'openings = [[300, "rest"], [500, "rest"]]',
             "part_dividers = { opening = 1, bays = [2] }")  # fmt: skip
    (one,) = parted(c)
    assert reach(one, 2) == (T, T + 500)


def test_every_board_goes_in_in_some_order():
    c = post(THREE, "part_dividers = [{ opening = 1, number = 2 }, { opening = 2 }]")
    steps = assembly_steps(c)
    assert {id for step in steps for id in step.new} >= {p.id for p in parted(c)}


def test_one_that_stands_on_the_bottom_carries_the_shelf_over_it():
    """Half the span: a beam over two equal spans sags far less than one over both (Euler and Bernoulli's beam)."""
    lines = (THREE, "contents = { kg_per_m2 = 60 }")
    alone, held = (
        {s.part: s for s in load(set_out(text(*lines, *more), "p.toml")).cabinets[0].shelves}["fixed shelf 1"]
        for more in ((), ("part_dividers = { opening = 1 }",))
    )
    assert held.spans == 2
    assert held.new_mm < 0.2 * alone.new_mm


def test_one_that_stands_on_a_shelf_carries_nothing_and_brings_its_share_down():
    """It gives way with its shelf: the shelf over it is reckoned without it, the shelf under it with what it brings."""
    lines = (THREE, "contents = { kg_per_m2 = 60 }")
    alone, held = (
        {s.part: s for s in load(set_out(text(*lines, *more), "p.toml")).cabinets[0].shelves}
        for more in ((), ("part_dividers = { opening = 2 }",))
    )
    assert held["fixed shelf 2"].new_mm == pytest.approx(alone["fixed shelf 2"].new_mm)
    assert held["fixed shelf 1"].new_mm > 1.5 * alone["fixed shelf 1"].new_mm


def test_one_over_another_they_bring_down_what_is_over_both():
    lines = (THREE, "contents = { kg_per_m2 = 60 }")
    one, two = (
        {s.part: s for s in load(set_out(text(*lines, f"part_dividers = [{said}]"), "p.toml")).cabinets[0].shelves}
        for said in ("{ opening = 1 }", "{ opening = 1 }, { opening = 2 }")
    )
    assert two["bottom"].new_mm > one["bottom"].new_mm


def test_the_dry_fit_reckons_them():
    rod = set_out(text(THREE, "part_dividers = { opening = 2, number = 2 }"), "post.toml")
    assert 0.0 <= dry_fit(rod, samples=40).cabinets[0].chance <= 1.0


def test_in_ordinary_board_no_check_stops_it():
    rod = set_out(text(THREE, "part_dividers = [{ opening = 1 }, { opening = 2, number = 2 }]"), "post.toml")
    assert [f.message for f in run_checks(rod) if f.severity == "fault"] == []


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ((THREE, "part_dividers = { opening = 4 }"), "there are 3"),
        ((THREE, "part_dividers = { opening = 1, bays = [2] }"), "bay 2 is asked for, and there are 1"),
        ((THREE, "loose_shelves = 1", "part_dividers = { opening = 1 }"), "part-height dividers and loose shelves"),
        ((THREE, 'drawers = { number = 2, bottom_board = "birch6", opening = 2 }', "part_dividers = { opening = 2 }"),
         "part-height dividers and drawers"),
        ((THREE, "clothes_rails = {}", "part_dividers = {}"), "part-height dividers and a clothes rail"),
        ((THREE, "part_dividers = [{ opening = 1 }, { opening = 1 }]"), "dividers of another table too"),
        ((THREE, "part_dividers = { opening = 1, number = 2, widths = [200, 300] }"), "in two ways"),
        ((THREE, "part_dividers = { opening = 1, widths = [940, 'rest'] }"), "the widths do not fit"),
        ((THREE, "part_dividers = { opening = 1, numer = 2 }"), "number"),
        ((THREE, "part_dividers = { opening = 1, number = 0 }"), "number"),
        ((THREE, "part_dividers = 2"), "part_dividers"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(lines, told):
    assert told in refused(*lines)


def test_under_rails_there_is_no_board_for_them():
    said = text("rails = { top_front = 80, top_back = 80 }", "part_dividers = {}").replace(BACK, 'back = "open"')
    with pytest.raises(JobFaults, match="rails stand over"):
        set_out(said, "post.toml")


def test_a_stiffener_does_not_hang_into_one():
    assert "part divider" in refused(THREE, "part_dividers = { opening = 1 }", "stiffeners = { depth = 40 }")
