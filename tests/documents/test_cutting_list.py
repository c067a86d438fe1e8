"""The cutting list: every board once, sizes to saw and finished, pairs never told as so many alike."""

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from page_laws import check_pages
from samples import PAPERS, SAMPLES, glaze, sample
from tests.building import cabinet, job, rod, rod_of
from tests.cabinets import built

from rodwork.documents.cutting_list import cutting_list_pages, cutting_rows
from rodwork.documents.drawing import Text
from rodwork.model.job import CabinetEdging, Edging
from rodwork.setout.weights import weighed


def row(r, mark):
    return next(x for x in cutting_rows(r) if mark in x.marks)


def words(pages):
    return [s.text for p in pages for s in p.shapes if isinstance(s, Text)]


@given(built())
@settings(max_examples=25, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
def test_every_board_is_in_the_list_once(made):
    listed = Counter(m for x in cutting_rows(made.rod) for m in x.marks)
    assert listed == Counter(m for c in made.rod.cabinets for p in c.parts for m in p.marks)
    assert set(listed.values()) == {1}


def test_the_glaze_cupboard_by_hand():
    """600 x 720 x 320 of 17.6 board, 1 mm tape on the fronts: 600 - 2 x 17.6 = 564.8; 320 - 1 = 319."""
    r = glaze()
    sides = row(r, "G1-LS")
    assert (sides.cut, sides.size) == ((720.0, 319.0), (720.0, 320.0, 17.6))
    assert (sides.count, sides.pairs, sides.edges, sides.edging) == (4, 2, ("front edge",), "birch")
    assert sides.name_text == "left and right side: 2 pairs"
    top = row(r, "G2-T")
    assert (top.cut, top.count, top.name) == ((564.8, 319.0), 4, "2 tops and 2 bottoms")
    assert row(r, "G1-BK").edging_text == "not edged"
    assert row(r, "G1-L1").marks == ("G1-L1", "G2-L1", "G1-L2", "G2-L2")


def test_the_mass_of_a_side_by_hand():
    """0.720 x 0.320 x 0.0176 m3 of 680 kg/m3 is 2.757 kg."""
    assert row(glaze(), "G1-LS").kg == pytest.approx(2.757, abs=0.001)


def test_a_mass_is_left_out_where_the_density_is_not_known():
    r = glaze()
    unknown = weighed(replace(r, boards={n: replace(b, density_kg_m3=None) for n, b in r.boards.items()}))
    assert all(x.kg is None for x in cutting_rows(unknown))
    assert not any(t.endswith("kg") for t in words(cutting_list_pages(unknown)))


def test_boards_sawn_alike_in_two_cabinets_are_one_row():
    r = rod_of(job(cabinet(), cabinet(name="slip", mark="S", openings=("rest",))))
    assert {"G1-LS", "S1-LS", "G1-RS", "S1-RS"} <= set(row(r, "S1-LS").marks)
    assert row(r, "S1-LS").pairs == 2


def test_boards_edged_differently_are_two_rows_though_their_size_is_one():
    def thick(in_job):
        birch = replace(in_job.edgings["birch"], adds_mm=1.0)
        oak = Edging(name="oak", thickness_mm=1.0, adds_mm=1.0, mills_mm=0.0, price_per_m=None)
        return replace(in_job, edgings={"birch": birch, "oak": oak})

    other = cabinet(name="slip", mark="S", edging=CabinetEdging(edging="oak", on=("fronts",)))
    r = rod_of(thick(job(cabinet(), other)))
    assert row(r, "G1-LS") != row(r, "S1-LS")
    assert {row(r, "G1-LS").edging, row(r, "S1-LS").edging} == {"birch", "oak"}


def test_a_measured_board_is_told_apart_and_said_to_be_cut():
    r = rod()
    c = r.cabinets[0]
    left = replace(c.parts[0], measured=True)
    r = replace(r, cabinets=(replace(c, parts=(left, *c.parts[1:])),))
    assert row(r, "G1-LS").marks == ("G1-LS",)
    assert row(r, "G1-LS").pairs == 0
    assert any("cut already" in t for t in words(cutting_list_pages(r)))


def test_sizes_are_printed_without_an_idle_nought_and_with_the_tenth_that_there_is():
    said = words(cutting_list_pages(glaze()))
    assert "720 × 319" in said
    assert "564.8 × 319" in said
    assert "720 × 320 × 17.6" in said


@pytest.mark.parametrize("paper", PAPERS)
def test_no_column_is_so_narrow_that_its_words_are_broken(paper):
    said = words(cutting_list_pages(sample("data", paper)))
    assert {"sawn", "lengthways", "front edge (birch)", "not edged", "695.8 × 575.8 × 5.8"} <= set(said)


def test_a_group_goes_on_under_its_own_strip_on_the_next_page():
    r = rod_of(job(*[cabinet(name=f"c{n}", mark=f"C{'ABCDEFGH'[n]}", width_mm=500.0 + 11 * n) for n in range(8)]))
    pages = cutting_list_pages(r)
    assert len(pages) > 1
    for page in pages:
        assert any(s.text.startswith("birch") for s in page.shapes if isinstance(s, Text) and s.ink == "white")


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_pages_keep_the_laws_and_name_every_row(name, paper):
    r = sample(name, paper)
    pages = cutting_list_pages(r)
    check_pages(pages, r)
    figures = Counter(
        s.text for p in pages for s in p.shapes if isinstance(s, Text) and s.size == 7.0 and "×" in s.text
    )
    assert sum(figures.values()) == len(cutting_rows(r))
