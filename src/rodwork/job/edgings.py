"""Reading edgings: tape that is bought, and lippings that are sawn from a board of the job."""

from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

from rodwork.catalogue.boards import materials
from rodwork.job.faults import shown
from rodwork.job.tables import Given, Reading, read_table, unknown_name
from rodwork.job.words import EdgingWords
from rodwork.model.job import Board, Edging
from rodwork.model.lipping import LONGER_MM, PROUD_MM, Lipping, left_of

OF_A_LIPPING = ("proud", "longer")
PLIES = "plywood"  # the one sheet that strips are sawn from: it has layers with their grain along (common practice)
_HAIR = 1e-9


def read_edgings(
    tables: Mapping[str, Any], boards: Mapping[str, Board | None], money: Callable[[Decimal | None], str | None],
    reading: Reading,
) -> dict[str, Edging | None]:  # fmt: skip
    """Every edging by its name; None where something is wrong with it, or with the board that it is made of."""
    found: dict[str, Edging | None] = {}
    for name, raw in tables.items():
        before = len(reading.faults)
        said = read_table(EdgingWords, raw, ("edgings", name), f"the edging {shown(name)}", reading)
        edging = _lipping(name, said, boards, reading) if said.says("made_of") else _tape(name, said, money, reading)
        found[name] = edging if len(reading.faults) == before else None
    return found


def _tape(name: str, said: Given, money: Callable[[Decimal | None], str | None], reading: Reading) -> Edging | None:
    for word in OF_A_LIPPING:
        if said.says(word):
            reading.fault(
                (*said.path, word), f"{word} goes with a lipping, and the edging {shown(name)} is made of no board",
                f'Write made_of = the board that it is sawn from, or take {word} out',
            )  # fmt: skip
    if not said.says("thickness"):
        reading.fault(
            said.path, f"the edging {shown(name)} has no thickness",
            'Write thickness = 1.0 (how thick it is), or made_of = "oak9" for a lipping sawn from a board of that name',
        )  # fmt: skip
    thickness = said.get("thickness")
    if thickness is None:
        return None
    return Edging(
        name=name, thickness_mm=thickness, adds_mm=said.get("adds", thickness), mills_mm=said.get("mills", 0.0),
        price_per_m=money(said.get("price_per_m")),
    )  # fmt: skip


def _lipping(name: str, said: Given, boards: Mapping[str, Board | None], reading: Reading) -> Edging | None:
    of = said.get("made_of")
    if of is None:
        return None
    if of not in boards:
        reading.fault((*said.path, "made_of"), *unknown_name(of, boards, "boards"))
        return None
    board = boards[of]
    if board is None:
        return None
    if board.material in materials() and PLIES not in board.material:
        reading.fault(
            (*said.path, "made_of"), f"the lipping {shown(name)} is sawn from {shown(of)}, which is {board.material}: "
            "a strip of it has no grain along it and breaks at its edges",
            "Name a board of solid wood, or of plywood",
        )  # fmt: skip
        return None
    thick = board.actual_mm
    adds, mills = said.get("adds", left_of(thick)), said.get("mills", 0.0)
    what = f"the lipping {shown(name)} is sawn from {shown(of)}, which is {thick:g} mm thick"
    if said.says("price_per_m"):
        reading.fault(
            (*said.path, "price_per_m"), f"{what}, and costs what that board costs",
            f"Write the price under [boards.{of}], and take price_per_m out",
        )  # fmt: skip
    if said.get("thickness") is not None and abs(said.get("thickness") - thick) > _HAIR:
        reading.fault(
            (*said.path, "thickness"), f"{what}, and its own thickness is {said.get('thickness'):g}",
            "Take thickness out, or name a board of that thickness",
        )  # fmt: skip
    if not 0.0 < adds <= thick:
        reading.fault(
            (*said.path, "adds"), f"{what}, and {adds:g} cannot be left of it",
            f"Write adds from 1 to {thick:g}: what is left on the finished edge",
        )  # fmt: skip
    elif mills >= adds:
        reading.fault(
            (*said.path, "mills"), f"mills is {mills:g}, as much as the {adds:g} that the lipping {shown(name)} adds",
            "Write what is planed off the sawn edge before it is glued, or take mills out",
        )  # fmt: skip
    return Edging(
        name=name, thickness_mm=thick, adds_mm=adds, mills_mm=mills, price_per_m=None,
        lipping=Lipping(made_of=of, proud=said.get("proud", PROUD_MM), longer=said.get("longer", LONGER_MM)),
    )  # fmt: skip
