"""Face frames by the trade's arithmetic: stile = carcass height + overhang, rail = frame width - 2 stiles, or rails through
from side to side and stiles between them; members 38 wide (1 1/2 in) and 19 thick (3/4 in). Sources at the tests."""

import pytest

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out
from rodwork.setout.proof import prove
from tests.fronts.front_samples import box_of
from tests.fronts.test_bays import BOX, HEAD
from tests.geometry.overlap import overlaps

OAK = """
[boards.oak19]
material = "solid oak"
thickness = 19
sheet = [2440, 300]
grain = true
density = 700

[joints.dowels]
use = [{ family = "dowel" }]

[joints.housed]
use = [{ family = "housing", depth = 6.35, front = "through" }]
"""
UNIT = """
[cabinets.unit]
kind = "base"
width = 600
height = 720
depth = 560
board = "birch18"
joint = "dowels"
"""


def framed(words="", frame='board = "oak19"', unit=UNIT, head=HEAD):
    return set_out(f"{head}{OAK}{unit}face_frame = {{ {frame} }}\n{words}", "it.toml")


def sizes(rod):
    return {p.id: p.size[:2] for p in rod.cabinets[0].parts if p.role == "face frame"}


def sound(rod):
    assert [f.message for f in prove(rod)] == []
    assert overlaps(rod.cabinets[0]) == []
    return rod.cabinets[0]


def test_stiles_are_the_carcass_s_height_and_rails_stand_between():
    rod = framed()
    assert sizes(rod) == {
        "left stile": (720.0, 38.0), "right stile": (720.0, 38.0), "bottom rail": (524.0, 38.0), "top rail": (524.0, 38.0),
    }  # fmt: skip
    c = sound(rod)
    assert all(not p.in_box for p in c.parts if p.role == "face frame")
    assert c.size == (600.0, 720.0, 560.0)  # the frame comes on top of the depth


def test_a_frame_that_stands_over_the_carcass():
    rod = framed(frame='board = "oak19", overhang = 20, above = 10, below = 15')
    assert sizes(rod)["left stile"] == (745.0, 38.0)
    assert sizes(rod)["top rail"] == (640.0 - 76.0, 38.0)
    assert box_of(rod.cabinets[0].part["left stile"])[0] == pytest.approx((-20.0, -19.0, -15.0))
    sound(rod)


def test_a_bookcase_with_rails_through_comes_to_its_published_frame():
    """A bookcase plan, 32 x 48 in with a frame of 1 1/2 in: rails 32 long right across, stiles 45 between them (the page
    winenfood.com/a-step-by-step-guide-to-building-a-bookcase, its arithmetic only)."""
    unit = """
[cabinets.unit]
width = "32 in"
height = "48 in"
depth = "11 1/4 in"
board = "birch18"
joint = "dowels"
"""
    head = HEAD.replace("actual = 17.6", "actual = 19.05")
    rod = framed(
        frame='board = "oak19", stile = "1 1/2 in", rail = "1 1/2 in", rails = "through"', unit=unit, head=head
    )
    inch = 25.4
    assert sizes(rod)["bottom rail"] == pytest.approx((32 * inch, 1.5 * inch))
    assert sizes(rod)["left stile"] == pytest.approx((45 * inch, 1.5 * inch))
    c = sound(rod)
    assert c.part["top"].size[0] == pytest.approx(30.5 * inch)


def test_a_frame_flush_at_both_ends_of_a_housed_carcass():
    """Sides of 3/4 in housed to leave 1/2: bottom = frame width - 1 in, each 1/4 in of overhang takes another 1/4 off it: a
    published kitchen build (snaservices.com, SBW46 part 16)."""
    inch = 25.4
    unit = """
[cabinets.unit]
width = "24 in"
height = "30 in"
depth = "23 in"
board = "birch18"
corner_joint = "dowels"
shelf_joint = "housed"
fixed_shelves = 1
"""
    head = HEAD.replace("actual = 17.6", "actual = 19.05")
    for overhang in (0.0, 0.25):
        wide = unit.replace('"24 in"', f'"{24 - 2 * overhang} in"')
        rod = framed(frame=f'board = "oak19", overhang = "{overhang} in"', unit=wide, head=head)
        c = rod.cabinets[0]
        left, right = c.part["left stile"], c.part["right stile"]
        frame_width = box_of(right)[1][0] - box_of(left)[0][0]
        assert frame_width == pytest.approx(24 * inch)
        housed = c.part["fixed shelf"].size[0]  # a bottom that is housed is this long
        assert housed == pytest.approx(frame_width - (1 + 2 * overhang) * inch)


@pytest.mark.parametrize("bays", [0, 1, 2])
@pytest.mark.parametrize("shelves", [0, 2])
@pytest.mark.parametrize("rails", ["between", "through"])
def test_frames_of_many_openings_are_proven(bays, shelves, rails):
    words = f"dividers = {bays}\nfixed_shelves = {shelves}\n"
    unit = UNIT.replace("width = 600", "width = 1300").replace("height = 720", "height = 1400")
    rod = framed(words, f'board = "oak19", rails = "{rails}"', unit)
    c = sound(rod)
    assert len(sizes(rod)) == 4 + bays + shelves * (bays + 1)
    for n in range(1, bays + 1):
        stile, divider = box_of(c.part[f"stile {n}"]), box_of(c.part["divider" if bays == 1 else f"divider {n}"])
        assert stile[0][0] + stile[1][0] == pytest.approx(divider[0][0] + divider[1][0])


@pytest.mark.parametrize("joint", ["dowel", "biscuit", "loose tenon", "pocket screw", "screw"])
def test_ordinary_joints_hold_it_on_the_carcass(joint):
    head = HEAD + f'\n[joints.held]\nuse = [{{ family = "{joint}" }}]\n'
    c = sound(framed(frame='board = "oak19", fixed = "held"', head=head))
    held = [j for j in c.joints if j.contact.place == "face frame"]
    assert {frozenset(j.parts) for j in held} == {
        frozenset(p) for p in (("left stile", "left side"), ("right stile", "right side"), ("bottom rail", "bottom"),
                               ("top rail", "top"))
    }  # fmt: skip
    assert all(j.fixings for j in held)


def test_doors_lie_over_the_frame_by_half_an_inch_and_hang_on_its_stiles():
    rod = framed('doors = { hung = "pair", handle = 128 }\n')
    c = sound(rod)
    (x0, _, z0), _ = box_of(c.part["left door"])
    _, (x1, y1, z1) = box_of(c.part["right door"])
    assert (x0, z0, x1, z1) == pytest.approx((25.0, 25.0, 575.0, 695.0))  # 13 over members of 38
    assert y1 == pytest.approx(-21.0)  # 2 off the frame
    hinge = c.doors[0].hinges[0]
    assert hinge.carrier == "left stile"
    assert hinge.overlay == pytest.approx(13.0)
    plates = [c.part["left stile"].pose.to_cabinet(c.feature[p].at) for p in hinge.plate]
    assert {p[0] for p in plates} == {38.0}  # on the inner edge of the stile
    assert {p[1] for p in plates} == {-9.5}  # in the middle of its thickness


def test_inset_doors_hang_on_the_side_where_the_frame_is_flush_with_it():
    rod = framed('doors = { hung = "left", style = "inset" }\n', 'board = "oak19", overhang = 20.4')
    c = sound(rod)
    assert box_of(c.part["door"])[0] == pytest.approx((19.6, -19.0, 40.0))
    assert c.doors[0].hinges[0].carrier == "left side"


def test_the_overhang_that_is_named_for_inset_doors_lets_them_hang():
    """A stile of 38 before a board of 17.6 is flush with it 20.4 over the side; copied from the refusal, it is sound."""
    doors = 'doors = { hung = "left", style = "inset" }\n'
    with pytest.raises(JobFaults) as refused:
        framed(doors, 'board = "oak19", overhang = 5')
    said = refused.value.faults[0].mend
    assert "Write overhang = 20.4 under face_frame" in said
    sound(framed(doors, 'board = "oak19", overhang = 20.4'))


def test_inset_doors_that_shut_within_the_frame_leave_the_shelves_behind_it_where_they_are():
    """The frame is 19 before the carcass and so is the door; a thicker one would shut on a shelf that comes up to the frame."""
    inset = 'doors = { hung = "left", style = "inset" }\nloose_shelves = 2\nfixed_shelves = 0\n'
    c = sound(framed(inset, 'board = "oak19", overhang = 20.4'))
    assert box_of(c.part["loose shelf 1"])[0][1] > box_of(c.part["door"])[1][1]
    thick = HEAD.replace(
        "[boards.birch18]", '[boards.b22]\nmaterial = "MDF"\nthickness = 22\nsheet = [2440, 1220]\n\n[boards.birch18]'
    )
    with pytest.raises(JobFaults, match="Set them back by 6"):
        framed(inset.replace('"inset"', '"inset", board = "b22"'), 'board = "oak19", overhang = 20.4', head=thick)


def test_no_inner_rail_stands_before_a_shelf_that_inset_doors_pass():
    """Over both openings a pair shuts within the outer members; a door before each opening has a rail between them."""
    flush = 'board = "oak19", overhang = 20.4'
    c = sound(framed('fixed_shelves = 1\ndoors = { hung = "pair", style = "inset" }\n', flush))
    assert not [p.name for p in c.parts if p.name.startswith("middle rail")]
    assert overlaps(c) == []
    each = ", ".join(f'{{ hung = "left", style = "inset", openings = [{n}, {n}] }}' for n in (1, 2))
    parted = sound(framed(f"fixed_shelves = 1\ndoors = [{each}]\n", flush))
    assert [p.name for p in parted.parts if p.name.startswith("middle rail")] == ["middle rail"]
    assert overlaps(parted) == []


def test_the_plates_of_inset_doors_reach_back_to_a_side_that_the_frame_is_not_quite_flush_with():
    """The stile's edge is 0.6 further in than the side: the door, 2 in from the stile, lies 2.6 off the side."""
    c = sound(framed('doors = { hung = "left", style = "inset" }\n', 'board = "oak19", overhang = 19.8'))
    assert box_of(c.part["door"])[0][0] == pytest.approx(17.6 + 0.6 + 2.0)
    assert c.doors[0].hinges[0].overlay == pytest.approx(-2.6)


def test_drawers_run_through_the_frame_on_packing():
    rod = framed(f'drawers = {{ number = 2, {BOX}, joint = "dowels" }}\n')
    c = sound(rod)
    drawer = c.drawers[0]
    assert drawer.opening_width == 524.0
    assert drawer.box_width == 524.0 - 27.0
    assert {i.item: i.count for i in c.hardware}["packing for a runner, 20.4 mm thick"] == 4
    low, high = (min(box_of(c.part[i])[0][0] for i in drawer.box), max(box_of(c.part[i])[1][0] for i in drawer.box))
    assert (low, high) == pytest.approx((51.5, 548.5))
    for id in drawer.box:
        assert box_of(c.part[id])[0][2] > 38.0 or id.startswith("drawer 2")


@pytest.mark.parametrize(
    ("frame", "words", "says"),
    [
        ('board = "oak19", stile = 290', "", "an opening of 20"),
        ('board = "oak19", stile = 30, overhang = 20', "", "short of the inside"),
        ('board = "oak"', "", "no [boards.oak]"),
        ("stile = 38", "", "face_frame has no board"),
        ('board = "oak19", stile = nan', "", "face_frame.stile"),
        ('board = "oak19", rails = "across"', "", "face_frame.rails"),
        ('board = "oak19", joint = "glue"', "", "no [joints.glue]"),
        ('board = "oak19", style = 38', "", "Did you mean stile"),
        ('board = "oak19"', 'doors = { hung = "left", style = "inset" }', "hang the doors over the frame"),
        ('board = "oak19"', 'doors = { hung = "left", sides = 1.5 }', "no hinge and plate"),
        ('board = "oak19", fixed = "housed"', "", "cannot make"),
    ],
)
def test_what_cannot_be_framed_is_refused(frame, words, says):
    with pytest.raises(JobFaults) as refused:
        framed(words, frame)
    told = "\n".join(f"{f.line} {f.what} {f.mend}" for f in refused.value.faults)
    assert says in told


def test_inset_doors_that_a_narrow_divider_cannot_carry_hang_from_the_sides():
    """The stile before a divider of 17.6 is 38.6 wide, middle on middle: the divider lies 10.5 back from its edge."""
    frame = 'board = "oak19", stile = 38.6, overhang = 21'
    with pytest.raises(JobFaults) as refused:
        framed('dividers = 1\ndoors = { hung = "pair", style = "inset" }\n', frame)
    assert "divider behind the stile" in str(refused.value)
    assert "from a side" in str(refused.value)
    assert "stile and overhang" not in str(refused.value)
    sound(framed('dividers = 1\ndoors = { hung = ["left", "right"], style = "inset" }\n', frame))


@pytest.mark.parametrize("hung", ['["left", "right"]', '"pair"'])
@pytest.mark.parametrize("shelves", ["fixed_shelves = 1\nloose_shelves = [1, 1]", "loose_shelves = 2"])
@pytest.mark.parametrize("height", [720, 1200, 1960])
def test_pockets_of_a_frame_keep_clear_of_pins_plates_and_shelves(hung, shelves, height):
    """A pocket of 9.5 and a bore of 5 with 3 between them (the shop's least) stand 10.25 apart: arithmetic."""
    style = "inset" if hung != '"pair"' else "overlay"
    words = f'dividers = 1\n{shelves}\ndoors = {{ hung = {hung}, style = "{style}" }}\n'
    unit = UNIT.replace("720", str(height))
    made = framed(words, 'board = "oak19", stile = 38, overhang = 20.4', unit=unit)
    cabinet = sound(made)
    for board in (cabinet.part[id] for id in ("left side", "right side", "divider")):
        pockets = [f for f in board.features if f.kind == "pocket" and "stile" in f.id]
        others = [f for f in board.features if f.role in ("shelf_pin", "hinge") and f.at[1] < 60]
        assert len(pockets) >= 4
        assert others
        assert min(abs(p.at[0] - o.at[0]) for p in pockets for o in others) >= 10.25 - 1e-6
    assert [f.message for f in made.findings if f.code == "machining-that-meets"] == []
