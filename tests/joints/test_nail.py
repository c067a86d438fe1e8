"""Nailed and glued: nothing is machined. Common practice without a published source."""

import pytest

from rodwork.model.job import CannotBuild
from rodwork.setout.proof import prove
from tests.building import back, cabinet, job, recipe, rod_of
from tests.joints.runs import planned, run


@pytest.mark.parametrize(("board", "nail", "into"), [
    (6.0, "1.2x16", 10.0), (12.0, "1.6x30", 18.0), (15.0, "1.8x40", 25.0), (18.0, "2x50", 32.0), (25.0, "2.6x65", 40.0),
])  # fmt: skip
def test_a_nail_goes_on_by_about_one_and_a_half_times_what_it_passes(board, nail, into):
    one = planned("nail", run(host_thickness=board))[0]
    assert one.hardware[0].item == f"nail {nail}"
    assert one.length - board == into
    assert 1.3 <= into / board <= 1.8


def test_nothing_is_machined_and_nothing_is_set():
    rod = rod_of(job(cabinet(corner_joint=recipe("nail"), shelf_joint=recipe("nail"), back=None, loose_shelves=(0, 0))))
    assert prove(rod) == ()
    assert not any(p.features for p in rod.cabinets[0].parts)
    assert {s.tool.split(",")[0] for s in rod.setups} == {"saw"}
    assert all(f.law == "none" for j in rod.cabinets[0].joints for f in j.fixings)


def test_they_stand_at_the_shops_pitch_and_are_counted():
    rod = rod_of(job(cabinet(corner_joint=recipe("nail"))))
    joint = next(j for j in rod.cabinets[0].joints if j.id == "left side / top")
    assert [round(f.at[1], 1) for f in joint.fixings] == [40.0, 136.0, 232.0, 283.0]
    assert [h.item for f in joint.fixings for h in f.hardware] == ["nail 2x50"] * 4


def test_a_planted_back_can_be_nailed():
    rod = rod_of(job(cabinet(back=back("planted", joint=recipe("nail")))))
    assert prove(rod) == ()
    nails = [f for j in rod.cabinets[0].joints if "back" in j.contact.place for f in j.fixings]
    assert {f.hardware[0].item for f in nails} == {"nail 1.2x16"}


def test_a_shelf_is_not_nailed_through_a_divider_that_has_a_shelf_on_its_other_face():
    with pytest.raises(CannotBuild, match="another shelf stands on the other face of the divider"):
        rod_of(job(cabinet(bays=("rest", "rest"), width_mm=900.0, shelf_joint=recipe("nail"))))


def test_one_too_short_is_refused_with_the_length_that_would_do():
    with pytest.raises(CannotBuild, match=r"only 2.4 mm into the second board") as refused:
        planned("nail", run(), size="1.4x20")
    assert "at least 27.6 mm" in refused.value.mend


def test_a_board_in_a_channel_is_refused():
    with pytest.raises(CannotBuild, match="channel"):
        planned("nail", run(reach=6.0))


def test_without_glue_it_says_no_glue():
    rod = rod_of(job(cabinet(corner_joint=recipe(("nail", {"glue": False})))))
    assert not next(j for j in rod.cabinets[0].joints if j.id == "left side / top").glued


def test_a_cabinet_of_nails_alone_has_a_page_for_every_kind_of_joint_with_nothing_to_set():
    from rodwork.documents.opened_joint import opened_joint_pages

    pages = opened_joint_pages(rod_of(job(cabinet(corner_joint=recipe("nail"), shelf_joint=recipe("nail"), back=None))))
    assert {p.right for p in pages} == {"nothing to set"}
    assert any("SHELF" in p.title for p in pages)
    assert any("TOP" in p.title for p in pages)
