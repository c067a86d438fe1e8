"""Laws of the solids: no two boards of an assembled cabinet want the same place, and every connector goes home and none rattles."""

import pytest
from hypothesis import HealthCheck, given, settings

from rodwork.joints.registry import joint_kinds
from rodwork.setout.proof import prove
from tests.building import edge_to_edge, recipe
from tests.cabinets import built
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps, too_loose

FEW = settings(
    max_examples=40, deadline=None, derandomize=True,
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)  # fmt: skip


@FEW
@given(built())
def test_no_two_boards_of_a_cabinet_overlap(b):
    assert overlaps(b.rod.cabinets[0]) == []


@FEW
@given(built())
def test_every_connector_goes_home(b):
    assert connectors_that_do_not_go_home(b.rod.cabinets[0]) == []


@FEW
@given(built())
def test_nothing_has_more_room_than_its_declared_play(b):
    assert too_loose(b.rod.cabinets[0]) == []


@pytest.mark.parametrize(
    "kind", [k for k in joint_kinds().values() if "edge to edge" in k.places], ids=lambda k: k.name
)
@pytest.mark.parametrize("thickness", [12.0, 15.0, 17.6, 25.4, 30.0])
def test_two_boards_edge_to_edge_go_home_too(kind, thickness):
    rod = edge_to_edge(recipe(kind.name), thickness)
    assert prove(rod) == ()
    assert overlaps(rod.cabinets[0]) == []
    assert connectors_that_do_not_go_home(rod.cabinets[0]) == []
    assert too_loose(rod.cabinets[0]) == []
