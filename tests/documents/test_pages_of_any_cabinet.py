"""The laws of a page over random cabinets: whatever is built, its boards, joints, strips and labels can be read."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from page_laws import check_pages
from tests.cabinets import built

from rodwork.documents.boards import board_pages
from rodwork.documents.labels import label_pages
from rodwork.documents.opened_joint import opened_joint_pages
from rodwork.documents.strips import strip_pages


@pytest.mark.parametrize("pages", [board_pages, opened_joint_pages, strip_pages, label_pages])
@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
@given(one=built(), paper=st.sampled_from(["A4", "Letter"]))
def test_every_page_keeps_the_laws(pages, one, paper):
    rod = replace(one.rod, heading=replace(one.rod.heading, paper=paper))
    check_pages(pages(rod), rod)
