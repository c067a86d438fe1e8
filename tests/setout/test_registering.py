"""One test for each row of the two tables: what each half registers on, and from where numbers are taken."""

import pytest

from rodwork.model.words import cabinet_words
from tests.building import back, cabinet, job, recipe, rod_of

SET_OUT_SCREW = recipe(("screw", {"pilot": "beforehand"}))


class Read:
    """Both printed halves of a joint's first fixing, in cabinet words."""

    def __init__(self, cabinet_entry, rod, joint_id, number=0):
        part = {p.id: p for p in cabinet_entry.parts}
        entries = {e.feature: e for s in rod.setups for e in s.features if e.feature}
        self.setup = {e.feature: s for s in rod.setups for e in s.features if e.feature}
        joint = next(j for j in cabinet_entry.joints if j.id == joint_id)
        fixing = joint.fixings[number]
        self.halves = [entries.get(h.feature) for h in fixing.halves]
        self.words = [cabinet_words(part[h.part].role, part[h.part].pose.rotation) for h in fixing.halves]
        self.setups = [self.setup.get(h.feature) for h in fixing.halves]

    def bears(self, half):
        return self.words[half][self.halves[half].bears]

    def across(self, half):
        return (self.halves[half].across.word, self.halves[half].across.mm)

    def along(self, half):
        return (self.halves[half].along.word, self.halves[half].along.mm)


HOST, GUEST = 0, 1


def read(joint_id, number=0, thickness=17.6, **changes):
    rod = rod_of(job(cabinet(**changes), thickness=thickness))
    return Read(rod.cabinets[0], rod, joint_id, number)


@pytest.mark.parametrize("side", ["left side", "right side"])
@pytest.mark.parametrize(("cross", "end"), [("top", "top end"), ("bottom", "bottom end")])
def test_corner_sides_through(side, cross, end):
    """Outer face of top or bottom; that END of the side; both from the front; the same fence on both."""
    r = read(f"{side} / {cross}")
    assert (r.bears(HOST), r.across(HOST), r.along(HOST)) == ("inside", (end, 9.0), ("front edge", 40.0))
    assert (r.across(GUEST), r.along(GUEST)) == (("outside", 9.0), ("front edge", 40.0))
    assert r.bears(GUEST) == ("left end" if side == "left side" else "right end")
    assert r.setups[HOST].fence == r.setups[GUEST].fence


@pytest.mark.parametrize("side", ["left side", "right side"])
@pytest.mark.parametrize(("cross", "end"), [("top", "top end"), ("bottom", "bottom end")])
def test_corner_top_and_bottom_through(side, cross, end):
    """Outer face of the side; that END of top or bottom."""
    r = read(f"{cross} / {side}", sides="between")
    own_end = "left end" if side == "left side" else "right end"
    assert (r.bears(HOST), r.across(HOST), r.along(HOST)) == ("inside", (own_end, 9.0), ("front edge", 40.0))
    assert (r.bears(GUEST), r.across(GUEST), r.along(GUEST)) == (end, ("outside", 9.0), ("front edge", 40.0))


@pytest.mark.parametrize("side", ["left side", "right side"])
def test_fixed_shelf(side):
    """The underside, and the line from the BOTTOM end of the side: 17.6 + 300; a set-back is added on the side."""
    r = read(f"{side} / fixed shelf", openings=(300.0, "rest"), shelf_set_back_mm=12.0)
    assert (r.across(GUEST), r.along(GUEST)) == (("underside", 9.0), ("front edge", 40.0))
    assert r.across(HOST) == ("bottom end", pytest.approx(317.6 + 9.0))
    assert r.along(HOST) == ("front edge", 52.0)
    for half in r.halves:
        assert half.across.line == pytest.approx(317.6)
        assert half.along.set_back == pytest.approx(12.0)
    assert r.setups[HOST].stands_on == "batten on the line"
    assert r.setups[HOST].fence == r.setups[GUEST].fence


def test_a_shelf_line_on_a_divider_is_taken_from_the_dividers_own_bottom_end():
    """A divider stands on the bottom: 300 above it, where the side reads 317.6."""
    changes = {"openings": (300.0, "rest"), "bays": (400.0, "rest"), "width_mm": 900.0}
    assert read("left side / fixed shelf 1", **changes).halves[HOST].across.line == pytest.approx(317.6)
    assert read("divider / fixed shelf 1", **changes).halves[HOST].across.line == pytest.approx(300.0)


@pytest.mark.parametrize("cross", ["top", "bottom"])
def test_divider(cross):
    """The left face, and the line from the LEFT end of both."""
    r = read(f"{cross} / divider", bays=(400.0, "rest"), width_mm=900.0)
    assert r.across(GUEST) == ("left face", 9.0)
    assert r.across(HOST) == ("left end", pytest.approx(409.0))
    assert r.halves[HOST].across.line == r.halves[GUEST].across.line == pytest.approx(400.0)
    assert r.along(HOST) == r.along(GUEST) == ("front edge", 40.0)


def test_rows_on_the_two_faces_of_a_divider_are_staggered_at_both_ends_of_the_right_hand_shelf():
    """Two diameters: 16 for an 8 mm dowel."""
    changes = {"bays": ("rest", "rest"), "width_mm": 900.0}
    assert read("divider / fixed shelf 1", **changes).along(HOST)[1] == 40.0
    assert read("divider / fixed shelf 2", **changes).along(HOST)[1] == 24.0
    assert read("right side / fixed shelf 2", **changes).along(HOST)[1] == 24.0
    assert read("divider / fixed shelf 1", number=3, **changes).along(HOST)[1] == 280.0
    assert read("divider / fixed shelf 2", number=3, **changes).along(HOST)[1] == 264.0


@pytest.mark.parametrize(("board", "end"), [("left side", "bottom end"), ("right side", "bottom end"),
                                            ("top", "left end"), ("bottom", "left end")])  # fmt: skip
def test_back_groove(board, end):
    """From the BACK edge, one fence for all boards; along, from the board's own bottom or left end."""
    r = read(f"{board} / back")
    assert r.across(HOST) == ("back edge", 18.0)
    assert r.halves[HOST].across.end_mm == 24.0
    assert r.along(HOST)[0] == end
    assert r.halves[GUEST] is None


def test_back_groove_of_boards_that_are_not_ripped_together():
    """From the FRONT on all of them: 320 - 24."""
    from rodwork.model.shop import Shop

    rod = rod_of(job(cabinet(), shop=Shop(name=None, ripped_together=False)))
    r = Read(rod.cabinets[0], rod, "left side / back")
    assert r.across(HOST) == ("front edge", 296.0)


@pytest.mark.parametrize(("board", "own_edge", "along"), [
    ("left side", "left edge", "bottom end"), ("right side", "right edge", "bottom end"),
    ("top", "top end", "left edge"), ("bottom", "bottom end", "left edge"),
])  # fmt: skip
def test_planted_back(board, own_edge, along):
    """Outside of the board against the back's own edge, 1 shy all round: 9 on the board, 8 on the back."""
    r = read(f"back / {board}", back=back("planted", joint=SET_OUT_SCREW))
    assert r.across(HOST) == (own_edge, 8.0)
    assert r.across(GUEST) == ("outside", 9.0)
    assert r.halves[HOST].across.line == r.halves[GUEST].across.line == -1.0
    begins = 0.0 if board.endswith("side") else 17.6  # top and bottom stand between the sides
    assert r.along(HOST) == (along, pytest.approx(begins + 39.0))
    assert r.along(GUEST)[1] == 40.0
    assert r.bears(HOST) == "back face"


def test_inset_back():
    """Back face of the back against the BACK edge, or the line where it comes."""
    r = read("left side / back", back=back("inset", board="birch18", void_mm=20.0, joint=SET_OUT_SCREW))
    assert r.across(GUEST) == ("back face", 9.0)
    assert r.across(HOST) == ("back edge", 29.0)
    assert r.bears(HOST) == "outside"


def test_screws_in_place_have_no_second_half_to_set_out():
    r = read("left side / top", corner_joint=recipe("screw"))
    assert r.bears(HOST) == "outside"
    assert r.across(HOST) == ("top end", 9.0)
    assert r.halves[GUEST] is None


def test_heights_come_from_the_bottom_end_but_the_top_corner_from_the_top_end():
    rod = rod_of(job(cabinet(openings=(300.0, "rest"))))
    for setup in rod.setups:
        for e in setup.features:
            if e.feature and e.part.endswith("side") and e.part in ("left side", "right side"):
                heights = [r for r in (e.along, e.across) if r.word in ("top end", "bottom end")]
                assert {r.word for r in heights} <= ({"top end"} if " / top " in e.feature else {"bottom end"})


def test_front_to_back_is_from_the_front_but_the_back_groove_is_from_the_back():
    rod = rod_of(job(cabinet(openings=(300.0, "rest"))))
    for setup in rod.setups:
        for e in setup.features:
            words = {r.word for r in (e.along, e.across) if r and r.word in ("front edge", "back edge")}
            if e.feature and e.part != "back":
                assert words == ({"back edge"} if "groove" in e.feature else {"front edge"})


def test_a_change_of_depth_or_of_the_surface_held_to_it_keeps_the_fence():
    rod = rod_of(job(cabinet()))
    jig = [s for s in rod.setups if s.tool == "dowel jig"]
    assert {s.depth for s in jig} == {12.0, 20.0}
    assert {s.registers_on for s in jig} == {"outside", "underside", "top end", "bottom end"}
    assert len({s.fence.id for s in jig}) == 1


def test_one_setting_serves_every_cabinet_of_the_job_that_shares_it():
    from dataclasses import replace

    one, two = cabinet(), replace(cabinet(), name="glaze two", mark="H", width_mm=800.0)
    rod = rod_of(job(one, two))
    outside = [s for s in rod.setups if s.tool == "dowel jig" and s.registers_on == "outside"]
    assert len(outside) == 1
    assert {e.cabinet for e in outside[0].features} == {"glaze", "glaze two"}


def test_before_edging_numbers_are_from_the_raw_edge():
    """A through housing is cut before the edging closes it: 1 mm of edging less at the front."""
    rod = rod_of(job(cabinet(shelf_joint=recipe(("housing", {"front": "through"})), openings=(300.0, "rest"))))
    cut = next(s for s in rod.setups if s.tool == "router and batten")
    assert cut.stage == "before edging"
    entry = cut.features[0]
    finished_end = 296.0
    assert entry.along.word == "front edge"
    assert entry.along.mm == pytest.approx(0.0)  # runs out through the raw front, 1 inside the finished one
    assert entry.along.end_mm == pytest.approx(finished_end - 1.0)


def test_edging_closes_a_through_housing_and_the_shelf_is_notched_behind_it():
    rod = rod_of(job(cabinet(shelf_joint=recipe(("housing", {"front": "through"})), openings=(300.0, "rest"))))
    shelf = rod.cabinets[0].part["fixed shelf"]
    assert (6.0, 1.0) in shelf.outline
