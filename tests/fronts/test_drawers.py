"""Drawers by their suppliers' arithmetic: side-mounted runners 1/2 in each side, 1 1/16 in off the opening in all; concealed ones
5/8 in off it for nominal 1/2 in sides, 3/8 in for 5/8 in; boxes 1/2 in (13/16 in) under the opening. Read on drawer suppliers'
pages, makers' names withheld."""

from dataclasses import replace
from itertools import pairwise

import pytest

from rodwork.model.job import CannotBuild
from rodwork.setout.proof import prove
from tests.building import back, cabinet, job, recipe, rod_of
from tests.fronts.front_samples import box_of, doors, drawers

INCH = 25.4


def chest(drawn=None, **changes):
    values = {
        "kind": "base", "depth_mm": 560.0, "openings": ("rest",), "loose_shelves": (0,), "edging": None,
        "drawers": drawn or drawers(), **changes,
    }  # fmt: skip
    return rod_of(job(cabinet(**values)))


def test_even_gaps():
    """720 high: 717 of fronts and gaps; three fronts of 237 with 3 between."""
    c = chest().cabinets[0]
    fronts = [c.part[f"drawer {n} front"] for n in (1, 2, 3)]
    assert [f.size[:2] for f in fronts] == [(597.0, 237.0)] * 3
    edges = [(box_of(f)[0][2], box_of(f)[1][2]) for f in fronts]
    assert [b[0] - a[1] for a, b in pairwise(edges)] == pytest.approx([3.0, 3.0])


def test_a_side_mounted_box_is_the_opening_less_1_1_16_in():
    c = chest().cabinets[0]
    left, right = (box_of(c.part[f"drawer 1 {hand} side"]) for hand in ("left", "right"))
    opening = 600 - 2 * 17.6
    assert right[1][0] - left[0][0] == pytest.approx(opening - 27.0)
    assert pytest.approx(17 / 16 * INCH, abs=0.02) == 27.0
    assert left[0][0] - 17.6 == pytest.approx(13.5)  # 12.7 for the runner and 0.8 of slack
    assert c.part["drawer 1 box front"].size[0] == pytest.approx(opening - 27.0 - 2 * 17.6)


@pytest.mark.parametrize(("side_in", "off_in"), [(1 / 2, 5 / 8), (5 / 8, 3 / 8)])
def test_a_concealed_box_goes_by_its_inside(side_in, off_in):
    """Both published deductions are one rule: 1 5/8 in off the inside width."""
    in_job = job(
        cabinet(kind="base", depth_mm=560.0, openings=("rest",), loose_shelves=(0,), edging=None, back=back(),
                drawers=replace(drawers(1, runners="concealed", runner_line=30.0), box_board="box")),
    )  # fmt: skip
    boards = {**in_job.boards, "box": replace(in_job.boards["birch18"], name="box", actual_mm=side_in * INCH)}
    c = rod_of(replace(in_job, boards=boards)).cabinets[0]
    outside = box_of(c.part["drawer right side"])[1][0] - box_of(c.part["drawer left side"])[0][0]
    assert outside == pytest.approx(600 - 2 * 17.6 - off_in * INCH, abs=0.05)


def test_a_box_keeps_half_an_inch_under_its_opening_and_goes_as_deep_as_it_can():
    c = chest(drawers(1)).cabinets[0]
    top = box_of(c.part["drawer left side"])[1][2]
    assert 12.7 <= 720 - 17.6 - top < 14.1
    assert c.part["drawer left side"].size[0] == 500.0  # 532 clear behind the front, in steps of 50
    assert c.drawers[0].travel == 500.0


def test_drawers_over_doors_share_the_shelf_between_them():
    c = chest(drawers(1, openings=2), openings=("rest", 140.0), loose_shelves=(0, 0),
              doors=replace(doors("pair"), openings=(1, 1))).cabinets[0]  # fmt: skip
    gap = box_of(c.part["drawer front"])[0][2] - box_of(c.part["left door"])[1][2]
    assert gap == pytest.approx(3.0)


@pytest.mark.parametrize(
    "words", [{}, {"runners": "concealed", "runner_line": 30.0}, {"style": "inset"}, {"handle": 128.0}]
)
@pytest.mark.parametrize("corner", ["dowel", "screw", "biscuit"])
def test_boxes_are_proven_and_their_runner_bores_agree(words, corner):
    rod = chest(drawers(2, **words), corner_joint=recipe(corner))
    assert prove(rod) == ()
    c = rod.cabinets[0]
    for n in (1, 2):
        heights = {
            round(c.part[s].pose.to_cabinet(f.at)[2], 6)
            for s in ("left side", "right side") for f in c.part[s].features if f.id.startswith(f"drawer {n} runner")
        }  # fmt: skip
        assert len(heights) == 1
    fronts = [
        c.part[s].pose.to_cabinet(f.at)[1] for s in ("left side",) for f in c.part[s].features if "runner" in f.id
    ]
    assert min(fronts) == pytest.approx(37 + (17.6 if words.get("style") == "inset" else 0))


def test_the_bottom_stands_in_four_grooves():
    c = chest(drawers(1)).cabinets[0]
    joints = [j for j in c.joints if j.parts[1] == "drawer bottom"]
    assert {j.parts[0] for j in joints} == {"drawer left side", "drawer right side", "drawer box front", "drawer back"}
    assert all(j.fixings[0].law == "enter" for j in joints)


@pytest.mark.parametrize("front", [110.0, 125.0, 140.0])
def test_the_corner_of_a_shallow_box_keeps_clear_of_the_groove_of_its_bottom(front):
    """A quarter of its height would stand the first dowel in the groove, or leave a sliver of board between them."""
    made = chest(drawers(heights=("rest", front)))
    assert [f.message for f in made.findings if f.code == "machining-that-meets"] == []
    side = made.cabinets[0].part["drawer 2 left side"]
    corner = [f for f in side.features if f.joint == "drawer 2 left side / drawer 2 box front" and f.role == "seat"]
    groove_to = 13 + 5.8 + 0.2  # half an inch up; the board of the bottom and its play
    first, last = sorted(f.at[1] for f in corner)
    assert first - 4 - groove_to == pytest.approx(3.0, abs=0.5)  # a fence of half millimetres
    assert last - first >= 4 * 8


def test_the_screws_of_a_shallow_box_keep_clear_of_that_groove_by_their_bores():
    """A 4 mm screw goes through a bore of 4.5: half of that, and 3 of board, lie between its place and the groove."""
    made = chest(drawers(heights=("rest", 110.0)), corner_joint=recipe("screw"))
    assert [f.message for f in made.findings if f.code == "machining-that-meets"] == []
    side = made.cabinets[0].part["drawer 2 left side"]
    first = min(f.at[1] for f in side.features if f.role == "clearance")
    assert first - 4.5 / 2 - (13 + 5.8 + 0.2) >= 3.0


def test_a_front_that_does_not_fill_its_opening_says_how_high_the_opening_is_to_be():
    """140 and a margin of 1.5 at either end want 143, less the top of 17.6 and half of the shelf: 116.6 clear."""
    words = {
        "openings": ("rest", 110.0), "loose_shelves": (0, 0), "doors": replace(doors("pair"), openings=(1, 1))
    }  # fmt: skip
    asked = drawers(openings=2, heights=(140.0,))
    with pytest.raises(CannotBuild) as refused:
        chest(asked, **words)
    assert refused.value.mend.endswith("or make their opening 6.6 higher, 116.6 clear")
    mended = chest(asked, **{**words, "openings": ("rest", 116.6)}).cabinets[0]
    assert box_of(mended.part["drawer front"])[1][2] - box_of(mended.part["drawer front"])[0][2] == pytest.approx(140)
    with pytest.raises(CannotBuild) as whole:
        chest(drawers(3, heights=(100.0, 100.0, 100.0)))
    assert "opening" not in whole.value.mend  # it is the whole cabinet: no shelf moves


def test_runners_and_handles_are_bought():
    hardware = {i.item: i.count for i in chest(drawers(3, handle=128.0)).cabinets[0].hardware}
    assert hardware == {"pair of runners, side-mounted, 500 mm": 3, "handle": 3}


@pytest.mark.parametrize(
    ("drawn", "changes", "says"),
    [
        (drawers(3, heights=(100.0, 100.0, 100.0)), {}, "is asked for"),
        (drawers(3, heights=(600.0, "rest", "rest")), {}, "each of the rest"),
        (drawers(12), {"height_mm": 900.0}, "leaves a box"),
        (drawers(1), {"width_mm": 150.0}, "leaves a box"),
        (drawers(1, runner_length=600.0), {}, "runners of 600"),
        (replace(drawers(1), opening=2), {}, "drawers in opening 2"),
        (drawers(1), {"loose_shelves": (1,)}, "loose shelves and drawers"),
        (drawers(1), {"doors": doors("left")}, "doors and drawers"),
        (drawers(1, box_width=540.0), {}, "too wide"),
        (drawers(1, box_width=530.0), {}, "too narrow"),
    ],
)
def test_what_cannot_be_made_is_refused_with_a_way_to_mend_it(drawn, changes, says):
    with pytest.raises(CannotBuild) as refused:
        chest(drawn, **changes)
    assert says in str(refused.value)
    assert refused.value.mend


def test_a_box_that_is_there_drives_its_opening():
    """The mend names the cabinet's width that takes it."""
    with pytest.raises(CannotBuild) as refused:
        chest(drawers(1, box_width=450.0))
    assert "512.2 wide" in refused.value.mend  # 450 + 27 + 2 x 17.6
    assert chest(drawers(1, box_width=450.0), width_mm=512.2).cabinets[0].drawers[0].box_width == 450.0


def test_the_published_plan_w15_is_refused_for_its_drawers():
    """Bar cabinets 30 wide of 3/4 in board: fronts and backs of boxes 29 1/2 long, with 1/2 in of runner each side,
    in an opening of 28 1/2. A public repository of cutting lists; kept as an example of what goes wrong."""
    in_job = job(
        cabinet(width_mm=30 * INCH, height_mm=34.5 * INCH, depth_mm=14 * INCH, openings=("rest",), loose_shelves=(0,),
                edging=None, back=None, drawers=drawers(3, box_width=29.5 * INCH, runners_take=INCH)),
        thickness=0.75 * INCH,
    )  # fmt: skip
    with pytest.raises(CannotBuild) as refused:
        rod_of(in_job)
    assert "too wide" in str(refused.value)
    assert f"{30.5 * INCH:g}" in str(refused.value)  # the opening that they would want


@pytest.mark.parametrize(("heights", "fits"), [((157.0, 253.0, 317.0), True), ((157.0, 253.0, 320.0), False)])
def test_fronts_on_a_grid_of_holes(heights, fits):
    """Fronts of 5, 8 and 10 modules of 32 less a 3 mm gap are 157, 253 and 317, and 23 modules less one gap are 733: a page on
    the 32 mm grid prints 736 for that, which is 23 modules and no gap."""
    assert [32 * n - 3 for n in (5, 8, 10, 23)] == [157, 253, 317, 733]
    room = {"height_mm": 733.0 + 2 * 1.5}
    if fits:
        c = chest(drawers(3, heights=heights), **room).cabinets[0]
        fronts = [c.part[f"drawer {n} front"] for n in (1, 2, 3)]
        assert tuple(f.size[1] for f in fronts) == heights
        assert box_of(fronts[2])[1][2] - box_of(fronts[0])[0][2] == pytest.approx(733.0)
    else:
        with pytest.raises(CannotBuild):
            chest(drawers(3, heights=heights), **room)
