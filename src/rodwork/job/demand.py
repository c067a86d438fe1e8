"""What cabinets must stand up to: walls, tested and declared figures, contents, hanging."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, get_args

from rodwork.job.faults import one_of, shown
from rodwork.job.lines import Path
from rodwork.model.bracket import BracketSheet
from rodwork.model.demand import Contents, Declared, Hanging, SagLimits, Tested, Wall, WallKind

if TYPE_CHECKING:
    from rodwork.job.tables import Given, Reading

N_PER_KN = 1000.0
NMM_PER_NM = 1000.0
WALL_KINDS: tuple[WallKind, ...] = get_args(WallKind)
WAYS_TO_SAY_CONTENTS = ("of", "kg_per_m2", "kg_per_m", "kg")
FORCES = ("pull_kn", "shear_kn", "moment_nm", "turning_nm_per_rad")
DECLARED = ("stiffness", "strength", "creep")


def read_walls(tables: Mapping[str, Any], reading: "Reading") -> dict[str, Wall | None]:
    """The walls of the job by name; None for one that is written but wrong."""
    from rodwork.job.tables import read_table
    from rodwork.job.words import WallWords

    found: dict[str, Wall | None] = {}
    for name, raw in tables.items():
        before = len(reading.faults)
        said = read_table(WallWords, raw, ("walls", name), f"the wall {shown(name)}", reading)
        fixing = _tested(said, f"the wall {shown(name)}", reading)
        sound = len(reading.faults) == before
        found[name] = (
            Wall(kind=said.get("kind"), gap_mm=said.get("gap"), studs_mm=said.get("studs"), fixing=fixing)
            if sound else None
        )  # fmt: skip
    return found


def read_tested(tables: Mapping[str, Any], reading: "Reading") -> dict[str, Tested | None]:
    """Tested figures of fittings by the name of the fitting; None for one that is written but wrong."""
    from rodwork.job.tables import read_table
    from rodwork.job.words import TestedWords

    found: dict[str, Tested | None] = {}
    for name, raw in tables.items():
        before = len(reading.faults)
        called = f"the tested fitting {shown(name)}"
        said = read_table(TestedWords, raw, ("tested", name), called, reading)
        if not any(said.says(word) for word in FORCES):
            reading.fault(said.path, f"{called} has no figure", f"Write one or more of {', '.join(FORCES)}")
        tested = _tested(said, called, reading) if len(reading.faults) == before else None
        found[name] = tested if len(reading.faults) == before else None
    return found


def _tested(said: "Given", called: str, reading: "Reading") -> Tested | None:
    """The figures of a table, with whose they are: without a source they are no figures."""
    if not any(said.says(word) for word in FORCES):
        return None
    if not said.says("source"):
        reading.fault(
            said.path, f"{called} has figures, and no source",
            'Write source = "whose figures they are": the fixing maker\'s sheet, or your own test and its day',
        )  # fmt: skip
        return None
    pull, shear, moment, turning = (said.get(word) for word in FORCES)
    return Tested(
        pull_N=None if pull is None else pull * N_PER_KN, shear_N=None if shear is None else shear * N_PER_KN,
        moment_Nmm=None if moment is None else moment * NMM_PER_NM,
        turning_Nmm_per_rad=None if turning is None else turning * NMM_PER_NM,
        basis=said.get("basis", "working load"), source=said.get("source", ""),
    )  # fmt: skip


def read_declared(said: "Given", called: str, reading: "Reading") -> Declared | None:
    """What a board's maker declares of it, with the sheet it stands on."""
    if not any(said.says(word) for word in DECLARED):
        return None
    if not said.says("declared_by"):
        reading.fault(
            said.path, f"{called} has declared figures, and not whose they are",
            'Write declared_by = "the board maker\'s sheet and its year"',
        )  # fmt: skip
    stiffness, strength, creep = (said.get(word) for word in DECLARED)
    return Declared(
        stiffness_N_per_mm2=stiffness, strength_N_per_mm2=strength, kdef=creep, source=said.get("declared_by", "")
    )


def one_way_contents(own: Any, every: Any) -> Mapping[str, Any] | None:
    """Contents of a cabinet over those of every cabinet: a weight said in one way puts another way aside."""
    if not isinstance(own, dict):
        return every if isinstance(every, dict) else None
    if not isinstance(every, dict):
        return own
    ways = any(way in own for way in WAYS_TO_SAY_CONTENTS)
    kept = {word: value for word, value in every.items() if not (ways and word in WAYS_TO_SAY_CONTENTS)}
    return {**kept, **own}


def contents_of(table: Mapping[str, Any], path: Path, reading: "Reading") -> Contents:
    """Contents as a value; a fault where their weight is said in no way, or in several."""
    ways = [way for way in WAYS_TO_SAY_CONTENTS if way in table]
    if not ways and "heaviest_kg" not in table:
        reading.fault(
            path, "contents has no kg_per_m2",
            'Write kg_per_m2 = 60, or kg_per_m, or kg for all of one cabinet, or of = "books"',
        )  # fmt: skip
    if len(ways) > 1:
        reading.fault(path, f"contents says {' and '.join(ways)}, the same thing in two ways", "Keep one of them")
    return Contents(**table)


def sag_of(table: Mapping[str, Any] | None) -> SagLimits:
    """How far shelves may sag."""
    names = {"straight": "straight_1_in", "sound": "sound_1_in", "most": "most_mm"}
    return SagLimits(**{names[word]: value for word, value in (table or {}).items()})


def hanging_of(table: Mapping[str, Any], path: Path, walls: Mapping[str, Wall | None], reading: "Reading") -> Hanging:
    """How a cabinet hangs. `wall` names a [walls.NAME], or a kind of wall that nothing more is known of."""
    wall = table.get("wall")
    if wall is not None and wall not in walls and wall not in WALL_KINDS:
        reading.fault(
            (*path, "wall"), f"there is no [walls.{shown(wall)[1:-1]}] in this file, nor a kind of wall of that name",
            one_of((*walls, *WALL_KINDS), wall, f"Write a table [walls.{shown(wall)[1:-1]}]"),
        )  # fmt: skip
    batten = table.get("batten")
    if batten is not None and table.get("style", "split batten") != "split batten":
        reading.fault(
            (*path, "batten"), f"a batten is drawn, and the style is {table['style']}", 'Write style = "split batten"'
        )
    bracket = table.get("bracket")
    if bracket is not None and table.get("style", "brackets") != "brackets":
        reading.fault(
            (*path, "bracket"), f"brackets are drawn, and the style is {table['style']}", 'Write style = "brackets"'
        )
    if bracket is not None and "from_top" in table:
        reading.fault(
            (*path, "from_top"), "from_top is there, and the line of the wall rail follows from the brackets",
            "Leave from_top out; their sheet says hook",
        )  # fmt: skip
    return Hanging(
        bracket=None if bracket is None else _bracket_of(bracket),
        batten_mm=batten,
        batten_board=table.get("batten_board") if batten is not None else None,
        style=table.get("style", "screws"),
        wall=wall,
        fixings=table.get("fixings"),
        from_top_mm=table.get("from_top"),
    )


def _bracket_of(said: Mapping[str, Any]) -> BracketSheet:
    """A bracket by the figures that are written, over the starting values. Those are common practice, no source."""
    usual = BracketSheet()
    plain = ("high", "wide", "deep", "below", "hook", "void", "bore", "depth", "rail_short")
    bores = tuple((bore["down"], bore["forward"]) for bore in said.get("bores", ())) or usual.bores
    notch = (said.get("notch", usual.notch_mm[0]), said.get("notch_wide", usual.notch_mm[1]))
    sizes = {f"{word}_mm": said[word] for word in plain if word in said}
    return BracketSheet(bores=bores, notch_mm=notch, **sizes)
