"""The least number of sheets by looking at every way there is: for up to seven parts, and slowly."""

from functools import cache
from itertools import permutations


def fewest(sizes, wide, high, turn=False):
    """Fewest sheets from which parts of these sizes can be sawn by cuts right across, no saw cut reckoned."""
    n = len(sizes)

    @cache
    def on_one(chosen):
        return _fits(tuple(sizes[i] for i in range(n) if chosen >> i & 1), wide, high, turn)

    @cache
    def least(left):
        if left == 0:
            return 0
        first = left & -left
        rest = left ^ first
        best, sub = n, rest
        while True:
            if on_one(sub | first):
                best = min(best, 1 + least(rest ^ sub))
            if sub == 0:
                return best
            sub = (sub - 1) & rest

    return least((1 << n) - 1)


@cache
def _fits(sizes, wide, high, turn):
    """Whether all of them come out of one rectangle: halve it everywhere a part's edge could lie."""
    if not sizes:
        return True
    if sum(w * h for w, h in sizes) > wide * high:
        return False
    if len(sizes) == 1:
        ((w, h),) = sizes
        return (w <= wide and h <= high) or (turn and h <= wide and w <= high)
    for chosen in range(1, 1 << (len(sizes) - 1)):  # the last part is always in the second half
        one = tuple(sorted(sizes[i] for i in range(len(sizes)) if chosen >> i & 1))
        two = tuple(sorted(sizes[i] for i in range(len(sizes)) if not chosen >> i & 1))
        for at in _sums(one, wide, turn, 0):
            if at < wide and _fits(one, at, high, turn) and _fits(two, wide - at, high, turn):
                return True
        for at in _sums(one, high, turn, 1):
            if at < high and _fits(one, wide, at, turn) and _fits(two, wide, high - at, turn):
                return True
    return False


@cache
def _sums(sizes, most, turn, side):
    """Every sum of sides of these parts: where a cut past them may lie."""
    found = {0}
    for size in sizes:
        options = set(size) if turn else {size[side]}
        found |= {f + o for f in found for o in options if f + o <= most}
    return sorted(found - {0})


def in_any_order(things):
    """A few orders of a list."""
    return list(permutations(things))[:6]
