"""Opened joints: nothing mirrored, the same number on both sides of the fold, one page for each kind."""

from dataclasses import replace

import pytest
from page_laws import check_pages, overlaps, struck_out
from samples import PAPERS, SAMPLES, glaze, sample
from tests.building import back, cabinet, job, rod, rod_of
from tests.inside.inside_samples import GROOVED, rod_of_text

from rodwork.documents.annotate import figure, listed
from rodwork.documents.drawing import Circle, Drawing, Path_, Text
from rodwork.documents.joint_drawing import opened_shapes
from rodwork.documents.joint_kinds import opened_joints
from rodwork.documents.machined import runs_words
from rodwork.documents.opened_joint import opened_joint_pages
from rodwork.documents.page import Area, numbered
from rodwork.geometry.vec import cross, dot, neg
from rodwork.model.surface import outward
from rodwork.writers.svg import svg


def texts(page):
    return [s.text for s in page.shapes if isinstance(s, Text)]


def page_of(rod, title):
    return next(p for p in opened_joint_pages(rod) if p.title.removesuffix(", both hands") == title)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLES)
def test_every_page_keeps_the_laws(name, paper):
    rod = sample(name, paper)
    check_pages(opened_joint_pages(rod), rod)


@pytest.mark.parametrize("name", SAMPLES)
def test_neither_board_is_mirrored(name):
    """The page's right, its up and the way to the eye are right-handed in the cabinet, for both boards."""
    for one in (o for first in opened_joints(sample(name)) for o in first.all):
        c = one.joint.contact
        right = c.along if one.datum_left else neg(c.along)
        up = c.across if one.face_above else neg(c.across)
        face = one.face_board.pose.direction_to_cabinet(outward(one.seen))
        assert dot(cross(right, up), face) == pytest.approx(1)
        if one.on_end and not one.from_outside:
            end = one.end_board.pose.direction_to_cabinet(outward(c.guest_register.bears))
            assert dot(cross(right, neg(up)), end) == pytest.approx(1)


@pytest.mark.parametrize("name", SAMPLES)
def test_no_number_or_place_is_taken_from_the_model(name):
    rod = sample(name)

    def part(p):
        return replace(p, features=tuple(replace(f, at=(1.0, 2.0, 3.0)) for f in p.features))

    moved = replace(rod, cabinets=tuple(replace(c, parts=tuple(part(p) for p in c.parts)) for c in rod.cabinets))
    assert opened_joint_pages(moved) == opened_joint_pages(rod)


def test_the_front_of_a_left_joint_is_at_the_left_and_of_a_right_joint_at_the_right():
    for page in opened_joint_pages(glaze()):
        at = {s.text: s.at[0] for s in page.shapes if isinstance(s, Text) and s.text in ("FRONT", "40", "280")}
        if "FRONT" in at:
            left = "LEFT" in page.title
            assert (at["FRONT"] < at["40"] < at["280"]) == left
            assert (at["FRONT"] > at["40"] > at["280"]) == (not left)


def test_there_is_one_page_for_each_kind_and_it_names_the_others():
    pages = opened_joint_pages(glaze())
    assert [p.title for p in pages] == [
        "G1 TOP to LEFT SIDE, both hands", "G1 FIXED SHELF to LEFT SIDE, both hands", "G1 BACK into LEFT SIDE",
    ]  # fmt: skip
    assert pages[0].under == "corner: 4 x dowel 8x30, glued. Also G2 and bottom to right side (page turned round)."
    assert pages[0].right == "settings S9, S12 and S13"


def test_a_groove_that_runs_otherwise_in_another_cabinet_says_in_which():
    """The left sides of both are grooved at one setting, each as long as it is: a name alone would be either."""
    grooved = {"back": back("grooved all round")}
    made = rod_of(job(cabinet(count=2, **grooved), cabinet(name="kiln", mark="K", height_mm=900.0, **grooved)))
    page = next(p for p in opened_joint_pages(made) if "BACK into LEFT SIDE" in p.title)
    said = " ".join(texts(page))
    assert "left side and right side of G1 and G2: 8.6 to 711.4 from the BOTTOM end" in said
    assert "left side and right side of K1: 8.6 to 891.4 from the BOTTOM end" in said
    assert page.under.endswith("Also G2, back into right side, back into top, back into bottom and K1.")


def test_every_cabinet_that_a_page_serves_is_named_on_it():
    others = [cabinet(name=f"kiln {n}", mark=mark, width_mm=600.0 + 100 * n) for n, mark in enumerate("KLMN", 1)]
    for page in opened_joint_pages(rod_of(job(cabinet(), *others))):
        said = " ".join([page.title, page.under, *texts(page)])
        assert all(mark in said for mark in ("K1", "L1", "M1", "N1")), page.title


def test_settings_are_all_named_three_and_more_in_a_row_as_a_run():
    assert runs_words(["S9", "S10", "S11", "S24", "S25", "S27"]) == "S9 to S11, S24, S25 and S27"
    assert runs_words(["S9", "S10"]) == "S9 and S10"


def test_a_jagged_edge_does_not_stick_out_of_the_break_in_a_long_board():
    made = rod(width_mm=2400.0, back=back("planted"))
    found = 0
    for page in opened_joint_pages(made):
        paths = [s for s in page.shapes if isinstance(s, Path_)]
        for n, s in enumerate(paths):
            if s.closed and s.fill == "white" and s.pen.ink == "none":
                (x0, y0), (x1, y1) = s.points[0], s.points[2]
                under = [p for q in paths[:n] if len(q.points) > 7 and not q.closed for p in q.points]
                inside = [y for x, y in under if x0 < x < x1 and min(abs(y - y0), abs(y - y1)) < 2.0]
                found += len(inside)
                assert all(y0 <= y <= y1 for y in inside), page.title
    assert found


def test_a_page_for_both_hands_says_which_are_the_mirror_and_where_the_fence_goes_for_each():
    said = " ".join(texts(page_of(glaze(), "G1 TOP to LEFT SIDE")))
    assert "The other hand, all of it in a mirror: bottom to left side and top to right side." in said
    assert "Fence on the TOP end: S13; on the BOTTOM end: S12." in said


@pytest.mark.parametrize("name", SAMPLES)
def test_the_joints_of_one_page_have_its_numbers_and_are_its_picture_or_that_in_a_mirror(name):
    for one in opened_joints(sample(name)):
        for o in (*one.others, *one.other_hand):
            if not one.holds_back:
                assert (o.hand == one.hand) == (o in one.others)
                assert drawn_at(o) == drawn_at(one)


def drawn_at(one):
    """Where everything that is worked for a joint comes on its page, along the run and across."""
    places = [*(one.face_uv(w) for w in one.on_face), *(one.end_uv(w) for w in one.on_end)]
    return sorted(round(mm, 2) for along, across in places for mm in (*along[: not one.is_channel], *across))


def test_one_page_serves_drawers_of_several_heights_and_says_the_numbers_of_each():
    made = rod_of_text(GROOVED, 'drawers = { number = 4, bottom_board = "birch6", joint = "dowels" }')
    page = next(p for p in opened_joint_pages(made) if "BOX FRONT" in p.title)
    said = " ".join(texts(page))
    for cabinet_ in made.cabinets:
        for joint in cabinet_.joints:
            one = next(o for p in opened_joints(made) for o in p.all if o.joint is joint)
            if one.in_drawer:
                assert listed([figure(mm) for mm in one.numbers_along]) in said
    assert len([p for p in opened_joint_pages(made) if "BOX FRONT to" in p.title]) == 1


@pytest.mark.parametrize("name", SAMPLES)
def test_every_joint_that_is_set_out_is_on_a_page(name):
    rod = sample(name)
    shown = [(o.cabinet.name, o.joint.id) for first in opened_joints(rod) for o in first.all]
    set_out = {(s.cabinet, s.feature) for setup in rod.setups for s in setup.features if s.feature}
    due = [
        (c.name, j.id)
        for c in rod.cabinets
        for j in c.joints
        if any((c.name, h.feature) in set_out for f in j.fixings for h in (*f.halves, *f.others))
    ]
    assert sorted(shown) == sorted(due)


def test_the_same_numbers_stand_on_both_sides_of_the_fold():
    page = page_of(glaze(), "G1 TOP to LEFT SIDE")
    big = [s for s in page.shapes if isinstance(s, Text) and s.size >= 14]
    assert [s.text for s in big if s.at[0] < 100] == ["9.0", "9.0"]
    assert {s.text for s in big if s.at[0] > 100} == {"20", "12"}
    assert [texts(page).count(n) for n in ("40", "136", "232", "280")] == [1, 1, 1, 1]
    assert "leaves 3.6 under the point" in texts(page)  # 17.6 board, 12 deep, 2 mm point: common practice, no source
    assert "inside of top comes to here (17.6)" in texts(page)


def test_the_two_halves_lie_over_each_other_and_as_far_from_the_thick_lines_as_printed():
    one = opened_joints(glaze())[0]
    circles = [s for s in opened_shapes(one, Area(left=0, bottom=0, right=273, top=110)) if isinstance(s, Circle)]
    upper = sorted(c.centre for c in circles if c.centre[1] > sum(c.centre[1] for c in circles) / len(circles))
    lower = sorted(c.centre for c in circles if c.centre not in upper)
    assert [x for x, _ in upper] == pytest.approx([x for x, _ in lower])
    scale = (upper[1][0] - upper[0][0]) / (136 - 40)
    assert upper[3][0] - upper[0][0] == pytest.approx((280 - 40) * scale)
    assert upper[0][1] - lower[0][1] == pytest.approx(2 * 9.0 * scale + 2 * 8.0)  # offsets, and the fold between


def test_a_set_back_is_boxed_on_both_rows_with_its_reason_between():
    page = page_of(rod(shelf_set_back_mm=20.0), "G1 FIXED SHELF to LEFT SIDE")
    assert {"40", "60", "136", "156"} <= set(texts(page))
    assert "the fixed shelf stands 20 behind the left side's front edge" in texts(page)


def test_a_rail_under_the_top_stands_below_it_and_no_groove_strikes_out_what_is_said_of_it():
    """Fixing rail 100 high under a top of 17.6, against a back in grooves whose wall is where its back face comes."""
    made = rod_of_text(GROOVED, "rails = { fixing = 100 }")
    page = next(p for p in opened_joint_pages(made) if "FIXING RAIL to LEFT SIDE" in p.title)
    assert "the fixing rail stands 17.6 below the left side's top end" in texts(page)
    (drawing,) = numbered((page,), made)
    assert struck_out(drawing) == overlaps([s for s in page.shapes if isinstance(s, Text)]) == []


def test_a_line_is_boxed_and_the_fence_is_from_it():
    page = page_of(glaze(), "G1 FIXED SHELF to LEFT SIDE")
    assert "line 351" in texts(page)
    assert "from the BOTTOM end" in texts(page)
    assert texts(page).count("9.0") == 2
    assert "360" not in texts(page)


def test_a_thicker_board_moves_no_figure_that_is_set():
    """17.6 or 18.2: fence, depths and front positions are the same to the figure."""
    pages = [page_of(rod_of(job(cabinet(), thickness=t)), "G1 TOP to LEFT SIDE") for t in (17.6, 18.2)]
    figures = [[s.text for s in p.shapes if isinstance(s, Text) and s.size >= 8] for p in pages]
    assert figures[0] == figures[1]
    assert "9.0" in figures[0]


def test_screws_in_place_have_no_second_half_to_set_out():
    page = page_of(sample("screws, housings, rebate"), "G1 TOP to LEFT SIDE")
    assert "LEFT SIDE, its outside" in texts(page)
    assert "bored in place, through the other board" in texts(page)
    assert texts(page).count("9.0") == 1


def test_a_mixed_corner_shows_both_families():
    page = page_of(sample("dowels and plugged screws, planted"), "G1 TOP to LEFT SIDE")
    assert {"dowel bores 8", "pilot bores 3", "clearance bores 4.5", "counterbores 10"} <= set(texts(page))
    assert "2 x dowel 8x30, 2 x screw 4x40" in page.under


def test_a_housing_is_cut_through_with_its_line_and_one_half_only():
    page = page_of(sample("screws, housings, rebate"), "G1 FIXED SHELF into LEFT SIDE")
    assert {"17.7", "6", "line 351", "X"} <= set(texts(page))
    assert "One wall is on the line" in " ".join(texts(page))


def test_bench_pictures_name_the_surface_up_and_the_fence():
    said = texts(page_of(glaze(), "G1 TOP to LEFT SIDE"))
    assert {"TOP, outside up", "fence on the OUTSIDE", "LEFT SIDE, inside up", "TOP END"} <= set(said)
    assert "S9, fence 9.0, depth 20, front edge to the stop" in said
    assert "S13, fence 9.0 (as it is), depth 12, front edge to the stop" in said


def test_golden_opened_corner(golden):
    area = Area(left=5, bottom=2, right=205, top=92)
    shapes = opened_shapes(opened_joints(glaze())[0], area)
    golden("opened-corner.svg", svg(Drawing(width=210, height=94, shapes=shapes), 2))
