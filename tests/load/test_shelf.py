"""Shelves: published cases with the catalogue's figures, laws, and shelves read from a Rod."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rodwork.load.held import held_at
from rodwork.load.section import Strip
from rodwork.load.shelf import Across, Limits, Shelf, longest_span_mm, sagged, strip_under
from rodwork.load.shelves import shelf_loads
from rodwork.load.station import load_of
from rodwork.model import demand
from rodwork.model.demand import Contents, Declared, SagLimits
from tests.building import back, cabinet, job, recipe, rod, rod_of

LIMITS = Limits(straight_1_in=400.0, sound_1_in=240.0, most_mm=6.4)


def shelf(length=800.0, depth=300.0, thick=18.0, E=2500.0, kg=20.0, creep=0.5, **changes):
    strip = Strip(
        width_mm=depth, height_mm=thick, middle_mm=0.0, stiffness_N_per_mm2=E, shear_N_per_mm2=None,
        strength_N_per_mm2=3.0,
    )  # fmt: skip
    made = Shelf(
        strips=(strip,), length_mm=length, at_mm=(0.0, length), turning_Nmm_per_rad=(0.0, 0.0), weight_N_per_mm=0.0,
        even_N_per_mm=kg * 9.81 / length, middle_N=0.0, creep=creep, limits=LIMITS,
    )  # fmt: skip
    return replace(made, **changes)


def test_the_mdf_associations_shelf_new_and_later():
    """mdf-info.eu, verified: 800 x 300 x 18, E 2500, 20 kg: 3.588 mm new, half as much again later."""
    found = sagged(shelf())
    assert found.new_mm == pytest.approx(3.588477, rel=1e-6)
    assert found.later_mm == pytest.approx(1.5 * 3.588477, rel=1e-6)


def test_creep_of_a_p5_shelf_by_eurocode_5():
    """EN 1995-1-1, 2.2.3 (3): w (1 + kdef), kdef 2.25: 11.66255 mm (reckoned from the published factors)."""
    assert sagged(shelf(creep=2.25)).later_mm == pytest.approx(11.66255, rel=1e-5)


@pytest.mark.parametrize(("span", "sag", "sound"), [(900.0, 7.888, False), (600.0, 1.558, True)])
def test_kitchen_shelf_of_chipboard_by_kcma(span, sag, sound):
    """ANSI/KCMA A161.1, 5.1, second-hand: 718 Pa, 1/16 in per foot; E 1600 of EN 312 P2. 900 fails, 600 passes."""
    made = shelf(length=span, E=1600.0, even_N_per_mm=718e-6 * 300, limits=LIMITS)
    assert sagged(made).new_mm == pytest.approx(sag, rel=1e-3)
    kcma_mm = span / 304.8 * 1.5875
    assert (sag < kcma_mm) is sound
    assert sagged(made).sound_mm == pytest.approx(min(span / 240, kcma_mm), rel=1e-9)


def test_the_published_caps_of_sag():
    """1/16 in for each foot (3.125 mm at 600), never over 1/4 in: ANSI/KCMA A161.1, second-hand."""
    loose = Limits(straight_1_in=400.0, sound_1_in=50.0, most_mm=6.4)
    assert loose.sound_mm(600.0) == pytest.approx(3.125, abs=0.03)
    assert loose.sound_mm(1400.0) == pytest.approx(6.35, abs=0.06)


lengths, loads, thicknesses = st.floats(200, 2500), st.floats(0, 200), st.floats(8, 40)


@given(lengths, thicknesses, loads, st.floats(1.0, 3.0))
def test_more_load_never_means_a_larger_margin(length, thick, kg, more):
    light, heavy = sagged(shelf(length, thick=thick, kg=kg)), sagged(shelf(length, thick=thick, kg=kg * more))
    assert heavy.new_mm >= light.new_mm * (1 - 1e-12)
    for name in ("straight", "sound", "strong"):
        assert getattr(heavy, name) <= getattr(light, name) * (1 + 1e-12)


@given(lengths, thicknesses, st.floats(0.01, 1.0), st.floats(1.0, 3.0))
def test_a_longer_shelf_never_sags_less(length, thick, even, longer):
    def made(n):
        return sagged(shelf(n, thick=thick, even_N_per_mm=even))

    assert made(length * longer).new_mm >= made(length).new_mm * (1 - 1e-12)
    assert made(length * longer).least <= made(length).least * (1 + 1e-12)


@given(lengths, thicknesses, st.floats(0.02, 1.0))
def test_the_longest_span_is_where_the_first_limit_is_reached(length, thick, even):
    made = shelf(length, thick=thick, even_N_per_mm=even)
    longest = longest_span_mm(made)
    if longest is not None and longest < 10_000:
        at = replace(made, length_mm=longest, at_mm=(0.0, longest))
        assert sagged(at).least == pytest.approx(1.0, abs=0.01)


@given(st.floats(1, 1e4))
def test_changing_units_changes_nothing(k):
    """Lengths k times, loads so that stresses stay: margins are pure numbers and stay."""
    one = shelf()
    strip = replace(one.strips[0], width_mm=300 * k, height_mm=18 * k)
    limits = replace(LIMITS, most_mm=6.4 * k)
    two = replace(
        one,
        strips=(strip,),
        length_mm=800 * k,
        at_mm=(0.0, 800 * k),
        even_N_per_mm=one.even_N_per_mm * k,
        limits=limits,
    )
    a, b = sagged(one), sagged(two)
    assert (b.straight, b.sound, b.strong) == pytest.approx((a.straight, a.sound, a.strong), rel=1e-9)


def test_a_strip_under_the_edge_stiffens_more_the_deeper_it_is():
    sags = [sagged(strip_under(shelf(), h, 18.0)).new_mm for h in (20.0, 40.0, 60.0)]
    assert sags == sorted(sags, reverse=True)
    assert sags[0] < sagged(shelf()).new_mm


def test_a_shelf_held_over_part_of_its_depth_dips_more():
    whole = sagged(replace(shelf(), across=Across(depth_mm=300.0, first_mm=0.0, last_mm=300.0))).new_mm
    pins = sagged(replace(shelf(), across=Across(depth_mm=300.0, first_mm=37.0, last_mm=263.0))).new_mm
    at_the_back = sagged(replace(shelf(), across=Across(depth_mm=300.0, first_mm=200.0, last_mm=290.0))).new_mm
    assert whole < pins < at_the_back


# from the Rod ------------------------------------------------------------------------------------------------


def loads_of(**changes):
    made = rod(**changes)
    return {s.part: s for s in shelf_loads(made.cabinets[0], made)}


def test_every_shelf_and_bottom_is_reckoned_with_how_it_is_held():
    found = loads_of()
    assert set(found) == {"bottom", "fixed shelf", "loose shelf 1", "loose shelf 2"}
    assert found["loose shelf 1"].held == "on pins"
    assert found["bottom"].held == found["fixed shelf"].held == "jointed"
    assert all(s.margin is not None for s in found.values())
    assert found["bottom"].contents_kg == pytest.approx(60 * 0.5648 * 0.320, rel=1e-3)


def test_a_bottom_under_the_sides_spans_between_their_middles():
    bottom = loads_of(sides="between")["bottom"]
    assert bottom.span_mm == pytest.approx(600 - 17.6)


def test_a_housing_holds_the_whole_depth_and_dowels_only_to_the_first_and_last():
    def depths(**changes):
        made = rod(back=None, **changes)
        glaze = made.cabinets[0]
        return [(h.first_mm, h.last_mm) for h in held_at(glaze.part["fixed shelf"], glaze, made)]

    assert depths(shelf_joint=recipe("housing")) == [(0.0, 320.0)] * 2
    assert depths() == [(40.0, 280.0)] * 2


def test_more_inside_sags_more_and_the_heaviest_thing_counts():
    sags = [
        loads_of(contents=c)["fixed shelf"].new_mm
        for c in (None, Contents(kg_per_m2=0.0), Contents(kg_per_m2=60.0), Contents(kg_per_m2=60.0, heaviest_kg=10.0))
    ]
    assert sags[0] == sags[1] < sags[2] < sags[3]


def test_all_of_one_cabinet_is_shared_over_its_shelves_and_bottom():
    found = loads_of(contents=Contents(kg=40.0)).values()
    assert sum(s.contents_kg for s in found) == pytest.approx(40.0)


def test_a_use_of_the_catalogue_carries_its_source_to_the_result():
    made = rod(contents=Contents(of="books"))
    found = load_of(made).cabinets[0]
    assert found.contents == "books, 52 kg per m of shelf"
    assert found.contents_from.standing == "second-hand"
    assert found.shelves[0].contents_kg == pytest.approx(52 * 0.5648, rel=1e-3)


def test_ends_held_from_turning_as_tested_sag_less():
    made = rod()
    tested = demand.Tested(
        pull_N=None, shear_N=None, moment_Nmm=None, basis="working load", source="own", turning_Nmm_per_rad=1e6
    )
    stiff = replace(made, tested={"dowel 8x30": tested})
    free = shelf_loads(made.cabinets[0], made)[1]
    held = shelf_loads(stiff.cabinets[0], stiff)[1]
    assert held.new_mm < free.new_mm
    assert held.held == "jointed, stiff as tested"


def test_declared_figures_go_before_the_catalogue_and_are_told_as_entered():
    made = rod()
    boards = {
        n: replace(b, declared=Declared(stiffness_N_per_mm2=5024.0, strength_N_per_mm2=None, kdef=None, source="mill"))
        for n, b in made.boards.items()
    }
    declared = replace(made, boards=boards)
    soft, stiff = shelf_loads(declared.cabinets[0], declared)[0], shelf_loads(made.cabinets[0], made)[0]
    assert soft.stiffness.standing == "entered"
    assert soft.stiffness.source == "mill"
    assert soft.new_mm == pytest.approx(2 * stiff.new_mm, rel=0.05)  # but for shear


def of_material(material, grade=None, **changes):
    made = rod_of(job(cabinet(**changes)))
    boards = {n: replace(b, material=material, grade=grade, density_kg_m3=None) for n, b in made.boards.items()}
    return replace(made, boards=boards)


def test_an_unknown_material_is_asked_for_and_no_figure_is_made_up():
    made = of_material("bamboo")
    found = shelf_loads(made.cabinets[0], made)[0]
    assert (found.new_mm, found.margin, found.longest_mm, found.stiffness) == (None, None, None, None)
    assert any("stiffness" in ask and "declared_by" in ask for ask in found.asks)
    findings = load_of(made).findings
    assert any(f.code == "load-shelf-unknown" and "bamboo" in f.message for f in findings)


def test_a_board_that_may_not_stand_in_a_damp_room_is_told():
    made = of_material("MDF", room="damp")
    found = shelf_loads(made.cabinets[0], made)[0]
    assert found.strong is None
    assert found.later_mm is None
    assert any("does not allow" in ask for ask in found.asks)


def test_a_shelf_with_one_end_unsupported_is_a_stop():
    made = rod()
    glaze = made.cabinets[0]
    joints = tuple(j for j in glaze.joints if not ("fixed shelf" in j.parts and "right side" in j.parts))
    assert len(joints) == len(glaze.joints) - 1
    cut = replace(made, cabinets=(replace(glaze, joints=joints),))
    found = next(s for s in shelf_loads(cut.cabinets[0], cut) if s.part == "fixed shelf")
    assert found.new_mm is None
    assert found.margin is None
    assert "one place only" in found.asks[-1]
    stops = [f for f in load_of(cut).findings if f.severity == "fault"]
    assert [f.where for f in stops] == [("fixed shelf",)]


def test_a_lipping_under_the_front_stiffens_its_shelf():
    """A strip that touches the shelf's front along its whole length, deeper than the shelf, as one section."""
    made = rod()
    glaze = made.cabinets[0]
    of = glaze.part["fixed shelf"]
    lip = replace(
        of, id="lip", role="lipping", size=(of.size[0], 40.0, 20.0), features=(),
        pose=replace(of.pose, rotation=((1, 0, 0), (0, 0, 1), (0, -1, 0)),
                     origin=(of.pose.origin[0], of.pose.origin[1] - 20.0, of.pose.origin[2] + of.size[2])),
    )  # fmt: skip
    lipped = replace(made, cabinets=(replace(glaze, parts=(*glaze.parts, lip)),))
    plain = next(s for s in shelf_loads(glaze, made) if s.part == "fixed shelf")
    stiff = next(s for s in shelf_loads(lipped.cabinets[0], lipped) if s.part == "fixed shelf")
    assert stiff.new_mm < plain.new_mm / 2


def test_a_long_shelf_is_told_once_with_what_would_do():
    made = rod(width_mm=1100.0, back=back(), contents=Contents(kg_per_m2=160.0))
    told = [f for f in load_of(made).findings if f.code == "load-shelf-sound"]
    assert told
    assert all("span of at most" in f.mend and "strip" in f.mend for f in told)
    assert len({f.message for f in told}) == len(told)
    thick = next(s for s in load_of(made).cabinets[0].shelves).would_do
    assert thick
    assert "mm of the same board" in thick[0]


def test_the_makers_own_limits_are_taken():
    strict = loads_of(sag=SagLimits(straight_1_in=4000.0))["bottom"]
    assert strict.straight < 1
    assert strict.straight_mm == pytest.approx(564.8 / 4000)


def moved(made, by):
    """The whole cabinet somewhere else: every pose, contact and fixing shifted."""

    def shift(v):
        return tuple(a + b for a, b in zip(v, by, strict=True))

    def joint(j):
        contact = replace(j.contact, from_point=shift(j.contact.from_point), to_point=shift(j.contact.to_point))
        return replace(j, contact=contact, fixings=tuple(replace(f, at=shift(f.at)) for f in j.fixings))

    cabinets = tuple(
        replace(
            c, parts=tuple(replace(p, pose=replace(p.pose, origin=shift(p.pose.origin))) for p in c.parts),
            joints=tuple(map(joint, c.joints)),
        )
        for c in made.cabinets
    )  # fmt: skip
    return replace(made, cabinets=cabinets)


def test_moving_the_cabinet_changes_nothing():
    made = rod(bays=(300.0, "rest"), width_mm=900.0)
    here, there = (shelf_loads(m.cabinets[0], m) for m in (made, moved(made, (1000.0, -300.0, 850.0))))
    for a, b in zip(here, there, strict=True):
        assert (b.new_mm, b.later_mm, b.strong) == pytest.approx((a.new_mm, a.later_mm, a.strong), rel=1e-9)


def test_turned_round_left_for_right_nothing_changes():
    """The same cabinet with its bays the other way round: every shelf of the one stands in the other."""
    housed = {
        "loose_shelves": (0, 0),
        "shelf_joint": recipe("housing"),
    }  # rows of pins and dowels are handed, these not
    here = rod(bays=(300.0, "rest"), width_mm=900.0, **housed)
    there = rod(bays=("rest", 300.0), width_mm=900.0, **housed)

    def told(made):
        return sorted((x.span_mm, x.new_mm, x.later_mm, x.strong) for x in shelf_loads(made.cabinets[0], made))

    for a, b in zip(told(here), told(there), strict=True):
        assert b == pytest.approx(a, rel=1e-9)


def test_a_job_in_inches_bears_what_the_same_one_in_millimetres_does():
    from rodwork.pipeline import set_out

    job = """[job]
name = "Box"
units = "{unit}"

[boards.ply18]
material = "birch plywood"
thickness = {t}
sheet = [{l}, {w}]

[cabinets.box]
width = {width}
height = {height}
depth = {depth}
board = "ply18"
fixed_shelves = 1
contents = {{ kg_per_m2 = 60 }}
"""
    mm = {"t": 18.0, "l": 2438.4, "w": 1219.2, "width": 609.6, "height": 762.0, "depth": 304.8}
    inch = {k: v / 25.4 for k, v in mm.items()}
    loads = [
        load_of(set_out(job.format(unit=unit, **sizes), "box.toml")).cabinets[0].shelves
        for unit, sizes in (("mm", mm), ("in", inch))
    ]
    for a, b in zip(*loads, strict=True):
        assert (b.span_mm, b.new_mm, b.later_mm, b.strong) == pytest.approx(
            (a.span_mm, a.new_mm, a.later_mm, a.strong), rel=1e-6
        )
