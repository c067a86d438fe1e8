"""Openings that are given by an appliance: in a cabinet and in a run, by the figures of its sheet."""

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out
from rodwork.setout.proof import prove
from tests.texts import HEAD

OVEN = "[appliances.oven]\nwidth = 556\nheight = 590\ndepth = 545\nbehind = 15\n"
HOUSING = (
    '[cabinets.housing]\nkind = "tall"\nheight = 2100\ndepth = 580\nboard = "birch18"\n'
    'back = { board = "birch6", style = "planted" }\nopenings = [500, "rest", "rest"]\n'
    'appliance = { of = "oven", opening = 2 }\n'
)


def housing(changes=(), oven: str = OVEN, cabinet: str = HOUSING):
    for old, new in changes:
        assert old in cabinet + oven
        cabinet, oven = cabinet.replace(old, new), oven.replace(old, new)
    return set_out(HEAD + oven + cabinet, "job.toml")


def test_its_opening_is_as_high_and_as_wide_as_the_appliance_and_what_its_sheet_wants():
    cabinet = housing().cabinets[0]
    opening = cabinet.asked.openings[1]
    assert (opening.comes_to, opening.width) == (594, 560)
    assert cabinet.size[0] == pytest.approx(560 + 2 * 17.6)


def test_the_figures_of_the_sheet_go_before_ours():
    cabinet = housing([("behind = 15", "behind = 15\nbeside = 2\nabove = 10")]).cabinets[0]
    opening = cabinet.asked.openings[1]
    assert (opening.comes_to, opening.width) == (600, 558)


def test_the_back_is_cut_out_behind_it_and_proven():
    rod = housing()
    back = rod.cabinets[0].part["back"]
    (cut,) = [f for f in back.features if f.kind == "cutout"]
    corners = [back.pose.to_cabinet((x, y, 0.0)) for x, y in cut.polygon]
    across, up = ({round(c[k], 3) for c in corners} for k in (0, 2))
    assert across == {37.6, 557.6}  # 20 inside the sides, which are 17.6 thick
    assert up == {17.6 + 500 + 17.6 + 20, 17.6 + 500 + 17.6 + 594 - 20}
    assert prove(rod) == ()


TWO = [
    ('appliance = { of = "oven", opening = 2 }', 'appliance = [{ of = "oven", opening = 2 }, { of = "micro", opening = 3 }]'),
    ('openings = [500, "rest", "rest"]', 'openings = [500, "rest", "rest", "rest"]'),
    ("behind = 15\n", "behind = 15\n\n[appliances.micro]\nwidth = 560\nheight = 380\ndepth = 400\nvented = false\n\n"),
]  # fmt: skip


def test_each_of_two_has_its_opening_and_the_wider_one_gives_the_width():
    rod = housing(TWO)
    cabinet = rod.cabinets[0]
    assert [o.comes_to for o in cabinet.asked.openings[:3]] == [500, 594, 384]
    assert cabinet.size[0] == pytest.approx(564 + 2 * 17.6)
    assert len([f for f in cabinet.part["back"].features if f.kind == "cutout"]) == 1
    assert prove(rod) == ()


def test_two_in_one_opening_are_refused_and_each_is_checked_by_itself():
    for old, new, says in (
        ("opening = 3", "opening = 2", "two appliances stand in opening 2"),
        ('of = "micro"', 'of = "mirco"', 'Did you mean "micro"?'),
        ("depth = 400", "depth = 620", "the micro wants 620"),
    ):
        with pytest.raises(JobFaults) as problem:
            housing([*TWO, (old, new)])
        assert says in str(problem.value)


def test_one_that_is_not_vented_leaves_the_back_whole_and_has_less_depth():
    with pytest.raises(JobFaults) as problem:
        housing([("behind = 15", "behind = 30\nvented = false")])
    assert "a depth of 574.2, and the oven wants 575" in str(problem.value)
    rod = housing([("behind = 15", "behind = 15\nvented = false")])
    assert not [f for f in rod.cabinets[0].part["back"].features if f.kind == "cutout"]


@pytest.mark.parametrize(
    ("changes", "say"),
    [
        ([("height = 2100", "height = 2100\nwidth = 590")], "Make the width of the cabinet 595.2 or more"),
        ([("depth = 580", "depth = 550")], "Make the depth of the cabinet 560 or more"),
        ([('of = "oven"', 'of = "ovne"')], 'Did you mean "oven"?'),
        ([("opening = 2", "opening = 4")], "there are 3"),
        ([("opening = 2", "opening = 1")], "a height of its own, 500"),
        ([("height = 2100", "height = 2100\ndividers = 1")], "has dividers"),
        ([("width = 556\n", "")], "has no width"),
        ([("width = 556", "width = -556")], "under 100 mm"),
        ([("width = 556", "width = nan")], "not a length"),
        ([("width = 556", "widht = 556")], "Did you mean width?"),
    ],
)
def test_what_it_does_not_go_into_is_refused_with_the_size_that_takes_it(changes, say):
    with pytest.raises(JobFaults) as problem:
        housing(changes)
    assert say in str(problem.value)


def test_one_opening_alone_must_be_high_enough():
    low = [('openings = [500, "rest", "rest"]\n', ""), (", opening = 2", "")]
    with pytest.raises(JobFaults) as problem:
        housing([*low, ("height = 2100", "height = 600")])
    assert "Make the height of the cabinet 629.2 or more" in str(problem.value)
    assert housing([*low, ("height = 2100", "height = 630")]).cabinets


def test_a_gap_of_a_run_is_as_wide_as_the_appliance_it_is_named_after():
    base = '[cabinets.base]\nkind = "base"\ncount = 2\nwidth = 500\nheight = 720\ndepth = 560\nboard = "birch18"\n'
    run = '[runs.wall]\nof = ["base", { gap = "oven" }, "base"]\n'
    rod = set_out(HEAD + OVEN + base + run, "job.toml")
    (gap,) = [s for s in rod.runs[0].standings if s.stands_as == "gap"]
    assert (gap.name, gap.x1 - gap.x0) == ("oven", 560)
    with pytest.raises(JobFaults) as problem:
        set_out(HEAD + OVEN + base + run.replace('"oven"', '"ovne"'), "job.toml")
    assert 'Did you mean "oven"?' in str(problem.value)
