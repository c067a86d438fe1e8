"""Random cabinets from the whole vocabulary, for the laws. Those that cannot be built are told apart, not hidden."""

from hypothesis import assume
from hypothesis import strategies as st

from rodwork.model.job import CabinetEdging, CannotBuild, InBay, Job
from rodwork.model.rod import Rod
from rodwork.model.shop import Shop
from tests.building import back, cabinet, job, recipe, rod_of

tenths = lambda low, high: st.integers(int(low * 10), int(high * 10)).map(lambda n: n / 10)  # noqa: E731

CORNERS = st.sampled_from(
    [
        recipe("dowel"),
        recipe(("dowel", {"positions": "evenly"})),
        recipe(("dowel", {"size": "6x30", "offset_mm": 6.0})),
        recipe("screw"),
        recipe(("screw", {"head": "plugged", "pilot": "beforehand"})),
        recipe(("dowel", {"count": 2}), ("screw", {"first_mm": 80.0, "end_mm": 90.0})),
        recipe("biscuit"),
        recipe(("biscuit", {"size": "10", "set_by": "base", "base_mm": 6.0})),
        recipe("loose tenon"),
        recipe(("loose tenon", {"wider_mm": 0.0, "depth_in_face_mm": 8.0})),
        recipe("carcass screw"),
        recipe(("carcass screw", {"pilot": "beforehand"})),
        recipe("pocket screw"),
        recipe(("pocket screw", {"face": "other face"})),
        recipe("nail"),
        recipe("tongue"),
        recipe(("biscuit", {"count": 2}), "screw"),
        recipe("cam"),
        recipe("cam", ("dowel", {"count": 2, "first_mm": 30.0, "end_mm": 32.0})),
        recipe("quarter-turn connector"),
        recipe(("quarter-turn connector", {"key_side": "outside", "depth_mm": 8.0})),
        recipe("clip-in connector"),
        recipe("keyhole"),
        recipe("tenon-and-bolt fitting"),
    ]
)
MITRES = st.sampled_from(
    [
        recipe("biscuit"),
        recipe("loose tenon"),
        recipe("spline"),
        recipe(("spline", {"thickness_mm": 3.0, "depth_mm": 5.0})),
        recipe(("quarter-turn connector", {"depth_mm": 7.0})),
        recipe(("clip-in connector", {"depth_mm": 7.0})),
    ]
)
SHELVES = st.one_of(
    CORNERS,
    st.sampled_from(
        [
            recipe("housing"),
            recipe(("housing", {"front": "through", "depth_mm": 4.0})),
            recipe("housing", ("screw", {"pilot": "beforehand"})),
        ]
    ),
)
BACKS = st.one_of(
    st.none(),
    st.builds(
        lambda style, void: back(style, void_mm=void), st.sampled_from(["grooved all round", "grooved in the sides"]),
        tenths(0, 40),
    ),
    st.builds(
        lambda style, void: back(style, void_mm=void), st.sampled_from(["rebated", "rebated in the sides"]), tenths(0, 10)
    ),
    st.builds(lambda grain: back("planted", grain=grain), st.sampled_from(["up", "across"])),
    st.builds(lambda void: back("inset", board="birch18", void_mm=void), tenths(0, 30)),
)  # fmt: skip


class Built:
    """A job and its Rod; shown short, or a failing law prints a book."""

    def __init__(self, job: Job, rod: Rod):
        self.job, self.rod = job, rod

    def __repr__(self):
        c = self.job.cabinets[0]
        shown = (c.sides, c.corner_joint.name, c.shelf_joint.name, c.divider_joint.name, c.back and c.back.style)
        sizes = (c.width_mm, c.height_mm, c.depth_mm, self.job.boards["birch18"].actual_mm, c.shelf_set_back_mm)
        return f"Built({shown}, {sizes}, bays={len(c.bays)}, inside={c.in_bays})"


@st.composite
def storeys(draw, bays, shelves):
    """What stands in the bays: alike in all of them, or bay by bay."""

    def in_bay(number):
        loose = tuple(draw(st.integers(0, 1)) for _ in range(number + 1))
        return InBay(openings=("rest",) * (number + 1), loose_shelves=loose)

    by_bay = bays > 1 and draw(st.booleans())
    each = [in_bay(draw(st.integers(0, shelves))) for _ in range(bays)] if by_bay else [in_bay(shelves)] * bays
    return {"in_bays": tuple(each), "by_bay": by_bay}


@st.composite
def cabinets(draw, dividers=True, sides=None, thickness=None):
    """One random cabinet as a value."""
    bays = draw(st.integers(1, 3)) if dividers else 1
    shelves = draw(st.integers(0, 3))
    sides = sides or draw(st.sampled_from(["through", "between", "under the top", "mitred"]))
    ends = {
        "through": ("side bottoms", "side tops"), "between": ("top and bottom ends",),
        "under the top": ("side bottoms", "top and bottom ends"), "mitred": ("shelf fronts",),
    }[sides]  # fmt: skip
    edging = draw(st.sampled_from([None, ("fronts",), ("fronts", *ends), ("shelf fronts", ends[0])]))
    edging = tuple(dict.fromkeys(edging)) if edging else None
    corner = draw(MITRES if sides == "mitred" else CORNERS)
    return cabinet(
        sides=sides,
        width_mm=draw(tenths(350, 1400)) + 300 * (bays - 1), height_mm=draw(tenths(400, 2300)),
        depth_mm=draw(tenths(230, 600)), corner_joint=corner, divider_joint=draw(CORNERS), shelf_joint=draw(SHELVES),
        back=draw(BACKS), bays=("rest",) * bays, **draw(storeys(bays, shelves)),
        shelf_set_back_mm=draw(st.sampled_from([0.0, 0.0, 6.5, 20.0])),
        edging=CabinetEdging(edging="birch", on=edging) if edging else None,
    )  # fmt: skip


@st.composite
def built(draw, thickness=None, **kw):
    """A cabinet that can be made, with its Rod."""
    t = thickness or draw(tenths(12, 30))
    asked = draw(cabinets(**kw))
    shop = Shop(name=None, ripped_together=draw(st.booleans()))
    in_job = job(asked, thickness=t, back_thickness=draw(st.sampled_from([3.2, 5.8, 6.0, 8.7])), shop=shop)
    try:
        return Built(in_job, rod_of(in_job))
    except CannotBuild:
        assume(False)
        raise
