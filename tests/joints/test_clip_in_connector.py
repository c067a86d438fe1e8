"""Clip-in connectors: the slot of the quarter-turn connector, no bore, a straight run-in."""

from tests.building import cabinet, job, recipe, rod_of
from tests.joints.runs import kind, planned, run

NAME = "clip-in connector"


def test_nothing_is_bored_and_nothing_shows():
    for one in planned(NAME, run()):
        assert one.others == ()
        assert {v.cut.kind for v in one.voids} == {"undercut"}
    assert kind(NAME).nature.shows == ""


def test_it_goes_straight_in_for_as_long_as_the_slot_is_deep():
    for one in planned(NAME, run(), depth_mm=12.0):
        assert [(m.push, m.mm) for m in one.moves] == [((0.0, 0.0, -1.0), 12.0)]


def test_glue_is_the_makers_choice():
    for glue in (True, False):
        c = rod_of(job(cabinet(corner_joint=recipe((NAME, {"glue": glue}))))).cabinets[0]
        assert {j.glued for j in c.joints if j.contact.place == "corner"} == {glue}


def test_the_slots_of_both_boards_take_the_same_disc_and_fence():
    rod = rod_of(job(cabinet(corner_joint=recipe(NAME), shelf_joint=recipe(NAME))))
    fences = {s.fence.id for s in rod.setups if s.tool == "undercut slot jointer"}
    assert len(fences) == 1
