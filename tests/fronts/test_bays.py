"""Doors and drawers that differ from bay to bay and one above another, read from a job as a maker writes it."""

from itertools import pairwise

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out
from tests.fronts.front_samples import box_of
from tests.geometry.overlap import overlaps
from tests.texts import HEAD

BENCH = """
[cabinets.bench]
kind = "base"
width = 1200
height = 780
depth = 560
board = "birch18"
dividers = 1
"""
BOX = 'bottom_board = "birch6"'


def bench(words, every=""):
    """The bench unit of two bays with these words."""
    return set_out(HEAD + every + BENCH + words, "bench.toml")


def only(words, every=""):
    return bench(words, every).cabinets[0]


def fronts_at(cabinet, side):
    """The fronts left or right of the divider, from the bottom: (id, lower edge, upper edge)."""
    seen = [p for p in cabinet.parts if p.role in ("door", "drawer front") and "box" not in p.id]
    here = [p for p in seen if (sum(e[0] for e in box_of(p)) / 2 < 600) == (side == "left")]
    return sorted((box_of(p)[0][2], box_of(p)[1][2], p.id) for p in here)


def test_a_bank_of_drawers_in_one_bay_and_a_door_in_the_other():
    c = only(f'doors = {{ bays = [1], hung = "left" }}\ndrawers = {{ bays = [2], number = 4, {BOX} }}')
    (door,) = fronts_at(c, "left")
    drawers = fronts_at(c, "right")
    assert door[2] == "door"
    assert [d[2] for d in drawers] == [f"drawer {n} front" for n in (1, 2, 3, 4)]
    assert (door[0], door[1]) == (drawers[0][0], drawers[-1][1]) == (1.5, 778.5)
    gap = box_of(c.part["drawer 1 front"])[0][0] - box_of(c.part["door"])[1][0]
    assert gap == pytest.approx(3.0)
    assert overlaps(c) == []


def test_drawers_above_doors_in_one_bay_and_a_door_over_all_of_the_other():
    c = only(
        'openings = ["rest", 160]\n'
        f'drawers = {{ bays = [1], number = 1, {BOX} }}\n'
        'doors = [{ bays = [1], hung = "left" }, { bays = [2], hung = "right" }]'
    )  # fmt: skip
    below, above = fronts_at(c, "left")
    assert [below[2], above[2]] == ["door 1", "drawer front"]
    assert above[0] - below[1] == pytest.approx(3.0)  # they share the shelf between them
    assert fronts_at(c, "right") == [(1.5, 778.5, "door 2")]
    assert overlaps(c) == []


def test_two_sets_of_drawers_in_one_bay_are_numbered_through():
    c = only(
        'openings = ["rest", 200]\n'
        f'drawers = [{{ opening = 1, number = 2, {BOX} }}, {{ opening = 2, number = 1, {BOX}, handle = 96 }}]'
    )  # fmt: skip
    assert [d.front for d in c.drawers] == [f"drawer {n} front" for n in range(1, 7)]
    left = fronts_at(c, "left")
    assert [b[0] - a[1] for a, b in pairwise(left)] == pytest.approx([3.0, 3.0])
    assert {i.item: i.count for i in c.hardware}["handle"] == 2


def test_two_doors_one_above_the_other_share_the_shelf():
    c = only('fixed_shelves = 1\ndoors = [{ openings = [1, 1], hung = "pair" }, { openings = [2, 2], hung = "left" }]')
    for side in ("left", "right"):
        heights = sorted({f[:2] for f in fronts_at(c, side)})
        assert heights[1][0] - heights[0][1] == pytest.approx(3.0)
    assert len(c.doors) == 6


def test_loose_shelves_leave_the_drawers_bay_out_and_runners_keep_off_their_pins():
    rod = bench(
        f'loose_shelves = 2\ndoors = {{ bays = [1], hung = "left" }}\ndrawers = {{ bays = [2], number = 3, {BOX} }}'
    )
    c = rod.cabinets[0]
    shelves = [p for p in c.parts if p.role == "loose shelf"]
    assert len(shelves) == 2
    assert all(box_of(p)[1][0] < 600 for p in shelves)
    pins, runners = (
        [c.part["divider"].pose.to_cabinet(f.at) for f in c.part["divider"].features if test(f)]
        for test in (lambda f: f.role == "shelf_pin", lambda f: "runner" in f.id)
    )
    assert pins
    assert runners
    assert min(abs(p[2] - r[2]) for p in pins for r in runners) >= 8.0
    assert [f for f in rod.findings if f.code == "machining-that-meets" and f.severity == "fault"] == []


def test_hinges_keep_off_the_runners_on_the_other_face_of_a_divider():
    rod = bench(f'doors = {{ bays = [1], hung = "right" }}\ndrawers = {{ bays = [2], number = 5, {BOX} }}')
    assert rod.cabinets[0].doors[0].hinges[0].carrier == "divider"
    assert [f for f in rod.findings if f.code == "machining-that-meets" and f.severity == "fault"] == []


def test_what_every_cabinet_says_goes_under_each_table():
    every = '\n[every_cabinet]\ndoors = { hung = "left", handle = 128 }\n'
    c = only('doors = [{ bays = [1] }, { bays = [2], hung = "right" }]', every)
    assert [d.hinged for d in c.doors] == ["left", "right"]
    assert {i.item: i.count for i in c.hardware}["handle"] == 2


@pytest.mark.parametrize(
    ("words", "line", "says"),
    [
        (f'doors = {{ hung = "left" }}\ndrawers = {{ bays = [2], number = 3, {BOX} }}', 25, "has doors and drawers"),
        ('doors = [\n  { hung = "left" },\n  { bays = [3], hung = "left" },\n]', 26, "bay 3 is asked for"),
        ('doors = [{ bays = [1], hung = "left" }, { bays = [1], hung = "right" }]', 24, "has doors and doors"),
        ('doors = [\n  { hung = "left" },\n  { hung = "sideways" },\n]', 26, '"sideways"'),
        ('doors = [\n  { bays = [1], hung = "left" },\n  { bays = [2] },\n]', 26, "doors has no hung"),
        ('doors = [{ hung = "left", stile = "inset" }]', 24, "Did you mean style"),
        ('doors = ["left"]', 24, "neither a table nor a list of tables"),
        ("doors = []", 24, "neither a table nor a list of tables"),
        ('doors = { bays = [1, 1], hung = "left" }', 24, "bays"),
        ('doors = { bays = [0], hung = "left" }', 24, "bays"),
        (f'drawers = [{{ bays = [2], number = 3, {BOX} }}, {{ number = 1e9, {BOX} }}]', 24, "number"),
        (f'drawers = [{{ number = 3, {BOX}, board = "oak" }}]', 24, 'no [boards.oak]'),
        ('drawers = [{ number = 3, bottom_board = "birch6", heights = [100] }]', 24, "one height for each"),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_at_its_line(words, line, says):
    with pytest.raises(JobFaults) as refused:
        bench(words)
    told = "\n".join(f"{f.line} {f.what} {f.mend}" for f in refused.value.faults)
    assert says in told
    assert any(f.line == line for f in refused.value.faults), told
