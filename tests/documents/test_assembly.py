"""Assembly: an order that works, proven by moving the real solids, and pages that tell it."""

import re
from dataclasses import replace
from math import hypot
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from page_laws import check_pages
from samples import PAPERS, SAMPLES, sample
from tests.building import back, cabinet, job, recipe, rod, rod_of
from tests.cabinets import built
from tests.texts import HEAD

from rodwork.checks.registry import run_checks
from rodwork.documents.assembly import MOST_PICTURES, assembly_pages, closing, diagonals, pictures
from rodwork.documents.assembly_order import NoOrder, assembly_steps
from rodwork.documents.drawing import Path_, Text
from rodwork.documents.solids import part_solid
from rodwork.geometry.vec import scale
from rodwork.model.fixing import Move
from rodwork.pipeline import set_out

BACKS = ("grooved all round", "grooved in the sides", "rebated", "rebated in the sides", "planted", "inset")


def texts(page):
    return " ".join(s.text for s in page.shapes if isinstance(s, Text))


def one(**changes):
    return rod(**changes).cabinets[0]


def standing(part):
    """The real solid of a board, bores and all, where it stands in its cabinet."""
    r, o = part.pose.rotation, part.pose.origin
    return part_solid(part, 8).transform([[*row, o[i]] for i, row in enumerate(r)])


def clashes(cabinet_):
    """Steps whose boards run into wood on the way home: by booleans of the machined solids, not by boxes."""
    solid = {p.id: standing(p) for p in cabinet_.parts}
    found = []
    for step in assembly_steps(cabinet_):
        for mm in (2.0, 7.0, 20.0, 60.0, 180.0, 540.0):
            for new in step.new:
                on_its_way = solid[new].translate(scale(step.push, -mm))
                for there in step.there:
                    if (on_its_way ^ solid[there]).volume() > 30.0:  # a brush of 0.01 x 3000 mm
                        found.append((new, there, mm))
    return found


def wrong_way(cabinet_):
    """Dowelled joints that a step would close in another direction than their dowels go in."""
    found = []
    for step in assembly_steps(cabinet_):
        for joint in cabinet_.joints:
            if joint.id in step.joints:
                sign = 1.0 if joint.parts[1] in step.new else -1.0
                for fixing in joint.fixings:
                    if fixing.law == "meet" and scale(fixing.motion[-1].push, sign) != pytest.approx(step.push):
                        found.append((joint.id, step.push))
    return found


@pytest.mark.parametrize("sides", ["through", "between"])
@pytest.mark.parametrize("style", [*BACKS, None])
def test_every_board_reaches_its_home_without_passing_through_another(style, sides):
    c = one(
        sides=sides, back=back(style) if style else None, bays=("rest", 200.0), shelf_joint=recipe("housing"),
        divider_joint=recipe("dowel"),
    )  # fmt: skip
    assert clashes(c) == []
    assert wrong_way(c) == []


@given(built())
@settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
def test_an_order_is_found_for_any_cabinet_and_no_dowel_goes_in_sideways(made):
    c = made.rod.cabinets[0]
    assume(not any(f.code == "slide-blocked" for f in run_checks(made.rod)))  # there is none: the checks say STOP
    assume(not any(j.contact.place == "mitre" for j in c.joints))  # they close at once: test_assembly_at_once.py
    steps = assembly_steps(c)
    assert {*steps[-1].there, *steps[-1].new} == {p.id for p in c.parts}
    assert sorted(j for s in steps for j in s.joints) == sorted(j.id for j in c.joints)
    assert wrong_way(c) == []
    assert len(pictures(c, steps)) < MOST_PICTURES


def test_a_back_grooved_all_round_goes_in_before_the_last_board_closes_it():
    for sides in ("through", "between"):
        order = [i for s in assembly_steps(one(sides=sides)) for i in s.new]
        held_by = {"left side", "right side", "top", "bottom"}
        assert any(i in held_by for i in order[order.index("back") + 1 :])


@pytest.mark.parametrize("style", ["planted", "rebated", "inset"])
def test_a_back_that_is_open_behind_goes_on_after_the_carcass(style):
    steps = assembly_steps(one(back=back(style)))
    joined = [i for s in steps if s.on for i in s.new]
    assert joined[-1] == "back"
    assert steps[len(joined) - 1].push == (0.0, -1.0, 0.0)


def test_what_is_shut_in_is_named_before_the_box_is_closed():
    c = one()
    steps = assembly_steps(c)
    at, shut = closing(c, steps)
    assert steps[at].new == ("right side",)
    assert set(shut) == {"fixed shelf", "back"}
    page = texts(assembly_pages(rod())[0])
    assert "BEFORE YOU CLOSE IT: fixed shelf and back, are they in? They do not go in afterwards." in page


def test_nothing_is_called_shut_in_where_it_can_still_go_in():
    c = one(back=back("planted"), openings=("rest",), loose_shelves=(0,))
    assert closing(c, assembly_steps(c)) is None
    assert "BEFORE YOU CLOSE IT" not in texts(assembly_pages(rod(back=None, openings=("rest",)))[0])


def test_a_shelf_dowelled_between_two_dividers_goes_in_before_what_would_shut_it_out():
    c = one(width_mm=1500.0, bays=("rest", 400.0, "rest"), back=None)
    assert clashes(c) == []
    assert wrong_way(c) == []


def test_boards_of_which_no_single_one_comes_away_are_put_together_in_twos():
    """Two corners pushed home along the width and two along the height: every board is held both ways."""
    c = one(back=None, openings=("rest",), loose_shelves=(0,))
    turned = {"left side / bottom": (0.0, 0.0, 1.0), "right side / top": (0.0, 0.0, -1.0)}

    def push(joint):
        way = turned.get(joint.id)
        moved = tuple(replace(f, motion=(Move(push=way, mm=18.0),)) for f in joint.fixings) if way else joint.fixings
        return replace(joint, fixings=moved)

    c = replace(c, joints=tuple(push(j) for j in c.joints))
    steps = assembly_steps(c)
    assert wrong_way(c) == []
    assert [len(s.new) for s in steps] == [1, 1, 2]
    assert {*steps[-1].new} | {*steps[-1].there} == {p.id for p in c.parts}
    assert sorted(j for s in steps for j in s.joints) == sorted(j.id for j in c.joints)
    r = rod()
    check_pages(assembly_pages(replace(r, cabinets=(c,))), r)


def test_where_there_is_no_order_none_is_invented():
    c = one(back=None, openings=("rest",), loose_shelves=(0,))
    crossed = tuple(
        replace(
            j,
            fixings=(
                j.fixings[0],
                replace(j.fixings[1], motion=(Move(push=(0.0, 1.0, 0.0), mm=5.0),)),
                *j.fixings[2:],
            ),
        )
        for j in c.joints
    )
    broken = replace(c, joints=crossed)
    with pytest.raises(NoOrder) as raised:
        assembly_steps(broken)
    assert set(raised.value.boards) == {"left side", "right side", "top", "bottom"}
    r = rod()
    said = texts(assembly_pages(replace(r, cabinets=(broken,)))[0])
    assert "STOP: no order was found" in said
    assert "Left side, right side, top and bottom hold one another" in said


def test_the_diagonals_are_those_of_the_box():
    """Pythagoras: 600 x 720 outside, 564.8 x 684.8 inside 17.6 board."""
    found = diagonals(one())
    assert found.outer == pytest.approx(hypot(600, 720))
    assert found.inner == pytest.approx((hypot(564.8, 684.8),))
    page = texts(assembly_pages(rod())[0])
    assert "outside 937.2; inside 887.7." in page


def test_each_bay_has_its_own_inner_diagonal():
    found = diagonals(one(width_mm=1000.0, bays=(300.0, "rest")))
    assert found.inner == pytest.approx((hypot(300, 684.8), hypot(1000 - 3 * 17.6 - 300, 684.8)), abs=0.06)


def test_the_fixings_of_all_pictures_add_up_to_what_is_bought():
    r = rod(corner_joint=recipe(("dowel", {"count": 2}), ("screw", {"first_mm": 80.0, "end_mm": 90.0})))
    page = texts(assembly_pages(r)[0])
    for item in ("dowel 8x30", "screw 4x50"):
        told = sum(int(n) for n in re.findall(rf"(\d+) × {item}", page))
        bought = sum(h.count for j in r.cabinets[0].joints for f in j.fixings for h in f.hardware if h.item == item)
        assert told == bought > 0


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_pages_keep_the_laws(name, paper):
    r = sample(name, paper)
    pages = assembly_pages(r)
    check_pages(pages, r)
    assert len(pages) == len(r.cabinets)


def test_boards_that_go_one_on_another_are_named_in_their_order():
    r = rod(width_mm=1500.0, bays=("rest", 400.0, "rest"), corner_joint=recipe("screw"), back=None)
    order = [i for s in assembly_steps(r.cabinets[0]) for i in s.new]
    said = texts(assembly_pages(r)[0])
    turns = ["ixed shelf 1 down on to ", "; then divider 1 down on to ", "; then fixed shelf 2 down on to divider 1"]
    places = [said.index(turn) for turn in turns]
    assert places == sorted(places)
    assert [i for i in order if i in ("fixed shelf 1", "divider 1", "fixed shelf 2")] == [
        "fixed shelf 1", "divider 1", "fixed shelf 2",
    ]  # fmt: skip


def test_shelves_that_go_into_one_divider_are_not_said_to_go_on_each_other():
    """The studio's library: three shelves into the housings of the divider, then a side on to them and the corners."""
    studio = Path(__file__).parents[2] / "examples" / "pottery-studio.toml"
    r = set_out(studio.read_text(encoding="utf-8"), studio.name)
    page = next(p for p in assembly_pages(r) if p.title == "Assembly: library")
    said = texts(page)
    assert "Fixed shelves 2 to 4 down into divider; then left side down on to " in said
    eaves = texts(next(p for p in assembly_pages(r) if p.title == "Assembly: eaves"))
    assert "Fixed shelf 2 down on to divider; back down into left side, top and bottom; then right side" in eaves
    check_pages((page,), r)


def test_a_stiffened_shelf_is_drawn_with_its_strip_in_every_picture_that_has_the_shelf():
    """The strip comes with its shelf, drawn heavy where that is new; without it the picture has fewer lines."""
    text = (
        f"{HEAD}\n[cabinets.glaze]\nkind = 'wall'\nboard = 'birch18'\n"
        "width = 900\nheight = 700\ndepth = 300\nfixed_shelves = 1\nloose_shelves = 1\n"
    )
    plain, stiff = (set_out(text + words, "job.toml") for words in ("", "stiffeners = { depth = 40 }\n"))
    assert any(p.role == "stiffener" for p in stiff.cabinets[0].parts)

    def lines(r):
        (page,) = assembly_pages(r)
        check_pages((page,), r)
        heavy = [s for s in page.shapes if isinstance(s, Path_) and s.pen.width == 0.75]
        return len(heavy), sum(isinstance(s, Path_) for s in page.shapes) - len(heavy)

    (new_before, there_before), (new_after, there_after) = lines(plain), lines(stiff)
    assert new_after >= new_before + 6  # two strips, each seen by three edges at the least
    assert there_after > there_before


def test_one_shelf_goes_on_its_pins_and_several_on_theirs():
    assert "Loose shelf in from the front, on to its pins." in texts(assembly_pages(rod(loose_shelves=(1, 0)))[0])
    assert "2 loose shelves in from the front, on to their pins." in texts(assembly_pages(rod(loose_shelves=(1, 1)))[0])


def test_a_heavy_cabinet_asks_for_two_people_and_a_light_one_does_not():
    assert "two people" in texts(assembly_pages(rod(width_mm=1200.0, height_mm=2000.0))[0])
    assert "two people" not in texts(assembly_pages(rod())[0])
    assert "two people" not in texts(assembly_pages(rod_of(job(cabinet())))[0])


def test_boards_that_go_on_side_by_side_are_not_said_to_go_one_on_another():
    """A rack of bolts: its shelves stand on the left side, not on each other; and nothing takes glue."""
    r = rod(shelf_joint=recipe("carcass screw"), corner_joint=recipe("carcass screw"), back=None)
    said = texts(assembly_pages(r)[0])
    assert "Bottom, fixed shelf and top down on to left side" in said
    assert "the last:" not in said
    assert "glue takes" not in said
    assert "before you draw it up tight" in said


def test_the_words_of_glue_stand_where_something_is_glued():
    assert "glue takes" in texts(assembly_pages(rod(back=None))[0])
