"""Bores for shelf pins off their board or behind another, and shelves that lie on fewer than four: boards moved by hand."""

from dataclasses import replace

import pytest

from rodwork.checks.registry import run_checks
from rodwork.model.job import Pins
from rodwork.pipeline import set_out
from tests.building import back, rod
from tests.checks.shop import told
from tests.fronts.front_samples import doors, fronted
from tests.texts import HEAD

CODE = "pins-out-of-place"


def changed(made, ids, change):
    """The Rod with these parts changed."""
    cabinet = made.cabinets[0]
    parts = tuple(change(p) if p.id in ids else p for p in cabinet.parts)
    return replace(made, cabinets=(replace(cabinet, parts=parts),))


def lifted(part, by):
    x, y, z = part.pose.origin
    return replace(part, pose=replace(part.pose, origin=(x, y, z + by)))


def off_its_pins(by=16.0):
    """A shelf that stands so far over its pins."""
    return changed(rod(), {"loose shelf 1"}, lambda p: lifted(p, by))


@pytest.mark.parametrize(
    "changes", [{}, {"bays": ("rest", "rest")}, {"shelf_set_back_mm": 40.0}, {"pins": Pins(holes=9, start_mm=11.0)}]
)
def test_rows_as_they_are_set_out(changes):
    assert told(CODE, rod(**changes)) == []


@pytest.mark.parametrize(("by", "ends"), [(0.5, 0), (0.7, 1), (16.0, 1)])
def test_a_shelf_off_its_pins(by, ends):
    found = told(CODE, off_its_pins(by))
    assert [f.severity for f in found] == ["fault"] * ends
    assert all("left and right end" in f.message for f in found)


def test_a_row_in_front_of_the_shelf_does_not_hold_it():
    """A shelf set back behind the front row lies on the back row alone, and tips."""

    def set_back(part):
        x, y, z = part.pose.origin
        return replace(
            part,
            pose=replace(part.pose, origin=(x, y + 60.0, z)),
            size=(part.size[0], part.size[1] - 60.0, part.size[2]),
        )

    (finding,) = told(CODE, changed(rod(), {"loose shelf 1"}, set_back))
    assert "it tips" in finding.message


def test_a_bore_past_a_slope_or_in_a_notch_is_off_the_board():
    """The top of a side sawn off on a slope: its uppermost pins at the back are in the air. The edge is far from them."""

    def sawn(part):
        length, width, _ = part.size
        return replace(part, outline=((0.0, 0.0), (length, 0.0), (length, width), (400.0, width)))

    found = told(CODE, changed(rod(), {"left side"}, sawn))
    assert [f.severity for f in found] == ["fault"]
    assert found[0].message.startswith("Left side, inside: a bore for a shelf pin stands off the board, ")
    assert all("left side pin" in i for i in found[0].where[1:])


def test_a_bore_behind_a_fixed_board():
    """The fixed shelf brought down over a bore of the lower opening."""
    made = rod()
    low, high = made.cabinets[0].part["fixed shelf"].box
    side = made.cabinets[0].part["left side"]
    bore = next(side.pose.to_cabinet(f.at)[2] for f in side.features if f.role == "shelf_pin")
    found = told(CODE, changed(made, {"fixed shelf"}, lambda p: lifted(p, bore - (low[2] + high[2]) / 2)))
    assert {f.severity for f in found} == {"fault"}
    assert any("lies behind the end of the other board" in f.message and "fixed shelf" in f.where for f in found)


# --- what other checks find of pins already: these bores meet or break out, and a check by that name says so ----------


def found_by(code, made):
    return [f.message for f in run_checks(made) if f.code == code]


def test_a_pin_against_the_back_groove_is_found_by_what_meets():
    said = found_by("machining-that-meets", rod(pins=Pins(back_mm=4.0)))
    assert any("shelf-pin bore" in m and "back groove" in m for m in said)
    assert found_by("machining-that-meets", rod(pins=Pins(back_mm=20.0))) == []


def test_a_pin_against_a_dowel_is_found_by_what_meets():
    """Centres 8 apart leave 8 - 4 - 2.5 = 1.5 between."""

    def near(part):
        dowel = next(f for f in part.features if f.role == "seat" and "fixed shelf" in f.id)
        pin = next(f for f in part.features if f.role == "shelf_pin")
        moved = replace(pin, at=(dowel.at[0] + 8.0, dowel.at[1], pin.at[2]))
        return replace(part, features=tuple(moved if f is pin else f for f in part.features))

    said = found_by("machining-that-meets", changed(rod(), {"left side"}, near))
    assert any("shelf-pin bore" in m and "dowel bore" in m for m in said)


def test_a_pin_against_a_hinge_plate_is_found_by_what_meets():
    made = fronted(doors("left"), loose_shelves=(3,))
    plate = next(f for f in made.cabinets[0].part["left side"].features if f.role == "hinge")

    def near(part):
        pins = [f for f in part.features if f.role == "shelf_pin"]
        moved = replace(pins[0], at=(plate.at[0] + 6.0, plate.at[1], plate.at[2]))
        return replace(part, features=tuple(moved if f is pins[0] else f for f in part.features))

    assert found_by("machining-that-meets", made) == []
    assert any("shelf-pin bore" in m for m in found_by("machining-that-meets", changed(made, {"left side"}, near)))


@pytest.mark.parametrize(("start", "near"), [(17.6 + 40.0, False), (5.0, False)])
def test_rows_keep_off_the_ends_of_their_board(start, near):
    """The grid begins where it is told, but no bore stands nearer than 40 to a lying board."""
    made = rod(pins=Pins(start_mm=start), back=back("planted"))
    assert bool(found_by("near-an-edge-or-end", made)) is near


def test_a_pin_near_the_front_edge_is_found_by_what_is_near_an_edge():
    def near(part):
        pin = next(f for f in part.features if f.role == "shelf_pin")
        moved = replace(pin, at=(pin.at[0], 4.0, pin.at[2]))
        return replace(part, features=tuple(moved if f is pin else f for f in part.features))

    said = found_by("near-an-edge-or-end", changed(rod(), {"left side"}, near))
    assert any("shelf-pin bore of 5 stands 4 from the front edge" in m for m in said)


def test_pins_under_a_steep_top_are_held_against_the_slope_and_not_against_the_box_round_it():
    """30 degrees over 1800: the top's box reaches down to 600, and all the pins of the high bay lie in that."""
    unit = '[cabinets.eaves]\nkind = "under slope"\nwidth = 1800\nheight = 1650\ndepth = 400\nboard = "birch18"\n'
    inside = (
        'roof = { falls = "right", low = 600 }\nbays = [500, "rest", 500]\nopenings = [["rest"], ["rest"], ["rest"]]\n'
    )
    eaves = set_out(HEAD + unit + inside + "loose_shelves = [[2], [1], [1]]\n", "it.toml")
    assert found_by(CODE, eaves) == []

    def up(part):
        pin = max((f for f in part.features if f.role == "shelf_pin"), key=lambda f: part.pose.to_cabinet(f.at)[2])
        stands = part.pose.to_cabinet(pin.at)[2]
        moved = replace(pin, at=(pin.at[0] - (1640.0 - stands), *pin.at[1:]))
        return replace(part, features=tuple(moved if f is pin else f for f in part.features))

    assert any("behind the end" in m for m in found_by(CODE, changed(eaves, {"left side"}, up)))


@pytest.mark.parametrize("joint", ["dowel", "biscuit", "housing"])
def test_pins_keep_off_the_fixed_shelf_beyond_a_divider(joint):
    """A hole 12 deep behind a dowel 12 deep in 17.6 board: both cannot be. Every height of the neighbour's shelf is
    tried over a whole pitch; each loose shelf still lies level on four."""
    recipe = f'[joints.c]\nuse = [{{ family = "dowel" }}]\n[joints.s]\nuse = [{{ family = "{joint}" }}]\n'
    for up in range(300, 333, 4):
        unit = '[cabinets.it]\nwidth = 1200\nheight = 900\ndepth = 320\nboard = "birch18"\ncorner_joint = "c"\nshelf_joint = "s"\n'
        inside = f'divider_joint = "c"\nbays = ["rest", "rest"]\nopenings = [[{up}, "rest"], ["rest"]]\nloose_shelves = [[0, 1], [2]]\n'
        made = set_out(HEAD + recipe + unit + inside, "it.toml")
        assert found_by("machining-that-meets", made) == []
        assert found_by(CODE, made) == []
