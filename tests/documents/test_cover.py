"""The cover: the job, its cabinets drawn to their sizes, what to put right, and the cautions."""

from dataclasses import replace

import pytest
from page_laws import check_pages
from samples import PAPERS, SAMPLES, glaze, sample
from tests.building import back, cabinet, job, rod, rod_of
from tests.texts import HEAD, joint

from rodwork.documents.cover import caution_texts, cover_pages
from rodwork.documents.drawing import Path_, Text
from rodwork.documents.elevations import bays, clear_depth, elevations
from rodwork.documents.page import body
from rodwork.model.finding import Finding
from rodwork.pipeline import set_out
from rodwork.setout.weights import weighed


def finding(severity, message="The bore leaves 0.6 under its point.", mend="Bore it 12 deep.", cabinet="glaze"):
    return Finding(
        severity=severity, code="x", cabinet=cabinet, where=("left side",), message=message, mend=mend,
        source="common practice",
    )  # fmt: skip


def texts(pages):
    return [s.text for p in pages for s in p.shapes if isinstance(s, Text)]


def with_findings(*findings):
    return replace(rod(), findings=findings)


def test_it_says_what_for_whom_and_when():
    pages = cover_pages(glaze())
    said = texts(pages)
    assert pages[0].title == "Pottery studio"
    assert pages[0].right == "letter A"
    assert pages[0].under == "2 cabinets, 16 boards. All sizes in mm."
    for words in ("Hill Lane pottery", "Upper floor, 3 Hill Lane", "Our shop", "2026-11-25"):
        assert words in said


def test_the_elevations_bear_the_sizes_of_the_box_and_its_openings():
    """600 x 720 x 320; inside 600 - 2 x 17.6 = 564.8; the back's front face 320 - 18 - 5.8 - 0.1 = 296.1 behind."""
    r = glaze()
    said = [s.text for s in elevations(r.cabinets[0], body("A4", True)) if isinstance(s, Text)]
    for size in ("600", "720", "320", "564.8", "333.4", "333.8", "296.1"):
        assert size in said, size


def test_bays_and_boards_make_up_the_width():
    c = rod(width_mm=1500.0, bays=(300.0, "rest", 400.0)).cabinets[0]
    assert sum(b - a for a, b in bays(c)) + 4 * 17.6 == pytest.approx(1500.0)
    assert bays(c)[0][1] - bays(c)[0][0] == pytest.approx(300.0, abs=0.1)


@pytest.mark.parametrize(
    ("style", "depth"), [("planted", 320 - 5.8), ("grooved all round", 320 - 18 - 6 + 0.1), ("rebated", 320 - 5.8)]
)
def test_the_clear_depth_is_to_the_front_of_the_back(style, depth):
    assert clear_depth(rod(back=back(style)).cabinets[0]) == pytest.approx(depth, abs=0.25)


def test_there_is_no_clear_depth_without_a_back():
    assert clear_depth(rod(back=None).cabinets[0]) is None


def test_openings_too_small_for_a_figure_are_told_in_words():
    r = rod(height_mm=2300.0, openings=("rest",) * 20, loose_shelves=(0,) * 20)
    said = " ".join(texts(cover_pages(r)))
    assert "Clear heights, from the bottom:" in said
    listed = said.split("from the bottom:")[1]
    first = f"{r.cabinets[0].asked.openings[0].comes_to:g}"
    assert listed.count(first) >= 18


def test_a_stop_is_shouted_on_the_first_page():
    pages = cover_pages(with_findings(finding("warning"), finding("fault"), finding("note")))
    first = " ".join(texts(pages[:1]))
    assert "STOP: cut nothing yet. 1 to put right first" in first
    assert "Also 1 to watch and 1 to note." in first
    assert "STOP" not in " ".join(texts(cover_pages(with_findings(finding("warning")))[:1]))
    assert "Nothing found to put right." in texts(cover_pages(rod())[:1])


def test_findings_stand_worst_first_with_place_mend_and_source():
    pages = cover_pages(with_findings(finding("note"), finding("warning"), finding("fault")))
    said = texts(pages)
    assert [t for t in said if t in ("STOP", "WATCH", "NOTE")] == ["STOP", "WATCH", "NOTE"]
    assert "glaze: left side" in said
    assert "Mend: Bore it 12 deep." in said
    assert "common practice" in said


def test_a_finding_names_boards_and_no_id_of_a_bore():
    there = replace(finding("fault"), where=("left side / top", "left side / top 1h", "bottom"))
    assert "glaze: left side, top and bottom" in texts(cover_pages(with_findings(there)))
    assert "glaze" in texts(cover_pages(with_findings(replace(there, where=("left side / top 1h",)))))


def test_what_several_cabinets_have_alike_is_told_once_and_names_them_all():
    r = glaze()
    kiln = replace(r.cabinets[0], name="kiln")
    same = [replace(finding("warning"), cabinet=name, source=f"sum of {name}") for name in ("glaze", "kiln")]
    other = replace(finding("warning", message="The bore leaves 0.7 under its point."), cabinet="kiln")
    note = finding("note")
    pages = cover_pages(replace(r, cabinets=(r.cabinets[0], kiln), findings=(*same, other, note)))
    said = texts(pages)
    assert said.count("The bore leaves 0.6 under its point.") == 2  # the WATCH once, the NOTE once
    assert "glaze and kiln: left side" in said
    assert "kiln: left side" in said
    assert "sum of glaze; sum of kiln" in said
    assert pages[-1].right == "2 WATCH, 1 NOTE"
    assert "Nothing here stops you. 2 to watch and 1 to note: see “To put right”." in said


def test_the_head_counts_what_stops_what_is_to_watch_and_what_to_note():
    told = (finding("fault"), finding("warning"), finding("note"), finding("note", message="It is wide."))
    assert cover_pages(with_findings(*told))[-1].right == "1 STOP, 1 WATCH, 2 NOTE"
    assert cover_pages(with_findings())[-1].right == ""


def test_what_does_not_fit_goes_on_to_the_next_page_at_the_same_size():
    few = cover_pages(with_findings(finding("fault")))
    many = with_findings(*(finding("fault", message=f"Bore {n} is too deep. " * 6) for n in range(20)))
    pages = cover_pages(many)
    check_pages(pages, many)
    assert len(pages) > len(few)
    said = texts(pages)
    assert all(any(t.startswith(f"Bore {n} is") for t in said) for n in range(20))
    assert {s.size for p in pages[1:] for s in p.shapes if isinstance(s, Text)} <= {
        s.size for p in few[1:] for s in p.shapes if isinstance(s, Text)
    }


def test_a_long_note_is_printed_in_full_somewhere():
    note = " ".join(f"word{n}" for n in range(900))
    r = rod()
    r = replace(r, heading=replace(r.heading, notes=note, customer="For " + "somebody " * 60))
    pages = cover_pages(r)
    check_pages(pages, r)
    said = " ".join(texts(pages)).split()
    assert {f"word{n}" for n in range(900)} <= set(said)
    assert said.count("somebody") >= 60


def test_masses_by_hand():
    """A sheet: 2.44 x 1.22 x 0.0176 x 680 = 35.6 kg. The cupboard: 1.3139 m2 of 17.6 and 0.4006 of 5.8 mm board."""
    r = glaze()
    assert r.boards["birch18"].sheet_kg == pytest.approx(35.63, abs=0.01)
    finished = 2 * 720 * 320 + 2 * 564.8 * 320 + 564.8 * 296 + 2 * 562.8 * 292
    expected = (finished * 17.6 + 695.8 * 575.8 * 5.8) * 680e-9
    assert r.cabinets[0].weight.kg == pytest.approx(expected)


def test_the_published_mass_of_an_mdf_sheet():
    """2440 x 1220 x 18 at 740 kg/m3 is 39.7 kg, as board suppliers' tables print it."""
    mdf = replace(glaze().boards["birch18"], actual=18.0, density_kg_m3=740.0)
    assert mdf.sheet_kg == pytest.approx(39.7, abs=0.05)


def test_lifts_for_two_people_are_named_with_the_guideline():
    lifting = dict(caution_texts(glaze()))["Lifting"]
    assert "Two people: a whole sheet of birch18 (36 kg)." in lifting
    assert "birch6" not in lifting
    assert "25 kg for a man and 16 for a woman" in lifting  # HSE L23 and INDG143, elbow height, close to the body
    assert "L23" in lifting


def test_a_sheet_of_a_hundred_kilograms_is_not_told_to_two_people():
    r = glaze()
    thick = {**r.boards, "birch18": replace(r.boards["birch18"], actual=39.5, sheet=(3050.0, 1220.0))}
    lifting = dict(caution_texts(replace(r, boards=thick)))["Lifting"]
    assert "Too much for two, a trolley or a hoist: a whole sheet of birch18 (100 kg)." in lifting
    assert "Two people" not in lifting
    assert "over 25 kg" not in lifting


def test_a_mass_that_is_not_known_is_said_to_be_unknown():
    r = glaze()
    bare = weighed(replace(r, boards={n: replace(b, density_kg_m3=None) for n, b in r.boards.items()}))
    lifting = dict(caution_texts(bare))["Lifting"]
    assert "density of birch18 and birch6 is not known" in lifting.replace("birch6 and birch18", "birch18 and birch6")
    assert "over 25 kg" not in lifting
    assert "Two people" not in lifting


def test_cautions_are_those_of_the_job():
    wall = dict(caution_texts(rod(kind="wall")))
    shelf = dict(caution_texts(rod(kind="bookcase")))
    assert {"Saws", "Routers and drills", "Dust", "Lifting", "Before anything else"} <= wall.keys() & shelf.keys()
    assert "Hanging" in wall
    assert "Tipping" not in wall
    assert "Tipping" in shelf
    assert "Hanging" not in shelf
    assert "competent or licensed person" in wall["Before anything else"]


def test_every_kind_of_cabinet_has_its_page():
    r = rod_of(job(*[cabinet(name=f"case {n}", mark=f"C{'ABCDEFGHIJKL'[n]}") for n in range(12)]))
    pages = cover_pages(r)
    check_pages(pages, r)
    assert {f"case {n}" for n in range(12)} <= {p.title for p in pages}


def test_markup_in_a_name_is_only_text():
    r = rod_of(job(cabinet(name="<b>&amp;</b>"), cabinet(name="two", mark="T")))
    assert "<b>&amp;</b>" in [p.title for p in cover_pages(r)]
    check_pages(cover_pages(r), r)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_pages_keep_the_laws(name, paper):
    r = replace(sample(name, paper), findings=(finding("fault", cabinet=""), finding("note")))
    check_pages(cover_pages(r), r)


def test_the_clear_depth_stands_clear_of_the_shelves_of_the_bay_that_is_cut():
    """Two equal bays, three shelves in the left one alone: the middle of the right one is the height of a shelf."""
    recipes = joint("corner", '"dowel"')
    lines = (
        'kind = "tall"\nwidth = 824\nheight = 2118\ndepth = 388\ndividers = 1\nfixed_shelves = [3, 0]\njoint = "corner"'
    )
    panel = '\nback = { board = "birch6", style = "rebated" }\n'
    made = set_out(f'{HEAD}{recipes}[cabinets.kiln]\nboard = "birch18"\n{lines}{panel}', "kiln.toml")
    check_pages(cover_pages(made), made)


@pytest.mark.parametrize("feet", ["", 'feet = { style = "plinth frame", height = 150 }'])
def test_the_height_and_the_width_are_drawn_to_one_scale_whatever_stands_below(feet):
    """The height of the carcass was drawn down to the foot of its plinth: 1417 over what is 1574 high."""
    text = f"""{HEAD}{joint("corner", '"dowel"')}
[cabinets.base]
kind = "base"
width = 600
height = 720
depth = 560
board = "birch18"
corner_joint = "corner"
{feet}
"""
    (made,) = set_out(text, "job.toml").cabinets
    shapes = elevations(made, body("A4", True))
    lines = [s.points for s in shapes if isinstance(s, Path_) and len(s.points) == 2]
    (high,) = (s for s in shapes if isinstance(s, Text) and s.text == "720" and s.bold)
    (wide,) = (s for s in shapes if isinstance(s, Text) and s.text == "600" and s.bold)
    (up,) = ({a, b} for a, b in lines if a[0] == b[0] == pytest.approx(high.at[0] + 1.0) and a[1] < high.at[1] < b[1])
    (across,) = (
        {a, b} for a, b in lines if a[1] == b[1] == pytest.approx(wide.at[1] - 1.0) and a[0] < wide.at[0] < b[0]
    )
    ends_up, ends_across = [p[1] for p in up], [p[0] for p in across]
    assert (max(ends_up) - min(ends_up)) / 720 == pytest.approx((max(ends_across) - min(ends_across)) / 600)
