"""Laws of doors and drawers over random cabinets: nothing overlaps, all is proven, every bore lies in its board, and every door
swings from shut to 100 degrees and touches nothing."""

from dataclasses import replace

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from rodwork.checks.kinds.cannot_be_made import CODE as CANNOT
from rodwork.checks.registry import checks
from rodwork.model.job import CannotBuild
from rodwork.setout.proof import prove
from tests.building import back, recipe
from tests.fronts.front_samples import box_of, doors, drawers, foul, fronted, swung
from tests.geometry.overlap import overlaps

FEW = settings(
    max_examples=60, deadline=None, derandomize=True,
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)  # fmt: skip
DEGREES = (0.1, 1, 3, 6, 10, 20, 35, 50, 70, 90, 100)


@st.composite
def hung(draw):
    """A cabinet with doors of any style, over one bay or two."""
    bays = draw(st.integers(1, 2))
    words = tuple(draw(st.sampled_from(["left", "right", "pair", "up"])) for _ in range(bays))
    style = draw(st.sampled_from(["overlay", "half overlay", "inset"]))
    shelves = draw(st.integers(0, 2))
    handle = draw(st.sampled_from([{}, {"handle": 0.0}, {"handle": 96.0}]))
    grain = draw(st.sampled_from(["up", "across"]))
    try:
        return fronted(
            doors(words, openings=shelves + 1, style=style, grain=grain, **handle),
            bays=("rest",) * bays, openings=("rest",) * (shelves + 1),
            width_mm=draw(st.integers(320, 900)) * bays, height_mm=float(draw(st.integers(340, 2300))),
            depth_mm=float(draw(st.integers(300, 600))), kind=draw(st.sampled_from(["wall", "base"])),
            loose_shelves=tuple(draw(st.integers(0, 1)) for _ in range(shelves + 1)),
            shelf_set_back_mm=20.6 if style == "inset" else draw(st.sampled_from([0.0, 10.0])),
            sides=draw(st.sampled_from(["through", "between"])), back=draw(st.sampled_from([None, back()])),
        )  # fmt: skip
    except CannotBuild:
        assume(False)


@FEW
@given(hung())
def test_no_two_boards_overlap_with_the_doors_shut(rod):
    assert overlaps(rod.cabinets[0]) == []


@FEW
@given(hung())
def test_cups_and_plates_agree_by_the_printed_numbers(rod):
    assert prove(rod) == ()


@FEW
@given(hung())
def test_every_bore_lies_inside_its_board(rod):
    assert [f for f in checks()[CANNOT].look(rod) if f.severity == "fault"] == []
    for part in rod.cabinets[0].parts:
        for f in part.features:
            if f.role in ("hinge", "handle"):
                for k in (0, 1):
                    assert f.diameter / 2 <= f.at[k] <= part.size[k] - f.diameter / 2


@FEW
@given(hung())
def test_every_door_swings_open_and_touches_nothing(rod):
    cabinet = rod.cabinets[0]
    for door in cabinet.doors:
        across, run = (2, 0) if door.hinged == "up" else (0, 2)
        for degrees in DEGREES:
            corners, (a, b) = swung(cabinet.part[door.door], door.hinged, degrees)
            for other in cabinet.parts:
                low, high = box_of(other)
                if other.id == door.door or high[run] <= a or low[run] >= b:
                    continue
                assert not foul(corners, ((low[across], low[1]), (high[across], high[1]))), (
                    door.door,
                    degrees,
                    other.id,
                )


@st.composite
def drawn(draw):
    """A cabinet with drawers in one opening, some with doors below."""
    under = draw(st.booleans())
    style = draw(st.sampled_from(["overlay", "inset"]))
    openings = ("rest", float(draw(st.integers(160, 500)))) if under else ("rest",)
    runners = draw(st.sampled_from([{}, {"runners": "concealed", "runner_line": 25.0}]))
    bays = draw(st.integers(1, 2))
    try:
        return fronted(
            replace(doors("pair", style=style), openings=(1, 1)) if under else None,
            drawers=drawers(draw(st.integers(1, 3)), openings=len(openings), style=style, **runners),
            openings=openings, loose_shelves=(0,) * len(openings), bays=("rest",) * bays,
            width_mm=draw(st.integers(320, 800)) * bays, height_mm=float(draw(st.integers(500, 1200))),
            depth_mm=float(draw(st.integers(350, 600))), kind="base", shelf_set_back_mm=20.6 if style == "inset" else 0.0,
            corner_joint=recipe(draw(st.sampled_from(["dowel", "screw", "biscuit", "loose tenon"]))),
            sides=draw(st.sampled_from(["through", "between"])), back=draw(st.sampled_from([None, back()])),
        )  # fmt: skip
    except CannotBuild:
        assume(False)


@FEW
@given(drawn())
def test_drawers_are_proven_and_overlap_nothing(rod):
    assert prove(rod) == ()
    assert overlaps(rod.cabinets[0]) == []


@FEW
@given(drawn())
def test_no_runner_s_bore_meets_another_runner_s(rod):
    met = checks()["machining-that-meets"].look(rod)
    parts = {p.id for p in rod.cabinets[0].parts}
    assert [f for f in met if all("runner" in w for w in f.where if w not in parts)] == []


@FEW
@given(drawn())
def test_every_drawer_runs_out_its_whole_length_and_touches_nothing(rod):
    cabinet = rod.cabinets[0]
    for drawer in cabinet.drawers:
        mine = {drawer.front, *drawer.box}
        for id in mine:
            low, high = box_of(cabinet.part[id])
            swept = (low[0], low[1] - drawer.travel, low[2])
            for other in cabinet.parts:
                if other.id not in mine:
                    a, b = box_of(other)
                    assert not all(swept[k] + 1e-6 < b[k] and a[k] + 1e-6 < high[k] for k in range(3)), (id, other.id)
