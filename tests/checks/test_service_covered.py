"""Services of the worked alcove behind a bookcase: where a board stands before them, and what a cut-out leaves."""

import re

import pytest

from rodwork.pipeline import set_out
from tests.survey.alcoves import BOOKCASE, SOCKET, SURVEY, job_text

CODE = "service-covered"
BACK = 'back = { board = "birch6", style = "grooved all round", void = 20 }\n'
OPEN = BOOKCASE.replace("fixed_shelves = 4\n", "")


def told(words: str = BACK, service: str = SOCKET, cabinet: str = OPEN):
    return [f for f in set_out(job_text(cabinet + words, SURVEY + service), "job.toml").findings if f.code == CODE]


def placed(along: float, up: float, **words: str) -> str:
    more = "".join(f'{k} = "{v}"\n' for k, v in words.items())
    return SOCKET.replace("low = [300, -700]", f"low = [{along}, {up}]") + more


def test_a_back_is_cut_out_for_a_socket_behind_it():
    assert told() == []


@pytest.mark.parametrize(("less", "severity"), [(0.0, None), (0.1, "warning"), (15.0, "warning"), (20.5, "fault")])
def test_a_cut_out_of_the_maker_s_own_leaves_twenty_round_it_or_is_told(less, severity):
    """The one that the program cuts leaves 20 all round; `less` is taken off each of its four sides."""
    rod = set_out(job_text(OPEN + BACK, SURVEY + SOCKET), "job.toml")
    back = rod.cabinets[0].part["back"]
    (cut,) = (f for f in back.features if f.kind == "cutout")
    corners = [back.pose.to_cabinet((x, y, 0.0)) for x, y in cut.polygon]
    (x0, x1), (z0, z1) = ((min(c[k] for c in corners), max(c[k] for c in corners)) for k in (0, 2))
    own = (
        f'cut_outs = [{{ for = "socket", left = {x0 + less}, bottom = {z0 + less}, width = {x1 - x0 - 2 * less}, '
        f"height = {z1 - z0 - 2 * less} }}]"
    )
    findings = told(BACK.replace(" }\n", f", {own} }}\n"))
    assert [f.severity for f in findings] == ([severity] if severity else [])
    if severity:
        assert findings[0].where[0] == "back"


def test_without_a_back_nothing_covers_it():
    assert told("") == []


def test_a_back_that_was_not_cut_out_covers_it():
    """Half behind the left side: no cut-out in the back would free it, so none is made."""
    findings = told(service=placed(20, -700))
    assert [f.severity for f in findings] == ["fault", "fault"]
    assert {f.where[0] for f in findings} == {"left side", "back"}


@pytest.mark.parametrize(("up", "behind"), [(-1043, "bottom"), (-300, None), (970, "top")])
def test_a_board_that_stands_before_it_is_named(up, behind):
    found = {p for f in told(service=placed(300, up)) for p in f.where}
    assert (behind is None) if not found else behind in found


def test_a_shelf_or_a_divider_before_it_is_named_too():
    shelf = told(BACK, placed(300, -650), BOOKCASE)  # the first of four shelves at 379 to 396 up
    assert [f.where for f in shelf] == [("fixed shelf 1",)]
    divider = told(BACK + "dividers = 1\n", placed(560, -700))
    assert [f.where for f in divider] == [("divider",)]


@pytest.mark.parametrize("along", [20, 1120])
def test_a_side_before_it_comes_clear_by_the_width_that_is_named(along):
    """Neither openings nor bays move a side; a narrower unit between wider scribes does."""
    found = [f for f in told(BACK, placed(along, -700)) if f.where[0].endswith(" side")]
    width = int(re.search(r"width = (\d+) or less", found[0].mend)[1])
    assert told(f"width = {width}\n" + BACK, placed(along, -700)) == []


def test_a_service_beside_the_unit_is_told():
    findings = told(service=placed(100, -700, wall="left"))
    assert [f.where for f in findings] == [("left side",)]


def test_one_outside_the_unit_is_not_its_business():
    assert told(service=placed(300, 1200)) == []
    assert told(service=placed(320, -700, wall="left")) == []


BASE = (
    '[cabinets.base]\nkind = "base"\nheight = 780\ndepth = 320\nboard = "birch18"\nalcove = "alcove"\n'
    'openings = ["rest", 300]\ndrawers = { number = 1, opening = 1, bottom_board = "birch6" }\n'
)
PIPE = SOCKET.replace("out = 10", "out = 80")


def test_a_drawer_is_made_short_of_what_stands_out_behind_its_back():
    assert told(BACK, PIPE, BASE) == []


def test_a_drawer_that_strikes_it_is_told():
    """With no back there is no cut-out to make room for: runners of 250 before a pipe at 338 - 80, 20 clear."""
    findings = told("", PIPE, BASE)
    assert [f.severity for f in findings] == ["fault"]
    assert "stands in its way" in findings[0].message
    assert told("", SOCKET, BASE) == []
