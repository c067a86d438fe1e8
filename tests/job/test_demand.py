"""Walls, tested and declared figures, contents and hanging in the job file: read, and refused in words."""

import pytest

from rodwork.catalogue.contents import usual_contents
from rodwork.job.faults import JobFaults
from rodwork.job.reader import read_job
from rodwork.model import demand
from rodwork.model.demand import Contents, Declared, Hanging, SagLimits, Wall
from tests.job.job_samples import FAMILIES

JOB = """\
[job]
name = "Pottery studio"
[boards.birch18]
material = "birch plywood"
thickness = 18
sheet = [2440, 1220]
{board}
[walls.kitchen]
kind = "dot and dab"
gap = 15
{wall}
{tested}
[every_cabinet]
width = 600
height = 720
depth = 320
board = "birch18"
{every}
[cabinets.glaze]
{cabinet}
"""


def read(board="", wall="", tested="", every="", cabinet=""):
    text = JOB.format(board=board, wall=wall, tested=tested, every=every, cabinet=cabinet)
    return read_job(text, "glaze.toml", FAMILIES)[0]


def refused(**parts):
    with pytest.raises(JobFaults) as problem:
        read(**parts)
    return str(problem.value)


def test_a_wall_has_its_kind_its_gap_and_what_one_fixing_bears():
    wall = read(wall='pull_kn = 0.25\nbasis = "mean of tests"\nsource = "own test"').walls["kitchen"]
    tested = demand.Tested(pull_N=250.0, shear_N=None, moment_Nmm=None, basis="mean of tests", source="own test")
    assert wall == Wall(kind="dot and dab", gap_mm=15.0, studs_mm=None, fixing=tested)


def test_a_wall_without_figures_has_none_made_up():
    assert read().walls["kitchen"].fixing is None


def test_figures_without_a_source_are_refused():
    assert "has figures, and no source" in refused(wall="pull_kn = 0.25")
    assert "has no source" in refused(tested='[tested."cam fitting"]\npull_kn = 0.4')


def test_a_tested_fitting_with_no_figure_is_refused():
    assert "has no figure" in refused(tested='[tested."cam fitting"]\nsource = "own test"')


def test_a_boards_declared_figures_are_taken_with_whose_they_are():
    board = read(board='stiffness = 9000\ncreep = 0.8\ndeclared_by = "mill sheet, 2024"').boards["birch18"]
    assert board.declared == Declared(
        stiffness_N_per_mm2=9000.0, strength_N_per_mm2=None, kdef=0.8, source="mill sheet, 2024"
    )
    assert "not whose they are" in refused(board="stiffness = 9000")


@pytest.mark.parametrize(
    ("said", "contents"),
    [
        ("{ kg_per_m2 = 60 }", Contents(kg_per_m2=60.0)),
        ("{ kg_per_m2 = 0 }", Contents(kg_per_m2=0.0)),
        ('{ of = "books", lasts = "long" }', Contents(of="books", lasts="long")),
        ("{ kg = 40, heaviest_kg = 9 }", Contents(kg=40.0, heaviest_kg=9.0)),
    ],
)
def test_contents_are_said_by_use_or_by_weight(said, contents):
    assert read(cabinet=f"contents = {said}").cabinets[0].contents == contents


def test_contents_said_in_two_ways_are_refused_and_a_cabinets_own_way_goes_first():
    assert "in two ways" in refused(cabinet='contents = { kg = 40, of = "books" }')
    own = read(every='contents = { of = "books", lasts = "long" }', cabinet="contents = { kg = 40 }")
    assert own.cabinets[0].contents == Contents(kg=40.0, lasts="long")


def test_hanging_names_a_wall_or_a_kind_of_wall():
    hanging = 'hanging = { style = "split batten", wall = "%s", fixings = 3 }'
    for wall in ("kitchen", "brick"):
        found = read(cabinet=hanging % wall).cabinets[0].hanging
        assert found == Hanging(style="split batten", wall=wall, fixings=3, from_top_mm=None)
    assert 'Did you mean "kitchen"?' in refused(cabinet=hanging % "kitchin")
    assert "hanging has no style" in refused(cabinet='hanging = { wall = "brick" }')
    assert read(every=hanging % "brick", cabinet='hanging = "none"').cabinets[0].hanging is None


def test_sag_limits_are_the_makers_where_he_says_so():
    assert read().cabinets[0].sag == SagLimits()
    assert read(cabinet="sag = { straight = 500, most = 4 }").cabinets[0].sag == SagLimits(
        straight_1_in=500.0, most_mm=4.0
    )


@pytest.mark.parametrize("figure", ["nan", "inf", "-1", "1e9", "true", '"much"'])
def test_what_is_no_amount_is_refused(figure):
    assert "kitchen" not in refused(cabinet=f"contents = {{ kg_per_m = {figure} }}")
    assert "pull_kn" in refused(wall=f'pull_kn = {figure}\nsource = "own test"')


def test_every_use_has_a_weight_in_one_way_a_source_and_a_standing():
    for row in usual_contents().values():
        assert (row.kg_per_m is None) != (row.kg_per_m2 is None), row.name
        assert row.standing in ("verified", "second-hand", "from memory", "practice"), row.name
        assert len(row.source) > 20, row.name
