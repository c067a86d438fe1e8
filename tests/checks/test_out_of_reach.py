"""Room for a driver or a key in front of what is tightened. Geometry; the room each wants: common practice, no source."""

from dataclasses import replace

import pytest

from tests.building import cabinet, job, recipe, rod_of
from tests.checks.own import BOLT, own
from tests.checks.shop import told
from tests.fronts.front_samples import drawers

CODE = "out-of-reach"


def bolted(opening, **changes):
    return rod_of(job(cabinet(corner_joint=own(BOLT), openings=(opening, "rest"), loose_shelves=(0, 0), **changes)))


@pytest.mark.parametrize(
    ("opening", "severity"), [(60.0, None), (59.5, "warning"), (45.0, "warning"), (30.0, "warning"), (29.5, "fault")]
)
def test_a_key_wants_60_and_does_not_come_in_under_30(opening, severity):
    """The shelf stands exactly an opening above the inside of the bottom, where the nuts are."""
    found = [f for f in told(CODE, bolted(opening)) if "fixed shelf" in f.message]
    assert [f.severity for f in found] == ([severity] if severity else [])


def test_it_names_the_board_that_is_in_the_way_and_how_far():
    (found,) = told(CODE, bolted(45.0))
    assert found.message.startswith(
        "Bottom, inside: the fixed shelf stands 45 from the bolt and barrel nut access bore"
    )
    assert found.where[0] == "bottom"
    assert len(found.where) == 1 + 8  # four nuts at either end: the runs stop at the back groove


def test_screws_from_outside_have_nothing_in_their_way():
    assert told(CODE, rod_of(job(cabinet(corner_joint=recipe("screw"), shelf_joint=recipe("screw"))))) == []


def test_a_driver_wants_150_where_a_screw_is_driven_from_inside_a_narrow_bay():
    """A shelf of the right bay, screwed through the divider from a left bay of 100."""
    rod = rod_of(job(cabinet(bays=(100.0, "rest"), width_mm=700.0, loose_shelves=(0, 0))))
    (c,) = rod.cabinets
    screws = rod_of(job(cabinet(corner_joint=recipe("screw")))).cabinets[0]
    bore = next(f for f in screws.part["left side"].features if f.role == "clearance")
    joint = next(j for j in c.joints if j.parts == ("divider", "fixed shelf, bay 2") or (
        "divider" in j.parts[0] and j.contact.place == "fixed shelf" and j.contact.out[0] > 0))  # fmt: skip
    divider = c.part[joint.parts[0]]
    through = replace(bore, id="s", joint=joint.id, at=(300.0, 100.0, divider.size[2]), into=(0.0, 0.0, -1.0))
    if divider.pose.direction_to_cabinet((0.0, 0.0, 1.0))[0] > 0:  # the left bay looks at its other face
        through = replace(through, at=(300.0, 100.0, 0.0), into=(0.0, 0.0, 1.0))
    fixing = replace(
        joint.fixings[0],
        law="line",
        halves=(replace(joint.fixings[0].halves[0], feature="s"), joint.fixings[0].halves[1]),
    )
    parts = tuple(replace(p, features=(through,)) if p.id == divider.id else p for p in c.parts)
    joints = tuple(replace(j, fixings=(fixing,)) if j.id == joint.id else replace(j, fixings=()) for j in c.joints)
    (found,) = told(CODE, replace(rod, cabinets=(replace(c, parts=parts, joints=joints),)))
    assert found.severity == "warning"
    assert "a driver wants 150" in found.message
    assert " 100 from " in found.message


def test_what_is_put_in_last_is_not_in_the_way():
    with_loose = rod_of(job(cabinet(corner_joint=own(BOLT), openings=("rest", "rest"), loose_shelves=(1, 1))))
    assert told(CODE, with_loose) == []


def test_a_drawer_box_is_screwed_together_on_the_bench_and_not_between_the_sides():
    """Its sides stand 13 from those of the cabinet, where no driver comes; nor need it."""
    made = cabinet(kind="base", depth_mm=560.0, openings=("rest",), loose_shelves=(0,),
                   drawers=replace(drawers(2), joint=recipe("screw")))  # fmt: skip
    assert told(CODE, rod_of(job(made))) == []
