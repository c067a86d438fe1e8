"""The pages of the dry fit: they obey the laws of every page, and say first what a maker reads first."""

from dataclasses import replace

import pytest
from tests.building import back, recipe
from tests.documents.page_laws import check_pages
from tests.fit.rods import ACCURACY, box
from tests.texts import HEAD

from rodwork.documents.drawing import HIDDEN, LINE, Path_, Text
from rodwork.documents.dry_fit_pages import dry_fit_pages
from rodwork.documents.dry_fit_words import lip_words
from rodwork.fit.station import dry_fit_of
from rodwork.model.dry_fit import Lip, word_of
from rodwork.model.measured import MeasuredBoard
from rodwork.pipeline import set_out
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


@pytest.mark.parametrize("joint", [recipe("dowel"), recipe(("dowel", {"count": 6})), recipe("cam")])
def test_what_a_thing_to_do_gains_is_the_difference_of_the_figures_that_are_printed(joint):
    """Each is tried on a few of the assemblies; what is said of it must agree with the row of all of them."""
    (fit,) = dry_fit_of(box(corner_joint=joint, width_mm=900.0), ACCURACY, samples=900).cabinets
    assert fit.remedies
    for remedy in fit.remedies:
        more = round(100 * remedy.chance) - round(100 * fit.chance)
        chance, _, lip = remedy.gains.partition("; ")
        if "more in 100" in chance:
            assert chance == f"{more} more in 100 go together"
        elif "becomes" in chance:
            assert chance == f'"{word_of(fit.chance)}" becomes "{word_of(remedy.chance)}"'
        else:
            lip = chance
        was, will = lip.split(" from ")[1].split(",")[0].split(" to ") if lip else ("1", "0")
        assert float(will) < float(was)


def test_diagonals_are_drawn_only_where_something_is_said_of_them():
    """A box without a top has none to pull equal."""
    for rod in (box(), of_words("rails = { top_front = 80, top_back = 80 }")):
        page = first_page(rod)
        dashed = [s for s in page.shapes if isinstance(s, Path_) and s.pen == HIDDEN]
        assert len(dashed) == (2 if "Diagonals differ by" in said(page) else 0)


def test_a_cabinet_with_nothing_to_gain_and_long_names_still_obeys():
    rod = box(
        name="a cabinet with a very long name indeed, longer than any page is wide", width_mm=1900.0, height_mm=400.0
    )
    check_pages(dry_fit_pages(rod, dry_fit_of(rod, ACCURACY, samples=200)), rod)


def first_page(rod):
    return dry_fit_pages(rod, dry_fit_of(rod, ACCURACY, samples=50))[0]


def boards(page):
    """The boards of the picture, each by its corners, in the order of the set-out."""
    return [s.points for s in page.shapes if isinstance(s, Path_) and s.closed and s.pen == LINE]


def captions(page):
    return [s.text for s in page.shapes if isinstance(s, Text) and s.size == 3.0]


def test_boards_are_drawn_as_they_meet_a_mitre_at_45_degrees():
    """A board is four points: a mitred one steps in by its thickness at both ends, a square one not at all."""

    def steps(**words):
        left, *_ = boards(first_page(box(**words)))
        xs, ups = zip(*left, strict=True)
        inner = sorted(y for x, y in left if x == max(xs))
        return min(inner) - min(ups), max(xs) - min(xs)

    step, thick = steps(sides="mitred", corner_joint=recipe("loose tenon"))
    assert step == pytest.approx(thick)
    assert steps(sides="through")[0] == pytest.approx(0.0)
    assert steps(sides="between")[0] == pytest.approx(0.0)


def of_words(words):
    """One cabinet of a job file, so far written by these words."""
    return set_out(f'{HEAD}\n[cabinets.c]\nboard = "birch18"\nwidth = 900\nheight = 800\ndepth = 500\n{words}\n', "c")


def test_a_sloping_top_is_drawn_where_it_slopes_and_its_corners_are_found():
    page = first_page(of_words('kind = "under slope"\nroof = { falls = "right", low = 350 }\ndividers = 1'))
    left, right = (max(y for _, y in points) for points in boards(page)[:2])
    assert left > right + 10.0
    assert sorted(c.split(",")[0] for c in captions(page)) == [
        "bottom on left side", "bottom on right side", "top on left side", "top on right side",
    ]  # fmt: skip


def test_corners_are_those_of_the_carcass_and_not_of_its_drawers():
    said_of = captions(first_page(of_words('kind = "base"\ndrawers = { number = 2, bottom_board = "birch6" }')))
    assert len(said_of) == 4
    assert not [c for c in said_of if "drawer" in c]


@pytest.mark.parametrize("words", ["", ', set = "on edge"'])
def test_the_upper_corners_of_a_unit_without_a_top_are_those_of_its_front_rail(words):
    said_of = captions(first_page(of_words(f"rails = {{ top_front = 80, top_back = 80{words} }}")))
    assert len(said_of) == 4
    assert len([c for c in said_of if c.startswith("front rail on ")]) == 2


def test_a_lip_is_told_in_tenths_only_where_a_finger_finds_it():
    def lip(likely, worst):
        return lip_words(
            Lip(
                joint="a / b", place="front", guest="b", host="a", mean_mm=0.0, likely_mm=likely, worst_mm=worst,
                felt=0.5, drawn=(),
            ),
            0.2,
        )  # fmt: skip

    assert lip(0.04, 0.14) == "flush to a finger"
    assert lip(0.04, 0.21) == "mostly flush, at worst 0.2: you may feel it"
    assert lip(0.12, 0.42) == "0.1, at worst 0.4: you may feel it"
    assert lip(0.31, 0.62) == "0.3, at worst 0.6: you will feel it"
