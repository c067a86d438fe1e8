"""A plinth board along cabinets on notched sides: planted over the notches, as high as they are less its clearance."""

import pytest

from rodwork.documents.run_pages import run_pages
from rodwork.documents.solids import part_solid
from rodwork.job.faults import JobFaults
from tests.documents.page_laws import check_pages
from tests.geometry.overlap import placed
from tests.runs.run_samples import boards_of, job_text, reach, rod_of

NOTCHED = """
[cabinets.bench]
count = 3
width = 600
feet = { style = "notched sides", height = 100, set_back = 60 }

[cabinets.other]
width = 600
feet = { style = "notched sides", height = 120, set_back = 60 }

[cabinets.legs]
width = 600
feet = { style = "legs" }
"""
RUN = "length = 1900\nof = [{ infill = 'rest' }, 'bench', 'bench', 'bench', { infill = 'rest' }]\nscrews = 'none'\nplinth = {%s}"


def run(more="", head=""):
    return rod_of(head + RUN % more, NOTCHED)


def test_its_back_lies_on_the_edges_of_the_notches():
    """Notches 60 deep and 100 high: a board of 17.6 has its face at 42.4, and is 95 high with 5 over it."""
    (board,) = boards_of(run(), "plinth board")
    assert [reach(board, axis) for axis in (0, 1, 2)] == [(0, 1900), (42.4, 60), (0, 95)]
    assert reach(boards_of(run("clear = 3"), "plinth board")[0], 2) == (0, 97)


def test_infills_beside_them_begin_where_the_notch_ends():
    assert {reach(p, 2) for p in boards_of(run(), "infill")} == {(100, 720)}


def test_it_touches_both_sides_of_every_cabinet_and_runs_into_nothing():
    rod = run()
    (board,) = boards_of(rod, "plinth board")
    for s in (s for s in rod.runs[0].standings if s.stands_as == "cabinet"):
        there = placed(part_solid(board, 8), board.pose).translate([-s.x0, 0.0, 0.0])
        for part in rod.cabinet[s.name].parts:
            solid = placed(part_solid(part, 8), part.pose)
            assert (there ^ solid).volume() < 1.0, part.id
            if part.role == "side" or part.id == "plinth board":
                assert there.min_gap(solid, 5.0) < 1e-3, part.id


def test_its_pages_obey_the_laws_of_pages_and_give_the_height_of_the_notch():
    rod = run()
    check_pages(run_pages(rod), rod)
    said = {getattr(s, "text", None) for s in run_pages(rod)[0].shapes}
    assert {"100", "620", "720"} <= said


REFUSED = {
    "another height": (RUN.replace("'bench', {", "'other', {") % "", "120 and 60", "same feet"),
    "on legs": (RUN.replace("'bench', {", "'legs', {") % "", "legs does not", "same feet"),
    "off the floor": ("above_floor = 100\n" + RUN % "", "go down to the floor", "above_floor = 0"),
    "its own set back": (RUN % " set_back = 50 ", "brings its face to 42.4", "under feet"),
}


@pytest.mark.parametrize(("lines", "what", "mend"), REFUSED.values(), ids=REFUSED)
def test_what_it_cannot_go_along_is_refused(lines, what, mend):
    with pytest.raises(JobFaults) as caught:
        rod_of(lines, NOTCHED)
    (fault,) = caught.value.faults
    assert what in fault.what
    assert mend in fault.mend
    assert job_text(lines, NOTCHED).splitlines()[fault.line - 1].strip()
