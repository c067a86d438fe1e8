"""Services of a surveyed wall on the elevation of a run: where they lie, each with its name, nothing over another."""

import pytest

from rodwork.documents.drawing import Path_, Text
from rodwork.documents.run_pages import run_pages
from rodwork.documents.run_services import services_of
from tests.documents.page_laws import check_pages
from tests.runs.run_samples import rod_of

WALL = """
[surveys.wall]
heights = [-900, 1100]
widths = [2212, 2206]
back_widths = [2209, 2203]
depths = [640, 638]
floor = [-1000, -1004]

[cabinets.bench]
count = 3
width = 700
%s
"""
RUN = "survey = 'wall'\nabove_floor = 150\nof = ['bench', 'bench', 'bench', { infill = 'rest' }]\nscrews = 'none'"


def service(name, what="socket", low=(300, 60), size=(146, 86), out=10, wall="back"):
    return (
        f'\n[services."{name}"]\nsurvey = "wall"\nwhat = "{what}"\nwall = "{wall}"\n'
        f"low = {list(low)}\nsize = {list(size)}\nout = {out}\n"
    )


def rod_with(*services, doors='doors = { hung = "left" }'):
    return rod_of(RUN, WALL % doors + "".join(services))


def found(rod):
    run = rod.runs[0]
    return services_of(run, rod.surveys["wall"])


def texts(page):
    return [s for s in page.shapes if isinstance(s, Text)]


def test_a_service_lies_in_the_run_by_the_level_line_and_the_left_wall():
    """60 over a level line that is 1000 over the floor's high point: 1060 up; and from the run's own left end."""
    rod = rod_with(service("kettle"))
    (kettle,) = found(rod)
    origin = rod.runs[0].origin
    assert kettle.z == (1060, 1146)
    assert kettle.x == pytest.approx((300 - origin, 446 - origin), abs=1e-3)


def test_what_lies_beyond_the_run_or_far_over_it_is_no_matter_of_it():
    rod = rod_with(service("kettle"), service("far", low=(5000, 60)), service("lamp", low=(300, 1400)))
    assert [s.name for s in found(rod)] == ["kettle"]


def test_one_on_a_side_wall_is_seen_from_its_edge():
    rod = rod_with(service("left", wall="left", out=12), service("right", wall="right", out=15))
    left, right = found(rod)
    assert left.x[1] - left.x[0] == pytest.approx(12)
    assert right.x[1] - right.x[0] == pytest.approx(15)
    assert left.x[1] < 30
    assert right.x[0] > rod.runs[0].length - 30


def test_boxes_and_names_are_on_the_view_without_fronts_and_places_in_the_list():
    rod = rod_with(service("kettle"), service("waste", "waste", (1300, -700), (60, 60), 80))
    on, off, plan = run_pages(rod)
    named = {"a  kettle", "b  waste"}
    assert not named & {t.text for t in texts(on)}
    assert named <= {t.text for t in texts(off)}
    dashed = [s for s in off.shapes if isinstance(s, Path_) and s.pen.dashes and s.closed]
    assert len(dashed) == 2
    said = " ".join(t.text for t in texts(plan))
    assert "a socket “kettle”:" in " ".join(said.split())
    assert "1060 to 1146 up, 10 out of it." in said


def test_a_run_without_fronts_has_them_on_its_one_view():
    front, _ = run_pages(rod_with(service("kettle"), doors=""))
    assert "a  kettle" in {t.text for t in texts(front)}


CROWDS = {
    "close together": [service(f"pipe {n}", "pipe", (1000 + 30 * n, -990), (22, 400), 40) for n in range(8)],
    "over one another": [service(f"box {n}", low=(900 + 5 * n, -500 + 5 * n)) for n in range(6)],
    "a long name": [service("w" * 60), service("kettle", low=(460, 60))],
    "over a cabinet's mark": [service("meter", "meter", (200, -560), (300, 160))],
    "a small one": [service("tap", "valve", (700, -600), (5, 5))],
    "forty": [service(f"socket {n}", low=(40 + 50 * n, 40 + 20 * (n % 4)), size=(40, 20)) for n in range(40)],
    "on the floor": [service("drain", "waste", (700, -1100), (110, 150))],
}


@pytest.mark.parametrize("name", CROWDS)
def test_every_page_obeys_the_laws_of_pages_however_they_crowd(name):
    rod = rod_with(*CROWDS[name])
    check_pages(run_pages(rod), rod)
