"""A planted back under a slope, and the high side bevelled alone: by plane trigonometry, worked here from the two heights.

That a planted back stays 1 mm inside the carcass all round is common practice, no source.
"""

from dataclasses import replace
from math import atan2, cos, degrees, hypot, radians, tan

import pytest

from rodwork.documents.hulls import outside_heights
from rodwork.documents.opened_joint import opened_joint_pages
from rodwork.documents.settings_list import setting_bands
from rodwork.pipeline import dry_fit, load, set_out
from rodwork.setout.proof import prove
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps
from tests.inside.test_under_slope import BACK, INSIDE, LOW, H, T, W, eaves, refused, text

PLANTED = 'back = { board = "birch6", style = "planted" }'
SHY, NARROW = 1.0, 900.0
TOPS = ', side_tops = "high side bevelled"'


def roof(degs, hand="right"):
    return f'falls = "{hand}", degrees = {degs}{TOPS}'


def shoelace(outline):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, (*outline[1:], outline[0]), strict=True))) / 2


def test_with_the_high_side_bevelled_the_slope_runs_from_its_outside_to_the_inside_of_the_low_one():
    c, rise = eaves(BACK, roof=f'falls = "right", low = {LOW:g}{TOPS}'), atan2(H - LOW, W - T)
    assert outside_heights(c) == pytest.approx((H, LOW))
    assert (c.part["left side"].size[0], c.part["right side"].size[0]) == pytest.approx((H, LOW))
    assert c.part["top"].size[0] == pytest.approx((W - 2 * T) / cos(rise) + T * tan(rise))
    bevels = {p.id: sorted(b for b in p.bevels if b) for p in c.parts if any(p.bevels)}
    assert bevels == {
        "top": pytest.approx([-degrees(rise), degrees(rise)]),
        "left side": pytest.approx([degrees(rise)]),
    }


@pytest.mark.parametrize("hand", ["left", "right"])
@pytest.mark.parametrize("degs", [4, 20, 45, 46])
def test_a_planted_back_ends_a_millimetre_under_the_slope_and_inside_the_sides(hand, degs):
    size = f"width = {NARROW:g}\nheight = {H:g}\ndepth = 400"
    c, rise = eaves(PLANTED, INSIDE, roof=roof(degs, hand), size=size), radians(degs)
    back = c.part["back"]
    corners = sorted((p[0], p[2]) for p in (back.pose.to_cabinet((x, y, 0.0)) for x, y in back.outline))
    left, right = SHY, NARROW - SHY
    ends = [H - from_high * tan(rise) - SHY / cos(rise) for from_high in (SHY, NARROW - SHY)]
    want = [(left, SHY), (left, ends[hand == "left"]), (right, SHY), (right, ends[hand == "right"])]
    assert [q for p in corners for q in p] == pytest.approx([q for p in want for q in p], abs=1e-5)
    mean = (want[1][1] + want[3][1]) / 2 - SHY
    assert shoelace(back.outline) == pytest.approx(mean * (right - left))
    assert back.weight.kg == pytest.approx(mean * (right - left) * 5.8 * 680e-9, rel=1e-4)
    assert overlaps(c) == []
    # places are kept to the millionth of a mm, which at an angle is a trace of wood
    assert [o for o in connectors_that_do_not_go_home(c) if getattr(o, "mm3", 1.0) > 1e-3] == []


@pytest.mark.parametrize("degs", [4, 20, 40])
def test_every_screw_of_it_goes_into_its_board_and_keeps_its_wood_to_the_sloping_edge(degs):
    c = eaves(PLANTED, INSIDE, roof=roof(degs))
    back = c.part["back"]
    (ax, ay), (bx, by) = next(
        (p, q) for p, q in zip(back.outline, (*back.outline[1:], back.outline[0]), strict=True)
        if abs(p[0] - q[0]) > 1 and abs(p[1] - q[1]) > 1
    )  # fmt: skip
    for f in (f for f in back.features if f.role == "clearance"):
        off = abs((bx - ax) * (f.at[1] - ay) - (by - ay) * (f.at[0] - ax)) / hypot(bx - ax, by - ay)
        assert off > 3.5, f.id  # a countersink of 7
        if "top" in f.joint:
            assert off == pytest.approx(T / 2 - SHY, abs=0.5), f.id  # the middle of the top, to half a millimetre
            x, _, z = back.pose.to_cabinet(f.at)
            inside = c.part["top"].pose.to_part((x, 394.2 - 5, z))
            assert 5 < inside[0] < c.part["top"].size[0] - 5


def test_along_the_slope_every_screw_is_marked_from_two_square_edges_and_proven():
    rod = set_out(text(PLANTED, roof=roof(30)), "eaves.toml")
    (setup,) = (s for s in rod.setups if any(d.feature and d.feature.startswith("back / top") for d in s.features))
    assert setup.fence is None
    assert {d.along.word for d in setup.features} == {"left edge"}
    assert {d.across.word for d in setup.features} == {"bottom end"}
    assert len({d.across.mm for d in setup.features}) == len(setup.features)
    (band,) = (b for b in setting_bands(rod) if b.setup is setup)
    first = min(setup.features, key=lambda d: d.along.mm)
    assert band.boards[0].at.startswith(f"{first.along.mm:g} by {first.across.mm:g}")
    assert band.boards[0].from_word == "left edge and then the bottom end"
    assert "where its two marks cross" in setup.first_off
    for n, done in enumerate(setup.features):
        for reading in ("along", "across"):
            was = getattr(done, reading)
            wrong = replace(done, **{reading: replace(was, mm=was.mm + 1.0)})
            features = tuple(wrong if k == n else d for k, d in enumerate(setup.features))
            setups = tuple(replace(s, features=features) if s is setup else s for s in rod.setups)
            assert prove(replace(rod, setups=setups)), (done.feature, reading)


def test_no_opened_joint_is_drawn_of_the_row_that_runs_askew():
    titles = [p.title for p in opened_joint_pages(set_out(text(PLANTED, roof=roof(30)), "eaves.toml"))]
    assert any("LEFT SIDE to BACK" in t for t in titles)
    assert not any("TOP to BACK" in t for t in titles)


def test_it_is_reckoned_at_every_station():
    rod = set_out(text(PLANTED, INSIDE, roof=roof(30)), "eaves.toml")
    assert load(rod).cabinets[0].shelves
    assert 0.0 <= dry_fit(rod, samples=40).cabinets[0].chance <= 1.0


def test_behind_square_tops_it_is_refused_with_the_word_that_mends_it():
    told = refused(PLANTED)
    assert "would stand above it" in told
    assert 'roof = { side_tops = "high side bevelled" }' in told
