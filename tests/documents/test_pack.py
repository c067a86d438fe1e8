"""The pack as a whole: its parts in the order of the bench, every page framed and within the laws."""

from dataclasses import replace

import pytest
from page_laws import check_pages
from samples import PAPERS, sample
from tests.building import cabinet, job, rod_of

from rodwork.documents.drawing import Text
from rodwork.documents.pack import pack_drawings, pack_pages


def test_the_parts_stand_in_the_order_of_the_bench():
    kinds = list(dict.fromkeys(p.kind for p in pack_pages(sample("data"))))
    wanted = ["cover", "cutting list", "settings", "assembly", "buying list"]
    assert [k for k in kinds if k in wanted] == wanted
    assert kinds[:3] == wanted[:3]


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_keeps_the_laws(paper):
    r = sample("several cabinets", paper)
    check_pages(pack_pages(r), r)


def test_every_sheet_bears_job_letter_and_number():
    r = sample("data")
    drawings = pack_drawings(replace(r, heading=replace(r.heading, letter="C")))
    for n, drawing in enumerate(drawings, 1):
        said = [s.text for s in drawing.shapes if isinstance(s, Text)]
        assert any(t.startswith("Pottery studio") for t in said)
        assert f"C   {n} of {len(drawings)}" in said


def test_the_same_job_gives_the_same_pack():
    assert pack_drawings(rod_of(job(cabinet()))) == pack_drawings(rod_of(job(cabinet())))
