"""The pages of the dry fit: they obey the laws of every page, and say first what a maker reads first."""

from dataclasses import replace

import pytest
from tests.building import back, recipe
from tests.documents.page_laws import check_pages
from tests.fit.rods import ACCURACY, box

from rodwork.documents.drawing import Path_, Text
from rodwork.documents.dry_fit_pages import dry_fit_pages
from rodwork.fit.station import dry_fit_of
from rodwork.model.measured import MeasuredBoard
from rodwork.setout.measured_copies import measured_copies


def said(page):
    return " ".join(s.text for s in page.shapes if isinstance(s, Text))


def test_the_pages_obey_the_laws_and_the_first_says_the_sentence_the_lips_and_what_to_do():
    rod = measured_copies(replace(box(count=2, back=back()), measured=(MeasuredBoard(mark="G1-T", length=564.1),)))
    fit = dry_fit_of(rod, ACCURACY, samples=200)
    pages = dry_fit_pages(rod, fit)
    check_pages(pages, rod)
    assert [p.title.split(":")[0] for p in pages] == [
        "Dry fit on paper", "Behind the dry fit", "Dry fit on paper", "As cut", "Behind the dry fit",
    ]  # fmt: skip
    assert "A guess from other shops' habits" in said(pages[0])
    assert "things to do" in said(pages[0])
    assert "Diagonals differ by" in said(pages[0])
    assert "What costs the fit" in said(pages[1])
    assert not any("G2-B" in said(page) for page in pages)  # nothing of the other copy is corrected
    assert "564.1" in said(pages[3])


def test_each_corner_is_drawn_twenty_times():
    rod = box()
    fit = dry_fit_of(rod, ACCURACY, samples=200)
    hairs = [s for s in dry_fit_pages(rod, fit)[0].shapes if getattr(getattr(s, "pen", None), "width", 0) == 0.12]
    assert len(hairs) == 4 * (20 + 11)


def test_a_cabinet_with_nothing_to_gain_and_long_names_still_obeys():
    rod = box(
        name="a cabinet with a very long name indeed, longer than any page is wide", width_mm=1900.0, height_mm=400.0
    )
    check_pages(dry_fit_pages(rod, dry_fit_of(rod, ACCURACY, samples=200)), rod)


def test_a_corner_is_drawn_as_its_boards_meet_a_mitre_at_45_degrees():
    """Lines from the outline to the outline inside it: four askew where mitred, upright where the sides run through."""

    def steps(**words):
        rod = box(back=None, **words)
        page = dry_fit_pages(rod, dry_fit_of(rod, ACCURACY, samples=50))[0]
        _, inner = [s for s in page.shapes if isinstance(s, Path_) and s.closed and len(s.points) == 4][:2]
        corners = set(inner.points)
        lines = [
            s.points for s in page.shapes if isinstance(s, Path_) and len(s.points) == 2 and s.points[1] in corners
        ]
        return [(abs(b[0] - a[0]), abs(b[1] - a[1])) for a, b in lines if a not in corners]

    mitred = steps(sides="mitred", corner_joint=recipe("loose tenon"))
    assert len(mitred) == 4
    assert all(x == pytest.approx(y) and x > 1 for x, y in mitred)
    assert [x for x, _ in steps(sides="through")] == pytest.approx([0] * 4)
    assert [y for _, y in steps(sides="between")] == pytest.approx([0] * 4)
