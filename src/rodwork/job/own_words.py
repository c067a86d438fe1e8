"""Every word of a family's own file, table by table, as words.py has those of the job file."""

from dataclasses import MISSING, fields
from functools import cache
from typing import Annotated, Any, Literal, get_args, get_origin, get_type_hints

from pydantic import create_model

from rodwork.job.values import Choice, Kind, Length, LengthOr, ListOf, Price, Switch, Text, Whole
from rodwork.job.words import Words, word
from rodwork.model.contact import JOINED_AS, Place
from rodwork.model.feature import KINDS, OWN_KINDS, End, Feature
from rodwork.model.fixing import Duty
from rodwork.model.nature import Need
from rodwork.model.own_family import CutFrom, OwnRole, Worked

LAWS = ("meet", "line", "none")  # a family whose board itself enters has a channel to be planned: not as data
NOT_SAID = ("through", "countersink")  # said in another way: depth = "through", head
MOST_CUTS = 12
PLACES = tuple(
    p for p in get_args(Place) if p not in JOINED_AS and p not in ("mitre", "on a slope")
)  # there nothing is square


class FamilyWords(Words):
    """What the family is called, where it stands, and what its halves must satisfy."""

    name: Annotated[str, Text(40)] = word("What a job file calls it", needed=True, such_as='"bed bolt"')
    title: Annotated[str, Text(60)] = word("What a page calls it", needed=True, such_as='"Bed bolts"')
    law: Annotated[str, Choice(LAWS)] = word(
        "Whether its halves meet, stand on one line, or only one board is machined", needed=True, such_as='"meet"'
    )
    duty: Annotated[str, Choice(get_args(Duty))] = word("What it is there for", default='"both"')
    places: Annotated[tuple[str, ...], ListOf(Choice(PLACES), 1, len(PLACES), '["corner"]', once=True)] = word(
        "Which joints it can make", needed=True, such_as='["corner", "fixed shelf"]'
    )
    set_out_from: Annotated[str, Choice(("outer face", "inner face"))] = word(
        "The face of the board worked on its end that both halves are set out from", default='"outer face"'
    )
    glued: Annotated[bool, Switch()] = word("Whether the joint is glued", default="false")
    length: Annotated[float, Length(1, 500)] = word("Length of the fitting", needed=True, such_as="80")
    goes_home: Annotated[float, Length(0.1, 500)] = word("How far the board is pushed straight home", default="1 mm")
    slides: Annotated[float, Length(-200, 200)] = word(
        "How far it then slides along the joint: to the back, or with a minus to the front", default="0: it does not"
    )
    least_apart: Annotated[float, Length(5, 1000)] = word("Least distance from one to the next", default="32 mm")


class NatureWords(Words):
    """What a maker weighs of it."""

    registers_on: Annotated[str, Text(400)] = word(
        "Which surface each half is set out from", needed=True, such_as='"the outer face, and the end of the other"'
    )
    support: Annotated[str, Text(400)] = word("What the tool needs to bear on", default="nothing particular")
    board: Annotated[tuple[float, float], ListOf(Length(2, 100), 2, 2, "[15, 30]")] = word(
        "Thinnest and thickest board it works in", needed=True, such_as="[15, 30]"
    )
    glue: Annotated[str, Choice(get_args(Need))] = word("Whether it wants glue", default='"none"')
    clamps: Annotated[str, Choice(get_args(Need))] = word("Whether it wants clamps", default='"none"')
    draws_up: Annotated[bool, Switch()] = word("It pulls the joint tight by itself", default="false")
    at_once: Annotated[bool, Switch()] = word("The work can be handled without waiting", default="false")
    apart: Annotated[bool, Switch()] = word("It can be taken apart again", default="false")
    shows: Annotated[str, Text(200)] = word("What shows of it", default="nothing")
    covered_by: Annotated[str, Text(200)] = word("How what shows is covered", default="it is not")
    demands_along: Annotated[float, Length(0.05, 50)] = word(
        "How true its halves must be to one another along the joint", needed=True, such_as="0.5"
    )
    demands_across: Annotated[float, Length(0.05, 50)] = word(
        "How true they must be through the thickness", needed=True, such_as="0.3"
    )


class PlayWords(Words):
    """How far it can move before it holds, each way."""

    along: Annotated[float, Length(0, 20)] = word("Along the joint", needed=True, such_as="0.5")
    across: Annotated[float, Length(0, 20)] = word("Through the thickness", needed=True, such_as="0.5")
    shape: Annotated[str, Choice(("round", "box"))] = word("Round, or each way by itself", default='"round"')
    short: Annotated[float, Length(0, 50)] = word(
        "Where it slides home: how far short of its stop it may lie and still hold", default="as far as it slides"
    )


class HardwareWords(Words):
    """What is bought for one of it."""

    item: Annotated[str, Text(60)] = word("What the buying list calls it", needed=True, such_as='"bed bolt M6x80"')
    count: Annotated[int, Whole(1, 100)] = word("How many for one", default="1")
    price: Annotated[Any, Price()] = word("What a packet costs", default="not known")
    pieces: Annotated[int, Whole(1, 1_000_000)] = word("How many are in the packet", default="1")


class CutWords(Words):
    """One thing that is cut for it, in one of the two boards."""

    board: Annotated[str, Choice(get_args(Worked))] = word(
        "The board worked on its face, or the one worked on its end", needed=True, such_as='"face"'
    )
    from_: Annotated[str, Choice(get_args(CutFrom))] = word(
        "From where the boards meet; from the other face of the face board; or across the end board, from its outer or "
        "inner face", default='"joint"', written="from",
    )  # fmt: skip
    kind: Annotated[str, Choice(OWN_KINDS)] = word("What is cut", needed=True, such_as='"bore"')
    role: Annotated[str, Choice(get_args(OwnRole))] = word(
        "What it is for: the fitting sits in it, passes through it, bites into it, or is reached through it",
        default='"seat"',
    )
    along: Annotated[float, Length(-500, 500)] = word(
        "Along the joint from the fitting's own place, to the back", default="0"
    )
    across: Annotated[Any, LengthOr(Length(0, 100), "middle")] = word(
        "From the face that is registered on, into the thickness", default='"middle": the nearest setting to it'
    )
    out: Annotated[float, Length(0, 500)] = word(
        "From the end into the board, for a cut from its outer or inner face", default="nothing"
    )
    depth: Annotated[Any, LengthOr(Length(0.5, 500), "through")] = word("How deep", needed=True, such_as="12")
    head: Annotated[float, Length(1, 100)] = word("Diameter of the countersink", default="none")
    tool: Annotated[str, Text(40)] = word("The machine", needed=True, such_as='"drill and fence"')
    cutter: Annotated[str, Text(40)] = word("The bit or cutter", default="its size")
    in_place: Annotated[bool, Switch()] = word("Bored through the first board at assembly", default="false")


OWN_SECTIONS: dict[str, type[Words]] = {"family": FamilyWords, "nature": NatureWords, "play": PlayWords}
OWN_LISTS: dict[str, type[Words]] = {"cut": CutWords, "hardware": HardwareWords}


def size_fields(kind: str) -> dict[str, Any]:
    """The fields of a kind of machining that are its own sizes: name to the dataclass field."""
    shared = {f.name for f in fields(Feature)}
    return {f.name: f for f in fields(KINDS[kind]) if f.name not in shared and f.name not in NOT_SAID}


@cache
def cut_words(kind: str) -> type[Words]:
    """The words of a cut of this kind: those of every cut, and its own sizes."""
    hints, table = get_type_hints(KINDS[kind]), dict[str, Any]()
    for name, one in size_fields(kind).items():
        needed = one.default is MISSING
        said = word(
            f"{name.replace('_', ' ').capitalize()} of the {KINDS[kind].noun}", needed=needed,
            such_as="8" if needed else None, default=None if needed else f"{one.default:g}",
        )  # fmt: skip
        table[name] = (Annotated[Any, _value(hints[name], needed)], said)
    return create_model(f"{kind}_cut", __base__=CutWords, __doc__=f"A {KINDS[kind].noun}.", **table)


def _value(hint: Any, needed: bool) -> Kind:
    if hint is bool:
        return Switch()
    if get_origin(hint) is Literal:
        return Choice(get_args(hint))
    return Length(0.1 if needed else 0, 500) if hint is float else Choice(get_args(End))
