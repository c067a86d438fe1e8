"""The bottom of what stands: on legs, on a plinth frame, on the floor itself. That a maker packs it up is common practice."""

import pytest

from rodwork.load.shelves import shelf_loads
from rodwork.pipeline import set_out
from tests.texts import HEAD

GRAVITY = 9.81


def bottom(*lines, kind="bookcase", width=1135.2, more=""):
    unit = f'\n[cabinets.unit]\nkind = "{kind}"\nwidth = {width}\nheight = 720\ndepth = 320\nboard = "birch18"\n'
    rod = set_out(HEAD + unit + "\n".join((*lines, "contents = { kg_per_m2 = 60 }")) + f"\n{more}\n", "it.toml")
    return next(s for s in shelf_loads(rod.cabinets[0], rod) if s.part == "bottom")


def test_a_bottom_on_the_floor_is_a_beam_of_two_spans():
    """Two equal spans, evenly loaded: w l^2 / 8 over the middle, w l^4 / 185 E I between: beam tables, from memory.

    1100 clear is packed up at 550. A little more sag is that of its depth, from front to back, and of shear.
    """
    found = bottom()
    assert found.held == "jointed, packed up"
    assert "at most 600 apart" in found.taken
    assert "common practice" in found.taken
    assert found.spans == 2
    even = (found.contents_kg + found.own_kg) * GRAVITY / 1100
    assert found.moment_Nmm == pytest.approx(even * 550**2 / 8, rel=0.03)  # shear takes a little
    stiff = found.stiffness.value * found.depth_mm * found.thickness_mm**3 / 12
    assert 0 <= found.new_mm - even * 550**4 / (185 * stiff) < 0.03


HUNG = 'hanging = { style = "fixing rail", wall = "brick" }\nrails = { fixing = 100 }'
RUN = '[runs.wall]\nof = ["unit"]\nabove_floor = 150'


@pytest.mark.parametrize(
    ("lines", "kind", "more"),
    [((), "wall", ""), ((), "open box", ""), ((HUNG,), "base", ""), ((), "base", RUN),
     (('feet = { style = "notched sides", height = 80 }',), "base", "")],
)  # fmt: skip
def test_a_bottom_that_is_off_the_floor_spans_from_side_to_side(lines, kind, more):
    found = bottom(*lines, kind=kind, more=more)
    assert found.spans == 1
    assert found.span_mm == pytest.approx(1100)
    assert found.new_mm > 10 * bottom().new_mm


def test_legs_hold_it_where_they_stand():
    """50 in from the outside, three in a row over 1135: 32.4, 550 and 1067.6 along the 1100 of the bottom."""
    found = bottom('feet = { style = "legs", height = 150 }', kind="base")
    assert "on legs" in found.held
    assert found.span_mm == pytest.approx(550 - 32.4)
    assert found.new_mm < bottom(kind="wall").new_mm / 10


def test_a_plinth_frame_bears_it_all_along():
    found = bottom('feet = { style = "plinth frame", height = 80 }', kind="base")
    assert "on its plinth frame" in found.held
    assert "every 300" in found.taken
    assert found.new_mm < bottom('feet = { style = "legs", height = 150 }', kind="base").new_mm


def test_a_divider_on_a_bottom_that_lies_on_the_floor_brings_it_no_sag_to_speak_of():
    """Four shelves of books stand on the middle of it, where it is packed up."""
    lines = ("dividers = 1", "fixed_shelves = 4")
    assert bottom(*lines).new_mm < 1
    assert bottom(*lines, kind="wall").new_mm > 5
