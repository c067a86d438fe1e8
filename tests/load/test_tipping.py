"""Standing units and carrying them: equilibrium about the front feet, the published child, the published guide."""

from dataclasses import replace

import pytest

from rodwork.load.lifting import MAN_KG, team_kg
from rodwork.load.masses import Mass
from rodwork.load.station import load_of
from rodwork.load.tipping import CARPET_MM, CHILD_KG, state
from rodwork.model.demand import Contents
from rodwork.setout.weights import weighed
from tests.building import rod


def test_a_weight_in_front_of_the_feet_against_one_behind():
    """Hand-worked without the carpet: 300 N at 200 behind, 267 N at 250 in front: falls; restraint = the rest / 1000."""
    level = 1e12  # so deep that the carpet tilts nothing
    found = state("", (Mass(N=300.0, x=0, y=200.0, z=0), Mass(N=267.0, x=0, y=-250.0, z=0)), 0.0, level, 1000.0)
    assert (found.keeps_Nmm, found.tips_Nmm) == pytest.approx((60000.0, 66750.0))
    assert found.margin == pytest.approx(60000 / 66750)
    assert found.restraint_N == pytest.approx(6.75)


def test_the_carpet_under_the_back_leans_everything_forward():
    def keeps(z):
        return state("", (Mass(N=300.0, x=0, y=200.0, z=z),), 0.0, 400.0, 1000.0).keeps_Nmm

    assert keeps(1500.0) < keeps(0.0)
    assert keeps(0.0) - keeps(1000.0) == pytest.approx(300 * 1000 * CARPET_MM / 400, rel=2e-3)


def test_a_child_weighs_what_the_rule_says():
    """16 CFR 1261: 60 lb."""
    assert pytest.approx(60 * 0.45359237, abs=0.05) == CHILD_KG


def tall(**changes):
    return rod(kind="tall", height_mm=1800.0, depth_mm=300.0, **changes)


def with_door(made):
    glaze = made.cabinets[0]
    side = glaze.part["left side"]
    leaf = replace(
        side, id="door", name="door", role="door", in_box=False, size=(1797.0, 597.0, 18.0), features=(),
        pose=replace(side.pose, rotation=((0, 1, 0), (0, 0, 1), (1, 0, 0)), origin=(1.5, -18.0, 1.5)),
    )  # fmt: skip
    return weighed(replace(made, cabinets=(replace(glaze, parts=(*glaze.parts, leaf)),)))


def with_drawer(made):
    glaze = made.cabinets[0]
    shelf = glaze.part["fixed shelf"]
    front = replace(
        shelf, id="df", name="drawer front", role="drawer front", size=(560.0, 200.0, 18.0), features=(),
        pose=replace(shelf.pose, rotation=((1, 0, 0), (0, 0, 1), (0, 1, 0)), origin=(20.0, -18.0, 100.0)),
    )  # fmt: skip
    side = replace(
        front, id="ds", name="drawer side", role="drawer side", size=(260.0, 150.0, 12.0),
        pose=replace(shelf.pose, rotation=((0, 0, 1), (1, 0, 0), (0, 1, 0)), origin=(20.0, 0.0, 110.0)),
    )  # fmt: skip
    bottom = replace(
        front, id="db", name="drawer bottom", role="drawer bottom", size=(540.0, 250.0, 6.0),
        pose=replace(shelf.pose, origin=(30.0, 0.0, 112.0)),
    )  # fmt: skip
    return weighed(replace(made, cabinets=(replace(glaze, parts=(*glaze.parts, front, side, bottom)),)))


def states(made):
    return {s.state: s for s in load_of(made).cabinets[0].tipping.states}


def test_an_open_door_with_a_child_on_it_tips_a_tall_unit_and_is_told_with_the_force():
    made = with_door(tall())
    found = states(made)
    assert found["empty, open, a child on the front"].margin < 1 < found["full, all open"].margin
    told = next(f for f in load_of(made).findings if f.code == "load-tips")
    assert f"{load_of(made).cabinets[0].tipping.restraint_N:.0f} N" in told.mend


def test_drawers_out_and_filled_tip_more_than_shut_ones():
    found = states(with_drawer(tall(contents=None, loose_shelves=(0, 0))))
    assert found["full, all open"].tips_Nmm > found["empty, all open"].tips_Nmm > 0


def test_what_stands_inside_keeps_an_open_bookcase_down():
    light, heavy = (states(tall(contents=Contents(kg_per_m2=q))) for q in (10.0, 60.0))
    name = "full, a child on the front edge"
    assert heavy[name].margin > light[name].margin


def test_a_unit_that_hangs_does_not_tip():
    assert load_of(rod()).cabinets[0].tipping is None


def test_the_customer_is_handed_words_of_warning():
    words = " ".join(load_of(with_drawer(with_door(tall()))).cabinets[0].tipping.words)
    for wanted in ("wall", "children", "doors and drawers", "Open one drawer at a time", "heavy"):
        assert wanted in words


def test_nothing_is_said_of_doors_or_drawers_that_it_has_not():
    def words(made):
        return " ".join(load_of(made).cabinets[0].tipping.words)

    assert "door" not in words(tall())
    assert "drawer" not in words(tall())
    assert "hang on its doors." in words(with_door(tall()))
    assert "hang on its drawers." in words(with_drawer(tall()))


# lifting -----------------------------------------------------------------------------------------------------


def test_a_team_of_two_by_the_guide():
    """HSE L23: 2/3 of 25 + 25 = 33.33 kg; the share is from memory, so the guide's own weights are held too."""
    assert team_kg(2) == pytest.approx(33.33, abs=0.01)
    assert team_kg(3) == pytest.approx(37.5)
    assert MAN_KG == 25.0  # second-hand: L23, INDG143


@pytest.mark.parametrize(("sizes", "people"), [((400, 500), 1), ((600, 800), 2), ((1600, 2200), None)])
def test_how_many_people_lift_it(sizes, people):
    made = rod(kind="tall", width_mm=float(sizes[0]), height_mm=float(sizes[1]), depth_mm=560.0)
    found = load_of(made).cabinets[0].lifting
    assert found.people == people
    if people is None:
        assert "take it apart" in found.words


def test_a_weight_that_is_not_known_is_not_guessed():
    made = rod()
    boards = {n: replace(b, density_kg_m3=None) for n, b in made.boards.items()}
    found = load_of(weighed(replace(made, boards=boards))).cabinets[0].lifting
    assert (found.kg, found.people) == (None, None)
