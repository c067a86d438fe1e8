"""The pages of the load: laws of every page, sag drawn to scale, an open link drawn open, and nothing said to hold."""

import re
from dataclasses import replace

import pytest
from page_laws import check_pages
from samples import PAPERS, SAMPLES, sample
from tests.building import rod

from rodwork.documents.drawing import Path_, Text
from rodwork.documents.load_pages import load_pages
from rodwork.load.station import load_of
from rodwork.model import demand
from rodwork.model.demand import Contents, Hanging, Wall


def pages_of(made):
    return load_pages(made, load_of(made))


def hung(**changes):
    return rod(
        hanging=Hanging(style="fixing rail", wall="kitchen", fixings=3, from_top_mm=None),
        contents=Contents(of="jars", heaviest_kg=9.0), **changes,
    )  # fmt: skip


def entered(made):
    tested = demand.Tested(pull_N=2000.0, shear_N=2000.0, moment_Nmm=None, basis="working load", source="own test")
    return replace(made, walls={"kitchen": Wall(kind="dot and dab", gap_mm=15.0, studs_mm=None, fixing=tested)})


def said(pages):
    return " ".join(s.text for p in pages for s in p.shapes if isinstance(s, Text))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_every_page_keeps_the_laws(name, paper):
    made = sample(name, paper)
    check_pages(pages_of(made), made)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", ["tall", "wall"])
def test_pages_of_what_hangs_and_what_stands_keep_the_laws(kind, paper):
    for made in (hung(), entered(hung()), rod(kind=kind, height_mm=1900.0, width_mm=1400.0, openings=("rest",) * 5)):
        made = replace(made, heading=replace(made.heading, paper=paper))
        check_pages(pages_of(made), made)


def test_nothing_is_said_to_hold_on_any_page_and_each_says_what_it_is_not():
    for made in (*(sample(name) for name in SAMPLES), hung(), entered(hung())):
        pages = pages_of(made)
        assert not re.search(r"\bholds\b", said(pages), re.IGNORECASE)
        for page in pages:
            assert "no structural certificate" in said([page])
            assert "Local codes" in said([page])


def test_a_guess_is_shouted_and_no_number_stands_over_its_chain():
    page = next(p for p in pages_of(entered(hung())) if p.title.startswith("The chain"))
    assert page.right == "HANGS ON A GUESS"
    assert "times over" not in said([page])
    assert "OPEN" in said([page])


def test_an_open_link_is_drawn_open_and_dashed_and_a_known_one_closed():
    page = next(p for p in pages_of(entered(hung())) if p.title.startswith("The chain"))
    links = next(c for c in load_of(entered(hung())).cabinets).hanging.chain.links
    rings = [s for s in page.shapes if isinstance(s, Path_) and len(s.points) == 37]
    assert len(rings) == len(links)
    for ring, link in zip(rings, links, strict=True):
        (x0, y0), (x1, y1) = ring.points[0], ring.points[-1]
        is_open = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5 > 1.0
        assert is_open is (link.margin is None)
        assert bool(ring.pen.dashes) is (link.margin is None)


def test_sag_is_drawn_to_the_scale_that_is_printed():
    made = rod(width_mm=1100.0, contents=Contents(kg_per_m2=60.0), openings=("rest",), loose_shelves=(0,))
    bottom = load_of(made).cabinets[0].shelves[0]
    page = pages_of(made)[0]
    drawn = float(re.search(r"sag drawn (\d+) times", said([page]))[1])
    curves = [s for s in page.shapes if isinstance(s, Path_) and len(s.points) == 21]
    new, later = ([p[1] for p in c.points] for c in curves[:2])
    wide = curves[0].points[-1][0] - curves[0].points[0][0]
    for ys, mm in ((new, bottom.new_mm), (later, bottom.later_mm)):
        assert (max(ys) - min(ys)) / wide == pytest.approx(drawn * mm / bottom.span_mm, rel=1e-6)


def test_the_wall_page_has_a_cross_at_every_screw():
    made = entered(hung())
    page = next(p for p in pages_of(made) if p.title.startswith("On the wall"))
    heavy = [s for s in page.shapes if isinstance(s, Path_) and s.pen.width > 1 and len(s.points) == 2]
    assert len(heavy) == 2 * 3
    assert "bridge the gap" in said([page])
    level = {s.text: s for s in page.shapes if isinstance(s, Text) and s.bold}
    hanging = load_of(made).cabinets[0].hanging
    assert {f"{x:.0f}" for x in (*hanging.at_mm, hanging.down_mm)} <= level.keys()
    assert f"{made.cabinets[0].size[1]:.0f}" in {s.text for s in page.shapes if isinstance(s, Text)}


@pytest.mark.parametrize("many", range(1, 8))
def test_what_to_put_right_never_stands_apart_from_its_mend(many):
    """However many shelves stand above, no page ends with a WATCH whose mend is on the next."""
    made = rod(kind="tall", height_mm=2000.0, width_mm=1400.0, openings=("rest",) * many, loose_shelves=(0,) * many)
    for page in pages_of(made):
        texts = sorted((s for s in page.shapes if isinstance(s, Text) and s.at[1] > 37.0), key=lambda s: s.at[1])
        assert not texts or not texts[0].text.startswith("WATCH")


@pytest.mark.parametrize("name", SAMPLES)
def test_only_what_is_to_be_put_right_stands_under_that_head(name):
    """How it was reckoned, and the weight, have a head of their own, on the next page too."""
    seen = 0
    for page in pages_of(sample(name)):
        texts = [s.text for s in page.shapes if isinstance(s, Text)]
        if "To put right" in texts:
            after = texts[texts.index("To put right") + 1]
            assert after.startswith(("STOP", "WATCH", "NOTE"))
        if any(t.startswith("Stiffness used") for t in texts):
            seen += 1
            assert texts.index("How it was reckoned") < next(
                n for n, t in enumerate(texts) if t.startswith("Stiffness used")
            )
    assert seen


def test_what_hangs_on_the_chain_stands_clear_of_its_first_link():
    page = next(p for p in pages_of(hung()) if p.title.startswith("The chain"))
    rings = [s for s in page.shapes if isinstance(s, Path_) and len(s.points) == 37]
    highest = max(y + ring.pen.width / 2 for ring in rings for _, y in ring.points)
    (weight,) = (s for s in page.shapes if isinstance(s, Text) and s.size == 6.0)
    assert weight.text.endswith(" kg")
    assert weight.at[1] - 0.22 * weight.size > highest


def test_shelves_of_which_the_same_is_printed_are_told_together():
    made = rod(kind="tall", height_mm=1900.0, width_mm=1200.0, bays=("rest", "rest"), openings=("rest",) * 4,
               loose_shelves=(0,) * 4)  # fmt: skip
    texts = [s.text for s in pages_of(made)[0].shapes if isinstance(s, Text)]
    about = [t for t in texts if t.startswith("span ")]
    spans = {t: sum(1 for other in about if other == t) for t in about}
    assert set(spans.values()) == {1}
    assert "Fixed shelves 1 to 6" in texts


def test_what_is_taken_for_granted_of_a_bottom_on_the_floor_stands_on_its_page():
    standing, hung = (
        " ".join(
            s.text for page in pages_of(rod(kind=kind, width_mm=1200.0)) for s in page.shapes if isinstance(s, Text)
        )
        for kind in ("bookcase", "wall")
    )
    assert "packed up under it at most 600 apart" in standing
    assert "packed up" not in hung
