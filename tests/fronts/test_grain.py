"""Grain across fronts: which way it runs, and fronts of one bay sawn out of one piece so that the figure runs on."""

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import cutting
from rodwork.setout.proof import prove
from tests.fronts.front_samples import box_of
from tests.fronts.test_bays import BOX, bench


def fronts(words):
    rod = bench(f"drawers = {{ bays = [1], number = 3, {BOX}, handle = 96{words} }}")
    return rod, [rod.cabinets[0].part[f"drawer {n} front"] for n in (1, 2, 3)]


@pytest.mark.parametrize(("grain", "axis"), [("across", 0), ("up", 2)])
def test_the_grain_runs_as_it_is_asked(grain, axis):
    rod, parts = fronts(f', grain = "{grain}"')
    for part in parts:
        along = part.pose.direction_to_cabinet((1.0, 0.0, 0.0))
        assert abs(along[axis]) == 1.0
        low, high = box_of(part)
        assert part.size[0] == pytest.approx(high[axis] - low[axis])
    assert prove(rod) == ()


@pytest.mark.parametrize(("grain", "run"), [("across", "across"), ("up", "along")])
def test_matched_fronts_are_handed_to_the_cutting_plan_in_order(grain, run):
    rod, parts = fronts(f', grain = "{grain}", match = true')
    (matched,) = rod.sawing.matched
    assert matched.marks == tuple(p.marks[0] for p in parts)  # from the bottom up
    assert matched.run == run
    plan = cutting(rod, steps=20)
    on = [{m for p in sheet.sawn for m in p.marks} for board in plan.boards for sheet in board.sheets]
    assert any(set(matched.marks) <= marks for marks in on)  # all out of one sheet


def test_fronts_that_are_not_to_match_are_left_to_themselves():
    assert fronts("")[0].sawing.matched == ()


@pytest.mark.parametrize(("words", "says"), [(', grain = "sideways"', "grain"), (", match = 1", "match")])
def test_what_is_wrong_is_refused(words, says):
    with pytest.raises(JobFaults) as refused:
        fronts(words)
    assert any(says in f.what for f in refused.value.faults)
