"""Sides from a stock: what follows from them, what their holes serve, what is made here, and what they cannot do.

The stock is invented: 720 x 560, holes 40, 72, ... 680 up, rows 37 from the front and 37 from the back edge (523).
"""

import pytest
from click.testing import CliRunner

from rodwork.cli import main
from rodwork.documents.boards import board_pages
from rodwork.documents.buying_list import buying_rows
from rodwork.documents.cutting_list import cutting_rows
from rodwork.documents.drawing import Text
from rodwork.documents.machining_drawing import Round, machining_drawing
from rodwork.job.faults import JobFaults
from rodwork.model.feature import Bore
from rodwork.pipeline import cutting, set_out
from tests import texts

STOCK = """
[drilled_sides.S720]
board = "birch18"
height = 720
depth = 560
first = 40
holes = 21
"""
HEIGHTS = {40 + 32 * n for n in range(21)}
CABINET = """
[cabinets.it]
kind = "base"
width = 600
board = "birch18"
sides_from = "S720"
"""


def text(lines="", stock=STOCK, cabinet=CABINET):
    return texts.HEAD + stock + cabinet + lines + "\n"


def rod_of(lines="", **given):
    return set_out(text(lines, **given), "stock.toml")


def holes(rod, side="left side", stage="as bought"):
    """Height and distance from the front of every bore of a side that is there, or made here."""
    part = rod.cabinets[0].part[side]
    return {
        (round(p[2], 3), round(p[1], 3)): f.role
        for f in part.features
        if isinstance(f, Bore) and f.stage == stage
        for p in [part.pose.to_cabinet(f.at)]
    }


def test_height_and_depth_follow_from_the_sides():
    rod = rod_of()
    assert rod.cabinets[0].size == (600, 720, 560)
    planted = rod_of("back = { board = 'birch6', style = 'planted' }")
    assert planted.cabinets[0].size == (600, 720, 565.8)
    assert planted.cabinets[0].part["left side"].size == (720, 560, 17.6)


def test_every_hole_of_the_stock_is_there_once_and_in_no_setting():
    rod = rod_of("loose_shelves = 1\ndoors = { hung = 'pair' }")
    for side in ("left side", "right side"):
        assert set(holes(rod, side)) == {(z, y) for z in HEIGHTS for y in (37, 523)}
        ids = [f.id for f in rod.cabinets[0].part[side].features if f.stage == "as bought"]
        assert len(ids) == 42
        listed = {f.feature for s in rod.setups for f in s.features}
        assert not set(ids) & listed


def test_shelf_pins_and_hinge_plates_take_holes_that_are_there():
    rod = rod_of("loose_shelves = 1\ndoors = { hung = 'pair' }")
    there = holes(rod)
    assert {y for (_, y), role in there.items() if role == "shelf_pin"} == {37, 523}
    plates = sorted(z for (z, _), role in there.items() if role == "hinge")
    assert [b - a for a, b in zip(plates[::2], plates[1::2], strict=True)] == [32, 32]
    assert set(plates) <= HEIGHTS
    (low, high) = sorted((a + b) / 2 for a, b in zip(plates[::2], plates[1::2], strict=True))
    door = rod.cabinets[0].part["left door"].box
    assert (low, high) == (88, 632)  # of 88, 120, .. the nearest to 1.5 + 100, and to 718.5 - 100
    assert 60 <= low - door[0][2] <= 130 >= door[1][2] - high
    shelf = rod.cabinets[0].part["loose shelf"].box[0][2]
    assert round(shelf - 2.5, 3) in HEIGHTS


def test_runners_take_a_hole_and_only_their_second_screw_is_bored_here():
    rod = rod_of("drawers = { number = 3, bottom_board = 'birch6' }")
    there, made = holes(rod), holes(rod, stage="after edging")
    firsts = sorted(z for (z, y), role in there.items() if role == "pilot")
    assert len(firsts) == 3
    assert {y for (_, y), role in there.items() if role == "pilot"} == {37}
    assert sorted(z for (z, y), role in made.items() if role == "pilot") == firsts
    assert {y for (_, y), role in made.items() if role == "pilot"} == {261}


def test_they_are_neither_sawn_nor_planned_but_bought_by_the_piece():
    rod = rod_of("count = 2\nback = { board = 'birch6', style = 'grooved all round', void = 20 }")
    sides = {m for p in rod.cabinets[0].parts if p.role == "side" for m in p.marks}
    assert not sides & {m for row in cutting_rows(rod) for m in row.marks}
    assert not sides & {m for b in cutting(rod).boards for s in b.sheets for p in s.sawn for m in p.marks}
    (row,) = [r for r in buying_rows(rod) if "drilled side" in r.item]
    assert (row.item, row.needed, row.buy) == ("drilled side S720, 720 x 560", 4, 4)
    saws = {f.part for s in rod.setups if s.tool.startswith("saw") for f in s.features}
    assert not saws & {"left side", "right side"}
    tools = {s.tool for s in rod.setups for f in s.features if f.part == "left side"}
    assert tools == {"dowel jig", "router and fence"}


def test_the_set_out_on_the_terminal_names_them_as_bought(tmp_path):
    job = tmp_path / "stock.toml"
    job.write_text(text(), encoding="utf-8")
    done = CliRunner().invoke(main, ["set-out", str(job)])
    (row,) = [line for line in done.output.splitlines() if "left side" in line and "bought" in line]
    assert " ".join(row.split()) == "birch18 left side I1-LS bought 720 x 560 x 17.6 as it comes"


def test_sides_whose_rows_differ_from_end_to_end_are_bought_left_and_right():
    rod = rod_of("loose_shelves = 1", stock=STOCK.replace("first = 40", "first = 30"))
    bought = [(r.item, r.needed) for r in buying_rows(rod) if "drilled side" in r.item]
    assert bought == [("drilled side S720, 720 x 560, left", 1), ("drilled side S720, 720 x 560, right", 1)]
    assert "holes-not-balanced" not in {f.code for f in rod.findings}  # they cannot be bored otherwise


def test_the_page_says_what_is_there_and_the_file_for_the_machine_has_only_what_is_made():
    rod = rod_of("loose_shelves = 1")
    said = [s.text for p in board_pages(rod) for s in p.shapes if isinstance(s, Text)]
    assert any("with 42 bores of 5, drawn grey: only what has a number is made here" in t for t in said)
    drawn = machining_drawing(rod.cabinets[0].part["left side"])
    rounds = [2 * s.radius for layer in drawn.layers for s in layer.shapes if isinstance(s, Round)]
    assert rounds
    assert 5 not in rounds


def test_dividers_beside_them_are_bored_here_at_the_same_heights():
    rod = rod_of("dividers = 1\nloose_shelves = 1")
    divider = rod.cabinets[0].part["divider"]
    rows = {round(divider.pose.to_cabinet(f.at)[2], 3) for f in divider.features if f.role == "shelf_pin"}
    assert rows
    assert rows <= HEIGHTS
    assert "pins-out-of-place" not in {f.code for f in rod.findings}


REFUSED = {
    "height": ("height = 750", {}, "720, 30 less", "720 high"),
    "depth": ("depth = 500", {}, "500 deep, and those of S720 are 560, 60 more", "560 deep"),
    "planted": (
        "depth = 560\nback = { board = 'birch6', style = 'planted' }", {}, "554.2 deep, and those of S720 are 560", "560"
    ),
    "board": ("", {"stock": STOCK.replace("birch18", "birch6") + "hole_depth = 4"}, "S720 of birch6", 'board = "birch6"'),
    "between": ("sides = 'between'", {}, "would cut them", "through"),
    "notched": ("feet = { style = 'notched sides', height = 100 }", {}, "is notched", "feet"),
    "inset": ("doors = { hung = 'left', style = 'inset' }", {}, "54.6 from the front", "overlay"),
    "a runner line": (
        "drawers = { number = 1, bottom_board = 'birch6', runner_line = 50 }", {}, "the nearest hole", "runner_line"
    ),
    "one row": ("loose_shelves = 1", {"stock": STOCK + "back = 'none'\n"}, "have no back row", "two rows"),
    "a plate of another size": ("doors = { hung = 'left' }", {"stock": STOCK + "diameter = 8\n"}, "8 mm", "with holes of 5"),
    "a bought door": (
        "doors = { hung = 'left', bought = { height = 715, width = 596, cups_from_ends = 98 } }", {},
        "84.5 up and 37.0 from the front", "that cup 12.5 lower",
    ),
    "no hole near the end": (
        "doors = { hung = 'left' }", {"stock": STOCK.replace("first = 40\nholes = 21", "first = 300\nholes = 5")},
        "60 to 130 from its lower end", "shelf",
    ),
    "pins": ("pins = { start = 30 }", {}, "rows of holes are there already", "pins"),
    "no such": ("", {"cabinet": CABINET.replace("S720", "S72")}, "S72", "S720"),
    "too many holes": ("", {"stock": STOCK.replace("21", "30")}, "968 up a side 720", "holes = 22"),
    "through": ("", {"stock": STOCK + "hole_depth = 17\n"}, "come through", "1 mm"),
    "rows the wrong way": ("", {"stock": STOCK + "front = 300\nback = 300\n"}, "the back row would be 260", "Measure"),
    "off the front": ("", {"stock": STOCK.replace("560", "100") + "front = 99\n"}, "the front row would be 99", "Measure"),
    "no height": ("", {"stock": STOCK.replace("height = 720\n", "")}, "height", "720"),
    "a slip": ("", {"stock": STOCK + "hole_dept = 5\n"}, "not a word", "hole_depth"),
    "not a number": ("", {"stock": STOCK.replace("first = 40", "first = nan")}, "first", "length"),
    "far too much": ("", {"stock": STOCK.replace("height = 720", "height = 1e9")}, "height", "length"),
    "less than nought": ("", {"stock": STOCK.replace("depth = 560", "depth = -5")}, "depth is -5", "under 100"),
    "no board": ("", {"stock": STOCK.replace("birch18", "oak")}, "oak", "boards"),
}  # fmt: skip


@pytest.mark.parametrize(("lines", "given", "what", "mend"), REFUSED.values(), ids=REFUSED)
def test_what_they_cannot_do_is_refused_with_the_reason_and_how_to_mend_it(lines, given, what, mend):
    with pytest.raises(JobFaults) as caught:
        rod_of(lines, **given)
    said = " ".join(f"{f.what}. {f.mend}" for f in caught.value.faults)
    assert what in said
    assert mend in said
    assert all(text(lines, **given).splitlines()[f.line - 1].strip() for f in caught.value.faults)
