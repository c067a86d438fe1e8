"""Every kind of machining that a family may use, through every station: a family made up of them for the test.

One slot with round ends in both boards, one arc in both, and a pocket in the board that meets with its end.
"""

import json
from math import acos, cos, pi, radians, sin, sqrt, tan

import pytest

from rodwork.joints import kinds, registry
from rodwork.joints.kind import ALONG, INTO_GUEST, INTO_HOST, FixingPlan, JointKind, Void, straight_in
from rodwork.joints.registry import joint_kinds
from rodwork.model.feature import KINDS, ArcSlot, Pocket, Slot, chord
from rodwork.model.fixing import Play
from rodwork.model.rod import Rod
from rodwork.pipeline import set_out
from tests.joints.test_registry import JOB

ANGLE = radians(15.0)
PLAY = Play(along=0.1, across=0.1, shape="box")


def plan(run, settings, shop):
    """A mortise 60 from the front, an arc 150 from it, a pocket 240 from it."""

    def mortise(board, suffix, into):
        cut = Slot(
            id=suffix, role="seat", at=(60.0, 8.0, 0.0), into=into, along=ALONG, depth=12.0, width=5.0, length=24.0,
            ends="round", end_radius=2.5,
        )  # fmt: skip
        return Void(board=board, cut=cut, tool="mortise jointer", cutter="5 mm")

    def arc(board, suffix, into):
        cut = ArcSlot(
            id=suffix, role="seat", at=(150.0, 8.0, 0.0), into=into, along=ALONG, depth=10.0, cutter_radius=50.0,
            thickness=4.0,
        )  # fmt: skip
        return Void(board=board, cut=cut, tool="slot jointer", cutter="disc 100 x 4", to_marks=True)

    long = run.guest_thickness / 2 / sin(ANGLE)
    pocket = Pocket(
        id="p", role="access", at=(240.0, 0.0, long * cos(ANGLE)), into=(0.0, sin(ANGLE), -cos(ANGLE)), along=ALONG,
        depth=20.0, diameter=8.0, ahead=4.0, ahead_depth=long,
    )  # fmt: skip
    return (
        FixingPlan(u=60.0, v=8.0, length=24.0, law="meet", duty="both", host=mortise("host", "h", INTO_HOST),
                   guest=mortise("guest", "g", INTO_GUEST), play=PLAY, moves=straight_in(12.0)),
        FixingPlan(u=150.0, v=8.0, length=56.0, law="meet", duty="both", host=arc("host", "h", INTO_HOST),
                   guest=arc("guest", "g", INTO_GUEST), play=PLAY, moves=straight_in(10.0)),
        FixingPlan(u=240.0, v=8.0, length=30.0, law="none", duty="draws up", host=None,
                   guest=Void(board="guest", cut=pocket, tool="pocket jig", cutter="stepped bit 4/8", fence_on="no fence"), play=PLAY,
                   moves=straight_in(1.0)),
    )  # fmt: skip


@pytest.fixture(scope="module")
def rod():
    """A box whose corners are made with all of them."""
    from dataclasses import make_dataclass

    joint_kinds()
    peg = JointKind(
        name="peg", title="Pegs", settings=make_dataclass("Settings", [], frozen=True), plan=plan, glued=True,
        nature=joint_kinds()["dowel"].nature, places=("corner", "fixed shelf"),
    )  # fmt: skip
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(registry, "joint_kinds", lambda: {"peg": peg})
        patch.setattr("rodwork.joints.place.joint_kinds", lambda: {"peg": peg})
        patch.setattr("rodwork.pipeline.families", lambda: {"peg": peg.settings})
        yield set_out(
            JOB.replace(", first = 60", "").replace("depth = 300", 'depth = 300\nopenings = [200, "rest"]'), "box.toml"
        )
    assert kinds.__path__


def features(rod, kind):
    return [(p, f) for p in rod.cabinets[0].parts for f in p.features if f.kind == kind]


def test_the_printed_numbers_put_together_give_the_joint_again(rod):
    assert [f.message for f in rod.findings if f.code == "proof"] == []
    assert {f.kind for p in rod.cabinets[0].parts for f in p.features} == {"slot", "arc_slot", "pocket"}


def test_the_set_out_reads_back_as_it_was_written(rod):
    assert Rod.from_dict(json.loads(json.dumps(rod.to_dict()))) == rod


def test_slots_are_printed_to_their_middle_and_a_pocket_from_the_end_it_serves(rod):
    read = {e.feature: e for s in rod.setups for e in s.features if e.feature}
    for part, slot in [*features(rod, "slot"), *features(rod, "arc_slot")]:
        assert read[slot.id].across.end_mm is None
        assert read[slot.id].along.mm == {"slot": 60.0, "arc_slot": 150.0}[slot.kind], part.id
    for part, pocket in features(rod, "pocket"):
        row = read[pocket.id]
        assert row.across.word in ("left end", "right end")
        assert row.across.mm == pytest.approx(9.0 / tan(ANGLE), abs=0.05)
        assert row.bears == pocket.mouth, part.id


def test_what_stands_to_a_pencil_mark_needs_no_stop(rod):
    assert {s.tool: s.stop for s in rod.setups if s.tool == "slot jointer"} == {"slot jointer": "marks"}
    assert {s.stop for s in rod.setups if s.tool == "mortise jointer"} == {(60.0,)}


def test_solids_lose_just_what_each_shape_takes(rod):
    """Volumes by hand: a stadium, a segment of a disc, an oblique cylinder (its middle section times its length)."""
    from rodwork.documents.solids import part_solid

    segments = 256
    stadium = (24.0 - 5.0) * 5.0 + pi * 2.5**2
    half = acos((50.0 - 10.0) / 50.0)
    segment = 50.0**2 * (half - sin(half) * cos(half))
    top = rod.cabinets[0].part["top"]
    cuts = {f.kind: 0.0 for f in top.features}
    for f in top.features:
        askew = pi * 16.0 * f.depth + pi * 4.0 * (getattr(f, "ahead_depth", 0.0) - f.depth)
        cuts[f.kind] += {"slot": stadium * 12.0, "arc_slot": segment * 4.0, "pocket": askew}[f.kind]
    whole = top.size[0] * top.size[1] * top.size[2]
    assert whole - part_solid(top, segments).volume() == pytest.approx(sum(cuts.values()), rel=2e-3)


def test_the_chord_that_a_100_mm_cutter_leaves():
    """Geometry, worked by hand: 2 sqrt(d (100 - d)) at 8, 10 and 12 mm is 54.3, 60.0 and 65.0."""
    assert [round(chord(50.0, d), 1) for d in (8.0, 10.0, 12.0)] == [54.3, 60.0, 65.0]
    assert chord(50.0, 10.0) == pytest.approx(sqrt(3600.0))


def test_drawings_for_machines_have_a_layer_for_each_shape_and_only_a_guide_for_a_pocket(rod):
    from rodwork.documents.machining_drawing import machining_drawing

    layers = {layer.name: layer.purpose for layer in machining_drawing(rod.cabinets[0].part["top"]).layers}
    assert layers["LEFT_END_SLOT_5_DEEP_12"] == "machining"
    assert layers["LEFT_END_ARC_4_DEEP_10"] == "machining"
    assert [p for n, p in layers.items() if "POCKET_8_AT_15" in n] == ["guide"]


def test_every_page_of_the_pack_can_be_drawn(rod):
    from rodwork.documents.pack import pack_pages

    pages = pack_pages(rod)
    assert {"opened joint", "settings"} <= {p.kind for p in pages}


def test_a_pocket_opens_in_a_face_whichever_way_it_leans():
    for z, face in ((0.26, "back_side"), (-0.26, "face_side")):
        pocket = Pocket(
            id="p", role="access", at=(0.0, 0.0, 0.0), into=(0.97, 0.0, z), along=ALONG, depth=30.0, diameter=9.5
        )
        assert pocket.mouth == face


def test_every_kind_of_machining_is_known_to_every_station():
    """A new kind that a station does not know would be found when somebody first uses it; here, at once."""
    from rodwork.checks.shapes import rooms_of
    from rodwork.documents.machined import _size_words
    from rodwork.documents.machining_drawing import _shapes
    from rodwork.documents.mouths import mouth, profile
    from rodwork.documents.solids import _voids

    for kind in KINDS.values():
        for station in (rooms_of, _size_words, _shapes, mouth, profile, _voids):
            assert station.dispatch(kind) is not station.dispatch(object), (kind, station)
