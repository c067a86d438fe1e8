"""The proof: true set-outs pass, and every way of spoiling one is caught and named.

The sample is one cupboard written down by hand (tests/data); the others are set out here. Nothing in the proof
is shared with the set-out, so that a Rod passing it is a result and not a tautology.
"""

import ast
import copy
import json
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings

from rodwork.model.job import CabinetEdging, Edging
from rodwork.model.rod import Proof, Rod
from rodwork.model.shop import Shop
from rodwork.setout.proof import proof_of, prove
from tests.building import back, cabinet, job, recipe, rod, rod_of
from tests.cabinets import built

DATA = Path(__file__).parents[1] / "data" / "glaze.rod.json"
SOURCE = Path(__file__).parents[2] / "src" / "rodwork" / "setout"
SAMPLE = json.loads(DATA.read_text(encoding="utf-8"))
OPPOSITE = {
    "left_end": "right_end", "right_end": "left_end", "face_edge": "far_edge", "far_edge": "face_edge",
    "face_side": "back_side", "back_side": "face_side",
}  # fmt: skip


@pytest.fixture
def data():
    return copy.deepcopy(SAMPLE)


def faults_of(data):
    return prove(Rod.from_dict(data))


def part(data, part_id):
    return next(p for p in data["cabinets"][0]["parts"] if p["id"] == part_id)


def joint(data, joint_id):
    return next(j for j in data["cabinets"][0]["joints"] if j["id"] == joint_id)


def entry(data, feature_id):
    """(the setting, its line) for a bore or groove."""
    return next((s, f) for s in data["setups"] for f in s["features"] if f["feature"] == feature_id)


def sawn(data, part_id, way):
    return next(
        (s, f) for s in data["setups"] for f in s["features"] if f["part"] == part_id and way in f and not f["feature"]
    )


# -- true set-outs ---------------------------------------------------------------------------------------


def test_the_sample_is_true_and_its_halves_meet(data):
    sample = Rod.from_dict(data)
    assert prove(sample) == ()
    assert proof_of(sample.cabinets[0], sample.setups) == Proof(largest_gap_mm=0.0, largest_spread_in_a_row_mm=0.0)


SCREWS = recipe(("screw", {"pilot": "beforehand"}))
PLUGGED = recipe(("screw", {"pilot": "beforehand", "head": "plugged"}))
BAYS = {"bays": (250.0, "rest"), "openings": (200.0, "rest")}
BUILT = {
    "dowels": rod(**BAYS),
    "screws": rod(corner_joint=SCREWS, divider_joint=SCREWS, **BAYS),
    "screwed shelves": rod(corner_joint=SCREWS, shelf_joint=SCREWS),
    "plugs": rod(corner_joint=PLUGGED, divider_joint=PLUGGED, **BAYS),
    "in place": rod(corner_joint=recipe("screw"), shelf_joint=recipe("dowel", ("screw", {"first_mm": 60.0}))),
    "housings": rod(shelf_joint=recipe("housing"), divider_joint=recipe("housing"), shelf_set_back_mm=12.0, **BAYS),
    "top through": rod(sides="between", back=back("grooved in the sides"), shelf_set_back_mm=12.0, **BAYS),
    "rebated": rod(back=back("rebated"), **BAYS),
    "planted": rod(back=back("planted"), **BAYS),
    "inset": rod(back=back("inset"), **BAYS),
    "open": rod(back=None, edging=None),
    "from the front": rod_of(job(cabinet(), shop=Shop(name=None, ripped_together=False))),
    "three of one, one of another": rod_of(job(cabinet(count=3), cabinet(name="low", mark="L", width_mm=433.0))),
}  # fmt: skip


@pytest.mark.parametrize("made", BUILT.values(), ids=BUILT)
def test_what_we_set_out_is_true(made):
    assert [f.message for f in prove(made)] == []
    for c in made.cabinets:
        assert proof_of(c, made.setups) == Proof(largest_gap_mm=0.0, largest_spread_in_a_row_mm=0.0)


@settings(max_examples=25, deadline=None)
@given(built())
def test_any_cabinet_that_can_be_set_out_is_true_within_half_a_step_per_axis(made):
    assert [f.message for f in prove(made.rod)] == []
    for c in made.rod.cabinets:
        assert proof_of(c, made.rod.setups).largest_gap_mm <= made.rod.step / 2 * 3**0.5 + 1e-9
        assert proof_of(c, made.rod.setups).largest_spread_in_a_row_mm == 0.0


def test_the_gap_reported_is_the_rounding_of_a_line_and_no_more():
    made = rod(openings=(200.03, "rest"), back=None)
    assert prove(made) == ()
    assert made.cabinets[0].proof.largest_gap_mm == pytest.approx(0.03)


def test_an_edging_that_mills_first_and_one_that_adds_nothing_are_accounted_for():
    wanted = job(cabinet(edging=CabinetEdging(edging="birch", on=("fronts", "side tops", "side bottoms"))))
    for adds, mills in ((0.8, 0.5), (0.0, 0.5), (2.0, 0.0)):
        edging = Edging(name="birch", thickness_mm=1.0, adds_mm=adds, mills_mm=mills, price_per_m=None)
        assert prove(rod_of(replace(wanted, edgings={"birch": edging}))) == ()


def test_the_proof_shares_no_code_with_what_it_proves():
    files = [SOURCE / "proof.py", *(SOURCE / "proving").glob("*.py")]
    assert len(files) > 5
    for file in files:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("rodwork"):
                of_its_own = node.module.startswith("rodwork.setout.proving")
                assert of_its_own or node.module.startswith("rodwork.model."), f"{file.name} imports {node.module}"
                if not of_its_own:  # of the model only the shapes of data, none of its functions
                    assert all(a.name[0].isupper() for a in node.names), f"{file.name} imports {node.names}"
                    assert node.module not in ("rodwork.model.pose", "rodwork.model.words")
            if isinstance(node, ast.Attribute):
                assert node.attr not in ("to_cabinet", "to_part", "direction_to_cabinet", "direction_to_part")


# -- spoiled set-outs ------------------------------------------------------------------------------------


def only(faults, cause, *words):
    """Every fault has this cause, and some message has all the words."""
    assert faults, "nothing was found"
    assert {f.cause for f in faults} == {cause}, [f.message for f in faults]
    assert any(all(w in f.message for w in words) for f in faults), [f.message for f in faults]


def test_a_swapped_surface_is_named_beside_its_mates(data):
    _, done = entry(data, "left side / top 1g")
    done["across"].update({"from": "face_side", "is": "inside", "mm": 8.6})
    only(
        faults_of(data), "surface", "top (G1-T, G2-T)", "left side / top 1g",
        "registers on the inside where its mate registers on the top end of the left side", "from the outside",
    )  # fmt: skip


def test_a_surface_swapped_in_the_joint_is_named(data):
    joint(data, "left side / top")["contact"]["guest_register"]["across_from"] = "face_side"
    found = faults_of(data)
    only(found, "surface", "registers on the outside", "from the inside")
    assert {f.joint for f in found} == {"left side / top"}


def test_a_flush_corner_set_out_from_inside_on_both_papers_is_still_caught(data):
    joint(data, "left side / top")["contact"]["guest_register"]["across_from"] = "face_side"
    for n in "1234":
        entry(data, f"left side / top {n}g")[1]["across"].update({"from": "face_side", "is": "inside", "mm": 8.6})
    found = faults_of(data)
    assert any("a flush corner is set from outside" in f.message for f in found), [f.message for f in found]


def test_a_shelf_set_out_from_a_face_that_is_not_on_its_line_is_caught(data):
    joint(data, "left side / fixed shelf")["contact"]["guest_register"]["across_from"] = "face_side"
    for n in "1234":
        done = entry(data, f"left side / fixed shelf {n}g")[1]
        done["across"].update({"from": "face_side", "is": "upper side", "mm": 8.6})
        own = next(s for s in data["setups"] if done in s["features"])
        own["features"].remove(done)
        data["setups"].append({**own, "id": f"X{n}", "registers_on": "upper side", "fence": None, "features": [done]})
        own["stop"] = "marks"
    found = [f for f in faults_of(data) if f.cause == "line"]
    assert found
    assert all(f.expected == "368.6" and f.found == "351.0" for f in found)


def test_worked_from_the_wrong_surface_is_named(data):
    _, done = entry(data, "left side / top 2h")
    done["bears"] = "back_side"
    only(faults_of(data), "surface", "left side / top 2h", "expected inside, found outside")


def swap_poses(data):
    left, right = part(data, "left side"), part(data, "right side")
    left["pose"], right["pose"] = right["pose"], left["pose"]


def swap_ids(data):
    left, right = part(data, "left side"), part(data, "right side")
    left["id"], right["id"] = "right side", "left side"


def swap_ids_and_names(data):
    swap_ids(data)
    left, right = part(data, "left side"), part(data, "right side")
    left["name"], right["name"] = "left side", "right side"


def swap_machining(data):
    left, right = part(data, "left side"), part(data, "right side")
    left["features"], right["features"] = right["features"], left["features"]


def swap_in_the_settings(data):
    other = {"left side": "right side", "right side": "left side"}
    for setup in data["setups"]:
        for done in setup["features"]:
            if done["feature"]:
                done["part"] = other.get(done["part"], done["part"])


def swap_in_the_joints(data):
    other = {"left side": "right side", "right side": "left side"}
    for j in data["cabinets"][0]["joints"]:
        for fixing in j["fixings"]:
            fixing["halves"][0]["part"] = other.get(fixing["halves"][0]["part"], fixing["halves"][0]["part"])
        j["parts"][0] = other.get(j["parts"][0], j["parts"][0])


def swap_marks(data):
    left, right = part(data, "left side"), part(data, "right side")
    left["marks"], right["marks"] = right["marks"], left["marks"]


@pytest.mark.parametrize(
    "swap",
    [swap_poses, swap_ids, swap_ids_and_names, swap_machining, swap_in_the_settings, swap_in_the_joints, swap_marks],
)  # fmt: skip
def test_exchanged_hands_are_called_exchanged_hands(data, swap):
    swap(data)
    found = faults_of(data)
    assert any("left and right hands exchanged" in f.message for f in found), [f.message for f in found][:5]
    assert {"left side", "right side"} & {f.part for f in found}


def test_two_left_sides_are_caught(data):
    left, right = part(data, "left side"), part(data, "right side")
    right["pose"]["rotation"] = left["pose"]["rotation"]
    right["pose"]["origin"] = [582.4, 0.0, 720.0]
    only(faults_of(data), "hand", "right side", "the face that is worked looks the wrong way")


def test_a_mirrored_board_is_caught(data):
    side = part(data, "right side")
    side["pose"] = {"rotation": [[0.0, 0.0, -1.0], [0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]], "origin": [600.0, 0.0, 720.0]}
    only(faults_of(data), "hand", "mirrored and not turned")


def test_a_stretched_board_is_caught(data):
    part(data, "top")["pose"]["rotation"][0][0] = -1.01
    assert {f.cause for f in faults_of(data)} >= {"stands"}


def test_forgotten_edging_in_the_size_to_saw_is_named(data):
    part(data, "left side")["cut"] = [720.0, 320.0]
    found = faults_of(data)
    assert any("edging forgotten on the front edge of the left side" in f.message for f in found)
    assert {f.part for f in found} == {"left side"}


def test_forgotten_edging_on_the_edge_is_named(data):
    part(data, "top")["edging"]["face_edge"] = 0.0
    found = [f for f in faults_of(data) if f.part == "top"]
    assert any("edging forgotten on the top" in f.message for f in found)


def test_edging_forgotten_everywhere_but_at_the_saw_is_named(data):
    side = part(data, "left side")
    side["edging"]["face_edge"], side["edging_name"], side["cut"] = 0.0, None, [720.0, 320.0]
    only(faults_of(data), "sawing", "left side", "expected 320.0, found 319.0")


def test_edging_forgotten_at_the_saw_is_named(data):
    setup, done = sawn(data, "fixed shelf", "across")
    done["across"]["mm"] = setup["fence"]["mm"] = 296.0
    only(faults_of(data), "edging", "edging forgotten on the fixed shelf", "expected 295.0, found 296.0")


def test_edging_forgotten_in_the_finished_size_is_named(data):
    side = part(data, "left side")
    side["size"][1] = 319.0
    assert any(f.cause == "edging" and f.part == "left side" for f in faults_of(data))


def test_a_second_edge_edged_and_not_allowed_for_is_named(data):
    part(data, "fixed shelf")["edging"]["left_end"] = 1.0
    found = faults_of(data)
    assert any("edging forgotten on the left end of the fixed shelf" in f.message for f in found)


def test_a_bore_left_out_of_the_settings_is_named(data):
    setup, done = entry(data, "left side / bottom 3h")
    setup["features"].remove(done)
    only(faults_of(data), "missing", "left side / bottom 3h", "expected once, found not at all")


def test_a_bore_in_two_settings_is_named(data):
    setup, done = entry(data, "left side / bottom 3h")
    setup["features"].append(copy.deepcopy(done))
    only(faults_of(data), "twice", "left side / bottom 3h", "found twice (S12, S12)")


def test_a_board_not_sawn_and_one_sawn_twice_are_named(data):
    setup, done = sawn(data, "top", "along")
    setup["features"].remove(done)
    again = copy.deepcopy(sawn(data, "bottom", "along")[1])
    setup["features"].append(again)
    found = faults_of(data)
    assert {(f.part, f.cause) for f in found} == {("top", "missing"), ("bottom", "twice")}


def test_a_changed_depth_names_every_bore_of_the_setting(data):
    setup, _ = entry(data, "left side / bottom 1h")
    setup["depth"] = 12.5
    found = faults_of(data)
    only(found, "depth", "expected 12.0, found 12.5")
    assert len(found) == len(setup["features"])


def test_a_changed_depth_of_one_bore_is_named(data):
    part(data, "top")["features"][0]["depth"] = 15.0
    found = faults_of(data)
    only([f for f in found if f.cause != "copy"], "depth", "top", "expected 15.0, found 20.0")


def test_heights_taken_from_the_top_end_are_named(data):
    _, done = entry(data, "left side / bottom 1h")
    done["across"].update({"from": "left_end", "is": "top end", "mm": 711.0})
    only(faults_of(data), "surface", "registers on the top end", "from the bottom end")
    _, pin = entry(data, "right side pin 152/40")
    pin["along"].update({"from": "right_end", "is": "top end", "mm": 568.0})
    found = [f for f in faults_of(data) if f.feature == "right side pin 152/40"]
    only(found, "datum", "heights from the bottom end", "expected from the bottom end, found from the top end")


def test_a_top_corner_set_out_from_the_bottom_on_both_papers_is_caught(data):
    joint(data, "left side / top")["contact"]["host_register"]["across_from"] = "right_end"
    for n in "1234":
        done = entry(data, f"left side / top {n}h")[1]
        done["across"].update({"from": "right_end", "is": "bottom end", "mm": 711.0})
    only(faults_of(data), "datum", "the top corner from the top end")


def test_front_positions_taken_from_the_back_are_named(data):
    _, pin = entry(data, "left side pin 152/40")
    pin["across"].update({"from": "far_edge", "is": "back edge", "mm": 280.0})
    only(faults_of(data), "datum", "front to back from the front edge")


def test_a_wrong_word_is_named(data):
    _, done = entry(data, "left side / bottom 2h")
    done["across"]["is"] = "top end"
    only(faults_of(data), "word", "left side / bottom 2h", "expected bottom end, found top end")


def test_a_wrong_word_over_a_setting_is_named(data):
    setup, _ = entry(data, "left side / bottom 2h")
    setup["registers_on"] = "top end"
    only(faults_of(data), "word", "what the fence is put against", "found top end")


def test_a_pair_that_agrees_with_its_boards_and_not_with_each_other_is_named(data):
    """Bore, setting and all are shifted together on one board: only its mate can tell."""
    for feature in part(data, "left side")["features"]:
        if feature["id"].startswith("left side / bottom"):
            feature["at"][0] = 710.5
    for n in "1234":
        setup, done = entry(data, f"left side / bottom {n}h")
        done["across"]["mm"] = 9.5
    setup["fence"] = None
    only(faults_of(data), "pair", "do not agree", "expected 9.0 from the bottom end, found 9.5")
    spoiled = Rod.from_dict(data)
    assert proof_of(spoiled.cabinets[0], spoiled.setups).largest_gap_mm == pytest.approx(0.5)


def test_a_board_in_the_wrong_place_is_caught_by_its_pairs(data):
    part(data, "fixed shelf")["pose"]["origin"][2] = 353.0
    found = faults_of(data)
    assert any("the line is not where the fixed shelf comes" in f.message for f in found)
    assert any(f.expected == "353.0" and f.found == "351.0" for f in found)


def test_a_groove_too_narrow_or_too_wide_for_its_board_is_caught(data):
    for width, words in ((5.0, "does not go into it"), (8.0, "the play of the back in it")):
        spoiled = copy.deepcopy(data)
        for feature in part(spoiled, "top")["features"]:
            if feature["id"] == "top / back groove":
                feature["width"] = width
                feature["at"][1] = 302.0 - width / 2
        entry(spoiled, "top / back groove")[1]["across"]["end_mm"] = 18.0 + width
        found = [f for f in faults_of(spoiled) if f.cause == "pair"]
        assert any(words in f.message for f in found), [f.message for f in found]


def test_a_groove_too_short_for_its_square_cornered_board_is_caught(data):
    """Its ends are round: the run-on of the cutter is no room for the board's corners."""
    for feature in part(data, "left side")["features"]:
        if feature["kind"] == "groove":
            feature["length"] = 699.0
    entry(data, "left side / back groove")[1]["along"].update({"mm": 10.5, "end_mm": 709.5})
    only(faults_of(data), "pair", "the back does not go into it", "1.4 too little")


def test_a_row_that_spreads_is_caught_even_inside_half_a_step():
    made = rod(back=None)
    setups = []
    for setup in made.setups:
        lines = []
        for done in setup.features:
            if done.feature == "left side pin 152/37":
                done = replace(done, along=replace(done.along, mm=152.04))
            lines.append(done)
        setups.append(replace(setup, features=tuple(lines), stop=() if lines != list(setup.features) else setup.stop))
    spread = replace(made, setups=tuple(setups))
    assert spread != made
    only(prove(spread), "row", "is not straight", "0.04")
    assert proof_of(spread.cabinets[0], spread.setups).largest_spread_in_a_row_mm == pytest.approx(0.04)


def test_one_fence_with_two_figures_is_caught(data):
    setup, _ = entry(data, "left side / bottom 1h")
    setup["fence"]["mm"] = 9.5
    found = faults_of(data)
    assert any("fence F1, set once for settings" in f.message for f in found)
    assert any(f.cause == "setting" and f.part == "left side" for f in found)


def test_a_stop_where_nothing_is_bored_is_caught(data):
    setup, _ = entry(data, "left side / bottom 1h")
    setup["stop"][1] = 136.1
    found = faults_of(data)
    assert any("a stop at 136.1, where nothing is bored" in f.message for f in found)
    assert any(f.feature == "left side / bottom 2h" and "no stop is set for it" in f.message for f in found)


def test_a_bit_of_another_size_is_caught(data):
    setup, _ = entry(data, "left side / bottom 1h")
    setup["cutter"] = "6 mm"
    only(faults_of(data), "setting", "the bit", "expected 8.0 mm, found 6 mm")


def test_boards_called_the_same_that_are_not_are_caught(data):
    part(data, "bottom")["features"][0]["diameter"] = 10.0
    assert any(f.cause == "setting" and f.feature == "left side / bottom 1g" for f in faults_of(data))
    part(data, "bottom")["features"][0]["diameter"] = 8.0
    part(data, "bottom")["shows"] = ["face_edge"]
    only(faults_of(data), "copy", "the same as the top")


@pytest.mark.parametrize("change", ["the point of a bit", "a notch"])
def test_boards_that_differ_in_one_bore_or_one_corner_are_not_the_same(data, change):
    bottom = part(data, "bottom")
    if change == "a notch":
        bottom["outline"] = [[0.0, 0.0], [560.8, 0.0], [560.8, 30.0], [564.8, 30.0], [564.8, 320.0], [0.0, 320.0]]
        bottom["bevels"] = [0.0] * 6
    else:
        bottom["features"][0]["tip"] = 0.0
    only(faults_of(data), "copy", "the same as the top", "no turn makes it so")


def test_hands_of_a_pair_are_never_the_same_board(data):
    part(data, "right side")["same_as"] = "left side"
    only(faults_of(data), "copy", "the same as the left side", "no turn makes it so")


def test_two_boards_of_one_mark_are_caught(data):
    part(data, "top")["marks"] = ["G1-T", "G1-B"]
    only(faults_of(data), "mark", "G1-B is also on the")


def test_settings_for_a_cabinet_or_a_board_that_is_not_there_are_caught(data):
    _, done = entry(data, "left side / bottom 1h")
    done["cabinet"] = "another"
    sawn(data, "top", "along")[1]["part"] = "lid"
    messages = [f.message for f in faults_of(data)]
    assert any("a cabinet that the job has not" in m for m in messages)
    assert any("a board lid that the cabinet has not" in m for m in messages)


def test_an_outside_size_that_the_boards_do_not_come_to_is_caught(data):
    data["cabinets"][0]["size"][2] = 321.0
    only(faults_of(data), "size", "depth", "expected 0.0 to 321.0, found 0.0 to 320.0")


def test_a_bore_in_place_that_a_setting_has_too_is_caught():
    made = BUILT["in place"]
    pilots = [f for p in made.cabinets[0].parts for f in p.features if f.stage == "in place"]
    assert pilots
    setup = next(s for s in made.setups if s.stage == "after edging" and s.features[0].feature)
    line = replace(setup.features[0], feature=pilots[0].id)
    spoiled = replace(
        made, setups=tuple(replace(s, features=(*s.features, line)) if s is setup else s for s in made.setups)
    )
    assert any(f.cause == "stage" and "bored in place" in f.message for f in prove(spoiled))


@pytest.mark.parametrize(("whose", "surface"), [("host_register", "back_side"), ("guest_register", "left_end")])
def test_a_joint_said_to_be_on_another_surface_is_caught(data, whose, surface):
    joint(data, "left side / top")["contact"][whose]["bears"] = surface
    only(faults_of(data), "surface", "left side / top", "is no surface that this joint can be set from")


def test_a_joint_that_begins_elsewhere_than_its_boards_is_caught(data):
    joint(data, "left side / top")["contact"]["from"][2] = 719.0
    only(faults_of(data), "joint", "where the joint begins on the outside of the top", "expected 720.0, found 719.0")


def test_halves_that_agree_and_are_not_where_the_joint_has_them_are_caught(data):
    joint(data, "left side / top")["fixings"][1]["at"][1] = 137.0
    only(faults_of(data), "pair", "left side / top 2h", "are not where the joint has them")


def test_a_screw_bore_that_does_not_go_right_through_is_caught():
    made = BUILT["screws"].to_dict()
    bores = [f for p in made["cabinets"][0]["parts"] for f in p["features"] if f.get("through")]
    bores[0]["depth"] -= 1.0
    found = prove(Rod.from_dict(made))
    assert any(f.feature == bores[0]["id"] and f.cause == "depth" for f in found)


def test_a_half_in_another_board_and_a_half_that_no_board_has_are_caught(data):
    first, second = joint(data, "left side / top")["fixings"][:2]
    first["halves"][1]["part"] = "bottom"
    second["halves"][0]["feature"] = "left side / top 9h"
    messages = [f.message for f in faults_of(data) if f.cause == "joint"]
    assert any("left side / top 1 has a half in another board" in m for m in messages)
    assert any("where left side / top 9h of left side / top 2 is" in m and "in no board" in m for m in messages)


def test_halves_exchanged_between_two_joints_are_caught(data):
    top, bottom = (joint(data, f"left side / {lying}")["fixings"][0] for lying in ("top", "bottom"))
    top["halves"][0], bottom["halves"][0] = bottom["halves"][0], top["halves"][0]
    found = [f for f in faults_of(data) if f.cause == "joint"]
    assert any("left side / bottom 1h is in left side / top 1" in f.message for f in found)


def test_a_bore_of_a_joint_that_belongs_to_no_dowel_of_it_is_caught(data):
    del joint(data, "left side / top")["fixings"][0]
    found = faults_of(data)
    only(found, "joint", "is no half of anything in its joint")
    assert {f.feature for f in found} == {"left side / top 1h", "left side / top 1g"}


def test_a_counterbore_off_the_axis_of_its_screw_is_caught():
    spoiled = BUILT["plugs"].to_dict()
    cab = spoiled["cabinets"][0]
    fixing = next(f for j in cab["joints"] for f in j["fixings"] if f["others"])
    half = fixing["others"][0]
    bore = next(f for p in cab["parts"] for f in p["features"] if f["id"] == half["feature"])
    setup, done = next((s, d) for s in spoiled["setups"] for d in s["features"] if d["feature"] == bore["id"])
    bore["at"][1] += 1.0
    done["along"]["mm"] += 1.0
    setup["stop"] = "marks"
    only(prove(Rod.from_dict(spoiled)), "pair", f"{half['feature']} is off the axis of its screw", "1.0 off")


def test_a_gap_that_is_said_and_is_not_so_is_caught(data):
    data["cabinets"][0]["proof"]["largest_gap_mm"] = 0.2
    only(faults_of(data), "said", "expected 0.0 and 0.0, found 0.2 and 0.0")


# -- every printed number, one at a time -----------------------------------------------------------------

ROUNDS = [
    ("sample", Rod.from_dict(SAMPLE)),
    *((n, BUILT[n]) for n in ("screws", "screwed shelves", "plugs", "housings", "top through", "planted")),
]


def with_line(made, i, k, **changes):
    """The Rod with one line of one setting changed."""
    setup = made.setups[i]
    lines = (*setup.features[:k], replace(setup.features[k], **changes), *setup.features[k + 1 :])
    return replace(made, setups=(*made.setups[:i], replace(setup, features=lines), *made.setups[i + 1 :]))


def each_reading(made):
    """The printed numbers of the first, a middle and the last line of every setting."""
    for i, setup in enumerate(made.setups):
        last = len(setup.features) - 1
        for k in sorted({0, last // 2, last}):
            done = setup.features[k]
            for way in ("along", "across"):
                if getattr(done, way) is not None:
                    yield i, k, done, way, getattr(done, way)


def names(faults, done):
    """The fault names the board, or the bore or groove, or its mate in the same joint."""
    return any(f.part == done.part or (done.feature and f.feature == done.feature) for f in faults) or any(
        done.feature and f.joint and done.feature.startswith(f.joint) for f in faults
    )


@pytest.mark.parametrize(("name", "made"), ROUNDS, ids=[n for n, _ in ROUNDS])
def test_no_printed_number_can_be_a_tenth_out(name, made):
    shifted = 0
    for i, k, done, way, reading in each_reading(made):
        for what in ("mm", "end_mm", "line", "set_back"):
            if getattr(reading, what) is not None:
                wrong = replace(reading, **{what: round(getattr(reading, what) + (0.1 if k % 2 else -0.1), 3)})
                faults = prove(with_line(made, i, k, **{way: wrong}))
                assert faults, f"{done.feature or done.part} {way} {what}"
                assert names(faults, done), [f.message for f in faults]
                shifted += 1
    assert shifted > 60


@pytest.mark.parametrize(("name", "made"), ROUNDS, ids=[n for n, _ in ROUNDS])
def test_no_surface_can_be_swapped_nor_misnamed(name, made):
    for i, k, done, way, reading in each_reading(made):
        if done.feature is None:
            continue
        swapped = replace(reading, from_surface=OPPOSITE[reading.from_surface])
        assert names(prove(with_line(made, i, k, **{way: swapped})), done)
        misnamed = replace(reading, word="top end" if reading.word != "top end" else "bottom end")
        assert names(prove(with_line(made, i, k, **{way: misnamed})), done)
        turned_over = with_line(made, i, k, bears=OPPOSITE[done.bears])
        assert names(prove(turned_over), done)


@pytest.mark.parametrize(("name", "made"), ROUNDS, ids=[n for n, _ in ROUNDS])
def test_no_fence_depth_or_stop_can_be_a_tenth_out(name, made):
    for i, setup in enumerate(made.setups):
        wrong = []
        if setup.fence is not None:
            wrong.append(replace(setup, fence=replace(setup.fence, mm=setup.fence.mm + 0.1)))
        if setup.depth is not None:
            wrong.append(replace(setup, depth=setup.depth + 0.1))
        if isinstance(setup.stop, tuple):
            wrong += [
                replace(setup, stop=(*setup.stop[:k], stop + 0.1, *setup.stop[k + 1 :]))
                for k, stop in enumerate(setup.stop)
            ]
        for spoiled in wrong:
            assert prove(replace(made, setups=(*made.setups[:i], spoiled, *made.setups[i + 1 :]))), spoiled.id
