"""Boards made up for the tests: any outline, any features, with hypothesis or by hand."""

import json
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

from hypothesis import strategies as st

from rodwork.geometry.vec import IDENTITY
from rodwork.model.feature import Bore, Countersink, Groove, Rebate
from rodwork.model.panel import EdgingOnPart, Part
from rodwork.model.pose import Pose
from rodwork.model.rod import Rod

GLAZE = Path(__file__).parents[1] / "data" / "glaze.rod.json"
X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
DOWN = (0.0, 0.0, -1.0)


def glaze():
    """The glaze cupboard as the design's own data give it."""
    return Rod.from_dict(json.loads(GLAZE.read_text(encoding="utf-8")))


def handed(cabinet):
    """The same cupboard with pins below its shelf only, so that left and right sides are two hands."""

    def without_upper_pins(part):
        kept = tuple(f for f in part.features if not (f.role == "shelf_pin" and " pin 5" in f.id))
        return replace(part, features=kept)

    return replace(cabinet, parts=tuple(without_upper_pins(p) for p in cabinet.parts))


def board(*features, size=(600.0, 300.0, 18.0), outline=None, bevels=None, **more):
    """A board lying as in its own frame, called a bottom."""
    L, W, _ = size
    outline = outline or ((0.0, 0.0), (L, 0.0), (L, W), (0.0, W))
    values = {
        "id": "bottom", "name": "bottom", "role": "bottom", "in_box": True, "board": "ply", "material": "plywood",
        "grain": True, "measured": False, "size": size, "cut": (L, W), "edging": EdgingOnPart(),
        "edging_name": None, "shows": (), "outline": tuple(outline), "bevels": bevels or (0.0,) * len(outline),
        "pose": Pose(rotation=IDENTITY, origin=(0.0, 0.0, 0.0)), "marks": ("C1-B",), "same_as": None,
        "features": features,
    }  # fmt: skip
    return Part(**{**values, **more})


def _with_defaults(values):
    return {"id": "a", "role": "seat", "joint": None, "stage": "after edging", "into": DOWN, "along": X, **values}


def bore(**values):
    """A bore; into the face side unless told otherwise."""
    return Bore(**_with_defaults(values))


def groove(**values):
    """A groove; into the face side, along the length."""
    return Groove(**_with_defaults(values))


def rebate(**values):
    """A rebate; into the face side, along the length."""
    return Rebate(**_with_defaults(values))


def round_to_tenth(low, high):
    """Lengths as a shop gives them."""
    return st.integers(round(low * 10), round(high * 10)).map(lambda n: n / 10)


@st.composite
def machined_boards(draw):
    """Boards whose features do not meet: each in its own bay along the length, and shallow in the edges.

    The far edge may carry a rebate, and the left end of the far edge a notch.
    """
    bays = draw(st.integers(1, 5))
    bay = 60.0
    L, W = bays * bay + 120.0, draw(round_to_tenth(150, 600))
    T = draw(round_to_tenth(12, 25))
    features = []
    for n in range(bays):
        middle = 60.0 + bay * (n + 0.5)
        features.append(draw(_one_of_each(n, middle, W, T)))
    if draw(st.booleans()):
        features.append(_end_bore(draw, L, W, T))
    outline = [(0.0, 0.0), (L, 0.0), (L, W), (0.0, W)]
    if draw(st.booleans()):
        features.append(_back_rebate(draw, L, W, T))
    elif draw(st.booleans()):
        a, b = draw(round_to_tenth(1, 20)), draw(round_to_tenth(1, 40))
        outline = [(0.0, 0.0), (L, 0.0), (L, W), (a, W), (a, W - b), (0.0, W - b)]
    assert all(p != q for p, q in pairwise(outline))
    return board(*features, size=(L, W, T), outline=outline)


def _face(draw, x, y, T):
    """A mouth in one face or the other."""
    up = draw(st.booleans())
    return ((x, y, T), DOWN) if up else ((x, y, 0.0), Z)


@st.composite
def _one_of_each(draw, n, x, W, T):
    at, into = _face(draw, x, draw(round_to_tenth(40, W - 60)), T)
    name, depth = f"f{n}", draw(round_to_tenth(1, T - 4))
    kind = draw(st.sampled_from(["blind", "through", "head", "stopped", "edge"]))
    d = draw(round_to_tenth(2, 12))
    if kind == "blind":
        tip = draw(round_to_tenth(0, 2))
        return bore(id=name, at=at, into=into, depth=depth, diameter=d, tip=tip)
    if kind == "through":
        return bore(id=name, at=at, into=into, depth=T, diameter=d, through=True)
    if kind == "head":
        head = Countersink(diameter=d + draw(round_to_tenth(1, 6)), angle=draw(st.sampled_from([60.0, 82.0, 90.0])))
        return bore(id=name, at=at, into=into, depth=T, diameter=d, through=True, countersink=head)
    if kind == "edge":
        small = min(d, T - 4)
        return bore(id=name, at=(x, 0.0, T / 2), into=Y, along=X, depth=25.0, diameter=small, tip=2.0)
    width = draw(round_to_tenth(3, 20))
    ends = draw(st.sampled_from(["round", "square", ("round", "square"), ("square", "round")]))
    return groove(
        id=name, at=at, into=into, along=draw(st.sampled_from([X, (-1.0, 0.0, 0.0)])), depth=depth, width=width,
        length=draw(round_to_tenth(22, 50)), ends=ends, end_radius=draw(round_to_tenth(1, 10)),
    )  # fmt: skip


def _end_bore(draw, L, W, T):
    y = draw(round_to_tenth(30, W - 60))
    return bore(id="end", at=(L, y, T / 2), into=(-1.0, 0.0, 0.0), along=Y, depth=20.0, diameter=8.0, tip=2.0)


def _back_rebate(draw, L, W, T):
    width = draw(round_to_tenth(3, 20))
    return rebate(
        id="rebate", at=(L / 2, W - width / 2, T), along=draw(st.sampled_from([X, (-1.0, 0.0, 0.0)])),
        depth=draw(round_to_tenth(2, T / 2)), width=width, length=L, ends="open",
    )  # fmt: skip
