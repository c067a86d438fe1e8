"""Recipes of the job file: which families make a joint, each with the settings that its family knows."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypeGuard

from rodwork.job.faults import near, one_of, shown
from rodwork.job.lines import Path
from rodwork.job.tables import Given, Reading, read_table, unknown_name
from rodwork.job.words import RecipeWords, family_words, setting_words
from rodwork.model.job import Place, Recipe, Use

FAMILY_OF_FRAMES, IN_RAILS_MM = "pocket screw", 9.5  # from both edges of a rail of 38: common practice, no source
SURELY = 0.8  # how alike a word must be to `family`, to be that one misspelt
FAMILY_LEFT_TO_US = "dowel"
FAMILY_ON_A_SLOPE = "biscuit"  # it goes in least deep


@dataclass(frozen=True, slots=True)
class Fitting:
    """A bought fitting: the settings of its family as its supplier's sheet has them, by field."""

    family: str
    settings: Mapping[str, Any]


def read_fittings(
    tables: Mapping[str, Any], families: Mapping[str, type], reading: Reading
) -> dict[str, Fitting | None]:
    """Every fitting by its name; None where one is written but wrong."""
    return {name: _fitting(raw, ("fittings", name), families, reading) for name, raw in tables.items()}


def _fitting(raw: Any, path: Path, families: Mapping[str, type], reading: Reading) -> Fitting | None:
    before = len(reading.faults)
    family = raw.get("family") if isinstance(raw, dict) else None
    if not _is_family(family, raw, path, families, reading):
        return None
    given = read_table(family_words(family, families[family], bought=True), raw, path, f"this {family}", reading)
    if len(reading.faults) > before:
        return None
    fields = setting_words(families[family])
    return Fitting(family=family, settings={fields[w]: v for w, v in given.values.items() if w in fields})


def read_recipes(
    tables: Mapping[str, Any],
    families: Mapping[str, type],
    fittings: Mapping[str, Fitting | None],
    reading: Reading,
) -> dict[str, Recipe | None]:
    """Every recipe by its name; None where one is written but wrong."""
    return {name: _recipe(name, raw, families, fittings, reading) for name, raw in tables.items()}


def recipe_left_to_us(families: Mapping[str, type], cabinet: Path) -> Recipe | None:
    """What a cabinet has where no recipe is named at all: dowels, as their family sets them. None: no such family.

    Its place is the cabinet's, since that is where a recipe could be named.
    """
    settings = families.get(FAMILY_LEFT_TO_US)
    if settings is None:
        return None
    place = Place(path=cabinet)
    return Recipe(name="dowels", uses=(Use(family=FAMILY_LEFT_TO_US, settings=settings(), place=place),), place=place)


def in_rails(families: Mapping[str, type], cabinet: Path) -> Recipe | None:
    """What joins the members of a face frame where no recipe is named: two pocket screws. None: no such family."""
    return _pocket_screws(families, cabinet, first_mm=IN_RAILS_MM, end_mm=IN_RAILS_MM)


def on_carcass(families: Mapping[str, type], cabinet: Path) -> Recipe | None:
    """What holds a face frame on its carcass where no recipe is named: pocket screws. None: no such family."""
    return _pocket_screws(families, cabinet)


def on_a_slope(families: Mapping[str, type], cabinet: Path) -> Recipe | None:
    """What joins a sloping top where no recipe is named: biscuits. None: no such family."""
    family = families.get(FAMILY_ON_A_SLOPE)
    if family is None:
        return None
    place = Place(path=cabinet)
    return Recipe(name="biscuits", uses=(Use(family=FAMILY_ON_A_SLOPE, settings=family(), place=place),), place=place)


def under_a_shelf(families: Mapping[str, type], cabinet: Path) -> Recipe | None:
    """What joins a stiffener to its shelf where no recipe is named: biscuits, glued. None: no such family."""
    return on_a_slope(families, cabinet)


def _pocket_screws(families: Mapping[str, type], cabinet: Path, **settings: float) -> Recipe | None:
    family = families.get(FAMILY_OF_FRAMES)
    if family is None:
        return None
    place = Place(path=cabinet)
    use = Use(family=FAMILY_OF_FRAMES, settings=family(**settings), place=place)
    return Recipe(name="pocket screws", uses=(use,), place=place)


def _recipe(
    name: str, raw: Any, families: Mapping[str, type], fittings: Mapping[str, Fitting | None], reading: Reading
) -> Recipe | None:
    path: Path = ("joints", name)
    before = len(reading.faults)
    given = read_table(RecipeWords, raw, path, f"the recipe {shown(name)}", reading)
    uses = [_use(use, (*path, "use", i), families, fittings, reading) for i, use in enumerate(given.get("use", ()))]
    if len(reading.faults) > before:
        return None
    return Recipe(name=name, uses=tuple(use for use in uses if use), place=Place(path=path))


def _use(
    raw: dict[str, Any],
    path: Path,
    families: Mapping[str, type],
    fittings: Mapping[str, Fitting | None],
    reading: Reading,
) -> Use | None:
    family = raw.get("family")
    if not _is_family(family, raw, path, families, reading):
        return None
    settings = families[family]
    given = read_table(family_words(family, settings), raw, path, f"this {family}", reading)
    bought = _bought(given, family, path, fittings, reading)
    fields = setting_words(settings)
    own = {fields[w]: v for w, v in given.values.items() if w in fields}
    try:
        return Use(family=family, settings=settings(**{**bought, **own}), place=Place(path=path))
    except ValueError as error:  # settings that contradict one another, in their family's own words
        reading.fault(path, str(error), "Change one of the two")
        return None


def _is_family(family: Any, table: Any, path: Path, families: Mapping[str, type], reading: Reading) -> TypeGuard[str]:
    """Whether the table names a family; if not, that is noted."""
    if isinstance(family, str) and family in families:
        return True
    slip = near("family", table, SURELY) if family is None and isinstance(table, dict) else None
    if slip is not None:
        reading.fault((*path, slip), f"{shown(slip)[1:-1]} is not a word that is known here", "Did you mean family?")
        return False
    what = "this entry has no family" if family is None else f"family is {shown(family)}, which is no family of joints"
    mend = one_of(families, family if isinstance(family, str) else "", 'Write family = "dowel"')
    reading.fault((*path, "family"), what, mend)
    return False


def _bought(
    given: Given, family: str, path: Path, fittings: Mapping[str, Fitting | None], reading: Reading
) -> Mapping[str, Any]:
    """The settings of the fitting that is named, if one is; what is wrong with it is noted."""
    name = given.get("fitting")
    if name is None:
        return {}
    if name not in fittings:
        reading.fault((*path, "fitting"), *unknown_name(name, fittings, "fittings"))
        return {}
    fitting = fittings[name]
    if fitting is not None and fitting.family != family:
        reading.fault(
            (*path, "fitting"), f"{shown(name)} is a fitting of the family {fitting.family}, and this is a {family}",
            f'Write family = "{fitting.family}", or name another fitting',
        )  # fmt: skip
        return {}
    return fitting.settings if fitting is not None else {}
