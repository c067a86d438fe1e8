"""Which sides' outsides nobody will see, for every copy of a cabinet stands in a run with something against it."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from rodwork.model.job import Cabinet
from rodwork.model.meeting import Carcass
from rodwork.model.panel import Panel
from rodwork.model.run import CabinetRun, Standing

_TOUCHING_MM = 1e-6
SIDES = ("left side", "right side")


def hidden_sides(runs: Iterable[CabinetRun], cabinets: Mapping[str, Cabinet]) -> dict[str, frozenset[str]]:
    """By cabinet: those of its sides whose outside is covered on every copy of it."""
    seen: dict[str, list[frozenset[str]]] = {name: [] for name in cabinets}
    for run in runs:
        for i, standing in enumerate(run.standings):
            if standing.stands_as == "cabinet":
                covered = zip(SIDES, (_covered(run, i, -1, cabinets), _covered(run, i, 1, cabinets)), strict=True)
                seen[standing.name].append(frozenset(side for side, is_so in covered if is_so))
    return {
        name: frozenset.intersection(*copies)
        for name, copies in seen.items()
        if copies and len(copies) == cabinets[name].count
    }


def covered_up(carcass: Carcass, sides: frozenset[str]) -> Carcass:
    """The carcass with the outsides of these sides out of sight."""
    return replace(carcass, panels=tuple(_unseen(p) if p.id in sides else p for p in carcass.panels))


def _unseen(panel: Panel) -> Panel:
    return replace(panel, shows=tuple(s for s in panel.shows if s != "back_side"))


def _covered(run: CabinetRun, i: int, way: int, cabinets: Mapping[str, Cabinet]) -> bool:
    """Whether what stands on that hand hides the side: a neighbour as large, a panel, an infill, the wall itself."""
    mine, k = run.standings[i], i + way
    if not 0 <= k < len(run.standings):
        return _at_wall(run, mine, way)
    beside = run.standings[k]
    if beside.stands_as == "cabinet":
        deeper = cabinets[beside.name].depth_mm >= cabinets[mine.name].depth_mm - _TOUCHING_MM
        return deeper and beside.z0 <= mine.z0 + _TOUCHING_MM and beside.z1 >= mine.z1 - _TOUCHING_MM
    if beside.stands_as == "infill":
        return 0 <= k + way < len(run.standings) or _at_wall(run, beside, way)
    return beside.stands_as == "end panel"


def _at_wall(run: CabinetRun, standing: Standing, way: int) -> bool:
    if way < 0:
        return run.walls in ("both", "left") and standing.x0 <= _TOUCHING_MM
    return run.walls in ("both", "right") and standing.x1 >= run.length - _TOUCHING_MM
