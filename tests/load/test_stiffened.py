"""Shelf and strip as one section: a published example, and the shelf of a Rod against the formula done by hand."""

import pytest

from rodwork.load.section import Strip, section
from rodwork.load.shelves import reactions, shelf_loads
from rodwork.load.station import load_of
from tests.inside.inside_samples import rod_of_text

SIZE = 'width = 1100\nheight = 1500\ndepth = 320\nboard = "birch18"\n'
LINES = (
    'back = { board = "birch6", style = "planted" }',
    "fixed_shelves = 1",
    "loose_shelves = [1, 1]",
    "contents = { kg_per_m = 40 }",
)
GUM = '\n[boards.gum]\nmaterial = "birch plywood"\nthickness = 24\nactual = 24\nsheet = [2440, 1220]\nstiffness = 16000\ndeclared_by = "invented, for this test"\n'


def shelves(*lines, more=""):
    rod = rod_of_text(*LINES, *lines, size=SIZE, more=more)
    return rod, {s.part: s for s in shelf_loads(rod.cabinets[0], rod)}


def test_timber_on_a_steel_plate_as_a_textbook_has_it():
    """Gere, Mechanics of Materials, composite beams, from memory: timber 4 x 6 in, E 1500 ksi, over a steel plate 4 x 0.5 in,
    30 000 ksi: axis 5.031 in below the top, I 171.0 and 3.01 in4 about it; under 60 k-in the steel bears 7620 psi at its foot.
    """
    timber = Strip(
        width_mm=4, height_mm=6, middle_mm=3.5, stiffness_N_per_mm2=1500, shear_N_per_mm2=None, strength_N_per_mm2=1.0
    )
    steel = Strip(
        width_mm=4,
        height_mm=0.5,
        middle_mm=0.25,
        stiffness_N_per_mm2=30000,
        shear_N_per_mm2=None,
        strength_N_per_mm2=1.0,
    )
    made = section((timber, steel))
    assert 6.5 - made.neutral_mm == pytest.approx(5.031, abs=5e-4)
    assert made.bending_Nmm2 == pytest.approx(1500 * 171.0 + 30000 * 3.01, rel=5e-4)
    assert made.used(60.0) == pytest.approx(7.62, rel=1e-3)  # of a strength of 1 ksi


@pytest.mark.parametrize("board", ["birch18", "gum"])
def test_a_stiffened_shelf_bends_as_the_transformed_section_by_hand(board):
    """5 w l^4 / 384 E I and w l^2 / 8 G A', the second moment in the shelf's own modulus by the ratio n of the two moduli."""
    rod, found = shelves(f'stiffeners = {{ depth = 45, board = "{board}" }}', more=GUM)
    _, plain = shelves()
    cabinet, shelf = rod.cabinets[0], rod.cabinets[0].part["fixed shelf"]
    b, h = shelf.size[1], shelf.size[2]
    t, d = rod.boards[board].actual, 45.0
    e = found["fixed shelf"].stiffness.value
    n = (16000.0 if board == "gum" else e) / e
    a1, a2 = b * h, n * t * d
    z = (a1 * h / 2 + a2 * -d / 2) / (a1 + a2)
    i = b * h**3 / 12 + a1 * (h / 2 - z) ** 2 + n * t * d**3 / 12 + a2 * (d / 2 + z) ** 2
    push = sum(force for _, force, _ in reactions(shelf, cabinet, rod))
    span = found["fixed shelf"].span_mm
    bends = 5 * push * span**3 / (384 * e * i)
    assert bends < found["fixed shelf"].new_mm < 1.25 * bends  # the rest is shear
    assert found["fixed shelf"].new_mm < plain["fixed shelf"].new_mm / 3


def test_a_deeper_strip_lets_it_sag_less_and_it_weighs_more():
    sags, weighs = [], []
    for depth in (20, 40, 60, 80):
        _, found = shelves(f"stiffeners = {{ depth = {depth} }}")
        sags.append(found["loose shelf 1"].new_mm)
        weighs.append(found["loose shelf 1"].own_kg)
    assert sags == sorted(sags, reverse=True)
    assert weighs == sorted(weighs)


def test_it_is_held_where_it_was_and_its_strip_is_no_support():
    _, plain = shelves()
    _, stiff = shelves("stiffeners = { depth = 40 }")
    for name in ("fixed shelf", "loose shelf 1", "loose shelf 2"):
        assert (stiff[name].held, stiff[name].spans, stiff[name].span_mm) == (
            plain[name].held,
            plain[name].spans,
            plain[name].span_mm,
        )
        assert stiff[name].stiffened == "stiffened"
    assert plain["fixed shelf"].stiffened == stiff["bottom"].stiffened == ""


def test_a_strip_of_a_board_whose_stiffness_is_not_known_is_left_out_and_told():
    lath = '\n[boards.lath]\nmaterial = "lath"\nthickness = 20\nsheet = [2400, 100]\ngrain = true\ndensity = 600\n'
    _, found = shelves('stiffeners = { depth = 40, board = "lath" }', more=lath)
    _, plain = shelves()
    assert found["fixed shelf"].new_mm == pytest.approx(plain["fixed shelf"].new_mm)
    assert found["fixed shelf"].stiffened == "its stiffener not reckoned"


def test_a_shelf_that_sags_too_far_is_told_the_depth_that_would_do_and_it_does():
    heavy = (*LINES[:3], "contents = { kg_per_m = 120 }")
    rod = rod_of_text(*heavy, size=SIZE)
    told = [f.mend for f in load_of(rod).findings if "shelf" in " ".join(f.where) and "stiffeners" in f.mend]
    assert told
    depth = told[0].split("stiffeners = { depth = ")[1].split(" ")[0]
    mended = rod_of_text(*heavy, f"stiffeners = {{ depth = {depth} }}", size=SIZE)
    found = {s.part: s for s in shelf_loads(mended.cabinets[0], mended)}
    for name in ("fixed shelf", "loose shelf 1", "loose shelf 2"):
        assert min(found[name].straight, found[name].sound, found[name].strong) >= 1
