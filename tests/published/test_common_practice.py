"""Facts of the trade that have no published source to hand: common practice, no source, and arithmetic from it."""

from itertools import pairwise

import pytest

from rodwork.joints.kinds.dowel import Settings, depths
from rodwork.model.feature import Bore
from rodwork.model.shop import Shop
from tests.building import cabinet, job, recipe, rod_of

SHOP = Shop(name=None)


def in_face(t, **settings):
    """The bores of the left side's corners in a board of thickness t."""
    asked = cabinet(corner_joint=recipe(("dowel", settings)), openings=("rest",), loose_shelves=(0,))
    side = rod_of(job(asked, thickness=t)).cabinets[0].part["left side"]
    return [f for f in side.features if isinstance(f, Bore)], side.size[2]


def test_an_8x30_dowel_12_in_the_face_and_20_in_the_end_leaves_3_6_under_the_point():
    """30 + 2 for glue, 17.6 board, 2 mm point. Common practice and arithmetic."""
    assert depths(Settings(), 30.0, 17.6, SHOP) == (12.0, 20.0)
    bores, t = in_face(17.6)
    assert {round(t - b.depth - b.tip, 6) for b in bores} == {3.6}


@pytest.mark.parametrize(("t", "tip", "left"), [(18.0, 0.0, 3.0), (17.6, 2.0, 0.6)])
def test_an_8x30_dowel_set_15_deep(t, tip, left):
    """3 to the shoulder in 18; with a 2 mm point in 17.6 only 0.6. Common practice and arithmetic."""
    bores, thickness = in_face(t, depth_in_face_mm=15.0, tip_mm=tip)
    assert {round(thickness - b.depth - b.tip, 6) for b in bores} == {left}


@pytest.mark.parametrize(("t", "beside"), [(15.0, 3.5), (15.7, 3.85)])
def test_an_8_mm_dowel_is_sound_in_15_and_in_what_16_usually_measures(t, beside):
    """What is left beside the bore when it stands in the middle. Common practice and arithmetic."""
    assert (t - 8.0) / 2 == pytest.approx(beside)
    asked = cabinet(corner_joint=recipe(("dowel", {"offset_mm": t / 2})), openings=("rest",), loose_shelves=(0,))
    top = rod_of(job(asked, thickness=t)).cabinets[0].part["top"]
    ends = [f for f in top.features if isinstance(f, Bore)]
    assert {round(min(f.at[2], t - f.at[2]) - 4.0, 6) for f in ends} == {beside}


@pytest.mark.parametrize(("t", "fence"), [(17.6, 9.0), (18.2, 9.0), (15.0, 7.5), (15.7, 8.0), (18.0, 9.0)])
def test_across_the_thickness_a_fence_is_set_to_the_nearest_half_millimetre_to_the_middle(t, fence):
    """Nobody sets 8.8 on a fence marked in halves; half a step rounds up. Common practice, no source."""
    rod = rod_of(job(cabinet(), thickness=t))
    jig = [s for s in rod.setups if s.tool == "dowel jig"]
    assert {s.fence.mm for s in jig} == {fence}
    assert len({s.fence.id for s in jig}) == 1


def test_dowels_run_40_then_every_96_and_stop_12_short_of_the_back_groove():
    """Common practice: 40, 136, 232, and 280 where a groove begins at 296; the same on side and shelf."""
    rod = rod_of(job(cabinet()))
    for setup in rod.setups:
        if setup.tool == "dowel jig":
            assert setup.stop == (40.0, 136.0, 232.0, 280.0)


def test_a_groove_for_a_back_leaves_half_a_millimetre_each_way():
    """Common practice, 0.5 to 1 mm: a back 600 wide inside goes 6 into each groove less 0.5."""
    back = rod_of(job(cabinet())).cabinets[0].part["back"]
    assert back.size[0] == pytest.approx(720 - 2 * 17.6 + 2 * 5.5)
    assert back.size[1] == pytest.approx(600 - 2 * 17.6 + 2 * 5.5)


def test_pin_rows_stand_37_from_the_front_on_a_32_grid():
    """5 mm bores, 32 apart, 37 back from the front: common trade practice, not a standard."""
    side = rod_of(job(cabinet())).cabinets[0].part["left side"]
    pins = [f for f in side.features if f.role == "shelf_pin"]
    assert {f.diameter for f in pins} == {5.0}
    front = sorted({720 - f.at[0] for f in pins if f.at[1] == 37.0})
    assert front
    assert {round((b - a) % 32, 6) for a, b in pairwise(front)} == {0.0}
