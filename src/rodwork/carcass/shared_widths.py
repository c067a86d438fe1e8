"""What a run settles of its cabinets before they are built: the widths that it leaves for them, doors of one width.

A cabinet is as wide as its doors make it: width = doors x (width of a door) + what lies beside and between them, which
its boards and margins give. Summed along the run that is one equation in the width of a door; see columns.py.
Where all carcasses have widths of their own, the doors are shared evenly over them instead (over_carcasses.py).
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from rodwork.carcass.columns import Columns, columns_of, own_widths
from rodwork.carcass.over_carcasses import spread
from rodwork.carcass.run_wall import wall_of
from rodwork.geometry.rounding import down_to_step
from rodwork.model.job import Board, Cabinet, CannotBuild
from rodwork.model.run_asked import RunAsked, RunEntry
from rodwork.model.survey import Survey

LEAST_CABINET_MM = 100.0  # as the job file has it
LEAST_DOOR_MM = 60.0
DUST_MM = 1e-6  # to which widths are shared out, never up: together they are no longer than the wall
SAME_MM = 0.01  # no rule tells two widths apart that differ by less


def settled(
    asked: RunAsked,
    cabinets: Mapping[str, Cabinet],
    boards: Mapping[str, Board],
    surveys: Mapping[str, Survey],
) -> dict[str, Cabinet]:
    """The cabinets that the run has changed, by name. Raises CannotBuild with the place in the job file."""
    standing = {e.name: cabinets[e.name] for e in asked.of if e.stands_as == "cabinet"}
    open_ = {name: c for name, c in standing.items() if c.by_run}
    if not open_ and asked.doors == "by cabinet":
        return {}
    own = own_widths([c for c in standing.values() if not c.by_run], boards) if asked.doors == "equal" else []
    if not open_ and not own:
        raise CannotBuild(
            (*asked.place.path, "doors"), "all its doors are to be equally wide, and it has none that can be",
            'give its cabinets doors on their carcasses, or write doors = "by cabinet"',
        )  # fmt: skip
    if not open_:
        return spread(asked, standing, boards) if _differ(own) else {}
    wall = wall_of(asked, surveys, list(standing.values())).length
    if asked.doors == "by cabinet":
        return _alike(asked, open_, _left(asked, standing, boards, wall))
    columns = {name: columns_of(c, boards[c.board].actual_mm) for name, c in open_.items()}
    own += [(c, bought) for c in open_.values() for d in c.doors if d.bought and (bought := d.bought.width_mm)]
    if _differ(own):
        (one, a), (other, b) = min(own, key=lambda o: o[1]), max(own, key=lambda o: o[1])
        raise CannotBuild(
            (*asked.place.path, "doors"),
            f"all doors are to be equally wide, and what is given makes them {a:g} on the {one.name} and {b:g} on the "
            f"{other.name}",
            f'write width = "rest" in [cabinets.{other.name}], or a width that makes its doors {a:g} too',
        )  # fmt: skip
    door = own[0][1] if own else _shared_door(asked, columns, _left(asked, standing, boards, wall))
    out = {name: of_doors(c, columns[name], door) for name, c in open_.items()}
    _fits(asked, {**standing, **out}, columns, boards, wall)
    return out


def _differ(own: Sequence[tuple[Cabinet, float]]) -> bool:
    widths = [w for _, w in own]
    return bool(widths) and max(widths) - min(widths) > SAME_MM


def of_doors(cabinet: Cabinet, columns: Columns, door: float) -> Cabinet:
    """The cabinet as wide as doors of this width make it, its bays with it."""
    bays = tuple(round(bay.clear(door), 6) for bay in columns.bays)
    return replace(
        cabinet, width_mm=down_to_step(columns.width(door), DUST_MM), bays=bays if len(bays) > 1 else cabinet.bays
    )


def _left(asked: RunAsked, standing: Mapping[str, Cabinet], boards: Mapping[str, Board], wall: float | None) -> float:
    """What the wall leaves for the cabinets that have no width of their own. Raises CannotBuild."""
    path = (*asked.place.path, "of")
    if wall is None:
        raise CannotBuild(
            path, 'a cabinet with width = "rest" takes what is left, and no length is said',
            "write length = the clear length that the run has, or the width of the cabinet",
        )  # fmt: skip
    if any(e.stands_as == "infill" and e.mm is None for e in asked.of):
        raise CannotBuild(
            path, 'an infill is "rest" and a cabinet\'s width is "rest": either can take what is left, not both',
            "write the size of the infill, such as { infill = 50 }",
        )  # fmt: skip
    return round(wall - sum(_known(e, standing, boards) for e in asked.of), 6)


def _known(entry: RunEntry, standing: Mapping[str, Cabinet], boards: Mapping[str, Board]) -> float:
    """What a thing takes of the length by itself: nought of a cabinet or infill that takes what is left."""
    if entry.stands_as == "cabinet":
        return standing[entry.name].width_mm
    return boards[entry.name].actual_mm if entry.stands_as == "end panel" else entry.mm or 0.0


def _alike(asked: RunAsked, open_: Mapping[str, Cabinet], left: float) -> dict[str, Cabinet]:
    """All that take what is left, of one width."""
    number = sum(1 for e in asked.of if e.name in open_ and e.stands_as == "cabinet")
    if left / number < LEAST_CABINET_MM:
        raise CannotBuild(
            (*asked.place.path, "of"), f"there are {left:g} left for {_cabinets(number)}, {left / number:.1f} each",
            f"take {number * LEAST_CABINET_MM - left:g} off the widths that are given, or leave something out",
        )  # fmt: skip
    return {name: replace(c, width_mm=down_to_step(left / number, DUST_MM)) for name, c in open_.items()}


def _cabinets(number: int) -> str:
    return "one cabinet" if number == 1 else f"{number} cabinets"


def _shared_door(asked: RunAsked, columns: Mapping[str, Columns], left: float) -> float:
    """The width of every door, by what is left for the cabinets. Raises CannotBuild."""
    of = [columns[e.name] for e in asked.of if e.stands_as == "cabinet" and e.name in columns]
    number, beside = sum(c.number for c in of), sum(c.beside for c in of)
    door = (left - beside) / number
    if door < LEAST_DOOR_MM:
        least = round(number * LEAST_DOOR_MM + beside - left, 1)
        raise CannotBuild(
            (*asked.place.path, "doors"),
            f"{left:g} are left for {_cabinets(len(of))}, and their {number} doors would be {door:.1f} wide each",
            f"take {least:g} off the widths that are given, or have fewer doors",
        )  # fmt: skip
    return door


def _fits(
    asked: RunAsked, cabinets: Mapping[str, Cabinet], columns: Mapping[str, Columns], boards: Mapping[str, Board],
    wall: float | None,
) -> None:  # fmt: skip
    """Doors whose width is given elsewhere may make a run that is longer than its wall. Raises CannotBuild."""
    needs = sum(_known(e, cabinets, boards) for e in asked.of)
    if wall is None or needs <= wall + SAME_MM:
        return
    number = sum(columns[e.name].number for e in asked.of if e.stands_as == "cabinet" and e.name in columns)
    raise CannotBuild(
        (*asked.place.path, "doors"),
        f"doors as wide as those that are given make the run {needs:.1f} long, and there are {wall:g}",
        f"make all doors {(needs - wall) / number:.1f} narrower by the widths that are given, or leave something out",
    )  # fmt: skip
