"""Doors of one width along a run: the widths of cabinets that follow, and doors shared over carcasses as they are.

Every expected figure is worked by hand from the wall: a door takes its width and one gap, half of it at either side.
"""

import re
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rodwork.job.faults import JobFaults
from rodwork.model.plain import from_plain, to_plain
from rodwork.model.rod import Rod
from rodwork.pipeline import set_out
from tests import texts

HEAD = (
    texts.JOB
    + texts.board("birch18", 18, 17.6, "[3050, 1525]")
    + texts.board("birch6", 6, 5.8)
    + """
[every_cabinet]
kind = "base"
width = "rest"
height = 720
depth = 560
board = "birch18"
"""
)
KINDS = """
[cabinets.pair]
count = 2
doors = { hung = "pair" }

[cabinets.single]
doors = { hung = "left" }
"""


def run(lines, cabinets=KINDS):
    """A job of those cabinets that its run names."""
    used = "".join(
        c for c in re.split(r"(?m)^(?=\[)", cabinets) if f"'{c[10 : c.find(']')]}'" in lines or c[:9] != "[cabinets"
    )
    return f"{HEAD}{used}\n[runs.north]\nscrews = 'none'\n{lines}"


def rod_of(lines, cabinets=KINDS) -> Rod:
    return set_out(run(lines, cabinets), "equal.toml")


def widths(rod):
    return {s.name: round(s.x1 - s.x0, 4) for s in rod.runs[0].standings if s.stands_as == "cabinet"}


def doors(rod, role="door"):
    """Left and right edge of every front in the run, from the left."""
    out = set()
    for s in rod.runs[0].standings:
        if s.stands_as == "cabinet":
            for p in rod.cabinet[s.name].parts:
                if p.role == role and "back_side" in p.shows:
                    out.add((round(s.x0 + p.box[0][0], 4), round(s.x0 + p.box[1][0], 4)))
    return sorted(out)


def door_widths(rod):
    return {round(b - a, 3) for a, b in doors(rod)}


def test_the_wall_less_what_is_given_is_shared_by_the_doors_each_with_its_gap():
    """3060 - 40 - 600 - 40 = 2380 for five doors: 476 each, less the gap of 3."""
    rod = rod_of("length = 3060\nof = [{infill=40}, 'pair', 'single', {gap=600}, 'pair', {infill=40}]\ndoors = 'equal'")
    assert widths(rod) == {"pair": 952, "single": 476}
    assert door_widths(rod) == {473}
    assert rod.runs[0].door_width == 473
    assert rod.runs[0].stack.left == 80
    assert rod.cabinet["pair"].part["bottom"].size[0] == pytest.approx(952 - 35.2)


def test_a_share_that_does_not_come_out_even_is_still_equal_to_the_last_figure():
    """2000 / 3 - 3 = 663.6667, and the two cabinets fill the wall."""
    rod = rod_of("length = 2000\nof = ['pair', 'single']\ndoors = 'equal'")
    assert door_widths(rod) == {663.667}
    assert rod.runs[0].standings[-1].x1 == pytest.approx(2000, abs=1e-5)


@pytest.mark.parametrize("length", [2126, 1999.7, 1234.5, 3001])
def test_shares_that_are_cut_short_are_never_longer_than_the_wall(length):
    rod = rod_of(f"length = {length}\nof = ['pair', 'single', 'pair']\ndoors = 'equal'")
    assert length - 1e-4 <= rod.runs[0].standings[-1].x1 <= length
    alike = rod_of(f"length = {length}\nof = ['pair', 'single', 'pair']")
    assert length - 1e-4 <= alike.runs[0].standings[-1].x1 <= length


def test_bays_between_dividers_follow_so_that_inner_doors_are_as_wide_as_outer_ones():
    """Four doors in 2000: 497. Outer bay: 497 - 16.1 over the side - 7.3 over half a divider; inner: 497 - 2 x 7.3."""
    three = "[cabinets.three]\ndividers = 2\ndoors = { hung = ['left', 'left', 'right'] }\n"
    rod = rod_of("length = 2000\nof = ['three', 'single']\ndoors = 'equal'", KINDS + three)
    assert door_widths(rod) == {497}
    assert [round(b - a, 4) for a, b in pairwise(sorted(x for x, _ in doors(rod)))] == [500, 500, 500]
    dividers = [rod.cabinet["three"].part[f"divider {n}"].box for n in (1, 2)]
    assert round(dividers[0][0][0] - 17.6, 4) == 473.6
    assert round(dividers[1][0][0] - dividers[0][1][0], 4) == 482.4


def test_inset_doors_fill_their_openings_and_the_boards_beside_them_come_on_top():
    """Two cabinets of one inset door in 1000: (1000 - 4 x 17.6 - 4 x 2) / 2 = 460.8."""
    inset = "[cabinets.inset]\ncount = 2\ndoors = { hung = 'left', style = 'inset' }\n"
    rod = rod_of("length = 1000\nof = ['inset', 'inset']\ndoors = 'equal'", inset)
    assert door_widths(rod) == {460.8}


def test_drawers_that_have_a_bay_to_themselves_count_as_one_door():
    drawn = "[cabinets.drawn]\ndrawers = { number = 3, bottom_board = 'birch6' }\n"
    rod = rod_of("length = 1500\nof = ['pair', 'drawn']\ndoors = 'equal'", KINDS + drawn)
    assert door_widths(rod) == {497}
    assert {round(b - a, 4) for a, b in doors(rod, "drawer front")} == {497}


def test_a_cabinet_with_a_width_of_its_own_says_how_wide_all_doors_are_and_an_infill_takes_the_rest():
    """A pair in 800 has doors of 397; a single then is 400 wide, and 2000 - 800 - 400 - 800 leaves nothing to guess."""
    fixed = "[cabinets.fixed]\nwidth = 800\ndoors = { hung = 'pair' }\n"
    of = "length = 2060\nof = [{ infill = 'rest' }, 'fixed', 'single', 'pair']\ndoors = 'equal'"
    rod = rod_of(of, KINDS + fixed)
    assert widths(rod) == {"fixed": 800, "single": 400, "pair": 800}
    assert door_widths(rod) == {397}
    assert rod.runs[0].standings[0].x1 == pytest.approx(60)


def test_bought_doors_say_how_wide_all_of_them_are():
    bought = "doors = { hung = 'left', bought = { height = 715, width = 596, cups_from_ends = 98 } }"
    rod = rod_of("of = ['pair', 'bought']\ndoors = 'equal'", f"{KINDS}\n[cabinets.bought]\n{bought}\n")
    assert widths(rod) == {"pair": 1198, "bought": 599}


def test_without_equal_doors_what_is_left_makes_cabinets_of_one_width():
    rod = rod_of("length = 2000\nof = ['pair', 'single', { gap = 500 }]")
    assert widths(rod) == {"pair": 750, "single": 750}
    assert rod.runs[0].door_width is None


OVER = """
[cabinets.a]
width = 606
doors = { hung = "left" }

[cabinets.b]
width = 600
doors = { hung = "right" }

[cabinets.c]
width = 600
doors = { hung = "right" }
"""


def test_over_carcasses_of_given_widths_doors_are_shared_evenly():
    """1806 - 3 - 2 x 3 = 1797 for three doors: 599 each. The door of b begins 2.5 to the left of b's own carcass."""
    rod = rod_of("of = ['a', 'b', 'c']\ndoors = 'equal'", OVER)
    assert doors(rod) == [(1.5, 600.5), (603.5, 1202.5), (1205.5, 1804.5)]
    assert rod.runs[0].door_width == 599
    (hung,) = rod.cabinet["b"].doors
    over = 1202.5 - (606 + 600 - 17.6)
    assert [h.overlay for h in hung.hinges] == [pytest.approx(over)] * 2
    assert all(h.fixed + h.rim - h.plate_height == pytest.approx(over, abs=0.26) for h in hung.hinges)
    assert "margins-differ" not in {f.code for f in rod.findings}


def test_carcasses_of_one_width_are_left_as_they_are():
    same = OVER.replace("606", "600")
    assert doors(rod_of("of = ['a', 'b', 'c']\ndoors = 'equal'", same)) == doors(rod_of("of = ['a', 'b', 'c']", same))


REFUSED = {
    "further than hinges reach": ("of = ['a', 'b', 'c']\ndoors = 'equal'", OVER.replace("606", "660"), "a 620.0, b 620.0"),
    "bare side": ("of = ['a', 'b', 'c']\ndoors = 'equal'", OVER.replace("606", "560"), "it must be"),
    "stretches apart": (
        "of = ['a', { gap = 600 }, 'b', 'c']\ndoors = 'equal'", OVER,
        "597.0 wide over b and c and 603.0 over a, which do not touch",
    ),
    "copies": ("of = ['a', 'b', 'b']\ndoors = 'equal'", OVER.replace("600", "600\ncount = 2", 1), "a name of its own"),
    "a copy elsewhere": (
        "of = ['a', 'b', 'c']\ndoors = 'equal'", OVER.replace("600", "600\ncount = 2", 1), "do not stand in the run",
    ),
    "inset over carcasses": (
        "of = ['a', 'b', 'c']\ndoors = 'equal'", OVER.replace('"left" }', '"left", style = "inset" }', 1), "cannot be moved"
    ),
    "gaps that differ": (
        "of = ['a', 'b', 'c']\ndoors = 'equal'", OVER.replace('"left" }', '"left", between = 4 }', 1), "3 and 4"
    ),
    "two widths given": (
        "length = 3000\nof = ['a', 'b', 'single']\ndoors = 'equal'", KINDS + OVER, "597 on the b and 603 on the a"
    ),
    "no length": ("of = ['pair']\ndoors = 'equal'", KINDS, "no length is said"),
    "two that take what is left": ("length = 900\nof = ['pair', { infill = 'rest' }]\ndoors = 'equal'", KINDS, "not both"),
    "nothing left": ("length = 700\nof = ['pair', 'single', { gap = 600 }]\ndoors = 'equal'", KINDS, "take 89 off"),
    "nothing left for cabinets": ("length = 700\nof = ['pair', 'single', { gap = 600 }]", KINDS, "take 100 off"),
    "longer than its wall": (
        "length = 1900\nof = ['a', 'pair']\ndoors = 'equal'", KINDS + OVER.replace("606", "900"), "2700.0 long"
    ),
    "open bay": ("length = 900\nof = ['open']\ndoors = 'equal'", "[cabinets.open]\n", "no doors and no drawers"),
    "bays given": (
        "length = 900\nof = ['given']\ndoors = 'equal'", "[cabinets.given]\nbays = [300, 'rest']\ndoors = { hung = 'left' }",
        "its bays have sizes",
    ),
    "doors over doors": (
        "length = 900\nof = ['stack']\ndoors = 'equal'",
        "[cabinets.stack]\nfixed_shelves = 1\ndoors = [{ openings = [1, 1], hung = 'pair' }, { openings = [2, 2], hung = 'left' }]",
        "cannot be of one width",
    ),
    "face frame": (
        "length = 900\nof = ['framed']\ndoors = 'equal'",
        "[cabinets.framed]\nface_frame = { board = 'birch18' }\ndoors = { hung = 'left' }", "a face frame",
    ),
    "no doors at all": ("of = ['open']\ndoors = 'equal'", "[cabinets.open]\nwidth = 600\n", "it has none"),
    "no word": ("of = ['single']\nlength = 900\ndoors = 'eqal'", "[cabinets.single]\n", 'id you mean "equal"?'),
    "no width": ("of = ['single']", "[cabinets.single]\nwidth = 'rset'\n", 'id you mean "rest"?'),
}  # fmt: skip


@pytest.mark.parametrize(("lines", "cabinets", "says"), REFUSED.values(), ids=REFUSED)
def test_where_doors_cannot_be_equal_it_is_refused_with_numbers_at_its_line(lines, cabinets, says):
    with pytest.raises(JobFaults) as caught:
        rod_of(lines, cabinets)
    (fault, *_) = caught.value.faults
    assert says in f"{fault.what}. {fault.mend[0].lower()}{fault.mend[1:]}"
    assert fault.mend
    assert run(lines, cabinets).splitlines()[fault.line - 1].strip()


def test_a_width_by_its_run_stands_in_one_run_and_no_alcove():
    two = run("length = 900\nof = ['single']", "[cabinets.single]\ncount = 2\n")
    with pytest.raises(JobFaults, match="stands in 2 runs"):
        set_out(two + "\n[runs.south]\nlength = 900\nof = ['single']\n", "two.toml")
    niche = (
        "[cabinets.single]\nalcove = 'n'\nwidth = 'rest'\n[surveys.n]\nwidths = [1200]\nheights = [0]\ndepths = [600]\n"
    )
    with pytest.raises(JobFaults, match="stands in an alcove"):
        rod_of("length = 900\nof = ['single']", niche)


def test_the_rod_goes_out_and_comes_back_with_its_door_width():
    rod = rod_of("length = 2000\nof = ['pair', 'single']\ndoors = 'equal'")
    assert from_plain(Rod, to_plain(rod)) == rod


@st.composite
def rows(draw):
    """Cabinets of one to three bays, doors or pairs of them, overlay or half overlay or inset, all of one wall."""
    tables, names = [], []
    for n in range(draw(st.integers(1, 4))):
        bays = draw(st.integers(1, 3))
        hung = [draw(st.sampled_from(["left", "right", "pair"])) for _ in range(bays)]
        style = draw(st.sampled_from(["overlay", "overlay", "inset"]))
        fixed = draw(st.sampled_from(["", "", "drawers"])) if bays > 1 else ""
        doors_in = f", bays = {list(range(1, bays))}" if fixed else ""
        drawn = (
            f"drawers = {{ bays = [{bays}], number = 2, bottom_board = 'birch6', style = '{style}' }}\n"
            if fixed
            else ""
        )
        said = hung[: bays - 1] if fixed else hung
        tables.append(
            f"\n[cabinets.c{n}]\ndividers = {bays - 1}\ndoors = {{ hung = {said}, style = '{style}'{doors_in} }}\n{drawn}"
        )
        names.append(f"c{n}")
    return tables, names, draw(st.integers(400, 700)) * sum(3 for _ in names)


@settings(max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(rows())
def test_every_row_of_cabinets_comes_out_with_one_width_of_door_and_as_long_as_its_wall(row):
    tables, names, length = row
    rod = rod_of(f"length = {length}\nof = {names}\ndoors = 'equal'", "".join(tables))
    assert len({round(b - a, 2) for a, b in doors(rod)}) == 1
    assert rod.runs[0].standings[-1].x1 == pytest.approx(length, abs=1e-4)
    asked = [o for c in rod.cabinets for o in c.asked.openings]
    assert all(o.width > 0 for o in asked)
