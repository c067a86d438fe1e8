"""One-piece carcass screws: one stepped hole through both boards. Common practice without a published source."""

from dataclasses import replace

import pytest

from rodwork.model.job import CannotBuild
from tests.building import cabinet, job, recipe, rod_of
from tests.joints.runs import planned, run


@pytest.mark.parametrize(
    ("board", "screw", "holds"),
    [(15.0, "7x50", 35.0), (18.0, "7x50", 32.0), (19.0, "7x50", 31.0), (25.0, "7x60", 35.0)],
)
def test_7_x_50_in_boards_of_every_day_leaves_at_least_31_of_thread(board, screw, holds):
    one = planned("carcass screw", run(host_thickness=board))[0]
    assert one.hardware[0].item == f"carcass screw {screw}"
    assert one.guest.cut.depth == holds >= 31.0


def test_the_hole_is_stepped_5_7_and_10_on_one_axis():
    one = planned("carcass screw", run())[0]
    assert (one.guest.cut.diameter, one.host.cut.diameter, one.host.cut.countersink.diameter) == (5.0, 7.0, 10.0)
    assert one.host.cut.at[:2] == one.guest.cut.at[:2]
    assert one.host.cut.into == one.guest.cut.into
    assert one.host.cut.through
    assert one.host.cutter == "stepped bit 5/7/10"


def test_its_thread_fills_its_hole_so_it_locates_as_well_as_draws_up():
    one = planned("carcass screw", run())[0]
    assert (one.duty, one.play.along, one.play.across) == ("both", 0.0, 0.0)


def test_it_is_bored_in_place_unless_it_is_to_be_packed_flat():
    assert {s.guest.cut.stage for s in planned("carcass screw", run())} == {"in place"}
    assert {s.guest.cut.stage for s in planned("carcass screw", run(), pilot="beforehand")} == {"after edging"}


def test_bored_beforehand_both_halves_are_set_at_one_fence():
    rod = rod_of(job(cabinet(corner_joint=recipe(("carcass screw", {"pilot": "beforehand"})))))
    c = rod.cabinets[0]
    read = {e.feature: e for s in rod.setups for e in s.features if e.feature}
    joint = next(j for j in c.joints if j.id == "left side / top")
    for fixing in joint.fixings:
        host, guest = (read[h.feature] for h in fixing.halves)
        assert host.across.mm == guest.across.mm == 9.0
        assert (host.across.word, guest.across.word) == ("top end", "outside")


def test_none_stands_nearer_than_40_to_the_end():
    row = [s.u for s in planned("carcass screw", run(to_groove=False, run_to=320.0), end_mm=None)]
    assert min(row) >= 40.0
    assert max(row) <= 320.0 - 40.0


def test_settings_that_make_no_stepped_hole_are_refused():
    for wrong in ({"pilot_diameter_mm": 7.0}, {"head_diameter_mm": 7.0}, {"size": "4x50"}):
        with pytest.raises(CannotBuild, match="has no steps"):
            planned("carcass screw", run(), **wrong)


def test_one_too_short_for_the_board_is_refused_with_the_length_that_would_do():
    with pytest.raises(CannotBuild, match=r"only 12.4 mm into the edge") as refused:
        planned("carcass screw", run(), size="7x30")
    assert "at least 37.6 mm" in refused.value.mend


def test_it_can_be_driven_through_the_bottom_of_a_housing():
    one = planned("carcass screw", replace(run(place="fixed shelf"), reach=6.0))[0]
    assert one.host.cut.depth == pytest.approx(11.6)
    assert one.guest.cut.at[2] == -6.0


def test_an_edge_of_less_than_16_mm_is_watched():
    """7 mm in a 15 mm edge leaves 4 each side before the thread swells it: common practice, no source."""
    from rodwork.checks.registry import run_checks

    def watched(t):
        rod = rod_of(job(cabinet(corner_joint=recipe("carcass screw"), back=None, openings=("rest",)), thickness=t))
        return [f.severity for f in run_checks(rod) if f.code == "cannot-be-made" and "screw" in f.message]

    assert watched(15.0) == ["warning"]
    assert watched(16.0) == []


@pytest.mark.parametrize(
    ("length", "wall", "last"),
    [
        (296.0, 296.0, 256.0),  # a shelf that ends at the groove: 40 from its own end
        (320.0, 296.0, 280.0),  # a top that goes past it by 24: 40 from its end too, which is 16 from the wall
        (350.0, 296.0, 280.5),  # by 54: 12 of wood before the wall and half a screw of 7 are more
    ],
)
def test_the_last_keeps_from_the_end_of_its_board_at_a_back_groove_too(length, wall, last):
    """40, or the edge splits (common practice, no source): chipboard bursts nearer than 25 to a corner."""
    assert planned("carcass screw", run(length=length, run_to=wall))[-1].u == last
