"""The page of the opening: laws of pages over many openings, and that what stands on it is what was worked out."""

import re
from pathlib import Path

import pytest
from page_laws import check_pages
from tests.survey.alcoves import BOOKCASE, SURVEY, job_text, with_line

from rodwork.documents.alcove_pages import alcove_pages
from rodwork.documents.alcove_words import gap_rows, order, verdict
from rodwork.documents.drawing import Path_, Text
from rodwork.pipeline import set_out

SERVICES = """\
[services.socket]
survey = "alcove"
what = "socket"
low = [300, -700]
size = [146, 86]
[services.pipe]
survey = "alcove"
what = "pipe"
low = [900, -990]
size = [40, 900]
out = 30
"""
OPENINGS = {
    "as worked": (BOOKCASE, SURVEY),
    "with services": (BOOKCASE, SURVEY + SERVICES),
    "low and wide": (BOOKCASE.replace("2000", "400") + "width = 1000\n", SURVEY),
    "on feet": (BOOKCASE + "above_floor = 130\n", SURVEY),
    "leaning away, floor high at the right": (
        BOOKCASE, with_line("left_plumb", "left_plumb = { out = -30, height = 2400 }").replace("[-1000, -1008]", "[-1030, -1000]"),
    ),
    "one reading": (BOOKCASE, '[surveys.alcove]\nwidths = [800]\ndepths = [400]\n'),
    "a wall alone": (BOOKCASE, '[surveys.alcove]\nheights = [-900, 900]\nwidths = [900, 905]\n'),
    "many readings": (
        BOOKCASE,
        "[surveys.alcove]\nheights = [-900, -700, -500, -300, -100, 100, 300, 500, 700, 900, 950, 1000]\n"
        "widths = [1212, 1206, 1215, 1211, 1210, 1209, 1206, 1212, 1211, 1204, 1212, 1210]\ndepths = [340]\n".replace(
            "depths = [340]", "depths = [340, 340, 340, 340, 340, 340, 340, 340, 340, 340, 340, 340]"
        ),
    ),
    "too wide": (BOOKCASE + "width = 1250\n", SURVEY),
}  # fmt: skip


@pytest.mark.parametrize("name", OPENINGS)
def test_the_page_obeys_the_laws_of_pages(name):
    rod = set_out(job_text(*OPENINGS[name]), "job.toml")
    check_pages(alcove_pages(rod), rod)


def test_a_job_without_alcoves_has_no_such_page():
    assert alcove_pages(set_out(job_text(BOOKCASE.replace('alcove = "alcove"', "width = 900")), "job.toml")) == ()


def said(page) -> set[str]:
    return {s.text for s in page.shapes if isinstance(s, Text)}


def test_the_gaps_of_the_readings_stand_beside_the_walls():
    rod = set_out(job_text(), "job.toml")
    (page,) = alcove_pages(rod)
    front = [g for g in rod.cabinets[0].asked.alcove.gaps if g.depth == 0.0]
    for gap in front:
        assert {f"{round(gap.left, 1):g}", f"{round(gap.right, 1):g}"} <= said(page)


def test_what_is_planed_off_and_the_gap_that_is_printed_add_up_to_the_width_of_the_scribe():
    """Rounded apart they differ by a tenth: the studio's right scribe is 49 wide, its gap on the line 28.1."""
    studio = Path(__file__).parents[2] / "examples" / "pottery-studio.toml"
    rod = set_out(studio.read_text(encoding="utf-8"), studio.name)
    alcove = next(c.asked.alcove for c in rod.cabinets if c.asked.alcove)
    gaps = list(gap_rows(alcove, rod.step))
    words = " ".join(order(alcove, rod.surveys[alcove.survey], {}, rod.step))
    told = re.findall(r"scribe : ([\d.]+) wide; the wall takes (.*?\bbottom)", words)
    assert len(told) == 2
    for (wide, off), column in zip(told, (1, 3), strict=True):
        top, middle, low = re.findall(r"([\d.]+) off it", off)
        assert "on the line" in off
        for row, mm in ((gaps[0], top), (gaps[1], middle), (gaps[-1], low)):
            assert float(row[column]) + float(mm) == pytest.approx(float(wide), abs=1e-6)
    assert "1150 wide: the two gaps to the walls come to 53 to 63.8 together" in verdict(alcove, rod.step)


def test_a_wall_that_leans_is_drawn_leaning():
    """From foot to head the left wall comes in by as much on paper as the page says it is drawn wider."""
    (page,) = alcove_pages(set_out(job_text(), "job.toml"))
    walls = [
        s for s in page.shapes if isinstance(s, Path_) and s.pen.width == 0.7 and s.points[-1][1] > s.points[0][1] + 40
    ]
    left = min(walls, key=lambda w: w.points[0][0])
    foot, head = left.points[0], left.points[-1]
    assert head[0] > foot[0] + 1.0


@pytest.mark.parametrize("style", ["grooved in the sides", "grooved all round", "planted"])
def test_a_back_with_a_cut_out_is_drawn_on_both_its_faces(style):
    """The styles with screws through the back have a drawing of each face, and the cut-out comes through to the other."""
    from rodwork.documents.boards import board_pages
    from rodwork.documents.settings_list import settings_pages

    back = f'back = {{ board = "birch6", style = "{style}" }}\n'
    rod = set_out(
        job_text(BOOKCASE.replace("fixed_shelves = 4", "fixed_shelves = 3") + back, SURVEY + SERVICES), "job.toml"
    )
    pages = board_pages(rod)
    check_pages(pages, rod)
    check_pages(settings_pages(rod), rod)
    texts = {s.text for p in pages for s in p.shapes if isinstance(s, Text)}
    assert any(t.startswith("cut-out") for t in texts)
