"""A cabinet under a sloping ceiling: sides of different height and the top on the slope between them.

Its sizes are those of plane trigonometry, worked here from the two heights and the width; no published plan of one is
known to us. How its ends and tops are cut is common practice, no source.
"""

from dataclasses import replace
from math import atan2, cos, degrees, hypot, tan

import pytest

from rodwork.documents.assembly import diagonals
from rodwork.documents.assembly_order import assembly_steps
from rodwork.documents.hulls import hull_of, outside_heights
from rodwork.documents.solids import part_mesh, volume_mm3
from rodwork.job.faults import JobFaults
from rodwork.pipeline import dry_fit, load, set_out
from rodwork.setout.proof import prove
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps
from tests.texts import HEAD, joint

T, W, H, LOW = 17.6, 1200.0, 1400.0, 700.0
BACK = 'back = { board = "birch6", style = "grooved all round", void = 18 }'
INSIDE = "dividers = 1\nfixed_shelves = 1\nloose_shelves = 2"
FALLS = f'falls = "right", low = {LOW:g}'
FLAT = f'falls = "right", low = {H - 120:g}'  # on a flatter slope more families have room


def text(*lines, roof=FALLS, joints="", size=f"width = {W:g}\nheight = {H:g}\ndepth = 400"):
    own = "\n".join((size, f"roof = {{ {roof} }}", *lines))
    return f'{HEAD}{joints}\n[cabinets.eaves]\nkind = "under slope"\nboard = "birch18"\n{own}\n'


def eaves(*lines, **said):
    rod = set_out(text(*lines, **said), "eaves.toml")
    assert [f.message for f in prove(rod)] == []
    (cabinet,) = rod.cabinets
    return cabinet


def refused(*lines, **said):
    with pytest.raises(JobFaults) as problem:
        set_out(text(*lines, **said), "eaves.toml")
    (fault,) = problem.value.faults
    assert fault.line is not None
    return f"{fault.what} {fault.mend}"


# sizes


def test_with_square_tops_every_board_has_the_size_that_trigonometry_gives_it():
    c, rise = eaves(BACK, INSIDE), atan2(H - LOW, W - 2 * T)
    assert c.part["left side"].size[0] == pytest.approx(H)
    assert c.part["right side"].size[0] == pytest.approx(LOW)
    assert c.part["top"].size[0] == pytest.approx((W - 2 * T) / cos(rise) + T * tan(rise))
    plumb, from_left = T / cos(rise), (W - 3 * T) / 2  # of the top, and of the divider's left face from the left side
    assert c.part["divider"].size[0] == pytest.approx(H - from_left * tan(rise) - plumb - T)
    back, reach = c.part["back"], T - c.part["back"].box[0][0]
    ends = [H - x * tan(rise) - plumb + reach / cos(rise) - (T - reach) for x in (-reach, W - 2 * T + reach)]
    assert back.size[:2] == pytest.approx((max(ends), W - 2 * T + 2 * reach))
    from_top = [max(ends) - x for x, _ in back.outline]  # it lies with its top end to the left
    assert sorted(from_top) == pytest.approx([0.0, 0.0, min(ends), max(ends)], abs=1e-6)


def test_with_bevelled_tops_the_slope_runs_from_outside_to_outside():
    c, rise = eaves(roof=FLAT + ', side_tops = "bevelled"'), atan2(120.0, W)
    assert outside_heights(c) == pytest.approx((H, H - 120))
    assert c.part["left side"].size[0] == pytest.approx(H)
    assert c.part["right side"].size[0] == pytest.approx(H - 120 + T * tan(rise))  # to its long point, inside
    assert c.part["top"].size[0] == pytest.approx((W - 2 * T) / cos(rise) + T * tan(rise))


def test_the_slope_may_be_said_in_degrees():
    said = eaves(roof=f'falls = "right", degrees = {degrees(atan2(H - LOW, W - 2 * T))}')
    for part in eaves().parts:
        assert said.part[part.id].size == pytest.approx(part.size, abs=1e-6)


def test_every_end_on_the_slope_is_bevelled_by_the_slope_and_no_other():
    c, rise = eaves(BACK, INSIDE), degrees(atan2(H - LOW, W - 2 * T))
    bevels = {p.id: sorted(b for b in p.bevels if b) for p in c.parts if any(p.bevels)}
    assert bevels == {"top": pytest.approx([-rise, rise]), "divider": pytest.approx([-rise])}


def test_falling_to_the_left_it_is_the_mirror_image():
    right, left = (eaves(BACK, INSIDE, roof=f'falls = "{hand}", low = {LOW:g}') for hand in ("right", "left"))

    def corners(cabinet, hand):
        out = {}
        for part in cabinet.parts:
            points = [part.pose.to_cabinet((x, y, part.size[2])) for x, y in part.outline]
            name = part.id if hand == "right" else part.id.replace("left", "@").replace("right", "left")
            out[name.replace("@", "right")] = sorted((x if hand == "right" else W - x, y, z) for x, y, z in points)
        return out

    mirrored = corners(left, "left")
    for name, points in corners(right, "right").items():
        if name.startswith(("left", "right", "top", "bottom", "back")):
            assert [p for q in mirrored[name] for p in q] == pytest.approx([p for q in points for p in q], abs=1e-5), (
                name
            )


def test_the_openings_are_clear_as_high_as_at_the_low_side():
    c, rise = eaves("fixed_shelves = 1"), atan2(H - LOW, W - 2 * T)
    assert sum(o.comes_to for o in c.asked.openings) + T == pytest.approx(LOW - T / cos(rise) - T, abs=1e-3)


# joints


@pytest.mark.parametrize(
    "family", ["biscuit", "screw", "loose tenon", "dowel", "quarter-turn connector", "clip-in connector"]
)
@pytest.mark.parametrize("falls", ["left", "right"])
def test_what_joins_the_slope_goes_home_and_no_two_boards_overlap(family, falls):
    made = joint("slope", f'"{family}"')
    c = eaves(BACK, INSIDE, joints=made, roof=f'falls = "{falls}", low = {H - 120:g}, joint = "slope"')
    assert overlaps(c) == []
    # places are kept to the millionth of a mm, which at an angle is a trace of wood
    assert [o for o in connectors_that_do_not_go_home(c) if getattr(o, "mm3", 1.0) > 1e-3] == []
    sloped = [j for j in c.joints if j.contact.place == "on a slope"]
    assert len(sloped) == 3
    assert {f.family for j in sloped for f in j.fixings} == {family}


def test_a_fixing_at_a_plumb_end_goes_in_level_and_under_the_top_square_to_the_slope():
    c, rise = eaves(BACK, INSIDE), atan2(H - LOW, W - 2 * T)
    for joint_id, want in (("left side / top", (1.0, 0.0, 0.0)), ("right side / top", (-1.0, 0.0, 0.0))):
        assert c.joint[joint_id].contact.out == pytest.approx(want)
    sin_rise = (1 - cos(rise) ** 2) ** 0.5
    assert c.joint["top / divider"].contact.out == pytest.approx((-sin_rise, 0.0, -cos(rise)))


def test_the_long_connectors_are_refused_on_a_steep_slope_with_a_way_out():
    told = refused(BACK, joints=joint("slope", '"dowel"'), roof=FALLS + ', joint = "slope"')
    assert "bore for a dowel 8x30, 20 deep in the bevelled end of a 17.6 mm board comes within 3 mm" in told
    assert "biscuits" in told


def test_what_would_come_out_at_a_bevelled_top_of_the_low_side_is_refused():
    told = refused(BACK, roof=FALLS + ', side_tops = "bevelled"')
    assert "top to right side: what goes 12 into the side there comes out at its bevelled end" in told
    assert 'side_tops = "square"' in told


# the proof


def test_a_mark_of_the_line_that_the_back_is_sawn_to_is_proven():
    rod = set_out(text(BACK), "eaves.toml")
    setup = next(s for s in rod.setups if s.tool == "saw, to a line")
    (done,) = setup.features
    assert (done.along.mm, done.along.end_mm) == (pytest.approx(1377.1), pytest.approx(670.5))  # as worked above
    for change in ({"mm": done.along.mm + 1.0}, {"end_mm": done.along.end_mm - 1.0}):
        wrong = replace(setup, features=(replace(done, along=replace(done.along, **change)),))
        faults = prove(replace(rod, setups=tuple(wrong if s is setup else s for s in rod.setups)))
        assert any("a mark of the line that an edge is sawn to" in f.message for f in faults), change
    faults = prove(replace(rod, setups=tuple(s for s in rod.setups if s is not setup)))
    assert any("runs askew" in f.message for f in faults)


def test_a_number_on_the_slope_that_is_wrong_is_told():
    rod = set_out(text(BACK, INSIDE), "eaves.toml")
    for setup in rod.setups:
        for done in setup.features:
            if done.feature is None or "top" not in done.feature.split(" ") or done.across is None:
                continue
            wrong = replace(done, across=replace(done.across, mm=done.across.mm + 1.0))
            features = tuple(wrong if d is done else d for d in setup.features)
            changed = tuple(replace(s, features=features) if s is setup else s for s in rod.setups)
            assert prove(replace(rod, setups=changed)), done.feature


# papers


def test_it_goes_together_in_an_order_with_the_top_pushed_square_to_the_slope():
    c = eaves(BACK, INSIDE)
    steps = assembly_steps(c)
    assert {i for s in steps for i in s.new} | set(steps[0].there) == {p.id for p in c.parts}
    push = next(s.push for s in steps if {"top", "divider"} & set(s.new) and {"top", "divider"} & set(s.on))
    assert push == pytest.approx(tuple(-x for x in c.joint["top / divider"].contact.out)) or push == pytest.approx(
        c.joint["top / divider"].contact.out
    )


def test_its_two_diagonals_are_those_of_the_front_that_is_built():
    found = diagonals(eaves(BACK))
    assert (found.outer, found.falling) == pytest.approx((hypot(W, LOW), hypot(W, H)))


def test_the_solid_that_is_drawn_is_the_board_before_machining():
    for part in eaves().parts:
        hull, bare = hull_of(part), replace(part, features=())
        if hull is not None:
            fans = [(face[0], face[k], face[k + 1]) for face in hull.faces for k in range(1, len(face) - 1)]
            volume = sum(a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0])
                         + a[2] * (b[0] * c[1] - b[1] * c[0]) for a, b, c in fans) / 6  # fmt: skip
            assert volume == pytest.approx(volume_mm3(part_mesh(bare)), rel=1e-6), part.id
            assert volume == pytest.approx(part.weight.kg / (680.0 * 1e-9), rel=1e-3), part.id


def test_the_stations_after_it_give_an_answer():
    rod = set_out(text(BACK, INSIDE), "eaves.toml")
    assert load(rod).cabinets[0].shelves
    assert 0.0 <= dry_fit(rod, samples=40).cabinets[0].chance <= 1.0


# what cannot be


@pytest.mark.parametrize(("lines", "roof", "said"), [
    ((), 'falls = "right", low = 1400', "does not fall"),
    ((), 'falls = "right", low = 1380', "the top slopes 1.0 degrees"),
    ((), 'falls = "right", degrees = 75', "up to 60 degrees can be built"),
    ((), 'falls = "right", low = 120', "is clear inside at the low side"),
    (("sides = \"between\"",), FALLS, "a sloping top stands between the sides"),
    (("rails = { fixing = 90 }",), FALLS, "rails want a level top"),
    (('feet = { style = "notched sides" }',), FALLS, "not notched"),
    (('back = { board = "birch6", style = "planted" }',), FALLS, 'side_tops = "high side bevelled"'),
    (('back = { board = "birch6", style = "inset" }',), FALLS, "Choose a back grooved all round, rebated or planted"),
    (('fixed_shelves = 1', 'drawers = { number = 2, bottom_board = "birch6" }'), FALLS, "opening = 1"),
    ((), 'falls = "right"', "neither how high the low side is nor how steep"),
    ((), f'{FALLS}, degrees = 30', "say the same thing in two ways"),
    ((), 'falls = "down", low = 700', "left"),
    ((), 'falls = "right", low = "nan"', "low"),
    ((), 'falls = "right", low = -700', "low"),
    ((), 'falls = "right", lo = 700', "low"),
    ((), f'{FALLS}, joint = "sloped"', "sloped"),
])  # fmt: skip
def test_what_cannot_be_built_is_refused_with_its_reason(lines, roof, said):
    with pytest.raises(JobFaults) as problem:
        set_out(text(*lines, roof=roof), "eaves.toml")
    told = " ".join(f"{f.what} {f.mend}" for f in problem.value.faults)
    assert said in told, told
    assert all(f.line is not None and f.mend for f in problem.value.faults)


def test_a_divider_is_let_into_nothing():
    joints = joint("let_in", '"housing", depth = 6') + joint("pegs", '"dowel"')
    told = refused("dividers = 1", 'joint = "pegs"', 'divider_joint = "let_in"', joints=joints)
    assert "bevelled" in told
    assert "divider_joint" in told


def test_it_stands_in_no_run():
    with pytest.raises(JobFaults) as problem:
        set_out(f'{text()}\n[runs.wall]\nof = ["eaves"]\n', "eaves.toml")
    (fault,) = problem.value.faults
    assert fault.path == ("runs", "wall", "of", 0)
    assert "slopes" in fault.what
    assert 'Leave "eaves" out' in fault.mend


@pytest.mark.parametrize(("left", "goes"), [(240, True), (900, False)])
def test_a_cut_out_in_the_back_lies_below_the_slope(left, goes):
    """At 240 from the left the slope is 1,280 up, at 900 no more than 880."""
    cut = f'[{{ for = "flue", left = {left}, bottom = 1000, width = 100, height = 100 }}]'
    lines = BACK.replace(" }", f", cut_outs = {cut} }}")
    if goes:
        assert any(f.role == "service" for f in eaves(lines).part["back"].features)
    else:
        assert "runs out of it" in refused(lines)


def test_the_kind_alone_asks_how_the_slope_runs():
    with pytest.raises(JobFaults) as problem:
        set_out(text().replace(f"roof = {{ {FALLS} }}\n", ""), "eaves.toml")
    (fault,) = problem.value.faults
    assert 'roof = { falls = "right", low = 700 }' in fault.mend
