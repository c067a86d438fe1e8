"""The top over the sides and the bottom between them: each corner registers as its own kind of corner does."""

import pytest

from rodwork.model.job import CabinetEdging, CannotBuild
from rodwork.setout.proof import prove
from tests.building import cabinet, job, recipe, rod_of
from tests.geometry.overlap import overlaps


def box(**changes):
    return rod_of(job(cabinet(sides="under the top", **changes)))


def test_sizes_are_those_of_each_kind_of_corner():
    """600 x 720 of 17.6: the top 600, the bottom 564.8 between the sides, the sides 702.4 under the top."""
    part = box().cabinets[0].part
    assert part["top"].size[0] == pytest.approx(600.0)
    assert part["bottom"].size[0] == pytest.approx(564.8)
    assert part["left side"].size[0] == part["right side"].size[0] == pytest.approx(702.4)
    assert box().cabinets[0].asked.corners == "top through"


def test_at_the_top_the_side_stands_against_the_top_and_at_the_bottom_it_is_the_host():
    joints = {j.id: j for j in box().cabinets[0].joints if j.contact.place == "corner"}
    assert set(joints) == {"top / left side", "top / right side", "left side / bottom", "right side / bottom"}
    top, bottom = joints["top / left side"].contact, joints["left side / bottom"].contact
    # face side down, a top's right end is the cabinet's left; the outside of a side is its back side
    assert (top.host_register.across_from, top.guest_register.across_from) == ("right_end", "back_side")
    assert (bottom.host_register.across_from, bottom.guest_register.across_from) == ("right_end", "back_side")


@pytest.mark.parametrize("stopped", ["stopped", "through"])
def test_tongues_notch_the_side_at_the_top_only(stopped):
    rod = box(corner_joint=recipe(("tongue", {"front": stopped})))
    part = rod.cabinets[0].part
    assert part["left side"].size[0] == pytest.approx(702.4 + 6.0)
    corners = {"left side": part["left side"].outline[0], "right side": part["right side"].outline[-1]}
    assert part["left side"].outline[0][0] == pytest.approx(6.0)  # a left side's x runs down from its top end
    assert len(part["left side"].outline) == len(part["right side"].outline) == 6
    assert len(part["bottom"].outline) == 8
    assert len(part["top"].outline) == 4
    assert corners
    assert prove(rod) == ()
    assert overlaps(rod.cabinets[0]) == []


def test_only_the_ends_of_the_top_that_show_are_edged():
    on = CabinetEdging(edging="birch", on=("fronts", "top and bottom ends", "side bottoms"))
    part = box(edging=on).cabinets[0].part
    assert (part["top"].edging.left_end, part["top"].edging.right_end) == (1.0, 1.0)
    assert (part["bottom"].edging.left_end, part["bottom"].edging.right_end) == (0.0, 0.0)
    with pytest.raises(CannotBuild, match="side tops butt against the other boards"):
        box(edging=CabinetEdging(edging="birch", on=("side tops",)))
