"""Mitred boxes close all at once: shown from the ways in which their fixings go home, and refused where one of them does not."""

import pytest
from page_laws import check_pages
from tests.building import back, cabinet, job, recipe, rod_of

from rodwork.documents.assembly import assembly_pages
from rodwork.documents.assembly_at_once import closes_at_once
from rodwork.documents.drawing import Text
from rodwork.model.fixing import Move


def said(rod):
    return " ".join(s.text for page in assembly_pages(rod) for s in page.shapes if isinstance(s, Text))


@pytest.mark.parametrize("family", ["spline", "biscuit", "loose tenon", "quarter-turn connector", "clip-in connector"])
def test_a_mitred_box_with_a_back_in_grooves_and_a_shelf_closes_upon_them(family):
    rod = rod_of(job(cabinet(sides="mitred", corner_joint=recipe(family), loose_shelves=(0, 0))))
    assert closes_at_once(rod.cabinets[0])
    assert "All four corners close at the same time" in said(rod)
    assert "STOP" not in said(rod)
    check_pages(assembly_pages(rod), rod)


@pytest.mark.parametrize("style", ["planted", "rebated"])
def test_a_back_from_behind_goes_on_when_the_box_is_closed(style):
    rod = rod_of(job(cabinet(sides="mitred", corner_joint=recipe("biscuit"), back=back(style))))
    assert "Then fix the back from behind" in said(rod)
    assert "what is inside does not go in afterwards" in said(rod)  # the shelf
    assert "fixed shelf and back" not in said(rod)


def test_square_corners_do_not():
    assert not closes_at_once(rod_of(job(cabinet())).cabinets[0])


def test_one_fixing_that_goes_home_another_way_is_enough():
    from dataclasses import replace

    box = rod_of(job(cabinet(sides="mitred", corner_joint=recipe("biscuit"), back=back()))).cabinets[0]
    first = box.joints[0]
    askew = replace(first.fixings[0], motion=(Move(push=(1.0, 0.0, 0.0), mm=10.0),))
    joints = (replace(first, fixings=(askew, *first.fixings[1:])), *box.joints[1:])
    assert closes_at_once(box)
    assert not closes_at_once(replace(box, joints=joints))
