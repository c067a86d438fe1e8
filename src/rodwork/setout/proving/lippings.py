"""Is each lipping where its board says that it is lipped, of the wood of its edging, and sawn large enough?"""

from collections.abc import Iterator, Mapping

from rodwork.model.rod import EdgingStock, Rod
from rodwork.setout.proving.stand import ENDS_AND_EDGES, LIES, Stand
from rodwork.setout.proving.trouble import DUST, Trouble, mm, times


def lippings(stands: Mapping[str, Stand], rod: Rod) -> Iterator[tuple[Stand, Trouble]]:
    """Every lipping against the board that it is on, and every lipped edge against the lippings that are there."""
    on = {id: list[Stand]() for id in stands}
    for stand in stands.values():
        glued_on = stand.part.glued_on
        if glued_on is None:
            continue
        if glued_on not in on:
            yield stand, Trouble("stands", f"it is glued on a {glued_on} that the cabinet has not")
        else:
            on[glued_on].append(stand)
    for id, strips in on.items():
        board = stands[id]
        stock = rod.edgings.get(board.part.edging_name or "")
        wanted = [e for e in ENDS_AND_EDGES if board.part.edging.at(e)] if stock and stock.lipping else []
        if len(strips) != len(wanted):
            what = f"a strip for each lipped edge of the {board.part.name}"
            yield board, Trouble("missing", what, times(len(wanted)), times(len(strips)))
        elif stock is not None:
            at = [_edge_of(strip, board) for strip in strips]
            for strip, edge in zip(strips, at, strict=True):
                trouble = _strip(strip, board, edge, stock) if at.count(edge) == 1 else _astray(board)
                if trouble is not None:
                    yield strip, trouble


def _edge_of(strip: Stand, board: Stand) -> str | None:
    """The lipped edge that the strip's face lies flush with, the strip inside its board; None where it does not."""
    corners = [board.on_board(strip.in_cabinet((x, y, z))) for x in (0.0, strip.size[0])
               for y in (0.0, strip.size[1]) for z in (0.0, strip.size[2])]  # fmt: skip
    if any(not -DUST <= p[k] <= board.size[k] + DUST for p in corners for k in range(3)):
        return None
    outer = corners[1::2]
    for edge in ENDS_AND_EDGES:
        axis, far = LIES[edge]
        flush = all(abs(p[axis] - (board.size[axis] if far else 0.0)) <= DUST for p in outer)
        if flush and board.part.edging.at(edge):
            return edge
    return None


def _astray(board: Stand) -> Trouble:
    return Trouble("stands", f"it does not lie on a lipped edge of the {board.part.name}, flush with it and within it")


def _strip(strip: Stand, board: Stand, edge: str | None, stock: EdgingStock) -> Trouble | None:
    """The strip on its edge: its wood, its thickness and width, and what it is sawn to."""
    how = stock.lipping
    if edge is None or how is None:
        return _astray(board)
    if strip.part.board != how.made_of:
        return Trouble("edging", "the board it is sawn from", how.made_of, strip.part.board)
    for what, want, found in (
        ("what is left of it", stock.adds, strip.size[2]),
        ("its width, the thickness of its board", board.size[2], strip.size[1]),
        ("what it is sawn to in length", strip.size[0] + 2 * how.longer, strip.part.cut[0]),
        ("what it is sawn to in width", strip.size[1] + 2 * how.proud, strip.part.cut[1]),
    ):
        if abs(want - found) > DUST:
            return Trouble("edging", what, mm(want), mm(found))
    return None
