"""Families of joints that a maker has written as data: the text of each file -> an OwnFamily, or all its faults."""

from collections.abc import Callable, Collection, Iterator, Mapping
from typing import Any

from rodwork.job.faults import JobFaults, near, shown
from rodwork.job.lengths import Unit
from rodwork.job.own_words import MOST_CUTS, OWN_LISTS, OWN_SECTIONS, CutWords, HardwareWords, cut_words, size_fields
from rodwork.job.tables import Given, Reading, read_table
from rodwork.job.toml_text import read_toml
from rodwork.model.costing import PackPrice
from rodwork.model.feature import OWN_KINDS, Countersink
from rodwork.model.fixing import Item, Play
from rodwork.model.nature import Nature
from rodwork.model.own_family import OwnCut, OwnFamily

ACROSS_THE_END = ("outer face", "inner face")
HEAD_ANGLE = 90.0
NEEDS = {  # what a law asks of the cuts: (board, from, role), and what to say of it
    "meet": (("face", "joint", ("seat",)), ("end", "joint", ("seat",))),
    "line": (("face", "other face", ("clearance",)), ("end", "joint", ("pilot", "clearance"))),
    "none": (),
}  # fmt: skip


def read_families(
    names: tuple[str, ...], beside: Callable[[str], bytes], taken: Collection[str], reading: Reading
) -> dict[str, OwnFamily]:
    """The families of these files by name. The faults of each are noted under its own file name."""
    found: dict[str, OwnFamily] = {}
    for number, name in enumerate(names):
        path = ("job", "families", number)
        if not _stands_beside(name):
            reading.fault(
                path, f"{shown(name)} is no file beside this one", "Name a .toml file in the job's own folder"
            )
            continue
        try:
            family = read_family(beside(name), name, reading.unit)
        except OSError as error:
            reading.fault(path, f"{shown(name)} cannot be read: {error.strerror or error}", "Name a file that is there")
            continue
        except JobFaults as wrong:
            reading.faults.extend(wrong.faults)
            continue
        if family.name in taken or family.name in found:
            reading.fault(path, f"there is a family called {shown(family.name)} already", "Give yours another name")
            continue
        found[family.name] = family
    return found


def _stands_beside(name: str) -> bool:
    """A file in the job's own folder or below it, and not any file of the machine."""
    parts = name.replace("\\", "/").split("/")
    return name.endswith(".toml") and all(part not in ("", ".", "..") and ":" not in part for part in parts)


def read_family(text: str | bytes, file: str, unit: Unit = "mm") -> OwnFamily:
    """The family that a file describes; a bare number is in the job's unit. Raises JobFaults."""
    tables, lines = read_toml(text, file)
    reading = Reading(file=file, lines=lines, unit=unit)
    _misspelt(tables, reading)
    said, nature, play = (
        read_table(words, tables.get(name, {}), (name,), f"[{name}]", reading) for name, words in OWN_SECTIONS.items()
    )
    cuts = [_cut(raw, ("cut", n), reading) for n, raw in enumerate(_list(tables, "cut", reading))]
    bought = [
        read_table(HardwareWords, raw, ("hardware", n), "this fitting", reading)
        for n, raw in enumerate(_list(tables, "hardware", reading))
    ]
    if play.says("short") and not said.get("slides", 0.0):
        reading.fault(
            ("play", "short"), "it does not slide, and so comes short of no stop", "Take it out, or say slides"
        )
    if not reading.faults:
        _lawful(said, [cut for cut in cuts if cut], reading)
    if reading.faults:
        raise JobFaults(reading.faults)
    return _family(said, nature, play, tuple(cut for cut in cuts if cut), bought)


def _misspelt(tables: Mapping[str, Any], reading: Reading) -> None:
    known = (*OWN_SECTIONS, *OWN_LISTS)
    for section in tables:
        if section not in known:
            meant = near(section, known)
            reading.fault(
                (section,), f"{shown(section)[1:-1]} is not a part of a family's file",
                f"Did you mean {meant}?" if meant else f"Take it out; the parts are: {', '.join(known)}",
            )  # fmt: skip


def _list(tables: Mapping[str, Any], name: str, reading: Reading) -> list[dict[str, Any]]:
    """The tables of a list, [[cut]]; none where it is left out."""
    raw = tables.get(name, [])
    if isinstance(raw, list) and len(raw) <= MOST_CUTS and all(isinstance(one, dict) for one in raw):
        return raw
    reading.fault((name,), f"{name} is no list of at most {MOST_CUTS} tables", f"Write each under [[{name}]]")
    return []


def _family(said: Given, nature: Given, play: Given, cuts: tuple[OwnCut, ...], bought: list[Given]) -> OwnFamily:
    return OwnFamily(
        name=said.get("name"), title=said.get("title"), law=said.get("law"), duty=said.get("duty", "both"),
        places=said.get("places"), glued=said.get("glued", False),
        from_inner_face=said.get("set_out_from") == "inner face", length_mm=said.get("length"),
        goes_home_mm=said.get("goes_home", 1.0), slides_mm=said.get("slides", 0.0),
        least_apart_mm=said.get("least_apart", 32.0), cuts=cuts,
        hardware=tuple(Item(item=b.get("item"), count=b.get("count", 1)) for b in bought),
        play=Play(
            along=play.get("along"), across=play.get("across"), shape=play.get("shape", "round"),
            short=play.get("short"),
        ),
        nature=Nature(
            machines=tuple(dict.fromkeys(cut.tool for cut in cuts if not cut.in_place)),
            registers_on=nature.get("registers_on"), support=nature.get("support", "nothing particular"),
            board_mm=nature.get("board"), glue=nature.get("glue", "none"), clamps=nature.get("clamps", "none"),
            draws_up=nature.get("draws_up", False), at_once=nature.get("at_once", False),
            apart=nature.get("apart", False), shows=nature.get("shows", ""), covered_by=nature.get("covered_by", ""),
            demands_along_mm=nature.get("demands_along"), demands_across_mm=nature.get("demands_across"),
        ),
        prices={
            b.get("item"): PackPrice(price=b.get("price"), pieces=b.get("pieces", 1)) for b in bought if b.says("price")
        },
    )  # fmt: skip


def _cut(raw: dict[str, Any], path: tuple[str | int, ...], reading: Reading) -> OwnCut | None:
    kind = raw.get("kind")
    words = cut_words(kind) if isinstance(kind, str) and kind in OWN_KINDS else CutWords
    before = len(reading.faults)
    said = read_table(words, raw, path, "this cut", reading)
    if len(reading.faults) > before:
        return None
    for what, mend in _contradictions(said):
        reading.fault(path, what, mend)
    if len(reading.faults) > before:
        return None
    depth = said.get("depth")
    sizes = {name: said.get(name) for name in size_fields(said.get("kind")) if said.says(name)}
    if said.says("head"):
        sizes["countersink"] = Countersink(diameter=said.get("head"), angle=HEAD_ANGLE)
    across = said.get("across", "middle")
    return OwnCut(
        board=said.get("board"), cut_from=said.get("from", "joint"), kind=said.get("kind"),
        role=said.get("role", "seat"), along_mm=said.get("along", 0.0),
        across_mm=None if across == "middle" else across, out_mm=said.get("out"),
        depth_mm=None if depth == "through" else depth, sizes=tuple(sizes.items()), tool=said.get("tool"),
        cutter=said.get("cutter", _cutter(sizes)), in_place=said.get("in_place", False),
    )  # fmt: skip


def _contradictions(said: Given) -> Iterator[tuple[str, str]]:
    """What two words of one cut cannot say together."""
    board, start, bore = said.get("board"), said.get("from", "joint"), said.get("kind") == "bore"
    if start == "other face" and board != "face":
        yield (
            "only the board worked on its face has another face",
            'Write from = "joint", or board = "face"',
        )
    if start in ACROSS_THE_END:
        if board != "end":
            yield f"only the board worked on its end has an {start} here", 'Write board = "end"'
        if not said.says("out"):
            yield "a cut across the board has no out", "Write out = 34, say: from the end into the board"
    elif said.says("out"):
        yield "out counts only for a cut from the outer or the inner face", "Take it out"
    if said.get("depth") == "through" and not (bore and (board == "face" or start in ACROSS_THE_END)):
        yield "only a bore through the thickness of a board goes through", "Write its depth in mm"
    if said.says("head") and not bore:
        yield "only a bore has a head", "Take it out"
    if said.get("in_place") and not (bore and board == "end" and start == "joint"):
        yield "only a bore in the end, from the joint, is bored in place", "Take in_place out"


def _cutter(sizes: Mapping[str, Any]) -> str:
    size = sizes.get("diameter") or sizes.get("width") or sizes.get("thickness")
    return f"{size:g} mm" if size else "its cutter"


def _lawful(said: Given, cuts: list[OwnCut], reading: Reading) -> None:
    """The law of the family needs its halves: one of each, where it says, in one place."""
    law, halves = said.get("law"), list[OwnCut]()
    for board, start, roles in NEEDS[law]:
        found = [c for c in cuts if (c.board, c.cut_from) == (board, start) and c.role in roles]
        halves += found
        if len(found) != 1:
            reading.fault(
                ("family", "law"),
                f'law = "{law}" wants one cut with board = "{board}", from = "{start}" and role = "{roles[0]}", '
                f"and there {'is none' if not found else f'are {len(found)}'}",
                "Write one such [[cut]], or another law",
            )  # fmt: skip
    if len({(half.along_mm, half.across_mm) for half in halves}) > 1:
        reading.fault(
            ("family", "law"), "the two halves do not stand in one place: their along or across differ",
            "Write the same along and across for both",
        )  # fmt: skip
    if not any(cut.cut_from in ("joint", "other face") for cut in cuts):
        reading.fault(("cut",), "nothing is cut where the boards meet", 'Write one [[cut]] with from = "joint"')
