"""docs/joints/<family>.md is held to its family: its settings, where it may be used, and what it draws."""

from dataclasses import MISSING, fields, replace
from itertools import product

import pytest

from rodwork.joints.registry import joint_kinds
from tests.docs.pages import DOCS, blocks, tables_under

KINDS = list(joint_kinds().values())
SECTIONS = ("Where it may be used", "From which surface each half is set", "Settings", "Depths and positions",
            "What shows", "With care")  # fmt: skip


def page(kind):
    return DOCS / "joints" / f"{kind.file_name}.md"


def may_be(said):
    if "length" in said:
        return f"{said['low']:g} to {said['high']:g} mm"
    if "options" in said:
        return ", ".join(f'"{o}"' for o in said["options"])
    if "switch" in said:
        return "true or false"
    if "pattern" in said:
        return f'such as "{said["example"]}"'
    return f"a whole number, {said['low']} to {said['high']}"


def left_out(f):
    assert f.default is not MISSING
    if f.default is None:
        return "worked out"
    if isinstance(f.default, bool):
        return str(f.default).lower()
    return f'"{f.default}"' if isinstance(f.default, str) else f"{f.default:g} mm"


def rows(kind):
    """The rows of the page's settings table, as they must stand there."""
    from rodwork.job.words import setting_words

    by_name = {f.name: f for f in fields(kind.settings)}
    return [
        (f"`{word}`", by_name[name].metadata["about"], may_be(by_name[name].metadata), left_out(by_name[name]))
        for word, name in setting_words(kind.settings).items()
    ]


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.name)
def test_the_page_has_every_setting_with_its_limits_and_none_that_is_not_there(kind):
    (table,) = tables_under(page(kind), "Settings")
    expected = rows(kind)
    assert list(table[1:]) == expected, "write:\n" + "\n".join(f"| {' | '.join(r)} |" for r in expected)


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.name)
def test_the_page_names_every_place_that_the_family_can_make_and_no_other(kind):
    (table,) = tables_under(page(kind), "Where it may be used")
    assert sorted(row[0] for row in table[1:]) == sorted(kind.places)


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.name)
def test_every_page_of_a_joint_answers_the_same_questions(kind):
    text = page(kind).read_text(encoding="utf-8")
    assert [s for s in SECTIONS if f"\n## {s}\n" not in text] == []
    assert text.startswith("# ")


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.name)
def test_the_pages_own_example_is_made_with_the_family(kind):
    from rodwork.pipeline import set_out

    example = next(b for b in blocks(page(kind)) if b.language == "toml")
    rod = set_out(example.text, example.place)
    families = {f.family for c in rod.cabinets for j in c.joints for f in j.fixings}
    assert kind.name in families


def table_with(kind, first_header):
    (table,) = [t for t in tables_under(page(kind), "Depths and positions") if t[0][0] == first_header]
    return table[1:]


def numbers(row):
    return [float(cell) for cell in row]


def named(name):
    return joint_kinds()[name]


def test_the_dowels_depths_are_those_that_the_page_gives():
    from tests.joints.runs import planned, run

    rows = table_with(named("dowel"), "board")
    assert rows
    for row in rows:
        board, face, end, left = numbers(row)
        dowel = planned("dowel", run(host_thickness=board))[0]
        assert (dowel.host.cut.depth, dowel.guest.cut.depth) == (face, end)
        assert left == pytest.approx(board - face - dowel.host.cut.tip)


def test_the_screws_are_those_that_the_page_gives():
    from tests.joints.runs import planned, run

    rows = table_with(named("screw"), "board it passes")
    assert rows
    for board, screw, holds in rows:
        one = planned("screw", run(host_thickness=float(board)))[0]
        assert one.hardware[0].item == f"screw {screw}"
        assert one.guest.cut.depth == pytest.approx(float(holds))


@pytest.mark.parametrize(("family", "place"), [("housing", "fixed shelf"), ("rebate", "back in a rebate")])
def test_channels_are_as_deep_as_the_page_gives(family, place):
    from tests.joints.runs import planned, run

    rows = table_with(named(family), "board")
    assert rows
    for board, deep in map(numbers, rows):
        assert planned(family, run(place=place, host_thickness=board))[0].host.cut.depth == deep


def test_grooves_are_as_wide_and_made_with_the_cutter_that_the_page_gives():
    from tests.joints.runs import planned, run

    rows = table_with(named("groove"), "back")
    assert rows
    for board, width, cutter in map(numbers, rows):
        groove = planned("groove", run(place="back in a groove", guest_thickness=board))[0].host
        assert groove.cut.width == pytest.approx(width)
        assert groove.cutter == f"{cutter:g} mm"


def surfaces_used(kind):
    """(place, word of the surface a half is set from) over cabinets that use the family everywhere it can be."""
    from rodwork.model.fronts import FaceFrame
    from rodwork.model.job import RoofAsked
    from tests.building import back, cabinet, edge_to_edge, job, recipe, rod_of

    def own(settings):
        return recipe((kind.name, settings))

    always = {"pilot": "beforehand"} if "pilot" in {f.name for f in fields(kind.settings)} else {}
    box = {p: own(always) if p in kind.places else recipe("dowel") for p in ("corner", "fixed shelf", "divider")}
    mitred = cabinet(sides="mitred", corner_joint=own(always), back=None) if "mitre" in kind.places else None
    backs = [back(style) for style in kind.backs]
    if "inset back" in kind.places:
        backs.append(back("inset", board="birch18", clearance_mm=0.0, joint=own(always)))
    if "planted back" in kind.places:
        backs += [back("planted", grain=grain, joint=own(always)) for grain in ("up", "across")]
    found = surfaces_in(kind, rod_of(job(mitred)).cabinets[0]) if mitred else set()
    if "on a slope" in kind.places:
        roof = RoofAsked(falls="right", low_mm=660.0, degrees=None, joint=own(always))
        found |= surfaces_in(kind, rod_of(job(cabinet(roof=roof, back=None, bays=("rest", "rest")))).cabinets[0])
    inside = ({"bays": (400.0, "rest"), "openings": ("rest",)}, {"bays": ("rest",), "openings": ("rest", "rest")})
    for sides in ("through", "between"):
        for asked, boards in product(backs or [None], inside):
            rod = rod_of(job(cabinet(
                width_mm=900.0, depth_mm=400.0, sides=sides, back=asked, corner_joint=box["corner"], shelf_joint=box["fixed shelf"],
                divider_joint=box["divider"], loose_shelves=(0,) * len(boards["openings"]), **boards,
            )))  # fmt: skip
            found |= surfaces_in(kind, rod.cabinets[0])
    if "edge to edge" in kind.places:
        found |= surfaces_in(kind, edge_to_edge(own(always)).cabinets[0])
    if "face frame" in kind.places:
        frame = FaceFrame(
            board="birch18", stile_mm=40.0, rail_mm=40.0, overhang_mm=0.0, above_mm=0.0, below_mm=0.0, rails="between",
            joint=recipe(("pocket screw", {"first_mm": 10.0, "end_mm": 10.0})), fixed=own(always),
        )  # fmt: skip
        framed = rod_of(job(cabinet(face_frame=frame, bays=("rest", "rest"), width_mm=900.0))).cabinets[0]
        on_carcass = tuple(j for j in framed.joints if j.contact.place == "face frame")
        found |= surfaces_in(kind, replace(framed, joints=on_carcass))
    return found


def surfaces_in(kind, c):
    """The same over one cabinet."""
    from rodwork.model.words import cabinet_words

    found = set()
    words = {p.id: cabinet_words(p.role, p.pose.rotation) for p in c.parts}
    for joint in c.joints:
        if {f.family for f in joint.fixings} != {kind.name}:
            continue
        contact = joint.contact
        halves = zip(joint.parts, (contact.host_register, contact.guest_register), strict=True)
        enters = all(f.law == "enter" for f in joint.fixings)
        for half, (part, register) in enumerate(halves):
            if enters and half == 1 and "back" in contact.place:
                continue  # nothing is machined in the back
            found.add((contact.place, words[part][register.across_from]))
            if not enters:
                found.add((contact.place, words[part][register.along_from]))
    return found


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.name)
def test_the_page_names_every_surface_that_a_half_is_set_from(kind):
    (table,) = tables_under(page(kind), "From which surface each half is set")
    said = {}
    for row in table[1:]:
        said[row[0]] = said.get(row[0], "") + " ".join(row[1:])
    found = surfaces_used(kind)
    assert {place for place, _ in found} == set(kind.places)
    for place, word in sorted(found):
        assert word in said[place], f"{kind.name}, {place}: the page does not name the {word}"
