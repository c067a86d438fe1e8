"""Which first cut may part a piece from a free rectangle: the saw's rules, once for the first answer and the search.

Plain arithmetic on numbers, so that it runs as it stands and compiled.
"""

FILLS, MAY_UPRIGHT, MAY_LEVEL = 4, 1, 2  # adds up: 0 means that the piece cannot go there


def ways(
    lw: int, lh: int, depth: int, along: int, first: int, levels: int, longest: int, wide: int, high: int, deep: int
) -> int:
    """What may be done to saw a piece of wide x high out of a free rectangle of lw x lh.

    `depth`: levels of cuts above it, the last of them `along` (1 upright, 2 level, 0: it is a whole sheet). `first`:
    the way a whole sheet must be cut first. `levels`, `longest`: what the saw can do, 0: anything. `deep`: levels that
    the piece itself takes. A piece may lie one level too deep where it is parted from waste alone: a trimming cut.
    """
    dw, dh = lw - wide, lh - high
    if dw < 0 or dh < 0 or (levels > 0 and depth > levels):
        return 0
    if dw == 0 and dh == 0:
        return FILLS if levels == 0 or depth + deep <= levels else 0
    allowed = 0
    for cut in (1, 2):
        begun = depth > 0 or first == 0
        if not begun and cut != first:
            continue
        rest, across = (dw, dh) if cut == 1 else (dh, dw)
        if rest == 0 and begun:
            continue  # the other way does it with one cut
        if longest > 0 and (
            (rest > 0 and (lh if cut == 1 else lw) > longest) or (across > 0 and (wide if cut == 1 else high) > longest)
        ):
            continue
        low = depth + (1 if along != cut else 0) + (1 if across > 0 else 0)
        trimming = deep == 0 and low == levels + 1 and (across > 0 or along != cut)
        if levels == 0 or low + deep <= levels or trimming:
            allowed += cut
    return allowed
