"""The joint cut through: what is left of the two boards fits together, for every family, and the page shows it."""

import pytest
from manifold3d import CrossSection, FillRule
from tests.building import back, cabinet, edge_to_edge, job, recipe, rod_of
from tests.documents.page_laws import check_pages

from rodwork.documents.drawing import Path_, Text
from rodwork.documents.going_home import _loose, _section, home_shapes
from rodwork.documents.joint_kinds import opened_joints
from rodwork.documents.opened_joint import opened_joint_pages
from rodwork.joints.registry import joint_kinds

KINDS = joint_kinds()


def made_with(name):
    """A Rod in which the family is used wherever it can stand."""
    kind = KINDS[name]
    joint = {word: recipe(name if place in kind.places else "dowel")
             for word, place in (("corner_joint", "corner"), ("shelf_joint", "fixed shelf"))}  # fmt: skip
    style = kind.backs[0] if kind.backs else None
    held = back(style, **({"board": "birch18"} if style == "inset" else {})) if style else None
    if "corner" not in kind.places and "mitre" in kind.places:
        joint = {"sides": "mitred", "corner_joint": recipe(name)}
    return rod_of(job(cabinet(depth_mm=420.0, back=held, **joint)))


@pytest.mark.parametrize("name", KINDS)
def test_the_two_cut_boards_do_not_lie_in_one_another_when_they_are_home(name):
    ours = [one for one in opened_joints(made_with(name)) if name in {f.family for f in one.joint.fixings}]
    assert ours
    for one in ours:
        host, guest = _section(one, one.face_board), _section(one, one.end_board)
        assert host.area() > 0
        assert guest.area() > 0
        assert (host ^ guest).area() < 0.5, one.joint.id  # rounding of a printed line: a tenth along one face


@pytest.mark.parametrize("name", KINDS)
def test_what_stands_loose_in_a_joint_lies_in_neither_board_and_bridges_both(name):
    for one in opened_joints(made_with(name)):
        host, guest = _section(one, one.face_board), _section(one, one.end_board)
        for bar in _loose(one):
            thing = CrossSection([bar], FillRule.NonZero)
            assert (thing ^ host).area() < 0.5
            assert (thing ^ guest).area() < 0.5
            assert min(w for _, w in bar) < -1.0
            assert max(w for _, w in bar) > 1.0


def test_a_dowel_is_drawn_in_its_bores_apart_and_home():
    """8 x 30 in bores of 12 and 20: 11 and 19 of it, 1 of air at either floor; a cam's two halves are no dowel."""
    (one,) = [o for o in opened_joints(made_with("dowel")) if "TOP" in o.end_board.name.upper()][:1]
    ((bar),) = _loose(one)
    assert [max(w for _, w in bar), min(w for _, w in bar)] == pytest.approx([19.0, -11.0])
    assert max(v for v, _ in bar) - min(v for v, _ in bar) == pytest.approx(8.0)
    black = [s for s in home_shapes(one, 0.0, 0.0, 38.0) if isinstance(s, Path_) and s.fill == "black"]
    assert len([s for s in black if len(s.points) == 4]) == 2
    assert not any(_loose(o) for o in opened_joints(made_with("cam")) if {f.family for f in o.joint.fixings} == {"cam"})


@pytest.mark.parametrize("name", KINDS)
def test_every_family_has_its_page_with_the_joint_apart_and_home_and_keeps_the_laws_of_pages(name):
    rod = made_with(name)
    pages = opened_joint_pages(rod)
    check_pages(pages, rod)
    for page in pages:
        said = [s.text for s in page.shapes if isinstance(s, Text)]
        assert ("How it goes home" in said) == ("apart" in said) == ("home" in said)
    assert any("home" in [s.text for s in page.shapes if isinstance(s, Text)] for page in pages)


def test_two_depths_on_the_board_above_the_fold_stay_under_the_title():
    """Dowels and tenons in one corner: 20 and 15 deep in the top's end, one figure over the other."""
    corner = recipe(("dowel", {"count": 2, "depth_in_end_mm": 22.0}), "loose tenon")
    rod = rod_of(job(cabinet(corner_joint=corner, depth_mm=500.0)))
    check_pages(opened_joint_pages(rod), rod)


def test_boards_joined_edge_to_edge_are_cut_through_too():
    rod = edge_to_edge(recipe("biscuit"))
    (one,) = opened_joints(rod)
    host, guest = _section(one, one.face_board), _section(one, one.end_board)
    assert host.bounds()[3] == pytest.approx(0.0)
    assert guest.bounds()[1] == pytest.approx(0.0)
    assert host.area() == pytest.approx(guest.area() + 17.6 * (26.0 - 16.9), abs=0.1)
