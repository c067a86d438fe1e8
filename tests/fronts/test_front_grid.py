"""Fronts on the grid of system holes: whole modules of 32 less the gap, hinges and runners on the row.

Trade pages on the 32 mm system print faces of 157, 253 and 317 for 5, 8 and 10 modules less a gap of 3, 733 for 23, and a
side of 2131 for 66 modules and ends of 9.5.
"""

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out
from tests import texts

CABINET = """
[cabinets.it]
kind = "base"
width = 600
height = 736
depth = 560
board = "birch18"
fronts_on_grid = true
"""


def text(lines, cabinet=CABINET):
    return texts.HEAD + cabinet + lines + "\n"


def cabinet_of(lines, cabinet=CABINET):
    return set_out(text(lines, cabinet), "grid.toml").cabinets[0]


def drawers(lines="number = 3"):
    return f"drawers = {{ {lines}, bottom_board = 'birch6' }}"


def fronts(cabinet):
    """Lower and upper edge of every front, from the bottom."""
    seen = [p for p in cabinet.parts if p.role == "door" or (p.role == "drawer front" and "back_side" in p.shows)]
    return sorted({(round(p.box[0][2], 3), round(p.box[1][2], 3)) for p in seen})


def heights(cabinet):
    return [round(b - a, 3) for a, b in fronts(cabinet)]


def bores(cabinet, side="left side", role="hinge"):
    part = cabinet.part[side]
    at = [part.pose.to_cabinet(f.at) for f in part.features if f.role == role]
    return sorted({(round(p[2], 3), round(p[1], 3)) for p in at})


def test_the_published_faces_of_5_8_and_10_modules():
    assert heights(cabinet_of(drawers("number = 3, modules = [10, 8, 5]"))) == [317, 253, 157]


def test_modules_stand_in_place_of_heights_off_the_grid_too():
    off = CABINET.replace("fronts_on_grid = true\n", "")
    assert heights(cabinet_of(drawers("number = 3, modules = [10, 8, 5]"), off)) == [317, 253, 157]


def test_a_door_of_23_modules_is_733_and_not_736():
    assert heights(cabinet_of("doors = { hung = 'left' }")) == [733]


def test_a_side_of_66_modules_and_ends_of_9_5_has_its_fronts_on_the_lines_of_its_holes():
    tall = CABINET.replace("736", "2131").replace('"base"', '"tall"')
    made = cabinet_of(
        drawers("number = 6, opening = 1, ends = 11")
        + "\nopenings = ['rest', 'rest']\ndoors = { hung = 'pair', ends = 11 }\npins = { start = 9.5 }\nloose_shelves = [0, 2]",
        tall,
    )
    edges = [z for pair in fronts(made) for z in pair]
    assert edges[0] == 11
    assert edges[-1] == 2131 - 11
    lines = {round((a - 1.5 - 9.5) / 32, 6) for a, _ in fronts(made)} | {
        round((b + 1.5 - 9.5) / 32, 6) for _, b in fronts(made)
    }
    assert all(n == int(n) for n in lines)
    assert max(lines) == 66
    pins = {z for z, _ in bores(made, role="shelf_pin")}
    assert pins
    assert all((z - 9.5) % 32 == 0 for z in pins)


def test_what_is_shared_comes_in_whole_modules_with_the_larger_fronts_below():
    """23 modules for three: 8, 8 and 7; with one of 5 given, 18 are left for two."""
    assert heights(cabinet_of(drawers())) == [253, 253, 221]
    assert heights(cabinet_of(drawers("number = 3, heights = ['rest', 'rest', 157]"))) == [285, 285, 157]


def test_a_shelf_between_drawers_and_doors_goes_behind_a_line():
    made = cabinet_of(drawers("number = 2") + "\nfixed_shelves = 1\ndoors = { hung = 'pair' }")
    shelf = made.part["fixed shelf"].box
    assert round((shelf[0][2] + shelf[1][2]) / 2, 6) % 32 == 0
    assert all((b - a + 3) % 32 == 0 for a, b in fronts(made))
    assert sum(heights(made)) + 3 * len(heights(made)) == 736


def test_runners_and_plates_stand_on_the_grid_and_at_one_height_in_every_front_alike():
    made = cabinet_of(drawers("number = 3, modules = [8, 8, 7]"))
    screws = sorted({z for z, _ in bores(made, role="pilot")})
    assert [(z - 24) % 32 for z in screws] == [0, 0, 0]
    assert screws[1] - screws[0] == 8 * 32
    doors = cabinet_of("doors = { hung = 'pair' }\nloose_shelves = 1")
    plates = bores(doors)
    assert len(plates) == 4
    assert {y for _, y in plates} == {37}
    assert all((z - 24) % 32 == 0 for z, _ in plates)
    assert not {z for z, _ in plates} & {z for z, _ in bores(doors, role="shelf_pin")}


def test_notched_sides_lift_the_grid_with_the_bottom():
    made = cabinet_of(
        "doors = { hung = 'left' }\nfeet = { style = 'notched sides', height = 100 }", CABINET.replace("736", "836")
    )
    assert fronts(made) == [(101.5, 834.5)]


def test_an_opening_that_is_too_high_for_its_modules_says_by_how_much():
    """736 in two even openings is 11 and 12 modules; a drawer of 5 wants its opening 6 or 7 of 32 lower."""
    words = drawers("number = 1, modules = [5]") + "\ndoors = { hung = 'left' }\n"
    with pytest.raises(JobFaults) as refused:
        cabinet_of(words + "openings = ['rest', 'rest']")
    (fault,) = refused.value.faults
    every = int(fault.what.split("there are ")[1].split()[0])
    assert f"make it {(every - 5) * 32} lower" in fault.mend


REFUSED = {
    "no whole modules": ("doors = { hung = 'left' }", CABINET.replace("736", "720"), "22.50 modules", "704 high for 22"),
    "no whole modules of drawers": (drawers(), CABINET.replace("736", "720"), "22.50 modules", "736 for 23"),
    "a height off it": (drawers("number = 2, heights = [200, 'rest']"), CABINET, "6.34 modules", "189 or 221"),
    "modules that do not fill it": (drawers("number = 2, modules = [10, 8]"), CABINET, "there are 23 modules for the fronts, and 18", "23 modules"),
    "a shelf off it": (
        drawers("number = 1") + "\nopenings = [300, 'rest']\ndoors = { hung = 'left' }", CABINET, "over a line", "openings"
    ),
    "inset": ("doors = { hung = 'left', style = 'inset' }", CABINET, "inset fronts lie between boards", "overlay"),
    "a frame": (
        "doors = { hung = 'left' }\nface_frame = { board = 'birch18' }", CABINET, "a face frame", "leave the word out"
    ),
    "no fronts": ("", CABINET, "no fronts", "ive it doors"),
    "two gaps": (
        drawers("number = 1, between = 4") + "\nfixed_shelves = 1\ndoors = { hung = 'left' }", CABINET, "1.5 and 3", "same"
    ),
    "another pitch": ("doors = { hung = 'left' }\npins = { pitch = 25 }", CABINET, "25 apart", "pitch = 32"),
    "in two ways": (drawers("number = 1, modules = [5], heights = ['rest']"), CABINET, "two ways", "Keep one"),
    "too few": (drawers("number = 3, modules = [5]"), CABINET, "the number of drawers is 3, and modules has 1", "one number for each"),
    "no number": (drawers("number = 1, modules = [1.5]"), CABINET, "not a whole number", "2 to 60"),
    "under two": (drawers("number = 1, modules = [1]"), CABINET, "under 2", "2 to 60"),
    "no switch": ("doors = { hung = 'left' }", CABINET.replace("true", "32"), "neither true nor false", "without quotes"),
}  # fmt: skip


@pytest.mark.parametrize(("lines", "cabinet", "what", "mend"), REFUSED.values(), ids=REFUSED)
def test_what_is_not_on_the_grid_is_refused_with_what_would_be(lines, cabinet, what, mend):
    with pytest.raises(JobFaults) as caught:
        cabinet_of(lines, cabinet)
    (fault,) = caught.value.faults
    assert what in fault.what
    assert mend in fault.mend
    assert text(lines, cabinet).splitlines()[fault.line - 1].strip()
