"""What the shop saws with: saw, stock, offcuts and the wishes for the cutting plan, as the job file says them."""

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from rodwork.job.faults import shown
from rodwork.model.sawing import Matched, Saw, Sawing, StockSheet, usual_saw

if TYPE_CHECKING:
    from rodwork.job.tables import Given, Reading

Money = Any  # how a price is written: the reader's own function


def read_sawing(
    tables: Mapping[str, Any], boards: Mapping[str, Any], cabinets: Iterable[str], money: Money, reading: "Reading"
) -> Sawing:
    """Everything about sawing, with what is left out settled; faults are noted."""
    from rodwork.job.tables import read_named, read_table
    from rodwork.job.words import CuttingWords, MatchedWords, OffcutWords, SawWords, StockWords

    saw = read_table(SawWords, tables.get("saw", {}), ("saw",), "[saw]", reading)
    wishes = read_table(CuttingWords, tables.get("cutting", {}), ("cutting",), "[cutting]", reading)
    stock: list[StockSheet] = []
    for section, words, called in (("stock", StockWords, "stock"), ("offcuts", OffcutWords, "offcut")):
        for name, raw in read_named(section, tables.get(section, {}), words, called, reading).items():
            said = read_table(words, raw, (section, name), f"the {called} {shown(name)}", reading)
            _known_board(said, boards, reading)
            stock.append(_stock(name, said, section == "offcuts", money))
    matched = [
        _matched(name, read_table(MatchedWords, raw, ("matched", name), f"the matched set {shown(name)}", reading))
        for name, raw in read_named("matched", tables.get("matched", {}), MatchedWords, "matched set", reading).items()
    ]
    _known_cabinets(wishes, tuple(cabinets), reading)
    return Sawing(
        saw=_saw(saw), stock=tuple(s for s in stock if s), matched=tuple(matched),
        least_offcut=_short_first(wishes.get("least_offcut", (200.0, 600.0))),
        offcut_share=wishes.get("offcut_share", 40.0) / 100.0, buy=wishes.get("buy", True),
        may_turn=wishes.get("may_turn", ()), spare=wishes.get("spare", 0.0), spare_on=wishes.get("spare_on", ()),
        one_sheet=wishes.get("one_sheet", ()),
    )  # fmt: skip


def _saw(said: "Given") -> Saw:
    usual = usual_saw(said.get("kind", "track saw"))
    trim = said.get("trim", usual.trim)
    words = ("kerf", "rail", "levels", "first", "longest", "least_strip", "rough")
    settled = {word: said.get(word, getattr(usual, word)) for word in words}
    return Saw(kind=usual.kind, trim=trim if isinstance(trim, tuple) else (trim,) * 4, **settled)


def _stock(name: str, said: "Given", offcut: bool, money: Money) -> StockSheet:
    return StockSheet(
        name=name, board=said.get("board", ""), size=said.get("size", (0.0, 0.0)), price=money(said.get("price")),
        count=said.get("count", 1 if offcut else None), offcut=offcut,
    )  # fmt: skip


def _matched(name: str, said: "Given") -> Matched:
    return Matched(name=name, marks=said.get("marks", ()), run=said.get("run", "along"))


def _short_first(size: tuple[float, float]) -> tuple[float, float]:
    return (min(size), max(size))


def _known_board(said: "Given", boards: Mapping[str, Any], reading: "Reading") -> None:
    from rodwork.job.tables import unknown_name

    board = said.get("board")
    if board is not None and board not in boards:
        reading.fault((*said.path, "board"), *unknown_name(board, boards, "boards"))


def _known_cabinets(wishes: "Given", cabinets: tuple[str, ...], reading: "Reading") -> None:
    from rodwork.job.tables import unknown_name

    for n, name in enumerate(wishes.get("one_sheet", ())):
        if name not in cabinets:
            reading.fault(("cutting", "one_sheet", n), *unknown_name(name, dict.fromkeys(cabinets), "cabinets"))
