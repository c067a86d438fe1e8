"""Eight ways of joining two boxes, each worked by hand to the penny. Arithmetic; the prices and times are invented.

Two boxes of 500 x 400 x 300, four corners each: 8 joints 300 long and 18 wide. Rows from the front at 40, 136 and 260
(the last 40 from the back): 3 dowels, screws or bolts in a corner, 24 in the job. An hour is 36, a minute 0.60.

A board is held once for every surface that is worked at a setting: tops and bottoms have two ends, 2 x 2 x 2 = 8; each
side is worked at its top end at one setting and at its bottom end at another, 2 x 2 x 2 = 8.
Glue: 8 x 0.300 x 0.018 = 0.0432 m2, at 0.18 litres 0.007776, at 8.00 a litre 0.06. Glued joints: 8 x 0.3 = 2.4 m.
"""

from decimal import Decimal
from pathlib import Path

import pytest

from rodwork.comparing import compare
from rodwork.joints.registry import joint_kinds
from rodwork.model.money import to_coin
from tests.money.box import BOX, compared, line, way

D = Decimal

BOLT = (Path(__file__).parents[2] / "examples/families/bolt-and-barrel-nut.toml").read_bytes()


def test_dowels_by_hand():
    """24 dowels at 6.40 for 200: 0.77. Settings: one machine 3, one bit 2, one fence 2, depths 20 and 12: 2, a first-off
    at each: 4; 13 minutes. 16 boards held: 8. 48 bores: 24. 24 dowels: 4.8. Glue 2.4. Clamps: two across each top and
    bottom, 8: 8. Together 60.2 minutes: 36.12. All: 36.12 + 0.77 + 0.06.
    """
    dowels = way("dowel", of=("corners",))
    assert dowels.minutes == D("60.2")
    assert line(dowels, "dowel 8x30").money == D("0.77")
    assert line(dowels, "glue").money == D("0.06")
    assert line(dowels, "time at the bench").money == D("36.12")
    assert dowels.money == D("36.95")
    assert (dowels.clamps, dowels.waits_min, dowels.shows) == (4, D(45), "nothing")


def test_screws_by_hand():
    """24 screws at 7.90 for 200: 0.948, so 0.95. Settings: machine 3, bit 2, fence 2, first-off 2, no depth for a bore
    right through: 9. Only the sides are held: 4. 24 bores: 12; 24 in place: 9.6; 24 screws: 7.2; glue 2.4; no clamps.
    44.2 minutes: 26.52.
    """
    screws = way("screw", of=("corners",))
    assert screws.minutes == D("44.2")
    assert line(screws, "screw 4x50").money == D("0.95")
    assert screws.money == D("26.52") + D("0.95") + D("0.06") == D("27.53")
    assert (screws.clamps, screws.waits_min, screws.shows) == (0, D(0), "heads outside")


def test_two_dowels_and_two_screws_by_hand():
    """16 dowels: 0.512, 0.51. 16 screws: 0.632, 0.63. Settings as of both: 13 + 9. 24 held: 12. 32 + 16 bores: 24; 16 in
    place: 6.4; 16 dowels: 3.2; 16 screws: 4.8; glue 2.4; the screws draw it up. 74.8 minutes: 44.88.
    """
    mixed = way("mixed", of=("corners",))
    assert mixed.minutes == D("74.8")
    assert mixed.money == D("44.88") + D("0.51") + D("0.63") + D("0.06") == D("46.08")
    assert mixed.as_written


def test_a_housed_shelf_by_hand():
    """One shelf: 4 housings, each from 10 behind the front to the back, 0.290 m: 1.16 m, 2.32 minutes. Machine 3, cutter
    2, depth 1, first-off 2: the batten is the fence, 8. 4 lines with a batten: 6. 4 ends glued, 1.2 m: 1.2. 2 clamps on
    each shelf: 4. 21.52 minutes: 12.912. Glue 4 x 0.3 x 0.018 x 0.18 x 8: 0.031.
    """
    text = BOX.replace("[cabinets.box]", "[cabinets.box]\nfixed_shelves = 1")
    housing = way("housing", text, of=("shelves",))
    assert housing.minutes == D("21.52")
    assert housing.money == D("12.91") + D("0.03")


def test_a_family_of_our_own_by_hand():
    """24 bolts at 18.00 for 50: 8.64; 24 nuts at 14.50: 6.96. Machine 3; bits of 10 and 7: 4; fences at 34 and 9: 4; depths
    13 and 46: 2; first-offs: 4; 17. Held: the inner face at either end 8, ends 8, sides 8: 12. 72 bores: 36. 24 nuts: 4.8.
    24 bolts: 7.2. No glue, no clamps. 77 minutes: 46.20.
    """
    text = BOX.replace('name = "Two', 'families = ["bolt.toml"]\nname = "Two')
    _, found = compare(text, "box.toml", lambda name: BOLT, of=("corners",))
    bolts = next(w for w in found.all if w.name == "bolt and barrel nut")
    assert bolts.minutes == D("77.0")
    assert line(bolts, "bolt M6x60").money == D("8.64")
    assert line(bolts, "barrel nut M6").money == D("6.96")
    assert bolts.money == D("61.80")
    assert (bolts.demountable, bolts.glue, bolts.shows) == (True, False, "heads outside, bores inside")


def test_a_cabinet_more_costs_no_more_settings():
    """Twice the boxes: every line but those of the settings doubles, and those stay."""
    two = way("dowel", of=("corners",))
    four = way("dowel", BOX.replace("count = 2\nwidth", "count = 4\nwidth"), of=("corners",))
    for one, other in zip(two.lines, four.lines, strict=True):
        if one.minutes is not None:
            assert other.minutes == one.minutes * (1 if one.kind == "settings" else 2), one.what


@pytest.mark.parametrize(
    ("amount", "currency", "rounded"),
    [("18.475", "GBP", "18.48"), ("18.4749", "GBP", "18.47"), ("18.5", "JPY", "19"), ("0.005", "EUR", "0.01")],
)
def test_halves_of_a_coin_go_up_and_a_currency_has_its_own_smallest_coin(amount, currency, rounded):
    assert to_coin(D(amount), currency) == D(rounded)


WITH_MACHINES = BOX.replace(
    "glue = { price = 8 }",
    'glue = { price = 8 }\n"biscuit 20" = { price = 4, pieces = 100 }\n"loose tenon 5x20x30" = { price = 6, pieces = 100 }\n'
    '[machines."slot jointer"]\nowned = false\nprice = 180\n[machines."mortise jointer"]\nowned = false\nprice = 850',
)


def test_biscuits_by_hand():
    """Two in a corner, 16: 0.64. Settings: machine 3, disc 2, fence 2, depth 1 for both boards, first-off 2: 10. 16 held:
    8. 32 slots: 16. 16 biscuits: 3.2. Glue 2.4. Clamps 8. 47.6 minutes: 28.56. A jointer of 180 over 50 cabinets, for
    two: 7.20. Without it 28.56 + 0.64 + 0.06. Against the job as it is, 46.08: 180 x 2 / 16.82 is 21.4.
    """
    biscuits = way("biscuit", WITH_MACHINES, of=("corners",))
    assert biscuits.minutes == D("47.6")
    assert biscuits.running == D("29.26")
    assert line(biscuits, "slot jointer").money == D("7.20")
    assert biscuits.money == D("36.46")
    assert [(m.name, m.price) for m in biscuits.to_buy] == [("slot jointer", D(180))]
    assert biscuits.pays_from == 22


def test_biscuits_against_dowels_alone_pay_from_the_47th_cabinet(monkeypatch):
    """Where nothing may show, dowels at 36.95 for two are the cheapest with tools at hand: 180 x 2 / 7.69 is 46.8."""
    only = {name: joint_kinds()[name] for name in ("biscuit", "dowel")}
    monkeypatch.setattr("rodwork.comparing.joint_kinds", lambda: only)
    text = WITH_MACHINES.replace('"dowel", count = 2 }, { family = "screw"', '"dowel"')
    (biscuits,) = compared(text, of=("corners",), wants=("nothing shows",)).with_machine
    assert biscuits.running == D("29.26")
    assert biscuits.pays_from == 47


def test_loose_tenons_by_hand():
    """Three in a corner, 24: 1.44. The first is cut tight to a stop, the others wide to marks: every board is held twice,
    32: 16. Machine 3, cutter 2, fence 2, depths 20 and 12: 2, first-offs 4: 13. 48 mortises: 24. 24 tenons: 4.8. Glue 2.4.
    Clamps 8. 68.2 minutes: 40.92. 850 over 50 cabinets, for two: 34.00.
    """
    tenons = way("loose tenon", WITH_MACHINES, of=("corners",))
    assert tenons.minutes == D("68.2")
    assert tenons.running == D("40.92") + D("1.44") + D("0.06")
    assert tenons.money == tenons.running + D("34.00")
