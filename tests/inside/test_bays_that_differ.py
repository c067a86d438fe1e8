"""Bays with fixed shelves, loose shelves, doors and drawers of their own. Sizes are invented; heights worked by hand."""

import pytest

from rodwork.checks.registry import run_checks
from rodwork.job.faults import JobFaults
from rodwork.pipeline import dry_fit, load, set_out
from rodwork.setout.proof import prove
from tests.geometry.overlap import connectors_that_do_not_go_home, overlaps
from tests.texts import HEAD, joint

T = 17.6
SIZE = 'kind = "tall"\nwidth = 1200\nheight = 1800\ndepth = 450\nboard = "birch18"\n'
TWO = 'bays = [500, "rest"]\n'
BACK = 'back = { board = "birch6", style = "grooved all round" }\n'


PEGS = joint("pegs", '"dowel"')


def text(*lines, joints=PEGS):
    return f'{HEAD}{joints}\n[cabinets.hall]\njoint = "pegs"\n{SIZE}{TWO}' + "\n".join(lines) + "\n"


def hall(*lines, **said):
    rod = set_out(text(*lines, **said), "hall.toml")
    assert [f.message for f in prove(rod)] == []
    (cabinet,) = rod.cabinets
    assert overlaps(cabinet) == []
    return cabinet


def refused(*lines):
    with pytest.raises(JobFaults) as problem:
        set_out(text(*lines), "hall.toml")
    return " | ".join(f"{f.path} {f.what}. {f.mend}" for f in problem.value.faults)


def reach(part, axis):
    a, b = part.pose.to_cabinet((0.0, 0.0, 0.0))[axis], part.pose.to_cabinet(part.size)[axis]
    return tuple(round(v, 3) for v in sorted((a, b)))


def test_each_bay_has_the_shelves_that_are_said_for_it():
    c = hall(BACK, 'openings = [[400, "rest"], [300, 500, "rest"]]')
    shelves = [p for p in c.parts if p.role == "fixed shelf"]
    assert [reach(p, 0) for p in shelves] == [(T, 517.6), (535.2, 1182.4), (535.2, 1182.4)]
    assert [reach(p, 2)[0] for p in shelves] == [417.6, 317.6, 835.2]
    assert [p.id for p in shelves] == ["fixed shelf 1", "fixed shelf 2", "fixed shelf 3"]
    assert [o.bay for o in c.asked.openings] == [1, 1, 2, 2, 2]
    rests = [1800 - 3 * T - 400, 1800 - 4 * T - 800]
    assert [o.comes_to for o in c.asked.openings] == pytest.approx([400, rests[0], 300, 500, rests[1]])


def test_a_number_of_shelves_for_each_bay():
    c = hall("fixed_shelves = [2, 0]")
    assert [(o.bay, o.asked) for o in c.asked.openings] == [(1, None), (1, None), (1, None), (2, None)]


def test_loose_shelves_lie_in_the_opening_of_the_bay_that_they_are_asked_for():
    rod = set_out(text('openings = [["rest"], [700, "rest"]]', "loose_shelves = [[2], [0, 1]]"), "hall.toml")
    (c,) = rod.cabinets
    low, high = [[reach(p, axis) for p in c.parts if p.role == "loose shelf"] for axis in (0, 2)]
    assert [x for x, _ in low] == [T + 1, T + 1, 535.2 + 1]
    assert high[2][0] > T + 700 + T
    assert [f.message for f in run_checks(rod) if f.code == "pins-out-of-place"] == []


def test_one_number_is_dealt_out_in_each_bay():
    c = hall("fixed_shelves = [2, 0]", "loose_shelves = 2")
    per_bay = [sum(reach(p, 0)[0] < 517 for p in c.parts if p.role == "loose shelf"), 0]
    assert (per_bay[0], len([p for p in c.parts if p.role == "loose shelf"])) == (2, 4)


def test_written_bay_by_bay_alike_it_is_as_written_once():
    once, each = (
        hall("fixed_shelves = 2", "loose_shelves = [1, 0, 1]"),
        hall("fixed_shelves = [2, 2]", "loose_shelves = [[1, 0, 1], [1, 0, 1]]"),
    )
    assert once.parts == each.parts
    assert once.asked.openings == each.asked.openings


def test_bays_change_places_as_in_a_mirror():
    """The mirrored order of bays sets the same boards out at the mirrored places."""

    def shelves(bays, openings):
        lines = text(f"openings = {openings}").replace(TWO, f"bays = {bays}\n")
        (c,) = set_out(lines, "hall.toml").cabinets
        return sorted((reach(p, 0), reach(p, 2)) for p in c.parts if p.role == "fixed shelf")

    a = shelves('[500, "rest"]', '[[400, "rest"], [300, "rest", 500]]')
    b = shelves('["rest", 500]', '[[300, "rest", 500], [400, "rest"]]')
    mirrored = sorted(((round(1200 - x1, 3), round(1200 - x0, 3)), z) for (x0, x1), z in b)
    assert a == mirrored


def test_doors_and_drawers_go_into_the_openings_of_their_own_bay():
    c = hall(BACK, 'openings = [[400, "rest"], [300, 500, "rest"]]', 'doors = { hung = ["left", "right"] }',
             'drawers = { number = 2, bottom_board = "birch6", opening = 1, bays = [2] }')  # fmt: skip
    doors = {p.id: (reach(p, 0), reach(p, 2)) for p in c.parts if p.role == "door"}
    assert len(doors) == 2
    left, right = doors.values()
    assert left[1] == (1.5, 1798.5)  # before both its openings
    middle = round(T + 300 + T / 2, 3)  # of the shelf that the drawers and the door share
    assert right[1] == (middle + 1.5, 1798.5)
    fronts = [reach(p, 2) for p in c.parts if p.role == "drawer front" and "box" not in p.id]
    assert (fronts[0][0], fronts[-1][1]) == (1.5, middle - 1.5)


def test_drawers_that_name_no_opening_are_in_the_top_one_of_each_bay():
    c = hall(BACK, 'openings = [[900, "rest"], ["rest"]]', 'drawers = { number = 3, bottom_board = "birch6" }')
    lows = [reach(p, 2)[0] for p in c.parts if p.role == "drawer front" and "box" not in p.id]
    assert min(lows[:3]) > 900
    assert min(lows[3:]) == 1.5


def test_hinges_keep_clear_of_the_shelves_of_the_bay_alone():
    """The plates of the right bay's door are where a shelf of the left bay alone has its end."""
    for bay, hung in ((1, "left"), (2, "right")):
        inside = '[[877, "rest"], ["rest"]]' if bay == 1 else '[["rest"], [877, "rest"]]'
        c = hall(f"openings = {inside}", f'doors = {{ hung = "{hung}", bays = [{bay}] }}')
        side = c.part["left side" if bay == 1 else "right side"]
        plates = [side.pose.to_cabinet(f.at)[2] for f in side.features if f.role == "hinge"]
        assert plates
        assert all(not 877 + T - 5 < z < 877 + 2 * T + 5 for z in plates)


def test_a_face_frame_has_its_rails_before_the_shelves_of_each_bay():
    frame = 'face_frame = { board = "birch18" }'
    c = hall('openings = [[900, "rest"], ["rest"]]', frame)
    rails = [(reach(p, 0), reach(p, 2)) for p in c.parts if p.id.startswith("middle rail")]
    assert len(rails) == 1
    ((x, z),) = rails
    assert x[1] <= 517.6
    assert sum(z) / 2 == pytest.approx(T + 900 + T / 2)


def test_under_a_slope_each_bay_is_as_high_as_the_slope_leaves_it():
    lines = text(BACK, 'openings = [["rest"], ["rest"]]', 'roof = { falls = "right", low = 900, joint = "b" }',
                 joints=joint("pegs", '"dowel"') + joint("b", '"biscuit"')).replace('"tall"', '"under slope"')  # fmt: skip
    (c,) = set_out(lines, "hall.toml").cabinets
    first, second = c.asked.openings
    fall = 900 / (1200 - 2 * T)
    assert first.comes_to - second.comes_to == pytest.approx((1182.4 - 517.6) * fall, abs=0.6)


@pytest.mark.parametrize("family", ["dowel", "biscuit", "loose tenon", "cam", "housing"])
@pytest.mark.parametrize("apart", [0, 4, 12])
def test_shelves_at_near_heights_on_both_faces_of_a_divider_go_home(family, apart):
    joints = PEGS + joint("shelf", f'"{family}"')
    c = hall(BACK, 'shelf_joint = "shelf"', f'openings = [[400, "rest"], [{400 + apart}, "rest"]]', joints=joints)
    assert connectors_that_do_not_go_home(c) == []


def test_a_shelf_is_screwed_through_a_divider_where_none_stands_on_its_other_face():
    joints = PEGS + joint("shelf", '"screw"')
    apart = ('openings = [[400, "rest"], [500, "rest"]]', 'shelf_joint = "shelf"')
    c = hall(BACK, *apart, joints=joints)
    assert {f.family for j in c.joints if "divider" in j.parts and "fixed shelf 1" in j.parts for f in j.fixings} == {
        "screw"
    }
    assert connectors_that_do_not_go_home(c) == []
    with pytest.raises(JobFaults, match="another shelf stands on the other face"):
        set_out(text('shelf_joint = "shelf"', 'openings = [[400, "rest"], [440, "rest"]]', joints=joints), "hall.toml")


def test_the_stations_after_it_give_an_answer():
    rod = set_out(
        text(BACK, 'openings = [[400, "rest"], [300, 500, "rest"]]', "contents = { kg_per_m2 = 60 }"), "hall.toml"
    )
    assert 0.0 <= dry_fit(rod, samples=40).cabinets[0].chance <= 1.0
    assert {s.part for s in load(rod).cabinets[0].shelves} >= {"fixed shelf 1", "fixed shelf 2", "fixed shelf 3"}


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        (("fixed_shelves = [1, 2, 3]",), "fixed_shelves is written for 3, and there are 2 bays"),
        (('openings = [[400, "rest"]]',), "openings is written for 1, and there are 2 bays"),
        (('openings = [[400, "rest"], 300]',), "is not a list"),
        (('openings = [[400, "rest"], []]',), "has 0 entries"),
        (('openings = [[400, "rest"], [2000, "rest"]]',), "openings of bay 2 do not fit"),
        (("fixed_shelves = [1, 0]", "loose_shelves = [1, 1]"), "2 numbers for bay 2, and bay 2 has one opening"),
        (("fixed_shelves = [1, 0]", "loose_shelves = [[1, 1], [1], [1]]"), "written for 3, and there are 2 bays"),
        (("fixed_shelves = [1, 0]", "loose_shelves = [[1, 1], [20]]"), "20 loose shelves do not fit"),
        (("fixed_shelves = [1, 0]", 'doors = { hung = "left", openings = [1, 2] }'), "bay 2 has 1"),
        (("fixed_shelves = [1, 0]", 'drawers = { number = 2, bottom_board = "birch6", opening = 2 }'), "bay 2 has 1"),
        (("loose_shelves = [[0], [1]]", 'drawers = { number = 2, bottom_board = "birch6", bays = [2] }'),
         "opening 1 of bay 2 has loose shelves and drawers"),
        (("fixed_shelves = [1, -1]",), "fixed_shelves"),
        (("fixed_shelves = [1, nan]",), "fixed_shelves"),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_refused_with_the_bay(lines, told):
    assert told in refused(*lines)
