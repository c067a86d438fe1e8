"""What is wanted of layouts that cost the same, in order: an offcut worth keeping, few settings, few and short cuts."""

from collections.abc import Iterator

from rodwork.sheets.problem import LOOSE, UPRIGHT, Problem, Tree

ONE_LARGE = 1.2  # power of an offcut's area: one large piece is worth more than two halves (Gardeyn and Wauters 2022)


def aims(problem: Problem, sheets: tuple[tuple[int, Tree], ...]) -> tuple[float, int, int, int]:
    """(value of the offcuts, negative; fence settings; cuts; length of all cuts in tenths of a mm): the least is best.

    Sheets that are cut alike are stacked or cut at the same settings, and count once among the settings.
    """
    k = problem.rules.kerf
    trees = [tree for _, tree in sheets]
    kept = sum(_value(leaf, k, problem.rules.offcut) for tree in trees for leaf in _leaves(tree))
    settings = {(depth, size) for tree in trees for depth, size in _settings(tree, 0)}
    cuts = [cut for tree in trees for cut in _cuts(tree)]
    return (-round(kept, 3), len(settings), len(cuts), sum(cuts))


def _leaves(tree: Tree) -> Iterator[Tree]:
    if not tree.children:
        yield tree
    for child in tree.children:
        yield from _leaves(child)


def _value(leaf: Tree, kerf: int, least: tuple[int, int]) -> float:
    short, long = sorted((leaf.wide - kerf, leaf.high - kerf))
    worth = leaf.piece is None and short >= least[0] and long >= least[1]
    return (short * long / 1e6) ** ONE_LARGE if worth else 0.0


def _settings(tree: Tree, depth: int) -> Iterator[tuple[int, int]]:
    """The sizes that a fence is set to, level by level; what stays in hand at the end is not set."""
    if tree.cut == LOOSE:
        return
    for child in tree.children:
        if child.piece is not None or child.children:
            yield depth, child.wide if tree.cut == UPRIGHT else child.high
        yield from _settings(child, depth + 1)


def _cuts(tree: Tree) -> Iterator[int]:
    """The length of every cut, tenths of a mm."""
    if tree.children and tree.cut != LOOSE:
        yield from [tree.high if tree.cut == UPRIGHT else tree.wide] * (len(tree.children) - 1)
    for child in tree.children:
        yield from _cuts(child)
