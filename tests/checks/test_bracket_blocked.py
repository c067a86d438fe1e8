"""Something where a hanging bracket stands. Common practice, no source; the sizes are invented."""

from dataclasses import replace

from rodwork.model.bracket import BracketSheet
from rodwork.model.demand import Hanging
from tests.building import back, rod
from tests.checks.shop import severities, told
from tests.fronts.front_samples import drawers

CODE = "bracket-blocked"
HOOKED = Hanging(style="brackets", wall=None, fixings=None, from_top_mm=None, bracket=BracketSheet())
VOID = back("grooved in the sides", void_mm=18.0)


def hung(**changes):
    return rod(**{"hanging": HOOKED, "back": VOID, "openings": ("rest",), "loose_shelves": (0,), **changes})


def test_nothing_is_said_where_the_corners_are_free():
    assert told(CODE, hung()) == []
    assert told(CODE, rod()) == []


def test_a_shelf_that_reaches_into_the_corner_is_a_fault():
    """The body is 60 high and 2 below the top: its foot stands 79.6 below the top of the cabinet."""
    assert severities(CODE, hung(openings=("rest", 83.0), loose_shelves=(0, 0))) == []
    made = hung(loose_shelves=(1,))
    shelf = made.cabinets[0].part["loose shelf"]

    def at(z):
        moved = replace(shelf, pose=replace(shelf.pose, origin=(*shelf.pose.origin[:2], z)))
        cabinet = made.cabinets[0]
        parts = tuple(moved if p.id == shelf.id else p for p in cabinet.parts)
        return told(CODE, replace(made, cabinets=(replace(cabinet, parts=parts),)))

    assert at(720.0 - 79.6 - 17.7) == []
    (found,) = at(720.0 - 79.6 - 17.5)
    assert (found.severity, found.where) == ("fault", ("loose shelf",))
    assert "back 45 of the top 84.6 free" in found.mend


def test_a_drawer_right_under_the_top_is_a_fault():
    found = told(CODE, hung(drawers=drawers(1), depth_mm=400.0))
    assert found
    assert all(id.startswith("drawer") for f in found for id in f.where)
