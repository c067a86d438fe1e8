"""The pack as a whole: its parts in the order of the bench, every page framed and within the laws."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from page_laws import check_pages
from samples import PAPERS, sample
from tests.building import cabinet, job, rod_of
from tests.cabinets import built

from rodwork.documents.assembly import assembly_pages
from rodwork.documents.buying_list import buying_list_pages
from rodwork.documents.cover import cover_pages
from rodwork.documents.cutting_list import cutting_list_pages
from rodwork.documents.drawing import Text
from rodwork.documents.pack import pack_drawings, pack_pages
from rodwork.documents.settings_list import settings_pages


def test_the_parts_stand_in_the_order_of_the_bench():
    kinds = list(dict.fromkeys(p.kind for p in pack_pages(sample("data"))))
    assert kinds == [
        "cover", "inside", "cutting list", "settings", "pair", "board", "opened joint", "assembly", "buying list", "labels",
        "strips",
    ]  # fmt: skip


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_keeps_the_laws(paper):
    r = sample("several cabinets", paper)
    check_pages(pack_pages(r), r)


@given(built())
@settings(max_examples=8, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
def test_lists_and_views_of_any_cabinet_keep_the_laws(made):
    for pages in (cover_pages, cutting_list_pages, settings_pages, assembly_pages, buying_list_pages):
        check_pages(pages(made.rod), made.rod)


def test_every_sheet_bears_job_letter_and_number():
    r = sample("data")
    drawings = pack_drawings(replace(r, heading=replace(r.heading, letter="C")))
    for n, drawing in enumerate(drawings, 1):
        said = [s.text for s in drawing.shapes if isinstance(s, Text)]
        assert any(t.startswith("Pottery studio") for t in said)
        assert f"C   {n} of {len(drawings)}" in said


def test_the_same_job_gives_the_same_pack():
    assert pack_drawings(rod_of(job(cabinet()))) == pack_drawings(rod_of(job(cabinet())))
