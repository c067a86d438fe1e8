"""The checks, found in the folder kinds/: a new check is one file there, its test and its page, and nothing else."""

from collections.abc import Mapping
from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType

from rodwork.checks import kinds
from rodwork.checks.check import Check
from rodwork.model.finding import PRINTED, Finding
from rodwork.model.rod import Rod

_WORST_FIRST = {severity: n for n, severity in enumerate(PRINTED)}


@cache
def checks() -> Mapping[str, Check]:
    """Every check by its code."""
    found = [import_module(f"{kinds.__name__}.{m.name}").CHECK for m in iter_modules(kinds.__path__)]
    return MappingProxyType({check.code: check for check in found})


def run_checks(rod: Rod) -> tuple[Finding, ...]:
    """All that there is to put right in a job: the worst first, then cabinet by cabinet, board by board."""
    order = {c.name: n for n, c in enumerate(rod.cabinets)}
    place = {(c.name, p.id): n for c in rod.cabinets for n, p in enumerate(c.parts)}

    def where(f: Finding) -> tuple[int, int, int, str]:
        first = place.get((f.cabinet, f.where[0]), len(place)) if f.where else len(place)
        return _WORST_FIRST[f.severity], order.get(f.cabinet, len(order)), first, f.code

    return tuple(sorted((f for check in checks().values() for f in check.look(rod)), key=where))
