"""The settings list: each setting once, every board at it, and black only what is turned."""

from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from page_laws import check_pages
from samples import PAPERS, SAMPLES, glaze, sample
from tests.building import back, cabinet, job, recipe, rod, rod_of

from rodwork.documents.drawing import Path_, Text, font_file
from rodwork.documents.settings_list import positions_text, setting_bands, settings_pages
from rodwork.model.setup import Fence
from rodwork.pipeline import set_out
from rodwork.sheets.plan import Work, plan_cutting

EXAMPLES = Path(__file__).parents[2] / "examples"


@cache
def studio():
    return set_out((EXAMPLES / "pottery-studio.toml").read_bytes(), "pottery-studio.toml")


@cache
def studio_plan():
    return plan_cutting(studio(), Work(steps=60, polish=10))


def band(r, setup_id):
    return next(b for b in setting_bands(r) if b.setup.id == setup_id)


def texts(pages):
    return [s for p in pages for s in p.shapes if isinstance(s, Text)]


@pytest.mark.parametrize("name", SAMPLES)
def test_every_board_of_every_setting_has_its_box_once(name):
    r = sample(name)
    for setup, b in zip(r.setups, setting_bands(r), strict=True):
        wanted = Counter()
        for f in {(f.cabinet, f.part, f.bears) for f in setup.features}:
            wanted.update(r.cabinet[f[0]].part[f[1]].marks)
        found = Counter()
        for group in b.boards:
            for mark, ends in group.marks:
                found[mark] += max(1, len(ends.split(", ")))
        assert found == wanted, setup.id


def test_the_ends_and_the_places_of_a_dowel_setting():
    (group,) = band(glaze(), "S9").boards
    assert (group.of, group.at, group.from_word) == ("ends of", "40, 136, 232, 280", "front edge")
    assert group.marks[0] == ("G1-T", "left, right")
    assert [m for m, _ in group.marks] == ["G1-T", "G1-B", "G2-T", "G2-B"]
    (group,) = band(glaze(), "S12").boards
    assert (group.of, group.marks[0]) == ("insides of", ("G1-LS", ""))


def test_only_what_changes_is_new():
    r = glaze()
    assert band(r, "S9").new == {"stage", "tool", "surface", "stands", "fence", "depth"}  # first after edging
    assert band(r, "S10").new == {"surface"}
    assert band(r, "S11").new == {"surface", "stands", "depth"}
    assert band(r, "S12").new == {"surface", "stands"}
    assert band(r, "S14").new == {"tool", "surface", "fence", "depth"}


def test_what_is_new_is_black_and_the_rest_grey():
    r = glaze()
    page = next(p for p in settings_pages(r) if p.right.startswith("9 to"))
    figures = [s for s in page.shapes if isinstance(s, Text) and s.size > 15.0]
    assert [s.ink for s in figures if s.text == "9.0"] == ["black", "grey", "grey", "grey", "grey"]
    assert [(s.text, s.ink) for s in figures if s.text in ("20", "12")] == [
        ("20", "black"), ("20", "grey"), ("12", "black"), ("12", "grey"), ("12", "grey"),
    ]  # fmt: skip


def test_figures_of_fence_and_depth_are_twelve_mm_high():
    """By the height of the figures in the font itself."""
    r = glaze()
    high = TTFont(font_file(True))["glyf"]["zero"].yMax / 1000.0
    large = Counter(s.text for s in texts(settings_pages(r)) if s.size * high >= 11.9)
    machining = [b.setup for b in setting_bands(r) if not b.sawing]
    assert large == Counter(f"{s.fence.mm:.1f}" for s in machining) + Counter(f"{s.depth:g}" for s in machining)


def test_a_bore_right_through_says_so_where_its_depth_would_stand():
    r = rod(corner_joint=recipe(("screw", {"head": "countersunk", "pilot": "beforehand"})))
    pages = [p for p in settings_pages(r) if p.title == "Settings: machining"]
    deep = [s.text for s in texts(pages) if s.text in ("deep", "through")]
    bands = [b for b in setting_bands(r) if not b.sawing]
    assert any(b.setup.depth is None for b in bands)
    assert deep == ["through" if b.setup.depth is None else "deep" for b in bands]


def test_words_under_the_saw_keep_off_the_rule_of_their_row():
    """A letter hangs about 0.22 of its size below its line; the rule of the first row is 9.6 down."""
    (page,) = [p for p in settings_pages(studio(), studio_plan()) if p.title == "Settings: sawing"]
    rules = sorted({s.points[0][1] for s in page.shapes if isinstance(s, Path_) and s.pen.width == 0.2})
    blades = [s for s in texts([page]) if s.text.startswith("blade ")]
    assert len(blades) == 4
    for text in blades:
        foot = text.at[1] - 0.22 * text.size
        assert min(abs(foot - y) for y in rules) > 0.3
        assert all(not y < text.at[1] < y + 0.3 for y in rules)


def test_a_batten_is_named_with_its_line_and_a_line_off_the_board_is_not():
    r = glaze()
    assert band(r, "S11").surface == "BATTEN at 351"
    assert band(r, "S10").surface == "UNDERSIDE"  # a line is told there too, but the fence is on the shelf itself
    for b in setting_bands(rod(back=back("planted"))):
        assert b.line is None or b.line > 0


def test_a_fence_that_comes_back_is_told_as_the_setting_it_was():
    r = glaze()
    first, *_ = r.setups
    again = replace(r.setups[-1], id="again", fence=Fence(id="F1", mm=9.0))
    r = replace(r, setups=(*r.setups, again))
    assert band(r, "again").as_number == 9
    assert any(s.text == "fence, as 9" for s in texts(settings_pages(r)))
    assert band(r, "S10").as_number is None  # it has not been away
    assert first.fence is not None


def test_a_stopped_groove_says_where_it_begins_and_ends():
    groups = {g.marks[0][0]: g for g in band(glaze(), "S14").boards}
    assert (groups["G1-LS"].at, groups["G1-LS"].from_word) == ("8.6 to 711.4", "bottom end")
    assert (groups["G1-T"].at, groups["G1-T"].from_word) == ("right through", "")


def test_rows_of_pins_are_told_by_their_pitch():
    assert positions_text((152.0, 184.0, 216.0)) == "152, 184, 216"
    assert positions_text((120.0, 152.0, 184.0, 216.0, 248.0)) == "120 to 248, every 32"
    assert positions_text((120.0, 152.0, 184.0, 216.0, 248.0, 472.0, 504.0, 536.0, 568.0)) == (
        "120 to 248, every 32; 472 to 568, every 32"
    )
    assert positions_text((40.0, 136.0, 232.0, 328.0, 424.0, 460.0)) == "40, 136, 232, 328, 424, 460"


@pytest.mark.parametrize("positions", [(24.0, 56.0, 88.0, 120.0, 152.0, 190.0, 222.5), tuple(range(10, 500, 37))])
def test_no_position_is_lost_in_a_row(positions):
    told = []
    for run in positions_text(positions).split("; "):
        if " to " in run:
            span, pitch = run.split(", every ")
            a, b = map(float, span.split(" to "))
            told += [a + n * float(pitch) for n in range(round((b - a) / float(pitch)) + 1)]
        else:
            told += [float(t) for t in run.split(", ")]
    assert told == pytest.approx(positions)


def test_sawing_is_many_to_a_page_and_machining_four_or_five():
    r = glaze()
    sawing, *machining = settings_pages(r)
    assert sawing.right == "1 to 8 of 16"
    assert sawing.under.startswith("Before edging")
    assert [p.right for p in machining] == ["9 to 13 of 16", "14 to 16 of 16"]
    assert all(p.under.startswith("After edging") for p in machining)


def test_many_boards_go_on_and_none_is_left_out():
    r = rod_of(job(cabinet(count=36, corner_joint=recipe("dowel"))))
    pages = settings_pages(r)
    check_pages(pages, r)
    said = Counter(s.text for s in texts(pages))
    wanted = Counter()
    for b in setting_bands(r):
        for group in b.boards:
            wanted.update(m if not ends or b.sawing else f"{m} {ends}" for m, ends in group.marks)
    assert {t: n for t, n in said.items() if t in wanted} == dict(wanted)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_pages_keep_the_laws(name, paper):
    r = sample(name, paper)
    check_pages(settings_pages(r), r)


def test_a_cutting_plan_takes_the_place_of_the_settings_of_the_saw_that_it_has():
    """What is sawn at a slant or to a line is in no plan, and stays."""
    r, plan = studio(), studio_plan()
    every = [b for b in setting_bands(r) if b.sawing]
    pages = [p for p in settings_pages(r, plan) if p.title == "Settings: sawing"]
    assert all("they stand on the cutting plan" in p.under for p in pages)
    assert not any("cutting plan" in p.under for p in settings_pages(r))
    left = {s.text for s in texts(pages) if s.text.isdigit() and s.size > 6.0}
    assert left >= {str(b.number) for b in every if b.setup.tilt or b.setup.fence is None}
    assert len(left) < len(every) / 4
    shown = {mark for b in every if str(b.number) not in left for group in b.boards for mark, _ in group.marks}
    assert shown <= plan.sheet_numbers.keys()
    check_pages(settings_pages(r, plan), r)
