"""Boards with a few bores, made by hand, and Rods with nothing else in them. The sizes are invented."""

from dataclasses import replace

from rodwork.checks.registry import checks
from rodwork.model.feature import Bore, Countersink, Groove, Rebate
from rodwork.model.fixing import Fixing, Half, Joint, Play
from rodwork.model.panel import EdgingOnPart, Part
from rodwork.model.rod import Rod
from rodwork.setout.weights import weighed
from tests.building import rod

DOWN, UP, RIGHT, LEFT, IN, OUT = (
    (0.0, 0.0, -1.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0),
)  # fmt: skip
BASE = rod()
LEFT_SIDE = BASE.cabinets[0].part["left side"]


def bore(
    id, at, into=DOWN, depth=12.0, diameter=8.0, tip=0.0, through=False, role="seat", joint=None, head=None,
    stage="after edging",
):  # fmt: skip
    return Bore(
        id=id, role=role, joint=joint, stage=stage, at=at, into=into, along=IN if into[1] == 0 else RIGHT, depth=depth,
        diameter=diameter, tip=tip, through=through,
        countersink=None if head is None else Countersink(diameter=head, angle=90.0),
    )  # fmt: skip


def channel(
    id, at, depth, width, length, along=RIGHT, into=DOWN, ends="open", end_radius=0.0, joint=None, kind=Groove,
    stage="after edging",
):  # fmt: skip
    return kind(
        id=id, role="housing", joint=joint, stage=stage, at=at, into=into, along=along, depth=depth, width=width,
        length=length, ends=ends, end_radius=end_radius,
    )  # fmt: skip


def rebate(*a, **kw):
    return channel(*a, kind=Rebate, **kw)


def board(
    *features, size=(720.0, 320.0, 18.0), id="left side", role="side", material="birch plywood", **changes
) -> Part:
    """A left side, face side inside, x downwards; no edging."""
    length, width, _ = size
    values = {
        "id": id, "name": id, "role": role, "material": material, "size": size, "cut": (length, width),
        "outline": ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width)), "features": features, "same_as": None,
        "edging": EdgingOnPart(), "edging_name": None,
    }  # fmt: skip
    return replace(LEFT_SIDE, **{**values, **changes})


def rod_of_boards(*parts: Part, joints: tuple[Joint, ...] = (), **changes) -> Rod:
    """A Rod of one cabinet that has these boards and joints only."""
    cabinet = replace(BASE.cabinets[0], parts=parts, joints=joints)
    return weighed(replace(BASE, cabinets=(cabinet,), **changes))


def row(
    *pairs, host="left side", guest="top", id="left side / top", place="corner", law="meet", family="dowel", length=30.0,
    play=0.0,
) -> Joint:  # fmt: skip
    """A joint of a real corner with fixings made by hand: (distance from the front, host bore, guest bore, others)."""
    real = next(j for j in BASE.cabinets[0].joints if j.id == "left side / top")
    fixings = tuple(
        Fixing(
            id=f"{id} {n}", family=family, duty="draws up" if law == "line" else "both", law=law, at=(17.6, u, 711.0), length=length,
            halves=(Half(part=host, feature=h), Half(part=guest, feature=g)),
            others=tuple(Half(part=host, feature=o) for o in others), hardware=(),
            play=Play(along=play, across=play, shape="round"), motion=(),
        )
        for n, (u, h, g, *others) in enumerate(pairs, 1)
    )  # fmt: skip
    contact = replace(real.contact, place=place)
    return replace(real, id=id, parts=(host, guest), contact=contact, fixings=fixings)


def told(code: str, of: Rod):
    """What one check says."""
    return list(checks()[code].look(of))


def severities(code: str, of: Rod) -> list[str]:
    return [f.severity for f in told(code, of)]
