"""Worktops: heights and depths of the trade, lengths and joints, cut-outs, all set out and proven."""

import pytest

from rodwork.carcass.in_lengths import joints
from rodwork.documents.boards import board_pages
from rodwork.documents.drawing import Text
from rodwork.documents.machining_drawing import machining_drawing
from rodwork.documents.settings_list import settings_pages
from rodwork.documents.solids import part_mesh, volume_mm3
from rodwork.job.faults import JobFaults
from rodwork.model.feature import Cutout
from rodwork.pipeline import set_out
from tests.runs.run_samples import boards_of, job_text, reach, rod_of

TOP = "above_floor = 150\nof = ['bench', 'bench', 'sink']\nworktop = { board = 'top40', joint = 'edge_to_edge'%s }\n"
SINK = ", cut_outs = [{ for = 'sink', over = 3, width = 560, depth = 440, radius = 15 }]"


def test_the_height_and_depth_of_the_trade():
    """150 + 720 + 40 = 910 above the floor; a carcass of 560 under a top of 600 (common practice)."""
    (top,) = boards_of(rod_of(TOP % ""), "worktop")
    assert reach(top, 2) == (870, 910)
    assert top.size[1] == 600


def test_it_stands_over_free_ends_and_stops_short_of_walls():
    (free,) = boards_of(rod_of(TOP % ", ends = [10, 25]"), "worktop")
    assert reach(free, 0) == (-10, 2025)
    walled = rod_of("length = 2000\n" + TOP % "")
    assert reach(boards_of(walled, "worktop")[0], 0) == (2, 1998)


def test_its_depth_may_be_said_and_services_want_room_behind():
    deeper = rod_of("behind = 45\n" + TOP % "")
    assert boards_of(deeper, "worktop")[0].size[1] == 645
    said = rod_of("behind = 20\n" + TOP % ", depth = 600")
    assert reach(boards_of(said, "worktop")[0], 1) == (-20, 580)


def test_a_tall_unit_parts_it_and_so_does_a_gap_that_is_left_open():
    rod = rod_of(
        "of = ['bench', 'larder', 'bench', { gap = 600, for = 'kiln', worktop = false }, 'bench']\n"
        "worktop = { board = 'top40' }\n"
    )
    assert [reach(p, 0) for p in boards_of(rod, "worktop")] == [(-10, 600), (1200, 1800), (2400, 3010)]
    assert rod.cabinet["north"].joints == ()


LONG = (
    "above_floor = 150\nlength = 2900\n"
    "of = [{ infill = 'rest' }, 'bench', 'sink', { gap = 602, for = 'drier' }, 'bench', { infill = 'rest' }]\n"
    "worktop = { board = 'top40', joint = 'edge_to_edge', cut_outs = [{ for = 'sink', over = 3, width = 560, "
    "depth = 440 }] }\n"
)


def test_its_joint_keeps_off_the_gap_and_300_from_the_cut_out():
    run = rod_of(LONG).runs[0]
    (x,), (cut,) = run.joints, run.cut_outs
    gap = next(s for s in run.standings if s.stands_as == "gap")
    assert not gap.x0 < x < gap.x1
    assert x <= cut.x0 - 300 or x >= cut.x1 + 300


def test_the_joint_is_machined_in_both_lengths_from_the_front_and_the_upper_side():
    rod = rod_of(LONG)
    entry = rod.cabinet["north"]
    (joint,) = entry.joints
    assert joint.parts == ("worktop 1", "worktop 2")
    assert joint.contact.place == "edge to edge"
    assert joint.contact.length == pytest.approx(600)
    assert entry.proof.largest_gap_mm == 0
    slots = [f for p in entry.parts for f in p.features if f.kind == "arc_slot"]
    assert len(slots) == 2 * len(joint.fixings) > 4
    words = {s.registers_on for s in rod.setups if any(d.cabinet == "north" and d.feature for d in s.features)}
    assert words == {"upper side", "front edge"}


@pytest.mark.parametrize("family", ["biscuit", "loose tenon", "dowel", "pocket screw"])
def test_every_family_that_joins_edge_to_edge_joins_a_worktop(family):
    rod = rod_of(LONG.replace("'edge_to_edge'", "'own'"), CABINETS_AND % family)
    assert [f.message for f in rod.findings if f.code == "proof"] == []
    assert rod.cabinet["north"].joints[0].fixings


CABINETS_AND = """
[joints.own]
use = [{ family = "%s" }]

[cabinets.bench]
count = 3
width = 600

[cabinets.sink]
width = 800
"""


def test_a_cut_out_goes_right_through_with_its_corners_rounded_and_its_numbers_from_left_and_front():
    rod = rod_of(TOP % SINK)
    (top,) = boards_of(rod, "worktop")
    (cut,) = [f for f in top.features if isinstance(f, Cutout)]
    # the middle of the sink unit is at 1600; the top begins 10 left of the run: 1610 - 280 to 1610 + 280
    assert cut.polygon == ((1330, 60), (1890, 60), (1890, 500), (1330, 500))
    solid = top.size[0] * top.size[1] * top.size[2]
    rounded = (4 - 3.141592653589793) * 15**2
    assert solid - volume_mm3(part_mesh(top, 64)) == pytest.approx((560 * 440 - rounded) * 40, rel=1e-4)
    (setup,) = [s for s in rod.setups if s.tool == "router and template"]
    (done,) = setup.features
    assert (done.along.mm, done.along.end_mm, done.across.mm, done.across.end_mm) == (1330, 1890, 60, 500)
    assert setup.depth is None


def test_a_joint_stands_where_it_is_asked_for():
    rod = rod_of(LONG.replace("cut_outs", "joints_at = [700], cut_outs"))
    assert rod.runs[0].joints == (700,)
    assert reach(boards_of(rod, "worktop")[0], 0) == (2, 700)


def test_lengths_are_even_where_nothing_is_barred_and_move_no_further_than_they_must():
    assert joints((0, 2000), 2420, []) == ()
    assert joints((0, 3000), 2420, []) == (1500,)
    assert joints((0, 3000), 2420, [(1400, 1700)]) == (1400,)
    assert joints((0, 6000), 2420, []) == (2000, 4000)
    assert joints((0, 3000), 2420, [(500, 2600)]) == (500, 2600)  # two joints where one would leave too long a piece
    assert joints((0, 3000), 2420, [(100, 2900)]) is None


def test_on_paper_a_cut_out_has_both_its_walls_and_is_set_by_its_template():
    rod = rod_of(TOP % SINK)
    (page,) = [p for p in board_pages(rod) if "WORKTOP" in p.title]
    texts = {s.text for s in page.shapes if isinstance(s, Text)}
    assert {"1330", "1890", "60", "500"} <= texts
    settings = {s.text for p in settings_pages(rod) for s in p.shapes if isinstance(s, Text)}
    assert "by the template" in settings


def test_the_machines_drawing_has_a_cut_out_right_through():
    (top,) = boards_of(rod_of(TOP % SINK), "worktop")
    names = [layer.name for layer in machining_drawing(top).layers]
    assert "UPPER_SIDE_CUTOUT_440_THROUGH" in names


def test_a_worktop_wider_than_its_sheet_is_told_of_before_it_is_sawn():
    """Lengths are joined, widths are not: 1250 of a 1220 sheet comes out of none."""
    rod = rod_of(TOP % ", depth = 1250")
    assert [f.severity for f in rod.findings if f.code == "larger-than-sheet"] == ["fault"]
    assert not [f for f in rod_of(TOP % "").findings if f.code == "larger-than-sheet"]


def test_a_recipe_that_only_a_worktop_names_is_not_idle():
    text = job_text(TOP % "").replace('joint = "dowels"\n', "").replace(DOWELS, "")
    assert "dowels" not in text
    assert set_out(text, "runs.toml").cabinet["north"]
    with pytest.raises(JobFaults, match="no cabinet names a recipe"):
        set_out(text.replace(", joint = 'edge_to_edge'", ""), "runs.toml")


DOWELS = '[joints.dowels]\nuse = [{ family = "dowel" }]\n'
