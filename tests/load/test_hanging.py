"""Wall units: equilibrium at the fixings, the chain of the load, and that nothing is said where nothing is known."""

import re
from dataclasses import replace

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from rodwork.cli import main
from rodwork.load.hanging import LEVEL, wall_force
from rodwork.load.masses import Mass
from rodwork.load.station import load_of
from rodwork.model import demand
from rodwork.model.demand import Contents, Hanging, Wall
from rodwork.setout.weights import weighed
from tests.building import recipe, rod

PLACES = (60.0, 300.0, 540.0)


def test_the_pull_of_the_handbook_of_statics():
    """1000 N at 175 from the wall, fixings 650 over the foot: 269.23 N in all (moments about the bottom back edge)."""
    found = wall_force("", Mass(N=1000.0, x=300.0, y=0.0, z=300.0), PLACES, depth_mm=175.0, line_mm=650.0)
    assert found.pull_N == pytest.approx(269.23, abs=0.01)
    assert (found.shear_N, found.push_N) == (1000.0, found.pull_N)


@given(
    st.floats(10, 5000), st.floats(0, 600), st.floats(-400, 300), st.floats(100, 2000),
    st.lists(st.integers(20, 2400), min_size=1, max_size=8, unique=True),
)  # fmt: skip
def test_forces_at_the_fixings_balance_the_load_to_1e_9(N, x, y, line, places):
    """Down, out, and about all three axes: weight, pull, push at the foot; a single fixing cannot take a twist."""
    mass, depth = Mass(N=N, x=x, y=y, z=300.0), 320.0
    found = wall_force("", mass, tuple(places), depth, line)
    assert sum(f.shear_N for f in found.forces) == pytest.approx(N, rel=1e-9)
    assert sum(f.pull_N for f in found.forces) == pytest.approx(found.push_N, rel=1e-9)
    assert found.pull_N * line == pytest.approx(N * (depth - y), rel=1e-9)
    if len(places) > 1:
        for name, total in (("shear_N", N), ("pull_N", found.pull_N)):
            about_left = sum(getattr(f, name) * p for f, p in zip(found.forces, places, strict=True))
            assert about_left == pytest.approx(total * x, rel=1e-9, abs=1e-6 * N)


def hung(wall="kitchen", fixing=None, tested=None, style="split batten", kind="brick", fixings=3, **changes):
    made = rod(hanging=Hanging(style=style, wall=wall, fixings=fixings, from_top_mm=None), **changes)
    walls = {"kitchen": Wall(kind=kind, gap_mm=None, studs_mm=None, fixing=fixing)}
    return replace(made, walls=walls, tested=tested or {})


def figures(pull=2000.0, shear=2000.0, basis="working load"):
    return demand.Tested(pull_N=pull, shear_N=shear, moment_Nmm=None, basis=basis, source="own test")


ALL = {"dowel": figures(), "shelf pin": figures(), "split batten": figures(9000.0, 9000.0), "batten": figures()}


def load(made):
    return load_of(made).cabinets[0].hanging


def with_batten(made):
    """The same cabinet with a batten that two dowels join to each side, as data."""
    glaze = made.cabinets[0]
    top = glaze.part["top"]
    batten = replace(
        top, id="batten", name="batten", role="batten", size=(top.size[0], 80.0, 18.0), features=(),
        pose=replace(top.pose, rotation=((1, 0, 0), (0, 0, 1), (0, 1, 0)), origin=(17.6, 296.0, 620.0)),
    )  # fmt: skip
    corner = [j for j in glaze.joints if "top" in j.parts][:2]
    joints = tuple(
        replace(j, id=f"{j.id} batten", parts=(next(p for p in j.parts if p != "top"), "batten"))
        for j in corner
    )  # fmt: skip
    return weighed(
        replace(made, cabinets=(replace(glaze, parts=(*glaze.parts, batten), joints=(*glaze.joints, *joints)),))
    )


def test_a_chain_with_an_open_link_hangs_on_a_guess_and_has_no_number():
    chain = load(hung(fixing=figures())).chain
    assert chain.verdict == "HANGS ON A GUESS"
    assert not chain.closed
    assert chain.weakest is None
    assert all(link.asks for link in chain.links if link.margin is None)


def test_a_chain_whose_links_are_all_known_names_its_weakest():
    chain = load(with_batten(hung(fixing=figures(), tested=ALL))).chain
    assert chain.closed
    assert chain.weakest.name in chain.verdict
    assert "GUESS" not in chain.verdict
    names = [link.name for link in chain.links]
    assert names[0] == "fixed shelf"
    assert names[-1].startswith("one wall screw")


@pytest.mark.parametrize("gone", ["dowel", "shelf pin", "split batten"])
def test_any_one_figure_gone_opens_the_chain(gone):
    tested = {n: t for n, t in ALL.items() if n != gone and not (gone == "split batten" and n == "batten")}
    assert load(with_batten(hung(fixing=figures(), tested=tested))).chain.verdict == "HANGS ON A GUESS"


@pytest.mark.parametrize("style", ["split batten", "fixing rail", "screws"])
def test_what_joins_an_undrawn_batten_or_rail_to_the_carcass_is_asked_for_and_taken_from_the_maker(style):
    """No board of it is in the set-out: open until its maker's own figure is written, and a link like any then."""
    name = "hanging joint to the carcass"
    known = {"dowel": figures(), "shelf pin": figures(), "split batten": figures(), "rail": figures()}
    asked = load(hung(style=style, fixing=figures(), tested=known)).chain
    assert [x.name for x in asked.links if x.margin is None] == [name]
    assert f'[tested."{name}"]' in next(x.asks for x in asked.links if x.name == name)
    closed = load(hung(style=style, fixing=figures(), tested={**known, name: figures(500.0, 700.0)})).chain
    assert all(x.margin is not None for x in closed.links)
    link = next(x for x in closed.links if x.name == name)
    stronger = load(hung(style=style, fixing=figures(), tested={**known, name: figures(1000.0, 1400.0)})).chain
    assert next(x for x in stronger.links if x.name == name).margin == pytest.approx(2 * link.margin)


def test_a_wall_without_figures_or_with_half_of_them_is_an_open_link():
    for fixing in (None, figures(pull=None), figures(shear=None)):
        link = load(with_batten(hung(fixing=fixing, tested=ALL))).chain.links[-1]
        assert link.margin is None
        assert "[walls.NAME]" in link.asks


@pytest.mark.parametrize(("basis", "over"), [("characteristic", 4.0), ("mean of tests", 5.0)])
def test_a_walls_figures_go_over_our_own_rule(basis, over):
    plain, held = (load(hung(fixing=figures(basis=b))).chain.links[-1].margin for b in ("working load", basis))
    assert plain / held == pytest.approx(over)


def test_a_wall_that_nobody_named_is_unknown_and_told():
    hanging = load(hung(wall=None))
    assert (hanging.kind, hanging.chain.verdict) == ("unknown", "HANGS ON A GUESS")
    assert any("Nobody has said" in w for w in hanging.words)


@pytest.mark.parametrize("kind", ["dot and dab", "lath and plaster", "metal stud", "aerated block", "plasterboard"])
def test_walls_that_fail_most_have_their_own_words(kind):
    assert any(w.lower().startswith(kind) or kind in w.lower() for w in load(hung(kind=kind)).words[3:])


def test_one_fixing_missing_leaves_more_to_the_others_and_still_balances():
    hanging = load(hung())
    worst, missing = hanging.states[-1], hanging.one_missing
    assert len(missing.forces) == len(worst.forces) - 1
    assert sum(f.shear_N for f in missing.forces) == pytest.approx(worst.shear_N, rel=1e-9)
    assert max(f.pull_N for f in missing.forces) > max(f.pull_N for f in worst.forces)
    assert "falls" in load(hung(fixings=1)).one_missing.state


def door(made):
    glaze = made.cabinets[0]
    side = glaze.part["left side"]
    leaf = replace(
        side, id="door", name="door", role="door", in_box=False, size=(717.0, 597.0, 18.0), features=(),
        pose=replace(side.pose, rotation=((0, 1, 0), (0, 0, 1), (1, 0, 0)), origin=(1.5, -18.0, 1.5)),
    )  # fmt: skip
    return weighed(replace(made, cabinets=(replace(glaze, parts=(*glaze.parts, leaf)),)))


def test_open_doors_and_contents_at_the_front_pull_more():
    states = load(door(hung())).states
    assert [s.state for s in states] == [
        "full and shut",
        "full, open",
        "full, open, what stands inside pulled to the front",
    ]
    assert states[0].pull_N < states[1].pull_N < states[2].pull_N
    assert len({round(s.weight_N, 6) for s in states}) == 1


def test_more_inside_never_means_a_larger_margin_at_the_wall():
    margins = [
        load(hung(fixing=figures(), contents=Contents(kg_per_m2=kg))).chain.links[-1].margin
        for kg in (0.0, 30.0, 60.0, 120.0)
    ]
    assert margins == sorted(margins, reverse=True)


def test_a_level_to_warn_at_is_no_capacity():
    """About 20 kg on one cavity fixing, second-hand and weak: told over it, and never a margin."""
    heavy = hung(wall="plasterboard", fixings=2, contents=Contents(kg_per_m2=120.0))
    hanging = load(heavy)
    assert hanging.level_N is LEVEL
    assert hanging.chain.links[-1].margin is None
    assert "load-wall-level" in {f.code for f in load_of(heavy).findings}
    assert load(hung(fixing=figures())).level_N is None


def test_places_of_fixings_as_asked_and_at_studs():
    assert load(hung(fixings=4)).at_mm == pytest.approx((60.0, 220.0, 380.0, 540.0))
    assert load(hung(fixings=None)).at_mm == pytest.approx((60.0, 300.0, 540.0))
    made = hung(fixings=None, width_mm=1300.0)
    studs = replace(made, walls={"kitchen": Wall(kind="timber stud", gap_mm=None, studs_mm=400.0, fixing=None)})
    assert len(load(studs).at_mm) == 3


def test_a_wall_unit_of_which_nobody_said_how_it_hangs_is_told():
    assert "load-hanging-unsaid" in {f.code for f in load_of(rod()).findings}
    assert "load-hanging-unsaid" not in {f.code for f in load_of(rod(kind="base")).findings}


def test_a_bottom_that_hangs_is_told_again_with_the_load():
    from rodwork.checks.registry import run_checks

    made = rod(sides="between", corner_joint=recipe("screw"))
    made = replace(made, findings=run_checks(made))
    assert "bottom-hangs" in {f.code for f in load_of(made).findings}


JOB = """
[job]
name = "Pottery studio"
[boards.birch18]
material = "birch plywood"
thickness = 18
sheet = [2440, 1220]
[walls.kitchen]
kind = "dot and dab"
{wall}
[cabinets.glaze]
kind = "wall"
width = 600
height = 720
depth = 320
board = "birch18"
openings = [333, "rest"]
loose_shelves = 2
contents = {{ of = "jars" }}
hanging = {{ style = "{style}", wall = "{name}" }}
"""


@pytest.mark.parametrize("style", ["split batten", "fixing rail", "brackets", "screws"])
@pytest.mark.parametrize("wall", ["", 'pull_kn = 9\nshear_kn = 9\nsource = "own test"'])
@pytest.mark.parametrize("how", [(), ("--json",)])
def test_the_word_is_nowhere(tmp_path, style, wall, how):
    """An unknown link is drawn open, the chain hangs on a guess, and nothing is said to hold."""
    file = tmp_path / "glaze.toml"
    file.write_text(JOB.format(wall=wall, style=style, name="kitchen"), encoding="utf-8")
    done = CliRunner().invoke(main, ["load", str(file), *how])
    assert done.exit_code == 1
    assert "HANGS ON A GUESS" in done.output
    assert "OPEN" in done.output or how
    assert not re.search(r"\bholds\b", done.output, re.IGNORECASE)
    assert "no structural certificate" in done.output
