"""Laws of the engine: which board stands still, which seed, how many cores, what an edit leaves as it was."""

from dataclasses import replace

import dimstack as ds
import numpy as np
import pytest

from rodwork.fit import compiled as compiled_module
from rodwork.fit import station
from rodwork.fit.builder import Form
from rodwork.fit.carcass import model_of
from rodwork.fit.draws import CHUNK, chunks, draw
from rodwork.fit.forecast import ask, chance_with, first_few, forecast, stiff
from rodwork.fit.kernel import gathered
from rodwork.fit.measured import Measurement, conditioned, surprise
from rodwork.fit.solve import ASSEMBLED, SIGNED, as_drilled, factored, goes_together, poses, shares_of_give, verdict
from rodwork.fit.station import dry_fit_of
from tests.building import back, cabinet, job, recipe, rod_of
from tests.fit.rods import ACCURACY, box, lips, model
from tests.fit.rows import source, two_boards

SHELVES = {"openings": ("rest", "rest"), "loose_shelves": (0, 0)}


STANDING = {
    "dowels, a shelf": (SHELVES, "fixed shelf"),
    "tenons, a shelf and a divider": (
        {**SHELVES, "corner_joint": recipe("loose tenon"), "bays": ("rest", "rest"), "width_mm": 900.0}, "divider"),
    "tongues, of which nothing holds the rack": ({"corner_joint": recipe("tongue")}, "bottom"),
    "a grooved back": ({"back": back()}, "back"),
}  # fmt: skip


@pytest.mark.parametrize("name", STANDING)
def test_it_does_not_matter_which_board_stands_still(name):
    """T16. Gives within 5e-9 mm, outputs within 5e-8: 200 draws of seed 3, all of them solved by the kernel."""
    changes, board = STANDING[name]
    rod = box(**changes)
    one, other = model(rod, standing_still="left side"), model(rod, standing_still=board)
    z = draw(one.sources, 200, seed=3)
    judged, again = (verdict(factored(m, SIGNED), z) for m in (one, other))
    posed, posed_again = (poses(factored(m, ASSEMBLED), z) for m in (one, other))
    assert judged.resolved == again.resolved == posed.resolved == posed_again.resolved == 0
    assert judged.give_mm == pytest.approx(again.give_mm, abs=5e-9)
    assert posed.outputs == pytest.approx(posed_again.outputs, abs=5e-8)


# Dimensioning and Tolerancing Handbook (McGraw-Hill), chapter 9, motor assembly, inch, as `dimstack` 0.9.0 has it in its
# tests; and the shaft of that library's own README, mm: way, nominal, plus, minus; mean, worst case and RSS as printed
MOTOR = (
    (-1, 0.375, 0, -0.031), (1, 0.032, 0.002, -0.002), (1, 0.06, 0.003, -0.003), (1, 0.438, 0, -0.015),
    (1, 0.12, 0.005, -0.005), (1, 1.5, 0.01, -0.004), (1, 0.12, 0.005, -0.005), (1, 0.438, 0, -0.015),
    (1, 0.45, 0.007, -0.007), (-1, 3.019, 0.012, 0), (1, 0.3, 0.03, -0.03),
)  # fmt: skip
SHAFT = (
    (1, 208, 0.036, -0.036), (-1, 1.75, 0.06, 0), (-1, 23, 0.12, 0), (1, 20, 0.026, -0.026),
    (-1, 200, 0.145, -0.145), (1, 20, 0.026, -0.026), (-1, 23, 0.12, 0),
)  # fmt: skip
STACKS = {"motor": (MOTOR, 0.0615, 0.0955, 0.03808), "shaft": (SHAFT, 0.1, 0.383, 0.17825)}


def stack_of(sizes):
    """(mean, row) of a gap that is nothing but a chain of sizes, each source as wide as half its tolerance."""
    build = two_boards()
    middle, parts = 0.0, {}
    for i, (way, nominal, plus, minus) in enumerate(sizes):
        middle += way * (nominal + (plus + minus) / 2)
        parts[f"d{i}"] = (way, (plus - minus) / 2)
    build.output("gap", Form(build.nought().q, {key: float(way) for key, (way, _) in parts.items()}))
    m = build.done({key: source(key, half) for key, (_, half) in parts.items()}, {})
    return middle, m, as_drilled(m, "gap")


@pytest.mark.parametrize("name", STACKS)
def test_a_stack_of_sizes_adds_up_as_a_stack_does(name):
    """Mean, worst case and RSS as published, and `dimstack` on the same rows: within 1e-5 of their unit.

    Signed nominals: an uneven tolerance turns round with its way.
    """
    sizes, mean, worst, rss = STACKS[name]
    middle, _, row = stack_of(sizes)
    assert middle == pytest.approx(mean, abs=1e-6)
    assert np.abs(row).sum() == pytest.approx(worst, abs=1e-6)
    assert np.linalg.norm(row) == pytest.approx(rss, abs=1e-5)

    def half(closed):
        return (closed.rel_upper - closed.rel_lower) / 2

    stack = ds.Stack(dims=[ds.Dim(nom=way * nom, tol=ds.tolerance.Bilateral(up, low)) for way, nom, up, low in sizes])
    assert pytest.approx(np.linalg.norm(row), abs=1e-5) == half(ds.calc.RSS(stack))
    assert pytest.approx(np.abs(row).sum(), abs=1e-6) == half(ds.calc.WC(stack))


def test_a_drawn_stack_is_within_its_limits_as_often_as_the_normal_distribution_says():
    """The shaft again: gap from 0.05 to 0.8 in 80.64 of 100 where RSS is 3.0833 sigma (0.05781, printed rounded)."""
    middle, m, row = stack_of(SHAFT)
    print("seed 8")
    gap = middle + draw(m.sources, 20_000, seed=8) @ row * 0.05781 / np.linalg.norm(row)
    assert ((gap >= 0.05) & (gap <= 0.8)).mean() == pytest.approx(0.8064418, abs=4 * 0.0028)


def test_ten_equal_sizes_add_up_by_their_root():
    """Ten of 0.1: RSS 0.316, worst case 1.0; a tutorial's figures, second-hand."""
    _, _, row = stack_of([(1, 10.0, 0.1, -0.1)] * 10)
    assert np.linalg.norm(row) == pytest.approx(0.316, abs=5e-4)
    assert np.abs(row).sum() == pytest.approx(1.0)


def test_shared_sheets_do_not_add_up_as_independent_ones():
    """Trap 5. Two sides of one batch move together: the outside width spreads more than independent sheets say."""
    m = model(box())
    left, right = (m.sizes[f"{s} side/thickness"] for s in ("left", "right"))
    assert np.linalg.norm(left + right) > 1.3 * np.sqrt(np.linalg.norm(left) ** 2 + np.linalg.norm(right) ** 2) / 1.06


def test_conditioning_gives_the_gaussian_posterior():
    """T17. Mean and covariance of the closed form, and importance sampling, within Monte Carlo error."""
    m = model(box())
    found = (Measurement(size="left side/length", off_mm=0.4), Measurement(size="top/length", off_mm=-0.3))
    z = draw(m.sources, 20_000, seed=7)
    after = conditioned(m, z, found, seed=7)
    forms = np.array([m.sizes[f.size] for f in found])
    gain = forms.T @ np.linalg.inv(forms @ forms.T + np.eye(2) * 0.1**2)
    mean = gain @ np.array([0.4, -0.3])
    cov = np.eye(len(m.sources)) - gain @ forms
    assert after.mean(axis=0) == pytest.approx(mean, abs=0.03)
    probe = np.random.default_rng(1).standard_normal(len(m.sources))
    assert (after @ probe).var() == pytest.approx(probe @ cov @ probe, rel=0.05)
    weight = np.exp(-(((z @ forms.T - [0.4, -0.3]) / 0.1) ** 2).sum(axis=1) / 2)
    other = m.sizes["right side/length"]
    assert np.average(z @ other, weights=weight) == pytest.approx((after @ other).mean(), abs=0.02)


def test_a_measured_board_is_believed_and_one_far_off_is_a_surprise():
    """Shrinkage: with the saw's own habit 0.52 becomes about 0.36; with the board's own prior the tape is believed."""
    habit = model(box())
    believed = model(box(), measured=frozenset({("top", "length")}))
    found = Measurement(size="top/length", off_mm=0.8)
    means = {}
    for name, m in (("habit", habit), ("believed", believed)):
        z = conditioned(m, draw(m.sources, 2000, seed=1), (found,), seed=1)
        means[name] = (z @ m.sizes["top/length"]).mean()
    assert means["habit"] < 0.7
    assert means["believed"] == pytest.approx(0.8, abs=0.01)
    assert surprise(habit, found) > 3 > surprise(habit, Measurement(size="top/length", off_mm=0.3))


def test_the_same_seed_gives_the_same_answer_on_one_core_or_two():
    asked = ask(model(box()), (), 5, 0.1)
    one, two = forecast(asked, 2 * CHUNK + 100, cores=1), forecast(asked, 2 * CHUNK + 100, cores=2)
    assert (one.give_mm == two.give_mm).all()
    assert (one.outputs == two.outputs).all()
    again = ask(model(box()), (), 6, 0.1)
    assert (forecast(again, 200).give_mm != one.give_mm[:200]).any()


def test_an_edit_to_one_joint_leaves_the_errors_of_the_others():
    """Trap 9. Shelves move and are joined otherwise: every source that both have is drawn alike."""
    one = model(box(**SHELVES))
    other = model(box(openings=(200.0, "rest"), loose_shelves=(0, 0), shelf_joint=recipe("biscuit")))
    z, w = draw(one.sources, 50, seed=1), draw(other.sources, 50, seed=1)
    both = [k for k in one.source_at if k in other.source_at]
    assert sum("top" in k for k in both) > 40
    for key in both:
        assert (z[:, one.source_at[key]] == w[:, other.source_at[key]]).all()


def test_chunks_are_a_whole_number_of_themselves():
    assert chunks(2 * CHUNK + 5) == [(0, CHUNK), (1, CHUNK), (2, 5)]
    assert chunks(CHUNK) == [(0, CHUNK)]


def test_how_square_it_comes_is_told_of_what_goes_together_unless_hardly_any_does():
    """What does not go is drawn racked as far as it can be, to be wanting the least: nobody will measure that."""
    m = model(box(back=back()))
    found = forecast(ask(m, (), 5, 0.1), 400)
    diagonals = found.outputs[:, m.output_at["diagonals"]]
    wanted = np.sort(found.give_mm)[[20, 300]]
    few, most = (found.shape("diagonals", give) for give in wanted)
    assert most == pytest.approx(diagonals[found.give_mm <= wanted[1]])
    assert few == pytest.approx(diagonals)


@pytest.mark.parametrize("changes", [{}, SHELVES, {"corner_joint": recipe("keyhole"), "back": back("rebated")}])
def test_what_is_found_does_not_depend_on_where_it_begins(changes):
    """A try begins with the rows of the same assembly under other errors: fewer steps, the same answer as from nothing."""
    m = model(box(**changes))
    signed, assembled = factored(m, SIGNED), factored(m, ASSEMBLED)
    z = draw(m.sources, 200, seed=8) * 2
    near, posed = verdict(signed, z).active, poses(assembled, z).active
    for other in (z * 0.5, z * 1.5, z[::-1]):
        assert verdict(signed, other, near).give_mm == pytest.approx(verdict(signed, other).give_mm, abs=1e-6)
        assert poses(assembled, other, posed).outputs == pytest.approx(poses(assembled, other).outputs, abs=1e-5)


@pytest.mark.parametrize("changes", [{}, SHELVES, {"corner_joint": recipe("keyhole"), "back": back("rebated")}])
@pytest.mark.parametrize("share", [0.2, 0.9])
def test_whether_it_goes_together_is_the_same_beside_another_try_as_by_the_give_itself(changes, share):
    m = model(box(**changes))
    signed = factored(m, SIGNED)
    z = draw(m.sources, 300, seed=8) * 1.5
    found = verdict(signed, z)
    near, ease_mm = found.active, float(np.quantile(found.give_mm, share))
    wider = factored(replace(m, low=m.low - 0.05, high=m.high + 0.05), SIGNED)
    tries = ((signed, z), (signed, z * 0.5), (signed, z * 1.5), (signed, z[::-1]), (wider, z))
    for ready, other in tries:
        give = verdict(ready, other).give_mm
        clear = np.abs(give - ease_mm) > 1e-6
        assert (goes_together(ready, other, ease_mm, near) == (give <= ease_mm))[clear].all()


def test_a_beginning_of_rows_that_hang_together_is_seen_through():
    """All rows of a corner at once depend on each other many times over: the answer is still the same."""
    m = model(box())
    signed = factored(m, SIGNED)
    z = draw(m.sources, 50, seed=8) * 2
    from_nothing = verdict(signed, z)
    wild = np.tile(np.arange(signed.most_rows), (50, 1))
    begin = from_nothing.active._replace(rows=wild, counts=np.full(50, signed.most_rows))
    assert verdict(signed, z, begin).give_mm == pytest.approx(from_nothing.give_mm, abs=1e-6)


def test_rows_let_go_are_as_if_they_had_never_been():
    """A joint by itself: some rows of a model made ready are a model of those rows made ready."""
    m = model(box(**SHELVES))
    keep = m.row_joint == 0
    z = draw(m.sources, 100, seed=8) * 2
    some = verdict(factored(m, SIGNED).only(keep), z)
    assert some.give_mm == pytest.approx(verdict(factored(m.only(keep), SIGNED), z).give_mm, abs=1e-7)
    assert (some.give_mm <= verdict(factored(m, SIGNED), z).give_mm + 1e-7).all()


def test_what_costs_the_fit_adds_up_to_the_give():
    """Duality: sum over sources of y.C z less y.b is the give itself, to the effect of rho; joints add up to one."""
    m = model(box())
    ready = factored(m, SIGNED)
    z = draw(m.sources, 300, seed=2) * 2
    found = verdict(ready, z)
    by_source, by_joint = shares_of_give(ready, found, z)
    weights = gathered(found.active, np.concatenate([m.give, m.give])[:, None])
    bounds = gathered(found.active, np.concatenate([m.high, -m.low])[:, None]) / weights
    bending = 1.0 - by_joint.sum(axis=1)
    exact = np.abs(bending) < 1e-9
    assert exact.mean() > 0.9
    assert by_source.sum(axis=1)[exact] - bounds[exact, 0] == pytest.approx(found.give_mm[exact], abs=5e-3)


def test_a_perfect_source_only_helps_and_the_lot_of_them_cures():
    asked = ask(model(box()), (), 5, 0.1)
    few = first_few(asked, 500)
    now = chance_with(asked, few, np.ones(len(asked.model.sources)))
    assert chance_with(asked, few, np.zeros(len(asked.model.sources))) == 1.0
    each = np.array([0.0 if s.parameter[1:] == ("stop", "each") else 1.0 for s in asked.model.sources])
    assert chance_with(asked, few, each) > now


def test_rigid_boards_would_be_said_to_fit_less_often():
    """Trap 10. A shelf and a divider lock the box; boards that bow a little let it go together."""
    rod = box(bays=("rest", "rest"), openings=("rest", "rest"), loose_shelves=(0, 0), width_mm=900.0)
    m = model(rod)
    z = draw(m.sources, 300, seed=2)
    bends = (verdict(factored(m, SIGNED), z).give_mm <= 0.1).mean()
    rigid = (verdict(factored(stiff(m), SIGNED), z).give_mm <= 0.1).mean()
    assert rigid < bends


def test_ease_is_counted_once():
    """Trap 3. It is the threshold of the give, in no row: the give does not change with it."""
    ready = ACCURACY
    easier = replace(ready, give=replace(ready.give, ease_mm=0.5))
    rod = box()
    one = model_of(rod, "glaze", ready)
    other = model_of(rod, "glaze", easier)
    assert (one.low == other.low).all()
    assert (one.high == other.high).all()
    assert (one.row_z == other.row_z).all()


def test_a_compiler_without_a_cache_folder_still_compiles(monkeypatch):
    """numba refuses cache=True at import where no folder is writable."""
    calls = []

    def njit(**options):
        calls.append(options)
        if options.get("cache"):
            raise RuntimeError("cannot cache function: no locator available for file")
        return lambda function: function

    monkeypatch.setattr(compiled_module.numba, "njit", njit)
    assert compiled_module.compiled(lambda: 3)() == 3
    assert [c.get("cache", False) for c in calls] == [True, False]


@pytest.mark.parametrize(
    "changes",
    [{}, SHELVES, {"sides": "between", "back": back("planted")}, {"corner_joint": recipe("screw")},
     {"corner_joint": recipe("tongue"), "back": back("rebated")}, {"back": back("grooved in the sides")},
     {"corner_joint": recipe("pocket screw")}, {"shelf_set_back_mm": 20.0, **SHELVES}],
)  # fmt: skip
def test_every_sort_of_carcass_has_its_dry_fit(changes):
    fit = dry_fit_of(box(**changes), ACCURACY, samples=300).cabinets[0]
    assert 0.0 <= fit.band[0] <= fit.band[1] <= 1.0
    assert fit.sampling[0] <= fit.chance <= fit.sampling[1]
    assert {s.name for s in fit.squareness} == {"diagonals", "width", "height"}
    assert len(fit.lips) >= 8
    assert all(len(lip.drawn) == 20 for lip in fit.lips)
    assert all(np.isfinite([lip.likely_mm, lip.worst_mm]).all() for lip in fit.lips)


def test_a_set_back_shelf_has_no_lip_at_the_front():
    flush, behind = (model(box(**SHELVES, shelf_set_back_mm=s)) for s in (0.0, 20.0))
    assert "lip|left side / fixed shelf|front" in flush.outputs
    assert "lip|left side / fixed shelf|front" not in behind.outputs
    assert lips(dict.fromkeys(behind.outputs, 0.0), fronts=True).size == 4


def test_cabinets_that_differ_in_name_and_marks_alone_have_one_dry_fit(monkeypatch):
    """They are put together once, and each has the answer that it has alone in a job."""
    rod = rod_of(job(*(cabinet(name=n, mark=n[0].upper(), back=None, openings=("rest",), loose_shelves=(0,),
                               edging=None, width_mm=w) for n, w in (("one", 600.0), ("two", 600.0), ("three", 601.0)))))  # fmt: skip
    asked = []
    whole = station.forecast
    monkeypatch.setattr(station, "forecast", lambda *a: asked.append(a) or whole(*a))
    one, two, three = dry_fit_of(rod, ACCURACY, samples=300).cabinets
    assert len(asked) == 2
    assert replace(two, cabinet="one") == one
    assert [f.cabinet for f in (one, two, three)] == ["one", "two", "three"]
    alone = dry_fit_of(replace(rod, cabinets=rod.cabinets[1:2]), ACCURACY, samples=300).cabinets[0]
    assert alone.chance == two.chance
    assert alone.lips == two.lips
    assert three.lips != one.lips


def test_a_whole_job_has_the_same_answer_on_one_core_or_two():
    rod = rod_of(job(cabinet(), cabinet(name="tall", mark="T", height_mm=1200.0)))
    assert dry_fit_of(rod, ACCURACY, samples=300) == dry_fit_of(rod, ACCURACY, samples=300, cores=2)
