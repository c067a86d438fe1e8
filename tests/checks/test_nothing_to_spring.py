"""Rings that clip together all round. Common practice, no source; which joints make a ring is geometry."""

from tests.building import cabinet, job, recipe, rod_of
from tests.checks.own import BOLT, mortise, own
from tests.checks.shop import told

CODE = "nothing-to-spring"
CLIPS = mortise(glued=False)


def made(**changes):
    return rod_of(job(cabinet(**changes)))


def test_four_corners_close_one_ring():
    (found,) = told(CODE, made(corner_joint=own(CLIPS)))
    assert found.severity == "fault"
    assert len([w for w in found.where if " / " in w]) == 1


def test_shelves_that_clip_between_sides_that_do_not_close_none():
    """A side, a shelf, a side: a row and no ring. A second shelf makes one."""
    assert told(CODE, made(shelf_joint=own(CLIPS))) == []
    assert len(told(CODE, made(shelf_joint=own(CLIPS), openings=("rest",) * 3))) == 1


def test_one_corner_that_is_drawn_up_from_outside_opens_the_ring():
    assert told(CODE, made(corner_joint=own(BOLT), shelf_joint=own(CLIPS))) == []


def test_glue_and_clamps_draw_it_up_and_so_do_screws_beside_it():
    assert told(CODE, made(corner_joint=own(mortise(glued=True)))) == []
    assert told(CODE, made(corner_joint=recipe("dowel"))) == []


def test_every_ring_is_told_with_the_joint_that_closes_it():
    (found,) = told(CODE, made(corner_joint=own(CLIPS), shelf_joint=own(CLIPS)))
    assert len([w for w in found.where if " / " in w]) == 2
