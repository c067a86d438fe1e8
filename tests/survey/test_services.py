"""Services behind a unit: cut-outs in its back with 20 all round, set out, proven and drawn; drawers short of them."""

import pytest

from rodwork.documents.alcove_pages import alcove_pages
from rodwork.documents.pictorial import part_box
from rodwork.documents.solids import part_solid
from rodwork.pipeline import set_out
from rodwork.setout.proof import prove
from tests.survey.alcoves import BOOKCASE, SOCKET, SURVEY, job_text
from tests.texts import HEAD

STYLES = ("grooved all round", "grooved in the sides", "rebated", "rebated in the sides", "planted", "inset")
SHELVES = BOOKCASE.replace("fixed_shelves = 4", "fixed_shelves = 1")


def backed(style: str = "grooved all round", more: str = "", service: str = SOCKET):
    board = "birch18" if style == "inset" else "birch6"
    words = f'back = {{ board = "{board}", style = "{style}"{more} }}\n'
    return set_out(job_text(SHELVES + words, SURVEY + service), "job.toml")


def cut_box(part, feature):
    corners = [part.pose.to_cabinet((x, y, 0.0)) for x, y in feature.polygon]
    return [round(f(c[k] for c in corners), 6) for k in (0, 2) for f in (min, max)]


@pytest.mark.parametrize("grain", ["up", "across"])
@pytest.mark.parametrize("style", STYLES)
def test_the_cut_out_lies_before_the_socket_with_twenty_all_round(style, grain):
    """In every style of back and both ways of its grain, worked out from the survey by hand."""
    rod = backed(style, f', grain = "{grain}"')
    cabinet = rod.cabinets[0]
    back = cabinet.part["back"]
    (cut,) = [f for f in back.features if f.kind == "cutout"]
    x0 = 300 - cabinet.asked.alcove.at[0]
    z0 = 1000 - 700  # its bottom stands on the floor's high point, 1000 below the line
    assert cut_box(back, cut) == pytest.approx([x0 - 20, x0 + 146 + 20, z0 - 20, z0 + 86 + 20], abs=1e-6)
    assert cut.role == "service"
    assert prove(rod) == ()
    faults = {f.code for f in rod.findings if f.severity == "fault"}
    assert faults <= {"larger-than-sheet"}  # a back with its grain across is wider than its sheet


def test_the_cut_out_is_a_hole_in_the_solid():
    back = backed().cabinets[0].part["back"]
    corner = 10.0 * 10.0 * (4 - 3.14159)  # what the cutter leaves in four corners of radius 10
    hole = (186 * 126 - corner) * back.size[2]
    assert part_solid(back, 64).volume() == pytest.approx(back.size[0] * back.size[1] * back.size[2] - hole, rel=1e-5)


def test_it_has_a_setting_and_stands_in_the_list():
    rod = backed()
    (setup,) = [s for s in rod.setups if s.tool == "router and template"]
    assert [(e.part) for e in setup.features] == ["back"]


def test_two_that_meet_are_one_cut_out():
    second = SOCKET.replace("services.socket", "services.switch").replace("300, -700", "470, -700")
    back = backed(service=SOCKET + second).cabinets[0].part["back"]
    (cut,) = [f for f in back.features if f.kind == "cutout"]
    assert cut.length * cut.width == pytest.approx(126 * (186 + 170))


def test_a_cut_out_may_be_written_for_any_cabinet():
    cabinet = (
        '[cabinets.base]\nkind = "base"\nwidth = 600\nheight = 780\ndepth = 560\nboard = "birch18"\n'
        'back = { board = "birch6", style = "planted", '
        'cut_outs = [{ for = "waste", left = 200, bottom = 300, width = 120, height = 100 }] }\n'
    )
    cabinet = set_out(HEAD + cabinet, "job.toml").cabinets[0]
    (cut,) = [f for f in cabinet.part["back"].features if f.kind == "cutout"]
    assert cut_box(cabinet.part["back"], cut) == [200, 320, 300, 400]


def base(out: float) -> dict:
    cabinet = (
        '[cabinets.base]\nkind = "base"\nwidth = 600\nheight = 780\ndepth = 560\nboard = "birch18"\nopenings = ["rest", 300]\n'
        'drawers = { number = 2, bottom_board = "birch6" }\nback = { board = "birch6", style = "planted", '
        f'cut_outs = [{{ for = "pipe", left = 200, bottom = 500, width = 120, height = 100, out = {out} }}] }}\n'
    )
    cabinet = set_out(HEAD + cabinet, "job.toml").cabinets[0]
    return {p.id: part_box(p) for p in cabinet.parts if p.role == "drawer side"}


def test_drawers_end_twenty_short_of_what_stands_out_behind_them():
    deep = max(high[1] for _, high in base(0).values())
    short = max(high[1] for _, high in base(100).values())
    assert short <= 560 - 100 - 20 < deep


@pytest.mark.parametrize(
    ("more", "say"),
    [
        (', cut_outs = [{ for = "x", left = 5, bottom = 300, width = 120, height = 100 }]', "leaves less than 15"),
        (', cut_outs = [{ for = "x", left = 200, bottom = 1950, width = 120, height = 100 }]', "leaves less than 15"),
        (', cut_outs = [{ for = "x", left = 200, bottom = 300, width = 120 }]', "has no height"),
        (', cut_outs = [{ for = "x", lft = 200, bottom = 300, width = 120, height = 9 }]', "Did you mean left?"),
        (', cut_outs = [{ for = "x", left = 200, bottom = 300, width = 120, height = nan }]', "not a length"),
        (', cut_outs = "x"', "not a list"),
    ],
)
def test_a_cut_out_that_cannot_be_is_told(more, say):
    from rodwork.job.faults import JobFaults

    with pytest.raises(JobFaults) as problem:
        backed(more=more)
    assert say in str(problem.value)


def test_services_are_numbered_on_the_page_of_the_opening():
    (page,) = alcove_pages(backed())
    assert any("Socket “socket” on the back wall" in getattr(s, "text", "") for s in page.shapes)
