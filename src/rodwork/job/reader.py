"""What does the maker want: the text of a job file -> a Job, with every default settled, or all its faults at once.

text -> tables and lines (toml_text.py) -> each table by its words (tables.py, words.py) -> names looked up, defaults
settled (here, recipes.py, cabinets.py) -> Job. Nothing after this knows of files, inches or what was left out.
"""

from collections.abc import Mapping
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from rodwork.catalogue.boards import materials
from rodwork.job.appliances import read_appliances
from rodwork.job.demand import read_declared, read_tested, read_walls
from rodwork.job.faults import Fault, JobFaults, fault_at, near, shown
from rodwork.job.lines import Lines
from rodwork.job.own_files import NO_OWN_FILES, OwnFiles
from rodwork.job.sawing import read_sawing
from rodwork.job.surveys import read_surveys
from rodwork.job.toml_text import read_toml
from rodwork.model.demand import Declared
from rodwork.model.job import Board, Job
from rodwork.model.measured import MeasuredBoard
from rodwork.model.money import smallest_coin
from rodwork.model.shop import Shop

if TYPE_CHECKING:  # pydantic comes with these: imported when a job is read, not before
    from rodwork.job.tables import Given, Reading

__all__ = [
    "Fault",
    "JobFaults",
    "Lines",
    "OwnFiles",
    "fault_at",
    "read_job",
]  # all that the pipeline takes from this station

MOST_OFF_MM = 3.0  # how far a measured thickness may be from the thickness as sold
NOT_MM = ("name", "positions", "ripped_together", "accuracy")  # words of [shop] that are no length
LIKE_A_KNOWN_MATERIAL = 0.85


def read_job(
    text: str | bytes, file: str, families: Mapping[str, type], own: OwnFiles = NO_OWN_FILES
) -> tuple[Job, Lines]:
    """The job that a file describes, and the line of each place in it.

    `families` are the joint families by name, each with the frozen dataclass of its settings; `own` fetches the files
    of the maker's own families. Raises JobFaults.
    """
    tables, lines = read_toml(text, file)
    from rodwork.job.tables import Reading

    reading = Reading(file=file, lines=lines)
    job = _job(tables, families, own, reading)
    if job is None or reading.faults:
        raise JobFaults(reading.faults)
    return job, lines


def _job(tables: Mapping[str, Any], families: Mapping[str, type], own: OwnFiles, reading: "Reading") -> Job | None:
    from rodwork.job.cabinets import Shared, read_cabinets
    from rodwork.job.drilled_sides import read_drilled_sides
    from rodwork.job.edgings import read_edgings
    from rodwork.job.figures import read_figures
    from rodwork.job.own_families import read_families
    from rodwork.job.recipes import read_fittings, read_recipes
    from rodwork.job.runs import read_runs
    from rodwork.job.tables import read_named, read_table
    from rodwork.job.words import (
        ApplianceWords,
        BoardWords,
        DrilledSidesWords,
        EdgingWords,
        FittingWords,
        JobWords,
        RecipeWords,
        ServiceWords,
        ShopWords,
        SurveyWords,
        TestedWords,
        WallWords,
    )

    misspelt = _misspelt_sections(tables, reading)
    said = read_table(JobWords, tables.get("job", {}), ("job",), "[job]", reading, whole="job" not in misspelt)
    reading.unit = said.get("units", "mm")
    currency = said.get("currency", "GBP")
    own_families = read_families(said.get("families", ()), own.beside, families, reading)
    families = {**families, **{name: own.settings_of(family) for name, family in own_families.items()}}
    shop = read_table(ShopWords, tables.get("shop", {}), ("shop",), "[shop]", reading)
    boards = _boards(read_named("boards", tables.get("boards", {}), BoardWords, "board", reading), currency, reading)
    edgings = read_edgings(
        read_named("edgings", tables.get("edgings", {}), EdgingWords, "edging", reading),
        _with_misspelt(boards, misspelt.get("boards")), lambda amount: _money(amount, currency), reading,
    )  # fmt: skip
    fittings = read_fittings(
        read_named("fittings", tables.get("fittings", {}), FittingWords, "fitting", reading), families, reading
    )
    recipes = read_recipes(
        read_named("joints", tables.get("joints", {}), RecipeWords, "recipe", reading), families,
        _with_misspelt(fittings, misspelt.get("fittings")), reading,
    )  # fmt: skip
    walls = read_walls(read_named("walls", tables.get("walls", {}), WallWords, "wall", reading), reading)
    tested = read_tested(read_named("tested", tables.get("tested", {}), TestedWords, "fitting", reading), reading)
    surveys = read_surveys(
        read_named("surveys", tables.get("surveys", {}), SurveyWords, "survey", reading),
        read_named("services", tables.get("services", {}), ServiceWords, "service", reading), reading,
        _names(misspelt.get("surveys")),
    )  # fmt: skip
    figures = read_figures(tables, own_families.values(), reading)
    if not tables.get("cabinets") and "cabinets" not in misspelt:
        reading.fault(("cabinets",), "there is no cabinet in it", "Write a table such as [cabinets.glaze]")
    appliances = read_appliances(
        read_named("appliances", tables.get("appliances", {}), ApplianceWords, "appliance", reading), reading
    )
    drilled = read_named("drilled_sides", tables.get("drilled_sides", {}), DrilledSidesWords, "stock of sides", reading)
    shared = Shared(
        boards=_with_misspelt(boards, misspelt.get("boards")), edgings=_with_misspelt(edgings, misspelt.get("edgings")),
        recipes=_with_misspelt(recipes, misspelt.get("joints")), families=families,
        walls=_with_misspelt(walls, misspelt.get("walls")),
        surveys=_with_misspelt(surveys, misspelt.get("surveys")),
        appliances=_with_misspelt(appliances, misspelt.get("appliances")),
        cabinets=_with_misspelt(dict.fromkeys(_names(tables.get("cabinets"))), misspelt.get("cabinets")),
        drilled_sides=_with_misspelt(
            read_drilled_sides(drilled, boards, reading), misspelt.get("drilled_sides")
        ),
        in_runs=_recipes_of_runs(tables.get("runs")),
    )  # fmt: skip
    every = None if "every_cabinet" in misspelt else tables.get("every_cabinet", {})
    cabinets = read_cabinets(every, tables.get("cabinets", {}), shared, reading)
    runs = read_runs(tables.get("runs", {}), cabinets, shared, reading)
    sawing = read_sawing(
        tables, shared.boards, tables.get("cabinets", {}), lambda amount: _money(amount, currency), reading
    )
    measured = _measured(tables, reading)
    if reading.faults:
        return None
    return Job(
        name=said.get("name"), letter=said.get("letter", "A"), date=said.get("date"), customer=said.get("customer"),
        address=said.get("address"), notes=said.get("notes"), currency=currency, units=reading.unit,
        paper=said.get("paper", "A4"), shop=_shop(shop),
        boards={name: board for name, board in boards.items() if board},
        edgings={name: edging for name, edging in edgings.items() if edging}, cabinets=cabinets,
        walls={name: wall for name, wall in walls.items() if wall},
        tested={name: found for name, found in tested.items() if found},
        recipes={name: recipe for name, recipe in recipes.items() if recipe}, figures=figures,
        own_families=own_families, sawing=sawing, measured=measured, runs=runs,
        surveys={name: survey for name, survey in surveys.items() if survey},
    )  # fmt: skip


def _measured(tables: Mapping[str, Any], reading: "Reading") -> tuple[MeasuredBoard, ...]:
    """Boards as cut, by their marks; whether there is such a mark is known only when all is set out."""
    from rodwork.job.tables import read_named, read_table
    from rodwork.job.words import MeasuredWords

    out = []
    for mark, raw in read_named("measured", tables.get("measured", {}), MeasuredWords, "board", reading).items():
        said = read_table(MeasuredWords, raw, ("measured", mark), f"the board {shown(mark)}", reading)
        if not said.values and not said.wrong:
            reading.fault(("measured", mark), f"nothing is measured of {shown(mark)}", "Write { length = 720.4 }")
        out.append(MeasuredBoard(mark=mark, **said.values))
    return tuple(out)


def _misspelt_sections(tables: Mapping[str, Any], reading: "Reading") -> dict[str, Any]:
    """The sections that were meant by headings that are none, with what stands in them."""
    from rodwork.job.words import SECTIONS

    misspelt = dict[str, Any]()
    for section in [name for name in tables if name not in SECTIONS]:
        meant = near(section, SECTIONS)
        misspelt[meant or ""] = tables[section]
        reading.fault(
            (section,), f"{shown(section)[1:-1]} is not a part of a job file",
            f"Did you mean {meant}?" if meant else f"Take it out; the parts are: {', '.join(SECTIONS)}",
        )  # fmt: skip
    return misspelt


def _with_misspelt(known: Mapping[str, Any], misspelt: Any) -> dict[str, Any]:
    """What there is of a kind, and as None what stands under its misspelt heading: that has had its fault."""
    return {**(dict.fromkeys(misspelt) if isinstance(misspelt, dict) else {}), **known}


def _names(section: Any) -> tuple[str, ...]:
    return tuple(section) if isinstance(section, dict) else ()


def _recipes_of_runs(section: Any) -> frozenset[str]:
    """The recipes that worktops name: they are not idle, though no cabinet names them."""
    runs = [run for run in section.values() if isinstance(run, dict)] if isinstance(section, dict) else []
    tops = [top for run in runs if isinstance(top := run.get("worktop"), dict)]
    return frozenset(name for top in tops if isinstance(name := top.get("joint"), str))


def _shop(said: "Given") -> Shop:
    mm = {f"{word}_mm": value for word, value in said.values.items() if word not in NOT_MM}
    return Shop(**{"name": None, **{word: said.get(word) for word in NOT_MM if said.says(word)}, **mm})


def _boards(tables: Mapping[str, Any], currency: str, reading: "Reading") -> dict[str, Board | None]:
    from rodwork.job.tables import read_table
    from rodwork.job.words import BoardWords

    found: dict[str, Board | None] = {}
    for name, raw in tables.items():
        before = len(reading.faults)
        said = read_table(BoardWords, raw, ("boards", name), f"the board {shown(name)}", reading)
        _thickness(name, said, reading)
        _material(said, reading)
        declared = read_declared(said, f"the board {shown(name)}", reading)
        found[name] = _board(name, said, currency, declared) if len(reading.faults) == before else None
    return found


def _thickness(name: str, said: "Given", reading: "Reading") -> None:
    """A measured thickness far from the thickness as sold is the wrong board, or a slip of the pen."""
    sold, measured = said.get("thickness"), said.get("actual")
    if sold is not None and measured is not None and abs(measured - sold) > MOST_OFF_MM:
        reading.fault(
            (*said.path, "actual"),
            f"the board {shown(name)} is sold as {sold:g} mm and measured as {measured:g} mm, "
            f"which is {abs(measured - sold):g} mm off",
            f"Measure it again; if it is right, write thickness = {round(measured)}",
        )  # fmt: skip


def _material(said: "Given", reading: "Reading") -> None:
    """A material that the catalogue does not have needs its grain said; one that is nearly in it is a slip."""
    material = said.get("material")
    if material is None or material in materials():
        return
    meant = near(material, materials())
    slip = meant is not None and near(material, [meant], LIKE_A_KNOWN_MATERIAL) is not None
    if not said.says("grain") or (slip and not said.says("density")):
        reading.fault(
            (*said.path, "material"), f"material is {shown(material)}, which is not in the catalogue",
            (f'Did you mean "{meant}"? ' if meant else f"The catalogue has {', '.join(materials())}. ")
            + "For a material of your own, write grain = true or false, and density in kg per m3",
        )  # fmt: skip


def _board(name: str, said: "Given", currency: str, declared: Declared | None) -> Board:
    row = materials().get(said.get("material"))
    return Board(
        name=name, material=said.get("material"), thickness_mm=said.get("thickness"),
        actual_mm=said.get("actual", said.get("thickness")), sheet_mm=said.get("sheet"),
        grain=said.get("grain", row.grain if row else True), price=_money(said.get("price"), currency),
        density_kg_m3=said.get("density", row.density_kg_m3 if row else None),
        grade=said.get("grade"), declared=declared,
    )  # fmt: skip


def _money(amount: Decimal | None, currency: str) -> str | None:
    """A price as text, exactly as written, with at least the pence that the currency has."""
    if amount is None:
        return None
    places = max(-int(amount.as_tuple().exponent), -int(smallest_coin(currency).as_tuple().exponent))
    return f"{amount:.{places}f} {currency}"
