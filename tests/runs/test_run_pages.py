"""The run on paper: every page obeys the laws of pages, and what stands on it is what the set-out has."""

import pytest

from rodwork.documents.drawing import Path_, Text
from rodwork.documents.pack import pack_pages
from rodwork.documents.run_drawing import Sheet, front, mark_of
from rodwork.documents.run_pages import run_pages
from tests.documents.page_laws import check_pages
from tests.runs.run_samples import rod_of

FRONTED = """
[cabinets.bench]
count = 3
width = 600
loose_shelves = 1
doors = { hung = "left" }

[cabinets.sink]
width = 800
doors = { hung = "pair" }

[cabinets.narrow]
count = 2
width = 150

[cabinets.glaze]
kind = "wall"
count = 2
width = 600
depth = 320
loose_shelves = 1

[cabinets.larder]
kind = "tall"
width = 600
height = 2000
"""
SINK = "cut_outs = [{ for = 'sink', over = %s, width = 560, depth = 440, radius = 15 }]"
RUNS = {
    "between walls": (
        "where = 'Kiln room, wall B'\nlength = 2720\nabove_floor = 150\n"
        "of = [{ infill = 'rest' }, 'bench', 'sink', { gap = 602, for = 'drier' }, 'bench', { infill = 'rest' }]\n"
        "plinth = {}\nworktop = { board = 'top40', joint = 'edge_to_edge', upstand = 60, " + SINK % 3 + " }\n"
    ),
    "narrow things": "of = ['narrow', { infill = 10 }, { panel = 'birch18' }, 'narrow', { infill = 12 }, 'bench']\n",
    "one alone": "of = ['narrow']\n",
    "wall units": (
        "length = 1300\nwalls = 'left'\nabove_floor = 1450\nof = [{ infill = 45 }, 'glaze', 'glaze']\n"
        "cornice = { height = 60 }\npelmet = { height = 40 }\n"
    ),
    "a tall one": "above_floor = 100\nof = ['bench', 'larder', 'bench', 'bench']\nworktop = { board = 'top40' }\n"
    "plinth = { clear = 8 }\n",
    "long names": "where = '" + "W" * 90 + "'\nof = ['bench', { gap = 40, for = '" + "drier " * 9 + "x' }, 'sink']\n",
    "many": "of = [" + "{ infill = 11 }, " * 20 + "'bench', " + "{ gap = 12 }, " * 20 + "'bench']\nbehind = 45\n",
}


@pytest.mark.parametrize("name", RUNS)
def test_every_page_obeys_the_laws_of_pages(name):
    rod = rod_of(RUNS[name], FRONTED)
    check_pages(run_pages(rod), rod)


def texts(page):
    return [s.text for s in page.shapes if isinstance(s, Text)]


def test_the_chain_and_the_whole_are_those_of_the_set_out():
    rod = rod_of(RUNS["between walls"], FRONTED)
    on, off, plan = run_pages(rod)
    for page in (on, off):
        assert [t for t in texts(page) if t in ("59", "600", "800", "602")] == ["59", "600", "800", "602", "600", "59"]
        assert {"2720", "150", "720", "40", "910", "1", "6", "B1", "B2", "S1"} <= set(texts(page))
    assert {"sink", "560 x 440", "corners 15"} <= set(texts(plan))
    assert any("59, 69 supplied, to be scribed" in t for t in texts(plan))


def test_the_plan_says_why_a_worktop_is_shorter_than_the_wall():
    """2 short at each wall, so that it goes in; nothing is short of a free end."""
    between = run_pages(rod_of(RUNS["between walls"], FRONTED))[-1]
    assert "The worktop stops 2 short of both walls, so that it goes in." in texts(between)
    one = (
        RUNS["between walls"]
        .replace("length = 2720", "length = 2720\nwalls = 'left'")
        .replace("{ gap = 602, for = 'drier' }, 'bench', { infill = 'rest' }", "{ gap = 602, for = 'drier' }, 'bench'")
    )
    assert "The worktop stops 2 short of the left wall, so that it goes in." in texts(
        run_pages(rod_of(one, FRONTED))[-1]
    )
    free = run_pages(rod_of(RUNS["a tall one"], FRONTED))[-1]
    assert not any("short of" in t for t in texts(free))


def test_it_is_to_scale_and_shows_fronts_only_where_they_are_on():
    rod = rod_of(RUNS["between walls"], FRONTED)
    run, sheet = rod.runs[0], Sheet(left=10.0, floor=20.0, k=0.1)

    def rectangles(fronts):
        closed = (s for s in front(rod, run, sheet, fronts) if isinstance(s, Path_) and s.closed)
        return {tuple(round(v, 3) for v in (*s.points[0], *s.points[2])) for s in closed}

    # the first door: 59 from the wall and 1.5 of margin, 150 up and 1.5 of margin, at a tenth
    low = (round(10 + 0.1 * 60.5, 3), round(20 + 0.1 * 151.5, 3))
    assert low in {r[:2] for r in rectangles(True)}
    assert low not in {r[:2] for r in rectangles(False)}


def test_copies_go_by_their_own_marks():
    rod = rod_of(RUNS["between walls"], FRONTED)
    assert [mark_of(rod, s) for s in rod.runs[0].standings if s.stands_as == "cabinet"] == ["B1", "S1", "B2"]


def test_the_pack_has_the_run_and_passes_it_over_where_a_box_is_wanted():
    rod = rod_of(RUNS["between walls"], FRONTED)
    pages = pack_pages(rod)
    kinds = [p.kind for p in pages]
    assert kinds.count("run") == 3
    assert sum(k == "assembly" for k in kinds) == len(rod.boxes)
    (cover, *_) = [p for p in pages if p.kind == "cover"]
    assert cover.under.startswith("9 cabinets")


def test_a_job_without_runs_has_no_such_page():
    from tests.building import rod

    assert run_pages(rod()) == ()
