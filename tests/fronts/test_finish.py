"""A finish enters margins, housings and grooves, never glued faces or cut sizes. The figures are those of common practice at
British benches: a sprayed paint system is 0.10 to 0.15 a face; an inset margin of 2.0 loses 0.15 off the door and 0.15 off the
opening; a painted 18 board is 18.3 and does not enter an 18.0 housing. Common practice, no source."""

from dataclasses import replace

import pytest

from rodwork.documents.drawing import Text
from rodwork.documents.front_pages import front_pages
from rodwork.job.faults import JobFaults
from rodwork.model.finish import Finish
from rodwork.model.margins import margins
from rodwork.pipeline import set_out
from rodwork.setout.proof import prove
from tests.building import back, cabinet, job, recipe, rod_of
from tests.fronts.front_samples import doors, drawers
from tests.fronts.test_bays import HEAD


def painted(film=0.15, when="before assembly", mask="joints"):
    return Finish(film_mm=film, when=when, mask=mask)


def shelves(finish, thickness=18.0):
    """A cabinet with a housed shelf and a back in grooves."""
    return rod_of(job(cabinet(shelf_joint=recipe("housing"), finish=finish), thickness=thickness))


def width(rod, joint):
    c = rod.cabinets[0]
    return c.feature[next(j for j in c.joints if j.id == joint).fixings[0].halves[0].feature].width


@pytest.mark.parametrize(
    ("finish", "wider"),
    [
        (None, 0.0),
        (painted(), 0.3),
        (painted(mask="joints and ends"), 0.0),
        (painted(mask="nothing"), 0.6),
        (painted(when="after assembly"), 0.0),
        (painted(film=0.10), 0.2),
    ],
)
def test_a_painted_18_board_is_18_3_in_its_housing(finish, wider):
    """An 18 board is housed in 18.1: painted 0.15 a face it is 18.3, in 18.4."""
    rod = shelves(finish)
    assert width(rod, "left side / fixed shelf") == pytest.approx(18.1 + wider)
    assert width(rod, "left side / back") == pytest.approx(
        6.0 + wider, abs=0.11
    )  # 5.8 and 0.2, or the shop's cutter of 6
    assert prove(rod) == ()


def test_cut_sizes_and_what_is_glued_stay_as_they_are():
    bare, film = shelves(None).cabinets[0], shelves(painted()).cabinets[0]
    for part in bare.parts:
        if part.role in ("side", "top", "bottom"):
            assert film.part[part.id].size == part.size
            assert film.part[part.id].cut == part.cut
    # the shelf stops at the wall of the back groove, which is the two films nearer
    assert bare.part["fixed shelf"].size[1] - film.part["fixed shelf"].size[1] == pytest.approx(0.3)
    corner = "left side / top"
    # all but the last, which keeps clear of the groove
    assert [f.at for f in film.joint[corner].fixings][:-1] == [f.at for f in bare.joint[corner].fixings][:-1]


def test_an_inset_margin_of_2_becomes_1_7():
    rod = rod_of(
        job(
            cabinet(
                doors=doors("pair", style="inset"),
                finish=painted(),
                openings=("rest",),
                loose_shelves=(0,),
                back=back(),
            )
        )
    )
    found = margins(rod.cabinets[0])
    assert {(m.beside, m.mm, m.finished(0.15)) for m in found} == {("opening", 2.0, 1.7), ("fronts", 2.0, 1.7)}
    assert len(found) == 7  # three round each leaf and the one between
    (page,) = front_pages(rod)
    said = " ".join(s.text for s in page.shapes if isinstance(s, Text))
    assert "2 between fronts; 2 round fronts in their opening" in said
    assert "With the finish on, 0.15 a face: 1.7 between fronts; 1.7 round fronts in their opening." in said


def test_an_overlay_door_gains_one_film_at_its_outer_edge():
    rod = rod_of(job(cabinet(doors=doors("pair"), finish=painted(), openings=("rest",), loose_shelves=(0,))))
    assert {(m.beside, m.mm, m.finished(0.15)) for m in margins(rod.cabinets[0])} == {
        ("outside", 1.5, 1.35), ("fronts", 3.0, 2.7),
    }  # fmt: skip


def test_margins_of_drawers_over_a_door_are_found_once():
    rod = rod_of(job(cabinet(
        kind="base", depth_mm=560.0, doors=replace(doors("left"), openings=(1, 1)),
        drawers=drawers(1, openings=2), openings=("rest", 160.0), loose_shelves=(0, 0),
    )))  # fmt: skip
    assert sorted((m.beside, m.mm) for m in margins(rod.cabinets[0])) == [("fronts", 3.0), *[("outside", 1.5)] * 4]


SHELF = '\n[cabinets.it]\nwidth = 600\nheight = 720\ndepth = 320\nboard = "birch18"\n'


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("finish = { film = 0 }", "under 0.01"),
        ("finish = { film = nan }", "film"),
        ("finish = { film = 1e9 }", "finish.film"),
        ('finish = { when = "after assembly" }', "finish has no film"),
        ('finish = { film = 0.1, mask = "all" }', "mask"),
        ("finish = 0.15", 'neither a table nor "none"'),
        ("finish = { flim = 0.15 }", "Did you mean film"),
    ],
)
def test_a_finish_that_is_wrong_is_refused_at_its_line(words, says):
    with pytest.raises(JobFaults) as refused:
        set_out(HEAD + SHELF + words, "it.toml")
    told = "\n".join(f"{f.line} {f.what} {f.mend}" for f in refused.value.faults)
    assert says in told
    assert all(f.line == 22 or f.line == 17 for f in refused.value.faults), told


def test_the_dry_fit_knows_that_the_film_has_taken_the_play():
    """In a housing that was made as for bare board a painted shelf has no room: as made for it, it goes together as bare."""
    from rodwork.pipeline import dry_fit

    bare, film = (dry_fit(shelves(f), samples=400).cabinets[0].chance for f in (None, painted()))
    assert film == pytest.approx(bare, abs=0.05)
    tight = shelves(None)
    painted_later = replace(tight, cabinets=(replace(tight.cabinets[0], finish=painted()),))
    assert dry_fit(painted_later, samples=400).cabinets[0].chance < bare - 0.2
