"""The comparison on paper: every law of a page, and what a maker looks for on it."""

from dataclasses import replace
from decimal import Decimal

import pytest
from page_laws import check_pages, faults
from tests.money.box import BOX, compared

from rodwork.comparing import compare
from rodwork.documents.comparison import COLUMNS, behind, ordinal
from rodwork.documents.comparison_pages import comparison_pages
from rodwork.documents.cost_picture import cost_drawing
from rodwork.documents.drawing import Circle, Text
from rodwork.model.costing import Seen

pytestmark = pytest.mark.usefixtures("steady_families")

PAPERS = ("A4", "Letter")
TO_BUY = BOX + '\n[machines."dowel jig"]\nowned = false\nprice = 90\n'
SLOW = TO_BUY.replace("drive = 0.3", "drive = 9")


def pages(text, paper="A4", **how):
    rod, c = compare(text.replace("[job]", f'[job]\npaper = "{paper}"'), "box.toml", **how)
    return comparison_pages(rod, c), rod, c


def texts(shapes):
    return [s.text for s in shapes if isinstance(s, Text)]


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("text", [BOX, TO_BUY, SLOW], ids=["at hand", "to buy", "pays"])
@pytest.mark.parametrize(
    "wants", [(), ("nothing shows",), ("demountable",)], ids=["all", "nothing shows", "demountable"]
)
def test_every_page_is_sound(paper, text, wants):
    made, rod, _ = pages(text, paper, wants=wants)
    check_pages(made, rod)


@pytest.mark.parametrize("many", [1, 12, 40])
def test_many_ways_go_on_to_the_next_page(many):
    """Long names, large sums, the same way many times: nothing runs into anything else."""
    rod, c = compare(SLOW, "box.toml")
    long = [
        replace(w, name=f"{w.name} {n} of a shop with long names for its recipes", money=w.money * 10**5)
        for n in range(many) for w in c.ways
    ]  # fmt: skip
    crowded = replace(c, ways=tuple(long), with_machine=c.with_machine * many)
    check_pages(comparison_pages(rod, crowded), rod)
    assert faults(cost_drawing(crowded)) == []


def test_the_four_figures_and_three_words_of_a_way_stand_on_its_line():
    made, _, c = pages(BOX)
    said = texts(made[0].shapes)
    dowel = next(w for w in c.ways if w.name == "dowel")
    assert f"{dowel.money / 2:.2f}" in said
    assert {"2", "4", "no", "yes", "dowel"} <= set(said)


def test_below_the_rule_it_says_from_which_cabinet_a_machine_pays():
    made, _, c = pages(SLOW, of=("corners",))
    (dowel,) = [w for w in c.with_machine if w.name == "dowel"]
    assert f"dowel jig 90.00: pays from the {ordinal(dowel.pays_from)} cabinet, against screw" in texts(made[0].shapes)


def test_what_cannot_is_grey_with_its_reason():
    made, _, _ = pages(BOX)
    grey = [s.text for p in made for s in p.shapes if isinstance(s, Text) and s.ink == "grey"]
    assert any("housing" in t and "cannot make" in t for t in grey)


def test_the_break_even_point_lies_on_both_lines():
    """In the picture the ring stands where the machine has been earned back: cost with it is not above cost without."""
    c = compared(SLOW, of=("corners",))
    screw, dowel = c.ways[0], next(w for w in c.with_machine if w.name == "dowel")
    n = dowel.pays_from
    with_jig = lambda k: Decimal(90) + dowel.running / 2 * k  # noqa: E731
    without = lambda k: screw.running / 2 * k  # noqa: E731
    assert with_jig(n) <= without(n)
    assert with_jig(n - 1) > without(n - 1)
    rings = [s for s in cost_drawing(c).shapes if isinstance(s, Circle)]
    assert len(rings) == sum(1 for w in c.with_machine if w.pays_from is not None)
    assert f"dowel pays from the {ordinal(n)}" in texts(cost_drawing(c).shapes)


def test_every_line_behind_a_way_adds_up_to_its_money():
    _, _, c = pages(SLOW)
    for way in c.all:
        shown = [Decimal(row[4]) for row in behind(way, c) if row[4]]
        assert sum(shown) == way.money


@pytest.mark.parametrize(("mm", "tenths"), [(0.2, "2"), (0.15, "1.5"), (0.25, "2.5"), (1.0, "10"), (2.8, "28")])
def test_how_true_is_told_in_tenths(mm, tenths):
    c = compared()
    (column,) = [column for column in COLUMNS if column.title == "how true, tenths"]
    assert column.says(replace(c.ways[0], across_mm=mm), c) == tenths


def test_heads_are_rings_outside_and_plugs_are_dots():
    from rodwork.documents.comparison_pages import _thumb

    seen = Seen(what="heads", surface="outside", inside=False, diameter=8, covered=False, along=(40, 260), depth=300)
    plug = replace(seen, covered=True)
    assert [s.fill for s in _thumb([seen], 0, inside=False) if isinstance(s, Circle)] == ["white", "white"]
    assert [s.fill for s in _thumb([plug], 0, inside=False) if isinstance(s, Circle)] == ["black", "black"]
    assert not [s for s in _thumb([seen], 0, inside=True) if isinstance(s, Circle)]


@pytest.mark.parametrize(
    ("number", "word"), [(1, "1st"), (2, "2nd"), (3, "3rd"), (11, "11th"), (12, "12th"), (37, "37th"), (101, "101st")]
)
def test_ordinals(number, word):
    assert ordinal(number) == word
