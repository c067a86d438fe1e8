"""Ruin and recreate on guillotine trees: the hot loop of the cutting plan, compiled.

Every sheet is a tree. A node is a rectangle; its children divide it by cuts one way, theirs by cuts the other way,
and so on: each level is cut right across the piece in hand, which is what a saw can do. A leaf is a part or free.
Of the children of a node at most one is free, for their order means nothing while we search.

One step takes some parts out (ruin), puts them and what was left over back where they waste least (recreate), and
keeps the result when it is no worse than what was kept a few steps ago (late acceptance). The goal is all parts on
sheets that cost less than the best so far: a sheet is taken away and its parts must find room on the others.

Source of the scheme: S. Gardeyn, T. Wauters, "A goal-driven ruin and recreate heuristic for the 2D variable-sized bin
packing problem with guillotine constraints", European Journal of Operational Research 301 (2022). The saw's levels,
locked groups, parts kept on one sheet and the second aim (one large offcut) are ours.

Sizes are whole numbers with the saw cut already added to parts and sheets, so that the cut itself vanishes.
"""

from collections.abc import Callable
from typing import Any, NamedTuple, TypeVar, cast

import numpy as np
from numba import njit
from numpy.typing import NDArray

from rodwork.sheets.problem import LEVEL, UPRIGHT
from rodwork.sheets.ways import FILLS, ways

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]
Function = TypeVar("Function", bound=Callable[..., Any])


def compiled(function: Function) -> Function:
    """The function compiled, its machine code kept on disk where there is a folder for it."""
    try:
        made: Any = njit(cache=True, nogil=True)(function)
    except RuntimeError:  # no folder can be written: it is compiled anew in every run
        made = njit(nogil=True)(function)
    return cast(Function, made)


# columns of Layout.node
WIDE, HIGH, PARENT, CUT, FIRST, NEXT, BEFORE, PART, DEPTH, PLACE, LISTED, SPARE, SLOT = range(13)
FREE, INNER = -1, -2  # what stands in PART where it is no part's number; in a root, INNER or a part as anywhere
NO_CUT = 0  # CUT otherwise: UPRIGHT, children side by side; LEVEL, one above the other
# places of Layout.tally
N_FREE, N_SPARE, TOP, N_OUT, COST, N_SHEETS = range(6)
BLINK = 0.01  # now and then the best place is overlooked


class Stock(NamedTuple):
    """What is to be laid out on what: arrays by part and by kind of sheet. `levels` 0: any number."""

    wide: Ints
    high: Ints
    turn: Ints  # 1: may be turned
    deep: Ints  # levels of cuts that the part itself takes: a locked group is parted afterwards
    sign: NDArray[np.uint64]  # of each part, adding up to the mark of a sheet: equal parts have equal ones
    together: Ints  # parts with the same number lie on one sheet; -1: anywhere
    area: Floats  # of each part, in the largest sheet
    sheet_wide: Ints
    sheet_high: Ints
    sheet_cost: Ints
    sheet_copies: Ints
    sheet_area: Floats
    rule: Ints  # first cut (0 free, UPRIGHT, LEVEL), levels, longest cut
    keep: Floats  # least offcut: short side, long side; how much more it counts; area of the largest sheet


class Layout(NamedTuple):
    """One layout, whole or with parts left over."""

    node: NDArray[np.int32]
    value: Floats  # of each free leaf
    where: NDArray[np.int32]  # node of each part, or -1
    out: NDArray[np.int32]  # the parts that are left over, tally[N_OUT] of them
    root: NDArray[np.int32]  # by place of a sheet: its root or -1, its kind
    used: NDArray[np.int32]  # sheets used of each kind
    bundle: NDArray[np.int32]  # by number of parts together: root they lie on, how many lie there
    tally: Ints
    total: Floats  # area left over, value of all free leaves
    mark: NDArray[np.uint64]  # of each sheet: what lies on it, whatever its order
    fill: Floats  # of each sheet: area of its parts


@compiled
def chance(rng: Any) -> float:
    """A number from 0 to 1 (xorshift64*), so that one seed gives one layout on every machine."""
    x = rng[0]
    x ^= x >> np.uint64(12)
    x ^= x << np.uint64(25)
    x ^= x >> np.uint64(27)
    rng[0] = x
    return float((x * np.uint64(2685821657736338717)) >> np.uint64(11)) / 9007199254740992.0


@compiled
def copy_layout(to: Layout, source: Layout) -> None:
    """Make `to` the same layout as `source`."""
    top = max(source.tally[TOP], to.tally[TOP])
    to.node[:top] = source.node[:top]
    to.value[:top] = source.value[:top]
    to.where[:] = source.where
    to.out[:] = source.out
    to.root[:] = source.root
    to.used[:] = source.used
    to.bundle[:] = source.bundle
    to.tally[:] = source.tally
    to.total[:] = source.total
    to.mark[:] = source.mark
    to.fill[:] = source.fill


@compiled
def worth(d: Stock, wide: int, high: int) -> float:
    """Value of a free leaf: more than its share, so that one large one goes before two small ones."""
    a = float(wide) * float(high) / d.keep[3]
    value = a * np.sqrt(np.sqrt(a))
    if d.keep[2] > 0.0 and min(wide, high) >= d.keep[0] and max(wide, high) >= d.keep[1]:
        value *= 1.0 + d.keep[2]
    return float(value)


@compiled
def new_node(s: Layout, wide: int, high: int, depth: int) -> int:
    """A leaf that hangs nowhere yet."""
    if s.tally[N_SPARE] > 0:
        s.tally[N_SPARE] -= 1
        k = int(s.node[s.tally[N_SPARE], SPARE])
    else:
        k = int(s.tally[TOP])
        s.tally[TOP] += 1
    n = s.node[k]
    n[WIDE], n[HIGH], n[DEPTH] = wide, high, depth
    n[PARENT], n[FIRST], n[NEXT], n[BEFORE], n[PLACE] = -1, -1, -1, -1, -1
    n[CUT], n[PART] = NO_CUT, INNER
    return k


@compiled
def drop_node(s: Layout, k: int) -> None:
    """Give a node back."""
    s.node[s.tally[N_SPARE], SPARE] = k
    s.tally[N_SPARE] += 1


@compiled
def set_free(d: Stock, s: Layout, k: int) -> None:
    """Make a leaf free and list it."""
    n = s.node[k]
    n[PART], n[CUT], n[FIRST] = FREE, NO_CUT, -1
    n[PLACE] = s.tally[N_FREE]
    s.node[s.tally[N_FREE], LISTED] = k
    s.tally[N_FREE] += 1
    s.value[k] = worth(d, n[WIDE], n[HIGH])
    s.total[1] += s.value[k]


@compiled
def unlist(s: Layout, k: int) -> None:
    """Take a leaf off the list of free ones."""
    s.tally[N_FREE] -= 1
    last = s.node[s.tally[N_FREE], LISTED]
    place = s.node[k, PLACE]
    s.node[place, LISTED] = last
    s.node[last, PLACE] = place
    s.node[k, PLACE] = -1
    s.total[1] -= s.value[k]


@compiled
def hang(s: Layout, parent: int, k: int) -> None:
    """Make a node the first child of another."""
    first = s.node[parent, FIRST]
    s.node[k, PARENT], s.node[k, NEXT], s.node[k, BEFORE] = parent, first, -1
    if first >= 0:
        s.node[first, BEFORE] = k
    s.node[parent, FIRST] = k


@compiled
def unhang(s: Layout, k: int) -> None:
    """Take a node away from its parent."""
    n = s.node[k]
    if n[BEFORE] >= 0:
        s.node[n[BEFORE], NEXT] = n[NEXT]
    else:
        s.node[n[PARENT], FIRST] = n[NEXT]
    if n[NEXT] >= 0:
        s.node[n[NEXT], BEFORE] = n[BEFORE]


@compiled
def split(d: Stock, s: Layout, leaf: int, cut: int, size: int) -> int:
    """Cut a piece of this size off a free leaf, which stays as the rest. Gives the piece, neither free nor a part."""
    n = s.node[leaf]
    unlist(s, leaf)
    parent = n[PARENT]
    if parent < 0 or s.node[parent, CUT] != cut:  # the leaf becomes the parent of piece and rest
        rest = new_node(s, n[WIDE], n[HIGH], n[DEPTH] + 1)
        n[CUT], n[PART] = cut, INNER
        hang(s, leaf, rest)
        parent, leaf = leaf, rest
    n = s.node[leaf]
    if cut == UPRIGHT:
        piece = new_node(s, size, n[HIGH], n[DEPTH])
        n[WIDE] -= size
    else:
        piece = new_node(s, n[WIDE], size, n[DEPTH])
        n[HIGH] -= size
    hang(s, parent, piece)
    if n[WIDE] > 0 and n[HIGH] > 0:
        set_free(d, s, leaf)
    else:  # the whole of it: a level with a single piece, kept where the saw begins one way
        unhang(s, leaf)
        drop_node(s, leaf)
    return piece


@compiled
def root_of(s: Layout, k: int) -> int:
    """The root above a node."""
    while s.node[k, PARENT] >= 0:
        k = s.node[k, PARENT]
    return k


@compiled
def lay_down(d: Stock, s: Layout, part: int, k: int) -> None:
    """Make a leaf of its size a part."""
    s.node[k, PART] = part
    s.where[part] = k
    s.total[0] -= d.area[part]
    root = root_of(s, k)
    slot = s.node[root, SLOT]
    s.mark[slot] += d.sign[part]
    s.fill[slot] += d.area[part]
    b = d.together[part]
    if b >= 0:
        s.bundle[b, 0] = root
        s.bundle[b, 1] += 1


@compiled
def put(d: Stock, s: Layout, part: int, leaf: int, turned: int, cut: int) -> None:
    """Lay a part into a free leaf, first cutting this way (NO_CUT: it fills the leaf)."""
    wide, high = d.wide[part], d.high[part]
    if turned:
        wide, high = high, wide
    k = leaf
    if cut == NO_CUT:
        unlist(s, k)
    else:
        k = split(d, s, k, cut, wide if cut == UPRIGHT else high)
        across = LEVEL if cut == UPRIGHT else UPRIGHT
        if s.node[k, WIDE] != wide or s.node[k, HIGH] != high:
            set_free(d, s, k)
            k = split(d, s, k, across, wide if across == UPRIGHT else high)
    lay_down(d, s, part, k)


@compiled
def take_out(d: Stock, s: Layout, part: int) -> None:
    """Take a part out, join what is free beside it, and give back a sheet that is empty."""
    k = s.where[part]
    s.where[part] = -1
    s.out[s.tally[N_OUT]] = part
    s.tally[N_OUT] += 1
    s.total[0] += d.area[part]
    slot = s.node[root_of(s, k), SLOT]
    s.mark[slot] -= d.sign[part]
    s.fill[slot] -= d.area[part]
    if d.together[part] >= 0:
        s.bundle[d.together[part], 1] -= 1
    while True:
        parent = s.node[k, PARENT]
        if parent < 0:
            close_sheet(d, s, k)
            return
        other = s.node[parent, FIRST]
        while other >= 0 and (other == k or s.node[other, PART] != FREE):
            other = s.node[other, NEXT]
        if other >= 0:
            unlist(s, other)
            unhang(s, other)
            if s.node[parent, CUT] == UPRIGHT:
                s.node[k, WIDE] += s.node[other, WIDE]
            else:
                s.node[k, HIGH] += s.node[other, HIGH]
            drop_node(s, other)
        if s.node[k, BEFORE] >= 0 or s.node[k, NEXT] >= 0:
            set_free(d, s, k)
            return
        drop_node(s, k)  # it was all that was left of its parent
        k = parent


@compiled
def close_sheet(d: Stock, s: Layout, root: int) -> None:
    """Give back an empty sheet."""
    slot = s.node[root, SLOT]
    kind = s.root[slot, 1]
    s.root[slot, 0] = -1
    s.used[kind] -= 1
    s.tally[COST] -= d.sheet_cost[kind]
    s.tally[N_SHEETS] -= 1
    drop_node(s, root)


@compiled
def open_sheet(d: Stock, s: Layout, kind: int) -> int:
    """A new sheet of this kind; its free root."""
    slot = 0
    while s.root[slot, 0] >= 0:
        slot += 1
    k = new_node(s, d.sheet_wide[kind], d.sheet_high[kind], 0)
    s.root[slot, 0], s.root[slot, 1] = k, kind
    s.node[k, SLOT] = slot
    s.mark[slot], s.fill[slot] = np.uint64(0), 0.0
    s.used[kind] += 1
    s.tally[COST] += d.sheet_cost[kind]
    s.tally[N_SHEETS] += 1
    set_free(d, s, k)
    return k


may_be_cut = compiled(ways)


@compiled
def first_cut(d: Stock, s: Layout, leaf: int, wide: int, high: int, deep: int) -> tuple[int, float]:
    """The better first cut for a piece of this size in a free leaf and what that costs in value; -1: it cannot be."""
    n = s.node[leaf]
    along = NO_CUT if n[PARENT] < 0 else s.node[n[PARENT], CUT]
    may = may_be_cut(n[WIDE], n[HIGH], n[DEPTH], along, d.rule[0], d.rule[1], d.rule[2], wide, high, deep)
    if may == FILLS:
        return NO_CUT, s.value[leaf]
    best, loss = -1, 1e300
    if may & UPRIGHT:
        left = worth(d, n[WIDE] - wide, n[HIGH]) + worth(d, wide, n[HIGH] - high)
        best, loss = UPRIGHT, s.value[leaf] - left
    if may & LEVEL:
        left = worth(d, n[WIDE], n[HIGH] - high) + worth(d, n[WIDE] - wide, high)
        if s.value[leaf] - left < loss:
            best, loss = LEVEL, s.value[leaf] - left
    return best, loss


@compiled
def insert(d: Stock, s: Layout, part: int, limit: int, rng: Any) -> bool:
    """Lay a part where it wastes least, or on a new sheet while the cost allows. False: there is no room."""
    wide, high, deep = d.wide[part], d.high[part], d.deep[part]
    home = -1
    if d.together[part] >= 0 and s.bundle[d.together[part], 1] > 0:
        home = s.bundle[d.together[part], 0]
    turns = 2 if d.turn[part] and wide != high else 1
    spot, spot_turned, spot_cut, least = -1, 0, 0, 1e300
    for i in range(s.tally[N_FREE]):
        leaf = s.node[i, LISTED]
        lw, lh = s.node[leaf, WIDE], s.node[leaf, HIGH]
        for turned in range(turns):
            w, h = (high, wide) if turned else (wide, high)
            if w > lw or h > lh:
                continue
            cut, loss = first_cut(d, s, leaf, w, h, deep)
            if cut < 0 or loss >= least or chance(rng) < BLINK:
                continue
            if home >= 0 and root_of(s, leaf) != home:
                continue
            spot, spot_turned, spot_cut, least = leaf, turned, cut, loss
    if spot < 0 and home < 0:
        spot, spot_turned, spot_cut = on_new_sheet(d, s, part, limit, rng)
    if spot < 0:
        return False
    put(d, s, part, spot, spot_turned, spot_cut)
    return True


@compiled
def on_new_sheet(d: Stock, s: Layout, part: int, limit: int, rng: Any) -> tuple[int, int, int]:
    """A new sheet of some kind that is still allowed and large enough: root, turned, first cut; -1: there is none."""
    chosen, most = -1, -1.0
    if s.tally[N_SHEETS] >= len(s.root):
        return -1, 0, 0
    for kind in range(len(d.sheet_wide)):
        if s.used[kind] >= d.sheet_copies[kind] or s.tally[COST] + d.sheet_cost[kind] > limit:
            continue
        fits = d.wide[part] <= d.sheet_wide[kind] and d.high[part] <= d.sheet_high[kind]
        if d.turn[part]:
            fits = fits or (d.high[part] <= d.sheet_wide[kind] and d.wide[part] <= d.sheet_high[kind])
        if fits:
            r = chance(rng)
            if r > most:
                chosen, most = kind, r
    if chosen < 0:
        return -1, 0, 0
    root = open_sheet(d, s, chosen)
    cut0, loss0 = first_cut(d, s, root, d.wide[part], d.high[part], d.deep[part])
    cut1, loss1 = -1, 0.0
    if d.turn[part]:
        cut1, loss1 = first_cut(d, s, root, d.high[part], d.wide[part], d.deep[part])
    if cut0 < 0 and cut1 < 0:
        unlist(s, root)
        close_sheet(d, s, root)
        return -1, 0, 0
    if cut1 >= 0 and (cut0 < 0 or loss1 < loss0 or (loss1 == loss0 and chance(rng) < 0.5)):
        return root, 1, cut1
    return root, 0, cut0


@compiled
def recreate(d: Stock, s: Layout, limit: int, rng: Any, key: Floats) -> None:
    """Put the parts that are left over back, hardest first by one of several rules."""
    m = s.tally[N_OUT]
    rule = int(chance(rng) * 4.0)
    noise = 0.3 * chance(rng)
    for i in range(m):
        p = s.out[i]
        if rule == 0:
            k = d.area[p]
        elif rule == 1:
            k = float(max(d.wide[p], d.high[p]))
        elif rule == 2:
            k = float(d.wide[p] + d.high[p])
        else:
            k = float(min(d.wide[p], d.high[p]))
        key[i] = k * (1.0 + noise * chance(rng))
    for i in range(1, m):  # few enough to sort by hand
        k, p, j = key[i], s.out[i], i
        while j > 0 and key[j - 1] < k:
            key[j], s.out[j] = key[j - 1], s.out[j - 1]
            j -= 1
        key[j], s.out[j] = k, p
    left = 0
    for i in range(m):
        p = s.out[i]
        if not insert(d, s, p, limit, rng):
            s.out[left] = p
            left += 1
    s.tally[N_OUT] = left


@compiled
def ruin(d: Stock, s: Layout, rng: Any, mean: float, stack: Any) -> None:
    """Take some parts out of one or two sheets: single ones and whole branches; now and then all of a sheet."""
    n = len(s.where)
    if s.tally[N_OUT] == n:
        return
    wanted = 1 + int(-mean * np.log(1.0 - chance(rng)))
    whole = chance(rng) < 0.02
    share = wanted if chance(rng) < 0.5 else max(1, wanted // 2)
    taken, tries = 0, 0
    while taken < wanted and tries < 20:
        tries += 1
        part = int(chance(rng) * n)
        if s.where[part] >= 0:
            root = root_of(s, s.where[part])
            taken += thin_out(d, s, root, root if whole else s.where[part], share, rng, stack)


@compiled
def thin_out(d: Stock, s: Layout, root: int, k: int, share: int, rng: Any, stack: Any) -> int:
    """Take about so many parts out of a sheet, beginning at this node; how many it were."""
    taken = 0
    while True:
        while s.node[k, PARENT] >= 0 and chance(rng) < 0.3:
            k = s.node[k, PARENT]
        m = parts_below(s, k, stack)
        last = s.fill[s.node[root, SLOT]]
        for i in range(m):
            last -= d.area[stack[i]]
        for i in range(m):
            take_out(d, s, stack[i])
        taken += m
        if taken >= share or last < 1e-9:
            return taken
        m = parts_below(s, root, stack)
        k = s.where[stack[int(chance(rng) * m)]]


@compiled
def parts_below(s: Layout, top: int, found: Any) -> int:
    """The parts of a branch, into `found`; how many."""
    m = 0
    k = top
    while True:
        if s.node[k, PART] >= 0:
            found[m] = s.node[k, PART]
            m += 1
        if s.node[k, FIRST] >= 0:
            k = s.node[k, FIRST]
            continue
        while k != top and s.node[k, NEXT] < 0:
            k = s.node[k, PARENT]
        if k == top:
            return m
        k = s.node[k, NEXT]


@compiled
def aim(s: Layout, setting: Floats) -> float:
    """What is to become small: area left over, free pieces in number; where these are equal, many small free ones."""
    return float(setting[1] * s.total[0] - setting[2] * s.total[1] + setting[3] * s.tally[N_FREE])


@compiled
def shrink(d: Stock, s: Layout, limit: int, rng: Any, stack: Any) -> None:
    """Take sheets away, rather empty ones, until the rest costs no more than `limit`."""
    while s.tally[COST] > limit:
        chosen, least = -1, 1e300
        for slot in range(len(s.root)):
            if s.root[slot, 0] >= 0:
                fill = s.fill[slot] * (0.5 + chance(rng))
                if fill < least:
                    chosen, least = s.root[slot, 0], fill
        m = parts_below(s, chosen, stack)
        for i in range(m):
            take_out(d, s, stack[i])


class Pool(NamedTuple):
    """Sheets seen on the way, each once by kind and parts. `tree`: depth, cut, part, wide, high of each node."""

    table: NDArray[np.uint64]  # marks of those that are there, by open addressing
    start: Ints
    kind: Ints
    tree: NDArray[np.int32]
    size: Ints  # sheets, rows of tree


@compiled
def gather(d: Stock, s: Layout, pool: Pool, least: float) -> None:
    """Keep the sheets of a layout that are filled by this share at least and have not been seen."""
    mask = np.uint64(len(pool.table) - 1)
    for slot in range(len(s.root)):
        if s.root[slot, 0] < 0 or s.fill[slot] < least * d.sheet_area[s.root[slot, 1]]:
            continue
        mark = s.mark[slot] + np.uint64(s.root[slot, 1] + 1) * np.uint64(0x9E3779B97F4A7C15)
        place = mark & mask
        while pool.table[place] != np.uint64(0) and pool.table[place] != mark:
            place = (place + np.uint64(1)) & mask
        if pool.table[place] != mark and keep_sheet(s, pool, slot):
            pool.table[place] = mark


@compiled
def keep_sheet(s: Layout, pool: Pool, slot: int) -> bool:
    """Write a sheet into the pool. False: the pool is full."""
    c, row = pool.size[0], pool.size[1]
    if c >= len(pool.kind):
        return False
    root = s.root[slot, 0]
    k = root
    while True:
        if row >= len(pool.tree):
            return False
        n = s.node[k]
        pool.tree[row, 0], pool.tree[row, 1], pool.tree[row, 2] = n[DEPTH], n[CUT], n[PART]
        pool.tree[row, 3], pool.tree[row, 4] = n[WIDE], n[HIGH]
        row += 1
        if n[FIRST] >= 0:
            k = n[FIRST]
            continue
        while k != root and s.node[k, NEXT] < 0:
            k = s.node[k, PARENT]
        if k == root:
            break
        k = s.node[k, NEXT]
    pool.kind[c], pool.size[0], pool.size[1], pool.start[c + 1] = s.root[slot, 1], c + 1, row, row
    return True


@compiled
def write_all(s: Layout, pool: Pool) -> None:
    """Every sheet of a layout into an empty pool, equal ones too."""
    pool.size[0], pool.size[1] = 0, 0
    for slot in range(len(s.root)):
        if s.root[slot, 0] >= 0:
            keep_sheet(s, pool, slot)


@compiled
def read_all(d: Stock, s: Layout, pool: Pool) -> None:
    """Every sheet of a pool into an empty layout: the reverse of write_all."""
    for c in range(pool.size[0]):
        above = open_sheet(d, s, pool.kind[c])
        unlist(s, above)
        for row in range(pool.start[c], pool.start[c + 1]):
            depth = pool.tree[row, 0]
            if depth == 0:
                k = above
            else:
                while s.node[above, DEPTH] >= depth:
                    above = s.node[above, PARENT]
                k = new_node(s, pool.tree[row, 3], pool.tree[row, 4], depth)
                hang(s, above, k)
            s.node[k, CUT], s.node[k, PART] = pool.tree[row, 1], pool.tree[row, 2]
            above = k
            if s.node[k, PART] == FREE:
                set_free(d, s, k)
            elif s.node[k, PART] >= 0:
                lay_down(d, s, s.node[k, PART], k)
    left = 0
    for part in range(len(s.where)):
        if s.where[part] < 0:
            s.out[left] = part
            left += 1
    s.tally[N_OUT] = left


@compiled
def search(
    d: Stock, now: Layout, work: Layout, best: Layout, pool: Pool, ring: Floats, rng: Any, clock: Ints, setting: Floats,
    key: Floats, stack: Any,
) -> bool:  # fmt: skip
    """Steps until all parts lie on sheets within the cost (True: it is in `best`) or clock[1] steps are done.

    clock: steps done, steps to do, limit of the cost, whether to go on and better `best` by the second aim.
    setting: mean number taken out; weights of the aim; least fill of a sheet that goes into the pool, 0: none.
    """
    polishing = clock[3] > 0
    at, goal = aim(now, setting), aim(best, setting)
    while clock[0] < clock[1]:
        clock[0] += 1
        copy_layout(work, now)
        ruin(d, work, rng, setting[0], stack)
        recreate(d, work, clock[2], rng, key)
        new = aim(work, setting)
        if setting[4] > 0.0:
            gather(d, work, pool, setting[4])
        if work.tally[N_OUT] == 0 and (not polishing or new < goal - 1e-9):
            copy_layout(best, work)
            goal = new
            if not polishing:
                return True
        place = clock[0] % len(ring)
        if new <= at or new <= ring[place]:
            copy_layout(now, work)
            at = new
        if at < ring[place]:
            ring[place] = at
    return False
