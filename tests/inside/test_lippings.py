"""Solid lippings as boards. Sizes are invented; what is left over and taken off is common practice, no source."""

from dataclasses import replace

import pytest

from rodwork.catalogue.accuracy import assumed_accuracy
from rodwork.documents.buying_list import buying_rows
from rodwork.documents.cutting_list import cutting_rows
from rodwork.documents.labels import label_pages
from rodwork.documents.lipping_words import lipped_words
from rodwork.documents.solids import drawn_boards, drawn_solid, part_solid
from rodwork.fit.carcass import model_of
from rodwork.load.shelves import shelf_loads
from rodwork.pipeline import set_out
from rodwork.setout.proof import prove
from tests.geometry.overlap import overlaps
from tests.inside.inside_samples import refused, rod_of_text
from tests.runs.run_samples import CABINETS, job_text

T, BIRCH, OAK = 17.6, 680.0, 690.0
STRIPS = """
[boards.oak9]
material = "oak"
grain = true
density = 690
thickness = 9
sheet = [2400, 120]
{}
[edgings.oak]
made_of = "oak9"
{}
"""
SIZE = 'width = 600\nheight = 720\ndepth = 320\nboard = "birch18"\n'
ALL = 'edging = { with = "oak", on = ["fronts", "doors"] }'
LINES = (ALL, "fixed_shelves = 1", 'doors = { hung = "left" }')


def made(*lines, board="", edging="", **kw):
    return rod_of_text(*(lines or LINES), size=SIZE, more=STRIPS.format(board, edging), **kw)


def test_a_strip_is_sawn_over_size_and_its_board_short_of_it():
    """9 thick, 1 comes off: 320 - 8 = 312. The strip: 17.6 + 2 x 1 wide, 720 + 2 x 10 long."""
    cabinet = made().cabinets[0]
    side, strip = cabinet.part["left side"], cabinet.part["left side front lipping"]
    assert (side.size, side.cut) == ((720.0, 320.0, T), (720.0, 312.0))
    assert (strip.role, strip.board, strip.glued_on, strip.in_box) == ("lipping", "oak9", "left side", False)
    assert strip.size == pytest.approx((720.0, T, 8.0))
    assert strip.cut == pytest.approx((740.0, 19.6))
    assert strip.marks == ("I1-LPLSF",)


def test_edges_run_through_over_the_lippings_of_the_ends():
    cabinet = made().cabinets[0]
    long, wide, _ = cabinet.part["door"].size
    strips = {p.name.split()[1]: p.size[0] for p in cabinet.lippings["door"]}
    assert strips == pytest.approx({"left": long, "right": long, "top": wide - 16.0, "bottom": wide - 16.0})


@pytest.mark.parametrize("shelf", ["dowels", "housings", "tongues"])
def test_a_board_and_its_lippings_are_the_board_and_share_nothing(shelf):
    rod = made(*LINES, f'shelf_joint = "{shelf}"')
    assert prove(rod) == ()
    cabinet = rod.cabinets[0]
    assert overlaps(cabinet) == []
    volume = {d.part.id: drawn_solid(d).volume() for d in drawn_boards(cabinet)}
    for board, strips in cabinet.lippings.items():
        whole = part_solid(cabinet.part[board], 16).volume()
        assert volume[board] + sum(volume[s.id] for s in strips) == pytest.approx(whole, rel=1e-9)
        assert all(volume[s.id] > 0 for s in strips)


def test_a_strip_ends_at_the_notch_of_a_shelf_that_is_let_in():
    """A through housing is closed by the lipping: the shelf is notched 8 at its front, and carries none there."""
    shelf = '\n[joints.through]\nuse = [{ family = "housing", front = "through" }]\n'
    rod = rod_of_text(*LINES, 'shelf_joint = "through"', size=SIZE, more=STRIPS.format("", "") + shelf)
    part, strip = (rod.cabinets[0].part[id] for id in ("fixed shelf", "fixed shelf front lipping"))
    assert any(y == pytest.approx(8.0) for _, y in part.outline)
    assert strip.size[0] == pytest.approx(600.0 - 2 * T)
    cut = next(s for s in rod.setups if s.tool == "router and batten")
    assert cut.stage == "before edging"
    assert cut.features[0].along.mm == pytest.approx(0.0)  # from the raw edge, 8 inside the finished one


def test_the_lipping_weighs_once_and_as_its_own_wood():
    """720 x 17.6 of 312 birch and 8 oak, kg; the middle of the whole from both middles."""
    cabinet = made().cabinets[0]
    birch, oak = (720 * T * d * density * 1e-9 for d, density in ((312, BIRCH), (8, OAK)))
    side = cabinet.part["left side"].weight
    assert side.kg == pytest.approx(birch + oak, abs=1e-5)
    assert side.centre[1] == pytest.approx((birch * (8 + 156) + oak * 4) / (birch + oak), abs=1e-4)
    assert cabinet.part["left side front lipping"].weight.kg == pytest.approx(oak, abs=1e-5)
    assert cabinet.weight.kg == pytest.approx(sum(p.weight.kg for p in cabinet.whole_boards), abs=1e-5)


def test_a_lipped_board_is_sawn_to_size_again_before_it_is_bored():
    rod = made()
    again = [s for s in rod.setups if s.stage == "after edging" and s.tool.startswith("saw")]
    sizes = {(f.part, "across" if f.across else "along"): s.fence.mm for s in again for f in s.features}
    assert sizes["left side", "across"] == 320.0
    assert ("left side", "along") not in sizes  # its ends are bare
    assert {"across", "along"} == {way for part, way in sizes if part == "door"}
    order = [s.id for s in rod.setups]
    bored = [s.id for s in rod.setups if s.stage == "after edging" and not s.tool.startswith("saw")]
    assert max(map(order.index, (s.id for s in again))) < min(map(order.index, bored))


def test_what_keeps_all_of_its_thickness_is_not_sawn_again():
    rod = made(edging="adds = 9")
    assert prove(rod) == ()
    assert not [s for s in rod.setups if s.stage == "after edging" and s.tool.startswith("saw")]


def test_the_proof_finds_a_strip_that_is_too_small_missing_or_elsewhere():
    rod = made()
    cabinet = rod.cabinets[0]
    strip = cabinet.part["left side front lipping"]

    def told(*parts):
        return [f.message for f in prove(replace(rod, cabinets=(replace(cabinet, parts=parts),)))]

    others = tuple(p for p in cabinet.parts if p.id != strip.id)
    assert any("what it is sawn to in width" in m for m in told(*others, replace(strip, cut=(740.0, T))))
    assert any("a strip for each lipped edge of the left side" in m for m in told(*others))
    moved = replace(strip.pose, origin=(strip.pose.origin[0], strip.pose.origin[1] + 5, strip.pose.origin[2]))
    assert any("does not lie on a lipped edge" in m for m in told(*others, replace(strip, pose=moved)))
    setups = tuple(s for s in rod.setups if not (s.stage == "after edging" and s.tool == "saw, rip fence"))
    assert any("to size once it is lipped" in f.message for f in prove(replace(rod, setups=setups)))


def test_a_lipping_of_known_stiffness_stiffens_its_shelf():
    """Where it is not known the board between the lippings alone is reckoned."""
    known = 'stiffness = 12000\ndeclared_by = "a test of our own"'

    def sag(**kw):
        rod = made(ALL, "fixed_shelves = 1", "contents = { kg_per_m2 = 60 }", **kw)
        return next(s for s in shelf_loads(rod.cabinets[0], rod) if s.part == "fixed shelf").new_mm

    assert sag(board=known) < sag()


def test_lists_and_labels_say_what_to_do_in_order():
    rod = made()
    row = next(r for r in cutting_rows(rod) if "I1-LPLSF" in r.marks)
    assert (row.name, row.edging_text) == ("lipping", "glued on, flushed and trimmed")
    assert not [r for r in buying_rows(rod) if r.group == "Edging"]
    assert any(r.item.startswith("oak9") for r in buying_rows(rod))
    said = lipped_words(rod.cabinets[0].part["left side"], rod)
    assert said == (
        "Lipped with 8 of oak on the front edge, before any of this: saw to 720 x 312, glue it on, flush both faces, "
        "then saw it to 720 x 320 again."
    )
    texts = " ".join(s.text for page in label_pages(rod) for s in page.shapes if hasattr(s, "text"))
    assert "glue on I1-LS, front edge" in texts


@pytest.mark.parametrize(
    ("edging", "says"),
    [
        ("adds = 10", "10 cannot be left of it"),
        ("adds = 0", "0 cannot be left of it"),
        ("adds = 2\nmills = 3", "as much as the 2"),
        ("thickness = 4", "its own thickness is 4"),
        ("price_per_m = 2", "costs what that board costs"),
        ("proud = 1e9", "not a length for a shop"),
        ("longer = nan", "not a length"),
    ],
)
def test_nonsense_is_refused_at_its_line(edging, says):
    assert says in refused(*LINES, size=SIZE, more=STRIPS.format("", edging))


def test_an_unknown_board_is_nearly_one_that_there_is():
    more = STRIPS.format("", "").replace('made_of = "oak9"', 'made_of = "oka9"')
    assert 'Did you mean "oak9"?' in refused(*LINES, size=SIZE, more=more)


@pytest.mark.parametrize("material", ["chipboard", "melamine-faced chipboard", "veneered MDF", "OSB"])
def test_a_strip_of_chips_or_fibres_is_no_lipping(material):
    sheet = f'material = "{material}"'
    more = STRIPS.format("", "").replace('material = "oak"\ngrain = true\ndensity = 690', sheet)
    said = refused(*LINES, size=SIZE, more=more)
    assert f"which is {material}" in said
    assert "Name a board of solid wood, or of plywood" in said


def test_a_strip_of_plywood_may_be_a_lipping():
    more = STRIPS.format("", "").replace('material = "oak"\ngrain = true\ndensity = 690', 'material = "birch plywood"')
    assert any(p.role == "lipping" for p in rod_of_text(*LINES, size=SIZE, more=more).cabinets[0].parts)


def test_a_lipping_longer_than_its_plank_stops_the_job():
    """720 and 10 at each end do not come out of a plank of 700, and it is said what does."""
    short = STRIPS.format("", "").replace("sheet = [2400, 120]", "sheet = [700, 120]")
    rod = rod_of_text(*LINES, size=SIZE, more=short)
    told = [f for f in rod.findings if f.code == "larger-than-sheet" and "lipping" in f.message]
    assert any("740 x 19.6, grain along the first, does not come out of a 700 x 120 sheet" in f.message for f in told)
    assert all(f.severity == "fault" and "join it from two boards" in f.mend for f in told)


def test_a_tape_has_nothing_to_flush():
    more = "\n[edgings.tape]\nthickness = 1\nproud = 1\n"
    assert "proud goes with a lipping" in refused(size=SIZE, more=more)


def test_too_little_board_between_lippings_is_refused():
    thick = STRIPS.format("", "").replace("thickness = 9", "thickness = 60")
    shallow = SIZE.replace("depth = 320", "depth = 60")
    more = thick.replace('made_of = "oak9"', 'made_of = "oak9"\nadds = 42')
    assert "18 mm would be left of the" in refused('edging = { with = "oak", on = "fronts" }', size=shallow, more=more)


def test_the_lipped_top_of_a_cabinet_under_a_slope_with_doors_is_set_out():
    """Checks look at the top on its slope as one board, and not at its lipping by itself."""
    lines = (
        'kind = "under slope"', 'corner_joint = "dowels"', "fixed_shelves = 1",
        'roof = { falls = "right", degrees = 20, joint = "biscuits" }', 'edging = { with = "oak", on = "fronts" }',
        'doors = { hung = "left", openings = [1, 1] }',
    )  # fmt: skip
    size = SIZE.replace("height = 720", "height = 1100").replace("depth = 320", "depth = 400")
    more = STRIPS.format("", "") + '\n[joints.biscuits]\nuse = [{ family = "biscuit" }]\n'
    rod = rod_of_text(*lines, size=size, more=more)
    assert prove(rod) == ()
    assert rod.cabinets[0].part["top front lipping"].pose.slopes


def test_a_door_cut_to_a_slope_is_not_lipped_and_says_what_else():
    size = SIZE.replace("width = 600", "width = 1000").replace("height = 720", "height = 900")
    lines = ('kind = "under slope"', 'roof = { falls = "right", degrees = 30 }', ALL, 'doors = { hung = "left" }')
    says = refused(*lines, size=size, more=STRIPS.format("", ""))
    assert "runs askew" in says
    assert "edge this cabinet with a tape" in says


def test_what_is_sawn_to_size_again_is_off_by_the_saw_alone_and_not_by_its_lipping():
    """The dry fit: the thickness of a strip is no error of a board that is sawn with it on."""

    def errors(edging):
        return {s.key for s in model_of(made(edging=edging), "it", assumed_accuracy()).sources}

    assert "shared size|oak" in errors("adds = 9")  # all of it stays on
    assert "shared size|oak" not in errors("")


def test_the_worktop_and_the_plinth_board_of_a_run_are_lipped_as_the_run_says():
    run = 'edging = "oak"\nworktop = { board = "top40" }\nplinth = {}\nabove_floor = 150\nof = ["bench", "sink"]\n'
    rod = set_out(job_text(run, CABINETS + STRIPS.format("", "")), "runs.toml")
    north = rod.cabinet["north"]
    assert "worktop" in {north.part[id].role for id in north.lippings}
    assert prove(rod) == ()
    assert overlaps(north) == []
    (top,) = (p for p in north.parts if p.role == "worktop")
    strips = north.lippings[top.id]
    assert {s.size[1] for s in strips} == {40.0}
    assert top.cut[1] == pytest.approx(top.size[1] - 8.0 * sum(s.size[0] > 1000 for s in strips))
