"""How it comes out of the boards: the first answer at once, then the search, until the proven bound or the effort ends.

Read this first of the folder. problem.py is the exact model; first_answer.py and improve.py find layouts; bounds.py is
the proof.
"""

from dataclasses import replace

from rodwork.sheets.first_answer import first_answer
from rodwork.sheets.problem import Effort, Laid, Piece, Problem, Tree, check


def lay_out(problem: Problem, effort: Effort) -> Laid:
    """All pieces on sheets, as cheaply as is found. Raises CannotCut.

    The order in which the pieces are given changes nothing.
    """
    check(problem)
    if not problem.pieces:
        return Laid(sheets=(), cost=0, bound=0)
    order = sorted(range(len(problem.pieces)), key=lambda i: _rank(problem.pieces[i]))
    problem = replace(problem, pieces=tuple(problem.pieces[i] for i in order))
    told = replace(effort, tell=lambda laid: effort.tell(_numbered(laid, order)))
    from rodwork.sheets.bounds import cost_bound  # numpy comes with it: a set-out alone does not need it

    bound = cost_bound(problem)
    first = first_answer(problem, bound)
    if first is not None:
        told.tell(first)
    from rodwork.sheets.improve import improve  # compiles, or loads what was compiled: after the first answer

    return _numbered(improve(problem, first, bound, told), order)


def _rank(piece: Piece) -> tuple[int, int, bool, str, int, str]:
    """One order of the pieces, however they are given."""
    return (-piece.wide, -piece.high, piece.turn, piece.together, len(piece.inner), piece.name)


def _numbered(laid: Laid, order: list[int]) -> Laid:
    return replace(laid, sheets=tuple((kind, _tree(tree, order)) for kind, tree in laid.sheets))


def _tree(tree: Tree, order: list[int]) -> Tree:
    if tree.piece is not None:
        return replace(tree, piece=order[tree.piece])
    return replace(tree, children=tuple(_tree(child, order) for child in tree.children)) if tree.children else tree
