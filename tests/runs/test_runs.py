"""Where the cabinets of a run stand, what the wall leaves, and the boards that go along it."""

import pytest

from rodwork.job.faults import JobFaults
from rodwork.model.plain import from_plain, to_plain
from rodwork.model.rod import Rod
from tests.runs.run_samples import boards_of, job_text, reach, rod_of

WHOLE = """
length = 2720
above_floor = 150
of = [{ infill = "rest" }, "bench", "sink", { gap = 602, for = "drier" }, "bench", { infill = "rest" }]
plinth = {}
worktop = { board = "top40", joint = "edge_to_edge", upstand = 60 }
"""


def test_what_the_wall_leaves_is_shared_by_the_infills():
    """2720 - 600 - 800 - 602 - 600 = 118: 59 each, worked by hand."""
    run = rod_of(WHOLE).runs[0]
    assert [(s.x0, s.x1) for s in run.standings] == [
        (0, 59), (59, 659), (659, 1459), (1459, 2061), (2061, 2661), (2661, 2720),
    ]  # fmt: skip
    assert run.stack.left == 118


def test_infills_at_walls_are_supplied_wider_to_be_scribed():
    left, right = boards_of(rod_of(WHOLE), "infill")
    assert left.size[1] == right.size[1] == 69
    assert reach(left, 0) == (-10, 59)
    assert reach(right, 0) == (2661, 2730)


def test_what_is_left_over_falls_at_the_other_end_than_it_starts_from():
    of = 'length = 2000\nof = ["bench", "bench"]\n'
    assert [s.x0 for s in rod_of(of).runs[0].standings] == [0, 600]
    assert [s.x0 for s in rod_of(of + 'starts = "right"').runs[0].standings] == [800, 1400]


def test_every_copy_stands_once_and_in_the_order_of_the_file():
    run = rod_of('of = ["bench", "glaze", "bench", "bench"]').runs[0]
    assert [s.copy for s in run.standings] == [1, 1, 2, 3]


def test_the_plinth_is_joined_under_a_cabinet_and_never_in_a_gap():
    rod = rod_of(WHOLE)
    run, pieces = rod.runs[0], boards_of(rod, "plinth board")
    assert [reach(p, 0) for p in pieces] == [(0, run.plinth_joints[0]), (run.plinth_joints[0], 2720)]
    assert all(
        any(s.stands_as == "cabinet" and s.x0 < x < s.x1 for s in run.standings) for x in run.plinth_joints
    )  # fmt: skip
    assert reach(pieces[0], 2) == (0, 145)
    assert reach(pieces[0], 1)[0] == 50


def test_end_panels_go_from_the_doors_to_the_wall_and_down_to_the_floor():
    rod = rod_of('above_floor = 150\nbehind = 45\nof = [{ panel = "birch18" }, "bench"]\n')
    (panel,) = boards_of(rod, "end panel")
    assert [reach(panel, axis) for axis in (0, 1, 2)] == [(0, 17.6), (0, 605), (0, 870)]
    assert rod.runs[0].standings[1].x0 == 17.6


def test_an_end_panel_of_wall_units_does_not_go_to_the_floor():
    rod = rod_of('above_floor = 1450\nof = ["glaze", { panel = "birch18" }]\n')
    assert reach(boards_of(rod, "end panel")[0], 2) == (1450, 2170)


def test_cornice_and_pelmet_have_a_return_at_each_free_end():
    rod = rod_of(
        'length = 1300\nwalls = "left"\nabove_floor = 1450\nof = [{ infill = 45 }, "glaze", "glaze"]\n'
        "cornice = { height = 60 }\npelmet = { height = 40 }\n"
    )
    strip, only = boards_of(rod, "cornice")
    assert [reach(strip, axis) for axis in (0, 1, 2)] == [(0, 1245), (0, 17.6), (2170, 2230)]
    assert [reach(only, axis) for axis in (0, 1, 2)] == [(1227.4, 1245), (17.6, 320), (2170, 2230)]
    assert [p.marks[0] for p in boards_of(rod, "pelmet")] == ["N1-PM", "N1-PMR1"]
    assert reach(boards_of(rod, "pelmet")[0], 2) == (1410, 1450)


def test_the_boards_of_a_run_are_an_entry_of_its_own_outside_every_box():
    rod = rod_of(WHOLE)
    entry = rod.cabinet["north"]
    assert entry.is_run
    assert entry not in rod.boxes
    assert not any(p.in_box for p in entry.parts)
    assert len({m for c in rod.cabinets for p in c.parts for m in p.marks}) == sum(
        len(p.marks) for c in rod.cabinets for p in c.parts
    )


def test_it_is_proven_with_all_its_settings_and_comes_back_from_its_data():
    rod = rod_of(WHOLE)
    assert [f.message for f in rod.findings if f.code == "proof"] == []
    assert from_plain(Rod, to_plain(rod)) == rod


SCREWED = "of = ['bench', 'bench', 'sink']\n"


def test_neighbours_are_screwed_through_a_low_and_a_high_bore_for_pins_that_both_have():
    rod = rod_of(SCREWED)
    pins = {round(f.at[0], 3) for f in rod.cabinet["bench"].part["right side"].features if f.role == "shelf_pin"}
    low, high = rod.runs[0].screws
    assert low.between == high.between == (1, 2)
    assert {low.height, high.height} <= pins
    assert (low.height, high.height) == (min(pins), max(pins))
    assert (low.front, low.by_pins) == (37, True)
    assert [(i.item, i.count) for i in rod.cabinet["north"].hardware] == [
        ("connecting screw with sleeve, for 35.2 mm", 2)
    ]


def test_neighbours_without_a_row_of_pins_are_told_of_and_screwed_where_it_is_said():
    assert rod_of(SCREWED).runs[0].not_connected == (2,)
    screws = rod_of(SCREWED + "screws = { heights = [620, 100] }").runs[0].screws
    assert [(s.between, s.height, s.by_pins) for s in screws] == [
        ((1, 2), 100, False), ((1, 2), 620, False), ((2, 3), 100, False), ((2, 3), 620, False),
    ]  # fmt: skip
    none = rod_of(SCREWED + 'screws = "none"').runs[0]
    assert (none.screws, none.not_connected) == ((), ())


REFUSED = {
    "of = ['bench', 'bench', 'bench', 'bench']": "made 3 times",
    "of = ['bensh']": 'Did you mean "bench"',
    "of = [{ gap = 602 }]": "no cabinet in it",
    "of = ['bench', { gap = 0 }]": "under 1 mm",
    "of = ['bench', { gapp = 602 }]": "Did you mean gap?",
    "of = ['bench', { colour = 602 }]": "neither a cabinet nor a gap",
    "of = ['bench', { gap = 602, fur = 'drier' }]": "Did you mean for?",
    "of = ['bench', { infill = 'rest' }]": "no length is said",
    "of = ['bench', { panel = 'oak' }]": "there is no [boards.oak]",
    "of = []": "has 0 entries",
    "length = 1000\nof = ['bench', 'bench']": "200 too long",
    "length = 1205\nof = ['bench', 'bench', { infill = 'rest' }]": "leaves 5 for one infill",
    "length = nan\nof = ['bench']": "length",
    "length = 1e9\nof = ['bench']": "not a length for a shop",
    "walls = 'both'\nof = ['bench']": "its length is not said",
    "of = ['bench']\nplinth = {}": "would be -5 high",
    "of = ['bench']\nplint = {}": "Did you mean plinth?",
    "of = ['bench']\nedging = 'oak'": "there is no [edgings.oak]",
    "of = ['bench']\nabove_floor = -10": "is under 0 mm",
    "of = ['bench', 'bench']\nscrews = { heights = [700] }": "into the top or bottom",
    "of = ['bench']\ncornice = {}": "cornice has no height",
    "of = ['bench']\nworktop = { board = 'top40' }\ncornice = { height = 60 }": "a worktop lies on all of it",
    "of = ['glaze']\nabove_floor = 30\npelmet = { height = 40 }": "does not go under carcasses 30",
    "of = ['glaze']\nworktop = { board = 'top40' }": "all are wall or tall units",
    "of = ['bench', 'glaze', 'bench']\nworktop = { board = 'top40', front = 40, depth = 600 }": "two ways",
    "of = ['bench', 'bench', 'bench', 'sink']\nworktop = { board = 'top40' }": "nothing is said of how they are joined",
    "of = ['bench']\nworktop = { board = 'top40', joints_at = [900] }": "a joint at 900 lies in no worktop",
    "of = ['bench']\nworktop = { board = 'top40', cut_outs = [{ for = 'sink', width = 400, depth = 400 }] }": "in one way",
    "of = ['bench']\nworktop = { board = 'top40', cut_outs = [{ for = 'sink', over = 2, width = 400, depth = 400 }] }":
        "over is 2, and 1 things",
    "of = ['bench']\nworktop = { board = 'top40', cut_outs = [{ for = 'sink', over = 1, width = 640, depth = 400 }] }":
        "leaves 0 of worktop",
    "of = ['bench']\nworktop = { board = 'top40', cut_outs = [{ over = 1, width = 400, depth = 400 }] }": "has no for",
    "of = ['bench']\nworktop = { board = 'top40', cut_outs = [{ for = 'sink', over = 1, width = 400, depth = 400, "
    "radius = 201 }] }": "more than half the cut-out",
}  # fmt: skip


@pytest.mark.parametrize(("run", "says"), REFUSED.items())
def test_what_no_run_can_be_made_of_is_refused_with_its_line_and_how_to_mend_it(run, says):
    with pytest.raises(JobFaults) as caught:
        rod_of(run)
    (fault, *_) = caught.value.faults
    assert says in f"{fault.what}. {fault.mend}"
    assert fault.mend
    assert job_text(run).splitlines()[fault.line - 1].strip()


def test_a_run_needs_a_name_of_its_own():
    with pytest.raises(JobFaults, match="is the name of a cabinet too"):
        rod_of("of = ['north']", "[cabinets.north]\nwidth = 600\n")


@pytest.mark.parametrize(
    "run", ["of = 'bench'", "of = ['bench', { gap = -5 }]", "of = ['bench']\ncornice = { height = 1e9 }"]
)
def test_one_slip_is_told_once(run):
    with pytest.raises(JobFaults) as caught:
        rod_of(run)
    assert len(caught.value.faults) == 1


FRAMED = """
[cabinets.framed]
count = 2
width = 600
feet = { style = "plinth frame", height = 90 }

[cabinets.legged]
width = 400
feet = { style = "legs", height = 150 }
"""


def test_a_run_is_as_high_as_the_feet_that_its_cabinets_stand_on():
    run = rod_of('of = ["framed", "framed"]\n', FRAMED).runs[0]
    assert [(s.z0, s.z1) for s in run.standings] == [(90, 810)] * 2
    assert rod_of('of = ["framed"]\nabove_floor = 90\n', FRAMED).runs[0].above_floor == 90


@pytest.mark.parametrize(
    ("run", "mend"),
    [
        ('of = ["framed"]\nabove_floor = 0\n', "above_floor = 90"),
        ('of = ["framed", "legged"]\n', "height = 150 in the feet"),
    ],
)
def test_feet_of_another_height_than_the_run_are_refused(run, mend):
    with pytest.raises(JobFaults) as refused:
        rod_of(run, FRAMED)
    assert any("stands on 90 of its own" in f.what and mend in f.mend for f in refused.value.faults)
