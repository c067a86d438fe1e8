"""Cutting a plan on a bench of thought: every cut is made, with the pieces that are there at that moment."""

from rodwork.model.cutting import CutSheet

NEAR = 0.051  # sizes are whole tenths, places are rounded


def cut_up(sheet: CutSheet, kerf: float) -> tuple[dict[str, tuple], list[tuple]]:
    """(pieces by the name they have on paper, all pieces in the end). Fails where a cut cannot be made as it says."""
    whole = (0.0, 0.0, *sheet.size)
    pieces = [whole]
    named = {"/".join(map(str, sheet.numbers)): whole}
    for cut in sheet.cuts:
        (x0, _y0), (x1, _y1) = cut.start, cut.end
        upright = abs(x1 - x0) < 1e-9
        assert (cut.run == "across") == upright
        inside = [p for p in pieces if _right_across(p, cut, upright, kerf)]
        assert len(inside) == 1, f"cut {cut.number} runs right across {len(inside)} pieces that are there"
        piece = inside[0]
        assert named.get(cut.piece) == piece, f"cut {cut.number}: {cut.piece} is not in hand"
        size = (piece[2] - piece[0], piece[3] - piece[1])
        assert all(abs(a - b) < NEAR for a, b in zip(size, cut.hand, strict=True)), cut.number
        pieces.remove(piece)
        if cut.kind == "trim":
            left = _trimmed(piece, cut, upright)
            named[cut.piece] = left
            pieces.append(left)
            continue
        one, two = _halves(piece, cut, upright, kerf)
        got = one[2] - one[0] if upright else one[3] - one[1]
        assert abs(got - cut.setting) < NEAR, f"cut {cut.number} is set to {cut.setting} and gives {got}"
        named[cut.gives], named[cut.rest] = one, two
        pieces += [one, two]
    return named, pieces


def _right_across(piece, cut, upright, kerf):
    """Whether the cut runs from edge to edge; its line may lie past the end where less than the blade is left."""
    over = kerf / 2 + NEAR
    (x0, y0), (x1, y1) = cut.start, cut.end
    if cut.kind == "trim":
        edge = (piece[0], piece[2]) if upright else (piece[1], piece[3])
        at = x0 if upright else y0
        return min(abs(at - e) for e in edge) <= cut.setting + NEAR
    if upright:
        return piece[0] < x0 < piece[2] + over and abs(y0 - piece[1]) < NEAR and abs(y1 - piece[3]) < NEAR
    return piece[1] < y0 < piece[3] + over and abs(x0 - piece[0]) < NEAR and abs(x1 - piece[2]) < NEAR


def _trimmed(piece, cut, upright):
    x0, y0, x1, y1 = piece
    at = cut.start[0] if upright else cut.start[1]
    if upright:
        return (at, y0, x1, y1) if at - x0 < x1 - at else (x0, y0, at, y1)
    return (x0, at, x1, y1) if at - y0 < y1 - at else (x0, y0, x1, at)


def _halves(piece, cut, upright, kerf):
    x0, y0, x1, y1 = piece
    at = cut.start[0] if upright else cut.start[1]
    if upright:
        return (x0, y0, at - kerf / 2, y1), (at + kerf / 2, y0, x1, y1)
    return (x0, y0, x1, at - kerf / 2), (x0, at + kerf / 2, x1, y1)
