"""Strips on edge under the front edges of shelves. Sizes are invented; clearances are common practice, no source."""

import pytest

from rodwork.documents.assembly import assembly_pages
from rodwork.documents.drawing import Text
from rodwork.setout.proof import prove
from tests.geometry.overlap import overlaps
from tests.inside.inside_samples import refused, rod_of_text

T = 17.6
SIZE = 'width = 900\nheight = 1100\ndepth = 320\nboard = "birch18"\n'
BACK = 'back = { board = "birch6", style = "grooved all round", void = 10 }'
SHELVES = ("fixed_shelves = 1", "loose_shelves = [1, 1]")
STIFF = "stiffeners = { depth = 40 }"


def made(*lines, **kw):
    return rod_of_text(BACK, *SHELVES, *lines, size=SIZE, **kw)


def cabinet_of(*lines, **kw):
    return made(*lines, **kw).cabinets[0]


def strips(cabinet):
    """Each shelf that has a strip, with it."""
    pairs = [j.parts for j in cabinet.joints if j.contact.place == "under a shelf"]
    return {cabinet.part[shelf].id: cabinet.part[strip] for shelf, strip in pairs}


@pytest.mark.parametrize("sides", ["through", "between", "mitred"])
@pytest.mark.parametrize("shelf_joint", ["dowels", "housings"])
def test_every_shelf_has_one_that_touches_it_and_nothing_else(sides, shelf_joint):
    joint = "biscuits" if sides == "mitred" else "dowels"
    more = '\n[joints.biscuits]\nuse = [{ family = "biscuit" }]\n'
    lines = ("dividers = 1", f'sides = "{sides}"', f'shelf_joint = "{shelf_joint}"', 'divider_joint = "dowels"')
    rod = made(*lines, STIFF, joint=joint, more=more)
    assert prove(rod) == ()
    cabinet = rod.cabinets[0]
    assert overlaps(cabinet) == []
    found = strips(cabinet)
    assert set(found) == {p.id for p in cabinet.parts if p.role in ("fixed shelf", "loose shelf")}
    for name, strip in found.items():
        (_, y0, z1), low = cabinet.part[name].box[0], strip.box
        assert low[0][1] == pytest.approx(y0)
        assert low[1][2] == pytest.approx(z1)
        assert low[1][2] - low[0][2] == pytest.approx(40)


def test_a_fixed_one_goes_in_and_a_loose_one_comes_out_with_its_shelf():
    """Clear width 900 - 2 x 17.6 = 864.8: 863.8 under the fixed shelf, and under a loose one as long as that, 862.8."""
    found = strips(cabinet_of(STIFF))
    assert found["fixed shelf"].size == pytest.approx((863.8, 40.0, T))
    assert found["loose shelf 1"].size == pytest.approx((862.8, 40.0, T))
    assert found["fixed shelf"].in_box
    assert not found["loose shelf 1"].in_box


def test_over_a_row_of_pins_it_ends_short_of_them():
    """The front pins stand 37 back: a strip from 22 to 39.6 behind the front lies over them, one from 2 to 19.6 does not."""
    cabinet = cabinet_of("stiffeners = { depth = 40, set_back = 20 }")
    found = strips(cabinet)
    assert found["loose shelf 1"].size[0] == pytest.approx(862.8 - 2 * 12)
    assert found["fixed shelf"].size[0] == pytest.approx(863.8)
    assert overlaps(cabinet) == []


def test_it_is_of_the_board_and_the_recipe_that_are_named():
    cabinet = cabinet_of('stiffeners = { depth = 35, board = "birch6", shelves = "fixed", joint = "nails" }',
                         more='\n[joints.nails]\nuse = [{ family = "nail" }]\n')  # fmt: skip
    (strip,) = (p for p in cabinet.parts if p.role == "stiffener")
    assert (strip.board, strip.size[1:]) == ("birch6", (35.0, 5.8))
    (joint,) = (j for j in cabinet.joints if strip.id in j.parts)
    assert {f.family for f in joint.fixings} == {"nail"}


def test_left_to_itself_it_is_biscuited_on_lines_from_the_front_edge_of_its_shelf():
    cabinet = cabinet_of("stiffeners = { depth = 40, set_back = 12 }")
    strip = strips(cabinet)["fixed shelf"]
    (joint,) = (j for j in cabinet.joints if strip.id in j.parts)
    assert joint.glued
    assert joint.contact.line == pytest.approx(12)
    assert len(joint.fixings) > 2
    assert {f.family for f in joint.fixings} == {"biscuit"}


def test_behind_inset_doors_it_is_behind_the_doors():
    cabinet = cabinet_of(STIFF, 'doors = { hung = "pair", style = "inset" }')
    door = max(p.box[1][1] for p in cabinet.parts if p.role == "door")
    assert all(strip.box[0][1] > door for strip in strips(cabinet).values())
    assert overlaps(cabinet) == []


def test_what_it_would_hang_into_refuses_it():
    drawers = 'drawers = { opening = 1, number = 2, bottom_board = "birch6", joint = "dowels" }'
    rail = "clothes_rails = { opening = 1, below = 60, from_front = 15 }"
    assert "drawer" in refused(BACK, "fixed_shelves = 1", STIFF, drawers, size=SIZE)
    assert "clothes rail" in refused(BACK, "fixed_shelves = 1", STIFF, rail, size=SIZE)
    assert "leaves" in refused(BACK, *SHELVES, "stiffeners = { depth = 200 }", size=SIZE)
    assert "does not lie under" in refused(BACK, *SHELVES, "stiffeners = { depth = 40, set_back = 290 }", size=SIZE)
    assert "lets it in" in refused(BACK, *SHELVES, 'stiffeners = { depth = 40, joint = "housings" }', size=SIZE)
    assert "there is no shelf" in refused(BACK, STIFF, size=SIZE)
    assert "no loose shelf" in refused(
        BACK, "fixed_shelves = 1", 'stiffeners = { depth = 40, shelves = "loose" }', size=SIZE
    )


def test_over_an_appliance_it_is_refused_and_under_the_shelf_above_it_is_not():
    oven = "\n[appliances.kiln]\nwidth = 560\nheight = 380\ndepth = 280\n"
    lines = (BACK, "fixed_shelves = 2", 'appliance = { of = "kiln", opening = 2 }')
    size = 'height = 1500\ndepth = 320\nboard = "birch18"\n'
    assert "kiln" in refused(*lines, STIFF, size=size, more=oven)
    above = rod_of_text(BACK, "fixed_shelves = 1", "loose_shelves = [0, 1]", 'appliance = { of = "kiln" }',
                        'stiffeners = { depth = 40, shelves = "loose" }', size=size, more=oven)  # fmt: skip
    assert list(strips(above.cabinets[0])) == ["loose shelf"]


def test_bay_by_bay_every_shelf_has_its_own():
    cabinet = rod_of_text(BACK, "dividers = 1", "fixed_shelves = [1, 2]", "loose_shelves = [[0, 1], [0, 0, 0]]", STIFF,
                          size=SIZE).cabinets[0]  # fmt: skip
    found = strips(cabinet)
    assert len(found) == 4
    assert len({strip.id for strip in found.values()}) == 4
    assert overlaps(cabinet) == []


def test_over_drawers_the_other_shelves_may_have_one():
    drawers = 'drawers = { opening = 1, number = 2, bottom_board = "birch6", joint = "dowels" }'
    rod = rod_of_text(BACK, "fixed_shelves = 1", "loose_shelves = [0, 1]", drawers, size=SIZE, more="",
                      joint="dowels")  # fmt: skip
    assert not strips(rod.cabinets[0])
    rod = rod_of_text(BACK, "fixed_shelves = 1", "loose_shelves = [0, 1]", drawers,
                      'stiffeners = { depth = 40, shelves = "loose" }', size=SIZE)  # fmt: skip
    assert list(strips(rod.cabinets[0])) == ["loose shelf"]


def test_a_deep_strip_under_a_loose_shelf_is_told_where_it_cannot_be_got_in():
    """A face frame leaves 860 of a shelf of 862.8: flat it is tilted in, with a strip 150 deep under it there is no room."""
    frame = 'face_frame = { board = "birch18", overhang = 0, stile = 60 }'
    lines = (BACK, "loose_shelves = 1", frame)
    plain = rod_of_text(*lines, size=SIZE)
    deep = rod_of_text(*lines, "stiffeners = { depth = 150 }", size=SIZE)
    assert not [f for f in plain.findings if f.code == "loose-shelf-entry"]
    assert [f.severity for f in deep.findings if f.code == "loose-shelf-entry"] == ["fault"]


def test_the_assembly_page_tells_when_it_is_glued_on():
    (page,) = assembly_pages(made(STIFF))
    words = " ".join(s.text for s in page.shapes if isinstance(s, Text))
    assert "Stiffeners: join each under its shelf" in words
    assert "STOP" not in words
