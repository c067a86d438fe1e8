"""Lists that are drawn without a saw cut: what they would take if the blade took nothing, and what would mend it."""

from dataclasses import dataclass, replace

from rodwork.sheets.lay_out import lay_out
from rodwork.sheets.problem import Effort, Laid, Problem

STEPS = 2_000
MOST_PIECES = 60
MOST_CUTS = 6  # by how many saw cuts a sheet is made larger at most


@dataclass(frozen=True, slots=True, kw_only=True)
class Spared:
    """So many sheets would do without saw cuts; and with them, if each were larger by this much (tenths of a mm)."""

    sheets: int
    longer: int
    wider: int


def but_for_the_saw(problem: Problem, laid: Laid) -> Spared | None:
    """Whether it is the saw cuts that cost a sheet; None where it is not, or the list is too long to try."""
    kerf = problem.rules.kerf
    if kerf == 0 or len(problem.kinds) > 1 or len(problem.pieces) > MOST_PIECES:
        return None
    kind = problem.kinds[0]
    area = sum(p.wide * p.high for p in problem.pieces)
    if area > (len(laid.sheets) - 1) * kind.wide * kind.high:
        return None
    count = _sheets(replace(problem, rules=replace(problem.rules, kerf=0)))
    if count >= len(laid.sheets):
        return None
    for cuts in range(1, MOST_CUTS + 1):
        more = cuts * kerf
        for longer, wider in ((0, more), (more, 0), (more, more)):
            larger = replace(kind, wide=kind.wide + longer, high=kind.high + wider)
            if _sheets(replace(problem, kinds=(larger,))) <= count:
                return Spared(sheets=count, longer=longer, wider=wider)
    return Spared(sheets=count, longer=0, wider=0)


def _sheets(problem: Problem) -> int:
    return len(lay_out(problem, Effort(steps=STEPS, polish=0)).sheets)
