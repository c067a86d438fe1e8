"""Joints read from a Rod: forces that balance, shares as an elastic row has them, figures published or asked for."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.load.bears import bears
from rodwork.load.contents import contents_kg
from rodwork.load.joints import joint_loads
from rodwork.load.row import shares_N
from rodwork.load.station import load_of
from rodwork.model import demand
from rodwork.model.demand import Contents
from tests.building import recipe, rod

places = st.lists(st.integers(0, 3000), min_size=1, max_size=12, unique=True)


@given(places, st.floats(-1e4, 1e4), st.floats(-500, 3500))
def test_shares_of_a_row_balance_force_and_moment_to_1e_9(at, force, where):
    shares = shares_N(at, force, where)
    assert sum(shares) == pytest.approx(force, rel=1e-9, abs=1e-9)
    if len(at) > 1:
        moment = sum(s * p for s, p in zip(shares, at, strict=True))
        assert moment == pytest.approx(force * where, rel=1e-9, abs=1e-6)


def test_an_eccentric_row_as_any_handbook_has_it():
    """Four bolts 100 apart, 1000 N at 50 off their middle: 250 +- M r / sum(r^2)."""
    assert shares_N((0, 100, 200, 300), 1000, 200) == pytest.approx((100.0, 200.0, 300.0, 400.0))


def of(material="birch plywood", tested=None, **changes):
    made = rod(**changes)
    boards = {n: replace(b, material=material) for n, b in made.boards.items()}
    return replace(made, boards=boards, tested=tested or {})


def loads(made):
    return {j.name: j for j in joint_loads(made.cabinets[0], made)}


def test_the_joints_of_shelf_and_bottom_carry_all_that_stands_on_them_and_their_own_weight():
    made = of(loose_shelves=(0, 0))
    found = joint_loads(made.cabinets[0], made)
    own = sum(s.own_kg for s in load_of(made).cabinets[0].shelves)
    assert sum(j.shear_N for j in found) == pytest.approx(9.81 * (contents_kg(made.cabinets[0]) + own), rel=1e-9)
    for j in found:
        assert sum(f.shear_N for f in j.forces) == pytest.approx(j.shear_N, rel=1e-9)
        assert sum(f.pull_N for f in j.forces) == pytest.approx(j.pull_N, rel=1e-9, abs=1e-9)


def test_dowels_across_their_length_have_no_published_figure_and_are_asked_for():
    found = loads(of())["bottom to left side"]
    assert (found.margin, found.bears) == (None, None)
    assert '[tested."dowel 8x30"]' in found.asks
    assert "shear_kn" in found.asks


@pytest.mark.parametrize(("basis", "over"), [("working load", 1), ("characteristic", 4), ("mean of tests", 5)])
def test_a_tested_figure_goes_first_and_over_our_own_rule(basis, over):
    tested = demand.Tested(pull_N=None, shear_N=900.0, moment_Nmm=None, basis=basis, source="own test")
    found = loads(of(tested={"dowel 8x30": tested}))["bottom to left side"]
    worst = max(f.shear_N for f in found.forces)
    assert found.margin == pytest.approx(900.0 / over / worst)
    assert found.bears.standing == "entered"


def test_screws_by_eurocode_5_with_the_edge_marked_as_our_judgement():
    found = loads(of(corner_joint=recipe("screw")))["bottom to left side"]
    assert found.margin > 1
    assert found.bears.standing == "judgement"
    assert "edge" in found.bears.source
    assert "bends" in found.mode
    assert found.beside.startswith("NDS")


def test_mdf_is_not_in_the_code_so_its_screws_are_asked_for():
    assert loads(of("MDF", corner_joint=recipe("screw")))["bottom to left side"].margin is None


def test_a_bottom_under_the_sides_pulls_its_screws_out():
    """Chipboard by the Wood Handbook (from memory, marked so); plywood is asked for."""
    chip = loads(of("chipboard", sides="between", corner_joint=recipe("screw")))["left side to bottom"]
    assert chip.pull_N > 0
    assert chip.shear_N == 0
    assert chip.bears.standing == "from memory"
    assert "pulls out" in chip.mode
    ply = loads(of(sides="between", corner_joint=recipe("screw")))["left side to bottom"]
    assert "pull_kn" in ply.asks


def test_a_housing_bears_on_its_wall():
    found = loads(of(shelf_joint=recipe("housing")))["fixed shelf to left side"]
    assert found.mode == "housing gives at its wall"
    assert found.margin > 10


def test_what_a_housing_bears_can_be_entered_under_its_family():
    """1 kN that it was found to bear, to be used as it stands, in place of what the board's figures give."""
    tested = demand.Tested(pull_N=None, shear_N=1000.0, moment_Nmm=None, basis="working load", source="own test")
    made = replace(of(shelf_joint=recipe("housing")), tested={"housing": tested})
    found = loads(made)["fixed shelf to left side"]
    assert found.bears.value == pytest.approx(1000.0)
    assert found.bears.source == "own test"


def test_more_load_never_means_a_larger_margin_of_a_joint():
    for changes in ({"corner_joint": recipe("screw")}, {"shelf_joint": recipe("housing")}):
        light = loads(of(contents=Contents(kg_per_m2=30.0), **changes))
        heavy = loads(of(contents=Contents(kg_per_m2=90.0), **changes))
        for name, j in light.items():
            if j.margin is not None:
                assert heavy[name].margin < j.margin


def test_a_load_that_stays_longer_leaves_less():
    margins = [
        loads(of(corner_joint=recipe("screw"), contents=Contents(kg_per_m2=60.0, lasts=lasts)))[
            "bottom to left side"
        ].margin
        for lasts in ("short", "medium", "long", "permanent")
    ]
    assert margins == sorted(margins, reverse=True)


def test_a_dowelled_corner_of_chipboard_has_its_published_moment_and_plywood_none():
    """Zhang and Eckelman 1993 over 5; outside particleboard nothing was published."""
    for material, known in (("chipboard", True), ("birch plywood", False)):
        made = of(material)
        joint = next(j for j in made.cabinets[0].joints if j.contact.place == "corner")
        found = bears(joint.fixings[0], joint, made.cabinets[0], made)
        assert (found.moment is not None) is known


def test_a_divider_brings_its_shelves_down_on_the_bottom():
    """Shelves of two bays hang on the divider, which stands on the bottom: it sags more than without them."""
    bare = (
        load_of(of(bays=("rest", "rest"), width_mm=900.0, openings=("rest",), loose_shelves=(0,)))
        .cabinets[0]
        .shelves[0]
    )
    full = load_of(of(bays=("rest", "rest"), width_mm=900.0, openings=("rest",) * 3)).cabinets[0].shelves[0]
    assert bare.part == full.part == "bottom"
    assert full.new_mm > 1.5 * bare.new_mm


def test_the_comparison_says_how_many_times_over_each_way_bears_what_stands_inside():
    """Screws in plywood by Eurocode 5, dowels not known; a dash where nothing stands inside."""
    from rodwork.comparing import compare
    from rodwork.documents.comparison import COLUMNS

    job = """
[job]
name = "Pottery studio"
[boards.birch18]
material = "birch plywood"
thickness = 18
sheet = [2440, 1220]
[cabinets.glaze]
width = 600
height = 720
depth = 320
board = "birch18"
"""
    column = next(c for c in COLUMNS if c.title == "load, times over")
    _, full = compare(job + 'contents = { of = "jars" }\n', "glaze.toml")
    said = {way.name: column.says(way, full) for way in full.all}
    assert float(said["screw"].removeprefix("over ")) > 1
    assert said["dowel"] == "?"
    assert said["keyhole"] == said["pocket screw"] == "?"  # not driven square through: no formula is for them
    _, empty = compare(job, "glaze.toml")
    assert {column.says(way, empty) for way in empty.all} == {"-"}


def test_a_corner_that_is_held_from_turning_is_no_stronger_than_its_published_or_tested_moment():
    """Two of a joint's figures at once: the row's shear and pull, and the moment of a corner; the worse one counts."""

    def tested(moment):
        return {"dowel 8x30": demand.Tested(
            pull_N=5000.0, shear_N=5000.0, moment_Nmm=moment, basis="working load", source="own",
            turning_Nmm_per_rad=1e6,
        )}  # fmt: skip

    strong, weak = (loads(of(tested=tested(m), loose_shelves=(0, 0)))["fixed shelf to left side"] for m in (1e9, 100.0))
    assert strong.moment_Nmm == weak.moment_Nmm > 0
    assert "turns" not in strong.mode
    assert "turns" in weak.mode
    assert weak.margin == pytest.approx(100.0 * len(weak.forces) / weak.moment_Nmm)
    assert weak.margin < strong.margin
