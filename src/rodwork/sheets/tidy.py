"""A layout made ready for the bench: large pieces first, waste last, matched boards parted."""

from dataclasses import replace

from rodwork.sheets.problem import LEVEL, LOOSE, UPRIGHT, Piece, Tree


def tidy(tree: Tree, pieces: tuple[Piece, ...]) -> Tree:
    """Children by size, the largest first and what is free last, so that equal settings come together.

    The order of the children of a rectangle is ours to choose: every one stays within it.
    """
    if not tree.children or tree.cut == LOOSE:
        return tree
    children = [tidy(child, pieces) for child in tree.children]
    children.sort(key=lambda child: _rank(child, tree.cut, pieces))
    return replace(tree, children=tuple(children))


def _rank(tree: Tree, cut: int, pieces: tuple[Piece, ...]) -> tuple[bool, int, int, str]:
    free = tree.piece is None and not tree.children
    size = tree.wide if cut == UPRIGHT else tree.high
    return (free, -size, -len(tree.children), _name(tree, pieces))


def _name(tree: Tree, pieces: tuple[Piece, ...]) -> str:
    """The mark of the first part in a rectangle."""
    while tree.children:
        tree = tree.children[0]
    return "" if tree.piece is None else pieces[tree.piece].name


def parted(tree: Tree, pieces: tuple[Piece, ...], kerf: int) -> tuple[Tree, tuple[Piece, ...]]:
    """The tree with every matched set parted into its boards, and the pieces with those boards added."""
    known = list(pieces)

    def part(t: Tree) -> Tree:
        if t.children:
            return replace(t, children=tuple(part(child) for child in t.children))
        if t.piece is None or not pieces[t.piece].inner:
            return t
        whole = pieces[t.piece]
        run = whole.run if not t.turned else (LEVEL if whole.run == UPRIGHT else UPRIGHT)
        children = []
        for inner in whole.inner:
            size = (inner.wide if whole.run == UPRIGHT else inner.high) + kerf
            known.append(inner)
            children.append(
                Tree(
                    wide=size if run == UPRIGHT else t.wide, high=t.high if run == UPRIGHT else size,
                    piece=len(known) - 1, turned=t.turned,
                )
            )  # fmt: skip
        return replace(t, cut=run, children=tuple(children), piece=None)

    made = part(tree)
    return made, tuple(known)


def shape(tree: Tree) -> tuple[object, ...]:
    """Equal for sheets that are cut alike, whatever parts lie on them."""
    place = (tree.x, tree.y)
    return (tree.wide, tree.high, place, tree.cut, tree.piece is None, tuple(shape(child) for child in tree.children))
