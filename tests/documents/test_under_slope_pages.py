"""Every page of the pack of a cabinet under a slope keeps the laws of pages, and shows the slope where it is."""

import re
from math import radians, tan

import pytest
from page_laws import check_pages
from tests.texts import HEAD, joint

from rodwork.documents.assembly import assembly_pages
from rodwork.documents.boards import board_pages
from rodwork.documents.cover import cover_pages
from rodwork.documents.cutting_list import cutting_list_pages
from rodwork.documents.drawing import Path_, Text
from rodwork.documents.elevations import elevations
from rodwork.documents.front_pages import front_pages
from rodwork.documents.hulls import front_outline
from rodwork.documents.inside_pages import inside_pages
from rodwork.documents.labels import label_pages, next_words
from rodwork.documents.machined import Works
from rodwork.documents.opened_joint import opened_joint_pages
from rodwork.documents.page import Area, body
from rodwork.documents.settings_list import settings_pages
from rodwork.documents.strips import strip_pages
from rodwork.pipeline import set_out

PAGES = (
    cover_pages, cutting_list_pages, settings_pages, board_pages, opened_joint_pages, assembly_pages, front_pages,
    inside_pages, label_pages, strip_pages,
)  # fmt: skip
BACK = 'back = { board = "birch6", style = "grooved all round", void = 18'
HIGH, LOW = "width = 1200\nheight = 1500\ndepth = 400\n", "width = 1000\nheight = 387\ndepth = 280\n"
UNITS = {
    "right": f'roof = {{ falls = "right", low = 700 }}\n{BACK} }}\ndividers = 1\nfixed_shelves = 1\n',
    "left": f'roof = {{ falls = "left", degrees = 40 }}\n{BACK}, grain = "across" }}\nopenings = [300, "rest"]\n'
    'doors = { hung = "pair", openings = [1, 1], handle = 128 }\n',
    "screwed": 'roof = { falls = "right", degrees = 20, joint = "screws" }\ndividers = 2\nloose_shelves = 1\n',
    "cut doors": 'roof = { falls = "right", degrees = 38, side_tops = "high side bevelled" }\n'
    'back = { board = "birch6", style = "planted" }\ndividers = 1\ndoors = { hung = ["left", "right"], handle = 128 }\n',
    "cut pair": 'roof = { falls = "left", degrees = 24 }\ndoors = { style = "inset", hung = "pair", grain = "across" }\n',
    "planted": 'roof = { falls = "left", degrees = 5, side_tops = "high side bevelled" }\ndividers = 1\n'
    'back = { board = "birch6", style = "planted", void = 0 }\n',
    "flat": 'roof = { falls = "right", degrees = 6, side_tops = "bevelled" }\n',
}


def unit(name):
    return set_out(
        f'{HEAD}{joint("screws", chr(34) + "screw" + chr(34))if name == "screwed" else ""}\n[cabinets.eaves]\n'
        f'kind = "under slope"\nboard = "birch18"\n{LOW if name == "planted" else HIGH}{UNITS[name]}',
        "eaves.toml",
    )  # fmt: skip


@pytest.mark.parametrize("name", UNITS)
@pytest.mark.parametrize("pages", PAGES, ids=lambda p: p.__name__)
def test_pages_keep_the_laws(pages, name):
    rod = unit(name)
    made = pages(rod)
    if made or pages not in (front_pages, inside_pages):  # which there are of doors and drawers alone
        check_pages(made, rod)


def test_a_sloping_back_has_the_same_two_lengths_on_its_drawing_its_table_and_in_words():
    """Its right edge is 700 less what is under the back, its left edge 1500 less the same, to the step of the job."""
    (page,) = [p for p in board_pages(unit("right")) if p.title.endswith("BACK")]
    said = [s.text for s in page.shapes if isinstance(s, Text)]
    ends = {t.split()[0]: t.split()[1] for t in said if t.endswith(" long")}
    assert set(ends) == {"LEFT", "RIGHT"}
    assert f"{ends['RIGHT']} at the right edge" in " ".join(said) or f"{ends['LEFT']} at the left edge" in " ".join(
        said
    )
    finished = next(t for t in said if t.startswith("Finished"))
    assert all(f"{mm} at the {word}" in " ".join(said) for word, mm in ends.items())
    assert not re.search(r"\d\.\d\d", finished)


@pytest.mark.parametrize("name", UNITS)
def test_a_label_says_at_which_setting_its_board_is_bevelled_or_sawn_to_a_line(name):
    """The label is on a board that is sawn to size: what is left to saw comes before its edging and its bores."""
    rod = unit(name)
    cabinet, works = rod.cabinets[0], Works(rod)
    due = {}
    for s in rod.setups:
        for row in s.features:
            if row.feature is None and (s.tilt or s.fence is None):
                due.setdefault(row.part, set()).add(s.id)
    assert due
    for id, ids in due.items():
        first = next_words(works, cabinet, cabinet.part[id]).split(",")[0].split()
        assert set(first[: len(ids)]) == ids


def words(pages):
    return " ".join(s.text for page in pages for s in page.shapes if isinstance(s, Text))


def test_the_back_has_a_page_with_the_line_that_its_top_is_sawn_to():
    page = next(p for p in board_pages(unit("right")) if "BACK" in p.title)
    said = words([page])
    assert "sawn to a line" in said
    assert "right through" in said
    assert "notch" not in said
    polygon = max((s for s in page.shapes if isinstance(s, Path_) and s.closed), key=lambda s: len(set(s.points)))
    xs, ys = zip(*polygon.points, strict=True)
    assert len(set(xs)) > 2 or len(set(ys)) > 2


def test_saw_settings_say_the_tilt_and_the_marks():
    said = words(settings_pages(unit("right")))
    assert "blade 34.5 degrees, both ends" in said
    assert "left edge to right edge" in said


def test_the_cover_says_which_way_it_falls_and_both_heights():
    said = words(cover_pages(unit("right")))
    assert "the top falling 34.5 degrees to the right" in said
    assert "1500" in said
    assert "700" in said


@pytest.mark.parametrize("pages", [front_pages, inside_pages])
def test_each_side_has_its_own_height_beside_it_shut_and_open(pages):
    """The left side comes to 1500 - (1200 - 2 x 17.6) tan 40: the top falls between the sides, which are cut square."""
    rod = unit("left")
    low = 1500 - (1200 - 2 * 17.6) * tan(radians(40))
    (page,) = pages(rod)
    turned = {s.text: s.at[0] for s in page.shapes if isinstance(s, Text) and s.turn and s.bold}
    assert turned.keys() == {f"{low:.1f}".removesuffix(".0"), "1500"}
    width = next(s.at[0] for s in page.shapes if isinstance(s, Text) and s.text == "1200")
    assert turned[f"{low:.1f}".removesuffix(".0")] < width < turned["1500"]


def test_an_opening_under_the_slope_has_its_height_at_either_end():
    """By hand: 800 of fall over 1200 - 2 x 17.6; the top is 17.6 / cos thick upright; bays (1200 - 3 x 17.6) / 2."""
    (cabinet,) = unit("right").cabinets
    fall, bay = 800 / 1164.8, 573.6
    first = 1500 - 17.6 * (1 + fall**2) ** 0.5 - cabinet.part["fixed shelf 1"].box[1][2]
    due = [first, first - bay * fall, first - (bay + 17.6) * fall, first - (2 * bay + 17.6) * fall]
    turned = [s.text for s in elevations(cabinet, body("A4", True)) if isinstance(s, Text) and s.turn and not s.bold]
    assert [float(t) for t in turned] == pytest.approx(due, abs=0.06)


def test_heights_under_a_slope_that_are_told_in_words_go_from_end_to_end():
    (cabinet,) = unit("right").cabinets
    small = Area(left=0.0, bottom=0.0, right=90.0, top=80.0)
    said = " ".join(s.text for s in elevations(cabinet, small) if isinstance(s, Text))
    first = 1500 - 17.6 * (1 + (800 / 1164.8) ** 2) ** 0.5 - cabinet.part["fixed shelf 1"].box[1][2]
    assert f"{first:.1f} to {first - 573.6 * 800 / 1164.8:.1f}" in said


def test_the_front_of_a_board_is_what_is_seen_of_it():
    (cabinet,) = unit("right").cabinets
    top = front_outline(cabinet.part["top"])
    assert len(top) == 4
    side = front_outline(cabinet.part["left side"])
    assert sorted(side) == [(0.0, 0.0), (0.0, 1500.0), (17.6, 0.0), (17.6, 1500.0)]
