"""The page laws over random jobs of the whole vocabulary, read from the text of a job as a maker writes it.

Every page kind sees the same few jobs in every run. RODWORK_LAWS=2000 in the environment draws as many hundreds as
the laws over the set-out do thousands.
"""

import os
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from tests.documents.page_laws import faults, in_the_foot
from tests.laws.vocabulary import jobs

from rodwork.documents.alcove_pages import alcove_pages
from rodwork.documents.assembly import assembly_pages
from rodwork.documents.boards import board_pages
from rodwork.documents.buying_list import buying_list_pages
from rodwork.documents.cover import cover_pages
from rodwork.documents.cutting_list import cutting_list_pages
from rodwork.documents.cutting_pages import cutting_pages
from rodwork.documents.cutting_words import sheet_title
from rodwork.documents.drawing import Text
from rodwork.documents.front_pages import front_pages
from rodwork.documents.inside_pages import inside_pages
from rodwork.documents.labels import label_pages
from rodwork.documents.load_pages import load_pages
from rodwork.documents.opened_joint import opened_joint_pages
from rodwork.documents.page import numbered
from rodwork.documents.run_pages import run_pages
from rodwork.documents.settings_list import settings_pages
from rodwork.documents.strips import strip_pages
from rodwork.pipeline import load
from rodwork.sheets.plan import Work, plan_cutting

EACH = max(int(os.environ.get("RODWORK_LAWS", "100")) // 10, 6)
TRADE_WORD = "fixing rail"  # the rail that a unit is screwed to the wall through: of the trade, not of our data
LITTLE = Work(steps=60, polish=10)  # a cutting plan that is drawn need not be the best
KINDS = {
    "cover": cover_pages,
    "boards": board_pages,
    "fronts": front_pages,
    "alcove": alcove_pages,
    "cutting list": cutting_list_pages,
    "settings": settings_pages,
    "opened joints": opened_joint_pages,
    "assembly": assembly_pages,
    "load": lambda rod: load_pages(rod, load(rod)),
    "buying list": buying_list_pages,
    "labels": label_pages,
    "strips": strip_pages,
    "inside": inside_pages,
    "runs": run_pages,
    "cutting plan": lambda rod: cutting_pages(rod, plan_cutting(rod, LITTLE)),
}


@pytest.mark.parametrize("pages", KINDS.values(), ids=KINDS)
@settings(max_examples=EACH, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(jobs())
def test_every_page_obeys_the_page_laws(pages, drawn):
    made = pages(drawn.rod)
    found = []
    for page, drawing in zip(made, numbered(made, drawn.rod), strict=True):
        for problem in (*faults(drawing), *in_the_foot(page)):
            if not ("a word of the data model" in problem and _is_of_the_trade(problem, page)):
                found.append(f"{page.title}: {problem}")
    assert not found, "\n".join(found)


def _is_of_the_trade(problem, page):
    """Whether a text has the rail's name, all of it or up to the end of its line."""
    texts = [s.text for s in page.shapes if isinstance(s, Text)]
    broken = any(f"{a!r} has" in problem and TRADE_WORD in f"{a} {b}".lower() for a, b in pairwise(texts))
    return TRADE_WORD in problem.lower() or broken


@settings(max_examples=EACH, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(jobs())
def test_every_cut_of_a_sheet_has_its_number_on_the_drawing(drawn):
    plan = plan_cutting(drawn.rod, LITTLE)
    pages = {page.title: page for page in cutting_pages(drawn.rod, plan)}
    for board in plan.boards:
        for sheet in board.sheets:
            page = pages[f"{sheet_title(sheet)}: {board.board}"]
            texts = [s.text for s in page.shapes if isinstance(s, Text)]
            assert {str(cut.number) for cut in sheet.cuts} <= set(texts)
