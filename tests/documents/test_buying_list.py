"""The buying list, worked by hand for one job of two cupboards."""

from collections import Counter
from dataclasses import replace
from decimal import Decimal

import pytest
from page_laws import check_pages
from samples import PAPERS, SAMPLES, glaze, sample
from tests.building import cabinet, job, recipe, rod, rod_of

from rodwork.documents import buying_list
from rodwork.documents.buying_list import Money, buying_list_pages, buying_rows, money, totals
from rodwork.documents.drawing import Text
from rodwork.documents.masses import carried_by
from rodwork.model.fixing import Item


def bought(r, word):
    return next(x for x in buying_rows(r) if word in x.item)


def said(r):
    return " ".join(s.text for p in buying_list_pages(r) for s in p.shapes if isinstance(s, Text))


def test_sheets_by_area_with_the_waste_that_is_stated():
    """Each cupboard: 2 of 720 x 319, 2 of 564.8 x 319, 1 of 564.8 x 295, 2 of 562.8 x 291 mm.

    459360 + 360342.4 + 166616 + 327549.6 = 1313868 mm2, twice: 2.63 m2. A sheet is 2.977 m2, 0.85 of it 2.530.
    """
    row = bought(glaze(), "birch18")
    assert row.needed == Decimal("2.63")
    assert (row.buy, row.by) == (2, "sheet")
    assert row.price == Money(amount=Decimal("128.00"), currency="GBP")
    assert "15%" in said(glaze())
    assert "by area alone" in said(glaze())


def test_a_sheet_more_is_bought_as_soon_as_the_stated_share_is_used_up():
    r = glaze()
    stock = r.boards["birch18"]

    def sheet(mm2):
        return replace(r, boards={**r.boards, "birch18": replace(stock, sheet=(1000.0, mm2 / 1000.0))})

    total = 2 * 1313868 / 0.85
    assert bought(sheet(total + 10.0), "birch18").buy == 1
    assert bought(sheet(total - 10.0), "birch18").buy == 2


def test_a_sheet_too_heavy_for_two_is_not_told_to_two():
    """3050 x 1220 x 39.5 of 680 kg/m3 is 100 kg; of 17.6, 2440 long, it is 36.

    HSE INDG143: 25 kg for one man at the elbow, so two lift less than 50 between them.
    """
    assert carried_by(100.0) == carried_by(51.0) == "a trolley or a hoist, it is too much for two"
    assert "about 36 kg: two people, or a trolley." in said(glaze())


def test_runners_are_bought_by_the_pair():
    hung = (Item(item="pair of runners, side-mounted, 450 mm", count=3),)
    r = replace(glaze(), cabinets=tuple(replace(c, hardware=hung) for c in glaze().cabinets))
    words = [s.text for p in buying_list_pages(r) for s in p.shapes if isinstance(s, Text)]
    assert words[words.index("pairs") - 1 : words.index("pairs") + 2] == ["6", "pairs", "runners, side-mounted, 450 mm"]


def test_metres_of_edging():
    """Fronts: 2 x 720 + 3 x 564.8 + 2 x 562.8 = 4260 mm, twice 8520; 14 edges x 100 over; and a tenth: 10.912 m."""
    row = bought(glaze(), "birch edging")
    assert row.needed == Decimal("8.52")
    assert (row.buy, row.by) == (11, "m")
    assert row.price == Money(amount=Decimal("9.35"), currency="GBP")
    assert "14 edges" in row.reckoning


def test_an_edged_end_is_as_long_as_the_board_is_wide():
    edged = next(p for c in glaze().cabinets for p in c.parts if p.id == "left side")
    r = glaze()
    part = replace(edged, edging=replace(edged.edging, left_end=1.0))
    c = r.cabinets[0]
    more = replace(r, cabinets=(replace(c, parts=tuple(part if p.id == part.id else p for p in c.parts)),))
    assert bought(more, "birch edging").needed - bought(r, "birch edging").needed == Decimal("0.64")  # 2 x 320


def test_dowels_by_the_box_with_the_spare():
    """24 in each of two cupboards: 48, and 5 % makes 50.4: 51, one box. Pins: 16, 17 with the spare."""
    row = bought(glaze(), "dowel 8x30")
    assert (row.needed, row.buy, row.by) == (Decimal(48), 1, "box of 100")
    assert "51" in row.reckoning
    assert bought(glaze(), "shelf pin").needed == Decimal(16)


def test_fittings_are_bought_as_many_as_there_are_places_for_them():
    """Common practice, no source: nobody buys a fifth hinge for four, or a set of runners over."""
    fittings = (
        Item(item="hinge 110 degrees, half overlay", count=4), Item(item="pair of runners, bottom, 450 mm", count=3),
        Item(item="levelling leg 100 mm", count=4), Item(item="cam 15 mm", count=8), Item(item="biscuit 20", count=8),
    )  # fmt: skip
    r = glaze()
    more = replace(r, cabinets=(replace(r.cabinets[0], count=1, hardware=fittings),))
    assert [bought(more, i.item.split(",")[0]).buy for i in fittings] == [4, 3, 4, 8, 9]
    assert "nothing over" in bought(more, "levelling leg").reckoning


@pytest.mark.parametrize(("count", "boxes"), [(3, 1), (4, 2), (8, 3)])
def test_another_box_where_the_spare_no_longer_fits(count, boxes):
    """24 a cupboard: 3 take 72 and 76 with the spare, 4 take 96 and 101, 8 take 192 and 202."""
    assert bought(rod(count=count), "dowel 8x30").buy == boxes


def test_every_fixing_of_every_copy_is_bought():
    r = rod_of(
        job(
            cabinet(count=3, corner_joint=recipe(("dowel", {"count": 2}), ("screw", {"first_mm": 80.0, "end_mm": 90.0}))),
            cabinet(name="slip", mark="S", shelf_joint=recipe("screw")),
        )
    )  # fmt: skip
    expected = Counter()
    for c in r.cabinets:
        for h in (*c.hardware, *(h for j in c.joints for f in j.fixings for h in f.hardware)):
            expected[h.item] += h.count * c.count
    fittings = {x.item: int(x.needed) for x in buying_rows(r) if x.unit == "pieces"}
    assert fittings == dict(expected)


def test_money_is_added_to_the_penny_and_kept_apart_by_currency():
    r = glaze()
    priced = replace(r.boards["birch6"], price="0.10 EUR")
    mixed = replace(r, boards={**r.boards, "birch6": priced})
    assert totals(buying_rows(r)) == (Money(amount=Decimal("168.35"), currency="GBP"),)
    assert [m.text for m in totals(buying_rows(mixed))] == ["137.35 GBP", "0.10 EUR"]
    assert "Priced so far: 168.35 GBP; 2 lines are not priced." in said(r)


def test_nothing_is_priced_where_no_price_was_entered():
    r = glaze()
    bare = replace(
        r,
        boards={n: replace(b, price=None) for n, b in r.boards.items()},
        edgings={n: replace(e, price_per_m=None) for n, e in r.edgings.items()},
    )
    assert totals(buying_rows(bare)) == ()
    assert "Priced" not in said(bare)


def test_a_price_that_is_none_is_refused_in_words():
    assert money(None) is None
    assert money("64.00 GBP") == Money(amount=Decimal("64.00"), currency="GBP")
    with pytest.raises(ValueError, match="write it as"):
        money("about sixty")
    with pytest.raises(ValueError, match="write it as"):
        money("NaN GBP")


def test_a_heavy_sheet_is_named():
    """2.440 x 1.220 x 0.0176 m3 of 680 kg/m3 is 35.6 kg; of 6 mm it is under 25 and not named."""
    assert "A whole sheet of birch18 is about 36 kg" in said(glaze())
    assert "sheet of birch6 is about" not in said(glaze())


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_pages_keep_the_laws(name, paper):
    r = sample(name, paper)
    check_pages(buying_list_pages(r), r)


@pytest.mark.parametrize("many", range(1, 30))
def test_the_sum_and_the_glue_never_stand_on_a_page_of_their_own(many, monkeypatch):
    (row,) = (r for r in buying_rows(glaze()) if r.item == "birch6" or "birch6" in r.item)
    rows = tuple(replace(row, group="Fittings", item=f"thing {n}") for n in range(many))
    monkeypatch.setattr(buying_list, "buying_rows", lambda *_: rows)
    *_, last = buying_list_pages(glaze())
    told = [s.text for s in last.shapes if isinstance(s, Text)]
    assert f"thing {many - 1}" in told
    assert any(t.startswith("Glue for") for t in told)
