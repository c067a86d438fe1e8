"""Laws of the solids: no two boards of an assembled cabinet want the same place, and every dowel goes home."""

from hypothesis import HealthCheck, given, settings

from tests.cabinets import built
from tests.geometry.overlap import dowels_that_do_not_go_home, overlaps

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
def test_every_dowel_goes_home(b):
    assert dowels_that_do_not_go_home(b.rod.cabinets[0]) == []
