"""The open front: every plate, runner, pin, box and shelf where its bores are, its height in words, nothing over anything."""

import re

import pytest
from hypothesis import HealthCheck, given, settings
from page_laws import check_pages
from tests.laws.vocabulary import jobs
from tests.texts import HEAD

from rodwork.documents.drawing import HIDDEN, Circle, Path_, Text
from rodwork.documents.inside_pages import inside_pages
from rodwork.pipeline import set_out

UNIT = '[cabinets.unit]\nboard = "birch18"\n'
UNITS = {
    "pair": 'kind = "wall"\nwidth = 600\nheight = 720\ndepth = 320\nloose_shelves = 1\ndoors = { hung = "pair" }\n',
    "frame": (
        'kind = "base"\nwidth = 1000\nheight = 780\ndepth = 560\ndividers = 1\nopenings = ["rest", 160]\n'
        'loose_shelves = [1, 0]\nface_frame = { board = "birch18" }\ndoors = { hung = "left", openings = [1, 1] }\n'
        'drawers = { number = 1, bottom_board = "birch6" }\n'
    ),
    "tall": (
        'kind = "tall"\nwidth = 600\nheight = 2100\ndepth = 560\nfeet = { style = "notched sides" }\n'
        'openings = [700, "rest"]\nloose_shelves = [0, 4]\ndoors = { hung = "pair", openings = [2, 2] }\n'
        'drawers = { opening = 1, number = 4, bottom_board = "birch6", runners = "concealed" }\n'
    ),
    "bank": (
        'kind = "base"\nwidth = 1600\nheight = 720\ndepth = 560\ndividers = 3\nloose_shelves = 1\n'
        'doors = [{ bays = [1], hung = "left" }, { bays = [4], hung = "pair" }]\n'
        'drawers = [{ bays = [2], number = 5, bottom_board = "birch6" }, { bays = [3], number = 2, bottom_board = "birch6" }]\n'
    ),
    "corner": (
        'kind = "base"\nwidth = 1100\nheight = 720\ndepth = 560\nloose_shelves = 1\n'
        'blind = { side = "left", takes = 580 }\ndoors = { hung = "right" }\n'
    ),
    "wardrobe": (
        'kind = "wardrobe"\nwidth = 1300\nheight = 2100\ndepth = 600\ndividers = 1\nopenings = ["rest", 300]\nloose_shelves = [4, 0]\n'
        'doors = { hung = "pair" }\nclothes_rails = [{ opening = 1, bays = [1], supports = 1 }, { opening = 1, bays = [1], below = 900 }]\n'
    ),
    "flap": 'kind = "wall"\nwidth = 900\nheight = 400\ndepth = 320\ndoors = { hung = "up" }\n',
    "books": 'kind = "bookcase"\nwidth = 1200\nheight = 2000\ndepth = 280\ndividers = 1\nloose_shelves = 4\n',
}  # fmt: skip


def unit(name):
    return set_out(HEAD + UNIT + UNITS[name], "it.toml")


def page(name):
    (one,) = inside_pages(unit(name))
    return one


def texts(name):
    return [s.text for s in page(name).shapes if isinstance(s, Text)]


def words(name):
    return " ".join(texts(name))


@pytest.mark.parametrize("name", UNITS)
def test_pages_keep_the_laws(name):
    made = unit(name)
    check_pages(inside_pages(made), made)


@settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(jobs())
def test_pages_of_any_cabinet_keep_the_laws(drawn):
    pages = inside_pages(drawn.rod)
    if pages:
        check_pages(pages, drawn.rod)


def test_a_cabinet_with_nothing_to_take_off_has_no_such_page():
    plain = UNITS["pair"].replace('loose_shelves = 1\ndoors = { hung = "pair" }\n', "")
    assert inside_pages(set_out(HEAD + UNIT + plain, "it.toml")) == ()


@pytest.mark.parametrize("name", ["pair", "frame", "tall", "bank", "corner"])
def test_plates_are_told_at_the_heights_of_the_cups(name):
    """The plate stands where the cup comes as the door is shut, whatever board it is bored from."""
    cabinet = unit(name).cabinets[0]
    for door in cabinet.doors:
        leaf = cabinet.part[door.door]
        cups = sorted(leaf.pose.to_cabinet(f.at)[2] for f in leaf.features if f.id in {h.cup for h in door.hinges})
        said = next(w for w in re.findall(r"Plates of [^.]*?: ([\d., and]+)\.(?= |$)", words(name))
                    if all(f"{cup:.1f}".rstrip("0").rstrip(".") in w for cup in cups))  # fmt: skip
        assert said.count(",") + said.count(" and ") == len(cups) - 1


def test_plates_stand_in_the_drawing_with_their_heights():
    """From 100 up a door that stands 1.5 over the bottom of the carcass, and 100 from its top: once beside each plate."""
    shown = [s.text for s in page("pair").shapes if isinstance(s, Text) and s.anchor == "middle"]
    assert shown.count("101.5") == 2
    assert shown.count("618.5") == 2


def test_boxes_and_runners():
    """By the trade's arithmetic: 400 wide less 27 for runners; 13 under the opening, 10 over the front's lower edge."""
    made = unit("bank").cabinets[0]
    said = words("bank")
    for drawer in made.drawers:
        box = [made.part[i].box for i in drawer.box]
        low, high = min(b[0][2] for b in box), max(b[1][2] for b in box)
        assert drawer.box_width == pytest.approx(drawer.opening_width - 27.0)
        assert (
            f"{drawer.box_width:g} x {high - low:g} x 500" in said
            or f"{drawer.box_width:g} x {high - low:g} x 550" in said
        )
        runners = {
            p.pose.to_cabinet(f.at)[2] for p in made.parts for f in p.features if f"{drawer.front[:-6]} runner" in f.id
        }
        (line,) = runners
        assert f"screws of its runners {line:g}." in said
    assert sum(1 for t in texts("bank") if re.fullmatch(r"behind W\dF", t)) == 7


def test_a_runner_of_each_side_is_drawn_and_what_a_frame_hides_is_dashed():
    filled = [s for s in page("bank").shapes if isinstance(s, Path_) and s.fill == "light"]
    assert len(filled) == 2 * 7
    framed = page("frame").shapes
    dashed = [s for s in framed if isinstance(s, Path_) and s.closed and s.pen == HIDDEN]
    assert len(dashed) == 2  # the outer runners, behind the stiles


def test_a_clothes_rail_is_drawn_between_its_sockets_with_its_length_and_height():
    """In bay 1 of 623.6: 4 less, to the whole millimetre. The upper one is 60 under a shelf that is 1764.8 up."""
    upper, lower = unit("wardrobe").cabinets[0].clothes_rails
    assert upper.length == lower.length == 619.0
    shown = texts("wardrobe")
    assert f"rail 619, middle {lower.middle[2]:g}" in shown
    assert "Clothes rail in bay 1: oval 30 x 15, cut to 619; its middle 1705 up" in words("wardrobe")
    filled = [s for s in page("wardrobe").shapes if isinstance(s, Path_) and s.closed and s.fill == "light"]
    assert len(filled) == 2 * 2 + 1  # the sockets, and a middle support


def test_pins_are_dots_and_those_under_a_shelf_have_a_stroke():
    made = unit("pair").cabinets[0]
    rows = {
        (round(p.pose.to_cabinet(f.at)[0], 3), round(p.pose.to_cabinet(f.at)[2], 3))
        for p in made.parts for f in p.features if f.role == "shelf_pin"
    }  # fmt: skip
    shapes = page("pair").shapes
    assert len([s for s in shapes if isinstance(s, Circle)]) == len(rows)
    assert len([s for s in shapes if isinstance(s, Path_) and s.pen.width == 0.7]) == 2
    assert "Bores for pins, 32 apart: 280 to 408." in words("pair")
    assert "Undersides of loose shelves: L at 346.5." in words("pair")


def test_pins_behind_a_blind_board_are_grey():
    dots = [s.fill for s in page("corner").shapes if isinstance(s, Circle)]
    assert dots.count("grey") == dots.count("black") > 0


def test_a_row_with_a_gap_is_told_in_its_stretches():
    assert "1016 to 1144; 1272 to 1400; 1528 to 1656; 1784 to 1912." in words("tall")


def test_a_flap_s_plates_are_told_from_the_left():
    assert "Plates of DR, on the top, 101.5 and 798.5 from the left." in words("flap")


def test_a_plate_under_a_slope_has_its_height_beside_it():
    """A slanting board was taken to cover all under it: the plates next to it had their heights in the words alone."""
    slope = """
[joints.slope]
use = [{ family = "biscuit" }]
"""
    unit = (
        'kind = "under slope"\nwidth = 1340\nheight = 796\ndepth = 358\ndividers = 1\n'
        'roof = { falls = "right", degrees = 13, joint = "slope" }\ndoors = { hung = "pair" }\n'
    )
    rod = set_out(f"{HEAD}{slope}{UNIT}{unit}", "it.toml")
    (cabinet,) = rod.cabinets
    texts = [s.text for page in inside_pages(rod) for s in page.shapes if isinstance(s, Text)]
    assert len(cabinet.doors) == 4
    said = re.findall(r"\d+(?:\.\d)?", " ".join(t for t in texts if t.startswith("Plates of")).replace("DR", ""))
    heights = {t for t in texts if re.fullmatch(r"\d+(\.\d)?", t)}
    assert len(set(said)) > 5
    assert heights >= {t for t in said if float(t) > 50}
